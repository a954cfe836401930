#pragma once
// Rows of a table found by formula, however the formula is written.
#include <map>
#include <string>
#include <string_view>

#include "engine/formula.h"

namespace molewright {

/// Looks for the formula as written first (NH4CH3COO), then for the row that alone has the same atoms and charge (CH3COONH4).
/// Compounds of carbon and hydrogen without a metal have isomers (C2H6O), and so have complexes in square brackets: those are
/// found as written only.
class FormulaIndex {
 public:
  /// REQUIRES: `text` is a formula (throws std::invalid_argument). The first row of a formula is kept.
  void add(std::string_view text, int row);
  /// The row, or `none`.
  int find(Formula const& formula) const;
  static constexpr int none = -1;

 private:
  std::map<std::string, int> written_, atoms_;
};

bool is_metal(std::string_view element);

}  // namespace molewright
