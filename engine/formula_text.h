#pragma once
// The text of a formula or an equation made plain: every spelling of a subscript, charge, dot or arrow as one ASCII character,
// each remembering its byte.
#include <cstddef>
#include <cstdint>
#include <string>
#include <string_view>
#include <vector>

#include "engine/fault.h"
#include "engine/formula.h"

namespace molewright {

/// Signs that stand for what is not ASCII in `PlainText::text`.
constexpr char sign_solid = '\x01';       ///< ↓
constexpr char sign_gas = '\x02';         ///< ↑
constexpr char sign_arrow = '\x03';       ///< → and its kin
constexpr char sign_reversible = '\x04';  ///< ⇌ and its kin
constexpr char sign_unread = '\x05';      ///< any other character

/// Subscripts become digits, a run of superscripts becomes `^` and ASCII, dots become `.`, minus signs `-`, fractions `1/2`, thin
/// and fixed blanks ` `. ASCII arrows stay as typed.
struct PlainText {
  std::string text;
  std::vector<std::uint32_t> where;  ///< byte in the original of each character, and its size at the end
  std::size_t offset(std::size_t position) const { return where[position]; }
};

/// Fault id "invalid-utf8"; or "text-too-long" beyond 20000 bytes.
Result<PlainText> make_plain(std::string_view text);

/// The formula between two positions of `text` (blanks at the ends already left out). Faults carry offsets in the original.
Result<Formula> parse_formula(PlainText const& text, std::size_t begin, std::size_t end, std::string_view unknown = {});

}  // namespace molewright
