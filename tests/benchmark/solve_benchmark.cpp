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
#include "tests/benchmark/problems.h"

using namespace molewright;

namespace {

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
