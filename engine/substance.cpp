#include "engine/substance.h"

#include <algorithm>
#include <iterator>
#include <stdexcept>
#include <utility>

#include "engine/formula_index.h"
#include "engine/formula_memo.h"
#include "engine/tsv.h"

namespace molewright {
namespace data {
extern std::string_view const solubility_tsv;
extern std::string_view const reagents_tsv;
}  // namespace data

bool is_surely_a_gas(std::string_view formula) {
  // Boiling points at 101 kPa up to 21 °C (NO2): CRC Handbook, from memory. Without HCl and NH3, which often mean the solution.
  static constexpr std::string_view gases[] = {"H2",  "N2",   "O2",   "O3",   "F2",   "Cl2",  "He",   "Ne",  "Ar",
                                               "Kr",  "Xe",   "CO",   "CO2",  "N2O",  "NO",   "NO2",  "SO2", "H2S",
                                               "CH4", "C2H2", "C2H4", "C2H6", "C3H6", "C3H8", "C4H10"};
  return std::find(std::begin(gases), std::end(gases), formula) != std::end(gases);
}

namespace {

// ---- solubility

struct SolubilityTable {
  std::vector<Solubility> rows;
  FormulaIndex index;
};

Solubility::Verdict verdict_from(std::string_view word) {
  if (word == "soluble") return Solubility::Verdict::soluble;
  if (word == "slightly") return Solubility::Verdict::slightly_soluble;
  if (word == "insoluble") return Solubility::Verdict::insoluble;
  if (word == "decomposes") return Solubility::Verdict::reacts;
  throw std::invalid_argument("solubility table with the verdict " + std::string(word));
}

std::optional<Rational> grams(std::string_view cell) {
  if (cell.empty()) return std::nullopt;
  auto const read = parse_decimal(cell);
  if (!ok(read)) throw std::invalid_argument("solubility table with the number " + std::string(cell));
  return value(read).value;
}

SolubilityTable const& solubility_table() {
  static SolubilityTable const made = [] {
    SolubilityTable result;
    TsvTable const table(data::solubility_tsv);
    auto const formula = table.column("formula"), name = table.column("name"), verdict = table.column("verdict"),
               at_20 = table.column("solubility_20C"), at_25 = table.column("solubility_25C"),
               hydrate = table.column("hydrate_usually_bought"), colour = table.column("colour_of_solid");
    for (std::size_t row = 0; row < table.size(); ++row) {
      auto const text = [&](std::size_t column) { return std::string(table.cell(row, column)); };
      result.index.add(table.cell(row, formula), static_cast<int>(row));
      Solubility entry;
      entry.formula = text(formula);
      entry.name = text(name);
      entry.verdict = verdict_from(table.cell(row, verdict));
      entry.grams_per_100g_water = grams(table.cell(row, at_20));
      if (!entry.grams_per_100g_water) entry.grams_per_100g_water = grams(table.cell(row, at_25));
      entry.hydrate_usually_bought = text(hydrate);
      entry.colour_of_solid = text(colour);
      result.rows.push_back(std::move(entry));
    }
    return result;
  }();
  return made;
}

// ---- cautions

struct CautionTable {
  std::vector<Caution> rows;
  FormulaIndex as_bought, dry;
};

CautionTable const& caution_table() {
  static CautionTable const made = [] {
    CautionTable result;
    TsvTable const table(data::reagents_tsv);
    auto const formula = table.column("formula"), hazards = table.column("h_codes"), cautions = table.column("cautions");
    for (std::size_t row = 0; row < table.size(); ++row) {
      int const number = static_cast<int>(row);
      result.as_bought.add(table.cell(row, formula), number);
      result.dry.add(plain(anhydrous(value(parse_formula(table.cell(row, formula))))), number);
      result.rows.push_back({std::string(table.cell(row, hazards)), std::string(table.cell(row, cautions))});
    }
    return result;
  }();
  return made;
}

}  // namespace

Solubility const* solubility(std::string_view formula) {
  auto const known = known_formula(std::string(formula));
  if (!known) return nullptr;
  SolubilityTable const& table = solubility_table();
  int row = table.index.find(known->formula);
  if (row == FormulaIndex::none) row = table.index.find(anhydrous(known->formula));
  return row == FormulaIndex::none ? nullptr : &table.rows[static_cast<std::size_t>(row)];
}

std::vector<Solubility> const& solubilities() { return solubility_table().rows; }

std::optional<Caution> caution_for(std::string_view formula) {
  auto const read = parse_formula(formula);
  if (!ok(read)) return std::nullopt;
  CautionTable const& table = caution_table();
  int row = table.as_bought.find(value(read));
  if (row == FormulaIndex::none) row = table.dry.find(anhydrous(value(read)));
  if (row == FormulaIndex::none) return std::nullopt;
  return table.rows[static_cast<std::size_t>(row)];
}

Caution caution_to_print(std::string_view formula) {
  if (auto const own = caution_for(formula); own && !own->text.empty()) return *own;
  Caution of_ions;
  for (auto const& [ion, count] : ions_of(formula)) {
    auto const row = caution_for(ion);
    if (!row || row->text.empty()) continue;
    of_ions.hazards += (of_ions.hazards.empty() ? "" : " ") + row->hazards;
    of_ions.text += (of_ions.text.empty() ? "" : " ") + row->text;
  }
  if (!of_ions.text.empty()) return of_ions;
  auto const read = known_formula(std::string(formula));
  bool const substance = read && read->formula.charge == 0 && !read->formula.electron;
  return {"", substance ? "no caution is in our tables: see the safety data sheet" : "", false};
}

}  // namespace molewright
