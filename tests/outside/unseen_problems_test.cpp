// Problems of the first year, typed as different teachers type them (tests/data/unseen_problems.tsv): each was worked apart from
// this program, from its own table of weights, before this program saw it.
#include <catch2/catch.hpp>
#include <fstream>
#include <sstream>
#include <string>
#include <vector>

#include "engine/solver.h"
#include "engine/tsv.h"
#include "engine/unit.h"

using namespace molewright;

namespace {

std::vector<std::string> parted(std::string const& text, std::string const& by) {
  std::vector<std::string> out;
  for (std::size_t at = 0; at <= text.size();) {
    auto const end = std::min(text.size(), text.find(by, at));
    out.push_back(text.substr(at, end - at));
    at = end + by.size();
  }
  return out;
}

/// Whether a problem, which is worked, says so beside its working.
bool warns(std::string const& problem, std::string const& warning) {
  auto const problems = parse_problems("problem p; " + problem);
  REQUIRE(problems.problems.size() == 1);
  auto const result = solve(problems.problems.front(), {});
  auto const* const worked = std::get_if<Worked>(&result);
  REQUIRE(worked);
  return std::find(worked->warnings.begin(), worked->warnings.end(), warning) != worked->warnings.end();
}

/// "1.2388549301E+1 L to 3 figures", or a formula.
struct Wanted {
  std::string text, unit;
  int figures = 0;
  bool number = false;
};

Wanted wanted(std::string text) {
  Wanted out;
  if (auto const to = text.find(" to "); to != std::string::npos) {
    out.figures = std::stoi(text.substr(to + 4));
    text.resize(to);
  }
  auto const blank = text.find(' ');
  out.text = text.substr(0, blank);
  if (blank != std::string::npos) out.unit = text.substr(blank + 1);
  out.number = out.text.find('E') != std::string::npos;
  return out;
}
}  // namespace

TEST_CASE("unseen problems: each comes out as worked apart", "[outside][solver]") {
  std::ifstream file(std::string(MOLEWRIGHT_TEST_DATA) + "/unseen_problems.tsv", std::ios::binary);
  REQUIRE(file.good());
  std::ostringstream read;
  read << file.rdbuf();
  auto const whole = read.str();
  TsvTable const table(whole);
  std::size_t answers = 0;
  for (std::size_t row = 0; row < table.size(); ++row) {
    auto const cell = [&](char const* column) { return std::string(table.cell(row, table.column(column))); };
    CAPTURE(cell("id"), cell("problem"));
    auto const problems = parse_problems("problem p; " + cell("problem"));
    for (auto const& found : problems.faults) FAIL_CHECK(sentence(found.fault));
    if (problems.problems.size() != 1) continue;
    auto const result = solve(problems.problems.front(), {});
    if (auto const* found = std::get_if<PlacedFault>(&result)) FAIL_CHECK(sentence(found->fault));
    if (!std::holds_alternative<Worked>(result)) continue;
    auto const& working = std::get<Worked>(result).accepted.front();
    auto const all = parted(cell("answers"), " | ");
    REQUIRE(all.size() == working.finds.size());
    for (std::size_t f = 0; f < all.size(); ++f) {
      auto const want = wanted(all[f]);
      CAPTURE(all[f], working.finds[f].text);
      ++answers;
      if (!want.number) {
        CHECK(working.finds[f].text == want.text);
        continue;
      }
      auto const& value = working.nodes[static_cast<std::size_t>(working.finds[f].node)].value;
      auto const number = value.number.to_double() * value.unit.factor.to_double();
      auto const expected = std::stod(want.text) * (want.unit.empty() ? 1 : unit(want.unit).factor.to_double());
      // The weights are the same; what is left is the working in floating point.
      CHECK(number == Approx(expected).epsilon(2e-6));
      if (want.figures > 0) CHECK(working.finds[f].figures == want.figures);
    }
  }
  CHECK(answers > 300);
}

TEST_CASE("unseen problems: data without a use that a text may hold stay a note", "[outside][solver]") {
  for (auto const& [problem, idle] : {
           std::pair{"given c(HCl) = 0.0100 mol/L; given V(HCl) = 25.0 mL; find pH", "V(HCl)"},
           {"given m(NaCl) = 5.85 g; given V(NaCl) = 250.0 mL; find n(NaCl)", "V(NaCl)"},
           {"reaction BaCl2 + AgNO3 -> AgCl + Ba(NO3)2; excess AgNO3; given m(BaCl2) = 2.50 g; given V(BaCl2) = 100.0 mL; find "
            "m(AgCl)",
            "V(BaCl2)"},
           {"reaction Zn + HCl -> ZnCl2 + H2; excess HCl; given m(Zn) = 3.27 g; given c(HCl) = 2.0 mol/L; find m(H2)", "c(HCl)"},
           {"given m(NaCl) = 5.85 g; given T = 25 degC; find n(NaCl)", "T"},
           {"given w(NH4NO3) = 20.0 %; given w(K2SO4) = 30.0 %; given m(fertiliser) = 2.00 kg; find m(K2SO4) in g", "w(NH4NO3)"},
           {"given V1(KOH) = 25.0 mL; given V(H2O, added) = 75.0 mL; given V2 = 100.0 mL; given c1 = 1.0 mol/L; find c2",
            "V(H2O, added)"},
       }) {
    CAPTURE(problem);
    CHECK(warns(problem, std::string(idle) + " is given but not needed"));
  }
}

TEST_CASE("unseen problems: what changes no amount is said to change none, and an order that is not clear to be taken as written",
          "[outside][solver]") {
  for (auto const& [problem, says] : {
           // water in the flask, or the dilute acid that an equation needs
           std::pair{
               "reaction H2SO4 + NaOH -> Na2SO4 + H2O; given V(H2SO4) = 10.00 mL; given V(H2O) = 40 mL; given V(NaOH) = 18.30 "
               "mL; given c(NaOH) = 0.2000 mol/L; find c(H2SO4)",
               "V(H2O) is given but not needed: it changes no amount that reacts"},
           {"reaction HCl + NaOH -> NaCl + H2O; given V(HCl) = 5.00 mL; given V(H2O, added) = 45.0 mL; given V(NaOH) = 27.5 mL; "
            "given c(NaOH) = 0.200 mol/L; find c(HCl)",
            "V(H2O, added) is given but not needed: it changes no amount that reacts"},
           {"reaction MnO4^- + Fe^2+ + H^+ -> Mn^2+ + Fe^3+ + H2O; given V(FeSO4) = 25.00 mL; given V(H2SO4) = 10 mL; given "
            "V(KMnO4) = 19.30 mL; given c(KMnO4) = 0.0200 mol/L; find c(FeSO4)",
            "V(H2SO4) is given but not needed: it changes no amount that reacts"},
           // chalk dissolved and water softened: either could be meant first
           {"reaction CaCO3 + CO2 + H2O -> Ca(HCO3)2; reaction Ca(HCO3)2 + Ca(OH)2 -> CaCO3 + H2O; given m(CaCO3) = 2.00 g; find "
            "m(Ca(OH)2)",
            "each of the reactions uses what another one forms: they are taken to run in the order written"},
           {"reaction MnO4^- + Fe^2+ + H^+ -> Mn^2+ + Fe^3+ + H2O; excess H^+; given V(MnO4^-) = 30.50 mL; given c(MnO4^-) = "
            "0.0200 mol/L; given m(ore) = 1.200 g; find w(Fe3O4) in %",
            "all Fe in Fe3O4 is counted, whichever of its ions it is there as"},
       }) {
    CAPTURE(problem);
    CHECK(warns(problem, says));
  }
}

TEST_CASE("unseen problems: what cannot be clear is refused, and no number printed", "[outside][solver]") {
  struct Row {
    char const *problem, *fault, *says;
  };
  for (auto const& [problem, fault, says] : {
           // solutions of which no concentration is told are no gases
           Row{"reaction HCl + NaOH -> NaCl + H2O; given V(HCl) = 50.0 mL; given V(NaOH) = 40.0 mL; find limiting reagent",
               "missing-data", "c(HCl) and c(NaOH)"},
           Row{"reaction AgNO3 + NaCl -> AgCl + NaNO3; given V(AgNO3) = 50.0 mL; given V(NaCl) = 40.0 mL; find limiting reagent",
               "missing-data", "c(AgNO3) and c(NaCl)"},
           Row{"reaction H2SO4 + NaOH -> Na2SO4 + H2O; given V(H2SO4) = 50.0 mL; given V(NaOH) = 100.0 mL; find pH",
               "missing-data", "concentration"},
           Row{"reaction HCl + NaOH -> NaCl + H2O; given V(HCl) = 20.0 mL; given V(NaOH) = 30.0 mL; find V(HCl, left) in mL",
               "missing-data", "V(HCl, left)"},
           Row{"reaction HCl + NaOH -> NaCl + H2O; given V(HCl) = 20.0 mL; find V(NaOH) in mL", "missing-data", "c(NaOH)"},
           Row{"reaction Zn + HCl -> ZnCl2 + H2; given V(HCl) = 50.0 mL; given Vm = 24.0 L/mol; excess Zn; find V(H2) in mL",
               "missing-data", "c(HCl)"},
           // what the aliquot was taken of
           Row{"reaction CaCO3 + 2HCl -> CaCl2 + H2O + CO2; reaction HCl + NaOH -> NaCl + H2O; given m(shell grit) = 2.000 g; "
               "given "
               "V(flask) = 250.0 mL; given V(HCl) = 100.0 mL; given c(HCl) = 0.5000 mol/L; given V(NaOH) = 12.30 mL; given "
               "c(NaOH) = "
               "0.1000 mol/L; given V(aliquot) = 25.00 mL; find w(CaCO3 in shell grit) in %",
               "idle-portion", "V2(HCl, aliquot)"},
           Row{"reaction NaOH + HCl -> NaCl + H2O; given m(NaOH) = 2.00 g; given V(beaker) = 250.0 mL; given V(cylinder) = 25.00 "
               "mL; "
               "given V(HCl) = 20.0 mL; find c(HCl)",
               "idle-given", "V(cylinder)"},
           Row{"reaction NaOH + HCl -> NaCl + H2O; given m(NaOH) = 2.00 g; given V(flask) = 250.0 mL; given V(HCl) = 20.0 mL; "
               "find "
               "c(HCl)",
               "idle-given", "V(solution)"},
           // a purity, a fraction or a pH that no step reads
           Row{"reaction CaCO3 -> CaO + CO2; given m(CaCO3) = 50.0 g; given purity of CaO = 90.0 %; find m(CO2) in g",
               "idle-given", "w(CaO), a purity or a mass fraction,"},
           Row{"given m(NaCl) = 5.00 g; given w(NaCl) = 90.0 %; find n(NaCl)", "idle-given", "w(NaCl)"},
           Row{"reaction Zn + HCl -> ZnCl2 + H2; given m(Zn) = 3.27 g; given w(HCl) = 10.0 %; excess HCl; find m(H2) in g",
               "idle-given", "w(HCl)"},
           Row{"reaction CH3COOH + NaOH -> CH3COONa + H2O; given V(CH3COOH) = 25.0 mL; given pH(CH3COOH) = 2.90; given V(NaOH) = "
               "20.0 "
               "mL; given c(NaOH) = 0.100 mol/L; find c(CH3COOH)",
               "idle-given", "pH(CH3COOH)"},
           Row{"reaction HCl + NaOH -> NaCl + H2O; given pH = 1.00; given V(HCl) = 25.0 mL; given V(NaOH) = 20.0 mL; given "
               "c(NaOH) = "
               "0.100 mol/L; find pH",
               "given-already", "pH is asked"},
           // any other datum that no step reads: the word behind the comma that says what it is of is not known, the order of the
           // reactions hides a yield
           Row{"reaction HCl + NaOH -> NaCl + H2O; given V(HCl) = 10.00 mL; given V(HCl, flask) = 250.0 mL; given V(HCl, "
               "aliquot) = "
               "25.00 mL; given V(NaOH) = 20.00 mL; given c(NaOH) = 0.100 mol/L; find c(HCl)",
               "idle-given", "V(HCl)"},
           Row{"given c(NaOH) = 0.020 mol/L; given V(NaOH) = 50.0 mL; given V(H2O) = 150.0 mL; find pH", "idle-given", "V(NaOH)"},
           Row{"reaction SO3 + H2O -> H2SO4; reaction SO2 + O2 -> SO3; given m(SO2) = 64.0 g; given yield1 = 90.0 %; given "
               "yield2 = "
               "80.0 %; find m(H2SO4) in g",
               "unclear-order", "in the order in which they run"},
           Row{"given V(CO2) = 500.0 mL; given Vm = 24.0 L/mol; given T = 25 degC; given p = 101.3 kPa; find m(CO2) in g",
               "contradiction", "Vm"},
           Row{"given m(CoCl2·6H2O) = 4.76 g; given m(residue) = 2.60 g; find w(H2O) in %", "idle-given", "m(residue)"},
           // one yield, two products
           Row{"reaction C6H12O6 -> C2H5OH + CO2; given m(C6H12O6) = 90.0 g; given yield = 80.0 %; find m(CO2) in g; find "
               "m(C2H5OH) "
               "in g",
               "yield-of-another", "m(CO2)"},
           Row{"reaction N2 + H2 -> NH3; given m(N2) = 28.0 g; given m(H2) = 10.0 g; given yield = 15 %; find m(NH3) in g; find "
               "m(N2, left) in g",
               "yield-of-another", "m(N2, left)"},
           // what may not be neglected, or is not worked
           Row{"given Ksp(PbCl2) = 1.7e-5; given c(NaCl) = 0.010 mol/L; find s(PbCl2) in mol/L", "not-negligible", "c(Cl^-)"},
           Row{"given m(CuSO4·5H2O) = 25.0 g; given m(H2O) = 100.0 g; find b(CuSO4) in mol/kg", "crystal-water", "CuSO4·5H2O"},
           Row{"given b(MgCl2) = 0.500 mol/kg; given m(H2O) = 500 g; find m(MgCl2·6H2O) in g", "crystal-water", "MgCl2·6H2O"},
           Row{"given m(CuSO4·5H2O) = 25.0 g; given m(solution) = 125 g; find b(Cu^2+) in mol/kg", "missing-data", "b(Cu^2+)"},
           Row{"given m(CuSO4·5H2O) = 5.00 g; given m(CuSO4) = 3.20 g; given m(H2O) = 1.80 g; find w(H2O) in %", "crystal-water",
               "CuSO4·5H2O"},
           // water of a sample is no water that was added
           Row{"reaction Cl2 + I^- -> Cl^- + I2; reaction I2 + S2O3^2- -> I^- + S4O6^2-; given V(S2O3^2-) = 20.00 mL; given "
               "c(S2O3^2-) = 0.1000 mol/L; given V(water) = 500 mL; find gamma(Cl2) in mg/L",
               "idle-given", "V(H2O)"},
           // what is left after the one reaction or after the other
           Row{"reaction NaOH + HCl -> NaCl + H2O; reaction Mg(OH)2 + HCl -> MgCl2 + H2O; given c(HCl) = 0.500 mol/L; given "
               "V(HCl) = 40.0 mL; given V(NaOH) = 16.4 mL; given c(NaOH) = 0.250 mol/L; find n(HCl, left)",
               "unclear-order", "which of the two reactions"},
           // more than a reader of the text would leave out
           Row{"reaction MnO4^- + Fe^2+ + H^+ -> Mn^2+ + Fe^3+ + H2O; excess H^+; given V(tap water) = 25.0 mL; given V(well "
               "water) = "
               "10.0 mL; given V(MnO4^-) = 20.0 mL; given c(MnO4^-) = 0.0200 mol/L; find c(Fe^2+)",
               "idle-given", "V("},
       }) {
    CAPTURE(problem);
    auto const problems = parse_problems(std::string("problem p; ") + problem);
    REQUIRE(problems.problems.size() == 1);
    auto const result = solve(problems.problems.front(), {});
    auto const* const found = std::get_if<PlacedFault>(&result);
    CHECK(found);
    if (!found) continue;
    CHECK(found->fault.id == fault);
    CHECK((found->fault.what + ", " + found->fault.expected).find(says) != std::string::npos);
  }
}
