// The relations of reactions: one known species, or the limiting one, settles the others; yields; what is left.
#include <algorithm>

#include "engine/formula_index.h"
#include "engine/formula_memo.h"
#include "engine/lists.h"
#include "engine/network.h"
#include "engine/working.h"

namespace molewright {

void Network::add_hydrates() {
  // A hydrate dissolves to the salt: one formula unit of CuSO4·5H2O brings one CuSO4.
  for (std::size_t v = 0; v < variables_.size(); ++v) {
    auto const& q = variables_[v].quantity;
    if (q.symbol != "n" || !q.word.empty()) continue;
    auto const salt = salt_of_crystals(q.substance);
    if (salt.empty() || reaction_of(q.substance) != std::string::npos) continue;
    bool const in_flask = contains(staged_, salt);  // what is weighed goes into solution 1
    for (int stage : {in_flask ? 1 : q.stage, in_flask ? q.stage : 1}) {
      Quantity const dissolved{"n", stage, salt, "", ""};
      if (find(dissolved) < 0) continue;
      add_product("n(hydrate) = n(salt)", {{static_cast<int>(v), 1}, {find(dissolved), -1}}, 5);
      break;
    }
  }
}

void Network::add_yields() {
  std::set<std::string> done;
  auto const known = variables_.size();
  for (std::size_t v = 0; v < known; ++v) {
    auto const& q = variables_[v].quantity;
    if (q.word != "actual" || (q.symbol != "m" && q.symbol != "n" && q.symbol != "V")) continue;
    auto const substance = q.substance;
    if (!done.insert(substance).second) continue;
    int const yield = add({"yield", 0, substance, "", ""});
    for (Symbol symbol : {"m", "n"})
      add_product("yield = actual/theoretical",
                  {{yield, 1}, {add({symbol, 0, substance, "actual", ""}), -1}, {add({symbol, 0, substance, "", ""}), 1}}, 10,
                  false, Rational(100));
  }
  // The yields of steps that follow each other: yield1, yield2 ...; each is a percentage.
  std::vector<InstanceTerm> steps;
  std::set<int> stages;
  for (auto const& given : problem_.givens)
    if (given.quantity.symbol == "yield" && given.quantity.stage > 0) stages.insert(given.quantity.stage);
  for (auto const& find : problem_.finds)
    if (find.quantity.symbol == "yield" && find.quantity.stage > 0) stages.insert(find.quantity.stage);
  if (stages.size() < 2) return;
  for (int stage : stages) steps.push_back({add("yield", "", stage), -1});
  steps.push_back({add("yield", ""), 1});
  add_product("overall yield = product of yields", steps, 10, false, Rational(100).power(1 - static_cast<int>(stages.size())));
}

int Network::coefficient(std::size_t reaction, std::string const& substance) {
  return add({"nu", reaction == 0 ? 0 : static_cast<int>(reaction) + 1, substance, "", ""});
}

std::string Network::ion_used_of(std::size_t reaction, std::string const& substance) const {
  if (contains(species_[reaction].all(), substance)) return {};
  for (auto const& species : problem_.reactions[reaction].equation.left)
    if (auto const ion = plain(species.formula); species.formula.charge != 0 && count_in(ion, substance) > 0) return ion;
  return {};
}

/// Whether what is left of a reactant goes on to react in a later reaction: a back titration. Of an ion, the salt that brings it
/// may be what is measured.
bool Network::goes_on(std::size_t reaction, std::string const& substance) const {
  for (std::size_t r = reaction + 1; r < problem_.reactions.size(); ++r)
    if (is_reactant(r, substance) && (is_reactant(reaction, substance) || !ion_used_of(reaction, substance).empty()))
      return std::any_of(problem_.givens.begin(), problem_.givens.end(), [&](Given const& g) {
        auto const& q = g.quantity;
        bool const salt =
            is_ion(substance) && reaction_of(q.substance) == std::string::npos && count_in(substance, q.substance) > 0;
        return (q.substance == substance || salt) && (q.symbol == "c" || q.symbol == "m" || q.symbol == "n" || q.symbol == "V");
      });
  return false;
}

/// Whether the water of the problem is that of the hydrate whose formula is asked.
bool Network::is_crystal_water(std::string const& substance) const {
  return substance == "H2O" && contains(formula_parts_, substance);
}

/// Whether what a reaction forms goes, by way of those between, into a later one.
bool Network::leads_to(std::size_t reaction, std::size_t later) const {
  for (std::size_t next = reaction + 1; next <= later; ++next)
    for (auto const& product : species_[reaction].products())
      if (is_reactant(next, product) && (next == later || leads_to(next, later))) return true;
  return false;
}

/// Whether a product is one that an earlier reaction of the same chain uses: iodide set free again, nitrogen monoxide led back.
/// What comes back is not what the chain began with.
bool Network::comes_back(std::size_t reaction, std::string const& substance) const {
  if (is_reactant(reaction, substance)) return false;
  for (std::size_t r = 0; r < reaction; ++r)
    if (is_reactant(r, substance) && leads_to(r, reaction)) return true;
  return false;
}

bool Network::is_left_by_earlier(std::size_t reaction, std::string const& substance) const {
  for (std::size_t r = 0; r < reaction; ++r)
    if (is_reactant(reaction, substance) && goes_on(r, substance)) return true;
  return false;
}

/// Whether another reaction has the substance on the same side: water from two neutralisations. Neither alone settles its amount.
bool Network::is_shared(std::size_t reaction, std::string const& substance) const {
  bool const left = is_reactant(reaction, substance);
  for (std::size_t r = 0; r < problem_.reactions.size(); ++r) {
    if (r == reaction || !contains(species_[r].all(), substance)) continue;
    if (!left && comes_back(r, substance)) continue;
    if (is_reactant(r, substance) == left) return !(left && (goes_on(reaction, substance) || goes_on(r, substance)));
  }
  return false;
}

/// The portion of a substance that takes part in a reaction.
Quantity Network::amount_in(std::size_t reaction, std::string const& substance) const {
  // What a back titration takes of the excess is an aliquot of what the first reaction left.
  if (auto const aliquot = aliquot_of(substance); aliquot && !goes_on(reaction, substance))
    return {"n", aliquot->stage, substance, "aliquot", ""};
  if (is_left_by_earlier(reaction, substance)) return {"n", 0, substance, "left", ""};
  // A back titration whose excess is written as solution 1, and what it left, made up to the mark, as solution 2.
  if (goes_on(reaction, substance) && contains(staged_, substance) && problem_.handlings.empty())
    return canonical({"n", 0, substance, "", ""});
  // What a step has really yielded goes on to the next one.
  bool const yielded = is_reactant(reaction, substance) && speaks_of("yield", substance) && reaction_of(substance) != reaction;
  return {"n", 0, substance, yielded ? "actual" : "", ""};
}

/// A salt that dissolves to its ions is no reaction with a limiting reagent: its solubility product settles it.
bool Network::is_dissolving(std::size_t reaction) const {
  auto const reactants = species_[reaction].reactants();
  return reactants.size() == 1 && contains(solids_, reactants.front());
}

/// Whether anything may be learnt from what is used and what is left of the reactants: it is spoken of, goes on to a later
/// reaction, settles an acidity, or is what a heat is stated of.
bool Network::rests_count() const {
  auto const of_rest = [](Quantity const& q) { return q.word == "left" || q.word == "used"; };
  if (asks_acidity() || speaks_of("q") || speaks_of("dH") ||
      std::any_of(problem_.givens.begin(), problem_.givens.end(), [&](Given const& g) { return of_rest(g.quantity); }) ||
      std::any_of(problem_.finds.begin(), problem_.finds.end(), [&](Find const& f) { return of_rest(f.quantity); }))
    return true;
  for (std::size_t r = 0; r + 1 < problem_.reactions.size(); ++r) {
    if (std::any_of(substances_.begin(), substances_.end(), [&](std::string const& s) { return goes_on(r, s); })) return true;
  }
  return false;
}

void Network::add_reactions() {
  add_mixture();
  bool const rests = rests_count();
  for (std::size_t r = 0; r < problem_.reactions.size(); ++r) {
    bool const nothing_happens = problem_.reactions[r].equation.right.empty();
    reaction_added_[r] = nothing_happens || is_dissolving(r);
    if (!reaction_added_[r]) add_leftovers(r, rests);
  }
  // A reaction whose known species come from another one waits for it.
  for (bool progress = true; progress;) {
    progress = false;
    for (std::size_t r = 0; r < problem_.reactions.size(); ++r)
      if (!reaction_added_[r] && add_reaction(r)) progress = reaction_added_[r] = true;
  }
  add_totals();
  for (std::size_t r = 0; r < problem_.reactions.size(); ++r)
    if (!problem_.reactions[r].equation.right.empty()) add_gas_ratios(r);
}

/// What is left of a reactant: what was there less what was used. Where that does not count, an excess is still to be one.
void Network::add_leftovers(std::size_t reaction, bool rests_count) {
  for (auto const& substance : substances_) {  // whose ion alone the equation shows
    auto const ion = ion_used_of(reaction, substance);
    if (ion.empty() || !goes_on(reaction, substance)) continue;
    int const used = add({"n", 0, substance, "used", ""}), left = add({"n", 0, substance, "left", ""});
    for (char const* word : {"used", "left"}) add_subject(substance, 0, word);
    add_sum("n(left) = n - n(used)", {{left, -1}, {add("n", substance), 1}, {used, -1}});
    add_product("n(part) = nu n(whole)", {{add("n", ion), 1}, {count_of(ion, substance), -1}, {used, -1}});
  }
  for (auto const& substance : species_[reaction].reactants()) {
    if (is_left_by_earlier(reaction, substance)) continue;  // it is what an earlier reaction left, and this one uses all of it
    if (!rests_count && !contains(problem_.excess, substance)) continue;
    int const used = add({"n", 0, substance, "used", ""});
    if (!rests_count) continue;
    int const left = add({"n", 0, substance, "left", ""});
    for (char const* word : {"used", "left"}) add_subject(substance, 0, word);
    add_sum("n(left) = n - n(used)", {{left, -1}, {add(amount_in(reaction, substance)), 1}, {used, -1}});
    instances_.back().targets = {left};
    if (goes_on(reaction, substance)) instances_.back().targets.push_back(used);
  }
}

bool Network::is_asked(char const* word, std::string const& substance) const {
  return std::any_of(problem_.finds.begin(), problem_.finds.end(), [&](Find const& f) {
    return f.kind == Find::Kind::number && f.quantity.word == word && f.quantity.substance == substance;
  });
}

bool Network::add_reaction(std::size_t reaction) {
  auto const derivation = derive();
  auto const amount = [&](std::string const& substance) { return add(amount_in(reaction, substance)); };
  // What can be the source of a reactant: all of it, or what was used of it where the rest goes on to another reaction.
  auto const source_of = [&](std::string const& substance) {
    return goes_on(reaction, substance) ? add({"n", 0, substance, "used", ""}) : amount(substance);
  };
  auto const known = [&](int variable) {
    return static_cast<std::size_t>(variable) < derivation.cost.size() && derivation.known(variable);
  };
  std::vector<std::string> reactants, products;
  for (auto const& substance : species_[reaction].reactants()) {
    bool const counts = !contains(problem_.excess, substance) || goes_on(reaction, substance);
    if (known(source_of(substance)) && counts && !contains(reactants, substance)) reactants.push_back(substance);
  }
  // Water that an earlier reaction made is there in plenty. Of what else earlier reactions made, the last link of the chain
  // counts; a by-product of an older one is taken to be there in plenty.
  std::size_t last = 0;
  std::vector<std::string> in_plenty;
  for (auto const& substance : reactants)
    if (auto const made = made_by_.find(substance); made != made_by_.end()) last = std::max(last, made->second);
  for (auto const& substance : reactants) {
    auto const made = made_by_.find(substance);
    bool const crystallises = substance == "H2O" && reactants.size() > 1;  // from it
    if (made != made_by_.end() && (made->second < last || crystallises)) in_plenty.push_back(substance);
  }
  std::erase_if(reactants, [&](std::string const& substance) { return contains(in_plenty, substance); });
  for (auto const& substance : species_[reaction].products()) {
    bool const own = !comes_back(reaction, substance) && !is_crystal_water(substance);
    if (known(amount(substance)) && own && !contains(products, substance)) products.push_back(substance);
  }
  auto const species = species_[reaction].all();
  for (auto const& substance : species) coefficient(reaction, substance);
  // Where it is asked what is left of the one reactant that was measured, a product that was measured tells how far it went.
  if (reactants.size() == 1 && !products.empty() && !goes_on(reaction, reactants[0]))
    if (auto const& only = reactants[0]; is_asked("left", only) || is_asked("used", only)) {
      from_product_.insert(only);
      reactants.clear();
    }
  if (reactants.size() >= 2) {
    add_limited(reaction, reactants);
    return true;
  }
  std::string const source = !reactants.empty() ? reactants.front() : !products.empty() ? products.front() : "";
  if (source.empty()) return false;
  int const from = is_reactant(reaction, source) ? source_of(source) : amount(source);
  add_reaction_enthalpy(reaction, source, from);
  auto const ratio = [&](int target, std::string const& substance) {
    Instance instance;
    instance.relation = RelationForm(relations::mole_ratio).text();
    instance.terms = {{target, -1}, {from, 1}, {coefficient(reaction, substance), 1}, {coefficient(reaction, source), -1}};
    instance.targets = {target};
    instance.reaction = reaction;
    instances_.push_back(std::move(instance));
  };
  for (auto const& substance : species) {
    if (substance == source) continue;
    if (comes_back(reaction, substance) || contains(in_plenty, substance)) continue;
    if (is_shared(reaction, substance)) {
      ratio(add(share_in(reaction, substance)), substance);
      continue;
    }
    if (is_crystal_water(substance)) continue;  // the water of a hydrate is not that of the reaction
    if (!is_reactant(reaction, substance)) made_by_.emplace(substance, reaction + 1);
    bool const in_excess =
        (contains(problem_.excess, substance) || from_product_.count(substance) == 1) && known(amount(substance));
    if (!in_excess && !goes_on(reaction, substance)) ratio(amount(substance), substance);
    int const used = find({"n", 0, substance, "used", ""});
    bool const of_this = is_reactant(reaction, substance) && !is_left_by_earlier(reaction, substance);
    if (used >= 0 && of_this) ratio(used, substance);
  }
  return true;
}

void Network::add_limited(std::size_t reaction, std::vector<std::string> const& limiting) {
  limiting_[reaction] = limiting;
  // Gases at one temperature and pressure: their volumes are as their amounts (Avogadro's law), and no molar volume is wanted.
  bool const by_volume = any_molar_volume_ && problem_.reactions.size() == 1 &&
                         std::all_of(limiting.begin(), limiting.end(), [&](auto const& gas) { return is_named("V", gas); });
  auto const amount = [&](std::string const& substance) {
    return by_volume ? add("V", substance) : add(amount_in(reaction, substance));
  };
  auto const pick = [&](int target) {
    Instance instance;
    instance.kind = Instance::Kind::pick;
    instance.relation = RelationForm(relations::from_limiting).text();
    instance.terms.push_back({target, 1});
    for (auto const& reactant : limiting) instance.terms.push_back({amount(reactant), 1});
    instance.targets = {target};
    instance.cost = 20;
    instance.reaction = reaction;
    instances_.push_back(std::move(instance));
  };
  for (auto const& species : species_[reaction].all()) {
    if (by_volume && !may_be_a_gas(species)) continue;
    if (!contains(limiting, species) && !comes_back(reaction, species) && !is_crystal_water(species)) {
      if (is_shared(reaction, species)) {  // it alone does not settle how much of it there is
        pick(add(share_in(reaction, species)));
        continue;
      }
      pick(amount(species));
      add_reaction_enthalpy(reaction, species, amount(species));
      if (!is_reactant(reaction, species)) made_by_.emplace(species, reaction + 1);
    }
    int const used = find({"n", 0, species, "used", ""});
    if (used < 0) continue;
    if (!by_volume) {
      pick(used);
      continue;
    }
    int const volume = add("V", species, 0, "used"), left = add("V", species, 0, "left");
    pick(volume);
    add_sum("V(left) = V - V(used)", {{left, -1}, {amount(species), 1}, {volume, -1}});
    instances_.back().targets = {left};
  }
}

/// What one of several reactions forms or uses of a substance that all of them form or use.
Quantity Network::share_in(std::size_t reaction, std::string const& substance) const {
  return {"n", 0, substance, "reaction " + std::to_string(reaction + 1), ""};
}

void Network::add_totals() {
  std::set<std::string> done;
  for (std::size_t r = 0; r < problem_.reactions.size(); ++r)
    for (auto const& substance : species_[r].all()) {
      if (!is_shared(r, substance) || !done.insert(substance).second) continue;
      std::vector<InstanceTerm> terms{{add("n", substance), -1}};
      for (std::size_t other = 0; other < problem_.reactions.size(); ++other)
        if (int const share = find(share_in(other, substance)); share >= 0) terms.push_back({share, 1});
      if (terms.size() < 3) continue;
      add_sum("n = sum over the reactions", terms);
      instances_.back().targets = {terms[0].variable};
    }
}

/// Gases at one temperature and pressure react in the ratio of their volumes, as of their amounts (Avogadro's law).
void Network::add_gas_ratios(std::size_t reaction) {
  if ((gases_ && !molar_volume_of_course_) || reaction_added_[reaction]) return;
  std::vector<Quantity> gases;
  for (auto const& substance : species_[reaction].all()) {
    bool const dissolved = speaks_of("c", substance) || speaks_of("gamma", substance) || speaks_of("rho", substance);
    for (char const* word : {"", "used"}) {
      Quantity const volume{"V", 0, substance, word, ""};
      if (is_named(volume) && !dissolved && std::find(gases.begin(), gases.end(), volume) == gases.end()) gases.push_back(volume);
    }
  }
  std::vector<std::string> substances;
  for (auto const& gas : gases) substances.push_back(gas.substance);
  if (!react_as_gases(substances)) return;
  for (std::size_t i = 1; i < gases.size(); ++i)
    add_product("gas volume ratio",
                {{add(gases[i]), -1},
                 {add(gases[0]), 1},
                 {coefficient(reaction, gases[i].substance), 1},
                 {coefficient(reaction, gases[0].substance), -1}},
                10, true);
}

void Network::add_mass_ratios() {
  auto const mass = [&](std::string const& substance) { return add({"m", 0, substance, "", ""}); };
  auto const molar = [&](std::string const& substance) { return add({"M", 0, substance, "", ""}); };
  auto const known = instances_.size();
  for (std::size_t i = 0; i < known; ++i) {
    if (instances_[i].relation != relations::mole_ratio) continue;
    auto const quantity = [&](std::size_t term) -> Quantity const& {
      return variables_[static_cast<std::size_t>(instances_[i].terms[term].variable)].quantity;
    };
    if (!quantity(0).word.empty() || !quantity(1).word.empty()) continue;
    auto const target = quantity(0).substance, source = quantity(1).substance;
    Instance by_mass = instances_[i];
    by_mass.relation = RelationForm("mass ratio").text();
    by_mass.terms = {{mass(target), -1}, {mass(source), 1}, by_mass.terms[2],
                     {molar(target), 1}, by_mass.terms[3],  {molar(source), -1}};
    by_mass.targets = {mass(target)};
    instances_.push_back(std::move(by_mass));
  }
}

bool Network::asks_acidity() const {
  return std::any_of(problem_.finds.begin(), problem_.finds.end(), [](Find const& f) {
    auto const& q = f.quantity;
    bool const ion = q.substance == "H^+" || q.substance == "H3O^+" || q.substance == "OH^-";
    return q.symbol == "pH" || q.symbol == "pOH" || ((q.symbol == "c" || q.symbol == "n") && ion && q.word.empty());
  });
}

std::optional<Network::AcidBase> Network::acid_and_base() const {
  if (!asks_acidity()) return std::nullopt;
  for (std::size_t r = 0; r < problem_.reactions.size(); ++r) {
    AcidBase found{r, "", ""};
    for (auto const& substance : species_[r].reactants()) {
      if (substance == hydron_ || count_in("H^+", substance) > 0) found.acid = substance;
      if (substance == "OH^-" || count_in("OH^-", substance) > 0) found.base = substance;
    }
    bool const both = contains(limiting_[r], found.acid) && contains(limiting_[r], found.base);
    if (both) return found;
  }
  return std::nullopt;
}

void Network::settle_acidity(std::string const& left) {
  auto const pair = acid_and_base();
  if (!pair) return;
  if (left.empty()) {
    for (auto const& [symbol, substance] : {std::pair<char const*, char const*>{"pH", ""}, {"pOH", ""}}) {
      Instance neutral;
      neutral.kind = Instance::Kind::constant;
      neutral.relation = RelationForm("pH of a neutral solution").text();
      neutral.factor = Rational(7);
      neutral.terms = {{add(symbol, substance), 1}};
      // It holds for these amounts alone, so it is said from them.
      for (auto const& used_up : {pair->acid, pair->base}) neutral.terms.push_back({add("n", used_up), 0});
      neutral.reaction = pair->reaction;
      neutral.targets = {neutral.terms[0].variable};
      instances_.push_back(std::move(neutral));
    }
    return;
  }
  if (left == hydron_ || left == "OH^-") {
    // Its own concentration settles it; that of the ion which is used up follows from the water's ions and not from nothing left.
    std::string const& gone = left == hydron_ ? pair->base : pair->acid;
    int const amount = find({"n", 0, gone, "left", ""}), concentration = find({"c", 0, gone, "left", ""});
    for (auto& instance : instances_) {
      auto const has = [&](int v) {
        return std::any_of(instance.terms.begin(), instance.terms.end(), [&](auto const& term) { return term.variable == v; });
      };
      if (has(amount) && has(concentration)) instance.targets.clear();
    }
    return;
  }
  std::string const ion = count_in("H^+", left) > 0 ? hydron_ : "OH^-";
  add_product("c(ion) = nu c(salt)", {{add("c", ion), 1}, {count_of(ion, left), -1}, {add("c", left, 0, "left"), -1}});
}

}  // namespace molewright
