// Hints: what is said of each step before it is worked.
#include "engine/hint.h"

#include "tests/engine/problem_text.h"

using namespace molewright;
using test::solved;

namespace {
/// Words and formula of every step, a line each.
std::string hints(std::string const& text, Conventions const& conventions = {}) {
  auto const worked = solved(text, conventions);
  auto const& working = worked.accepted.front();
  std::string out;
  for (auto const& step : steps(worked, working, 0, conventions)) {
    auto const said = hint(worked, working, step.node, conventions);
    out += said.words + " | " + said.formula + '\n';
  }
  return out;
}

struct Row {
  char const *text, *lines;
};
}  // namespace

TEST_CASE("hint: the relation of every step, then its symbols, never a number of the question", "[engine][hint]") {
  Row const table[] = {
      {"reaction BaCl2 + AgNO3 -> AgCl + Ba(NO3)2; given V(BaCl2) = 40.0 mL; given c(BaCl2) = 0.150 mol/L; excess AgNO3; find "
       "m(AgCl)",
       "Next: change V(BaCl₂) from mL to L. Think first whether the number should become larger or smaller. | 1 L is 1000 mL\n"
       "Next: find n(BaCl₂) in mol. Amount, concentration and volume belong together: n = c × V, with the volume in litres. | "
       "n(BaCl₂) = c(BaCl₂) × V(BaCl₂)\n"
       "Next: find n(AgCl) in mol. The numbers before the formulas in the equation give the mole ratio. | n(AgCl) = n(BaCl₂) × "
       "ν(AgCl) / ν(BaCl₂)\n"
       "Next: find M(AgCl) in g/mol. Add the atomic weights of all the atoms in the formula, each as often as it occurs. | "
       "M(AgCl) = A(Ag) + A(Cl)\n"
       "Next: find m(AgCl) in g. Amount, mass and molar mass belong together: n = m/M. | m(AgCl) = n(AgCl) × M(AgCl)\n"},
      {"reaction Mg + HCl -> MgCl2 + H2; given n(Mg) = 0.0200 mol; given n(HCl) = 0.0300 mol; find limiting reagent",
       "Next: find n(Mg) / ν(Mg) in mol. Divide the amount by the number before its formula in the equation. | \n"
       "Next: find n(HCl) / ν(HCl) in mol. Divide the amount by the number before its formula in the equation. | \n"
       "Next: find out which reactant runs out first. Compare n/ν of the reactants: the smallest runs out first. | \n"},
      {"given c(H^+) = 0.00120 mol/L; find pH",
       "Next: find pH. A pH or pOH is the logarithm of the concentration with the sign turned: pX = −lg c(X), and the other way "
       "round c(X) = 10^(−pX). | pH = −lg c(H⁺)\n"},
      {"given n(Ca(NO3)2·4H2O) = 0.100 mol; find m(Ca(NO3)2·4H2O)",
       "Next: find M(Ca(NO₃)₂·4H₂O) in g/mol. Add the atomic weights of all the atoms in the formula, each as often as it "
       "occurs. | M(Ca(NO₃)₂·4H₂O) = A(Ca) + 2 × (A(N) + 3 × A(O)) + 4 × (2 × A(H) + A(O))\n"
       "Next: find m(Ca(NO₃)₂·4H₂O) in g. Amount, mass and molar mass belong together: n = m/M. | m(Ca(NO₃)₂·4H₂O) = "
       "n(Ca(NO₃)₂·4H₂O) × M(Ca(NO₃)₂·4H₂O)\n"},
  };
  for (auto const& row : table) {
    INFO(row.text);
    CHECK(hints(row.text) == row.lines);
  }
}

TEST_CASE("hint: units as the course prints them", "[engine][hint]") {
  Conventions conventions;
  conventions.volume_unit = "cm3";
  CHECK(hints("given V(KOH) = 25.0 mL; given c(KOH) = 0.100 mol/L; find n(KOH)", conventions).find("| 1 dm³ is 1000 cm³\n") !=
        std::string::npos);
}
