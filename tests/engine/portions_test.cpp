// How much of what: portions of two solutions, dilution factors, traces, what is weighed in a vessel, a multiple of a formula.
#include "engine/network.h"
#include "engine/relation_table.h"
#include "engine/steps.h"
#include "tests/engine/problem_text.h"

using namespace molewright;
using test::answer;
using test::refused;
using test::solved;

namespace {
struct Row {
  char const *text, *answer;
};
void check(std::initializer_list<Row> table) {
  for (auto const& row : table) {
    CAPTURE(row.text);
    CHECK(answer(solved(row.text)) == row.answer);
  }
}
}  // namespace

TEST_CASE("portions: of two solutions that make a third", "[engine][solver][mixing]") {
  // By hand: V1 : V2 = (c3 - c2) : (c1 - c3).
  check({
      {"given c1(HCl) = 2.00 mol/L; given c2(HCl) = 0.500 mol/L; given V2 = 100.0 mL; given c3 = 1.000 mol/L; mix 1 + 2 -> 3; "
       "find V1",
       "50.0 mL"},
      {"given c1(HCl) = 0.500 mol/L; given c2(HCl) = 2.00 mol/L; given V1 = 100.0 mL; given c3 = 1.000 mol/L; mix 1 + 2 -> 3; "
       "find V2",
       "50.0 mL"},
      {"given c1(HCl) = 2.00 mol/L; given c2(HCl) = 500.0 mmol/L; given V3 = 300.0 mL; given c3 = 1.000 mol/L; "
       "mix 1 + 2 -> 3; find V2",
       "2.00e2 mL"},
      {"given w1(NaCl) = 25.0 %; given w2(NaCl) = 5.0 %; given w3(NaCl) = 10.0 %; given m3(solution) = 400.0 g; "
       "mix 1 + 2 -> 3; find m1(solution)",
       "1.0e2 g"},  // two figures: 10.0 - 5.0 is 5.0
  });
  // A third that does not lie between them cannot be made.
  CHECK(refused("given c1(HCl) = 2.00 mol/L; given c2(HCl) = 0.500 mol/L; given V2 = 100.0 mL; given c3 = 3.000 mol/L; "
                "mix 1 + 2 -> 3; find V1")
            .substr(0, 12) == "not-positive");
  auto const worked = solved(
      "given c1(HCl) = 2.00 mol/L; given c2(HCl) = 0.500 mol/L; given V2 = 100.0 mL; given c3 = 1.000 mol/L; mix 1 + 2 -> 3; "
      "find V1");
  CHECK(steps(worked, worked.accepted.front(), 0, {}).front().text.find("Δc₃₂(HCl) = c₃(HCl) − c₂(HCl) = 1.000") == 0);
}

TEST_CASE("portions: the dilution factor, asked and given", "[engine][solver][dilution]") {
  check({
      {"given c1(HCl) = 2.00 mol/L; given c2(HCl) = 0.100 mol/L; find V2/V1", "20.0"},
      {"given c1(HCl) = 2.00 mol/L; given c2(HCl) = 0.100 mol/L; find c1/c2", "20.0"},
      {"given V1(HCl) = 10.0 mL; given V2(HCl) = 0.2500 L; find the dilution factor", "25.0"},
      {"given c1(HCl) = 2.00 mol/L; given dilution factor = 25.0; find c2(HCl)", "0.0800 mol/L"},
      {"given V2(HCl)/V1(HCl) = 25.0; given V2(HCl) = 250.0 mL; find V1(HCl)", "10.0 mL"},
      {"given c1(KCl) = 0.200 mol/L; given V1(KCl) = 500.0 mL; given c2(KCl) = 0.500 mol/L; evaporate 1 -> 2; "
       "find V(H2O, evaporated)",
       "3.00e2 mL"},
  });
  CHECK(refused("given V1(HCl) = 10.0 mL; given V2(HCl) = 0.2500 L; find V1/V2").substr(0, 13) == "bad-statement");
  auto const problem = test::read_problem("given c1(HCl) = 2.00 mol/L; given dilution factor = 25.0; find c2(HCl)");
  CHECK(print(problem).find("given dilution factor = 25.0\n") != std::string::npos);
  CHECK(print(test::read_problem("given c1(HCl) = 1 mol/L; given V2/V1 = 5; find c2(HCl)")).find("given V2/V1 = 5\n") !=
        std::string::npos);
}

TEST_CASE("portions: traces in water", "[engine][solver]") {
  // By hand: with 1 g/mL, 1 ppm is 1 mg/L. A(Ca) = 40.078, A(F) = 18.998 (IUPAC abridged weights).
  check({
      {"given m(NaF) = 2.50 mg; given V(solution) = 1.250 L; find gamma(NaF) in ppm", "2.00 ppm"},
      {"given c(Ca^2+) = 2.00 mmol/L; find w(Ca^2+) in ppm", "80.2 ppm"},
      {"given w(F^-) = 1.50 ppm; given V(water) = 200.0 L; find m(F^-) in mg", "3.00e2 mg"},
      {"given w(F^-) = 1.50 ppm; given V(water) = 200.0 L; given rho(solution) = 1.02 g/mL; find m(F^-) in mg", "306 mg"},
      {"given w(NaClO) = 5.00 %; given rho(bleach) = 1.07 g/mL; find gamma(NaClO)", "53.5 g/L"},
  });
  auto const worked = solved("given m(NaF) = 2.50 mg; given V(solution) = 1.250 L; find w(NaF) in ppm");
  REQUIRE(test::node_named(worked.accepted.front(), "rho(solution)") != nullptr);
  CHECK(test::node_named(worked.accepted.front(), "rho(solution)")->relation == relations::density_of_water);
}

TEST_CASE("portions: what is weighed in a vessel", "[engine][solver][hydrate]") {
  // By hand: 1.597 g of CuSO4 (159.602 g/mol) is 0.01001 mol, 0.900 g of water (18.015 g/mol) 0.04996 mol.
  check({
      {"given m(crucible) = 21.345 g; given m(crucible + hydrate) = 23.842 g; given m(crucible + residue) = 22.942 g; "
       "find formula of the hydrate of CuSO4",
       "CuSO4·5H2O"},
      {"given m(crucible and lid) = 21.345 g; given m(crucible and lid with CuSO4·xH2O) = 23.842 g; "
       "given m(CuSO4 + crucible + lid) = 22.942 g; find x",
       "CuSO4·5H2O"},
      {"given m(empty crucible) = 21.345 g; given m(crucible + hydrate) = 23.842 g; given m(crucible + residue) = 22.942 g; "
       "find w(H2O in hydrate) in %",
       "36.0 %"},
      {"given m(beaker) = 50.25 g; given m(beaker + NaCl) = 56.094 g; given V(solution) = 500.0 mL; find c(NaCl)", "0.200 mol/L"},
      {"given m(hydrated BaCl2) = 2.443 g; given m(anhydrous BaCl2) = 2.082 g; find formula of the hydrate", "BaCl2·2H2O"},
  });
  auto const worked = solved("given m(beaker) = 50.25 g; given m(beaker + NaCl) = 56.10 g; find n(NaCl)");
  auto const* const node = test::node_named(worked.accepted.front(), "m(NaCl)");
  REQUIRE(node != nullptr);
  CHECK(node->relation == RelationForm("m(together) = m(vessel) + m(contents)"));
  auto const again = print(worked.problem);
  CHECK(again.find("given m(NaCl, with beaker) = 56.10 g") != std::string::npos);
  CHECK(answer(solved(again)) == answer(worked));
  CHECK(!refused("given m( + beaker) = 5 g; find n(NaCl)").empty());
}

TEST_CASE("portions: a molecular formula from a given empirical one", "[engine][solver][formula]") {
  // Wholes of the molar mass over that of the empirical formula, by hand.
  check({
      {"given empirical formula(X) = CH2O; given M(X) = 180.2 g/mol; find molecular formula", "C6H12O6"},
      {"given the empirical formula of the gas = NO2; given M(X) = 92.0 g/mol; find molecular formula", "N2O4"},
      {"given empirical formula = SiCl3; given M(X) = 268.9 g/mol; find molecular formula", "Si2Cl6"},
  });
  auto const problem = test::read_problem("given empirical formula of X = CH2O; given M(X) = 60 g/mol; find molecular formula");
  CHECK(problem.empirical == "CH2O");
  CHECK(print(problem).find("given empirical formula = CH2O\n") != std::string::npos);
  CHECK(refused("given empirical formula = CH2O; given empirical formula = CH; find molecular formula").substr(0, 13) ==
        "bad-statement");
  CHECK(refused("given empirical formula = CHX; given M(X) = 5 g/mol; given m(X) = 5 g; find molecular formula").substr(0, 15) ==
        "unknown-element");
  CHECK(refused("given empirical formula CH2O; find molecular formula").substr(0, 13) == "bad-statement");
}

TEST_CASE("portions: a back titration whose excess one equation shows as an ion", "[engine][solver][titration]") {
  // By hand: 10.00 - 4.00 mmol of hydroxide drove out 6.00 mmol of ammonia; N is 14.007 g/mol.
  auto const worked = solved(
      "reaction NH4^+ + OH^- -> NH3 + H2O; reaction HCl + NaOH -> NaCl + H2O; given m(fertiliser) = 0.4000 g; "
      "given V(NaOH) = 50.00 mL; given c(NaOH) = 0.2000 mol/L; given V(HCl) = 40.00 mL; given c(HCl) = 0.1000 mol/L; "
      "find w(N in fertiliser) in %");
  CHECK(answer(worked) == "21.0 %");
}

TEST_CASE("portions: the share of a titrated solution is of that solution alone", "[engine][solver][titration]") {
  // By hand: 4.20 mmol of 60.052 g/mol in 5.00 mL of 1.01 g/mL.
  CHECK(answer(solved("reaction CH3COOH + NaOH -> CH3COONa + H2O; given V(CH3COOH) = 5.00 mL; given V(NaOH) = 42.0 mL; "
                      "given c(NaOH) = 0.100 mol/L; given rho(vinegar) = 1.01 g/mL; find w(CH3COOH) in %")) == "4.99 %");
}

TEST_CASE("portions: partial pressures add up", "[engine][solver][gas]") {
  CHECK(answer(solved("given p(O2) = 20.0 kPa; given p(N2) = 60.0 kPa; given p(CO2) = 5.0 kPa; find p(total)")) == "85.0 kPa");
}

TEST_CASE("portions: the same substance twice is no contradiction", "[engine][solver]") {
  // By hand, with the abridged weights. Water that is warmed is not the water that the combustion forms; what a solubility
  // product says holds after the precipitation; each reactant has a purity of its own.
  struct Several {
    char const* text;
    std::vector<std::string> answers;
  };
  Several const table[] = {
      // 0.520/46.069 mol x 1367 kJ/mol = 15.43 kJ; 15430 J/(300 g x 4.184 J/(g K)) = 12.29 K
      {"reaction C2H5OH(l) + O2(g) -> CO2(g) + H2O(l); given dH(C2H5OH) = -1367 kJ/mol; given m(C2H5OH) = 0.520 g; "
       "given m(H2O) = 300.0 g; given cp(H2O) = 4.184 J/(g K); find q in kJ; find dT in K",
       {"15.4 kJ", "12.3 K"}},
      // (50.0 - 25.0) x 0.100 mmol / 75.0 mL = 0.0333 mol/L; 1.8e-10/0.0333 = 5.4e-9
      {"reaction AgNO3 + NaCl -> AgCl + NaNO3; given V(AgNO3) = 25.0 mL; given c(AgNO3) = 0.100 mol/L; given V(NaCl) = 50.0 mL; "
       "given c(NaCl) = 0.100 mol/L; given Ksp(AgCl) = 1.8e-10; find c(Cl^-, left); find c(Ag^+)",
       {"0.0333 mol/L", "5.4e-9 mol/L"}},
      // the other salt left: (5.00 - 2.50) mmol / 75.0 mL
      {"reaction AgNO3 + NaCl -> AgCl + NaNO3; given V(AgNO3) = 50.0 mL; given c(AgNO3) = 0.100 mol/L; given V(NaCl) = 25.0 mL; "
       "given c(NaCl) = 0.100 mol/L; given Ksp(AgCl) = 1.8e-10; find c(Cl^-); find c(Ag^+, left)",
       {"5.4e-9 mol/L", "0.0333 mol/L"}},
      {"given Ksp(AgCl) = 1.8e-10; given Ksp(AgBr) = 5.4e-13; given c(Cl^-) = 0.10 mol/L; find c(Ag^+)", {"1.8e-9 mol/L"}},
      {"given Ksp(AgCl) = 1.8e-10; given Ksp(AgBr) = 5.4e-13; find s(AgCl); find s(AgBr)", {"1.3e-5 mol/L", "7.3e-7 mol/L"}},
      // 0.980 x 7.00 g / 55.845 g/mol = 0.12284 mol of Fe, less than 0.900 x 5.00 g / 32.06 g/mol of S; x 87.905 g/mol
      {"reaction Fe + S -> FeS; given m(Fe) = 7.00 g; given m(S) = 5.00 g; given w(Fe) = 98.0 %; given w(S) = 90.0 %; "
       "find m(FeS)",
       {"10.8 g"}},
  };
  for (auto const& row : table) {
    CAPTURE(row.text);
    auto const worked = solved(row.text);
    for (std::size_t f = 0; f < row.answers.size(); ++f) CHECK(answer(worked, f) == row.answers[f]);
  }
  // The share that a product is to have is none of the ore's.
  CHECK(
      refused("reaction FeS2 + O2 -> Fe2O3 + SO2; given m(ore) = 1.00 t; given w(FeS2) = 45 %; given w(SO2) = 98 %; find m(SO2)")
          .substr(0, 10) == "idle-given");
}

TEST_CASE("portions: what is found alone is found beside another", "[engine][solver]") {
  // By hand. FeCl3: 1.00 x 10.0/250.0 = 0.0400, three Cl^- each. Mg2P2O7: M = 222.551; 2 x 30.974/222.551 x 0.1875/0.5000 =
  // 0.10438, 141.943/222.551 x 0.1875/0.5000 = 0.23917. Iron by permanganate: 5 x 0.0200 x 0.03050 = 0.00305 mol; x 55.845/1.200
  // = 0.14194; 0.00305/2 x 159.687/1.200 = 0.20294.
  struct Several {
    char const *text, *first, *second;
  };
  Several const table[] = {
      {"given c1(FeCl3) = 1.00 mol/L; given V1(FeCl3) = 10.0 mL; given V2(FeCl3) = 250.0 mL; find c2(FeCl3); find c2(Cl^-)",
       "0.0400 mol/L", "0.120 mol/L"},
      {"given c1(FeCl3) = 1.00 mol/L; given dilution factor = 20.0; given V2(FeCl3) = 250.0 mL; find V1(FeCl3); find c2(Cl^-)",
       "12.5 mL", "0.150 mol/L"},
      {"given m(Mg2P2O7) = 0.1875 g; given m(fertiliser) = 0.5000 g; find w(P in fertiliser) in %; "
       "find w(P2O5 in fertiliser) in %",
       "10.44 %", "23.92 %"},
      {"reaction Fe^3+ + Zn -> Fe^2+ + Zn^2+; reaction MnO4^- + Fe^2+ + H^+ -> Mn^2+ + Fe^3+ + H2O; excess Zn, H^+; "
       "given m(ore) = 1.200 g; given V(MnO4^-) = 30.50 mL; given c(MnO4^-) = 0.0200 mol/L; find w(Fe in ore) in %; "
       "find w(Fe2O3 in ore) in %",
       "14.2 %", "20.3 %"},
  };
  for (auto const& row : table) {
    CAPTURE(row.text);
    auto const worked = solved(row.text);
    CHECK(answer(worked, 0) == row.first);
    CHECK(answer(worked, 1) == row.second);
  }
}
