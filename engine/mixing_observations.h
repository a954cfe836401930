#pragma once
// What is seen when a mixture reacts: gases, solids, colours that come and go.
#include "engine/mixing.h"

namespace molewright::mixing {

/// Adds to the observations and warnings of a mixture whose equations stand. `told`: its row tells what becomes of solids and
/// colours, so that gases alone are added.
void observe(Mixing& mixing, bool told);

/// What heating does to a hydrate's crystals, by the table of crystal water; plain words where it has no row.
std::vector<std::string> seen_of_hydrate(Formula const& hydrate, Formula const& dry);

}  // namespace molewright::mixing
