#pragma once
// One letter, one meaning: the slip keys of a set lettered alike on every paper, so that a teacher learns them once.
#include <cstddef>
#include <map>
#include <string>
#include <tuple>
#include <utility>
#include <vector>

#include "generators/set.h"

namespace molewright {

/// Letters that a part has over all papers of a set: beyond that nobody keeps them in mind.
inline constexpr std::size_t most_letters_of_a_set = 10;

/// At each place of the paper, for each part, and among the papers that have the same template there, an entry of a slip key is
/// known by its first slip and by how many-th of that slip it is on its paper: "other molar mass, the second time" is one letter
/// on every paper, whatever the numbers are.
class Letters {
 public:
  /// Gives the entries of all slip keys their letters. A is what most of the first papers hold; among equals the one that stood
  /// higher on its papers (there the order is that of frequency). Papers that come later keep these letters, and what is new gets
  /// those that are left. Entries then stand in the order of their letters, with gaps where a paper lacks one; those without a
  /// letter left are taken out. Choices keep the letters that they print.
  void settle(ProblemSet& set);

 private:
  using Meaning = std::pair<std::string, int>;                      ///< first slip, how many-th of it
  using Where = std::tuple<std::size_t, std::string, std::size_t>;  ///< place on the paper, template, find
  void settle(std::vector<std::vector<SlipKeyEntry>*> const& keys, std::vector<Meaning>& order);
  static std::vector<Meaning> meanings_of(std::vector<SlipKeyEntry> const& key);

  std::map<Where, std::vector<Meaning>> order_;
};

}  // namespace molewright
