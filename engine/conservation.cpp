#include <algorithm>
#include <map>

#include "engine/formula_memo.h"
#include "engine/logarithm.h"
#include "engine/solver.h"

// The second working of every problem. It shares nothing with the solver's relations: amounts before and after by extents of
// reaction, atoms, charge and mass counted from the formulas, and each quantity of a substance held against its definition.
namespace molewright {
namespace {

class Ledger {
 public:
  Ledger(Worked const& worked, Working const& working, Conventions const& conventions)
      : worked_(worked), working_(working), conventions_(conventions) {}

  std::string check() {
    for (std::size_t r = 0; r < worked_.problem.reactions.size() && fault_.empty(); ++r) check_reaction(r);
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

  /// The portion of a substance that takes part in a reaction: an aliquot of it, what an earlier reaction left of it, or all.
  Quantity portion(std::size_t reaction, std::string const& substance) const {
    auto const is_reactant_of = [&](std::size_t r) {
      auto const& left = worked_.problem.reactions[r].equation.left;
      return std::any_of(left.begin(), left.end(), [&](Species const& s) { return plain(s.formula) == substance; });
    };
    for (std::size_t r = 0; r < reaction; ++r)
      if (is_reactant_of(reaction) && is_reactant_of(r)) return {"n", 0, substance, "left", ""};
    Quantity const aliquot{"n", 0, substance, "aliquot", ""};
    return base(aliquot) ? aliquot : Quantity{"n", 0, substance, "", ""};
  }

  /// Whether a later reaction uses what this one leaves of a reactant.
  bool goes_on(std::size_t reaction, std::string const& substance) const {
    for (std::size_t r = reaction + 1; r < worked_.problem.reactions.size(); ++r)
      if (portion(r, substance).word == "left") return base("n", substance, "left").has_value();
    return false;
  }

  Rational molar_mass(KnownFormula const& known) const {
    Rational mass;
    for (auto const& [symbol, count] : known.composition) mass += Rational(count) * conventions_.weights.weight(symbol).value;
    return mass;
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

  /// The extent: fixed by the scarcest reactant whose amount is there on its own, else by a product whose amount is, else by any
  /// species that has an amount.
  std::optional<Rational> extent(std::size_t reaction) const {
    auto const& equation = worked_.problem.reactions[reaction].equation;
    std::optional<Rational> least, any, product;
    for (auto const* side : {&equation.left, &equation.right})
      for (auto const& species : *side) {
        auto const substance = plain(species.formula);
        auto const amount = base(portion(reaction, substance));
        if (!amount) continue;
        auto const possible = *amount / species.coefficient;
        if (!any && !goes_on(reaction, substance)) any = possible;
        if (comes_from(reaction, portion(reaction, substance))) continue;
        auto const& excess = worked_.problem.excess;
        if (side == &equation.right) {
          if (!product) product = possible;
        } else if (std::find(excess.begin(), excess.end(), substance) == excess.end() && !goes_on(reaction, substance)) {
          if (!least || possible < *least) least = possible;
        }
      }
    return least ? least : product ? product : any;
  }

  void check_reaction(std::size_t reaction) {
    auto const& equation = worked_.problem.reactions[reaction].equation;
    auto const xi = extent(reaction);
    if (!xi) return;
    std::map<std::string, Rational> atoms;
    Rational charge, mass;
    for (auto const* side : {&equation.left, &equation.right}) {
      Rational const sign(side == &equation.left ? -1 : 1);
      for (auto const& species : *side) {
        auto const substance = plain(species.formula);
        auto const changed = species.coefficient * *xi;
        auto const known = known_formula(substance);
        if (known)
          for (auto const& [symbol, count] : known->composition) atoms[symbol] += sign * changed * Rational(count);
        charge += sign * changed * Rational(species.formula.charge);
        if (known) mass += sign * changed * molar_mass(*known);
        // An amount with data of its own need not be that of the extent: those data agree within their figures, not exactly.
        auto const taking_part = portion(reaction, substance);
        auto const amount = base(taking_part);
        if (amount && comes_from(reaction, taking_part)) differs(plain(taking_part), *amount, changed);
        if (side == &equation.left && taking_part.word != "left") {
          if (auto const used = base("n", substance, "used")) differs("n(" + substance + ", used)", *used, changed);
          if (auto const left = base("n", substance, "left"); left && amount) {
            differs("n(" + substance + ", left)", *left, *amount - changed);
            if (left->sign() < 0) fault_ = "less than nothing is left of " + substance;
          }
        }
      }
    }
    for (auto const& [symbol, change] : atoms)
      if (change.sign() != 0) fault_ = "atoms of " + symbol + " are not conserved";
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
        differs("m(" + q.substance + ")", *m, amount * molar_mass(*formula));
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
  Conventions const& conventions_;
  std::string fault_;
};
}  // namespace

std::string conservation_fault(Worked const& worked, Conventions const& conventions) {
  for (auto const& working : worked.accepted) {
    auto const found = Ledger(worked, working, conventions).check();
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
