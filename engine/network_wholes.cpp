// The relations of a whole: a solution, a sample, a mixture of gases, what a calorimeter warms; and a basis where nothing says
// how much there is.
#include <algorithm>

#include "engine/formula_memo.h"
#include "engine/lists.h"
#include "engine/network.h"
#include "engine/relation.h"

namespace molewright {

void Network::add_wholes() {
  for (auto const& substance : substances_)
    if (Quantity const weighed{"m", 0, substance, "impure", ""}; is_named(weighed))
      add_product("w = m/m(whole)", {{add("w", substance), 1}, {add("m", substance), -1}, {add(weighed), 1}});
  if (gas_mixture_) {
    std::vector<InstanceTerm> amounts{{add(whole("n")), -1}};
    for (auto const& component : components_) amounts.push_back({add("n", component), 1});
    if (components_.size() > 1) add_sum("n(total) = sum of n", amounts);  // the others may not be spoken of
    bool const told_apart = std::all_of(components_.begin(), components_.end(), [&](auto const& c) { return speaks_of("p", c); });
    if (components_.size() > 1 && told_apart) {
      std::vector<InstanceTerm> pressures{{add(Quantity{"p", 0, "", "", ""}), -1}};
      for (auto const& component : components_) pressures.push_back({add("p", component), 1});
      add_sum("p = sum of p(X)", pressures);
    }
    auto const q = [&](Symbol symbol) { return add(Quantity{symbol, 0, "", "", ""}); };
    add_product("pV = nRT", {{q("p"), 1}, {q("V"), 1}, {add(whole("n")), -1}, {q("R"), -1}, {q("T"), -1}});
    return;
  }
  if (gases_ && is_named("p", "H2O"))  // a gas collected over water is moist
    for (auto const& substance : substances_)
      if (substance != "H2O" && is_gas(substance))
        add_sum("p(gas) = p - p(H2O)",
                {{add("p", substance), -1}, {add(Quantity{"p", 0, "", "", ""}), 1}, {add(Quantity{"p", 0, "H2O", "", ""}), -1}});
  if (components_.empty()) return;
  std::vector<InstanceTerm> masses{{add(whole("m")), -1}};
  // Crystals that are weighed bring their water along: what they weigh counts, not their salt, and H2O is what they go into. Of
  // what is dissolved in all the water, no H2O being spoken of, the salt alone counts.
  bool const water_told = speaks_of("m", "H2O") || speaks_of("V", "H2O") || speaks_of("n", "H2O");
  bool const in_all_water = (speaks_of("b") || speaks_of("x")) && !water_told;
  auto const weighed_as = [&](std::string const& component) {
    if (in_all_water) return component;
    for (auto const& substance : substances_) {
      if (salt_of_crystals(substance) == component && (speaks_of("m", substance) || speaks_of("n", substance))) return substance;
    }
    return component;
  };
  for (auto const& component : components_) masses.push_back({add("m", weighed_as(component)), 1});
  if (!only_some_parts()) add_sum("m(whole) = sum of m", masses);
  if (speaks_of("x")) {
    std::vector<InstanceTerm> amounts{{add(whole("n")), -1}};
    for (auto const& component : components_) amounts.push_back({add("n", component), 1});
    add_sum("n(total) = sum of n", amounts);
  }
  bool const all_pure =
      std::all_of(components_.begin(), components_.end(), [&](std::string const& c) { return speaks_of("rho", c); });
  if (all_pure && !is_named(whole("V"))) {  // the volumes of liquids are taken to add up where nothing better is known
    std::vector<InstanceTerm> volumes{{add(whole("V")), -1}};
    for (auto const& component : components_) volumes.push_back({add("V", component), 1});
    add_sum("V = V1 + V2", volumes);
  }
}

/// N, P2O5 and K2O of a fertiliser: the shares of all that is spoken of are given and come to less than the whole.
bool Network::only_some_parts() const {
  constexpr double rounded = 0.98;  // shares that were rounded may miss the whole by a little
  double sum = 0;
  for (auto const& component : components_) {
    auto const share = std::find_if(problem_.givens.begin(), problem_.givens.end(), [&](Given const& g) {
      return g.quantity == Quantity{"w", 0, component, "", ""} && g.numbers.size() == 1;
    });
    if (share == problem_.givens.end()) return false;
    sum += (share->numbers.front().value * share->unit.factor).to_double();
  }
  return sum < rounded;
}

/// A calorimeter: what the solution takes up, and the enthalpy of reaction for one mole of what it is stated for.
void Network::add_heat() {
  if (!speaks_of("q") && !speaks_of("dH")) return;
  Quantity const heat{"q", 0, "", "", ""};
  auto const q = [&](Symbol symbol, char const* substance = "") { return add(Quantity{symbol, 0, substance, "", ""}); };
  if (is_named({"T", 1, "", "", ""}) && is_named({"T", 2, "", "", ""}))
    add_sum("dT = T2 - T1", {{q("dT"), -1}, {add(Quantity{"T", 2, "", "", ""}), 1}, {add(Quantity{"T", 1, "", "", ""}), -1}});
  if (speaks_of("C")) add_product("q = C dT", {{add(heat), 1}, {q("C"), -1}, {q("dT"), -1}});
  // What is warmed: the solution, or the water of the calorimeter.
  std::string const warmed = !warmed_.empty()                                 ? warmed_
                             : !whole_.empty()                                ? whole_
                             : speaks_of("m", "H2O") || speaks_of("V", "H2O") ? "H2O"
                                                                              : "solution";
  add_product("q = m cp dT", {{add(heat), 1}, {q("m", warmed.c_str()), -1}, {q("cp"), -1}, {q("dT"), -1}});
  std::size_t reactants_given = 0;
  auto const portion_given = [&](std::string const& substance) {
    return std::any_of(problem_.givens.begin(), problem_.givens.end(), [&](Given const& g) {
      return g.quantity.substance == substance && g.quantity.word.empty() && is_of_portions(g.quantity.symbol);
    });
  };
  std::vector<std::string> reactants, species;
  for (auto const& reaction : species_) {
    for (auto const& one : reaction.reactants()) add_once(reactants, one);
    for (auto const& one : reaction.all()) add_once(species, one);
  }
  for (auto const& reactant : reactants)
    if (!contains(problem_.excess, reactant) && portion_given(reactant)) ++reactants_given;
  for (auto const& substance : substances_) {
    if (!speaks_of("dH", substance)) continue;
    // Of a reactant that may be left over, what was used counts.
    bool const may_be_left = reactants_given > 1 && contains(reactants, substance);
    int const amount = may_be_left ? add({"n", 0, substance, "used", ""}) : q("n", substance.c_str());
    add_product(heat_of_reaction_ ? RelationForm("dH = q/n") : RelationForm("dH = -q/n"),
                {{q("dH", substance.c_str()), 1}, {add(heat), -1}, {amount, 1}}, 10, false, Rational(heat_of_reaction_ ? 1 : -1));
  }
  // How much must react for this heat: where nothing is measured, the amount of what is asked follows.
  if (problem_.reactions.size() != 1 || std::any_of(species.begin(), species.end(), portion_given)) return;
  auto const asks = std::find_if(problem_.finds.begin(), problem_.finds.end(), [&](Find const& f) {
    return f.kind == Find::Kind::number && contains(species, f.quantity.substance);
  });
  auto const& asked = asks == problem_.finds.end() ? species.front() : asks->quantity.substance;
  add_reaction_enthalpy(0, asked, add("n", asked));
}

/// The enthalpy of the reaction as written, from the amount of one substance that takes part: for nu(X) mol of it.
void Network::add_reaction_enthalpy(std::size_t reaction, std::string const& substance, int amount) {
  if (problem_.reactions.size() != 1 || !is_named("dH", "")) return;
  // The enthalpy of a neutralisation is that of the water which is formed.
  auto const reactants = species_[reaction].reactants();
  bool const with_base =
      std::any_of(reactants.begin(), reactants.end(), [](auto const& s) { return s == "OH^-" || count_in("OH^-", s) > 0; });
  bool const water_formed = with_base && substance == "H2O" && contains(species_[reaction].products(), substance);
  int const cost = water_formed ? 9 : 10;
  add_product(heat_of_reaction_ ? RelationForm("dH = q nu/n") : RelationForm("dH = -q nu/n"),
              {{add(Quantity{"dH", 0, "", "", ""}), 1},
               {add(Quantity{"q", 0, "", "", ""}), -1},
               {coefficient(reaction, substance), -1},
               {amount, 1}},
              cost, false, Rational(heat_of_reaction_ ? 1 : -1));
}

/// Where nothing says how much there is, a chemist takes a round amount: 1 L of a solution, 100 g, 1 kg of the solvent.
void Network::add_basis() {
  bool const intensive = std::all_of(problem_.givens.begin(), problem_.givens.end(), [](Given const& g) {
    auto const& s = g.quantity.symbol;
    return s == "w" || s == "x" || s == "b" || s == "c" || s == "gamma" || s == "rho" || s == "phi" || s == "M";
  });
  // A formula rests on fractions alone, though a molar mass beside it is found from a portion that was measured.
  bool const for_formula = formula_find() != nullptr && speaks_of("w");
  if (whole_.empty() || problem_.givens.empty() || !(intensive || for_formula) || !problem_.reactions.empty()) return;
  auto const settled = [&] {
    auto const derivation = derive();
    return std::all_of(problem_.finds.begin(), problem_.finds.end(), [&](Find const& f) {
      if (f.kind == Find::Kind::number) return derivation.known(find(canonical(f.quantity)));
      return !problem_.empirical.empty() ||
             std::all_of(formula_parts_.begin(), formula_parts_.end(), [&](std::string const& part) {
               return derivation.known(find({"n", 0, part, "", ""}));
             });
    });
  };
  if (settled()) return;
  struct Basis {
    Quantity quantity;
    Rational number;  // in the symbol's working unit
  };
  auto const given = [&](Symbol symbol) {
    return std::any_of(problem_.givens.begin(), problem_.givens.end(),
                       [&](Given const& g) { return g.quantity.symbol == symbol; });
  };
  auto const asked = [&](Symbol symbol) {
    return std::any_of(problem_.finds.begin(), problem_.finds.end(),
                       [&](Find const& f) { return f.kind == Find::Kind::number && f.quantity.symbol == symbol; });
  };
  // Where the solvent's share is wanted, too, the solution is weighed out: 100 g less what is dissolved keeps its figures.
  bool const by_volume = speaks_of("c") || speaks_of("gamma");
  bool const by_mass = by_volume ? given("w") && (asked("b") || asked("x")) : speaks_of("w");
  std::vector<Basis> bases;
  std::string const solute = substances_.empty() ? "" : substances_.front();
  if (given("b") && !solvent_.empty()) bases.push_back({{"m", 0, solvent_, "", ""}, Rational(1000)});
  if (given("x")) bases.push_back({whole("n"), Rational(1)});
  if (!by_mass) bases.push_back({solution_volume(solute, 0), Rational(1)});
  bases.push_back({whole("m"), Rational(100)});
  if (by_mass) bases.push_back({solution_volume(solute, 0), Rational(1)});
  for (auto const& basis : bases) {
    int const variable = find(basis.quantity);
    if (variable < 0 || variables_[static_cast<std::size_t>(variable)].given >= 0) continue;
    variables_[static_cast<std::size_t>(variable)].table = true;
    basis_ = {basis.quantity, basis.number};
    if (settled()) return;
    variables_[static_cast<std::size_t>(variable)].table = false;
    basis_.reset();
  }
}

}  // namespace molewright
