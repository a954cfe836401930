#pragma once
// When a number as written agrees with a value: rounding as written, by either tie rule, and the last digit a display cuts off.
#include "engine/decimal.h"
#include "engine/working.h"

namespace molewright {

/// A number that a student wrote, in the asked unit.
struct WrittenNumber {
  Rational value;
  Rational last;           ///< one unit of its last digit, in the asked unit
  int figures = 1;         ///< every trailing zero counted
  int certain = 1;         ///< without the zeros that may only place the point: 1720 has four or three
  double approximate = 0;  ///< value, for distances
  double step = 0;         ///< last, for distances
};
/// `factor` is the number of asked units in the written one.
WrittenNumber written_number(Decimal const& number, Rational const& factor = Rational(1));

/// How many figures are due and at which place, for an answer's exact value.
struct Due {
  int figures = 3;
  Rational last;     ///< one unit of the last due figure
  double right = 0;  ///< the answer itself, for distances; 0 where it is not known
};
Due due_of(Answer const& answer, Rational const& value);

/// True where `written` is `value` rounded to as many figures as were written (a tie either way; ASTM E29), or to the figures due
/// with zeros at the end left out, or has more figures than are due and is cut or rounded in its last one. Fewer than two figures
/// are enough only where no more are due.
bool agrees(WrittenNumber const& written, Rational const& value, Due const& due);
/// Whether a number of one figure is a value rounded to it, by either tie rule.
bool is_rounded_to_one_figure(WrittenNumber const& written, Rational const& value);
/// True where `written`, rounded to the figures due, is at most one unit of the last of them off: rounded early on the way. It
/// must have the figures due.
bool agrees_within_one(WrittenNumber const& written, Rational const& value, Due const& due);

}  // namespace molewright
