#pragma once
// Answers that stand in the wrong place: a column too far, or in another student's row.
#include <optional>
#include <string>
#include <vector>

#include "generators/set.h"
#include "marker/written.h"

namespace molewright {

/// Answers to a paper, question by question in the order of the finds.
using Answered = std::vector<std::vector<Written>>;

/// What is wrong where none of three numbers or more is right in its place, but two and at least half of them are one column to
/// the left or right ("shifted-columns"), or three and at least half on another student's own paper ("other-paper").
std::optional<Fault> misplaced(ProblemSet const& set, Paper const& paper, std::string const& student, Answered const& answered);

/// Where a question's code stands in the set: "question 2 of \"Ann Reed\""; empty for a code of no question here.
std::string place_of_code(ProblemSet const& set, std::string const& code);

}  // namespace molewright
