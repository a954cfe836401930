#include "engine/stated.h"

#include <algorithm>

#include "engine/mixing.h"
#include "engine/mixing_reagent.h"
#include "engine/nomenclature.h"
#include "engine/outcome.h"
#include "engine/salt.h"
#include "engine/stated_words.h"
#include "engine/steps_words.h"
#include "engine/substance.h"
#include "engine/working.h"

namespace molewright {
namespace {

using Lines = std::vector<Statement>;
using Outcome = std::variant<Lines, PlacedFault>;

std::string key_of(Formula formula) {
  formula.state = State::none;
  return plain(formula);
}

std::string listed(std::vector<std::string> const& items, char const* between) {
  std::string out;
  for (auto const& item : items) out += (out.empty() ? "" : between) + item;
  return out;
}

bool about_what_happens(Find::Kind kind) {
  return kind == Find::Kind::reaction || kind == Find::Kind::ionic_equation || kind == Find::Kind::precipitate;
}

std::string mixed(Mixture const& mixture) {
  std::vector<std::string> names;
  for (auto const& reactant : mixture.reactants) names.push_back(key_of(reactant.formula));
  return listed(names, " + ");
}

/// What happens, where the tables leave no doubt of it.
std::variant<Mixing, Fault> settled(Mixture const& mixture) {
  auto const result = mix(mixture);
  if (!ok(result)) return fault(result);
  auto const& found = value(result);
  if (!found.decided) return Fault{"not-decided", words::undecided(mixed(mixture), found.because), words::other_substances, 0};
  if (found.borderline) return Fault{"borderline", words::borderline(mixed(mixture), found.because), words::other_substances, 0};
  return found;
}

Mixture mixture_of(Problem const& problem, Reaction const& reaction) {
  Mixture mixture;
  for (auto const& species : reaction.equation.left) {
    auto const& excess = problem.excess;
    bool const plenty = std::find(excess.begin(), excess.end(), plain(species.formula)) != excess.end();
    mixture.reactants.push_back({species.formula, 0, plenty});
  }
  for (auto const& species : reaction.equation.right) mixture.wanted.push_back(species.formula);
  return mixture;
}

bool every_state_written(Equation const& equation) {
  for (auto const* side : {&equation.left, &equation.right})
    for (auto const& species : *side)
      if (species.formula.state == State::none && !species.formula.electron) return false;
  return true;
}

bool same_substances(std::vector<Species> const& a, std::vector<Species> const& b) {
  auto const keys = [](std::vector<Species> const& side) {
    std::vector<std::string> out;
    for (auto const& species : side) out.push_back(key_of(species.formula));
    std::sort(out.begin(), out.end());
    return out;
  };
  return keys(a) == keys(b);
}

/// The reaction in its three forms. Where the author wrote both sides with all states, theirs are taken.
std::variant<Mixing, Fault> in_ions(Problem const& problem, Reaction const& reaction) {
  auto const& equation = reaction.equation;
  if (every_state_written(equation)) {
    if (auto const found = ionic_forms(equation)) return *found;
    return Fault{"no-ionic-equation", words::nothing_left(plain(equation)), words::dissolved_substances, 0};
  }
  auto found = settled(mixture_of(problem, reaction));
  if (std::holds_alternative<Fault>(found)) return found;
  auto const& mixing = std::get<Mixing>(found);
  if (!mixing.reacts || !same_substances(mixing.molecular.right, equation.right))
    return Fault{"states-needed", words::states_needed(plain(equation)), words::states, 0};
  return found;
}

std::string written(Equation const& equation) { return plain(equation); }

/// Formulas of both sides without numbers before them.
Equation without_numbers(Equation equation) {
  for (auto* side : {&equation.left, &equation.right})
    for (auto& species : *side) species.coefficient = Rational(1);
  return equation;
}

Lines equation_lines(Equation const& equation) {
  return {{relations::skeleton, relations::skeleton, "", "", written(without_numbers(equation)), {}},
          {relations::balanced_equation, relations::balanced_equation, "", "", written(equation), {0}}};
}

Outcome ionic_lines(Problem const& problem, Reaction const& reaction) {
  if (reaction.equation.right.empty()) return Lines{{relations::net_ionic, relations::net_ionic, "", "", relations::nothing, {}}};
  auto const found = in_ions(problem, reaction);
  if (auto const* fault = std::get_if<Fault>(&found)) return at(reaction.place, *fault);
  auto const& mixing = std::get<Mixing>(found);
  auto lines = equation_lines(mixing.molecular);
  lines.push_back({relations::full_ionic, relations::full_ionic, "", "", written(mixing.ionic), {lines.size() - 1}});
  if (!mixing.spectators.empty())
    lines.push_back({relations::spectators, relations::spectators, "", "", listed(mixing.spectators, ", "), {lines.size() - 1}});
  lines.push_back({relations::net_ionic, relations::net_ionic, "", "", written(mixing.net_ionic), {lines.size() - 1}});
  return lines;
}

/// The salts that could form where two salts exchange their ions and nothing comes of it.
std::vector<Formula> exchanged_salts(std::vector<Species> const& left) {
  if (left.size() != 2) return {};
  auto const first = mixing::parts_of(left[0].formula), second = mixing::parts_of(left[1].formula);
  if (first.size() != 2 || second.size() != 2) return {};
  if (first[0].key == second[0].key || first[1].key == second[1].key) return {};
  if (first[0].key == "H^+" || second[0].key == "H^+") return {};
  return {mixing::salt_of(first[0], second[1]), mixing::salt_of(second[0], first[1])};
}

Outcome precipitate_lines(Problem const& problem, Reaction const& reaction) {
  std::vector<Formula> products;
  if (reaction.equation.right.empty()) {
    products = exchanged_salts(reaction.equation.left);
    for (auto& salt : products) salt.state = State::aqueous;
  } else {
    auto equation = reaction.equation;
    if (!every_state_written(equation)) {
      auto const found = in_ions(problem, reaction);
      if (auto const* fault = std::get_if<Fault>(&found)) return at(reaction.place, *fault);
      equation = std::get<Mixing>(found).molecular;
    }
    for (auto const& species : equation.right) {
      bool const stood_before = std::any_of(equation.left.begin(), equation.left.end(), [&](Species const& before) {
        return before.formula.state == State::solid && key_of(before.formula) == key_of(species.formula);
      });
      if (!stood_before) products.push_back(species.formula);
    }
  }
  Lines lines;
  std::vector<std::string> solids;
  std::vector<std::size_t> all;
  for (auto const& product : products) {
    if (product.state != State::solid && product.state != State::aqueous) continue;
    auto const key = key_of(product);
    bool const solid = product.state == State::solid;
    if (solid) solids.push_back(key);
    all.push_back(lines.size());
    lines.push_back({key + " in water", relations::in_water, key, "", solid ? words::insoluble : words::soluble, {}});
  }
  auto const says = solids.empty() ? std::string(relations::nothing) : listed(solids, ", ");
  lines.push_back({relations::precipitate, relations::precipitate, "", "", says, all});
  return lines;
}

/// The ions, and the water of crystallisation, that a name or a formula is put together from.
Lines parts_of_a_name(std::string const& substance) {
  Lines lines;
  for (auto const& ion : ions_of(substance))
    lines.push_back({"ion " + ion.ion, relations::ion, ion.ion, "", std::to_string(ion.count), {}});
  auto const formula = parse_formula(substance);
  if (ok(formula) && waters(value(formula)) > 0)
    lines.push_back({relations::crystal_water, relations::crystal_water, "H2O", "", std::to_string(waters(value(formula))), {}});
  return lines;
}

Outcome name_lines(Find const& find, Conventions const& conventions) {
  bool const name_asked = find.kind == Find::Kind::name;
  auto const name = name_of(find.substance, conventions.naming);
  if (name.empty()) return at(find.place, {"no-name", words::no_name(find.substance), words::named_substance, 0});
  auto const back = identify(name);
  if (!ok(back) || value(back).formula != find.substance)
    return at(find.place, {"name-not-unique", words::name_not_unique(name), words::named_substance, 0});
  auto lines = parts_of_a_name(find.substance);
  std::vector<std::size_t> all;
  for (std::size_t i = 0; i < lines.size(); ++i) all.push_back(i);
  auto const* relation = name_asked ? relations::name : relations::formula;
  lines.push_back(
      {std::string(relation) + " of " + find.substance, relation, find.substance, "", name_asked ? name : find.substance, all});
  return lines;
}

/// The solids that a reagent forms with a salt, as a precipitate is said.
std::variant<std::string, Fault> solids_of(std::string const& reagent, std::string const& salt) {
  Mixture mixture;
  for (auto const& text : {reagent, salt}) {
    auto const formula = parse_formula(text);
    if (!ok(formula)) return fault(formula);
    mixture.reactants.push_back({value(formula), 0, false});
  }
  auto const found = settled(mixture);
  if (auto const* fault = std::get_if<Fault>(&found)) return *fault;
  std::vector<std::string> solids;
  for (auto const& species : std::get<Mixing>(found).molecular.right)
    if (species.formula.state == State::solid) solids.push_back(key_of(species.formula));
  return solids.empty() ? std::string(relations::nothing) : listed(solids, ", ");
}

Outcome reagent_lines(Find const& find) {
  Lines lines;
  std::vector<std::string> that_do;
  for (auto const& reagent : find.reagents) {
    bool does = true;
    for (auto const* salts : {&find.with, &find.without})
      for (auto const& salt : *salts) {
        auto const found = solids_of(reagent, salt);
        if (auto const* fault = std::get_if<Fault>(&found)) return at(find.place, *fault);
        auto const& solids = std::get<std::string>(found);
        does = does && (solids != relations::nothing) == (salts == &find.with);
        lines.push_back({reagent + " with " + salt, relations::on_mixing, reagent, salt, solids, {}});
      }
    if (does) that_do.push_back(reagent);
  }
  if (that_do.empty()) return at(find.place, {"no-reagent", words::no_reagent, words::another_reagent, 0});
  if (that_do.size() > 1)
    return at(find.place, {"several-reagents", words::several_reagents(listed(that_do, ", ")), words::one_reagent, 0});
  std::vector<std::size_t> all;
  for (std::size_t i = 0; i < lines.size(); ++i) all.push_back(i);
  lines.push_back({relations::reagent, relations::reagent, that_do.front(), "", that_do.front(), all});
  return lines;
}
}  // namespace

bool asks_what_happens(Problem const& problem) {
  return std::any_of(problem.finds.begin(), problem.finds.end(), [](Find const& find) { return about_what_happens(find.kind); });
}

std::optional<PlacedFault> complete_reactions(Problem& problem) {
  if (!asks_what_happens(problem)) return std::nullopt;
  for (auto& reaction : problem.reactions) {
    if (!reaction.equation.right.empty()) continue;
    auto const found = settled(mixture_of(problem, reaction));
    if (auto const* fault = std::get_if<Fault>(&found)) return at(reaction.place, *fault);
    if (auto const& mixing = std::get<Mixing>(found); mixing.reacts) reaction.equation = mixing.molecular;
  }
  return std::nullopt;
}

std::variant<std::vector<Statement>, PlacedFault> statements(Problem const& problem, Find const& find,
                                                             Conventions const& conventions) {
  if (about_what_happens(find.kind) && problem.reactions.empty())
    return at(find.place, {"no-reaction-line", words::no_reaction(plain(find)), words::a_reaction_line, 0});
  switch (find.kind) {
    case Find::Kind::reaction: {
      auto const& equation = problem.reactions.front().equation;
      if (!equation.right.empty()) return equation_lines(equation);
      return Lines{{relations::balanced_equation, relations::balanced_equation, "", "", relations::nothing, {}}};
    }
    case Find::Kind::ionic_equation:
      return ionic_lines(problem, problem.reactions.front());
    case Find::Kind::precipitate:
      return precipitate_lines(problem, problem.reactions.front());
    case Find::Kind::reagent:
      return reagent_lines(find);
    default:
      return name_lines(find, conventions);
  }
}

}  // namespace molewright
