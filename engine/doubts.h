#pragma once
// What in a problem can be worked, but would not be met at the bench: states that the solubility table contradicts, solutions
// stronger than the salt dissolves.
#include <optional>
#include <string>
#include <vector>

#include "engine/problem.h"
#include "engine/substance.h"
#include "engine/working.h"

namespace molewright {

/// Sentences for the author; none where nothing is in doubt. Solubilities at 20 °C from data/solubility.tsv, where that has them;
/// a litre of solution is taken to hold no more than a litre of water.
std::vector<std::string> doubts(Problem const& problem, Working const& working);

/// mol/L above which no solution is believed of what is called slightly soluble, insoluble or decomposed by water and has no
/// number in the table (common practice, no source); nothing for the others.
std::optional<double> most_without_number(Solubility const& known);

/// Whether two dissolved substances do not stay side by side: a strong acid and a strong base, or salts of which an insoluble one
/// can form.
bool react_in_solution(std::string const& one, std::string const& other);

}  // namespace molewright
