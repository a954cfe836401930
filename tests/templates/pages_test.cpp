// Every document as others read it: inside its margins, nothing over anything else, fonts embedded, the same bytes twice.
#include "templates/pages.h"

#include <algorithm>
#include <catch2/catch.hpp>
#include <functional>
#include <string>
#include <vector>

#include "templates/charts.h"
#include "tests/templates/pdf_reading.h"
#include "tests/templates/sample.h"

using namespace molewright;
using reading::Page;
using reading::PdfFile;
using reading::Word;

namespace {

std::string ten_lines() {
  std::string text;
  for (int i = 1; i <= 10; ++i)
    text += "Line " + std::to_string(i) + " of a question that says a good deal about the feed water of the greenhouse.\n";
  return text + "What is c(Cl⁻)?";
}

SheetDocument hard_sheets() {
  SheetDocument d = sample::sheets(2);
  d.sheets[1].large_print = true;
  d.sheets.push_back(sample::sheet(sample::long_name, "12"));
  d.sheets.back().questions[1].text = ten_lines();
  d.sheets.back().questions[0].text = sample::all_signs;
  d.sheets.push_back(sample::sheet(sample::long_name, "13"));
  d.sheets.back().large_print = true;
  d.sheets.back().questions[1].text = ten_lines();
  d.sheets.push_back(sample::sheet("", "B"));
  d.sheets.push_back(
      sample::sheet("Pneumonoultramicroscopicsilicovolcanoconiosis-Featherstonehaugh-Throckmorton-Worthington-Smythe", ""));
  return d;
}

AnswersDocument hard_answers() {
  AnswersDocument d = sample::answers(2);
  d.papers.push_back(sample::answer_paper(sample::long_name, "3"));
  AnswerPart& part = d.papers.back().questions[0].parts[0];
  part.steps.push_back({"a" + std::string(200, 'x') + " = " + std::string(150, '9') + " mol", 1});
  part.answer = "m(" + std::string(120, 'H') + ") = 1.00 g";
  part.slips.push_back({"D", std::string(60, '7'), std::string(90, 'z')});
  return d;
}

struct Document {
  char const* name;
  double margin;
  std::function<std::string(PageSize)> make;
};

std::vector<Document> documents() {
  return {
      {"sheets", 48, [](PageSize size) { return sheets_pdf(hard_sheets(), size); }},
      {"answers", 48, [](PageSize size) { return answers_pdf(hard_answers(), size); }},
      {"card", 30,
       [](PageSize size) {
         MarkingCard card = sample::card(40, 7);
         card.rows[3].student = sample::long_name;
         card.rows[4].cells[2].answer = std::string(80, '8') + " mol";
         return marking_card_pdf(card, size);
       }},
      {"card of many parts", 30, [](PageSize size) { return marking_card_pdf(sample::card(12, 24), size); }},
      {"report", 48,
       [](PageSize size) {
         ClassReport report = sample::report(40);
         report.rows[6].student = sample::long_name;
         report.slips[0].students.assign(120, sample::long_name);  // a cell higher than a page
         return report_pdf(report, size);
       }},
      {"feedback", 48,
       [](PageSize size) {
         FeedbackDocument feedback = sample::feedback(4);
         feedback.pages[0].student = sample::long_name;
         feedback.pages[0].items[1].written = std::string(300, 'w');
         return feedback_pdf(feedback, size);
       }},
  };
}

bool over_each_other(Word const& a, Word const& b) {
  double const x = std::min(a.x2, b.x2) - std::max(a.x1, b.x1);
  double const y = std::min(a.y2, b.y2) - std::max(a.y1, b.y1);
  // Boxes reach from the font's ascent to its descent, so lines of small leading touch: only a deep overlap is a collision.
  return x > 0.5 && y > 0.4 * std::min(a.y2 - a.y1, b.y2 - b.y1);
}

}  // namespace

TEST_CASE("pages: every document is whole on A4 and on Letter", "[templates][pages]") {
  for (PageSize const size : {PageSize::a4, PageSize::letter}) {
    for (Document const& document : documents()) {
      CAPTURE(document.name, size == PageSize::a4);
      std::string const bytes = document.make(size);
      CHECK(document.make(size) == bytes);  // the same input, the same bytes

      PdfFile const file(bytes);
      reading::output_of("qpdf --check " + file.quoted());
      std::vector<Page> const pages = pages_of(file);
      REQUIRE_FALSE(pages.empty());
      CHECK(std::max(pages[0].width, pages[0].height) == Approx(size == PageSize::a4 ? 841.89 : 792).margin(0.1));
      CHECK(std::min(pages[0].width, pages[0].height) == Approx(size == PageSize::a4 ? 595.28 : 612).margin(0.1));

      for (std::size_t p = 0; p < pages.size(); ++p) {
        CAPTURE(p);
        std::vector<Word> const& words = pages[p].words;
        CHECK(words.size() > 3);
        for (std::size_t i = 0; i < words.size(); ++i) {
          Word const& w = words[i];
          bool const inside = w.x1 > document.margin - 0.5 && w.x2 < pages[p].width - document.margin + 0.5 &&
                              w.y1 > document.margin - 3 && w.y2 < pages[p].height - document.margin + 3;
          bool const drawn = w.text.find("\uFFFD") == std::string::npos;
          if (!inside || !drawn)
            FAIL_CHECK("out of place: " << w.text << " " << w.x1 << " " << w.y1 << " " << w.x2 << " " << w.y2);
          for (std::size_t k = i + 1; k < words.size(); ++k) {
            if (over_each_other(w, words[k])) FAIL_CHECK("over each other: " << w.text << " and " << words[k].text);
          }
        }
      }
      CHECK(reading::darkest_in_margin(file, document.margin) > 250);

      std::string const fonts = reading::output_of("pdffonts " + file.quoted());
      std::size_t lines = 0;
      for (std::size_t at = fonts.find("DejaVu"); at != std::string::npos; at = fonts.find("DejaVu", at + 1)) {
        std::string const line = fonts.substr(at, fonts.find('\n', at) - at);
        CAPTURE(line);
        CHECK(line.find("yes yes yes") != std::string::npos);  // embedded, subset, with a map to Unicode
        ++lines;
      }
      CHECK(lines >= 2);
    }
  }
}

TEST_CASE("pages: what is printed copies as it was written", "[templates][pages]") {
  SheetDocument d{"H₂O and Ca(NO₃)₂·4H₂O", {}, {sample::sheet("Zoë Ångström-Øster", "1")}};
  d.sheets[0].questions = {{"1", "C0DE", sample::all_signs, {{"n", true, 1}}, 1}};
  PdfFile const file(sheets_pdf(d, PageSize::a4));
  std::vector<Page> const pages = pages_of(file);
  std::string const signs = sample::all_signs;
  for (std::size_t begin = 0; begin < signs.size();) {
    std::size_t const end = std::min(signs.find(' ', begin), signs.size());
    std::string const word = signs.substr(begin, end - begin);
    // Readers take the special blanks for ends of words.
    if (word.find("\u2009") == std::string::npos && word.find("\u202F") == std::string::npos &&
        word.find("\u00A0") == std::string::npos) {
      CAPTURE(word);
      CHECK(has_word(pages, word));
    }
    begin = end + 1;
  }
  CHECK(has_word(pages, "Zoë"));
  CHECK(has_word(pages, "Ångström-Øster"));
  CHECK(reading::output_of("pdfinfo " + file.quoted()).find("Title:           H₂O and Ca(NO₃)₂·4H₂O") != std::string::npos);
}

TEST_CASE("pages: each paper counts its own pages and begins on a new one", "[templates][pages]") {
  PdfFile const file(sheets_pdf(sample::sheets(3), PageSize::a4));
  std::string const text = reading::output_of("pdftotext -layout " + file.quoted() + " -");
  CHECK(pages_of(file).size() == 6);  // five questions: two sides
  for (int s = 1; s <= 3; ++s) {
    std::string const name = "Student Number " + std::to_string(s) + " · ";
    std::size_t count = 0;
    for (std::size_t at = text.find(name); at != std::string::npos; at = text.find(name, at + 1)) ++count;
    CHECK(count == 2);
  }
  std::size_t firsts = 0;
  for (std::size_t at = text.find("page 1 of 2"); at != std::string::npos; at = text.find("page 1 of 2", at + 1)) ++firsts;
  CHECK(firsts == 3);
}

TEST_CASE("pages: a question that fits on a page is not broken over two", "[templates][pages]") {
  SheetDocument document = hard_sheets();
  std::erase_if(document.sheets,
                [](Sheet const& sheet) { return sheet.large_print; });  // ten lines at 18 point are more than a page
  PdfFile const file(sheets_pdf(document, PageSize::letter));
  std::size_t questions = 0;
  for (Page const& page : pages_of(file)) {
    // A question begins with its number at the left margin and ends with its code at the right one: a page that holds all of each
    // has as many of both.
    std::size_t numbers = 0, codes = 0;
    for (Word const& word : page.words) {
      if (word.text.size() == 1 && word.text[0] >= '1' && word.text[0] <= '5' && word.x1 < 49) ++numbers;
      if (word.text.size() == 10 && word.text[4] == '-') ++codes;
    }
    CHECK(numbers == codes);
    questions += numbers;
  }
  CHECK(questions == 5 * document.sheets.size());
}

TEST_CASE("pages: an empty document is still a PDF", "[templates][pages]") {
  for (std::string const& bytes :
       {sheets_pdf({}, PageSize::a4), answers_pdf({}, PageSize::a4), marking_card_pdf({}, PageSize::a4),
        report_pdf({}, PageSize::a4), feedback_pdf({}, PageSize::a4)}) {
    PdfFile const file(bytes);
    reading::output_of("qpdf --check " + file.quoted());
    CHECK(pages_of(file).size() == 1);
  }
}

TEST_CASE("pages: a table brings its head again on every page", "[templates][pages]") {
  PdfFile const file(marking_card_pdf(sample::card(40, 7), PageSize::a4));
  std::vector<Page> const pages = pages_of(file);
  CHECK(pages.size() > 1);
  CHECK(pages.size() <= 7);  // forty students with seven parts each, and the legend
  std::size_t with_rows = 0;
  for (Page const& page : pages) {
    bool const rows = reading::has_word({page}, "Number");  // of "Student Number 3"
    CHECK(reading::has_word({page}, "[3]") == rows);        // the marks of a part stand in the head
    with_rows += rows ? 1 : 0;
  }
  CHECK(with_rows + 1 >= pages.size());
  for (Page const& page : pages) {
    for (Word const& word : page.words) {
      if (word.text.starts_with("page") || word.text == "of") continue;
      CHECK(word.y2 - word.y1 >= 8 * 1.1);  // nothing but the footer is smaller than 9 point; a box is 1.16 times the size
    }
  }
}

TEST_CASE("pages: labels of many bars keep apart", "[templates][pages]") {
  std::vector<paper::Bar> bars;
  for (int from = 0; from <= 100; from += 4) bars.push_back({std::to_string(from) + "–" + std::to_string(from + 3), 1});
  paper::Pages pages({PageSize::a4, false, 54, 8}, "bars");
  pages.section("bars", "", "bars");
  pages.flow({paper::standing_bars(pages, bars, 80, "per cent of all marks")});
  PdfFile const file(pages.finish());
  auto const read = pages_of(file);
  CHECK(reading::has_word(read, "0–3"));
  auto const& words = read.front().words;
  for (std::size_t i = 0; i < words.size(); ++i)
    for (std::size_t k = i + 1; k < words.size(); ++k) {
      CAPTURE(words[i].text, words[k].text);
      CHECK_FALSE(over_each_other(words[i], words[k]));
    }
  // Two labels that touch are read as one word.
  CHECK(std::none_of(words.begin(), words.end(),
                     [](Word const& word) { return word.text.size() > std::string("100–103").size(); }));
}
