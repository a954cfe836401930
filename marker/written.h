#pragma once
// What a student wrote in a box, read kindly: "1.72 g", "1720mg", "1.72 × 10^0 g", "m = 1.72 g", "right", "B", "absent", nothing,
// nonsense.
#include <optional>
#include <string>
#include <string_view>
#include <unordered_map>
#include <vector>

#include "engine/decimal.h"
#include "engine/unit.h"

namespace molewright {

struct Written {
  enum class Kind { blank, absent, ticked, letter, number, words, unreadable };
  Kind kind = Kind::blank;
  std::string raw;     ///< the cell, trimmed, always UTF-8 (U+FFFD for what is not) and cut after 200 code points with "…"
  std::string answer;  ///< of `raw`, the answer itself: without lines of working, "m =", "about" and remarks; empty for all of it
  char letter = 0;     ///< for `letter`, always a capital
  Decimal number;      ///< for `number`
  std::optional<Decimal> other_reading;  ///< "1,720" under a course with a point: 1.720 beside 1720; "1.720" under a course with
                                         ///< a comma: 1720 beside 1.720
  std::optional<Unit> unit;              ///< none written, or not a unit
  std::string unit_text;                 ///< what stood after the number, as written, without a substance behind the unit
  std::vector<std::string>
      notes;  ///< ids for what was read kindly: "unit-spelling", "decimal-comma", "decimal-point", "unknown-unit", "two-answers",
              ///< "approximate", "digits-run-on", "uncertainty-written", "dash", "fraction-written", "tick-beside-answer"
  std::string why;      ///< for `unreadable`: what stood in the way; empty where it is not to be read at all (set_aside)
  std::string working;  ///< lines of working, as written: those of the cell; the caller adds those handed in with it
  bool zeros_may_be_lost = false;  ///< a spreadsheet may have dropped zeros at the end (marker/spreadsheet.h); said by the caller

  /// The answer itself, as sentences say it back.
  std::string const& said() const { return answer.empty() ? raw : answer; }
};

/// `right`, `correct`, `✓`, `✔`, `ok` (any case) are ticked; `absent`, `abs` absent; a single letter A to Z in either case a
/// letter of the slip key; a dash alone is blank. A symbol before `=` or `≈` is passed over (`m(AgCl) = 1.72 g`), as are "about",
/// "pH", a remark on figures ("(3 s.f.)") or such as "approx" and "(acidic)", brackets, marks of bold print and the same number
/// in brackets before it was rounded. A tick beside an answer is passed over and noted: the answer speaks for itself. A chain of
/// equals signs gives its last value, if the values in it agree; where they do not, and where two numbers are joined by "or",
/// ";", ", " or a line break, there are two answers: unreadable, with why. Lines of working, by ";" or a line break, may stand
/// before the answer: they are plainly working where each holds a sign of equality or a sum, one of them a sum, and none has a
/// letter of a part before it or names what the answer names, with another value. Text after the unit is a fault unless it is a
/// formula or begins with "of" ("1.72 g AgCl", "1.72 g of silver chloride"). Sums, ranges, fractions and limits that a student
/// has not worked out are unreadable, for the teacher to look at; only a fraction of whole numbers with its unit ("3/800 mol/L")
/// is one value, exactly. Powers of ten are read as students type them (3.4x10-2 is 0.034). A cell that is a formula, an
/// equation, a name or words only is `words`. Never throws; any bytes are allowed.
Written read_written(std::string_view cell, DecimalMark mark);

/// Makes an answer one that nobody is to read as anything: it stands in the wrong place, or a spreadsheet altered it.
void set_aside(Written& written);

/// Puts lines of working that were handed in beside an answer to those that stand in its cell.
void add_working(Written& written, std::string_view lines);

/// Reads the boxes of a whole class: what many wrote is read once.
class BoxReader {
 public:
  explicit BoxReader(DecimalMark mark) : mark_(mark) {}
  Written const& read(std::string const& cell);

 private:
  DecimalMark mark_;
  std::unordered_map<std::string, Written> known_;  ///< looked up only
};

}  // namespace molewright
