#pragma once
// The single units of data/units.tsv and their spellings: the words of which the unit reader makes products and quotients.
#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

#include "engine/unit.h"

namespace molewright {

/// A power of a single unit within a symbol: {"dm", 3}.
struct UnitPower {
  std::string symbol;
  int exponent = 1;
};

struct UnitEntry {
  Unit unit;
  std::string printed;            ///< "µg"; the symbol itself where nothing differs
  std::vector<UnitPower> powers;  ///< what the symbol is made of: mol/L -> mol, L^-1
};

/// In the order of the table. Throws std::runtime_error at the first use if a row does not read.
std::vector<UnitEntry> const& unit_entries();
/// The entry with the longest spelling at the start of `text`, and how long that is; nullptr for none. A spelling that ends in a
/// letter or digit does not match where a letter follows (the g of "grind").
UnitEntry const* match_unit(std::string_view text, std::size_t& length);
/// By symbol ("ug"); nullptr for none.
UnitEntry const* find_unit(std::string_view symbol);
/// Every spelling that is read, symbols first.
std::vector<std::string> const& unit_spellings();

}  // namespace molewright
