#include "marker/agreement.h"

#include <algorithm>

namespace molewright {
namespace {

/// The zeros that may only place the point, as a power of ten: 1720 may be sure to the tens only.
Rational uncertain_zeros(WrittenNumber const& written) { return Rational::power_of_ten(written.figures - written.certain); }

int place_of(Rational const& last) { return magnitude(last); }

bool rounded_as_written(WrittenNumber const& written, Rational const& distance, Due const& due) {
  auto const reading = [&](int figures, Rational const& last) {
    if (figures < 2 && figures < due.figures) return false;
    if (Rational(2) * distance <= last) return true;
    return figures > due.figures && distance <= last;  // a display that was cut
  };
  return reading(written.figures, written.last) ||
         (written.certain != written.figures && reading(written.certain, written.last * uncertain_zeros(written)));
}
}  // namespace

WrittenNumber written_number(Decimal const& number, Rational const& factor) {
  WrittenNumber written;
  written.value = number.value * factor;
  written.last = Rational::power_of_ten(number.last_place) * factor;
  written.figures = number.figures;
  written.certain = number.certain_figures;
  written.approximate = written.value.to_double();
  written.step = written.last.to_double();
  return written;
}

Due due_of(Answer const& answer, Rational const& value) {
  Due due;
  due.figures = std::max(1, answer.figures);
  // Of 9.996 the third figure is the hundredths: it only becomes 10.0 by rounding, which is no licence to be further off.
  int const place = answer.by_place || value.sign() == 0 ? answer.place : magnitude(value) - due.figures + 1;
  due.last = Rational::power_of_ten(place);
  due.right = value.to_double();
  return due;
}

bool agrees(WrittenNumber const& written, Rational const& value, Due const& due) {
  auto const distance = (written.value - value).absolute();
  if (rounded_as_written(written, distance, due)) return true;
  if (Rational(2) * distance > due.last) return false;
  // Zeros left out at the end: the number is the value rounded to the figures due, though fewer were written.
  int const place = place_of(due.last);
  return written.value == round_to_place(value, place, Rounding::half_up) ||
         written.value == round_to_place(value, place, Rounding::half_even);
}

bool is_rounded_to_one_figure(WrittenNumber const& written, Rational const& value) {
  return written.certain < 2 && value.sign() != 0 &&
         (written.value == round_to_figures(value, 1, Rounding::half_up) ||
          written.value == round_to_figures(value, 1, Rounding::half_even));
}

bool agrees_within_one(WrittenNumber const& written, Rational const& value, Due const& due) {
  if (written.figures < due.figures) return false;
  if ((written.value - value).absolute() > Rational(2) * due.last) return false;
  int const place = place_of(due.last);
  auto const off = round_to_place(written.value, place, Rounding::half_up) - round_to_place(value, place, Rounding::half_up);
  return off.absolute() <= due.last;
}

}  // namespace molewright
