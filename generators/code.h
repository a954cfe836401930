#pragma once
// A question's code: twelve characters that name its template, how it is put, its seed, which draw was kept, and a check of what
// came out.
#include <cstdint>
#include <string>
#include <string_view>
#include <vector>

#include "engine/fault.h"

namespace molewright {

/// Characters of a code: no vowels (no words), of look-alikes one at most (B not 8, Z not 2, G not 6; none of 0 O 1 I L 5 S).
/// There are 23, a prime, so that the weighted check finds every single wrong character and every two characters that changed
/// places.
inline constexpr std::string_view code_alphabet = "BCDFGHJKMNPQRTVWXYZ3479";

struct Code {
  std::uint32_t template_hash = 0;  ///< 12 bits: which template
  std::uint32_t form = 0;           ///< 3 bits: how the question is put (see form.h)
  std::uint32_t seed = 0;           ///< 19 bits
  std::uint32_t draw = 0;           ///< 6 bits: which draw of the seed was kept
  std::uint32_t check = 0;          ///< 9 bits: of the wording and the answers that came out
  friend bool operator==(Code const& a, Code const& b) {
    return a.template_hash == b.template_hash && a.form == b.form && a.seed == b.seed && a.draw == b.draw && a.check == b.check;
  }
};
inline constexpr std::uint32_t code_seeds = 1U << 19U;
inline constexpr std::uint32_t code_checks = 1U << 9U;
inline constexpr std::uint32_t code_draws = 1U << 6U;

/// The 12-bit mark of a template's name.
std::uint32_t template_hash(std::string_view name);

/// Twelve characters; the first is always a letter, so that no spreadsheet takes a code for a number or a date.
/// REQUIRES: every field fits its bits.
std::string print_code(Code const& code);

/// Reads a code in either case, with blanks or hyphens inside. Faults: "not-a-code" (another length, or too many strange
/// characters), "mistyped-code" (the check character does not fit; `expected` names the character that cannot be right and what
/// mends it, where that is plain).
Result<Code> parse_code(std::string_view text);

/// Codes that differ from a mistyped one by one character or by two neighbours that changed places. Whoever knows the templates
/// can tell which was meant.
std::vector<std::string> near_codes(std::string_view text);

}  // namespace molewright
