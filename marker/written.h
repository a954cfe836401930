#pragma once
// What a student wrote in a box, read kindly: "1.72 g", "1720mg", "1.72 × 10^0 g", "m = 1.72 g", "right", "B", "absent", nothing, nonsense.
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "engine/decimal.h"
#include "engine/unit.h"

namespace molewright {

struct Written {
  enum class Kind { blank, absent, ticked, letter, number, words, unreadable };
  Kind kind = Kind::blank;
  std::string raw;                ///< the cell, trimmed
  char letter = 0;                ///< for `letter`
  Decimal number;                 ///< for `number`
  std::optional<Decimal> other_reading;  ///< "1,720" under a course with a point: 1.720 beside 1720; and the other way round
  std::optional<Unit> unit;       ///< none written, or not a unit
  std::string unit_text;          ///< what stood after the number, as written
  std::vector<std::string> notes; ///< ids for what was read kindly: "unit-spelling", "decimal-comma", "unknown-unit", "two-answers"
  std::string why;                ///< for `unreadable`: what stood in the way
};

/// `right`, `✓`, `✔`, `ok` (any case) are ticked; `absent`, `abs` absent; a single capital letter A to Z (or lower case) a letter of the slip key, unless a unit stands with it.
/// A symbol before `=` or `≈` is passed over (`m(AgCl) = 1.72 g`); text after the unit is a fault unless it is a formula ("1.72 g AgCl"). Two numbers joined by "or" are two answers: unreadable, with why.
/// A cell that is a formula, a name or words only is `words`. Never throws; any bytes are allowed.
Written read_written(std::string_view cell, DecimalMark mark);

}  // namespace molewright
