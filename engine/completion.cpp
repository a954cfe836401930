#include "engine/completion.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>

#include "engine/lists.h"
#include "engine/mixing.h"
#include "engine/nomenclature.h"
#include "engine/substance.h"

namespace molewright {
namespace {

using Side = std::vector<Species>;

// What is left out most often: common practice, no source.
constexpr std::array<char const*, 9> by_products{"H2O", "H2", "O2", "CO2", "N2", "Cl2", "NH3", "HCl", "SO2"};
constexpr char const* was_added = "{} {} added to the {}, so that it balances";

std::vector<std::string> keys(Side const& side) {
  std::vector<std::string> out;
  for (auto const& species : side) out.push_back(plain(species.formula));
  std::sort(out.begin(), out.end());
  return out;
}

bool every_state_written(Equation const& equation) {
  auto const has_state = [](Species const& s) { return s.formula.state != State::none; };
  return std::all_of(equation.left.begin(), equation.left.end(), has_state) &&
         std::all_of(equation.right.begin(), equation.right.end(), has_state);
}

/// Nothing is added to what is no formula of a substance, or to half of a redox reaction.
bool may_be_completed(Equation const& equation) {
  for (auto const* side : {&equation.left, &equation.right})
    for (auto const& species : *side)
      if (species.formula.electron || unbalanced_charge(species.formula)) return false;
  return !equation.left.empty() && !equation.right.empty();
}

Mixture mixture_of(Equation const& equation, std::vector<std::string> const& excess, bool concentrated) {
  Mixture mixture;
  for (auto const& species : equation.left)
    mixture.reactants.push_back({species.formula, 0, contains(excess, plain(species.formula)), concentrated});
  for (auto const& species : equation.right) mixture.wanted.push_back(species.formula);
  return mixture;
}

/// What the tables and rules say of the left side; nothing where they do not settle it.
std::optional<Mixing> on_mixing(Equation const& equation, std::vector<std::string> const& excess, bool concentrated = false) {
  auto const found = mix(mixture_of(equation, excess, concentrated));
  if (!ok(found) || !value(found).decided || value(found).borderline) return std::nullopt;
  return value(found);
}

/// The products that what happens has beside those that are written.
std::optional<Completion> with_products_of(Mixing const& mixing, Equation const& written) {
  if (!mixing.reacts) return std::nullopt;
  for (auto const* happens : {&mixing.molecular, &mixing.net_ionic}) {
    if (keys(happens->left) != keys(written.left)) continue;
    Completion made{written, {}, true};
    auto const there = keys(written.right), all = keys(happens->right);
    if (!std::includes(all.begin(), all.end(), there.begin(), there.end())) continue;
    bool const states = every_state_written(written);
    for (auto species : happens->right) {
      auto const key = plain(species.formula);
      if (contains(there, key)) continue;
      if (!states) species.formula.state = State::none;
      made.equation.right.push_back(species);
      made.added.push_back(key);
    }
    auto const whole = balanced(made.equation);
    if (!ok(whole)) continue;
    made.equation = value(whole);
    return made;
  }
  return std::nullopt;
}

std::optional<Completion> by_what_happens(Equation const& written, std::vector<std::string> const& excess) {
  auto const happens = on_mixing(written, excess);
  auto made = happens ? with_products_of(*happens, written) : std::nullopt;
  if (!made) return made;
  // Of an acid that may be concentrated another gas may come.
  auto const concentrated = on_mixing(written, excess, true);
  auto const other = concentrated ? with_products_of(*concentrated, written) : std::nullopt;
  bool const as_good = other && other->added.size() <= made->added.size() && other->added != made->added;
  return as_good ? std::nullopt : made;
}

bool contradicts(Equation const& completed, std::vector<std::string> const& excess) {
  auto const happens = on_mixing(completed, excess);
  return happens && (!happens->reacts || (keys(happens->molecular.right) != keys(completed.right) &&
                                          keys(happens->net_ionic.right) != keys(completed.right)));
}

bool holds(Side const& side, std::string const& element) {
  return std::any_of(side.begin(), side.end(), [&](Species const& s) { return s.formula.composition().count(element) > 0; });
}

/// What goes in must bring an element that the products have and the reactants lack: alcohol takes up no CO2 to become vinegar.
bool brings_what_is_missing(Equation const& written, Formula const& added) {
  for (auto const& [element, count] : added.composition())
    if (holds(written.right, element) && !holds(written.left, element)) return true;
  return false;
}

std::optional<Completion> by_a_by_product(Equation const& written, std::vector<std::string> const& excess) {
  std::optional<Completion> only;
  for (bool const to_products : {true, false})
    for (char const* substance : by_products) {
      if (contains(keys(written.left), substance) || contains(keys(written.right), substance)) continue;
      if (to_products && std::string_view(substance) == "H2" && contains(keys(written.left), "O2")) continue;  // it burns
      Completion made{written, {substance}, to_products};
      Species species;
      species.formula = value(parse_formula(substance));
      bool const liquid = std::string_view(substance) == "H2O";
      if (every_state_written(written)) species.formula.state = liquid ? State::liquid : State::gas;
      (to_products ? made.equation.right : made.equation.left).push_back(species);
      auto const whole = balanced(made.equation);
      if (!ok(whole)) continue;
      if (only) return std::nullopt;
      made.equation = value(whole);
      only = std::move(made);
    }
  if (!only || contradicts(only->equation, excess)) return std::nullopt;
  bool const sensible = only->to_products || brings_what_is_missing(written, value(parse_formula(only->added.front())));
  return sensible ? only : std::nullopt;
}
}  // namespace

std::optional<Completion> completed(Equation const& written, std::vector<std::string> const& excess) {
  if (!may_be_completed(written)) return std::nullopt;
  if (auto made = by_what_happens(written, excess)) return made;
  return by_a_by_product(written, excess);
}

std::string note_on(Completion const& completion) {
  return fmt::format(was_added, enumerated(completion.added), completion.added.size() == 1 ? "was" : "were",
                     completion.to_products ? "products" : "reactants");
}

}  // namespace molewright
