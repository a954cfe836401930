#pragma once
// The elements and their atomic weights, from data/atomic_weights.tsv (edition and source there).
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "engine/decimal.h"

namespace molewright {

struct Element {
  std::string symbol;
  std::string name;            ///< "sulfur", "aluminium"
  std::string other_spelling;  ///< "sulphur", "aluminum"; empty where there is one spelling
  int atomic_number = 0;
  std::string abridged;  ///< IUPAC abridged value as printed; empty for an element without a standard atomic weight
  std::string two_decimals, one_decimal;
  std::string mass_number;  ///< longest-lived isotope, for elements without a standard atomic weight
};

/// All 118, by atomic number.
std::vector<Element> const& elements();
/// nullptr for a symbol that is no element.
Element const* find_element(std::string_view symbol);

enum class WeightTable { abridged, two_decimals, one_decimal, whole };

/// The atomic weights of one course: a table, and values that the course overrides.
struct AtomicWeights {
  WeightTable table = WeightTable::abridged;
  std::vector<std::pair<std::string, Decimal>> overrides;
  /// The mass number stands in for an element without a standard atomic weight. `whole` rounds the abridged value half up, but
  /// Cl 35.5 and Cu 63.5 as schools print. REQUIRES: symbol is an element.
  Decimal weight(std::string_view symbol) const;
};

}  // namespace molewright
