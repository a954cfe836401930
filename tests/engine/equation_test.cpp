#include "engine/equation.h"

#include <catch2/catch.hpp>

#include "tests/engine/table_file.h"

namespace molewright {
namespace {

struct Read {
  char const* text;
  char const* plain;
  char const* pretty;
};

TEST_CASE("equation: spellings that are read", "[engine][equation]") {
  auto const c = GENERATE(values<Read>({
      {"2H2(g) + O2(g) -> 2H2O(l)", "2H2(g) + O2(g) -> 2H2O(l)", "2H₂(g) + O₂(g) → 2H₂O(l)"},
      {"2 H2 + O2 → 2 H2O", "2H2 + O2 -> 2H2O", "2H₂ + O₂ → 2H₂O"},
      {"2H2+O2=2H2O", "2H2 + O2 -> 2H2O", "2H₂ + O₂ → 2H₂O"},
      {"2H2+O2-->2H2O", "2H2 + O2 -> 2H2O", "2H₂ + O₂ → 2H₂O"},
      {"2H2+O2=>2H2O", "2H2 + O2 -> 2H2O", "2H₂ + O₂ → 2H₂O"},
      {"N2 + 3H2 <=> 2NH3", "N2 + 3H2 <=> 2NH3", "N₂ + 3H₂ ⇌ 2NH₃"},
      {"N2 + 3H2 ⇌ 2NH3", "N2 + 3H2 <=> 2NH3", "N₂ + 3H₂ ⇌ 2NH₃"},
      {"H2 + 1/2 O2 -> H2O", "H2 + 1/2 O2 -> H2O", "H₂ + 1/2 O₂ → H₂O"},
      {"H2 + ½O2 -> H2O", "H2 + 1/2 O2 -> H2O", "H₂ + 1/2 O₂ → H₂O"},
      {"H2 + 0.5 O2 -> H2O", "H2 + 1/2 O2 -> H2O", "H₂ + 1/2 O₂ → H₂O"},
      {"C2H2 + 2½O2 -> 2CO2 + H2O", "C2H2 + 5/2 O2 -> 2CO2 + H2O", "C₂H₂ + 5/2 O₂ → 2CO₂ + H₂O"},
      {"C2H2 + 2 1/2 O2 -> 2CO2 + H2O", "C2H2 + 5/2 O2 -> 2CO2 + H2O", "C₂H₂ + 5/2 O₂ → 2CO₂ + H₂O"},
      {"877777.77555O -> O2", "17555555511/20000 O -> O2", "17555555511/20000 O → O₂"},  // found by fuzzing
      {"Na+ + Cl- -> NaCl", "Na^+ + Cl^- -> NaCl", "Na⁺ + Cl⁻ → NaCl"},
      {"Na^++Cl^-->NaCl", "Na^+ + Cl^- -> NaCl", "Na⁺ + Cl⁻ → NaCl"},
      {"Fe3+(aq) + e- -> Fe2+(aq)", "Fe^3+(aq) + e^- -> Fe^2+(aq)", "Fe³⁺(aq) + e⁻ → Fe²⁺(aq)"},
      {"Ag⁺(aq) + Cl⁻(aq) → AgCl↓", "Ag^+(aq) + Cl^-(aq) -> AgCl(s)", "Ag⁺(aq) + Cl⁻(aq) → AgCl(s)"},
      {"H2\xC2\xA0+ O2\xE2\x80\x89-> H2O", "H2 + O2 -> H2O", "H₂ + O₂ → H₂O"},
      {"CuSO4 · 5H2O -> CuSO4 + 5 H2O", "CuSO4·5H2O -> CuSO4 + 5H2O", "CuSO₄·5H₂O → CuSO₄ + 5H₂O"},
      {"[Cu(NH3)4]2+ + 4H+ -> Cu2+ + 4NH4+", "[Cu(NH3)4]^2+ + 4H^+ -> Cu^2+ + 4NH4^+", "[Cu(NH₃)₄]²⁺ + 4H⁺ → Cu²⁺ + 4NH₄⁺"},
  }));
  CAPTURE(c.text);
  auto const read = parse_equation(c.text);
  REQUIRE(ok(read));
  CHECK(plain(value(read)) == c.plain);
  CHECK(pretty(value(read)) == c.pretty);
  for (char const* again : {c.plain, c.pretty}) {
    auto const once_more = parse_equation(again);
    REQUIRE(ok(once_more));
    CHECK(plain(value(once_more)) == c.plain);
  }
}

TEST_CASE("equation: one side alone, where that is allowed", "[engine][equation]") {
  auto const reactants = parse_equation("BaCl2 + AgNO3", true);
  REQUIRE(ok(reactants));
  CHECK(value(reactants).left.size() == 2);
  CHECK(value(reactants).right.empty());
  CHECK(plain(value(reactants)) == "BaCl2 + AgNO3");
  CHECK(ok(parse_equation("BaCl2 + AgNO3 ->", true)));
  CHECK_FALSE(is_balanced(value(reactants)));
}

TEST_CASE("equation: where each species stands in the text", "[engine][equation]") {
  Equation const equation = value(parse_equation("2 H₂ + O₂ → 2 H₂O"));
  CHECK(equation.left[0].offset == 0);
  CHECK(equation.left[1].offset == 9);
  CHECK(equation.right[0].offset == 18);
}

TEST_CASE("equation: conserved as written, or not", "[engine][equation]") {
  struct Row {
    char const* text;
    bool conserved;
  };
  auto const c = GENERATE(values<Row>({{"2H2 + O2 -> 2H2O", true},
                                       {"H2 + 1/2 O2 -> H2O", true},
                                       {"H2 + O2 -> H2O", false},
                                       {"Fe^3+ + e^- -> Fe^2+", true},
                                       {"Fe^3+ -> Fe^2+", false},
                                       {"MnO4^- + 8H^+ + 5e^- -> Mn^2+ + 4H2O", true},
                                       {"MnO4^- + 8H^+ + 4e^- -> Mn^2+ + 4H2O", false}}));
  CAPTURE(c.text);
  CHECK(is_balanced(value(parse_equation(c.text))) == c.conserved);
}

TEST_CASE("equation: printed equations of open textbooks conserve elements and charge", "[engine][equation][outside]") {
  test::TableFile const file("equations_public.tsv");
  REQUIRE(file.table.size() == 449);
  for (std::size_t row = 0; row < file.table.size(); ++row) {
    std::string const text = file.cell(row, "equation_as_printed");
    CAPTURE(text);
    auto const read = parse_equation(text);
    REQUIRE(ok(read));
    CHECK(is_balanced(value(read)));
    CHECK(plain(value(read)) == text);
    CHECK(plain(value(parse_equation(pretty(value(read))))) == text);
  }
}

TEST_CASE("equation: composition matrix", "[engine][equation]") {
  CompositionMatrix const matrix = composition_matrix(value(parse_equation("MnO4^- + H^+ + e^- -> Mn^2+ + H2O")));
  CHECK(matrix.rows == 4);  // Mn, O, H, charge
  CHECK(matrix.columns == 5);
  CHECK(matrix.entries == std::vector<std::int64_t>{1, 0, 0, -1, 0, 4, 0, 0, 0, -1, 0, 1, 0, 0, -2, -1, 1, -1, -2, 0});
}

struct Bad {
  char const* text;
  char const* id;
  std::size_t column;
  char const* says;
};

TEST_CASE("equation: what is refused, where, and in which words", "[engine][equation]") {
  auto const c = GENERATE(values<Bad>({
      {"H2 + O2 H2O", "no-arrow", 12, "there is no arrow, expected -> between the reactants and the products"},
      {"", "no-arrow", 1, "there is no arrow, expected -> between the reactants and the products"},
      {"H₂ + O₂ -> H₂O -> H₂O₂", "two-arrows", 16, "there is more than one arrow, expected one arrow in each equation"},
      {"H2 + -> H2O", "missing-term", 6, "a formula is missing, expected a formula on each side of +"},
      {"+ O2 -> H2O", "missing-term", 1, "a formula is missing, expected a formula on each side of +"},
      {"H2 ++ O2 -> H2O", "missing-term", 5, "a formula is missing, expected a formula on each side of +"},
      {"-> H2O", "no-reactants", 1, "there are no reactants, expected a formula before the arrow"},
      {"H2 + O2 ->", "no-products", 11, "there are no products, expected a formula after the arrow"},
      {"2 + O2 -> O2", "missing-term", 2, "a coefficient without a formula, expected a formula after the coefficient"},
      {"-2H2 + O2 -> H2O", "bad-coefficient", 1,
       "not a coefficient, expected a number greater than 0 with at most 18 digits, such as 2 or 1/2"},
      {"0H2 + O2 -> H2O", "bad-coefficient", 1,
       "not a coefficient, expected a number greater than 0 with at most 18 digits, such as 2 or 1/2"},
      {"1/0 H2 + O2 -> H2O", "bad-coefficient", 1,
       "not a coefficient, expected a number greater than 0 with at most 18 digits, such as 2 or 1/2"},
      {"H2 + 1234567890123456789O2 -> H2O", "bad-coefficient", 6,
       "not a coefficient, expected a number greater than 0 with at most 18 digits, such as 2 or 1/2"},
      {"877777777777.7755500000000001O -> O2", "bad-coefficient", 1,
       "not a coefficient, expected a number greater than 0 with at most 18 digits, such as 2 or 1/2"},
      {"H2 + Xx -> H2O", "unknown-element", 6, "unknown element symbol Xx, expected an element symbol"},
      {"Ca(OH₂ -> CaO + H2O", "bracket-not-closed", 7, "bracket not closed, expected ')'"},
      {"SO4^2 + Ba^2+ -> BaSO4", "charge-without-sign", 6,
       "a charge without its sign, expected + or - after the number of the charge"},
      {"H2 + O2 -> H2\xC0O", "invalid-utf8", 14, "the text is not UTF-8, expected text saved as UTF-8"},
  }));
  CAPTURE(c.text);
  auto const read = parse_equation(c.text);
  REQUIRE(!ok(read));
  CHECK(fault(read).id == c.id);
  CHECK(column(c.text, fault(read).offset) == c.column);
  CHECK(sentence(fault(read)) == c.says);
}

}  // namespace
}  // namespace molewright
