#include "engine/measured.h"

#include <catch2/catch.hpp>

using namespace molewright;

TEST_CASE("measured: a number with a unit", "[engine][measured]") {
  struct Case {
    char const* text;
    DecimalMark mark;
    char const *value, *symbol;  ///< exact value; "-" where no unit was written
    int figures;
  };
  constexpr auto point = DecimalMark::point;
  auto const c = GENERATE(values<Case>({
      {"25.0 mL", point, "25", "mL", 3},
      {"1.72g", point, "43/25", "g", 3},
      {"1.72 × 10^0 g", point, "43/25", "g", 3},
      {"250 g/100 mL", point, "250", "g/100 mL", 3},
      {"0.1M", point, "1/10", "mol/L", 1},
      {"2.5e-3mol", point, "1/400", "mol", 2},
      {"2.50 x 10⁻³ mol dm⁻³", point, "1/400", "mol/dm3", 3},
      {"\u22124.0\u00A0°C", point, "-4", "degC", 2},
      {"1 250 mL", point, "1250", "mL", 4},
      {"1,72 g", DecimalMark::comma, "43/25", "g", 3},
      {"12%", point, "12", "%", 2},
      {"6.02e23 formula units", point, "602000000000000000000000", "formula units", 3},
      {"  5.00\tkJ/mol \u202F", point, "5", "kJ/mol", 3},
      {"7", point, "7", "-", 1},
      {" 7.00 ", point, "7", "-", 3},
      {"12. g", point, "12", "g", 2},
  }));
  CAPTURE(c.text);
  auto const got = parse_measured(c.text, c.mark);
  REQUIRE(ok(got));
  CHECK(value(got).number.value.text() == c.value);
  CHECK(value(got).number.figures == c.figures);
  CHECK((value(got).unit ? value(got).unit->symbol : "-") == c.symbol);
}

TEST_CASE("measured: what is wrong and where", "[engine][measured]") {
  struct Case {
    std::string text;
    char const* id;
    std::size_t offset;
    char const* sentence;
  };
  auto const c = GENERATE(values<Case>({
      {"", "not-a-number", 0, "the number is missing, expected a digit"},
      {"  ", "not-a-number", 0, "the number is missing, expected a digit"},
      {"mL", "not-a-number", 0, "not a number, expected a digit"},
      {" about 5 g", "not-a-number", 1, "not a number, expected a digit"},
      {"25.0 ML", "unknown-unit", 5, "unknown unit \"ML\", expected mL"},
      {"25.0 mol/Q", "unknown-unit", 9, "unknown unit \"Q\", expected a unit such as g, mL or mol/L"},
      {"1.72 g AgCl", "text-after-unit", 7, "\"AgCl\" after the unit, expected the end of the unit"},
      {"1,720 g", "not-a-number", 1, "a comma inside a number, expected a decimal point or the end of the number"},
      {"1.7.2 g", "not-a-number", 3, "not a number to its end, expected the end of the number"},
      {"1e999 g", "exponent-too-large", 2, "a power of ten beyond the limit, expected an exponent from -99 to 99"},
      {std::string(500, '1') + " g", "number-too-long", 0, "a number of 500 digits, expected at most 100"},
      {"1.72 \xFFg", "invalid-utf8", 5, "a byte that is not UTF-8"},
      {"nan g", "not-a-number", 0, "not a number, expected a digit"},
  }));
  CAPTURE(c.text);
  auto const got = parse_measured(c.text);
  REQUIRE_FALSE(ok(got));
  CHECK(fault(got).id == c.id);
  CHECK(fault(got).offset == c.offset);
  CHECK(sentence(fault(got)) == c.sentence);
}

TEST_CASE("measured: 100 digits and a unit", "[engine][measured]") {
  auto const got = parse_measured(std::string(100, '7') + " mL");
  REQUIRE(ok(got));
  CHECK(value(got).number.value.text() == std::string(100, '7'));
}
