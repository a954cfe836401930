// From a formula to its name: listed first, then composed by rule.
// Source: IUPAC, Nomenclature of Inorganic Chemistry (Red Book 2005), IR-5 (compositional names), IR-8.3 (acids); the order of
// the elements in a name is that of the formula, as schools write it (Cl2O7 is dichlorine heptoxide).
#include <algorithm>
#include <numeric>

#include "engine/element.h"
#include "engine/formula_index.h"
#include "engine/nomenclature_parts.h"

namespace molewright {
namespace naming {
namespace {

struct TwoElements {
  std::string first, second;
  std::int64_t first_count = 0, second_count = 0;
};

/// The two elements in the order written, each once, without brackets.
std::optional<TwoElements> two_elements(Formula const& formula) {
  if (formula.parts.size() != 1 || formula.parts[0].groups.size() != 2) return std::nullopt;
  auto const& groups = formula.parts[0].groups;
  if (groups[0].element.empty() || groups[1].element.empty() || groups[0].element == groups[1].element) return std::nullopt;
  return TwoElements{groups[0].element, groups[1].element, groups[0].count, groups[1].count};
}

/// "manganese(IV) oxide": the state that the anions leave to the metal, where it is one that is met.
std::string metal_and_nonmetal(TwoElements const& pair) {
  ElementName const* const metal = element_name(pair.first);
  ElementName const* const anion = element_name(pair.second);
  if (metal == nullptr || anion == nullptr || anion->anion_charge == 0 || metal->usual.empty()) return "";
  if (!is_metal(pair.first) || (is_metal(pair.second) && pair.second != "Sb")) return "";
  std::int64_t const charge = pair.second_count * anion->anion_charge;
  if (charge % pair.first_count != 0 || charge / pair.first_count > 8) return "";
  if (std::gcd(pair.first_count, pair.second_count) != 1) return "";  // Al2Cl6 is another substance
  // Of pyrite's kind: the sulfur is a pair, and the metal's state is not what the count says.
  static std::string_view const with_pairs[] = {"Mn", "Fe", "Co", "Ni", "Ru", "Os"};
  bool const pairs = anion->anion_charge == 2 && pair.second != "O" && pair.second_count == 2 * pair.first_count;
  if (pairs && std::find(std::begin(with_pairs), std::end(with_pairs), pair.first) != std::end(with_pairs)) return "";
  int const state = static_cast<int>(charge / pair.first_count);
  // The highest states of these are met with oxygen and fluorine alone.
  static std::string_view const oxygen_only[] = {"V", "Cr", "Mn", "Tc", "Ru", "Os"};
  bool const harsh = pair.second == "O" || pair.second == "F";
  if (state > 4 && !harsh && std::find(std::begin(oxygen_only), std::end(oxygen_only), pair.first) != std::end(oxygen_only))
    return "";
  // A state that has an ion of its own was named by its ions, or refused there with reason (BaO2 is a peroxide).
  return metal->has(state) ? metal_name(*metal, state) + ' ' + anion->ending : "";
}

/// "dinitrogen pentoxide". "mono" stands before the second element only.
std::string two_nonmetals(TwoElements const& pair) {
  if (!named_as_nonmetal(pair.first) || is_metal(pair.second)) return "";
  ElementName const* const second = element_name(pair.second);
  if (second == nullptr || second->ending.empty()) return "";
  // Hydrides have names of their own, and what has carbon and hydrogen has isomers.
  if (pair.second == "H" || pair.first == "H") return "";
  std::string const name = find_element(pair.first)->name;
  if (multiplying_prefix(pair.first_count).empty() || multiplying_prefix(pair.second_count).empty()) return "";
  return (pair.first_count == 1 ? name : with_prefix(pair.first_count, name)) + ' ' +
         with_prefix(pair.second_count, second->ending);
}

/// SO4 without its charge is no molecule, though a name could be made for it.
bool ion_without_charge(Formula const& formula) {
  std::string const text = plain(formula);
  auto const& ions = named_ions();
  return std::any_of(ions.begin(), ions.end(), [&](NamedIon const& ion) { return ion.inside == text; });
}

std::string acid_name(Formula const& formula) {
  static FormulaIndex const index = [] {
    FormulaIndex made;
    for (std::size_t i = 0; i < acids().size(); ++i) made.add(acids()[i].formula, static_cast<int>(i));
    return made;
  }();
  int const row = index.find(formula);
  return row == FormulaIndex::none ? "" : acids()[static_cast<std::size_t>(row)].name;
}

std::string ion_of_state(Formula const& formula) {
  std::string const known = ion_name(formula);
  if (!known.empty() || formula.parts.size() != 1 || formula.parts[0].groups.size() != 1) return known;
  Group const& only = formula.parts[0].groups[0];
  ElementName const* const metal = element_name(only.element);
  if (metal == nullptr || only.count != 1 || metal->usual.empty() || !metal->has(formula.charge) || formula.charge > 4) return "";
  return metal_name(*metal, formula.charge) + " ion";
}

bool begins(std::string_view text, std::string_view with) { return text.substr(0, with.size()) == with; }

/// "hydrogen chloride" is the gas, "hydrochloric acid" its solution: one of the two names, by the state written.
std::string by_state(Listed const& row, State state) {
  bool const acid = begins(row.name, "hydro") && row.name.find(" acid") != std::string::npos;
  bool const pure = begins(row.name, "hydrogen ");
  if ((state == State::aqueous && pure) || (acid && (state == State::gas || state == State::liquid)))
    for (auto const& other : row.other_names)
      if (acid ? begins(other, "hydrogen ") : begins(other, "hydro") && other.find(" acid") != std::string::npos) return other;
  return row.name;
}

}  // namespace

Formula dry_unit(Formula const& formula) {
  Formula dry = anhydrous(formula);
  auto const& groups = dry.parts.front().groups;
  if (groups.size() == 1 && groups.front().element.empty()) {  // (CaSO4)2·H2O
    auto const inside = groups.front().inside;
    dry.parts.front().groups = inside;
  }
  return dry;
}

std::string hydrate_prefix(Formula const& formula) {
  std::int64_t const water = waters(formula);
  auto const& groups = formula.parts.front().groups;
  std::int64_t const units = groups.size() == 1 && groups.front().element.empty() ? groups.front().count : 1;
  if (units == 1) return std::string(multiplying_prefix(water));
  if (units != 2) return "";
  return water == 1 ? "hemi" : water == 3 ? "sesqui" : "";  // Red Book 2005, IR-5.5 has both as usual prefixes
}

std::string composed_name(Formula const& formula) {
  if (formula.electron) return "electron";
  if (formula.charge != 0) return ion_of_state(formula);
  if (Listed const* const row = find_listed(formula)) return by_state(*row, formula.state);
  if (formula.parts.size() == 1 && formula.parts[0].groups.size() == 1) {
    Group const& only = formula.parts[0].groups[0];
    if (!only.element.empty() && only.count == 1) return find_element(only.element)->name;
  }
  if (formula.hydrate()) {
    std::string const dry = composed_name(dry_unit(formula));
    std::string const prefix = hydrate_prefix(formula);
    return dry.empty() || prefix.empty() ? "" : dry + ' ' + prefix + "hydrate";
  }
  if (std::string const acid = acid_name(formula); !acid.empty()) return acid;
  if (std::string const salt = salt_name(formula); !salt.empty()) return salt;
  auto const pair = two_elements(formula);
  if (!pair || ion_without_charge(formula)) return "";
  std::string const ionic = metal_and_nonmetal(*pair);
  return ionic.empty() ? two_nonmetals(*pair) : ionic;
}

}  // namespace naming

std::string name_of(std::string_view formula, Naming naming) {
  auto const read = parse_formula(formula);
  return ok(read) ? naming::spelled(naming::composed_name(value(read)), naming) : "";
}

}  // namespace molewright
