#include <fmt/format.h>

#include <algorithm>
#include <nlohmann/json.hpp>

#include "app/commands.h"
#include "app/explain_further.h"
#include "app/files.h"
#include "app/judgement_json.h"
#include "app/problem_json.h"
#include "app/question_templates.h"
#include "engine/statement.h"
#include "engine/steps.h"
#include "generators/question_maker.h"
#include "generators/variant.h"
#include "marker/marks.h"
#include "marker/wrong_working.h"
#include "templates/from_set.h"
#include "templates/reading_table.h"

namespace molewright {
namespace {

/// The problem that is meant, or nullptr (and a fault).
Problem const* problem_of(Console& console, ProblemFile const& file, ExplainOptions const& options) {
  std::vector<std::string> ids;
  for (auto const& problem : file.problems) {
    if (!options.problem_id || problem.id == *options.problem_id) return &problem;
    ids.push_back(problem.id);
  }
  if (!ids.empty()) {
    auto const near = nearest(*options.problem_id, ids);
    console.report(Fault{"unknown-problem", "there is no problem \"" + *options.problem_id + "\" in this file",
                         either(near.empty() ? ids : near), 0},
                   *options.problem_file);
  } else if (file.faults.empty()) {
    console.report(no_problem(), *options.problem_file);
  }
  return nullptr;
}

std::optional<Question> question_of(Console& console, QuestionMaker& maker, ExplainOptions const& options) {
  if (!options.problem_file) {
    auto made = maker.remake(options.arguments.front());
    if (ok(made)) return value(made);
    console.report(fault(made), Item{options.arguments.front(), "argument 1", 1, false});
    return std::nullopt;
  }
  auto const text = read_file(*options.problem_file);
  if (!ok(text)) {
    console.report(fault(text), *options.problem_file);
    return std::nullopt;
  }
  auto const read = parse_problems(value(text), console.course.conventions.mark);
  for (auto const& found : read.faults) console.report(found, *options.problem_file);
  auto const* chosen = problem_of(console, read, options);
  if (!chosen) return std::nullopt;
  auto const& problem = *chosen;
  auto const worked = solve(problem, console.course.conventions);
  if (auto const* found = std::get_if<PlacedFault>(&worked)) {
    console.report(with_line(*found, value(text)), *options.problem_file);
    return std::nullopt;
  }
  auto made = maker.own(problem);
  if (ok(made)) return value(made);
  console.report(fault(made), *options.problem_file);
  return std::nullopt;
}

/// Which part an answer belongs to where nobody says: the first of which it is right, else the first in whose unit it could
/// stand.
std::size_t fitting_part(Question const& question, Course const& course, Written const& written) {
  Judge const judge(question, course);
  auto const& working = question.worked.accepted.front();
  std::size_t in_unit = question.marks.size();
  for (std::size_t f = 0; f < question.marks.size(); ++f) {
    std::vector<Written> alone(f);
    alone.push_back(written);
    if (judge.judge(alone).at(f).value == ValueVerdict::right) return f;
    bool const number = question.worked.problem.finds[f].kind == Find::Kind::number;
    bool const fits =
        !number ? written.kind == Written::Kind::words
                : written.unit && written.unit->dimension ==
                                      working.nodes[static_cast<std::size_t>(working.finds[f].node)].value.unit.dimension;
    if (fits) in_unit = std::min(in_unit, f);
  }
  return in_unit < question.marks.size() ? in_unit : 0;
}

/// Index of the part meant, or nothing (and a fault) where there is none of that name.
std::optional<std::size_t> part_of(Console& console, Question const& question, std::optional<std::string> const& part,
                                   Written const& written) {
  if (!part) return fitting_part(question, console.course, written);
  std::vector<std::string> known;
  for (std::size_t f = 0; f < question.marks.size(); ++f) {
    known.push_back(part_name(question, f));
    if (known.back() == *part) return f;
  }
  bool const one = known.size() == 1;
  console.report(Fault{"unknown-part", "this question has no part \"" + *part + '"',
                       one ? "no --part: it has one answer" : either(known), 0},
                 Item{*part, "--part", 1, false});
  return std::nullopt;
}

/// What the number, the unit and the figures are, in a sentence.
std::string verdict(Judgement const& judgement) {
  switch (judgement.value) {
    case ValueVerdict::blank:
      return "Nothing was written.";
    case ValueVerdict::absent:
      return "The student was absent.";
    case ValueVerdict::unreadable:
      return "This could not be read as an answer.";
    case ValueVerdict::wrong:
      return "The answer is not right.";
    case ValueVerdict::right:
    case ValueVerdict::follow_through:
      break;
  }
  bool const has_unit = judgement.unit != UnitVerdict::not_judged;
  std::string out = has_unit ? "The number is right" : "The answer is right";
  if (judgement.unit == UnitVerdict::wrong) out += ", the unit is not";
  if (judgement.unit == UnitVerdict::missing) out += ", the unit is missing";
  if (judgement.unit == UnitVerdict::equivalent) out += ", in another unit that says the same";
  if (judgement.unit == UnitVerdict::right) out += ", and so is the unit";
  if (judgement.figures == FiguresVerdict::too_few) out += "; it has too few significant figures";
  if (judgement.figures == FiguresVerdict::too_many) out += "; it has too many significant figures";
  return out + '.';
}

std::string said_of(LineVerdict verdict) {
  switch (verdict) {
    case LineVerdict::right:
      return "right";
    case LineVerdict::follows:
      return "follows from the line that went astray";
    case LineVerdict::departs:
      return "here it departs";
    case LineVerdict::not_placed:
      return "not one of the steps";
  }
  return "";
}

/// The student's own lines, each with what it is.
void print_lines(Console& console, Judgement const& judgement) {
  if (judgement.lines.empty()) return;
  console.print("");
  console.print("The lines handed in:");
  for (auto const& line : judgement.lines) console.print("    " + line.text + "  (" + said_of(line.verdict) + ")");
}

std::string said_of(MarkReason reason) {
  switch (reason) {
    case MarkReason::right:
      return "shown by a line";
    case MarkReason::follows:
      return "follows from the line that went astray";
    case MarkReason::implied:
      return "a later line rests on it";
    case MarkReason::method:
      return "the right method, its number wrong";
    case MarkReason::departs:
      return "not right";
    case MarkReason::not_shown:
      return "no line shows it";
    case MarkReason::answer:
      return "the answer is not right";
    case MarkReason::unit:
      return "the unit";
    case MarkReason::figures:
      return "the significant figures";
    case MarkReason::states:
      return "the states of the equation";
    default:  // said by the verdict
      return "";
  }
}

/// What each mark is for, where that is more than the verdict says: lines of working are counted, or something is taken off.
void print_account_of_marks(Console& console, Judgement const& judgement) {
  for (auto const& one : account_of_marks(judgement)) {
    if (one.marks < 0) console.print(fmt::format("    {} off  ({})", -one.marks, said_of(one.reason)));
    if (one.node.empty()) continue;
    console.print(fmt::format("    {} of {} for {}  ({})", one.marks, one.out_of, one.node, said_of(one.reason)));
  }
}

void print_working(Console& console, Question const& question, std::size_t find, std::string const& marked) {
  auto const& conventions = console.course.conventions;
  auto const& working = question.worked.accepted.front();
  auto const here = marked.empty() ? std::nullopt : right_step(question, find, marked, conventions);
  console.print("");
  console.print("Working:");
  if (here && here->part != find) console.print(fmt::format(" >> in part ({}): {}", part_name(question, here->part), here->text));
  auto const printed = steps(question.worked, working, find, conventions);
  for (std::size_t line = 0; line < printed.size(); ++line)
    console.print((here && here->part == find && here->line == line ? " >> " : "    ") + printed[line].text);
  console.print("    " + answer_line(question.worked, working, find, conventions));
  if (here) console.print(" >> is the step where the likeliest cause below lies.");
}

/// Nothing is certain from a number alone.
std::string percent(double probability) { return probability >= 0.995 ? " >99 %" : fmt::format("{:>4.0f} %", probability * 100); }

void print_explained(Console& console, Question const& question, std::size_t find, Judgement const& judgement) {
  auto const& title = question.worked.problem.title;
  auto const& asked = question.text.empty() ? title : question.text;  // a problem may be without words
  if (!asked.empty()) console.print(with_told_tables(asked) + '\n');
  auto const part = part_name(question, find);
  auto const to_part = part.empty() ? std::string() : " to (" + part + ")";
  console.print("Answer" + to_part + ": " + (judgement.given.empty() ? "-" : judgement.given));
  console.print("Right answer" + to_part + ": " + pretty_answer(judgement.correct, console.course.conventions));
  console.print(fmt::format("{} Marks: {} of {}{}.", verdict(judgement), judgement.marks, judgement.out_of,
                            judgement.suggested
                                ? fmt::format(" ({} if you accept the working up to the slip)", judgement.marks_if_accepted)
                                : std::string()));
  print_account_of_marks(console, judgement);
  print_lines(console, judgement);
  std::string marked;
  if (!judgement.candidates.empty() && judgement.candidates.front().slips.size() == 1)
    marked = judgement.candidates.front().slips.front().node;
  print_working(console, question, find, marked);
  if (!judgement.candidates.empty()) {
    console.print("");
    console.print("What may have happened, likeliest first:");
    for (auto const& candidate : judgement.candidates) console.print(percent(candidate.probability) + "  " + candidate.text);
  } else if (judgement.value == ValueVerdict::wrong) {
    console.print("");
    console.print("No cause stands out. Ask to see the working.");
  }
  if (!judgement.feedback.empty()) {
    console.print("");
    console.print("To the student: " + judgement.feedback);
  }
}

/// A fresh question: of the same template, or of the problem's own numbers moved.
std::optional<TellingApart> next_of(Console& console, QuestionMaker& maker, Question const& question, std::size_t find,
                                    Judgement const& judgement, ExplainOptions const& options) {
  auto const causes = causes_of(question, find, judgement, console.course.conventions);
  std::optional<TellingApart> next;
  if (!options.problem_file) {
    next = telling_apart(maker, *maker.find(question.template_name), causes, question.code);
  } else {
    auto problem = question.worked.problem;
    auto const name = problem.id.empty() ? std::string("own") : problem.id;
    auto made = variant_of(problem, name);
    if (!ok(made)) {  // a text that asks nothing, or that holds numbers of its own: a plain one will do
      problem.text.clear();
      made = variant_of(problem, name);
    }
    if (!ok(made)) {
      console.report(fault(made), *options.problem_file);
      return std::nullopt;
    }
    QuestionMaker own({value(made)}, console.course);
    next = telling_apart(own, own.templates().front(), causes, question.code);
  }
  if (!next) console.warn("No fresh question was found that shows what may have happened.");
  return next;
}
}  // namespace

void explain_command(Console& console, ExplainOptions const& options) {
  auto read = read_templates(question_templates());
  for (auto const& found : read.faults) console.report(found.fault, found.name);
  QuestionMaker maker(std::move(read.templates), console.course);
  auto question = question_of(console, maker, options);
  if (!question) return;
  auto const written = read_written(options.arguments.back(), console.course.conventions.mark);
  auto const find = part_of(console, *question, options.part, written);
  if (!find) return;
  if (written.kind == Written::Kind::letter && question->worked.problem.finds[*find].kind == Find::Kind::number)
    return console.report(Fault{"letter-without-card", "a letter has a meaning on the marking card of its set only",
                                "the answer that the student wrote", 0},
                          Item{options.arguments.back(), "argument " + std::to_string(options.arguments.size()), 1, false});
  if (question->number.empty()) question->number = "1";
  std::vector<Written> script(*find);  // what was written to earlier parts is not known
  script.push_back(written);
  add_working(script.back(), options.working);
  auto const judgement = Judge(*question, console.course).judge(script).at(*find);
  auto const asking = probe(*question, *find, judgement, console.course.conventions);
  std::optional<TellingApart> next;
  if (options.next) next = next_of(console, maker, *question, *find, judgement, options);
  if (console.json) {
    auto json = judgement_json(judgement);
    if (asking) json["ask"] = probe_json(*asking, judgement);
    if (next) json["next"] = next_json(*next, !options.problem_file);
    return console.print_json(json);
  }
  print_explained(console, *question, *find, judgement);
  if (asking) print_probe(console, *asking, judgement);
  if (next) print_next(console, *next, !options.problem_file);
}

}  // namespace molewright
