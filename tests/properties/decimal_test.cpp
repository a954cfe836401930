// Numbers as typed and as printed, there and back (RapidCheck; RC_PARAMS="seed=1" repeats a run).
#include "engine/decimal.h"

#include <rapidcheck/catch.h>

#include <algorithm>
#include <catch2/catch.hpp>
#include <cstdint>

using namespace molewright;

namespace {

char any_digit(int least = 0) { return static_cast<char>('0' + *rc::gen::inRange(least, 10)); }

std::string any_digits(int least, int most) {
  std::string digits;
  for (int n = *rc::gen::inRange(least, most + 1); n > 0; --n) digits += any_digit();
  return digits;
}

struct Typed {
  std::string text;
  std::string digits;  ///< all of them, without the point
  int places = 0;      ///< digits after the point
  int exponent = 0;
  bool negative = false;
};

/// 12.30, .5, 0.0040e-3, -7 ...: a number as a person may type it, and what it is made of.
Typed any_typed(DecimalMark mark) {
  Typed typed;
  auto const whole = any_digits(0, 6);
  auto const part = any_digits(whole.empty() ? 1 : 0, 8);
  typed.negative = *rc::gen::inRange(0, 4) == 0;
  typed.text = (typed.negative ? "-" : "") + whole;
  if (!part.empty()) typed.text += (mark == DecimalMark::comma ? "," : ".") + part;
  if (*rc::gen::inRange(0, 3) == 0) {
    typed.exponent = *rc::gen::inRange(-30, 31);
    typed.text += 'e' + std::to_string(typed.exponent);
  }
  typed.digits = whole + part;
  typed.places = static_cast<int>(part.size());
  return typed;
}

Rational any_rational() {
  auto const above = *rc::gen::inRange<std::int64_t>(-1000000000000, 1000000000001);
  auto const below = *rc::gen::inRange<std::int64_t>(1, 1000001);
  return Rational(above, below) * Rational::power_of_ten(*rc::gen::inRange(-20, 21));
}

DecimalMark any_mark() { return *rc::gen::element(DecimalMark::point, DecimalMark::comma); }
Rounding any_rounding() {
  return *rc::gen::element(Rounding::half_up, Rounding::half_even, Rounding::truncate, Rounding::up, Rounding::down);
}

/// Both forms of a print must read back as this number, its last place included.
void reads_back(PrintedNumber const& printed, DecimalMark mark, Rational const& number, int last_place) {
  for (auto const& text : {printed.plain, printed.pretty}) {
    RC_LOG() << text << '\n';
    auto const read = parse_decimal(text, mark);
    RC_ASSERT(ok(read));
    RC_ASSERT(value(read).value == number);
    RC_ASSERT(value(read).last_place == last_place);
  }
}

/// Rounding may move a number by half of the place, or by less than the whole of it where the direction is prescribed.
void rounded_rightly(Rational const& from, Rational const& to, int place, Rounding rounding) {
  auto const moved = to - from;
  auto const unit = Rational::power_of_ten(place);
  RC_ASSERT((to / unit).is_integer());
  bool const nearest = rounding == Rounding::half_up || rounding == Rounding::half_even;
  RC_ASSERT((nearest ? moved.absolute() <= unit / Rational(2) : moved.absolute() < unit));
  if (rounding == Rounding::up) {
    RC_ASSERT(to.absolute() >= from.absolute());
  }
  if (rounding == Rounding::down || rounding == Rounding::truncate) {
    RC_ASSERT(to.absolute() <= from.absolute());
  }
}

}  // namespace

TEST_CASE("decimal: what is typed has its value, its places and its figures", "[property][decimal]") {
  rc::prop("value, last place and figures from the digits; the print reads back the same", [] {
    auto const mark = any_mark();
    auto const typed = any_typed(mark);
    RC_LOG() << typed.text << '\n';
    auto const read = parse_decimal(typed.text, mark);
    RC_ASSERT(ok(read));
    auto const& number = value(read);
    auto const scale = Rational::power_of_ten(typed.exponent - typed.places);
    RC_ASSERT(number.value == Rational::from_digits(typed.digits) * scale * Rational(typed.negative ? -1 : 1));
    RC_ASSERT(number.last_place == typed.exponent - typed.places);
    auto const first = typed.digits.find_first_not_of('0');
    if (first != std::string::npos) {
      RC_ASSERT(number.figures == static_cast<int>(typed.digits.size() - first));
      auto const last = typed.digits.find_last_not_of('0');
      // Zeros at the end are in doubt only where there is no point. With a power of ten (10e-30) both readings are in use.
      if (typed.places > 0) {
        RC_ASSERT(number.certain_figures == number.figures);
      } else if (typed.text.find('e') == std::string::npos) {
        RC_ASSERT(number.certain_figures == static_cast<int>(last - first) + 1);
      }
    }
    reads_back(print_as_typed(number, mark), mark, number.value, number.last_place);
  });
}

TEST_CASE("decimal: a printed number reads back as what it was rounded to", "[property][decimal]") {
  rc::prop("to figures: so many, all of them sure", [] {
    auto const number = any_rational();
    RC_PRE(number.sign() != 0);
    auto const figures = *rc::gen::inRange(1, 16);
    auto const rounding = any_rounding();
    auto const mark = any_mark();
    auto const rounded = round_to_figures(number, figures, rounding);
    auto const place = place_of_figures(number, figures, rounding);
    rounded_rightly(number, rounded, place, rounding);
    auto const printed = print_to_figures(number, figures, rounding, mark);
    reads_back(printed, mark, rounded, place);
    auto const read = value(parse_decimal(printed.plain, mark));
    RC_ASSERT(read.figures == figures);
    RC_ASSERT(!read.ambiguous());
  });
  rc::prop("to a place", [] {
    auto const number = any_rational();
    auto const place = *rc::gen::inRange(-12, 7);
    auto const rounding = any_rounding();
    auto const mark = any_mark();
    auto const rounded = round_to_place(number, place, rounding);
    rounded_rightly(number, rounded, place, rounding);
    RC_PRE(rounded.sign() != 0);  // 0 to the tens has no print that says so
    reads_back(print_to_place(number, place, rounding, mark), mark, rounded, place);
  });
  rc::prop("exactly, where it ends within twelve figures", [] {
    auto const digits = *rc::gen::inRange<std::int64_t>(-999999999999, 1000000000000);
    auto const number = Rational(digits) * Rational::power_of_ten(*rc::gen::inRange(-30, 31));
    RC_LOG() << unrounded(number) << '\n';
    auto const read = parse_decimal(unrounded(number));
    RC_ASSERT(ok(read));
    RC_ASSERT(value(read).value == number);
  });
}
