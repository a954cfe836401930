// Coverage and widths of the compiled-in fonts.
#include "templates/typeface.h"

#include <catch2/catch.hpp>
#include <string>

#include "templates/fonts.h"
#include "tests/templates/sample.h"

using namespace molewright;
using namespace molewright::paper;

TEST_CASE("typeface: every sign of chemistry is covered by serif or sans", "[templates][typeface]") {
  CHECK(without_glyph(sample::all_signs).empty());
}

TEST_CASE("typeface: what DejaVu Serif lacks comes from sans, the rest stays", "[templates][typeface]") {
  // fonts-dejavu 2.37: DejaVu Serif has no U+2610 and no U+2713 (seen with fc-query), DejaVu Sans has both.
  CHECK_FALSE(typeface(Face::serif).covers(0x2713));
  CHECK_FALSE(typeface(Face::serif).covers(0x2610));
  CHECK(typeface(Face::sans).covers(0x2713));
  auto const got = runs("H₂O ✓ ok", Face::serif);
  REQUIRE(got.size() == 3);
  CHECK(got[0].face == Face::serif);
  CHECK(got[0].text == "H₂O ");
  CHECK(got[1].face == Face::sans);
  CHECK(got[1].text == "✓");
  CHECK(got[2].text == " ok");
}

TEST_CASE("typeface: a character of no face is replaced visibly and reported", "[templates][typeface]") {
  CHECK(without_glyph("水 and 水, 😀\n") == "水😀");
  for (char const* text : {"水", "😀", "\xFF", "\xC3", "\xED\xA0\x80", "\xC0\xAF"}) {
    CAPTURE(text);
    std::string drawn;
    for (Run const& run : runs(text, Face::serif)) drawn += run.text;
    CHECK(drawn.starts_with("\uFFFD"));
    CHECK(text_width(text, Face::serif, 10) > 1);
  }
  CHECK(runs("a\tb\x01", Face::serif)[0].text == "a b ");
}

TEST_CASE("typeface: widths are those of the font", "[templates][typeface]") {
  // Advance widths by fontconfig and FreeType for DejaVu 2.37, 2048 units to the em: serif "H" 1786, space 651; sans "H" 1540.
  CHECK(typeface(Face::serif).width('H') == 1786 * 1000 / 2048);
  CHECK(typeface(Face::serif).width(' ') == 651 * 1000 / 2048);
  CHECK(typeface(Face::sans).width('H') == 1540 * 1000 / 2048);
  CHECK(text_width("HH", Face::serif, 10) == Approx(2 * 0.872 * 10));
}

TEST_CASE("typeface: bytes that are no font are refused", "[templates][typeface]") {
  CHECK_THROWS_WITH(Typeface(""), "font cut short");
  CHECK_THROWS_WITH(Typeface("a text file of some length"), Catch::Contains("font"));
  CHECK_THROWS_WITH(Typeface(serif_font().substr(0, 4000)), "font cut short");
}

TEST_CASE("typeface: UTF-8 goes in and comes out", "[templates][typeface]") {
  for (char32_t const c : {U'a', U'é', U'₂', U'😀'}) {
    std::string text;
    append_utf8(text, c);
    std::size_t at = 0;
    CHECK(next_code_point(text, at) == c);
    CHECK(at == text.size());
  }
}
