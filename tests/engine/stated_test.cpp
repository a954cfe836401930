// Finds that are stated: equations, names, formulas, precipitates, a choice of reagent; and numbers that a question tells.
#include "engine/stated.h"

#include "tests/engine/problem_text.h"

using namespace molewright;

TEST_CASE("stated: what is asked is answered", "[engine][stated]") {
  struct Row {
    char const *text, *answer, *source;
  };
  Row const table[] = {
      {"reaction Fe + O2 -> Fe2O3; find reaction", "4Fe + 3O2 -> 2Fe2O3", "by hand"},
      {"reaction 2 Mg(s) + 2 O2(g) -> MgO(s); find reaction", "2Mg(s) + O2(g) -> 2MgO(s)", "by hand"},
      {"reaction NaCl(aq) + AgNO3(aq); find reaction", "NaCl(aq) + AgNO3(aq) -> AgCl(s) + NaNO3(aq)",
       "OpenStax, Chemistry 2e, 4.2: silver chloride is insoluble, nitrates and sodium salts are soluble"},
      {"reaction BaCl2(aq) + Na2SO4(aq); find ionic equation", "Ba^2+(aq) + SO4^2-(aq) -> BaSO4(s)", "the same"},
      {"reaction Na2CO3 + CaCl2 -> CaCO3 + NaCl; find ionic equation", "CO3^2-(aq) + Ca^2+(aq) -> CaCO3(s)", "the same"},
      {"reaction HCl(aq) + NaOH(aq) -> NaCl(aq) + H2O(l); find ionic equation", "H^+(aq) + OH^-(aq) -> H2O(l)",
       "OpenStax, Chemistry 2e, 4.2"},
      {"reaction CaCO3(s) + HCl(aq) -> CaCl2(aq) + CO2(g) + H2O(l); find ionic equation",
       "CaCO3(s) + 2H^+(aq) -> Ca^2+(aq) + H2O(l) + CO2(g)", "by hand: a solid is not split into ions"},
      {"reaction CH3COOH(aq) + NaOH(aq) -> CH3COONa(aq) + H2O(l); find ionic equation",
       "CH3COOH(aq) + OH^-(aq) -> CH3COO^-(aq) + H2O(l)", "by hand: a weak acid stays whole"},
      {"reaction NaCl(aq) + KNO3(aq); find ionic equation", "none", "solubility rules, OpenStax, Chemistry 2e, 4.2"},
      {"reaction NaCl(aq) + KNO3(aq); find reaction", "none", "the same"},
      {"reaction NaCl(aq) + KNO3(aq); find precipitate", "none", "the same"},
      {"reaction BaCl2(aq) + Na2SO4(aq); find precipitate", "BaSO4", "the same"},
      {"reaction Ba(OH)2(aq) + MgSO4(aq); find precipitate", "BaSO4, Mg(OH)2", "the same: both"},
      {"reaction Zn(s) + CuSO4(aq) -> ZnSO4(aq) + Cu(s); find precipitate", "Cu", "by hand"},
      {"find name of FeCl3", "iron(III) chloride", "Red Book 2005, IR-5.4.2"},
      {"find name of copper(II) sulfate-5-water", "copper(II) sulfate pentahydrate", "Red Book 2005, IR-5.5"},
      {"find formula of iron(III) sulfate marks 2", "Fe2(SO4)3", "charges: 2 x 3 = 3 x 2"},
      {"find formula of Ca(OH)2", "Ca(OH)2", "by hand"},
      {"find formula of dinitrogen tetroxide", "N2O4", "Red Book 2005, IR-5.2"},
      {"find reagent from NaCl | Ba(NO3)2 | KNO3 to precipitate Na2SO4 but not NaCl", "Ba(NO3)2", "solubility rules"},
      {"find reagent from AgNO3 | KNO3 to precipitate NaCl, KBr but not NaNO3, KNO3 marks 1", "AgNO3", "solubility rules"},
  };
  for (auto const& row : table) {
    CAPTURE(row.text, row.source);
    auto const worked = test::solved(row.text);
    CHECK(test::answer(worked) == row.answer);
    CHECK(worked.accepted.front().finds.front().figures == 0);
    // Written and read again it is the same problem.
    auto const again = test::read_problem(print(worked.problem));
    CHECK(print(again) == print(worked.problem));
  }
}

TEST_CASE("stated: the working is lines of words", "[engine][stated]") {
  struct Row {
    char const* text;
    std::vector<std::string> lines;
  };
  Row const table[] = {
      {"reaction Fe + O2 -> Fe2O3; find reaction",
       {"The formulas, each side: Fe + O₂ → Fe₂O₃.",
        "With numbers before the formulas, so that each side has Fe 4, O 6: 4Fe + 3O₂ → 2Fe₂O₃."}},
      {"reaction C + O2 -> CO2; find reaction",
       {"The formulas, each side: C + O₂ → CO₂.", "It balances as it stands, each side with C 1, O 2: C + O₂ → CO₂."}},
      {"reaction Zn + Ag^+ -> Zn^2+ + Ag; find reaction",
       {"The formulas, each side: Zn + Ag⁺ → Zn²⁺ + Ag.",
        "With numbers before the formulas, so that each side has Zn 1, Ag 2, charge 2: Zn + 2Ag⁺ → Zn²⁺ + 2Ag."}},
      {"find formula of iron(III) sulfate",
       {"Fe³⁺ is the iron(III) ion.", "SO₄²⁻ is the sulfate ion.",
        "The charges add up to zero: 2 × 3 − 3 × 2 = 0. The formula of iron(III) sulfate is Fe₂(SO₄)₃."}},
      {"reaction NaCl(aq) + KNO3(aq); find precipitate",
       {"NaNO₃ stays dissolved.", "KCl stays dissolved.", "No precipitate forms."}},
      {"find reagent from NaCl | Ba(NO3)2 to precipitate Na2SO4",
       {"NaCl with Na₂SO₄: no precipitate.", "Ba(NO₃)₂ with Na₂SO₄: a precipitate of BaSO₄.", "The reagent is Ba(NO₃)₂."}},
  };
  for (auto const& row : table) {
    CAPTURE(row.text);
    auto const worked = test::solved(row.text);
    std::vector<std::string> lines;
    for (auto const& step : steps(worked, worked.accepted.front(), 0, {})) lines.push_back(step.text);
    CHECK(lines == row.lines);
  }
}

TEST_CASE("stated: beside numbers, one reaction serves all parts", "[engine][stated]") {
  auto const worked = test::solved(
      "reaction BaCl2(aq) + AgNO3(aq); excess AgNO3; given V(BaCl2) = 40.0 mL; given c(BaCl2) = 0.150 mol/L; find ionic "
      "equation; "
      "find m(AgCl) in g");
  CHECK(test::answer(worked, 0) == "Cl^-(aq) + Ag^+(aq) -> AgCl(s)");
  CHECK(test::answer(worked, 1) == "1.72 g");  // by hand: 0.0400 x 0.150 x 2 x 143.32
}

TEST_CASE("stated: labels do not give the answer away", "[engine][stated]") {
  Conventions british;
  british.naming.spelling = Spelling::sulphur;
  auto const problem = test::read_problem(
      "find formula of sodium sulfate; find name of Na2SO4; reaction Na + Cl2 -> NaCl; find reaction; find ionic equation; find "
      "reagent from NaCl | BaCl2 to precipitate Na2SO4; find precipitate");
  std::vector<std::string> labels;
  for (auto const& find : problem.finds) labels.push_back(find_label(find, british));
  CHECK(labels == std::vector<std::string>{"formula of sodium sulphate", "name of Na₂SO₄", "balanced equation",
                                           "net ionic equation", "reagent", "precipitate"});
}

TEST_CASE("stated: what is told is less exact than the answer", "[engine][stated]") {
  struct Row {
    char const *givens, *text, *words, *answer;
  };
  Row const table[] = {
      {"given V(NaCl) = 25.0 mL; given c(NaCl) = 0.1234 mol/L; show n(NaCl) in mol", "Show that it is about {about n(NaCl)}.",
       "Show that it is about 0.0031 mol.", "0.00309 mol"},
      {"given V(HCl) = 25.0 mL; given n(HCl) = 0.0025 mol; show c(HCl) in mol/L", "about {about c}", "about 0.1 mol/L",
       "0.10 mol/L"},
      {"given c(HCl) = 0.0045 mol/L; show pH", "about {about pH}", "about 2.3", "2.35"},
  };
  for (auto const& row : table) {
    CAPTURE(row.givens);
    auto const worked = test::solved(std::string(row.givens) + "\ntext\n" + row.text + "\nend\n");
    auto const words = wording(worked.problem, {}, &worked.accepted.front());
    REQUIRE(ok(words));
    auto text = value(words);
    for (std::size_t at; (at = text.find("\u00A0")) != std::string::npos;) text.replace(at, 2, " ");
    CHECK(text == row.words);
    CHECK(test::answer(worked) == row.answer);
    CHECK(print(worked.problem).find("\nshow ") != std::string::npos);
  }
}

TEST_CASE("stated: the equation without its numbers, and in words", "[engine][stated]") {
  auto const problem = test::read_problem("reaction 4Fe + 3O2 -> 2Fe2O3\ntext\n{unbalanced equation}; {word equation}\nend\n");
  auto const words = wording(problem, {});
  REQUIRE(ok(words));
  CHECK(value(words) == "Fe + O₂ → Fe₂O₃; iron + oxygen → iron(III) oxide");
}

TEST_CASE("stated: what cannot be answered says why", "[engine][stated]") {
  struct Row {
    char const *text, *id, *part;
  };
  Row const table[] = {
      {"find ionic equation", "no-reaction-line", "there is no reaction for the ionic equation"},
      {"reaction CaSO4 + HCl -> NaCl; find reaction", "no-solution", ""},
      {"reaction AgNO3(aq) + Na2SO4(aq); find precipitate", "borderline", "Ag2SO4 dissolves only slightly"},
      {"find reagent from NaCl | KNO3 to precipitate Na2SO4", "no-reagent", "none of these reagents"},
      {"find reagent from BaCl2 | Ba(NO3)2 to precipitate Na2SO4", "several-reagents", "BaCl2, Ba(NO3)2"},
      {"find reagent from NaCl to precipitate Na2SO4", "bad-statement", "this is not a find"},
      {"find name of unobtainium chloride", "unknown-name", "no name that is known here"},
      {"find formula of XyCl", "unknown-element", ""},
      {"show limiting reagent", "bad-statement", "only a number can be told"},
      {"given V(NaCl) = 2 mL; given c(NaCl) = 0.1 mol/L; show n(NaCl) in mol", "one-figure", "has one figure only"},
      {"given V(NaCl) = 2.0 mL; given c(NaCl) = 0.10 mol/L; show n(NaCl) to 1 figures", "bad-statement", "one figure"},
      {"reaction NaCl(aq) + KNO3(aq); given n(NaCl) = 1.0 mol; find n(KNO3)", "no-products", "has no products"},
      {"reaction BaCl2(aq) + Na2SO4(aq); given n(BaCl2) = 1.0 mol; find n(NaNO3); find precipitate", "missing-data", ""},
  };
  for (auto const& row : table) {
    CAPTURE(row.text);
    auto const message = test::refused(row.text);
    CHECK(message.substr(0, message.find('\n')) == row.id);
    CHECK(message.find(row.part) != std::string::npos);
  }
}
