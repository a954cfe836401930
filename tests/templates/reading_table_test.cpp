// Tables within a wording: ruled on paper, told in lines for whoever listens.
#include "templates/reading_table.h"

#include <algorithm>
#include <catch2/catch.hpp>

#include "templates/sheet.h"
#include "tests/templates/pdf_reading.h"

using namespace molewright;

namespace {
std::string const titration =
    "Readings:\nTitration\trough\t1\t2\nFinal reading, mL\t24.60\t23.45\t47.00\nInitial reading, mL\t0.60\t0.05\t23.45\nTitre, "
    "mL\t\t\t\n(a) Which count?";
}

TEST_CASE("reading table: a wording in pieces", "[templates][reading-table]") {
  auto const pieces = pieces_of(titration);
  REQUIRE(pieces.size() == 3);
  CHECK(pieces[0].paragraph == "Readings:");
  REQUIRE(pieces[1].table.size() == 4);
  CHECK(pieces[1].table[2] == std::vector<std::string>{"Initial reading, mL", "0.60", "0.05", "23.45"});
  CHECK(pieces[1].table[3] == std::vector<std::string>{"Titre, mL", "", "", ""});
  CHECK(pieces[2].paragraph == "(a) Which count?");
  CHECK(pieces_of("").size() == 1);
  CHECK(pieces_of("a\tb\nc\td\ne\tf\tg").size() == 2);  // another number of columns is another table
}

TEST_CASE("reading table: told in lines", "[templates][reading-table]") {
  auto told = with_told_tables(titration);
  for (std::size_t at; (at = told.find("\u00A0")) != std::string::npos;) told.replace(at, 2, " ");
  CHECK(
      told ==
      "Readings:\nRough titration: final reading 24.60 mL; initial reading 0.60 mL; titre ______ mL\nTitration 1: final reading "
      "23.45 mL; initial reading 0.05 mL; titre ______ mL\nTitration 2: final reading 47.00 mL; initial reading 23.45 mL; titre "
      "______ mL\n(a) Which count?");
  told = with_told_tables("Container with NaCl, g\t18.25\nContainer alone, g\t15.11\nNaCl, g\t\nWhat?");
  for (std::size_t at; (at = told.find("\u00A0")) != std::string::npos;) told.replace(at, 2, " ");
  CHECK(told == "Container with NaCl: 18.25 g\nContainer alone: 15.11 g\nNaCl: ______ g\nWhat?");
  CHECK(with_told_tables("No table.\nNone.") == "No table.\nNone.");
  CHECK(without_tables(titration) == "Readings: (a) Which count?");
}

TEST_CASE("reading table: on the sheet and in its text", "[templates][reading-table][pdf]") {
  SheetDocument document{"Titres", "", {}};
  for (bool const large : {false, true})
    document.sheets.push_back(
        {large ? "Large" : "Usual", "", large, {{"1", "BCDFGHJKMNPQ", titration, {{"V(HCl)", true, 2, ""}}, 3}}, ""});
  auto const text = sheets_text(document);
  CHECK(text.find('\t') == std::string::npos);
  CHECK(text.find("Rough titration: final reading 24.60 mL") != std::string::npos);
  auto const pdf = sheets_pdf(document, PageSize::a4);
  CHECK(pdf == sheets_pdf(document, PageSize::a4));
  reading::PdfFile const file(pdf);
  auto const pages = reading::pages_of(file);
  REQUIRE(pages.size() == 2);
  for (auto const& page : pages) {
    auto const word = [&](std::string const& wanted) -> reading::Word const& {
      auto const at = std::find_if(page.words.begin(), page.words.end(), [&](auto const& w) { return w.text == wanted; });
      REQUIRE(at != page.words.end());
      return *at;
    };
    auto const middle = [&](std::string const& wanted) { return (word(wanted).x1 + word(wanted).x2) / 2; };
    CHECK(middle("24.60") == Approx(middle("0.60")).margin(0.5));  // below each other
    CHECK(middle("24.60") == Approx(middle("rough")).margin(0.5));
    CHECK(middle("23.45") == Approx(middle("0.05")).margin(0.5));
    CHECK(word("24.60").y1 == Approx(word("47.00").y1).margin(0.5));  // beside each other
    CHECK(word("0.60").y1 > word("24.60").y1 + 5);
    CHECK(word("47.00").x2 < page.width - 40);
  }
}
