// Solving: how the time grows with the number of givens, and every published problem of tests/data, from text and with its plan
// known.
#include <benchmark/benchmark.h>
#include <time.h>

#include <algorithm>
#include <fstream>
#include <optional>
#include <sstream>
#include <string>
#include <vector>

#include "engine/solver.h"
#include "engine/tsv.h"

using namespace molewright;

namespace {

/// So many solutions of one salt poured together: two givens each.
std::string mixing(int solutions) {
  std::string text = "problem mixing\n", mix = "mix ";
  for (int i = 1; i <= solutions; ++i) {
    auto const stage = std::to_string(i);
    text += "given c" + stage + "(NaCl) = 0." + std::to_string(100 + 7 * i) + " mol/L\n";
    text += "given V" + stage + "(NaCl) = " + std::to_string(20 + 3 * i) + ".0 mL\n";
    mix += (i == 1 ? "" : " + ") + stage;
  }
  auto const last = std::to_string(solutions + 1);
  return text + mix + " -> " + last + "\nfind c" + last + "(NaCl)\n";
}

/// One dilution after another: three givens for the first, two for each further one.
std::string diluting(int steps) {
  std::string text = "problem diluting\ngiven c1(KOH) = 2.00 mol/L\n";
  for (int i = 1; i <= steps; ++i) {
    auto const from = std::to_string(i), to = std::to_string(i + 1);
    text += "given V" + from + "(KOH, taken) = " + std::to_string(4 + i) + ".00 mL\n";
    text += "given V" + to + "(KOH) = " + std::to_string(100 + 50 * i) + ".0 mL\n";
    text += "dilute " + from + " -> " + to + '\n';
  }
  return text + "find c" + std::to_string(steps + 1) + "(KOH)\n";
}

/// Two or three reactants that may each limit, two givens each.
std::string limiting(int reactants) {
  std::vector<std::string> const solutes =
      reactants == 2 ? std::vector<std::string>{"Na2CO3", "HCl"} : std::vector<std::string>{"KMnO4", "FeSO4", "H2SO4"};
  std::string text = "problem limiting\nreaction ";
  text += reactants == 2 ? "Na2CO3 + HCl -> NaCl + CO2 + H2O\n" : "KMnO4 + FeSO4 + H2SO4 -> MnSO4 + Fe2(SO4)3 + K2SO4 + H2O\n";
  for (std::size_t i = 0; i < solutes.size(); ++i) {
    text += "given c(" + solutes[i] + ") = 0." + std::to_string(150 + 11 * i) + " mol/L\n";
    text += "given V(" + solutes[i] + ") = " + std::to_string(20 + 5 * i) + ".0 mL\n";
  }
  return text + "find limiting reagent\nfind m(" + (reactants == 2 ? "CO2" : "MnSO4") + ") in g\n";
}

/// A question with so many parts, each on a solution of its own: two givens and one find each.
std::string parts(int count) {
  static char const* const solutes[] = {"NaCl", "KBr",  "CaCl2", "AgNO3", "CuSO4",   "K2CrO4",
                                        "NaOH", "HNO3", "MgSO4", "KMnO4", "Na2S2O3", "K2Cr2O7"};
  std::string givens, finds;
  for (int i = 0; i < count; ++i) {
    std::string const solute = solutes[i];
    givens += "given c(" + solute + ") = 0." + std::to_string(150 + 11 * i) + " mol/L\n";
    givens += "given V(" + solute + ") = " + std::to_string(20 + 5 * i) + ".0 mL\n";
    finds += "find m(" + solute + ") in g\n";
  }
  return "problem parts\n" + givens + finds;
}

/// The one problem of a text; nothing where it does not read or cannot be solved.
std::optional<Worked> worked(std::string const& text) {
  auto const read = parse_problems(text);
  if (read.problems.size() != 1) return std::nullopt;
  auto solved = solve(read.problems.front(), {});
  auto* const found = std::get_if<Worked>(&solved);
  return found ? std::optional<Worked>(std::move(*found)) : std::nullopt;
}

void from_text(benchmark::State& state, std::string const& text) {
  auto const plan = worked(text);
  if (!plan) return state.SkipWithError("the problem is not solved");
  for (auto _ : state) benchmark::DoNotOptimize(worked(text));
  state.counters["givens"] = static_cast<double>(plan->problem.givens.size());
  state.counters["finds"] = static_cast<double>(plan->problem.finds.size());
}

void from_plan(benchmark::State& state, std::string const& text) {
  auto const plan = worked(text);
  if (!plan) return state.SkipWithError("the problem is not solved");
  auto const numbers = plan->problem;
  Conventions const conventions;
  if (!std::holds_alternative<Worked>(rework(*plan, numbers, conventions))) return state.SkipWithError("the plan does not run");
  for (auto _ : state) benchmark::DoNotOptimize(rework(*plan, numbers, conventions));
}

#define GROWTH(family, first, last)                                                                             \
  void solve_##family(benchmark::State& state) { from_text(state, family(static_cast<int>(state.range(0)))); }  \
  BENCHMARK(solve_##family)->DenseRange(first, last);                                                           \
  void rework_##family(benchmark::State& state) { from_plan(state, family(static_cast<int>(state.range(0)))); } \
  BENCHMARK(rework_##family)->DenseRange(first, last)

GROWTH(mixing, 2, 11);
GROWTH(diluting, 1, 12);
GROWTH(limiting, 2, 3);
GROWTH(parts, 1, 12);

/// The published problems in the problem language, the solved ones.
std::vector<std::string> const& published() {
  static std::vector<std::string> const all = [] {
    std::ifstream file(std::string(MOLEWRIGHT_TEST_DATA) + "/problems_public.tsv", std::ios::binary);
    std::ostringstream whole;
    whole << file.rdbuf();
    auto const bytes = whole.str();
    TsvTable const table(bytes);
    std::vector<std::string> texts;
    for (std::size_t r = 0; r < table.size(); ++r) {
      auto const cell = [&](char const* name) { return std::string(table.cell(r, table.column(name))); };
      std::string text = "problem " + cell("id") + '\n';
      if (auto const reaction = cell("reaction"); !reaction.empty()) text += "reaction " + reaction + '\n';
      auto const givens = cell("givens");
      for (auto const item : split_list(givens)) text += (item.substr(0, 4) == "mix " ? "" : "given ") + std::string(item) + '\n';
      if (auto const excess = cell("excess"); !excess.empty()) text += "excess " + excess + '\n';
      auto const answer = cell("published");
      auto const blank = answer.find(' ');
      auto const asked = blank == std::string::npos ? std::string() : answer.substr(blank + 1);
      bool const is_unit = !asked.empty() && asked != "species" && asked != "formula";
      text += "find " + cell("find") + (is_unit ? " in " + asked : "") + '\n';
      if (worked(text)) texts.push_back(text);
    }
    return texts;
  }();
  return all;
}

/// What this thread has spent, in microseconds: what else the machine does is left out.
double spent() {
  timespec now{};
  clock_gettime(CLOCK_THREAD_CPUTIME_ID, &now);
  return static_cast<double>(now.tv_sec) * 1e6 + static_cast<double>(now.tv_nsec) * 1e-3;
}

/// Best time in microseconds of `run(i)` for each of the published problems, `count` of them; each round of the benchmark runs
/// all of them once.
template <class Run>
void each(benchmark::State& state, std::size_t count, Run run) {
  if (count == 0) return state.SkipWithError("no problem was solved");
  std::vector<double> best(count, 1e9);
  for (auto _ : state) {
    for (std::size_t i = 0; i < count; ++i) {
      auto const start = spent();
      run(i);
      best[i] = std::min(best[i], spent() - start);
    }
  }
  auto const longest = static_cast<std::size_t>(std::max_element(best.begin(), best.end()) - best.begin());
  auto const& text = published()[longest];
  state.SetLabel("longest: " + text.substr(0, text.find('\n')));
  std::sort(best.begin(), best.end());
  state.counters["problems"] = static_cast<double>(count);
  state.counters["median_us"] = best[count / 2];
  state.counters["nine_tenths_us"] = best[count * 9 / 10];
  state.counters["longest_us"] = best.back();
  state.SetItemsProcessed(state.iterations() * static_cast<std::int64_t>(count));
}

void published_from_text(benchmark::State& state) {
  each(state, published().size(), [](std::size_t i) { benchmark::DoNotOptimize(worked(published()[i])); });
}
BENCHMARK(published_from_text)->Unit(benchmark::kMillisecond);

void published_from_plan(benchmark::State& state) {
  std::vector<Worked> plans;
  for (auto const& text : published()) plans.push_back(*worked(text));
  Conventions const conventions;
  each(state, plans.size(), [&](std::size_t i) { benchmark::DoNotOptimize(rework(plans[i], plans[i].problem, conventions)); });
}
BENCHMARK(published_from_plan)->Unit(benchmark::kMillisecond);

}  // namespace
