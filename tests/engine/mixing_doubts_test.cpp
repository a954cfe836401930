// Mixing: why nothing happens, what decided, what is borderline or warned of, what cannot be read.
#include "tests/engine/mixed.h"

namespace molewright {

TEST_CASE("mixing: why nothing happens", "[engine][mixing]") {
  struct No {
    char const* mixture;
    char const* because;
    bool decided;
  };
  No const table[] = {
      {"NaCl + KNO3", "both salts stay dissolved: KCl and NaNO3 are soluble, by the solubility table", true},
      {"NaOH + KNO3", "both salts stay dissolved: KOH and NaNO3 are soluble, by the solubility table", true},
      {"NaCl + KCl", "both hold Cl^-: there is nothing to exchange", true},
      {"HNO3 + NaCl", "nothing leaves the solution: HCl is a strong acid and NaNO3 is soluble, by the solubility table", true},
      {"CH3COOH + NaCl", "CH3COOH is a weaker acid than HCl: it cannot drive it out", true},
      {"CH3COOH + NaF", "CH3COOH is a weaker acid than HF: it cannot drive it out", true},
      {"Cu + HCl", "Cu stands below hydrogen in the activity series, so it does not displace hydrogen from acids", true},
      {"Ag + CuSO4", "Ag stands below Cu in the activity series, so it cannot displace it", true},
      {"Zn + ZnSO4", "Zn is already the metal of the salt", true},
      {"I2 + KCl", "I2 is a weaker oxidant than Cl2, so it cannot displace it", true},
      {"Na + CuSO4", "Na reacts with the water of the solution first: hydrogen and the hydroxide form", true},
      {"Pb + HCl", "PbCl2 covers the metal and does not dissolve: the reaction stops", true},
      {"Cu + H2O", "Cu does not react with water", true},
      {"Au + O2", "Au does not burn, by the activity series table", true},
      {"CuS + HCl", "dilute acids do not dissolve CuS", true},
      {"AgI + NH3", "AgI does not dissolve in NH3: its solubility is too low", true},
      {"NaCl + NH3", "ammonia forms no solid with it: NaOH stays dissolved, by the solubility table", true},
      {"Na2CO3", "Na2CO3 does not fall apart at the heat of a Bunsen burner", true},
      {"NaCl + H2O", "NaCl dissolves in water, by the solubility table; that is no reaction", true},
      {"CaCO3 + H2O", "CaCO3 does not dissolve in water, by the solubility table", true},
      {"NaCl(s) + AgNO3(s)", "two dry solids do not exchange ions: dissolve them first", true},
      {"Mg + HNO3",
       "nitric acid gives no hydrogen with metals but oxides of nitrogen, of a kind that depends on how concentrated it is: the "
       "tables are silent on them",
       false},
      {"AgCl + NaBr", "AgCl is a solid that does not dissolve, and the tables are silent on exchange with it", false},
      {"CuSO4 + NaHCO3", "the tables are silent on Cu(HCO3)2", false},
      {"BaCl2 + K2Cr2O7", "the tables are silent on BaCr2O7", false},
      {"MgCl2·6H2O", "MgCl2·6H2O loses acid along with its water on heating, so that no single equation tells it", false},
      {"Cr2O7^2- + Cl^- in acid", "the tables are silent on this mixture", false},  // bare ions: no exchange is no answer
      {"MnO4^- + Br^-", "the tables are silent on this mixture", false},
      {"C3H8 + Ag + I2", "the tables are silent on this mixture", false},
      {"SiO2 + HCl", "SiO2 is an acidic oxide: it does not react with acids", true},
      {"CO + NaOH", "CO is a neutral oxide: it reacts with no water, acid or base", true},
      {"CO2 + O2", "the tables are silent on this mixture", false},
  };
  for (auto const& row : table) {
    auto const got = mixed(row.mixture);
    CHECK_FALSE(got.reacts);
    CHECK(got.because == row.because);
    CHECK(got.decided == row.decided);
  }
}

TEST_CASE("mixing: what the activity series forbids in water", "[engine][mixing]") {
  struct Displaced {
    char const* element;
    char const* other;
    bool forbidden;
  };
  Displaced const table[] = {
      {"Cu", "HCl", true},     {"Ag", "Al(NO3)3", true}, {"I2", "KBr", true},  {"Zn", "CuSO4", false},
      {"Mg", "HCl", false},    {"Cl2", "KBr", false},    {"Al", "BaO", false},  // no solution: how barium is made
      {"Na", "KCl(l)", false},                                                  // no solution: how potassium is made
      {"C", "ZnSO4", false},                                                    // not in the series
  };
  for (auto const& row : table) {
    CAPTURE(row.element, row.other);
    auto const element = parse_formula(row.element), other = parse_formula(row.other);
    REQUIRE(ok(element));
    REQUIRE(ok(other));
    CHECK(cannot_displace(value(element), value(other)).has_value() == row.forbidden);
  }
}

TEST_CASE("mixing: which table or rule decided, what is borderline, what is warned of", "[engine][mixing]") {
  CHECK(mixed("NaCl + AgNO3").because == "AgCl does not dissolve, by the solubility table");
  CHECK(mixed("Hg(NO3)2 + K2CrO4").because.find("by the rule for CrO4^2-") != std::string::npos);
  for (char const* text : {"CaCl2 + Na2SO4", "AgNO3 + Na2SO4", "Pb(NO3)2 + NaCl", "CaCl2 + NaOH", "CaCO3 + H2SO4", "Sn + HCl"}) {
    CAPTURE(text);
    CHECK(mixed(text).borderline);
  }
  for (char const* text : {"BaCl2 + Na2SO4", "AgNO3 + NaCl", "CuSO4 + NaOH", "HCl + NaOH", "Mg + HCl"}) {
    CAPTURE(text);
    CHECK_FALSE(mixed(text).borderline);
  }
  struct Warned {
    char const* mixture;
    char const* text;
  };
  Warned const table[] = {
      {"NaCl(s) + AgNO3(aq)", "NaCl dissolves in water: (s) is kept as written"},
      {"AgCl(aq) + NH3", "AgCl does not dissolve by the solubility table: taken as AgCl(s)"},
      {"CaCO3 + H2SO4", "a layer of CaSO4 on the solid may stop the reaction early"},
      {"NaCN + HCl", "HCN kills in small amounts: never mix a cyanide with an acid"},
      {"NaClO + HCl", "Cl2 is toxic"},
      {"CuSO4 + Na2CO3", "in practice a basic carbonate precipitates"},
      {"ZnCl2 + NaOH", "with much more NaOH the solid Zn(OH)2 dissolves again, as [Zn(OH)4]^2-"},
      {"AlCl3 + KOH", "with much more KOH the solid Al(OH)3 dissolves again, as [Al(OH)4]^-"},
      {"Ca(OH)2 + HCl", "Ca(OH)2 dissolves only slightly: Ca(OH)2(aq) is its clear, dilute solution"},
      {"KMnO4 + FeSO4", "acid is needed: H^+ stands for what the acid gives"},
      {"NaOH + H2SO4 -> K2SO4", "K2SO4 does not form here by the tables"},
      {"3 HCl + 2 NaOH", "the numbers written before the reactants are not those of the equation"},
      {"HCl + NaOH + NaCl", "only HCl with NaOH reacts; the rest stands by and is left out"},
      {"K + HCl", "K with acid is violent: not done at school"},
  };
  for (auto const& row : table) {
    CAPTURE(row.mixture);
    CHECK(says(mixed(row.mixture).warnings, row.text));
  }
  Warned const seen[] = {
      {"CuSO4 + NaOH", "a blue solid forms: Cu(OH)2"},
      {"Na2CO3 + HCl", "bubbles of a colourless gas (CO2) that turns limewater milky"},
      {"Zn + CuSO4", "a red-brown solid (Cu)"},
      {"KMnO4 + FeSO4 + H2SO4", "the solution turns from purple to yellow-brown"},
      {"KMnO4 + H2O2 + H2SO4", "the solution turns from purple to very pale pink"},
      {"CuSO4 + NH3", "a little NH3 gives a pale blue solid, Cu(OH)2, which more of it dissolves"},
      {"CuSO4 + NH3", "the solution turns from blue to deep blue"},
      {"FeCl3 + KSCN", "the solution turns from yellow-brown to blood red"},
      {"Cl2 + KI", "the solution turns from pale green to brown"},
      {"I2 + Na2S2O3", "the brown of I2 fades"},
      {"CuSO4·5H2O", "the blue crystals crumble to a white powder"},
      {"CoCl2·6H2O", "the pink crystals crumble to a blue powder"},
      {"FeSO4·7H2O", "steam leaves and condenses to drops on cooler glass"},
      {"BaCO3", "a white solid is left: BaO"},
      {"limewater + CO2", "the clear limewater turns milky: fine white CaCO3"},
      {"AgNO3 + NaCl", "a white solid forms: AgCl (darkens in light)"},
      {"HCl + NaOH", "nothing but a rise in temperature; an indicator changes colour"},
  };
  for (auto const& row : seen) {
    CAPTURE(row.mixture);
    CHECK(says(mixed(row.mixture).observations, row.text));
  }
}

TEST_CASE("mixing: each salt that stays dissolved says by which table or rule", "[engine][mixing]") {
  struct Row {
    char const *mixture, *formula, *by;
  };
  Row const table[] = {
      {"NaCl + KNO3", "NaNO3", "the solubility table"},
      {"Y(NO3)3 + NaCl", "YCl3", "table of solubilities), which does not name Y^3+"},
      {"Y2(SO4)3 + NaNO3", "Y(NO3)3", "the rule for NO3^- (OpenStax"},  // all nitrates
      {"RbNO3 + LiCl", "RbCl", "the rule for Rb^+ (OpenStax"},
      {"HNO3 + NaCl", "HCl", "the table of acids"},
  };
  for (auto const& row : table) {
    CAPTURE(row.mixture);
    auto const got = mixed(row.mixture);
    CHECK_FALSE(got.reacts);
    auto const found = std::find_if(got.dissolved.begin(), got.dissolved.end(),
                                    [&](StaysDissolved const& stays) { return stays.formula == row.formula; });
    REQUIRE(found != got.dissolved.end());
    CAPTURE(found->by, got.because);
    CHECK(found->by.find(row.by) != std::string::npos);
    if (row.formula != std::string("HCl")) CHECK(got.because.find(found->by) != std::string::npos);
  }
  CHECK(mixed("Y(NO3)3 + NaCl").borderline);
  CHECK_FALSE(mixed("NaCl + KNO3").borderline);
  // Fluorides of the rare earths, and iodides of noble metals, fall out: Ksp, and from memory.
  for (char const* text : {"Y(NO3)3 + NaF", "La(NO3)3 + NaF", "Ce(NO3)3 + KF", "Pd(NO3)2 + KI"}) {
    CAPTURE(text);
    CHECK(mixed(text).kind == "precipitation");
  }
  for (char const* text : {"Ni(NO3)2 + NaF", "Cu(NO3)2 + NaF", "Fe(NO3)2 + NaF"}) {  // lists differ
    CAPTURE(text);
    CHECK(mixed(text).borderline);
  }
}

TEST_CASE("mixing: dry reactions speak of no solution, and nothing is said twice", "[engine][mixing]") {
  for (char const* text :
       {"Fe + S", "Mg + O2", "CH4 + O2", "CaCO3", "Cu(NO3)2", "Na + Cl2", "Fe + Cl2", "CuO + H2", "CaSO4·2H2O", "Ca(OH)2"}) {
    auto const got = mixed(text);
    CAPTURE(text);
    REQUIRE(got.reacts);
    CHECK_FALSE(got.borderline);
    for (auto const* list : {&got.observations, &got.warnings})
      for (auto const& line : *list) {
        CAPTURE(line);
        CHECK(line.find("solution") == std::string::npos);
        CHECK(line.find("hydrate") == std::string::npos);
        CHECK(line.find("dissolves") == std::string::npos);
      }
    auto const named = std::count_if(got.observations.begin(), got.observations.end(),
                                     [](std::string const& line) { return line.find("solid") != std::string::npos; });
    CHECK(named <= 1);
  }
  for (char const* text : {"LiNO3(s)", "NaCl(s)", "NaCl(s) + AgNO3(s)"}) {  // there is no water
    CAPTURE(text);
    CHECK_FALSE(says(mixed(text).warnings, "dissolves in water"));
  }
  CHECK(mixed("limewater + CO2").borderline == false);
  CHECK(mixed("Ca(OH)2 + HCl").borderline);
}

TEST_CASE("mixing: one substance is heated, with or without the word", "[engine][mixing]") {
  for (char const* text : {"NaHCO3 (heat)", "heat NaHCO3", "NaHCO3 + heat", "NaHCO3(s) (heated)", "NaHCO3 on heating",
                           "NaHCO3 (Δ)", "sodium hydrogencarbonate (heat)", "NaHCO3 (heat) -> Na2CO3"}) {
    CAPTURE(text);
    auto const read = read_mixture(text);
    REQUIRE(ok(read));
    CHECK(value(read).reactants.size() == 1);
    CHECK(plain(value(read).reactants.front().formula) == "NaHCO3");
  }
}

TEST_CASE("mixing: what cannot be read, the exact text", "[engine][mixing][bad-input]") {
  struct Bad {
    char const* text;
    char const* id;
    char const* said;
    std::size_t offset;
  };
  Bad const table[] = {
      {"", "no-reactants", "there are no reactants, expected formulas or names joined by +", 0},
      {"  ", "no-reactants", "there are no reactants, expected formulas or names joined by +", 2},
      {"-> NaCl", "no-reactants", "there are no reactants, expected formulas or names joined by +", 0},
      {"AgNO3 + ", "missing-term", "a formula is missing, expected a formula on each side of +", 7},
      {"AgNO3 + + NaCl", "missing-term", "a formula is missing, expected a formula on each side of +", 8},
      {"AgNO3 + Xy", "unknown-element", "unknown element symbol Xy, expected an element symbol", 8},
      {"Ca(OH + HCl", "bracket-not-closed", "bracket not closed, expected ')'", 5},
      {"NaCl + NaCl2", "unbalanced-charge", "the charges in NaCl\u2082 do not add up: Na^+ and 2 Cl^- leave 1-, expected NaCl",
       7},
      {"barium chlorid + AgNO3", "unknown-name",
       "\"barium chlorid\" is no name that is known here, expected barium chloride, barium chlorite or barium chlorate", 0},
      {"e^- + Na^+", "not-a-formula", "an electron is no substance to mix, expected a formula, such as NaCl or SO4^2-", 0},
      {"H2 + O2 + N2 + Cl2 + Br2 + I2 + F2", "too-many-reactants",
       "more than 6 reactants, expected the reactants of one reaction at a time", 0},
      {"heat CuO + H2", "unclear-heat",
       "what heat changes where several substances meet is not known here, expected one substance that is heated, as in NaHCO3 "
       "(heat), or no word on heat",
       5},
      {"Na\xFF + Cl2", "invalid-utf8", "the text is not UTF-8, expected text saved as UTF-8", 2},
  };
  for (auto const& row : table) {
    CAPTURE(row.text);
    auto const read = read_mixture(row.text);
    REQUIRE_FALSE(ok(read));
    CHECK(fault(read).id == row.id);
    CHECK(sentence(fault(read)) == row.said);
    CHECK(fault(read).offset == row.offset);
  }
  auto const several = read_mixture("BaCl2 + AgNO3 + Na2SO4");
  REQUIRE(ok(several));
  auto const mixing = mix(value(several));
  REQUIRE_FALSE(ok(mixing));
  CHECK(fault(mixing).id == "more-than-one-reaction");
  CHECK(fault(mixing).what == "more than one reaction can happen here: BaCl2 with AgNO3, and BaCl2 with Na2SO4");
}

}  // namespace molewright
