#include <catch2/catch.hpp>
#include <cmath>
#include <fstream>
#include <sstream>

#include "engine/decimal.h"
#include "engine/tsv.h"

using namespace molewright;

namespace {

std::string text_of(std::string const& name) {
  std::ifstream file(std::string(MOLEWRIGHT_TEST_DATA) + "/" + name);
  REQUIRE(file);
  std::ostringstream text;
  text << file.rdbuf();
  return text.str();
}

Rounding rule_of(std::string_view name) {
  if (name == "half-up") return Rounding::half_up;
  if (name == "half-even") return Rounding::half_even;
  if (name == "truncate") return Rounding::truncate;
  if (name == "up") return Rounding::up;
  REQUIRE(name == "down");
  return Rounding::down;
}

Rational exact(std::string_view text) {
  auto const number = parse_decimal(text);
  CAPTURE(text);
  REQUIRE(ok(number));
  return value(number).value;
}

/// Sums and products of numbers, "x" for times, brackets: what the table's first column holds. Blanks must be taken out first.
class Sum {
 public:
  explicit Sum(std::string text) : text_(std::move(text)) {}
  Rational evaluate() {
    Rational const result = sum();
    REQUIRE(at_ == text_.size());
    return result;
  }

 private:
  bool eat(char c) {
    if (at_ >= text_.size() || text_[at_] != c) return false;
    ++at_;
    return true;
  }
  Rational sum() {
    Rational result = product();
    for (;;) {
      if (eat('+')) {
        result += product();
      } else if (eat('-')) {
        result -= product();
      } else {
        return result;
      }
    }
  }
  Rational product() {
    Rational result = factor();
    for (;;) {
      if (eat('x')) {
        result *= factor();
      } else if (eat('/')) {
        result /= factor();
      } else {
        return result;
      }
    }
  }
  Rational factor() {
    if (eat('(')) {
      Rational const result = sum();
      REQUIRE(eat(')'));
      return result;
    }
    auto const read = read_decimal(std::string_view(text_).substr(at_));
    REQUIRE(ok(read));
    at_ += value(read).length;
    return value(read).number.value;
  }
  std::string text_;
  std::size_t at_ = 0;
};

std::string without(std::string text, std::string const& piece) {
  for (auto at = text.find(piece); at != std::string::npos; at = text.find(piece)) text.erase(at, piece.size());
  return text;
}

/// A long double is enough where the value is far from a tie; the caller checks that it is.
Rational from_long_double(long double x) {
  std::ostringstream text;
  text.precision(17);
  text << std::scientific << x;
  return exact(text.str());
}

/// The value in the first column, and whether it is exact.
Rational value_of(std::string text, bool& is_exact) {
  is_exact = true;
  if (text.rfind("-lg(", 0) == 0) {
    Rational const argument = exact(text.substr(4, text.size() - 5));
    int const power = magnitude(argument);
    if (argument == Rational::power_of_ten(power)) return Rational(-power);
    is_exact = false;
    return from_long_double(-std::log10(std::stold(text.substr(4))));
  }
  if (text.rfind("10^", 0) == 0) {
    is_exact = false;
    return from_long_double(std::pow(10.0L, std::stold(text.substr(3))));
  }
  text = without(text, " (2 exact)");
  auto const equals = text.find(" = ");
  std::string const right = equals == std::string::npos ? "" : text.substr(equals + 3);
  Rational const result = Sum(without(text.substr(0, equals), " ")).evaluate();
  if (!right.empty()) CHECK(result == exact(right));
  return result;
}

}  // namespace

TEST_CASE("rounding: every collected case", "[engine][rounding]") {
  std::string const text = text_of("rounding_cases.tsv");
  TsvTable const table(text);
  REQUIRE(table.size() == 66);
  for (std::size_t row = 0; row < table.size(); ++row) {
    std::string const given(table.cell(row, table.column("value")));
    std::string const how(table.cell(row, table.column("figures_or_place")));
    Rounding const rule = rule_of(table.cell(row, table.column("rule")));
    std::string const expected(table.cell(row, table.column("expected")));
    CAPTURE(given, how, expected);
    bool is_exact = false;
    // A leading minus is a sign of the number, not a difference.
    Rational const v = given[0] == '-' && given[1] != 'l' ? exact(given) : value_of(given, is_exact);
    std::istringstream words(how);
    int count = 0;
    if (how.rfind("to the nearest ", 0) == 0) {
      Rational const step = exact(how.substr(15));
      auto const result = round_to_multiple(v, step, rule);
      CHECK(print_to_place(result, -2, rule).plain == expected);
      CHECK((result / step).is_integer());
      continue;
    }
    words >> count;
    bool const places = how.find("places") != std::string::npos;
    REQUIRE((places || how.find("figures") != std::string::npos));
    auto const printed = places ? print_to_place(v, -count, rule) : print_to_figures(v, count, rule);
    CHECK(printed.plain == expected);
    if (!is_exact && given[0] != '-') {
      // Far from a tie, so that 18 figures of a logarithm or power decide.
      for (auto const& nudged :
           {v * (Rational(1) + Rational::power_of_ten(-15)), v * (Rational(1) - Rational::power_of_ten(-15))}) {
        CHECK((places ? print_to_place(nudged, -count, rule) : print_to_figures(nudged, count, rule)).plain == expected);
      }
    }
  }
}

TEST_CASE("rounding: 300 random numbers as Python's decimal module rounds them", "[engine][rounding]") {
  std::string const text = text_of("rounding_python.tsv");
  TsvTable const table(text);
  REQUIRE(table.size() == 300);
  for (std::size_t row = 0; row < table.size(); ++row) {
    std::string const given(table.cell(row, 0));
    int const figures = std::stoi(std::string(table.cell(row, 1)));
    Rounding const rule = rule_of(table.cell(row, 2));
    auto const expected = parse_decimal(table.cell(row, 3));
    REQUIRE(ok(expected));
    CAPTURE(given, figures, table.cell(row, 2), table.cell(row, 3));
    Rational const v = exact(given);
    CHECK(round_to_figures(v, figures, rule) == value(expected).value);
    CHECK(place_of_figures(v, figures, rule) == value(expected).last_place);
    auto const printed = parse_decimal(print_to_figures(v, figures, rule).plain);
    REQUIRE(ok(printed));
    CHECK(value(printed).value == value(expected).value);
    CHECK(value(printed).last_place == value(expected).last_place);
    CHECK(value(printed).figures == figures);
    CHECK_FALSE(value(printed).ambiguous());
  }
}

TEST_CASE("rounding: the exponent of the leading digit is exact", "[engine][rounding]") {
  struct Case {
    char const* number;
    int magnitude;
  };
  auto const c = GENERATE(values<Case>({
      {"1", 0},
      {"9.999999999999999999999", 0},
      {"10", 1},
      {"0.1", -1},
      {"0.09999999999999999999999999", -2},
      {"-0.001", -3},
      {"0.00100000000000000000000000001", -3},
      {"1e-30", -30},
      {"1e30", 30},
      {"9.99e29", 29},
      {"-123456", 5},
      {"2e-99", -99},
  }));
  CAPTURE(c.number);
  CHECK(magnitude(exact(c.number)) == c.magnitude);
}

TEST_CASE("rounding: printing", "[engine][rounding]") {
  struct Case {
    char const* number;
    int place;
    char const *plain, *pretty;
    char const* why;
  };
  auto const c = GENERATE(values<Case>({
      {"0.0187", -4, "0.0187", "0.0187", "plain"},
      {"1200", 1, "1.20e3", "1.20 × 10³", "a zero before the point is in doubt"},
      {"1200", 0, "1.200e3", "1.200 × 10³", "a zero before the point is in doubt"},
      {"1200", -1, "1200.0", "1200.0", "a figure behind the point: none in doubt"},
      {"-0.00004567", -7, "-4.57e-5", "\u22124.57 × 10⁻⁵", "small, true minus sign"},
      {"0.0001", -4, "0.0001", "0.0001", "not below 0.0001"},
      {"0.00009996", -6, "0.000100", "0.000100", "after rounding not below 0.0001"},
      {"999999", 0, "999999", "999999", "below a million"},
      {"999999.5", 0, "1.000000e6", "1.000000 × 10⁶", "after rounding a million"},
      {"1234567.8", -1, "1.2345678e6", "1.2345678 × 10⁶", "a million or more"},
      {"-0.0049", -2, "0.00", "0.00", "nought has no sign"},
      {"0", -2, "0.00", "0.00", "nought"},
      {"3", 2, "0", "0", "nought at a coarse place"},
      {"0.0000026", -6, "3e-6", "3 × 10⁻⁶", "one figure has no point"},
  }));
  CAPTURE(c.number, c.place, c.why);
  auto const printed = print_to_place(exact(c.number), c.place, Rounding::half_up);
  CHECK(printed.plain == c.plain);
  CHECK(printed.pretty == c.pretty);
}

TEST_CASE("rounding: printing with a comma", "[engine][rounding]") {
  CHECK(print_to_figures(exact("0.01875"), 3, Rounding::half_up, DecimalMark::comma).plain == "0,0188");
  CHECK(print_to_figures(exact("1200"), 3, Rounding::half_up, DecimalMark::comma).pretty == "1,20 × 10³");
}

TEST_CASE("rounding: figures that a last place leaves", "[engine][rounding]") {
  struct Case {
    char const* number;
    int last_place, figures;
    char const* why;
  };
  auto const c = GENERATE(values<Case>({
      {"12.483", -1, 3, "12.5"},
      {"0.03", -2, 1, "0.03"},
      {"9.996", -2, 4, "printed 10.00"},
      {"0.996", -2, 3, "printed 1.00"},
      {"0.001", -2, 1, "nothing left: at least one"},
      {"0", -3, 1, "nought has one"},
      {"-295.15", -1, 4, "295.2 K"},
  }));
  CAPTURE(c.number, c.last_place, c.why);
  CHECK(figures_at(exact(c.number), c.last_place) == c.figures);
}

TEST_CASE("rounding: unrounded values", "[engine][rounding]") {
  struct Case {
    char const* number;  ///< a rational
    char const* text;
  };
  auto const c = GENERATE(values<Case>({
      {"171984/100000", "1.71984"},
      {"1/3", "0.333333333333"},
      {"2/3", "0.666666666667"},
      {"250", "250"},
      {"-5/2", "-2.5"},
      {"0", "0"},
      {"1234567", "1.234567e6"},
      {"1/32768", "3.0517578125e-5"},
      {"300000000000001/100000000000000", "3.00000000000"},  // rounded: the zeros are figures
      {"1000000000001/10000000000000", "0.100000000000"},
  }));
  CAPTURE(c.number);
  CHECK(unrounded(Rational::from_text(c.number)) == c.text);
}

TEST_CASE("rounding: the course's rule for ties", "[engine][rounding]") {
  CHECK(nearest_by(Ties::half_up) == Rounding::half_up);
  CHECK(nearest_by(Ties::half_even) == Rounding::half_even);
}
