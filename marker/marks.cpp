#include "marker/marks.h"

#include <algorithm>
#include <functional>

#include "marker/placed_lines.h"
#include "marker/slip_library.h"

namespace molewright {
namespace {

/// 0: has no mark of its own; 1: marked when there are marks to spare; 2: a relation.
int rank_of(NodeKind kind) {
  switch (kind) {
    case NodeKind::given:
    case NodeKind::reading:
    case NodeKind::titre:
    case NodeKind::coefficient:
    case NodeKind::atomic_weight:
    case NodeKind::table_value:
    case NodeKind::group_mass:
    case NodeKind::batches:
      return 0;
    case NodeKind::molar_mass:
    case NodeKind::conversion:
    case NodeKind::difference:
    case NodeKind::mean:
      return 1;
    default:
      return 2;
  }
}

/// The unit of another quantity, or with another prefix, makes another answer of the number: it costs a mark though there is but
/// one. A unit that is missing, or that could not be read, does not.
bool is_another_unit(Judgement const& judgement) {
  auto const& notes = judgement.notes;
  return judgement.unit == UnitVerdict::wrong && std::any_of(notes.begin(), notes.end(), [](std::string const& note) {
           return note == "unit-of-other-quantity" || note == "unit-prefix-not-applied";
         });
}

bool value_stands(Judgement const& judgement) {
  return judgement.value == ValueVerdict::right || judgement.value == ValueVerdict::follow_through;
}
}  // namespace

std::vector<StepMark> marks_of_steps(Worked const& worked, Working const& working, std::size_t find, int out_of) {
  Anatomy const anatomy(worked, working, Conventions{});
  auto const order = order_of_work(working, find);
  std::vector<int> given(order.size(), 0);
  int left = out_of;
  auto const give = [&](int rank) {
    for (std::size_t i = order.size(); i-- > 0 && left > 0;) {
      bool const answer = order[i] == working.finds[find].node;
      auto const& node = working.nodes[static_cast<std::size_t>(order[i])];
      int const own = leads_on(node) ? 1 : rank_of(anatomy.kind(order[i]));
      if (given[i] > 0 || (!answer && own != rank)) continue;
      if (answer && i + 1 != order.size()) continue;
      given[i] = 1;
      --left;
    }
  };
  give(2);
  give(1);
  if (!given.empty()) given.back() += left;
  std::vector<StepMark> marks;
  for (std::size_t i = 0; i < order.size(); ++i)
    if (given[i] > 0) marks.push_back(StepMark{order[i], given[i]});
  return marks;
}

void award(Judgement& judgement, MarkingRules const& rules, bool fits_a_slip) {
  judgement.marks = judgement.marks_if_accepted = 0;
  judgement.suggested = false;
  judgement.charged_figures = judgement.charged_unit = 0;
  int const all = judgement.out_of;
  if (value_stands(judgement)) {
    int spare = std::max(0, all - 1);
    bool const unit_off = judgement.unit == UnitVerdict::wrong || judgement.unit == UnitVerdict::missing;
    if (unit_off && rules.units != MarkingRules::Units::not_judged)
      judgement.charged_unit = std::min(1, is_another_unit(judgement) ? all : spare);
    spare = std::max(0, spare - judgement.charged_unit);
    bool const figures_off = judgement.figures == FiguresVerdict::too_few || judgement.figures == FiguresVerdict::too_many;
    if (figures_off && rules.figures != MarkingRules::Figures::not_judged) judgement.charged_figures = std::min(1, spare);
    spare -= judgement.charged_figures;
    int const charged_states = judgement.states_off ? std::min(1, spare) : 0;
    judgement.marks = judgement.marks_if_accepted = all - judgement.charged_unit - judgement.charged_figures - charged_states;
    return;
  }
  if (judgement.value != ValueVerdict::wrong || !fits_a_slip || rules.slip_marks == MarkingRules::SlipMarks::none) return;
  judgement.marks_if_accepted = std::max(0, all - 1);
  if (rules.slip_marks == MarkingRules::SlipMarks::given)
    judgement.marks = judgement.marks_if_accepted;
  else
    judgement.suggested = judgement.marks_if_accepted > 0;
}

std::vector<MarkGiven> marks_of_lines(Worked const& worked, Working const& working, std::size_t find, int out_of,
                                      PlacedLines const& placed, bool answer_follows, bool follow_through) {
  Anatomy const anatomy(worked, working, Conventions{});
  std::vector<MarkReason> reasons(working.nodes.size(), MarkReason::not_shown);
  auto const reason_of = [&](int node) -> MarkReason& { return reasons[static_cast<std::size_t>(node)]; };
  reason_of(working.finds[find].node) = MarkReason::departs;
  for (auto const& line : placed.carried) reason_of(line.node) = MarkReason::departs;
  std::function<void(int)> const imply = [&](int node) {
    for (auto const& term : working.nodes[static_cast<std::size_t>(node)].definition.terms) {
      if (reason_of(term.node) != MarkReason::not_shown) continue;  // shown already, or astray: nothing follows of what is behind
      reason_of(term.node) = MarkReason::implied;
      imply(term.node);
    }
  };
  auto const show = [&](int node, MarkReason reason) {
    reason_of(node) = reason;
    imply(node);
  };
  for (auto const& line : placed.lines)
    if (line.verdict == LineVerdict::right) show(line.node, MarkReason::right);
  for (auto const& line : placed.lines) {
    if (line.verdict == LineVerdict::follows && follow_through) show(line.node, MarkReason::follows);
    if (line.verdict == LineVerdict::departs && line.method) show(line.node, MarkReason::method);
  }
  if (answer_follows && follow_through) show(working.finds[find].node, MarkReason::follows);
  std::vector<MarkGiven> given;
  int total = 0;
  for (auto const& step : marks_of_steps(worked, working, find, out_of)) {
    auto const reason = reason_of(step.node);
    bool const earned = reason != MarkReason::departs && reason != MarkReason::not_shown;
    given.push_back({working.nodes[static_cast<std::size_t>(step.node)].id, earned ? step.marks : 0, step.marks, reason});
    total += given.back().marks;
  }
  // There may be fewer marks than steps: a step that is shown right then takes the mark of one before the answer that is not.
  for (int const step : order_of_work(working, find)) {
    auto const& node = working.nodes[static_cast<std::size_t>(step)];
    auto const counted = [&](MarkGiven const& one) { return one.node == node.id; };
    if (reason_of(step) != MarkReason::right || rank_of(anatomy.kind(step)) < 2 ||
        std::any_of(given.begin(), given.end(), counted))
      continue;
    auto const spare = std::find_if(given.begin(), given.end(), [&](MarkGiven const& one) { return one.marks == 0; });
    if (given.empty() || spare >= given.end() - 1) break;
    total += spare->out_of;
    *spare = {node.id, spare->out_of, spare->out_of, MarkReason::right};
  }
  if (total > 0 && total >= out_of) {
    --given.back().marks;
    given.back().reason = MarkReason::answer;
  }
  return given;
}

void award_lines(Judgement& judgement, MarkingRules const& rules) {
  if (judgement.marks_given.empty()) return;
  int sum = 0;
  auto& answer = judgement.marks_given.back();
  bool const unit_off = judgement.unit == UnitVerdict::wrong || judgement.unit == UnitVerdict::missing;
  if (answer.reason == MarkReason::follows && unit_off && rules.units != MarkingRules::Units::not_judged)
    judgement.charged_unit = std::min(1, answer.marks);
  for (auto const& one : judgement.marks_given) sum += one.marks;
  sum -= judgement.charged_unit;
  judgement.marks = std::max(judgement.marks, sum);
  judgement.marks_if_accepted = std::max(judgement.marks_if_accepted, judgement.marks);
  judgement.suggested = judgement.suggested && judgement.marks_if_accepted > judgement.marks;
}

std::vector<MarkGiven> account_of_marks(Judgement const& judgement) {
  auto const whole = [&](int marks, MarkReason reason) { return std::vector<MarkGiven>{{"", marks, judgement.out_of, reason}}; };
  if (judgement.by_hand) return whole(judgement.marks, MarkReason::by_hand);
  if (judgement.value == ValueVerdict::blank) return whole(0, MarkReason::blank);
  if (judgement.value == ValueVerdict::absent) return whole(0, MarkReason::absent);
  if (judgement.value == ValueVerdict::unreadable) return whole(0, MarkReason::unreadable);
  auto account = judgement.marks_given;
  auto const take_off = [&](int marks, MarkReason reason) {
    if (marks > 0) account.push_back({"", -marks, 0, reason});
  };
  if (value_stands(judgement)) {
    account = whole(judgement.out_of, judgement.value == ValueVerdict::right ? MarkReason::right : MarkReason::follows);
    take_off(judgement.charged_unit, MarkReason::unit);
    take_off(judgement.charged_figures, MarkReason::figures);
    take_off(judgement.out_of - judgement.charged_unit - judgement.charged_figures - judgement.marks, MarkReason::states);
    return account;
  }
  take_off(judgement.charged_unit, MarkReason::unit);
  int sum = 0;
  for (auto const& one : account) sum += one.marks;
  if (!account.empty() && sum == judgement.marks) return account;
  if (judgement.marks > 0) return whole(judgement.marks, MarkReason::slip);
  return whole(0, judgement.suggested ? MarkReason::to_accept : MarkReason::wrong);
}

void settle_paper(std::vector<Judgement>& paper, MarkingRules const& rules) {
  bool figures_charged = false, unit_charged = false;
  auto const give_back = [](Judgement& judgement, int& charge, bool& charged) {
    if (charge == 0) return;
    if (charged) {
      judgement.marks += charge;
      judgement.marks_if_accepted += charge;
      charge = 0;
    }
    charged = true;
  };
  for (auto& judgement : paper) {
    if (judgement.by_hand) continue;
    if (rules.figures == MarkingRules::Figures::once_a_paper) give_back(judgement, judgement.charged_figures, figures_charged);
    if (rules.units == MarkingRules::Units::once_a_paper) give_back(judgement, judgement.charged_unit, unit_charged);
  }
}

}  // namespace molewright
