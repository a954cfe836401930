// Figures carried through a working, against Python's decimal (tests/data/figures_python.tsv; make_figures_table.py writes it
// again).
#include <catch2/catch.hpp>
#include <fstream>
#include <map>
#include <sstream>

#include "engine/tsv.h"
#include "tests/engine/problem_text.h"

using namespace molewright;

TEST_CASE("figures: what an answer can carry, through products, sums and logarithms", "[outside][figures]") {
  std::ifstream file(std::string(MOLEWRIGHT_TEST_DATA) + "/figures_python.tsv", std::ios::binary);
  REQUIRE(file.good());
  std::ostringstream text;
  text << file.rdbuf();
  auto const whole = text.str();
  TsvTable const table(whole);
  std::map<std::string, int> kinds;
  for (std::size_t r = 0; r < table.size(); ++r) {
    auto const cell = [&](char const* column) { return std::string(table.cell(r, table.column(column))); };
    auto const worked = test::solved(cell("problem"));
    CAPTURE(cell("problem"), cell("answer"));
    auto const ours = parse_decimal(worked.accepted.front().finds.front().text);
    auto const theirs = parse_decimal(cell("answer"));
    REQUIRE((ok(ours) && ok(theirs)));
    CHECK(value(ours).value == value(theirs).value);
    CHECK(value(ours).last_place == std::stoi(cell("last_place")));
    ++kinds[cell("kind")];
  }
  CHECK(kinds.size() == 14);
  for (auto const& [kind, rows] : kinds) CHECK(rows == 30);
}
