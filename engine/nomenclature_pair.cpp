// Names of compounds of two elements with Greek numbers: "dinitrogen pentoxide", "iron trichloride", "arsenic trioxide".
#include <algorithm>
#include <numeric>

#include "engine/element.h"
#include "engine/lists.h"
#include "engine/nomenclature_parts.h"

namespace molewright::naming {
namespace {

struct Counted {
  std::string symbol;
  std::int64_t count = 0;  ///< 0 where no number is said
};

/// "dinitrogen" or "pentoxide": which element, how many.
std::vector<Counted> counted(std::string_view word, bool ending) {
  std::vector<Counted> result;
  for (ElementName const& element : element_names()) {
    std::string const name = ending ? element.ending : key_of(find_element(element.symbol)->name);
    if (name.empty()) continue;
    if (word == name) result.push_back({element.symbol, 0});
    if (word.size() <= name.size() || word.substr(word.size() - name.size()) != name) {
      // "pentoxide" and "pentaoxide" are both written.
      if (!ending || name != "oxide") continue;
    }
    for (std::int64_t number = 1; number <= 20; ++number)
      if (word == with_prefix(number, name) || word == std::string(multiplying_prefix(number)) + name) {
        result.push_back({element.symbol, number});
        break;
      }
  }
  return result;
}

void add_pair(Counted const& first, Counted const& second, Formulas& all) {
  if (first.count == 0 && second.count == 0) {
    for (Listed const& row : listed()) {  // "nitrogen oxide": which of them?
      auto const atoms = parsed(row.formula).composition();
      if (atoms.size() == 2 && atoms.count(first.symbol) != 0 && atoms.count(second.symbol) != 0 &&
          named_as_nonmetal(first.symbol))
        add_once(all, row.formula);
    }
    if (all.size() == 1) all.clear();  // there may be others that are not listed
    return;
  }
  std::int64_t const one = std::max<std::int64_t>(first.count, 1), many = std::max<std::int64_t>(second.count, 1);
  std::string formula = pair_formula(first.symbol, one, second.symbol, many);
  // "arsenic trioxide" leaves out the "di": as AsO3 the arsenic would be in a state that it is never in.
  ElementName const* const element = element_name(first.symbol);
  int const charge = element_name(second.symbol)->anion_charge;
  if (first.count == 0 && !element->states.empty() && many * charge > element->highest()) {
    if (many % 2 == 0 || many * charge > 2 * element->highest()) return;
    formula = pair_formula(first.symbol, 2, second.symbol, many);
  }
  if (!composed_name(parsed(formula)).empty()) add_once(all, as_listed(formula));
}

/// "nitrogen(iv)oxide": listed molecules whose first element is in that state; of several, the one in lowest terms.
Formulas of_state(std::string const& key) {
  Formulas all;
  auto const open = key.find('('), close = key.find(')');
  if (open == std::string::npos || close == std::string::npos || close < open) return all;
  for (ElementName const& first : element_names()) {
    if (!named_as_nonmetal(first.symbol) || key.substr(0, open) != key_of(find_element(first.symbol)->name)) continue;
    for (ElementName const& second : element_names()) {
      if (second.anion_charge == 0 || second.ending != key.substr(close + 1) || second.symbol == first.symbol) continue;
      for (int const state : first.states) {
        if (key_of(find_element(first.symbol)->name + '(' + std::string(roman(state)) + ')') != key.substr(0, close + 1))
          continue;
        std::int64_t const common = std::gcd(state, second.anion_charge);
        std::int64_t const ones = second.anion_charge / common, many = state / common;
        std::string const lowest = pair_formula(first.symbol, ones, second.symbol, many);
        if (find_listed(parsed(lowest)) != nullptr) return {as_listed(lowest)};
        std::string const twice = pair_formula(first.symbol, 2 * ones, second.symbol, 2 * many);
        if (find_listed(parsed(twice)) != nullptr) return {as_listed(twice)};
        if (!composed_name(parsed(lowest)).empty()) return {lowest};
      }
    }
  }
  return all;
}

}  // namespace

Formulas read_two_elements(std::string const& key) {
  Formulas all = of_state(key);
  for (std::size_t at = 2; at < key.size(); ++at) {
    auto const seconds = counted(std::string_view(key).substr(at), true);
    if (seconds.empty()) continue;
    for (auto const& first : counted(std::string_view(key).substr(0, at), false))
      for (auto const& second : seconds)
        if (first.symbol != second.symbol) add_pair(first, second, all);
  }
  return all;
}

}  // namespace molewright::naming
