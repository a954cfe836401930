#include "engine/fault.h"

#include <catch2/catch.hpp>

using namespace molewright;

TEST_CASE("fault: a column counts characters, not bytes", "[engine][fault]") {
  struct Case {
    char const* line;
    std::size_t offset, column;
    char const* source;
  };
  auto const c = GENERATE(values<Case>({
      {"Al2(OH", 4, 5, "counted by hand"},
      {"Al₂(OH", 5, 4, "counted by hand: ₂ is 3 bytes"},
      {"Al₂(OH", 8, 7, "counted by hand: the end"},
      {"Al₂(OH", 99, 7, "an offset beyond the end is the end"},
      {"", 0, 1, "the empty line"},
      {"µg", 2, 2, "counted by hand: µ is 2 bytes"},
  }));
  CAPTURE(c.line, c.offset, c.source);
  CHECK(column(c.line, c.offset) == c.column);
}

TEST_CASE("fault: the first byte that is not UTF-8", "[engine][fault]") {
  struct Case {
    std::string text;
    std::size_t at;
    char const* source;
  };
  constexpr auto none = std::string_view::npos;
  auto const c = GENERATE(values<Case>({
      {"", none, "empty"},
      {"H₂O → µ 𝛾", none, "2, 3 and 4 bytes"},
      {"\xEF\xBB\xBFx", none, "a byte-order mark is a character"},
      {"ab\xFF", 2, "never a byte of UTF-8"},
      {"a\x80", 1, "a continuation byte alone"},
      {"\xC0\xAF", 0, "overlong: Unicode 15, table 3-7"},
      {"\xC1\xBF", 0, "overlong"},
      {"\xE0\x9F\xBF", 0, "overlong"},
      {"\xF0\x8F\xBF\xBF", 0, "overlong"},
      {"\xED\xA0\x80", 0, "surrogate"},
      {"\xED\x9F\xBF", none, "the last before the surrogates"},
      {"\xF4\x8F\xBF\xBF", none, "U+10FFFF"},
      {"\xF4\x90\x80\x80", 0, "beyond U+10FFFF"},
      {"\xF5\x80\x80\x80", 0, "beyond U+10FFFF"},
      {"x\xE2\x82", 1, "cut off"},
      {std::string("a\0b", 3), 1, "NUL"},
  }));
  CAPTURE(c.text, c.source);
  CHECK(first_invalid_utf8(c.text) == c.at);
}

TEST_CASE("fault: shown with line and caret, the whole text", "[engine][fault]") {
  CHECK(show({{"bracket-not-closed", "not a formula", "')'", 8}, 3, 7, "Al₂(OH"}, "set.txt") ==
        "set.txt:3:7: not a formula, expected ')'\n"
        "  Al₂(OH\n"
        "        ^");
  CHECK(show({{"x", "not a formula", "", 0}, 1, 1, ""}, "a.txt") == "a.txt:1:1: not a formula\n  \n  ^");
  CHECK(show({{"x", "odd", "", 0}, 1, 3, "\tab"}, "a.txt") == "a.txt:1:3: odd\n  \tab\n  \t ^");
  // A column in front of the line or far behind it is brought to the line.
  CHECK(show({{"x", "odd", "", 0}, 1, 0, "ab"}, "a") == "a:1:0: odd\n  ab\n  ^");
  CHECK(show({{"x", "odd", "", 0}, 1, 50, "ab"}, "a") == "a:1:50: odd\n  ab\n    ^");
  CHECK(show({{"x", "odd", "", 0}, 1, 2, "a\xFF\x01z"}, "a") == "a:1:2: odd\n  a\uFFFD\uFFFDz\n   ^");
}

TEST_CASE("fault: a long line is cut round the caret", "[engine][fault]") {
  std::string line(400, 'a');
  line[250] = 'X';
  auto const text = show({{"x", "odd", "", 250}, 1, 251, line}, "a");
  CHECK(text == "a:1:251: odd\n  …" + std::string(60, 'a') + "X" + std::string(59, 'a') + "…\n   " + std::string(60, ' ') + "^");
  auto const start = show({{"x", "odd", "", 3}, 1, 4, line}, "a");
  CHECK(start == "a:1:4: odd\n  " + std::string(120, 'a') + "…\n     ^");
  auto const end = show({{"x", "odd", "", 400}, 1, 401, line}, "a");
  CHECK(end == "a:1:401: odd\n  …" + std::string(120, 'a') + "\n   " + std::string(120, ' ') + "^");
}

TEST_CASE("fault: names that are near", "[engine][fault]") {
  using Names = std::vector<std::string>;
  struct Case {
    char const* name;
    Names known, near;
    char const* source;
  };
  auto const c = GENERATE(values<Case>({
      {"ML", {"g", "mL", "M", "L", "uL"}, {"mL"}, "a change of case is nearest"},
      {"gramms", {"mL", "gram", "grams"}, {"grams", "gram"}, "one insert, two deletes of six letters"},
      {"sulpher", {"sulphur", "sulfur", "copper"}, {"sulphur"}, "sulfur is three edits away"},
      {"mlo", {"mol", "g"}, {"mol"}, "neighbours swapped: one edit"},
      {"x", {"g", "L", "M"}, {}, "shares no letter"},
      {"l", {"g", "L", "M"}, {"L"}, "case"},
      {"abcd", {"abce", "abcf", "abcg", "abch"}, {"abce", "abcf", "abcg"}, "three at most, in order"},
      {"", {"g"}, {}, "nothing is near to nothing"},
      {"µm", {"µg", "kg"}, {"µg"}, "µ is one letter"},
      {"ab", {"ab", "ab"}, {"ab"}, "once"},
  }));
  CAPTURE(c.name, c.source);
  CHECK(nearest(c.name, c.known) == c.near);
}

TEST_CASE("fault: names of which one is meant, and no long list of them", "[engine][fault]") {
  CHECK(either({}) == "");
  CHECK(either({"a"}) == "a");
  CHECK(either({"a", "b", "c"}) == "a, b or c");
  std::vector<std::string> names;
  for (char name = 'a'; name <= 'l'; ++name) names.emplace_back(1, name);
  CHECK(either(names) == "a, b, c, d, e, f, g, h, i, j, k or l");
  for (char name = 'm'; name <= 'z'; ++name) names.emplace_back(1, name);
  CHECK(either(names) == "a, b, c, d, e, f, g, h, i, j, k or 15 more");
}

TEST_CASE("fault: a very long name is no burden", "[engine][fault]") {
  CHECK(nearest(std::string(1'000'000, 'x'), {"g", "mL"}).empty());
}
