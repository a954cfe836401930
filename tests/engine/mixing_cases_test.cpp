// Every row of net_ionic_cases.tsv, and what must hold of any answer.
#include <algorithm>
#include <map>

#include "engine/mixing.h"
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

}  // namespace molewright
