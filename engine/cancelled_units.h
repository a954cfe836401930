#pragma once
// What becomes of the units in a step: "mol/L × L = mol: L cancels".
#include <string>
#include <vector>

namespace molewright {

/// A unit as it is printed in a step ("mol/dm³", "J/(g K)", "mol⁻¹"; empty for a pure number) and its exponent there.
struct PrintedUnit {
  std::string text;
  int exponent = 1;
};

/// "mol/L × L = mol: L cancels" for a product of `factors` (what is divided by has an exponent below 0) that comes to `result`.
/// `of_one_size`: the units multiply to `result` with the number 1, so that what is left may be another spelling of it (kPa × L =
/// J). Empty where nothing cancels, and where the units do not come to the result's.
std::string cancelled_units(std::vector<PrintedUnit> const& factors, std::string const& result, bool of_one_size);

}  // namespace molewright
