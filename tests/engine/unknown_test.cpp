// What is not known in a formula: HA, M2CO3, RCOOH; a misspelt element is none of these.
#include "engine/formula_memo.h"
#include "engine/steps.h"
#include "tests/engine/problem_text.h"

using namespace molewright;
using test::answer;
using test::refused;
using test::solved;

TEST_CASE("unknown: letters that are read as such in a formula, and those that are not", "[engine][unknown]") {
  struct Row {
    char const* text;
    std::size_t at;
    bool meant;
  };
  Row const table[] = {
      {"HA", 1, true},  {"H2A", 2, true}, {"MCl2", 0, true},  {"M2CO3", 0, true}, {"MCO3", 0, true},  {"MO", 0, true},
      {"MX", 0, true},  {"MX", 1, true},  {"RCOOH", 0, true}, {"NaX", 2, true},   {"NaCL", 3, false}, {"ZN", 0, false},
      {"AG", 0, false}, {"NA", 1, false}, {"BR", 1, false},   {"Xa", 0, false},   {"Qu2O", 0, false}, {"HD", 1, false},
      {"HT", 1, false}, {"Na", 1, false}, {"HA", 2, false},
  };
  for (auto const& row : table) {
    CAPTURE(row.text, row.at);
    CHECK(may_stand_for_unknown(row.text, row.at) == row.meant);
  }
  CHECK(is_unknown("H2A"));
  CHECK(is_unknown("X"));
  CHECK_FALSE(is_unknown("H2O"));
  CHECK_FALSE(is_unknown("sample"));
  CHECK_FALSE(ok(parse_formula("HA")));
  CHECK(pretty_formula("H2A") == "H₂A");
}

TEST_CASE("unknown: a molar mass from a titration, a precipitate, a gas", "[engine][unknown][solver]") {
  // Worked by hand: n by the equation, M = m/n, less the known part of the formula (Cl 35.45, C 12.011, O 15.999 g/mol).
  struct Row {
    char const *text, *answer;
  };
  Row const table[] = {
      {"reaction HA(aq) + NaOH(aq) -> NaA(aq) + H2O(l); given m(HA) = 0.2440 g; given V(NaOH) = 20.00 mL; "
       "given c(NaOH) = 0.1000 mol/L; find M(HA)",
       "122.0 g/mol"},
      {"reaction H2A + NaOH -> Na2A + H2O; given m(H2A) = 0.450 g; given V(NaOH) = 50.0 mL; given c(NaOH) = 0.200 mol/L; "
       "find M(H2A)",
       "90.0 g/mol"},
      {"reaction HX + KOH -> KX + H2O; given c(KOH) = 0.125 mol/L; given V(KOH) = 20.00 mL; given V(HX) = 25.00 mL; find c(HX)",
       "0.100 mol/L"},
      {"reaction M2CO3 + HCl -> MCl + H2O + CO2; given m(M2CO3) = 0.690 g; given V(HCl) = 20.0 mL; "
       "given c(HCl) = 0.500 mol/L; find M(M)",
       "39 g/mol"},  // (138 - 60.008)/2, sure to the unit
      {"reaction M + HCl -> MCl2 + H2; excess HCl; given m(M) = 0.486 g; given V(H2) = 0.480 L; given Vm = 24.0 L/mol; "
       "find M(M)",
       "24.3 g/mol"},
      {"given m(RCOOH) = 0.600 g; given n(RCOOH) = 0.0100 mol; find M(RCOOH)", "60.0 g/mol"},
      {"given M(MCl2) = 111.0 g/mol; given m(MCl2) = 2.00 g; find M(M); find n(MCl2)", "40.1 g/mol"},
  };
  for (auto const& row : table) {
    CAPTURE(row.text);
    CHECK(answer(solved(row.text)) == row.answer);
  }
}

TEST_CASE("unknown: the working says what the unknown part weighs", "[engine][unknown][steps]") {
  auto const worked = solved("reaction MCO3 -> MO + CO2; given m(MCO3) = 2.000 g; given n(CO2) = 0.02000 mol; find M(M)");
  std::string all;
  for (auto const& step : steps(worked, worked.accepted.front(), 0, {})) all += step.text + '\n';
  CHECK(all.find("M(M) = M(MCO₃) − M(C) − 3 × M(O) = 100.0") != std::string::npos);
}

TEST_CASE("unknown: a misspelt element keeps its fault", "[engine][unknown][bad-input]") {
  struct Row {
    char const *text, *shown;
  };
  Row const table[] = {
      // On one side only, and no molar mass asked.
      {"reaction AgNO3 + NaX -> AgCl + NaNO3; given m(NaX) = 1 g; find m(AgCl)",
       "unknown-element\np:1:20: unknown element symbol X, expected an element symbol\n"
       "  reaction AgNO3 + NaX -> AgCl + NaNO3; given m(NaX) = 1 g; find m(AgCl)\n"
       "                     ^"},
      {"given m(NaCL) = 5.8 g; find n(NaCL)",
       "unknown-element\np:1:12: unknown element symbol L, expected an element symbol; did you mean Cl?\n"
       "  given m(NaCL) = 5.8 g; find n(NaCL)\n"
       "             ^"},
      // Printed it would be CA, which reads as calcium typed large.
      {"given m(C1A) = 1 g; given n(C1A) = 1 mol; find M(C1A)",
       "unknown-element\np:1:11: unknown element symbol A, expected an element symbol\n"
       "  given m(C1A) = 1 g; given n(C1A) = 1 mol; find M(C1A)\n"
       "            ^"},
      {"find M(ACl)",
       "unknown-element\np:1:8: unknown element symbol A, expected an element symbol\n"
       "  find M(ACl)\n"
       "         ^"},
      // A letter that means something does not make another one mean something.
      {"given m(MCl2) = 1 g; given n(MCl2) = 0.01 mol; given c(NaJ) = 1 mol/L; find M(MCl2)",
       "unknown-element\np:1:58: unknown element symbol J, expected an element symbol\n"
       "  given m(MCl2) = 1 g; given n(MCl2) = 0.01 mol; given c(NaJ) = 1 mol/L; find M(MCl2)\n"
       "                                                           ^"},
  };
  for (auto const& row : table) {
    CAPTURE(row.text);
    CHECK(refused(row.text) == row.shown);
  }
}
