// Variants of a teacher's own problems: realistic, all different, and told by the text.
#include "generators/variant.h"

#include <algorithm>
#include <catch2/catch.hpp>
#include <set>
#include <string>

#include "engine/substance.h"
#include "generators/question_maker.h"
#include "generators/review.h"

using namespace molewright;

namespace {
Problem problem_of(std::string const& text) {
  auto const file = parse_problems(text);
  for (auto const& found : file.faults) UNSCOPED_INFO(show(found, "test"));
  REQUIRE(file.problems.size() == 1);
  return file.problems.front();
}
std::string const titration =
    "problem acid\nreaction HCl(aq) + NaOH(aq) -> NaCl(aq) + H2O(l)\ngiven V(NaOH) = 25.00 mL\ngiven c(HCl) = 0.1000 mol/L\n";
}  // namespace

TEST_CASE("variant: thirty of an own problem, sound by the review and all different", "[generators][variant]") {
  auto const text = GENERATE_COPY(values<std::string>({
      "problem weighed\ngiven m(KNO3) = 5.05 g\ngiven V(KNO3) = 250.0 mL\nfind c(KNO3) in mol/L\ntext\n"
      "In the greenhouse 5.05 g of potassium nitrate is made up to 250.0 mL. Calculate the concentration.\nend\n",
      "problem amount\ngiven V(NaOH) = 32.5 mL\ngiven c(NaOH) = 0.150 mol/L\nfind n(NaOH) in mol\n",
      "problem diluted\ngiven c1(KCl) = 0.500 mol/L\ngiven V1(KCl) = 20.00 mL\ngiven V2(KCl) = 250.0 mL\nfind c2(KCl) in "
      "mol/L\ntext\n"
      "A pipette takes {V1(KCl)} of {c1(KCl)} potassium chloride solution. It is made up to {V2(KCl)}. What is its "
      "concentration?\nend\n",
      "problem chalk\nreaction CaCl2(aq) + Na2CO3(aq) -> CaCO3(s) + NaCl(aq)\ngiven V(CaCl2) = 40.0 mL\ngiven c(CaCl2) = 0.250 "
      "mol/L\n"
      "excess Na2CO3\nfind m(CaCO3) in g\n",
      titration + "given V(HCl) = 22.35 mL\nfind c(NaOH) in mol/L\n",
      titration + "given V(HCl) = mean of 22.90 rough | 22.35 | 22.40 mL\nfind c(NaOH) in mol/L\n",
      titration + "given V(HCl) = mean of 23.00 - 0.00 rough | 24.65 - 2.30 | 46.80 - 24.65 discordant | 23.45 - 1.05 mL\nfind "
                  "c(NaOH) in mol/L\ntext\nTitrated: {V(NaOH)}, {c(HCl)}.\n{table V(HCl)}\nCalculate the concentration.\nend\n",
      titration + "given V(HCl) = 24.65 - 1.20 mL\nfind c(NaOH) in mol/L\n",
      "problem kiln\nreaction CaCO3(s) -> CaO(s) + CO2(g)\ngiven m(CaCO3) = 20.0 g\ngiven yield(CaO) = 82.0 %\nfind m(CaO, "
      "actual) in g\n",
      "problem crystals\ngiven V(MgSO4) = 500.0 mL\ngiven c(MgSO4) = 0.0500 mol/L\nfind m(MgSO4·7H2O) in g\n",
      "problem limits\nreaction Mg(s) + 2HCl(aq) -> MgCl2(aq) + H2(g)\ngiven m(Mg) = 0.486 g\ngiven V(HCl) = 50.0 mL\n"
      "given c(HCl) = 1.00 mol/L\nfind limiting reagent\nfind n(H2) in mol\n",
  }));
  auto const problem = problem_of(text);
  CAPTURE(problem.id);
  auto made = variant_of(problem, "own-" + problem.id);
  if (!ok(made)) FAIL(sentence(fault(made)) << "\n" << (ok(variant_text(problem, "x")) ? value(variant_text(problem, "x")) : ""));
  QuestionMaker maker({value(made)}, {});
  std::set<std::string> texts;
  for (std::uint32_t seed = 0; texts.size() < 30 && seed < 200; ++seed) {
    auto const question = maker.make(maker.templates().front(), seed);
    if (!ok(question)) FAIL(sentence(fault(question)));
    if (!texts.insert(value(question).text).second) continue;
    CHECK(value(question).text.find('{') == std::string::npos);
    // The problem with the numbers that were drawn, its text left out: that has been filled in.
    Problem drawn = value(question).worked.problem;
    drawn.text.clear();
    for (auto const& one : review(print(drawn), {}))
      for (auto const& finding : one.findings) FAIL_CHECK(finding.kind << ": " << finding.text << "\n" << print(drawn));
  }
  CHECK(texts.size() == 30);
}

TEST_CASE("variant: a problem beyond a limit of the laboratory varies as far as itself, no further", "[generators][variant]") {
  struct Row {
    char const* problem;
    char const* waived;
    char const* symbol;
    double most;
  };
  auto const row = GENERATE(values<Row>({
      {"problem strong\nreaction AgNO3(aq) + NaCl(aq) -> AgCl(s) + NaNO3(aq)\ngiven c(AgNO3) = 0.250 mol/L\n"
       "given V(AgNO3) = 25.0 mL\nexcess NaCl\nfind m(AgCl) in g\n",
       "waive school-limit\n", "c", 0.250},
      {"problem full\ngiven c(KNO3) = 2.50 mol/L\ngiven V(KNO3) = 250.0 mL\nfind m(KNO3) in g\n", "waive solubility\n", "c",
       2.50},
      {"problem speck\ngiven c(KNO3) = 0.00200 mol/L\ngiven V(KNO3) = 250.0 mL\nfind m(KNO3) in g\n",
       "waive too-light-to-weigh\n", "m", 0.3},
  }));
  auto const problem = problem_of(row.problem);
  auto const text = variant_text(problem, "own");
  REQUIRE(ok(text));
  CHECK(value(text).find(row.waived) != std::string::npos);
  QuestionMaker maker({value(variant_of(problem, "own"))}, {});
  std::set<std::string> texts;
  for (std::uint32_t seed = 0; seed < 40; ++seed) {
    auto const question = maker.make(maker.templates().front(), seed);
    if (!ok(question)) FAIL(sentence(fault(question)));
    texts.insert(value(question).text);
    for (auto const& node : value(question).worked.accepted.front().nodes) {
      if (node.quantity.symbol == row.symbol) CHECK(node.value.number.to_double() <= row.most);
    }
  }
  CHECK(texts.size() > 30);
}

TEST_CASE("variant: a text that would lie is refused", "[generators][variant]") {
  auto const problem = problem_of(
      "problem p\ngiven m(KNO3) = 5.05 g\ngiven V(KNO3) = 250.0 mL\nfind c(KNO3)\ntext\n"
      "5.05 g is taken from a jar of 500 g and made up to 250.0 mL. Calculate the concentration.\nend\n");
  auto const made = variant_of(problem, "p");
  REQUIRE_FALSE(ok(made));
  CHECK(fault(made).id == "variant-would-lie");
  CHECK(fault(made).what == "the text says 500 g, which would stay when m(KNO3) changes");
}

namespace {
struct Moved {
  char const* problem;
  std::set<std::string> stand_in;  ///< what may be asked of, for the first find
};
}  // namespace

// What stands in is common school chemistry, no source: same charges, same solubility, no basic carbonates, no hydroxide that air
// or alkali turns into something else, hydrates as they are bought.
TEST_CASE("variant: other substances of the same stoichiometry, in the words, too", "[generators][variant]") {
  auto const c = GENERATE(values<Moved>({
      {"problem solid\nreaction CaCl2(aq) + Na2CO3(aq) -> CaCO3(s) + NaCl(aq)\ngiven V(CaCl2) = 40.0 mL\ngiven c(CaCl2) = 0.250 "
       "mol/L\nexcess Na2CO3\nfind m(CaCO3) in g\ntext\nCalcium chloride solution, {V(CaCl2)} of {c(CaCl2)} CaCl2, meets an "
       "excess of sodium carbonate.\nWhat mass of {name CaCO3} falls out?\nend\n",
       {"m(CaCO3)", "m(SrCO3)", "m(SrSO4)"}},
      {"problem weighed\ngiven m(KNO3) = 5.05 g\ngiven V(KNO3) = 250.0 mL\nfind c(KNO3) in mol/L\ntext\nIn the store 5.05 g of "
       "potassium nitrate is made up to 250.0 mL. Calculate the concentration of KNO3.\nend\n",
       {"c(KNO3)", "c(NaNO3)", "c(KCl)", "c(NaCl)"}},
      {"problem crystals\ngiven V(MgSO4) = 500.0 mL\ngiven c(MgSO4) = 0.0500 mol/L\nfind m(MgSO4·7H2O) in g\ntext\nTo make "
       "{V(MgSO4)} of a {c(MgSO4)} solution of magnesium sulfate, what mass of magnesium sulfate heptahydrate is weighed?\nend\n",
       {"m(MgSO4·7H2O)", "m(ZnSO4·7H2O)", "m(CuSO4·5H2O)", "m(FeSO4·7H2O)", "m(MnSO4·H2O)"}},
      {"problem alkali\nreaction HCl(aq) + NaOH(aq) -> NaCl(aq) + H2O(l)\ngiven V(NaOH) = 25.00 mL\ngiven c(HCl) = 0.1000 "
       "mol/L\ngiven V(HCl) = mean of 22.90 rough | 22.35 | 22.40 mL\nfind c(NaOH) in mol/L\ntext\nA titration of {V(NaOH)} of "
       "sodium hydroxide with {c(HCl)} hydrochloric acid:\n{table V(HCl)}\nWhat is the concentration?\nend\n",
       {"c(NaOH)", "c(KOH)"}},
      {"problem metal\nreaction Mg(s) + HCl(aq) -> MgCl2(aq) + H2(g)\ngiven m(Mg) = 0.486 g\nexcess HCl\nfind n(MgCl2) in "
       "mol\ntext\n{m(Mg)} of {name Mg} powder dissolves in {name HCl}. What amount of {name MgCl2} forms?\nend\n",
       {"n(MgCl2)", "n(ZnCl2)", "n(FeCl2)"}},
      {"problem yield\nreaction MgCl2(aq) + NaOH(aq) -> Mg(OH)2(s) + NaCl(aq)\ngiven V(MgCl2) = 50.0 mL\ngiven c(MgCl2) = 0.400 "
       "mol/L\nexcess NaOH\ngiven m(Mg(OH)2, actual) = 0.985 g\nfind yield(Mg(OH)2)\n",
       {"yield(Mg(OH)2)", "yield(Cu(OH)2)"}},
      // "calcium" stands in the text by itself and stays; the rest moves.
      {"problem ion\nreaction CaCl2(aq) + Na2CO3(aq) -> CaCO3(s) + NaCl(aq)\ngiven V(Na2CO3) = 40.0 mL\ngiven c(Na2CO3) = 0.250 "
       "mol/L\nexcess CaCl2\nfind n(Na2CO3) in mmol\nfind m(CaCO3) in g\ntext\nAll calcium of an excess is in one jar. (a) What "
       "amount of sodium carbonate is in {V(Na2CO3)} of {c(Na2CO3)}? (b) What mass of {name CaCO3} forms?\nend\n",
       {"n(Na2CO3)", "n(K2CO3)"}},
  }));
  auto const problem = problem_of(c.problem);
  CAPTURE(problem.id);
  auto const text = variant_text(problem, "own-" + problem.id, Vary::chemistry);
  if (!ok(text)) FAIL(sentence(fault(text)));
  CAPTURE(value(text));
  auto made = variant_of(problem, "own-" + problem.id, Vary::chemistry);
  REQUIRE(ok(made));
  QuestionMaker maker({value(made)}, {});
  std::set<std::string> seen;
  for (std::uint32_t seed = 0; seed < 60 || (seed < 600 && seen != c.stand_in); ++seed) {
    auto const question = maker.make(maker.templates().front(), seed);
    if (!ok(question)) FAIL(sentence(fault(question)));
    Problem drawn = value(question).worked.problem;
    seen.insert(plain(drawn.finds.front()));
    CHECK(value(question).text.find('{') == std::string::npos);
    drawn.text.clear();
    for (auto const& one : review(print(drawn), {}))
      for (auto const& finding : one.findings) FAIL_CHECK(finding.kind << ": " << finding.text << "\n" << print(drawn));
    if (!problem.text.empty()) {
      bool const moved = plain(drawn.finds.front()) != plain(problem.finds.front());
      for (auto const& given : problem.givens) {
        auto const name = name_of(given.quantity.substance);
        bool const still = std::any_of(drawn.givens.begin(), drawn.givens.end(),
                                       [&](Given const& other) { return other.quantity.substance == given.quantity.substance; });
        if (moved && !still) CHECK(value(question).text.find(name) == std::string::npos);
      }
    }
  }
  CHECK(seen == c.stand_in);
}

namespace {
struct Stuck {
  char const* text;
  char const* what;
};
}  // namespace

TEST_CASE("variant: what only the problem's own substances are is not said of others", "[generators][variant]") {
  std::string const head =
      "problem p\nreaction CaCl2(aq) + Na2CO3(aq) -> CaCO3(s) + NaCl(aq)\ngiven V(CaCl2) = 40.0 mL\ngiven c(CaCl2) = 0.250 "
      "mol/L\nexcess Na2CO3\nfind m(CaCO3) in g\ntext\n";
  auto const c = GENERATE(values<Stuck>({
      {"A white solid forms from {V(CaCl2)} of {c(CaCl2)}. What mass?", "the text says \"white\""},
      {"Washing soda meets {V(CaCl2)} of {c(CaCl2)}; calcium and chloride are in it. What mass?",
       "the text says \"Washing soda\""},
      {"An antacid is made from {V(CaCl2)} of {c(CaCl2)}. What mass?", "the text says \"antacid\""},
      {"How much CaO could be made of it? {V(CaCl2)} of {c(CaCl2)}", "the text says \"CaO\""},
  }));
  CAPTURE(c.text);
  auto const problem = problem_of(head + c.text + "\nend\n");
  auto const made = variant_of(problem, "p", Vary::chemistry);
  REQUIRE_FALSE(ok(made));
  CHECK(fault(made).id == "cannot-move");
  CHECK(fault(made).what.find(c.what) != std::string::npos);
  auto const said = std::string(c.what).substr(15);
  CHECK(problem.text.compare(fault(made).offset, said.size() - 1, said.substr(0, said.size() - 1)) == 0);
  CHECK(ok(variant_of(problem, "p", Vary::numbers)));
}

TEST_CASE("variant: where the tables do not decide, nothing moves", "[generators][variant]") {
  for (auto const* const text : {"problem a\ngiven m(C12H22O11) = 5.05 g\nfind n(C12H22O11) in mol\n",          // no ions
                                 "problem b\ngiven m(KCl) = 5.05 g\ngiven M(KCl) = 74.6 g/mol\nfind n(KCl)\n",  // a fact of KCl
                                 "problem c\ngiven m(NH4NO3) = 5.05 g\nfind m(N in NH4NO3) in g\n"}) {  // a share of one formula
    auto const made = variant_of(problem_of(text), "p", Vary::chemistry);
    REQUIRE_FALSE(ok(made));
    CHECK(fault(made).id == "cannot-move");
  }
}
