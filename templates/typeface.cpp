#include "templates/typeface.h"

#include <array>
#include <stdexcept>

#include "templates/fonts.h"

namespace molewright::paper {
namespace {

constexpr char32_t replacement = 0xFFFD;

/// Big-endian numbers out of a font, with every access checked.
struct Reader {
  std::string_view bytes;
  unsigned u8(std::size_t at) const {
    if (at >= bytes.size()) throw std::runtime_error("font cut short");
    return static_cast<unsigned char>(bytes[at]);
  }
  unsigned u16(std::size_t at) const { return u8(at) << 8U | u8(at + 1); }
  std::size_t u32(std::size_t at) const { return static_cast<std::size_t>(u16(at)) << 16U | u16(at + 2); }

  std::size_t table(std::string_view tag) const {
    unsigned const count = u16(4);
    u8(11 + 16 * static_cast<std::size_t>(count));  // the directory is all there
    for (unsigned i = 0; i < count; ++i) {
      std::size_t const entry = 12 + 16 * static_cast<std::size_t>(i);
      if (bytes.substr(entry, 4) == tag) return u32(entry + 8);
    }
    throw std::runtime_error("font without table " + std::string(tag));
  }

  /// The subtable of platform 3, encoding 1 (Windows, Unicode BMP), which is of format 4.
  std::size_t unicode_cmap() const {
    std::size_t const cmap = table("cmap");
    unsigned const count = u16(cmap + 2);
    for (unsigned i = 0; i < count; ++i) {
      std::size_t const entry = cmap + 4 + 8 * static_cast<std::size_t>(i);
      std::size_t const at = cmap + u32(entry + 4);
      if (u16(entry) == 3 && u16(entry + 2) == 1 && u16(at) == 4) return at;
    }
    throw std::runtime_error("font without a Unicode character map of format 4");
  }
};

/// Where a character that `wanted` may lack can be drawn.
struct Drawn {
  Face face;
  char32_t character;
};

Drawn drawn(char32_t c, Face wanted) {
  if (c < 0x20 || (c >= 0x7F && c < 0xA0)) c = ' ';
  for (Face const face : {wanted, Face::sans, Face::serif}) {
    if (typeface(face).covers(c)) return {face, c};
  }
  for (Face const face : {wanted, Face::sans, Face::serif}) {
    if (typeface(face).covers(replacement)) return {face, replacement};
  }
  return {wanted, '?'};
}

}  // namespace

char32_t next_code_point(std::string_view utf8, std::size_t& at) {
  auto const lead = static_cast<unsigned char>(utf8[at++]);
  if (lead < 0x80) return lead;
  int more = 0;
  char32_t c = 0;
  char32_t least = 0;
  if ((lead & 0xE0U) == 0xC0) {
    more = 1, c = lead & 0x1FU, least = 0x80;
  } else if ((lead & 0xF0U) == 0xE0) {
    more = 2, c = lead & 0x0FU, least = 0x800;
  } else if ((lead & 0xF8U) == 0xF0) {
    more = 3, c = lead & 0x07U, least = 0x10000;
  } else {
    return replacement;
  }
  std::size_t ahead = at;
  for (; more > 0; --more, ++ahead) {
    if (ahead >= utf8.size()) return replacement;
    auto const next = static_cast<unsigned char>(utf8[ahead]);
    if ((next & 0xC0U) != 0x80) return replacement;
    c = c << 6U | (next & 0x3FU);
  }
  if (c < least || c > 0x10FFFF || (c >= 0xD800 && c <= 0xDFFF)) return replacement;
  at = ahead;
  return c;
}

void append_utf8(std::string& text, char32_t c) {
  auto const put = [&](char32_t byte) { text += static_cast<char>(static_cast<unsigned char>(byte)); };
  if (c < 0x80) {
    put(c);
  } else if (c < 0x800) {
    put(0xC0 | c >> 6U), put(0x80 | (c & 0x3F));
  } else if (c < 0x10000) {
    put(0xE0 | c >> 12U), put(0x80 | (c >> 6U & 0x3F)), put(0x80 | (c & 0x3F));
  } else {
    put(0xF0 | c >> 18U), put(0x80 | (c >> 12U & 0x3F)), put(0x80 | (c >> 6U & 0x3F)), put(0x80 | (c & 0x3F));
  }
}

Typeface::Typeface(std::string_view ttf) : widths_(0x10000, std::int16_t{-1}) {
  Reader const font{ttf};
  std::size_t const em = font.u16(font.table("head") + 18);
  std::size_t const long_metrics = font.u16(font.table("hhea") + 34);
  std::size_t const hmtx = font.table("hmtx");
  if (em == 0 || long_metrics == 0) throw std::runtime_error("font without widths");

  std::size_t const map = font.unicode_cmap();
  std::size_t const twice = font.u16(map + 6);  // twice the number of segments
  std::size_t const ends = map + 14, starts = ends + twice + 2, deltas = starts + twice, offsets = deltas + twice;
  for (std::size_t s = 0; s < twice; s += 2) {
    unsigned const first = font.u16(starts + s), last = font.u16(ends + s);
    unsigned const delta = font.u16(deltas + s), offset = font.u16(offsets + s);
    for (unsigned c = first; c <= last && c != 0xFFFF; ++c) {
      unsigned glyph = c;
      if (offset != 0) {
        glyph = font.u16(offsets + s + offset + 2 * static_cast<std::size_t>(c - first));
        if (glyph == 0) continue;
      }
      glyph = (glyph + delta) & 0xFFFFU;
      if (glyph == 0) continue;
      std::size_t const metric = glyph < long_metrics ? glyph : long_metrics - 1;
      widths_[c] = static_cast<std::int16_t>(font.u16(hmtx + 4 * metric) * 1000 / em);
    }
  }
}

Typeface const& typeface(Face face) {
  static std::array<Typeface, 3> const all{Typeface(serif_font()), Typeface(serif_bold_font()), Typeface(sans_font())};
  return all[static_cast<std::size_t>(face)];
}

std::vector<Run> runs(std::string_view utf8, Face wanted) {
  std::vector<Run> result;
  for (std::size_t at = 0; at < utf8.size();) {
    Drawn const d = drawn(next_code_point(utf8, at), wanted);
    if (result.empty() || result.back().face != d.face) result.push_back({d.face, {}});
    append_utf8(result.back().text, d.character);
  }
  return result;
}

double text_width(std::string_view utf8, Face wanted, double size) {
  std::int64_t thousandths = 0;
  for (std::size_t at = 0; at < utf8.size();) {
    Drawn const d = drawn(next_code_point(utf8, at), wanted);
    thousandths += typeface(d.face).covers(d.character) ? typeface(d.face).width(d.character) : 0;
  }
  return static_cast<double>(thousandths) * size / 1000;
}

std::string without_glyph(std::string_view utf8) {
  std::string result;
  for (std::size_t at = 0; at < utf8.size();) {
    char32_t const c = next_code_point(utf8, at);
    bool const control = c < 0x20 || (c >= 0x7F && c < 0xA0);
    if (control || typeface(Face::serif).covers(c) || typeface(Face::sans).covers(c)) continue;
    std::string one;
    append_utf8(one, c);
    if (result.find(one) == std::string::npos) result += one;
  }
  return result;
}

}  // namespace molewright::paper
