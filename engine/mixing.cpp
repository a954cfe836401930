#include "engine/mixing.h"

#include <algorithm>

#include "engine/ascii.h"
#include "engine/mixing_rules.h"
#include "engine/mixing_words.h"

namespace molewright {
namespace mixing {
namespace {

bool made(Mixing const& mixing, Formula const& wanted) {
  auto const key = key_of(with_state(wanted, State::none));
  // A dissolved salt whose ions are there, where the ions can be put together in more than one way.
  auto const ions = dissolved_ions(reagent_of({wanted, 0, false}).formula);
  auto const there = [&](Part const& ion) {
    return std::any_of(mixing.ionic.right.begin(), mixing.ionic.right.end(),
                       [&](Species const& species) { return plain(species.formula) == plain(ion.ion); });
  };
  bool const any_pairing = mixing.kind == "redox" || plain(mixing.molecular) == plain(mixing.ionic);
  if (!ions.empty() && any_pairing && std::all_of(ions.begin(), ions.end(), there)) return true;
  return std::any_of(mixing.molecular.right.begin(), mixing.molecular.right.end(), [&](Species const& species) {
    return plain(species.formula) == key || (species.formula.composition() == wanted.composition() &&
                                             species.formula.charge == wanted.charge && wanted.composition().size() > 1);
  });
}

/// The numbers written before the reactants against those of the equation.
bool in_proportion(Mixing const& mixing, std::vector<Reagent> const& reagents) {
  std::optional<Rational> ratio;
  for (auto const& reagent : reagents)
    for (auto const& species : mixing.molecular.left) {
      if (plain(species.formula) != plain(reagent.formula)) continue;
      Rational const own = species.coefficient / Rational(reagent.stated == 0 ? 1 : reagent.stated);
      if (ratio && own != *ratio) return false;
      ratio = own;
    }
  return true;
}

bool goes_in_dissolved(Mixing const& mixing, Reagent const& reagent) {
  return std::any_of(mixing.molecular.left.begin(), mixing.molecular.left.end(), [&](Species const& species) {
    return species.formula.state == State::aqueous && plain(species.formula) == reagent.key;
  });
}

/// Whether one of the others brings water in which `solid` would dissolve.
bool water_there(std::vector<Reagent> const& reagents, Reagent const& solid) {
  return std::any_of(reagents.begin(), reagents.end(), [&](Reagent const& other) {
    bool const water = other.sort == Sort::water || (other.formula.state == State::aqueous && !other.concentrated);
    return other.key != solid.key && water;
  });
}

/// Several reasons why nothing happens: the first that a table or rule decided, else the first.
struct Reasons {
  std::optional<Mixing> best;
  void add(Mixing const& mixing) {
    if (!best || (!best->decided && mixing.decided)) best = mixing;
  }
};

Answer first_that_reacts(std::vector<Reagent> const& reagents, Asked const& asked, Reasons& reasons) {
  auto const take = [&](Answer answer) -> Answer {
    if (!answer) return std::nullopt;
    if (answer->reacts) return answer;
    reasons.add(*answer);
    return std::nullopt;
  };
  // What a concentrated acid does is its own row, or is not known here.
  if (auto const found = with_concentrated_acid(reagents)) return take(found);
  if (auto found = take(listed(reagents))) {
    // The row may have stopped elsewhere: chlorine in hot alkali, concentrated nitric acid.
    auto const other = makes(*found, asked.wanted) ? std::nullopt : by_half_reactions(reagents, asked);
    return other ? other : found;
  }
  if (reagents.size() == 1) return take(heated(reagents[0]));
  if (reagents.size() == 2) {
    for (auto const& [one, other] : {std::pair{&reagents[0], &reagents[1]}, std::pair{&reagents[1], &reagents[0]}}) {
      if (other->sort == Sort::oxygen)
        if (auto found = take(burnt(*one, *other))) return found;
      if (one->sort == Sort::metal)
        if (auto found = take(with_metal(*one, *other))) return found;
      if (one->sort == Sort::halogen)
        if (auto found = take(with_halogen(*one, *other))) return found;
    }
    if (auto found = take(complexed(reagents))) return found;
  }
  auto oxidation = oxidised(reagents, asked);
  bool const as_named = oxidation && oxidation->reacts && makes(*oxidation, asked.wanted);
  if (!as_named)
    if (auto found = take(by_half_reactions(reagents, asked))) return found;
  if (auto found = take(oxidation)) return found;
  if (reagents.size() != 2) return std::nullopt;
  auto exchange = exchanged(reagents[0], reagents[1], asked);
  // Who names a medium asks for electrons: that no ions are exchanged is no answer.
  if (exchange && !exchange->reacts && asked.medium != Medium::unsaid) return std::nullopt;
  return take(exchange);
}

/// Three or more: the one pair that reacts. The others stand by and are said to.
Result<Mixing> by_pairs(std::vector<Reagent> const& reagents, Asked const& asked, Reasons& reasons) {
  std::optional<Mixing> found;
  std::string first_pair;
  bool all_decided = true;
  for (std::size_t i = 0; i < reagents.size(); ++i)
    for (std::size_t j = i + 1; j < reagents.size(); ++j) {
      if (reagents[i].sort == Sort::water || reagents[j].sort == Sort::water) continue;
      Reasons of_pair;
      auto const answer = first_that_reacts({reagents[i], reagents[j]}, asked, of_pair);
      if (!answer) {
        all_decided = all_decided && of_pair.best && of_pair.best->decided;
        if (of_pair.best) reasons.add(*of_pair.best);
        continue;
      }
      std::string const pair = reagents[i].key + " with " + reagents[j].key;
      if (found)
        return Fault{"more-than-one-reaction", "more than one reaction can happen here: " + first_pair + ", and " + pair,
                     "the reactants of one reaction at a time", 0};
      found = answer;
      first_pair = pair;
    }
  // That one pair stays as it is says nothing of the rest.
  if (!found) return reasons.best && all_decided ? *reasons.best : undecided(words::silent);
  if (reagents.size() > 2) found->warnings.push_back("only " + first_pair + " reacts; the rest stands by and is left out");
  return *found;
}

}  // namespace

bool makes(Mixing const& mixing, std::vector<Formula> const& wanted) {
  return std::all_of(wanted.begin(), wanted.end(), [&](Formula const& formula) { return made(mixing, formula); });
}

Answer chosen(std::vector<Draft> const& drafts, std::vector<Reagent> const& reagents, Asked const& asked) {
  std::vector<Mixing> works;
  for (auto const& draft : drafts)
    if (auto const found = worked_out(draft)) works.push_back(*found);
  if (works.empty()) return std::nullopt;
  for (auto const& mixing : works)
    if (!asked.wanted.empty() && makes(mixing, asked.wanted)) return mixing;
  bool const numbers = std::any_of(reagents.begin(), reagents.end(), [](Reagent const& r) { return r.stated > 0; });
  if (numbers && asked.wanted.empty())
    for (auto const& mixing : works)
      if (in_proportion(mixing, reagents)) return mixing;
  return works.front();
}

}  // namespace mixing

Result<Mixing> mix(Mixture const& mixture) {
  using namespace mixing;
  std::vector<Reagent> reagents;
  std::vector<std::string> warnings;
  for (auto const& reactant : mixture.reactants) {
    Reagent reagent = reagent_of(reactant);
    // Alone it is heated as it is, with its crystal water.
    if (mixture.reactants.size() == 1 && mixture.medium == Medium::unsaid) reagent.formula = reactant.formula;
    // The same substance twice is one.
    if (std::any_of(reagents.begin(), reagents.end(), [&](Reagent const& other) { return other.key == reagent.key; })) continue;
    warnings.insert(warnings.end(), reagent.warnings.begin(), reagent.warnings.end());
    reagents.push_back(reagent);
  }
  Asked const asked{mixture.wanted, mixture.medium};
  // "Cl2 in base", "Na2S2O3 in acid": the medium is what it is mixed with.
  if (reagents.size() == 1 && asked.medium != Medium::unsaid)
    reagents.push_back(reagent_of({formula_in(asked.medium == Medium::acid ? "H^+" : "OH^-"), 0, false}));
  for (auto const& reagent : reagents)
    if (reagent.state_said && reagent.solid() && reagent.sort == Sort::salt &&
        reagent.dissolves.verdict == Dissolving::Verdict::soluble && water_there(reagents, reagent))
      warnings.push_back(words::fill(words::kept_solid, {reagent.key}));
  Reasons reasons;
  Mixing result;
  if (auto const found = first_that_reacts(reagents, asked, reasons)) {
    result = *found;
  } else if (reagents.size() > 2) {
    auto const by = by_pairs(reagents, asked, reasons);
    if (!ok(by)) return fault(by);
    result = value(by);
  } else {
    result = reasons.best ? *reasons.best : undecided(words::silent);
  }
  result.warnings.insert(result.warnings.begin(), warnings.begin(), warnings.end());
  if (!result.reacts) return result;
  for (auto const& wanted : mixture.wanted)
    if (!made(result, wanted))
      result.warnings.push_back(words::fill(words::wanted_not_formed, {plain(with_state(wanted, State::none))}));
  bool const numbers = std::any_of(reagents.begin(), reagents.end(), [](Reagent const& r) { return r.stated > 1; });
  if (numbers && !in_proportion(result, reagents)) result.warnings.push_back(words::not_the_numbers);
  for (auto const& text : in_excess(result, reagents)) result.warnings.push_back(text);
  for (auto const& reagent : reagents)
    if ((reagent.sort == Sort::salt || reagent.sort == Sort::base) &&
        reagent.dissolves.verdict == Dissolving::Verdict::slightly && goes_in_dissolved(result, reagent)) {
      // Who writes (aq), says limewater, or leads a gas into it means the clear solution.
      bool const clear = reagent.state_said || std::any_of(reagents.begin(), reagents.end(),
                                                           [](Reagent const& other) { return other.sort == Sort::acidic_oxide; });
      result.borderline = result.borderline || !clear;
      result.warnings.push_back(words::fill(words::slightly_itself, {reagent.key, reagent.key}));
    }
  return result;
}

std::optional<Mixing> ionic_forms(Equation const& reaction) {
  mixing::Draft draft;
  for (auto const& species : reaction.left) draft.left.push_back(species.formula);
  for (auto const& species : reaction.right) draft.right.push_back(species.formula);
  return mixing::worked_out(draft);
}

Result<Mixing> mix(std::vector<Formula> const& reactants) {
  Mixture mixture;
  for (auto const& formula : reactants) mixture.reactants.push_back({formula, 0, false});
  return mix(mixture);
}

}  // namespace molewright
