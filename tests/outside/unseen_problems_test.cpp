// Problems of the first year, typed as different teachers type them (tests/data/unseen_problems.tsv): each was worked apart from
// this program, from its own table of weights, before this program saw it.
#include <catch2/catch.hpp>
#include <fstream>
#include <sstream>
#include <string>
#include <vector>

#include "engine/solver.h"
#include "engine/tsv.h"
#include "engine/unit.h"

using namespace molewright;

namespace {

std::vector<std::string> parted(std::string const& text, std::string const& by) {
  std::vector<std::string> out;
  for (std::size_t at = 0; at <= text.size();) {
    auto const end = std::min(text.size(), text.find(by, at));
    out.push_back(text.substr(at, end - at));
    at = end + by.size();
  }
  return out;
}

/// "1.2388549301E+1 L to 3 figures", or a formula.
struct Wanted {
  std::string text, unit;
  int figures = 0;
  bool number = false;
};

Wanted wanted(std::string text) {
  Wanted out;
  if (auto const to = text.find(" to "); to != std::string::npos) {
    out.figures = std::stoi(text.substr(to + 4));
    text.resize(to);
  }
  auto const blank = text.find(' ');
  out.text = text.substr(0, blank);
  if (blank != std::string::npos) out.unit = text.substr(blank + 1);
  out.number = out.text.find('E') != std::string::npos;
  return out;
}
}  // namespace

TEST_CASE("unseen problems: each comes out as worked apart", "[outside][solver]") {
  std::ifstream file(std::string(MOLEWRIGHT_TEST_DATA) + "/unseen_problems.tsv", std::ios::binary);
  REQUIRE(file.good());
  std::ostringstream read;
  read << file.rdbuf();
  auto const whole = read.str();
  TsvTable const table(whole);
  std::size_t answers = 0;
  for (std::size_t row = 0; row < table.size(); ++row) {
    auto const cell = [&](char const* column) { return std::string(table.cell(row, table.column(column))); };
    CAPTURE(cell("id"), cell("problem"));
    auto const problems = parse_problems("problem p; " + cell("problem"));
    for (auto const& found : problems.faults) FAIL_CHECK(sentence(found.fault));
    if (problems.problems.size() != 1) continue;
    auto const result = solve(problems.problems.front(), {});
    if (auto const* found = std::get_if<PlacedFault>(&result)) FAIL_CHECK(sentence(found->fault));
    if (!std::holds_alternative<Worked>(result)) continue;
    auto const& working = std::get<Worked>(result).accepted.front();
    auto const all = parted(cell("answers"), " | ");
    REQUIRE(all.size() == working.finds.size());
    for (std::size_t f = 0; f < all.size(); ++f) {
      auto const want = wanted(all[f]);
      CAPTURE(all[f], working.finds[f].text);
      ++answers;
      if (!want.number) {
        CHECK(working.finds[f].text == want.text);
        continue;
      }
      auto const& value = working.nodes[static_cast<std::size_t>(working.finds[f].node)].value;
      auto const number = value.number.to_double() * value.unit.factor.to_double();
      auto const expected = std::stod(want.text) * (want.unit.empty() ? 1 : unit(want.unit).factor.to_double());
      // The weights are the same; what is left is the working in floating point.
      CHECK(number == Approx(expected).epsilon(2e-6));
      if (want.figures > 0) CHECK(working.finds[f].figures == want.figures);
    }
  }
  CHECK(answers > 300);
}
