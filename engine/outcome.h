#pragma once
// What came out of a working, judged: what cannot be, and what deserves a note.
#include <optional>
#include <set>

#include "engine/solver.h"

namespace molewright {

/// A fault at a place of the problem's text.
PlacedFault at(Place const& place, Fault fault);

/// Indices of all nodes that the finds rest on, the branches of a choice included.
std::set<int> needed(Working const& working);

/// Why the answers cannot be, though they follow from the data: "not-positive", "idle-portion", "more-than-all", "too-dilute",
/// "one-figure".
std::optional<PlacedFault> cannot_be(Worked const& worked);

/// Adds to the warnings: no one reagent limits, data that are not needed, figures that are not sure, what would not be met at the
/// bench (engine/doubts.h).
void add_warnings(Worked& worked);

}  // namespace molewright
