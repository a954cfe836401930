#include "engine/mixing_reagent.h"

#include <algorithm>
#include <map>
#include <stdexcept>

#include "engine/formula_index.h"
#include "engine/substance.h"
#include "engine/tsv.h"

namespace molewright::data {
extern std::string_view const acids_tsv;
extern std::string_view const activity_series_tsv;
extern std::string_view const ions_tsv;
}  // namespace molewright::data

namespace molewright::mixing {
namespace {

using Atoms = std::map<std::string, std::int64_t>;

Atoms atoms_in(std::vector<Group> const& groups) {
  Formula part;
  part.parts.push_back({1, groups});
  return part.composition();
}

struct AcidTable {
  std::vector<Acid> rows;
  std::map<std::string, std::size_t> by_spelling, by_anion, by_oxide;  // of a spelling, the row with most protons
};

AcidTable const& acid_table() {
  static AcidTable const made = [] {
    AcidTable result;
    TsvTable const table(data::acids_tsv);
    auto const spellings = table.column("spellings"), anion = table.column("anion"), protons = table.column("protons"),
               strength = table.column("strength"), pka = table.column("pka"), gives = table.column("gives"),
               oxide = table.column("oxide");
    for (std::size_t row = 0; row < table.size(); ++row) {
      Acid acid;
      for (auto const text : split_list(table.cell(row, spellings))) acid.spellings.push_back(key_of(formula_in(text)));
      acid.anion = std::string(table.cell(row, anion));
      acid.protons = std::stoi(std::string(table.cell(row, protons)));
      auto const word = table.cell(row, strength);
      acid.strength = word == "strong" ? Acid::Strength::strong : word == "gas" ? Acid::Strength::gas : Acid::Strength::weak;
      acid.pka = std::stod(std::string(table.cell(row, pka)));
      acid.gives = formulas_in(table.cell(row, gives));
      for (auto const text : split_list(table.cell(row, oxide))) acid.oxides.push_back(std::string(text));
      for (auto const& text : acid.spellings) {
        auto const [place, fresh] = result.by_spelling.insert({text, row});
        if (!fresh && result.rows[place->second].protons < acid.protons) place->second = row;
      }
      for (auto const& text : acid.oxides) result.by_oxide[text] = row;
      result.by_anion[acid.anion] = row;
      result.rows.push_back(acid);
    }
    for (auto& acid : result.rows) {
      acid.first_pka = acid.pka;
      for (auto const& other : result.rows)
        if (other.spellings == acid.spellings || other.spellings.front() == acid.spellings.front())
          acid.first_pka = std::min(acid.first_pka, other.pka);
    }
    return result;
  }();
  return made;
}

Acid const* found(std::map<std::string, std::size_t> const& index, std::string const& text) {
  auto const place = index.find(text);
  return place == index.end() ? nullptr : &acid_table().rows[place->second];
}

/// The run of groups of the formula that is the ion, as the formula spells it; nothing where it does not stand there in one
/// piece.
std::optional<std::vector<Group>> spelled_in(std::vector<Group> const& groups, Atoms const& atoms, std::size_t& where) {
  for (std::size_t begin = 0; begin < groups.size(); ++begin) {
    if (groups[begin].element.empty() && atoms_in(groups[begin].inside) == atoms) {
      where = begin;
      if (groups[begin].bracket == '(') return groups[begin].inside;
      Group one = groups[begin];
      one.count = 1;
      return std::vector<Group>{one};
    }
    for (std::size_t end = groups.size(); end > begin; --end) {
      std::vector<Group> const run(groups.begin() + static_cast<std::ptrdiff_t>(begin),
                                   groups.begin() + static_cast<std::ptrdiff_t>(end));
      if (atoms_in(run) == atoms) {
        where = begin;
        return run;
      }
    }
  }
  return std::nullopt;
}

/// `key` is an ion of the tables; `salt` the formula that it is part of.
Part part_in(Formula const& salt, std::string const& key, std::int64_t count) {
  Part part = ion_part(key);
  part.count = count;
  auto const atoms = part.ion.composition();
  if (atoms.size() == 1 && atoms.begin()->second == 1) return part;
  std::size_t where = 0;
  auto const run = spelled_in(salt.parts[0].groups, atoms, where);
  if (!run) return part;
  part.ion.parts = {{1, *run}};
  // Water and gas tests look anions up by key, so the spelling may differ from it; CH3COONa keeps its order, NaCH3COO its own.
  part.first = part.ion.charge < 0 && where == 0;
  return part;
}

/// The metals of the activity series stand for all: an alloy or an unknown one is no reagent here.
bool metal_of_series(std::string const& element) {
  static std::vector<std::string> const metals = [] {
    std::vector<std::string> result;
    TsvTable const table(data::activity_series_tsv);
    auto const symbol = table.column("element"), kind = table.column("kind");
    for (std::size_t row = 0; row < table.size(); ++row)
      if (table.cell(row, kind) == "metal" && table.cell(row, symbol) != "H")
        result.push_back(std::string(table.cell(row, symbol)));
    return result;
  }();
  return std::find(metals.begin(), metals.end(), element) != metals.end();
}

State usual_state(std::string const& key, Sort sort) {
  static std::string_view const gases[] = {"O2", "H2", "N2",  "CO2", "CO",  "SO2",  "SO3",  "NO",   "NO2",  "N2O4", "N2O",
                                           "O3", "F2", "PH3", "H2S", "CH4", "C2H6", "C2H4", "C2H2", "C3H8", "C3H6", "C4H10"};
  static std::string_view const liquids[] = {
      "H2O", "C2H5OH",     "CH3OH",  "C6H14",   "C8H18", "C7H16", "C5H12", "C6H12", "C3H8O3", "CH3COCH3", "(CH3)2CO", "C6H6",
      "Hg",  "(CH3)2CHOH", "C4H9OH", "C6H5CH3", "CS2",   "CCl4",  "SiCl4", "PCl3",  "SOCl2",  "C3H7OH",   "C10H22"};
  static std::string_view const dissolved[] = {"Cl2", "Br2", "I2", "H2O2", "NH3", "NH4OH", "H2C2O4", "C6H8O7", "C4H6O6"};
  auto const in = [&](auto const& list) { return std::find(std::begin(list), std::end(list), key) != std::end(list); };
  if (in(gases)) return State::gas;
  if (in(liquids)) return State::liquid;
  if (in(dissolved) || sort == Sort::acid || sort == Sort::ion) return State::aqueous;
  static std::string_view const solids[] = {"S", "S8", "P", "P4", "C", "SiO2", "P4O10", "P2O5", "C6H12O6", "C12H22O11", "C10H8"};
  if (in(solids) || sort == Sort::metal || sort == Sort::basic_oxide || sort == Sort::acidic_oxide) return State::solid;
  return State::none;
}

}  // namespace

Formula formula_in(std::string_view text) {
  auto const read = parse_formula(text);
  if (!ok(read)) throw std::invalid_argument("table with the formula " + std::string(text));
  return value(read);
}

std::vector<Formula> formulas_in(std::string_view cell) {
  std::vector<Formula> result;
  for (auto const text : split_list(cell)) result.push_back(formula_in(text));
  return result;
}

std::string key_of(Formula const& formula) { return plain(formula); }

Formula with_state(Formula formula, State state) {
  formula.state = state;
  return formula;
}

std::string lone_element(Formula const& formula) {
  if (formula.parts.size() != 1 || formula.charge != 0 || formula.electron || formula.parts[0].groups.size() != 1) return "";
  return formula.parts[0].groups[0].element.empty() ? "" : plain(formula);
}

Acid const* acid_of(Formula const& formula) {
  return formula.charge != 0 ? nullptr : found(acid_table().by_spelling, key_of(anhydrous(formula)));
}
Acid const* acid_with(std::string_view anion) { return found(acid_table().by_anion, std::string(anion)); }
std::vector<Acid const*> steps_of(Acid const& acid) {
  std::vector<Acid const*> steps;
  for (auto const& row : acid_table().rows)
    if (row.spellings.front() == acid.spellings.front()) steps.push_back(&row);
  std::sort(steps.begin(), steps.end(), [](Acid const* a, Acid const* b) { return a->protons > b->protons; });
  return steps;
}
Acid const* acid_from_oxide(Formula const& formula) { return found(acid_table().by_oxide, key_of(formula)); }

Part ion_part(std::string_view plain_ion) {
  Part part;
  part.ion = with_state(formula_in(plain_ion), State::aqueous);
  part.key = std::string(plain_ion);
  return part;
}

std::vector<Part> parts_of(Formula const& written) {
  if (written.electron || written.parts.empty()) return {};
  if (written.charge != 0) {
    static FormulaIndex const index = [] {
      FormulaIndex result;
      for (std::size_t i = 0; i < ions().size(); ++i) result.add(ions()[i].formula, static_cast<int>(i));
      return result;
    }();
    Part part;
    part.ion = with_state(written, State::aqueous);
    int const row = index.find(written);
    part.key = row == FormulaIndex::none ? key_of(written) : ions()[static_cast<std::size_t>(row)].formula;
    return {part};
  }
  Formula const salt = anhydrous(written);
  if (Acid const* const acid = acid_of(salt)) {
    Part proton = ion_part("H^+");
    proton.count = acid->protons;
    return {proton, part_in(salt, acid->anion, 1)};
  }
  if (!lone_element(salt).empty()) return {};
  std::vector<Part> parts;
  for (auto const& [ion, count] : ions_of(plain(salt))) parts.push_back(part_in(salt, ion, count));
  return parts;
}

std::vector<Part> dissolved_ions(Formula const& formula) {
  if (formula.state != State::aqueous) return {};
  if (formula.charge == 0 && key_of(formula) == "NH4OH") return {};
  Acid const* const acid = acid_of(formula);
  if (acid != nullptr && acid->strength != Acid::Strength::strong) return {};
  return parts_of(formula);
}

Formula salt_of(Part const& cation, Part const& anion) {
  std::int64_t const plus = cation.ion.charge, minus = -anion.ion.charge;
  std::int64_t common = plus;
  for (std::int64_t rest = minus; rest != 0;) {
    std::int64_t const next = common % rest;
    common = rest;
    rest = next;
  }
  auto const add = [](std::vector<Group>& groups, Formula const& ion, std::int64_t count) {
    auto const& own = ion.parts[0].groups;
    if (count == 1) {
      groups.insert(groups.end(), own.begin(), own.end());
    } else if (own.size() == 1 && (own[0].count == 1)) {
      groups.push_back(own[0]);
      groups.back().count = count;
    } else {
      Group bracket;
      bracket.inside = own;
      bracket.count = count;
      groups.push_back(bracket);
    }
  };
  Formula salt;
  salt.parts.push_back({1, {}});
  auto& groups = salt.parts[0].groups;
  if (anion.first) add(groups, anion.ion, plus / common);
  add(groups, cation.ion, minus / common);
  if (!anion.first) add(groups, anion.ion, plus / common);
  return salt;
}

Formula acid_spelled(Acid const& acid, Part const& anion) {
  Formula bare = anion.ion;
  bare.charge = 0;
  std::string const text = plain(bare);
  std::string const own = anion.key;
  if (own.rfind(text + '^', 0) != 0)
    for (auto const& spelling : acid.spellings)
      if (spelling.size() > text.size() && spelling[0] == 'H' && spelling.find(text) != std::string::npos)
        return formula_in(spelling);
  return formula_in(acid.spellings.front());
}

std::string ion_colour(std::string_view ion) {
  static std::map<std::string, std::string, std::less<>> const colours = [] {
    std::map<std::string, std::string, std::less<>> result;
    TsvTable const table(data::ions_tsv);
    auto const formula = table.column("formula"), colour = table.column("colour_in_water");
    for (std::size_t row = 0; row < table.size(); ++row) {
      auto const text = table.cell(row, colour);
      bool const plain_colour = text.find("colourless") == text.npos && text.find("reacts") == text.npos &&
                                text.find("hydrolyses") == text.npos && text.find("disproportionates") == text.npos &&
                                text.find("unstable") == text.npos;
      if (plain_colour) result[std::string(table.cell(row, formula))] = std::string(text.substr(0, text.find_first_of(";(")));
    }
    for (auto& [name, text] : result)
      while (!text.empty() && text.back() == ' ') text.pop_back();
    return result;
  }();
  auto const place = colours.find(ion);
  return place == colours.end() ? "" : place->second;
}

Reagent reagent_of(Reactant const& reactant) {
  Reagent reagent;
  reagent.formula = reactant.formula;
  reagent.stated = reactant.parts;
  reagent.excess = reactant.excess;
  reagent.concentrated = reactant.concentrated;
  reagent.state_said = reactant.formula.state != State::none;
  Formula const dry = with_state(anhydrous(reactant.formula), State::none);
  reagent.key = key_of(dry);
  reagent.parts = parts_of(dry);
  std::string const element = lone_element(dry);
  auto const has = [&](std::string_view ion) {
    return std::any_of(reagent.parts.begin(), reagent.parts.end(), [&](Part const& part) { return part.key == ion; });
  };
  if (dry.charge != 0)
    reagent.sort = Sort::ion;
  else if (reagent.key == "NH3" || reagent.key == "NH4OH")
    reagent.sort = Sort::ammonia;
  else if (reagent.key == "H2O")
    reagent.sort = Sort::water;
  else if (reagent.key == "O2")
    reagent.sort = Sort::oxygen;
  else if (element == "F2" || element == "Cl2" || element == "Br2" || element == "I2")
    reagent.sort = Sort::halogen;
  else if (!element.empty())
    reagent.sort = metal_of_series(element) ? Sort::metal : Sort::molecule;
  else if (acid_of(dry) != nullptr)
    reagent.sort = Sort::acid;
  else if (acid_from_oxide(dry) != nullptr)
    reagent.sort = Sort::acidic_oxide;
  else if (has("O^2-"))
    reagent.sort = Sort::basic_oxide;
  else if (has("OH^-"))
    reagent.sort = Sort::base;
  else if (!reagent.parts.empty())
    reagent.sort = Sort::salt;
  if (reagent.sort == Sort::salt || reagent.sort == Sort::base || reagent.sort == Sort::basic_oxide)
    reagent.dissolves = dissolving(dry);
  using Verdict = Dissolving::Verdict;
  Verdict const verdict = reagent.dissolves.verdict;
  if (!reagent.state_said) {
    State state = usual_state(reagent.key, reagent.sort);
    if (reagent.sort == Sort::salt || reagent.sort == Sort::base)
      state = verdict == Verdict::insoluble ? State::solid : State::aqueous;
    reagent.formula.state = state;
  } else if ((reagent.sort == Sort::salt || reagent.sort == Sort::base) && verdict == Verdict::insoluble &&
             reagent.formula.state == State::aqueous) {
    reagent.warnings.push_back(reagent.key + " does not dissolve by " + reagent.dissolves.by + ": taken as " + reagent.key +
                               "(s)");
    reagent.formula.state = State::solid;
  }
  if (reagent.formula.state == State::aqueous) reagent.formula = with_state(anhydrous(reagent.formula), State::aqueous);
  return reagent;
}

}  // namespace molewright::mixing
