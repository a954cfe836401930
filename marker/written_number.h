#pragma once
// The number in a student's answer: commas read both ways, powers of ten as students type them.
#include <cstddef>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "engine/decimal.h"
#include "engine/fault.h"

namespace molewright {

struct NumberWritten {
  Decimal number;                  ///< `text` as written
  std::optional<Decimal> other;    ///< the other reading of a comma or a point before three digits
  std::vector<std::string> notes;  ///< "decimal-comma", "decimal-point"
  std::size_t length = 0;          ///< bytes of the text that the number took
};

/// True where a number begins: a digit, or a sign or a mark before one.
bool begins_number(std::string_view text);

/// Longest number at the start of `text`, in which blanks are ASCII, minus signs are `-`, and a point set in the middle is `·`
/// (see `read_written`). Beyond what `read_decimal` takes: 3.4x10-2, 3.4 10^-2, 3.4*10**-2, 3.4·10^(-2), 3.4 E-2, 10^-3, groups
/// by comma or point. Never nan or inf. Fault ids: "not-a-number", "marks-do-not-fit" (1.2.3), and those of `read_decimal`.
Result<NumberWritten> read_written_number(std::string_view text, DecimalMark mark);

}  // namespace molewright
