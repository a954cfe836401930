#include "engine/rational.h"

#include <boost/multiprecision/cpp_int.hpp>
#include <catch2/catch.hpp>
#include <cmath>
#include <limits>
#include <random>
#include <stdexcept>

using namespace molewright;
using Reference = boost::multiprecision::cpp_rational;

namespace {
constexpr std::int64_t most = std::numeric_limits<std::int64_t>::max();
constexpr std::int64_t least = std::numeric_limits<std::int64_t>::min();

std::string text_of(Reference const& r) { return r.str(); }
bool is_small(Rational const& r) {
  std::int64_t n = 0;
  std::int64_t d = 0;
  return r.fits(n, d);
}
}  // namespace

TEST_CASE("rational: lowest terms and text", "[engine][rational]") {
  CHECK(Rational().text() == "0");
  CHECK(Rational(6, -4).text() == "-3/2");
  CHECK(Rational(-6, -4).text() == "3/2");
  CHECK(Rational(0, -5).text() == "0");
  CHECK(Rational(least).text() == "-9223372036854775808");
  CHECK(Rational(least, least).text() == "1");
  CHECK(Rational(1, least).text() == "-1/9223372036854775808");
  CHECK_THROWS_AS(Rational(1, 0), std::domain_error);
  CHECK_THROWS_AS(Rational(1) / Rational(0), std::domain_error);
  CHECK_THROWS_AS(Rational(0).reciprocal(), std::domain_error);
  CHECK_THROWS_AS(Rational(0).power(-1), std::domain_error);
}

TEST_CASE("rational: reading of digits and text", "[engine][rational]") {
  CHECK(Rational::from_digits("0123") == Rational(123));  // not octal 83
  CHECK(Rational::from_digits("000") == Rational(0));
  CHECK(Rational::from_digits(std::string(300, '0') + "7") == Rational(7));
  CHECK(Rational::from_digits(std::string(300, '9')).text() == std::string(300, '9'));
  CHECK(Rational::from_text("-7/40") == Rational(-7, 40));
  CHECK(Rational::from_text("3") == Rational(3));
  for (auto const* bad : {"", "-", "+3", " 3", "3 ", "1/0", "3/", "/3", "3/-4", "1.5", "1/2/3", "--1"}) {
    CAPTURE(bad);
    CHECK_THROWS_AS(Rational::from_text(bad), std::invalid_argument);
  }
}

TEST_CASE("rational: arithmetic agrees with Boost.Multiprecision", "[engine][rational]") {
  // Sizes from one digit to the edge of 64 bits, so that both forms and the passage between them are met.
  std::mt19937_64 random(7);
  auto const integer = [&] {
    auto const bits = random() % 64;
    auto const size =
        static_cast<std::int64_t>(random() & ((bits == 63 ? 0 : std::uint64_t{1} << bits) - 1) & std::uint64_t{most});
    return (random() & 1) != 0 ? -size : size;
  };
  int small_results = 0;
  int big_results = 0;
  auto const same = [&](Rational const& ours, Reference const& theirs) {
    std::int64_t n = 0;
    std::int64_t d = 0;
    bool const fits = boost::multiprecision::abs(boost::multiprecision::numerator(theirs)) <= most &&
                      boost::multiprecision::denominator(theirs) <= most;
    (fits ? small_results : big_results)++;
    // The small form is used exactly where the value fits.
    return ours.text() == text_of(theirs) && ours.fits(n, d) == fits;
  };
  for (int i = 0; i < 20000; ++i) {
    std::int64_t const a = integer();
    std::int64_t const c = integer();
    std::int64_t b = integer();
    std::int64_t d = integer();
    if (b == 0) b = 1;
    if (d == 0) d = most;
    Rational const x(a, b);
    Rational const y(c, d);
    Reference const rx = Reference(a) / b;
    Reference const ry = Reference(c) / d;
    CAPTURE(a, b, c, d);
    REQUIRE(same(x + y, rx + ry));
    REQUIRE(same(x - y, rx - ry));
    REQUIRE(same(x * y, rx * ry));
    if (c != 0) REQUIRE(same(x / y, rx / ry));
    // Twice through: big operands, and back to small ones.
    REQUIRE(same((x + y) - y, rx));
    REQUIRE(same((x * y) * (x + y), rx * ry * (rx + ry)));
    REQUIRE((x < y) == (rx < ry));
    REQUIRE((x + y < y * y) == (rx + ry < ry * ry));
    REQUIRE((x == y) == (rx == ry));
    REQUIRE(Rational::from_text(x.text()) == x);
  }
  CHECK(small_results > 10000);
  CHECK(big_results > 10000);
}

TEST_CASE("rational: at the edge of 64 bits", "[engine][rational]") {
  Rational const edge(most);
  CHECK(is_small(edge));
  CHECK_FALSE(is_small(edge + Rational(1)));
  CHECK((edge + Rational(1)).text() == "9223372036854775808");
  CHECK(is_small((edge + Rational(1)) - Rational(1)));
  CHECK_FALSE(is_small(Rational(least)));
  CHECK(is_small(-(-edge)));
  CHECK((-Rational(least)).text() == "9223372036854775808");
  Rational x = edge;
  x *= x;
  Rational const same = x;
  x /= same;
  CHECK(x == Rational(1));
  x += x;
  CHECK(x == Rational(2));
  Rational& also_x = x;
  x -= also_x;
  CHECK(x.sign() == 0);
}

TEST_CASE("rational: copies and moves of both forms", "[engine][rational]") {
  Rational big = Rational::power_of_ten(50);
  Rational copy = big;
  copy += Rational(1);
  CHECK(big == Rational::power_of_ten(50));
  CHECK(copy - big == Rational(1));
  Rational small(3, 4);
  small = copy;
  CHECK(small == copy);
  copy = Rational(1, 3);
  CHECK(copy.text() == "1/3");
  Rational taken = std::move(small);
  CHECK(taken - big == Rational(1));
  small = Rational(5);
  CHECK(small == Rational(5));
  Rational& self = taken;
  taken = self;
  CHECK(taken - big == Rational(1));
}

TEST_CASE("rational: floor, digits, powers", "[engine][rational]") {
  CHECK(Rational(-1, 2).floor() == Rational(-1));
  CHECK(Rational(1, 2).floor() == Rational(0));
  CHECK(Rational(-4, 2).floor() == Rational(-2));
  Rational const big = Rational::power_of_ten(40) + Rational(1, 3);
  CHECK(big.floor() == Rational::power_of_ten(40));
  CHECK((-big).floor() == -Rational::power_of_ten(40) - Rational(1));
  CHECK(Rational(-1234, 100).integer_digits() == "12");
  CHECK(Rational(1, 3).integer_digits() == "0");
  CHECK(big.integer_digits() == "1" + std::string(40, '0'));
  CHECK(Rational(2, 3).power(3) == Rational(8, 27));
  CHECK(Rational(2, 3).power(-3) == Rational(27, 8));
  CHECK(Rational(0).power(0) == Rational(1));
  CHECK(Rational(10).power(300) == Rational::power_of_ten(300));
  CHECK(Rational(10).power(-300) == Rational::power_of_ten(-300));
  for (int k = -25; k <= 25; ++k) CHECK(Rational::power_of_ten(k) * Rational::power_of_ten(-k) == Rational(1));
}

TEST_CASE("rational: nearest double", "[engine][rational]") {
  struct Case {
    std::string rational;
    double expected;
    char const* source;
  };
  auto const c = GENERATE(values<Case>({
      {"1/3", 1.0 / 3.0, "IEEE 754: division of exact operands is correctly rounded"},
      {"-7/40", -0.175, "the compiler's own reading of the decimal"},
      {"9007199254740993", 9007199254740992.0, "2^53 + 1 is a tie, to even"},
      {"9007199254740995", 9007199254740996.0, "2^53 + 3 is a tie, to even"},
      {"18014398509481985/2", 9007199254740992.0, "2^53 + 1/2"},
      {"9007199254740993000000000001/1000000000000", 9007199254740994.0, "just above the tie"},
      {"602214076000000000000000", 6.02214076e23, "the compiler's own reading of the decimal"},
      {"9223372036854775807/9223372036854775806", 1.0, "nearer to 1 than to the next double"},
      {"1/9223372036854775807", 1.0842021724855044e-19, "2^-63, nearest"},
  }));
  CAPTURE(c.rational, c.source);
  CHECK(Rational::from_text(c.rational).to_double() == c.expected);
}

TEST_CASE("rational: doubles at the far ends", "[engine][rational]") {
  CHECK(Rational::power_of_ten(308).to_double() == 1e308);
  CHECK(std::isinf(Rational::power_of_ten(310).to_double()));
  CHECK(Rational::power_of_ten(-310).to_double() == 1e-310);  // below the normal range: fewer bits, rounded once
  CHECK((-Rational::power_of_ten(-310)).to_double() == -1e-310);
  Rational const tiniest = Rational(1, 2).power(1074);
  CHECK(tiniest.to_double() == std::numeric_limits<double>::denorm_min());
  CHECK((tiniest / Rational(2)).to_double() == 0.0);  // a tie, to even
  CHECK((tiniest * Rational(3, 4)).to_double() == std::numeric_limits<double>::denorm_min());
  CHECK(Rational::power_of_ten(-400).to_double() == 0.0);
  // Every double is a rational number; it must come back.
  std::mt19937_64 random(3);
  for (int i = 0; i < 2000; ++i) {
    double const x = std::ldexp(static_cast<double>(random() >> 11), static_cast<int>(random() % 600) - 350);
    int exponent = 0;
    double const mantissa = std::frexp(x, &exponent);
    Rational exact(static_cast<std::int64_t>(std::ldexp(mantissa, 53)));
    exact *= Rational(2).power(exponent - 53);
    CAPTURE(x);
    REQUIRE(exact.to_double() == x);
  }
}
