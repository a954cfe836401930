#include "engine/element.h"

#include <catch2/catch.hpp>
#include <cstdlib>
#include <fstream>
#include <map>
#include <sstream>

#include "engine/formula.h"
#include "tests/engine/table_file.h"

namespace molewright {
namespace {

struct Weight {
  char const* symbol;
  char const* abridged;
  char const* two_decimals;
  char const* one_decimal;
  char const* whole;
  char const* source;
};

TEST_CASE("element: weights of the four tables", "[engine][element]") {
  auto const c = GENERATE(values<Weight>({
      {"H", "1.0080", "1.01", "1.0", "1", "IUPAC 2021, rounded by hand"},
      {"C", "12.011", "12.01", "12.0", "12", "IUPAC 2021, rounded by hand"},
      {"O", "15.999", "16.00", "16.0", "16", "IUPAC 2021, rounded by hand"},
      {"Cl", "35.45", "35.45", "35.5", "35.5", "IUPAC 2021; whole: common practice, no source"},
      {"Cu", "63.546", "63.55", "63.5", "63.5", "IUPAC 2021; whole: common practice, no source"},
      {"Mg", "24.305", "24.31", "24.3", "24", "IUPAC 2021, a tie at two decimals goes up"},
      {"Fe", "55.845", "55.85", "55.8", "56", "IUPAC 2021, a tie at two decimals goes up"},
      {"Pb", "207.2", "207.20", "207.2", "207", "IUPAC 2021, one decimal only"},
      {"Tc", "97", "97", "97", "97", "no standard atomic weight: mass number, IUPAC table of 4 May 2022"},
      {"Og", "294", "294", "294", "294", "no standard atomic weight: mass number, IUPAC table of 4 May 2022"},
  }));
  CAPTURE(c.symbol, c.source);
  CHECK(AtomicWeights{WeightTable::abridged, {}}.weight(c.symbol).text == c.abridged);
  CHECK(AtomicWeights{WeightTable::two_decimals, {}}.weight(c.symbol).text == c.two_decimals);
  CHECK(AtomicWeights{WeightTable::one_decimal, {}}.weight(c.symbol).text == c.one_decimal);
  CHECK(AtomicWeights{WeightTable::whole, {}}.weight(c.symbol).text == c.whole);
}

TEST_CASE("element: a course overrides a weight", "[engine][element]") {
  AtomicWeights weights;
  weights.overrides.push_back({"Ar", value(parse_decimal("39.9"))});
  CHECK(weights.weight("Ar").text == "39.9");
  CHECK(weights.weight("Ne").text == "20.180");
  CHECK_THROWS_AS(weights.weight("Xx"), std::invalid_argument);
}

TEST_CASE("element: 118 in order, each found by its symbol", "[engine][element]") {
  REQUIRE(elements().size() == 118);
  for (std::size_t i = 0; i < elements().size(); ++i) {
    Element const& element = elements()[i];
    CAPTURE(element.symbol);
    CHECK(element.atomic_number == static_cast<int>(i) + 1);
    CHECK(find_element(element.symbol) == &element);
    CHECK(element.abridged.empty() == !element.mass_number.empty());
  }
  CHECK(find_element("S")->other_spelling == "sulphur");
  CHECK(find_element("Al")->other_spelling == "aluminum");
  CHECK(find_element("Cs")->name == "caesium");
  for (char const* text : {"", "h", "Xx", "L", "NA", "Naa", "₂", "1"}) {
    CAPTURE(text);
    CHECK(find_element(text) == nullptr);
  }
}

/// Half a unit, or `units` whole ones, of the last digit printed in the abridged table.
double last_digit(std::string const& abridged) {
  std::size_t const point = abridged.find('.');
  double unit = 1;
  for (std::size_t i = point + 1; point != std::string::npos && i < abridged.size(); ++i) unit /= 10;
  return unit;
}

std::string after(std::string const& text, std::string const& mark, std::size_t from, char until) {
  std::size_t const at = text.find(mark, from);
  if (at == std::string::npos) return "";
  std::size_t const begin = at + mark.size();
  return text.substr(begin, text.find(until, begin) - begin);
}

TEST_CASE("element: weights, names and numbers agree with the Blue Obelisk data", "[engine][element][outside]") {
  std::ifstream file("/usr/share/bodr/elements.xml");
  if (!file) {
    WARN("not checked: the package bodr is not installed");
    return;
  }
  std::ostringstream text;
  text << file.rdbuf();
  std::string const xml = text.str();
  // Edition 10 of that data carries older values of these two: 78.96 and 95.96.
  std::map<std::string, double> const revised = {{"Se", 0.02}, {"Mo", 0.02}};
  int seen = 0;
  for (Element const& element : elements()) {
    if (element.abridged.empty()) continue;
    std::size_t const at = xml.find("<atom id=\"" + element.symbol + "\"");
    CAPTURE(element.symbol);
    REQUIRE(at != std::string::npos);
    std::size_t const mass_at = xml.find("bo:mass\"", at);
    double const theirs = std::strtod(after(xml, ">", mass_at, '<').c_str(), nullptr);
    double const ours = std::strtod(element.abridged.c_str(), nullptr);
    auto const known = revised.find(element.symbol);
    CHECK(std::abs(theirs - ours) <= (known != revised.end() ? known->second : 1.001 * last_digit(element.abridged)));
    CHECK(after(xml, "bo:atomicNumber\">", at, '<') == std::to_string(element.atomic_number));
    ++seen;
  }
  CHECK(seen == 84);
}

/// Sum of the abridged weights, and what unabridged and older weights may change in it: one unit of each atom's last digit.
struct Mass {
  double sum = 0, slack = 0;
};

Mass molar_mass(Formula const& formula) {
  AtomicWeights const weights;
  Rational sum;
  Mass mass;
  for (auto const& [symbol, count] : formula.composition()) {
    Decimal const weight = weights.weight(symbol);
    sum += weight.value * Rational(count);
    mass.slack += static_cast<double>(count) * last_digit(weight.text);
  }
  mass.sum = sum.to_double();
  return mass;
}

/// Half a unit of the sixth figure, the last one that Open Babel prints.
double sixth_figure(double mass) { return mass < 100 ? 0.00005 : 0.0005; }

TEST_CASE("element: molar masses agree with Open Babel's, as recorded", "[engine][element][outside]") {
  test::TableFile const file("molar_masses_openbabel.tsv");
  REQUIRE(file.table.size() == 46);
  for (std::size_t row = 0; row < file.table.size(); ++row) {
    std::string const formula = file.cell(row, "formula");
    CAPTURE(formula);
    auto const read = parse_formula(formula);
    REQUIRE(ok(read));
    Mass const mass = molar_mass(value(read));
    double const theirs = std::strtod(file.cell(row, "molar_mass").c_str(), nullptr);
    CHECK(std::abs(mass.sum - theirs) <= mass.slack + sixth_figure(theirs));
    CHECK(mass.slack < 0.001 * mass.sum);  // an atom too few or too many would show
  }
}

TEST_CASE("element: Open Babel prints the masses recorded", "[engine][element][outside]") {
#ifdef __EMSCRIPTEN__
  WARN("not checked: no other programs here");
#else
  if (std::system("command -v obabel >/dev/null 2>&1") != 0) {
    WARN("not checked: Open Babel is not installed");
    return;
  }
  test::TableFile const file("molar_masses_openbabel.tsv");
  // Titles are numbers, for Open Babel cuts a title that begins with a bracket.
  std::string command = "printf '";
  for (std::size_t row = 0; row < file.table.size(); ++row)
    command += file.cell(row, "smiles") + "\\t" + std::to_string(row) + "\\n";
  command += "' | obabel -ismi -otxt --append MW 2>/dev/null";
  std::FILE* const pipe = popen(command.c_str(), "r");
  REQUIRE(pipe != nullptr);
  int row = 0, lines = 0;
  char mass[64];
  while (std::fscanf(pipe, "%d %63s", &row, mass) == 2) {
    CHECK(file.cell(static_cast<std::size_t>(row), "molar_mass") == mass);
    ++lines;
  }
  pclose(pipe);
  CHECK(lines == static_cast<int>(file.table.size()));
#endif
}

}  // namespace
}  // namespace molewright
