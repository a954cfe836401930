#pragma once
// New questions after marking, on just the slips that were made: for each student, and for the class's next lesson.
#include <optional>
#include <vector>

#include "generators/set.h"
#include "generators/slip_practice.h"
#include "templates/after_marking.h"

namespace molewright {

/// Makes new questions for a set that was marked. The templates are read when the first question is wanted. REQUIRES: set and
/// questions outlive it.
class NewQuestions {
 public:
  NewQuestions(ProblemSet const& set, QuestionsByCode const& questions) : set_(set), questions_(questions) {}

  /// On each slip of a student's work; see questions_on_slips.
  std::vector<OnSlip> on_slips_of(StudentResult const& student);
  /// One on each of these slips, no two of one template: to start the next lesson with.
  std::vector<Question> starter(std::vector<SlipShown> const& slips);

 private:
  SlipPractice& practice();

  ProblemSet const& set_;
  QuestionsByCode const& questions_;
  std::optional<QuestionMaker> maker_;
  std::optional<SlipPractice> practice_;
};

}  // namespace molewright
