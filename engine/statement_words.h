#pragma once
// Lines that say what they mean in other ways: by their unit, by the names of substances.
#include <string>
#include <string_view>

#include "engine/quantity.h"

namespace molewright {

/// The unit tells which quantity is meant: a solubility or a concentration in g/L is a mass concentration, an M or a C in mol/L a
/// concentration, a c in J/(g K) a specific heat capacity, a w in % (v/v) a volume fraction, a concentration in ppm a mass
/// fraction.
void take_unit(Quantity& of, Unit const& unit);

/// "magnesium + hydrochloric acid -> magnesium chloride + hydrogen" in formulas; empty where a term is no name and no formula.
std::string in_formulas(std::string_view words);

}  // namespace molewright
