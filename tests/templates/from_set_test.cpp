// From a set to strings, marks and steps.
#include "templates/from_set.h"

#include <catch2/catch.hpp>
#include <string>
#include <vector>

#include "marker/slip.h"
#include "tests/engine/problem_text.h"
#include "tests/templates/solved_sample.h"

using namespace molewright;

TEST_CASE("from set: marks stand at the lines of the working", "[templates][from_set]") {
  // By hand, from the rule in marker/marks.h: the answer has one, then the relations from the last to the first, then molar
  // masses and changes of unit. Question 1: V in L, n = cV; then, for 2 (b), the ratio, M and m = nM. The mark of n = cV, which
  // was worked in (a), goes to the last line without a mark.
  struct Case {
    int first, second;
    std::vector<int> expected;  // of question 1, then of question 2 (b)
  };
  auto const c = GENERATE(values<Case>({
      {1, 1, {0, 1, /**/ 0, 0, 1}},
      {2, 2, {1, 1, /**/ 1, 0, 1}},
      {3, 3, {1, 2, /**/ 1, 1, 1}},
      {3, 4, {1, 2, /**/ 1, 1, 2}},
  }));
  CAPTURE(c.first, c.second);
  ProblemSet set = sample::solved_set();
  set.papers[0].questions[0].marks = {c.first};
  set.papers[0].questions[1].marks = {1, c.second};
  AnswersDocument const d = answers_document(set);
  std::vector<int> shown;
  for (AnswerPart const* const part : {&d.papers[0].questions[0].parts[0], &d.papers[0].questions[1].parts[1]}) {
    for (AnswerLine const& line : part->steps) shown.push_back(line.marks);
  }
  CHECK(shown == c.expected);
}

TEST_CASE("from set: plain answers as people read them", "[templates][from_set]") {
  CHECK(pretty_answer("1.72 g") == "1.72 g");
  CHECK(pretty_answer("1.20e3") == "1.20 × 10³");
  CHECK(pretty_answer("0.0500 mol dm-3") == "0.0500 mol/L");
  Conventions cubic;
  cubic.mark = DecimalMark::comma;
  cubic.volume_unit = "cm3";
  cubic.concentration_unit = "mol dm-3";
  CHECK(pretty_answer("0.0500 mol/L", cubic) == "0,0500 mol dm⁻³");
  CHECK(pretty_answer("25.0 mL", cubic) == "25,0 cm³");
  CHECK(pretty_answer("BaCl2") == "BaCl₂");
  CHECK(pretty_answer("no idea") == "no idea");
  CHECK(pretty_answer("") == "");
}

TEST_CASE("from set: words for a slip stand alone", "[templates][from_set]") {
  CHECK(short_words("volume-left-in-mL") == "volume left in mL");
  CHECK(short_words("stopped-one-step-early") == "stopped one step early");
  for (Slip const& slip : slips()) {
    std::string const words = short_words(slip.id);
    CAPTURE(slip.id, words);
    CHECK(words != slip.id);
    CHECK(words.find_first_of("{}:()") == std::string::npos);
    CHECK(words.back() != ' ');
    CHECK(words.size() <= 52);  // three beside each other on the marking card
  }
  CHECK(short_words("a-slip-without-words") == "a-slip-without-words");
}

TEST_CASE("from set: sheets", "[templates][from_set]") {
  SheetDocument const d = sheet_document(sample::solved_set());
  REQUIRE(d.sheets.size() == 2);
  CHECK(d.sheets[0].student == "Ada Moss");
  CHECK_FALSE(d.sheets[0].large_print);
  CHECK(d.sheets[1].large_print);
  SheetQuestion const& second = d.sheets[0].questions[1];
  REQUIRE(second.parts.size() == 2);
  CHECK(second.parts[0].label == "(a) n(BaCl₂)");
  CHECK(second.parts[1].label == "(b) m(AgCl)");
  CHECK(second.parts[1].marks == 3);
  CHECK(d.sheets[0].questions[0].parts[0].label == "n(KNO₃)");
  CHECK(second.steps >= 4);  // n = cV, ratio, molar mass, m = nM at the least
  // Silver nitrate and barium chloride are hazardous: the paragraph names them and defers.
  CHECK(d.sheets[0].cautions.find("Silver nitrate: ") != std::string::npos);
  CHECK(d.sheets[0].cautions.find("Barium chloride: ") != std::string::npos);
  CHECK(d.sheets[0].cautions.find("check the safety data sheet") != std::string::npos);
}

TEST_CASE("from set: answers", "[templates][from_set]") {
  AnswersDocument const d = answers_document(sample::solved_set());
  CHECK(d.seed == "thornmere-7");
  REQUIRE(d.papers.size() == 2);
  AnswerQuestion const& second = d.papers[0].questions[1];
  REQUIRE(second.parts.size() == 2);
  CHECK(second.parts[1].letter == "(b)");
  CHECK(second.parts[1].figures == "3 significant figures");
  CHECK(second.parts[1].answer.find("1.72") != std::string::npos);
  int given = 0;
  for (AnswerLine const& line : second.parts[1].steps) given += line.marks;
  CHECK(given == 3);
  CHECK(second.parts[1].steps.back().text.find("143.32") != std::string::npos);  // M(AgCl) = 107.87 + 35.45, IUPAC abridged
  REQUIRE(second.parts[1].slips.size() == 2);
  CHECK(second.parts[1].slips[0].letter == "A");
  CHECK(second.parts[1].slips[1].answer == "1.72 × 10³");
  CHECK(second.parts[1].slips[1].meaning == "volume left in mL or a-slip-without-words");
  CHECK(second.notes == std::vector<std::string>{"Not told apart here: volume left in mL = a-slip-without-words."});
}

TEST_CASE("from set: the marking card", "[templates][from_set]") {
  MarkingCard const card = marking_card(sample::solved_set());
  CHECK(card.columns == std::vector<std::string>{"1", "2a", "2b"});
  CHECK(card.marks == std::vector<int>{2, 1, 3});
  REQUIRE(card.rows.size() == 2);
  CHECK(card.rows[0].student == "Ada Moss");
  CHECK(card.rows[0].cells[0].answer == "0.00500 mol");
  CHECK(card.rows[0].cells[2].answer == "1.72 g");
  REQUIRE(card.rows[0].cells[2].slips.size() == 2);
  CHECK(card.rows[0].cells[2].slips[0].answer == "0.860");
  REQUIRE(card.legend.size() == 1);  // the other parts have no letters
  CHECK(card.legend[0].column == "2b");
  REQUIRE(card.legend[0].lines.size() == 2);
  CHECK(card.legend[0].lines[1].letters == "B");
  CHECK(card.legend[0].lines[1].meaning == "volume left in mL or a-slip-without-words");
}

TEST_CASE("from set: columns stand in the order of the questions, also where papers differ", "[templates][from_set]") {
  ProblemSet set = sample::solved_set();
  std::swap(set.papers[1].questions[0], set.papers[1].questions[1]);  // 1a, 1b, 2 on the second paper
  set.papers[1].questions[0].number = "1";
  set.papers[1].questions[1].number = "2";
  CHECK(answer_columns(set) == std::vector<std::string>{"1", "1a", "1b", "2", "2a", "2b"});
  MarkingCard const card = marking_card(set);
  CHECK(card.columns == answer_columns(set));
  CHECK(card.marks == std::vector<int>{2, 1, 3, 2, 1, 3});
  CHECK(card.rows[1].cells[0].answer.empty());
  CHECK(card.rows[1].cells[2].answer == "1.72 g");
}

TEST_CASE("from set: the legend of the marking card", "[templates][from_set]") {
  ProblemSet set = sample::solved_set();
  auto const key = [&set](std::size_t paper) -> std::vector<SlipKeyEntry>& { return set.papers[paper].questions[1].slip_key[1]; };
  key(0) = {{'A', {"volume-left-in-mL"}, "1720", 1720},
            {'B', {"other-substance-molar-mass", "hydrate-water-forgotten"}, "1.1", 1.1},
            {'C', {"other-substance-molar-mass"}, "1.2", 1.2}};
  key(1) = {{'B', {"other-substance-molar-mass"}, "1.3", 1.3}, {'D', {"mole-ratio-inverted", "mole-ratio-taken-as-one"}, "2", 2}};
  SECTION("letters that mean the same share a line; a slip on half of the papers counts") {
    auto const lines = marking_card(set).legend.at(0).lines;
    REQUIRE(lines.size() == 4);
    CHECK(lines[0].letters == "A");
    CHECK(lines[1].letters == "B");
    CHECK(lines[1].meaning == "molar mass of the wrong substance or water of crystallisation left out");
    CHECK(lines[2].meaning == "molar mass of the wrong substance");
    CHECK(lines[3].meaning == "mole ratio turned over or mole ratio left out");
    key(0)[1].ids.pop_back();
    auto const fewer = marking_card(set).legend.at(0).lines;
    REQUIRE(fewer.size() == 3);
    CHECK(fewer[1].letters == "B C");
  }
  SECTION("two templates at one place: the answers document has the meanings") {
    set.papers[1].questions[1].template_name = "another";
    CHECK(marking_card(set).legend.at(0).lines.empty());
    std::string const text = marking_card_text(marking_card(set));
    CHECK(text.find("2b  not the same on every paper: see the answers document") != std::string::npos);
  }
}

TEST_CASE("from set: a substance without a caution of its own has its ions', or is said to have none", "[templates][from_set]") {
  auto const cautions = [](char const* problem, Naming naming = {}) {
    Question question;
    question.worked.problem = test::read_problem(problem);
    return cautions_for({question}, naming);
  };
  CHECK(cautions("given m(PbCl2) = 0.50 g\nfind n(PbCl2) in mol").find("Lead(II) chloride: Poisonous, builds up") == 0);
  CHECK(cautions("given m(CsCl) = 0.50 g\nfind n(CsCl) in mol")
            .find("Caesium chloride: no caution is in our tables: see the safety data sheet. ") == 0);
  Naming american;
  american.aluminium = Aluminium::aluminum;
  CHECK(cautions("given m(CsCl) = 0.50 g\nfind n(CsCl) in mol", american).find("Cesium chloride: ") == 0);
  CHECK(cautions("given m(NaCl) = 0.50 g\nfind n(NaCl) in mol").empty());  // its row says that it does little harm
}

TEST_CASE("from set: an element that is only a part of something needs no caution", "[templates][from_set]") {
  struct Row {
    char const *problem, *named;
    bool there;
  };
  Row const table[] = {
      {"given w(K) = 120.0 ppm\ngiven m(sample) = 7.80 kg\nfind m(K) in mg", "Potassium: ", false},
      {"given m(Na) = 0.984 g\ngiven m(C) = 0.257 g\ngiven m(O) = 1.027 g\nfind empirical formula", "Sodium: ", false},
      {"given m(Mg) = 0.486 g\ngiven m(O) = 0.320 g\nfind empirical formula", "Magnesium: ", true},
  };
  for (auto const& row : table) {
    CAPTURE(row.problem);
    Question question;
    question.worked.problem = test::read_problem(row.problem);
    CHECK((cautions_for({question}, Spelling::sulfur).find(row.named) != std::string::npos) == row.there);
  }
}
