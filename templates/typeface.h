#pragma once
// A typeface of the printed page: which characters it has and how wide they are, read from the font itself so that text can be
// measured before it is drawn.
#include <cstdint>
#include <string>
#include <string_view>
#include <vector>

namespace molewright::paper {

enum class Face : std::uint8_t { serif, bold, sans };

/// Next code point of `utf8` at `at`, which moves past it; U+FFFD for a byte that is no UTF-8. REQUIRES: at < utf8.size().
char32_t next_code_point(std::string_view utf8, std::size_t& at);
void append_utf8(std::string& text, char32_t c);

/// Coverage and advance widths of one TrueType font. Only characters up to U+FFFF: libharu 2.3.0 draws no others.
/// Sources: OpenType specification 1.9, tables head, hhea, hmtx, and cmap format 4 (the one that libharu reads, too).
class Typeface {
 public:
  /// Throws std::runtime_error where the bytes are no such font.
  explicit Typeface(std::string_view ttf);
  bool covers(char32_t c) const { return c < widths_.size() && widths_[c] >= 0; }
  /// Advance in thousandths of the type size, cut to a whole number as libharu cuts it. REQUIRES: covers(c).
  int width(char32_t c) const { return widths_[c]; }

 private:
  std::vector<std::int16_t> widths_;  ///< by code point; -1 where there is no glyph
};

/// The compiled-in font of a face, read once.
Typeface const& typeface(Face face);

/// Text in one face, every character of which that face has.
struct Run {
  Face face = Face::serif;
  std::string text;
};
/// Splits `utf8` by what the faces can draw: `wanted`, else sans, else serif, else U+FFFD in place of the character. Control
/// characters become blanks.
std::vector<Run> runs(std::string_view utf8, Face wanted);
/// Width in points at `size` points.
double text_width(std::string_view utf8, Face wanted, double size);
/// The characters of `utf8` that no face can draw, each once: for a warning before anything is printed.
std::string without_glyph(std::string_view utf8);

}  // namespace molewright::paper
