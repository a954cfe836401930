#pragma once
// What came out of a working, judged: what cannot be, and what deserves a note.
#include <optional>
#include <vector>

#include "engine/solver.h"

namespace molewright {

/// A fault at a place of the problem's text.
PlacedFault at(Place const& place, Fault fault);

/// For each node whether any find rests on it, the branches of a choice included.
std::vector<bool> needed(Working const& working);

/// Why the answers cannot be, though they follow from the data: "not-positive", "idle-portion", "more-than-all", "too-dilute",
/// "one-figure".
std::optional<PlacedFault> cannot_be(Worked const& worked);

/// Adds to the warnings: no one reagent limits, data that are not needed, figures that are not sure, what would not be met at the
/// bench (engine/doubts.h).
void add_warnings(Worked& worked);

}  // namespace molewright
