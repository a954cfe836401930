#include <algorithm>
#include <map>

#include "engine/formula_memo.h"
#include "engine/logarithm.h"
#include "engine/solver.h"

// The second working of every problem. It shares nothing with the solver's relations: amounts before and after by extents of
// reaction, atoms, charge and mass counted from the formulas, and each quantity of a substance held against its definition.
namespace molewright {
namespace {

/// A species of a balanced reaction: what every working of the problem is held against.
struct SpeciesFacts {
  std::string substance;
  bool reactant;
  Rational coefficient;
  int charge;
  std::shared_ptr<KnownFormula const> known;
  Rational molar_mass;
};
using ReactionFacts = std::vector<SpeciesFacts>;

Rational molar_mass(KnownFormula const& known, Conventions const& conventions) {
  Rational mass;
  for (auto const& [symbol, count] : known.composition) mass += Rational(count) * conventions.weights.weight(symbol).value;
  return mass;
}

ReactionFacts facts_of(Equation const& equation, Conventions const& conventions) {
  ReactionFacts out;
  for (auto const* side : {&equation.left, &equation.right})
    for (auto const& species : *side) {
      SpeciesFacts facts{plain(species.formula), side == &equation.left, species.coefficient, species.formula.charge, {}, {}};
      facts.known = known_formula(facts.substance);
      if (facts.known) facts.molar_mass = molar_mass(*facts.known, conventions);
      out.push_back(std::move(facts));
    }
  return out;
}

class Ledger {
 public:
  Ledger(Worked const& worked, Working const& working, std::vector<ReactionFacts> const& facts, Conventions const& conventions)
      : worked_(worked), working_(working), facts_(facts), conventions_(conventions) {}

  std::string check() {
    for (std::size_t r = 0; r < worked_.problem.reactions.size() && fault_.empty(); ++r)
      if (!worked_.problem.reactions[r].equation.right.empty()) check_reaction(r);  // else nothing happens
    if (fault_.empty()) check_definitions();
    return fault_;
  }

 private:
  /// Number of a quantity in base units; nothing where the working has no such node.
  std::optional<Rational> base(Quantity const& quantity) const {
    for (auto const& node : working_.nodes)
      if (node.quantity == quantity && !(node.relation == relations::reading || node.relation == relations::batches) &&
          node.id.find(" from ") == std::string::npos)
        return node.value.number * node.value.unit.factor;
    return std::nullopt;
  }
  std::optional<Rational> base(char const* symbol, std::string const& substance, char const* word = "") const {
    return base(Quantity{symbol, 0, substance, word, ""});
  }

  bool is_crystal_water(std::string const& substance) const {
    auto const& finds = worked_.problem.finds;
    return substance == "H2O" &&
           std::any_of(finds.begin(), finds.end(), [](Find const& find) { return find.kind == Find::Kind::hydrate_formula; });
  }
  bool is_reactant_of(std::size_t reaction, std::string const& substance) const {
    return std::any_of(facts_[reaction].begin(), facts_[reaction].end(),
                       [&](SpeciesFacts const& s) { return s.reactant && s.substance == substance; });
  }
  /// Whether an earlier reaction had the reactant in excess and left it to this one.
  bool was_left(std::size_t reaction, std::string const& substance) const {
    if (!is_reactant_of(reaction, substance) || !base("n", substance, "left")) return false;
    for (std::size_t r = 0; r < reaction; ++r)
      if (is_reactant_of(r, substance)) return true;
    return false;
  }
  /// The portion of a substance that takes part in a reaction: an aliquot of it, what an earlier reaction left or really yielded
  /// of it, or all.
  Quantity portion(std::size_t reaction, std::string const& substance) const {
    Quantity const share{"n", 0, substance, "reaction " + std::to_string(reaction + 1), ""};
    if (base(share)) return share;
    if (!goes_on(reaction, substance))
      for (auto const& node : working_.nodes)
        if (node.quantity.word == "aliquot" && node.quantity.symbol == "n" && node.quantity.substance == substance)
          return node.quantity;
    if (was_left(reaction, substance)) return {"n", 0, substance, "left", ""};
    if (is_reactant_of(reaction, substance) && base("n", substance, "actual"))
      for (std::size_t r = 0; r < facts_.size(); ++r)
        if (r != reaction && !is_reactant_of(r, substance) &&
            std::any_of(facts_[r].begin(), facts_[r].end(), [&](SpeciesFacts const& s) { return s.substance == substance; }))
          return {"n", 0, substance, "actual", ""};
    return {"n", 0, substance, "", ""};
  }

  /// Whether a later reaction uses what this one leaves of a reactant.
  bool goes_on(std::size_t reaction, std::string const& substance) const {
    for (std::size_t r = reaction + 1; r < facts_.size(); ++r)
      if (is_reactant_of(reaction, substance) && was_left(r, substance)) return true;
    return false;
  }

  void differs(std::string const& what, Rational const& worked, Rational const& expected) {
    if (!fault_.empty() || worked == expected) return;
    // What came through a logarithm has its fifty digits.
    if ((worked - expected).absolute() <= expected.absolute() * Rational::power_of_ten(8 - logarithm_digits)) return;
    fault_ = what + ": worked " + unrounded(worked, 10) + ", by extents of reaction " + unrounded(expected, 10);
  }

  /// Whether `node` reads, at however many steps, one that `wanted` accepts.
  template <class Wanted>
  bool rests_on(Node const& node, Wanted wanted) const {
    return std::any_of(node.definition.terms.begin(), node.definition.terms.end(), [&](Term const& term) {
      auto const& read = working_.nodes[static_cast<std::size_t>(term.node)];
      return wanted(read) || rests_on(read, wanted);
    });
  }
  bool rests_on(Quantity const& a, Quantity const& b) const {
    int const at = working_.find_node(plain(a));
    return at >= 0 &&
           rests_on(working_.nodes[static_cast<std::size_t>(at)], [&](Node const& read) { return read.quantity == b; });
  }
  /// Whether an amount was worked out by the coefficients of this reaction, rather than from data of its own.
  bool comes_from(std::size_t reaction, Quantity const& amount) const {
    int const stage = reaction == 0 ? 0 : static_cast<int>(reaction) + 1;
    int const at = working_.find_node(plain(amount));
    return at >= 0 && rests_on(working_.nodes[static_cast<std::size_t>(at)], [&](Node const& read) {
             return read.relation == relations::coefficient && read.quantity.stage == stage;
           });
  }

  /// What one species of a reaction is in this working.
  struct Taking {
    SpeciesFacts const* species;
    Quantity portion;                ///< that takes part
    std::optional<Rational> amount;  ///< of it
    bool derived;                    ///< by the coefficients of this reaction, rather than from data of its own
    bool goes_on;                    ///< a later reaction uses what this one leaves
  };
  std::vector<Taking> takings(std::size_t reaction) const {
    std::vector<Taking> out;
    for (auto const& species : facts_[reaction]) {
      Taking taking{&species, portion(reaction, species.substance), std::nullopt, false, goes_on(reaction, species.substance)};
      if (is_crystal_water(species.substance)) {  // that of the hydrate, not of this reaction
        out.push_back(std::move(taking));
        continue;
      }
      taking.amount = base(taking.portion);
      if (taking.amount) taking.derived = comes_from(reaction, taking.portion);
      out.push_back(std::move(taking));
    }
    return out;
  }

  /// The extent: fixed by the scarcest reactant whose amount is there on its own, else by a product whose amount is, else by any
  /// species that has an amount.
  std::optional<Rational> extent(std::vector<Taking> const& all) const {
    std::optional<Rational> least, any, product;
    auto const& excess = worked_.problem.excess;
    for (auto const& taking : all) {
      if (!taking.amount || taking.goes_on) continue;
      auto possible = *taking.amount / taking.species->coefficient;
      if (!any) any = possible;
      if (taking.derived) continue;
      if (!taking.species->reactant) {
        if (!product) product = std::move(possible);
      } else if (std::find(excess.begin(), excess.end(), taking.species->substance) == excess.end()) {
        if (!least || possible < *least) least = std::move(possible);
      }
    }
    return least ? least : product ? product : any;
  }

  void check_reaction(std::size_t reaction) {
    auto const all = takings(reaction);
    auto const xi = extent(all);
    if (!xi) return;
    std::map<std::string_view, Rational> atoms;
    Rational charge, mass;
    for (auto const& taking : all) {
      auto const& species = *taking.species;
      auto const changed = species.coefficient * *xi;
      auto const signed_change = species.reactant ? -changed : changed;
      if (species.known)
        for (auto const& [symbol, count] : species.known->composition) atoms[symbol] += signed_change * Rational(count);
      charge += signed_change * Rational(species.charge);
      mass += signed_change * species.molar_mass;
      // An amount with data of its own need not be that of the extent: those data agree within their figures, not exactly.
      if (taking.amount && taking.derived) differs(plain(taking.portion), *taking.amount, changed);
      if (!species.reactant || was_left(reaction, species.substance)) continue;
      if (auto const used = base("n", species.substance, "used")) differs("n(" + species.substance + ", used)", *used, changed);
      if (auto const left = base("n", species.substance, "left"); left && taking.amount) {
        differs("n(" + species.substance + ", left)", *left, *taking.amount - changed);
        if (left->sign() < 0) fault_ = "less than nothing is left of " + species.substance;
      }
    }
    for (auto const& [symbol, change] : atoms)
      if (change.sign() != 0) fault_ = "atoms of " + std::string(symbol) + " are not conserved";
    if (charge.sign() != 0) fault_ = "charge is not conserved";
    if (mass.sign() != 0) fault_ = "mass is not conserved";
  }

  /// m = nM and n = cV, each from the values alone, wherever all stand in the working and one was worked out from another.
  void check_definitions() {
    for (auto const& node : working_.nodes) {
      auto const& q = node.quantity;
      if (q.symbol != "n" || !q.part.empty() || node.id != plain(q)) continue;
      auto const amount = node.value.number * node.value.unit.factor;
      auto const of = [&](char const* symbol) { return base(Quantity{symbol, q.stage, q.substance, q.word, ""}); };
      auto const formula = known_formula(q.substance);
      auto const same = [&](char const* symbol) { return Quantity{symbol, q.stage, q.substance, q.word, ""}; };
      auto const linked = [&](Quantity const& other) { return rests_on(q, other) || rests_on(other, q); };
      auto const m = of("m");
      if (m && linked(same("m")) && formula && molar_mass_from_table(q.substance))
        differs("m(" + q.substance + ")", *m, amount * molar_mass(*formula, conventions_));
      auto const c = of("c"), v = of("V");
      if (c && v && !taken_apart(q) && in_one_step(q, same("V")) && (linked(same("c")) || linked(same("V"))))
        differs("n(" + q.substance + ")", amount, *c * *v);
    }
  }
  bool molar_mass_from_table(std::string const& substance) const {
    int const at = working_.find_node("M(" + substance + ")");
    return at >= 0 && working_.nodes[static_cast<std::size_t>(at)].relation == relations::molar_mass;
  }
  /// Whether some node of the substance is worked out by n = cV with this very volume, not with that of a mixture.
  bool in_one_step(Quantity const& q, Quantity const& volume) const {
    return std::any_of(working_.nodes.begin(), working_.nodes.end(), [&](Node const& node) {
      if (node.relation != "n = cV" || node.quantity.substance != q.substance || node.quantity.stage != q.stage) return false;
      return node.quantity == volume ||
             std::any_of(node.definition.terms.begin(), node.definition.terms.end(), [&](Term const& term) {
               return working_.nodes[static_cast<std::size_t>(term.node)].quantity == volume;
             });
    });
  }
  /// In a reaction the amount of a product or of what is used need not be that of a solution named after it.
  bool taken_apart(Quantity const& q) const { return q.word == "left" || q.word == "used"; }

  Worked const& worked_;
  Working const& working_;
  std::vector<ReactionFacts> const& facts_;
  Conventions const& conventions_;
  std::string fault_;
};
}  // namespace

std::string conservation_fault(Worked const& worked, Conventions const& conventions) {
  std::vector<ReactionFacts> facts;
  for (auto const& reaction : worked.problem.reactions) facts.push_back(facts_of(reaction.equation, conventions));
  for (auto const& working : worked.accepted) {
    auto const found = Ledger(worked, working, facts, conventions).check();
    if (!found.empty()) return found;
  }
  // Every accepted working must lead to the same number.
  for (std::size_t f = 0; f < worked.accepted.front().finds.size(); ++f) {
    auto const number = [&](Working const& w) {
      auto const& value = w.nodes[static_cast<std::size_t>(w.finds[f].node)].value;
      return value.number * value.unit.factor;
    };
    for (auto const& working : worked.accepted)
      if (auto const first = number(worked.accepted.front());
          (number(working) - first).absolute() > first.absolute() * Rational::power_of_ten(8 - logarithm_digits))
        return "two accepted workings of part " + std::to_string(f + 1) + " do not agree";
  }
  return {};
}

}  // namespace molewright
