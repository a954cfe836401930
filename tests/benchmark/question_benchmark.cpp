// Solving and making questions, one core each.
#include <benchmark/benchmark.h>

#include <algorithm>
#include <cstdlib>
#include <string>
#include <vector>

#include "app/question_templates.h"
#include "engine/problem.h"
#include "engine/solver.h"
#include "generators/question_maker.h"

using namespace molewright;

namespace {
constexpr char const* precipitate = R"(problem solid
  reaction  BaCl2(aq) + AgNO3(aq) -> AgCl(s) + Ba(NO3)2(aq)
  given     V(BaCl2) = 40.0 mL
  given     c(BaCl2) = 0.150 mol/L
  excess    AgNO3
  find      n(BaCl2) in mol
  find      m(AgCl) in g
  text
    What mass of {name AgCl} forms?
  end
)";
constexpr char const* limiting = R"(problem limit
  reaction  CaCl2(aq) + Na3PO4(aq) -> Ca3(PO4)2(s) + NaCl(aq)
  given     V(CaCl2) = 40.0 mL
  given     c(CaCl2) = 0.150 mol/L
  given     V(Na3PO4) = 25.0 mL
  given     c(Na3PO4) = 0.120 mol/L
  find      limiting reagent
  find      m(Ca3(PO4)2) in g
  text
    What mass of {name Ca3(PO4)2} forms?
  end
)";

void solve_from_text(benchmark::State& state, char const* text) {
  Conventions const conventions;
  for (auto _ : state) {
    auto const read = parse_problems(text);
    auto const solved = solve(read.problems.at(0), conventions);
    if (!std::holds_alternative<Worked>(solved)) return state.SkipWithError("the problem is not solved");
    benchmark::DoNotOptimize(solved);
  }
  state.SetItemsProcessed(state.iterations());
}
BENCHMARK_CAPTURE(solve_from_text, precipitate, precipitate);
BENCHMARK_CAPTURE(solve_from_text, limiting_reagent, limiting);

/// A question that is made must be there.
Question made(QuestionMaker& maker, std::size_t which, std::uint32_t seed) {
  auto result = maker.make(maker.templates()[which % maker.templates().size()], seed % code_seeds);
  if (!ok(result)) {
    std::fprintf(stderr, "%s\n", sentence(fault(result)).c_str());
    std::abort();
  }
  return std::move(value(result));
}

QuestionMaker& shared_maker() {
  static QuestionMaker maker(read_templates(question_templates()).templates, Course{});
  return maker;
}

/// Questions of each template in turn, so many of each: slips told apart, worked twice, slip key included. The plans for their
/// substances are made on the way, as for a set.
void make_questions(benchmark::State& state, std::vector<std::string> const& kinds, std::uint32_t of_each) {
  std::vector<std::size_t> templates;
  auto const& all = shared_maker().templates();
  for (std::size_t t = 0; t < all.size(); ++t)
    if (kinds.empty() || std::find(kinds.begin(), kinds.end(), all[t].kind) != kinds.end()) templates.push_back(t);
  static std::uint32_t seed = 0;
  std::int64_t questions = 0;
  for (auto _ : state)
    for (auto const t : templates)
      for (std::uint32_t q = 0; q < of_each; ++q)  // of a few seeds no draw is fit: a set takes the next one
        questions += ok(shared_maker().make(all[t], ++seed * 7919 % code_seeds)) ? 1 : 0;
  state.SetItemsProcessed(questions);
  state.counters["templates"] = static_cast<double>(templates.size());
}
BENCHMARK_CAPTURE(make_questions, five_main_kinds, {"n-cV", "mass-from-amount", "dilution", "precipitate", "limiting-reagent"},
                  500)
    ->Iterations(1)
    ->Unit(benchmark::kMillisecond);
BENCHMARK_CAPTURE(make_questions, all_templates, {}, 200)->Iterations(1)->Repetitions(2)->Unit(benchmark::kMillisecond);

/// From nothing: reads the templates, makes what plans it needs, and 500 questions: a class of 100 with five questions each.
void make_500_from_nothing(benchmark::State& state) {
  for (auto _ : state) {
    QuestionMaker maker(read_templates(question_templates()).templates, Course{});
    for (std::uint32_t q = 0; q < 500; ++q) benchmark::DoNotOptimize(made(maker, q % 5 * 4, q));
  }
  state.SetItemsProcessed(state.iterations() * 500);
}
BENCHMARK(make_500_from_nothing)->Unit(benchmark::kMillisecond);

void remake_from_code(benchmark::State& state) {
  auto& maker = shared_maker();
  std::vector<std::string> codes;
  for (std::uint32_t q = 0; q < 200; ++q) codes.push_back(made(maker, q, q).code);
  std::size_t q = 0;
  for (auto _ : state) benchmark::DoNotOptimize(maker.remake(codes[q++ % codes.size()]));
  state.SetItemsProcessed(state.iterations());
}
BENCHMARK(remake_from_code);
}  // namespace
