#include "engine/logarithm.h"

#include <boost/multiprecision/cpp_bin_float.hpp>
#include <cmath>
#include <stdexcept>
#include <string>

#include "engine/decimal.h"

namespace molewright {
namespace {

// Twenty digits more than are kept, so that the last kept one is right.
using Real = boost::multiprecision::number<boost::multiprecision::cpp_bin_float<70>, boost::multiprecision::et_off>;

Real real_of(Rational const& x) {
  auto const text = x.text();
  auto const slash = text.find('/');
  if (slash == std::string::npos) return Real(text);
  return Real(text.substr(0, slash)) / Real(text.substr(slash + 1));
}

/// The decimal digits of `x` as a rational number.
Rational rational_of(Real const& x) {
  auto const text = x.str(logarithm_digits, std::ios_base::scientific);
  auto const read = parse_decimal(text);
  if (!ok(read)) throw std::domain_error("a logarithm, a power or a root out of range: " + text);
  return value(read).value;
}
}  // namespace

Rational log10_of(Rational const& x) {
  if (x.sign() <= 0) throw std::domain_error("the logarithm of a number that is not positive");
  int const exponent = magnitude(x);
  if (x == Rational::power_of_ten(exponent)) return Rational(exponent);
  return rational_of(boost::multiprecision::log10(real_of(x)));
}

Rational power_of_ten(Rational const& x) {
  constexpr int largest = 1000;
  if (x.absolute() > Rational(largest)) throw std::domain_error("a power of ten beyond 1000");
  if (x.is_integer()) return Rational::power_of_ten(static_cast<int>(x.to_double()));
  // The whole part apart, so that the digits are those of the fraction.
  auto const whole = x.floor();
  return rational_of(boost::multiprecision::pow(Real(10), real_of(x - whole))) *
         Rational::power_of_ten(static_cast<int>(whole.to_double()));
}

Rational root_of(Rational const& x, int degree) {
  if (x.sign() < 0 || degree < 1) throw std::domain_error("a root of a negative number, or of degree 0");
  if (degree == 1 || x.sign() == 0) return x;
  auto const root = rational_of(boost::multiprecision::pow(real_of(x), Real(1) / Real(degree)));
  // An exact root has few digits: the decimals that end, and the quotients of small numbers.
  auto const close = root * Rational::power_of_ten(8 - logarithm_digits);
  for (int figures = 1; figures <= logarithm_digits / 2; ++figures) {
    auto const rounded = round_to_figures(root, figures, Rounding::half_up);
    if ((rounded - root).absolute() < close && rounded.power(degree) == x) return rounded;
  }
  constexpr std::int64_t largest_denominator = 1000;
  constexpr double nearly = 1e-9;
  double const about = root.to_double();
  for (std::int64_t d = 2; d <= largest_denominator; ++d) {
    double const times = about * static_cast<double>(d);
    if (!(std::abs(times - std::round(times)) < nearly * times)) continue;
    auto const candidate = round_to_place(root * Rational(d), 0, Rounding::half_up) / Rational(d);
    if ((candidate - root).absolute() < close && candidate.power(degree) == x) return candidate;
  }
  return root;
}

}  // namespace molewright
