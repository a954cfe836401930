// Judging equations, names, formulas, precipitates and reagents; and values that a question tells.
#include "marker/stated.h"

#include <catch2/catch.hpp>

#include "marker/written.h"
#include "worked.h"

using namespace molewright;

namespace {

Judgement judged(Question const& question, std::string const& answer, Course const& course = {}, std::size_t find = 0) {
  std::vector<Written> script(find);
  script.push_back(read_written(answer, DecimalMark::point));
  return Judge(question, course).judge(script).at(find);
}

struct Row {
  char const *problem, *answer, *verdict, *slip, *why;
};

char const* const rust = "reaction Fe + O2 -> Fe2O3; find reaction";
char const* const gas = "reaction C3H8(g) + O2(g) -> CO2(g) + H2O(g); find reaction";
char const* const silver = "reaction NaCl(aq) + AgNO3(aq); find ionic equation";
char const* const acid = "reaction HCl(aq) + NaOH(aq) -> NaCl(aq) + H2O(l); find ionic equation";
char const* const copper = "reaction Zn(s) + AgNO3(aq) -> Zn(NO3)2(aq) + Ag(s); find ionic equation";
char const* const nothing = "reaction NaCl(aq) + KNO3(aq); find ionic equation";
char const* const iron = "find name of FeCl3";
char const* const blue = "find name of CuSO4·5H2O";
char const* const oxide = "find name of N2O4";
char const* const alumina = "find name of Al2(SO4)3";
char const* const acetate = "find name of NaCH3COO";
char const* const soda = "find name of NaHCO3";
char const* const sulfate = "find formula of iron(III) sulfate";
char const* const lime = "find formula of calcium hydroxide";
char const* const epsom = "find formula of magnesium sulfate heptahydrate";
char const* const barium = "reaction BaCl2(aq) + Na2SO4(aq); find precipitate";
char const* const no_solid = "reaction NaCl(aq) + KNO3(aq); find precipitate";
char const* const two = "reaction Ba(OH)2(aq) + MgSO4(aq); find precipitate";
char const* const tests = "find reagent from NaOH | Ba(NO3)2 | KNO3 | AgNO3 to precipitate NaCl but not NaNO3";
char const* const apart = "find reagent from BaCl2 | KNO3 | Na2CO3 | CaCl2 to precipitate CaCl2 but not NaCl";
}  // namespace

TEST_CASE("stated: right in every spelling, wrong with its cause", "[marker][stated]") {
  for (auto const& row : std::vector<Row>{
           // Equations.
           {rust, "4Fe + 3O2 -> 2Fe2O3", "right", "", "as it is due"},
           {rust, "3 O₂ + 4 Fe → 2 Fe₂O₃", "right", "", "another order, in Unicode"},
           {rust, "4Fe+3O2=2Fe2O3", "right", "", "equals for the arrow, no blanks"},
           {rust, "4Fe + 3O2 --> 2Fe2O3.", "right", "", "a long arrow"},
           {rust, "4Fe(s) + 3O2(g) ⇌ 2Fe2O3(s)", "right", "", "states nobody asked for"},
           {rust, "8Fe + 6O2 -> 4Fe2O3", "right", "", "a multiple"},
           {rust, "2Fe + 3/2 O2 -> Fe2O3", "right", "", "a fraction"},
           {rust, "2Fe + 2Fe + 3O2 -> 2Fe2O3", "right", "", "a substance written twice"},
           {rust, "Fe + O2 -> Fe2O3", "wrong", "equation-not-balanced", ""},
           {rust, "4Fe + 2O2 -> 2Fe2O3", "wrong", "equation-not-balanced", ""},
           {rust, "2Fe2O3 -> 4Fe + 3O2", "wrong", "equation-backwards", ""},
           {rust, "2Fe + O2 -> 2FeO", "wrong", "formula-changed-to-balance", "balanced, another oxide"},
           {rust, "4Fe + 6O -> 2Fe2O3", "wrong", "formula-changed-to-balance", "oxygen as atoms"},
           {rust, "Fe + O -> Fe2O3", "wrong", "formula-in-equation-wrong", ""},
           {rust, "iron + oxygen -> iron(III) oxide", "wrong", "names-in-equation", ""},
           {rust, "4Fe + 3O2", "wrong", "equation-one-side-only", ""},
           {rust, "4Fe -> 2Fe2O3", "wrong", "substance-left-out", ""},
           {rust, "4Fe + 3O2 -> 2Fe2O3 + H2O", "wrong", "substance-too-many", ""},
           {rust, "no reaction", "wrong", "reaction-missed", ""},
           {rust, "4Qq + 3O2 -> 2Fe2O3", "unreadable", "", "no element"},
           {rust, "42", "unreadable", "", "a number"},
           {gas, "C3H8 + 5O2 -> 3CO2 + 4H2O", "right", "", "states left out: not judged"},
           {gas, "C3H8 + 5O2 + 4H2O -> 3CO2", "wrong", "substance-on-wrong-side", ""},
           {silver, "Ag+ + Cl- -> AgCl", "right", "", "charges as typed"},
           {silver, "Cl⁻(aq) + Ag⁺(aq) → AgCl(s)", "right", "", ""},
           {silver, "Ag^+ + NO3^- + Na^+ + Cl^- -> AgCl + Na^+ + NO3^-", "wrong", "spectators-left-in", ""},
           {silver, "AgNO3 + NaCl -> AgCl + NaNO3", "wrong", "ions-not-separated", ""},
           {silver, "Ag + Cl -> AgCl", "wrong", "ion-charge-wrong", ""},
           {silver, "Ag^2+ + Cl^- -> AgCl", "wrong", "ion-charge-wrong", ""},
           {acid, "H+ + OH- -> H2O", "right", "", ""},
           {acid, "H3O+ + OH- -> 2H2O", "right", "", "the hydronium ion"},
           {copper, "Zn + 2Ag+ -> Zn^2+ + 2Ag", "right", "", ""},
           {copper, "Zn + Ag+ -> Zn^2+ + Ag", "wrong", "equation-charge-not-balanced", ""},
           {nothing, "none", "right", "", ""},
           {nothing, "No reaction", "right", "", ""},
           {nothing, "Na+ + NO3- -> NaNO3", "wrong", "reaction-where-none-is", ""},
           // Names.
           {iron, "iron(III) chloride", "right", "", ""},
           {iron, "Iron (III) Chloride", "right", "", ""},
           {iron, "ferric chloride", "right", "", "an older name"},
           {iron, "iron chloride", "wrong", "stock-number-missing", ""},
           {iron, "iron(II) chloride", "wrong", "wrong-charge-of-metal", ""},
           {iron, "iron(III) chlorate", "wrong", "ending-confused", ""},
           {iron, "FeCl3", "wrong", "formula-for-name", ""},
           {iron, "iron thing", "unreadable", "", "no name"},
           {blue, "copper(II) sulfate pentahydrate", "right", "", ""},
           {blue, "copper(II) sulphate-5-water", "right", "", "another way to say the water, and the spelling"},
           {blue, "copper(II) sulfate", "wrong", "hydrate-water-not-named", ""},
           {blue, "copper sulfate pentahydrate", "wrong", "stock-number-missing", ""},
           // Names of the trade, whichever the course prints.
           {alumina, "aluminium sulfate", "right", "", ""},
           {alumina, "aluminum sulphate", "right", "", ""},
           {acetate, "sodium acetate", "right", "", ""},
           {acetate, "sodium ethanoate", "right", "", ""},
           {soda, "sodium hydrogencarbonate", "right", "", ""},
           {soda, "sodium hydrogen carbonate", "right", "", ""},
           {soda, "sodium bicarbonate", "right", "", ""},
           {oxide, "dinitrogen tetroxide", "right", "", ""},
           {oxide, "dinitrogen tetraoxide", "right", "", "the Red Book allows the full prefix"},
           {oxide, "nitrogen dioxide", "wrong", "number-prefix-wrong", ""},
           // Formulas.
           {sulfate, "Fe2(SO4)3", "right", "", ""},
           {sulfate, "Fe₂(SO₄)₃", "right", "", ""},
           {sulfate, "FeSO4", "wrong", "wrong-charge-of-metal", ""},
           {sulfate, "Fe3(SO4)2", "wrong", "charges-do-not-cancel", ""},
           {sulfate, "Fe2(SO3)3", "wrong", "ending-confused", ""},
           {sulfate, "fe2(so4)3", "wrong", "capital-letters", ""},
           {sulfate, "iron(III) sulfate", "wrong", "name-for-formula", ""},
           {lime, "Ca(OH)2", "right", "", ""},
           {lime, "CaOH2", "wrong", "bracket-left-out", ""},
           {lime, "CaOH", "wrong", "charges-do-not-cancel", ""},
           {lime, "Ca2(OH)4", "wrong", "multiple-of-formula", ""},
           {epsom, "MgSO4.7H2O", "right", "", ""},
           {epsom, "MgSO4", "wrong", "hydrate-water-not-named", ""},
           {epsom, "MgSO4·6H2O", "wrong", "hydrate-wrong-number", ""},
           // Precipitates.
           {barium, "BaSO4", "right", "", ""},
           {barium, "barium sulfate", "right", "", ""},
           {barium, "BaSO4(s)", "right", "", ""},
           {barium, "NaCl", "wrong", "soluble-salt-taken-for-solid", ""},
           {barium, "none", "wrong", "precipitate-missed", ""},
           {barium, "SO4^2-", "wrong", "ion-taken-for-precipitate", ""},
           {barium, "Ba2SO4", "wrong", "charges-do-not-cancel", ""},
           {barium, "BaSO4 and NaCl", "wrong", "soluble-salt-taken-for-solid", ""},
           {barium, "AgCl", "wrong", "not-a-product", ""},
           {no_solid, "no precipitate", "right", "", ""},
           {no_solid, "KCl", "wrong", "soluble-salt-taken-for-solid", ""},
           {two, "Mg(OH)2, BaSO4", "right", "", "either order"},
           {two, "magnesium hydroxide and barium sulfate", "right", "", ""},
           {two, "BaSO4", "wrong", "second-solid-missed", ""},
           // Reagents.
           {tests, "AgNO3", "right", "", ""},
           {tests, "silver nitrate", "right", "", ""},
           {tests, "KNO3", "wrong", "reagent-precipitates-nothing", ""},
           {tests, "HCl", "wrong", "not-a-reagent-to-choose", ""},
           {apart, "Na2CO3", "right", "", ""},
           {apart, "BaCl2", "wrong", "reagent-precipitates-nothing", ""},
       }) {
    CAPTURE(row.problem, row.answer, row.why);
    auto const judgement = judged(question_from(row.problem), row.answer);
    CHECK(std::string(name(judgement.value)) == row.verdict);
    std::string const slip = judgement.candidates.empty() ? "" : judgement.candidates.front().slips.front().id;
    CHECK(slip == row.slip);
    CHECK_FALSE(judgement.feedback.empty());
    CHECK(judgement.feedback.find('{') == std::string::npos);
    CHECK(judgement.marks == (judgement.value == ValueVerdict::right ? 3 : 0));
  }
}

TEST_CASE("stated: a name in the feedback is the course's", "[marker][stated]") {
  Course course;
  CHECK(judged(question_from(soda), "sodium carbonate", course).feedback.find("hydrogencarbonate") != std::string::npos);
  course.conventions.naming.hydrogencarbonate = Hydrogencarbonate::bicarbonate;
  CHECK(judged(question_from(soda), "sodium carbonate", course).feedback.find("bicarbonate") != std::string::npos);
}

TEST_CASE("stated: what is not balanced is counted", "[marker][stated]") {
  CHECK(judged(question_from(rust), "Fe + O2 -> Fe2O3").candidates.front().text ==
        "not balanced: Fe: 1 on the left, 2 on the right, O: 2 on the left, 3 on the right");
  CHECK(judged(question_from(copper), "Zn + Ag+ -> Zn^2+ + Ag").candidates.front().text ==
        "charges not balanced: 1 on the left, 2 on the right");
  CHECK(judged(question_from(rust), "8Fe + 6O2 -> 4Fe2O3").notes == std::vector<std::string>{"equation-is-a-multiple"});
  CHECK(judged(question_from(rust), "8Fe + 6O2 -> 4Fe2O3").feedback.find("common factor") != std::string::npos);
}

TEST_CASE("stated: states are judged where the course asks for them", "[marker][stated]") {
  Course course;
  CHECK(judged(question_from(silver), "Ag+ + Cl- -> AgCl", course).marks == 3);
  course.rules.states = MarkingRules::States::required;
  CHECK(judged(question_from(silver), "Ag+(aq) + Cl-(aq) -> AgCl(s)", course).marks == 3);
  CHECK(judged(question_from(silver), "Ag+(AQ) + Cl-(aq) -> AgCl(S)", course).marks == 3);
  auto const missing = judged(question_from(silver), "Ag+ + Cl- -> AgCl", course);
  CHECK(missing.marks == 2);
  CHECK(missing.value == ValueVerdict::right);
  CHECK(judged(question_from(silver), "Ag+(aq) + Cl-(aq) -> AgCl(aq)", course).marks == 2);
  CHECK(judged(question_from(rust), "4Fe + 3O2 -> 2Fe2O3", course).marks == 3);  // the answer itself has no states
}

TEST_CASE("stated: a told value is to be shown, and may be used", "[marker][stated]") {
  // n = 0.0250 x 0.1234 = 0.003085 mol, told as 0.0031; m = 0.003085 x 58.44 = 0.180287 g, from the told value 0.181164 g.
  auto const question =
      question_from("given V(NaCl) = 25.0 mL; given c(NaCl) = 0.1234 mol/L; show n(NaCl) in mol; find m(NaCl) in g");
  struct Told {
    char const *first, *second, *first_verdict, *second_verdict, *slip;
  };
  for (auto const& row : std::vector<Told>{{"0.00309 mol", "0.180 g", "right", "right", ""},
                                           {"0.003085 mol", "0.180 g", "right", "right", ""},
                                           {"0.00309 mol", "0.181 g", "right", "right", "from the told value"},
                                           {"0.0031 mol", "0.181 g", "wrong", "right", "told-value-repeated"},
                                           {"3.1 mmol", "0.181 g", "wrong", "right", "told-value-repeated"},
                                           {"", "0.181 g", "blank", "right", ""},
                                           {"3.085 mol", "0.181 g", "wrong", "right", "volume-left-in-mL"},
                                           {"3.085 mol", "0.281 g", "wrong", "wrong", "volume-left-in-mL"}}) {
    CAPTURE(row.first, row.second);
    auto const both = Judge(question, Course{})
                          .judge({read_written(row.first, DecimalMark::point), read_written(row.second, DecimalMark::point)});
    CHECK(std::string(name(both[0].value)) == row.first_verdict);
    CHECK(std::string(name(both[1].value)) == row.second_verdict);
    if (both[0].value == ValueVerdict::wrong) {
      REQUIRE_FALSE(both[0].candidates.empty());
      CHECK(both[0].candidates.front().slips.front().id == row.slip);
    }
    if (std::string(row.slip) == "told-value-repeated") CHECK(both[0].marks_if_accepted == 0);
  }
}

TEST_CASE("stated: a tick, a blank and an absence need no chemistry", "[marker][stated]") {
  CHECK(judged(question_from(rust), "✓").value == ValueVerdict::right);
  CHECK(judged(question_from(rust), "").value == ValueVerdict::blank);
  CHECK(judged(question_from(rust), "absent").value == ValueVerdict::absent);
}
