#pragma once
// A number as a person typed it: its exact value and the digits that say how sure they are. Rounding, and printing to figures or
// places.
#include <cstddef>
#include <optional>
#include <string>
#include <string_view>

#include "engine/fault.h"
#include "engine/rational.h"

namespace molewright {

/// Which sign separates whole units from tenths.
enum class DecimalMark { point, comma };

struct Decimal {
  Rational value;
  int last_place = 0;       ///< power of ten of the last digit written: 0.250 -> -3, 2.50e-3 -> -5, 1200 -> 0
  int figures = 1;          ///< significant figures, every trailing zero counted (0.250 -> 3, 1200 -> 4, 0.00 -> 1)
  int certain_figures = 1;  ///< without the zeros that may only place the point (1200 -> 2, 1200. -> 4)
  std::string text;         ///< as typed
  bool ambiguous() const { return certain_figures != figures; }
};

/// A number and how many bytes of the text it took.
struct DecimalRead {
  Decimal number;
  std::size_t length = 0;
};

/// Longest number at the start of `text`. Reads 0.250, 2.50e-3, 2.50E-3, 2.50×10^-3, 2.50 x 10⁻³, 2.50*10^-3, 2.50·10-3, 10^-3
/// (one figure), 1 250 (blanks, U+00A0, U+2009, U+202F between groups of three digits), .5, +1.2, -1.2, −1.2 (U+2212, U+2013),
/// 1200. ; with DecimalMark::comma 0,250 as well as 0.250 (a comma with no digit after it is not taken). Never "nan" or "inf"; at
/// most 100 digits and |exponent| <= 99. Fault ids: "not-a-number", "number-too-long", "exponent-too-large".
Result<DecimalRead> read_decimal(std::string_view text, DecimalMark mark = DecimalMark::point);
/// The whole text must be the number (blanks round it allowed).
Result<Decimal> parse_decimal(std::string_view text, DecimalMark mark = DecimalMark::point);

enum class Ties { half_up, half_even };                          ///< half_up is away from zero for negative numbers
enum class Rounding { half_up, half_even, truncate, up, down };  ///< up and down: away from and towards zero, for limits
constexpr Rounding nearest_by(Ties ties) { return ties == Ties::half_up ? Rounding::half_up : Rounding::half_even; }

/// Exponent of the leading digit: floor(lg |v|), exactly. REQUIRES: v is not 0.
int magnitude(Rational const& v);
/// Power of ten of the last of `figures` figures after rounding `v` (9.995 to three figures -> -1, since it becomes 10.0).
/// For v = 0 it is 1 - figures. REQUIRES: figures > 0.
int place_of_figures(Rational const& v, int figures, Rounding rounding);
Rational round_to_place(Rational const& v, int place, Rounding rounding);
Rational round_to_figures(Rational const& v, int figures, Rounding rounding);
/// Nearest whole multiple of `step` (a burette read to 0.05 mL). REQUIRES: step > 0.
Rational round_to_multiple(Rational const& v, Rational const& step, Rounding rounding);
/// Significant figures of `v` as it would be printed to `last_place` (9.996 at -2 is 10.00, four figures); at least 1 (0 has 1).
/// Both rules for ties agree here.
int figures_at(Rational const& v, int last_place);

/// A number ready to print: sign, digits and exponent, never more or fewer digits than are known.
/// Plain where it is readable and every zero is unmistakable, else scientific (1.20e3, 4.57e-5): scientific when the plain form
/// would end in a zero before the decimal point, when |v| < 0.0001, or when it is 10^6 or more. Zero is always plain ("0.00") and
/// has no sign.
struct PrintedNumber {
  std::string plain;   ///< ASCII: "0.0187", "1.20e3"
  std::string pretty;  ///< for people: "0.0187", "1.20 × 10³" (true minus sign and superscripts)
};
/// The mark is used in both forms: files that other programs read ask for a point.
PrintedNumber print_to_place(Rational const& v, int place, Rounding rounding, DecimalMark mark = DecimalMark::point);
PrintedNumber print_to_figures(Rational const& v, int figures, Rounding rounding, DecimalMark mark = DecimalMark::point);
/// The digits as typed, however it was spelled: "2.50 x 10^-3" -> "2.50e-3" and "2.50 × 10⁻³", "1200" stays "1200", ".5" becomes
/// "0.5". Blanks between groups of digits are left out of `plain` and are U+202F in `pretty`. A number without `text` is printed
/// to its last place.
PrintedNumber print_as_typed(Decimal const& number, DecimalMark mark = DecimalMark::point);
/// Exact decimal expansion where it ends within `most` figures, without padding zeros; otherwise rounded half up to `most`
/// figures, all of them printed. Plain for 0.0001 <= |v| < 10^6 ("250": nothing is in doubt in an exact value), else e-notation:
/// for the JSON field "unrounded".
std::string unrounded(Rational const& v, int most = 12);

}  // namespace molewright
