#include "engine/network.h"

#include <algorithm>
#include <set>

#include "engine/relation.h"
#include "engine/working.h"

namespace molewright {
namespace {

/// Quantities that belong to a solution or a portion of a substance, so that a substance left out can be filled in.
bool of_a_substance(std::string const& symbol) {
  return symbol == "n" || symbol == "m" || symbol == "c" || symbol == "V" || symbol == "gamma" || symbol == "N" || symbol == "M";
}

std::vector<std::string> species_of(Equation const& equation) {
  std::vector<std::string> out;
  for (auto const* side : {&equation.left, &equation.right})
    for (auto const& species : *side) out.push_back(plain(species.formula));
  return out;
}

bool contains(std::vector<std::string> const& list, std::string const& item) {
  return std::find(list.begin(), list.end(), item) != list.end();
}

template <class Visit>
void each_quantity(Problem& problem, Visit visit) {
  for (auto& given : problem.givens) visit(given.quantity);
  for (auto& find : problem.finds)
    if (find.kind == Find::Kind::number) visit(find.quantity);
}
}  // namespace

Network::Network(Problem const& problem) : problem_(problem) {
  resolve_substances();

  std::set<int> stages;
  each_quantity(problem_, [&](Quantity const& q) {
    if (q.stage > 0 && (q.symbol == "c" || q.symbol == "V" || q.symbol == "gamma")) {
      stages.insert(q.stage);
      if (!contains(staged_, q.substance)) staged_.push_back(q.substance);
    }
  });
  if (problem_.handlings.empty() && stages.count(1) && stages.count(2))
    problem_.handlings.push_back({Handling::Kind::dilute, {1}, 2, {}});

  // Every substance at every stage and under every word that the problem speaks of.
  std::set<Quantity> subjects;
  auto const subject = [&](Quantity const& q) {
    if (of_a_substance(q.symbol) && q.word != "added" && q.word != "taken") {
      auto const c = canonical(q);
      subjects.insert({"", c.substance.empty() && c.stage == 0 ? 0 : c.stage, c.substance, c.word, ""});
    }
  };
  each_quantity(problem_, subject);
  for (auto const& reaction : problem_.reactions)
    for (auto const& species : species_of(reaction.equation)) subjects.insert({"", 0, species, "", ""});
  for (auto const& handling : problem_.handlings)
    for (auto const& substance : staged_) {
      subjects.insert({"", handling.to, substance, "", ""});
      for (int from : handling.from) subjects.insert({"", from, substance, "", ""});
    }
  each_quantity(problem_, [&](Quantity const& q) {
    if (q.symbol == "yield")
      for (char const* word : {"", "actual"}) subjects.insert({"", 0, q.substance, word, ""});
  });
  for (auto const& q : subjects) add_subject(q.substance, q.stage, q.word);
  auto const dilutions = std::count_if(problem_.handlings.begin(), problem_.handlings.end(),
                                       [](Handling const& h) { return h.kind == Handling::Kind::dilute; });
  for (auto const& handling : problem_.handlings) add_handling(handling, dilutions == 1);
  add_hydrates();
  add_yields();

  each_quantity(problem_, [&](Quantity const& q) { add(canonical(q)); });
  for (std::size_t i = 0; i < problem_.givens.size(); ++i)
    variables_[static_cast<std::size_t>(add(canonical(problem_.givens[i].quantity)))].given = static_cast<int>(i);
  limiting_.resize(problem_.reactions.size());
  reaction_added_.assign(problem_.reactions.size(), false);
}

void Network::resolve_substances() {
  std::set<std::string> named;
  each_quantity(problem_, [&](Quantity const& q) {
    if (!q.substance.empty() && of_a_substance(q.symbol) && q.word != "added") named.insert(q.substance);
  });
  std::set<std::string> actual;
  each_quantity(problem_, [&](Quantity const& q) {
    if (q.word == "actual" || q.word == "theoretical") actual.insert(q.substance);
  });
  std::set<std::string> numbered;  // V2 is of the substance that has a c1, though a hydrate is weighed as well
  each_quantity(problem_, [&](Quantity const& q) {
    if (q.stage > 0 && !q.substance.empty() && q.word != "added") numbered.insert(q.substance);
  });
  each_quantity(problem_, [&](Quantity& q) {
    if (!q.substance.empty()) return;
    if (q.stage > 0 && numbered.size() == 1) {
      q.substance = *numbered.begin();
      return;
    }
    if (of_a_substance(q.symbol) && named.size() == 1) q.substance = *named.begin();
    if (q.symbol == "yield" && actual.size() == 1) q.substance = *actual.begin();
  });
}

Quantity Network::canonical(Quantity quantity) const {
  if (quantity.word == "theoretical") quantity.word.clear();
  // What is weighed for a stock is in the stock: m(KOH) beside c1(KOH) is m1(KOH).
  bool const portion = quantity.symbol == "n" || quantity.symbol == "m" || quantity.symbol == "N";
  if (portion && quantity.stage == 0 && quantity.word.empty() && contains(staged_, quantity.substance) &&
      reaction_of(quantity.substance) == std::string::npos)
    quantity.stage = 1;
  if (quantity.symbol == "M" || quantity.symbol == "N_A") {
    quantity.stage = 0;
    quantity.word.clear();
  }
  return quantity;
}

int Network::find(Quantity const& canonical) const {
  auto const found = index_.find(canonical);
  return found == index_.end() ? -1 : found->second;
}

int Network::add(Quantity const& quantity) {
  auto const [at, fresh] = index_.try_emplace(quantity, static_cast<int>(variables_.size()));
  if (fresh) {
    Variable variable{quantity, -1, false};
    if (quantity.symbol == "N_A" || quantity.symbol == "nu") variable.table = true;
    if (quantity.symbol == "M") variable.table = ok(parse_formula(quantity.substance));
    variables_.push_back(variable);
  }
  return at->second;
}

void Network::add_product(std::string relation, std::vector<std::pair<int, int>> terms, int cost, bool same_units,
                          Rational factor) {
  Instance instance;
  instance.relation = std::move(relation);
  instance.terms = std::move(terms);
  instance.factor = std::move(factor);
  instance.cost = cost;
  instance.same_units = same_units;
  for (auto const& [variable, weight] : instance.terms)
    if (!variables_[static_cast<std::size_t>(variable)].table) instance.targets.push_back(variable);
  instances_.push_back(std::move(instance));
}

void Network::add_sum(std::string relation, std::vector<std::pair<int, int>> terms, int cost) {
  Instance instance;
  instance.kind = Instance::Kind::sum;
  instance.relation = std::move(relation);
  instance.terms = std::move(terms);
  instance.cost = cost;
  instance.same_units = true;
  for (auto const& [variable, weight] : instance.terms) instance.targets.push_back(variable);
  instances_.push_back(std::move(instance));
}

void Network::add_subject(std::string const& substance, int stage, std::string const& word) {
  bool const has_molar_mass = ok(parse_formula(substance)) || substance == "X" || substance == "Z";
  for (auto const& relation : relations_of_a_substance()) {
    std::vector<std::pair<int, int>> terms;
    bool fits = true;
    for (auto const& term : relation.terms) {
      Quantity quantity{std::string(term.symbol), stage, substance, word, ""};
      if (term.symbol == "M") {
        quantity = {"M", 0, substance, "", ""};
        fits = fits && has_molar_mass;
      }
      if (term.symbol == "N_A") quantity = {"N_A", 0, "", "", ""};
      // What reacted, was left or was got is weighed or counted; it has no solution of its own here.
      if (!word.empty() && (term.symbol == "c" || term.symbol == "V" || term.symbol == "gamma")) fits = false;
      if (fits) terms.push_back({add(quantity), term.exponent});
    }
    if (fits) add_product(std::string(relation.form), terms, relation.cost);
  }
}

bool Network::is_named(Quantity const& quantity) const {
  return std::any_of(problem_.givens.begin(), problem_.givens.end(), [&](Given const& g) { return g.quantity == quantity; }) ||
         std::any_of(problem_.finds.begin(), problem_.finds.end(), [&](Find const& f) { return f.quantity == quantity; });
}

Quantity Network::taken(std::string const& substance, int stage) const {
  Quantity const with_word{"V", stage, substance, "taken", ""};
  return is_named(with_word) ? with_word : Quantity{"V", stage, substance, "", ""};
}

void Network::add_handling(Handling const& handling, bool only_dilution) {
  for (auto const& substance : staged_) {
    int const to = handling.to;
    auto const q = [&](char const* symbol, int stage) { return add({symbol, stage, substance, "", ""}); };
    if (handling.kind == Handling::Kind::dilute) {
      int const from = handling.from.front();
      int const volume = add(taken(substance, from));
      add_product(dilution_form, {{q("c", from), 1}, {volume, 1}, {q("V", to), -1}, {q("c", to), -1}}, 10, true);
      add_product(mass_dilution_form, {{q("gamma", from), 1}, {volume, 1}, {q("V", to), -1}, {q("gamma", to), -1}}, 11, true);
      add_product("n = cV", {{q("n", to), 1}, {q("c", from), -1}, {volume, -1}}, 10);
      // The water added: V(H2O, added) where there is one dilution, V3(H2O, added) for the one that makes solution 3.
      Quantity const water{"V", only_dilution ? 0 : to, "H2O", "added", ""};
      if (is_named(water)) add_sum(added_volume_form, {{q("V", to), -1}, {volume, 1}, {add(water), 1}}, 10);
    } else {
      std::vector<std::pair<int, int>> volumes{{q("V", to), -1}}, amounts{{q("n", to), -1}};
      for (int from : handling.from) {
        volumes.push_back({q("V", from), 1});
        amounts.push_back({q("n", from), 1});
      }
      add_sum(mixed_volume_form, volumes, 10);
      add_sum(mixed_amount_form, amounts, 10);
    }
  }
}

void Network::add_hydrates() {
  // A hydrate dissolves to the salt: one formula unit of CuSO4·5H2O brings one CuSO4.
  auto const known = variables_;
  for (auto const& variable : known) {
    auto const& q = variable.quantity;
    if (q.symbol != "n" || !q.word.empty()) continue;
    auto const formula = parse_formula(q.substance);
    if (!ok(formula) || !value(formula).hydrate()) continue;
    auto const salt = plain(anhydrous(value(formula)));
    for (int stage : {q.stage, 1}) {
      Quantity const dissolved{"n", stage, salt, "", ""};
      if (find(dissolved) < 0) continue;
      add_product(hydrate_form, {{index_.at(q), 1}, {find(dissolved), -1}}, 5);
      break;
    }
  }
}

void Network::add_yields() {
  auto const known = variables_;
  for (auto const& variable : known) {
    auto const& q = variable.quantity;
    if (q.word != "actual" || q.symbol != "m") continue;
    int const yield = add({"yield", 0, q.substance, "", ""});
    for (char const* symbol : {"m", "n"})
      add_product(yield_form,
                  {{yield, 1}, {add({symbol, 0, q.substance, "actual", ""}), -1}, {add({symbol, 0, q.substance, "", ""}), 1}}, 10,
                  false, Rational(100));
  }
}

Instance const* Network::limiting_choice() const {
  auto const found =
      std::find_if(instances_.begin(), instances_.end(), [](Instance const& i) { return i.kind == Instance::Kind::pick; });
  return found == instances_.end() ? nullptr : &*found;
}

std::size_t Network::reaction_of(std::string const& substance) const {
  for (std::size_t r = 0; r < problem_.reactions.size(); ++r)
    if (contains(species_of(problem_.reactions[r].equation), substance)) return r;
  return std::string::npos;
}

int Network::coefficient(std::size_t reaction, std::string const& substance) {
  return add({"nu", reaction == 0 ? 0 : static_cast<int>(reaction) + 1, substance, "", ""});
}

void Network::add_reactions() {
  // A reaction whose known species come from another one waits for it.
  for (bool progress = true; progress;) {
    progress = false;
    for (std::size_t r = 0; r < problem_.reactions.size(); ++r)
      if (!reaction_added_[r] && add_reaction(r)) progress = reaction_added_[r] = true;
  }
}

bool Network::add_reaction(std::size_t reaction) {
  auto const& equation = problem_.reactions[reaction].equation;
  auto const derivation = derive();
  auto const amount = [&](std::string const& substance) { return add({"n", 0, substance, "", ""}); };
  std::vector<std::string> reactants, products;
  for (auto const& species : equation.left) {
    auto const substance = plain(species.formula);
    if (derivation.known(amount(substance)) && !contains(problem_.excess, substance) && !contains(reactants, substance))
      reactants.push_back(substance);
  }
  for (auto const& species : equation.right) {
    auto const substance = plain(species.formula);
    if (derivation.known(amount(substance)) && !contains(products, substance)) products.push_back(substance);
  }
  auto const species = species_of(equation);
  for (auto const& substance : species) coefficient(reaction, substance);

  for (auto const& reactant : equation.left) {  // what is left of a reactant: what was there less what was used
    auto const substance = plain(reactant.formula);
    int const used = add({"n", 0, substance, "used", ""});
    int const left = add({"n", 0, substance, "left", ""});
    for (char const* word : {"used", "left"}) add_subject(substance, 0, word);
    add_sum(left_form, {{left, -1}, {amount(substance), 1}, {used, -1}}, 10);
    instances_.back().targets = {left};
  }
  if (reactants.size() >= 2) {
    add_limited(reaction, reactants);
    return true;
  }
  std::string const source = !reactants.empty() ? reactants.front() : !products.empty() ? products.front() : "";
  if (source.empty()) return false;
  auto const ratio = [&](int target, std::string const& substance) {
    Instance instance;
    instance.relation = relations::mole_ratio;
    instance.terms = {
        {target, -1}, {amount(source), 1}, {coefficient(reaction, substance), 1}, {coefficient(reaction, source), -1}};
    instance.targets = {target};
    instance.reaction = reaction;
    instances_.push_back(std::move(instance));
  };
  for (auto const& substance : species) {
    if (substance == source) continue;
    bool const in_excess = contains(problem_.excess, substance) && derivation.known(amount(substance));
    if (!in_excess) ratio(amount(substance), substance);
    Quantity const used{"n", 0, substance, "used", ""};
    if (find(used) >= 0) ratio(find(used), substance);
  }
  return true;
}

void Network::add_limited(std::size_t reaction, std::vector<std::string> const& limiting) {
  limiting_[reaction] = limiting;
  auto const amount = [&](std::string const& substance) { return add({"n", 0, substance, "", ""}); };
  auto const pick = [&](int target) {
    Instance instance;
    instance.kind = Instance::Kind::pick;
    instance.relation = relations::from_limiting;
    instance.terms.push_back({target, 1});
    for (auto const& reactant : limiting) instance.terms.push_back({amount(reactant), 1});
    instance.targets = {target};
    instance.cost = 20;
    instance.reaction = reaction;
    instances_.push_back(std::move(instance));
  };
  auto const& equation = problem_.reactions[reaction].equation;
  for (auto const& species : species_of(equation)) {
    if (!contains(limiting, species)) pick(amount(species));
    int const used = find({"n", 0, species, "used", ""});
    if (used >= 0) pick(used);
  }
}

void Network::add_mass_ratios() {
  auto const known = instances_;
  for (auto const& instance : known) {
    if (instance.relation != relations::mole_ratio) continue;
    auto const quantity = [&](std::size_t term) {
      return variables_[static_cast<std::size_t>(instance.terms[term].first)].quantity;
    };
    auto const target = quantity(0);
    auto const source = quantity(1);
    if (!target.word.empty()) continue;
    auto const mass = [&](std::string const& substance) { return add({"m", 0, substance, "", ""}); };
    auto const molar = [&](std::string const& substance) { return add({"M", 0, substance, "", ""}); };
    Instance by_mass = instance;
    by_mass.relation = mass_ratio_form;
    by_mass.terms = {{mass(target.substance), -1}, {mass(source.substance), 1}, instance.terms[2],
                     {molar(target.substance), 1}, instance.terms[3],           {molar(source.substance), -1}};
    by_mass.targets = {mass(target.substance)};
    instances_.push_back(std::move(by_mass));
  }
}

Network::Derivation Network::derive(std::vector<int> const& banned, std::vector<int> const& free) const {
  Derivation derivation;
  derivation.cost.assign(variables_.size(), -1);
  derivation.via.assign(variables_.size(), -1);
  for (std::size_t v = 0; v < variables_.size(); ++v)
    if (variables_[v].given >= 0 || variables_[v].table) derivation.cost[v] = 0;
  for (int v : free) derivation.cost[static_cast<std::size_t>(v)] = 0;
  std::vector<bool> is_banned(instances_.size(), false);
  for (int i : banned) is_banned[static_cast<std::size_t>(i)] = true;
  for (bool better = true; better;) {
    better = false;
    for (std::size_t i = 0; i < instances_.size(); ++i) {
      if (is_banned[i]) continue;
      auto const& instance = instances_[i];
      for (int target : instance.targets) {
        auto& cost = derivation.cost[static_cast<std::size_t>(target)];
        if (cost == 0) continue;
        int total = instance.cost;
        for (auto const& [variable, weight] : instance.terms) {
          if (variable == target) continue;
          int const c = derivation.cost[static_cast<std::size_t>(variable)];
          if (c < 0) total = -1;
          if (total < 0) break;
          total += c;
        }
        if (total >= 0 && (cost < 0 || total < cost)) {
          cost = total;
          derivation.via[static_cast<std::size_t>(target)] = static_cast<int>(i);
          better = true;
        }
      }
    }
  }
  return derivation;
}

}  // namespace molewright
