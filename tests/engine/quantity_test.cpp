// Quantities: symbols of the IUPAC Green Book, 3rd ed., 2.10 to 2.13, and the contract's spellings.
#include "engine/quantity.h"

#include <catch2/catch.hpp>

using namespace molewright;

TEST_CASE("quantity: read, printed plainly and for people", "[engine][quantity]") {
  struct Row {
    char const *text, *symbol;
    int stage;
    char const *substance, *word, *part, *plain, *pretty;
  };
  Row const table[] = {
      {"n(BaCl2)", "n", 0, "BaCl2", "", "", "n(BaCl2)", "n(BaCl₂)"},
      {"m( CuSO4.5H2O )", "m", 0, "CuSO4·5H2O", "", "", "m(CuSO4·5H2O)", "m(CuSO₄·5H₂O)"},
      {"c2(KOH)", "c", 2, "KOH", "", "", "c2(KOH)", "c₂(KOH)"},
      {"V12", "V", 12, "", "", "", "V12", "V₁₂"},
      {"V2(KOH, taken)", "V", 2, "KOH", "taken", "", "V2(KOH, taken)", "V₂(KOH, taken)"},
      {"γ(NaCl)", "gamma", 0, "NaCl", "", "", "gamma(NaCl)", "γ(NaCl)"},
      {"gamma1(NaCl)", "gamma", 1, "NaCl", "", "", "gamma1(NaCl)", "γ₁(NaCl)"},
      {"ρ(solution)", "rho", 0, "solution", "", "", "rho(solution)", "ρ(solution)"},
      {"w(N in NH4NO3)", "w", 0, "NH4NO3", "", "N", "w(N in NH4NO3)", "w(N in NH₄NO₃)"},
      {"m(AgCl, actual)", "m", 0, "AgCl", "actual", "", "m(AgCl, actual)", "m(AgCl, actual)"},
      {"c(SO4^2-)", "c", 0, "SO4^2-", "", "", "c(SO4^2-)", "c(SO₄²⁻)"},
      {"n(Ca(NO3)2)", "n", 0, "Ca(NO3)2", "", "", "n(Ca(NO3)2)", "n(Ca(NO₃)₂)"},
      {"yield", "yield", 0, "", "", "", "yield", "yield"},
      {"pH", "pH", 0, "", "", "", "pH", "pH"},
      {"p(O2)", "p", 0, "O2", "", "", "p(O2)", "p(O₂)"},
      {"Vm", "Vm", 0, "", "", "", "Vm", "Vm"},
      {"M(X)", "M", 0, "X", "", "", "M(X)", "M(X)"},
      {"N(C4H10)", "N", 0, "C4H10", "", "", "N(C4H10)", "N(C₄H₁₀)"},
      {"m(sample)", "m", 0, "sample", "", "", "m(sample)", "m(sample)"},
      {"DF1(HCl)", "DF", 0, "", "", "", "dilution factor", "dilution factor"},
      {"V3(KOH)/V2(KOH)", "DF", 3, "", "", "", "V3/V2", "V3/V2"},
  };
  for (auto const& row : table) {
    CAPTURE(row.text);
    auto const read = parse_quantity(row.text);
    REQUIRE(ok(read));
    auto const& q = value(read);
    CHECK(q == Quantity{row.symbol, row.stage, row.substance, row.word, row.part});
    CHECK(plain(q) == row.plain);
    CHECK(pretty(q) == row.pretty);
    auto const again = parse_quantity(plain(q));
    REQUIRE(ok(again));
    CHECK(value(again) == q);
  }
}

TEST_CASE("quantity: as people spell it out", "[engine][quantity]") {
  struct Row {
    char const *text, *plain;
    std::size_t length;  ///< of what is read of the text
  };
  // Names and abbreviations: school usage, common practice, no source.
  Row const table[] = {
      {"mass of MgO", "m(MgO)", 11},
      {"mass of MgO in g", "m(MgO)", 11},
      {"mass of Fe in Fe2O3 in kg", "m(Fe in Fe2O3)", 19},
      {"mass fraction of N in NH4NO3", "w(N in NH4NO3)", 28},
      {"amount of calcium carbonate = 2 mol", "n(CaCO3)", 27},
      {"mass(NaCl)", "m(NaCl)", 10},
      {"m(aluminium)", "m(Al)", 12},
      {"m(aluminum)", "m(Al)", 11},
      {"m(caesium)", "m(Cs)", 10},
      {"m(cesium)", "m(Cs)", 9},
      {"m(sulphur)", "m(S)", 10},
      {"mass of cesium chloride", "m(CsCl)", 23},
      {"percentage yield to 3 figures", "yield", 16},
      {"percent yield of Fe", "yield(Fe)", 19},
      {"molar volume = 24 L/mol", "Vm", 12},
      {"purity(Na2CO3)", "w(Na2CO3)", 14},
      {"[HCl]", "c(HCl)", 5},
      {"[[Ag(NH3)2]^+]", "c([Ag(NH3)2]^+)", 14},
      {"c_2(KOH)", "c2(KOH)", 8},
      {"c₂(KOH)", "c2(KOH)", 9},
      {"M1(KOH)", "c1(KOH)", 7},
      {"C2", "c2", 2},
      {"P1", "p1", 2},
      {"d(Hg)", "rho(Hg)", 5},
      {"K_sp(AgCl)", "Ksp(AgCl)", 10},
      {"V(KH2PO4 solution)", "V(KH2PO4)", 18},
      {"rho(KH2PO4 solution)", "rho(solution)", 20},
      {"V(nutrient solution)", "V(nutrient solution)", 20},
      {"m(impure Na2CO3)", "m(sample)", 16},
      {"n(gas)", "n(X)", 6},
      {"p(total)", "p", 8},
      {"n(total)", "n(total)", 8},
      {"m(AgCl, obtained)", "m(AgCl, actual)", 17},
      {"m(AgCl, formed)", "m(AgCl)", 15},
      {"mass of AgCl formed", "m(AgCl)", 19},
      {"n(CO, excess)", "n(CO, left)", 13},
      {"m(zinc blende)", "m(zinc blende)", 14},
  };
  for (auto const& row : table) {
    CAPTURE(row.text);
    auto const read = read_quantity(row.text);
    REQUIRE(ok(read));
    CHECK(plain(value(read).quantity) == row.plain);
    CHECK(value(read).length == row.length);
    auto const again = parse_quantity(row.plain);
    REQUIRE(ok(again));
    CHECK(value(again) == value(read).quantity);
  }
}

TEST_CASE("quantity: the longest at the start of a text", "[engine][quantity]") {
  auto const read = read_quantity("c1(HCl) = 0.1 mol/L");
  REQUIRE(ok(read));
  CHECK(value(read).length == 7);
}

TEST_CASE("quantity: what cannot be read says where", "[engine][quantity]") {
  struct Row {
    char const *text, *id, *what;
    std::size_t offset;
  };
  Row const table[] = {
      {"", "unknown-symbol", "no quantity stands here", 0},
      {"Y(NaCl)", "unknown-symbol", "no quantity stands here", 0},
      {"masses(NaCl)", "unknown-symbol", "unknown quantity masses", 0},
      {"[NaCl", "not-a-quantity", "a bracket is not closed", 5},
      {"mass of Xy2", "unknown-element", "unknown element symbol Xy", 8},
      {"gammaO4\xC2\xD6", "unknown-symbol", "unknown quantity gammaO4", 0},  // found by fuzzing: bytes that are not UTF-8
      {"n(NaCl", "not-a-quantity", "a bracket is not closed", 6},
      {"n(Xy2)", "unknown-element", "unknown element symbol Xy", 2},
      {"n( Na Cl)", "not-a-formula", "not a formula", 5},
      {"n(NaCl) or", "not-a-quantity", "something stands after the quantity", 7},
      {"n(NaCl,)", "not-a-quantity", "a word is wanted after the comma", 7},
      {"n(NaCl, 2)", "not-a-quantity", "a word is wanted after the comma", 7},
      {"V1000", "not-a-quantity", "the number of a solution is too large", 4},
  };
  for (auto const& row : table) {
    CAPTURE(row.text);
    auto const read = parse_quantity(row.text);
    REQUIRE(!ok(read));
    CHECK(fault(read).id == row.id);
    CHECK(fault(read).what == row.what);
    CHECK(fault(read).offset == row.offset);
  }
}

TEST_CASE("quantity: each symbol has its dimension and its working unit", "[engine][quantity]") {
  struct Row {
    char const *symbol, *unit;
  };
  Row const table[] = {{"n", "mol"},    {"m", "g"},      {"M", "g/mol"}, {"V", "L"},     {"c", "mol/L"}, {"gamma", "g/L"},
                       {"rho", "g/mL"}, {"b", "mol/kg"}, {"N", ""},      {"yield", "%"}, {"p", "kPa"},   {"T", "K"},
                       {"Vm", "L/mol"}, {"q", "kJ"},     {"w", ""},      {"pH", ""}};
  for (auto const& row : table) {
    CAPTURE(row.symbol);
    Dimension dimension;
    REQUIRE(dimension_of(row.symbol, dimension));
    CHECK(dimension == unit(row.unit).dimension);
    CHECK(working_unit(row.symbol) == unit(row.unit));
  }
  Dimension dimension;
  CHECK(!dimension_of("Z", dimension));
}
