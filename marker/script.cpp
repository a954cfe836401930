#include "marker/script.h"

#include <algorithm>
#include <cmath>

#include "engine/ascii.h"
#include "engine/builder.h"
#include "engine/formula.h"
#include "engine/steps.h"
#include "engine/substance.h"
#include "marker/marks.h"
#include "marker/slip_library.h"
#include "marker/stated.h"
#include "marker/words.h"

namespace molewright {
namespace {

bool is_percent(Unit const& unit) { return unit.symbol == "%"; }
bool is_number_alone(Unit const& unit) { return unit.dimension == Dimension{} && unit.factor == Rational(1); }

/// Index of the substance that `text` names by formula or name; -1 for none of them.
int named(std::string const& text, std::vector<std::string> const& formulas) {
  auto const read = parse_formula(text);
  std::string formula;
  if (ok(read)) {
    auto without_state = value(read);
    without_state.state = State::none;
    formula = plain(without_state);
  }
  auto const words = lowered(text);
  for (std::size_t i = 0; i < formulas.size(); ++i) {
    if (!formula.empty() && formula == formulas[i]) return static_cast<int>(i);
    for (auto const spelling : {Spelling::sulfur, Spelling::sulphur})
      if (auto const name = lowered(name_of(formulas[i], spelling)); !name.empty() && name == words) return static_cast<int>(i);
  }
  return -1;
}

double half_of(WrittenNumber const& number) {
  // One figure says too little of what lies behind it: then only the number itself is carried.
  return number.figures < 2 ? 0 : 0.5 * number.step;
}
}  // namespace

std::vector<Reading> readings(Written const& written, Unit const& asked) {
  std::vector<Reading> all;
  auto const add = [&](Decimal const& number, bool as_meant) {
    auto const put = [&](Rational const& factor, UnitVerdict verdict, char const* note, bool meant) {
      all.push_back(Reading{written_number(number, factor), verdict, note, meant});
    };
    Rational const one(1);
    if (!written.unit) {
      bool const needs_none = is_number_alone(asked) || is_percent(asked);
      if (!written.unit_text.empty()) {
        put(one, UnitVerdict::wrong, "unknown-unit", as_meant);
      } else {
        put(one, needs_none ? UnitVerdict::not_judged : UnitVerdict::missing, needs_none ? "" : "unit-missing", as_meant);
        if (is_percent(asked)) put(Rational(100), UnitVerdict::missing, "fraction-for-percent", false);
      }
      return;
    }
    auto const& unit = *written.unit;
    if (unit.dimension != asked.dimension) {
      put(one, UnitVerdict::wrong, "unit-of-other-quantity", as_meant);
      return;
    }
    auto const factor = unit.factor / asked.factor;
    if (factor == one) {
      put(one, UnitVerdict::right, "", as_meant);
    } else {
      put(factor, UnitVerdict::equivalent, "answer-in-other-valid-unit", as_meant);
      put(one, UnitVerdict::wrong, "unit-prefix-not-applied", false);
    }
  };
  add(written.number, true);
  if (written.other_reading) add(*written.other_reading, false);
  return all;
}

/// What is carried of the answers that this part rests on, as a text; empty where it is not known.
std::string Script::carried_here() const {
  std::string all = "carried";
  for (std::size_t e = 0; e < find_; ++e) {
    if (!judge_.hands_on()[e].to[find_]) continue;
    if (carried_[e].id == Carried::unknown) return {};
    all += ' ' + std::to_string(carried_[e].id);
  }
  return all;
}

Judgement Script::next(Written const& written) {
  auto* const known = record_ ? nullptr : judge_.known_.get();
  auto const own = known ? KnownParts::key(find_, written) : std::string();
  auto const with_carried = own.empty() ? std::string() : carried_here();
  if (!own.empty()) {
    auto const* found = known->find(own);
    if (!found && !with_carried.empty()) found = known->find(own + with_carried);
    if (found) {
      carried_.push_back(found->carried);
      ++find_;
      return found->judgement;
    }
  }
  auto judgement = judge_part(written);
  auto& carried = carried_.back();
  if (!own.empty() && (alone_ || !with_carried.empty()))
    known->keep(alone_ ? own : own + with_carried, judgement, carried);
  else if (carried.usable && carried.id != Carried::told)
    carried.id = Carried::unknown;
  ++find_;
  return judgement;
}

Judgement Script::judge_part(Written const& written) {
  auto const& question = judge_.question();
  Judgement judgement;
  judgement.student = question.student;
  judgement.question = question.number;
  judgement.part = part_name(question, find_);
  judgement.code = question.code;
  judgement.given = written.raw;
  judgement.correct = answer().text;
  if (answer().figures > 0 && !node().value.unit.symbol.empty()) judgement.correct += " " + node().value.unit.symbol;
  if (auto const letter = right_letter(question)) judgement.correct = std::string(1, *letter) + ": " + judgement.correct;
  judgement.out_of = find_ < question.marks.size() ? question.marks[find_] : 1;
  judgement.notes = written.notes;
  fits_a_slip_ = false;
  carried_.push_back(Carried{});
  auto const& hands_on = judge_.hands_on()[find_];
  carried_.back().answer = answer().node;
  carried_.back().node = hands_on.node;
  carried_.back().factor = hands_on.factor;
  alone_ = true;
  bool const choice = judge_.working().nodes[static_cast<std::size_t>(answer().node)].definition.operation == Operation::choose;
  bool const line = asked().kind == Find::Kind::line_at_fault;
  bool const formula = !choice && !line && answer().figures == 0;
  bool const by_hand =
      written.kind == Written::Kind::blank || written.kind == Written::Kind::absent || written.kind == Written::Kind::ticked;
  if (is_stated(asked().kind) && !by_hand) {
    judge_stated_answer(written, judgement);
    award(judgement, judge_.course_.rules, fits_a_slip_);
    remark(written, judgement);
    return judgement;
  }
  switch (written.kind) {
    case Written::Kind::blank:
      judgement.value = ValueVerdict::blank;
      break;
    case Written::Kind::absent:
      judgement.value = ValueVerdict::absent;
      break;
    case Written::Kind::ticked:
      judgement.value = ValueVerdict::right;
      carry(node().value.number, 0, true);
      break;
    case Written::Kind::letter:
      if (choice)
        judge_choice(written, judgement);
      else
        formula ? judge_formula(written, judgement) : judge_letter(written, judgement);
      break;
    case Written::Kind::number:
      if (choice || formula)
        judgement.value = ValueVerdict::unreadable;
      else if (line)
        judge_line(written.number, judgement);
      else
        judge_number(written, judgement);
      break;
    case Written::Kind::words:
      if (choice)
        judge_choice(written, judgement);
      else if (formula)
        judge_formula(written, judgement);
      else if (line)
        judge_line_in_words(written, judgement);
      else
        judgement.value = ValueVerdict::unreadable;
      break;
    case Written::Kind::unreadable:
      if (line)
        judge_line_in_words(written, judgement);
      else
        judgement.value = ValueVerdict::unreadable;
      break;
  }
  if (asked().told && judgement.value != ValueVerdict::right && judgement.value != ValueVerdict::absent) carry_told(find_);
  pass_over_lost_zeros(written, judgement);
  award(judgement, judge_.course_.rules, fits_a_slip_);
  award_lines(judgement, judge_.course_.rules);
  remark(written, judgement);
  return judgement;
}

/// Zeros that a spreadsheet dropped are nobody's fault: where they would make up the figures due, figures are not judged.
void Script::pass_over_lost_zeros(Written const& written, Judgement& judgement) const {
  if (!written.zeros_may_be_lost || judgement.figures != FiguresVerdict::too_few) return;
  bool const right = judgement.value == ValueVerdict::right;
  bool const follows = judgement.value == ValueVerdict::follow_through;  // what it would be to all figures is not known
  auto const& value = node().value.number;
  bool const whole = written.number.value == round_to_figures(value, answer().figures, Rounding::half_up) ||
                     written.number.value == round_to_figures(value, answer().figures, Rounding::half_even);
  if (!follows && !(right && whole)) return;
  judgement.figures = FiguresVerdict::not_judged;
  judgement.notes.push_back("zeros-may-be-lost");
}

void Script::carry(Rational const& value, double half, bool right) {
  auto& last = carried_.back();
  last.value = value * last.factor;
  last.half = half * last.factor.to_double();
  last.right = right;
  last.usable = true;
}

/// Whoever could not show a value goes on with the one that the question tells, rightly.
void Script::carry_told(std::size_t find) {
  auto const told = told_value(judge_.working(), find, judge_.course_.conventions.ties);
  auto& carried = carried_[find];
  carried.value = told.value;
  carried.half = 0;  // it is used as it stands
  carried.right = carried.usable = true;
  carried.id = Carried::told;
}

/// Whether a number is the told one, to no more figures.
bool Script::only_repeats(WrittenNumber const& number) const {
  auto const told = told_value(judge_.working(), find_, judge_.course_.conventions.ties);
  return number.value == told.value && number.figures <= told.figures;
}

/// A cause that leaves no doubt.
void Script::name_cause(std::string_view slip, SlipNumbers numbers, Judgement& judgement) {
  auto const words = words_of(slip);
  numbers.given = judgement.given;
  judgement.candidates.push_back({{{std::string(slip), node().id}}, 1, filled(words.tutor, numbers)});
  judgement.feedback = filled(words.student, numbers);
  fits_a_slip_ = true;
}

void Script::judge_stated_answer(Written const& written, Judgement& judgement) {
  judgement.notes.clear();  // those of reading it as a number
  auto const verdict = judge_stated(written.raw, judge_.question().worked, find_);
  switch (verdict.value) {
    case StatedVerdict::Value::unreadable:
      judgement.value = ValueVerdict::unreadable;
      return;
    case StatedVerdict::Value::wrong:
      judgement.value = ValueVerdict::wrong;
      if (!verdict.slip.empty()) name_cause(verdict.slip, verdict.holes, judgement);
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

void Script::judge_number(Written const& written, Judgement& judgement) {
  auto const all = readings(written, node().value.unit);
  if (asked().told && only_repeats(all.front().number)) {
    judgement.value = ValueVerdict::wrong;
    name_cause("told-value-repeated", {}, judgement);
    fits_a_slip_ = false;  // nothing is shown, so that no mark is near
    return;
  }
  if (right_by_some_reading(all, judgement)) {
    look_at_lines_of_right(written, judgement);
    return;
  }
  alone_ = false;
  auto const& plain_reading = all.front();
  if (right_within_the_band(plain_reading, judgement) || follows(plain_reading, judgement)) {
    look_at_lines_of_right(written, judgement);
    judge_unit_and_figures(plain_reading, judgement);
    carry(plain_reading.number.value, half_of(plain_reading.number), judgement.value == ValueVerdict::right);
    return;
  }
  // A later part may follow from an earlier one in a reading that only its sense shows ("0.5 mg" meant as g).
  for (auto const& reading : all)
    if (!reading.as_meant && follows(reading, judgement)) {
      if (!reading.note.empty()) judgement.notes.push_back(reading.note);
      judge_unit_and_figures(reading, judgement);
      carry(reading.number.value, half_of(reading.number), false);
      return;
    }
  judgement.value = ValueVerdict::wrong;
  read_lines(written, judgement, true);
  judge_unit_and_figures(plain_reading, judgement);
  judgement.figures = FiguresVerdict::not_judged;
  explain(plain_reading, judgement);
  give_marks_for_lines(plain_reading, judgement);
  carry(plain_reading.number.value, half_of(plain_reading.number), false);
}

bool Script::right_by_some_reading(std::vector<Reading> const& all, Judgement& judgement) {
  bool const one_figure = judge_.course_.rules.figures == MarkingRules::Figures::not_judged;
  auto const& right = node().value.number;
  auto const due_here = due();
  for (auto const& reading : all) {
    if (!agrees(reading.number, right, due_here, one_figure)) continue;
    judgement.value = ValueVerdict::right;
    if (!reading.note.empty() && reading.note != "unknown-unit") judgement.notes.push_back(reading.note);
    judge_unit_and_figures(reading, judgement);
    carry(reading.number.value, half_of(reading.number), true);
    return true;
  }
  return false;
}

bool Script::right_within_the_band(Reading const& reading, Judgement& judgement) {
  auto const& number = reading.number;
  auto const due_here = due();
  double const right = node().value.number.to_double();
  double const distance = std::abs(number.approximate - right);
  // A table of weights with fewer decimals is another choice, not a fault: the answer worked with it is right.
  double table_band = 0;
  bool other_table = false;
  for (double const other : judge_.other_tables(find_)) {
    if (!std::isfinite(other)) continue;
    table_band = std::max(table_band, std::abs(other - right));
    if (number.figures >= due_here.figures && std::abs(number.approximate - other) <= 0.5 * number.step * (1 + 1e-9))
      other_table = true;
  }
  bool const early = agrees_within_one(number, node().value.number, due_here);
  bool const between_tables = number.figures >= due_here.figures && distance <= table_band;
  if (!other_table && !early && !between_tables) return false;
  if (!other_table) {
    // The band ends half way to the nearest slip: whoever made that slip must not pass for right.
    for (auto const& slip : judge_.singles(find_))
      if (slip.slip->reach == Reach::specific && std::abs(number.approximate - slip.value) < distance) return false;
  }
  judgement.value = ValueVerdict::right;
  bool const cut = number.value == round_to_figures(node().value.number, due_here.figures, Rounding::truncate);
  judgement.notes.push_back(other_table || (between_tables && !early) ? "other-table-of-weights"
                            : cut                                     ? "truncated-not-rounded"
                                                                      : "rounded-each-step");
  return true;
}

void Script::judge_unit_and_figures(Reading const& reading, Judgement& judgement) const {
  auto const& rules = judge_.course_.rules;
  if (judge_.question().form == Form::mistake || judge_.question().form == Form::choice) {
    // A line of a working keeps guard digits, and of answers that are offered one is only to be named.
    judgement.unit = reading.unit == UnitVerdict::equivalent || judge_.question().form == Form::mistake ? reading.unit
                                                                                                        : UnitVerdict::not_judged;
    return;
  }
  judgement.unit = rules.units == MarkingRules::Units::not_judged && reading.unit != UnitVerdict::equivalent
                       ? UnitVerdict::not_judged
                       : reading.unit;
  int const due_figures = answer().figures, most = reading.number.figures, least = reading.number.certain;
  int slack = 1;
  switch (rules.figures) {
    case MarkingRules::Figures::not_judged:
      judgement.figures = FiguresVerdict::not_judged;
      return;
    case MarkingRules::Figures::at_least_two:
      judgement.figures = most < std::min(2, due_figures) ? FiguresVerdict::too_few : FiguresVerdict::right;
      return;
    case MarkingRules::Figures::exact:
      slack = 0;
      break;
    default:
      break;
  }
  judgement.figures = most < due_figures - slack    ? FiguresVerdict::too_few
                      : least > due_figures + slack ? FiguresVerdict::too_many
                                                    : FiguresVerdict::right;
}

void Script::judge_choice(Written const& written, Judgement& judgement) {
  auto const& formulas = judge_.working().chosen;
  int const index = named(written.raw, formulas);
  if (index < 0) {
    judgement.value = ValueVerdict::wrong;
    judgement.notes.push_back("not-a-reactant-that-may-limit");
    judgement.feedback = why_it_cannot_limit(judgement.given);
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
  auto const read = parse_formula(written.raw);
  auto const right = parse_formula(answer().text);
  if (!ok(read) || !ok(right)) {
    judgement.value = ValueVerdict::unreadable;
    return;
  }
  auto const ours = value(right).composition(), theirs = value(read).composition();
  if (ours == theirs && value(read).charge == value(right).charge) {
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
  judgement.notes.push_back(proportional ? "formula-is-a-multiple" : same_elements ? "other-ratio" : "other-elements");
  if (!proportional) explain_formula(theirs, judgement);
  if (!judgement.feedback.empty()) return;
  judgement.feedback = proportional    ? say::formula_is_a_multiple(judgement.given)
                       : same_elements ? say::other_ratio(judgement.given)
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
  auto const at = written.raw.find_first_of("0123456789");
  auto const number =
      at == std::string::npos ? Result<DecimalRead>(Fault{}) : read_decimal(written.raw.substr(at), DecimalMark::point);
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
  if (ok(read)) carry(value(read).value, half_of(written_number(value(read))), false);
}

}  // namespace molewright
