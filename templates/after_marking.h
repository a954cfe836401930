#pragma once
// From a class's results to what is done with them next: corrections, and the page for the next morning.
#include <string>
#include <utility>
#include <vector>

#include "generators/set.h"
#include "marker/results.h"
#include "templates/corrections.h"
#include "templates/next_morning.h"

namespace molewright {

/// A page for whoever was there and lost marks.
CorrectionsDocument corrections_document(ClassResults const& results, ProblemSet const& set);

/// The three commonest slips, each with the template of a question where it was made: what a starter would practise.
std::vector<std::pair<std::string, std::string>> slips_to_start_with(ClassResults const& results, ProblemSet const& set);
/// `starter`: fresh questions, made for the slips above.
NextMorning next_morning(ClassResults const& results, ProblemSet const& set, std::vector<Question> const& starter);

}  // namespace molewright
