// Redox reactions from the table of half-reactions, combined by their electrons.
#include <fmt/format.h>

#include <algorithm>
#include <numeric>

#include "engine/lists.h"
#include "engine/mixing_rules.h"
#include "engine/mixing_words.h"
#include "engine/tsv.h"

namespace molewright::data {
extern std::string_view const half_reactions_tsv;
}

namespace molewright::mixing {
namespace {

using words::fill;

struct Half {
  std::string species, text;
  bool oxidant = false, acid_said = false;
  std::string medium;
  double potential = 0;
  std::vector<std::string> with, against;
  Equation equation;  ///< balanced
  std::int64_t electrons = 0;
};

std::int64_t whole(Rational const& number) {
  std::int64_t numerator = 0, denominator = 1;
  number.fits(numerator, denominator);
  return numerator;
}

std::vector<Half> const& halves() {
  static std::vector<Half> const made = [] {
    std::vector<Half> result;
    TsvTable const table(data::half_reactions_tsv);
    auto const species = table.column("species"), role = table.column("role"), half = table.column("half"),
               medium = table.column("medium"), potential = table.column("potential"), with = table.column("with"),
               against = table.column("not"), acid_said = table.column("acid_said");
    for (std::size_t row = 0; row < table.size(); ++row) {
      auto const text = [&](std::size_t column) { return std::string(table.cell(row, column)); };
      Half entry;
      entry.species = text(species);
      entry.text = text(half);
      entry.oxidant = text(role) == "oxidant";
      entry.medium = text(medium);
      entry.potential = std::stod(text(potential));
      entry.acid_said = text(acid_said) == "yes";
      for (auto const name : split_list(table.cell(row, with))) entry.with.emplace_back(name);
      for (auto const name : split_list(table.cell(row, against))) entry.against.emplace_back(name);
      auto const read = parse_equation(entry.text);
      // Taken as written: that of H2O2 in base has more than one balance, as water could take part on its own.
      if (!ok(read) || !is_balanced(value(read))) throw std::invalid_argument("table with the half-reaction " + entry.text);
      entry.equation = value(read);
      for (auto const* side : {&entry.equation.left, &entry.equation.right})
        for (auto const& part : *side)
          if (part.formula.electron) entry.electrons = whole(part.coefficient);
      result.push_back(std::move(entry));
    }
    return result;
  }();
  return made;
}

void gather(std::vector<Species>& side, std::vector<Species> const& from, std::int64_t times) {
  for (auto const& species : from) {
    if (species.formula.electron) continue;
    auto const place = std::find_if(side.begin(), side.end(), [&](Species const& other) {
      return plain(other.formula) == plain(species.formula) && other.formula.state == species.formula.state;
    });
    if (place == side.end()) {
      side.push_back(species);
      side.back().coefficient *= Rational(times);
    } else {
      place->coefficient += species.coefficient * Rational(times);
    }
  }
}

/// Both half-reactions with as many electrons given as taken, and what stands on both sides left out.
Equation combined(Half const& oxidant, Half const& reductant) {
  std::int64_t const electrons = std::lcm(oxidant.electrons, reductant.electrons);
  Equation net;
  for (Half const* half : {&oxidant, &reductant}) {
    gather(net.left, half->equation.left, electrons / half->electrons);
    gather(net.right, half->equation.right, electrons / half->electrons);
  }
  for (auto& species : net.left)
    for (auto& other : net.right)
      if (plain(species.formula) == plain(other.formula)) {
        Rational const common = species.coefficient < other.coefficient ? species.coefficient : other.coefficient;
        species.coefficient -= common;
        other.coefficient -= common;
      }
  std::int64_t divisor = 0;
  for (auto* side : {&net.left, &net.right}) {
    side->erase(std::remove_if(side->begin(), side->end(), [](Species const& s) { return s.coefficient.sign() == 0; }),
                side->end());
    for (auto const& species : *side) divisor = std::gcd(divisor, whole(species.coefficient));
  }
  for (auto* side : {&net.left, &net.right})
    for (auto& species : *side) species.coefficient /= Rational(divisor);
  return net;
}

/// The species of the table that a reagent brings: its ions where it is dissolved and strong, else itself.
std::vector<std::string> brought(Reagent const& reagent) {
  std::vector<std::string> result;
  if (reagent.formula.state == State::aqueous || reagent.sort == Sort::ion)
    for (auto const& part : dissolved_ions(with_state(reagent.formula, State::aqueous))) result.push_back(part.key);
  if (result.empty()) result.push_back(reagent.key);
  return result;
}

struct Pair {
  Half const* oxidant = nullptr;
  Half const* reductant = nullptr;
  double apart() const { return oxidant->potential - reductant->potential; }
};

/// One state for each molecule: the reagent's where one was written (Cl2(g) for Cl2(aq)), else the table's.
void agree_on_states(Equation& net, std::vector<Reagent>& reagents) {
  for (auto& species : net.left)
    for (auto& reagent : reagents)
      if (species.formula.charge == 0 && reagent.key == plain(species.formula)) {
        if (!reagent.state_said)
          reagent.formula.state = species.formula.state;
        else
          species.formula.state = reagent.formula.state;
      }
}

}  // namespace

Answer oxidised(std::vector<Reagent> const& reagents, Asked const& asked) {
  bool acid = asked.medium == Medium::acid, base = asked.medium == Medium::base;
  bool strong = acid;  // enough H^+ for what needs it said: hydrogen sulfide and vinegar do not do
  std::vector<std::vector<std::string>> there;
  for (auto const& reagent : reagents) {
    there.push_back(brought(reagent));
    for (auto const& key : there.back()) {
      strong = strong || key == "H^+";
      acid = acid || (key == "H^+" && asked.medium == Medium::unsaid);
      base = base || (key == "OH^-" && asked.medium == Medium::unsaid);
    }
    if (asked.medium == Medium::unsaid && reagent.sort == Sort::acid) acid = true;
  }
  auto const has = [&](std::string const& key, std::size_t except) {
    for (std::size_t i = 0; i < there.size(); ++i)
      if (i != except && contains(there[i], key)) return true;
    return false;
  };
  auto const fits = [&](Half const& half, std::string const& medium) {
    // Metal ions do not stay dissolved in base.
    if (medium == "base" && half.medium == "any" && half.species.back() == '+') return false;
    return (half.medium == "any" || half.medium == medium) && (!half.acid_said || strong);
  };
  Pair best, refused;
  std::string best_medium;
  for (std::string const& medium : {std::string(base && !acid ? "base" : "acid"), std::string("base")}) {
    if (medium == "base" && acid) break;
    if (medium == "acid" && base) continue;
    for (std::size_t i = 0; i < there.size(); ++i)
      for (Half const& oxidant : halves()) {
        if (!oxidant.oxidant || !contains(there[i], oxidant.species) || !fits(oxidant, medium)) continue;
        for (Half const& reductant : halves()) {
          if (reductant.oxidant || !fits(reductant, medium) || oxidant.species == reductant.species) continue;
          if (!has(reductant.species, i)) continue;
          auto const allowed = [](Half const& half, Half const& other) {
            return (half.with.empty() || contains(half.with, other.species)) && !contains(half.against, other.species);
          };
          if (!allowed(oxidant, reductant) || !allowed(reductant, oxidant)) continue;
          Pair const pair{&oxidant, &reductant};
          // Manganese(IV) oxide and chloride: the row names the pair though its potentials lie the other way round.
          bool const named = contains(reductant.with, oxidant.species) && contains(oxidant.with, reductant.species);
          bool const medium_needed = oxidant.medium != "any" || reductant.medium != "any";
          if (pair.apart() <= 0 && !named) {
            refused = pair;
            continue;
          }
          // Where several fit, the strongest oxidant takes from the strongest reductant.
          if (best.oxidant == nullptr || pair.apart() > best.apart()) {
            best = pair;
            best_medium = medium_needed ? medium : "";
          }
        }
      }
    if (best.oxidant != nullptr) break;
    if (asked.medium != Medium::unsaid) break;
  }
  if (best.oxidant == nullptr) {
    if (refused.oxidant == nullptr) return std::nullopt;
    return nothing(fill(words::potentials_wrong,
                        {refused.oxidant->species, refused.reductant->species, fmt::format("{:.2f}", refused.oxidant->potential),
                         fmt::format("{:.2f}", refused.reductant->potential)}));
  }
  Draft draft;
  draft.kind = "redox";
  draft.because = best.apart() > 0 ? fill(words::half_reactions,
                                          {best.oxidant->text, best.reductant->text, fmt::format("{:.2f}", best.apart())})
                                   : fill(words::half_reactions_hot, {best.oxidant->text, best.reductant->text});
  draft.borderline = best.apart() < 0.1;
  if (draft.borderline && best.apart() > 0) draft.warnings.push_back(words::close_potentials);
  Equation net = combined(*best.oxidant, *best.reductant);
  std::vector<Reagent> supplied = reagents;
  agree_on_states(net, supplied);
  if (!best_medium.empty()) {
    auto const used = [&](char const* ion) {
      return std::any_of(net.left.begin(), net.left.end(), [&](Species const& s) { return plain(s.formula) == ion; });
    };
    auto const lacks = [&](char const* ion) { return used(ion) && !has(ion, there.size()); };
    bool const said = asked.medium != Medium::unsaid || acid || base;
    if (said || used("H^+") || used("OH^-")) draft.conditions = best_medium == "acid" ? words::in_acid : words::in_base;
    if (lacks("H^+")) draft.warnings.push_back(words::acid_assumed);
    if (lacks("OH^-")) draft.warnings.push_back(words::base_assumed);
  }
  return dressed(draft, net, supplied);
}

}  // namespace molewright::mixing
