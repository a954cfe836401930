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
  std::string symbol;   ///< as printed in plain text: "mol/L", "mL", "g/100 mL"; empty for a pure number
  Dimension dimension;
  Rational factor{1};   ///< value in base units = number * factor + offset
  Rational offset{0};   ///< only °C has one
  friend bool operator==(Unit const& a, Unit const& b) {
    return a.dimension == b.dimension && a.factor == b.factor && a.offset == b.offset;
  }
  friend bool operator!=(Unit const& a, Unit const& b) { return !(a == b); }
};

struct UnitRead {
  Unit unit;
  std::size_t length = 0;
};

/// Every spelling in the contract, `cm3 cm^3 cm³`, `mol L-1`, `mol·L⁻¹`, words (`grams`, `moles`, `mls`, `litres`), counted entities (`atoms`, `molecules`, `ions`,
/// `formula units`). The symbol comes back in its usual form (mL for ml and mls, mol/L for M and mol L-1, dm3 kept as dm3). Longest match first. Case matters where it must: M is mol/L,
/// m is no volume; `Mg`, `MG` are no masses. Fault ids: "unknown-unit" (with the nearest units in `expected`).
Result<UnitRead> read_unit(std::string_view text);
Result<Unit> parse_unit(std::string_view text);
/// REQUIRES: the unit exists (for code: unit("mL")).
Unit unit(std::string_view symbol);
/// Printed for people: "mol/L" -> "mol/L", "dm3" -> "dm³", "ug" -> "µg", "degC" -> "°C".
std::string pretty(Unit const& unit);
/// The units of one dimension that a person may write, for messages ("expected a unit of volume").
std::string dimension_name(Dimension const& dimension);

bool convertible(Unit const& from, Unit const& to);
/// Number of `to` in one `from`. REQUIRES: convertible, no offsets.
Rational conversion_factor(Unit const& from, Unit const& to);
/// REQUIRES: convertible(from, to). Offsets honoured.
Rational convert(Rational const& number, Unit const& from, Unit const& to);

/// Symbols of all units in the table, for "did you mean" and documentation.
std::vector<std::string> unit_symbols();

}  // namespace molewright
