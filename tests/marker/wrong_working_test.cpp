// A working with one slip in it, its wrong line found; lines worked by hand.
#include "marker/wrong_working.h"

#include "tests/marker/worked.h"

using namespace molewright;

namespace {
std::string const silver =
    "problem silver; reaction BaCl2(aq) + AgNO3(aq) -> AgCl(s) + Ba(NO3)2(aq); given V(BaCl2) = 40.0 mL; given c(BaCl2) = 0.150 "
    "mol/L; excess AgNO3; find m(AgCl) in g";

/// Numbers and units are joined by no-break blanks.
std::string plain_blanks(std::string text) {
  for (auto at = text.find("\u00A0"); at != std::string::npos; at = text.find("\u00A0")) text.replace(at, 2, " ");
  return text;
}
}  // namespace

TEST_CASE("wrong working: the line at fault and what should stand there", "[marker][wrong-working]") {
  auto const question = question_from(silver);
  struct Case {
    std::string slip, node;
    std::size_t wrong;
    std::string line, instead;
  };
  auto const c = GENERATE(values<Case>({
      {"volume-left-in-mL", "V(BaCl2) in L", 0, "V(BaCl₂) = 40.0 mL = 40.0 L", "V(BaCl₂) = 40.0 mL = 0.0400 L"},
      {"mole-ratio-taken-as-one", "n(AgCl)", 2, "n(AgCl) = n(BaCl₂) = 0.00600 mol",
       "n(AgCl) = n(BaCl₂) × ν(AgCl) / ν(BaCl₂) = 0.00600 mol × 2 / 1 = 0.0120 mol"},
  }));
  CAPTURE(c.slip);
  auto const found = wrong_working(question, 0, c.slip, c.node, std::nullopt, {});
  REQUIRE(found);
  std::string all;
  for (auto const& line : found->lines) all += line + "\n";
  CAPTURE(all);
  CHECK(found->wrong == c.wrong);
  CHECK(plain_blanks(found->lines.at(found->wrong)).find(c.line) == 0);
  CHECK(plain_blanks(found->instead).find(c.instead) == 0);
}

TEST_CASE("wrong working: a logarithm is printed as it was taken", "[marker][wrong-working]") {
  struct Case {
    char const* problem;
    char const* slip;
    char const* node;
    char const* line;
    char const* instead;
  };
  char const* const acid = "problem p; given c(HNO3) = 0.0250 mol/L; find pH";
  char const* const back = "problem p; given pH = 1.60; find c(H^+) in mol/L";
  for (auto const& c : std::vector<Case>{
           {acid, "minus-left-out-of-pH", "pH", "pH = lg c(H⁺) = lg 0.0250 = −1.602", "pH = −lg c(H⁺) = −lg 0.0250 = 1.602"},
           {acid, "natural-logarithm-for-lg", "pH", "pH = −ln c(H⁺) = −ln 0.0250 = 3.68", "pH = −lg c(H⁺) = −lg 0.0250 = 1.602"},
           {back, "minus-left-out-of-pH", "c(H^+)", "c(H⁺) = 10^(pH) = 10^(1.60) = ", "c(H⁺) = 10^(−pH) = 10^(−1.60) = "},
       }) {
    CAPTURE(c.problem, c.slip);
    auto const found = wrong_working(question_from(c.problem), 0, c.slip, c.node, std::nullopt, {});
    REQUIRE(found);
    CHECK_THAT(plain_blanks(found->lines.at(found->wrong)), Catch::StartsWith(c.line));
    CHECK_THAT(plain_blanks(found->instead), Catch::StartsWith(c.instead));
  }
}

TEST_CASE("wrong working: of a limiting reagent, the comparison that was left out", "[marker][wrong-working]") {
  // n/nu: 0.0200/1 = 0.0200 and 0.0300/2 = 0.0150, so HCl runs out first.
  auto const question = question_from(
      "problem gas; reaction Mg(s) + 2HCl(aq) -> MgCl2(aq) + H2(g); given n(Mg) = 0.0200 mol; given n(HCl) = 0.0300 mol; find "
      "m(H2) in g");
  auto const found = wrong_working(question, 0, "excess-reagent-used", "limiting reagent", std::nullopt, {});
  REQUIRE(found);
  CHECK(plain_blanks(found->lines.at(found->wrong)).find("n(H₂) = n(Mg)") == 0);
  CAPTURE(found->instead);
  CHECK(found->instead.find("HCl") != std::string::npos);
  CHECK(found->instead.find("0.0150") != std::string::npos);
  Course const course;
  auto const judged = Judge(question, course).judge({wrote("0.0403 g")}).front();
  REQUIRE(!judged.candidates.empty());
  CHECK(judged.candidates.front().text == "worked from Mg, the reagent in excess");
}

TEST_CASE("wrong working: none where there is none", "[marker][wrong-working]") {
  auto const question = question_from(silver);
  CHECK_FALSE(wrong_working(question, 0, "no-such-slip", "n(AgCl)", std::nullopt, {}));
  CHECK_FALSE(wrong_working(question, 0, "volume-left-in-mL", "n(AgCl)", std::nullopt, {}));
  CHECK_FALSE(wrong_working(question, 3, "volume-left-in-mL", "V(BaCl2) in L", std::nullopt, {}));
  auto const two = question_from(std::string(silver).replace(silver.find("find"), 0, "find n(AgCl) in mol; "));
  CHECK_FALSE(wrong_working(two, 0, "answer-of-another-part", "n(AgCl)", std::nullopt, {}));
  CHECK(wrong_working(two, 0, "volume-left-in-mL", "V(BaCl2) in L", std::nullopt, {}));
}
