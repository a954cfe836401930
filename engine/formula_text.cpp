#include "engine/formula_text.h"

#include "engine/chemistry_words.h"

namespace molewright {
namespace {

struct Spelling {
  std::string_view written;  ///< UTF-8
  std::string_view plain;
};

/// Superscripts are apart: a run of them begins with ^.
constexpr Spelling superscripts[] = {{"⁰", "0"}, {"¹", "1"}, {"²", "2"}, {"³", "3"}, {"⁴", "4"}, {"⁵", "5"}, {"⁶", "6"},
                                     {"⁷", "7"}, {"⁸", "8"}, {"⁹", "9"}, {"⁺", "+"}, {"⁻", "-"}, {"⁽", "("}, {"⁾", ")"}};

constexpr Spelling spellings[] = {
    {"₀", "0"},
    {"₁", "1"},
    {"₂", "2"},
    {"₃", "3"},
    {"₄", "4"},
    {"₅", "5"},
    {"₆", "6"},
    {"₇", "7"},
    {"₈", "8"},
    {"₉", "9"},
    {"₊", "+"},
    {"₋", "-"},
    {"·", "."},
    {"•", "."},
    {"∙", "."},
    {"⋅", "."},
    {"−", "-"},
    {"–", "-"},
    {"‑", "-"},
    {"＋", "+"},
    {"→", "\x03"},
    {"⟶", "\x03"},
    {"⇒", "\x03"},
    {"➔", "\x03"},
    {"⟹", "\x03"},
    {"⇌", "\x04"},
    {"⇄", "\x04"},
    {"⇋", "\x04"},
    {"↔", "\x04"},
    {"⟷", "\x04"},
    {"↓", "\x01"},
    {"↑", "\x02"},
    {"½", "1/2"},
    {"⅓", "1/3"},
    {"⅔", "2/3"},
    {"¼", "1/4"},
    {"¾", "3/4"},
    {"\xC2\xA0", " "},      // no-break space
    {"\xE2\x80\x89", " "},  // thin space
    {"\xE2\x80\xAF", " "},  // narrow no-break space
    {"\xE2\x80\x8A", " "},  // hair space
    {"\xE2\x80\x8B", ""},   // zero-width space
    {"\xE2\x81\xA0", ""},   // word joiner
    {"\xEF\xBB\xBF", ""},   // byte-order mark
};

std::size_t length_of(char lead) {
  auto const byte = static_cast<unsigned char>(lead);
  return byte < 0x80 ? 1 : byte < 0xE0 ? 2 : byte < 0xF0 ? 3 : 4;
}

/// `*` is a hydrate dot; a typed control character never passes for one of our signs.
char plain_ascii(char c) {
  if (c == '*') return '.';
  if (c == '\t' || c == '\n' || c == '\r') return ' ';
  return c < ' ' || c == '\x7F' ? sign_unread : c;
}

template <std::size_t n>
Spelling const* find(Spelling const (&table)[n], std::string_view character) {
  for (Spelling const& spelling : table)
    if (spelling.written == character) return &spelling;
  return nullptr;
}

}  // namespace

Result<PlainText> make_plain(std::string_view text) {
  if (text.size() > 20000) return Fault{"text-too-long", words::text_too_long, "", 0};
  PlainText plain;
  plain.text.reserve(text.size());
  plain.where.reserve(text.size() + 1);
  bool ascii = true;
  for (char const c : text) ascii = ascii && static_cast<unsigned char>(c - 1) < 0x7F;
  if (!ascii) {
    std::size_t const bad = first_invalid_utf8(text);
    if (bad != std::string_view::npos) return Fault{"invalid-utf8", words::not_utf8, words::utf8_expected, bad};
  }
  bool raised = false;
  for (std::size_t i = 0; i < text.size();) {
    std::size_t const length = ascii ? 1 : length_of(text[i]);
    auto const add = [&](std::string_view characters) {
      for (char const c : characters) {
        plain.text.push_back(c);
        plain.where.push_back(static_cast<std::uint32_t>(i));
      }
    };
    if (length == 1) {
      raised = false;
      char const c = plain_ascii(text[i]);
      add(std::string_view(&c, 1));
    } else if (Spelling const* const up = find(superscripts, text.substr(i, length))) {
      if (!raised && (plain.text.empty() || plain.text.back() != '^')) add("^");
      raised = true;
      add(up->plain);
    } else {
      raised = false;
      Spelling const* const known = find(spellings, text.substr(i, length));
      // "2½" is two and a half, not twenty-one halves.
      if (known != nullptr && known->plain.size() == 3 && !plain.text.empty() && plain.text.back() >= '0' &&
          plain.text.back() <= '9')
        add(" ");
      add(known != nullptr ? known->plain : "\x05");
    }
    i += length;
  }
  plain.where.push_back(static_cast<std::uint32_t>(text.size()));
  return plain;
}

}  // namespace molewright
