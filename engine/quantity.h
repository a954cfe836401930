#pragma once
// A physical quantity of a substance, a solution or a stage: n(BaCl2), c2(KOH), V2(KOH, taken), w(N in NH4NO3), pH. Symbols:
// IUPAC Green Book, 3rd ed.
#include <cstddef>
#include <string>
#include <string_view>

#include "engine/fault.h"
#include "engine/symbol.h"
#include "engine/unit.h"

namespace molewright {

struct Quantity {
  Symbol symbol;          ///< "n" "m" "M" "N" "V" "c" "gamma" "yield" ...: ASCII spelling (γ is read as gamma, ρ as rho)
  int stage = 0;          ///< which numbered solution; 0 where no number is written
  std::string substance;  ///< plain formula, or "solution"; empty where it is left out
  std::string word;       ///< "actual", "theoretical", "taken", "left", "added", ...; empty for none
  std::string part;       ///< "N" of w(N in NH4NO3); empty for none
};
/// What the word of a weighing begins with that is of a vessel as well: m(CuSO4, with crucible), written m(crucible + CuSO4).
inline constexpr char const* with_vessel = "with ";
/// The vessel of such a weighing; empty for any other quantity.
std::string_view vessel_of(Quantity const& quantity);
bool operator==(Quantity const& a, Quantity const& b);
bool operator!=(Quantity const& a, Quantity const& b);
bool operator<(Quantity const& a, Quantity const& b);

struct QuantityRead {
  Quantity quantity;
  std::size_t length = 0;
};
/// The quantity at the start of `text`. Fault ids: "unknown-symbol" (with the known ones), "not-a-quantity", and parse_formula's.
/// `unknown` as there.
Result<QuantityRead> read_quantity(std::string_view text, std::string_view unknown = {});
/// The whole text must be the quantity, of a substance that may be an unknown (HA): for looking up what a problem has.
Result<Quantity> parse_quantity(std::string_view text);
/// "c2(KOH)", "V2(KOH, taken)", "gamma(NaCl)".
std::string plain(Quantity const& quantity);
/// "c₂(KOH)", "γ(NaCl)", "m(AgCl, actual)": for people.
std::string pretty(Quantity const& quantity);
/// Dimension that values of the symbol must have; false for an unknown symbol.
bool dimension_of(Symbol symbol, Dimension& dimension);
/// True for what may be zero or less: pH, pOH, heat, enthalpies, temperatures and their changes.
bool may_be_below_zero(Symbol symbol);
/// Unit the quantity is worked in: mol, g, L, mol/L, g/mol, g/L ...
Unit const& working_unit(Symbol symbol);

/// "CuSO4·xH2O", a hydrate whose water is not known, as "CuSO4·5H2O" is read: the plain formula of its salt. Empty for any other
/// text.
std::string salt_of_unknown_hydrate(std::string_view text);

}  // namespace molewright
