// Problem files: several problems, one line with semicolons, texts, faults that leave the other problems alone, printing.
#include "engine/problem.h"

#include "tests/engine/problem_text.h"

using namespace molewright;

namespace {
char const* const feed_water = R"(
problem silver-from-chloride
title     Chloride in the greenhouse's feed water
reaction  BaCl2(aq) + AgNO3(aq) -> AgCl(s) + Ba(NO3)2(aq)     # balanced by the program
given     V(BaCl2) = 40.0 mL
given     c(BaCl2) = 0.150 mol/L
excess    AgNO3
find      n(BaCl2) in mol
find      m(AgCl) in g to 3 figures marks 3
answer    m(AgCl) = 1.72 g
text
  Excess {name AgNO3} solution is added to {V(BaCl2)} of {c(BaCl2)} {name BaCl2} solution. # 1 {{
  What mass of {name AgCl} forms?
end
)";
}

TEST_CASE("problem: all of one problem", "[engine][problem]") {
  auto const problem = test::read_problem(feed_water);
  CHECK(problem.id == "silver-from-chloride");
  CHECK(problem.title == "Chloride in the greenhouse's feed water");
  REQUIRE(problem.reactions.size() == 1);
  CHECK(problem.reactions[0].written == "BaCl2(aq) + AgNO3(aq) -> AgCl(s) + Ba(NO3)2(aq)");
  CHECK(problem.reactions[0].place.line == 4);
  REQUIRE(problem.givens.size() == 2);
  CHECK(problem.givens[1].place.line == 6);
  CHECK(problem.givens[1].place.column == 11);
  CHECK(problem.finds.size() == 2);
  CHECK(problem.stated.size() == 1);
  CHECK(problem.text ==
        "Excess {name AgNO3} solution is added to {V(BaCl2)} of {c(BaCl2)} {name BaCl2} solution. # 1 {{\nWhat mass of {name "
        "AgCl} forms?");
}

TEST_CASE("problem: printed, it reads as the same problem", "[engine][problem]") {
  for (std::string const& text : {
           std::string(feed_water),
           std::string("problem a; given c1(KOH) = 2.00 mol/L; given V1 = 25.0 mL; dilute 1 -> 2; dilute 2 -> 3; given V2(KOH, "
                       "taken) = 1 mL; given V2 = .5 L; given V3 = 2.5 x 10^2 mL; find c3 in mmol/L marks 2"),
           std::string("given V(HCl) = 24.65 - 1.20 mL; given c(HCl) = mean of 0.1 | 0.2 mol/L; given V(NaOH) = measured mL; "
                       "find limiting reagent marks 1; find N(HCl); mix 1 + 2 -> 3; excess NaOH, H2O; answer pH = 7"),
       }) {
    auto const problem = test::read_problem(text);
    auto const printed = print(problem);
    CAPTURE(printed);
    auto const again = test::read_problem(printed);
    CHECK(print(again) == printed);
    CHECK(again.id == problem.id);
    CHECK(again.title == problem.title);
    CHECK(again.text == problem.text);
    CHECK(again.excess == problem.excess);
    REQUIRE(again.reactions.size() == problem.reactions.size());
    for (std::size_t i = 0; i < problem.reactions.size(); ++i)
      CHECK(plain(again.reactions[i].equation) == plain(problem.reactions[i].equation));
    REQUIRE(again.givens.size() == problem.givens.size());
    for (std::size_t i = 0; i < problem.givens.size(); ++i) {
      auto const &a = again.givens[i], &b = problem.givens[i];
      CHECK(a.quantity == b.quantity);
      CHECK(a.form == b.form);
      CHECK(a.unit == b.unit);
      REQUIRE(a.numbers.size() == b.numbers.size());
      for (std::size_t n = 0; n < a.numbers.size(); ++n) {
        CHECK(a.numbers[n].value == b.numbers[n].value);
        CHECK(a.numbers[n].last_place == b.numbers[n].last_place);
      }
    }
    REQUIRE(again.finds.size() == problem.finds.size());
    for (std::size_t i = 0; i < problem.finds.size(); ++i) {
      CHECK(again.finds[i].kind == problem.finds[i].kind);
      CHECK(again.finds[i].quantity == problem.finds[i].quantity);
      CHECK(again.finds[i].unit == problem.finds[i].unit);
      CHECK(again.finds[i].figures == problem.finds[i].figures);
      CHECK(again.finds[i].marks == problem.finds[i].marks);
    }
    REQUIRE(again.handlings.size() == problem.handlings.size());
    REQUIRE(again.stated.size() == problem.stated.size());
  }
}

TEST_CASE("problem: a number that was drawn is printed as well", "[engine][problem]") {
  auto problem = test::read_problem("given n(HCl) = 0.250 mol; find N(HCl)");
  problem.givens[0].numbers[0].text.clear();
  CHECK(print(problem).find("given n(HCl) = 0.250 mol\n") != std::string::npos);
}

TEST_CASE("problem: several in a file; a fault in one leaves the others", "[engine][problem]") {
  auto const file = parse_problems(
      "\xEF\xBB\xBFproblem a\r\ngiven n(HCl) = 1.0 mol\r\nfind N(HCl)\r\n"
      "problem b\ngiven n(HCl) = one mol\nfind N(HCl)\n"
      "problem c; given n(HCl) = 2.0 mol; find N(HCl); text How many? {n(HCl)}; end\n"
      "problem d\ngiven n(HCl) = 3.0 mol\nfind \xC3(28)\n");
  REQUIRE(file.problems.size() == 2);
  CHECK(file.problems[0].id == "a");
  CHECK(file.problems[1].id == "c");
  CHECK(file.problems[1].text == "How many? {n(HCl)}");
  REQUIRE(file.faults.size() == 2);
  CHECK(show(file.faults[0], "p").substr(0, 7) == "p:5:16:");
  CHECK(file.faults[1].fault.id == "invalid-utf8");
  CHECK(file.faults[1].line == 10);
  CHECK(file.faults[1].column == 6);
}

TEST_CASE("problem: stray carriage returns at the end of a line are not text", "[engine][problem]") {
  auto const problem = test::read_problem("find M(HCl)\r\ntext\r\r\n  How much?\r\r\n\r\nend\r\n");  // found by fuzzing
  CHECK(problem.text == "How much?\n");
  CHECK(test::read_problem(print(problem)).text == problem.text);
}

TEST_CASE("problem: texts must end", "[engine][problem]") {
  CHECK(parse_problems("find n(HCl)\ntext\n  How much?\n").faults.at(0).fault.what == "the text that began in line 2 has no end");
  CHECK(parse_problems("find n(HCl); text How much?").faults.at(0).fault.id == "text-not-closed");
  CHECK(parse_problems("").problems.empty());
  CHECK(parse_problems("# nothing but a note\n\n").faults.empty());
}

TEST_CASE("problem: more lines than any person writes are refused", "[engine][problem]") {
  std::string finds = "given n(HCl) = 1.0 mol";
  for (int i = 0; i < 27; ++i) finds += "\nfind N(HCl)";
  auto const file = parse_problems(finds);
  REQUIRE(file.faults.size() == 1);
  CHECK(show(file.faults[0], "p") ==
        "p:28:1: a problem has at most 26 lines \"find\", expected another problem for the rest\n  find N(HCl)\n  ^");
  std::string reaction = "reaction H2 -> H2";
  for (int i = 0; i < 23; ++i) reaction += " + O2";
  CHECK(parse_problems(reaction).faults.at(0).fault.id == "too-many");
}
