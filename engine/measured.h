#pragma once
// A number with its unit, as it stands in a given or an answer: 25.0 mL, 1.72g, 1.72 × 10^0 g, 250 g/100 mL.
#include <optional>
#include <string_view>

#include "engine/decimal.h"
#include "engine/unit.h"

namespace molewright {

struct Measured {
  Decimal number;
  std::optional<Unit> unit;  ///< nothing where none was written
};

/// The whole text must be a number and, if wanted, a unit; blanks round both are allowed, none is needed between them.
/// Fault ids: "invalid-utf8", "not-a-number", "number-too-long", "exponent-too-large", "unknown-unit", "unit-too-large",
/// "text-after-unit".
Result<Measured> parse_measured(std::string_view text, DecimalMark mark = DecimalMark::point);

}  // namespace molewright
