#include "marker/stepwise.h"

#include "engine/steps.h"

namespace molewright {
namespace {

Find find_of(Node const& node) {
  Find find;
  if (node.definition.operation == Operation::choose) {
    find.kind = Find::Kind::limiting_reagent;
    return find;
  }
  find.quantity = node.quantity;
  find.unit = node.value.unit;
  return find;
}
}  // namespace

Stepwise stepwise(Question const& question, std::size_t find, Conventions const& conventions) {
  Stepwise out;
  out.question = question;
  auto& worked = out.question.worked;
  worked.accepted.resize(1);
  auto& working = worked.accepted.front();
  auto const answer = working.finds[find];
  auto const asked = worked.problem.finds[find];
  std::vector<std::optional<int>> figures;
  auto const lines = steps(question.worked, question.worked.accepted.front(), find, conventions);
  worked.problem.finds.clear();
  working.finds.clear();
  auto const add = [&](int node, Find step, std::optional<int> to_figures) {
    out.nodes.push_back(node);
    worked.problem.finds.push_back(std::move(step));
    working.finds.push_back(Answer{node, 0, 0, false, ""});
    figures.push_back(to_figures);
  };
  for (auto const& line : lines) {
    if (&line == &lines.back()) break;  // the answer, or the branch that is the answer
    auto const& node = working.nodes[static_cast<std::size_t>(line.node)];
    if (is_a_step(node.definition)) add(line.node, find_of(node), std::nullopt);
  }
  add(answer.node, asked, asked.figures);
  bool const runs = evaluate(working, conventions.ties, figures);
  if (!runs || asked.kind != Find::Kind::number) working.finds.back() = answer;
  out.question.marks.assign(out.nodes.size(), 1);
  out.question.slip_key.assign(out.nodes.size(), {});
  return out;
}

}  // namespace molewright
