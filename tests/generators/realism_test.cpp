// Whether numbers could stand in a school laboratory.
#include "generators/realism.h"

#include <algorithm>
#include <catch2/catch.hpp>
#include <cmath>
#include <string>

#include "engine/substance.h"
#include "generators/question_maker.h"
#include "generators/template.h"

using namespace molewright;

namespace {
Worked worked(std::string const& text) {
  auto const file = parse_problems(text);
  for (auto const& fault : file.faults) INFO(show(fault, "test"));
  REQUIRE(file.problems.size() == 1);
  auto const result = solve(file.problems.front(), {});
  if (auto const* fault = std::get_if<PlacedFault>(&result)) FAIL(sentence(fault->fault));
  return std::get<Worked>(result);
}
/// Id of the first limit that the problem breaks.
std::string broken(std::string const& text) {
  Worked const done = worked(text);
  auto const limits = limits_of(done);
  Working const& working = done.accepted.front();
  int const index = first_broken(
      limits, working, [&](int node) { return working.nodes[static_cast<std::size_t>(node)].value.number.to_double(); });
  return index < 0 ? "" : limits[static_cast<std::size_t>(index)].id;
}
}  // namespace

TEST_CASE("realism: what a school can and cannot do", "[generators][realism]") {
  struct Case {
    std::string problem, broken, why;
  };
  auto const c = GENERATE(values<Case>({
      {"given V(KNO3) = 25.5 mL; given c(KNO3) = 0.155 mol/L; find n(KNO3) in mol", "", "usual"},
      {"given V(K2SO4) = 25.0 mL; given c(K2SO4) = 0.455 mol/L; find n(K2SO4) in mol", "solubility",
       "11.05 g in 100 g of water at 20 degC (CRC): half is 0.317 mol/L"},
      {"given V(K2SO4) = 25.5 mL; given c(K2SO4) = 0.305 mol/L; find n(K2SO4) in mol", "", "just under half"},
      {"given gamma(NaHCO3) = 49.5 g/L; given V(NaHCO3) = 250 mL; find m(NaHCO3) in g", "solubility",
       "9.6 g in 100 g of water at 20 degC (CRC): half is 48 g/L"},
      {"given gamma(NaHCO3) = 45.5 g/L; given V(NaHCO3) = 250 mL; find m(NaHCO3) in g", "", "just under half"},
      {"given V(NaOH) = 25.0 mL; given c(NaOH) = 2.55 mol/L; find n(NaOH) in mol", "school-limit", "1 mol/L is common practice"},
      {"given m(NaCl) = 0.55 g; find n(NaCl) in mol", "too-light-to-weigh", "under 1.00 g on a balance that shows 0.01 g"},
      {"given m(NaCl) = 0.155 g; find n(NaCl) in mol", "", "over 0.100 g at 0.001 g"},
      {"given m(NaCl) = 0.055 g; find n(NaCl) in mol", "too-light-to-weigh", "under 0.100 g at 0.001 g"},
      {"given n(NaCl) = 0.00105 mol; find m(NaCl) in g", "too-light-to-weigh", "0.061 g of a product"},
      {"given V(KCl) = 125.55 mL; given c(KCl) = 0.155 mol/L; find n(KCl) in mol", "measured-volume",
       "two decimals mean a burette or pipette"},
      {"given c1(KCl) = 0.455 mol/L; given V1(KCl) = 25.00 mL; given V2(KCl) = 250.0 mL; find c2(KCl)", "", "pipette and flask"},
      {"given c1(KCl) = 0.455 mol/L; given V1(KCl) = 15.00 mL; given V2(KCl) = 250.0 mL; find c2(KCl)", "pipette",
       "no 15 mL pipette"},
      {"given c1(KCl) = 0.455 mol/L; given V1(KCl) = 15.0 mL; given V2(KCl) = 250.0 mL; find c2(KCl)", "",
       "from a burette or cylinder"},
      {"given c1(KCl) = 0.455 mol/L; given V1(KCl) = 25.00 mL; given V2(KCl) = 300.0 mL; find c2(KCl)", "flask",
       "no 300 mL flask"},
      {"reaction Mg(s) + HCl(aq) -> MgCl2(aq) + H2(g); given m(Mg) = 4.86 g; given Vm = 24.0 L/mol; find V(H2) in L", "",
       "gases stand in balloons and cylinders"},
      {"reaction Mg(s) + HCl(aq) -> MgCl2(aq) + H2(g); given m(Mg) = 4.86 g; given c(HCl) = 0.100 mol/L; find V(HCl) in mL",
       "measured-volume", "4 L of acid"},
      {"reaction CuSO4(aq) + NaOH(aq) -> Cu(OH)2(s) + Na2SO4(aq); given n(CuSO4) = 9.69 mmol; given n(NaOH) = 19.38 mmol; find "
       "limiting reagent; find m(Cu(OH)2) in g",
       "both-limit", "used up together"},
      {"reaction CuSO4(aq) + NaOH(aq) -> Cu(OH)2(s) + Na2SO4(aq); given n(CuSO4) = 9.69 mmol; given n(NaOH) = 19.18 mmol; find "
       "limiting reagent; find m(Cu(OH)2) in g",
       "", "1.03 % apart"},
      {"given V(KNO3) = 0.025 mL; given c(KNO3) = 0.155 mol/L; find n(KNO3) in mol", "measured-volume", "half a drop"},
      {"given n(KNO3) = 0.155 mol; find N(KNO3)", "", "a number of particles may be any"},
      {"given V(KNO3) = 1.00 mL; given c(KNO3) = 0.0155 mol/L; find n(KNO3) in mol", "answer-range", "1.55e-5 mol"},
      {"given n(NaCl) = 0.00105 mol; find m(NaCl) in mg", "", "61 mg is reckoned, not weighed"},
      {"given V(KNO3) = 250 L; given c(KNO3) = 0.0100 mol/L; find m(KNO3) in g", "", "a tank"},
      {"given w(HCl) = 37.0 %; given rho(solution) = 1.18 g/mL; find c(HCl) in mol/L", "", "as it is sold: 12 mol/L"},
      {"given c1(HCl) = 12.0 mol/L; given c2(HCl) = 0.500 mol/L; given V2(HCl) = 250.0 mL; find V1(HCl) in mL", "",
       "a bought stock that is diluted"},
      {"given c1(HCl) = 12.0 mol/L; given c2(HCl) = 2.50 mol/L; given V2(HCl) = 250.0 mL; find V1(HCl) in mL", "school-limit",
       "what comes of it is for students"},
      {"given c(HCl) = 5.05 mol/L; given V(HCl) = 25.5 mL; find n(HCl) in mol", "school-limit", "no dilution"},
      {"given V(KNO3) = 50.0 mL; given c(KNO3) = 0.125 mol/L; find n(KNO3) in mol to 2 figures", "rounding-tie",
       "0.00625 to two figures"},
  }));
  CAPTURE(c.problem, c.why);
  CHECK(broken(c.problem) == c.broken);
}

TEST_CASE("realism: what dissolves and what does not", "[generators][realism]") {
  CHECK(chemistry_faults(worked("reaction CaCl2(aq) + Na2CO3(aq) -> CaCO3(s) + NaCl(aq); given n(CaCl2) = 0.0155 mol; excess "
                                "Na2CO3; find m(CaCO3)"))
            .empty());
  auto const soluble = chemistry_faults(worked(
      "reaction CaCl2(aq) + Na2SO4(aq) -> CaSO4(s) + NaCl(aq); given n(CaCl2) = 0.0155 mol; excess Na2SO4; find m(CaSO4)"));
  REQUIRE(soluble.size() == 1);
  CHECK(soluble.front() == "CaSO₄ does not fall out as a solid");
  auto const solid = chemistry_faults(worked("given V(BaSO4) = 25.0 mL; given c(BaSO4) = 0.155 mol/L; find n(BaSO4)"));
  REQUIRE(solid.size() == 1);
  CHECK(solid.front() == "BaSO₄ does not dissolve well");
}

TEST_CASE("realism: every set holds what it says", "[generators][realism]") {
  for (NamedSet const& set : named_sets()) {
    for (auto const& row : set.rows) {
      CAPTURE(set.name, row.front());
      REQUIRE(row.size() == set.columns.size());
      if (set.name == "precipitation") {
        auto const equation = parse_equation(row[0]);
        REQUIRE(ok(equation));
        CHECK(ok(balanced(value(equation))));
        REQUIRE(solubility(row[3]) != nullptr);
        CHECK(solubility(row[3])->verdict == Solubility::Verdict::insoluble);
        for (std::size_t dissolved : {1U, 2U, 4U}) {
          REQUIRE(solubility(row[dissolved]) != nullptr);
          CHECK(solubility(row[dissolved])->verdict == Solubility::Verdict::soluble);
        }
        for (std::string const& substance : {row[1], row[2], row[3]}) CHECK_FALSE(name_of(substance).empty());
      } else {
        auto const formula = parse_formula(row.front());
        REQUIRE(ok(formula));
        CHECK_FALSE(name_of(row.front()).empty());
        REQUIRE(solubility(row.front()) != nullptr);
        CHECK(solubility(row.front())->verdict == Solubility::Verdict::soluble);
        CHECK(value(formula).hydrate() == (set.name.find("hydrate") != std::string::npos));
      }
    }
  }
}
