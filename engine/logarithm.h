#pragma once
// Logarithms, powers and roots of exact numbers: exact where they are rational, else to 50 significant digits. (Rounding any of
// them to a place is safe: an irrational number is never a tie.)
#include "engine/rational.h"

namespace molewright {

constexpr int logarithm_digits = 50;

/// lg x. REQUIRES: x > 0 (throws std::domain_error).
Rational log10_of(Rational const& x);
/// 10^x. REQUIRES: |x| <= 1000 (throws std::domain_error).
Rational power_of_ten(Rational const& x);
/// The positive root. REQUIRES: x >= 0, degree >= 1 (throws std::domain_error).
Rational root_of(Rational const& x, int degree);

}  // namespace molewright
