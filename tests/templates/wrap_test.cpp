// Line breaking, measured in code points so that every width can be counted by hand.
#include "templates/wrap.h"

#include <catch2/catch.hpp>
#include <string>
#include <vector>

#include "templates/plain.h"

using namespace molewright::paper;

namespace {
using Lines = std::vector<std::string>;
Lines wrapped(std::string const& text, double width, double hanging = 0) { return wrap(text, {width, hanging}, columns); }
}  // namespace

TEST_CASE("wrap: what belongs together stays together", "[templates][wrap]") {
  struct Case {
    char const* text;
    double width;
    Lines lines;
  };
  auto const c = GENERATE(values<Case>({
      // counted by hand: each line at its widest
      {"add 25.0 mL of acid", 11, {"add 25.0 mL", "of acid"}},
      {"add 25.0 mL of acid", 10, {"add", "25.0 mL of", "acid"}},
      {"use 0.150 mol/L now", 9, {"use 0.150", "mol/L now"}},  // 11 columns cannot be one line of 9: broken at its own blank
      {"use 0.150 mol/L now", 11, {"use", "0.150 mol/L", "now"}},
      {"at least ≥ 3 drops", 10, {"at least", "≥ 3 drops"}},
      {"mass 1.20 × 10³ g left", 12, {"mass", "1.20 × 10³ g", "left"}},
      {"c = 0.1 mol L⁻¹ here", 12, {"c = 0.1 mol", "L⁻¹ here"}},  // the piece of 13 columns is cut at its blanks
      {"of 1 250 seeds", 7, {"of", "1 250", "seeds"}},
      {"n(A) = c(A) × V(A) = 2 mol", 15, {"n(A) = c(A)", "× V(A) = 2 mol"}},
      {"one  two\tthree", 80, {"one two three"}},
      {"a\n\nb", 80, {"a", "", "b"}},
      {"", 80, {""}},
      {"abcdefgh", 3, {"abc", "def", "gh"}},
      {"Anneliese-Marie", 12, {"Anneliese-", "Marie"}},
      {"₂₂₂₂₂", 2, {"₂₂", "₂₂", "₂"}},
  }));
  CAPTURE(c.text, c.width);
  CHECK(wrapped(c.text, c.width) == c.lines);
}

TEST_CASE("wrap: prose goes a piece back rather than break before an equals sign", "[templates][wrap]") {
  CHECK(wrapped("the concentration was given as c = 0.100 mol/L in it", 36) ==
        Lines{"the concentration was given as", "c = 0.100 mol/L in it"});
}

TEST_CASE("wrap: later lines are shorter by the hanging indent", "[templates][wrap]") {
  CHECK(wrapped("aaa bbb ccc ddd", 7, 4) == Lines{"aaa bbb", "ccc", "ddd"});
}

TEST_CASE("wrap: no line is ever too wide", "[templates][wrap]") {
  std::string const text =
      "Excess silver nitrate solution is added to 40.0 mL of 0.150 mol/L BaCl₂; m(Ca(NO₃)₂·4H₂O) = 1.20 × 10⁻² mol × 236.15 "
      "g/mol = 2.83 g, which is ≥ 2 g.";
  for (int width = 1; width < 90; ++width) {
    CAPTURE(width);
    std::string joined;
    for (std::string const& line : wrapped(text, width)) {
      CHECK(columns(line) <= width);
      joined += line;
    }
    // Nothing is lost but blanks.
    auto const bare = [](std::string s) {
      std::erase(s, ' ');
      return s;
    };
    CHECK(bare(joined) == bare(text));
  }
}

TEST_CASE("plain: tables wrap inside 80 columns and bring the first column again", "[templates][plain]") {
  std::vector<std::string> head{"Student"};
  for (int i = 1; i <= 30; ++i) head.push_back("q" + std::to_string(i));
  head.push_back("Total");
  std::vector<std::string> row{"A name that is longer than forty columns of text"};
  for (int i = 1; i <= 30; ++i) row.push_back("2* s1");
  row.push_back("60");
  std::string const text = plain_table(head, {row}, {31});
  std::size_t bands = 0;
  std::size_t begin = 0;
  while (begin < text.size()) {
    std::size_t const end = text.find('\n', begin);
    std::string const line = text.substr(begin, end - begin);
    CAPTURE(line);
    CHECK(columns(line) <= 80);
    if (line.starts_with("Student")) ++bands;
    begin = end + 1;
  }
  CHECK(bands >= 2);
  for (std::string const& name : head) CHECK(text.find(name) != std::string::npos);
  CHECK(text.find("Total") == text.rfind("Total"));
}

TEST_CASE("plain: a small table as it is printed", "[templates][plain]") {
  CHECK(plain_table({"Part", "right"}, {{"1", "9"}, {"2a", "10"}}, {1}) ==
        "Part  right\n"
        "----  -----\n"
        "1         9\n"
        "2a       10\n");
}

TEST_CASE("plain: paragraphs, headings and sides", "[templates][plain]") {
  CHECK(plain_paragraph("water", "1.  ", 4) == "1.  water\n");
  CHECK(plain_heading("H₂O") == "H₂O\n===\n");
  CHECK(plain_sides("left", "right") == "left" + std::string(71, ' ') + "right\n");
}
