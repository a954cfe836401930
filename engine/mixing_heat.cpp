// Single reactions that a table lists, thermal decomposition, and combustion.
#include <algorithm>

#include "engine/formula_index.h"
#include "engine/mixing_observations.h"
#include "engine/mixing_rules.h"
#include "engine/mixing_words.h"
#include "engine/nomenclature_parts.h"
#include "engine/tsv.h"

namespace molewright::data {
extern std::string_view const decompositions_tsv;
extern std::string_view const listed_reactions_tsv;
}  // namespace molewright::data

namespace molewright::mixing {
namespace {

using words::fill;

struct Listed {
  Equation equation;
  std::string kind, conditions, seen;
};

std::vector<Listed> const& listed_rows() {
  static std::vector<Listed> const made = [] {
    std::vector<Listed> result;
    TsvTable const table(data::listed_reactions_tsv);
    auto const left = table.column("reactants"), right = table.column("products"), kind = table.column("kind"),
               conditions = table.column("conditions"), seen = table.column("seen");
    for (std::size_t row = 0; row < table.size(); ++row) {
      std::string const text = std::string(table.cell(row, left)) + " -> " + std::string(table.cell(row, right));
      auto const read = parse_equation(text);
      if (!ok(read)) throw std::invalid_argument("table with the reaction " + text);
      result.push_back({value(read), std::string(table.cell(row, kind)), std::string(table.cell(row, conditions)),
                        std::string(table.cell(row, seen))});
    }
    return result;
  }();
  return made;
}

struct Decomposition {
  std::string anion, conditions, seen;
  std::vector<std::string> cations, gives;
};

std::vector<Decomposition> const& decompositions() {
  static std::vector<Decomposition> const made = [] {
    std::vector<Decomposition> result;
    TsvTable const table(data::decompositions_tsv);
    auto const anion = table.column("anion"), cations = table.column("cations"), gives = table.column("gives"),
               conditions = table.column("conditions"), seen = table.column("seen");
    for (std::size_t row = 0; row < table.size(); ++row) {
      Decomposition entry;
      entry.seen = std::string(table.cell(row, seen));
      entry.anion = std::string(table.cell(row, anion));
      entry.conditions = std::string(table.cell(row, conditions));
      for (auto const text : split_list(table.cell(row, cations))) entry.cations.emplace_back(text);
      for (auto const text : split_list(table.cell(row, gives))) entry.gives.emplace_back(text);
      result.push_back(entry);
    }
    return result;
  }();
  return made;
}

Formula metal_in(Part const& cation) {
  std::string const element = cation.ion.composition().begin()->first;
  return with_state(formula_in(element), element == "Hg" ? State::liquid : State::solid);
}

/// What a word or formula of the table stands for, for this cation.
Formula given_off(std::string const& word, Part const& cation) {
  if (word == "metal") return metal_in(cation);
  for (auto const& [name, anion] : {std::pair{"oxide", "O^2-"}, std::pair{"carbonate", "CO3^2-"}, std::pair{"nitrite", "NO2^-"},
                                    std::pair{"chloride", "Cl^-"}})
    if (word == name) return with_state(salt_of(cation, ion_part(anion)), State::solid);
  return formula_in(word);
}

/// Salts whose hydrates lose acid with the water, so that more than water leaves.
bool hydrolyses(std::vector<Part> const& parts) {
  static std::string_view const cations[] = {"Al^3+", "Fe^3+", "Cr^3+", "Mg^2+", "Bi^3+", "Sn^2+", "Zn^2+"};
  bool halide = false, acidic = false;
  for (auto const& part : parts) {
    halide = halide || part.key == "Cl^-" || part.key == "Br^-" || part.key == "I^-" || part.key == "NO3^-";
    acidic = acidic || std::find(std::begin(cations), std::end(cations), part.key) != std::end(cations);
  }
  return halide && acidic;
}

bool burns_completely(Formula const& fuel) {
  auto const atoms = fuel.composition();
  if (fuel.charge != 0 || fuel.parts.size() > 1 || atoms.count("C") + atoms.count("H") == 0) return false;
  for (auto const& [element, count] : atoms)
    if (element != "C" && element != "H" && element != "O" && element != "N" && element != "S") return false;
  if (plain(fuel) == "H2S" || plain(fuel) == "HCN") return true;
  return acid_of(fuel) == nullptr || (atoms.count("C") != 0 && atoms.count("H") != 0 && plain(fuel) != "H2CO3");
}

State fuel_state(Formula const& fuel) {
  if (fuel.state != State::none) return fuel.state;
  for (char const* gas : {"NH3", "H2S", "HCN"})
    if (plain(fuel) == gas) return State::gas;
  auto atoms = fuel.composition();
  bool const hydrocarbon = atoms["C"] > 0 && atoms["H"] > 0 && atoms["O"] + atoms["N"] + atoms["S"] == 0;
  if (!hydrocarbon) return State::none;
  return atoms["C"] <= 4 ? State::gas : atoms["C"] <= 17 ? State::liquid : State::solid;
}

}  // namespace

Answer listed(std::vector<Reagent> const& reagents) {
  // Heated alone, a hydrate loses its water first.
  if (reagents.size() == 1 && reagents[0].formula.hydrate()) return std::nullopt;
  for (auto const& row : listed_rows()) {
    Draft draft;
    bool const dissolved =
        std::any_of(reagents.begin(), reagents.end(), [](Reagent const& r) { return r.formula.state == State::aqueous; });
    bool const dry = std::none_of(reagents.begin(), reagents.end(), [](Reagent const& r) { return r.sort == Sort::water; });
    bool const moist = reagents.size() > 1 && row.conditions.find("moist air") != std::string::npos;
    bool const all_dissolved =
        std::all_of(reagents.begin(), reagents.end(), [](Reagent const& r) { return r.formula.state == State::aqueous; });
    std::size_t water_of_solution = 0;
    for (auto const& species : row.equation.left) {
      std::string const key = plain(species.formula);
      // Who mixes a solution, or leaves a metal in moist air, need not name its water.
      if (key == "H2O" && species.formula.state == State::liquid && dry && (dissolved || moist)) {
        water_of_solution = 1;
        draft.left.push_back(species.formula);
        continue;
      }
      auto const found = std::find_if(reagents.begin(), reagents.end(), [&](Reagent const& reagent) {
        // Ammonia and acids among solutions are solutions unless they are said to be gases.
        bool const solution =
            !reagent.state_said && (reagent.sort == Sort::ammonia || reagent.sort == Sort::acid) && all_dissolved;
        if (solution && species.formula.state == State::gas) return false;
        return reagent.key == key && (!reagent.state_said || key == "CO2" || species.formula.state != State::solid ||
                                      reagent.formula.state == State::solid);
      });
      if (found == reagents.end()) break;
      Formula formula = found->formula;
      if (!found->state_said || formula.state == State::none) formula = species.formula;
      draft.left.push_back(formula);
    }
    if (row.equation.left.size() != draft.left.size() || draft.left.size() != reagents.size() + water_of_solution) continue;
    // Ammonium chloride and limewater in water are an exchange; the row is of the dry solids.
    bool const all_solid = std::all_of(row.equation.left.begin(), row.equation.left.end(),
                                       [](Species const& s) { return s.formula.state == State::solid; });
    bool const salts = std::all_of(reagents.begin(), reagents.end(),
                                   [](Reagent const& r) { return r.sort == Sort::salt || r.sort == Sort::base; });
    if (reagents.size() > 1 && all_solid && salts &&
        !std::all_of(reagents.begin(), reagents.end(), [](Reagent const& r) { return r.state_said && r.solid(); }))
      continue;
    return by_row(std::move(draft), row.equation, row.kind, row.conditions, row.seen);
  }
  return std::nullopt;
}

Answer by_row(Draft draft, Equation const& equation, std::string const& kind, std::string const& conditions,
              std::string const& seen) {
  for (auto const& species : equation.right) draft.right.push_back(species.formula);
  draft.kind = kind;
  draft.conditions = conditions;
  draft.because = words::by_row;
  if (!seen.empty()) draft.observations = {seen};
  return worked_out(draft);
}

Answer heated(Reagent const& alone) {
  Formula const written = with_state(alone.formula, State::none);
  Draft draft;
  draft.kind = words::by_heat;
  if (written.hydrate()) {
    if (hydrolyses(alone.parts)) return undecided(fill(words::hydrolyses, {plain(written)}));
    Formula const dry = naming::dry_unit(written);
    draft.left = {with_state(written, State::solid)};
    draft.right = {with_state(dry, State::solid), with_state(formula_in("H2O"), State::gas)};
    draft.conditions = "on gentle heating";
    draft.because = words::loses_water;
    draft.observations = seen_of_hydrate(written, dry);
    return worked_out(draft);
  }
  std::vector<Part> cations, anions;
  for (auto const& part : alone.parts) (part.ion.charge > 0 ? cations : anions).push_back(part);
  if (cations.size() != 1 || anions.size() != 1 || alone.sort == Sort::ion || alone.sort == Sort::acid) {
    return undecided(fill(words::silent_alone, {alone.key}));
  }
  for (auto const& row : decompositions()) {
    if (row.anion != anions[0].key) continue;
    if (std::find(row.cations.begin(), row.cations.end(), cations[0].key) == row.cations.end()) continue;
    if (row.gives.front() == "nothing") return nothing(fill(words::stable, {alone.key}));
    bool const solution = row.conditions.find("solution") != std::string::npos;
    draft.left = {with_state(written, solution ? State::aqueous : State::solid)};
    for (auto const& word : row.gives) draft.right.push_back(given_off(word, cations[0]));
    draft.conditions = row.conditions;
    draft.because = "the table of decompositions, " + row.anion + " with " + cations[0].key;
    if (!row.seen.empty()) draft.observations = {row.seen};
    return worked_out(draft);
  }
  return undecided(fill(words::silent_alone, {alone.key}));
}

Answer burnt(Reagent const& fuel, Reagent const& oxygen) {
  if (fuel.sort == Sort::metal) return with_metal(fuel, oxygen);
  if (!burns_completely(fuel.formula)) return std::nullopt;
  Draft draft;
  draft.kind = "combustion";
  draft.conditions = "in plenty of oxygen";
  auto const atoms = fuel.formula.composition();
  State state = fuel.formula.state;  // what dissolves else burns as it is
  if (!fuel.state_said && (state == State::aqueous || state == State::none))
    state = fuel_state(with_state(fuel.formula, State::none));
  draft.left = {with_state(fuel.formula, state), with_state(oxygen.formula, State::gas)};
  if (atoms.count("C") != 0) draft.right.push_back(with_state(formula_in("CO2"), State::gas));
  if (atoms.count("H") != 0) draft.right.push_back(with_state(formula_in("H2O"), State::gas));
  if (atoms.count("S") != 0) draft.right.push_back(with_state(formula_in("SO2"), State::gas));
  if (atoms.count("N") != 0) draft.right.push_back(with_state(formula_in("N2"), State::gas));
  for (auto const& [element, text] : {std::pair{"C", words::burns_carbon}, std::pair{"H", words::burns_hydrogen},
                                      std::pair{"S", words::burns_sulfur}, std::pair{"N", words::burns_nitrogen}})
    if (atoms.count(element) != 0) draft.because += (draft.because.empty() ? "" : ", ") + std::string(text);
  draft.because = words::burns + draft.because;
  if (atoms.count("H") != 0) draft.warnings.push_back(words::steam);
  return worked_out(draft);
}

}  // namespace molewright::mixing
