#include "engine/rational.h"

#include <array>
#include <boost/multiprecision/cpp_int.hpp>
#include <cmath>
#include <limits>
#include <stdexcept>
#include <utility>

namespace molewright {
namespace {

namespace mp = boost::multiprecision;
using Integer = mp::number<mp::cpp_int_backend<>, mp::et_off>;
using BigNumber = mp::number<mp::rational_adaptor<mp::cpp_int_backend<>>, mp::et_off>;
__extension__ typedef __int128 Wide;
__extension__ typedef unsigned __int128 UnsignedWide;

constexpr std::int64_t most = std::numeric_limits<std::int64_t>::max();

constexpr std::array<std::int64_t, 19> make_powers() {
  std::array<std::int64_t, 19> powers{};
  std::int64_t power = 1;
  for (std::size_t k = 0; k < powers.size(); ++k) {
    powers[k] = power;
    if (k + 1 < powers.size()) power *= 10;
  }
  return powers;
}
constexpr std::array<std::int64_t, 19> powers_of_ten = make_powers();

/// |n|; every numerator held small is greater than the least int64, so that this cannot overflow.
std::uint64_t size_of(std::int64_t n) { return static_cast<std::uint64_t>(n < 0 ? -n : n); }

bool holds(Wide n) { return n <= most && n >= -Wide{most}; }

/// The greatest common divisor. Most often one of the two is 1, or much smaller than the other: one division then does the work
/// of many steps of the binary method (Knuth, TAOCP 2, 4.5.2, algorithm B), which goes on from there.
std::uint64_t common_of(std::uint64_t a, std::uint64_t b) {
  if (a > b) std::swap(a, b);
  if (a <= 1) return a == 1 ? 1 : b;
  b %= a;
  if (b == 0) return a;
  int const twos_of_a = __builtin_ctzll(a), twos = __builtin_ctzll(b);
  int const shared = twos_of_a < twos ? twos_of_a : twos;
  a >>= twos_of_a;
  b >>= twos;
  while (a != b) {
    std::uint64_t const apart = a > b ? a - b : b - a;
    if (a > b) a = b;
    b = apart >> __builtin_ctzll(apart);
  }
  return a << shared;
}

/// (a/b) * (c/d) in lowest terms, both factors being so; false where it does not fit.
bool multiplied(std::int64_t a, std::int64_t b, std::int64_t c, std::int64_t d, std::int64_t& n, std::int64_t& m) {
  auto const across = static_cast<std::int64_t>(common_of(size_of(a), static_cast<std::uint64_t>(d)));
  auto const back = static_cast<std::int64_t>(common_of(size_of(c), static_cast<std::uint64_t>(b)));
  if (across != 1) {
    a /= across;
    d /= across;
  }
  if (back != 1) {
    c /= back;
    b /= back;
  }
  Wide const top = Wide{a} * c;
  Wide const bottom = Wide{b} * d;
  if (!holds(top) || bottom > most) return false;
  n = static_cast<std::int64_t>(top);
  m = static_cast<std::int64_t>(bottom);
  return true;
}

/// a/b + c/d in lowest terms, both being so; false where it does not fit. After Knuth, TAOCP 2, 4.5.1: the gcd of the
/// denominators first, so that no 128-bit gcd is needed.
bool added(std::int64_t a, std::int64_t b, std::int64_t c, std::int64_t d, std::int64_t& n, std::int64_t& m) {
  if (b == 1 && d == 1) {
    Wide const sum = Wide{a} + c;
    if (!holds(sum)) return false;
    n = static_cast<std::int64_t>(sum);
    m = 1;
    return true;
  }
  auto const common =
      b == d ? b : static_cast<std::int64_t>(common_of(static_cast<std::uint64_t>(b), static_cast<std::uint64_t>(d)));
  Wide top = Wide{a} * (d / common) + Wide{c} * (b / common);
  Wide bottom = 0;
  if (common == 1) {
    bottom = Wide{b} * d;
  } else {
    Wide const rest = top % common;
    auto const left = static_cast<std::int64_t>(
        common_of(static_cast<std::uint64_t>(rest < 0 ? -rest : rest), static_cast<std::uint64_t>(common)));
    top /= left;
    bottom = Wide{b / common} * (d / left);
  }
  if (!holds(top) || bottom > most) return false;
  n = static_cast<std::int64_t>(top);
  m = static_cast<std::int64_t>(bottom);
  return true;
}

int bits_of(UnsignedWide n) {
  int bits = 0;
  for (; n != 0; n >>= 1) ++bits;
  return bits;
}
int bits_of(Integer const& n) { return n == 0 ? 0 : static_cast<int>(mp::msb(n)) + 1; }

/// Nearest double (ties to even) of quotient * 2^exponent, where `more` says that a little was cut off the quotient.
/// `quotient` has 64 or 65 bits, so that one rounding suffices, below the normal range too.
double rounded_double(UnsignedWide quotient, bool more, int exponent) {
  int const bits = bits_of(quotient);
  int const leading = bits - 1 + exponent;
  int const keep = leading < -1022 ? 53 - (-1022 - leading) : 53;
  if (keep < 0) return 0;
  int const drop = bits - keep;
  UnsignedWide kept = quotient >> drop;
  UnsignedWide const cut = quotient & ((UnsignedWide{1} << drop) - 1);
  UnsignedWide const half = UnsignedWide{1} << (drop - 1);
  if (cut > half || (cut == half && (more || (kept & 1) != 0))) ++kept;
  return std::ldexp(static_cast<double>(static_cast<std::uint64_t>(kept)), exponent + drop);
}

double nearest_double(UnsignedWide n, UnsignedWide d) {
  int const shift = 64 + bits_of(d) - bits_of(n);  // at most 127 for two numbers of 63 bits, and never negative
  n <<= shift;
  return rounded_double(n / d, n % d != 0, -shift);
}

double nearest_double(Integer n, Integer d) {
  int const shift = 64 + bits_of(d) - bits_of(n);
  if (shift >= 0) {
    n <<= shift;
  } else {
    d <<= -shift;
  }
  Integer quotient;
  Integer rest;
  mp::divide_qr(n, d, quotient, rest);
  auto const low = static_cast<std::uint64_t>(Integer(quotient & Integer(~std::uint64_t{0})));
  auto const high = static_cast<std::uint64_t>(Integer(quotient >> 64));
  return rounded_double((UnsignedWide{high} << 64) | low, rest != 0, -shift);
}

bool all_digits(std::string_view text) { return !text.empty() && text.find_first_not_of("0123456789") == std::string_view::npos; }

}  // namespace

struct Rational::Big {
  BigNumber number;

  static BigNumber of(Rational const& r) {
    return r.big_ ? r.big_->number : BigNumber(Integer(r.numerator_), Integer(r.denominator_));
  }
  /// The small form wherever it fits, so that equal numbers have one form.
  static Rational made(BigNumber const& number) {
    Integer const n = mp::numerator(number);
    Integer const d = mp::denominator(number);
    Rational result;
    if (mp::abs(n) <= most && d <= most) {
      result.numerator_ = static_cast<std::int64_t>(n);
      result.denominator_ = static_cast<std::int64_t>(d);
    } else {
      result.big_.reset(new Big{number});
    }
    return result;
  }
};

void Rational::DropBig::operator()(Big* big) const noexcept { delete big; }
Rational::Big* Rational::copy_of(Big const& big) { return new Big(big); }

Rational::Rational(std::int64_t integer) : numerator_(integer) {
  if (integer < -most) *this = Big::made(BigNumber(Integer(integer)));
}

Rational::Rational(std::int64_t numerator, std::int64_t denominator) {
  if (denominator == 0) throw std::domain_error("a rational number with denominator 0");
  if (numerator < -most || denominator < -most) {
    *this = Big::made(BigNumber(Integer(numerator), Integer(denominator)));
    return;
  }
  auto const common = static_cast<std::int64_t>(common_of(size_of(numerator), size_of(denominator)));
  numerator_ = denominator < 0 ? -numerator / common : numerator / common;
  denominator_ = static_cast<std::int64_t>(size_of(denominator)) / common;
}

Rational& Rational::operator=(Rational const& other) {
  if (this == &other) return *this;
  numerator_ = other.numerator_;
  denominator_ = other.denominator_;
  big_.reset(other.big_ ? copy_of(*other.big_) : nullptr);
  return *this;
}

Rational Rational::power_of_ten(int k) {
  std::int64_t const size = k < 0 ? -std::int64_t{k} : k;
  if (size < static_cast<std::int64_t>(powers_of_ten.size())) {
    Rational result;
    (k < 0 ? result.denominator_ : result.numerator_) = powers_of_ten[static_cast<std::size_t>(size)];
    if (k < 0) result.numerator_ = 1;
    return result;
  }
  Integer const power = mp::pow(Integer(10), static_cast<unsigned>(size));
  return Big::made(k < 0 ? BigNumber(Integer(1), power) : BigNumber(power));
}

Rational Rational::from_digits(std::string_view digits) {
  if (!all_digits(digits)) throw std::invalid_argument("a text that is not digits");
  digits.remove_prefix(std::min(digits.find_first_not_of('0'), digits.size()));
  if (digits.size() < powers_of_ten.size()) {
    std::int64_t n = 0;
    for (char const digit : digits) n = n * 10 + (digit - '0');
    return Rational(n);
  }
  return Big::made(BigNumber(Integer(std::string(digits))));
}

Rational Rational::from_text(std::string_view text) {
  bool const negative = !text.empty() && text.front() == '-';
  if (negative) text.remove_prefix(1);
  auto const slash = text.find('/');
  Rational result = from_digits(text.substr(0, slash));
  if (slash != std::string_view::npos) {
    Rational const denominator = from_digits(text.substr(slash + 1));
    if (denominator.sign() == 0) throw std::invalid_argument("a rational number with denominator 0");
    result /= denominator;
  }
  return negative ? -result : result;
}

int Rational::sign() const {
  if (big_) return big_->number.sign();
  return numerator_ > 0 ? 1 : numerator_ < 0 ? -1 : 0;
}

bool Rational::is_integer() const { return big_ ? mp::denominator(big_->number) == 1 : denominator_ == 1; }

double Rational::to_double() const {
  constexpr std::int64_t exact = std::int64_t{1} << 53;
  if (!big_ && denominator_ <= exact && numerator_ <= exact && numerator_ >= -exact) {
    return static_cast<double>(numerator_) / static_cast<double>(denominator_);
  }
  double const size = big_ ? nearest_double(mp::abs(mp::numerator(big_->number)), mp::denominator(big_->number))
                           : nearest_double(UnsignedWide{size_of(numerator_)}, UnsignedWide{size_of(denominator_)});
  return sign() < 0 ? -size : size;
}

std::string Rational::text() const {
  std::string const top = big_ ? mp::numerator(big_->number).str() : std::to_string(numerator_);
  if (is_integer()) return top;
  return top + "/" + (big_ ? mp::denominator(big_->number).str() : std::to_string(denominator_));
}

std::string Rational::integer_digits() const {
  if (!big_) return std::to_string(size_of(numerator_) / static_cast<std::uint64_t>(denominator_));
  return Integer(mp::abs(mp::numerator(big_->number)) / mp::denominator(big_->number)).str();
}

Rational Rational::floor() const {
  if (!big_) {
    std::int64_t const quotient = numerator_ / denominator_;
    return Rational(numerator_ % denominator_ < 0 ? quotient - 1 : quotient);
  }
  Integer quotient;
  Integer rest;
  mp::divide_qr(Integer(mp::numerator(big_->number)), Integer(mp::denominator(big_->number)), quotient, rest);
  return Big::made(BigNumber(rest < 0 ? Integer(quotient - 1) : quotient));
}

Rational Rational::absolute() const { return sign() < 0 ? -*this : *this; }

Rational Rational::reciprocal() const { return Rational(1) / *this; }

Rational Rational::power(int exponent) const {
  if (exponent < 0 && sign() == 0) throw std::domain_error("a negative power of 0");
  auto left = static_cast<std::uint64_t>(exponent < 0 ? -std::int64_t{exponent} : exponent);
  Rational base = exponent < 0 ? reciprocal() : *this;
  Rational result(1);
  while (left != 0) {
    if ((left & 1) != 0) result *= base;
    left >>= 1;
    if (left != 0) base *= base;
  }
  return result;
}

bool Rational::fits(std::int64_t& numerator, std::int64_t& denominator) const {
  if (big_) return false;
  numerator = numerator_;
  denominator = denominator_;
  return true;
}

Rational Rational::operator-() const {
  Rational result(*this);
  result.numerator_ = -result.numerator_;
  if (result.big_) result.big_->number = -result.big_->number;
  return result;
}

Rational& Rational::operator+=(Rational const& other) {
  if (!big_ && !other.big_ && added(numerator_, denominator_, other.numerator_, other.denominator_, numerator_, denominator_)) {
    return *this;
  }
  return *this = Big::made(Big::of(*this) + Big::of(other));
}

Rational& Rational::operator-=(Rational const& other) {
  if (!big_ && !other.big_ && added(numerator_, denominator_, -other.numerator_, other.denominator_, numerator_, denominator_)) {
    return *this;
  }
  return *this = Big::made(Big::of(*this) - Big::of(other));
}

Rational& Rational::operator*=(Rational const& other) {
  if (!big_ && !other.big_ &&
      multiplied(numerator_, denominator_, other.numerator_, other.denominator_, numerator_, denominator_)) {
    return *this;
  }
  return *this = Big::made(Big::of(*this) * Big::of(other));
}

Rational& Rational::operator/=(Rational const& other) {
  int const other_sign = other.sign();
  if (other_sign == 0) throw std::domain_error("division by 0");
  if (!big_ && !other.big_) {
    std::int64_t const turned = other_sign < 0 ? -other.denominator_ : other.denominator_;
    auto const below = static_cast<std::int64_t>(size_of(other.numerator_));
    if (multiplied(numerator_, denominator_, turned, below, numerator_, denominator_)) return *this;
  }
  return *this = Big::made(Big::of(*this) / Big::of(other));
}

int Rational::compare(Rational const& other) const {
  if (!big_ && !other.big_) {
    if (denominator_ == other.denominator_) return numerator_ < other.numerator_ ? -1 : numerator_ > other.numerator_ ? 1 : 0;
    Wide const here = Wide{numerator_} * other.denominator_;
    Wide const there = Wide{other.numerator_} * denominator_;
    return here < there ? -1 : here > there ? 1 : 0;
  }
  return Big::of(*this).compare(Big::of(other));
}

}  // namespace molewright
