// The parts of judging a script whose answers are no numbers: a formula, an equation or a name, a choice, a line at fault, a
// letter of the slip key.
#include <algorithm>
#include <cmath>
#include <set>

#include "engine/ascii.h"
#include "engine/formula.h"
#include "engine/nomenclature.h"
#include "engine/steps.h"
#include "engine/substance.h"
#include "marker/read_formula.h"
#include "marker/script.h"
#include "marker/slip_library.h"
#include "marker/stated.h"
#include "marker/words.h"

namespace molewright {
namespace {

/// Where the water of a hydrate is asked, its number alone says which hydrate it is: "10", "x = 10", "10 H2O".
std::string with_dry_salt(std::string const& written, Formula const& hydrate) {
  auto const letters = with_letter_o(written);
  std::string_view number = stripped(letters);
  if (auto const equals = number.find('='); equals != std::string_view::npos) number = stripped(number.substr(equals + 1));
  for (std::string_view const water : {"H2O", "water"})
    if (number.size() > water.size() && number.substr(number.size() - water.size()) == water)
      number = stripped(number.substr(0, number.size() - water.size()));
  bool const whole = !number.empty() && number.size() <= 2 && std::all_of(number.begin(), number.end(), is_digit);
  return whole ? plain(anhydrous(hydrate)) + "·" + std::string(number) + "H2O" : written;
}
}  // namespace

void Script::judge_stated_answer(Written const& written, Judgement& judgement) {
  judgement.notes.clear();  // those of reading it as a number
  auto const verdict = judge_stated(written.said(), judge_.question().worked, find_, judge_.course_.conventions.naming);
  switch (verdict.value) {
    case StatedVerdict::Value::unreadable:
      judgement.value = ValueVerdict::unreadable;
      return;
    case StatedVerdict::Value::wrong:
      judgement.value = ValueVerdict::wrong;
      if (!verdict.slip.empty()) name_cause(verdict.slip, answer().node, verdict.holes, judgement);
      return;
    case StatedVerdict::Value::right:
      judgement.value = ValueVerdict::right;
      break;
  }
  bool const states = judge_.course_.rules.states == MarkingRules::States::required;
  for (auto const& note : verdict.notes) {
    bool const of_state = note == "states-missing" || note == "state-wrong";
    if (of_state && !states) continue;
    judgement.notes.push_back(note);
    judgement.states_off = judgement.states_off || of_state;
  }
}

void Script::judge_choice(Written const& written, Judgement& judgement) {
  auto const& formulas = judge_.working().chosen;
  auto const read = read_choice(written.said(), formulas, judge_.question().worked.problem, judge_.question().text);
  int const index = read.index;
  judgement.notes.insert(judgement.notes.end(), read.notes.begin(), read.notes.end());
  if (index < 0 && read.other.empty()) {
    judgement.value = ValueVerdict::unreadable;
    return;
  }
  if (index < 0) {
    judgement.value = ValueVerdict::wrong;
    judgement.notes.push_back("not-a-reactant-that-may-limit");
    judgement.feedback = why_it_cannot_limit(read.other);
    return;
  }
  bool const right = Rational(index) == node().value.number;
  carry(Rational(index), 0, right);
  if (right) {
    judgement.value = ValueVerdict::right;
    return;
  }
  alone_ = false;
  for (auto const& chosen : ways_to_carry()) {
    if (!judge_.course_.rules.follow_through) break;
    std::vector<Definition> definitions;
    for (auto const e : chosen) definitions.push_back(constant_of(carried_[e].value));
    std::vector<Estimator::Change> changes;
    for (std::size_t k = 0; k < chosen.size(); ++k) changes.push_back({carried_[chosen[k]].node, &definitions[k]});
    if (judge_.estimator_.with(changes, answer().node) == index) {
      judgement.value = ValueVerdict::follow_through;
      return;
    }
  }
  judgement.value = ValueVerdict::wrong;
  auto const single = judge_.singles(find_);
  std::vector<SlipAnswer> answers(single.begin(), single.end());
  for (auto const& more : slip_answers_on_top()) answers.push_back(more);
  auto const diagnosis = diagnose_choice(index, static_cast<int>(formulas.size()), answers, record_);
  fits_a_slip_ = !diagnosis.rivals.empty();
  speak(diagnosis, judgement);
  say_comparison(judgement);
}

/// A formula found from data: the elements in any order, in the right numbers.
void Script::judge_formula(Written const& written, Judgement& judgement) {
  auto const right = parse_formula(answer().text);
  bool const of_hydrate = node().relation == relations::hydrate_formula && ok(right);
  if (!ok(right)) {
    judgement.value = ValueVerdict::unreadable;
    return;
  }
  auto const ours = value(right).composition();
  std::set<std::string> elements;
  for (auto const& [element, count] : ours) elements.insert(element);
  auto const& said = written.said();
  auto const read = read_formula_as_meant(of_hydrate ? with_dry_salt(said, value(right)) : said, elements);
  if (!read) {
    judgement.value = ValueVerdict::unreadable;
    if (ok(identify(said))) judgement.notes.push_back("name-for-formula");
    return;
  }
  judgement.notes.insert(judgement.notes.end(), read->notes.begin(), read->notes.end());
  auto const theirs = read->formula.composition();
  if (ours == theirs && read->formula.charge == value(right).charge) {
    judgement.value = ValueVerdict::right;
    return;
  }
  judgement.value = ValueVerdict::wrong;
  bool const same_elements =
      ours.size() == theirs.size() &&
      std::equal(ours.begin(), ours.end(), theirs.begin(), [](auto const& a, auto const& b) { return a.first == b.first; });
  bool const proportional = same_elements && std::all_of(ours.begin(), ours.end(), [&](auto const& element) {
                              return element.second * theirs.begin()->second == theirs.at(element.first) * ours.begin()->second;
                            });
  bool const lacks_one = ours.size() > theirs.size() && std::all_of(theirs.begin(), theirs.end(), [&](auto const& element) {
                           return ours.find(element.first) != ours.end();
                         });
  judgement.notes.push_back(proportional ? "formula-is-a-multiple" : same_elements ? "other-ratio" : "other-elements");
  if (!proportional) explain_formula(theirs, judgement);
  if (!judgement.feedback.empty()) return;
  judgement.feedback = proportional    ? say::formula_is_a_multiple(judgement.given)
                       : same_elements ? say::other_ratio(judgement.given)
                       : lacks_one     ? say::element_missing(judgement.given)
                                       : say::other_elements(judgement.given);
}

void Script::judge_line(Decimal const& number, Judgement& judgement) {
  auto const right = parse_decimal(answer().text);
  if (ok(right) && number.value == value(right).value) {
    judgement.value = ValueVerdict::right;
    return;
  }
  judgement.value = ValueVerdict::wrong;
  auto const& slip = judge_.question().planted;
  judgement.feedback = say::other_line(judgement.given, answer().text, words_of(slip).brief);
}

/// "line 3", "the third line" ... : the number in it counts.
void Script::judge_line_in_words(Written const& written, Judgement& judgement) {
  auto const at = written.said().find_first_of("0123456789");
  auto const number =
      at == std::string::npos ? Result<DecimalRead>(Fault{}) : read_decimal(written.said().substr(at), DecimalMark::point);
  if (!ok(number))
    judgement.value = ValueVerdict::unreadable;
  else
    judge_line(value(number).number, judgement);
}

void Script::judge_letter(Written const& written, Judgement& judgement) {
  if (right_letter(judge_.question()) == written.letter) {
    judgement.value = ValueVerdict::right;
    carry(node().value.number, 0, true);
    return;
  }
  auto const& keys = judge_.question().slip_key;
  SlipKeyEntry const* entry = nullptr;
  if (find_ < keys.size())
    for (auto const& one : keys[find_])
      if (one.letter == written.letter) entry = &one;
  if (!entry) {
    judgement.value = ValueVerdict::unreadable;
    judgement.notes.push_back("no-such-letter");
    return;
  }
  // The teacher saw the script and judged it: the slip is named as surely as they named it, its value carried on.
  judgement.value = ValueVerdict::wrong;
  fits_a_slip_ = true;
  auto const answers = judge_.singles(find_);
  for (auto const& id : entry->ids) {
    Candidate candidate;
    auto const found = std::find_if(answers.begin(), answers.end(), [&](SlipAnswer const& answer) {
      return answer.slip->id == id && std::abs(answer.value - entry->value) <= 1e-6 * std::abs(entry->value);
    });
    SlipNumbers numbers;
    if (found != answers.end()) numbers = judge_.numbers_of(*found, find_);
    numbers.given = entry->answer;
    candidate.slips.push_back({id, found != answers.end() ? found->node : ""});
    candidate.probability = 1.0 / static_cast<double>(entry->ids.size());
    candidate.text = in_units_of_course(filled(words_of(id).tutor, numbers), judge_.course_.conventions);
    if (judgement.feedback.empty())
      judgement.feedback = in_units_of_course(filled(words_of(id).student, numbers), judge_.course_.conventions);
    judgement.candidates.push_back(std::move(candidate));
  }
  auto const read = parse_decimal(entry->answer);
  if (ok(read)) carry(written_number(value(read)), false);
}

}  // namespace molewright
