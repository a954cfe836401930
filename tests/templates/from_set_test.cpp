// From a set to strings, marks and steps.
#include "templates/from_set.h"

#include <catch2/catch.hpp>
#include <string>
#include <vector>

#include "tests/templates/solved_sample.h"

using namespace molewright;

TEST_CASE("from set: marks of a part among its steps", "[templates][from_set]") {
  struct Case {
    std::vector<std::string> relations;
    int marks;
    std::vector<int> expected;
  };
  std::string const convert = relations::convert, molar = relations::molar_mass, ratio = relations::mole_ratio;
  // counted by hand, from the rule in the header
  auto const c = GENERATE_COPY(values<Case>({
      {{convert, "n = cV"}, 2, {1, 1}},
      {{convert, "n = cV"}, 1, {0, 1}},
      {{convert, "n = cV", ratio, molar, "m = nM"}, 3, {0, 1, 1, 0, 1}},
      {{convert, "n = cV", ratio, molar, "m = nM"}, 2, {0, 0, 1, 0, 1}},
      {{convert, "n = cV", ratio, molar, "m = nM"}, 4, {0, 1, 1, 1, 1}},
      {{"n = cV"}, 3, {3}},
      {{}, 3, {}},
      {{ratio}, 0, {0}},
  }));
  CAPTURE(c.relations, c.marks);
  CHECK(marks_of_steps(c.relations, c.marks) == c.expected);
}

TEST_CASE("from set: plain answers as people read them", "[templates][from_set]") {
  CHECK(pretty_answer("1.72 g") == "1.72 g");
  CHECK(pretty_answer("1.20e3") == "1.20 × 10³");
  CHECK(pretty_answer("0.0500 mol dm-3") == "0.0500 mol/dm³");
  CHECK(pretty_answer("BaCl2") == "BaCl₂");
  CHECK(pretty_answer("no idea") == "no idea");
  CHECK(pretty_answer("") == "");
}

TEST_CASE("from set: words for a slip end before the student's own numbers", "[templates][from_set]") {
  CHECK(short_words("volume-left-in-mL") == "volume left in mL");
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
  for (WorkingLine const& line : second.parts[1].steps) given += line.marks;
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
}
