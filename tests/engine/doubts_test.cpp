// What can be worked but would not be met at the bench.
#include "engine/doubts.h"

#include <catch2/catch.hpp>
#include <string>

#include "engine/solver.h"

using namespace molewright;

TEST_CASE("doubts: states and solubilities that the table contradicts", "[engine][solver]") {
  struct Row {
    char const *problem, *said;  ///< a part of one of the notes; empty: nothing is in doubt
  };
  // Solubilities at 20 °C: the table's (CRC Handbook), NaOH 85.2 g in 100 g of water, NaCl 35.9 g.
  Row const table[] = {
      {"reaction CuSO4(aq) + NaOH(aq) -> Cu(OH)2(aq) + Na2SO4(aq)\ngiven m(NaOH) = 1.00 g\nfind m(Cu(OH)2)",
       "Cu(OH)2 is written (aq), but it hardly dissolves in water"},
      {"reaction CuSO4(aq) + NaOH(aq) -> Cu(OH)2(s) + Na2SO4(s)\ngiven m(NaOH) = 1.00 g\nfind m(Cu(OH)2)",
       "Na2SO4 is written (s), but it dissolves in water"},
      {"reaction CuSO4(aq) + NaOH(aq) -> Cu(OH)2(s) + Na2SO4(aq)\ngiven m(NaOH) = 1.00 g\nfind m(Cu(OH)2)", ""},
      {"reaction Na(s) + Cl2(g) -> NaCl(s)\ngiven m(Na) = 1.00 g\nfind m(NaCl)", ""},  // no water there
      {"given c(NaCl) = 9.00 mol/L\ngiven V(NaCl) = 25.0 mL\nfind n(NaCl)", "c(NaCl) would need 52.6 g of NaCl in 100 mL"},
      {"given m(NaCl) = 50.0 g\ngiven V(NaCl) = 50.0 mL\nfind gamma(NaCl)", "gamma(NaCl) would need 100 g of NaCl in 100 mL"},
      {"given Ksp(AgCl) = 1.8e-10\ngiven c(NaCl) = 0.100 mol/L\nfind s(AgCl)", "what AgCl itself adds to c(Cl^-) is neglected"},
      {"given Ksp(AgCl) = 1.8e-10\nfind s(AgCl)", ""},
      {"reaction Cu + HCl -> CuCl2 + H2\ngiven m(Cu) = 1.00 g\nfind m(H2)", "Cu stands below hydrogen in the activity series"},
      {"reaction NaOH + HCl -> NaCl + H2O\ngiven V(NaOH) = 25.0 mL\ngiven V(HCl) = mean of 20.1 | 25.3 mL\n"
       "given c(HCl) = 0.100 mol/L\nfind c(NaOH)",
       "the readings of V(HCl) are up to 5.2 mL apart"},
      {"reaction N2 + 3H2 -> 2NH3\ngiven m(N2) = 1.00 g\ngiven m(NH3, actual) = 2.00 g\nfind yield(NH3)",
       "yield(NH3) is above 100 %"},
      // No number stands in the table for it: a saturated solution holds about 0.02 mol/L (from memory).
      {"given c(Ca(OH)2) = 1.0 mol/L\ngiven V(Ca(OH)2) = 0.100 L\nfind n(Ca(OH)2)",
       "c(Ca(OH)2) would be 1 mol/L, but Ca(OH)2 dissolves to less than 0.1 mol/L at 20 °C"},
      {"given c(Ca(OH)2) = 0.015 mol/L\ngiven V(Ca(OH)2) = 0.100 L\nfind n(Ca(OH)2)", ""},
      {"given c(NaCl) = 5.00 mol/L\ngiven V(NaCl) = 25.0 mL\nfind n(NaCl)", ""},
  };
  for (auto const& row : table) {
    CAPTURE(row.problem);
    auto const file = parse_problems(std::string("problem p\n") + row.problem + "\n");
    REQUIRE(file.problems.size() == 1);
    auto const result = solve(file.problems.front(), {});
    REQUIRE(std::holds_alternative<Worked>(result));
    auto const& worked = std::get<Worked>(result);
    auto const found = doubts(worked.problem, worked.accepted.front());
    std::string all;
    for (auto const& doubt : found) all += doubt + '\n';
    CAPTURE(all);
    if (std::string(row.said).empty())
      CHECK(found.empty());
    else
      CHECK(all.find(row.said) != std::string::npos);
  }
}
