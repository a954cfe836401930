#pragma once
// Salts and their ions: names that the ion table settles.
#include <string>

#include "engine/formula.h"

namespace molewright {

/// "sulfate ion", "iron(III) ion", in IUPAC spelling; empty where the table is silent. REQUIRES: formula.charge is not 0.
std::string ion_name(Formula const& formula);

/// "iron(III) thiocyanate": cation and anion, for a salt of one of each; empty for any other formula and for hydrates.
/// Source: IUPAC, Nomenclature of Inorganic Chemistry (Red Book 2005), IR-5.3 to IR-5.4 (names of ions, no multiplying prefixes).
std::string salt_name(Formula const& formula);

}  // namespace molewright
