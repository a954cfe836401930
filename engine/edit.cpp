#include "engine/edit.h"

#include <algorithm>
#include <string>
#include <utility>

namespace molewright {
namespace {

PlacedFault cannot_run(std::string what) {
  PlacedFault placed;
  placed.fault.id = "cannot-run";
  placed.fault.what = std::move(what);
  return placed;
}

/// The nodes put in an order in which each reads only earlier ones, keeping the old order where that is possible. False for a
/// loop.
bool put_in_order(Working& working) {
  std::size_t const count = working.nodes.size();
  std::vector<int> place(count, -1);
  std::vector<std::size_t> order;
  order.reserve(count);
  while (order.size() < count) {
    std::size_t const before = order.size();
    for (std::size_t i = 0; i < count; ++i) {
      if (place[i] >= 0) continue;
      auto const& terms = working.nodes[i].definition.terms;
      if (!std::all_of(terms.begin(), terms.end(),
                       [&](Term const& term) { return place[static_cast<std::size_t>(term.node)] >= 0; }))
        continue;
      place[i] = static_cast<int>(order.size());
      order.push_back(i);
    }
    if (order.size() == before) return false;
  }
  std::vector<Node> nodes;
  nodes.reserve(count);
  for (std::size_t const i : order) nodes.push_back(std::move(working.nodes[i]));
  for (auto& node : nodes)
    for (auto& term : node.definition.terms) term.node = place[static_cast<std::size_t>(term.node)];
  for (auto& answer : working.finds) answer.node = place[static_cast<std::size_t>(answer.node)];
  for (auto& given : working.given_nodes)
    for (int& node : given) node = place[static_cast<std::size_t>(node)];
  working.nodes = std::move(nodes);
  return true;
}

bool in_order(Working const& working) {
  for (std::size_t i = 0; i < working.nodes.size(); ++i)
    for (auto const& term : working.nodes[i].definition.terms)
      if (static_cast<std::size_t>(term.node) >= i) return false;
  return true;
}

void write_otherwise(Working& working, WritingEdit const& edit) {
  auto& answer = working.finds[edit.find];
  if (answer.figures == 0) return;  // not a number
  auto const& number = working.nodes[static_cast<std::size_t>(answer.node)].value.number;
  if (edit.places) {
    answer.place = -*edit.places;
    auto const rounded = round_to_place(number, answer.place, edit.rounding);
    answer.text = print_to_place(number, answer.place, edit.rounding).plain;
    answer.figures = figures_at(rounded, answer.place);
    return;
  }
  if (edit.figures) answer.figures = *edit.figures;
  answer.place = place_of_figures(number, answer.figures, edit.rounding);
  answer.text = print_to_figures(number, answer.figures, edit.rounding).plain;
}
}  // namespace

std::variant<Working, PlacedFault> run(Worked const& worked, Working const& working, Edits const& edits,
                                       Conventions const& conventions) {
  Working edited = working;
  bool other_nodes = false;  // after a problem edit the indices of an edit are those of `working` no longer
  auto const here = [&](int node) {
    if (node < 0 || static_cast<std::size_t>(node) >= working.nodes.size()) return -1;
    return other_nodes ? edited.find_node(working.nodes[static_cast<std::size_t>(node)].id) : node;
  };
  for (auto const& edit : edits) {
    if (auto const* const problem = std::get_if<ProblemEdit>(&edit)) {
      auto solved = solve(*problem->problem, conventions);
      if (auto* const fault = std::get_if<PlacedFault>(&solved))
        return cannot_run("the edited problem cannot be solved: " + fault->fault.what);
      edited = std::move(std::get<Worked>(solved).accepted.front());
      other_nodes = true;
    } else if (auto const* const node_edit = std::get_if<NodeEdit>(&edit)) {
      int const node = here(node_edit->node);
      if (node < 0) return cannot_run("an edit is of a node that is not in the working");
      auto definition = node_edit->definition;
      for (auto& term : definition.terms)
        if (term.node = here(term.node); term.node < 0) return cannot_run("an edit reads a node that is not in the working");
      edited.nodes[static_cast<std::size_t>(node)].definition = std::move(definition);
    } else if (auto const* const answer = std::get_if<AnswerEdit>(&edit)) {
      int const node = here(answer->node);
      if (node < 0 || answer->find >= edited.finds.size())
        return cannot_run("an edit is of a node or an answer that is not in the working");
      edited.finds[answer->find].node = node;
    }
  }
  if (!in_order(edited) && !put_in_order(edited)) return cannot_run("the edits make a loop");
  std::vector<std::optional<int>> asked;
  for (auto const& find : worked.problem.finds) asked.push_back(find.figures);
  if (!evaluate(edited, conventions.ties, asked)) return cannot_run("the edits lead to a division by zero");
  for (auto const& edit : edits)
    if (auto const* const writing = std::get_if<WritingEdit>(&edit); writing && writing->find < edited.finds.size())
      write_otherwise(edited, *writing);
  return edited;
}

}  // namespace molewright
