#include "engine/network.h"

#include <algorithm>
#include <utility>

#include "engine/formula_memo.h"
#include "engine/lists.h"

namespace molewright {
namespace {

/// For looking up only: nothing is read in this order.
std::size_t hash_of(Quantity const& quantity) {
  std::uint32_t mixed = 2166136261U;  // FNV-1a
  for (auto const text : {std::string_view(quantity.symbol), std::string_view(quantity.substance),
                          std::string_view(quantity.word), std::string_view(quantity.part)})
    for (char const c : text) mixed = (mixed ^ static_cast<unsigned char>(c)) * 16777619U;
  return (mixed ^ static_cast<std::uint32_t>(quantity.stage)) * 16777619U;
}
}  // namespace

SpeciesOfReaction::SpeciesOfReaction(Equation const& equation) : reactants_(equation.left.size()) {
  all_.reserve(equation.left.size() + equation.right.size());
  for (auto const* side : {&equation.left, &equation.right})
    for (auto const& species : *side) all_.push_back(plain(species.formula));
}

Network::Network(Problem problem, Measured const* molar_gas_volume) : problem_(std::move(problem)) {
  constexpr std::size_t usual_variables = 64, usual_instances = 48;
  variables_.reserve(usual_variables);
  instances_.reserve(usual_instances);
  index_.assign(2 * usual_variables, -1);
  resolve_order();
  for (auto const& reaction : problem_.reactions) species_.emplace_back(reaction.equation);
  resolve_substances();
  gather_stages();
  if (molar_gas_volume) take_molar_volume_of_course(*molar_gas_volume);
  survey();
  limiting_.resize(problem_.reactions.size());
  reaction_added_.assign(problem_.reactions.size(), false);

  add_subjects();
  auto const dilutions = std::count_if(problem_.handlings.begin(), problem_.handlings.end(),
                                       [](Handling const& h) { return h.kind == Handling::Kind::dilute; });
  for (auto const& handling : problem_.handlings) add_handling(handling, dilutions == 1);
  add_weighings();
  add_hydrates();
  add_yields();
  add_wholes();
  add_gas_states();
  add_formula_parts();
  add_masses_of_unknowns();
  add_conserved_masses();
  add_heat();
  add_parts();
  add_acidity();
  add_solubility_products();

  each_quantity(problem_, [&](Quantity const& q) { add(canonical(q)); });
  for (std::size_t i = 0; i < problem_.givens.size(); ++i)
    variables_[static_cast<std::size_t>(add(canonical(problem_.givens[i].quantity)))].given = static_cast<int>(i);
  add_basis();
}

Quantity Network::canonical(Quantity quantity) const {
  auto const& symbol = quantity.symbol;
  if (quantity.word == "theoretical") quantity.word.clear();
  if (quantity.substance == "H^+" || quantity.substance == "H3O^+") quantity.substance = hydron_;
  if (symbol == "M" || symbol == "N_A" || (symbol == "rho" && !numbered_densities_)) {
    quantity.stage = 0;
    quantity.word.clear();
  }
  // What is weighed for a stock is in the stock: m(KOH) beside c1(KOH) is m1(KOH).
  bool const portion = symbol == "n" || symbol == "m" || symbol == "N";
  if (portion && gas_states_ && !gas_amount_changes_) quantity.stage = 0;  // the gas is the same before and after
  if (portion && quantity.stage == 0 && quantity.word.empty() && contains(staged_, quantity.substance) &&
      (reaction_of(quantity.substance) == std::string::npos ||
       (first_stage(quantity.substance) == 1 && aliquot_of(quantity.substance))))
    quantity.stage = 1;
  if (symbol == "DF" && problem_.handlings.size() == 1) quantity.stage = 0;
  // The pH of what is diluted or mixed is that of the last solution; beside one with a number, that of the first.
  if ((symbol == "pH" || symbol == "pOH") && quantity.stage == 0 && !staged_.empty() && problem_.reactions.empty()) {
    auto const of_later = [](Quantity const& q) { return (q.symbol == "pH" || q.symbol == "pOH") && q.stage > 1; };
    bool const numbered =
        std::any_of(problem_.givens.begin(), problem_.givens.end(), [&](Given const& g) { return of_later(g.quantity); }) ||
        std::any_of(problem_.finds.begin(), problem_.finds.end(), [&](Find const& f) { return of_later(f.quantity); });
    for (auto const& substance : staged_)
      quantity.stage =
          numbered ? std::max(quantity.stage, first_stage(substance)) : std::max(quantity.stage, last_stage(substance));
  }
  if (symbol == "Q" && quantity.stage == 0)
    for (auto const& handling : problem_.handlings)
      if (handling.kind == Handling::Kind::mix) quantity.stage = handling.to;
  // V(X) that reacts, beside c1(X) and c2(X), is a portion of the last solution.
  if (symbol == "c" && quantity.stage == 0 && quantity.word.empty() && contains(staged_, quantity.substance) &&
      reaction_of(quantity.substance) != std::string::npos && !is_named("c", quantity.substance))
    quantity.stage = last_stage(quantity.substance);
  // One solution has one volume, whichever of its solutes it is written with.
  if (symbol == "V" && quantity.stage > 0 && quantity.word.empty()) {
    auto const written = stage_volume_.find(quantity.stage);
    if (written != stage_volume_.end()) quantity.substance = written->second;
  }
  // In a saturated solution the concentration of the solid is its solubility.
  if (symbol == "c" && quantity.stage == 0 && quantity.word.empty() && contains(solids_, quantity.substance))
    quantity.symbol = "s";
  return quantity;
}

/// Where the quantity stands in the index, or where it would.
std::size_t Network::place_in_index(Quantity const& quantity) const {
  auto place = hash_of(quantity) % index_.size();
  while (index_[place] >= 0 && variables_[static_cast<std::size_t>(index_[place])].quantity != quantity)
    place = (place + 1) % index_.size();
  return place;
}

int Network::find(Quantity const& canonical) const { return index_[place_in_index(canonical)]; }

int Network::add(Quantity const& quantity) {
  if (int const there = find(quantity); there >= 0) return there;
  Variable variable{quantity, -1, false};
  variable.table = quantity.symbol == "nu" || constant_of(quantity.symbol) != nullptr || (basis_ && basis_->first == quantity) ||
                   course_value(quantity) != nullptr || is_whole_fraction(quantity) || is_density_of_water(quantity);
  if (quantity.symbol == "M") variable.table = known_formula(quantity.substance) != nullptr;
  variables_.push_back(std::move(variable));
  if (2 * variables_.size() > index_.size()) {  // always half empty
    index_.assign(2 * index_.size(), -1);
    for (std::size_t v = 0; v + 1 < variables_.size(); ++v) index_[place_in_index(variables_[v].quantity)] = static_cast<int>(v);
  }
  auto const made = static_cast<int>(variables_.size()) - 1;
  index_[place_in_index(variables_.back().quantity)] = made;
  return made;
}

int Network::add(Symbol symbol, std::string const& substance, int stage, char const* word) {
  return add(canonical({symbol, stage, substance, word, ""}));
}

/// Each term in the unit that the table of relations says; a sum, and what has `same_units`, in those of the data.
Instance& Network::add_relation(Relation const& relation, Instance::Kind kind, std::vector<InstanceTerm> terms, int cost) {
  Instance instance;
  instance.kind = kind;
  instance.relation = relation.form;
  instance.terms = std::move(terms);
  instance.cost = cost;
  instance.same_units = kind == Instance::Kind::sum;
  for (auto& term : instance.terms) {
    auto const& variable = variables_[static_cast<std::size_t>(term.variable)];
    if (!instance.same_units) term.unit = relation.unit_of(variable.quantity.symbol);
    if (!variable.table) instance.targets.push_back(term.variable);
  }
  instances_.push_back(std::move(instance));
  return instances_.back();
}

Instance& Network::add_product(RelationForm form, std::vector<InstanceTerm> terms, int cost, bool same_units, Rational factor) {
  auto& instance = add_relation(form.entry(), Instance::Kind::product, std::move(terms), cost);
  instance.factor = std::move(factor);
  instance.same_units = same_units;
  return instance;
}

Instance& Network::add_sum(RelationForm form, std::vector<InstanceTerm> terms, int cost) {
  return add_relation(form.entry(), Instance::Kind::sum, std::move(terms), cost);
}

bool Network::is_named(Quantity const& quantity) const {
  return std::any_of(problem_.givens.begin(), problem_.givens.end(), [&](Given const& g) { return g.quantity == quantity; }) ||
         std::any_of(problem_.finds.begin(), problem_.finds.end(), [&](Find const& f) { return f.quantity == quantity; });
}

bool Network::is_named(Symbol symbol, std::string_view substance, std::string_view word) const {
  auto const fits = [&](Quantity const& q) {
    return q.symbol == symbol && q.stage == 0 && q.substance == substance && q.word == word && q.part.empty();
  };
  return std::any_of(problem_.givens.begin(), problem_.givens.end(), [&](Given const& g) { return fits(g.quantity); }) ||
         std::any_of(problem_.finds.begin(), problem_.finds.end(), [&](Find const& f) { return fits(f.quantity); });
}

bool Network::speaks_of(Symbol symbol, std::string const& substance) const {
  if (dense_as_water_ && symbol == "rho" && substance == "solution") return true;
  auto const fits = [&](Quantity const& q) { return q.symbol == symbol && q.substance == substance && q.part.empty(); };
  return std::any_of(problem_.givens.begin(), problem_.givens.end(), [&](Given const& g) { return fits(g.quantity); }) ||
         std::any_of(problem_.finds.begin(), problem_.finds.end(), [&](Find const& f) { return fits(f.quantity); });
}

bool Network::speaks_of(Symbol symbol) const {
  auto const fits = [&](Quantity const& q) { return q.symbol == symbol; };
  return std::any_of(problem_.givens.begin(), problem_.givens.end(), [&](Given const& g) { return fits(g.quantity); }) ||
         std::any_of(problem_.finds.begin(), problem_.finds.end(), [&](Find const& f) { return fits(f.quantity); });
}

std::optional<Rational> Network::constant(Quantity const& quantity) const {
  if (basis_ && basis_->first == quantity) return basis_->second;
  if (auto const* const own = course_value(quantity))
    return own->number.value * own->unit->factor / working_unit(quantity.symbol).factor;
  if (auto const* const known = constant_of(quantity.symbol)) return known->number;
  if (is_whole_fraction(quantity) || is_density_of_water(quantity)) return Rational(1);
  return std::nullopt;
}

bool Network::is_density_of_water(Quantity const& quantity) const {
  return dense_as_water_ && quantity == Quantity{"rho", 0, "solution", "", ""};
}

bool Network::is_whole_fraction(Quantity const& quantity) const {
  return quantity.symbol == "w" && quantity.substance == whole_ && contains(formula_parts_, "H2O");
}

Measured const* Network::course_value(Quantity const& quantity) const {
  return molar_volume_of_course_ && quantity.symbol == "Vm" ? &*molar_volume_of_course_ : nullptr;
}

Instance const* Network::limiting_choice() const {
  auto const found =
      std::find_if(instances_.begin(), instances_.end(), [](Instance const& i) { return i.kind == Instance::Kind::pick; });
  return found == instances_.end() ? nullptr : &*found;
}

std::size_t Network::reaction_of(std::string const& substance) const {
  for (std::size_t r = 0; r < problem_.reactions.size(); ++r)
    if (contains(species_[r].all(), substance)) return r;
  return std::string::npos;
}

bool Network::is_reactant(std::size_t reaction, std::string_view substance) const {
  return contains(species_[reaction].reactants(), substance);
}

Network::Derivation Network::derive(std::vector<int> const& banned, std::vector<int> const& free) const {
  Derivation derivation;
  derivation.cost.assign(variables_.size(), -1);
  derivation.via.assign(variables_.size(), -1);
  for (std::size_t v = 0; v < variables_.size(); ++v)
    if (variables_[v].given >= 0 || variables_[v].table) derivation.cost[v] = 0;
  for (int v : free) derivation.cost[static_cast<std::size_t>(v)] = 0;
  auto const cost_of = [&](int variable) -> int& { return derivation.cost[static_cast<std::size_t>(variable)]; };
  for (bool better = true; better;) {
    better = false;
    for (std::size_t i = 0; i < instances_.size(); ++i) {
      auto const& instance = instances_[i];
      // With two unknowns it settles nothing, with one that one alone: most instances are done with here.
      int unknown = -1;
      bool const settles = std::all_of(instance.terms.begin(), instance.terms.end(), [&](InstanceTerm const& term) {
        if (cost_of(term.variable) >= 0 || term.variable == unknown) return true;
        return std::exchange(unknown, term.variable) < 0;
      });
      if (!settles || std::find(banned.begin(), banned.end(), static_cast<int>(i)) != banned.end()) continue;
      for (int target : instance.targets) {
        auto& cost = cost_of(target);
        if (unknown >= 0 ? target != unknown : cost <= instance.cost) continue;
        int total = instance.cost;
        for (auto const& term : instance.terms)
          if (term.variable != target) total += cost_of(term.variable);
        if (cost >= 0 && total >= cost) continue;
        cost = total;
        derivation.via[static_cast<std::size_t>(target)] = static_cast<int>(i);
        better = true;
        unknown = -1;
      }
    }
  }
  return derivation;
}

}  // namespace molewright
