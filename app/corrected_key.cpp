#include "app/corrected_key.h"

#include <algorithm>
#include <memory>
#include <utility>

#include "app/course_file.h"
#include "app/set_order.h"
#include "app/set_store.h"
#include "engine/lists.h"
#include "generators/code.h"
#include "generators/question_maker.h"
#include "marker/own_reading.h"

namespace molewright {
namespace {

/// An order as it comes out now, and what makes its questions.
struct MadeAgain {
  std::unique_ptr<QuestionMaker> maker;
  ProblemSet set;
};

/// By the course of the command line, else that of the order, else that of the printed set.
std::optional<MadeAgain> made_again(Console& console, std::string const& path, ProblemSet const& printed) {
  SetOptions options;
  options.set_file = path;
  options.seed = printed.seed;
  if (!console.own_course) console.course = printed.course;
  SetOrder order(console, options);
  if (!order.read()) return std::nullopt;
  auto maker = std::make_unique<QuestionMaker>(order.templates(), console.course);
  auto made = make_set(order.file().plan, order.members(), printed.seed, *maker, order.history());
  if (ok(made)) return MadeAgain{std::move(maker), std::move(value(made))};
  console.report(placed(fault(made), order.file(), printed.seed, *maker), path);
  return std::nullopt;
}

using InPlace = std::map<std::pair<std::string, std::string>, Question*>;  ///< by student or version, and number

InPlace in_place(ProblemSet& set) {
  InPlace places;
  for (auto& paper : set.papers)
    for (auto& question : paper.questions)
      places[{paper.student.empty() ? "version " + paper.version : paper.student, question.number}] = &question;
  return places;
}

bool same_parts(Question const& a, Question const& b) {
  auto const& one = a.worked.problem.finds;
  auto const& other = b.worked.problem.finds;
  return std::equal(one.begin(), one.end(), other.begin(), other.end(),
                    [](Find const& left, Find const& right) { return left.kind == right.kind; });
}

bool same_numbers(std::vector<Decimal> const& one, std::vector<Decimal> const& other) {
  return std::equal(one.begin(), one.end(), other.begin(), other.end(),
                    [](Decimal const& left, Decimal const& right) { return left.text == right.text; });
}

bool same_givens(Question const& a, Question const& b) {
  auto const& one = a.worked.problem.givens;
  auto const& other = b.worked.problem.givens;
  return std::equal(one.begin(), one.end(), other.begin(), other.end(), [](Given const& left, Given const& right) {
    return plain(left.quantity) == plain(right.quantity) && left.form == right.form && left.unit.symbol == right.unit.symbol &&
           same_numbers(left.numbers, right.numbers) && left.rough == right.rough && left.discordant == right.discordant;
  });
}

/// Whether a key fits what a student holds: the same words, or the same numbers in other words. What is given and stands in no
/// words may be corrected.
bool fits_on_paper(Question const& printed, Question const& other) {
  return same_parts(printed, other) && (printed.text == other.text || same_givens(printed, other));
}

/// The printed question with its own seed and draw, by the templates and the course of the order; nothing where that gives other
/// parts or givens.
std::optional<Question> worked_again(QuestionMaker& maker, Question const& printed) {
  auto const code = parse_code(printed.code);
  if (!ok(code) || printed.template_name.empty()) return std::nullopt;
  auto made = maker.made_now(value(code));
  if (!ok(made) || value(made).template_name != printed.template_name || !fits_on_paper(printed, value(made)))
    return std::nullopt;
  auto& question = value(made);
  maker.add_slip_key(question);
  question.version = printed.version;
  question.student = printed.student;
  question.number = printed.number;
  question.told_apart_not = printed.told_apart_not;
  question.alike_by_substance = printed.alike_by_substance;
  return std::move(question);
}

/// Whether one works out as the other, letters of the slip key aside.
bool same_key(Question const& printed, Question corrected, Ties ties) {
  for (std::size_t f = 0; f < corrected.slip_key.size() && f < printed.slip_key.size(); ++f)
    for (std::size_t i = 0; i < corrected.slip_key[f].size() && i < printed.slip_key[f].size(); ++i)
      corrected.slip_key[f][i].letter = printed.slip_key[f][i].letter;
  return question_line(printed, ties) == question_line(corrected, ties);
}

/// The number with its unit, or the formula, that a find's answer was printed as.
std::string printed_answer(Question const& question, std::size_t find, std::string const& number) {
  auto const& working = question.worked.accepted.front();
  auto const& answer = working.finds[find];
  auto const& unit = working.nodes[static_cast<std::size_t>(answer.node)].value.unit.symbol;
  return answer.figures > 0 && !unit.empty() ? number + ' ' + unit : number;
}

/// Questions by their numbers, each with the codes of the papers that have it.
using Places = std::map<std::string, std::vector<std::string>>;

/// For people, every number: "question 1 (K7QM-3RTA), question 2 (of 12 papers)".
std::string named(Places const& places) {
  constexpr std::size_t most = 2;
  std::vector<std::string> all;
  for (auto const& [number, codes] : places)
    all.push_back("question " + number + " (" +
                  (codes.size() > most ? "of " + std::to_string(codes.size()) + " papers" : enumerated(codes)) + ")");
  return enumerated(all);
}

/// What the course says now beside what it said when the set was printed; false where that is the same.
bool tell_course(Console& console, Course const& printed) {
  bool const other_working = fingerprint(printed.conventions) != fingerprint(console.course.conventions);
  if (other_working)
    console.warn("The course works otherwise now than when the set was printed: every question is worked by it as it is now.");
  auto rules_now = printed;
  rules_now.rules = console.course.rules;
  bool const other_rules = !console.own_course && course_to_json(rules_now) != course_to_json(printed);
  if (other_rules) console.warn("The course has other marking rules now than when the set was printed: they are applied.");
  return other_working || other_rules;
}
}  // namespace

Written PrintedKeys::as_printed(Question const& question, std::size_t find, Written written) const {
  auto const at = printed_.find(&question);
  if (at == printed_.end() || (written.kind != Written::Kind::ticked && written.kind != Written::Kind::letter)) return written;
  auto const& printed = at->second;
  auto const keep_lines = [&](Written read) {
    read.working = written.working;
    return read;
  };
  if (rests_on_reading(printed, find)) {
    set_aside(written);
    written.notes.push_back("key-corrected");
    return written;
  }
  if (written.kind == Written::Kind::ticked)
    return keep_lines(
        read_written(printed_answer(printed, find, printed.worked.accepted.front().finds[find].text), DecimalMark::point));
  for (auto const& entry : printed.slip_key[find])
    if (entry.letter == written.letter)
      return keep_lines(read_written(printed_answer(printed, find, entry.answer), DecimalMark::point));
  return written;
}

std::optional<PrintedKeys> correct_key(Console& console, ProblemSet& set, std::string const& order) {
  auto again = made_again(console, order, set);
  if (!again) return std::nullopt;
  PrintedKeys printed;
  Places not_there, other_parts, other_givens, not_open, other_words;
  auto const ties = set.course.conventions.ties;
  auto const now = in_place(again->set);
  for (auto const& [place, question] : in_place(set)) {
    auto const at = now.find(place);
    auto const keep_printed = [&, number = place.second, code = question->code](Places& why) { why[number].push_back(code); };
    if (at == now.end()) {
      keep_printed(not_there);
      continue;
    }
    auto corrected = std::move(*at->second);
    if (!same_parts(*question, corrected)) {
      keep_printed(other_parts);
      continue;
    }
    if (corrected.text != question->text && corrected.template_name == question->template_name)
      if (auto worked = worked_again(*again->maker, *question)) corrected = std::move(*worked);
    if (!fits_on_paper(*question, corrected)) {
      keep_printed(other_givens);
      continue;
    }
    bool const other_text = question->text != corrected.text;
    corrected.text = question->text;
    corrected.code = question->code;
    corrected.marks = question->marks;
    if (same_key(*question, corrected, ties)) continue;
    if (question->form != Form::open || corrected.form != Form::open) {
      keep_printed(not_open);
      continue;
    }
    if (other_text) other_words[place.second].push_back(question->code);
    Question before = std::move(*question);
    *question = std::move(corrected);
    printed.add(*question, std::move(before));
  }
  auto const tell = [&](Places const& places, std::string const& what) {
    if (!places.empty()) console.warn(named(places) + ": " + what);
  };
  tell(not_there, "the order has none in this place now; marked by the printed key");
  tell(other_parts, "other parts are asked now; marked by the printed key");
  tell(other_givens, "the order has other numbers or substances now than the paper; marked by the printed key");
  tell(not_open, "the printed answers to choose, or the printed lines, cannot be corrected; marked by the printed key");
  tell(other_words, "reads otherwise on paper than the order has it now; marked by the corrected key");
  bool const other_course = tell_course(console, set.course);
  if (printed.size() == 0)
    console.warn(other_course ? "The order gives the printed key." : "The order gives the printed key: nothing is corrected.");
  set.course = console.course;
  return printed;
}

}  // namespace molewright
