// Reactions under review: do they balance, do they happen, and which reagent would do instead.
#include <algorithm>

#include "engine/completion.h"
#include "engine/consistency.h"
#include "engine/lists.h"
#include "engine/mixing.h"
#include "engine/substance.h"
#include "engine/tsv.h"
#include "generators/review_parts.h"

namespace molewright {
namespace data {
extern std::string_view const school_limits_tsv;
}
namespace reviewing {
namespace {

std::string side_text(std::vector<Species> const& side) {
  std::vector<std::string> formulas;
  for (auto const& species : side) formulas.push_back(plain(species.formula));
  return enumerated(formulas);
}

std::string name_in_equation(Formula formula) {
  formula.state = State::none;
  return anhydrous_plain(plain(formula));
}

bool holds(std::vector<Species> const& side, std::string const& substance) {
  return std::any_of(side.begin(), side.end(), [&](Species const& s) { return name_in_equation(s.formula) == substance; });
}

std::vector<std::string> const& usual_reagents() {
  static std::vector<std::string> const all = [] {
    std::vector<std::string> names{"Mg", "Zn", "Fe", "Al", "Cu", "Cl2", "Br2"};
    TsvTable const table(data::school_limits_tsv);
    for (std::size_t row = 0; row < table.size(); ++row) names.emplace_back(table.cell(row, table.column("substance")));
    names.emplace_back("NaCl");
    names.emplace_back("KCl");
    return names;
  }();
  return all;
}

/// Usual reagents that give `product` with `kept`, three at most; the harmless ones first, as far as cautions tell.
std::vector<std::string> that_would(Formula kept, std::string const& product) {
  kept.state = State::none;
  std::vector<std::string> good, harsh;
  for (auto const& candidate : usual_reagents()) {
    auto const formula = parse_formula(candidate);
    if (!ok(formula) || candidate == name_in_equation(kept)) continue;
    auto const mixed = mix(std::vector<Formula>{kept, value(formula)});
    if (!ok(mixed) || !value(mixed).reacts || !holds(value(mixed).molecular.right, product)) continue;
    auto const caution = caution_for(candidate);
    bool const harmful = caution && (caution->hazards.find("H3") != std::string::npos);
    (harmful ? harsh : good).push_back(candidate);
  }
  good.insert(good.end(), harsh.begin(), harsh.end());
  if (good.size() > 3) good.resize(3);
  return good;
}

void say_no_such(Review& review, Reaction const& reaction, std::string const& because) {
  auto const& equation = reaction.equation;
  std::string mend;
  // What is asked first, then solids and gases, then the rest.
  std::vector<std::string> products;
  for (auto const& find : review.problem.finds) products.push_back(anhydrous_plain(find.quantity.substance));
  for (auto const& species : equation.right)
    if (species.formula.state == State::solid || species.formula.state == State::gas)
      products.push_back(name_in_equation(species.formula));
  for (auto const& species : equation.right) products.push_back(name_in_equation(species.formula));
  for (auto const& product : products) {
    if (!mend.empty() || !holds(equation.right, product)) continue;
    for (auto const& species : equation.left) {
      auto const would = that_would(species.formula, product);
      if (would.empty()) continue;
      mend = "with " + name_in_equation(species.formula) + ", " + either(would) + " would give " + product;
      break;
    }
  }
  if (mend.empty()) mend = "choose reagents that form a solid, water or a gas";
  review.say(
      "no-such-reaction", reaction.place.line,
      {{"reactants", side_text(equation.left)}, {"products", side_text(equation.right)}, {"because", because}, {"mend", mend}});
}

/// An ion or element of a product that no reagent brings: then it is the reagent that is wrong, not the counting.
std::string not_brought(Equation const& equation) {
  if (equation.left.size() != 2) return "";
  for (auto const& species : equation.left)
    if (ions_of(name_in_equation(species.formula)).empty()) return "";
  for (auto const& product : equation.right)
    for (auto const& ion : ions_of(name_in_equation(product.formula))) {
      bool const there = std::any_of(equation.left.begin(), equation.left.end(), [&](Species const& s) {
        auto const ions = ions_of(name_in_equation(s.formula));
        return std::any_of(ions.begin(), ions.end(), [&](IonCount const& own) { return own.ion == ion.ion; });
      });
      if (!there) return "neither of them brings " + ion.ion + " for " + name_in_equation(product.formula);
    }
  return "";
}

void look_at_states(Review& review, Reaction const& reaction) {
  auto const& equation = reaction.equation;
  bool const in_water =
      std::any_of(equation.left.begin(), equation.left.end(), [](Species const& s) { return s.formula.state == State::aqueous; });
  for (auto const* side : {&equation.left, &equation.right})
    for (auto const& species : *side) {
      auto const substance = name_in_equation(species.formula);
      auto const* known = solubility(substance);
      if (known == nullptr) continue;
      if (species.formula.state == State::aqueous && known->verdict == Solubility::Verdict::insoluble)
        review.say("wrong-state", reaction.place.line,
                   {{"substance", substance},
                    {"state", "aq"},
                    {"because", "it hardly dissolves in water"},
                    {"mend", substance + "(s)"}});
      bool const crystallised = species.formula.parts.size() > 1;  // with its water: left to crystallise
      if (side == &equation.right && in_water && !crystallised && species.formula.state == State::solid &&
          known->verdict == Solubility::Verdict::soluble)
        review.say("wrong-state", reaction.place.line,
                   {{"substance", substance}, {"state", "s"}, {"because", "it stays dissolved"}, {"mend", substance + "(aq)"}});
    }
}

void look_at_happening(Review& review, Reaction const& reaction) {
  Mixture mixture;
  for (auto const& species : reaction.equation.left) {
    if (species.formula.electron) return;
    Reactant reactant;
    reactant.formula = species.formula;
    mixture.reactants.push_back(reactant);
  }
  if (mixture.reactants.size() > 6) return;
  for (auto const& species : reaction.equation.right) mixture.wanted.push_back(species.formula);
  auto const mixed = mix(mixture);
  if (!ok(mixed)) return;
  auto const& outcome = value(mixed);
  if (!outcome.decided || outcome.borderline) return;
  if (!outcome.reacts) return say_no_such(review, reaction, outcome.because);
  // Only what is certain: salts that change partners. Elsewhere the conditions decide what forms.
  if (outcome.kind != "precipitation") return;
  for (auto const& species : reaction.equation.right) {
    auto const product = name_in_equation(species.formula);
    if (holds(outcome.molecular.right, product) || holds(outcome.net_ionic.right, product) || species.formula.charge != 0)
      continue;
    return say_no_such(review, reaction, "they give " + side_text(outcome.molecular.right));
  }
}
}  // namespace

namespace {
std::string how_to_complete(Equation const& equation, std::vector<std::string> const& excess) {
  auto const whole = completed(equation, excess);
  return whole ? "write " + plain(whole->equation) : "complete or correct the substances of the equation";
}
}  // namespace

void look_at_reactions(Review& review) {
  for (auto const& reaction : review.problem.reactions) {
    auto const& equation = reaction.equation;
    if (equation.right.empty()) continue;
    auto const made = balanced(equation);
    if (!ok(made) && fault(made).id == "no-solution") {
      if (auto const because = not_brought(equation); !because.empty())
        say_no_such(review, reaction, because);
      else
        review.say("impossible-equation", reaction.place.line,
                   {{"because", fault(made).what}, {"mend", how_to_complete(equation, review.problem.excess)}});
      continue;
    }
    bool counted = false;
    for (auto const* side : {&equation.left, &equation.right})
      for (auto const& species : *side) counted = counted || species.coefficient != Rational(1);
    if (ok(made) && counted && !is_balanced(equation))
      review.say("unbalanced-equation", reaction.place.line, {{"right", plain(value(made))}});
    if (ok(made))
      if (auto const never = does_not_happen(value(made))) {
        say_no_such(review, reaction, never->what);
        continue;
      }
    look_at_states(review, reaction);
    if (!review.said("wrong-state")) look_at_happening(review, reaction);
  }
}

}  // namespace reviewing
}  // namespace molewright
