#include "engine/conservation.h"

#include <algorithm>
#include <map>

#include "engine/element.h"
#include "engine/formula_memo.h"
#include "engine/logarithm.h"
#include "engine/substance.h"

namespace molewright {
namespace {

/// A species of a balanced reaction: what every working of the problem is held against.
struct SpeciesFacts {
  std::string substance;
  bool reactant;
  Rational coefficient;
  int charge;
  std::shared_ptr<KnownFormula const> known;
  Rational molar_mass;  ///< what is not known in a formula weighs nothing here: it is conserved as an element is
};
using ReactionFacts = std::vector<SpeciesFacts>;

Rational molar_mass(KnownFormula const& known, Conventions const& conventions) {
  Rational mass;
  for (auto const& [symbol, count] : known.composition)
    if (find_element(symbol)) mass += Rational(count) * conventions.weights.weight(symbol).value;
  return mass;
}

ReactionFacts facts_of(Equation const& equation, Conventions const& conventions) {
  ReactionFacts out;
  for (auto const* side : {&equation.left, &equation.right})
    for (auto const& species : *side) {
      SpeciesFacts facts{plain(species.formula), side == &equation.left, species.coefficient, species.formula.charge, {}, {}};
      facts.known = known_formula(facts.substance);
      if (!facts.known) facts.known = formula_of_unknown(facts.substance);
      if (facts.known) facts.molar_mass = molar_mass(*facts.known, conventions);
      out.push_back(std::move(facts));
    }
  return out;
}

/// What a mole of the reaction, as its equation has it, makes or loses; any other extent is a multiple of it.
std::string unbalanced(ReactionFacts const& facts) {
  std::map<std::string_view, Rational> atoms;
  Rational charge, mass;
  for (auto const& species : facts) {
    auto const change = species.reactant ? -species.coefficient : species.coefficient;
    if (species.known)
      for (auto const& [symbol, count] : species.known->composition) atoms[symbol] += change * Rational(count);
    charge += change * Rational(species.charge);
    mass += change * species.molar_mass;
  }
  if (mass.sign() != 0) return "mass is not conserved";
  if (charge.sign() != 0) return "charge is not conserved";
  for (auto const& [symbol, change] : atoms)
    if (change.sign() != 0) return "atoms of " + std::string(symbol) + " are not conserved";
  return {};
}

/// A quantity's number in base units.
Rational base(Working const& working, int node) {
  auto const& value = working.nodes[static_cast<std::size_t>(node)].value;
  return value.number * value.unit.factor;
}

/// What came through a logarithm has its fifty digits.
bool same_to_logarithms(Rational const& a, Rational const& b) {
  return a == b || (a - b).absolute() <= b.absolute() * Rational::power_of_ten(8 - logarithm_digits);
}
/// Finds in one working what is to be held against what.
class ConservationReader {
 public:
  ConservationReader(Worked const& worked, Working const& working, std::vector<ReactionFacts> const& facts,
                     Conventions const& conventions)
      : worked_(worked), working_(working), facts_(facts), conventions_(conventions) {}

  Conservation::OfWorking read() const {
    Conservation::OfWorking out;
    for (std::size_t r = 0; r < worked_.problem.reactions.size(); ++r) {
      if (worked_.problem.reactions[r].equation.right.empty()) continue;  // nothing happens
      Conservation::InReaction reaction;
      for (auto const& facts : facts_[r]) reaction.species.push_back(species(r, facts));
      reaction.unbalanced = unbalanced(facts_[r]);
      out.reactions.push_back(std::move(reaction));
    }
    for (auto const& node : working_.nodes) add_definitions(node, out.definitions);
    return out;
  }

 private:
  /// Node of a quantity; -1 where the working has none.
  int node_of(Quantity const& quantity) const {
    for (std::size_t i = 0; i < working_.nodes.size(); ++i) {
      auto const& node = working_.nodes[i];
      if (node.quantity == quantity &&
          !(node.relation == relations::reading || node.relation == relations::titre || node.relation == relations::batches) &&
          node.id.find(" from ") == std::string::npos)
        return static_cast<int>(i);
    }
    return -1;
  }
  int node_of(Symbol symbol, std::string const& substance, char const* word = "") const {
    return node_of(Quantity{symbol, 0, substance, word, ""});
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
    if (!is_reactant_of(reaction, substance) || node_of("n", substance, "left") < 0) return false;
    // As itself, or as an ion that the equation shows: hydroxide of sodium hydroxide.
    auto const ions = ions_of(substance);
    for (std::size_t r = 0; r < reaction; ++r)
      if (is_reactant_of(r, substance) ||
          std::any_of(ions.begin(), ions.end(), [&](IonCount const& one) { return is_reactant_of(r, one.ion); }))
        return true;
    return false;
  }
  /// The portion of a substance that takes part in a reaction: an aliquot of it, what an earlier reaction left or really yielded
  /// of it, or all.
  Quantity portion(std::size_t reaction, std::string const& substance) const {
    Quantity const share{"n", 0, substance, "reaction " + std::to_string(reaction + 1), ""};
    if (node_of(share) >= 0) return share;
    if (!goes_on(reaction, substance))
      for (auto const& node : working_.nodes)
        if (node.quantity.word == "aliquot" && node.quantity.symbol == "n" && node.quantity.substance == substance)
          return node.quantity;
    if (was_left(reaction, substance)) return {"n", 0, substance, "left", ""};
    if (is_reactant_of(reaction, substance) && node_of("n", substance, "actual") >= 0)
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
  Conservation::Species species(std::size_t reaction, SpeciesFacts const& facts) const {
    auto const& excess = worked_.problem.excess;
    Conservation::Species out;
    out.substance = facts.substance;
    out.reactant = facts.reactant;
    out.in_excess = std::find(excess.begin(), excess.end(), facts.substance) != excess.end();
    auto const& finds = worked_.problem.finds;
    out.rest_asked = std::any_of(finds.begin(), finds.end(), [&](Find const& f) {
      return f.quantity.substance == facts.substance && (f.quantity.word == "left" || f.quantity.word == "used");
    });
    out.coefficient = facts.coefficient;
    out.goes_on = goes_on(reaction, facts.substance);
    if (!is_crystal_water(facts.substance)) {  // that is of the hydrate, not of this reaction
      auto const taking_part = portion(reaction, facts.substance);
      out.amount = node_of(taking_part);
      out.derived = out.amount >= 0 && comes_from(reaction, taking_part);
    }
    if (facts.reactant && !was_left(reaction, facts.substance)) {
      out.used = node_of("n", facts.substance, "used");
      if (out.amount >= 0) out.left = node_of("n", facts.substance, "left");
    }
    return out;
  }

  /// m = nM and n = cV, wherever all stand in the working and one was worked out from another.
  void add_definitions(Node const& node, std::vector<Conservation::Definition>& out) const {
    auto const& q = node.quantity;
    if (q.symbol != "n" || !q.part.empty() || node.id != plain(q)) return;
    auto const same = [&](Symbol symbol) { return Quantity{symbol, q.stage, q.substance, q.word, ""}; };
    auto const linked = [&](Quantity const& other) { return rests_on(q, other) || rests_on(other, q); };
    Conservation::Definition definition;
    definition.amount = static_cast<int>(&node - working_.nodes.data());
    auto const formula = known_formula(q.substance);
    if (int const m = node_of(same("m")); m >= 0 && formula && molar_mass_from_table(q.substance) && linked(same("m"))) {
      definition.mass = m;
      definition.molar_mass = molar_mass(*formula, conventions_);
    }
    Quantity const unknown_mass{"M", 0, q.substance, "", ""};
    if (int const m = node_of(same("m"));
        m >= 0 && is_unknown(q.substance) && rests_on(unknown_mass, q) && rests_on(unknown_mass, same("m"))) {
      definition.mass = m;
      definition.found_molar_mass = node_of(unknown_mass);
    }
    int const c = node_of(same("c")), v = node_of(same("V"));
    if (c >= 0 && v >= 0 && !taken_apart(q) && in_one_step(q, same("V")) && (linked(same("c")) || linked(same("V")))) {
      definition.concentration = c;
      definition.volume = v;
    }
    if (definition.mass >= 0 || definition.volume >= 0) out.push_back(std::move(definition));
  }
  bool molar_mass_from_table(std::string const& substance) const {
    auto const& givens = worked_.problem.givens;
    bool const stated = std::any_of(givens.begin(), givens.end(), [&](Given const& given) {
      return given.quantity.symbol == "M" && given.quantity.substance == substance;
    });
    if (stated) return false;
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
};
}  // namespace

Conservation::Conservation(Worked const& worked, Conventions const& conventions) {
  std::vector<ReactionFacts> facts;
  for (auto const& reaction : worked.problem.reactions) facts.push_back(facts_of(reaction.equation, conventions));
  for (auto const& working : worked.accepted) workings_.push_back(ConservationReader(worked, working, facts, conventions).read());
}

namespace {

/// Holds the numbers of one working against each other.
class Ledger {
 public:
  explicit Ledger(Working const& working) : working_(working) {}

  std::string fault;

  /// `name` says what differs, where it does.
  template <class Name>
  void compare(Rational const& worked, Rational const& expected, Name const& name) {
    if (!fault.empty() || same_to_logarithms(worked, expected)) return;
    fault = name() + ": worked " + unrounded(worked, 10) + ", by extents of reaction " + unrounded(expected, 10);
  }
  Rational number(int node) const { return base(working_, node); }
  std::string name(int node) const { return plain(working_.nodes[static_cast<std::size_t>(node)].quantity); }

 private:
  Working const& working_;
};

/// The extent: fixed by the scarcest reactant whose amount is there on its own, else by a product whose amount is, else by any
/// species that has an amount.
std::optional<Rational> extent(std::vector<Conservation::Species> const& all, Ledger const& ledger) {
  std::optional<Rational> least, any, product;
  int measured = 0;  // reactants with data of their own
  bool rest_asked = false;
  for (auto const& species : all) {
    if (species.amount < 0 || species.goes_on) continue;
    auto possible = ledger.number(species.amount) / species.coefficient;
    if (!any) any = possible;
    if (species.derived) continue;
    if (!species.reactant) {
      if (!product) product = std::move(possible);
    } else if (!species.in_excess) {
      ++measured;
      rest_asked = rest_asked || species.rest_asked;
      if (!least || possible < *least) least = std::move(possible);
    }
  }
  // What is left of the one reactant that was measured is asked: then a measured product tells how far the reaction went.
  if (product && measured == 1 && rest_asked) return product;
  return least ? least : product ? product : any;
}

void check_reaction(Conservation::InReaction const& reaction, Ledger& ledger) {
  auto const xi = extent(reaction.species, ledger);
  if (!xi) return;
  for (auto const& species : reaction.species) {
    auto const changed = species.coefficient * *xi;
    // An amount with data of its own need not be that of the extent: those data agree within their figures, not exactly.
    if (species.derived) ledger.compare(ledger.number(species.amount), changed, [&] { return ledger.name(species.amount); });
    if (species.used >= 0)
      ledger.compare(ledger.number(species.used), changed, [&] { return "n(" + species.substance + ", used)"; });
    if (species.left >= 0) {
      auto const left = ledger.number(species.left);
      ledger.compare(left, ledger.number(species.amount) - changed, [&] { return "n(" + species.substance + ", left)"; });
      if (left.sign() < 0) ledger.fault = "less than nothing is left of " + species.substance;
    }
  }
  if (!reaction.unbalanced.empty() && xi->sign() != 0) ledger.fault = reaction.unbalanced;
}

void check_definition(Conservation::Definition const& definition, Working const& working, Ledger& ledger) {
  auto const amount = ledger.number(definition.amount);
  auto const& substance = working.nodes[static_cast<std::size_t>(definition.amount)].quantity.substance;
  if (definition.mass >= 0) {
    auto const& found = definition.found_molar_mass;
    auto const molar_mass = found >= 0 ? ledger.number(found) : definition.molar_mass;
    ledger.compare(ledger.number(definition.mass), amount * molar_mass, [&] { return "m(" + substance + ")"; });
  }
  if (definition.volume >= 0)
    ledger.compare(amount, ledger.number(definition.concentration) * ledger.number(definition.volume),
                   [&] { return "n(" + substance + ")"; });
}
}  // namespace

std::string Conservation::fault(Worked const& worked) const {
  for (std::size_t w = 0; w < workings_.size(); ++w) {
    Ledger ledger(worked.accepted[w]);
    for (auto const& reaction : workings_[w].reactions)
      if (ledger.fault.empty()) check_reaction(reaction, ledger);
    for (auto const& definition : workings_[w].definitions)
      if (ledger.fault.empty()) check_definition(definition, worked.accepted[w], ledger);
    if (!ledger.fault.empty()) return ledger.fault;
  }
  // Every accepted working must lead to the same number.
  for (std::size_t f = 0; f < worked.accepted.front().finds.size(); ++f) {
    auto const first = base(worked.accepted.front(), worked.accepted.front().finds[f].node);
    for (std::size_t w = 1; w < worked.accepted.size(); ++w)
      if (!same_to_logarithms(base(worked.accepted[w], worked.accepted[w].finds[f].node), first))
        return "two accepted workings of part " + std::to_string(f + 1) + " do not agree";
  }
  return {};
}

std::string conservation_fault(Worked const& worked, Conventions const& conventions) {
  return Conservation(worked, conventions).fault(worked);
}

}  // namespace molewright
