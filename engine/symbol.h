#pragma once
// The symbol of a quantity: n, gamma, N_A.
#include <algorithm>
#include <array>
#include <compare>
#include <cstdint>
#include <stdexcept>
#include <string_view>

namespace molewright {

/// A few letters held in place, so that two symbols are compared as one number: a solver does little else. Ordered as texts are.
class Symbol {
 public:
  static constexpr std::size_t longest = 8;

  constexpr Symbol() = default;
  /// REQUIRES: no longer than `longest` bytes (throws std::length_error), no zero byte among them.
  constexpr Symbol(std::string_view text) {  // NOLINT: a text is a symbol
    if (text.size() > longest) throw std::length_error("a symbol of a quantity is too long");
    std::copy(text.begin(), text.end(), letters_.begin());
  }
  constexpr Symbol(char const* text) : Symbol(std::string_view(text)) {}  // NOLINT: and so is a literal

  constexpr operator std::string_view() const {  // NOLINT: it reads as the text that it is
    return {letters_.data(), static_cast<std::size_t>(std::find(letters_.begin(), letters_.end(), '\0') - letters_.begin())};
  }
  constexpr bool empty() const { return letters_[0] == '\0'; }

  friend constexpr bool operator==(Symbol const& a, Symbol const& b) { return a.bits() == b.bits(); }
  friend constexpr bool operator==(Symbol const& a, std::string_view b) { return std::string_view(a) == b; }
  /// Put in place, a literal is one number as well.
  [[gnu::always_inline]] friend constexpr bool operator==(Symbol const& a, char const* b) {
    std::string_view const text(b);
    return text.size() <= longest && a == Symbol(text);
  }
  friend constexpr std::strong_ordering operator<=>(Symbol const& a, Symbol const& b) {
    return std::string_view(a).compare(b) <=> 0;
  }

 private:
  // std::bit_cast is not there for em++ 3.1.6.
  constexpr std::uint64_t bits() const { return __builtin_bit_cast(std::uint64_t, letters_); }
  std::array<char, longest> letters_{};
};

}  // namespace molewright
