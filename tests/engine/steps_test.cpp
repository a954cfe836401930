// Whole printed workings: the problem, then every line as it is printed.
#include "engine/steps.h"

#include "tests/engine/problem_text.h"

using namespace molewright;
using test::solved;

namespace {
/// All steps and answers, a line each; no-break spaces as spaces.
std::string printed(std::string const& text, Conventions const& conventions = {}) {
  auto const worked = solved(text, conventions);
  auto const& working = worked.accepted.front();
  std::string out;
  for (std::size_t f = 0; f < working.finds.size(); ++f) {
    auto const letter = part_letter(worked, f);
    for (auto const& step : steps(worked, working, f, conventions))
      out += letter + (letter.empty() ? "" : " ") + step.text + '\n';
    out += letter + (letter.empty() ? "" : " ") + "=> " + answer_line(worked, working, f, conventions) + '\n';
  }
  for (std::size_t at; (at = out.find("\u00A0")) != std::string::npos;) out.replace(at, 2, " ");
  return out;
}

struct Row {
  char const *text, *lines;
};
}  // namespace

TEST_CASE("steps: whole workings", "[engine][steps]") {
  Row const table[] = {
      {"given V(HCl) = mean of 25.10 - 0.40 rough | 24.65 - 0.60 | 24.50 - 0.10 discordant | 24.30 - 0.20 mL; given c(HCl) = "
       "0.100 "
       "mol/L; find n(HCl) in mol",
       "Titre 1: 24.65 mL − 0.60 mL = 24.05 mL\n"
       "Titre 3: 24.30 mL − 0.20 mL = 24.10 mL\n"
       "The rough one is left out. Titre 2 (24.40 mL) is 0.30 mL from the nearest of the others: it is left out. V(HCl) = (24.05 "
       "mL + 24.10 mL) / 2 = 24.0750 mL\n"
       "V(HCl) = 24.0750 mL = 0.0240750 L\n"
       "n(HCl) = c(HCl) × V(HCl) = 0.100 mol/L × 0.0240750 L = 0.0024075 mol [mol/L × L = mol: L cancels]\n"
       "=> n(HCl) = 0.00241 mol\n"},
      {"reaction BaCl2 + AgNO3 -> AgCl + Ba(NO3)2; given V(BaCl2) = 40.0 mL; given c(BaCl2) = 0.150 mol/L; excess AgNO3; find "
       "n(BaCl2); find m(AgCl)",
       "(a) V(BaCl₂) = 40.0 mL = 0.0400 L\n"
       "(a) n(BaCl₂) = c(BaCl₂) × V(BaCl₂) = 0.150 mol/L × 0.0400 L = 0.00600 mol [mol/L × L = mol: L cancels]\n"
       "(a) => n(BaCl₂) = 0.00600 mol\n"
       "(b) n(AgCl) = n(BaCl₂) × ν(AgCl) / ν(BaCl₂) = 0.00600 mol × 2 / 1 = 0.0120 mol\n"
       "(b) M(AgCl) = 107.87 + 35.45 = 143.32 g/mol\n"
       "(b) m(AgCl) = n(AgCl) × M(AgCl) = 0.0120 mol × 143.32 g/mol = 1.7198 g [mol × g/mol = g: mol cancels]\n"
       "(b) => m(AgCl) = 1.72 g\n"},
      {"given m(CuSO4·5H2O) = 12.5 g; given V(CuSO4) = 250 mL; find c(CuSO4)",
       "M(CuSO₄·5H₂O) = 63.546 + 32.06 + 4 × 15.999 + 5 × (2 × 1.0080 + 15.999) = 249.677 g/mol\n"
       "n(CuSO₄·5H₂O) = m(CuSO₄·5H₂O) / M(CuSO₄·5H₂O) = 12.5 g / (249.677 g/mol) = 0.050065 mol [g / (g/mol) = mol: g cancels]\n"
       "n(CuSO₄) = n(CuSO₄·5H₂O) = 0.050065 mol: each formula unit of CuSO₄·5H₂O holds one of CuSO₄.\n"
       "V(CuSO₄) = 250 mL = 0.250 L\n"
       "c(CuSO₄) = n(CuSO₄) / V(CuSO₄) = 0.050065 mol / 0.250 L = 0.20026 mol/L\n"
       "=> c(CuSO₄) = 0.200 mol/L\n"},
      {"given c1(KOH) = 2.00 mol/L; given V1 = 25.0 mL; given V(H2O, added) = 75.0 mL; find c2",
       "V₂(KOH) = V₁(KOH) + V(H₂O, added) = 25.0 mL + 75.0 mL = 100.0 mL, provided that the volumes add up\n"
       "c₂(KOH) = c₁(KOH) × V₁(KOH) / V₂(KOH) = 2.00 mol/L × 25.0 mL / 100.0 mL = 0.500 mol/L [mol/L × mL / mL = mol/L: mL "
       "cancels]\n"
       "=> c₂(KOH) = 0.500 mol/L\n"},
      {"given c1(KOH) = 2.00 mol/L; given V1 = 25.0 mL; given V2 = 250.0 mL; given V2(KOH, taken) = 10.00 mL; given V3 = 100.0 "
       "mL; "
       "dilute 1 -> 2; dilute 2 -> 3; find c3 in mmol/L",
       "c₂(KOH) = c₁(KOH) × V₁(KOH) / V₂(KOH) = 2.00 mol/L × 25.0 mL / 250.0 mL = 0.200 mol/L [mol/L × mL / mL = mol/L: mL "
       "cancels]\n"
       "c₃(KOH) = c₂(KOH) × V₂(KOH, taken) / V₃(KOH) = 0.200 mol/L × 10.00 mL / 100.0 mL = 0.0200 mol/L [mol/L × mL / mL = "
       "mol/L: mL cancels]\n"
       "c₃(KOH) = 0.0200 mol/L = 20.0 mmol/L\n"
       "=> c₃(KOH) = 20.0 mmol/L\n"},
      {"reaction BaCl2 + AgNO3 -> AgCl + Ba(NO3)2; given n(BaCl2) = 0.00600 mol; given m(AgNO3) = 1.50 g; find limiting reagent; "
       "find "
       "m(AgCl); find n(BaCl2, left)",
       "(a) n(BaCl₂) / ν(BaCl₂) = 0.00600 mol / 1 = 0.00600 mol\n"
       "(a) M(AgNO₃) = 107.87 + 14.007 + 3 × 15.999 = 169.874 g/mol\n"
       "(a) n(AgNO₃) = m(AgNO₃) / M(AgNO₃) = 1.50 g / (169.874 g/mol) = 0.0088301 mol [g / (g/mol) = mol: g cancels]\n"
       "(a) n(AgNO₃) / ν(AgNO₃) = 0.0088301 mol / 2 = 0.0044150 mol\n"
       "(a) The limiting reagent is AgNO₃: of 0.00600 mol and 0.0044150 mol, 0.0044150 mol is the smaller.\n"
       "(a) => AgNO₃\n"
       "(b) n(AgCl) = n(AgNO₃) × ν(AgCl) / ν(AgNO₃) = 0.0088301 mol × 2 / 2 = 0.0088301 mol\n"
       "(b) M(AgCl) = 107.87 + 35.45 = 143.32 g/mol\n"
       "(b) m(AgCl) = n(AgCl) × M(AgCl) = 0.0088301 mol × 143.32 g/mol = 1.2655 g [mol × g/mol = g: mol cancels]\n"
       "(b) => m(AgCl) = 1.27 g\n"
       "(c) n(BaCl₂, used) = n(AgNO₃) × ν(BaCl₂) / ν(AgNO₃) = 0.0088301 mol × 1 / 2 = 0.0044150 mol\n"
       "(c) n(BaCl₂, left) = n(BaCl₂) − n(BaCl₂, used) = 0.00600 mol − 0.0044150 mol = 0.00158496 mol\n"
       "(c) => n(BaCl₂, left) = 0.00158 mol\n"},
      {"reaction BaCl2 + AgNO3 -> AgCl + Ba(NO3)2; given n(BaCl2) = 0.100 mol; given n(AgNO3) = 0.200 mol; find limiting reagent",
       "n(BaCl₂) / ν(BaCl₂) = 0.100 mol / 1 = 0.100 mol\n"
       "n(AgNO₃) / ν(AgNO₃) = 0.200 mol / 2 = 0.100 mol\n"
       "BaCl₂ and AgNO₃ are used up together: n/ν is 0.100 mol for each, so no one reagent limits.\n"
       "=> BaCl₂\n"},
      {"reaction CaCO3 -> CaO + CO2; given n(CaCO3) = 0.100 mol; given m(CaO, actual) = 5.00 g; find yield",
       "n(CaO) = n(CaCO₃) × ν(CaO) / ν(CaCO₃) = 0.100 mol × 1 / 1 = 0.100 mol\n"
       "M(CaO) = 40.078 + 15.999 = 56.077 g/mol\n"
       "m(CaO) = n(CaO) × M(CaO) = 0.100 mol × 56.077 g/mol = 5.6077 g [mol × g/mol = g: mol cancels]\n"
       "yield(CaO) = 100 % × m(CaO, actual) / m(CaO) = 100 % × 5.00 g / 5.6077 g = 89.163 % [% × g / g = %: g cancels]\n"
       "=> yield(CaO) = 89.2 %\n"},
      {"given V(HCl) = 24.65 - 1.20 mL; given c(HCl) = 0.1000 mol/L; find n(HCl) in mmol",
       "V(HCl) = 24.65 mL − 1.20 mL = 23.45 mL\n"
       "V(HCl) = 23.45 mL = 0.02345 L\n"
       "n(HCl) = c(HCl) × V(HCl) = 0.1000 mol/L × 0.02345 L = 0.002345 mol [mol/L × L = mol: L cancels]\n"
       "n(HCl) = 0.002345 mol = 2.345 mmol\n"
       "=> n(HCl) = 2.345 mmol\n"},
      {"given V(HCl) = mean of 23.45 | 23.50 | 23.41 mL; given c(HCl) = 0.1000 mol/L; find n(HCl)",
       "V(HCl) = (23.45 mL + 23.50 mL + 23.41 mL) / 3 = 23.4533 mL\n"
       "V(HCl) = 23.4533 mL = 0.0234533 L\n"
       "n(HCl) = c(HCl) × V(HCl) = 0.1000 mol/L × 0.0234533 L = 0.00234533 mol [mol/L × L = mol: L cancels]\n"
       "=> n(HCl) = 0.002345 mol\n"},
      {"given N(H2O) = 3.01e23; find m(H2O)",
       "n(H₂O) = N(H₂O) / N_A = 3.01 × 10²³ / (6.02214076 × 10²³ mol⁻¹) = 0.49982 mol\n"
       "M(H₂O) = 2 × 1.0080 + 15.999 = 18.015 g/mol\n"
       "m(H₂O) = n(H₂O) × M(H₂O) = 0.49982 mol × 18.015 g/mol = 9.0043 g [mol × g/mol = g: mol cancels]\n"
       "=> m(H₂O) = 9.00 g\n"},
      {"given gamma(NaCl) = 5.85 g/L; find c(NaCl)",
       "M(NaCl) = 22.990 + 35.45 = 58.44 g/mol\n"
       "c(NaCl) = γ(NaCl) / M(NaCl) = (5.85 g/L) / (58.44 g/mol) = 0.10010 mol/L [(g/L) / (g/mol) = mol/L: g cancels]\n"
       "=> c(NaCl) = 0.100 mol/L\n"},
      {"given Ksp(PbI2) = 7.9e-9; find s(PbI2)",
       "Ksp = s × (2s)² = 4s³; s(PbI₂) = ∛(Ksp(PbI₂) / 4) = ∛(7.9 × 10⁻⁹ / 4) = 0.001255 mol/L, provided that the "
       "ions come from this solid alone\n"
       "=> s(PbI₂) = 0.0013 mol/L\n"},
      {"given p1 = 101.3 kPa; given V1 = 2.50 L; given T1 = 20 °C; given p2 = 85.0 kPa; given T2 = 60 °C; find V2",
       "T₂ = 60 °C = 333.15 K\n"
       "T₁ = 20 °C = 293.15 K\n"
       "V₂ = p₁ × V₁ × T₂ / (T₁ × p₂) = 101.3 kPa × 2.50 L × 333.15 K / (293.15 K × 85.0 kPa) = 3.3859 L [kPa × L × K / (K × "
       "kPa) "
       "= L: kPa and K cancel], provided that the gas is ideal\n"
       "=> V₂ = 3.39 L\n"},
      {"given p = 101.3 kPa; given T = 300 K; given V(O2) = 1.50 L; find n(O2)",
       "n(O₂) = p × V(O₂) / (R × T) = 101.3 kPa × 1.50 L / (8.314462618 J/(mol K) × 300 K) = 0.060918 mol [kPa × L / (J/(mol K) "
       "× K) "
       "= mol: K cancels, and kPa × L = J], provided that the gas is ideal\n"
       "=> n(O₂) = 0.0609 mol\n"},
      {"given m(H2O) = 100.0 g; given cp = 4.18 J/(g K); given dT = -6.1 K; given n(NH4NO3) = 0.100 mol; find dH",
       "q = m(H₂O) × cp × ΔT = 100.0 g × 4.18 J/(g K) × (−6.1 K) = −2549.8 J [g × J/(g K) × K = J: g and K cancel], "
       "provided that no heat is lost to the surroundings\n"
       "q = −2549.8 J = −2.5498 kJ\n"
       "ΔH(NH₄NO₃) = −q / n(NH₄NO₃) = −(−2.5498 kJ) / 0.100 mol = 25.498 kJ/mol, provided that the pressure is "
       "constant, or the work that gases do is small beside the heat\n"
       "=> ΔH(NH₄NO₃) = 25 kJ/mol\n"},
      {"reaction S + O2 -> SO2; reaction SO2 + O2 -> SO3; given n(S) = 2.00 mol; find n(SO3)",
       "n(SO₂) = n(S) × ν(SO₂) / ν(S) = 2.00 mol × 1 / 1 = 2.00 mol (coefficients of reaction 1)\n"
       "n(SO₃) = n(SO₂) × ν(SO₃) / ν(SO₂) = 2.00 mol × 2 / 2 = 2.00 mol (coefficients of reaction 2)\n"
       "=> n(SO₃) = 2.00 mol\n"},
      {"find M(Ca(NO3)2)", "M(Ca(NO₃)₂) = 40.078 + 2 × (14.007 + 3 × 15.999) = 164.086 g/mol\n=> M(Ca(NO₃)₂) = 164.086 g/mol\n"},
  };
  for (auto const& row : table) {
    CAPTURE(row.text);
    CHECK(printed(row.text) == row.lines);
  }
}

TEST_CASE("steps: the conventions of a course", "[engine][steps]") {
  Conventions course;
  course.mark = DecimalMark::comma;
  course.concentration_unit = "mol/dm3";
  course.volume_unit = "cm3";
  course.weights.table = WeightTable::one_decimal;
  CHECK(printed("given c(NaCl) = 0.100 mol/L; given V(NaCl) = 250 cm3; find m(NaCl)", course) ==
        "V(NaCl) = 250 cm³ = 0,250 dm³\n"
        "n(NaCl) = c(NaCl) × V(NaCl) = 0,100 mol/dm³ × 0,250 dm³ = 0,0250 mol [mol/dm³ × dm³ = mol: dm³ cancels]\n"
        "M(NaCl) = 23,0 + 35,5 = 58,5 g/mol\n"
        "m(NaCl) = n(NaCl) × M(NaCl) = 0,0250 mol × 58,5 g/mol = 1,4625 g [mol × g/mol = g: mol cancels]\n"
        "=> m(NaCl) = 1,46 g\n");
}

TEST_CASE("steps: what other programs read is plain, with a point", "[engine][steps]") {
  auto const worked = solved("given c(NaCl) = 2.0e-5 mol/L; given V(NaCl) = 25.0 mL; find n(NaCl)");
  auto const all = steps(worked, worked.accepted.front(), 0, {});
  REQUIRE(all.size() == 2);
  CHECK(all[0].relation == relations::convert);
  CHECK(all[1].relation == "n = cV");
  CHECK(all[1].symbol == "n(NaCl)");
  CHECK(all[1].value == "5.0e-7");
  CHECK(all[1].unit == "mol");
  CHECK(worked.accepted.front().nodes[static_cast<std::size_t>(all[1].node)].id == "n(NaCl)");
}

TEST_CASE("steps: lines as a teacher writes them", "[engine][steps]") {
  // Each row: a line that the working has. Sums and shares worked by hand from the abridged weights.
  Row const table[] = {
      {"reaction Al + Fe2O3 -> Al2O3 + Fe; given m(Al) = 10.0 g; given m(Fe2O3) = 50.0 g; find m(Fe); find limiting reagent",
       "(b) From (a): the limiting reagent is Al.\n(b) => Al\n"},
      {"reaction H2 + O2 -> H2O; given n(H2) = 2.00 mol; given n(O2) = 1.00 mol; find n(H2O); find limiting reagent",
       "(b) From (a): H₂ and O₂ are used up together: n/ν is 1.00 mol for each, so no one reagent limits.\n"},
      {"find M(CH3COOH)", "M(CH₃COOH) = 2 × 12.011 + 4 × 1.0080 + 2 × 15.999 = 60.052 g/mol\n"},
      {"find w(H2O in Ni(NO3)2·6H2O) in %",  // 108.09 / 290.791 = 0.371710266...
       "w(H₂O in Ni(NO₃)₂·6H₂O) = 0.37171027 = 37.171027 %\n=> w(H₂O in Ni(NO₃)₂·6H₂O) = 37.1710 %\n"},
      {"reaction MnO4^- + Fe^2+ + H^+ -> Mn^2+ + Fe^3+ + H2O; excess H^+; given n(MnO4^-) = 0.000610 mol; find n(Fe)",
       "n(Fe) = n(Fe²⁺) = 0.00305 mol: each Fe gives one Fe²⁺.\n"},
      {"given c1(HCl) = 0.0200 mol/L; given V1(HCl) = 100.0 mL; given c2(HNO3) = 0.0500 mol/L; given V2(HNO3) = 50.0 mL; "
       "mix 1 + 2 -> 3; find pH",
       "c₃(H⁺) = n₃(H⁺) / V₃ = 0.00450 mol / 0.1500 L = 0.0300 mol/L\n"},
      {"reaction HCl + NaOH -> NaCl + H2O; given n(HCl) = 0.0400 mol; given n(NaOH) = 0.0425 mol; given q = 2.215 kJ; find dH in "
       "kJ/mol",
       "ΔH = −q × ν(H₂O) / n(H₂O) = −2.215 kJ × 1 / 0.0400 mol = −55.375 kJ/mol"},
  };
  for (auto const& row : table) {
    CAPTURE(row.text, row.lines);
    auto const all = printed(row.text);
    CAPTURE(all);
    CHECK(all.find(row.lines) != std::string::npos);
  }
}

TEST_CASE("steps: gases of one reaction are compared by their volumes, with no molar volume", "[engine][steps][gas]") {
  // By hand: 3 x 4.0 m3 of hydrogen, 5.0 - 4.0 m3 of steam left, to the tenth (Avogadro's law).
  CHECK(printed("reaction CH4(g) + H2O(g) -> CO(g) + H2(g); given V(CH4) = 4.0 m3; given V(H2O) = 5.0 m3; find limiting reagent; "
                "find V(H2) in m3; find V(H2O, left) in m3") ==
        "(a) V(CH₄) / ν(CH₄) = 4.0 m³ / 1 = 4.0 m³\n"
        "(a) V(H₂O) / ν(H₂O) = 5.0 m³ / 1 = 5.0 m³\n"
        "(a) The limiting reagent is CH₄: of 4.0 m³ and 5.0 m³, 4.0 m³ is the smaller.\n"
        "(a) => CH₄\n"
        "(b) V(H₂) = V(CH₄) × ν(H₂) / ν(CH₄) = 4.0 m³ × 3 / 1 = 12 m³\n"
        "(b) => V(H₂) = 12 m³\n"
        "(c) V(H₂O, used) = V(CH₄) × ν(H₂O) / ν(CH₄) = 4.0 m³ × 1 / 1 = 4.0 m³\n"
        "(c) V(H₂O, left) = V(H₂O) − V(H₂O, used) = 5.0 m³ − 4.0 m³ = 1.0 m³\n"
        "(c) => V(H₂O, left) = 1.0 m³\n");
}

TEST_CASE("steps: a formula found from data is written in the usual order, whichever the data have", "[engine][steps]") {
  // Source of the order: Hill with carbon; else Nomenclature of Inorganic Chemistry (IUPAC 2005), Table VI, acids hydrogen first.
  struct Found {
    char const *data, *formula;
  };
  Found const table[] = {
      {"given n(O) = 0.10 mol; given n(H) = 0.20 mol", "H2O"},
      {"given n(O) = 0.30 mol; given n(Fe) = 0.20 mol", "Fe2O3"},
      {"given n(S) = 0.30 mol; given n(Cr) = 0.20 mol", "Cr2S3"},
      {"given n(H) = 0.30 mol; given n(N) = 0.10 mol", "NH3"},
      {"given n(O) = 0.40 mol; given n(P) = 0.10 mol; given n(H) = 0.30 mol", "H3PO4"},
      {"given n(O) = 0.30 mol; given n(C) = 0.10 mol; given n(H) = 0.10 mol; given n(Na) = 0.10 mol", "NaHCO3"},
      {"given n(O) = 0.20 mol; given n(C) = 0.20 mol; given n(H) = 0.30 mol; given n(Na) = 0.10 mol", "NaC2H3O2"},
      {"given n(O) = 0.30 mol; given n(Cl) = 0.10 mol; given n(K) = 0.10 mol", "KClO3"},
      {"given n(O) = 0.10 mol; given n(H) = 0.60 mol; given n(C) = 0.20 mol", "C2H6O"},
  };
  for (auto const& row : table) {
    CAPTURE(row.data);
    CHECK(test::answer(solved(std::string(row.data) + "; find empirical formula")) == row.formula);
  }
}
