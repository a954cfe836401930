#include "engine/doubts.h"

#include <fmt/format.h>

#include <algorithm>
#include <set>

#include "engine/element.h"
#include "engine/formula_memo.h"
#include "engine/mixing.h"
#include "engine/network.h"
#include "engine/nomenclature_parts.h"
#include "engine/relation_table.h"
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

/// A metal that is to set free hydrogen or another metal that it cannot.
void look_at_displacement(Equation const& equation, std::vector<std::string>& out) {
  // Only where an element is set free; an acid that oxidises (nitric acid) is another matter.
  bool const element_forms = std::any_of(equation.right.begin(), equation.right.end(), [](Species const& s) {
    return s.formula.charge == 0 && !s.formula.electron && s.formula.composition().size() == 1;
  });
  if (!element_forms) return;
  // Aluminium and alkali set hydrogen free, and no sodium: a metal that stays in its compound is not displaced by another.
  auto const is_set_free = [&](std::string const& symbol) {
    return std::any_of(equation.right.begin(), equation.right.end(), [&](Species const& s) {
      auto const made = s.formula.composition();
      return made.size() == 1 && s.formula.charge == 0 && made.begin()->first == symbol;
    });
  };
  auto const keeps_its_metal = [&](Formula const& other) {
    auto const held = other.composition();
    return std::any_of(held.begin(), held.end(),
                       [&](auto const& part) { return !naming::named_as_nonmetal(part.first) && !is_set_free(part.first); });
  };
  for (auto const& element : equation.left)
    for (auto const& other : equation.left) {
      auto const own = element.formula.composition();
      bool const metal = own.size() == 1 && !naming::named_as_nonmetal(own.begin()->first);
      if (&element == &other || (metal && keeps_its_metal(other.formula))) continue;
      if (auto const reason = cannot_displace(element.formula, other.formula)) out.push_back(*reason);
    }
}

/// Readings of a mean that lie further apart than titres that count as concordant: common practice, 0.1 to 0.2 mL.
void look_at_readings(Given const& given, std::vector<std::string>& out) {
  if (given.form != Given::Form::mean || given.quantity.symbol != "V") return;
  auto const spread = spread_of_titres(given);
  constexpr double concordant = 0.2001e-3;  // L
  if (spread.to_double() * given.unit.factor.to_double() > concordant)
    out.push_back(fmt::format("the readings of {} are up to {} {} apart: leave out those that are not concordant",
                              plain(given.quantity), unrounded(spread, 4), given.unit.symbol));
}

/// A common ion: what the solid adds to it is left out, as textbooks do.
void look_at_common_ion(Node const& node, Working const& working, std::vector<std::string>& out) {
  if (node.relation != RelationForm("Ksp = product of c^nu") || node.quantity.symbol != "c") return;
  for (auto const& term : node.definition.terms) {
    auto const& other = working.nodes[static_cast<std::size_t>(term.node)].quantity;
    if (other.symbol != "c") continue;
    for (auto const& product : node.definition.terms) {
      auto const& solid = working.nodes[static_cast<std::size_t>(product.node)].quantity;
      if (solid.symbol == "Ksp")
        out.push_back(fmt::format("what {} itself adds to {} is neglected", solid.substance, plain(other)));
    }
  }
}

/// What is unlikely by its size alone.
void look_at_size(Node const& node, std::vector<std::string>& out) {
  double const number = node.value.number.to_double();
  auto const& symbol = node.quantity.symbol;
  if (symbol == "yield" && number * node.value.unit.factor.to_double() > 1)
    out.push_back(fmt::format("{} is above 100 %: the product may be wet or impure, or a value is off", plain(node.quantity)));
  if ((symbol == "pH" || symbol == "pOH") && (number < -1 || number >= 15))
    out.push_back(fmt::format("{} = {:.2f} is outside what water can have", plain(node.quantity), number));
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
  if (!known_formula(node.quantity.substance)) return std::nullopt;
  return base * grams_per_mole(node.quantity.substance) * per_litre;
}

/// A molar mass that is given and that no table of atomic weights comes near.
void look_at_molar_mass(Given const& given, std::vector<std::string>& out) {
  constexpr double near = 0.02;
  if (given.quantity.symbol != "M" || given.numbers.empty()) return;
  double const mass = grams_per_mole(given.quantity.substance);
  double const stated = (given.numbers.front().value * given.unit.factor / unit("g/mol").factor).to_double();
  if (mass > 0 && std::abs(stated - mass) > near * mass)
    out.push_back(fmt::format("{} = {} {} is used as given, but the formula gives {:.5g} g/mol", plain(given.quantity),
                              given.numbers.front().text, given.unit.symbol, mass));
}
/// All iron of magnetite, where the equation of the analysis shows one of its two ions.
void look_at_count(Node const& node, Problem const& problem, std::vector<std::string>& out) {
  if (node.relation != relations::count || problem.reactions.empty()) return;
  auto const ions = ions_of(node.quantity.substance);
  auto const of_element = std::count_if(ions.begin(), ions.end(), [&](auto const& one) {
    auto const ion = known_formula(one.ion);
    return ion && ion->formula.charge > 0 && ion->composition.count(node.quantity.part) > 0;
  });
  bool const reacts = std::any_of(problem.reactions.begin(), problem.reactions.end(), [&](Reaction const& reaction) {
    return std::any_of(reaction.equation.left.begin(), reaction.equation.left.end(),
                       [&](Species const& species) { return plain(species.formula) == node.quantity.substance; });
  });
  if (of_element > 1 && !reacts)
    out.push_back(fmt::format("all {} in {} is counted, whichever of its ions it is there as", node.quantity.part,
                              node.quantity.substance));
}
}  // namespace

bool react_in_solution(std::string const& one, std::string const& other) {
  if (one == other) return false;
  if (count_in("H^+", one) > 0 && count_in("OH^-", other) > 0) return true;
  for (auto const& row : solubilities()) {
    if (row.verdict != Solubility::Verdict::insoluble) continue;
    auto const ions = ions_of(row.formula);
    if (ions.size() == 2 && count_in(ions[0].ion, one) > 0 && count_in(ions[1].ion, other) > 0) return true;
  }
  return false;
}

std::optional<double> most_without_number(Solubility const& known) {
  if (known.grams_per_100g_water) return std::nullopt;
  if (known.verdict == Solubility::Verdict::slightly_soluble) return 0.1;
  if (known.verdict == Solubility::Verdict::insoluble || known.verdict == Solubility::Verdict::reacts) return 0.01;
  return std::nullopt;
}

std::vector<std::string> doubts(Problem const& problem, Working const& working) {
  std::vector<std::string> out;
  for (auto const& reaction : problem.reactions) {
    look_at_states(reaction.equation, out);
    look_at_displacement(reaction.equation, out);
  }
  for (auto const& given : problem.givens) {
    look_at_readings(given, out);
    look_at_molar_mass(given, out);
  }
  std::set<int> sized;  // answers and data
  for (auto const& answer : working.finds) sized.insert(answer.node);
  for (auto const& given : working.given_nodes) sized.insert(given.begin(), given.end());
  for (int const node : sized) look_at_size(working.nodes[static_cast<std::size_t>(node)], out);
  for (auto const& node : working.nodes) look_at_common_ion(node, working, out);
  for (auto const& node : working.nodes) look_at_count(node, problem, out);
  for (auto const& node : working.nodes) {
    if (node.id != plain(node.quantity) || (node.quantity.symbol != "c" && node.quantity.symbol != "gamma")) continue;
    auto const* const known = solubility(node.quantity.substance);
    if (!known) continue;
    if (auto const limit = most_without_number(*known); limit && node.quantity.symbol == "c") {
      double const there = (node.value.number * node.value.unit.factor).to_double();  // mol/L
      if (there > *limit)
        out.push_back(fmt::format("{} would be {:.3g} mol/L, but {} dissolves to less than {:.2g} mol/L at 20 °C",
                                  plain(node.quantity), there, node.quantity.substance, *limit));
    }
    if (!known->grams_per_100g_water) continue;
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
