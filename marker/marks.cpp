#include "marker/marks.h"

#include <algorithm>

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
    if (unit_off && rules.units != MarkingRules::Units::not_judged) judgement.charged_unit = std::min(1, spare);
    spare -= judgement.charged_unit;
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
