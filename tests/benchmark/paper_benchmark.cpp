// A hundred sheets with their answers, as PDF.
#include <benchmark/benchmark.h>

#include <cstdio>
#include <cstdlib>

#include "app/question_templates.h"
#include "generators/set_maker.h"
#include "templates/from_set.h"

using namespace molewright;

namespace {
SetPlan five_kinds() {
  SetPlan plan;
  plan.title = "Solutions for the greenhouse";
  plan.copies = 100;
  for (auto const* kind : {"n-cV", "mass-from-amount", "dilution", "precipitate", "limiting-reagent"}) {
    SetItem item;
    item.kind = kind;
    plan.items.push_back(item);
  }
  return plan;
}

ProblemSet hundred_papers() {
  QuestionMaker maker(read_templates(question_templates()).templates, Course{});
  auto made = make_set(five_kinds(), {}, "benchmark", maker);
  if (!ok(made)) {
    std::fprintf(stderr, "%s\n", sentence(fault(made)).c_str());
    std::abort();
  }
  return std::move(value(made));
}

void make_100_papers(benchmark::State& state) {
  for (auto _ : state) benchmark::DoNotOptimize(hundred_papers());
}
BENCHMARK(make_100_papers)->Unit(benchmark::kMillisecond);

void print_100_sheets_and_answers(benchmark::State& state) {
  auto const set = hundred_papers();
  std::size_t bytes = 0;
  for (auto _ : state) {
    auto const sheets = sheets_pdf(sheet_document(set), PageSize::a4);
    auto const answers = answers_pdf(answers_document(set), PageSize::a4);
    bytes = sheets.size() + answers.size();
  }
  state.counters["bytes"] = static_cast<double>(bytes);
}
BENCHMARK(print_100_sheets_and_answers)->Unit(benchmark::kMillisecond);
}  // namespace
