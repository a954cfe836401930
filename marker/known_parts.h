#pragma once
// Parts that were judged before: what many students write to one question is judged once. For judge.cpp and script.cpp only.
#include <cstddef>
#include <map>
#include <string>
#include <unordered_map>
#include <utility>
#include <vector>

#include "engine/rational.h"
#include "marker/judge.h"

namespace molewright {

/// What an answer hands on to later parts.
struct Carried {
  int answer = -1;     ///< the node that was asked for
  int node = -1;       ///< the node that later parts read: the amount itself where it was asked for in another unit
  Rational factor{1};  ///< of the answer, in the unit of `node`
  Rational value;      ///< of `node`, as its own unit says it
  double half = 0;     ///< half a unit of the last digit: the value behind may lie so far off
  bool right = false;
  bool usable = false;
  /// What is carried, for telling whether two scripts carry the same: `nothing` where not usable, `unknown` where it was not
  /// kept.
  int id = nothing;
  static constexpr int unknown = -1, nothing = 0, told = 1, first_kept = 2;
};

/// A bounded memory of one question's parts.
class KnownParts {
 public:
  struct Part {
    Judgement judgement;
    Carried carried;
  };
  /// All that the judgement of a part rests on in its own box, as one text; empty where that is not kept: lines of working, and a
  /// box that was cut, so that two may look alike.
  static std::string key(std::size_t find, Written const& written);

  Part const* find(std::string const& key) const {
    auto const at = parts_.find(key);
    return at == parts_.end() ? nullptr : &at->second;
  }
  /// Keeps a part while there is room, and gives what it carries an id. Keys are looked up only, so that their order shows
  /// nowhere.
  void keep(std::string key, Judgement const& judgement, Carried& carried);

  /// What a second slip leads to at a part, on top of what is carried to it (a text that says what); nullptr where that was not
  /// kept.
  std::vector<SlipAnswer> const* on_top(std::size_t find, std::string const& carried) const;
  /// Keeps the answers while there is room; gives them back.
  std::vector<SlipAnswer> const& keep_on_top(std::size_t find, std::string const& carried,
                                             std::vector<SlipAnswer> const& answers);

 private:
  std::unordered_map<std::string, Part> parts_;
  std::map<std::pair<std::size_t, std::string>, std::vector<SlipAnswer>> on_top_;
};

}  // namespace molewright
