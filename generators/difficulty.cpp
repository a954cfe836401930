#include "generators/difficulty.h"

#include <set>

namespace molewright {
namespace {

bool is_read_off(Node const& node) {
  for (char const* none : {relations::given, relations::reading, relations::titre, relations::atomic_weight,
                           relations::group_mass, relations::coefficient, relations::count, relations::table_value,
                           relations::course_value, relations::density_of_water, relations::basis, relations::batches}) {
    if (node.relation == none) return true;
  }
  return node.definition.operation == Operation::constant;
}

bool is_even(Working const& working, Node const& node) {
  if (node.definition.terms.size() != 3) return true;
  auto const number = [&](std::size_t t) {
    return working.nodes[static_cast<std::size_t>(node.definition.terms[t].node)].value.number;
  };
  return number(1) == number(2);
}

}  // namespace

Difficulty difficulty_of(Question const& question) {
  Working const& working = question.worked.accepted.front();
  std::set<int> seen;
  Difficulty difficulty;
  for (std::size_t find = 0; find < working.finds.size(); ++find) {
    for (int const index : order_of_work(working, find)) {
      Node const& node = working.nodes[static_cast<std::size_t>(index)];
      if (!seen.insert(index).second || is_read_off(node)) continue;
      if (node.relation == relations::convert)
        ++difficulty.conversions;
      else
        ++difficulty.steps;
      if (node.relation == relations::mole_ratio && !is_even(working, node)) ++difficulty.ratios;
    }
  }
  return difficulty;
}

}  // namespace molewright
