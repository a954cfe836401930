// Any bytes as the answers to a question with three parts, a line each: always a judgement that can be printed, never more marks
// than there are.
#include <cstdlib>

#include "engine/problem.h"
#include "generators/question_maker.h"
#include "marker/judge.h"
#include "tests/fuzz/check.h"

using namespace molewright;

namespace {
constexpr char const* problem = R"(problem limit
  reaction  CaCl2(aq) + Na3PO4(aq) -> Ca3(PO4)2(s) + NaCl(aq)
  given     V(CaCl2) = 40.0 mL
  given     c(CaCl2) = 0.150 mol/L
  given     V(Na3PO4) = 25.0 mL
  given     c(Na3PO4) = 0.120 mol/L
  find      n(CaCl2) in mol
  find      limiting reagent
  find      m(Ca3(PO4)2) in g
  text
    What mass of {name Ca3(PO4)2} forms?
  end
)";

Course course_of(std::uint8_t choice) {
  Course course;
  if (choice % 2 == 1) course.conventions.mark = DecimalMark::comma;
  course.rules.figures = static_cast<MarkingRules::Figures>(choice / 2 % 5);
  course.rules.units = static_cast<MarkingRules::Units>(choice / 16 % 3);
  course.rules.slip_marks = static_cast<MarkingRules::SlipMarks>(choice / 64 % 3);
  course.rules.follow_through = choice < 128;
  return course;
}

Question made() {
  auto const read = parse_problems(problem);
  QuestionMaker const maker({}, Course{});
  auto const question = maker.own(read.problems.at(0));
  demand(ok(question), "the harness's own problem is a question");
  return value(question);
}

void check(Judgement const& judged) {
  demand(judged.marks >= 0 && judged.marks <= judged.out_of, "marks lie between none and all");
  demand(judged.marks_if_accepted <= judged.out_of, "accepted marks are no more than there are");
  demand(judged.value != ValueVerdict::right || judged.candidates.empty(), "a right value has no cause");
  double sum = 0;
  for (auto const& candidate : judged.candidates) {
    demand(candidate.probability >= 0 && candidate.probability <= 1, "a probability is one");
    demand(!candidate.slips.empty() && !candidate.text.empty(), "a candidate says what it is");
    demand(first_invalid_utf8(candidate.text) == std::string_view::npos, "what is said is UTF-8");
    sum += candidate.probability;
  }
  demand(sum <= 1 + 1e-9, "rivals share one probability");
  demand(first_invalid_utf8(judged.feedback) == std::string_view::npos, "feedback is UTF-8");
  demand(judged.feedback.find('{') == std::string::npos || judged.given.find('{') != std::string::npos,
         "no hole is left in feedback");
}
}  // namespace

extern "C" int LLVMFuzzerTestOneInput(std::uint8_t const* data, std::size_t size) {
  if (size == 0) return 0;
  static Question const question = made();
  auto const course = course_of(data[0]);
  auto text = as_text(data + 1, size - 1);
  std::vector<Written> written;
  for (int part = 0; part < 3; ++part) {
    auto const end = text.find('\n');
    written.push_back(read_written(text.substr(0, end), course.conventions.mark));
    text.remove_prefix(end == std::string_view::npos ? text.size() : end + 1);
  }
  Judge const judge(question, course);
  auto const judged = judge.judge(written);
  demand(judged.size() == 3, "each part is judged");
  for (auto const& one : judged) check(one);
  return 0;
}
