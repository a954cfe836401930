#include "engine/unit.h"

#include <catch2/catch.hpp>
#include <cstdio>
#include <fstream>
#include <set>
#include <stdexcept>

#include "engine/decimal.h"

using namespace molewright;

TEST_CASE("unit: spellings and their usual form", "[engine][unit]") {
  struct Case {
    char const *text, *symbol;
  };
  // The spellings are those that the program promises to read; the usual forms follow the SI Brochure.
  auto const c = GENERATE(values<Case>({
      {"g", "g"},
      {"gram", "g"},
      {"grams", "g"},
      {"Grams", "g"},
      {"kg", "kg"},
      {"Kg", "kg"},
      {"mg", "mg"},
      {"µg", "ug"},
      {"μg", "ug"},
      {"ug", "ug"},
      {"L", "L"},
      {"l", "L"},
      {"litre", "L"},
      {"liters", "L"},
      {"Litres", "L"},
      {"mL", "mL"},
      {"ml", "mL"},
      {"mls", "mL"},
      {"millilitres", "mL"},
      {"µL", "uL"},
      {"ul", "uL"},
      {"dm3", "dm3"},
      {"dm³", "dm3"},
      {"dm^3", "dm3"},
      {"cm3", "cm3"},
      {"cm^3", "cm3"},
      {"cm³", "cm3"},
      {"cc", "cm3"},
      {"m3", "m3"},
      {"m^3", "m3"},
      {"mol", "mol"},
      {"mole", "mol"},
      {"moles", "mol"},
      {"Moles", "mol"},
      {"mmol", "mmol"},
      {"µmol", "umol"},
      {"kmol", "kmol"},
      {"mol/L", "mol/L"},
      {"mol L-1", "mol/L"},
      {"mol L^-1", "mol/L"},
      {"mol L⁻¹", "mol/L"},
      {"mol·L⁻¹", "mol/L"},
      {"mol.L-1", "mol/L"},
      {"mol*L^-1", "mol/L"},
      {"mol l−1", "mol/L"},
      {"mol L^(-1)", "mol/L"},
      {"mol / l", "mol/L"},
      {"moles per litre", "mol/L"},
      {"mole/litre", "mol/L"},
      {"M", "mol/L"},
      {"molar", "mol/L"},
      {"mM", "mmol/L"},
      {"µM", "umol/L"},
      {"mmol/L", "mmol/L"},
      {"mol dm-3", "mol/dm3"},
      {"mol dm⁻³", "mol/dm3"},
      {"mol/dm^3", "mol/dm3"},
      {"mol dm^-3", "mol/dm3"},
      {"mol.dm-3", "mol/dm3"},
      {"mol/m3", "mol/m3"},
      {"g/mol", "g/mol"},
      {"g mol-1", "g/mol"},
      {"kg/mol", "kg/mol"},
      {"g/L", "g/L"},
      {"mg/L", "mg/L"},
      {"ug/L", "ug/L"},
      {"g/mL", "g/mL"},
      {"g/cm3", "g/cm3"},
      {"g cm-3", "g/cm3"},
      {"kg/m3", "kg/m3"},
      {"kg m-3", "kg/m3"},
      {"g/dm3", "g/dm3"},
      {"g/100 mL", "g/100 mL"},
      {"g/100mL", "g/100 mL"},
      {"g per 100 ml", "g/100 mL"},
      {"g / (100 cm3)", "g/100 cm3"},
      {"g/100 g", "g/100 g"},
      {"% (w/v)", "% (w/v)"},
      {"%(w/v)", "% (w/v)"},
      {"% w/v", "% (w/v)"},
      {"% (m/v)", "% (w/v)"},
      {"% (w/w)", "% (w/w)"},
      {"% by mass", "% (w/w)"},
      {"% (v/v)", "% (v/v)"},
      {"%", "%"},
      {"percent", "%"},
      {"per cent", "%"},
      {"ppm", "ppm"},
      {"ppb", "ppb"},
      {"mol/kg", "mol/kg"},
      {"mol kg-1", "mol/kg"},
      {"kPa", "kPa"},
      {"Pa", "Pa"},
      {"hPa", "hPa"},
      {"atm", "atm"},
      {"bar", "bar"},
      {"mbar", "mbar"},
      {"mmHg", "mmHg"},
      {"mm Hg", "mmHg"},
      {"torr", "torr"},
      {"Torr", "torr"},
      {"K", "K"},
      {"°C", "degC"},
      {"ºC", "degC"},
      {"℃", "degC"},
      {"degC", "degC"},
      {"deg C", "degC"},
      {"degrees Celsius", "degC"},
      {"J", "J"},
      {"kJ", "kJ"},
      {"KJ", "kJ"},
      {"kJ/mol", "kJ/mol"},
      {"kJ mol-1", "kJ/mol"},
      {"J/mol", "J/mol"},
      {"J/(g K)", "J/(g K)"},
      {"J g-1 K-1", "J/(g K)"},
      {"J/g/K", "J/(g K)"},
      {"J/(g·°C)", "J/(g degC)"},
      {"J/mol·K", "J/(mol K)"},
      {"J/mol K-1", "J/(mol K)"},
      {"kJ/K", "kJ/K"},
      {"L·atm", "L·atm"},
      {"L atm mol-1 K-1", ""},
      {"s", "s"},
      {"min", "min"},
      {"minutes", "min"},
      {"h", "h"},
      {"hours", "h"},
      {"atoms", "atoms"},
      {"atom", "atoms"},
      {"molecules", "molecules"},
      {"ions", "ions"},
      {"Molecules", "molecules"},
      {"formula units", "formula units"},
      {"formula unit", "formula units"},
      {"particles", "particles"},
      {"1/mol", "1/mol"},
      {"mol-1", "1/mol"},
      {"mol2 L-2", "mol2/L2"},
      {"M^2", "mol2/L2"},
      {"mol/L2", "mol/L2"},
      {"mol L-2", "mol/L2"},
      {"M s-1", "mol/(L s)"},
      {"1/(M s)", "L/(mol s)"},
      {"tn", "tn"},
      {"lb", "lb"},
      {"oz", "oz"},
      {"tonnes", "t"},
      {" mL ", "mL"},
  }));
  CAPTURE(c.text);
  auto const got = parse_unit(c.text);
  if (c.symbol[0] == '\0') {  // a blank does not join a positive power: "L" is all that is read
    CHECK_FALSE(ok(got));
    return;
  }
  REQUIRE(ok(got));
  CHECK(value(got).symbol == c.symbol);
  // What we write is read as the same unit, plain or pretty.
  CHECK(unit(value(got).symbol) == value(got));
  CHECK(unit(value(got).symbol).symbol == c.symbol);
  auto const prefix = read_unit(value(got).symbol);
  REQUIRE(ok(prefix));
  CHECK(value(prefix).unit == value(got));
  auto const again = parse_unit(pretty(value(got)));
  REQUIRE(ok(again));
  CHECK(value(again) == value(got));
}

TEST_CASE("unit: the longest unit at the start", "[engine][unit]") {
  struct Case {
    char const *text, *taken;
  };
  auto const c = GENERATE(values<Case>({
      {"mL of water", "mL"},
      {"g K2SO4", "g"},
      {"g KCl", "g"},
      {"mol NaCl in 1 L", "mol"},
      {"mol L-1 solution", "mol L-1"},
      {"L of 1 M", "L"},
      {"g, dried", "g"},
      {"g.", "g"},
      {"g/student", "g"},
      {"mol per person", "mol"},
      {"g/100 sheets", "g"},
      {"J/(g K", "J"},
      {"mL-12.5 mL", "mL"},
      {"°C at noon", "°C"},
      {"% of it", "%"},
      {"m Hg", "m"},
      {"h later", "h"},
      {"g × 3", "g"},
      {"mol2O", ""},
  }));
  CAPTURE(c.text);
  auto const got = read_unit(c.text);
  if (c.taken[0] == '\0') {
    CHECK_FALSE(ok(got));
    return;
  }
  REQUIRE(ok(got));
  CHECK(std::string_view(c.text).substr(0, value(got).length) == c.taken);
}

TEST_CASE("unit: what is no unit", "[engine][unit]") {
  struct Case {
    std::string text;
    char const* id;
    std::size_t offset;
    char const* sentence;
  };
  auto const c = GENERATE(values<Case>({
      {"", "unknown-unit", 0, "the unit is missing, expected a unit such as g, mL or mol/L"},
      {"ML", "unknown-unit", 0, "unknown unit \"ML\", expected mL"},
      {"Mg", "unknown-unit", 0, "unknown unit \"Mg\", expected mg"},
      {"MG", "unknown-unit", 0, "unknown unit \"MG\", expected mg"},
      {"G", "unknown-unit", 0, "unknown unit \"G\", expected g"},
      {"gramms", "unknown-unit", 0, "unknown unit \"gramms\", expected grams"},
      {"xyzzy", "unknown-unit", 0, "unknown unit \"xyzzy\", expected a unit such as g, mL or mol/L"},
      {"mol/Q", "unknown-unit", 4, "unknown unit \"Q\", expected a unit such as g, mL or mol/L"},
      {"mol/", "unknown-unit", 4, "the unit is missing, expected a unit such as g, mL or mol/L"},
      {"J/(g K", "unknown-unit", 6, "a bracket that is not closed in a unit, expected ')'"},
      {"g AgCl", "text-after-unit", 2, "\"AgCl\" after the unit, expected the end of the unit"},
      {" mL)", "text-after-unit", 3, "more after the unit, expected the end of the unit"},
      {"m^99", "text-after-unit", 1, "\"^99\" after the unit, expected the end of the unit"},
      {"1/2 L", "unknown-unit", 2, "unknown unit \"2\", expected a unit such as g, mL or mol/L"},
      {"g/0 mL", "unknown-unit", 2, "unknown unit \"0\", expected a unit such as g, mL or mol/L"},
      {"g·g·g·g·g·g·g·g·g·g·g·g·g", "unit-too-large", 0,
       "a unit of too many factors or too high a power, expected a unit such as g, mL or mol/L"},
      {"cm3^9", "unit-too-large", 0, "a unit of too many factors or too high a power, expected a unit such as g, mL or mol/L"},
      {"\xFF", "unknown-unit", 0, "the unit is missing, expected a unit such as g, mL or mol/L"},
  }));
  CAPTURE(c.text);
  auto const got = parse_unit(c.text);
  REQUIRE_FALSE(ok(got));
  CHECK(fault(got).id == c.id);
  CHECK(fault(got).offset == c.offset);
  CHECK(sentence(fault(got)) == c.sentence);
}

TEST_CASE("unit: exact conversions", "[engine][unit]") {
  struct Case {
    char const *number, *from, *to, *result, *source;
  };
  auto const c = GENERATE(values<Case>({
      {"25.0", "mL", "L", "0.025", "SI Brochure"},
      {"1", "L", "dm3", "1", "SI Brochure: 1 L = 1 dm3"},
      {"1", "m3", "L", "1000", "SI Brochure"},
      {"0.1", "mol/L", "mol/m3", "100", "SI Brochure"},
      {"5", "% (w/v)", "g/L", "50", "5 g in 100 mL"},
      {"5", "g/100 mL", "g/L", "50", "5 g in 100 mL"},
      {"1", "g/cm3", "kg/m3", "1000", "SI Brochure"},
      {"22.0", "degC", "K", "295.15", "SI Brochure: t/°C = T/K - 273.15"},
      {"0", "K", "degC", "-273.15", "SI Brochure"},
      {"1", "J/(g degC)", "J/(g K)", "1", "an interval of 1 °C is one of 1 K"},
      {"1", "atm", "kPa", "101.325", "SI Brochure, 8th ed."},
      {"1", "atm", "torr", "760", "NIST SP 811"},
      {"1", "kPa", "J/L", "1", "Pa m3 = J"},
      {"1", "ppm", "%", "0.0001", "definition"},
      {"1", "molecules", "%", "100", "both are pure numbers"},
  }));
  CAPTURE(c.number, c.from, c.to, c.source);
  auto const number = parse_decimal(c.number);
  auto const result = parse_decimal(c.result);
  REQUIRE(ok(number));
  REQUIRE(ok(result));
  REQUIRE(convertible(unit(c.from), unit(c.to)));
  CHECK(convert(value(number).value, unit(c.from), unit(c.to)) == value(result).value);
  CHECK(convert(value(result).value, unit(c.to), unit(c.from)) == value(number).value);
  if (unit(c.from).offset.sign() == 0 && unit(c.to).offset.sign() == 0) {
    CHECK(value(number).value * conversion_factor(unit(c.from), unit(c.to)) == value(result).value);
  }
}

TEST_CASE("unit: dimensions keep apart what must not be mixed", "[engine][unit]") {
  CHECK_FALSE(convertible(unit("g"), unit("mol")));
  CHECK_FALSE(convertible(unit("m"), unit("L")));
  CHECK_FALSE(convertible(unit("mol/L"), unit("mol/kg")));
  CHECK_FALSE(convertible(unit("% (w/v)"), unit("%")));
  CHECK(unit("mL") == unit("cm3"));
  CHECK(unit("K") != unit("degC"));
  CHECK(Unit() == unit(""));
  CHECK_THROWS_AS(unit("furlongs"), std::invalid_argument);
}

TEST_CASE("unit: names of dimensions", "[engine][unit]") {
  struct Case {
    char const *unit, *name;
  };
  auto const c = GENERATE(values<Case>({
      {"mL", "volume"},
      {"g", "mass"},
      {"mol", "amount"},
      {"M", "amount concentration"},
      {"g/L", "mass concentration or density"},
      {"g/mol", "molar mass"},
      {"mol/kg", "molality"},
      {"kPa", "pressure"},
      {"kJ", "energy"},
      {"J/(g K)", "specific heat capacity"},
      {"%", "a pure number"},
      {"degC", "temperature"},
      {"g2/L", "mass² × length⁻³"},
      {"mol2/L2", "length⁻⁶ × amount²"},
  }));
  CAPTURE(c.unit);
  CHECK(dimension_name(unit(c.unit).dimension) == c.name);
}

TEST_CASE("unit: as printed for people", "[engine][unit]") {
  struct Case {
    char const *unit, *printed;
  };
  auto const c = GENERATE(values<Case>({
      {"mol/L", "mol/L"},
      {"mol dm-3", "mol/dm³"},
      {"ug", "µg"},
      {"uM", "µmol/L"},
      {"degC", "°C"},
      {"J/(g degC)", "J/(g °C)"},
      {"g/100 mL", "g/100 mL"},
      {"g/100 cm3", "g/100 cm³"},
      {"1/mol", "mol⁻¹"},
      {"1/dm3", "dm⁻³"},
      {"% (w/v)", "% (w/v)"},
      {"formula units", "formula units"},
  }));
  CAPTURE(c.unit);
  CHECK(pretty(unit(c.unit)) == c.printed);
}

TEST_CASE("unit: every row of the table is read by its symbol and printed form", "[engine][unit]") {
  auto const symbols = unit_symbols();
  CHECK(symbols.size() > 50);
  CHECK(std::set<std::string>(symbols.begin(), symbols.end()).size() == symbols.size());
  for (auto const& symbol : symbols) {
    CAPTURE(symbol);
    Unit const found = unit(symbol);
    CHECK(found.symbol == symbol);
    CHECK(found.factor.sign() > 0);
    auto const read = parse_unit(pretty(found));
    REQUIRE(ok(read));
    CHECK(value(read) == found);
  }
}

#ifndef __EMSCRIPTEN__
namespace {
/// Number of `to` in `from` by GNU units; empty where it fails.
std::string gnu(std::string const& from, std::string const& to) {
  std::string const command = "/usr/bin/units -t -o %.17g '" + from + "' '" + to + "' 2>/dev/null";
  FILE* pipe = popen(command.c_str(), "r");
  REQUIRE(pipe != nullptr);
  char line[256] = "";
  std::string const text = std::fgets(line, sizeof line, pipe) == nullptr ? "" : line;
  return pclose(pipe) == 0 ? text.substr(0, text.find('\n')) : "";
}
}  // namespace

TEST_CASE("unit: conversions agree with GNU units", "[engine][unit][outside]") {
  if (!std::ifstream("/usr/bin/units").good()) {
    WARN("GNU units is not installed (/usr/bin/units): its conversions were not compared");
    return;
  }
  struct Case {
    char const *from, *to, *gnu_from, *gnu_to;
  };
  std::vector<Case> const cases{
      {"mL", "L", "mL", "L"},
      {"cm3", "mL", "cm^3", "mL"},
      {"dm3", "m3", "dm^3", "m^3"},
      {"m3", "L", "m^3", "liter"},
      {"uL", "mL", "microliter", "mL"},
      {"cL", "dL", "cL", "dL"},
      {"kg", "g", "kg", "g"},
      {"mg", "kg", "mg", "kg"},
      {"ug", "mg", "microgram", "mg"},
      {"ng", "ug", "ng", "microgram"},
      {"t", "kg", "tonne", "kg"},
      {"tn", "kg", "shortton", "kg"},
      {"lb", "g", "pound", "g"},
      {"oz", "g", "ounce", "g"},
      {"mmol", "mol", "mmol", "mol"},
      {"umol", "mmol", "micromol", "mmol"},
      {"kmol", "mol", "kmol", "mol"},
      {"nmol", "umol", "nmol", "micromol"},
      {"mol/L", "mol/m3", "mol/L", "mol/m^3"},
      {"mM", "mol/dm3", "mmol/L", "mol/dm^3"},
      {"uM", "mmol/L", "micromol/L", "mmol/L"},
      {"nM", "uM", "nmol/L", "micromol/L"},
      {"g/mol", "kg/mol", "g/mol", "kg/mol"},
      {"g/L", "kg/m3", "g/L", "kg/m^3"},
      {"mg/L", "g/dm3", "mg/L", "g/dm^3"},
      {"g/mL", "g/cm3", "g/mL", "g/cm^3"},
      {"kg/m3", "g/mL", "kg/m^3", "g/mL"},
      {"g/100 mL", "g/L", "g/(100 mL)", "g/L"},
      {"% (w/v)", "mg/mL", "g/(100 mL)", "mg/mL"},
      {"mol/kg", "mmol/g", "mol/kg", "mmol/g"},
      {"kPa", "Pa", "kPa", "Pa"},
      {"hPa", "mbar", "hPa", "millibar"},
      {"MPa", "bar", "MPa", "bar"},
      {"atm", "kPa", "atm", "kPa"},
      {"bar", "atm", "bar", "atm"},
      {"mmHg", "Pa", "mmHg", "Pa"},
      {"torr", "kPa", "torr", "kPa"},
      {"torr", "mmHg", "torr", "mmHg"},
      {"kJ", "J", "kJ", "J"},
      {"MJ", "kJ", "MJ", "kJ"},
      {"cal", "J", "cal_th", "J"},
      {"kcal", "kJ", "1000 cal_th", "kJ"},
      {"kJ/mol", "J/mmol", "kJ/mol", "J/mmol"},
      {"J/(g K)", "kJ/(kg K)", "J/(g K)", "kJ/(kg K)"},
      {"L·atm", "J", "L atm", "J"},
      {"J/(mol K)", "L·kPa/(mol K)", "J/(mol K)", "L kPa/(mol K)"},
      {"min", "s", "min", "s"},
      {"h", "min", "hour", "min"},
      {"d", "h", "day", "hour"},
      {"ms", "s", "ms", "s"},
      {"m", "dm", "m", "dm"},
      {"cm", "mm", "cm", "mm"},
      {"nm", "m", "nm", "m"},
      {"ppm", "%", "ppm", "percent"},
      {"ppb", "ppm", "ppb", "ppm"},
      {"mol2/L2", "mmol2/mL2", "mol^2/L^2", "mmol^2/mL^2"},
  };
  REQUIRE(cases.size() >= 40);
  std::set<std::string> compared;
  for (auto const& c : cases) {
    CAPTURE(c.from, c.to);
    REQUIRE(convertible(unit(c.from), unit(c.to)));
    std::string const theirs = gnu(c.gnu_from, c.gnu_to);
    CAPTURE(theirs);
    REQUIRE_FALSE(theirs.empty());
    double const ours = conversion_factor(unit(c.from), unit(c.to)).to_double();
    CHECK(ours == Approx(std::stod(theirs)).epsilon(1e-13));
    compared.insert(unit(c.from).symbol);
    compared.insert(unit(c.to).symbol);
  }
  // Every unit of the table that is more than a count or a fraction has been compared.
  for (auto const& symbol : unit_symbols()) {
    CAPTURE(symbol);
    bool const counted = unit(symbol).dimension == Dimension();
    CHECK((counted || symbol == "K" || symbol == "degC" || compared.count(symbol) == 1));
  }
  // Temperatures have a zero of their own there: tempC(25).
  CHECK(convert(Rational(25), unit("degC"), unit("K")).to_double() == Approx(std::stod(gnu("tempC(25)", "K"))).epsilon(1e-13));
}
#endif
