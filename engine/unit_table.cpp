#include "engine/unit_table.h"

#include <algorithm>
#include <array>
#include <map>
#include <stdexcept>
#include <utility>

#include "engine/ascii.h"
#include "engine/decimal.h"
#include "engine/tsv.h"

namespace molewright {
namespace data {
extern std::string_view const units_tsv;
}
namespace {

[[noreturn]] void refuse(std::string_view row) {
  throw std::runtime_error("units.tsv: a row that does not read: " + std::string(row));
}

/// "0.001", "1e-9", "10132500/760".
Rational number_of(std::string_view cell, std::string_view row) {
  Rational result(1);
  bool first = true;
  for (auto const part : split_cells(cell, '/')) {
    auto const number = parse_decimal(part);
    if (!ok(number)) refuse(row);
    result = first ? value(number).value : result / value(number).value;
    first = false;
  }
  return result;
}

/// Of "mol/dm3": mol, dm^-3. A symbol with brackets or blanks ("% (w/v)", "formula units") is one piece.
std::vector<UnitPower> powers_of(std::string_view symbol) {
  if (symbol.find_first_of("( ") != std::string_view::npos) return {{std::string(symbol), 1}};
  std::vector<UnitPower> powers;
  int sign = 1;
  for (auto part : split_cells(symbol, '/')) {
    int exponent = 1;
    if (is_digit(part.back())) {
      exponent = part.back() - '0';
      part.remove_suffix(1);
    }
    powers.push_back({std::string(part), sign * exponent});
    sign = -1;
  }
  return powers;
}

struct Spelling {
  std::string text;
  std::size_t entry = 0;
};

struct Units {
  std::vector<UnitEntry> entries;
  std::array<std::vector<Spelling>, 256> by_first_byte;  ///< longest first
  std::map<std::string, std::size_t, std::less<>> by_symbol;
  std::vector<std::string> spellings;
};

std::vector<std::string> spellings_of(std::string_view as_they_stand, std::string_view words) {
  std::vector<std::string> result;
  for (auto const spelling : split_cells(as_they_stand, '|')) result.push_back(std::string(spelling));
  for (auto const word : split_cells(words, '|')) {
    if (word.empty()) continue;
    for (auto const& form : {std::string(word), capitalized(std::string(word))}) {
      result.push_back(form);
      result.push_back(form + "s");
    }
  }
  return result;
}

UnitEntry entry_of(std::vector<std::string_view> const& cells, std::string_view row) {
  UnitEntry entry;
  entry.unit.symbol = std::string(cells[0]);
  entry.printed = std::string(cells[1].empty() ? cells[0] : cells[1]);
  for (std::size_t i = 0; i < entry.unit.dimension.exponents.size(); ++i) {
    std::int64_t exponent = 0;
    std::int64_t one = 1;
    if (!number_of(cells[4 + i], row).fits(exponent, one) || one != 1 || exponent < -9 || exponent > 9) refuse(row);
    entry.unit.dimension.exponents[i] = static_cast<std::int8_t>(exponent);
  }
  entry.unit.factor = number_of(cells[9], row);
  entry.unit.offset = number_of(cells[10], row);
  entry.powers = powers_of(entry.unit.symbol);
  return entry;
}

Units read_table() {
  Units table;
  bool header = true;
  std::map<std::string, std::size_t> owners;
  std::vector<std::string> others;
  for (auto const row : split_cells(data::units_tsv, '\n')) {
    if (row.empty() || row.front() == '#') continue;
    if (std::exchange(header, false)) continue;
    auto const cells = split_cells(row);
    if (cells.size() != 12 || cells[11].empty()) refuse(row);
    std::size_t const index = table.entries.size();
    table.entries.push_back(entry_of(cells, row));
    std::string const& symbol = table.entries.back().unit.symbol;
    table.by_symbol[symbol] = index;
    table.spellings.push_back(symbol);
    auto spellings = spellings_of(cells[2], cells[3]);
    // mol/L is read as a quotient like any other: as one word it would take the power of "mol/L2" for itself.
    if (table.entries.back().powers.size() == 1) spellings.push_back(symbol);
    for (auto const& spelling : spellings) {
      if (spelling.empty()) continue;
      auto const [owner, fresh] = owners.insert({spelling, index});
      if (!fresh) {
        if (owner->second != index) refuse(row);  // one spelling, one unit
        continue;
      }
      table.by_first_byte[static_cast<unsigned char>(spelling.front())].push_back({spelling, index});
      if (spelling != symbol) others.push_back(spelling);
    }
  }
  for (auto& bucket : table.by_first_byte) {
    std::stable_sort(bucket.begin(), bucket.end(), [](auto const& a, auto const& b) { return a.text.size() > b.text.size(); });
  }
  table.spellings.insert(table.spellings.end(), others.begin(), others.end());
  return table;
}

Units const& table() {
  static Units const result = read_table();
  return result;
}

/// True where `text` goes on with a letter, so that a unit cannot end before it. Of what lies beyond ASCII only signs that stand
/// between or above units are no letters: superscripts, dots, dashes, × and the typographic blanks.
bool begins_with_letter(std::string_view text) {
  static constexpr std::array<std::string_view, 9> signs{"·",      "⋅",      "×",      "\u00A0", "\u2212",
                                                         "\u00B9", "\u00B2", "\u00B3", "\u00B0"};
  if (text.empty()) return false;
  if (static_cast<unsigned char>(text.front()) < 0x80U) return is_letter(text.front());
  if (text.front() == '\xE2') return false;  // U+2000 to U+2FFF: punctuation, superscripts, arrows, mathematics
  return std::none_of(signs.begin(), signs.end(), [&](std::string_view sign) { return text.starts_with(sign); });
}

}  // namespace

std::vector<UnitEntry> const& unit_entries() { return table().entries; }

UnitEntry const* match_unit(std::string_view text, std::size_t& length) {
  if (text.empty()) return nullptr;
  for (auto const& spelling : table().by_first_byte[static_cast<unsigned char>(text.front())]) {
    if (!text.starts_with(spelling.text)) continue;
    char const last = spelling.text.back();
    bool const is_word = is_letter(last) || is_digit(last);
    if (is_word && begins_with_letter(text.substr(spelling.text.size()))) continue;
    length = spelling.text.size();
    return &table().entries[spelling.entry];
  }
  return nullptr;
}

UnitEntry const* find_unit(std::string_view symbol) {
  auto const found = table().by_symbol.find(symbol);
  return found == table().by_symbol.end() ? nullptr : &table().entries[found->second];
}

std::vector<std::string> const& unit_spellings() { return table().spellings; }

std::vector<std::string> unit_symbols() {
  std::vector<std::string> symbols;
  for (auto const& entry : unit_entries()) symbols.push_back(entry.unit.symbol);
  return symbols;
}

}  // namespace molewright
