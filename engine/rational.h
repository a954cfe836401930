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
  Rational() = default;
  Rational(std::int64_t integer);  // NOLINT: an integer is a rational
  /// REQUIRES: denominator is not 0 (throws std::domain_error).
  Rational(std::int64_t numerator, std::int64_t denominator);
  Rational(Rational const& other)
      : numerator_(other.numerator_), denominator_(other.denominator_), big_(other.big_ ? copy_of(*other.big_) : nullptr) {}
  Rational(Rational&& other) noexcept = default;
  Rational& operator=(Rational const& other);
  Rational& operator=(Rational&& other) noexcept = default;
  ~Rational() = default;

  /// 10^k, k of either sign.
  static Rational power_of_ten(int k);
  /// `digits` are ASCII digits only, of any number; leading zeros do no harm ("0123" is 123, not octal).
  /// Throws std::invalid_argument for anything else, the empty text included.
  static Rational from_digits(std::string_view digits);
  /// Reads what `text()` writes: "3", "-7/40". REQUIRES: it is of that form (throws std::invalid_argument otherwise).
  static Rational from_text(std::string_view text);

  int sign() const;  ///< -1, 0, 1
  bool is_integer() const;
  double to_double() const;  ///< nearest double, also for numbers far beyond 64 bits; may be inf or 0 at the far ends
  std::string text() const;  ///< "3", "-7/40"
  /// Decimal digits of floor(|*this|), "0" for less than one.
  std::string integer_digits() const;
  Rational floor() const;  ///< towards minus infinity: -1/2 -> -1
  Rational absolute() const;
  Rational reciprocal() const;  ///< REQUIRES: not 0 (throws std::domain_error).
  /// Integer power, negative allowed; 0 to the power 0 is 1. REQUIRES: not 0 when exponent < 0 (throws std::domain_error).
  Rational power(int exponent) const;
  /// The numerator and denominator where both fit in 63 bits (so the negative of either does too); false otherwise.
  bool fits(std::int64_t& numerator, std::int64_t& denominator) const;

  Rational operator-() const;
  Rational& operator+=(Rational const& other);
  Rational& operator-=(Rational const& other);
  Rational& operator*=(Rational const& other);
  Rational& operator/=(Rational const& other);  ///< REQUIRES: other is not 0 (throws std::domain_error).
  friend Rational operator+(Rational a, Rational const& b) {
    a += b;
    return a;
  }
  friend Rational operator-(Rational a, Rational const& b) {
    a -= b;
    return a;
  }
  friend Rational operator*(Rational a, Rational const& b) {
    a *= b;
    return a;
  }
  friend Rational operator/(Rational a, Rational const& b) {
    a /= b;
    return a;
  }
  friend bool operator==(Rational const& a, Rational const& b) { return a.compare(b) == 0; }
  friend bool operator!=(Rational const& a, Rational const& b) { return a.compare(b) != 0; }
  friend bool operator<(Rational const& a, Rational const& b) { return a.compare(b) < 0; }
  friend bool operator>(Rational const& a, Rational const& b) { return a.compare(b) > 0; }
  friend bool operator<=(Rational const& a, Rational const& b) { return a.compare(b) <= 0; }
  friend bool operator>=(Rational const& a, Rational const& b) { return a.compare(b) >= 0; }

 private:
  struct Big;
  struct DropBig {  // lets the pointer be destroyed where Big is not known
    void operator()(Big* big) const noexcept;
  };
  static Big* copy_of(Big const& big);
  int compare(Rational const& other) const;
  std::int64_t numerator_ = 0;
  std::int64_t denominator_ = 1;
  std::unique_ptr<Big, DropBig> big_;  ///< holds the value only when it does not fit; the two integers are then 0 and 1
};

}  // namespace molewright
