// Marking: wrong answers to versions of their own and to versions that many share, and how the time grows with slips and parts.
// One core each.
#include <benchmark/benchmark.h>

#include <algorithm>
#include <cmath>
#include <cstdio>
#include <cstdlib>
#include <deque>
#include <string>
#include <vector>

#include "app/question_templates.h"
#include "engine/problem.h"
#include "engine/solver.h"
#include "generators/question_maker.h"
#include "generators/random.h"
#include "marker/judge.h"
#include "tests/benchmark/problems.h"

using namespace molewright;

namespace {
/// What must be there; a benchmark cannot go on without it.
template <class Value>
Value must(Result<Value> result) {
  if (ok(result)) return std::move(value(result));
  std::fprintf(stderr, "%s\n", sentence(fault(result)).c_str());
  std::abort();
}

QuestionMaker& maker() {
  static QuestionMaker one(read_templates(question_templates()).templates, Course{});
  return one;
}

/// Question number `which` of a long run: all templates in turn.
Question question(std::uint32_t which) {
  auto const& from = maker().templates()[which % maker().templates().size()];
  return must(maker().make(from, (which * 31 + 5) % code_seeds));
}

std::string with_unit(double number, int figures, Unit const& unit) {
  char text[64];
  std::snprintf(text, sizeof text, "%.*e %s", std::max(1, figures) - 1, number, unit.symbol.c_str());
  return text;
}

/// What students write: the right answer, or (of ten six) what one slip leads to, (one or two) what a pair does, or else a number
/// that nothing explains. The rates of the wrong ones are those of tests/students.
class Students {
 public:
  Students(Question const& asked, std::uint64_t seed) : random_(seed, 1) {
    Conventions const conventions;
    auto const& working = asked.worked.accepted.front();
    auto const table = slip_table(asked.worked, conventions);
    Estimator estimator(working);
    for (std::size_t f = 0; f < working.finds.size(); ++f) {
      auto const& answer = working.finds[f];
      Part part{working.nodes[static_cast<std::size_t>(answer.node)].value, answer.figures, answer.text, {}, {}};
      for (auto const& one : table.by_find[f]) part.single.push_back(one.value);
      for (std::size_t tries = 0; tries < 200 && !table.by_find[f].empty() && part.pairs.size() < 20; ++tries) {
        auto const& all = table.by_find[f];
        std::vector<Estimator::Change> changes;
        for (auto const k :
             {random_.below(static_cast<std::uint32_t>(all.size())), random_.below(static_cast<std::uint32_t>(all.size()))})
          for (auto const& edit : table.all[all[k].application].edits)
            if (auto const* const node = std::get_if<NodeEdit>(&edit)) changes.push_back({node->node, &node->definition});
        double const value = estimator.with(changes, answer.node);
        if (value > 0) part.pairs.push_back(value);
      }
      parts_.push_back(std::move(part));
    }
  }

  /// The boxes of one script; of a hundred so many are right.
  std::vector<std::string> script(std::uint32_t right) {
    std::vector<std::string> boxes;
    for (auto const& part : parts_)
      boxes.push_back(random_.below(100) < right ? part.text + " " + part.right.unit.symbol : wrong(part));
    return boxes;
  }

 private:
  struct Part {
    Value right;
    int figures;
    std::string text;
    std::vector<double> single, pairs;
  };
  double one_of(std::vector<double> const& values) { return values[random_.below(static_cast<std::uint32_t>(values.size()))]; }
  double between(double from, double to) { return from + (to - from) * random_.below(1U << 20U) / (1U << 20U); }
  std::string wrong(Part const& part) {
    if (part.figures == 0) return part.text == "KCl" ? "NaCl" : "KCl";  // no number: another substance
    double const right = part.right.number.to_double();
    auto const world = random_.below(100);
    int const figures = std::max(3, part.figures) + static_cast<int>(random_.below(2));
    if (world < 60 && !part.single.empty()) return with_unit(one_of(part.single), figures, part.right.unit);
    if (world < 72 && !part.pairs.empty()) return with_unit(one_of(part.pairs), figures, part.right.unit);
    if (world < 80) return with_unit(right * between(0.5, 2), figures, part.right.unit);
    return with_unit(right * std::pow(10.0, between(-2, 2)), figures, part.right.unit);
  }

  Random random_;
  std::vector<Part> parts_;
};

struct Asked {
  Question question;
  std::vector<std::string> slipped;       ///< for each part, a wrong answer of its slip key
  std::vector<std::string> wrong, mixed;  ///< all wrong, and half of them
};

/// Two questions of every template.
std::vector<Asked> const& asked() {
  static std::vector<Asked> const all = [] {
    std::vector<Asked> some;
    for (std::uint32_t q = 0; q < 2 * maker().templates().size(); ++q) {
      Asked one{question(q), {}, {}, {}};
      Students students(one.question, q);
      one.wrong = students.script(0);
      one.mixed = students.script(50);
      auto const& working = one.question.worked.accepted.front();
      for (std::size_t f = 0; f < working.finds.size(); ++f) {
        auto const& key = one.question.slip_key[f];
        auto const& unit = working.nodes[static_cast<std::size_t>(working.finds[f].node)].value.unit.symbol;
        one.slipped.push_back((key.empty() ? "3.14" : key[q % key.size()].answer) + " " + unit);
      }
      some.push_back(std::move(one));
    }
    return some;
  }();
  return all;
}

std::vector<Written> read(std::vector<std::string> const& boxes) {
  std::vector<Written> written;
  for (auto const& box : boxes) written.push_back(read_written(box, DecimalMark::point));
  return written;
}

std::size_t judge_boxes(Question const& question, std::vector<std::string> const& boxes) {
  static Course const course;
  benchmark::DoNotOptimize(Judge(question, course).judge(read(boxes)));
  return boxes.size();
}

/// The questions in turn; `mark` gives the number of answers that it judged.
template <class Mark>
void mark_each(benchmark::State& state, Mark mark) {
  auto const& all = asked();
  std::size_t next = 0, answers = 0;
  for (auto _ : state) answers += mark(all[next++ % all.size()]);
  state.SetItemsProcessed(static_cast<std::int64_t>(answers));
}

/// Each question is at hand; every part is answered as the slip key has it, so that each calls for a diagnosis.
void mark_wrong_answer(benchmark::State& state) {
  mark_each(state, [](Asked const& one) { return judge_boxes(one.question, one.slipped); });
}
BENCHMARK(mark_wrong_answer);

void mark_right_answer(benchmark::State& state) {
  mark_each(state, [](Asked const& one) {
    auto const& working = one.question.worked.accepted.front();
    std::vector<std::string> boxes;
    for (auto const& find : working.finds)
      boxes.push_back(find.text + " " + working.nodes[static_cast<std::size_t>(find.node)].value.unit.symbol);
    return judge_boxes(one.question, boxes);
  });
}
BENCHMARK(mark_right_answer);

/// Every answer has a version of its own: the question is made again from its code, solved, its slips are run, and what students
/// write is judged.
void mark_own_versions(benchmark::State& state, std::vector<std::string> Asked::*boxes) {
  mark_each(state, [&](Asked const& one) { return judge_boxes(must(maker().remake(one.question.code)), one.*boxes); });
}
BENCHMARK_CAPTURE(mark_own_versions, half_right, &Asked::mixed);
BENCHMARK_CAPTURE(mark_own_versions, all_wrong, &Asked::wrong);

/// Thirty versions are shared by 60,000 students: a judge is made for each, once. So many of a hundred answers are right; of the
/// others 60 in 100 are what one slip leads to, 12 what a pair does, 28 numbers that nothing explains and hardly anyone else
/// writes. Where all are marked, the judges are made anew, so that no script is met again.
void mark_shared_versions(benchmark::State& state) {
  constexpr std::uint32_t versions = 30, scripts = 60000;
  Course const course;
  std::vector<Question> questions;
  std::vector<Students> students;
  for (std::uint32_t v = 0; v < versions; ++v) {
    questions.push_back(question(v * 7));
    students.emplace_back(questions.back(), v);
  }
  std::deque<Judge> judges;
  std::vector<std::vector<std::string>> handed_in;
  for (std::uint32_t s = 0; s < scripts; ++s)
    handed_in.push_back(students[s % versions].script(static_cast<std::uint32_t>(state.range(0))));
  BoxReader reader(course.conventions.mark);
  std::size_t next = 0;
  std::int64_t answers = 0;
  for (auto _ : state) {
    if (next % scripts == 0) {
      judges.clear();
      for (auto const& one : questions) judges.emplace_back(one, course);
      reader = BoxReader(course.conventions.mark);
    }
    std::vector<Written> written;
    written.reserve(handed_in[next % scripts].size());
    for (auto const& box : handed_in[next % scripts]) written.push_back(reader.read(box));
    benchmark::DoNotOptimize(judges[next % versions].judge(written));
    answers += static_cast<std::int64_t>(written.size());
    ++next;
  }
  state.SetItemsProcessed(answers);
}
BENCHMARK(mark_shared_versions)->Arg(50)->Arg(67)->Arg(80)->MinTime(1);

/// A number that nothing explains, so that everything is looked at.
std::string senseless(double right, int figures, Unit const& unit) { return with_unit(right * 1.23457, figures, unit); }

/// A question of one part with about so many slips, and an answer that none of them explains: to three figures it is held to
/// single slips, to five to pairs of them as well.
void mark_slips(benchmark::State& state, int figures) {
  auto const slips = [](Asked const& one) {
    return static_cast<std::int64_t>(slip_table(one.question.worked, {}).by_find[0].size());
  };
  Asked const* best = nullptr;
  for (auto const& one : asked()) {
    auto const& worked = one.question.worked;
    if (worked.problem.finds.size() != 1 || worked.accepted.front().finds[0].figures == 0) continue;
    if (!best || std::abs(slips(one) - state.range(0)) < std::abs(slips(*best) - state.range(0))) best = &one;
  }
  Course const course;
  auto const& working = best->question.worked.accepted.front();
  auto const& right = working.nodes[static_cast<std::size_t>(working.finds[0].node)].value;
  auto const written = read({senseless(right.number.to_double(), figures, right.unit)});
  for (auto _ : state) benchmark::DoNotOptimize(Judge(best->question, course).judge(written));
  state.counters["slips"] = static_cast<double>(slips(*best));
}
void mark_single(benchmark::State& state) { mark_slips(state, 3); }
void mark_pairs(benchmark::State& state) { mark_slips(state, 5); }
BENCHMARK(mark_single)->DenseRange(20, 140, 20);
BENCHMARK(mark_pairs)->DenseRange(20, 140, 20);

/// A question of so many parts, all of them answered wrongly.
void mark_parts(benchmark::State& state) {
  auto const read_problem = parse_problems(parts(static_cast<int>(state.range(0))));
  auto const question = must(maker().own(read_problem.problems.front()));
  Course const course;
  auto const& working = question.worked.accepted.front();
  std::vector<std::string> boxes;
  for (auto const& find : working.finds) {
    auto const& right = working.nodes[static_cast<std::size_t>(find.node)].value;
    boxes.push_back(senseless(right.number.to_double(), 3, right.unit));
  }
  auto const written = read(boxes);
  for (auto _ : state) benchmark::DoNotOptimize(Judge(question, course).judge(written));
}
BENCHMARK(mark_parts)->DenseRange(1, 12);
}  // namespace
