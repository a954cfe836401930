// Variants of a teacher's own problems: realistic, all different, and told by the text.
#include "generators/variant.h"

#include <catch2/catch.hpp>
#include <set>
#include <string>

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

TEST_CASE("variant: a text that would lie is refused", "[generators][variant]") {
  auto const problem = problem_of(
      "problem p\ngiven m(KNO3) = 5.05 g\ngiven V(KNO3) = 250.0 mL\nfind c(KNO3)\ntext\n"
      "5.05 g is taken from a jar of 500 g and made up to 250.0 mL. Calculate the concentration.\nend\n");
  auto const made = variant_of(problem, "p");
  REQUIRE_FALSE(ok(made));
  CHECK(fault(made).id == "variant-would-lie");
  CHECK(fault(made).what == "the text says 500 g, which would stay when m(KNO3) changes");
}
