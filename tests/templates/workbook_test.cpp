// Workbooks, read back without the library that writes them.
#include "templates/workbook.h"

#include "templates/class_workbook.h"
#include "templates/volumes.h"
#include "tests/marker/summarised.h"
#include "tests/templates/workbook_reading.h"

using namespace molewright;

TEST_CASE("workbook: names of cells", "[templates][workbook]") {
  CHECK(book::cell_name(0, 0) == "A1");
  CHECK(book::cell_name(2, 25) == "Z3");
  CHECK(book::cell_name(0, 26) == "AA1");
  CHECK(book::cell_name(9, 701) == "ZZ10");
  CHECK(book::cell_name(9, 702) == "AAA10");
  CHECK(book::range(2, 1, 13, 1) == "B3:B14");
}

TEST_CASE("workbook: what is written is what is read, and nothing runs but our formulas", "[templates][workbook]") {
  book::Sheet sheet;
  sheet.name = "One & two";
  sheet.widths = {10, 10};
  sheet.takes_text = true;
  sheet.rows = {
      {book::text("=1+1"), book::text("@x"), book::text("+SUM(A1)"), book::text("-1.20"), book::text("1.20"), book::Cell{}},
      {book::number(1.5), book::formula("=A2*2", 3), book::formula_without_result("=IF(A2>9,1,\"\")"),
       book::text("half \xC3 a sign"), book::text("a<b> & \"c\"")}};
  auto const made = book::workbook("t", {sheet});
  REQUIRE(ok(made));
  std::map<std::string, std::string> const expected{{"One & two!A1", "s@ '=1+1"},
                                                    {"One & two!B1", "s@ '@x"},
                                                    {"One & two!C1", "s@ '+SUM(A1)"},
                                                    {"One & two!D1", "s@ -1.20"},
                                                    {"One & two!E1", "s@ 1.20"},
                                                    {"One & two!F1", "blank@"},
                                                    {"One & two!A2", "n 1.5"},
                                                    {"One & two!B2", "f =A2*2 -> 3"},
                                                    {"One & two!C2", "f =IF(A2>9,1,\"\") -> "},
                                                    {"One & two!D2", "s@ half \xEF\xBF\xBD a sign"},
                                                    {"One & two!E2", "s@ a<b> & \"c\""}};
  CHECK(reading::cells_of(value(made)) == expected);
  auto const again = book::workbook("t", {sheet});
  REQUIRE(ok(again));
  CHECK(value(again) == value(made));  // the same bytes
}

TEST_CASE("workbook: a large sheet, its rows made as they are written", "[templates][workbook]") {
  auto const sheet_of = [](std::size_t rows) {
    book::Sheet sheet;
    sheet.name = "Large";
    sheet.widths = {10, 10};
    sheet.rows = {{book::text("head")}};
    sheet.more_rows = rows;
    sheet.make_row = [](std::size_t nth) {
      return std::vector{book::text("=a<" + std::to_string(nth)), book::number(static_cast<double>(nth)),
                         book::formula("=B2*2", 2)};
    };
    return sheet;
  };
  auto const rows = GENERATE(std::size_t{3}, book::rows_of_a_large_sheet);
  CAPTURE(rows);
  std::string pieces;
  std::size_t count = 0;
  book::Sheet small;
  small.name = "Small";
  small.rows = {{book::text("tail")}};
  REQUIRE_FALSE(book::write_workbook("t", {sheet_of(rows), small}, [&](std::string_view piece) {
    pieces += piece;
    ++count;
  }));
  CHECK(count == (pieces.size() + 65535) / 65536);
  auto const cells = reading::cells_of(pieces);
  CHECK(cells.size() == 1 + 3 * rows + 1);
  auto const last = std::to_string(rows + 1);
  CHECK(cells.at("Large!A1") == "s head");
  CHECK(cells.at("Large!A2") == "s '=a<0");
  CHECK(cells.at("Large!A" + last) == "s '=a<" + std::to_string(rows - 1));
  CHECK(cells.at("Large!B" + last) == "n " + std::to_string(rows - 1));
  CHECK(cells.at("Large!C" + last) == "f =B2*2 -> 2");
  CHECK(cells.at("Small!A1") == "s tail");
}

TEST_CASE("workbook: a class's marks, totals and means are formulas", "[templates][workbook]") {
  auto const part = [](char const* question, int marks, int accepted, ValueVerdict verdict) {
    Judgement one;
    one.question = question;
    one.marks = marks;
    one.marks_if_accepted = accepted;
    one.suggested = marks != accepted;
    one.out_of = 4;
    one.value = verdict;
    return one;
  };
  auto const wrong = ValueVerdict::wrong, right = ValueVerdict::right, absent = ValueVerdict::absent;
  auto const results = summarise("Feed", {{"=Ann", false, 4, 7, 8, {part("1", 4, 4, right), part("2", 0, 3, wrong)}},
                                          {"Bo", true, 0, 0, 8, {part("1", 0, 0, absent), part("2", 0, 0, absent)}},
                                          {"Cy", false, 1, 1, 8, {part("1", 1, 1, right), part("2", 0, 0, absent)}}});
  auto const made = book::workbook("Feed", class_workbook(results));
  REQUIRE(ok(made));
  auto const cells = reading::cells_of(value(made));
  auto const at = [&](char const* cell) {
    auto const found = cells.find(cell);
    return found == cells.end() ? std::string("nothing") : found->second;
  };
  CHECK(at("Marks!A3") == "s '=Ann");
  CHECK(at("Marks!D3") == "f =SUM(B3:C3) -> 4");
  CHECK(at("Marks!E3") == "n 8");
  CHECK(at("Marks!B4") == "s absent");
  CHECK(at("Marks!D4") == "s absent");
  CHECK(at("Marks!C5") == "s absent");  // for this part alone: out of its mean
  CHECK(at("Marks!B6") == "f =IF(COUNT(B3:B5)>0,AVERAGE(B3:B5),\"\") -> 2.5");
  CHECK(at("Marks!C6") == "f =IF(COUNT(C3:C5)>0,AVERAGE(C3:C5),\"\") -> 0");
  CHECK(at("Marks!C7") == "f =IF(COUNT(C3:C5)>1,STDEV(C3:C5),\"\") -> ");
  CHECK(at("Marks!B8") == "f =IF(COUNT(B3:B5)>0,AVERAGE(B3:B5)/B2,\"\") -> 0.625");
  CHECK(at("With suggested!D3") == "f =SUM(B3:C3) -> 7");
  CHECK(at("Marks!B7").rfind("f =IF(COUNT(B3:B5)>1,STDEV(B3:B5),\"\") -> 2.121320343559", 0) == 0);  // of 4 and 1: 3 / sqrt(2)
  CHECK(at("Marks!D6") == "f =IF(COUNT(D3:D5)>0,AVERAGE(D3:D5),\"\") -> 2.5");
  CHECK(at("Marks!A9") == "nothing");
  CHECK(at("Parts!H2") == "f =Marks!B8 -> 0.625");  // the facility that results.cpp finds by itself
}

TEST_CASE("workbook: who made a slip stands beside it, up to a volume of students", "[templates][workbook]") {
  auto const more = GENERATE(std::size_t{0}, std::size_t{1});
  std::vector<StudentResult> students;
  for (std::size_t s = 0; s < students_of_a_volume + more; ++s) {
    Judgement one;
    one.question = "1";
    one.out_of = 1;
    one.value = ValueVerdict::wrong;
    one.candidates = {{{{"volume-left-in-mL", "n"}}, 0.9, "", 0}};
    students.push_back({"S" + std::to_string(s), false, 0, 0, 1, {one}});
  }
  auto const results = summarise("Feed", students);
  auto const made = book::workbook("Feed", class_workbook(results));
  REQUIRE(ok(made));
  auto const cells = reading::cells_of(value(made));
  if (more == 0) {
    CHECK(cells.at("Slips!B2") == "f =COUNTA(C2:SH2) -> 500");
    CHECK(cells.at("Slips!SH2") == "s S499");
  } else {
    CHECK(cells.at("Slips!B2") == "n 501");
    CHECK(cells.at("Slips!C2") == "s too many to name; marks.jsonl has them");
    CHECK(cells.count("Slips!D2") == 0);
  }
}
