#pragma once
// Equations with a hydrate whose water is not known: Na2CO3·xH2O.
#include <string>
#include <string_view>

namespace molewright {

/// An equation with a hydrate whose water is not known, as one of its salt: Na2CO3·xH2O + 2HCl -> 2NaCl + CO2 + (x+1)H2O. Empty
/// where there is none, or where nothing but the water leaves it.
struct OfSalt {
  bool unknown_water = false;
  std::string equation;
};
OfSalt with_salt_alone(std::string_view body);

}  // namespace molewright
