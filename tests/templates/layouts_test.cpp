// What the plain text of each document says, and that it stays within 80 columns.
#include <catch2/catch.hpp>
#include <string>
#include <vector>

#include "templates/corrections.h"
#include "templates/next_morning.h"
#include "templates/wrap.h"
#include "tests/templates/pdf_reading.h"
#include "tests/templates/sample.h"

using namespace molewright;

namespace {
void check_columns(std::string const& text) {
  for (std::size_t begin = 0; begin < text.size();) {
    std::size_t const end = text.find('\n', begin);
    REQUIRE(end != std::string::npos);  // every line is ended
    std::string const line = text.substr(begin, end - begin);
    CAPTURE(line);
    CHECK(paper::columns(line) <= 80);
    CHECK((line.empty() || line.back() != ' '));
    begin = end + 1;
  }
}
bool has(std::string const& text, std::string const& part) { return text.find(part) != std::string::npos; }
}  // namespace

TEST_CASE("text: all documents keep to 80 columns", "[templates][text]") {
  SheetDocument sheets = sample::sheets(2);
  sheets.sheets[0].student = std::string(100, 'n');
  check_columns(sheets_text(sheets));
  check_columns(answers_text(sample::answers(2)));
  check_columns(marking_card_text(sample::card(5, 24)));
  ClassReport report = sample::report(40);
  report.rows[2].student = sample::long_name;
  check_columns(report_text(report));
  check_columns(feedback_text(sample::feedback(4)));
}

TEST_CASE("text: a sheet asks, gives room for the answer and counts its marks", "[templates][text]") {
  std::string const text = sheets_text(sample::sheets(1));
  CHECK(has(text, "Name: Student Number 1"));
  CHECK(has(text, "Marks: ____ / 15"));  // 2 + 3 + 2 + 4 + 4
  CHECK(has(text, "1.  What amount of KNO₃ is in 25.0 mL of a 0.200 mol/L solution? [2]"));
  CHECK(has(text, "    Answer (b) m(AgCl): ____________________ [3]"));
  CHECK(has(text, "K7M2-Q4TX9"));
  CHECK(has(text, "Before anyone does this at the bench: Silver nitrate"));
}

TEST_CASE("text: answers give every step, its marks and what each letter means", "[templates][text]") {
  std::string const text = answers_text(sample::answers(1));
  CHECK(has(text, "n(KNO₃) = c(KNO₃) × V(KNO₃) = 0.200 mol/L × 0.0250 L = 0.005000 mol [+2]"));
  CHECK(has(text, "==> m(AgCl) = 1.72 g (3 significant figures)"));
  CHECK(has(text, "B  0.430   mole ratio turned over"));
  CHECK(has(text, "Seed of the set: thornmere-7"));
  AnswersDocument formula = sample::answers(1);
  formula.papers.front().questions.front().parts.front().figures.clear();  // a formula has none
  CHECK_FALSE(has(answers_text(formula), "()"));
}

TEST_CASE("text: the report names who made which slip and what nobody could do", "[templates][text]") {
  std::string const text = report_text(sample::report(30));
  CHECK(has(text, "29 present, 1 absent; out of 15 marks. Mean 9.4 marks"));
  CHECK(has(text, "s2   mole ratio turned over (1): Student Number 4"));
  CHECK(has(text, "absent"));
  CHECK(has(text, "Nobody had this"));
  CHECK(has(text, "* answers.csv:14:9: a student is given twice, the first row stays"));
}

TEST_CASE("text: feedback says what was written, what is right and what to practise", "[templates][text]") {
  FeedbackDocument const document = sample::feedback(3);
  std::string const text = feedback_text(document.pages[0], document.title);
  CHECK(has(text, "7 of 10 marks"));
  CHECK(has(text, "  You wrote: 6.00 mol\n  Right answer: 0.00600 mol\n"));
  CHECK(has(text, "  You wrote: (nothing)"));
  CHECK(has(text, "  To practise: Ten short lines"));
  CHECK_FALSE(has(text, "Right answer: 0.00500 mol"));  // part 1 was right: it is not said twice
  CHECK(has(text, "A  Q7KD-2M\n  Ten short lines of n = c × V with mixed mL and L\n  What amount is in 25.0 mL of it?\n"));
  CHECK(has(text, "Answers, for when you have finished: A: 0.0125 mol; B: 25.0 g\n"));
  CHECK_FALSE(has(feedback_text(document.pages[1], document.title), "New questions"));
  CHECK(has(feedback_text(document.pages[2], document.title), "You were not there for this one."));
}

TEST_CASE("text: the marking card holds the right answer and every letter", "[templates][text]") {
  std::string const text = marking_card_text(sample::card(1, 2));
  CHECK(has(text, "Student Number 1, version 1\n"));
  CHECK(has(text, "  2 [3]  right 1.20 × 10³ mL; A 0.0207; B 0.0208; C 0.0209; D 0.0210\n"));
  CHECK(has(text, "What the letters mean\n"));
  CHECK(has(text, "  1  A  mole ratio turned over, or the coefficients of the unbalanced equation"));
  CHECK(has(marking_card_text(sample::card(1, 5)), "  5  not the same on every paper: see the answers document\n"));
}

TEST_CASE("layouts: the page for the next morning is one page, however much there is", "[templates][layouts]") {
  NextMorning page;
  page.title = sample::title;
  page.present = 34;
  for (int i = 0; i < 3; ++i)
    page.slips.push_back({"mole ratio turned over, or the coefficients of the unbalanced equation used", 12,
                          sample::precipitate_text(),
                          std::vector<std::string>(9,
                                                   "n(AgCl) = n(BaCl₂) × ν(AgCl) / ν(BaCl₂) = 0.006000 mol × 2 / 1 = 0.01200 mol "
                                                   "[mol/L × L = mol: L cancels]"),
                          4, "n(AgCl) = n(BaCl₂)"});
  for (int i = 0; i < 16; ++i) page.pairs.push_back({sample::long_name, sample::long_name, "volume left in mL"});
  page.free = {"Ada Moss", "Ben Reed"};
  for (int i = 0; i < 3; ++i) page.starter.push_back({sample::precipitate_text(), "m(AgCl) = 1.72 g"});
  auto const size = GENERATE(PageSize::a4, PageSize::letter);
  auto const pages = reading::pages_of(reading::PdfFile(next_morning_pdf(page, size)));
  CHECK(pages.size() == 1);
  CHECK(reading::has_word(pages, "starter"));
  CHECK(next_morning_pdf(page, size) == next_morning_pdf(page, size));
  CHECK(has(next_morning_text(page), "Free to help"));
  check_columns(next_morning_text(page));
}

TEST_CASE("layouts: corrections", "[templates][layouts]") {
  CorrectionsDocument const document{
      sample::title,
      {{"Ada Moss",
        3,
        9,
        {{"1", "K7M2Q4TX9", sample::precipitate_text(), "6.00 mol", "Do again: the change of unit for V(BaCl₂).", 3, false},
         {"2", "K7M2Q4TX9", "", "0.00600", "Right. Add the unit mol.", 1, true}}}}};
  auto const text = corrections_text(document);
  check_columns(text);
  CHECK(has(text, "This step again:\n  Then the answer, with its unit:\n"));
  CHECK(has(text, "The answer again, with its unit:\n"));
  CHECK(has(text, "3 marks lost"));
  auto const pages = reading::pages_of(reading::PdfFile(corrections_pdf(document, PageSize::a4)));
  CHECK(pages.size() == 1);
}
