#include "engine/steps_numbers.h"

namespace molewright {
namespace {

constexpr int guard_digits = 2;
constexpr int most_guard_digits = 8;

Node const& node_of(Working const& working, int index) { return working.nodes[static_cast<std::size_t>(index)]; }

bool is_given(Node const& node) {
  return node.relation == relations::given || node.relation == relations::reading || node.relation == relations::course_value;
}

/// Guard digits that all are zero tell nothing (0.00600 mol, not 0.0060000 mol), and guard digits that would be rounded another
/// way than the number itself mislead (0.00158496 to three figures is 0.00158, but 0.0015850 reads as 0.00159).
int figures_shown(Rational const& number, int due, Rounding rounding) {
  auto const rounded = round_to_figures(number, due, rounding);
  if (rounded == round_to_figures(number, due + guard_digits, rounding)) return due;
  int shown = due + guard_digits;
  while (shown < due + most_guard_digits && round_to_figures(round_to_figures(number, shown, rounding), due, rounding) != rounded)
    ++shown;
  return shown;
}

/// The coarsest last place of the atomic weights in a molar mass, which is printed at least to there: 18.0 where the table has
/// 1.0 and 16.0. Nothing for a node that is no such mass.
std::optional<int> place_of_weights(Working const& working, Node const& node, Conventions const& conventions) {
  if (node.relation == relations::atomic_weight) return conventions.weights.weight(node.quantity.substance).last_place;
  if (node.relation != relations::molar_mass && node.relation != relations::group_mass) return std::nullopt;
  std::optional<int> coarsest;
  for (auto const& term : node.definition.terms) {
    auto const place = place_of_weights(working, node_of(working, term.node), conventions);
    if (place && (!coarsest || *place > *coarsest)) coarsest = place;
  }
  return coarsest;
}

PrintedNumber exact_number(Working const& working, Node const& node, Conventions const& conventions) {
  auto const& number = node.value.number;
  auto const place = place_of_weights(working, node, conventions);
  if (place && *place < 0 && round_to_place(number, *place, Rounding::truncate) == number)
    return print_to_place(number, *place, Rounding::half_up, conventions.mark);
  // What does not end is printed as any number on the way is: two digits more than its answer has.
  bool const worked = node.definition.operation != Operation::constant;
  if (worked && number != round_to_figures(number, exact_figures, Rounding::truncate)) {
    auto const rounding = nearest_by(conventions.ties);
    return print_to_figures(number, figures_shown(number, figures_of_unending, rounding), rounding, conventions.mark);
  }
  auto const text = unrounded(number, exact_figures);
  auto printed = print_as_typed(value(parse_decimal(text)), conventions.mark);
  printed.plain = text;
  return printed;
}
}  // namespace

PrintedNumber number_of(Working const& working, Node const& node, Conventions const& conventions) {
  auto const& value = node.value;
  constexpr int places_of_pKw = -2;  // 14.00, though it limits nothing
  if (node.quantity.symbol == "pKw") return print_to_place(value.number, places_of_pKw, Rounding::half_up, conventions.mark);
  if (!value.last_place) return exact_number(working, node, conventions);
  auto const rounding = nearest_by(conventions.ties);
  if (is_given(node) || node.relation == relations::difference || node.relation == relations::titre || value.number.sign() == 0)
    return print_to_place(value.number, *value.last_place, rounding, conventions.mark);
  int const due = figures_at(value.number, *value.last_place);
  return print_to_figures(value.number, figures_shown(value.number, due, rounding), rounding, conventions.mark);
}

std::map<int, Decimal const*> typed_numbers(Problem const& problem, Working const& working) {
  std::map<int, Decimal const*> typed;
  for (std::size_t g = 0; g < working.given_nodes.size() && g < problem.givens.size(); ++g)
    for (std::size_t i = 0; i < working.given_nodes[g].size() && i < problem.givens[g].numbers.size(); ++i) {
      auto const& number = problem.givens[g].numbers[i];
      int const index = working.given_nodes[g][i];
      if (node_of(working, index).value.number == number.value) typed[index] = &number;  // not where an edit put another
    }
  return typed;
}

}  // namespace molewright
