#pragma once
// Which slips of a question can be told apart by the number they lead to.
#include <cstddef>
#include <string>
#include <utility>
#include <vector>

#include "marker/slip.h"

namespace molewright {

/// What a few draws of one way of working say about its slips: which give one number whatever is drawn. These are one class, and
/// the slip key shows them as one entry. Either their numbers are equal in every draw (the same slip of thought in two guises),
/// or the printed figures show no difference in any of them: it lies in the substances where the ratio is the same each time (8
/// for an O is half of 16.00 within any figures of a school), and else it takes twenty draws to believe it (what two slips take
/// off is next to nothing). A slip in one class with the right answer does not show.
class Separation {
 public:
  /// Takes in the slips of one draw; `working` is evaluated. Call for several draws, then settle() once.
  void learn(Working const& working, SlipTable const& table);
  void settle();
  /// Whether some pair was alike in every draw so far, and it takes more draws to believe it.
  bool undecided() const;

  /// Pairs of slips that this draw leaves alike though they are no class: "a = b"; "a = right answer" where the slip does not
  /// show. Each pair once. `avoidable` counts them, each time they meet: another draw may part them.
  struct Alike {
    std::vector<std::string> pairs;
    std::size_t avoidable = 0;
  };
  /// `with_names` false leaves `pairs` empty and only counts, for the search.
  Alike alike(Working const& working, SlipTable const& table, bool with_names) const;

  /// Pairs of one class that are not equal, in the same words: what no numbers part. After settle().
  std::vector<std::string> const& by_substance() const { return by_substance_; }

 private:
  /// A slip made at one place; the ordinal tells several at one node apart.
  struct Key {
    Slip const* slip;
    std::string node;
    int ordinal;
    bool operator==(Key const& other) const { return slip == other.slip && ordinal == other.ordinal && node == other.node; }
  };
  struct Pair {
    int together = 0, equal = 0, alike = 0;
    double least_ratio = 0, most_ratio = 0;
    bool one_class() const;  ///< one number whatever is drawn
    bool undecided() const;
  };
  struct Part {  ///< of one find
    std::vector<Key> keys;
    std::vector<std::vector<Pair>> pairs;      ///< triangular; index 0 stands for the right answer
    std::vector<std::vector<char>> one_class;  ///< after settle()
  };
  struct Shown {
    double value;  ///< above zero where its sign is that of the right answer
    int key;       ///< index into keys + 1; 0 the right answer; -1 never met before
    Slip const* slip;
  };
  std::vector<Shown> shown(Part const& part, Working const& working, std::vector<SlipAnswer> const& answers,
                           std::size_t find) const;
  std::vector<Part> parts_;
  std::vector<std::string> by_substance_;
};

}  // namespace molewright
