// The answers file and the class file as spreadsheets and people write them. The form is RFC 4180; what goes beyond it stands in
// marker/table.h.
#include "marker/answers_file.h"

#include <catch2/catch.hpp>
#include <string>
#include <vector>

#include "tests/marker/whole_file.h"

using namespace molewright;

namespace {

using Cells = std::vector<std::vector<std::string>>;

struct TableCase {
  std::string text;
  Cells rows;  ///< the header first
  char const* what;
};

struct FaultCase {
  std::string text;
  std::vector<std::string> shown;  ///< "line:column id: sentence"
  Cells rows;
};

Cells cells_of(Table const& table) {
  Cells result{table.header};
  for (auto const& row : table.rows) result.push_back(row.cells);
  return result;
}

std::vector<std::string> shown(std::vector<PlacedFault> const& faults) {
  std::vector<std::string> result;
  for (auto const& each : faults)
    result.push_back(std::to_string(each.line) + ":" + std::to_string(each.column) + " " + each.fault.id + ": " +
                     sentence(each.fault));
  return result;
}

std::vector<std::string> listed(AnswersRead const& read) {
  std::vector<std::string> result;
  for (auto const& each : read.answers) result.push_back(each.student + "|" + each.question + "|" + each.answer);
  return result;
}

std::vector<std::string> const known = {"1", "2a", "2b"};

}  // namespace

TEST_CASE("table: what spreadsheets write", "[marker][table]") {
  auto const c = GENERATE(values<TableCase>({
      {"student,1\nAda,5\n", {{"student", "1"}, {"Ada", "5"}}, "plain"},
      {"student,1\nAda,5", {{"student", "1"}, {"Ada", "5"}}, "no line break at the end"},
      {"student,1\r\nAda,5\r\n", {{"student", "1"}, {"Ada", "5"}}, "CRLF"},
      {"student,1\rAda,5\r", {{"student", "1"}, {"Ada", "5"}}, "CR"},
      {"\xEF\xBB\xBFstudent,1\nAda,5\n", {{"student", "1"}, {"Ada", "5"}}, "byte-order mark"},
      {"student\t1\nAda\t0,5\n", {{"student", "1"}, {"Ada", "0,5"}}, "tabs"},
      {"student;1\nAda;0,5 g\n", {{"student", "1"}, {"Ada", "0,5 g"}}, "semicolons"},
      {"sep=;\nstudent;a,b,c\nAda;5\n", {{"student", "a,b,c"}, {"Ada", "5"}}, "separator named in the first line"},
      {"student,\"a;b;c\"\nAda,5\n", {{"student", "a;b;c"}, {"Ada", "5"}}, "separators inside quotes do not count"},
      {"student,1\n\"Fenn, Ada\",5\n", {{"student", "1"}, {"Fenn, Ada", "5"}}, "comma in quotes"},
      {"student,1\n\"Ada \"\"Bee\"\" Fenn\",5\n", {{"student", "1"}, {"Ada \"Bee\" Fenn", "5"}}, "doubled quotes"},
      {"student,1\nAda \"Bee\" Fenn,5\n", {{"student", "1"}, {"Ada \"Bee\" Fenn", "5"}}, "a quotation mark inside a plain cell"},
      {"student,1\n\"Bee\" Fenn,5\n", {{"student", "1"}, {"\"Bee\" Fenn", "5"}}, "a plain cell that begins with one"},
      {"student,1\nAda,5\"\n", {{"student", "1"}, {"Ada", "5\""}}, "a stray quotation mark at the end"},
      {"student,1\n \"Fenn, Ada\" , 5 \n", {{"student", "1"}, {"Fenn, Ada", " 5 "}}, "blanks round quotes"},
      {"student,1\n\"Ada\",\"5\r\n6\"\nBo,7\n", {{"student", "1"}, {"Ada", "5\n6"}, {"Bo", "7"}}, "line break in quotes"},
      {"student,1\nÉmile Müller,5\n", {{"student", "1"}, {"Émile Müller", "5"}}, "accents"},
      {"student,1,2a\nAda,,\nBo,5,\n", {{"student", "1", "2a"}, {"Ada", "", ""}, {"Bo", "5", ""}}, "empty cells"},
      {"student,1,2a\nAda\n", {{"student", "1", "2a"}, {"Ada", "", ""}}, "too few cells"},
      {"student,1,,\nAda,5,,\n", {{"student", "1"}, {"Ada", "5"}}, "empty columns at the end"},
      {"student,1\nAda,5,, \n", {{"student", "1"}, {"Ada", "5"}}, "blank cells beyond the header"},
      {"\n\nstudent,1\n\n  \n,\nAda,5\n\n", {{"student", "1"}, {"Ada", "5"}}, "blank lines"},
      {"student,1\n", {{"student", "1"}}, "only a header"},
      {" student , 1 \nAda,5\n", {{"student", "1"}, {"Ada", "5"}}, "blanks round names"},
      {"student,1\n'=Ada,'-x\n'Ada,''=5\n", {{"student", "1"}, {"=Ada", "-x"}, {"'Ada", "'=5"}}, "the apostrophe of csv_cell"},
  }));
  CAPTURE(c.what);
  auto const read = read_table(c.text);
  CHECK(shown(read.faults).empty());
  CHECK(cells_of(read.table) == c.rows);
}

TEST_CASE("table: faults name their place, and the other rows are read", "[marker][table]") {
  std::string const long_cell(65 * 1024, 'x');
  auto const c = GENERATE_COPY(values<FaultCase>({
      {"", {"1:1 empty-file: nothing is in the file, expected a first row with the names of the columns"}, {{}}},
      {"\xEF\xBB\xBF\n \n", {"3:1 empty-file: nothing is in the file, expected a first row with the names of the columns"}, {{}}},
      {std::string("\xFF\xFEs\0t\0", 6),
       {"1:1 invalid-utf8: the file is UTF-16, expected text in UTF-8 (save the file as CSV UTF-8)"},
       {{}}},
      {"student,1\nFenn, Ada,5\nBo,6\n",
       {"2:11 too-many-cells: the row has 3 cells and the header 2, expected a cell that holds a comma to stand in quotation "
        "marks"},
       {{"student", "1"}, {"Bo", "6"}}},
      {"student;1\nAda;5;x\n",
       {"2:7 too-many-cells: the row has 3 cells and the header 2, expected a cell that holds a semicolon to stand in quotation "
        "marks"},
       {{"student", "1"}}},
      {"student,1\n\"Ada\",\"5\n6\",7\nBo,8\n",
       {"3:4 too-many-cells: the row has 3 cells and the header 2, expected a cell that holds a comma to stand in quotation "
        "marks"},
       {{"student", "1"}, {"Bo", "8"}}},
      {"student,1\nÉlan,\"5\nBo,6\n",
       {"2:6 quote-not-closed: a quotation mark is opened and never closed, expected a second quotation mark"},
       {{"student", "1"}, {"Bo", "6"}}},
      {"student,1\n\"Fenn, \"Ada\" B\",5\nBo,6\n",
       {"2:8 stray-quote: text follows a closing quotation mark, expected a separator; inside a quoted cell a quotation mark is "
        "written twice"},
       {{"student", "1"}, {"Bo", "6"}}},
      {"student,1\nAda,\"5\nBo,\"6\nCy,7\n",
       {"2:5 quote-not-closed: a quotation mark is opened and not closed in its row, expected a second quotation mark; the next "
        "one stands in line 3",
        "3:4 quote-not-closed: a quotation mark is opened and never closed, expected a second quotation mark"},
       {{"student", "1"}, {"Cy", "7"}}},
      {"student,1\nJos\xE9,5\nBo,6\n",
       {"2:4 invalid-utf8: a byte that is not UTF-8, expected text in UTF-8 (save the file as CSV UTF-8)"},
       {{"student", "1"}, {"Jos\uFFFD", "5"}, {"Bo", "6"}}},
      {std::string("student,1\nA\0a,5\nBo,6\n", 21),
       {"2:2 nul-byte: a NUL byte, which is no text, expected text in UTF-8"},
       {{"student", "1"}, {"A\uFFFDa", "5"}, {"Bo", "6"}}},
      {"st\xFFudent,1\nBo,6\n",
       {"1:3 invalid-utf8: a byte that is not UTF-8, expected text in UTF-8 (save the file as CSV UTF-8)"},
       {{}}},
      {"student,1\nAda," + long_cell + "\nBo,6\n",
       {"2:5 cell-too-long: a cell is longer than 64 kB"},
       {{"student", "1"}, {"Ada", long_cell.substr(0, 2000)}, {"Bo", "6"}}},
      {"student,1\nAda,\"" + long_cell + "\nZed,1\"\nBo,6\n",
       {"2:5 cell-too-long: a cell is longer than 64 kB"},
       {{"student", "1"}, {"Ada", long_cell.substr(0, 2000)}, {"Bo", "6"}}},
      {"student,1,Student,1\nAda,5,x,6\n",
       {"1:11 column-twice: the column \"Student\" stands twice, expected each name once; the first is read",
        "1:19 column-twice: the column \"1\" stands twice, expected each name once; the first is read"},
       {{"student", "1", "Student", "1"}, {"Ada", "5", "x", "6"}}},
      {"student" + std::string(500, ',') + "x\nAda\n", {"1:1 too-many-columns: more than 500 columns"}, {{}}},
      {"student," + std::string(2000, 'x') + "\nAda\n", {"1:1 cell-too-long: the name of a column is longer than 1 kB"}, {{}}},
  }));
  CAPTURE(c.text.substr(0, 200));
  auto const read = read_table(c.text);
  CHECK(shown(read.faults) == c.shown);
  CHECK(cells_of(read.table) == c.rows);
}

TEST_CASE("table: a fault shows its line", "[marker][table]") {
  auto const read = read_table("student,1\r\nÉlan,\"5\r\nBo,6\r\n");
  REQUIRE(read.faults.size() == 1);
  CHECK(read.faults[0].line_text == "Élan,\"5");
}

TEST_CASE("table: rows and cells know where they stand", "[marker][table]") {
  auto const table = read_table("student,1,2a\n\n\"Zoë\nB\", 5,6\nBo\n").table;
  REQUIRE(table.rows.size() == 2);
  CHECK(table.rows[0].line == 3);
  CHECK(table.rows[0].lines == std::vector<std::size_t>{3, 4, 4});
  CHECK(table.rows[0].columns == std::vector<std::size_t>{1, 4, 7});
  CHECK(table.rows[1].line == 5);
  CHECK(table.header_columns == std::vector<std::size_t>{1, 9, 11});
}

TEST_CASE("table: cells that a spreadsheet would run are neutralised, and read back as they were", "[marker][table]") {
  struct Case {
    std::string cell, written;
  };
  auto const c = GENERATE(values<Case>({
      {"", ""},
      {"Ada", "Ada"},
      {"1.72 g", "1.72 g"},
      {"Fenn, Ada", "\"Fenn, Ada\""},
      {"Ada \"Bee\" Fenn", "\"Ada \"\"Bee\"\" Fenn\""},
      {"two\nlines", "\"two\nlines\""},
      {" 5", "\" 5\""},
      {"=1+1", "'=1+1"},
      {"  =1+1", "'  =1+1"},
      {"@x", "'@x"},
      {"+x", "'+x"},
      {"-x", "'-x"},
      {"-", "-"},
      {"-1.2 g", "-1.2 g"},
      {"+5", "+5"},
      {"-2+cmd|' /C x'!A0", "'-2+cmd|' /C x'!A0"},
      {"'=1", "''=1"},
      {"'quoted'", "'quoted'"},
      {"=HYPERLINK(\"x\")", "\"'=HYPERLINK(\"\"x\"\")\""},
  }));
  CAPTURE(c.cell);
  CHECK(csv_cell(c.cell) == c.written);
  auto const read = read_table("a,b\nx," + csv_cell(c.cell) + "\n");
  REQUIRE(read.table.rows.size() == 1);
  CHECK(read.table.rows[0].cells[1] == c.cell);
  CHECK(csv_cell("a;b", ';') == "\"a;b\"");
  CHECK(csv_cell("a,b", ';') == "a,b");
}

TEST_CASE("answers: a wide file", "[marker][answers]") {
  auto const read = read_answers("Student,1,2B,2a\n\"Fenn,  Ada\", 1.72 g ,,B\nBo\n", known);
  CHECK(shown(read.faults).empty());
  CHECK(read.wide);
  CHECK(listed(read) ==
        std::vector<std::string>{"Fenn, Ada|1| 1.72 g ", "Fenn, Ada|2b|", "Fenn, Ada|2a|B", "Bo|1|", "Bo|2b|", "Bo|2a|"});
  CHECK(read.answers[0].line == 2);
  CHECK(read.answers[0].column == 14);
  CHECK_FALSE(read.answers[0].marks);
}

TEST_CASE("answers: a long file", "[marker][answers]") {
  auto const read = read_answers(
      "student;question;answer;working;measured;MARKS\nAda;2A;1,72 g;\"n = cV\nm = nM\"; 24,65 ;2\nAda;1;;;;\nBo;2a;absent\n",
      known);
  CHECK(shown(read.faults).empty());
  CHECK_FALSE(read.wide);
  CHECK(listed(read) == std::vector<std::string>{"Ada|2a|1,72 g", "Ada|1|", "Bo|2a|absent"});
  CHECK(read.answers[0].working == "n = cV\nm = nM");
  CHECK(read.answers[0].measured == "24,65");
  CHECK(read.answers[0].marks == std::optional<std::string>("2"));
  CHECK_FALSE(read.answers[1].marks);
  CHECK(read.answers[2].line == 5);
}

TEST_CASE("answers: faults leave the other rows", "[marker][answers]") {
  struct Case {
    std::string text;
    std::vector<std::string> faults, answers;
  };
  auto const c = GENERATE(values<Case>({
      {"student,1,2c\nAda,5,6\n", {"1:11 unknown-column: unknown column \"2c\", expected 2a or 2b"}, {"Ada|1|5"}},
      {"student,1,remarks\nAda,5,6\n", {"1:11 unknown-column: unknown column \"remarks\", expected 1, 2a or 2b"}, {"Ada|1|5"}},
      {"student,,1\nAda,5,6\n", {"1:9 unknown-column: a column has no name, expected 1, 2a or 2b"}, {"Ada|1|6"}},
      {"student,1\n,5\nBo,6\n", {"2:1 no-student: no student is named, expected a student's name"}, {"Bo|1|6"}},
      {"student,1\nAda,5\nAda ,6\nada,7\n",
       {"3:1 given-twice: the student \"Ada\" stands twice, expected one row a student; the first is marked"},
       {"Ada|1|5", "ada|1|7"}},
      {"student,1,1\nAda,5,6\n",
       {"1:11 column-twice: the column \"1\" stands twice, expected each name once; the first is read"},
       {"Ada|1|5"}},
      {"name,1\nAda,5\n",
       {"1:1 missing-column: there is no column \"student\", expected a first row such as: student,1,2a,2b"},
       {}},
      {"student,question\nAda,5\n",
       {"1:1 missing-column: there is no column \"answer\", expected a first row such as: student,question,answer"},
       {}},
      {"student,answer\nAda,5\n",
       {"1:1 missing-column: there is no column \"question\", expected a first row such as: student,question,answer"},
       {}},
      {"student,question,answer\nAda,1,5\nAda,2c,6\nAda,,7\n,1,8\nBo,1,9\nAda,1,10\n",
       {"3:5 unknown-question: unknown question \"2c\", expected 2a or 2b",
        "4:5 unknown-question: no question is named, expected 1, 2a or 2b",
        "5:1 no-student: no student is named, expected a student's name",
        "7:5 given-twice: question 1 of \"Ada\" stands twice, expected one row an answer; the first is marked"},
       {"Ada|1|5", "Bo|1|9"}},
      {"student,question,answer,mark\nAda,1,5,2\n",
       {"1:25 unknown-column: unknown column \"mark\", expected marks"},
       {"Ada|1|5"}},
      {"student,1,x\nAda,5\n\nFenn, Bo,6,7\nCy,8\n",
       {"1:11 unknown-column: unknown column \"x\", expected 1, 2a or 2b",
        "4:12 too-many-cells: the row has 4 cells and the header 3, expected a cell that holds a comma to stand in quotation "
        "marks"},
       {"Ada|1|5", "Cy|1|8"}},
  }));
  CAPTURE(c.text);
  auto const read = read_answers(c.text, known);
  CHECK(shown(read.faults) == c.faults);
  CHECK(listed(read) == c.answers);
}

TEST_CASE("class: members and their choices", "[marker][class]") {
  auto const read = read_class("Student;Level;Print;Version\nZoë Fenn;PLAIN;large;B\n\"Quill; Bo\";;;\n");
  CHECK(shown(read.faults).empty());
  REQUIRE(read.members.size() == 2);
  CHECK(read.members[0].student == "Zoë Fenn");
  CHECK(read.members[0].level == "plain");
  CHECK(read.members[0].print == "large");
  CHECK(read.members[0].version == "B");
  CHECK(read.members[1].student == "Quill; Bo");
  CHECK(read.members[1].level.empty());
  CHECK(read_class("student\nAda\nBo\n").members.size() == 2);
}

TEST_CASE("class: faults", "[marker][class]") {
  struct Case {
    std::string text;
    std::vector<std::string> faults;
    std::size_t members;
  };
  auto const c = GENERATE(values<Case>({
      {"student,level\nAda,plane\n", {"2:5 unknown-level: unknown level \"plane\", expected plain, standard or stretching"}, 1},
      {"student,level,print\nAda,hard,huge\n",
       {"2:5 unknown-level: unknown level \"hard\", expected plain, standard or stretching",
        "2:10 unknown-print: unknown print \"huge\", expected standard or large"},
       1},
      {"student,levle\nAda,plain\n", {"1:9 unknown-column: unknown column \"levle\", expected level"}, 1},
      {"student,level\n,plain\nAda,\nAda,\n",
       {"2:1 no-student: no student is named, expected a student's name",
        "4:1 given-twice: the student \"Ada\" stands twice, expected each name once; the first is kept"},
       1},
      {"pupil\nAda\n", {"1:1 missing-column: there is no column \"student\", expected a first row such as: student,level"}, 0},
      {"", {"1:1 empty-file: nothing is in the file, expected a first row with the names of the columns"}, 0},
  }));
  CAPTURE(c.text);
  auto const read = read_class(c.text);
  CHECK(shown(read.faults) == c.faults);
  CHECK(read.members.size() == c.members);
}
