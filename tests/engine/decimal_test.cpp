#include "engine/decimal.h"

#include <catch2/catch.hpp>

using namespace molewright;

namespace {
constexpr auto point = DecimalMark::point;
constexpr auto comma = DecimalMark::comma;
}  // namespace

TEST_CASE("decimal: value, figures and last place of what was typed", "[engine][decimal]") {
  struct Case {
    char const* text;
    DecimalMark mark;
    char const* value;  ///< exact
    int figures, certain, last_place;
    char const* source;
  };
  // Figures: ASTM E29 by way of the project's rules for rounding; counted by hand.
  auto const c = GENERATE(values<Case>({
      {"0.250", point, "1/4", 3, 3, -3, "leading zeros do not count"},
      {"0.00450", point, "9/2000", 3, 3, -5, "leading zeros do not count"},
      {"2.50e-3", point, "1/400", 3, 3, -5, "e-notation"},
      {"2.50E-3", point, "1/400", 3, 3, -5, "e-notation"},
      {"2.50e+3", point, "2500", 3, 3, 1, "e-notation"},
      {"2.50×10^-3", point, "1/400", 3, 3, -5, "cross and caret"},
      {"2.50 x 10⁻³", point, "1/400", 3, 3, -5, "letter x and superscripts"},
      {"2.50*10^-3", point, "1/400", 3, 3, -5, "asterisk"},
      {"2.50·10-3", point, "1/400", 3, 3, -5, "dot, superscript lost"},
      {"2.50 × 10**-3", point, "1/400", 3, 3, -5, "as a program writes powers"},
      {"2.50 × 10³", point, "2500", 3, 3, 1, "superscript"},
      {"2.50\u202F×\u202F10⁺³", point, "2500", 3, 3, 1, "narrow blanks"},
      {"10^-5", point, "1/100000", 1, 1, -5, "a power alone has one figure"},
      {"-10⁻⁵", point, "-1/100000", 1, 1, -5, "a power alone has one figure"},
      {"1200", point, "1200", 4, 2, 0, "trailing zeros are in doubt"},
      {"1200.", point, "1200", 4, 4, 0, "a point removes the doubt"},
      {"1.20e3", point, "1200", 3, 3, 1, "scientific notation removes the doubt"},
      {"1 250", point, "1250", 4, 3, 0, "groups of three"},
      {"1\u00A0250\u2009000", point, "1250000", 7, 3, 0, "groups of three, other blanks"},
      {"0.123 456", point, "1929/15625", 6, 6, -6, "groups of three behind the point"},
      {".5", point, "1/2", 1, 1, -1, "no zero in front"},
      {"-1.2", point, "-6/5", 2, 2, -1, "hyphen"},
      {"\u22121.2", point, "-6/5", 2, 2, -1, "minus sign"},
      {"\u20131.2", point, "-6/5", 2, 2, -1, "en dash"},
      {"+1.2", point, "6/5", 2, 2, -1, "plus sign"},
      {"0", point, "0", 1, 1, 0, "nought has one figure"},
      {"0.00", point, "0", 1, 1, -2, "nought has one figure"},
      {"0010", point, "10", 2, 1, 0, "not octal"},
      {"0,250", comma, "1/4", 3, 3, -3, "comma"},
      {"0.250", comma, "1/4", 3, 3, -3, "a point is read in a course with a comma too"},
      {"2,5e-3", comma, "1/400", 2, 2, -4, "comma with exponent"},
      {"  0.250 ", point, "1/4", 3, 3, -3, "blanks round it"},
  }));
  CAPTURE(c.text, c.source);
  auto const got = parse_decimal(c.text, c.mark);
  REQUIRE(ok(got));
  auto const& number = value(got);
  CHECK(number.value.text() == c.value);
  CHECK(number.figures == c.figures);
  CHECK(number.certain_figures == c.certain);
  CHECK(number.last_place == c.last_place);
  CHECK(number.ambiguous() == (c.figures != c.certain));
}

TEST_CASE("decimal: the longest number at the start", "[engine][decimal]") {
  struct Case {
    char const* text;
    DecimalMark mark;
    char const* taken;
  };
  auto const c = GENERATE(values<Case>({
      {"25.0mL", point, "25.0"},
      {"2e", point, "2"},
      {"2 eggs", point, "2"},
      {"5e3x", point, "5e3"},
      {"2.5 x 10 mL", point, "2.5"},
      {"2.5 × 3", point, "2.5"},
      {"1.2.3", point, "1.2"},
      {"1,720", point, "1"},
      {"23,45, 23,50", comma, "23,45"},
      {"1200, ", comma, "1200"},
      {"1 25", point, "1"},
      {"1 2500", point, "1"},
      {"0 250", point, "0"},
      {"1234 567", point, "1234"},
      {"10 mL", point, "10"},
      {"10-3", point, "10"},
      {"24.65 - 1.20", point, "24.65"},
      {"3.0e-2.5", point, "3.0e-2"},
  }));
  CAPTURE(c.text);
  auto const got = read_decimal(c.text, c.mark);
  REQUIRE(ok(got));
  CHECK(std::string_view(c.text).substr(0, value(got).length) == c.taken);
  CHECK(value(got).number.text == c.taken);
}

TEST_CASE("decimal: what is no number", "[engine][decimal]") {
  struct Case {
    std::string text;
    char const* id;
    std::size_t offset;
    char const* sentence;
  };
  auto const c = GENERATE(values<Case>({
      {"", "not-a-number", 0, "the number is missing, expected a digit"},
      {"   ", "not-a-number", 3, "the number is missing, expected a digit"},
      {"nan", "not-a-number", 0, "not a number, expected a digit"},
      {"inf", "not-a-number", 0, "not a number, expected a digit"},
      {".", "not-a-number", 0, "not a number, expected a digit"},
      {"-", "not-a-number", 1, "not a number, expected a digit"},
      {"--5", "not-a-number", 1, "not a number, expected a digit"},
      {"-x", "not-a-number", 1, "not a number, expected a digit"},
      {"0x1F", "not-a-number", 1, "not a number to its end, expected the end of the number"},
      {" 1.2.3", "not-a-number", 4, "not a number to its end, expected the end of the number"},
      {"1,720", "not-a-number", 1, "a comma inside a number, expected a decimal point or the end of the number"},
      {"12 g", "not-a-number", 2, "not a number to its end, expected the end of the number"},
      {std::string(500, '7'), "number-too-long", 0, "a number of 500 digits, expected at most 100"},
      {"1e100", "exponent-too-large", 2, "a power of ten beyond the limit, expected an exponent from -99 to 99"},
      {"1e-99999999999999999999", "exponent-too-large", 2,
       "a power of ten beyond the limit, expected an exponent from -99 to 99"},
      {"1 × 10⁹⁹⁹", "exponent-too-large", 7, "a power of ten beyond the limit, expected an exponent from -99 to 99"},
  }));
  CAPTURE(c.text);
  auto const got = parse_decimal(c.text);
  REQUIRE_FALSE(ok(got));
  CHECK(fault(got).id == c.id);
  CHECK(fault(got).offset == c.offset);
  CHECK(sentence(fault(got)) == c.sentence);
}

TEST_CASE("decimal: 100 digits are a number", "[engine][decimal]") {
  auto const got = parse_decimal("0." + std::string(99, '3'));
  REQUIRE(ok(got));
  CHECK(value(got).figures == 99);
  CHECK(value(got).value < Rational(1, 3));
  CHECK(Rational(1, 3) - value(got).value < Rational::power_of_ten(-99));
  CHECK(ok(parse_decimal(std::string(100, '9') + "e-99")));
}

TEST_CASE("decimal: printed as typed", "[engine][decimal]") {
  struct Case {
    char const* text;
    DecimalMark read, print;
    char const *plain, *pretty;
  };
  auto const c = GENERATE(values<Case>({
      {"0.250", point, point, "0.250", "0.250"},
      {"1200", point, point, "1200", "1200"},
      {"1200.", point, point, "1200.", "1200."},
      {"2.50 x 10^-3", point, point, "2.50e-3", "2.50 × 10⁻³"},
      {"2.50e3", point, comma, "2,50e3", "2,50 × 10³"},
      {"1 250", point, point, "1250", "1\u202F250"},
      {"10^-5", point, point, "1e-5", "10⁻⁵"},
      {"-1.2", point, point, "-1.2", "\u22121.2"},
      {".5", point, point, "0.5", "0.5"},
      {"0,250", comma, point, "0.250", "0.250"},
      {"0,250", comma, comma, "0,250", "0,250"},
  }));
  CAPTURE(c.text);
  auto const number = parse_decimal(c.text, c.read);
  REQUIRE(ok(number));
  auto const printed = print_as_typed(value(number), c.print);
  CHECK(printed.plain == c.plain);
  CHECK(printed.pretty == c.pretty);
}

TEST_CASE("decimal: a number that nobody typed is printed to its last place", "[engine][decimal]") {
  Decimal number;
  number.value = Rational(1, 4);
  number.last_place = -3;
  CHECK(print_as_typed(number).plain == "0.250");
}
