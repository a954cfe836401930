// The solver on its own: every relation each way round, chains, choices, alternatives, figures, and what cannot be worked.
#include "engine/solver.h"

#include <algorithm>
#include <set>

#include "engine/network.h"
#include "engine/relation_table.h"
#include "tests/engine/problem_text.h"

using namespace molewright;
using test::answer;
using test::refused;
using test::solved;

TEST_CASE("solver: every relation, solved for each of its quantities", "[engine][solver]") {
  // M(NaCl) = 22.990 + 35.45 = 58.44 g/mol, M(CuSO4·5H2O) = 249.677 g/mol (IUPAC abridged weights); N_A exact (SI Brochure).
  struct Row {
    char const *text, *answer;
  };
  Row const table[] = {
      {"given m(NaCl) = 5.844 g; find n(NaCl)", "0.1000 mol"},
      {"given n(NaCl) = 0.1000 mol; find m(NaCl)", "5.844 g"},
      {"given m(X) = 2.50 g; given n(X) = 0.0250 mol; find M(X)", "1.00e2 g/mol"},
      {"given c(NaCl) = 0.100 mol/L; given V(NaCl) = 250 mL; find n(NaCl)", "0.0250 mol"},
      {"given n(NaCl) = 0.0250 mol; given V(NaCl) = 250 mL; find c(NaCl)", "0.100 mol/L"},
      {"given n(NaCl) = 0.0250 mol; given c(NaCl) = 0.100 mol/L; find V(NaCl)", "2.50e2 mL"},
      {"given n(NaCl) = 2.00 mol; find N(NaCl)", "1.20e24"},
      {"given N(NaCl) = 1.204428152e24; find n(NaCl)", "2.000000000 mol"},
      {"given m(NaCl) = 9.0 g; given V(NaCl) = 1.000 L; find gamma(NaCl)", "9.0 g/L"},
      {"given gamma(NaCl) = 9.0 g/L; given V(NaCl) = 500.0 mL; find m(NaCl)", "4.5 g"},
      {"given gamma(NaCl) = 9.0 g/L; given m(NaCl) = 4.5 g; find V(NaCl) in L", "0.50 L"},
      {"given c(NaCl) = 0.100 mol/L; find gamma(NaCl)", "5.84 g/L"},
      {"given gamma(NaCl) = 5.844 g/L; find c(NaCl)", "0.1000 mol/L"},
      {"given c(X) = 0.100 mol/L; given gamma(X) = 5.84 g/L; find M(X)", "58.4 g/mol"},
      {"given c1(KOH) = 2.00 mol/L; given V1 = 25.0 mL; given V2 = 250.0 mL; find c2", "0.200 mol/L"},
      {"given c1(KOH) = 2.00 mol/L; given V1 = 25.0 mL; given c2 = 0.200 mol/L; find V2", "2.50e2 mL"},
      {"given c1(KOH) = 2.00 mol/L; given c2 = 0.200 mol/L; given V2 = 250.0 mL; find V1", "25.0 mL"},
      {"given V1(KOH) = 25.0 mL; given c2 = 0.200 mol/L; given V2 = 0.2500 L; find c1", "2.00 mol/L"},
      {"given gamma1(KOH) = 9.0 g/L; given V1 = 25.0 mL; given V2 = 250.0 mL; find gamma2", "0.90 g/L"},
      {"given c1(KOH) = 2.00 mol/L; given V1 = 25.0 mL; given V(H2O, added) = 75.0 mL; find c2", "0.500 mol/L"},
      {"given c1(KOH) = 2.00 mol/L; given V1 = 25.0 mL; given c2(KOH) = 0.500 mol/L; find V(H2O, added)", "75 mL"},
      {"given c1(NaCl) = 0.100 mol/L; given V1 = 50.0 mL; given c2 = 0.300 mol/L; given V2 = 150.0 mL; mix 1 + 2 -> 3; find c3",
       "0.250 mol/L"},
      {"given m(CuSO4·5H2O) = 24.9677 g; given V(CuSO4) = 500.0 mL; find c(CuSO4)", "0.2000 mol/L"},
      {"given c(CuSO4) = 0.2000 mol/L; given V(CuSO4) = 500.0 mL; find m(CuSO4·5H2O)", "24.97 g"},
      {"given V(HCl) = 24.65 - 1.20 mL; given c(HCl) = 0.1000 mol/L; find n(HCl) in mmol", "2.345 mmol"},
      {"given V(HCl) = mean of 23.45 | 23.50 | 23.40 mL; given c(HCl) = 0.1000 mol/L; find n(HCl) in mmol", "2.345 mmol"},
      {"find M(Ca(NO3)2)", "164.086 g/mol"},
      {"find M(CuSO4·5H2O) to 4 figures", "249.7 g/mol"},
  };
  for (auto const& row : table) {
    CAPTURE(row.text);
    CHECK(answer(solved(row.text)) == row.answer);
  }
}

TEST_CASE("solver: reactions", "[engine][solver]") {
  struct Row {
    char const* text;
    std::vector<char const*> answers;
  };
  Row const table[] = {
      // n(AgCl) = 2 n(BaCl2); M(AgCl) = 143.32 g/mol
      {"reaction BaCl2 + AgNO3 -> AgCl + Ba(NO3)2; given V(BaCl2) = 40.0 mL; given c(BaCl2) = 0.150 mol/L; excess AgNO3; "
       "find n(BaCl2); find m(AgCl); find m(AgCl) in mg to 4 figures",
       {"0.00600 mol", "1.72 g", "1.720e3 mg"}},
      {"reaction BaCl2 + AgNO3 -> AgCl + Ba(NO3)2; given m(AgCl) = 1.7198 g; given V(BaCl2) = 40.00 mL; find c(BaCl2)",
       {"0.1500 mol/L"}},
      // n/nu: 0.10 and 0.15: BaCl2 limits; and the other way
      {"reaction BaCl2 + AgNO3 -> AgCl + Ba(NO3)2; given n(BaCl2) = 0.100 mol; given n(AgNO3) = 0.300 mol; find limiting "
       "reagent; "
       "find n(AgCl); find n(AgNO3, left); find n(BaCl2, left)",
       {"BaCl2", "0.200 mol", "0.100 mol", "0.000 mol"}},
      {"reaction BaCl2 + AgNO3 -> AgCl + Ba(NO3)2; given n(BaCl2) = 0.200 mol; given n(AgNO3) = 0.300 mol; find limiting "
       "reagent; "
       "find n(AgCl); find n(BaCl2, left); find m(BaCl2, left)",
       {"AgNO3", "0.300 mol", "0.050 mol", "1.0e1 g"}},
      // a reagent in excess whose amount is known
      {"reaction Mg + HCl -> MgCl2 + H2; given n(Mg) = 0.0500 mol; given V(HCl) = 150.0 mL; given c(HCl) = 1.00 mol/L; excess "
       "HCl; find n(H2); find n(HCl, left); find n(HCl, used)",
       {"0.0500 mol", "0.050 mol", "0.100 mol"}},
      // a chain of two reactions, and back: M(N2) = 28.014, M(NH4Cl) = 53.489 g/mol
      {"reaction N2 + H2 -> NH3; reaction NH3 + HCl -> NH4Cl; given m(N2) = 28.014 g; excess H2, HCl; find m(NH4Cl)",
       {"106.98 g"}},
      {"reaction N2 + H2 -> NH3; reaction NH3 + HCl -> NH4Cl; given m(NH4Cl) = 106.978 g; find m(N2)", {"28.0140 g"}},
      // limiting reagents in both reactions
      {"reaction N2 + H2 -> NH3; reaction NH3 + HCl -> NH4Cl; given n(N2) = 2.00 mol; given n(H2) = 3.00 mol; given n(HCl) = "
       "5.00 "
       "mol; find limiting reagent; find n(NH4Cl)",
       {"H2", "2.00 mol"}},
      {"reaction N2 + H2 -> NH3; reaction NH3 + HCl -> NH4Cl; given n(N2) = 2.00 mol; excess H2; given n(HCl) = 3.00 mol; find "
       "limiting reagent; find n(NH4Cl)",
       {"HCl", "3.00 mol"}},
      // yield both ways: M(CaCO3) = 100.086, M(CaO) = 56.077 g/mol
      {"reaction CaCO3 -> CaO + CO2; given m(CaCO3) = 100.086 g; given m(CaO, actual) = 50.0 g; find yield(CaO)", {"89.2 %"}},
      {"reaction CaCO3 -> CaO + CO2; given m(CaCO3) = 100.086 g; given yield(CaO) = 50.0 %; find m(CaO, actual); find n(CO2)",
       {"28.0 g", "1.00000 mol"}},
      {"reaction CaCO3 -> CaO + CO2; given m(CaO, actual) = 28.0385 g; given yield(CaO) = 50.00 %; find m(CaCO3)", {"100.1 g"}},
      {"reaction CaCO3 -> CaO + CO2; given m(CaCO3) = 100.086 g; find m(CaO, theoretical)", {"56.0770 g"}},
      // ions
      {"reaction MnO4^- + Fe^2+ + H^+ -> Mn^2+ + Fe^3+ + H2O; given V(MnO4^-) = 25.00 mL; given c(MnO4^-) = 0.0200 mol/L; excess "
       "H^+; find n(Fe^2+)",
       {"0.00250 mol"}},
      // an equation that balances in more than one way is taken as its author balanced it
      {"reaction C8H3 + C4H2 -> C10H3 + C2H2; given n(C8H3) = 2.0 mol; excess C4H2; find n(C2H2)", {"2.0 mol"}},
  };
  for (auto const& row : table) {
    CAPTURE(row.text);
    auto const worked = solved(row.text);
    REQUIRE(worked.accepted.front().finds.size() == row.answers.size());
    for (std::size_t f = 0; f < row.answers.size(); ++f) {
      CAPTURE(f);
      CHECK(answer(worked, f) == row.answers[f]);
    }
  }
}

TEST_CASE("solver: chains of dilutions", "[engine][solver]") {
  auto const worked = solved(
      "given c1(KOH) = 2.00 mol/L; given V1 = 25.0 mL; given V2 = 250.0 mL; given V2(KOH, taken) = 10.00 mL; given V3 = 0.1000 "
      "L; "
      "given V3(KOH, taken) = 5.00 mL; given V4 = 50.0 mL; dilute 1 -> 2; dilute 2 -> 3; dilute 3 -> 4; find c2; find c3 in "
      "mmol/L; "
      "find c4; find n4");
  CHECK(answer(worked, 0) == "0.200 mol/L");
  CHECK(answer(worked, 1) == "20.0 mmol/L");
  CHECK(answer(worked, 2) == "0.00200 mol/L");
  CHECK(answer(worked, 3) == "0.000100 mol");
  auto const stock = solved(
      "given m(CuSO4·5H2O) = 12.48385 g; given V1(CuSO4) = 250.0 mL; given V1(CuSO4, taken) = 10.00 mL; given V2 = 100.0 mL; "
      "find "
      "c1; find c2");
  CHECK(answer(stock, 0) == "0.2000 mol/L");
  CHECK(answer(stock, 1) == "0.02000 mol/L");
}

TEST_CASE("solver: units of all kinds, in and out", "[engine][solver]") {
  struct Row {
    char const *text, *answer;
  };
  Row const table[] = {
      {"given m(NaCl) = 5844 mg; find n(NaCl) in mmol", "100.0 mmol"},
      {"given m(NaCl) = 0.005844 kg; find n(NaCl)", "0.1000 mol"},
      {"given n(NaCl) = 100.0 µmol; find m(NaCl) in ug", "5844 ug"},
      {"given c(NaCl) = 0.100 mol dm-3; given V(NaCl) = 50.0 cm3; find n(NaCl)", "0.00500 mol"},
      {"given c(NaCl) = 100 mM; given V(NaCl) = 50.0 mL; find n(NaCl)", "0.00500 mol"},
      {"given n(NaCl) = 0.00500 mol; given V(NaCl) = 50.0 mL; find c(NaCl) in mmol/L", "1.00e2 mmol/L"},
      {"given n(NaCl) = 0.00500 mol; given c(NaCl) = 0.100 mol/L; find V(NaCl) in cm3", "50.0 cm3"},
      {"given m(NaCl) = 9.00 g; given V(NaCl) = 1.00 L; find gamma(NaCl) in g/100 mL", "0.900 g/100 mL"},
      {"given gamma(NaCl) = 900 mg/L; given V(NaCl) = 100.0 mL; find m(NaCl) in mg", "90.0 mg"},
      {"given M(X) = 0.0500 kg/mol; given n(X) = 2.00 mol; find m(X)", "1.00e2 g"},
  };
  for (auto const& row : table) {
    CAPTURE(row.text);
    CHECK(answer(solved(row.text)) == row.answer);
  }
}

TEST_CASE("solver: figures of an answer follow the data", "[engine][solver]") {
  struct Row {
    char const *text, *answer;
  };
  Row const table[] = {
      {"given c(HCl) = 0.1 mol/L; given V(HCl) = 25.00 mL; find n(HCl)", "0.003 mol"},  // 0.0025, a tie, half up
      {"given c(HCl) = 0.1234 mol/L; given V(HCl) = 2.0 mL; find n(HCl) in mmol", "0.25 mmol"},
      {"given V(HCl) = 24.65 - 23.20 mL; given c(HCl) = 0.1000 mol/L; find n(HCl) in mmol", "0.145 mmol"},
      {"given n(NaCl) = 2.5e-3 mol; find m(NaCl)", "0.15 g"},
      {"given n(NaCl) = 3 mol; find m(NaCl) to 4 figures", "175.3 g"},
      {"given c1(NaCl) = 1.00 mol/L; given V1 = 9.96 mL; given V(H2O, added) = 0.04 mL; find c2", "0.996 mol/L"},
  };
  for (auto const& row : table) {
    CAPTURE(row.text);
    CHECK(answer(solved(row.text)) == row.answer);
  }
  Conventions even;
  even.ties = Ties::half_even;
  CHECK(answer(solved("given c(HCl) = 0.1 mol/L; given V(HCl) = 25.00 mL; find n(HCl)", even)) == "0.002 mol");
}

TEST_CASE("solver: parts share their nodes, and every node reads only earlier ones", "[engine][solver]") {
  auto const worked = solved(
      "reaction BaCl2 + AgNO3 -> AgCl + Ba(NO3)2; given V(BaCl2) = 40.0 mL; given c(BaCl2) = 0.150 mol/L; given m(AgNO3) = 1.50 "
      "g; "
      "find n(BaCl2); find m(AgCl); find m(BaCl2, left)");
  for (auto const& working : worked.accepted) {
    std::set<std::string> ids;
    for (std::size_t i = 0; i < working.nodes.size(); ++i) {
      CHECK(ids.insert(working.nodes[i].id).second);
      for (auto const& term : working.nodes[i].definition.terms) CHECK(static_cast<std::size_t>(term.node) < i);
    }
    REQUIRE(working.given_nodes.size() == 3);
    CHECK(working.nodes[static_cast<std::size_t>(working.given_nodes[2].at(0))].id == "m(AgNO3)");
  }
  auto const& working = worked.accepted.front();
  for (char const* id :
       {"V(BaCl2)",       "c(BaCl2)",      "nu(BaCl2)",        "nu(AgNO3)",          "nu(AgCl)",           "nu(Ba(NO3)2)",
        "A(Ag)",          "M(NO3)",        "M(AgCl)",          "M(Ba(NO3)2)",        "V(BaCl2) in L",      "n(BaCl2)",
        "n/nu(BaCl2)",    "n/nu(AgNO3)",   "limiting reagent", "n(AgCl) from BaCl2", "n(AgCl) from AgNO3", "n(AgCl)",
        "n(BaCl2, used)", "n(BaCl2, left)"}) {
    CAPTURE(id);
    CHECK(test::node_named(working, id) != nullptr);
  }
  CHECK(working.chosen == std::vector<std::string>{"BaCl2", "AgNO3"});
  CHECK(test::node_named(working, "V(BaCl2) in L")->definition.factor == Rational(1, 1000));
}

TEST_CASE("solver: other accepted workings lead to the same answer by other relations", "[engine][solver]") {
  auto const relations_of = [](Working const& working) {
    std::set<std::string> out;
    for (int index : order_of_work(working, 0)) out.insert(working.nodes[static_cast<std::size_t>(index)].relation);
    return out;
  };
  auto const has = [&](Worked const& worked, char const* relation) {
    return std::any_of(worked.accepted.begin() + 1, worked.accepted.end(),
                       [&](Working const& w) { return relations_of(w).count(relation) == 1; });
  };
  auto const dilution = solved("given c1(KOH) = 2.00 mol/L; given V1 = 25.0 mL; given V2 = 250.0 mL; find c2");
  CHECK(relations_of(dilution.accepted.front()).count("c1V1 = c2V2") == 1);
  CHECK(has(dilution, "n = cV"));
  auto const masses = solved("reaction Zn + HCl -> ZnCl2 + H2; given m(Zn) = 6.538 g; excess HCl; find m(ZnCl2)");
  CHECK(relations_of(masses.accepted.front()).count(relations::mole_ratio) == 1);
  CHECK(has(masses, "mass ratio"));
  for (auto const* worked : {&dilution, &masses})
    for (auto const& working : worked->accepted) {
      auto const &a = test::answer_node(working).value, &b = test::answer_node(worked->accepted.front()).value;
      CHECK(a.number * a.unit.factor == b.number * b.unit.factor);
    }
}

TEST_CASE("solver: a tie in the limiting choice takes the first and says so", "[engine][solver]") {
  auto const worked = solved(
      "reaction BaCl2 + AgNO3 -> AgCl + Ba(NO3)2; given n(AgNO3) = 0.200 mol; given n(BaCl2) = 0.100 mol; find limiting reagent; "
      "find n(AgCl)");
  CHECK(answer(worked, 0) == "BaCl2");
  CHECK(answer(worked, 1) == "0.200 mol");
  CHECK(worked.warnings == std::vector<std::string>{"no one reagent limits: their amounts are in the ratio of the equation"});
}

TEST_CASE("solver: more data than needed may differ within their figures; only workings from the same data are accepted",
          "[engine][solver]") {
  auto const worked = solved(
      "reaction BaCl2 + AgNO3 -> AgCl + Ba(NO3)2; given n(BaCl2) = 0.0120 mol; given m(AgCl) = 3.44 g; excess AgNO3; find "
      "n(AgCl)");
  for (auto const& working : worked.accepted)
    CHECK(test::answer_node(working).value.number == test::answer_node(worked.accepted.front()).value.number);
}

TEST_CASE("solver: warnings", "[engine][solver]") {
  auto const worked = solved("given n(NaCl) = 0.100 mol; given V(NaCl) = 500 mL; find m(NaCl)");
  CHECK(worked.warnings ==
        std::vector<std::string>{"V(NaCl) is given but not needed",
                                 "V(NaCl) = 500 mL may have fewer figures than are written; all that are written are taken"});
  CHECK(solved("given n(NaCl) = 0.100 mol; find m(NaCl)").warnings.empty());
}

TEST_CASE("solver: a student's own reading is put in later", "[engine][solver]") {
  std::string const text = "given V(HCl) = measured mL; given c(HCl) = 0.1000 mol/L; find n(HCl) in mmol";
  // Until then an example stands for it; where none is usual, the author gives one.
  auto const example = solved(text);
  CHECK(answer(example) == "2.460 mmol");
  CHECK(example.warnings == std::vector<std::string>{"V(HCl) is the student's own reading: 24.60 mL stands for it"});
  CHECK(refused("given n(HCl) = measured mol; given V(HCl) = 10.0 mL; find c(HCl)").rfind("needs-reading\np:1:7: n(HCl)", 0) ==
        0);
  auto problem = test::read_problem(text);
  problem.givens[0].numbers.push_back(value(parse_decimal("23.45")));
  auto const result = solve(problem, {});
  REQUIRE(std::holds_alternative<Worked>(result));
  CHECK(answer(std::get<Worked>(result)) == "2.345 mmol");
  CHECK(test::node_named(std::get<Worked>(result).accepted.front(), "V(HCl)")->relation == relations::given);
}

TEST_CASE("solver: new numbers in a plan are worked like a problem of their own", "[engine][solver]") {
  std::string const lines =
      "reaction BaCl2 + AgNO3 -> AgCl + Ba(NO3)2; given n(BaCl2) = @ mol; given m(AgNO3) = # g; find m(AgCl); "
      "find limiting reagent";
  auto const with = [&](std::string const& n, std::string const& m) {
    auto text = lines;
    text.replace(text.find('@'), 1, n);
    text.replace(text.find('#'), 1, m);
    return text;
  };
  auto const plan = solved(with("0.0100", "1.50"));
  for (auto const& [n, m] : {std::pair{"0.00100", "2.75"}, std::pair{"0.0250", "1.1"}, std::pair{"1.5", "169.874"}}) {
    auto const fresh = solved(with(n, m));
    auto const again = rework(plan, test::read_problem(with(n, m)), {});
    REQUIRE(std::holds_alternative<Worked>(again));
    for (std::size_t f = 0; f < 2; ++f) CHECK(answer(std::get<Worked>(again), f) == answer(fresh, f));
  }
}

TEST_CASE("solver: what cannot be worked says what, where and what would help", "[engine][solver]") {
  std::string const exchange = "reaction BaCl2 + AgNO3 -> AgCl + Ba(NO3)2\n";
  std::string const nested = "reaction " + std::string(400, '(') + "H2" + std::string(400, ')') + " + O2 -> H2O";
  std::string const long_number = "given n(HCl) = " + std::string(300, '7') + " mol\nfind m(HCl)";
  struct Row {
    std::string text, shown;
  };
  Row const table[] = {
      {"given m(NaCl) = 5.85 g\nfind c(NaCl)",
       "missing-data\np:2:6: there is too little to find c(NaCl) from, expected V(NaCl)\n  find c(NaCl)\n       "
       "^"},
      {exchange + "given V(BaCl2) = 5.85 mL\nfind m(AgCl)",
       "missing-data\np:3:6: there is too little to find m(AgCl) from, expected c(BaCl2) or gamma(BaCl2)\n  "
       "find "
       "m(AgCl)\n       ^"},
      {exchange + "given n(BaCl2) = 1.0 mol\nfind limiting reagent",
       "missing-data\np:3:6: there is too little to find the limiting reagent from, expected m(AgNO3) or n(AgNO3)\n  find "
       "limiting "
       "reagent\n       ^"},
      {"find c(NaCl)",
       "missing-data\np:1:6: there is too little to find c(NaCl) from, expected gamma(NaCl), or m(NaCl) and V(NaCl)\n  find "
       "c(NaCl)\n       ^"},
      {"given m(NaCl) = 5.85 g\ngiven n(NaCl) = 0.200 mol\nfind N(NaCl)",
       "contradiction\np:1:7: m(NaCl) = 5.85 g and n(NaCl) = 0.200 mol contradict each other: by n = m/M, m(NaCl) would be 11.69 "
       "g, "
       "99.8 % more\n  given m(NaCl) = 5.85 g\n        ^"},
      {"given c1(KOH) = 2.00 mol/L\ngiven V1 = 25.0 mL\ngiven c2 = 0.500 mol/L\ngiven V2 = 250.0 mL\nfind n2(KOH)",
       "contradiction\np:3:7: c2(KOH) = 0.500 mol/L and c1(KOH) = 2.00 mol/L contradict each other: by c1V1 = c2V2, c2(KOH) "
       "would be "
       "0.2 mol/L, 60 % less\n  given c2 = 0.500 mol/L\n        ^"},
      {"reaction Mg + HCl -> MgCl2 + H2\ngiven n(Mg) = 0.0500 mol\ngiven n(HCl) = 0.0150 mol\nexcess HCl\nfind n(H2)",
       "contradiction\np:3:7: HCl is said to be in excess, but 0.1 mol of it would be used and only 0.015 mol is there\n  given "
       "n(HCl) "
       "= 0.0150 mol\n        ^"},
      {"given c1(KOH) = 2.00 mol/L\ngiven V1 = 25.0 mL\ngiven c2 = 4.00 mol/L\nfind V(H2O, added)",
       "not-positive\np:4:6: V(H2O, added) comes out below zero, expected data that agree\n  find V(H2O, added)\n       ^"},
      {"given n(HCl) = 1.0 mol",
       "no-find\np:1:1: nothing is asked, expected a line such as find m(AgCl) in g\n  given n(HCl) = 1.0 "
       "mol\n  ^"},
      {"given n(HCl) = 1.0 mol\ngiven n(HCl) = 1.0 mol\nfind N(HCl)",
       "given-twice\np:2:7: n(HCl) is given twice, expected one value\n  given n(HCl) = 1.0 mol\n        ^"},
      {"reaction H2 + O2 -> NaCl\ngiven n(H2) = 1.0 mol\nfind n(NaCl)",
       "no-solution\np:1:10: the equation cannot be balanced: H, O, Cl and Na stand on one side only\n  reaction H2 + O2 -> "
       "NaCl\n     "
       "      ^"},
      {"reaction H2O2 + MnO2 -> H2O + O2 + MnO2\ngiven n(H2O2) = 1.0 mol\nfind n(O2)",
       "not-unique\np:1:10: the equation can be balanced in more than one way: 2 independent reactions\n  reaction H2O2 + MnO2 "
       "-> H2O + "
       "O2 + MnO2\n           ^"},
      {"reaction NaCl + KNO3 -> NaNO3 + KCl\ngiven n(NaCl) = 1.0 mol\nfind n(KCl)",
       "does-not-happen\np:1:10: NaCl and KNO3 do not react: NaNO3 and KCl both stay dissolved, expected two solutions that form "
       "a "
       "solid, water or a gas\n  reaction NaCl + KNO3 -> NaNO3 + KCl\n           ^"},
      {"reaction BaCl2 + AgNO3\ngiven n(BaCl2) = 1.0 mol\nfind n(AgCl)",
       "no-products\np:1:10: the reaction BaCl2 + AgNO3 has no products, expected -> and the products\n  reaction BaCl2 + "
       "AgNO3\n     "
       "      ^"},
      {"given n(HCl) = 1.0 mol\nexcess NaOH\nfind N(HCl)",
       "not-in-reaction\np:1:1: NaOH is in excess but stands in no reaction, expected a substance of the reaction\n  given "
       "n(HCl) = 1.0 "
       "mol\n  ^"},
      {"reaction Xy + O2 -> XyO\nfind n(O2)",
       "unknown-element\np:1:10: unknown element symbol Xy, expected an element symbol\n  reaction Xy + O2 -> XyO\n           ^"},
      {"reaction Ca(OH2 + HCl -> CaCl2 + H2O\nfind n(HCl)",
       "bracket-not-closed\np:1:22: bracket not closed, expected ')'\n  reaction Ca(OH2 + HCl -> CaCl2 + H2O\n                   "
       "    ^"},
      {nested, "nested-too-deep\n"},
      {"given V(HCl) = 0 mL\nfind n(HCl)",
       "not-positive\np:1:7: V(HCl) is zero, expected a number above zero\n  given V(HCl) = 0 mL\n        ^"},
      {"given V(HCl) = \xFF 1.0 mL\nfind n(HCl)",
       "invalid-utf8\np:1:16: these bytes are not UTF-8 text, expected UTF-8\n  given V(HCl) = "
       "\xEF\xBF\xBD 1.0 mL\n                 ^"},
      {long_number, "number-too-long\n"},
  };
  for (auto const& row : table) {
    CAPTURE(row.text);
    auto const shown = refused(row.text);
    if (row.shown.back() == '\n') {
      UNSCOPED_INFO(shown);
      CHECK(shown.substr(0, row.shown.size()) == row.shown);
    } else {
      CHECK(shown == row.shown);
    }
  }
}

TEST_CASE("solver: a temperature below absolute zero is a fault", "[engine][solver]") {
  auto const read =
      parse_problems("problem cold\ngiven n(O2) = 0.100 mol\ngiven V(O2) = 2.00 L\ngiven T = -300 degC\nfind p(O2) in kPa\n");
  REQUIRE(read.faults.empty());
  auto const result = solve(read.problems.at(0), Conventions{});
  REQUIRE(std::holds_alternative<PlacedFault>(result));
  CHECK(std::get<PlacedFault>(result).fault.what == "T is below absolute zero, which is -273.15 degC");
}

TEST_CASE("solver: the course's molar volume of a gas, where the problem states none", "[engine][solver][gas]") {
  // n(O2) = 3/2 n(KClO3); n(CO2) = n(CaCO3): hand calculation with the molar volume stated.
  auto const with = [](char const* volume) {
    Conventions conventions;
    conventions.molar_gas_volume = value(parse_measured(volume));
    return conventions;
  };
  struct Row {
    char const *volume, *problem, *answer, *unit;
  };
  for (auto const& row : std::vector<Row>{
           {"24.0 L/mol", "reaction KClO3(s) -> KCl(s) + O2(g); given n(KClO3) = 0.0500 mol; find V(O2) in dm3", "1.80", "dm3"},
           {"22.4 dm3/mol", "reaction KClO3(s) -> KCl(s) + O2(g); given n(KClO3) = 0.0500 mol; find V(O2) in dm3", "1.68", "dm3"},
           {"24 L/mol", "reaction KClO3(s) -> KCl(s) + O2(g); given n(KClO3) = 0.0500 mol; find V(O2) in dm3", "1.8", "dm3"},
           {"24000 cm3/mol", "reaction KClO3 -> KCl + O2; given n(KClO3) = 0.0500 mol; find V(O2) in cm3 to 3 figures", "1.80e3",
            "cm3"},
           {"24.0 L/mol", "given n(CO2) = 0.125 mol; find V(CO2)", "3.00", "L"},
           {"24.0 L/mol", "given V(N2) = 6.00 dm3; find n(N2)", "0.250", "mol"},
           {"24.0 L/mol",
            "reaction CaCO3(s) + HCl(aq) -> CaCl2(aq) + H2O(l) + CO2(g); given c(HCl) = 0.500 mol/L; given V(HCl) = 20.0 mL; "
            "excess CaCO3; find V(CO2) in mL",
            "1.20e2", "mL"},
           {"24.0 L/mol",
            "reaction N2(g) + H2(g) -> NH3(g); given V(N2) = 2.40 L; given m(H2) = 1.008 g; find n(NH3) in mol; find V(NH3) in L",
            "0.200", "mol"},
       }) {
    CAPTURE(row.volume, row.problem);
    auto const worked = test::solved(row.problem, with(row.volume));
    auto const& working = worked.accepted.front();
    CHECK(working.finds[0].text == row.answer);
    CHECK(test::answer_node(working).value.unit.symbol == row.unit);
    CHECK(working.find_node("Vm") >= 0);
    CHECK(worked.problem.givens.size() == test::read_problem(row.problem).givens.size());
  }
  auto const conventions = with("24.0 L/mol");
  auto const worked =
      test::solved("reaction KClO3(s) -> KCl(s) + O2(g); given n(KClO3) = 0.0500 mol; find V(O2) in dm3", conventions);
  bool told = false;
  for (auto const& step : steps(worked, worked.accepted.front(), 0, conventions))
    told = told || step.text.find("24.0\u00A0L/mol: the molar volume of a gas in this course.") != std::string::npos;
  CHECK(told);
}

TEST_CASE("solver: the course's molar volume keeps out of what the data settle", "[engine][solver][gas]") {
  Conventions conventions;
  conventions.molar_gas_volume = value(parse_measured("24.0 L/mol"));
  for (char const* text : {
           "given n(O2) = 0.100 mol; given p = 101.325 kPa; given T = 298 K; find V(O2) in L",
           "given n(O2) = 0.100 mol; given Vm = 22.4 L/mol; find V(O2) in L",
           "reaction N2(g) + H2(g) -> NH3(g); given V(N2) = 2.00 L; excess H2; find V(NH3) in L",  // the ratio of volumes
           "given n(HCl) = 0.100 mol; given c(HCl) = 2.00 mol/L; find V(HCl) in mL",
       }) {
    CAPTURE(text);
    auto const with = test::solved(text, conventions), without = test::solved(text);
    CHECK(with.accepted.front().finds[0].text == without.accepted.front().finds[0].text);
    CHECK(with.accepted.front().nodes.size() == without.accepted.front().nodes.size());
  }
}

TEST_CASE("solver: a gas without its molar volume is told so", "[engine][solver][gas][bad-input]") {
  auto const said = test::refused("reaction KClO3(s) -> KCl(s) + O2(g); given m(KClO3) = 1.00 g; find V(O2) in dm3");
  CHECK(said.substr(0, said.rfind("\n  reaction")) ==
        "missing-data\np:1:68: there is too little to find V(O2) from, expected Vm (a line of the problem, or the course's "
        "molar_gas_volume)");
  // A forgotten concentration does not make a gas of an acid.
  Conventions conventions;
  conventions.molar_gas_volume = value(parse_measured("24.0 L/mol"));
  for (char const* text : {"reaction Mg(s) + HCl(aq) -> MgCl2(aq) + H2(g); given m(Mg) = 0.243 g; find V(HCl) in mL",
                           "reaction Mg + HCl -> MgCl2 + H2; given m(Mg) = 0.243 g; find V(HCl) in mL"}) {
    CAPTURE(text);
    auto const shown = test::refused(text, conventions);
    CHECK(shown.substr(0, shown.find('\n')) == "missing-data");
  }
}

TEST_CASE("solver: what is amiss is said in the author's terms", "[engine][solver][bad-input]") {
  struct Row {
    char const *text, *said;
  };
  Row const table[] = {
      {"reaction NaOH + HCl -> NaCl + H2O; given V1(NaOH) = 25.0 mL; given c1(NaOH) = 0.100 mol/L; given V2(HCl) = 50.0 mL; "
       "given c2(HCl) = 0.100 mol/L; mix 1 + 2 -> 3; find pH",
       "expected beside the reaction no line mix and no numbers: V(HCl) and V(NaOH)"},
      {"reaction CaCO3 + HCl -> CaCl2 + CO2 + H2O; given m(MgCO3) = 1.0 g; find m(CO2)", "from; MgCO3 stands in no reaction"},
      {"given w(C) = 40 %; given w(H) = 6.7 %; given w(O) = 43.3 %; find empirical formula", "the mass fractions add up to 90 %"},
  };
  for (auto const& row : table) {
    CAPTURE(row.text);
    CHECK(test::refused(row.text).find(row.said) != std::string::npos);
  }
  Row const notes[] = {
      {"given yield = 120.5 %; reaction N2 + H2 -> NH3; given m(N2) = 1.00 g; find m(NH3)",
       "yield(NH3) is above 100 %: the product may be wet or impure, or a value is off"},
      {"given pH = 15.0; find c(H^+)", "pH = 15.00 is outside what water can have"},
      {"given w(Fe) = 69.9 %; given w(O) = 27.0 %; find empirical formula", "the mass fractions add up to 96.9 %, not to 100 %"},
  };
  for (auto const& row : notes) {
    CAPTURE(row.text);
    auto const worked = solved(row.text);
    CHECK(std::count(worked.warnings.begin(), worked.warnings.end(), row.said) == 1);
  }
}
