#pragma once
// Units as values: a symbol, a dimension and an exact factor to the coherent base (g, dm, mol, s, K; so L has factor 1 as dm^3).
#include <array>
#include <cstddef>
#include <cstdint>
#include <string>
#include <string_view>
#include <vector>

#include "engine/fault.h"
#include "engine/rational.h"

namespace molewright {

/// Exponents of mass, length, amount, time, temperature.
struct Dimension {
  std::array<std::int8_t, 5> exponents{};
  friend bool operator==(Dimension const& a, Dimension const& b) { return a.exponents == b.exponents; }
  friend bool operator!=(Dimension const& a, Dimension const& b) { return !(a == b); }
};

struct Unit {
  std::string symbol;  ///< ASCII: "mol/L", "mL", "ug", "degC", "g/100 mL", "J/(g K)"; empty for a pure number
  Dimension dimension;
  Rational factor{1};  ///< value in base units = number * factor + offset
  Rational offset{0};  ///< only °C has one
  friend bool operator==(Unit const& a, Unit const& b) {
    return a.dimension == b.dimension && a.factor == b.factor && a.offset == b.offset;
  }
  friend bool operator!=(Unit const& a, Unit const& b) { return !(a == b); }
};

struct UnitRead {
  Unit unit;
  std::size_t length = 0;
};

/// Longest unit at the start of `text`. The single units with all their spellings stand in data/units.tsv: `cm3 cm^3 cm³`, words
/// (`grams`, `moles`, `mls`, `litres`), counted entities (`atoms`, `formula units`). Products and quotients: `mol L-1`,
/// `mol·L⁻¹`, `mol.dm-3`, `mol per litre`, `g/100 mL`, `J/(g K)`, `1/mol`. A blank joins only a factor with a negative power (or
/// any inside brackets), so that "5 g K2SO4" stays grams of something. A slash divides by what brackets or dots join after it.
/// The symbol comes back in its usual form (mL for ml and mls, mol/L for M and mol L-1, dm3 kept as dm3). Case matters where it
/// must: M is mol/L, m is no volume; `Mg`, `MG` are no masses. Fault ids: "unknown-unit" (with the nearest units in `expected`),
/// "unit-too-large" (more than 12 factors, or a power beyond 9).
Result<UnitRead> read_unit(std::string_view text);
/// The whole text must be the unit (blanks round it allowed). Fault id "text-after-unit" as well.
Result<Unit> parse_unit(std::string_view text);
/// For code: unit("mL"); unit("") is the pure number. REQUIRES: the unit exists (throws std::invalid_argument).
Unit unit(std::string_view symbol);
/// Printed for people: "mol/L" -> "mol/L", "dm3" -> "dm³", "ug" -> "µg", "degC" -> "°C", "1/mol" -> "mol⁻¹".
std::string pretty(Unit const& unit);
/// The quantity of a dimension, for messages ("expected a unit of volume"): "volume", "mass concentration", "a pure number";
/// "mass × length²" where it has no name.
std::string dimension_name(Dimension const& dimension);

/// Same dimension. That is all it asks: % and a count of atoms are both pure numbers.
bool convertible(Unit const& from, Unit const& to);
/// Number of `to` in one `from`. REQUIRES: convertible, no offsets.
Rational conversion_factor(Unit const& from, Unit const& to);
/// REQUIRES: convertible(from, to). Offsets honoured.
Rational convert(Rational const& number, Unit const& from, Unit const& to);

/// Symbols of all units in the table, for "did you mean" and documentation.
std::vector<std::string> unit_symbols();

}  // namespace molewright
