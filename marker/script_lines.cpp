// The parts of judging a script that read lines of working: each is placed at a step, the first that departs is found, and what
// comes after it is judged from there.
#include <algorithm>
#include <cmath>

#include "engine/steps.h"
#include "marker/marks.h"
#include "marker/script.h"
#include "marker/slip_library.h"
#include "marker/working_lines.h"

namespace molewright {
namespace {

/// The number on a line is rounded; what it stands for may lie so far off, as a share of it.
double rounding_of(WrittenNumber const& number) { return number.step / std::max(1e-300, std::abs(number.approximate)); }
}  // namespace

/// Weights as the lines leave them, where one shows a branch that the right working does not take (what comes of the reagent in
/// excess): then it is the choice that went astray. A slip in an amount that would turn the choice round is less likely, and
/// where nothing is shown of the other reagent, so is a comparison of the two. The shares are proposals.
std::vector<SlipAnswer> Script::seen_in_lines(std::vector<SlipAnswer> answers) const {
  static auto const* const excess = find_slip("excess-reagent-used");
  constexpr double turned_round = 0.25, compared_unseen = 0.3;
  auto const order = order_of_work(judge_.working(), find_);
  auto const& shown = lines_.placed.right;
  auto const branch = std::find_if(shown.begin(), shown.end(),
                                   [&](int node) { return std::find(order.begin(), order.end(), node) == order.end(); });
  if (branch == shown.end()) return answers;
  auto const leads_to_branch = [&](int node) {
    auto const touched = judge_.estimator_.touched({{node, nullptr}});
    auto const at = static_cast<std::size_t>(*branch);
    return node == *branch || (touched[at / 64] >> (at % 64) & 1U) != 0;
  };
  bool const compared = !std::all_of(shown.begin(), shown.end(), leads_to_branch);
  for (auto& one : answers) {
    if (one.through_choice) one.way *= turned_round;
    if (!compared && one.slip->group == excess->group && one.slip != excess) one.way *= compared_unseen;
  }
  return answers;
}

/// Whether a slip leaves every line that was found right as it is, in the working that it is made in. One that does not go by
/// such a line is not the student's.
bool Script::leaves_right_lines(SlipAnswer const& one) const {
  std::vector<Estimator::Change> changes;
  add_changes(judge_.application_of(one), changes);
  if (changes.empty()) return true;
  bool const printed = one.working == 0;
  auto& estimator = printed ? judge_.estimator_ : judge_.others()[static_cast<std::size_t>(one.working) - 1].estimator;
  return std::none_of(lines_.placed.right.begin(), lines_.placed.right.end(), [&](int node) {
    auto const& id = judge_.working().nodes[static_cast<std::size_t>(node)].id;
    int const here = printed ? node : judge_.working_of(one).find_node(id);
    return here < 0 || changes_answer(estimator.with(changes, here), estimator.base(here));
  });
}

/// The same, and whether it leads to those that were not right.
bool Script::agrees_with_lines(SlipAnswer const& one) const {
  if (!leaves_right_lines(one)) return false;
  if (lines_.placed.carried.empty()) return true;
  std::vector<Estimator::Change> changes;
  add_changes(judge_.application_of(one), changes);
  return std::all_of(lines_.placed.carried.begin(), lines_.placed.carried.end(),
                     [&](PlacedLines::Carried const& line) { return lead_to(changes, line.node, line.number); });
}

/// Whether changes lead to a number at a node: from what stands behind the right lines, or from those as they were rounded.
bool Script::lead_to(std::vector<Estimator::Change> changes, int node, WrittenNumber const& number) const {
  auto& estimator = judge_.estimator_;
  if (is_near(number, estimator.with(changes, node))) return true;
  if (lines_.placed.as_written.empty()) return false;
  for (auto const& line : lines_.placed.as_written) changes.push_back({line.node, &line.definition});
  return is_near(number, estimator.with(changes, node));
}

/// Whether changes made together lead to the first line that departs.
bool Script::lead_to_departure(std::vector<Estimator::Change> const& changes) const {
  auto const& line = lines_.placed.carried.front();
  return lead_to(changes, line.node, line.number);
}

/// Earlier answers that were wrong and carried on, at their nodes: all, for lines may stand at any of them, or those alone that
/// the answer rests on.
std::vector<Estimator::Change> Script::wrong_ones_carried(std::vector<Definition>& definitions, bool all) const {
  std::vector<int> nodes;
  for (std::size_t e = 0; e < find_; ++e) {
    if (!carried_[e].usable || carried_[e].right || carried_[e].answer == answer().node) continue;
    if (!all && !judge_.hands_on()[e].to[find_]) continue;
    definitions.push_back(constant_of(carried_[e].value));
    nodes.push_back(carried_[e].node);
  }
  std::vector<Estimator::Change> changes;
  for (std::size_t k = 0; k < nodes.size(); ++k) changes.push_back({nodes[k], &definitions[k]});
  return changes;
}

void Script::read_lines(Written const& written, Judgement& judgement, bool look_for_slips) {
  lines_ = Lines{};
  if (written.working.empty()) return;
  auto const lines = read_working_lines(written.working, judge_.course_.conventions.mark);
  std::vector<Definition> definitions;
  auto const earlier = wrong_ones_carried(definitions);
  Anatomy const anatomy(judge_.question().worked, judge_.working(), judge_.course_.conventions);
  auto const place = [&](std::vector<Rational> const& scales) {
    place_lines(
        lines, anatomy, judge_.estimator_, find_, earlier,
        [&](int at, WrittenNumber const& number) {
          if (!look_for_slips) return true;
          find_departure(at, number);
          return !lines_.slips.empty();
        },
        lines_.placed, scales);
  };
  place({});
  if (!lines_.placed.carried.empty())
    if (auto const scales = scales_of_printed_units(anatomy, judge_.estimator_); !scales.empty()) {
      auto const reading = readings(written, node().value.unit).front();
      auto as_they_stand = std::move(lines_);
      lines_ = Lines{};
      place(scales);
      bool const better = lines_.placed.right.size() > as_they_stand.placed.right.size() &&
                          (!look_for_slips || goes_on_in_printed_units(as_they_stand.placed, reading));
      // One line astray with those behind it following says more than several that depart.
      bool const hangs_together =
          look_for_slips && lines_.placed.right.size() == as_they_stand.placed.right.size() && !lines_.placed.carried.empty() &&
          lines_.placed.carried.size() < as_they_stand.placed.carried.size() && leads_to_answer(lines_.placed, reading);
      if (!better && !hangs_together) lines_ = std::move(as_they_stand);
    }
  if (lines_.placed.right.size() < lines.size() && placed_by_another_working(lines)) lines_.departs = -1;
  auto const& working = judge_.question().worked.accepted[lines_.working];
  for (auto const& line : (lines_.working > 0 ? lines_.elsewhere : lines_.placed).lines)
    judgement.lines.push_back(
        {line.line.text, line.verdict, line.node < 0 ? "" : working.nodes[static_cast<std::size_t>(line.node)].id});
}

/// Whether a wrong answer goes on from lines in the units that are printed: from those of them that depart, or, where none does,
/// without being off by a thousand; and not from the numbers as they stand.
bool Script::goes_on_in_printed_units(PlacedLines const& as_they_stand, Reading const& reading) const {
  if (leads_to_answer(as_they_stand, reading)) return false;
  if (!lines_.placed.carried.empty()) return leads_to_answer(lines_.placed, reading);
  constexpr double half_of_a_thousand = 31.6;  // between 1 and 1000, by size
  double const right = std::abs(node().value.number.to_double()), size = std::abs(reading.number.approximate);
  return size < half_of_a_thousand * right && right < half_of_a_thousand * size;
}

/// Lines that depart from the printed working, or are no step of it, may be right in another that is as good: the working in
/// which most are right is taken. One in which a line departs is only taken where the printed one has no line right.
bool Script::placed_by_another_working(std::vector<WorkingLine> const& lines) {
  auto const& worked = judge_.question().worked;
  bool const none_right = lines_.placed.right.empty();
  std::size_t most = lines_.placed.right.size();
  for (std::size_t w = 1; w < worked.accepted.size(); ++w) {
    Anatomy const anatomy(worked, worked.accepted[w], judge_.course_.conventions);
    Estimator estimator(worked.accepted[w]);
    PlacedLines placed;
    place_lines(
        lines, anatomy, estimator, find_, {}, [](int, WrittenNumber const&) { return true; }, placed);
    if (placed.right.size() <= most || !(placed.carried.empty() || none_right)) continue;
    most = placed.right.size();
    lines_ = Lines{};
    for (int const node : placed.right)
      if (int const same = judge_.working().find_node(anatomy.node(node).id); same >= 0) lines_.placed.right.push_back(same);
    lines_.working = w;
    lines_.elsewhere = std::move(placed);
  }
  return lines_.working > 0;
}

/// Whether the answer is what comes of the lines that departed.
bool Script::follows_from_lines(Reading const& reading) const {
  auto const& carried = lines_.placed.carried;
  bool const at_the_answer = std::any_of(carried.begin(), carried.end(), [&](auto const& c) { return c.node == answer().node; });
  return !carried.empty() && !at_the_answer && leads_to_answer(lines_.placed, reading);
}

/// The same, where the answer itself may stand on a line: that says something only if it is the first to depart.
bool Script::leads_to_answer(PlacedLines const& placed, Reading const& reading) const {
  std::vector<Definition> definitions;
  std::vector<Estimator::Change> changes;
  for (auto const& line : placed.carried)
    if (line.node != answer().node || &line == &placed.carried.front()) changes.push_back({line.node, &line.definition});
  for (auto const& earlier : wrong_ones_carried(definitions)) changes.push_back(earlier);
  double const followed = judge_.estimator_.with(changes, answer().node);
  double rounding = 0;  // the number on a line is rounded; what it stands for may lie a little off
  for (auto const& line : placed.carried) rounding = std::max(rounding, rounding_of(line.number));
  return std::abs(reading.number.approximate - followed) <=
         std::max(std::abs(followed) * std::max(0.005, rounding), 1.5 * reading.number.step);
}

/// Marks for the steps that lines of working show, and a word on them.
void Script::give_marks_for_lines(Reading const& reading, Judgement& judgement) const {
  auto const& rules = judge_.course_.rules;
  auto const& worked = judge_.question().worked;
  auto const& placed = lines_.working > 0 ? lines_.elsewhere : lines_.placed;
  if (!rules.working || placed.lines.empty()) return;
  auto const& working = worked.accepted[lines_.working];
  judgement.marks_given =
      marks_of_lines(worked, working, find_, judgement.out_of, placed, follows_from_lines(reading), rules.follow_through);
  std::vector<Node const*> right_steps, following_steps;
  for (auto const& one : judgement.marks_given) {
    auto const& step = working.nodes[static_cast<std::size_t>(working.find_node(one.node))];
    if (one.marks > 0 && one.reason == MarkReason::right) right_steps.push_back(&step);
    if (one.marks > 0 && one.reason == MarkReason::follows) following_steps.push_back(&step);
  }
  auto const right = step_names(right_steps), following = step_names(following_steps);
  if (judgement.feedback.empty() && !(right.empty() && following.empty()))
    judgement.feedback = say::not_right(judgement.given) + where_to_begin(judgement);
  judgement.feedback += say::good_in_working(right, following);
}

/// A right answer keeps its marks whatever the lines say; that one of them is not right is for the teacher to see.
void Script::look_at_lines_of_right(Written const& written, Judgement& judgement) {
  read_lines(written, judgement, false);
  bool const astray = std::any_of(judgement.lines.begin(), judgement.lines.end(),
                                  [](LineJudged const& line) { return line.verdict == LineVerdict::departs; });
  if (astray) judgement.notes.push_back("right-but-for-a-line");
}

/// Which slips make the line: those that change nothing in the lines before it.
void Script::find_departure(int at, WrittenNumber const& number) {
  lines_.departs = at;
  auto& estimator = judge_.estimator_;
  auto answers = slip_answers_at(judge_.slips().all, estimator, at);
  auto const rounded = lines_.placed.changes_as_written();
  std::erase_if(answers, [&](SlipAnswer& one) {
    if (one.slip == judge_.without_ || !agrees_with_lines(one)) return true;
    if (is_near(number, one.value)) return false;
    std::vector<Estimator::Change> changes;
    add_changes(judge_.slips().all[one.application], changes);
    changes.insert(changes.end(), rounded.begin(), rounded.end());
    one.value = estimator.with(changes, at);  // what comes of the lines before it as they were rounded
    return !is_near(number, one.value);
  });
  lines_.slips = seen_in_lines(std::move(answers));
  Due due;
  due.figures = 3;
  due.last = number.value.sign() == 0 ? Rational(1) : Rational::power_of_ten(magnitude(number.value) - 2);
  lines_.diagnosis = diagnose(number, lines_.slips, due, 0, record_);
}

/// The first line that departs has the right sum on it, and not what the sum comes to: nothing else need be looked for.
bool Script::explain_by_arithmetic(Judgement& judgement) {
  auto const& lines = lines_.placed.lines;
  auto const first =
      std::find_if(lines.begin(), lines.end(), [](auto const& one) { return one.verdict == LineVerdict::departs; });
  if (first == lines.end() || !first->method || !first->line.comes_to) return false;
  static auto const* const slip = find_slip("sum-worked-out-wrongly");
  if (slip == judge_.without_) return false;
  SlipNumbers numbers;
  numbers.step = step_name(judge_.working().nodes[static_cast<std::size_t>(first->node)]);
  numbers.wrong = first->line.text;
  numbers.right = said_number(*first->line.comes_to, judge_.course_.conventions);
  name_cause(slip->id, first->node, numbers, judgement);
  return true;
}

/// A line shows the answer right, none departs, and something else was handed in as the answer.
bool Script::explain_as_copied(Judgement& judgement) {
  static auto const* const slip = find_slip("copied-wrongly-from-own-line");
  auto const& placed = lines_.placed;
  if (slip == judge_.without_ || !placed.carried.empty()) return false;
  auto const line = std::find_if(placed.lines.rbegin(), placed.lines.rend(),
                                 [&](auto const& one) { return one.verdict == LineVerdict::right && one.node == answer().node; });
  if (line == placed.lines.rend()) return false;
  SlipNumbers numbers;
  numbers.right = line->line.text;
  name_cause(slip->id, answer().node, numbers, judgement);
  return true;
}

/// What the lines say of a wrong answer, true where that is enough to speak. Here the answer follows from the first line that
/// departs: that line's slips are the causes.
bool Script::explain_by_departure(Reading const& reading, Judgement& judgement) {
  if (lines_.departs < 0 || lines_.diagnosis.rivals.empty()) return false;
  auto& estimator = judge_.estimator_;
  auto const& departure = lines_.placed.carried.front();
  int const target = answer().node;
  double const followed = estimator.with({{departure.node, &departure.definition}}, target);
  double const spread = std::abs(followed) * std::max(0.005, rounding_of(departure.number));
  if (std::abs(reading.number.approximate - followed) > std::max(spread, 1.5 * reading.number.step)) return false;
  auto diagnosis = lines_.diagnosis;
  speak(diagnosis, judgement);
  for (std::size_t k = 0; k < judgement.candidates.size() && k < diagnosis.rivals.size(); ++k) {
    std::vector<Estimator::Change> changes;
    add_changes(judge_.application_of(*diagnosis.rivals[k].answer), changes);
    judgement.candidates[k].value = estimator.with(changes, target);
  }
  return true;
}

/// And here there is a second slip behind that line: single ones on top of the value that was carried.
bool Script::explain_behind_departure(Reading const& reading, double table_band, Judgement& judgement) {
  if (lines_.departs < 0 || lines_.diagnosis.rivals.empty()) return false;
  auto& estimator = judge_.estimator_;
  auto const& departure = lines_.placed.carried.front();
  std::vector<Estimator::Change> const carried{{departure.node, &departure.definition}};
  int const target = answer().node;
  auto const later = slip_answers(judge_.slips().all, estimator, judge_.working(), find_, carried);
  std::vector<SlipAnswer> second;
  for (auto const& one : later)
    if (one.slip != judge_.without_ && std::abs(one.value - reading.number.approximate) <= 0.02 * std::abs(one.value))
      second.push_back(one);
  auto const behind = diagnose(reading.number, second, due(), std::max(table_band, rounding_of(departure.number)));
  if (behind.rivals.empty()) return false;
  for (auto const& first : lines_.diagnosis.rivals)
    for (auto const& then : behind.rivals) {
      if (first.answer->slip == then.answer->slip && first.answer->node == then.answer->node) continue;
      std::vector<Estimator::Change> changes;
      add_changes(judge_.application_of(*first.answer), changes);
      add_changes(judge_.application_of(*then.answer), changes);
      int const node = target_of(judge_.application_of(*then.answer), find_, target);
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
    auto numbers = judge_.numbers_of(*one, find_);
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
