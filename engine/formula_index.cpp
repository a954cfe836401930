#include "engine/formula_index.h"

#include <algorithm>
#include <stdexcept>

namespace molewright {
namespace {

/// "C2H3NaO2": the atoms and the charge, elements in alphabetical order; one text for every way to write a formula.
std::string atoms_key(Formula const& formula) {
  std::string key;
  for (auto const& [element, count] : formula.composition()) key += element + std::to_string(count);
  return key + '^' + std::to_string(formula.charge);
}

bool atoms_settle(Formula const& formula, std::string_view text) {
  if (text.find('[') != std::string_view::npos) return false;
  auto const composition = formula.composition();
  if (composition.count("C") == 0 || composition.count("H") == 0) return true;
  return std::any_of(composition.begin(), composition.end(), [](auto const& entry) { return is_metal(entry.first); });
}

}  // namespace

void FormulaIndex::add(std::string_view text, int row) {
  auto const read = parse_formula(text);
  if (!ok(read)) throw std::invalid_argument("table with the formula " + std::string(text));
  written_.insert({plain(value(read)), row});
  auto const [place, fresh] = atoms_.insert({atoms_key(value(read)), row});
  if (!fresh && place->second != row) place->second = none;
}

int FormulaIndex::find(Formula const& formula) const {
  std::string const text = plain(formula);
  auto const written = written_.find(text);
  if (written != written_.end()) return written->second;
  if (!atoms_settle(formula, text)) return none;
  auto const atoms = atoms_.find(atoms_key(formula));
  return atoms == atoms_.end() ? none : atoms->second;
}

bool is_metal(std::string_view element) {
  static std::string_view const others[] = {"H",  "B",  "C",  "N", "O",  "F",  "Si", "P",  "S",  "Cl", "As",
                                            "Se", "Br", "Te", "I", "At", "He", "Ne", "Ar", "Kr", "Xe", "Rn"};
  return std::find(std::begin(others), std::end(others), element) == std::end(others);
}

}  // namespace molewright
