// One line of the problem language at a time.
#include "engine/statement.h"

#include "tests/engine/problem_text.h"

using namespace molewright;

TEST_CASE("statement: the word at its start", "[engine][statement]") {
  auto const start = statement_start("  given   V = 1 L");
  CHECK(start.keyword == "given");
  CHECK(start.rest == 10);
  CHECK(statement_start("").keyword.empty());
  CHECK(without_comment("find n(HCl)  # in mol") == "find n(HCl)");
}

TEST_CASE("statement: forms of a given", "[engine][statement]") {
  struct Row {
    char const* text;
    Given::Form form;
    std::size_t numbers;
    char const* unit;
    char const* printed;
  };
  using Form = Given::Form;
  Row const table[] = {
      {"given V(HCl) = 40.0 mL", Form::value, 1, "mL", "given V(HCl) = 40.0 mL"},
      {"given V(HCl)=40.0mL", Form::value, 1, "mL", "given V(HCl) = 40.0 mL"},
      {"given c(HCl) = 2.50 x 10^-3 M", Form::value, 1, "mol/L", "given c(HCl) = 2.50 x 10^-3 mol/L"},
      {"given V(HCl) = 24.65 - 1.20 mL", Form::difference, 2, "mL", "given V(HCl) = 24.65 - 1.20 mL"},
      {"given V(HCl) = 24.65 − 1.20 mL", Form::difference, 2, "mL", "given V(HCl) = 24.65 - 1.20 mL"},
      {"given V(HCl) = mean of 23.45 | 23.50 | 23.40 mL", Form::mean, 3, "mL", "given V(HCl) = mean of 23.45 | 23.50 | 23.40 mL"},
      {"given V(HCl) = mean of 24.10 (rough) | 23.45 | 23.80 discordant | 23.50 mL", Form::mean, 4, "mL",
       "given V(HCl) = mean of 24.10 rough | 23.45 | 23.80 discordant | 23.50 mL"},
      {"given V(HCl) = mean of 24.65 − 0.60 | 24.00-0.00 mL", Form::mean, 4, "mL",
       "given V(HCl) = mean of 24.65 - 0.60 | 24.00 - 0.00 mL"},
      {"given V(HCl) = measured mL", Form::measured, 0, "mL", "given V(HCl) = measured mL"},
      {"given V(HCl) = measured about 24.60 mL", Form::measured, 1, "mL", "given V(HCl) = measured about 24.60 mL"},
      {"given yield(CaO) = 85 %", Form::value, 1, "%", "given yield(CaO) = 85 %"},
      {"given N(H2O) = 3.0e23", Form::value, 1, "", "given N(H2O) = 3.0e23"},
      {"given gamma(NaCl) = 0.9 g/100 mL", Form::value, 1, "g/100 mL", "given gamma(NaCl) = 0.9 g/100 mL"},
  };
  for (auto const& row : table) {
    CAPTURE(row.text);
    Problem problem;
    auto const found = add_statement(problem, row.text);
    if (found) UNSCOPED_INFO(sentence(*found));
    REQUIRE(!found);
    REQUIRE(problem.givens.size() == 1);
    auto const& given = problem.givens.front();
    CHECK(given.form == row.form);
    CHECK(given.numbers.size() == row.numbers);
    CHECK(given.unit == unit(row.unit));
    CHECK(print(problem).find(row.printed) != std::string::npos);
  }
}

TEST_CASE("statement: titres, and which of them count", "[engine][statement]") {
  Problem problem;
  REQUIRE(!add_statement(
      problem,
      "given V(HCl) = mean of 25.10 - 0.40 rough | 24.65 - 0.60 | 48.70 - 24.65 | 24.50 - 0.10 discordant | 24.30 - 0.20 mL"));
  auto const& given = problem.givens.front();
  CHECK(given.in_pairs);
  REQUIRE(titres(given) == 5);
  struct Row {
    char const* titre;
    bool rough, discordant;
  };
  Row const table[] = {
      {"24.70", true, false}, {"24.05", false, false}, {"24.05", false, false}, {"24.40", false, true}, {"24.10", false, false}};
  for (std::size_t i = 0; i < 5; ++i) {
    CAPTURE(i);
    CHECK(titre(given, i) == value(parse_decimal(table[i].titre)).value);
    CHECK(is_rough(given, i) == table[i].rough);
    CHECK(is_discordant(given, i) == table[i].discordant);
    CHECK(counts(given, i) == (!table[i].rough && !table[i].discordant));
  }
  CHECK(spread_of_titres(given) == value(parse_decimal("0.05")).value);
}

TEST_CASE("statement: finds, handlings, excess and answers", "[engine][statement]") {
  Problem problem;
  for (char const* line : {"find m(AgCl) in g to 3 figures marks 3", "find limiting reagent marks 2", "find c2", "dilute 1 -> 2",
                           "mix 1 + 2 + 3 → 4", "excess AgNO3, H2O", "answer m(AgCl) = 1.72 g"}) {
    CAPTURE(line);
    REQUIRE(!add_statement(problem, line));
  }
  REQUIRE(problem.finds.size() == 3);
  CHECK(problem.finds[0].figures == 3);
  CHECK(problem.finds[0].marks == 3);
  CHECK(problem.finds[0].unit == unit("g"));
  CHECK(problem.finds[1].kind == Find::Kind::limiting_reagent);
  CHECK(problem.finds[1].marks == 2);
  CHECK(!problem.finds[2].unit);
  REQUIRE(problem.handlings.size() == 2);
  CHECK(problem.handlings[1].from == std::vector<int>{1, 2, 3});
  CHECK(problem.handlings[1].to == 4);
  CHECK(problem.excess == std::vector<std::string>{"AgNO3", "H2O"});
  REQUIRE(problem.stated.size() == 1);
  CHECK(problem.stated[0].number.text == "1.72");
}

TEST_CASE("statement: a course with a comma reads numbers with either mark, and lists as ever", "[engine][statement]") {
  struct Row {
    char const *text, *printed;
  };
  Row const table[] = {
      {"given m(NaCl) = 0,250 g", "given m(NaCl) = 0.250 g\n"},
      {"given m(NaCl) = 0.250 g", "given m(NaCl) = 0.250 g\n"},
      {"given m(NaCl) = 1,250 g", "given m(NaCl) = 1.250 g\n"},
      {"given c(HCl) = 2,50 x 10^-3 M", "given c(HCl) = 2.50 x 10^-3 mol/L\n"},
      {"given V(HCl) = 24,65 - 1,20 mL", "given V(HCl) = 24.65 - 1.20 mL\n"},
      {"given V(HCl) = mean of 23,45 | 23,50 | 23,40 mL", "given V(HCl) = mean of 23.45 | 23.50 | 23.40 mL\n"},
      {"given V(HCl) = measured about 24,60 mL", "given V(HCl) = measured about 24.60 mL\n"},
      {"given V2(KOH, taken) = 25,0 mL", "given V2(KOH, taken) = 25.0 mL\n"},
      {"answer m(AgCl) = 1,72 g", "answer m(AgCl) = 1.72 g\n"},
      {"find empirical formula of C, H", "find empirical formula of C, H\n"},
      {"excess AgNO3, H2O", "excess AgNO3, H2O\n"},
  };
  for (auto const& row : table) {
    CAPTURE(row.text);
    Problem problem;
    auto const found = add_statement(problem, row.text, DecimalMark::comma);
    if (found) UNSCOPED_INFO(sentence(*found));
    REQUIRE(!found);
    CHECK(print(problem).find(row.printed) != std::string::npos);
  }
}

TEST_CASE("statement: a colon after the first word, and degrees written C", "[engine][statement]") {
  Problem problem;
  for (char const* line :
       {"reaction: Mg + HCl -> MgCl2 + H2", "given: T = 25 C", "given dT = 6.2 C", "find: T2 in C to 3 figures"}) {
    CAPTURE(line);
    REQUIRE(!add_statement(problem, line));
  }
  CHECK(problem.reactions.size() == 1);
  CHECK(problem.givens.at(0).unit == unit("degC"));
  CHECK(problem.givens.at(1).unit.dimension == unit("K").dimension);
  CHECK(problem.finds.at(0).unit == unit("degC"));
  CHECK(add_statement(problem, "given m(C) = 25 C")->id == "wrong-unit");
}

TEST_CASE("statement: KHP in an equation is a phthalate, as it is in a quantity", "[engine][statement]") {
  struct Row {
    char const *written, *read;
  };
  Row const table[] = {
      {"reaction KHP + NaOH -> KNaP + H2O", "KHC8H4O4 + NaOH -> KNaC8H4O4 + H2O"},
      {"reaction 2KHP(aq) + Ba(OH)2 -> H2O", "2KHC8H4O4(aq) + Ba(OH)2 -> H2O"},
      {"reaction KHP + NaOH -> NaKP + H2O", "KHC8H4O4 + NaOH -> KNaC8H4O4 + H2O"},
      {"reaction K3P + H2O -> KOH + PH3", "K3P + H2O -> KOH + PH3"},
      {"reaction HOCl + KOH -> H2O + KOCl", "HOCl + KOH -> H2O + KOCl"},
  };
  for (auto const& row : table) {
    CAPTURE(row.written);
    Problem problem;
    REQUIRE(!add_statement(problem, row.written));
    CHECK(plain(problem.reactions.front().equation) == row.read);
  }
  Problem problem;
  REQUIRE(!add_statement(problem, "given m(KHP) = 0.500 g"));
  REQUIRE(!add_statement(problem, "excess KHP"));
  CHECK(problem.givens.front().quantity.substance == "KHC8H4O4");
  CHECK(problem.excess.front() == "KHC8H4O4");
}

TEST_CASE("statement: what is wrong, where, and what was expected", "[engine][statement]") {
  struct Row {
    char const* text;
    char const* shown;  ///< id, then the message with its caret
  };
  Row const table[] = {
      {"given V(HCl) 40.0 mL",
       "bad-statement\np:1:14: this is not a given, expected '='\n  given V(HCl) 40.0 mL\n               ^"},
      {"given V(HCl) = mL", "not-a-number\n"},
      {"given V(HCl) = 40.0 mK", "unknown-unit\n"},
      {"given V(HCl) = 40.0 qq", "unknown-unit\n"},
      {"given V(HCl) = 40.0 g",
       "wrong-unit\np:1:7: V(HCl) cannot be in g, expected a unit of volume\n  given V(HCl) = 40.0 g\n        ^"},
      {"given V(HCl) = 40.0",
       "wrong-unit\np:1:7: V(HCl) has no unit, expected a unit of volume\n  given V(HCl) = 40.0\n        ^"},
      {"given V(HCl) = 0.0 mL",
       "not-positive\np:1:7: V(HCl) is zero, expected a number above zero\n  given V(HCl) = 0.0 mL\n        ^"},
      {"given V(HCl) = -5.0 mL",
       "not-positive\np:1:7: V(HCl) is negative, expected a number above zero\n  given V(HCl) = -5.0 mL\n        ^"},
      {"given V(HCl) = mean of 1.0 | -1.0 mL",
       "not-positive\np:1:7: V(HCl) is negative, expected a number above zero\n  given V(HCl) = mean of 1.0 | -1.0 mL\n        "
       "^"},
      {"given V(HCl) = mean of 24.65 - 0.60 | 24.00 mL",
       "bad-statement\np:1:7: some titres of V(HCl) have both readings, some have not, expected final - initial for each\n  "
       "given "
       "V(HCl) = mean of 24.65 - 0.60 | 24.00 mL\n        ^"},
      {"given V(HCl) = mean of 24.65 - 0.60 | 0.60 - 24.65 mL",
       "not-positive\np:1:7: an initial reading of V(HCl) is not below its final one, expected the larger reading first\n  given "
       "V(HCl) = mean of 24.65 - 0.60 | 0.60 - 24.65 mL\n        ^"},
      {"given V(HCl) = mean of 24.65 rough | 24.00 | 24.90 discordant mL",
       "bad-statement\np:1:7: the mean of V(HCl) has fewer than two readings that are not rough or discordant, expected two "
       "concordant readings or more\n  given V(HCl) = mean of 24.65 rough | 24.00 | 24.90 discordant mL\n        ^"},
      {"given V(HCl) = 1.20 - 24.65 mL",
       "not-positive\np:1:7: the second reading of V(HCl) is not below the first, expected the larger reading first\n  given "
       "V(HCl) = 1.20 - 24.65 mL\n        ^"},
      {"find m(AgCl) in mL",
       "wrong-unit\np:1:6: m(AgCl) cannot be in mL, expected a unit of mass\n  find m(AgCl) in mL\n       ^"},
      {"find m(AgCl) to 0 figures",
       "bad-statement\np:1:6: no answer has 0 figures, expected 1 to 15 figures\n  find m(AgCl) to 0 figures\n       ^"},
      {"find limiting", "bad-statement\n"},
      {"find", "bad-statement\np:1:5: nothing stands after find, expected what find is about\n  find\n      ^"},
      {"fnd m(AgCl)", "unknown-statement\np:1:1: unknown statement \"fnd\", expected find\n  fnd m(AgCl)\n  ^"},
      {"dilute 1 2", "bad-statement\n"},
      {"mix 1 -> 2", "bad-statement\n"},
      {"excess Xy", "unknown-element\np:1:8: unknown element symbol Xy, expected an element symbol\n  excess Xy\n         ^"},
      {"end", "end-without-text\n"},
      {"given m(NaCl) = 0,250 g",
       "decimal-comma\np:1:17: 0,250 has a comma, and this course writes a point, expected 0.250, or a course with decimal = "
       "\"comma\"\n  given m(NaCl) = 0,250 g\n                  ^"},
      {"given V(HCl) = 24.65 - 1,20 mL", "decimal-comma\np:1:24: 1,20 has a comma"},
      {"answer n(HCl) = 0,25 mol", "decimal-comma\np:1:17: "},
      {"given m(NaCl) = 1,250 g",
       "unknown-unit\np:1:17: 1,250 has a comma: this course writes a point, and thousands without a mark, expected 1.250 or 1250"
       "\n  given m(NaCl) = 1,250 g\n                  ^"},
      {"given dilution factor = 1:10",
       "unclear-ratio\np:1:25: a dilution of 1:10 can mean 1 made up to 10, or 1 with 10 of water, expected given "
       "dilution factor = 10 for the first, 11 for the second\n  given dilution factor = 1:10\n                          ^"},
      {"dilute 2:5",
       "unclear-ratio\np:1:8: a dilution of 2:5 can mean 2 made up to 5, or 2 with 5 of water, expected "
       "given dilution factor = 2.5 for the first, 3.5 for the second\n  dilute 2:5\n         ^"},
      {"given V(H2) = 2.24 L at STP",
       "unclear-conditions\np:1:25: \"STP\" is no datum: books mean different temperatures and pressures by it, expected lines "
       "of their own: given T = 273.15 K and given p = 100.0 kPa (or 101.325 kPa); or given Vm = 22.7 L/mol (or 22.4 L/mol)\n  "
       "given V(H2) = 2.24 L at STP\n                          ^"},
      {"at r.t.p.", "unclear-conditions\np:1:4: \"r.t.p.\" is no datum"},
      {"given STP", "unclear-conditions\np:1:7: "},
      {"given V(O2) = 24.0 L at 25 C and 1 atm",
       "unclear-conditions\np:1:22: \"at 25 C and 1 atm\" stands behind a value, expected conditions in lines of their own, such "
       "as "
       "given T = 298 K and given p = 100.0 kPa\n  given V(O2) = 24.0 L at 25 C and 1 atm\n                       ^"},
      {"given ratio = 1:5", "unclear-ratio\np:1:15: a dilution of 1:5"},
      {"reaction BaCl2 + (AgNO3 -> AgCl", "bracket-not-closed\n"},
      {"given n(Ca(OH)2 = 3 mol", "not-a-quantity\n"},
  };
  for (auto const& row : table) {
    auto const shown = test::refused(row.text);
    std::string const expected = row.shown;
    CAPTURE(row.text);
    if (expected.back() != '^') {
      UNSCOPED_INFO(shown);
      CHECK(shown.substr(0, expected.size()) == expected);
    } else {
      CHECK(shown == expected);
    }
  }
}
