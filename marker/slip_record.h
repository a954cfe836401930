#pragma once
// What a student and the class slipped on elsewhere: it makes the same slip likelier here.
#include <algorithm>
#include <functional>
#include <map>
#include <string>
#include <string_view>

namespace molewright {

struct SlipRecord {
  using Counts = std::map<std::string, int, std::less<>>;
  Counts student;     ///< in how many other questions of this student each slip was named
  Counts classmates;  ///< in how many papers of others
  int papers = 0;     ///< of others

  /// What a slip's starting weight is multiplied by: a slip seen once in another question counts three times as much, seen twice
  /// five times; one that the whole class makes three times as much (proposals, to be replaced by counts from real classes).
  double factor(std::string_view slip) const {
    auto const times = [&](Counts const& counts) {
      auto const found = counts.find(slip);
      return found == counts.end() ? 0 : found->second;
    };
    double const own = 2.0 * std::min(times(student), 3);
    return 1.0 + own + (papers > 0 ? 2.0 * std::min(1.0, static_cast<double>(times(classmates)) / papers) : 0.0);
  }
};

}  // namespace molewright
