// The text of a problem with its braces filled in.
#include "tests/engine/problem_text.h"

using namespace molewright;

namespace {
std::string filled(std::string const& givens, std::string const& text, Conventions const& conventions = {}) {
  auto const problem = test::read_problem(givens + "\ntext\n" + text + "\nend\n");
  auto const result = wording(problem, conventions);
  if (!ok(result)) return fault(result).id + " at " + std::to_string(fault(result).offset) + ": " + sentence(fault(result));
  auto out = value(result);
  for (std::size_t at; (at = out.find("\u00A0")) != std::string::npos;) out.replace(at, 2, " ");
  return out;
}
}  // namespace

TEST_CASE("wording: givens, names, formulas and the equation", "[engine][wording]") {
  Conventions comma;
  comma.mark = DecimalMark::comma;
  Conventions dm;
  dm.concentration_unit = "mol dm-3";
  Conventions british;
  british.naming.spelling = Spelling::sulphur;
  Conventions american;
  american.naming.aluminium = Aluminium::aluminum;
  american.naming.hydrogencarbonate = Hydrogencarbonate::bicarbonate;
  Conventions systematic;
  systematic.naming.acetic_acid = AceticAcid::ethanoic;
  struct Row {
    char const *givens, *text;
    Conventions conventions;
    char const* expected;
  };
  Row const table[] = {
      {"given V(BaCl2) = 40.0 mL", "{V(BaCl2)} of {name BaCl2}, {formula BaCl2}", {}, "40.0 mL of barium chloride, BaCl₂"},
      {"given V(HCl) = 150 mL", "{V(HCl)}", {}, "150 mL"},
      {"given c(HCl) = 0.150 mol/L", "{c(HCl)}", comma, "0,150 mol/L"},
      {"given c(HCl) = 0.150 mol/L", "{c(HCl)}", dm, "0.150 mol dm⁻³"},
      {"given m(K2SO4) = 1.0 g", "of {name K2SO4}", british, "of potassium sulphate"},
      {"", "of {name iron(III) sulphate}, {formula iron(III) sulfate}", british, "of iron(III) sulphate, Fe₂(SO₄)₃"},
      {"", "of {name aluminium sulfate} and {name NaHCO3}", american, "of aluminum sulfate and sodium bicarbonate"},
      {"", "of {name acetic acid} and {name NaCH3COO}", systematic, "of ethanoic acid and sodium ethanoate"},
      {"", "{name baking soda}, {formula copper(II) sulfate-5-water}", {}, "Sodium hydrogencarbonate, CuSO₄·5H₂O"},
      {"",
       "It dries. {name NaCl}: {name NaCl} (a) {name NaCl}",
       {},
       "It dries. Sodium chloride: sodium chloride (a) sodium chloride"},
      {"", "Is it dry?\n{name NaCl}, e.g. {name NaCl}", {}, "Is it dry?\nSodium chloride, e.g. sodium chloride"},
      {"given V(HCl) = 24.65 - 1.20 mL", "from {V(HCl)}", {}, "from 1.20 mL to 24.65 mL"},
      {"given V(HCl) = mean of 23.45 | 23.50 | 23.40 mL", "{V(HCl)}", {}, "23.45 mL, 23.50 mL and 23.40 mL"},
      {"given V(HCl) = 24.65 - 1.20 mL", "{initial V(HCl)}, {final V}", comma, "1,20 mL, 24,65 mL"},
      {"given V(HCl) = mean of 24.60 - 0.60 rough | 23.45 - 0.00 | 47.00 - 23.45 | 23.95 - 0.05 discordant mL",
       "{V(HCl)}",
       {},
       "0.60 mL to 24.60 mL (rough), 0.00 mL to 23.45 mL, 23.45 mL to 47.00 mL and 0.05 mL to 23.95 mL"},
      {"given V(HCl) = mean of 24.60 - 0.60 rough | 23.45 - 0.00 | 47.00 - 23.45 | 23.95 - 0.05 discordant mL",
       "{table V(HCl)}\nWhich?",
       {},
       "Titration\trough\t1\t2\t3\nFinal reading, mL\t24.60\t23.45\t47.00\t23.95\nInitial reading, "
       "mL\t0.60\t0.00\t23.45\t0.05\nTitre, mL\t\t\t\t\nWhich?"},
      {"given V(HCl) = mean of 23.45 | 23.50 mL", "{table V(HCl)}", comma, "Titration\t1\t2\nTitre, mL\t23,45\t23,50"},
      {"given m(NaCl) = mean of 1.45 | 1.50 g", "{table m(NaCl)}", {}, "Measurement\t1\t2\nReading, g\t1.45\t1.50"},
      {"given m(CuSO4·5H2O) = 18.25 - 15.11 g",
       "{table m(CuSO4·5H2O)}",
       {},
       "Container with CuSO₄·5H₂O, g\t18.25\nContainer alone, g\t15.11\nCuSO₄·5H₂O, g\t"},
      {"given dT = 24.6 - 19.4 K", "{table dT}", {}, "Final reading, K\t24.6\nInitial reading, K\t19.4\nDifference, K\t"},
      {"given V(HCl) = measured mL", "{V(HCl)}", {}, "______ mL"},
      {"given V(HCl) = measured about 24.60 mL", "{V(HCl)}", {}, "______ mL"},
      {"given V1(KOH) = 25.0 mL", "{V1} {{x}", {}, "25.0 mL {x}"},
      {"reaction H2 + O2 -> H2O\ngiven n(H2) = 2.0 mol", "{equation}", {}, "H₂ + O₂ → H₂O"},
      {"reaction H2 + O2 -> H2O\nreaction C + O2 -> CO2\ngiven n(H2) = 2.0 mol",
       "{equation 1}, {equation 2}",
       {},
       "H₂ + O₂ → H₂O, C + O₂ → CO₂"},
      {"given n(HCl) = 2.50e-3 mol", "{n(HCl)}", {}, "2.50 × 10⁻³ mol"},
  };
  for (auto const& row : table) {
    CAPTURE(row.givens, row.text);
    CHECK(filled(row.givens, row.text, row.conventions) == row.expected);
  }
}

TEST_CASE("wording: a brace has the author's own words, however the problem was read", "[engine][wording]") {
  struct Row {
    char const *problem, *text, *expected;
  };
  Row const table[] = {
      {"reaction CaCO3 + 2HCl -> CaCl2 + H2O + CO2\nreaction HCl + NaOH -> NaCl + H2O\ngiven m(shell grit) = 2.000 g\ngiven "
       "V(HCl) = "
       "100.0 mL\ngiven c(HCl) = 0.5000 mol/L\ngiven V(flask) = 250.0 mL\ngiven V(pipette) = 25.00 mL\ngiven c(NaOH) = 0.1000 "
       "mol/L\ngiven V(NaOH) = 12.30 mL\nfind w(CaCO3 in shell grit) in %",
       "{m(shell grit)}, {V(HCl)}, {c(HCl)}, {V(flask)}, {V(pipette)}, {V(NaOH)}",
       "2.000 g, 100.0 mL, 0.5000 mol/L, 250.0 mL, 25.00 mL, 12.30 mL"},
      {"reaction CH3COOH + NaOH -> CH3COONa + H2O\ngiven V(vinegar) = 20.0 mL\ngiven V(flask) = 250.0 mL\ngiven V(aliquot) = "
       "25.0 "
       "mL\ngiven V(NaOH) = 20.4 mL\ngiven c(NaOH) = 0.100 mol/L\nfind c(CH3COOH)",
       "{V(vinegar)}, {V(flask)}, {V(aliquot)}", "20.0 mL, 250.0 mL, 25.0 mL"},
      {"reaction CaC2 + H2O -> Ca(OH)2 + C2H2\ngiven m(CaC2) = 20.0 g\ngiven purity = 80.0 %\nfind m(C2H2) in g",
       "{m(CaC2)}, {purity}", "20.0 g, 80.0 %"},
  };
  for (auto const& row : table) {
    CAPTURE(row.problem);
    auto const problem = test::read_problem(std::string(row.problem) + "\ntext\n" + row.text + "\nend\n");
    auto const worked = solve(problem, {});
    REQUIRE(std::holds_alternative<Worked>(worked));
    auto const read = wording(std::get<Worked>(worked).problem, {});
    REQUIRE(ok(read));
    auto out = value(read);
    for (std::size_t at; (at = out.find("\u00A0")) != std::string::npos;) out.replace(at, 2, " ");
    CHECK(out == row.expected);
  }
}

TEST_CASE("wording: what the problem does not know", "[engine][wording]") {
  CHECK(filled("given V(HCl) = 1.0 mL", "Take {V(NaOH)}.") ==
        "unknown-in-text at 6: {V(NaOH)} is nothing that this problem knows, expected a given such as {V(NaCl)}, or {name NaCl}, "
        "{formula NaCl} or {equation}");
  CHECK(filled("given V(HCl) = 1.0 mL", "{table V(HCl)}") ==
        "unknown-in-text at 1: {table V(HCl)} is nothing that this problem knows, expected a given of two readings or more after "
        "table ");
  CHECK(filled("given V(HCl) = mean of 1.0 | 1.1 mL", "{final V(HCl)}").substr(0, 20) == "unknown-in-text at 1");
  CHECK(filled("given V(HCl) = 1.0 mL", "Take {V(HCl).") == "unknown-in-text at 5: a brace is not closed, expected '}'");
  CHECK(filled("given V(HCl) = 1.0 mL", "{name Xy}").substr(0, 21) == "unknown-element at 6:");
  CHECK(filled("given V(HCl) = 1.0 mL", "Some {name sodium clorid}").substr(0, 20) == "unknown-name at 11: ");
  CHECK(filled("reaction H2 + O2 -> H2O\ngiven n(H2) = 2.0 mol", "{equation 2}").substr(0, 20) == "unknown-in-text at 1");
  CHECK(filled("given V(HCl) = 1.0 mL", "{equation}").substr(0, 20) == "unknown-in-text at 1");
}

TEST_CASE("wording: a convention that changes a text changes the fingerprint", "[engine][wording]") {
  Conventions const usual;
  auto changed = [&](auto change) {
    Conventions other;
    change(other);
    return fingerprint(other) != fingerprint(usual);
  };
  CHECK(changed([](Conventions& c) { c.mark = DecimalMark::comma; }));
  CHECK(changed([](Conventions& c) { c.ties = Ties::half_even; }));
  CHECK(changed([](Conventions& c) { c.naming.spelling = Spelling::sulphur; }));
  // Words only: the same code, the same question.
  CHECK_FALSE(changed([](Conventions& c) { c.naming.aluminium = Aluminium::aluminum; }));
  CHECK_FALSE(changed([](Conventions& c) { c.naming.acetic_acid = AceticAcid::ethanoic; }));
  CHECK_FALSE(changed([](Conventions& c) { c.naming.hydrogencarbonate = Hydrogencarbonate::bicarbonate; }));
  CHECK(changed([](Conventions& c) { c.weights.table = WeightTable::one_decimal; }));
  CHECK(changed([](Conventions& c) { c.weights.overrides.push_back({"Cl", value(parse_decimal("35.5"))}); }));
  CHECK(changed([](Conventions& c) { c.concentration_unit = "M"; }));
  CHECK(changed([](Conventions& c) { c.volume_unit = "cm3"; }));
  CHECK(changed([](Conventions& c) { c.amount_word = "number of moles"; }));
}

TEST_CASE("wording: units that the author wrote become the course's", "[engine][wording]") {
  Conventions cubic;
  cubic.volume_unit = "cm3";
  cubic.concentration_unit = "mol dm-3";
  struct Row {
    char const* written;
    char const* printed;
  };
  for (Row const& row : {Row{"Give c, in mol/L.", "Give c, in mol dm⁻³."},
                         {"in mL, from a 1 L flask", "in cm³, from a 1 dm³ flask"},
                         {"5 g/L or 3 mg/L", "5 g/dm³ or 3 mg/dm³"},
                         {"NaCl, KL and mLs stay; so does 2 mol", "NaCl, KL and mLs stay; so does 2 mol"}}) {
    CAPTURE(row.written);
    CHECK(in_units_of_course(row.written, cubic) == row.printed);
    CHECK(in_units_of_course(row.written, Conventions{}) == row.written);
  }
}
