// What a problem leaves unsaid of its samples: what was measured out and diluted, water that is not known, what falls out.
#include <algorithm>

#include "engine/formula_memo.h"
#include "engine/lists.h"
#include "engine/network.h"
#include "engine/nomenclature.h"
#include "engine/quantity_words.h"
#include "engine/substance.h"

namespace molewright {
namespace {

bool any_given(Problem const& problem, Symbol symbol, std::string const& substance) {
  return std::any_of(problem.givens.begin(), problem.givens.end(),
                     [&](Given const& g) { return g.quantity.symbol == symbol && g.quantity.substance == substance; });
}

/// The volume of a flask, or of a portion of it, with no substance named.
bool is_of_the_flask(Quantity const& q) {
  return q.symbol == "V" && (q.substance.empty() || q.substance == "flask" || q.substance == "solution");
}
bool is_portion(Symbol symbol) { return symbol == "V" || symbol == "n" || symbol == "m"; }
}  // namespace

/// w(P2O5) beside the Mg2P2O7 that was weighed: an oxide that is only asked is a way to say how much of its element there is.
void Network::resolve_oxides() {
  if (!problem_.reactions.empty() || formula_find() != nullptr) return;
  for (auto const& find : problem_.finds) {
    auto const& asked = find.quantity;
    if (find.kind != Find::Kind::number || asked.symbol != "w" || !asked.part.empty() || asked.substance == "H2O") continue;
    auto const is_of_it = [&](Given const& g) { return g.quantity.substance == asked.substance; };
    if (std::any_of(problem_.givens.begin(), problem_.givens.end(), is_of_it)) continue;
    bool const in_salt = std::any_of(problem_.givens.begin(), problem_.givens.end(), [&](Given const& g) {
      auto const known = known_formula(g.quantity.substance);
      bool const weighed = g.quantity.symbol == "m" || g.quantity.symbol == "n";
      return weighed && known && known->composition.size() > 1 && portion_in(asked.substance, g.quantity.substance).sign() > 0;
    });
    if (in_salt) add_once(shares_, asked.substance);
  }
}

/// V(volumetric flask) is V(flask), and what is measured with a pipette to react is an aliquot.
void Network::resolve_flask_words() {
  each_quantity(problem_, [&](Quantity& q) {
    if (q.symbol != "V" || !q.word.empty()) return;
    if (is_volumetric_flask(q.substance)) q.substance = "flask";
    bool const pipetted = is_pipette(q.substance) && !problem_.reactions.empty();
    if (pipetted || q.substance == "aliquot" || q.substance == "portion") {
      q.substance.clear();
      q.word = "aliquot";
    }
  });
}

/// What one reaction uses and a later one takes the rest of: the excess of a back titration, or the salt that brings its ion.
std::vector<std::string> Network::shared_by_reactions() const {
  std::vector<std::string> out;
  for (std::size_t r = 0; r < species_.size(); ++r)
    for (auto const& reactant : species_[r].reactants()) {
      if (goes_on(r, reactant)) add_once(out, reactant);
      bool later = false;
      for (std::size_t next = r + 1; next < species_.size(); ++next) later = later || is_reactant(next, reactant);
      if (!later || !is_ion(reactant)) continue;
      for (auto const& given : problem_.givens) {
        auto const& salt = given.quantity.substance;
        if (is_portion(given.quantity.symbol) && reaction_of(salt) == std::string::npos && count_in(reactant, salt) > 0)
          add_once(out, salt);
      }
    }
  return out;
}

/// Of an ionic equation the salt that brings the ion may be what is said to be in excess.
bool Network::is_in_excess(std::string const& substance) const {
  bool const ion = is_ion(substance);
  return std::any_of(problem_.excess.begin(), problem_.excess.end(),
                     [&](std::string const& there) { return there == substance || (ion && count_in(substance, there) > 0); });
}

/// Which lines stand first tells what was made up to the mark in a back titration, where no substance is named: V(flask),
/// V(aliquot) before the excess are the sample's, V(AgNO3) coming to the portion; V(HCl), V(flask), V(aliquot), V(NaOH) is all of
/// it, and what the portion is titrated for is the rest of the excess.
Network::MadeUp Network::made_up_in_flask() const {
  auto const shared = shared_by_reactions();
  if (shared.size() != 1) return MadeUp::unclear;
  std::optional<std::size_t> first_poured, last_poured, flask, portion, titrated;
  for (std::size_t g = 0; g < problem_.givens.size(); ++g) {
    auto const& q = problem_.givens[g].quantity;
    if (is_of_the_flask(q) && q.stage == 0) (q.word == "aliquot" ? portion : flask) = g;
    bool const of_excess = contains(shared, q.substance);
    if (of_excess && is_portion(q.symbol)) last_poured = g;
    if (last_poured && !first_poured) first_poured = g;
    if (q.symbol == "V" && !of_excess && is_reactant(species_.size() - 1, q.substance)) titrated = g;
  }
  if (!last_poured || !flask || !portion) return MadeUp::unclear;
  // Of a sample that nothing is told of, shuffled lines say as much.
  bool const sample_told = std::any_of(problem_.givens.begin(), problem_.givens.end(), [&](Given const& g) {
    auto const& q = g.quantity;
    bool const sample = is_whole(q.substance) && !is_of_the_flask(q) && q.symbol != "T";
    return sample || (is_reactant(0, q.substance) && !contains(shared, q.substance));
  });
  bool const in_order_of_sample = *flask < *portion && *portion < *first_poured && (!titrated || *portion < *titrated);
  if (in_order_of_sample && sample_told) return MadeUp::sample;
  bool const in_order = *last_poured < *flask && *flask < *portion && (!titrated || *portion < *titrated);
  return in_order ? MadeUp::with_excess : MadeUp::unclear;
}

void Network::resolve_excess_made_up() {
  auto const shared = shared_by_reactions();
  if (made_up_in_flask() != MadeUp::with_excess || reaction_of(shared.front()) == std::string::npos) return;
  each_quantity(problem_, [&](Quantity& q) {
    auto const& excess = shared.front();
    if (q.stage != 0 || !q.part.empty()) return;
    bool const of_solution = q.symbol == "c" || q.symbol == "gamma";
    if (is_of_the_flask(q))
      q = {"V", 2, excess, q.word, ""};
    else if (q.substance == excess && q.word.empty() && (is_portion(q.symbol) || of_solution))
      q.stage = 1;
  });
}

/// V(vinegar), V(flask), V(aliquot): the one reactant whose solution has no volume of its own was measured out, made up to the
/// mark and titrated in portions. What is asked of its solution is asked of what was measured out.
void Network::resolve_diluted_sample() {
  if (problem_.reactions.empty()) return;
  if (!shared_by_reactions().empty() && made_up_in_flask() != MadeUp::sample) return;
  std::set<std::string> poured;
  Quantity const* flask = nullptr;
  Quantity const* portion = nullptr;
  for (auto const& given : problem_.givens) {
    auto const& q = given.quantity;
    if (q.symbol != "V" || q.stage != 0) continue;
    if (q.word == "aliquot")
      portion = &q;
    else if (q.substance == "flask" || q.substance == "solution")
      flask = &q;
    else if (is_whole(q.substance) && q.word.empty())
      poured.insert(q.substance);
  }
  if (!flask || !portion || poured.size() != 1) return;
  std::string reactant;
  for (auto const& species : problem_.reactions.front().equation.left) {
    auto const substance = plain(species.formula);
    if (any_given(problem_, "V", substance) || is_in_excess(substance)) continue;
    if (!reactant.empty()) return;
    reactant = substance;
  }
  if (reactant.empty()) return;
  auto const is_portion = [portion = *portion](Quantity const& q) { return q == portion; };
  auto const is_flask = [flask = *flask](Quantity const& q) { return q == flask; };
  each_quantity(problem_, [&](Quantity& q) {
    if (is_portion(q))
      q = {"V", 2, reactant, "aliquot", ""};
    else if (is_flask(q))
      q = {"V", 2, reactant, "", ""};
    else if (q.symbol == "V" && q.substance == *poured.begin())
      q = {"V", 1, reactant, "", ""};
    else if ((q.symbol == "c" || q.symbol == "gamma") && q.stage == 0 && q.word.empty() &&
             (q.substance == reactant || q.substance == *poured.begin()))
      q = {q.symbol, 1, reactant, "", ""};
  });
}

/// purity = 80 % beside m(CaC2) or m(limestone): the one reactant that is weighed, or that the sample is of. And what has a
/// purity is weighed with what else is in it: m(CaC2) is that of the sample then.
void Network::resolve_impure() {
  if (problem_.reactions.empty()) return;
  std::set<std::string> wholes, weighed;
  Quantity* share = nullptr;
  bool several = false, dissolved = false;
  auto const reacts = [&](std::string const& substance) {
    return std::any_of(species_.begin(), species_.end(), [&](auto const& s) { return contains(s.reactants(), substance); }) &&
           std::none_of(species_.begin(), species_.end(), [&](auto const& s) { return contains(s.products(), substance); });
  };
  auto const look = [&](Quantity const& q) {
    bool const plain_one = q.word.empty() && q.part.empty() && q.stage == 0;
    if (is_whole(q.substance) && !contains(vessels_, q.substance)) wholes.insert(q.substance);
    if (q.symbol == "rho" || !plain_one) dissolved = dissolved || q.symbol == "rho" || q.symbol == "w";
    if (q.symbol == "m" && plain_one && reacts(q.substance) && !is_in_excess(q.substance)) weighed.insert(q.substance);
  };
  for (auto const& find : problem_.finds)
    if (find.kind == Find::Kind::number) look(find.quantity);
  for (auto& given : problem_.givens) {
    look(given.quantity);
    if (given.quantity.symbol != "w") continue;
    several = several || share != nullptr;
    share = &given.quantity;
  }
  if (several && !dissolved && wholes.empty()) {
    // Each of several reactants with a purity of its own: what was weighed of it is a sample of its own.
    for (auto& given : problem_.givens) {
      auto const& q = given.quantity;
      if (q.symbol == "m" && q.stage == 0 && q.word.empty() && q.part.empty() && weighed.count(q.substance) == 1 &&
          is_named("w", q.substance))
        given.quantity.word = "impure";
    }
  }
  if (!share || several || dissolved) return;
  if (share->substance.empty() && wholes.empty() && weighed.size() == 1) share->substance = *weighed.begin();
  if (share->substance.empty() && wholes.size() == 1 && *wholes.begin() != "solution" && weighed.empty())
    share->substance = substance_of_sample(*wholes.begin());
  if (!wholes.empty() || weighed.count(share->substance) == 0) return;
  each_quantity(problem_, [&, impure = share->substance](Quantity& q) {
    if (q.symbol == "m" && q.substance == impure && q.stage == 0 && q.word.empty() && q.part.empty()) q.substance = "sample";
  });
}

/// The reactant that a sample is of: the one that nothing is told of, or the one that the sample's name is of. Empty where that
/// is not clear.
std::string Network::substance_of_sample(std::string const& sample) const {
  auto const named = identify(sample);
  std::vector<std::string> untold;
  for (auto const& reactant : species_.front().reactants()) {
    if (ok(named) && value(named).formula == reactant) return reactant;
    bool told = is_in_excess(reactant) || reactant == "H2O" || is_surely_a_gas(reactant);
    for (auto const& given : problem_.givens)
      told = told || (given.quantity.substance == reactant && is_of_portions(given.quantity.symbol));
    if (!told) add_once(untold, reactant);
  }
  return untold.size() == 1 ? untold.front() : std::string();
}

/// CuSO4·xH2O is the hydrate whose formula is asked, and so is x.
void Network::resolve_unknown_water() {
  each_quantity(problem_, [&](Quantity& q) {
    auto salt = salt_of_unknown_hydrate(q.substance);
    if (salt.empty()) return;
    q.substance = "hydrate";
    salt_of_hydrate_ = std::move(salt);
  });
  if (salt_of_hydrate_.empty()) return;
  for (auto& find : problem_.finds) {
    bool const of_water = find.quantity.symbol == "x" || find.quantity.symbol == "n";
    if (find.kind != Find::Kind::number || !of_water || !find.quantity.substance.empty() || find.quantity.stage != 0) continue;
    find.kind = Find::Kind::hydrate_formula;
    find.quantity = {};
    find.unit.reset();
  }
}

/// m(crucible + residue): what a hydrate leaves in its crucible is the salt.
void Network::resolve_weighings() {
  each_quantity(problem_, [&](Quantity const& q) {
    if (auto const vessel = std::string(vessel_of(q)); !vessel.empty() && !contains(vessels_, vessel)) vessels_.push_back(vessel);
  });
  auto const* const wanted = formula_find();
  auto const salt = wanted && wanted->kind == Find::Kind::hydrate_formula && !wanted->elements.empty() ? wanted->elements.front()
                                                                                                       : salt_of_hydrate_;
  bool hydrate = !salt.empty();
  each_quantity(problem_, [&](Quantity const& q) { hydrate = hydrate || q.substance == "hydrate"; });
  if (!hydrate) return;
  each_quantity(problem_, [&](Quantity& q) {
    if (q.substance == "H2O" && q.word == "evaporated") q.word.clear();
    for (char const* left : {"residue", "anhydrous salt", "anhydrous residue", "salt", "solid", "product"})
      if (q.substance == left) q.substance = salt.empty() ? "residue" : salt;
  });
}

/// c(HCl), V(HCl), V(solution): so much of the one is made up to the other. What is asked is asked of what it comes to. The
/// bottle may be told by its share and its density instead: w(HCl), rho(HCl).
void Network::resolve_made_up() {
  if (!problem_.reactions.empty() || !problem_.handlings.empty() || formula_find() != nullptr) return;
  if (speaks_of("p") || speaks_of("T") || speaks_of("Vm")) return;
  std::set<std::string> stocks;
  bool numbered = false;
  each_quantity(problem_, [&](Quantity const& q) {
    numbered = numbered || q.stage > 0 || !q.word.empty();
    bool const poured = q.symbol == "V" && known_formula(q.substance) && any_given(problem_, "V", q.substance);
    bool const by_share = any_given(problem_, "w", q.substance) && speaks_of("rho");
    if (poured && (by_share || (any_given(problem_, "c", q.substance) && !speaks_of("rho")))) stocks.insert(q.substance);
  });
  if (numbered || stocks.size() != 1 || !any_given(problem_, "V", "solution")) return;
  auto const& stock = *stocks.begin();
  problem_.handlings.push_back({Handling::Kind::dilute, {1}, 2, {}});
  for (auto& given : problem_.givens) {
    auto& q = given.quantity;
    if (q.symbol == "V" && q.substance == "solution")
      q = {"V", 2, stock, "", ""};
    else if ((q.symbol == "V" || q.symbol == "c") && q.substance == stock)
      q.stage = 1;
  }
  for (auto& find : problem_.finds) {
    auto& q = find.quantity;
    bool const concentration = q.symbol == "c" || q.symbol == "gamma";
    if (concentration && q.substance == "solution") q.substance = stock;
    if (concentration && (q.substance == stock || count_in(q.substance, stock) > 0)) q.stage = 2;
  }
}

/// V1(HCl), c1(HCl), V2(NaOH): numbers that tell no two solutions of one substance apart.
void Network::resolve_idle_numbers() {
  if (problem_.reactions.empty() || !problem_.handlings.empty()) return;
  auto const numbered = [](Quantity const& q) {
    return !q.substance.empty() &&
           (q.symbol == "c" || q.symbol == "gamma" || q.symbol == "V" || q.symbol == "n" || q.symbol == "m");
  };
  std::map<std::string, std::set<int>> stages;
  each_quantity(problem_, [&](Quantity const& q) {
    if (numbered(q)) stages[q.substance].insert(q.stage);
  });
  each_quantity(problem_, [&](Quantity& q) {
    bool const by_reaction = reaction_of(q.substance) != std::string::npos && !speaks_of("p") && !speaks_of("T");
    if (numbered(q) && by_reaction && stages[q.substance].size() == 1) q.stage = 0;
  });
}

/// m(fuel), M(fuel): a word that has a molar mass is a substance, the unknown of the problem.
void Network::resolve_unknown() {
  std::set<std::string> words;
  bool other = formula_find() != nullptr;
  each_quantity(problem_, [&](Quantity const& q) {
    if (q.symbol == "M" && is_whole(q.substance) && q.substance != "hydrate") words.insert(q.substance);
    other = other || is_unknown(q.substance);
  });
  if (words.size() != 1 || other) return;
  each_quantity(problem_, [&](Quantity& q) {
    if (q.substance == *words.begin()) q.substance = "X";
  });
}

/// m(unknown acid), m(acid) beside H2A in the reaction: the one reactant that is not known.
void Network::resolve_unknown_reactant() {
  if (problem_.reactions.empty()) return;
  std::string reactant;
  for (auto const& species : species_.front().reactants()) {
    if (!is_unknown(species)) continue;
    if (!reactant.empty()) return;
    reactant = species;
  }
  if (reactant.empty()) return;
  bool const holds_x = formula_of_unknown(reactant)->composition.count("X") > 0;
  std::set<std::string> words;
  bool fraction = false;
  each_quantity(problem_, [&](Quantity const& q) {
    if (q.symbol == "m" && is_whole(q.substance) && !contains(vessels_, q.substance)) words.insert(q.substance);
    fraction = fraction || q.symbol == "w";
  });
  bool const weighed = any_given(problem_, "m", reactant);
  bool const of_sample = words.size() == 1 && !fraction && !weighed && speaks_of("M", reactant);
  each_quantity(problem_, [&](Quantity& q) {
    bool const called_unknown = q.substance == "X" && !holds_x && reaction_of("X") == std::string::npos;
    if (called_unknown || (of_sample && q.substance == *words.begin())) q.substance = reactant;
  });
}

/// What is asked of an ion that falls out, where two solutions react, is what is left of it in the mixture.
void Network::resolve_ions_left() {
  for (auto& find : problem_.finds) {
    auto& q = find.quantity;
    auto const ion = known_formula(q.substance);
    if (find.kind != Find::Kind::number || q.symbol != "c" || !q.word.empty() || q.stage != 0 || !ion ||
        ion->formula.charge == 0 || reaction_of(q.substance) != std::string::npos)
      continue;
    for (auto const& reaction : problem_.reactions) {
      auto const& [left, right] = std::pair{reaction.equation.left, reaction.equation.right};
      auto const poured = std::count_if(left.begin(), left.end(), [&](Species const& s) {
        auto const reactant = plain(s.formula);
        return any_given(problem_, "c", reactant) && any_given(problem_, "V", reactant);
      });
      auto const brought =
          std::count_if(left.begin(), left.end(), [&](Species const& s) { return count_in(q.substance, plain(s.formula)) > 0; });
      bool const falls_out = std::any_of(right.begin(), right.end(), [&](Species const& s) {
        auto const* const known = solubility(plain(s.formula));
        bool const solid = s.formula.state == State::solid || (known && known->verdict == Solubility::Verdict::insoluble);
        return solid && count_in(q.substance, plain(s.formula)) > 0;
      });
      if (poured == 2 && brought == 1 && falls_out) q.word = "left";
    }
  }
}

}  // namespace molewright
