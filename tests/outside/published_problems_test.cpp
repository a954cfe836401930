// Worked problems of open textbooks (tests/data/problems_public.tsv): every one that needs only the relations of the engine must
// come out at the value that was recomputed apart from this program. Kinds and rows out of reach are named and counted here.
#include <catch2/catch.hpp>
#include <cstdio>
#include <fstream>
#include <map>
#include <set>
#include <sstream>
#include <string>
#include <vector>

#include "engine/solver.h"
#include "engine/tsv.h"

using namespace molewright;

namespace {

struct Row {
  std::string id, source, kind, reaction, givens, excess, find, published, recomputed, note;
  bool agrees = false;
};

std::vector<Row> rows() {
  std::ifstream file(std::string(MOLEWRIGHT_TEST_DATA) + "/problems_public.tsv", std::ios::binary);
  REQUIRE(file.good());
  std::ostringstream text;
  text << file.rdbuf();
  auto const whole = text.str();
  TsvTable const table(whole);
  std::vector<Row> out;
  for (std::size_t r = 0; r < table.size(); ++r) {
    auto const cell = [&](char const* column) { return std::string(table.cell(r, table.column(column))); };
    out.push_back({cell("id"), cell("source"), cell("kind"), cell("reaction"), cell("givens"), cell("excess"), cell("find"),
                   cell("published"), cell("recomputed"), cell("note"), cell("agrees") == "yes"});
  }
  return out;
}

// Kinds that need relations which the engine does not have, and how many rows of each the table holds.
std::map<std::string, int> const kinds_out_of_reach{
    {"combustion-analysis", 5},
    {"density", 6},
    {"empirical-formula", 5},
    {"gas-mixture", 3},
    {"gas-volume", 7},
    {"hydrate", 5},
    {"ideal-gas", 6},
    {"ideal-gas-stoichiometry", 7},
    {"ion-concentration", 6},
    {"ksp", 15},
    {"mass-fraction", 10},
    {"mixing", 4},
    {"molality", 11},
    {"mole-fraction", 9},
    {"molecular-formula", 3},
    {"pH-mixing", 7},
    {"pH-strong", 21},
    {"percent-composition", 5},
    {"ppm", 3},
    {"volume-fraction", 1},
};

// Rows of kinds within reach that need more than the kind's own relations.
std::map<std::string, std::string> const rows_out_of_reach{
    {"p49b68a5405", "molar mass from the density of a gas"},
    {"pa05b54e860", "molar mass from the gas law"},
    {"pbac1a841b7", "atoms within a molecule"},
    {"pee48cea8e3", "masses from the densities of liquids"},
    {"p77c9b5eb61", "masses from the densities of liquids"},
    {"pe74275b807", "mass fraction of a sample"},
    {"p1d5cf435cf", "mass fraction of a sample"},
    {"p29237c0089", "mass fraction of a sample"},
    {"p798d203c03", "mass fraction of a sample"},
    {"pa6dfae9eda", "mass fraction of a sample"},
    {"p6e7620e654", "yield over several steps"},
    {"p35b5ba729c", "yield of what is used up, not of a product"},
    {"p8ddfa52cfc", "a substance without a formula"},
    {"p3fcae46100", "concentration after mixing two solutions that react"},
    {"p532abacb73", "volume of a solution taken over from the reactant to the product"},
    {"pf40a56e2bc", "ions of a dissolved salt"},
    {"pae6b35c7fa", "ions of a dissolved salt"},
};

// Published answers that differ from ours at the printed figures. For each the table has the reason in its note, but for those
// whose difference lies within that between two tables of atomic weights, or in the rounding of a tie.
std::set<std::string> const published_differs{
    "p0e0752a38f", "p0f9a43a6a2", "p101e370f8f", "p22b64d6088", "p291187b68a", "p4042183026", "p57233410ba", "p5ae21c19be",
    "p5b71673752", "p6194520abb", "p6746bbfc85", "p6d7fc34085", "p7d71349f1c", "p91bcd175e6", "p97f0636ba9", "p987738ca80",
    "p989f5f47cd", "pa5396e205d", "pb0c250d7f8", "pb93c4ae64f", "pd8bb3f35ed", "pd9ae2ba3dd", "pf72ff0178b", "pfed1ed865f"};

std::string problem_text(Row const& row) {
  std::string out = "problem " + row.id + '\n';
  if (!row.reaction.empty()) out += "reaction " + row.reaction + '\n';
  std::string_view givens = row.givens;
  while (!givens.empty()) {
    auto const end = givens.find("; ");
    out += "given " + std::string(givens.substr(0, end)) + '\n';
    givens = end == std::string_view::npos ? std::string_view{} : givens.substr(end + 2);
  }
  if (!row.excess.empty()) out += "excess " + row.excess + '\n';
  out += "find " + row.find;
  auto const unit = row.published.substr(row.published.find(' ') + 1);
  if (unit != "species") out += " in " + unit;
  return out + '\n';
}

/// The problem worked, or nothing, with the reason printed by Catch.
std::optional<Worked> work(Row const& row) {
  auto const file = parse_problems(problem_text(row));
  for (auto const& fault : file.faults) UNSCOPED_INFO(show(fault, row.id));
  if (!file.faults.empty() || file.problems.size() != 1) return std::nullopt;
  auto result = solve(file.problems.front(), {});
  if (auto const* fault = std::get_if<PlacedFault>(&result)) {
    UNSCOPED_INFO(sentence(fault->fault));
    return std::nullopt;
  }
  return std::get<Worked>(std::move(result));
}

bool within_reach(Row const& row) { return !kinds_out_of_reach.count(row.kind) && !rows_out_of_reach.count(row.id); }

constexpr int recomputed_figures = 6;  // the table's recomputed column is printed to six figures or until it ends
}  // namespace

TEST_CASE("published problems: what is out of reach is named and counted", "[outside][solver]") {
  std::map<std::string, int> counted;
  std::set<std::string> seen;
  int reached = 0;
  for (auto const& row : rows()) {
    if (kinds_out_of_reach.count(row.kind)) ++counted[row.kind];
    if (rows_out_of_reach.count(row.id)) seen.insert(row.id);
    reached += within_reach(row);
  }
  CHECK(counted == kinds_out_of_reach);
  CHECK(seen.size() == rows_out_of_reach.size());
  CHECK(rows().size() == 344);
  CHECK(reached == 188);
}

TEST_CASE("published problems: each comes out at the recomputed value", "[outside][solver]") {
  for (auto const& row : rows()) {
    if (!within_reach(row)) continue;
    INFO(row.source << '\n' << problem_text(row));
    auto const worked = work(row);
    REQUIRE(worked.has_value());
    for (auto const& working : worked->accepted) {
      auto const& answer = working.finds.front();
      if (answer.figures == 0) {
        CHECK(answer.text == row.recomputed);
        continue;
      }
      auto const expected = parse_decimal(row.recomputed);
      REQUIRE(ok(expected));
      auto const& ours = working.nodes[static_cast<std::size_t>(answer.node)].value.number;
      CAPTURE(unrounded(ours));
      CHECK(round_to_figures(ours, recomputed_figures, Rounding::half_even) == value(expected).value);
    }
  }
}

TEST_CASE("published problems: where the published answer differs, the reason is known", "[outside][solver]") {
  std::set<std::string> differs;
  for (auto const& row : rows()) {
    if (!within_reach(row)) continue;
    auto const worked = work(row);
    REQUIRE(worked.has_value());
    auto const& answer = worked->accepted.front().finds.front();
    auto const published = row.published.substr(0, row.published.find(' '));
    auto const read = parse_decimal(published);
    if (answer.figures == 0 || !ok(read)) {
      if (answer.text == published) continue;
    } else {
      auto const& ours = worked->accepted.front().nodes[static_cast<std::size_t>(answer.node)].value.number;
      if (round_to_place(ours, value(read).last_place, Rounding::half_up) == value(read).value) continue;
      bool const zeros = value(read).ambiguous();  // 1680 may have three figures
      if (zeros && round_to_figures(ours, value(read).certain_figures, Rounding::half_up) == value(read).value) continue;
    }
    differs.insert(row.id);
    std::string const reason = !row.note.empty() ? row.note : row.agrees ? "atomic weights to fewer figures, or a tie" : "";
    std::printf("  %-12s %-48s published %-16s ours %-12s %s\n", row.id.c_str(), row.source.c_str(), row.published.c_str(),
                row.recomputed.c_str(), reason.c_str());
    CHECK(!reason.empty());
  }
  CHECK(differs == published_differs);
}
