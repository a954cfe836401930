// Equations that lack a substance.
#include "engine/completion.h"

#include "tests/engine/problem_text.h"

using namespace molewright;

TEST_CASE("completion: what balances it in one way alone is added and said", "[engine][completion]") {
  struct Row {
    char const *written, *whole, *note;
  };
  Row const table[] = {
      {"Zn + HCl -> ZnCl2", "Zn + 2HCl -> ZnCl2 + H2", "H2 was added to the products, so that it balances"},
      {"CaCO3 + HCl -> CaCl2", "CaCO3 + 2HCl -> CaCl2 + H2O + CO2",
       "H2O and CO2 were added to the products, so that it balances"},
      {"Na2CO3(aq) + HCl(aq) -> NaCl(aq) + H2O(l)", "Na2CO3(aq) + 2HCl(aq) -> 2NaCl(aq) + H2O(l) + CO2(g)",
       "CO2 was added to the products, so that it balances"},
      {"AgNO3 + NaCl -> AgCl", "AgNO3 + NaCl -> AgCl + NaNO3", "NaNO3 was added to the products, so that it balances"},
      {"CH4 -> CO2 + H2O", "CH4 + 2O2 -> CO2 + 2H2O", "O2 was added to the reactants, so that it balances"},
      {"CH4 + O2 -> CO2", "CH4 + 2O2 -> CO2 + 2H2O", "H2O was added to the products, so that it balances"},
      {"C6H12O6 -> C2H5OH", "C6H12O6 -> 2C2H5OH + 2CO2", "CO2 was added to the products, so that it balances"},
      {"N2 -> NH3", "N2 + 3H2 -> 2NH3", "H2 was added to the reactants, so that it balances"},
      {"CaO -> Ca(OH)2", "CaO + H2O -> Ca(OH)2", "H2O was added to the reactants, so that it balances"},
      {"KMnO4 -> K2MnO4 + MnO2", "2KMnO4 -> K2MnO4 + MnO2 + O2", "O2 was added to the products, so that it balances"},
      {"Fe2O3 + CO -> Fe", "Fe2O3 + 3CO -> 2Fe + 3CO2", "CO2 was added to the products, so that it balances"},
      {"KClO3 -> KCl", "2KClO3 -> 2KCl + 3O2", "O2 was added to the products, so that it balances"},
      {"MnO4^- + Fe^2+ + H^+ -> Mn^2+ + Fe^3+", "MnO4^- + 5Fe^2+ + 8H^+ -> Mn^2+ + 5Fe^3+ + 4H2O",
       "H2O was added to the products, so that it balances"},
  };
  for (auto const& row : table) {
    CAPTURE(row.written);
    auto const written = parse_equation(row.written);
    REQUIRE(ok(written));
    auto const made = completed(value(written), {});
    REQUIRE(made);
    CHECK(plain(made->equation) == row.whole);
    CHECK(note_on(*made) == row.note);
  }
}

TEST_CASE("completion: nothing is added where it would be a guess", "[engine][completion]") {
  for (char const* text : {
           "Mg + HCl -> MgCl",             // there is no MgCl
           "Mg + O2 -> MgN",               // nor anything with which this balances
           "Fe + H2O -> Fe2O3",            // steam gives Fe3O4
           "CaCO3 -> Ca + CO2",            // it gives CaO
           "C -> CO",                      // carbon burns to CO2
           "Cu + HNO3 -> Cu(NO3)2",        // NO from dilute, NO2 from concentrated acid
           "Cu + HNO3 -> Cu(NO3)2 + H2O",  // the same
           "NaCl + KNO3 -> KCl",           // nothing happens
           "C2H5OH -> CH3COOH",            // by oxygen, not by CO2
           "NH3 + O2 -> NO",               // or to nitrogen, as it burns by itself
           "Fe(OH)2 + H2O -> Fe(OH)3",     // by oxygen, or hydrogen comes off
       }) {
    CAPTURE(text);
    auto const written = parse_equation(text);
    REQUIRE(ok(written));
    REQUIRE(!ok(balanced(value(written))));
    CHECK(!completed(value(written), {}));
  }
}

TEST_CASE("completion: a problem with such an equation is worked, and says so", "[engine][completion]") {
  auto const worked =
      test::solved("reaction Zn + HCl -> ZnCl2\ngiven m(Zn) = 6.54 g\nexcess HCl\nfind m(ZnCl2)\nfind m(H2) to 3 figures");
  CHECK(test::answer(worked, 0) == "13.6 g");   // 6.54 × 136.28 / 65.38 = 13.632
  CHECK(test::answer(worked, 1) == "0.202 g");  // 6.54 × 2.016 / 65.38 = 0.20166
  REQUIRE(!worked.warnings.empty());
  CHECK(worked.warnings.front() == "H2 was added to the products, so that it balances");
  auto const refused = test::refused("reaction Mg + O2 -> MgN\ngiven m(Mg) = 2.43 g\nfind m(MgN)");
  CHECK(refused.find("the equation cannot be balanced: O and N stand on one side only\n") != std::string::npos);
}
