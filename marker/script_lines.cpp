// The parts of judging a script that read lines of working: each is placed at a step, the first that departs is found, and what
// comes after it is judged from there.
#include <algorithm>
#include <cmath>

#include "engine/steps.h"
#include "marker/script.h"
#include "marker/slip_library.h"
#include "marker/working_lines.h"

namespace molewright {
namespace {

/// The value of a line in the node's unit, where its unit can be one of the node's.
std::optional<WrittenNumber> number_at(WorkingLine const& line, Node const& node) {
  if (!line.unit) return written_number(line.number);
  auto const& unit = node.value.unit;
  if (line.unit->dimension != unit.dimension || line.unit->offset != unit.offset) return std::nullopt;
  return written_number(line.number, line.unit->factor / unit.factor);
}

bool could_be(WorkingLine const& line, Node const& node) {
  if (!line.symbol.empty() && line.symbol != node.quantity.symbol) return false;
  if (line.stage != 0 && line.stage != node.quantity.stage) return false;
  return line.substance.empty() || line.substance == node.quantity.substance;
}

/// Whether a written number is that value, one unit of its last digit either way; of two figures or fewer, half a unit.
bool near(WrittenNumber const& number, double value) {
  double const band = number.figures < 3 ? 0.5 * number.step : std::max(number.step, 0.002 * std::abs(value));
  return std::abs(number.approximate - value) <= band * (1 + 1e-9);
}

/// What a line may be a value of: whatever is worked out, and changes of unit.
bool is_worked_out(Anatomy const& anatomy, int i) {
  switch (anatomy.kind(i)) {
    case NodeKind::given:
    case NodeKind::reading:
    case NodeKind::atomic_weight:
    case NodeKind::group_mass:
    case NodeKind::coefficient:
    case NodeKind::table_value:
    case NodeKind::limiting:
      return false;
    default:
      return anatomy.used(i) && anatomy.node(i).definition.operation != Operation::constant;
  }
}
}  // namespace

std::vector<Estimator::Change> Script::changes_of_lines() const {
  std::vector<Estimator::Change> changes;
  for (auto const& line : lines_.carried) changes.push_back({line.node, &line.definition});
  return changes;
}

/// Whether a slip leaves every line that was found right as it is, and leads to those that were not.
bool Script::agrees_with_lines(SlipAnswer const& one) const {
  if (lines_.right.empty() && lines_.carried.empty()) return true;
  std::vector<Estimator::Change> changes;
  add_changes(application_of(one), changes);
  auto& estimator = judge_.estimator_;
  for (int const node : lines_.right)
    if (!changes.empty() && changes_answer(estimator.with(changes, node), estimator.base(node))) return false;
  for (auto const& line : lines_.carried)
    if (!near(line.number, changes.empty() ? estimator.base(line.node) : estimator.with(changes, line.node))) return false;
  return true;
}

/// Whether changes made together lead to the first line that departs.
bool Script::lead_to_departure(std::vector<Estimator::Change> const& changes) const {
  auto const& line = lines_.carried.front();
  return near(line.number, judge_.estimator_.with(changes, line.node));
}

void Script::place_lines(Written const& written, Judgement& judgement) {
  lines_ = Lines{};
  if (written.working.empty()) return;
  Anatomy const anatomy(judge_.question().worked, judge_.working(), judge_.course_.conventions);
  auto& estimator = judge_.estimator_;
  auto const order = order_of_work(judge_.working(), find_);
  std::vector<int> steps;
  for (int const i : order)
    if (is_worked_out(anatomy, i)) steps.push_back(i);
  for (auto const& line : read_working_lines(written.working, judge_.course_.conventions.mark)) {
    auto const taken = [&](int i) {
      return std::find(lines_.right.begin(), lines_.right.end(), i) != lines_.right.end() ||
             std::any_of(lines_.carried.begin(), lines_.carried.end(), [&](auto const& one) { return one.node == i; });
    };
    auto const carried = changes_of_lines();
    int at = -1;
    WrittenNumber number;
    bool follows = false;
    for (bool const named : {true, false}) {  // the quantity that the line names before any other
      for (int const i : steps) {
        auto const& node = anatomy.node(i);
        if (taken(i) || (named != could_be(line, node))) continue;
        if (!named && !line.symbol.empty()) continue;
        auto const here = number_at(line, node);
        if (!here) continue;
        bool const right = near(*here, estimator.base(i));
        if (right || (!carried.empty() && near(*here, estimator.with(carried, i)))) {
          at = i;
          number = *here;
          follows = !right;
          break;
        }
      }
      if (at >= 0) break;
    }
    if (at >= 0) {
      if (!follows) lines_.right.push_back(at);
      judgement.lines.push_back({line.text, follows ? LineVerdict::follows : LineVerdict::right, anatomy.node(at).id});
      continue;
    }
    // A line that names a quantity which is worked out, with another value: here the working departs. Of several steps that are
    // called so (the branches of a choice), the one that a slip explains.
    if (!line.symbol.empty())
      for (int const i : steps) {
        if (taken(i) || !could_be(line, anatomy.node(i)) || !number_at(line, anatomy.node(i))) continue;
        at = i;
        if (!lines_.carried.empty()) break;
        find_departure(at, *number_at(line, anatomy.node(at)), line.worked_out);
        if (!lines_.slips.empty()) break;
      }
    if (at < 0) {
      judgement.lines.push_back({line.text, LineVerdict::not_placed, ""});
      continue;
    }
    number = *number_at(line, anatomy.node(at));
    lines_.carried.push_back({at, number, constant_of(number.value)});
    judgement.lines.push_back({line.text, LineVerdict::departs, anatomy.node(at).id});
  }
}

/// Which slips make the line: those that change nothing in the lines before it.
void Script::find_departure(int at, WrittenNumber const& number, bool worked_out) {
  lines_.departs = at;
  lines_.arithmetic = !worked_out;
  auto& estimator = judge_.estimator_;
  auto answers = slip_answers_at(judge_.slips().all, estimator, at);
  std::erase_if(answers, [&](SlipAnswer const& one) {
    return one.slip == judge_.without_ || !near(number, one.value) || !agrees_with_lines(one);
  });
  lines_.slips = std::move(answers);
  Due due;
  due.figures = 3;
  due.last = Rational::power_of_ten(magnitude(number.value) - 2);
  lines_.diagnosis = diagnose(number, lines_.slips, due, 0, record_);
}

/// What the lines say of a wrong answer: true where that is enough to speak.
bool Script::explain_by_lines(Reading const& reading, double table_band, Judgement& judgement) {
  if (lines_.departs < 0 || lines_.diagnosis.rivals.empty()) return false;
  auto& estimator = judge_.estimator_;
  auto const& departure = lines_.carried.front();
  std::vector<Estimator::Change> const carried{{departure.node, &departure.definition}};
  int const target = answer().node;
  double const followed = estimator.with(carried, target);
  // The number on the line is rounded; what it stands for may lie a little off.
  double const rounding = departure.number.step / std::max(1e-300, std::abs(departure.number.approximate));
  double const spread = std::abs(followed) * std::max(0.005, rounding);
  if (std::abs(reading.number.approximate - followed) <= std::max(spread, 1.5 * reading.number.step)) {
    auto diagnosis = lines_.diagnosis;
    speak(diagnosis, judgement);
    for (std::size_t k = 0; k < judgement.candidates.size() && k < diagnosis.rivals.size(); ++k) {
      std::vector<Estimator::Change> changes;
      add_changes(application_of(*diagnosis.rivals[k].answer), changes);
      judgement.candidates[k].value = estimator.with(changes, target);
    }
    return true;
  }
  // A second slip behind the line: single ones on top of the value that was carried.
  auto const later = slip_answers(judge_.slips().all, estimator, judge_.working(), find_, carried);
  std::vector<SlipAnswer> second;
  for (auto const& one : later)
    if (one.slip != judge_.without_ && std::abs(one.value - reading.number.approximate) <= 0.02 * std::abs(one.value))
      second.push_back(one);
  auto const behind = diagnose(reading.number, second, due(), std::max(table_band, rounding));
  if (behind.rivals.empty()) return false;
  for (auto const& first : lines_.diagnosis.rivals)
    for (auto const& then : behind.rivals) {
      if (first.answer->slip == then.answer->slip && first.answer->node == then.answer->node) continue;
      std::vector<Estimator::Change> changes;
      add_changes(application_of(*first.answer), changes);
      add_changes(application_of(*then.answer), changes);
      int const node = target_of(application_of(*then.answer), find_, target);
      add_pair(*first.answer, *then.answer, first.probability * then.probability, estimator.with(changes, node), judgement);
    }
  settle_pairs(judgement);
  return true;
}

/// Two slips as one candidate.
void Script::add_pair(SlipAnswer const& first, SlipAnswer const& second, double probability, double value,
                      Judgement& judgement) const {
  Candidate candidate;
  candidate.probability = probability;
  candidate.value = value;
  for (auto const* one : {&first, &second}) {
    auto numbers = slip_numbers(working_of(*one), application_of(*one), find_, judge_.course_.conventions);
    numbers.given = judgement.given;
    candidate.slips.push_back({std::string(one->slip->id), one->node});
    if (!candidate.text.empty()) candidate.text += "; and ";
    candidate.text += in_units_of_course(filled(words_of(one->slip->id).tutor, numbers), judge_.course_.conventions);
  }
  judgement.candidates.push_back(std::move(candidate));
}

/// Pairs in order, at most five, and the words for the first.
void Script::settle_pairs(Judgement& judgement) const {
  auto& all = judgement.candidates;
  std::stable_sort(all.begin(), all.end(), [](Candidate const& a, Candidate const& b) { return a.probability > b.probability; });
  constexpr std::size_t most = 5;
  if (all.size() > most) all.resize(most);
  if (all.empty()) return;
  auto const& first = all.front();
  if (first.slips.size() == 2)
    judgement.feedback = say::check_both(judgement.given, step_words(judge_.working(), first.slips[0].node),
                                         step_words(judge_.working(), first.slips[1].node));
}

}  // namespace molewright
