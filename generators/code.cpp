#include "generators/code.h"

#include <array>
#include <cstddef>
#include <utility>

#include "generators/random.h"

namespace molewright {
namespace {

constexpr std::size_t length = 12;
constexpr std::uint64_t base = code_alphabet.size();
constexpr std::uint64_t payload_limit = 1ULL << 49U;

// The payload is turned about by an odd multiplier, so that neighbouring seeds do not make codes that look alike. `unmix * mix`
// is 1 modulo 2^49.
constexpr std::uint64_t mix = 0x1a2b3c4d5e6f7ULL;
constexpr std::uint64_t inverse_of(std::uint64_t odd) {
  std::uint64_t inverse = odd;  // right to 3 bits; Newton's step doubles them
  for (int i = 0; i < 5; ++i) inverse *= 2 - odd * inverse;
  return inverse;
}
constexpr std::uint64_t unmix = inverse_of(mix);
static_assert(((mix * unmix) & (payload_limit - 1)) == 1);

constexpr std::uint64_t fold(std::uint64_t x) { return x ^ (x >> 25U); }  // its own inverse on 49 bits, for 2 * 25 > 49

using Digits = std::array<int, length>;

int digit_of(char c) {
  if (c >= 'a' && c <= 'z') c = static_cast<char>(c - 'a' + 'A');
  auto const at = code_alphabet.find(c);
  return at == std::string_view::npos ? -1 : static_cast<int>(at);
}

/// Sum of place times digit; 0 modulo 23 for a code. The places 1 to 12 differ and none is 0, hence what the check finds.
int syndrome(Digits const& digits) {
  int sum = 0;
  for (std::size_t i = 0; i < length; ++i) sum += static_cast<int>(i + 1) * digits[i];
  return sum % static_cast<int>(base);
}

/// The only digit that makes the check fit at place `at`, the others as they are.
int mending_digit(Digits digits, std::size_t at) {
  for (int d = 0; d < static_cast<int>(base); ++d) {
    digits[at] = d;
    if (syndrome(digits) == 0) return d;
  }
  return -1;
}

std::uint64_t number_of(Digits const& digits) {
  std::uint64_t number = 0;
  for (std::size_t i = 0; i + 1 < length; ++i) number = number * base + static_cast<std::uint64_t>(digits[i]);
  return number;
}

std::string text_of(Digits const& digits) {
  std::string text;
  for (int const d : digits) text += code_alphabet[static_cast<std::size_t>(d)];
  return text;
}

bool fits(Digits const& digits) { return syndrome(digits) == 0 && number_of(digits) < payload_limit; }

struct Typed {
  std::vector<char> characters;
  std::vector<std::size_t> offsets;
};
/// Characters without the blanks and hyphens that people put in; bytes of other alphabets stay and are found wanting.
Typed typed(std::string_view text) {
  Typed result;
  for (std::size_t i = 0; i < text.size(); ++i) {
    char const c = text[i];
    if (c == ' ' || c == '-' || c == '\t' || c == '\r' || c == '\n') continue;
    result.characters.push_back(c);
    result.offsets.push_back(i);
  }
  return result;
}

}  // namespace

std::uint32_t template_hash(std::string_view name) {
  std::uint64_t const hash = hash_of(name);
  return static_cast<std::uint32_t>((hash ^ (hash >> 24U) ^ (hash >> 48U)) & 0xfffU);
}

std::string print_code(Code const& code) {
  std::uint64_t payload = code.template_hash;
  payload = (payload << 3U) | code.form;
  payload = (payload << 19U) | code.seed;
  payload = (payload << 6U) | code.draw;
  payload = (payload << 9U) | code.check;
  std::uint64_t number = (fold(payload) * mix) & (payload_limit - 1);
  Digits digits{};
  for (std::size_t i = length - 1; i-- > 0;) {
    digits[i] = static_cast<int>(number % base);
    number /= base;
  }
  digits[length - 1] = mending_digit(digits, length - 1);
  return text_of(digits);
}

Result<Code> parse_code(std::string_view text) {
  Typed const in = typed(text);
  std::vector<std::size_t> strange;
  for (std::size_t i = 0; i < in.characters.size(); ++i) {
    if (digit_of(in.characters[i]) < 0) strange.push_back(i);
  }
  if (in.characters.size() != length || strange.size() > 2) {
    return Fault{"not-a-code", "not a question code", "12 characters out of " + std::string(code_alphabet),
                 strange.empty() || in.characters.size() != length ? text.size() : in.offsets[strange.front()]};
  }
  Digits digits{};
  for (std::size_t i = 0; i < length; ++i) digits[i] = digit_of(in.characters[i]);
  if (!strange.empty()) {
    std::size_t const at = strange.front();
    char const odd = in.characters[at];  // perhaps a byte of a longer character, or none that can be shown
    std::string const shown = odd > ' ' && odd < '\x7f' ? std::string(1, odd) : "the character that stands there";
    Fault fault{"mistyped-code", "a code never holds " + shown, "", in.offsets[at]};
    if (strange.size() == 1) {
      digits[at] = mending_digit(digits, at);
      if (digits[at] >= 0 && fits(digits)) {
        fault.expected = std::string(1, code_alphabet[static_cast<std::size_t>(digits[at])]) + " as character " +
                         std::to_string(at + 1) + " if the rest is right";
      }
    }
    return fault;
  }
  if (!fits(digits)) return Fault{"mistyped-code", "the code is mistyped: its last character does not fit the others", "", 0};
  std::uint64_t payload = fold((number_of(digits) * unmix) & (payload_limit - 1));
  Code code;
  code.check = static_cast<std::uint32_t>(payload & 0x1ffU);
  payload >>= 9U;
  code.draw = static_cast<std::uint32_t>(payload & 0x3fU);
  payload >>= 6U;
  code.seed = static_cast<std::uint32_t>(payload & 0x7ffffU);
  payload >>= 19U;
  code.form = static_cast<std::uint32_t>(payload & 0x7U);
  code.template_hash = static_cast<std::uint32_t>(payload >> 3U);
  return code;
}

std::vector<std::string> near_codes(std::string_view text) {
  Typed const in = typed(text);
  std::vector<std::string> near;
  if (in.characters.size() != length) return near;
  Digits digits{};
  std::size_t strange = length;
  for (std::size_t i = 0; i < length; ++i) {
    digits[i] = digit_of(in.characters[i]);
    if (digits[i] >= 0) continue;
    if (strange != length) return near;  // two characters at least are wrong
    strange = i;
  }
  for (std::size_t i = 0; i < length; ++i) {
    if (strange != length && i != strange) continue;
    Digits mended = digits;
    mended[i] = mending_digit(digits, i);
    if (mended[i] >= 0 && mended != digits && fits(mended)) near.push_back(text_of(mended));
  }
  for (std::size_t i = 0; strange == length && i + 1 < length; ++i) {
    Digits mended = digits;
    std::swap(mended[i], mended[i + 1]);
    if (mended != digits && fits(mended)) near.push_back(text_of(mended));
  }
  return near;
}

}  // namespace molewright
