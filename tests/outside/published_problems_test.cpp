// Worked problems of open textbooks (tests/data/problems_public.tsv): every one must come out at the value that was recomputed
// apart from this program.
#include <catch2/catch.hpp>
#include <cstdio>
#include <fstream>
#include <map>
#include <set>
#include <sstream>
#include <string>
#include <vector>

#include "engine/relation.h"
#include "engine/solver.h"
#include "engine/tsv.h"

using namespace molewright;

namespace {

struct Row {
  std::string id, source, kind, reaction, givens, excess, find, published, recomputed, note;
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
                   cell("published"), cell("recomputed"), cell("note")});
  }
  return out;
}

// Published answers that differ from ours at the printed figures. For each the table has the reason in its note: one, that gives
// the published number when the problem is worked that way (published_reasons.py).
std::set<std::string> const published_differs{
    "p0e0752a38f", "p0f9a43a6a2", "p101e370f8f", "p22b64d6088", "p291187b68a", "p2cd1be2310", "p33c8857a05", "p4042183026",
    "p57233410ba", "p5ae21c19be", "p5b71673752", "p6194520abb", "p6746bbfc85", "p6d7fc34085", "p6edf984a0c", "p70603c4b25",
    "p760c6adcdb", "p7d71349f1c", "p85fb2b5aad", "p865c62a22e", "p895c2a37bc", "p91bcd175e6", "p92a502b204", "p97f0636ba9",
    "p987738ca80", "p989f5f47cd", "pa5396e205d", "pa6dfae9eda", "padbbe696bb", "pb0c250d7f8", "pb8fd7c9160", "pb93c4ae64f",
    "pcd88aa24f0", "pce3cc92985", "pd8bb3f35ed", "pd9ae2ba3dd", "pdadccc60f3", "pf72ff0178b", "pfed1ed865f"};

std::string problem_text(Row const& row) {
  std::string out = "problem " + row.id + '\n';
  if (!row.reaction.empty()) out += "reaction " + row.reaction + '\n';
  std::string_view givens = row.givens;
  while (!givens.empty()) {
    auto const end = givens.find("; ");
    auto const item = std::string(givens.substr(0, end));
    out += (item.rfind("mix ", 0) == 0 ? "" : "given ") + item + '\n';
    givens = end == std::string_view::npos ? std::string_view{} : givens.substr(end + 2);
  }
  if (!row.excess.empty()) out += "excess " + row.excess + '\n';
  out += "find " + row.find;
  auto const unit = row.published.substr(row.published.find(' ') + 1);
  if (unit != "species" && unit != "formula" && row.published.find(' ') != std::string::npos) out += " in " + unit;
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

/// Books write the elements of a formula in one order or another.
bool same_formula(std::string const& a, std::string const& b) {
  auto const x = parse_formula(a), y = parse_formula(b);
  return ok(x) && ok(y) && value(x).composition() == value(y).composition() && value(x).charge == value(y).charge;
}

constexpr int recomputed_figures = 6;  // the table's recomputed column is printed to six figures or until it ends
}  // namespace

TEST_CASE("published problems: each comes out at the recomputed value", "[outside][solver]") {
  for (auto const& row : rows()) {
    INFO(row.source << '\n' << problem_text(row));
    auto const worked = work(row);
    CHECK(worked.has_value());
    if (!worked) continue;
    for (auto const& working : worked->accepted) {
      for (auto const& node : working.nodes)
        if (!relation_of(node.relation)) FAIL_CHECK("no entry in the table of relations: " + node.relation);
      auto const& answer = working.finds.front();
      if (answer.figures == 0) {
        CHECK(same_formula(answer.text, row.recomputed));
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
    auto const worked = work(row);
    if (!worked) continue;
    auto const& answer = worked->accepted.front().finds.front();
    auto const published = row.published.substr(0, row.published.find(' '));
    auto const read = parse_decimal(published);
    if (answer.figures == 0 || !ok(read)) {
      if (same_formula(answer.text, published)) continue;
    } else {
      auto const& ours = worked->accepted.front().nodes[static_cast<std::size_t>(answer.node)].value.number;
      if (round_to_place(ours, value(read).last_place, Rounding::half_up) == value(read).value) continue;
      bool const zeros = value(read).ambiguous();  // 1680 may have three figures
      if (zeros && round_to_figures(ours, value(read).certain_figures, Rounding::half_up) == value(read).value) continue;
    }
    differs.insert(row.id);
    std::printf("  %-12s %-48s published %-16s ours %-12s %s\n", row.id.c_str(), row.source.c_str(), row.published.c_str(),
                row.recomputed.c_str(), row.note.c_str());
    CHECK(!row.note.empty());
    for (char const* undecided : {" or ", "reason unknown", "looks like"}) CHECK(row.note.find(undecided) == std::string::npos);
  }
  CHECK(differs == published_differs);
}
