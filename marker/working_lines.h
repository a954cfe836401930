#pragma once
// Lines of a working as students write them: "n = 0.15 × 0.040 = 0.0060 mol", "6.0 mmol", one a line or parted by semicolons.
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "engine/decimal.h"
#include "engine/unit.h"

namespace molewright {

struct WorkingLine {
  std::string text;       ///< as written, trimmed
  std::string symbol;     ///< "n", "M", "pH"; empty where the line names no quantity
  int stage = 0;          ///< the number of a solution: 2 of c2(KNO3); 0 where the line names none
  std::string substance;  ///< plain formula "AgCl"; empty where it names none
  std::string word;       ///< "left" of n(HCl, left), n(remaining) or "remaining": see usual_word(); empty for none
  Decimal number;         ///< the last value of the line
  std::optional<Unit> unit;
  std::optional<double> comes_to;  ///< what the first arithmetic on the line comes to; none where it holds none
  bool worked_out = true;  ///< false where the line's own arithmetic does not come to its number (to 0.3 %, or its last digit)
};

/// The lines that hold a value, in order; lines of words are passed over. A line is a quantity and `=`, expressions joined by `=`
/// (numbers, + - * / × ÷ x ^ and brackets; units beside numbers are passed over), and its value is the last one. A line that is
/// an expression only ("0.15 × 0.040") has the value that it comes to, with no figures sure beyond four. Never throws; at most 40
/// lines of 200 bytes are read.
std::vector<WorkingLine> read_working_lines(std::string_view text, DecimalMark mark);

}  // namespace molewright
