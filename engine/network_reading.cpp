// What a problem leaves unsaid: which substance is meant where none is named, what a plain word stands for.
#include <algorithm>

#include "engine/formula_memo.h"
#include "engine/lists.h"
#include "engine/network.h"
#include "engine/nomenclature.h"

namespace molewright {
namespace {

/// Whether a mass fraction is stated or asked in parts per million or billion.
bool is_in_traces(Problem const& problem) {
  auto const small = [](Unit const& unit) { return unit.symbol == "ppm" || unit.symbol == "ppb"; };
  return std::any_of(problem.givens.begin(), problem.givens.end(),
                     [&](Given const& g) { return g.quantity.symbol == "w" && small(g.unit); }) ||
         std::any_of(problem.finds.begin(), problem.finds.end(),
                     [&](Find const& f) { return f.quantity.symbol == "w" && f.unit && small(*f.unit); });
}

bool any_given(Problem const& problem, Symbol symbol, std::string const& substance) {
  return std::any_of(problem.givens.begin(), problem.givens.end(), [&](Given const& g) {
    return g.quantity.symbol == symbol && g.quantity.substance == substance && g.quantity.part.empty();
  });
}
}  // namespace

void Network::resolve_substances() {
  resolve_flask_words();
  resolve_unknown_water();
  resolve_weighings();
  resolve_diluted_sample();
  resolve_excess_made_up();
  resolve_unknown();
  resolve_unknown_reactant();
  resolve_idle_numbers();
  resolve_words();
  resolve_oxides();
  take_density_of_water();
  resolve_made_up();
  resolve_solutes();
  resolve_named_solution();
  resolve_vessel();
  resolve_elements();
  resolve_aliquot();
  resolve_left_out();
  resolve_impure();
  resolve_heat();
  resolve_yields();
  resolve_ions_left();
}

/// So little in so much water leaves its density what it is: 1 g/mL, where the problem speaks of a volume and of no density.
void Network::take_density_of_water() {
  if (!is_in_traces(problem_) || !problem_.reactions.empty() || speaks_of("rho") || speaks_of("p") || speaks_of("T")) return;
  bool by_volume = false, weighed = false;
  each_quantity(problem_, [&](Quantity const& q) {
    by_volume = by_volume || q.symbol == "V" || q.symbol == "c" || q.symbol == "gamma";
    weighed = weighed || (q.symbol == "m" && is_whole(q.substance));
  });
  dense_as_water_ = by_volume && !weighed;
}

/// w(Cl in sample), w(Cl in X): a part of a whole that has no formula is simply that part of it. Water, where no reaction has it,
/// is H2O.
void Network::resolve_words() {
  bool const water_reacts = reaction_of("H2O") != std::string::npos;
  // Water with a few parts per million in it is the solution.
  bool const traces = is_in_traces(problem_);
  std::set<std::string> waters;  // what it is called
  each_quantity(problem_, [&](Quantity const& q) {
    if (traces && (q.substance == "water" || (q.symbol == "V" && is_whole(q.substance)))) waters.insert(q.substance);
  });
  auto const is_to_react = [&](std::string const& substance) {  // its own solution has a pH, and the mixture another
    return std::any_of(species_.begin(), species_.end(), [&](auto const& s) { return contains(s.reactants(), substance); });
  };
  std::set<std::string> acidities;
  each_quantity(problem_, [&](Quantity const& q) {
    if ((q.symbol == "pH" || q.symbol == "pOH") && !q.substance.empty() && !is_to_react(q.substance))
      acidities.insert(q.substance);
  });
  bool const one_acidity =
      acidities.size() == 1 && std::any_of(problem_.givens.begin(), problem_.givens.end(), [&](Given const& g) {
        return g.quantity.substance == *acidities.begin() && (g.quantity.symbol == "c" || g.quantity.symbol == "V");
      });
  each_quantity(problem_, [&](Quantity& q) {
    if (waters.count(q.substance) > 0)
      q.substance = "solution";
    else if (q.substance == "water" && !water_reacts)
      q.substance = "H2O";
    if (q.symbol == "V" && q.word == "total" && !q.substance.empty()) q.word.clear();
    bool const of_one = one_acidity && !is_to_react(q.substance);
    if ((q.symbol == "pH" || q.symbol == "pOH") && (of_one || q.substance == "mixture")) q.substance.clear();
    if (q.symbol == "V" && (q.substance == "flask" || q.substance == "stock")) q.substance = "solution";
    if (q.part == "water") q.part = "H2O";
    bool const unknown = is_unknown(q.substance);
    if (q.part.empty() || !(unknown || is_whole(q.substance))) return;
    if (!unknown) whole_ = q.substance;
    if (q.symbol == "w" && !unknown) shares_.push_back(q.part);
    q.substance = q.part;
    q.part.clear();
  });
}

/// w(sugar) beside m(solution): a word for what is dissolved, where a solution or its water is spoken of as well, is the
/// substance that it names.
void Network::resolve_solutes() {
  if (!problem_.reactions.empty() || formula_find() != nullptr) return;
  bool in_solution = false, words = false;
  each_quantity(problem_, [&](Quantity const& q) {
    in_solution = in_solution || q.substance == "solution" || q.symbol == "b";
    // What an amount or a number of molecules is spoken of is a substance.
    bool const counted = q.symbol == "n" || q.symbol == "N";
    in_solution = in_solution || (counted && is_whole(q.substance) && !counts_entities(q.substance));
    words = words || (is_whole(q.substance) && q.substance != "solution" && !counts_entities(q.substance));
  });
  if (!in_solution || !words) return;
  std::set<std::string> weighable;  // liquids whose density is told
  for (auto const& given : problem_.givens)
    if (given.quantity.symbol == "rho") weighable.insert(given.quantity.substance);
  each_quantity(problem_, [&](Quantity& q) {
    bool const of_solute = (is_of_portions(q.symbol) && q.symbol != "V") || q.symbol == "w" || q.symbol == "b";
    bool const of_liquid = (q.symbol == "V" || q.symbol == "rho") && weighable.count(q.substance) == 1;
    if (!of_solute && !of_liquid) return;
    if (!is_whole(q.substance) || q.substance == "solution" || counts_entities(q.substance)) return;
    if (auto const named = identify(q.substance); ok(named)) q.substance = value(named).formula;
  });
}

/// rho(bleach) beside w(NaClO) and c(NaClO): the one word is what the solution is called.
void Network::resolve_named_solution() {
  if (!problem_.reactions.empty() || formula_find() != nullptr) return;
  std::set<std::string> words;
  bool dissolved = false;
  each_quantity(problem_, [&](Quantity const& q) {
    if (is_whole(q.substance) && !counts_entities(q.substance) && !contains(vessels_, q.substance)) words.insert(q.substance);
    dissolved = dissolved || ((q.symbol == "c" || q.symbol == "gamma") && q.stage == 0 && known_formula(q.substance));
  });
  if (words.size() != 1 || !dissolved) return;
  bool const dense = any_given(problem_, "rho", *words.begin());
  each_quantity(problem_, [&](Quantity& q) {
    if (dense && q.substance == *words.begin()) q.substance = "solution";
  });
}

/// V(tank), V(vinegar): a word that names nothing but a volume, beside a concentration. In a reaction it is the solution of the
/// one reactant that is dissolved and has no volume of its own; without one it is the solution.
void Network::resolve_vessel() {
  std::set<std::string> words, volumes, dissolved;
  bool of_gas = false, portion = false;
  each_quantity(problem_, [&](Quantity const& q) {
    bool const word = is_whole(q.substance) && !counts_entities(q.substance);
    if (word) words.insert(q.substance);
    if (word && q.symbol == "V" && q.stage == 0 && q.word.empty()) volumes.insert(q.substance);
    if ((q.symbol == "c" || q.symbol == "gamma") && q.stage == 0) dissolved.insert(q.substance);
    of_gas = of_gas || q.symbol == "p" || q.symbol == "T" || q.symbol == "Vm";
    portion = portion || q.word == "aliquot" || (q.symbol == "V" && q.substance.empty());
  });
  if (volumes.size() != 1 || words != volumes || dissolved.empty() || of_gas || portion) return;
  std::string const vessel = *volumes.begin();
  if (vessel == "solution" || vessel == "sample" || vessel == "mixture" || !whole_.empty()) return;
  std::string solution = "solution";
  if (!problem_.reactions.empty()) {
    std::set<std::string> without_volume;
    for (auto const& reactant : species_.front().reactants())
      if (dissolved.count(reactant) == 1 && !is_named("V", reactant)) without_volume.insert(reactant);
    if (without_volume.size() != 1) return;
    solution = *without_volume.begin();
  }
  each_quantity(problem_, [&](Quantity& q) {
    if (q.substance == vessel) q.substance = solution;
  });
}

/// Of a formula that is asked: oxygen weighed or caught is so much of the element O, and the molar mass is that of the unknown,
/// though its name is told.
void Network::resolve_elements() {
  auto const* const wanted = formula_find();
  if (!wanted || wanted->kind == Find::Kind::hydrate_formula) return;
  bool const molecular = std::any_of(problem_.finds.begin(), problem_.finds.end(),
                                     [](Find const& f) { return f.kind == Find::Kind::molecular_formula; });
  each_quantity(problem_, [&](Quantity& q) {
    auto const known = known_formula(q.substance);
    if (!known) return;
    if (molecular && q.symbol == "M") q.substance = "X";
    bool const element = known->composition.size() == 1 && known->formula.charge == 0;
    if (element && (q.symbol == "m" || q.symbol == "w") && problem_.reactions.empty())
      q.substance = known->composition.begin()->first;
  });
}

void Network::resolve_left_out() {
  std::set<std::string> named, numbered, fractions, dry;
  each_quantity(problem_, [&](Quantity const& q) {
    if (q.substance.empty() || q.word == "added" || q.word == "evaporated") return;
    if (is_of_portions(q.symbol)) named.insert(q.substance);
    if (q.symbol == "w" && known_formula(q.substance)) fractions.insert(q.substance);
    if (q.stage > 0) numbered.insert(q.substance);  // V2 is of the substance that has a c1, though a hydrate is weighed as well
  });
  // What is weighed as a hydrate is dissolved as its salt: a volume beside both is that of the salt's solution.
  for (auto const& substance : named) {
    if (named.count(salt_of_crystals(substance)) == 0) dry.insert(substance);
  }
  each_quantity(problem_, [&](Quantity& q) {
    if (q.symbol != "w" || !q.substance.empty() || named.size() != 1) return;
    q.substance = *named.begin();
    fractions.insert(q.substance);
  });
  // w1 beside a density is the share that the bottle tells, and solution 1 is the one that is poured from it.
  std::set<int> shares;
  bool dense = false;
  each_quantity(problem_, [&](Quantity const& q) {
    if (q.symbol == "w") shares.insert(q.stage);
    dense = dense || q.symbol == "rho";
  });
  bool const of_bottle = dense && shares == std::set<int>{1};
  numbered_densities_ = shares.size() > 1 && shares.count(0) == 0;  // w1 and w2 with rho1, rho2
  each_quantity(problem_, [&](Quantity& q) {
    if (q.symbol == "w" && of_bottle) q.stage = 0;
  });
  // The density of what w(X) is given of is that of the solution.
  bool const of_solution = any_given(problem_, "rho", "solution");
  std::set<std::string> poured;  // the one solution that reacts with no other: its density is that of what is warmed
  each_quantity(problem_, [&](Quantity const& q) {
    if (q.symbol == "V" && reaction_of(q.substance) != std::string::npos && !of_solution) poured.insert(q.substance);
  });
  bool const concentration = poured.size() == 1 && (speaks_of("c", *poured.begin()) || speaks_of("gamma", *poured.begin()));
  if (!concentration) poured.clear();
  bool const warmed = any_named_symbol("cp");  // where two solutions meet in a calorimeter, one density is that of what is warmed
  each_quantity(problem_, [&](Quantity& q) {
    bool const of_warmed = q.substance.empty() ? named.size() > 1 || !poured.empty() : poured.count(q.substance) == 1;
    if (q.symbol == "rho" && warmed && of_warmed) q.substance = "solution";
    bool const bottled = q.substance.empty()
                             ? fractions.size() == 1
                             : any_given(problem_, "w", q.substance) || (of_bottle && fractions.count(q.substance) == 1);
    if (q.symbol == "rho" && !of_solution && bottled && (q.substance.empty() || known_formula(q.substance)))
      q.substance = "solution";
  });
  each_quantity(problem_, [&](Quantity& q) {
    if (!q.substance.empty() || (!q.word.empty() && q.word != "taken")) return;
    bool const of_none =
        q.symbol == "pH" || q.symbol == "pOH" || q.symbol == "T" || q.symbol == "p" || q.symbol == "yield" || q.symbol == "DF";
    if (of_none && q.stage > 0) return;
    if (q.stage > 0 && numbered.size() == 1) {
      q.substance = *numbered.begin();
      return;
    }
    bool const fills = is_of_portions(q.symbol) || q.symbol == "w" || q.symbol == "b" || q.symbol == "rho";
    bool const of_solution_of_salt = q.symbol == "V" || q.symbol == "c" || q.symbol == "gamma";
    auto const& candidates = of_solution_of_salt ? dry : named;
    if (fills && candidates.size() == 1) q.substance = *candidates.begin();
  });
  // The solubility product without its solid is that of the one solid that is spoken of, or of the one that dissolves.
  std::set<std::string> solids;
  auto const is_of_solid = [](Quantity const& q) { return q.symbol == "Ksp" || q.symbol == "s" || q.symbol == "Q"; };
  each_quantity(problem_, [&](Quantity const& q) {
    if (is_of_solid(q) && !q.substance.empty()) solids.insert(q.substance);
  });
  each_quantity(problem_, [&](Quantity& q) {
    if (is_of_solid(q) && q.substance.empty() && solids.size() == 1) q.substance = *solids.begin();
  });
  each_quantity(problem_, [&](Quantity& q) {
    if (!is_of_solid(q) || !q.substance.empty() || problem_.reactions.size() != 1) return;
    auto const& equation = problem_.reactions[0].equation;
    bool const dissolves = equation.left.size() == 1 && std::any_of(equation.right.begin(), equation.right.end(),
                                                                    [](Species const& s) { return s.formula.charge != 0; });
    if (dissolves) q.substance = plain(equation.left[0].formula);
  });
}

/// The flask and the aliquot with no substance named are those of what was weighed, or else of the reactant whose solution has no
/// volume of its own.
void Network::resolve_aliquot() {
  auto const of_flask = [](Quantity const& q) {
    return q.symbol == "V" && q.stage == 0 && (q.substance.empty() || q.substance == "solution");
  };
  bool const asked = std::any_of(problem_.givens.begin(), problem_.givens.end(),
                                 [&](Given const& g) { return of_flask(g.quantity) && g.quantity.word == "aliquot"; });
  if (!asked || problem_.reactions.empty()) return;
  if (!shared_by_reactions().empty() && made_up_in_flask() != MadeUp::sample) return;
  auto const has_volume = [&](std::string const& substance) {
    return any_given(problem_, "V", substance) || std::any_of(problem_.finds.begin(), problem_.finds.end(), [&](Find const& f) {
             return f.quantity.symbol == "V" && f.quantity.substance == substance;
           });
  };
  std::set<std::string> weighed, reactants;
  for (auto const& given : problem_.givens) {
    auto const& q = given.quantity;
    auto const known = known_formula(q.substance);
    if (!known || has_volume(q.substance) || (q.symbol != "m" && q.symbol != "n")) continue;
    auto const dry = plain(anhydrous(known->formula));
    bool const uses = std::any_of(species_.begin(), species_.end(),
                                  [&](SpeciesOfReaction const& species) { return contains(species.reactants(), q.substance); });
    if (reaction_of(q.substance) != std::string::npos && !uses) continue;  // the solid that was made of it
    weighed.insert(reaction_of(dry) != std::string::npos ? dry : q.substance);
  }
  for (auto const& substance : species_.front().reactants()) {
    bool const medium = substance == "H^+" || substance == "H3O^+" || substance == "H2O";  // there in plenty
    if (!medium && !has_volume(substance) && !is_in_excess(substance)) reactants.insert(substance);
  }
  auto const& candidates = weighed.size() == 1 ? weighed : reactants;
  if (candidates.size() != 1) return;
  for (auto& given : problem_.givens)
    if (auto& q = given.quantity; of_flask(q) && (q.word.empty() || q.word == "aliquot")) q.substance = *candidates.begin();
}

/// The one heat capacity, and the one change of temperature, are of what is warmed, however it is called. An enthalpy with no
/// substance named is that of the reaction as written; without a reaction it is that of the one substance.
void Network::resolve_heat() {
  // The water that is warmed is a portion of its own, not what a combustion forms.
  bool const formed = std::any_of(species_.begin(), species_.end(),
                                  [](SpeciesOfReaction const& species) { return contains(species.products(), "H2O"); });
  if (formed && any_named_symbol("cp"))
    each_quantity(problem_, [](Quantity& q) {
      bool const portion = q.symbol == "m" || q.symbol == "V" || q.symbol == "rho" || q.symbol == "cp";
      if (portion && q.substance == "H2O" && q.word.empty() && q.part.empty() && q.stage == 0) q.substance = "water";
    });
  each_quantity(problem_, [&](Quantity& q) {
    bool const of_warmed = q.symbol == "cp" || q.symbol == "dT" || q.symbol == "C" || (q.symbol == "T" && q.stage > 0);
    if (!of_warmed || (q.symbol == "T" && !any_named_symbol("cp") && !any_named_symbol("C"))) return;
    if (q.symbol == "cp" && any_given(problem_, "m", q.substance)) warmed_ = q.substance;
    q.substance.clear();
  });
  // Heat is counted as what the surroundings take up. A heat given below zero without a thermometer is the reaction's own.
  bool const measured_heat = any_named_symbol("dT") || any_named_symbol("cp") || any_named_symbol("C");
  bool const gives_off = std::any_of(problem_.givens.begin(), problem_.givens.end(), [](Given const& g) {
    return g.quantity.symbol == "q" && !g.numbers.empty() && g.numbers.front().value.sign() < 0;
  });
  bool const below_zero = std::any_of(problem_.givens.begin(), problem_.givens.end(), [](Given const& g) {
    return g.quantity.symbol == "dH" && !g.numbers.empty() && g.numbers.front().value.sign() < 0;
  });
  heat_of_reaction_ = !measured_heat && gives_off && below_zero;
  std::set<std::string> measured;
  for (auto const& given : problem_.givens)
    if (is_of_portions(given.quantity.symbol) &&
        (known_formula(given.quantity.substance) || is_unknown(given.quantity.substance)))
      measured.insert(given.quantity.substance);
  if (measured.size() > 1) measured.erase("H2O");
  each_quantity(problem_, [&](Quantity& q) {
    bool const of_one = q.symbol == "dH" && q.substance.empty() && problem_.reactions.empty() && measured.size() == 1;
    if (of_one) q.substance = *measured.begin();
  });
}

bool Network::any_named_symbol(Symbol symbol) const {
  bool found = false;
  for (auto const& given : problem_.givens) found = found || given.quantity.symbol == symbol;
  return found;
}

void Network::resolve_yields() {
  std::set<std::string> actual;
  each_quantity(problem_, [&](Quantity const& q) {
    if (q.word == "actual" || q.word == "theoretical") actual.insert(q.substance);
  });
  std::vector<std::string> products;
  bool const by_steps = std::any_of(problem_.givens.begin(), problem_.givens.end(), [](Given const& g) {
    return g.quantity.symbol == "yield" && (g.quantity.stage > 0 || !g.quantity.substance.empty());
  });
  if (problem_.reactions.size() == 1 || (problem_.reactions.size() > 1 && !by_steps))  // the yield of a chain is that of its end
    products.assign(species_.back().products().begin(), species_.back().products().end());
  // Where the crystals of a product are spoken of, they are what is got.
  each_quantity(problem_, [&](Quantity const& q) {
    bool const crystals = contains(products, salt_of_crystals(q.substance));
    if (crystals && !contains(products, q.substance)) products.insert(products.begin(), q.substance);
  });
  resolve_numbered_yields();
  each_quantity(problem_, [&](Quantity& q) {
    if (q.symbol != "yield" || q.stage != 0 || !q.substance.empty() || !q.word.empty()) return;
    if (actual.size() == 1) {
      q.substance = product_of_yield_ = *actual.begin();
      return;
    }
    // The one yield of one reaction, with no product named, is that of what is asked, or else of what is measured.
    std::vector<std::string> spoken;
    for (auto const& product : products)
      for (auto const& find : problem_.finds)
        if (find.kind == Find::Kind::number && find.quantity.substance == product) spoken.push_back(product);
    for (auto const& product : products)
      if (any_given(problem_, "m", product) || any_given(problem_, "n", product)) spoken.push_back(product);
    if (spoken.empty() && products.size() == 1) spoken = products;
    if (!spoken.empty()) q.substance = product_of_yield_ = spoken.front();
  });
  // What is measured of a product whose yield is spoken of is what was got, not what could have been.
  std::set<std::string> with_yield;
  each_quantity(problem_, [&](Quantity const& q) {
    if (q.symbol == "yield" && q.stage == 0 && !q.substance.empty() && actual.count(q.substance) == 0)
      with_yield.insert(q.substance);
  });
  auto const got = [&](Quantity& q) {
    bool const portion = q.symbol == "m" || q.symbol == "n" || q.symbol == "V";
    if (portion && q.word.empty() && q.stage == 0 && with_yield.count(q.substance)) q.word = "actual";
  };
  for (auto& given : problem_.givens) got(given.quantity);
  // And what is asked of it, where the yield is given, is what will be got.
  bool const measured = std::any_of(problem_.givens.begin(), problem_.givens.end(),
                                    [](Given const& g) { return g.quantity.word == "actual" || g.quantity.symbol == "dH"; });
  if (measured) return;
  for (auto& find : problem_.finds)
    if (find.kind == Find::Kind::number && any_given(problem_, "yield", find.quantity.substance)) got(find.quantity);
}

/// yield1, yield2 beside several reactions: the yield of each step is that of what goes on from it, the last step's that of what
/// is asked, or else of what is measured.
void Network::resolve_numbered_yields() {
  auto const count = problem_.reactions.size();
  bool const overall = std::any_of(problem_.finds.begin(), problem_.finds.end(),
                                   [](Find const& f) { return f.quantity.symbol == "yield" && f.quantity.stage == 0; });
  if (count < 2 || overall) return;
  auto const& ends = problem_.reactions.back().equation.right;
  bool const asked = std::any_of(ends.begin(), ends.end(), [&](Species const& species) {
    return std::any_of(problem_.finds.begin(), problem_.finds.end(),
                       [&](Find const& f) { return f.quantity.substance == plain(species.formula); });
  });
  auto const uses = [&](std::size_t step, std::string const& product) {
    auto const& left = problem_.reactions[step].equation.left;
    return std::any_of(left.begin(), left.end(), [&](Species const& reactant) { return plain(reactant.formula) == product; });
  };
  auto const is_asked_of = [&](std::string const& product) {
    return std::any_of(problem_.finds.begin(), problem_.finds.end(),
                       [&](Find const& f) { return f.quantity.substance == product; });
  };
  // What the next reaction uses, or else the one after it; water only where nothing else goes on.
  auto const of_step = [&](std::size_t step) -> std::string {
    std::vector<std::string> products;
    for (auto const& species : problem_.reactions[step].equation.right) products.push_back(plain(species.formula));
    std::stable_partition(products.begin(), products.end(), [](std::string const& product) { return product != "H2O"; });
    for (std::size_t later = step + 1; later < count; ++later)
      for (auto const& product : products)
        if (uses(later, product) && (product != "H2O" || products.size() == 1)) return product;
    bool const last = step + 1 == count;
    for (auto const& product : products)
      if (last && (is_asked_of(product) || (!asked && (any_given(problem_, "m", product) || any_given(problem_, "n", product)))))
        return product;
    return {};
  };
  each_quantity(problem_, [&](Quantity& q) {
    if (q.symbol != "yield" || q.stage < 1 || static_cast<std::size_t>(q.stage) > count || !q.substance.empty()) return;
    auto const product = of_step(static_cast<std::size_t>(q.stage) - 1);
    if (product.empty()) return;
    q.substance = product;
    q.stage = 0;
  });
}

}  // namespace molewright
