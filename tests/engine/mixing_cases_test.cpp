// Every row of net_ionic_cases.tsv, and what must hold of any answer.
#include <algorithm>
#include <map>

#include "engine/mixing.h"
#include "engine/substance.h"
#include "tests/engine/table_file.h"

namespace molewright {
namespace {

/// A side as a set: species with state, and its coefficient.
using Terms = std::map<std::string, std::string>;
Terms terms(std::vector<Species> const& side) {
  Terms result;
  for (auto const& species : side) result[plain(species.formula) + plain(species.formula.state)] = species.coefficient.text();
  return result;
}

void check_equation(std::string const& expected, Equation const& got) {
  CAPTURE(expected, plain(got));
  auto const read = parse_equation(expected);
  REQUIRE(ok(read));
  CHECK(terms(value(read).left) == terms(got.left));
  CHECK(terms(value(read).right) == terms(got.right));
}

std::vector<std::string> sorted_list(std::string_view cell, char separator) {
  std::vector<std::string> result;
  for (auto text : split_cells(cell, separator)) {
    while (!text.empty() && text.front() == ' ') text.remove_prefix(1);
    if (!text.empty() && text != "none") result.emplace_back(text);
  }
  std::sort(result.begin(), result.end());
  return result;
}

}  // namespace

TEST_CASE("mixing: the published and derived net ionic equations", "[engine][mixing]") {
  test::TableFile const file("net_ionic_cases.tsv");
  REQUIRE(file.table.size() == 78);
  for (std::size_t row = 0; row < file.table.size(); ++row) {
    std::string const text = file.cell(row, "reactant_1") + " + " + file.cell(row, "reactant_2");
    std::string const kind = file.cell(row, "kind");
    CAPTURE(file.cell(row, "id"), text, file.cell(row, "source"));
    auto const mixture = read_mixture(text);
    REQUIRE(ok(mixture));
    auto const result = mix(value(mixture));
    REQUIRE(ok(result));
    auto const& got = value(result);
    CAPTURE(got.because);
    if (kind == "no reaction") {
      CHECK_FALSE(got.reacts);
      CHECK(got.because.find("dissolved") != std::string::npos);
      continue;
    }
    REQUIRE(got.reacts);
    CHECK(got.kind == kind);
    check_equation(file.cell(row, "molecular"), got.molecular);
    check_equation(file.cell(row, "complete_ionic"), got.ionic);
    check_equation(file.cell(row, "net_ionic"), got.net_ionic);
    auto spectators = got.spectators;
    std::sort(spectators.begin(), spectators.end());
    CHECK(spectators == sorted_list(file.cell(row, "spectators"), ','));
  }
}

TEST_CASE("mixing: as an examiner worked them by hand", "[engine][mixing]") {
  test::TableFile const file("reactions_examined.tsv");
  REQUIRE(file.table.size() == 80);
  for (std::size_t row = 0; row < file.table.size(); ++row) {
    std::string const text = file.cell(row, "reactants"), expected = file.cell(row, "net_ionic");
    CAPTURE(text);
    auto const mixture = read_mixture(text);
    REQUIRE(ok(mixture));
    auto const result = mix(value(mixture));
    REQUIRE(ok(result));
    CAPTURE(value(result).because);
    CHECK(value(result).reacts == (expected != "nothing"));
    if (value(result).reacts && expected != "nothing") check_equation(expected, value(result).net_ionic);
  }
}

TEST_CASE("mixing: every pair of reagents gives balanced equations with true spectators, or a reason", "[engine][mixing]") {
  // Salts of every kind, and what is mixed with them; some of the mixtures are absurd, and none may be answered wrongly balanced.
  std::vector<std::string> reagents = {"HCl",  "H2SO4", "HNO3", "CH3COOH", "H3PO4", "H2C2O4", "H2S",  "NH3", "H2O", "O2", "Cl2",
                                       "Br2",  "I2",    "H2O2", "CO2",     "SO2",   "Zn",     "Cu",   "Na",  "Al",  "Fe", "Mg",
                                       "Ag^+", "OH^-",  "H^+",  "SO4^2-",  "Fe^3+", "MnO4^-", "C3H8", "CuO", "C",   "NaH"};
  std::size_t step = 0;
  for (auto const& row : solubilities())
    if (step++ % 4 == 0) reagents.push_back(row.formula);
  std::size_t reacting = 0;
  for (std::size_t i = 0; i < reagents.size(); ++i)
    for (std::size_t j = i; j < reagents.size(); ++j) {
      std::string const text = i == j ? reagents[i] : reagents[i] + " + " + reagents[j];
      auto const mixture = read_mixture(text);
      CAPTURE(text);
      REQUIRE(ok(mixture));
      auto const result = mix(value(mixture));
      REQUIRE(ok(result));
      auto const& got = value(result);
      if (got.because.empty()) FAIL("no reason");
      if (!got.reacts) continue;
      ++reacting;
      bool right = is_balanced(got.molecular) && is_balanced(got.ionic) && is_balanced(got.net_ionic);
      auto const stands = [](std::vector<Species> const& side, std::string const& ion) {
        return std::any_of(side.begin(), side.end(), [&](Species const& species) { return plain(species.formula) == ion; });
      };
      for (auto const& ion : got.spectators)
        right = right && stands(got.ionic.left, ion) && stands(got.ionic.right, ion) && !stands(got.net_ionic.left, ion) &&
                !stands(got.net_ionic.right, ion);
      if (!right) {
        CAPTURE(plain(got.molecular), plain(got.ionic), plain(got.net_ionic));
        FAIL("not balanced, or a spectator that is none");
      }
    }
  CHECK(reacting > 1000);
}

}  // namespace molewright
