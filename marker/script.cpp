#include "marker/script.h"

#include <algorithm>
#include <cmath>

#include "engine/builder.h"
#include "marker/marks.h"
#include "marker/words.h"

namespace molewright {
namespace {

bool is_percent(Unit const& unit) { return unit.symbol == "%"; }
bool is_number_alone(Unit const& unit) { return unit.dimension == Dimension{} && unit.factor == Rational(1); }

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

/// What is carried of the answers that this part rests on, and which of the others are right, as a text; empty where it is not
/// known.
std::string Script::carried_here() const {
  std::string all = "carried";
  for (std::size_t e = 0; e < find_; ++e) {
    if (!judge_.hands_on()[e].to[find_]) {
      all += shown_right(e) ? " right" : " -";
      continue;
    }
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
  judgement.answer = std::move(judgement.given);
  judgement.given = written.raw;
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
  judgement.given = written.said();  // what sentences say back; `next` puts the whole of it there
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
  bool const set_aside = written.kind == Written::Kind::unreadable && written.why.empty();
  if (is_stated(asked().kind) && !by_hand && !set_aside) {
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
      if (choice)
        judgement.value = ValueVerdict::unreadable;
      else if (formula)
        judge_formula(written, judgement);
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
    case Written::Kind::unreadable:  // as a number or a word; a formula comes in more shapes
      if (set_aside || !(choice || formula || line))
        judgement.value = ValueVerdict::unreadable;
      else if (choice)
        judge_choice(written, judgement);
      else if (formula)
        judge_formula(written, judgement);
      else
        judge_line_in_words(written, judgement);
      break;
  }
  if (asked().told && judgement.value != ValueVerdict::right && judgement.value != ValueVerdict::absent) carry_told(find_);
  pass_over_lost_zeros(written, judgement);
  // A fraction is exact: it has no figures.
  if (std::find(written.notes.begin(), written.notes.end(), "fraction-written") != written.notes.end())
    judgement.figures = FiguresVerdict::not_judged;
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

void Script::carry(WrittenNumber const& number, bool right) {
  // One figure says too little of what lies behind it: then only the number itself is carried.
  carry(number.value, number.figures < 2 ? 0 : 0.5 * number.step, right);
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
void Script::name_cause(std::string_view slip, int at, SlipNumbers numbers, Judgement& judgement) {
  auto const words = words_of(slip);
  numbers.given = judgement.given;
  auto const& id = judge_.working().nodes[static_cast<std::size_t>(at)].id;
  judgement.candidates.push_back({{{std::string(slip), id}}, 1, filled(words.tutor, numbers)});
  judgement.feedback = filled(words.student, numbers);
  fits_a_slip_ = true;
}

void Script::judge_number(Written const& written, Judgement& judgement) {
  auto const all = readings(written, node().value.unit);
  if (asked().told && only_repeats(all.front().number)) {
    judgement.value = ValueVerdict::wrong;
    name_cause("told-value-repeated", answer().node, {}, judgement);
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
    if (plain_reading.note == "unit-of-other-quantity") judgement.notes.push_back(plain_reading.note);
    judge_unit_and_figures(plain_reading, judgement);
    carry(plain_reading.number, judgement.value == ValueVerdict::right);
    return;
  }
  // A later part may follow from an earlier one in a reading that only its sense shows ("0.5 mg" meant as g).
  for (auto const& reading : all)
    if (!reading.as_meant && follows(reading, judgement)) {
      if (!reading.note.empty()) judgement.notes.push_back(reading.note);
      judge_unit_and_figures(reading, judgement);
      carry(reading.number, false);
      return;
    }
  judgement.value = ValueVerdict::wrong;
  read_lines(written, judgement, true);
  judge_unit_and_figures(plain_reading, judgement);
  judgement.figures = FiguresVerdict::not_judged;
  explain(written, all, judgement);
  give_marks_for_lines(plain_reading, judgement);
  carry(plain_reading.number, false);
}

bool Script::right_by_some_reading(std::vector<Reading> const& all, Judgement& judgement) {
  bool const one_figure = judge_.course_.rules.figures == MarkingRules::Figures::not_judged;
  auto const& right = node().value.number;
  auto const due_here = due();
  for (auto const& reading : all) {
    if (!agrees(reading.number, right, due_here) && !(one_figure && is_rounded_to_one_figure(reading.number, right))) continue;
    judgement.value = ValueVerdict::right;
    if (!reading.note.empty() && reading.note != "unknown-unit") judgement.notes.push_back(reading.note);
    judge_unit_and_figures(reading, judgement);
    carry(reading.number, true);
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
    bool const to_the_last = std::abs(number.approximate - other) <= 1e-9 * std::abs(other);  // the calculator shows 0.1
    if (to_the_last ||
        (number.figures >= due_here.figures && std::abs(number.approximate - other) <= 0.5 * number.step * (1 + 1e-9)))
      other_table = true;
  }
  bool const early = agrees_within_one(number, node().value.number, due_here);
  bool const between_tables = number.figures >= due_here.figures && distance <= table_band;
  double const tolerance = judge_.course_.rules.tolerance;
  bool const tolerated =
      tolerance > 0 && number.figures >= std::min(2, due_here.figures) && distance <= tolerance * std::abs(right);
  if (!other_table && !early && !between_tables && !tolerated) return false;
  if (!other_table) {
    // The band ends half way to the nearest slip: whoever made that slip must not pass for right.
    for (auto const& slip : judge_.singles(find_))
      if (slip.slip->reach == Reach::specific && std::abs(number.approximate - slip.value) < distance) return false;
  }
  judgement.value = ValueVerdict::right;
  bool const cut = number.value == round_to_figures(node().value.number, due_here.figures, Rounding::truncate);
  judgement.notes.push_back(other_table || (between_tables && !early) ? "other-table-of-weights"
                            : !early                                  ? "within-tolerance"
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
  bool const follows = judgement.value == ValueVerdict::follow_through;  // by places, since the number may be of another size
  int const due_figures = answer().figures;
  int const most = follows ? due_figures + figures_beyond_due(reading.number) : reading.number.figures;
  int const least = most - (reading.number.figures - reading.number.certain);
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

}  // namespace molewright
