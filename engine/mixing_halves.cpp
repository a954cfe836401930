// Redox by half-reactions where the products are named ("MnO4^- + Br^- -> MnO2 + BrO3^- in base"): atoms by hand of water and
// H^+, charge by electrons, as it is taught. No table is asked, so whether the reaction runs is not said.
#include <algorithm>
#include <numeric>
#include <set>

#include "engine/formula_index.h"
#include "engine/mixing_rules.h"
#include "engine/mixing_words.h"

namespace molewright::mixing {
namespace {

using words::fill;

/// The elements that change hands: all but O and H, or those where there is nothing else.
std::set<std::string> marks(Formula const& formula) {
  std::set<std::string> all, others;
  for (auto const& [element, count] : formula.composition()) {
    all.insert(element);
    if (element != "O" && element != "H") others.insert(element);
  }
  return others.empty() ? all : others;
}

bool share(std::set<std::string> const& one, std::set<std::string> const& other) {
  return std::any_of(one.begin(), one.end(), [&](std::string const& element) { return other.count(element) != 0; });
}

std::int64_t count_of(Formula const& formula, std::string const& element) {
  auto const atoms = formula.composition();
  auto const place = atoms.find(element);
  return place == atoms.end() ? 0 : place->second;
}

void put(std::vector<Species>& side, Formula const& formula, std::int64_t number) {
  if (number == 0) return;
  for (auto& species : side)
    if (plain(species.formula) == plain(formula)) {
      species.coefficient += Rational(number);
      return;
    }
  Species species;
  species.coefficient = Rational(number);
  species.formula = formula;
  side.push_back(species);
}

/// `number` of it on the right, or of its opposite on the left.
void put_signed(Equation& equation, Formula const& formula, std::int64_t number) {
  put(number > 0 ? equation.right : equation.left, formula, number > 0 ? number : -number);
}

void cancel(Equation& equation) {
  for (auto& species : equation.left)
    for (auto& other : equation.right)
      if (plain(species.formula) == plain(other.formula)) {
        Rational const common = species.coefficient < other.coefficient ? species.coefficient : other.coefficient;
        species.coefficient -= common;
        other.coefficient -= common;
      }
  std::int64_t divisor = 0;
  for (auto* side : {&equation.left, &equation.right}) {
    side->erase(std::remove_if(side->begin(), side->end(), [](Species const& s) { return s.coefficient.sign() == 0; }),
                side->end());
    for (auto const& species : *side) {
      std::int64_t numerator = 0, denominator = 1;
      species.coefficient.fits(numerator, denominator);
      divisor = std::gcd(divisor, numerator);
    }
  }
  if (divisor > 1)
    for (auto* side : {&equation.left, &equation.right})
      for (auto& species : *side) species.coefficient /= Rational(divisor);
}

struct Half {
  Equation equation;
  std::int64_t electrons = 0;  ///< given (oxidation) where positive
};

std::optional<Half> half_of(Formula const& from, Formula const& to, bool base) {
  Formula const water = with_state(formula_in("H2O"), State::liquid), proton = with_state(formula_in("H^+"), State::aqueous),
                hydroxide = with_state(formula_in("OH^-"), State::aqueous);
  std::set<std::string> elements = marks(from);
  auto const more = marks(to);
  elements.insert(more.begin(), more.end());
  std::int64_t a = 0, b = 0;
  for (auto const& element : elements) {
    std::int64_t const left = count_of(from, element), right = count_of(to, element);
    if (left == 0 || right == 0) return std::nullopt;
    std::int64_t const multiple = std::lcm(left, right);
    if (a != 0 && a * left != b * right) return std::nullopt;
    if (a == 0) {
      a = multiple / left;
      b = multiple / right;
    }
  }
  Half half;
  put(half.equation.left, from, a);
  put(half.equation.right, to, b);
  std::int64_t const oxygen = elements.count("O") != 0 ? 0 : a * count_of(from, "O") - b * count_of(to, "O");
  put_signed(half.equation, water, oxygen);
  std::int64_t const protons = a * count_of(from, "H") - b * count_of(to, "H") - 2 * oxygen;
  put_signed(half.equation, base ? hydroxide : proton, base ? -protons : protons);
  if (base) put_signed(half.equation, water, protons);
  cancel(half.equation);
  std::int64_t charge = 0;
  for (auto* side : {&half.equation.left, &half.equation.right})
    for (auto const& species : *side) {
      std::int64_t numerator = 0, denominator = 1;
      species.coefficient.fits(numerator, denominator);
      charge += (side == &half.equation.left ? -1 : 1) * numerator * species.formula.charge;
    }
  half.electrons = charge;
  put_signed(half.equation, formula_in("e^-"), charge);
  if (charge == 0 || !is_balanced(half.equation)) return std::nullopt;
  return half;
}

/// What a formula brings: its ions where it is a dissolved salt or a strong acid, else itself.
std::vector<Formula> species_of(Formula const& formula) {
  std::vector<Formula> result;
  for (auto const& part : dissolved_ions(formula)) result.push_back(part.ion);
  return result.empty() ? std::vector<Formula>{formula} : result;
}

bool sets_the_scene(Formula const& formula) {
  std::string const key = plain(with_state(formula, State::none));
  return key == "H2O" || key == "H^+" || key == "OH^-" || key == "H3O^+";
}

}  // namespace

Answer by_half_reactions(std::vector<Reagent> const& reagents, Asked const& asked) {
  if (asked.wanted.empty()) return std::nullopt;
  std::vector<Formula> left, right;
  bool base = asked.medium == Medium::base;
  for (auto const& reagent : reagents)
    for (auto const& species : species_of(reagent.formula)) {
      base = base || (asked.medium == Medium::unsaid && plain(with_state(species, State::none)) == "OH^-");
      if (!sets_the_scene(species)) left.push_back(species);
    }
  for (auto const& product : asked.wanted)
    for (auto species : species_of(reagent_of({product, 0, false}).formula)) {
      bool const metal = std::any_of(species.parts[0].groups.begin(), species.parts[0].groups.end(),
                                     [](Group const& group) { return !group.element.empty() && is_metal(group.element); });
      if (species.state == State::none && metal) species.state = State::solid;
      if (!sets_the_scene(species)) right.push_back(species);
    }
  std::vector<Half> halves;
  for (auto const& from : left)
    for (auto const& to : right) {
      if (!share(marks(from), marks(to)) || plain(from) == plain(to)) continue;
      auto const half = half_of(from, to, base);
      if (!half) return std::nullopt;
      halves.push_back(*half);
    }
  if (halves.size() != 2 || (halves[0].electrons > 0) == (halves[1].electrons > 0)) return std::nullopt;
  if (halves[0].electrons > 0) std::swap(halves[0], halves[1]);
  std::int64_t const taken = -halves[0].electrons, given = halves[1].electrons, all = std::lcm(taken, given);
  Equation net;
  for (auto const& [half, own] : {std::pair{&halves[0], taken}, std::pair{&halves[1], given}})
    for (auto const& [from, to] : {std::pair{&half->equation.left, &net.left}, std::pair{&half->equation.right, &net.right}})
      for (auto const& species : *from) {
        std::int64_t numerator = 0, denominator = 1;
        species.coefficient.fits(numerator, denominator);
        if (!species.formula.electron) put(*to, species.formula, numerator * (all / own));
      }
  cancel(net);
  if (!holds(net)) return std::nullopt;
  Draft draft;
  draft.kind = "redox";
  bool const medium_used = std::any_of(halves.begin(), halves.end(), [](Half const& half) {
    return std::any_of(half.equation.left.begin(), half.equation.left.end(),
                       [](Species const& s) { return sets_the_scene(s.formula); });
  });
  if (medium_used || asked.medium != Medium::unsaid) draft.conditions = base ? words::in_base : words::in_acid;
  draft.because = fill(words::halves_of_named, {plain(halves[0].equation), plain(halves[1].equation)});
  draft.warnings = {words::products_named};
  return dressed(draft, net, reagents);
}

}  // namespace molewright::mixing
