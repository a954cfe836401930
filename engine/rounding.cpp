// Rounding of exact numbers, and printing what was rounded. Reading is in decimal.cpp.
#include <algorithm>
#include <array>

#include "engine/decimal.h"

namespace molewright {
namespace {

int digit_count(std::int64_t n) {
  int count = 1;
  for (; n >= 10; n /= 10) ++count;
  return count;
}

__extension__ typedef unsigned __int128 Wide;

constexpr int most_tens = 18;  ///< 10^18 is the last power of ten that fits beside a sign
constexpr std::array<std::uint64_t, most_tens + 1> make_tens() {
  std::array<std::uint64_t, most_tens + 1> all{};
  std::uint64_t ten = 1;
  for (std::size_t k = 0; k < all.size(); ++k) {
    all[k] = ten;
    if (k + 1 < all.size()) ten *= 10;
  }
  return all;
}
constexpr std::array<std::uint64_t, most_tens + 1> tens = make_tens();
constexpr std::uint64_t ten_to(int k) { return tens[static_cast<std::size_t>(k)]; }

/// |v| in units of 10^place as a quotient of machine integers.
struct Scaled {
  Wide over, under;
};
/// False where `v` or the place is beyond them; the slow way then does it.
bool scaled(Rational const& v, int place, Scaled& out) {
  std::int64_t n = 0, d = 0;
  if (place > most_tens || place < -most_tens || !v.fits(n, d)) return false;
  out.over = static_cast<std::uint64_t>(n < 0 ? -n : n);
  out.under = static_cast<std::uint64_t>(d);
  if (place < 0) out.over *= ten_to(-place);
  if (place > 0) out.under *= ten_to(place);
  return true;
}

/// |v| rounded, in units of 10^place; false where the slow way must do it.
bool rounded_at(Rational const& v, int place, Rounding rounding, std::int64_t& whole) {
  constexpr Wide largest = ten_to(most_tens);
  Scaled s{};
  if (!scaled(v, place, s)) return false;
  Wide quotient = 0, rest = 0;
  if (static_cast<std::uint64_t>(s.over >> 64U) == 0 && static_cast<std::uint64_t>(s.under >> 64U) == 0) {
    auto const over = static_cast<std::uint64_t>(s.over), under = static_cast<std::uint64_t>(s.under);
    quotient = over / under;
    rest = over % under;
  } else {
    quotient = s.over / s.under;
    rest = s.over - quotient * s.under;
  }
  if (quotient >= largest) return false;
  if (rest != 0) {
    Wide const other = s.under - rest;
    bool const nearer = rest > other || (rest == other && (rounding == Rounding::half_up || (quotient & 1U) != 0));
    bool const to_nearest = rounding == Rounding::half_up || rounding == Rounding::half_even;
    if (rounding == Rounding::up || (to_nearest && nearer)) ++quotient;
  }
  whole = static_cast<std::int64_t>(quotient);
  return true;
}

/// The whole number that `v` becomes.
Rational rounded(Rational const& v, Rounding rounding) {
  if (v.is_integer()) return v;
  Rational const size = v.absolute();
  Rational const below = size.floor();
  bool raise = false;
  switch (rounding) {
    case Rounding::truncate:
    case Rounding::down:
      break;
    case Rounding::up:
      raise = true;
      break;
    case Rounding::half_up:
    case Rounding::half_even: {
      Rational const twice = (size - below) * Rational(2);
      bool const odd = !(below / Rational(2)).is_integer();
      raise = twice > Rational(1) || (twice == Rational(1) && (rounding == Rounding::half_up || odd));
      break;
    }
  }
  Rational const result = raise ? below + Rational(1) : below;
  return v.sign() < 0 ? -result : result;
}

std::string raised(int exponent) {
  static constexpr std::array<std::string_view, 10> digits{"⁰", "¹", "²", "³", "⁴", "⁵", "⁶", "⁷", "⁸", "⁹"};
  std::string result = exponent < 0 ? "⁻" : "";
  for (char const digit : std::to_string(exponent < 0 ? -exponent : exponent))
    result += digits[static_cast<std::size_t>(digit - '0')];
  return result;
}

/// `digits` are those of a whole number times 10^place; the first is no 0 unless it is the only one.
PrintedNumber laid_out(bool negative, std::string const& digits, int place, bool scientific, char mark) {
  PrintedNumber printed;
  std::string body;
  int const count = static_cast<int>(digits.size());
  if (scientific) {
    body = digits.substr(0, 1);
    if (count > 1) body += mark + digits.substr(1);
    int const exponent = place + count - 1;
    printed.plain = body + "e" + std::to_string(exponent);
    printed.pretty = body + " × 10" + raised(exponent);
  } else {
    body = digits;
    if (place > 0) body.append(static_cast<std::size_t>(place), '0');
    if (place < 0) {
      int const missing = 1 - place - count;  // one digit must stand before the mark
      if (missing > 0) body.insert(0, static_cast<std::size_t>(missing), '0');
      body.insert(body.size() - static_cast<std::size_t>(-place), 1, mark);
    }
    printed.plain = printed.pretty = body;
  }
  if (negative) {
    printed.plain.insert(0, "-");
    printed.pretty.insert(0, "\u2212");
  }
  return printed;
}

constexpr int least_plain = -4;    ///< 0.0001 is plain
constexpr int greatest_plain = 5;  ///< 999999 is plain

char sign_of(DecimalMark mark) { return mark == DecimalMark::comma ? ',' : '.'; }

}  // namespace

int magnitude(Rational const& v) {
  std::int64_t n = 0;
  std::int64_t d = 0;
  if (v.fits(n, d)) {
    if (n < 0) n = -n;
    if (n >= d) return digit_count(n / d) - 1;
    // Below one: d/n lies in [10^k, 10^(k+1)), and only for exactly 10^k is -k the answer.
    int const k = digit_count(d / n) - 1;
    return n == 1 && Rational(d) == Rational::power_of_ten(k) ? -k : -k - 1;
  }
  Rational const size = v.absolute();
  if (size >= Rational(1)) return static_cast<int>(size.integer_digits().size()) - 1;
  Rational const turned = size.reciprocal();
  int const k = static_cast<int>(turned.integer_digits().size()) - 1;
  return turned == Rational::power_of_ten(k) ? -k : -k - 1;
}

Rational round_to_place(Rational const& v, int place, Rounding rounding) {
  std::int64_t whole = 0;
  if (rounded_at(v, place, rounding, whole)) {
    if (v.sign() < 0) whole = -whole;
    if (place < 0) return Rational(whole, static_cast<std::int64_t>(ten_to(-place)));
    return Rational(whole) * Rational::power_of_ten(place);
  }
  Rational const step = Rational::power_of_ten(place);
  return rounded(v / step, rounding) * step;
}

int place_of_figures(Rational const& v, int figures, Rounding rounding) {
  if (v.sign() == 0) return 1 - figures;
  int const leading = magnitude(v);
  int const place = leading - figures + 1;
  std::int64_t whole = 0;
  if (figures <= most_tens && rounded_at(v, place, rounding, whole))
    return static_cast<std::uint64_t>(whole) == ten_to(figures) ? place + 1 : place;
  Rational const result = round_to_place(v, place, rounding);
  return magnitude(result) > leading ? place + 1 : place;
}

Rational round_to_figures(Rational const& v, int figures, Rounding rounding) {
  if (v.sign() == 0) return v;
  return round_to_place(v, magnitude(v) - figures + 1, rounding);
}

Rational round_to_multiple(Rational const& v, Rational const& step, Rounding rounding) {
  return rounded(v / step, rounding) * step;
}

int figures_at(Rational const& v, int last_place) {
  std::int64_t whole = 0;
  if (rounded_at(v, last_place, Rounding::half_up, whole)) return digit_count(whole);
  Rational const printed = round_to_place(v, last_place, Rounding::half_up);
  return printed.sign() == 0 ? 1 : std::max(1, magnitude(printed) - last_place + 1);
}

PrintedNumber print_to_place(Rational const& v, int place, Rounding rounding, DecimalMark mark) {
  std::int64_t small = 0;
  bool const fits = rounded_at(v, place, rounding, small);
  Rational const whole = fits ? Rational(small) : rounded(v / Rational::power_of_ten(place), rounding);
  if (whole.sign() == 0) return laid_out(false, "0", std::min(place, 0), false, sign_of(mark));
  std::string const digits = whole.integer_digits();
  int const leading = place + static_cast<int>(digits.size()) - 1;
  bool const doubtful = place > 0 || (place == 0 && digits.back() == '0');
  bool const scientific = doubtful || leading < least_plain || leading > greatest_plain;
  return laid_out(v.sign() < 0, digits, place, scientific, sign_of(mark));
}

PrintedNumber print_to_figures(Rational const& v, int figures, Rounding rounding, DecimalMark mark) {
  return print_to_place(v, place_of_figures(v, figures, rounding), rounding, mark);
}

std::string unrounded(Rational const& v, int most) {
  if (v.sign() == 0) return "0";
  int place = place_of_figures(v, most, Rounding::half_up);
  Rational const shown = round_to_place(v, place, Rounding::half_up);
  std::string digits = (shown / Rational::power_of_ten(place)).integer_digits();
  if (shown == v) {
    auto const kept = digits.find_last_not_of('0') + 1;
    place += static_cast<int>(digits.size() - kept);
    digits.resize(kept);
  }
  int const leading = place + static_cast<int>(digits.size()) - 1;
  return laid_out(v.sign() < 0, digits, place, leading < least_plain || leading > greatest_plain, '.').plain;
}

}  // namespace molewright
