// Names of compounds of two elements with Greek numbers: "dinitrogen pentoxide", "iron trichloride", "arsenic trioxide".
#include <algorithm>

#include "engine/element.h"
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

}  // namespace

Formulas read_two_elements(std::string const& key) {
  Formulas all;
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
