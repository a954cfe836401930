#include <fmt/format.h>

#include <algorithm>
#include <nlohmann/json.hpp>

#include "app/commands.h"
#include "app/files.h"
#include "app/judgement_json.h"
#include "app/problem_json.h"
#include "app/question_templates.h"
#include "engine/steps.h"
#include "generators/question_maker.h"

namespace molewright {
namespace {

std::optional<Question> question_of(Console& console, QuestionMaker& maker, ExplainOptions const& options) {
  if (!options.problem_file) {
    auto made = maker.remake(options.arguments.front());
    if (ok(made)) return value(made);
    console.report(fault(made), Item{options.arguments.front(), "argument 1", 1});
    return std::nullopt;
  }
  auto const text = read_file(*options.problem_file);
  if (!ok(text)) {
    console.report(fault(text), *options.problem_file);
    return std::nullopt;
  }
  auto const read = parse_problems(value(text));
  for (auto const& found : read.faults) console.report(found, *options.problem_file);
  if (read.problems.empty()) {
    if (read.faults.empty())
      console.report(Fault{"no-problem", "there is no problem in this file", "a line such as problem my-problem", 0},
                     *options.problem_file);
    return std::nullopt;
  }
  auto const& problem = read.problems.front();
  auto const worked = solve(problem, console.course.conventions);
  if (auto const* found = std::get_if<PlacedFault>(&worked)) {
    console.report(with_line_text(*found, value(text)), *options.problem_file);
    return std::nullopt;
  }
  auto made = maker.own(problem);
  if (ok(made)) return value(made);
  console.report(fault(made), *options.problem_file);
  return std::nullopt;
}

/// Index of the part named, or nothing (and a fault) where there is none.
std::optional<std::size_t> part_of(Console& console, Question const& question, std::optional<std::string> const& part) {
  if (!part) return 0;
  for (std::size_t f = 0; f < question.marks.size(); ++f)
    if (part_name(question, f) == *part) return f;
  std::string known;
  for (std::size_t f = 0; f < question.marks.size(); ++f) known += (f ? ", " : "") + part_name(question, f);
  console.report(
      Fault{"unknown-part", "this question has no part " + *part, known.empty() ? "no part: it has one answer" : known, 0},
      "--part");
  return std::nullopt;
}

/// The step at which a candidate's slip is made: the first printed step that is the node or rests on it.
bool stands_at(Working const& working, Step const& step, std::string const& node) {
  auto const& shown = working.nodes[static_cast<std::size_t>(step.node)];
  if (shown.id == node) return true;
  return std::any_of(shown.definition.terms.begin(), shown.definition.terms.end(),
                     [&](Term const& t) { return working.nodes[static_cast<std::size_t>(t.node)].id == node; });
}

void print_explained(Console& console, Question const& question, std::size_t find, Judgement const& judgement) {
  auto const& conventions = console.course.conventions;
  auto const& working = question.worked.accepted.front();
  console.print(question.text);
  console.print("");
  auto const part = part_name(question, find);
  console.print(fmt::format("Answer{}: {}", part.empty() ? "" : " to (" + part + ")", judgement.given));
  console.print(fmt::format("Right:  {}   value {}, unit {}, figures {}", judgement.correct, name(judgement.value),
                            name(judgement.unit), name(judgement.figures)));
  console.print("");
  std::string marked;
  if (!judgement.candidates.empty() && judgement.candidates.front().slips.size() == 1)
    marked = judgement.candidates.front().slips.front().node;
  bool shown = false;
  for (auto const& step : steps(question.worked, working, find, conventions)) {
    bool const here = !marked.empty() && !shown && stands_at(working, step, marked);
    shown = shown || here;
    console.print((here ? " >> " : "    ") + step.text);
  }
  console.print("    " + answer_line(question.worked, working, find, conventions));
  if (!marked.empty() && shown) console.print("(>> marks the step where the first cause below lies)");
  console.print("");
  if (judgement.value == ValueVerdict::wrong && judgement.candidates.empty())
    console.print("No cause stands out. Ask to see the working.");
  for (auto const& candidate : judgement.candidates)
    console.print(fmt::format("{:>4.0f} %  {}", candidate.probability * 100, candidate.text));
  if (!judgement.feedback.empty()) {
    console.print("");
    console.print("To the student: " + judgement.feedback);
  }
}
}  // namespace

void explain_command(Console& console, ExplainOptions const& options) {
  auto read = read_templates(question_templates());
  for (auto const& found : read.faults) console.report(found.fault, found.name);
  QuestionMaker maker(std::move(read.templates), console.course);
  auto question = question_of(console, maker, options);
  if (!question) return;
  auto const find = part_of(console, *question, options.part);
  if (!find) return;
  if (question->number.empty()) question->number = "1";
  std::vector<Written> written(*find);  // earlier parts are not known
  written.push_back(read_written(options.arguments.back(), console.course.conventions.mark));
  auto const judgement = Judge(*question, console.course).judge(written).at(*find);
  if (console.json)
    console.print_json(judgement_json(judgement));
  else
    print_explained(console, *question, *find, judgement);
}

}  // namespace molewright
