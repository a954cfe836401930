// The parts of judging a script that say where to look when no cause is named: the numbers of the student's own question.
#include <algorithm>

#include "engine/lists.h"
#include "engine/steps.h"
#include "engine/substance.h"
#include "marker/probe.h"
#include "marker/script.h"

namespace molewright {

/// How a step goes and, unless it is the answer itself, what it should come to; empty for a step that is none.
std::string Script::what_to_look_at(std::string const& node_id) const {
  int const at = judge_.working().find_node(node_id);
  if (at < 0) return {};
  auto const symbols = step_in_symbols(judge_.question().worked, judge_.working(), at, judge_.course_.conventions);
  auto const goes = symbols.right.empty() ? std::string() : say::goes_so(symbols.left + " = " + symbols.right);
  if (at == answer().node) return goes;
  auto const& step = judge_.working().nodes[static_cast<std::size_t>(at)];
  auto const value = step_value(judge_.working(), step, judge_.course_.conventions);
  return goes +
         (step.definition.operation == Operation::choose ? say::runs_out_first(value) : say::comes_to(step_name(step), value));
}

std::string Script::where_to_begin(Judgement const& judgement) const {
  double rounded = 0;  // several ways of rounding may lead to one number: none is likely, and all of them together are
  for (auto const& candidate : judgement.candidates)
    if (std::all_of(candidate.slips.begin(), candidate.slips.end(), [](Candidate::Named const& slip) {
          auto const* const known = find_slip(slip.id);
          return known && known->reach == Reach::rounding;
        }))
      rounded += candidate.probability;
  if (rounded >= name_above) return say::look_at_rounding(due_count(judgement), due_in_places(judgement));
  auto const [at, first] = judge_.where_to_begin_.try_emplace({find_, known_right()});
  if (first) at->second = middle_step(at->first.second);
  return at->second;
}

/// Of each node, whether the student is known to have it right: an earlier answer that this part rests on, a line of working, and
/// all that these rest on. Empty where nothing is known.
std::vector<char> Script::known_right() const {
  auto const& nodes = judge_.working().nodes;
  std::vector<int> right;
  for (std::size_t e = 0; e < find_ && !alone_; ++e)
    if (carried_[e].usable && carried_[e].right && judge_.hands_on()[e].to[find_]) right.push_back(carried_[e].answer);
  if (lines_.working == 0) right.insert(right.end(), lines_.placed.right.begin(), lines_.placed.right.end());
  std::vector<char> known(right.empty() ? 0 : nodes.size());
  while (!right.empty()) {
    auto const at = static_cast<std::size_t>(right.back());
    right.pop_back();
    if (known[at] != 0) continue;
    known[at] = 1;
    for (auto const& term : nodes[at].definition.terms) right.push_back(term.node);
  }
  return known;
}

/// The middle of the working with its number: whoever has it looks behind it, whoever has not before it. Behind what is known to
/// be right it is the first step that is not.
std::string Script::middle_step(std::vector<char> const& known) const {
  auto const& working = judge_.working();
  auto const step_at = [&](int i) -> Node const& { return working.nodes[static_cast<std::size_t>(i)]; };
  auto const form = judge_.question().form;
  if (form != Form::open && form != Form::faded) return say::go_line_by_line();
  auto steps = steps_to_ask(working, find_);
  // The answer in another unit, or a reading that is called as it is, would tell the answer.
  std::erase_if(steps, [&](int i) {
    return (!known.empty() && known[static_cast<std::size_t>(i)] != 0) || step_name(step_at(i)) == step_name(node());
  });
  // A molar mass or a change of unit is no middle where there is another step.
  auto const is_small = [&](int i) {
    auto const& relation = step_at(i).relation;
    return relation == relations::molar_mass || relation == relations::group_mass || relation == relations::convert;
  };
  if (!std::all_of(steps.begin(), steps.end(), is_small)) std::erase_if(steps, is_small);
  if (steps.empty()) {
    auto const goes = what_to_look_at(node().id);
    return goes.empty() ? say::go_line_by_line() : goes;
  }
  int const start = known.empty() ? steps[(steps.size() - 1) / 2] : steps.front();
  auto const& step = step_at(start);
  auto const value = step_value(working, step, judge_.course_.conventions);
  auto const should =
      step.definition.operation == Operation::choose ? say::should_run_out(value) : say::should_come_to(step_name(step), value);
  if (!known.empty()) return say::from_what_is_right(should);
  // With nothing but givens before it, there is nothing to send a reader back to.
  bool const first =
      start == steps.front() && std::all_of(step.definition.terms.begin(), step.definition.terms.end(),
                                            [&](Term const& term) { return !is_a_step(step_at(term.node).definition); });
  return first ? say::from_the_first(should) : say::from_the_middle(should);
}

/// "n(BaCl₂) = c(BaCl₂) × V(BaCl₂)": the first relation of the part's working; empty where there is none.
std::string Script::first_step() const {
  for (int const i : order_of_work(judge_.working(), find_)) {
    auto const& step = judge_.working().nodes[static_cast<std::size_t>(i)];
    if (step.definition.operation != Operation::product || step.relation == relations::convert ||
        step.relation == relations::mean)
      continue;
    auto const symbols = step_in_symbols(judge_.question().worked, judge_.working(), i, judge_.course_.conventions);
    return symbols.right.empty() ? symbols.left : symbols.left + " = " + symbols.right;
  }
  return {};
}

/// Behind a wrong choice: what is compared, with the numbers of this question.
void Script::say_comparison(Judgement& judgement) const {
  auto const& compared = node().definition.terms;
  std::vector<std::string> numbers;
  for (auto const& term : compared) {
    auto const& one = judge_.working().nodes[static_cast<std::size_t>(term.node)];
    numbers.push_back(step_value(judge_.working(), one, judge_.course_.conventions) + " for " +
                      pretty_formula(one.quantity.substance));
  }
  bool const named =
      !judgement.feedback.empty() && !judgement.candidates.empty() && judgement.candidates.front().probability >= name_above;
  if (!named) judgement.feedback = say::not_right(judgement.given) + say::how_to_compare();
  judgement.feedback += say::compared(enumerated(numbers));
}

/// Why a formula is none that could run out: it forms, it is there in excess, or it takes no part.
std::string Script::why_it_cannot_limit(std::string const& given) const {
  auto const& problem = judge_.question().worked.problem;
  auto const read = parse_formula(given);
  if (!ok(read)) return say::not_a_reagent(given);
  auto formula = value(read);
  formula.state = State::none;
  auto const text = plain(formula);
  auto const holds = [&](std::vector<Species> const& side) {
    return std::any_of(side.begin(), side.end(), [&](Species const& term) {
      auto bare = term.formula;
      bare.state = State::none;
      return plain(bare) == text;
    });
  };
  for (auto const& reaction : problem.reactions) {
    if (holds(reaction.equation.left)) return say::is_in_excess(given);
    if (holds(reaction.equation.right)) return say::is_a_product(given);
  }
  return say::not_a_reagent(given);
}

}  // namespace molewright
