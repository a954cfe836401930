#pragma once
// Salts and their ions: names that the ion table settles.
#include <cstddef>
#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "engine/formula.h"

namespace molewright {

/// An ion as it enters names and formulas of salts.
struct NamedIon {
  std::string formula;  ///< "SO4^2-"
  std::string name;     ///< "sulfate", "iron(III)": without the word ion
  std::vector<std::string> other_names;
  int charge = 0;
  std::string inside;  ///< as it stands in a salt: "SO4", "[Fe(CN)6]"
  std::string metal;   ///< its metal; empty for an ion of nonmetals
  bool complex = false;
};
/// The rows of the ion table, in its order.
std::vector<NamedIon> const& named_ions();

/// "sulfate ion", "iron(III) ion", in IUPAC spelling; empty where the table is silent. REQUIRES: formula.charge is not 0.
std::string ion_name(Formula const& formula);

/// A salt of one cation and one anion: places in named_ions() and how many of each stand in the formula as written.
struct SaltPair {
  std::size_t cation = 0, anion = 0;
  std::int64_t cations = 1, anions = 1;
  bool as_written = true;  ///< both ions stand in the formula; not so in NaC2H3O2
};
/// Nothing for any other formula, for ions and for hydrates.
std::optional<SaltPair> salt_pair(Formula const& formula);

/// "iron(III) thiocyanate", for a salt of one cation and one anion in lowest terms; with two kinds of cation or anion each kind
/// in alphabetical order ("potassium sodium carbonate"), where every ion stands in the formula as written. Empty for any other
/// formula and for hydrates. Source: IUPAC, Nomenclature of Inorganic Chemistry (Red Book 2005), IR-5.3 to IR-5.4 (names of ions,
/// no multiplying prefixes).
std::string salt_name(Formula const& formula);

/// "Fe2(SO4)3": the neutral formula in lowest terms. REQUIRES: the first charge is positive, the second negative.
std::string salt_formula(NamedIon const& cation, NamedIon const& anion);

}  // namespace molewright
