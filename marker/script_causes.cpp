// The parts of judging a script that look for causes: follow-through from earlier answers, slips, and what is said.
#include <algorithm>
#include <array>
#include <cmath>
#include <iterator>
#include <optional>

#include "engine/steps.h"
#include "marker/pairs.h"
#include "marker/script.h"
#include "marker/slip_library.h"
#include "marker/words.h"

namespace molewright {

/// Earlier answers that this one rests on and that may have been carried on: all of them, then each alone.
std::vector<Script::Chosen> Script::ways_to_carry() const {
  Chosen every;
  for (std::size_t e = 0; e < find_; ++e)
    if (carried_[e].usable && judge_.hands_on()[e].to[find_]) every.push_back(e);
  std::vector<Chosen> ways;
  if (every.empty()) return ways;
  ways.push_back(every);
  if (every.size() > 1)
    for (auto const e : every) ways.push_back({e});
  return ways;
}

/// Whether what is asked for can have that value: an amount is above zero, a pH need not be.
bool Script::can_be(double value) const { return value > 0 || may_be_below_zero(node().quantity.symbol); }

/// How many figures a number has beyond those due. Of a logarithm and a sum the decimal places say so: worked from a wrong number
/// 2.936 may become 0.004.
int Script::figures_beyond_due(WrittenNumber const& number) const {
  return answer().by_place ? answer().place - magnitude(number.last) : number.figures - answer().figures;
}

bool Script::follows_from(Chosen const& chosen, WrittenNumber const& number) const {
  auto& estimator = judge_.estimator_;
  int const target = answer().node;
  std::vector<Definition> definitions;
  for (auto const e : chosen) definitions.push_back(constant_of(carried_[e].value));
  std::vector<Estimator::Change> changes;
  for (std::size_t k = 0; k < chosen.size(); ++k) changes.push_back({carried_[chosen[k]].node, &definitions[k]});
  double const carried = estimator.with(changes, target);
  // What became impossible on the way (a negative amount) is not followed.
  if (!changes_answer(carried, estimator.base(target)) || !can_be(carried)) return false;
  double spread = 0;  // the number written stands for an unrounded one behind it
  for (std::size_t k = 0; k < chosen.size(); ++k) {
    auto const& earlier = carried_[chosen[k]];
    if (!(earlier.half > 0)) continue;
    auto const shift = (earlier.value.sign() == 0 ? Rational(1) : earlier.value.absolute()) * Rational(1, 1000000);
    Definition const shifted = constant_of(earlier.value + shift);
    changes[k].definition = &shifted;
    double const slope = (estimator.with(changes, target) - carried) / shift.to_double();
    changes[k].definition = &definitions[k];
    if (std::isfinite(slope)) spread += std::abs(slope) * earlier.half;
  }
  double own = 0.5 * number.step;
  int const more = figures_beyond_due(number);
  if (more > 0) own = number.step;
  if (more >= 0) {
    int const place = answer().by_place || carried == 0
                          ? answer().place
                          : static_cast<int>(std::floor(std::log10(std::abs(carried)))) - answer().figures + 1;
    own = std::max(own, Rational::power_of_ten(place).to_double());
  }
  if (number.figures < 2 && more < 0) own = 1e-9 * std::abs(carried);  // one figure: only the very number
  return std::abs(number.approximate - carried) <= (own + spread) * (1 + 1e-9);
}

bool Script::follows(Reading const& reading, Judgement& judgement) {
  if (!can_be(reading.number.approximate)) return false;
  if (follows_what_was_carried(reading, judgement)) return true;
  // What the question tells of an earlier part may be used as it is told, whatever was worked out there.
  for (std::size_t e = 0; e < find_; ++e) {
    if (!judge_.question().worked.problem.finds[e].told) continue;
    auto const own = carried_[e];
    carry_told(e);
    bool const follows = follows_what_was_carried(reading, judgement);
    carried_[e] = own;
    if (follows) return true;
  }
  return false;
}

bool Script::follows_what_was_carried(Reading const& reading, Judgement& judgement) {
  for (auto const& chosen : ways_to_carry()) {
    bool const from_right = std::all_of(chosen.begin(), chosen.end(), [&](std::size_t e) { return carried_[e].right; });
    if (!from_right && !judge_.course_.rules.follow_through) continue;
    if (!follows_from(chosen, reading.number)) continue;
    // Rounded in an earlier part and carried on rounded: nothing is wrong but the last figure.
    judgement.value = from_right ? ValueVerdict::right : ValueVerdict::follow_through;
    if (from_right) judgement.notes.push_back("rounded-each-step");
    return true;
  }
  return false;
}

/// What a second slip leads to, on top of earlier wrong answers that were carried on: what no slip of the question leads to.
std::vector<SlipAnswer> const& Script::slip_answers_on_top() {
  on_top_.clear();
  std::vector<Definition> definitions;
  auto const changes = wrong_ones_carried(definitions, false);
  auto& estimator = judge_.estimator_;
  if (changes.empty() || !changes_answer(estimator.with(changes, answer().node), estimator.base(answer().node))) return on_top_;
  auto* const known = record_ ? nullptr : judge_.known_.get();
  auto const carried = known ? carried_here() : std::string();
  if (!carried.empty())
    if (auto const* const found = known->on_top(find_, carried)) return *found;
  on_top_ = slip_answers(judge_.slips().all, estimator, judge_.working(), find_, changes);
  // Both stand in the order of the applications.
  auto const alone = judge_.singles(find_);
  auto one = alone.begin();
  std::erase_if(on_top_, [&](SlipAnswer const& more) {
    while (one != alone.end() && one->application < more.application) ++one;
    return more.slip == judge_.without_ ||
           (one != alone.end() && one->application == more.application && !changes_answer(one->value, more.value));
  });
  return carried.empty() ? on_top_ : known->keep_on_top(find_, carried, on_top_);
}

/// What slips lead to with rounding on the way.
std::vector<RoundedAnswer> Script::rounded_on_the_way(Reading const& reading, std::span<SlipAnswer const> answers) const {
  std::vector<Definition> definitions;
  auto found = judge_.rounded_slips().near(reading.number.approximate, answers, find_, wrong_ones_carried(definitions, false));
  go_on_from_earlier_answers(reading.number, answers, found);
  auto const rounded = lines_.placed.changes_as_written();
  if (rounded.empty()) return found;
  constexpr double goes_on_from_the_line = 0.5;  // rather than from the number behind it (proposal)
  for (std::size_t a = 0; a < answers.size(); ++a) {
    auto const& answer = answers[a];
    if (answer.slip->reach != Reach::specific || answer.working != 0 || !agrees_with_lines(answer)) continue;
    auto const& application = judge_.slips().all[answer.application];
    std::vector<Estimator::Change> changes;
    add_changes(application, changes);
    changes.insert(changes.end(), rounded.begin(), rounded.end());
    double const value = judge_.estimator_.with(changes, target_of(application, find_, this->answer().node));
    if (changes_answer(value, answer.value)) found.push_back({a, value, goes_on_from_the_line});
  }
  return found;
}

/// What slips lead to behind an earlier answer that is right and was carried on as it was handed in, rounded; and behind a wrong
/// one that was carried on as it stood before it was rounded for its box.
void Script::go_on_from_earlier_answers(WrittenNumber const& number, std::span<SlipAnswer const> answers,
                                        std::vector<RoundedAnswer>& found) const {
  constexpr double goes_on_from_it = 0.5, farthest = 0.05;  // rather than from the number behind it (proposal); relative
  auto& estimator = judge_.estimator_;
  struct Earlier {  // NOLINT(bugprone-exception-escape): a few terms moved in place allocate nothing
    std::size_t find;
    Definition as_it_stands, half_more;
  };
  std::vector<Earlier> right, wrong;
  for (std::size_t e = 0; e < find_; ++e) {
    auto const& one = carried_[e];
    if (!one.usable || one.answer == answer().node || !judge_.hands_on()[e].to[find_]) continue;
    auto const half = Rational::power_of_ten(-6) * one.value.absolute();
    (one.right ? right : wrong).push_back({e, constant_of(one.value), constant_of(one.value + half)});
  }
  if (right.empty() && wrong.empty()) return;
  std::vector<Estimator::Change> changes;
  for (std::size_t a = 0; a < answers.size(); ++a) {
    auto const& one = answers[a];
    bool const near = std::abs(number.approximate - one.value) <= farthest * std::abs(one.value);
    if (!near || one.slip->reach == Reach::rounding || one.working != 0 || one.against_right_part) continue;
    auto const& application = judge_.slips().all[one.application];
    int const target = target_of(application, find_, answer().node);
    changes.clear();
    add_changes(application, changes);
    if (!changes_answer(one.value, estimator.with(changes, target))) {
      for (auto const& earlier : right) changes.push_back({carried_[earlier.find].node, &earlier.as_it_stands});
      double const value = right.empty() ? one.value : estimator.with(changes, target);
      if (changes_answer(value, one.value)) found.push_back({a, value, goes_on_from_it});
      continue;
    }
    // On top of what was wrong before: any number that is written as the earlier answer may stand behind it.
    double spread = 0;
    for (auto const& earlier : wrong) {
      changes.clear();
      for (auto const& other : wrong)
        changes.push_back({carried_[other.find].node, &other == &earlier ? &other.half_more : &other.as_it_stands});
      add_changes(application, changes);
      double const moved = std::abs(estimator.with(changes, target) - one.value);
      auto const& there = carried_[earlier.find];
      if (there.half > 0 && std::isfinite(moved)) spread += moved * there.half / (1e-6 * std::abs(there.value.to_double()));
    }
    if (spread > 0.5 * number.step && std::abs(number.approximate - one.value) <= spread)
      found.push_back({a, number.approximate, goes_on_from_it * std::min(1.0, 0.5 * number.step / spread)});
  }
}

/// The right answer rounded twice, first to the figures due, or cut to fewer: no step went astray.
std::vector<SlipAnswer> Script::written_otherwise(WrittenNumber const& number) const {
  static auto const* const twice = find_slip("rounded-twice");
  static auto const* const cut = find_slip("truncated-not-rounded");
  constexpr int fewest = 2;  // one figure is next to no evidence
  std::vector<SlipAnswer> found;
  auto const& value = node().value.number;
  int const place = magnitude(number.last);
  if (number.figures < fewest || value.sign() == 0 || number.last != Rational::power_of_ten(place)) return found;
  if (std::abs(number.approximate - value.to_double()) > 2 * number.step) return found;  // neither moves a number that far
  std::vector<Slip const*> seen;
  if (number.value == round_to_place(value, place, Rounding::truncate)) seen.push_back(cut);
  auto const nearest = nearest_by(judge_.course_.conventions.ties);
  for (int first = place_of_figures(value, answer().figures, nearest) - 1; first < place; ++first)
    if (number.value == round_to_place(round_to_place(value, first, nearest), place, nearest)) {
      seen.push_back(twice);
      break;
    }
  if (seen.empty()) return found;  // the table of rounding is worked only where it is wanted
  auto const& all = judge_.roundings().all;
  auto const at = std::find_if(all.begin(), all.end(), [&](auto const& one) { return one.slip == cut && one.node == node().id; });
  if (at == all.end()) return found;
  for (auto const* const slip : seen)
    found.push_back(SlipAnswer{slip, node().id, number.approximate, static_cast<std::size_t>(at - all.begin())});
  return found;
}

/// Whether the student gave the number of an earlier part rightly, so that its steps are known to be. A choice may be guessed, a
/// told value be copied, and whoever changed the unit of a given may well go on with the number that is printed.
bool Script::shown_right(std::size_t find) const {
  auto const& earlier = carried_[find];
  if (!earlier.usable || !earlier.right || earlier.id == Carried::told) return false;
  auto const& nodes = judge_.working().nodes;
  auto const& answered = nodes[static_cast<std::size_t>(earlier.answer)];
  if (answered.definition.operation == Operation::choose) return false;
  return answered.relation != relations::convert ||
         is_a_step(nodes[static_cast<std::size_t>(answered.definition.terms.front().node)].definition);
}

bool Script::after_a_right_part() const {
  for (std::size_t e = 0; e < find_; ++e)
    if (shown_right(e)) return true;
  return false;
}

/// After parts that were answered rightly: a slip that would have shown there is hardly made only here.
std::vector<SlipAnswer> Script::held_against_right_parts(std::vector<SlipAnswer> answers) const {
  constexpr double seen = 0.005;  // as a share of the number that was handed in there
  for (std::size_t e = 0; e < find_; ++e) {
    if (!shown_right(e)) continue;
    auto const& answered = judge_.working().nodes[static_cast<std::size_t>(carried_[e].answer)];
    double const right = answered.value.number.to_double();
    for (auto& one : answers) {
      if (one.slip->reach == Reach::rounding) continue;
      auto const there =
          one.working == 0
              ? judge_.singles(e)
              : std::span<SlipAnswer const>(judge_.others()[static_cast<std::size_t>(one.working) - 1].slips.by_find[e]);
      auto const at = std::lower_bound(there.begin(), there.end(), one.application,
                                       [](SlipAnswer const& a, std::size_t b) { return a.application < b; });
      if (at == there.end() || at->application != one.application) continue;
      if (std::abs(at->value - right) > seen * std::abs(right)) one.against_right_part = true;
    }
  }
  return answers;
}

/// `all`: the readings of what was written, the plain one first.
void Script::explain(Written const& written, std::vector<Reading> const& all, Judgement& judgement) {
  auto const& reading = all.front();
  if (is_rounded_to_one_figure(reading.number, node().value.number)) {  // too hard to count as right, but no riddle
    judgement.figures = FiguresVerdict::too_few;
    judgement.notes.push_back("too-few-figures");
    judgement.feedback = say::one_figure(judgement.given, due_count(judgement), due_in_places(judgement));
    fits_a_slip_ = true;
    return;
  }
  if (explain_by_arithmetic(judgement) || explain_as_copied(judgement)) return;
  auto const& on_top = slip_answers_on_top();
  bool as_known = true;
  double const right = node().value.number.to_double();
  // Rounding to one figure moves a number by a third at most (0.0149 to 0.01), and on the way at most a few times that.
  bool const rounded = std::abs(reading.number.approximate - right) <= std::abs(right);
  auto const single = judge_.singles(find_);
  auto answers = rounded ? judge_.with_roundings(find_) : single;
  std::vector<SlipAnswer> of_this_script;  // where they are not those of the question
  auto const use = [&](std::vector<SlipAnswer> some) {
    of_this_script = std::move(some);
    answers = of_this_script;
  };
  if (!on_top.empty()) {
    std::vector<SlipAnswer> more;
    more.reserve(answers.size() + on_top.size());
    more.assign(answers.begin(), answers.begin() + static_cast<std::ptrdiff_t>(single.size()));
    more.insert(more.end(), on_top.begin(), on_top.end());
    more.insert(more.end(), answers.begin() + static_cast<std::ptrdiff_t>(single.size()), answers.end());
    use(std::move(more));
  }
  if (auto const otherwise = written_otherwise(reading.number); !otherwise.empty()) {
    std::vector<SlipAnswer> more(answers.begin(), answers.end());
    more.insert(more.end(), otherwise.begin(), otherwise.end());
    use(std::move(more));
  }
  if (!lines_.placed.right.empty()) use(seen_in_lines({answers.begin(), answers.end()}));
  bool const after_right = after_a_right_part();
  if (after_right) use(held_against_right_parts({answers.begin(), answers.end()}));
  auto const due_here = due();
  auto on_the_way = rounded_on_the_way(reading, answers);
  fits_a_slip_ =
      std::any_of(answers.begin(), answers.end(), [&](SlipAnswer const& one) { return fits(reading.number, one, due_here); }) ||
      std::any_of(on_the_way.begin(), on_the_way.end(),
                  [&](RoundedAnswer const& one) { return fits(reading.number, one, due_here); });
  double table_band = 0;
  for (double const other : judge_.other_tables(find_))
    if (std::isfinite(other) && right != 0) table_band = std::max(table_band, std::abs(other - right) / std::abs(right));
  if (explain_by_departure(reading, judgement) || explain_with_unit_off(written, all, {}, table_band, judgement) ||
      explain_behind_departure(reading, table_band, judgement))
    return;
  if (!lines_.placed.right.empty()) {  // what a line shows right was not slipped on, whatever else departs
    std::vector<SlipAnswer> left;
    std::copy_if(answers.begin(), answers.end(), std::back_inserter(left),
                 [&](SlipAnswer const& one) { return lines_.departs < 0 ? agrees_with_lines(one) : leaves_right_lines(one); });
    use(std::move(left));
    as_known = false;
    on_the_way = rounded_on_the_way(reading, answers);
  }
  auto diagnosis = diagnose(reading.number, answers, due_here, table_band, record_, on_the_way);
  if (diagnosis.rivals.empty() && !judge_.others().empty()) {
    std::vector<SlipAnswer> of_others;
    for (auto const& other : judge_.others())
      for (auto const& one : other.slips.by_find[find_])
        if (lines_.placed.right.empty() || leaves_right_lines(one)) of_others.push_back(one);
    if (after_right) of_others = held_against_right_parts(std::move(of_others));
    std::vector<SlipAnswer> more(answers.begin(), answers.end());
    more.insert(more.end(), of_others.begin(), of_others.end());
    use(std::move(more));
    diagnosis = diagnose(reading.number, answers, due_here, table_band, record_, on_the_way);
  }
  if (diagnosis.rivals.empty() && (explain_with_unit_off(written, all, answers, table_band, judgement) ||
                                   explain_by_pairs(reading, answers, as_known, table_band, judgement)))
    return;
  speak(diagnosis, judgement);
  if (judgement.candidates.empty() && lines_.departs >= 0)
    judgement.feedback = say::check_step(
        judgement.given, step_words(judge_.working(), judge_.working().nodes[static_cast<std::size_t>(lines_.departs)].id));
}

/// A formula found from data: the slips that lead to this very one.
void Script::explain_formula(std::map<std::string, std::int64_t> const& atoms, Judgement& judgement) {
  std::vector<SlipAnswer> answers;
  for (auto const& found : judge_.formulas(find_))
    if (found.atoms == atoms) {
      auto const& application = judge_.slips().all[found.application];
      answers.push_back(SlipAnswer{application.slip, application.node, 0, found.application});
    }
  int waters_off = 0;
  if (auto const right = parse_formula(answer().text); node().relation == relations::hydrate_formula && ok(right)) {
    auto const hydrogens = [](auto const& counts) {
      auto const at = counts.find("H");
      return at == counts.end() ? 0 : static_cast<int>(at->second);
    };
    waters_off = (hydrogens(atoms) - hydrogens(value(right).composition())) / 2;
  }
  auto const diagnosis = diagnose_formula(answers, waters_off, record_);
  fits_a_slip_ = !diagnosis.rivals.empty();
  speak(diagnosis, judgement);
  // That the step is the formula itself is no news.
  if (diagnosis.speech != Diagnosis::Speech::slip && diagnosis.node == node().id) judgement.feedback.clear();
}

/// `as_known`: none of the question's single slips was left out for what else this script holds.
bool Script::explain_by_pairs(Reading const& reading, std::span<SlipAnswer const> answers, bool as_known, double table_band,
                              Judgement& judgement) {
  int const least = lines_.placed.right.empty() ? figures_for_pairs : figures_for_pairs - 1;
  if (reading.number.certain < (lines_.placed.carried.empty() ? least : figures_for_pairs - 1)) return false;
  auto const look = [&](PairSearch& search, int figures, AgreesWithLines const& agrees) {
    for (auto const& pair : search.behind(reading.number, due(), table_band, figures, agrees))
      add_pair(*pair.first, *pair.second, pair.probability, pair.value, judgement);
    settle_pairs(judgement);
    return !judgement.candidates.empty();
  };
  std::optional<PairSearch> of_this_script;
  if (!as_known) {
    std::vector<SlipAnswer> printed;
    std::copy_if(answers.begin(), answers.end(), std::back_inserter(printed),
                 [](auto const& one) { return one.working == 0 && one.slip->reach != Reach::rounding; });
    of_this_script.emplace(printed, judge_.slips().all, judge_.estimator_, judge_.working(), find_);
  }
  auto& printed = as_known ? judge_.pairs(0, find_) : *of_this_script;
  if (!lines_.placed.carried.empty() &&
      look(printed, figures_for_pairs - 1, [this](auto const& changes) { return lead_to_departure(changes); }))
    return true;
  if (look(printed, least, {})) return true;
  for (std::size_t w = 1; w < judge_.question().worked.accepted.size(); ++w)
    if (look(judge_.pairs(w, find_), least, {})) return true;
  return false;
}

void Script::speak(Diagnosis const& diagnosis, Judgement& judgement) const {
  for (auto const& rival : diagnosis.rivals) {
    auto numbers = judge_.numbers_of(*rival.answer, find_);
    numbers.given = judgement.given;
    auto const words = words_of(rival.answer->slip->id);
    Candidate candidate;
    candidate.slips.push_back({std::string(rival.answer->slip->id), rival.answer->node});
    candidate.probability = rival.probability;
    candidate.value = rival.answer->value;
    candidate.text = in_units_of_course(filled(words.tutor, numbers), judge_.course_.conventions);
    if (judgement.candidates.empty() && diagnosis.speech == Diagnosis::Speech::slip)
      judgement.feedback = in_units_of_course(filled(words.student, numbers), judge_.course_.conventions);
    judgement.candidates.push_back(std::move(candidate));
  }
  if (diagnosis.speech == Diagnosis::Speech::step)
    judgement.feedback =
        say::check_step(judgement.given, step_words(judge_.working(), diagnosis.node)) + what_to_look_at(diagnosis.node);
  if (diagnosis.speech == Diagnosis::Speech::either)
    judgement.feedback = say::check_either(judgement.given, step_words(judge_.working(), diagnosis.node),
                                           step_words(judge_.working(), diagnosis.other_node));
}

namespace {
/// Whoever handed in another quantity than the one asked for may well have written its unit.
bool names_another_quantity(Judgement const& judgement) {
  static constexpr std::array<std::string_view, 3> slips{"stopped-one-step-early", "amount-reported-as-mass",
                                                         "answer-of-another-part"};
  return std::any_of(judgement.candidates.begin(), judgement.candidates.end(), [](Candidate const& candidate) {
    return std::any_of(candidate.slips.begin(), candidate.slips.end(), [](Candidate::Named const& slip) {
      return std::find(slips.begin(), slips.end(), slip.id) != slips.end();
    });
  });
}
}  // namespace

void Script::remark(Written const& written, Judgement& judgement) const {
  auto const asked = unit_text(node().value.unit, judge_.course_.conventions);
  auto const noted = [&](std::string_view note) {
    return std::find(judgement.notes.begin(), judgement.notes.end(), note) != judgement.notes.end();
  };
  auto const say_how_it_was_read = [&] {
    if (noted("zero-for-the-letter")) judgement.feedback += say::zero_for_the_letter();
    if (noted("capitals-of-formula")) judgement.feedback += say::capitals_of_formula();
  };
  switch (judgement.value) {
    case ValueVerdict::blank:
      judgement.feedback = say::nothing_written(first_step());
      return;
    case ValueVerdict::absent:
      return;
    case ValueVerdict::unreadable:
      judgement.feedback = is_stated(this->asked().kind)                        ? say::not_read_in_words()
                           : this->asked().kind == Find::Kind::number           ? say::not_read()
                           : this->asked().kind == Find::Kind::line_at_fault    ? say::not_read_line()
                           : this->asked().kind == Find::Kind::limiting_reagent ? say::not_read_choice()
                           : noted("name-for-formula")                          ? say::name_not_formula()
                                                                                : say::not_read_formula();
      return;
    case ValueVerdict::wrong:
      if (judgement.feedback.empty())
        judgement.feedback = is_stated(this->asked().kind) ? say::not_right_in_words(judgement.given)
                                                           : say::not_right(judgement.given) + where_to_begin(judgement);
      say_how_it_was_read();
      if (judgement.unit == UnitVerdict::missing) judgement.feedback += say::add_unit(asked);
      if (judgement.unit == UnitVerdict::wrong && written.unit && !names_another_quantity(judgement))
        judgement.feedback += say::not_the_unit_either(written.unit_text, asked);
      return;
    case ValueVerdict::right:
      judgement.feedback = judgement.unit == UnitVerdict::equivalent ? say::right_in_other_unit(asked)
                           : judgement.unit == UnitVerdict::wrong    ? std::string()  // what follows says what is right
                                                                     : say::right();
      break;
    case ValueVerdict::follow_through:
      judgement.feedback = say::follows();
      break;
  }
  if (noted("fraction-for-percent"))
    judgement.feedback += say::fraction_for_percent();
  else if (judgement.unit == UnitVerdict::missing)
    judgement.feedback += say::add_unit(asked);
  else if (judgement.unit == UnitVerdict::wrong && noted("unit-prefix-not-applied"))
    judgement.feedback += say::which_unit(written.unit_text, asked);
  else if (judgement.unit == UnitVerdict::wrong && noted("unit-of-other-quantity"))
    judgement.feedback += say::other_unit(written.unit_text, asked);
  else if (judgement.unit == UnitVerdict::wrong)
    judgement.feedback += say::unknown_unit(written.unit_text, asked);
  if (judgement.figures == FiguresVerdict::too_few)
    judgement.feedback += say::too_few(due_count(judgement), due_in_places(judgement));
  if (judgement.figures == FiguresVerdict::too_many)
    judgement.feedback += say::too_many(due_count(judgement), due_in_places(judgement));
  if (noted("rounded-each-step")) judgement.feedback += say::rounded_on_the_way();
  if (noted("equation-is-a-multiple")) judgement.feedback += say::smaller_numbers();
  if (judgement.states_off) judgement.feedback += say::states();
  say_how_it_was_read();
  if (!judgement.feedback.empty() && judgement.feedback.front() == ' ') judgement.feedback.erase(0, 1);
}

}  // namespace molewright
