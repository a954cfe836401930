// Codes: what is typed wrongly is known as such, and a spreadsheet leaves a code alone.
#include "generators/code.h"

#include <algorithm>
#include <catch2/catch.hpp>
#include <cctype>
#include <set>
#include <string>

#include "generators/random.h"

using namespace molewright;

namespace {
Code some_code(Random& random) {
  return Code{random.below(1U << 12U), random.below(1U << 3U), random.below(code_seeds), random.below(code_draws),
              random.below(code_checks)};
}
}  // namespace

TEST_CASE("code: what is printed is read again, in any dress", "[generators][code]") {
  Random random(1);
  for (int i = 0; i < 500; ++i) {
    Code const code = some_code(random);
    std::string const text = print_code(code);
    REQUIRE(text.size() == 12);
    REQUIRE(ok(parse_code(text)));
    CHECK(value(parse_code(text)) == code);
    std::string dressed = " " + text.substr(0, 4) + "-" + text.substr(4, 4) + " " + text.substr(8);
    for (char& c : dressed) c = static_cast<char>(std::tolower(static_cast<unsigned char>(c)));
    REQUIRE(ok(parse_code(dressed)));
    CHECK(value(parse_code(dressed)) == code);
  }
  Code const first{0, 0, 0, 0, 0};
  Code const last{(1U << 12U) - 1, 7, code_seeds - 1, code_draws - 1, code_checks - 1};
  CHECK(value(parse_code(print_code(first))) == first);
  CHECK(value(parse_code(print_code(last))) == last);
}

TEST_CASE("code: every wrong character and every swap of neighbours is found", "[generators][code]") {
  Random random(2);
  for (int i = 0; i < 200; ++i) {
    std::string const text = print_code(some_code(random));
    int unnoticed = 0;
    int unmended = 0;
    auto const look = [&](std::string const& wrong) {
      if (ok(parse_code(wrong))) ++unnoticed;
      auto const near = near_codes(wrong);
      if (std::find(near.begin(), near.end(), text) == near.end()) ++unmended;
    };
    for (std::size_t at = 0; at < text.size(); ++at) {
      for (char const c : std::string("ABCDEFGHIJKLMNOPQRSTUVWXYZ0123456789?")) {
        if (c == text[at]) continue;
        std::string wrong = text;
        wrong[at] = c;
        look(wrong);
      }
      if (at + 1 < text.size() && text[at] != text[at + 1]) {
        std::string wrong = text;
        std::swap(wrong[at], wrong[at + 1]);
        look(wrong);
      }
    }
    CAPTURE(text);
    CHECK(unnoticed == 0);
    CHECK(unmended == 0);
  }
}

TEST_CASE("code: never a number, a date or a word", "[generators][code]") {
  Random random(3);
  std::set<std::string> seen;
  for (int i = 0; i < 2000; ++i) {
    std::string const text = print_code(some_code(random));
    CHECK(std::isalpha(static_cast<unsigned char>(text.front())));
    CHECK(text.find_first_of("AEIOU") == std::string::npos);
    CHECK(text.find_first_not_of(code_alphabet) == std::string::npos);
    seen.insert(text);
  }
  CHECK(seen.size() == 2000);
}

TEST_CASE("code: neighbouring seeds do not look alike", "[generators][code]") {
  for (std::uint32_t seed = 0; seed < 200; ++seed) {
    std::string const a = print_code(Code{77, 0, seed, 0, 5});
    std::string const b = print_code(Code{77, 0, seed + 1, 0, 5});
    int different = 0;
    for (std::size_t i = 0; i < a.size(); ++i) different += a[i] != b[i] ? 1 : 0;
    CAPTURE(a, b);
    CHECK(different >= 4);
  }
}

TEST_CASE("code: faults say what is wrong", "[generators][code]") {
  struct Case {
    std::string text, id, sentence;
    std::size_t offset;
  };
  std::string const good = print_code(Code{1, 0, 2, 3, 4});
  std::string swapped = good;
  std::size_t at = 0;
  while (swapped[at] == swapped[at + 1]) ++at;
  std::swap(swapped[at], swapped[at + 1]);
  std::string strange = good;
  strange[4] = 'O';
  std::string const accented = good.substr(0, 3) + "É" + good.substr(5);
  std::string null = good;
  null[4] = '\0';
  auto const c = GENERATE_COPY(values<Case>({
      {"", "not-a-code", "not a question code, expected 12 characters out of BCDFGHJKMNPQRTVWXYZ3479", 0},
      {"BCDF", "not-a-code", "not a question code, expected 12 characters out of BCDFGHJKMNPQRTVWXYZ3479", 4},
      {good + "B", "not-a-code", "not a question code, expected 12 characters out of BCDFGHJKMNPQRTVWXYZ3479", 13},
      {"OILSOILSOILS", "not-a-code", "not a question code, expected 12 characters out of BCDFGHJKMNPQRTVWXYZ3479", 0},
      {swapped, "mistyped-code", "the code is mistyped: its last character does not fit the others", 0},
      {strange, "mistyped-code", "a code never holds O, expected " + good.substr(4, 1) + " as character 5 if the rest is right",
       4},
      {accented, "mistyped-code", "a code never holds the character that stands there", 3},  // two bytes for one character
      {null, "mistyped-code",
       "a code never holds the character that stands there, expected " + good.substr(4, 1) +
           " as character 5 if the rest is right",
       4},
  }));
  CAPTURE(c.text);
  auto const got = parse_code(c.text);
  REQUIRE(!ok(got));
  CHECK(fault(got).id == c.id);
  CHECK(sentence(fault(got)) == c.sentence);
  CHECK(fault(got).offset == c.offset);
}
