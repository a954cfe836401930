// Logarithms, powers of ten and roots: to 50 digits, and exact where the result is rational.
#include "engine/logarithm.h"

#include <catch2/catch.hpp>
#include <stdexcept>

#include "engine/decimal.h"

using namespace molewright;

namespace {
Rational number(char const* text) { return value(parse_decimal(text)).value; }
}  // namespace

TEST_CASE("logarithm: fifty digits", "[engine][logarithm]") {
  // Digits: Python's decimal at 60 digits (log10, sqrt, ** with a third), rounded to 50.
  struct Row {
    Rational worked;
    char const* digits;
  };
  Row const table[] = {
      {log10_of(Rational(2)), "0.30102999566398119521373889472449302676818988146211"},
      {root_of(Rational(2), 2), "1.4142135623730950488016887242096980785696718753769"},
      {power_of_ten(Rational(1, 2)), "3.1622776601683793319988935444327185337195551393252"},
      {root_of(Rational(2), 3), "1.2599210498948731647672106072782283505702514647015"},
  };
  for (auto const& row : table) {
    CAPTURE(row.digits);
    auto const known = number(row.digits);
    CHECK((row.worked - known).absolute() <= known * Rational::power_of_ten(1 - logarithm_digits));
  }
}

TEST_CASE("logarithm: exact where it is rational", "[engine][logarithm]") {
  CHECK(log10_of(Rational::power_of_ten(-7)) == Rational(-7));
  CHECK(log10_of(Rational(1)) == Rational(0));
  CHECK(power_of_ten(Rational(-3)) == Rational(1, 1000));
  CHECK(root_of(number("6.25"), 2) == number("2.5"));
  CHECK(root_of(number("1.0e-10"), 2) == number("1e-5"));
  CHECK(root_of(Rational(8, 27), 3) == Rational(2, 3));
  CHECK(root_of(Rational(0), 2) == Rational(0));
}

TEST_CASE("logarithm: out of its range", "[engine][logarithm]") {
  CHECK_THROWS_AS(log10_of(Rational(0)), std::domain_error);
  CHECK_THROWS_AS(log10_of(Rational(-2)), std::domain_error);
  CHECK_THROWS_AS(root_of(Rational(-2), 2), std::domain_error);
  CHECK_THROWS_AS(root_of(Rational(2), 0), std::domain_error);
  CHECK_THROWS_AS(power_of_ten(Rational(1001)), std::domain_error);
}

TEST_CASE("logarithm: the inverse brings back what was put in", "[engine][logarithm]") {
  for (char const* text : {"0.00120", "3.7e-11", "2.5", "0.0416666", "12.5"}) {
    auto const x = number(text);
    CHECK((power_of_ten(log10_of(x)) - x).absolute() <= x * Rational::power_of_ten(4 - logarithm_digits));
  }
}
