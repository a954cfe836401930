#pragma once
// A course's standing choices for marking. What a number is worth depends on these and on what was written, never on how likely a
// cause is.
#include <string>

#include "engine/conventions.h"

namespace molewright {

struct MarkingRules {
  enum class Figures { exact, within_one, at_least_two, once_a_paper, not_judged } figures = Figures::within_one;
  enum class Units { required, once_a_paper, not_judged } units = Units::required;
  enum class SlipMarks { none, suggested, given } slip_marks = SlipMarks::suggested;
  enum class States { not_judged, required } states = States::not_judged;  ///< (s), (aq) ... in an equation
  bool follow_through = true;
  double tolerance = 0;  ///< share of the right answer by which a number may be off, short of half way to a slip's
  bool working = true;   ///< of a wrong answer, lines of working that are right or follow earn the marks of their steps
};

/// Everything a course file says.
struct Course {
  Conventions conventions;
  MarkingRules rules;
};

}  // namespace molewright
