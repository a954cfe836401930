#pragma once
// Letters that stand for what is not known in a formula: the A of an acid HA, the M of a carbonate M2CO3.
#include <optional>

#include "engine/problem.h"

namespace molewright {

/// Such a letter means something where a reaction has it on both sides, or where the molar mass of a formula with it is spoken of
/// beside another of its quantities. Any other is a misspelt element: the fault that its line would have had, "unknown-element".
std::optional<PlacedFault> letter_without_meaning(Problem const& problem);

/// Whether every formula of the problem with such a letter is read as one again, once it has been printed.
bool unknowns_print_as_such(Problem const& problem);

}  // namespace molewright
