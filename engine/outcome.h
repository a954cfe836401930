#pragma once
// What came out of a working, judged: what cannot be, and what deserves a note.
#include <optional>
#include <vector>

#include "engine/network.h"
#include "engine/solver.h"

namespace molewright {

/// A fault at a place of the problem's text.
PlacedFault at(Place const& place, Fault fault);

/// For each node whether any find rests on it, the branches of a choice included.
std::vector<bool> needed(Working const& working);

/// Why the answers cannot be, though they follow from the data: "not-positive", "idle-portion", "idle-given", "given-already",
/// "yield-of-another", "more-than-all", "too-dilute", "one-figure". `network` is that of the problem, its reactions added.
std::optional<PlacedFault> cannot_be(Worked const& worked, Network const& network, Conventions const& conventions);

/// Adds to the warnings: no one reagent limits, data that are not needed, figures that are not sure, what would not be met at the
/// bench (engine/doubts.h).
void add_warnings(Worked& worked);

}  // namespace molewright
