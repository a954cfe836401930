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

std::string const& Script::where_to_begin() const {
  auto& said = judge_.where_to_begin_;
  said.resize(judge_.working().finds.size());
  if (said[find_].empty()) said[find_] = middle_step();
  return said[find_];
}

/// The middle of the working with its number: whoever has it looks behind it, whoever has not before it.
std::string Script::middle_step() const {
  auto const form = judge_.question().form;
  auto steps = steps_to_ask(judge_.working(), find_);
  // A molar mass or a change of unit is no middle where there is another step, nor is the answer in another unit.
  int const last = node().relation == relations::convert ? node().definition.terms[0].node : -1;
  auto const is_small = [&](int i) {
    auto const& relation = judge_.working().nodes[static_cast<std::size_t>(i)].relation;
    return i == last || relation == relations::molar_mass || relation == relations::group_mass || relation == relations::convert;
  };
  if (!std::all_of(steps.begin(), steps.end(), is_small)) std::erase_if(steps, is_small);
  if (form != Form::open && form != Form::faded) return say::go_line_by_line();
  if (steps.empty()) {
    auto const goes = what_to_look_at(node().id);
    return goes.empty() ? say::go_line_by_line() : goes;
  }
  auto const& middle = judge_.working().nodes[static_cast<std::size_t>(steps[(steps.size() - 1) / 2])];
  // With nothing but givens before it, there is nothing to send a reader back to.
  bool const first = steps.front() == steps[(steps.size() - 1) / 2] &&
                     std::all_of(middle.definition.terms.begin(), middle.definition.terms.end(), [&](Term const& term) {
                       return !is_a_step(judge_.working().nodes[static_cast<std::size_t>(term.node)].definition);
                     });
  auto const say_where = first ? say::from_the_first : say::from_the_middle;
  return say_where(middle.definition.operation == Operation::choose ? say::limiting_one() : step_name(middle),
                   step_value(judge_.working(), middle, judge_.course_.conventions));
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
