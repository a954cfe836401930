#include "engine/mixing_equations.h"

#include <algorithm>
#include <numeric>

#include "engine/mixing_observations.h"

namespace molewright::mixing {
namespace {

using Side = std::vector<Species>;

std::string written(Formula const& formula) { return plain(formula) + plain(formula.state); }

void add(Side& side, Formula const& formula, Rational const& coefficient) {
  for (auto& species : side)
    if (written(species.formula) == written(formula)) {
      species.coefficient += coefficient;
      return;
    }
  Species species;
  species.coefficient = coefficient;
  species.formula = formula;
  side.push_back(species);
}

Side once(std::vector<Formula> const& formulas) {
  Side side;
  for (auto const& formula : formulas) {
    if (std::none_of(side.begin(), side.end(), [&](Species const& s) { return written(s.formula) == written(formula); }))
      add(side, formula, Rational(1));
  }
  return side;
}

Side as_ions(Side const& side) {
  Side result;
  for (auto const& species : side) {
    auto const parts = dissolved_ions(species.formula);
    if (parts.empty()) add(result, species.formula, species.coefficient);
    for (auto const& part : parts) add(result, part.ion, species.coefficient * Rational(part.count));
  }
  return result;
}

/// Products as usually written: solids, what is dissolved, water, gases.
void put_in_order(Side& side) {
  auto const place = [](Species const& species) {
    switch (species.formula.state) {
      case State::solid:
        return 0;
      case State::liquid:
        return 2;
      case State::gas:
        return 3;
      case State::none:
      case State::aqueous:
        break;
    }
    return 1;
  };
  std::stable_sort(side.begin(), side.end(), [&](Species const& a, Species const& b) { return place(a) < place(b); });
}

/// Whole numbers without a common factor; false where they do not fit.
bool lowest_terms(Equation& equation) {
  std::int64_t multiple = 1, divisor = 0;
  for (auto* side : {&equation.left, &equation.right})
    for (auto const& species : *side) {
      std::int64_t numerator = 0, denominator = 1;
      if (!species.coefficient.fits(numerator, denominator) || numerator > 1000000000 || denominator > 1000000) return false;
      multiple = std::lcm(multiple, denominator);
      if (multiple > 1000000000) return false;
    }
  for (auto* side : {&equation.left, &equation.right})
    for (auto& species : *side) {
      species.coefficient *= Rational(multiple);
      std::int64_t numerator = 0, denominator = 1;
      if (!species.coefficient.fits(numerator, denominator)) return false;
      divisor = std::gcd(divisor, numerator);
    }
  if (divisor > 1)
    for (auto* side : {&equation.left, &equation.right})
      for (auto& species : *side) species.coefficient /= Rational(divisor);
  return true;
}

/// `ionic` without what stands on both sides; what vanishes wholly is a spectator.
Equation without_spectators(Equation const& ionic, std::vector<std::string>& spectators) {
  Equation net = ionic;
  for (auto& species : net.left)
    for (auto& other : net.right)
      if (written(species.formula) == written(other.formula)) {
        Rational const common = species.coefficient < other.coefficient ? species.coefficient : other.coefficient;
        species.coefficient -= common;
        other.coefficient -= common;
        if (species.coefficient.sign() == 0 && other.coefficient.sign() == 0) spectators.push_back(plain(species.formula));
      }
  for (auto* side : {&net.left, &net.right})
    side->erase(std::remove_if(side->begin(), side->end(), [](Species const& s) { return s.coefficient.sign() == 0; }),
                side->end());
  return net;
}

std::optional<Mixing> finished(Draft const& draft, Equation molecular, Equation ionic) {
  Mixing mixing;
  mixing.reacts = true;
  mixing.decided = true;
  mixing.kind = draft.kind;
  mixing.conditions = draft.conditions;
  mixing.because = draft.because;
  mixing.borderline = draft.borderline;
  mixing.warnings = draft.warnings;
  mixing.observations = draft.observations;
  mixing.net_ionic = without_spectators(ionic, mixing.spectators);
  if (mixing.net_ionic.left.empty() || mixing.net_ionic.right.empty() || !lowest_terms(mixing.net_ionic)) return std::nullopt;
  if (!holds(molecular) || !holds(ionic) || !holds(mixing.net_ionic)) return std::nullopt;
  mixing.molecular = std::move(molecular);
  mixing.ionic = std::move(ionic);
  observe(mixing, !draft.observations.empty());
  return mixing;
}

/// Whether a reagent holds `cation` together with an element of `anion` other than hydrogen and oxygen: the sodium of a sulfite
/// stays with the sulfate that it becomes.
bool came_together(Formula const& cation, Formula const& anion, std::vector<Reagent> const& reagents) {
  for (auto const& reagent : reagents) {
    auto const same = [&](Part const& part) { return plain(part.ion) == plain(cation); };
    if (std::none_of(reagent.parts.begin(), reagent.parts.end(), same)) continue;
    for (auto const& part : reagent.parts)
      for (auto const& [element, count] : part.ion.composition())
        if (part.ion.charge < 0 && element != "H" && element != "O" && anion.composition().count(element) != 0) return true;
  }
  return false;
}

/// A cation and an anion as one dissolved formula, and how many of them `charge` makes; nothing for H^+ with the anion of no
/// acid.
std::optional<Species> joined(Formula const& cation, Formula const& anion, Rational const& charge) {
  Species salt;
  if (plain(cation) == "H^+") {
    auto const parts = parts_of(anion);
    Acid const* const acid = parts.empty() ? nullptr : acid_with(parts[0].key);
    if (acid == nullptr) return std::nullopt;
    salt.formula = with_state(acid_spelled(*acid, parts[0]), State::aqueous);
    salt.coefficient = charge / Rational(acid->protons);
    return salt;
  }
  Part plus, minus;
  plus.ion = cation;
  minus.ion = anion;
  salt.formula = with_state(salt_of(plus, minus), State::aqueous);
  salt.coefficient = charge / Rational(std::lcm<std::int64_t>(cation.charge, -anion.charge));
  return salt;
}

/// Dissolved ions as the formulas of salts and acids. Where that can be done in more than one way: ions that came together stay
/// together, the rest joins those whose charges match, then as they come. Nothing where a cation would be shared out among
/// several anions for no reason but the order.
std::optional<Side> put_together(Side const& cations, Side const& anions, std::vector<Reagent> const& reagents) {
  std::vector<Rational> plus, minus;
  for (auto const& species : cations) plus.push_back(species.coefficient * Rational(species.formula.charge));
  for (auto const& species : anions) minus.push_back(species.coefficient * Rational(-species.formula.charge));
  Side salts;
  std::vector<int> partners(cations.size());
  enum class Pass { came_together, equal, rest };
  for (Pass const pass : {Pass::came_together, Pass::equal, Pass::rest})
    for (std::size_t i = 0; i < cations.size(); ++i)
      for (std::size_t j = 0; j < anions.size(); ++j) {
        auto const& cation = cations[i].formula;
        auto const& anion = anions[j].formula;
        if (pass == Pass::came_together && !came_together(cation, anion, reagents)) continue;
        if (pass == Pass::equal && plus[i] != minus[j]) continue;
        Rational const charge = std::min(plus[i], minus[j]);
        if (charge.sign() == 0) continue;
        auto const salt = joined(cation, anion, charge);
        if (!salt) return std::nullopt;
        add(salts, salt->formula, salt->coefficient);
        if (++partners[i] > 1 && cations.size() > 1) return std::nullopt;
        plus[i] -= charge;
        minus[j] -= charge;
      }
  return salts;
}

}  // namespace

bool holds(Equation const& equation) {
  if (equation.left.empty() || equation.right.empty()) return false;
  for (auto const* side : {&equation.left, &equation.right})
    for (auto const& species : *side)
      if (species.coefficient.sign() <= 0) return false;
  return is_balanced(equation);
}

Mixing undecided(std::string because) {
  Mixing mixing;
  mixing.because = std::move(because);
  return mixing;
}

Mixing nothing(std::string because, bool borderline) {
  Mixing mixing;
  mixing.decided = true;
  mixing.because = std::move(because);
  mixing.borderline = borderline;
  return mixing;
}

std::optional<Mixing> worked_out(Draft const& draft) {
  Equation molecular;
  molecular.left = once(draft.left);
  molecular.right = once(draft.right);
  put_in_order(molecular.right);
  auto const done = balanced(molecular);
  if (!ok(done)) return std::nullopt;
  Equation ionic;
  ionic.left = as_ions(value(done).left);
  ionic.right = as_ions(value(done).right);
  return finished(draft, value(done), ionic);
}

std::optional<Mixing> dressed(Draft const& draft, Equation const& net, std::vector<Reagent> const& reagents) {
  Equation molecular, ionic;
  bool formulas = true;  // false once a species has no reagent: then ions are all that can be written
  std::vector<Rational> needed(reagents.size());
  Side extra;  // H^+, OH^- or water that no reagent brings
  for (auto const& species : net.left) {
    std::string const key = plain(species.formula);
    bool found = false;
    for (std::size_t i = 0; i < reagents.size() && !found; ++i) {
      auto const& reagent = reagents[i];
      if (species.formula.charge == 0 && reagent.key == key) {
        needed[i] = std::max(needed[i], species.coefficient);
        found = true;
      }
      for (auto const& part : dissolved_ions(reagent.formula))
        if (!found && (plain(part.ion) == key || (species.formula.charge != 0 && part.key == key))) {
          needed[i] = std::max(needed[i], species.coefficient / Rational(part.count));
          found = true;
        }
    }
    if (found) continue;
    if (key != "H^+" && key != "OH^-" && key != "H2O") return std::nullopt;
    if (key != "H2O") formulas = false;
    extra.push_back(species);
  }
  Side given;
  for (std::size_t i = 0; i < reagents.size(); ++i) {
    if (needed[i].sign() == 0) {
      // Acid or base that only sets the scene is not used up.
      if (reagents[i].sort == Sort::water || reagents[i].sort == Sort::acid || reagents[i].sort == Sort::base) continue;
      return std::nullopt;
    }
    if (reagents[i].formula.charge != 0) formulas = false;
    add(given, reagents[i].formula, needed[i]);
  }
  molecular.left = given;
  ionic.left = as_ions(given);
  for (auto const& species : extra)
    for (auto* side : {&molecular.left, &ionic.left}) add(*side, species.formula, species.coefficient);
  // What is not used stands by.
  ionic.right = net.right;
  for (auto const& species : ionic.left) {
    Rational rest = species.coefficient;
    for (auto const& used : net.left)
      if (written(used.formula) == written(species.formula)) rest -= used.coefficient;
    if (rest.sign() < 0) return std::nullopt;
    if (rest.sign() > 0) add(ionic.right, species.formula, rest);
  }
  // The ions of the right side as salts, where they fit together in one way only.
  Side cations, anions;
  for (auto const& species : ionic.right) {
    if (species.formula.charge == 0 || species.formula.state != State::aqueous)
      add(molecular.right, species.formula, species.coefficient);
    else
      (species.formula.charge > 0 ? cations : anions).push_back(species);
  }
  // A solid would form besides (PbCl2): that is not for half-reactions alone to tell.
  for (auto const& cation : cations)
    for (auto const& anion : anions) {
      Part plus, minus;
      plus.ion = cation.formula;
      minus.ion = anion.formula;
      if (plain(cation.formula) == "H^+") continue;
      auto const verdict = dissolving(salt_of(plus, minus)).verdict;
      if (verdict == Dissolving::Verdict::insoluble || verdict == Dissolving::Verdict::slightly) return std::nullopt;
    }
  if (cations.empty() != anions.empty()) formulas = false;
  if (formulas) {
    auto const salts = put_together(cations, anions, reagents);
    if (salts)
      for (auto const& salt : *salts) add(molecular.right, salt.formula, salt.coefficient);
    formulas = salts.has_value();
  }
  put_in_order(molecular.right);
  put_in_order(ionic.right);
  if (!lowest_terms(ionic)) return std::nullopt;
  if (formulas) formulas = lowest_terms(molecular) && holds(molecular);
  if (formulas) {
    ionic.left = as_ions(molecular.left);
    ionic.right = as_ions(molecular.right);
  }
  return finished(draft, formulas ? molecular : ionic, ionic);
}

}  // namespace molewright::mixing
