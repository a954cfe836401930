#pragma once
// The numbers of a printed working: with guard digits, weights as their table has them, givens as they were typed.
#include <map>

#include "engine/conventions.h"
#include "engine/decimal.h"
#include "engine/problem.h"
#include "engine/working.h"

namespace molewright {

inline constexpr int exact_figures = 10;  ///< of what is exact and does not end
inline constexpr char const* no_break_space = "\u00A0";

/// The node's number: two guard digits beyond its figures, more where these would be rounded another way than the number itself.
PrintedNumber number_of(Working const& working, Node const& node, Conventions const& conventions);
/// What a given was typed as, by node: "150 mL" is not to become 1.50 × 10² mL in the working.
std::map<int, Decimal const*> typed_numbers(Problem const& problem, Working const& working);

}  // namespace molewright
