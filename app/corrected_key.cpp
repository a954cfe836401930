#include "app/corrected_key.h"

#include <algorithm>
#include <utility>

#include "app/set_order.h"
#include "app/set_store.h"
#include "engine/lists.h"
#include "generators/question_maker.h"
#include "marker/own_reading.h"

namespace molewright {
namespace {

/// The whole set of an order, as it comes out now.
std::optional<ProblemSet> made_again(Console& console, std::string const& path, std::string const& seed) {
  SetOptions options;
  options.set_file = path;
  options.seed = seed;
  SetOrder order(console, options);
  if (!order.read()) return std::nullopt;
  QuestionMaker maker(order.templates(), console.course);
  auto made = make_set(order.file().plan, order.members(), seed, maker, order.history());
  if (ok(made)) return std::move(value(made));
  console.report(placed(fault(made), order.file(), seed, maker), path);
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

/// The number with its unit, or the formula, that a find's answer was printed as.
std::string printed_answer(Question const& question, std::size_t find, std::string const& number) {
  auto const& working = question.worked.accepted.front();
  auto const& answer = working.finds[find];
  auto const& unit = working.nodes[static_cast<std::size_t>(answer.node)].value.unit.symbol;
  return answer.figures > 0 && !unit.empty() ? number + ' ' + unit : number;
}

/// The questions of some places, for people: "question 2 (K7QM-3RTA), question 2 (9XPL-22WD) and 27 more".
std::string named(std::vector<std::string> places) {
  constexpr std::size_t most = 3;
  if (places.size() > most) {
    auto const more = places.size() - most + 1;
    places.resize(most - 1);
    places.push_back(std::to_string(more) + " more");
  }
  return enumerated(places);
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
    written.kind = Written::Kind::unreadable;
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
  auto again = made_again(console, order, set.seed);
  if (!again) return std::nullopt;
  PrintedKeys printed;
  std::vector<std::string> not_there, other_parts, not_open, other_words;
  auto const now = in_place(*again);
  for (auto const& [place, question] : in_place(set)) {
    auto const where = "question " + place.second + " (" + question->code + ")";
    auto const at = now.find(place);
    if (at == now.end()) {
      not_there.push_back(where);
      continue;
    }
    auto& corrected = *at->second;
    if (!same_parts(*question, corrected)) {
      other_parts.push_back(where);
      continue;
    }
    bool const other_text = question->text != corrected.text;
    corrected.text = question->text;
    corrected.code = question->code;
    corrected.marks = question->marks;
    if (question_line(*question, set.course.conventions.ties) == question_line(corrected, set.course.conventions.ties)) continue;
    if (question->form != Form::open || corrected.form != Form::open) {
      not_open.push_back(where);
      continue;
    }
    if (other_text) other_words.push_back(where);
    Question before = std::move(*question);
    *question = std::move(corrected);
    printed.add(*question, std::move(before));
  }
  auto const tell = [&](std::vector<std::string> const& places, std::string const& what) {
    if (!places.empty()) console.warn(named(places) + ": " + what);
  };
  tell(not_there, "the order has none in this place now; marked by the printed key");
  tell(other_parts, "other parts are asked now; marked by the printed key");
  tell(not_open, "the printed answers to choose, or the printed lines, cannot be corrected; marked by the printed key");
  tell(other_words, "reads otherwise on paper than the order has it now; marked by the corrected key");
  if (printed.size() == 0) console.warn("The order gives the printed key: nothing is corrected.");
  return printed;
}

}  // namespace molewright
