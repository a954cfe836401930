// The review of templates: each fault is named at its line, and the project's own templates have none.
#include "generators/template_review.h"

#include <algorithm>
#include <catch2/catch.hpp>
#include <string>
#include <vector>

#include "app/question_templates.h"
#include "tests/sanitizers.h"

using namespace molewright;

namespace {

std::string const sound =
    "template feed-salt\n"                                                                              // 1
    "kind precipitate\n"                                                                                // 2
    "level standard\n"                                                                                  // 3
    "let first, second, solid, other = one of CaCl2, Na2CO3, CaCO3, NaCl | SrCl2, K2CO3, SrCO3, KCl\n"  // 4
    "reaction {first}(aq) + {second}(aq) -> {solid}(s) + {other}(aq)\n"                                 // 5
    "given V({first}) = 25.0 to 85.0 by 0.5 mL\n"                                                       // 6
    "given c({first}) = 0.115 to 0.295 by 0.005 mol/L\n"                                                // 7
    "excess {second}\n"                                                                                 // 8
    "require m({solid}) >= 0.30 g\n"                                                                    // 9
    "find n({first}) in mmol\n"                                                                         // 10
    "find m({solid}) in g\n"                                                                            // 11
    "text\n"                                                                                            // 12
    "  {V({first})} of {name {first}} solution, {c({first})}, meets an excess of {name {second}}.\n"    // 13
    "  {equation}\n"                                                                                    // 14
    "  (a) What amount of {name {first}}, in mmol, is used?\n"                                          // 15
    "  (b) What mass of {name {solid}}, in g, forms?\n"                                                 // 16
    "end\n"                                                                                             // 17
    "text\n"                                                                                            // 18
    "  Enough {name {second}} is stirred into {V({first})} of {c({first})} {name {first}} solution.\n"  // 19
    "  {equation}\n"                                                                                    // 20
    "  (a) Calculate the amount of {name {first}}, in mmol.\n"                                          // 21
    "  (b) Calculate the mass of the solid, in g.\n"                                                    // 22
    "end\n";                                                                                            // 23

std::string told(std::vector<Finding> const& findings) {
  std::string out;
  for (auto const& one : findings) out += std::to_string(one.line) + ": " + one.kind + ": " + one.text + " | " + one.mend + '\n';
  return out;
}

std::vector<Finding> findings_of(std::string const& text) {
  auto const all = review(text, {});
  REQUIRE(all.size() == 1);
  return all.front().findings;
}

}  // namespace

TEST_CASE("template review: faulty templates are named rightly", "[generators][template-review]") {
  REQUIRE(told(findings_of(sound)) == "");
  struct Row {
    char const* from;  ///< of the sound template, replaced by `to` where it stands first
    char const* to;
    char const* kind;
    std::size_t line;
    char const* says;
  };
  auto const row = GENERATE(values<Row>({
      {"excess {second}\n", "excess {second}\ngiven T = 293 K\n", "unused-given", 9, "no answer needs T"},
      {"find m({solid}) in g\n", "find m({solid}) in g\nfind pH\n", "unreachable-find", 12, "nothing leads to pH"},
      {"given c({first}) = 0.115 to 0.295 by 0.005 mol/L\n", "let spare = 1 to 3 by 1\n", "unused-variable", 7,
       "nothing uses spare"},
      {"let first, second, solid, other = one of CaCl2, Na2CO3, CaCO3, NaCl | SrCl2, K2CO3, SrCO3, KCl",
       "let first, second, solid, other, word = one of CaCl2, Na2CO3, CaCO3, NaCl, a | SrCl2, K2CO3, SrCO3, KCl, b",
       "unused-variable", 4, "nothing uses word"},
      {"{equation}\n  (a) What", "It is done.\n  (a) What", "wordings-differ", 12, "does not tell the equation"},
      {", {c({first})}, meets", " meets", "wordings-differ", 12, "does not tell c("},
      {", {c({first})}, meets", " meets", "not-in-text", 12, "does not tell c("},
      {"(a) What amount of {name {first}}, in mmol,", "(a) What amount of {name {first}}, in mol,", "text-differs", 12,
       "the data say n("},
      {"(b) What mass of {name {solid}}, in g, forms?", "(b) What mass of {name {solid}}, in kg, forms?", "text-differs", 16,
       "kg"},
      {"{V({first})} of {name", "{V({first})} mL of {name", "unit-twice", 13, "prints its unit, and mL follows"},
      {"{V({first})} of {name", "{V({first})} L of {name", "unit-twice", 13, "prints its unit, and L follows"},
      {"{V({first})} of {name", "40.0 mL of {name", "text-differs", 13, "the text says 40.0 mL"},
      {"(b) What mass of {name {solid}}, in g, forms?", "(b) What colour has {name {solid}}?", "find-not-asked", 12,
       "does not ask for m("},
      {"find n({first}) in mmol\n", "find n({first}) in mmol\nfind N({first})\n", "find-in-no-text", 11, "no text asks for N("},
      {"find n({first}) in mmol\n", "", "part-without-find", 11, "has a part (b)"},
      {"m({solid}) >= 0.30 g", "m({solid}) >= 30 g", "nothing-fits", 9,
       "thrown out most by require m({solid}) >= 30 g (200 of 200 draws)"},
      {"m({solid}) >= 0.30 g", "m({solid}) >= 3.20 g", "rarely-fits", 9, "require m({solid}) >= 3.20 g ("},
      {"m({solid}) >= 0.30 g", "m(KCl) >= 0.30 g", "require", 9, "m(KCl) does not come up in the working"},
      {"CaCl2, Na2CO3, CaCO3, NaCl |", "CaCl2, NaNO3, Ca(NO3)2, NaCl |", "no-such-reaction", 5, ""},
      {"What amount of {name {first}}", "What amount of {name {sort}}", "unknown-variable", 12, "{sort} is bound by no let"},
      {"kind precipitate\n", "\n", "no-kind", 1, "the template has no kind"},
      {"find n({first}) in mmol", "find n({first} in mmol", "not-a-quantity", 10, ""},
  }));
  std::string text = sound;
  auto const at = text.find(row.from);
  REQUIRE(at != std::string::npos);
  text.replace(at, std::string_view(row.from).size(), row.to);
  auto const found = findings_of(text);
  CAPTURE(row.to, told(found));
  auto const named = std::find_if(found.begin(), found.end(), [&](Finding const& f) {
    return f.kind == row.kind && f.line == row.line && f.text.find(row.says) != std::string::npos;
  });
  REQUIRE(named != found.end());
  CHECK_FALSE(named->why.empty());
  CHECK_FALSE(named->mend.empty());
}

TEST_CASE("template review: the project's templates are clean", "[generators][template-review]") {
  auto const& templates = question_templates();
  for (std::size_t i = 0; i < templates.size(); i += test::under_sanitizer ? 10 : 1) {  // a tenth finds faults of memory, too
    auto const& [name, text] = templates[i];
    auto const all = review(text, {});
    REQUIRE(all.size() == 1);
    CHECK(all.front().problem == name);
    if (!all.front().findings.empty()) FAIL_CHECK(name << "\n" << told(all.front().findings));
  }
}

TEST_CASE("template review: several in a file keep their lines; problems stay problems", "[generators][template-review]") {
  std::string broken = sound;
  broken.replace(broken.find("kind precipitate"), 16, "kind precipitate\nlevel hard");
  broken.replace(broken.find("feed-salt"), 9, "other");
  auto const all = review("# two\n\n" + sound + "# the second\n" + broken, {});
  REQUIRE(all.size() == 2);
  CHECK(all[0].problem == "feed-salt");
  CHECK(told(all[0].findings).empty());
  REQUIRE(all[1].findings.size() == 1);
  CHECK(all[1].findings[0].kind == "unknown-level");
  CHECK(all[1].findings[0].line == 2 + 23 + 1 + 3);
  CHECK(holds_templates("# words\n\n template x\n"));
  CHECK_FALSE(holds_templates("problem x\ngiven n(NaCl) = 1 mol\n"));
  CHECK_FALSE(holds_templates(""));
}
