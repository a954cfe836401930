#pragma once
// Answers that stand in the wrong place: a column too far, or in another student's row.
#include <cstddef>
#include <optional>
#include <string>
#include <vector>

#include "generators/set.h"
#include "marker/written.h"

namespace molewright {

/// Answers to a paper, question by question in the order of the finds.
using Answered = std::vector<std::vector<Written>>;

/// Where things stand in a set: papers by place in the class, questions by code, right answers by their numbers. What is looked
/// up is laid out once, so that a large class takes no longer for each student. REQUIRES: the set outlives it.
class PlacesInSet {
 public:
  explicit PlacesInSet(ProblemSet const& set);
  /// The paper of a student, by their place in the class: their own, or the one of their version; nullptr for none.
  Paper const* paper_of(std::size_t student) const { return papers_[student]; }
  /// Where a question's code stands: "question 2 of \"Ann Reed\""; empty for a code of no question here.
  std::string place_of_code(std::string const& code) const;
  struct Elsewhere {
    Fault fault;
    Paper const* whose = nullptr;  ///< the paper that the answers are to, where it is another student's
  };
  /// What is wrong where none of three numbers or more is right in its place, but two and at least half of them are one column to
  /// the left or right ("shifted-columns"), or three and at least half on another student's own paper ("other-paper").
  std::optional<Elsewhere> misplaced(Paper const& paper, std::string const& student, Answered const& answered) const;
  /// Whether any number is right where it stands.
  static bool anything_right(Paper const& paper, Answered const& answered);

 private:
  struct Number {
    double value;
    std::size_t paper;
  };
  /// The right numbers of one column.
  struct Column {
    std::vector<Number> plain, in_base_units;     ///< smallest first
    double widest = 0, widest_in_base_units = 0;  ///< how far off a number may be and still be right, at most
  };
  std::vector<Column> columns() const;
  std::vector<std::size_t> papers_like(Written const& written, Column const& column) const;

  ProblemSet const& set_;
  std::vector<Paper const*> papers_;  ///< of the class, in its order
  QuestionsByCode of_code_;
  mutable std::optional<std::vector<Column>> columns_;  ///< worked when first needed
};

}  // namespace molewright
