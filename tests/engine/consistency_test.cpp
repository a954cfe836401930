// Data that contradict each other, and exchanges that do not happen.
#include "engine/consistency.h"

#include "tests/engine/problem_text.h"

using namespace molewright;

namespace {
std::string contradiction_in(std::string const& text) {
  auto const shown = test::refused(text);
  auto const end = shown.find('\n');
  return shown.substr(0, end) == "contradiction" ? shown.substr(end + 1, shown.find('\n', end + 1) - end - 1) : "";
}
}  // namespace

TEST_CASE("consistency: data that agree within their figures are no contradiction", "[engine][consistency]") {
  for (char const* text : {
           "given m(NaCl) = 5.84 g; given n(NaCl) = 0.100 mol; find N(NaCl)",
           "given m(NaCl) = 5.8 g; given n(NaCl) = 0.1 mol; find N(NaCl)",
           "given M(NaCl) = 58.5 g/mol; given m(NaCl) = 5.85 g; find n(NaCl)",
           "given c1(KOH) = 2.00 mol/L; given V1 = 25.0 mL; given c2 = 0.200 mol/L; given V2 = 250 mL; find n2(KOH)",
           "given V1(KOH) = 25.0 mL; given V(H2O, added) = 75.0 mL; given V2 = 100.0 mL; given c1 = 1.0 mol/L; find c2",
           "reaction BaCl2 + AgNO3 -> AgCl + Ba(NO3)2; given n(BaCl2) = 0.0120 mol; given m(AgCl) = 3.44 g; excess AgNO3; find "
           "n(AgCl)",
           "reaction Mg + HCl -> MgCl2 + H2; given n(Mg) = 0.05 mol; given n(HCl) = 0.10 mol; excess HCl; find n(H2)",
       }) {
    CAPTURE(text);
    CHECK(test::refused(text).empty());
  }
}

TEST_CASE("consistency: a contradiction names two data and by how much", "[engine][consistency]") {
  struct Row {
    char const *text, *shown;
  };
  Row const table[] = {
      {"given m(NaCl) = 5.84 g; given n(NaCl) = 0.102 mol; find N(NaCl)",
       "p:1:7: m(NaCl) = 5.84 g and n(NaCl) = 0.102 mol contradict each other: by n = m/M, m(NaCl) would be 5.961 g, 2.07 % "
       "more"},
      {"given V1(KOH) = 25.0 mL; given V(H2O, added) = 75.0 mL; given V2 = 120.0 mL; given c1 = 1.0 mol/L; find c2",
       "p:1:32: V(H2O, added) = 75.0 mL and V2(KOH) = 120.0 mL contradict each other: by V2 = V1 + V(added), V(H2O, added) would "
       "be 0.095 "
       "L, 26.7 % more"},
      {"reaction BaCl2 + AgNO3 -> AgCl + Ba(NO3)2; given n(BaCl2) = 0.0120 mol; given m(AgCl) = 2.44 g; excess AgNO3; find "
       "N(AgCl)",
       "p:1:79: m(AgCl) = 2.44 g and n(BaCl2) = 0.0120 mol contradict each other: by mole ratio, n(AgCl) would be 0.024 mol, 41 "
       "% more"},
  };
  for (auto const& row : table) {
    CAPTURE(row.text);
    CHECK(contradiction_in(row.text) == row.shown);
  }
}

TEST_CASE("consistency: an exchange of ions that leaves all dissolved does not happen", "[engine][consistency]") {
  // Solubility by the tables compiled in (their sources stand there).
  struct Row {
    char const* equation;
    bool happens;
  };
  Row const table[] = {
      {"NaCl + KNO3 -> NaNO3 + KCl", false},
      {"NaCl + AgNO3 -> AgCl + NaNO3", true},
      {"Na2SO4 + 2KCl -> K2SO4 + 2NaCl", false},
      {"Na2SO4 + BaCl2 -> BaSO4 + 2NaCl", true},
      {"2H2 + O2 -> 2H2O", true},
      {"HCl + NaOH -> NaCl + H2O", true},
  };
  for (auto const& row : table) {
    CAPTURE(row.equation);
    auto const equation = parse_equation(row.equation);
    REQUIRE(ok(equation));
    CHECK(does_not_happen(value(equation)).has_value() == !row.happens);
  }
}
