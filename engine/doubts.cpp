#include "engine/doubts.h"

#include <fmt/format.h>

#include <algorithm>

#include "engine/element.h"
#include "engine/formula_memo.h"
#include "engine/substance.h"

namespace molewright {
namespace {

void look_at_states(Equation const& equation, std::vector<std::string>& out) {
  bool const in_water =
      std::any_of(equation.left.begin(), equation.left.end(), [](Species const& s) { return s.formula.state == State::aqueous; });
  for (auto const* side : {&equation.left, &equation.right})
    for (auto const& species : *side) {
      auto const substance = plain(species.formula);
      auto const* const known = solubility(substance);
      if (!known) continue;
      if (species.formula.state == State::aqueous && known->verdict == Solubility::Verdict::insoluble)
        out.push_back(fmt::format("{} is written (aq), but it hardly dissolves in water", substance));
      bool const formed = side == &equation.right && in_water;
      if (formed && species.formula.state == State::solid && known->verdict == Solubility::Verdict::soluble)
        out.push_back(fmt::format("{} is written (s), but it dissolves in water", substance));
    }
}

/// Grams of the salt in 100 mL of the solution; nothing where the node says no concentration.
std::optional<double> grams_in_100_mL(Node const& node, Working const& working) {
  auto const& symbol = node.quantity.symbol;
  double const base = (node.value.number * node.value.unit.factor).to_double();  // mol/L, g/L
  constexpr double per_litre = 0.1;
  if (symbol == "gamma") return base * per_litre;
  if (symbol != "c") return std::nullopt;
  int const M = working.find_node("M(" + node.quantity.substance + ")");
  if (M >= 0) return base * working.nodes[static_cast<std::size_t>(M)].value.number.to_double() * per_litre;
  auto const known = known_formula(node.quantity.substance);
  if (!known) return std::nullopt;
  double mass = 0;
  for (auto const& [element, count] : known->composition)
    mass += static_cast<double>(count) * AtomicWeights{}.weight(element).value.to_double();
  return base * mass * per_litre;
}
}  // namespace

std::vector<std::string> doubts(Problem const& problem, Working const& working) {
  std::vector<std::string> out;
  for (auto const& reaction : problem.reactions) look_at_states(reaction.equation, out);
  for (auto const& node : working.nodes) {
    if (node.id != plain(node.quantity) || (node.quantity.symbol != "c" && node.quantity.symbol != "gamma")) continue;
    auto const* const known = solubility(node.quantity.substance);
    if (!known || !known->grams_per_100g_water) continue;
    double const most = known->grams_per_100g_water->to_double();
    auto const there = grams_in_100_mL(node, working);
    if (!there || *there <= most) continue;
    out.push_back(
        fmt::format("{} would need {:.3g} g of {} in 100 mL, but no more than {:.3g} g dissolves in 100 g of water at 20 °C",
                    plain(node.quantity), *there, node.quantity.substance, most));
  }
  return out;
}

}  // namespace molewright
