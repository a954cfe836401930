#pragma once
// Exact rational numbers. A pair of machine integers while it fits, Boost.Multiprecision behind it when it does not.
#include <cstdint>
#include <memory>
#include <string>
#include <string_view>

namespace molewright {

/// Always in lowest terms with a positive denominator. All arithmetic is exact.
class Rational {
 public:
  Rational();
  Rational(std::int64_t integer);  // NOLINT: an integer is a rational
  /// REQUIRES: denominator is not 0.
  Rational(std::int64_t numerator, std::int64_t denominator);
  Rational(Rational const& other);
  Rational(Rational&& other) noexcept;
  Rational& operator=(Rational const& other);
  Rational& operator=(Rational&& other) noexcept;
  ~Rational();

  /// 10^k, k of either sign.
  static Rational power_of_ten(int k);
  /// `digits` are ASCII digits only, of any number; leading zeros do no harm ("0123" is 123, not octal).
  static Rational from_digits(std::string_view digits);
  /// Reads what `text()` writes: "3", "-7/40". REQUIRES: it is of that form (throws std::invalid_argument otherwise).
  static Rational from_text(std::string_view text);

  int sign() const;         ///< -1, 0, 1
  bool is_integer() const;
  double to_double() const; ///< nearest double, also for numbers far beyond 64 bits; may be inf or 0 at the far ends
  std::string text() const; ///< "3", "-7/40"
  /// Decimal digits of floor(|*this|), "0" for less than one.
  std::string integer_digits() const;
  Rational floor() const;
  Rational absolute() const;
  Rational reciprocal() const;  ///< REQUIRES: not 0.
  /// Integer power, negative allowed. REQUIRES: not 0 when exponent < 0.
  Rational power(int exponent) const;
  /// The numerator and denominator where both fit in 63 bits; false otherwise.
  bool fits(std::int64_t& numerator, std::int64_t& denominator) const;

  Rational operator-() const;
  Rational& operator+=(Rational const& other);
  Rational& operator-=(Rational const& other);
  Rational& operator*=(Rational const& other);
  Rational& operator/=(Rational const& other);  ///< REQUIRES: other is not 0 (throws std::domain_error).
  friend Rational operator+(Rational a, Rational const& b) { return a += b; }
  friend Rational operator-(Rational a, Rational const& b) { return a -= b; }
  friend Rational operator*(Rational a, Rational const& b) { return a *= b; }
  friend Rational operator/(Rational a, Rational const& b) { return a /= b; }
  friend bool operator==(Rational const& a, Rational const& b) { return a.compare(b) == 0; }
  friend bool operator!=(Rational const& a, Rational const& b) { return a.compare(b) != 0; }
  friend bool operator<(Rational const& a, Rational const& b) { return a.compare(b) < 0; }
  friend bool operator>(Rational const& a, Rational const& b) { return a.compare(b) > 0; }
  friend bool operator<=(Rational const& a, Rational const& b) { return a.compare(b) <= 0; }
  friend bool operator>=(Rational const& a, Rational const& b) { return a.compare(b) >= 0; }

 private:
  struct Big;
  int compare(Rational const& other) const;
  std::int64_t numerator_ = 0;
  std::int64_t denominator_ = 1;
  std::unique_ptr<Big> big_;  ///< holds the value when it does not fit; the two integers are then unused
};

}  // namespace molewright
