#include "engine/nomenclature_parts.h"

#include <algorithm>
#include <array>
#include <map>
#include <stdexcept>
#include <utility>

#include "engine/ascii.h"
#include "engine/element.h"
#include "engine/formula_index.h"
#include "engine/tsv.h"

namespace molewright {
namespace data {
extern std::string_view const names_tsv;
extern std::string_view const naming_tsv;
}  // namespace data

namespace naming {
namespace {

struct ListedTable {
  std::vector<Listed> rows;
  FormulaIndex index;
};

ListedTable const& listed_table() {
  static ListedTable const made = [] {
    ListedTable result;
    TsvTable const table(data::names_tsv);
    auto const formula = table.column("formula"), name = table.column("name"), others = table.column("other_names"),
               formulas = table.column("other_formulas");
    for (std::size_t row = 0; row < table.size(); ++row) {
      int const number = static_cast<int>(row);
      Listed entry;
      entry.formula = plain(value(parse_formula(table.cell(row, formula))));
      entry.name = std::string(table.cell(row, name));
      for (std::string_view const other : split_list(table.cell(row, others))) entry.other_names.emplace_back(other);
      result.rows.push_back(std::move(entry));
      result.index.add(table.cell(row, formula), number);
      for (std::string_view const other : split_list(table.cell(row, formulas))) result.index.add(other, number);
    }
    return result;
  }();
  return made;
}

std::vector<int> numbers(std::string_view cell) {
  std::vector<int> result;
  for (std::string_view const item : split_cells(cell, ' '))
    if (!item.empty()) result.push_back(std::stoi(std::string(item)));
  return result;
}

bool ends_with(std::string_view text, std::string_view end) {
  return text.size() >= end.size() && text.substr(text.size() - end.size()) == end;
}

/// "sulfuric acid" of "sulfate"; empty for an anion that is named otherwise.
std::string acid_name(std::string anion) {
  char const* ending = "";
  if (ends_with(anion, "ate"))
    ending = "ic acid";
  else if (ends_with(anion, "ite"))
    ending = "ous acid";
  else
    return "";
  anion.resize(anion.size() - 3);
  // The stem of sulfur and phosphorus is longer in acids: Red Book 2005, table IR-8.1.
  if (ends_with(anion, "sulf") || ends_with(anion, "thion")) return anion + (ends_with(anion, "sulf") ? "ur" : "") + ending;
  if (ends_with(anion, "phosph")) return anion + "or" + ending;
  return anion + ending;
}

void replace_all(std::string& text, std::string_view from, std::string_view to) {
  for (std::size_t at = 0; (at = text.find(from, at)) != std::string::npos; at += to.size()) text.replace(at, from.size(), to);
}

constexpr std::array<std::string_view, 21> prefixes = {
    "",       "mono",   "di",      "tri",       "tetra",     "penta",    "hexa",      "hepta",    "octa",     "nona", "deca",
    "undeca", "dodeca", "trideca", "tetradeca", "pentadeca", "hexadeca", "heptadeca", "octadeca", "nonadeca", "icosa"};
constexpr std::array<std::string_view, 9> romans = {"", "I", "II", "III", "IV", "V", "VI", "VII", "VIII"};

/// Which number a word is in Roman, or 0: "iii".
int roman_number(std::string_view word) {
  for (std::size_t i = 1; i < romans.size(); ++i)
    if (lowered(romans[i]) == word) return static_cast<int>(i);
  return 0;
}

}  // namespace

std::vector<Listed> const& listed() { return listed_table().rows; }

Listed const* find_listed(Formula const& formula) {
  int const row = listed_table().index.find(formula);
  if (row == FormulaIndex::none) return nullptr;
  Listed const& found = listed()[static_cast<std::size_t>(row)];
  // Found by its atoms: hydroxylammonium nitrite, NH3OHNO2, is not the ammonium nitrate that has the same.
  if (plain(formula) != found.formula)
    if (auto const own = salt_pair(formula); own && own->as_written)
      if (auto const other = salt_pair(parsed(found.formula));
          other && (own->cation != other->cation || own->anion != other->anion))
        return nullptr;
  return &found;
}

Formula parsed(std::string const& formula) { return value(parse_formula(formula)); }

std::string as_listed(std::string const& formula) {
  Listed const* const row = find_listed(parsed(formula));
  return row == nullptr ? formula : row->formula;
}

int ElementName::highest() const { return states.empty() ? 0 : *std::max_element(states.begin(), states.end()); }
bool ElementName::has(int state) const {
  if (symbol == "Hg" && state == 1) return false;
  return std::find(states.begin(), states.end(), state) != states.end();
}

std::vector<ElementName> const& element_names() {
  static std::vector<ElementName> const made = [] {
    std::vector<ElementName> result;
    TsvTable const table(data::naming_tsv);
    auto const symbol = table.column("symbol"), ending = table.column("ending"), charge = table.column("anion_charge"),
               states = table.column("states"), usual = table.column("usual"), number = table.column("number");
    for (std::size_t row = 0; row < table.size(); ++row) {
      ElementName entry;
      entry.symbol = std::string(table.cell(row, symbol));
      if (find_element(entry.symbol) == nullptr) throw std::invalid_argument("naming table with the symbol " + entry.symbol);
      entry.ending = std::string(table.cell(row, ending));
      auto const size = numbers(table.cell(row, charge));
      entry.anion_charge = size.empty() ? 0 : size.front();
      entry.states = numbers(table.cell(row, states));
      entry.usual = numbers(table.cell(row, usual));
      entry.number = table.cell(row, number) == "yes";
      result.push_back(std::move(entry));
    }
    return result;
  }();
  return made;
}

ElementName const* element_name(std::string_view symbol) {
  auto const& all = element_names();
  auto const found = std::find_if(all.begin(), all.end(), [&](ElementName const& entry) { return entry.symbol == symbol; });
  return found == all.end() ? nullptr : &*found;
}

bool named_as_nonmetal(std::string_view symbol) { return !is_metal(symbol) || symbol == "Ge"; }

std::vector<Acid> const& acids() {
  static std::vector<Acid> const made = [] {
    std::vector<Acid> result;
    for (NamedIon const& ion : named_ions()) {
      if (ion.charge >= 0 || ion.complex || ion.name.find("hydr") != std::string::npos)
        continue;                                                                      // hydrogensulfate, hydridoborate
      static std::string_view const acid_metals[] = {"", "Cr", "Mn", "Mo", "W", "V"};  // zincates and the like have no acids
      if (std::find(std::begin(acid_metals), std::end(acid_metals), ion.metal) == std::end(acid_metals)) continue;
      auto const atoms = value(parse_formula(ion.formula)).composition();
      if (atoms.count("C") != 0 && atoms.count("H") != 0) continue;
      std::string const name = acid_name(ion.name);
      if (name.empty()) continue;
      std::int64_t hydrogens = -ion.charge;
      std::string rest = ion.inside;
      if (atoms.count("H") != 0) {  // H3PO3, not H2HPO3
        hydrogens += atoms.at("H");
        rest.erase(0, rest.find_first_not_of("0123456789", 1));
      }
      result.push_back({pair_formula("H", hydrogens, rest, 1), name});
    }
    return result;
  }();
  return made;
}

std::string_view multiplying_prefix(std::int64_t number) {
  return number >= 1 && number < static_cast<std::int64_t>(prefixes.size()) ? prefixes[static_cast<std::size_t>(number)] : "";
}

std::optional<std::int64_t> prefix_number(std::string_view prefix) {
  for (std::size_t i = 1; i < prefixes.size(); ++i)
    if (prefixes[i] == prefix) return static_cast<std::int64_t>(i);
  return std::nullopt;
}

std::string with_prefix(std::int64_t number, std::string_view name) {
  std::string prefix(multiplying_prefix(number));
  bool const open = !prefix.empty() && (prefix.back() == 'a' || prefix.back() == 'o');
  if (open && name.substr(0, 2) == "ox") prefix.pop_back();
  return prefix.append(name);
}

std::string_view roman(int number) {
  return number >= 1 && number < static_cast<int>(romans.size()) ? romans[static_cast<std::size_t>(number)] : "";
}

std::string metal_name(ElementName const& metal, int state) {
  std::string const name = find_element(metal.symbol)->name;
  if (!metal.number && state == metal.states.front()) return name;
  return name + '(' + std::string(roman(state)) + ')';
}

std::string pair_formula(std::string_view first, std::int64_t first_count, std::string_view second, std::int64_t second_count) {
  auto const counted = [](std::string_view symbol, std::int64_t count) {
    return std::string(symbol) + (count == 1 ? "" : std::to_string(count));
  };
  return counted(first, first_count) + counted(second, second_count);
}

std::string key_of(std::string_view name) {
  std::string text = lowered(name);
  // What word processors and web pages make of an apostrophe, a blank and a hyphen.
  for (auto const& [typed, meant] : {std::pair<char const*, char const*>{"’", "'"},
                                     {"\xC2\xA0", " "},
                                     {"\xE2\x80\x89", " "},
                                     {"\xE2\x80\xAF", " "},
                                     {"‑", "-"},
                                     {"–", "-"},
                                     {"−", "-"},
                                     {"\t", " "}})
    replace_all(text, typed, meant);
  replace_all(text, "sulph", "sulf");
  replace_all(text, "aluminum", "aluminium");
  replace_all(text, "cesium", "caesium");
  std::string key, word;
  auto const close = [&] {
    int const number = roman_number(word);
    bool const bracketed = !key.empty() && key.back() == '(';
    key += number > 0 && !key.empty() && !bracketed ? '(' + word + ')' : word;
    word.clear();
  };
  for (std::size_t i = 0; i < text.size(); ++i) {
    char const c = text[i];
    if (c == ' ' || c == '-' || c == '\'' || c == '(' || c == ')') {
      bool const charge = c == '-' && i + 1 < text.size() && text[i + 1] == ')';  // dioxide(2-)
      close();
      if (c == '(' || c == ')' || charge) key += c;
    } else {
      word += c;
    }
  }
  close();
  for (int i = 1; i <= 8; ++i)
    replace_all(key, '(' + std::to_string(i) + "+)", '(' + lowered(romans[static_cast<std::size_t>(i)]) + ')');
  return key;
}

namespace {

/// `from` where a word begins with it: no acetate in ethylenediaminetetraacetate.
void replace_at_word_begin(std::string& text, std::string_view from, std::string_view to) {
  for (std::size_t at = 0; (at = text.find(from, at)) != std::string::npos; ++at)
    if (at == 0 || !is_letter(text[at - 1])) text.replace(at, from.size(), to);
}

}  // namespace

std::string spelled(std::string name, Naming const& naming) {
  if (naming.spelling == Spelling::sulphur) replace_all(name, "sulf", "sulph");
  if (naming.aluminium == Aluminium::aluminum) {
    replace_all(name, "aluminium", "aluminum");
    replace_all(name, "caesium", "cesium");
  }
  if (naming.acetic_acid == AceticAcid::ethanoic)
    for (auto const& [common, systematic] : {std::pair<char const*, char const*>{"acetic acid", "ethanoic acid"},
                                             {"acetate", "ethanoate"},
                                             {"formic acid", "methanoic acid"},
                                             {"formate", "methanoate"}})
      replace_at_word_begin(name, common, systematic);
  if (naming.hydrogencarbonate == Hydrogencarbonate::bicarbonate) replace_all(name, "hydrogencarbonate", "bicarbonate");
  return name;
}

}  // namespace naming
}  // namespace molewright
