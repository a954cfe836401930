// `mark` with what cannot be marked: files, rows and cells at fault.
#include "tests/app/marked.h"
#include "tests/templates/workbook_reading.h"

using namespace molewright;

TEST_CASE("mark: files that cannot be marked, the exact text, and the folder stays as it was", "[app][mark][bad-input]") {
  struct Case {
    std::string set, answers, said;
  };
  auto const c = GENERATE(values<Case>({
      {"none.jsonl", "good.csv", "none.jsonl:1:1: cannot be read: No such file or directory\n"},
      {"set/set.jsonl", "none.csv", "none.csv:1:1: cannot be read: No such file or directory\n"},
      {"good.csv", "good.csv",
       "good.csv:1:1: this is not a problem set, expected a file that begins with {\"format\": \"molewright-set/1\"\n"},
      {"set/set.jsonl", "other.csv",
       "other.csv:2:1: none of these students has a paper in this set, expected the set of this class\n  Una Sallow,1,2,3\n  ^\n"
       "Nothing was marked.\n"},
      {"set/set.jsonl", "headless.csv",
       "headless.csv:1:1: there is no column \"student\", expected a first row such as: student,1,2a,2b\n  Bo Sedge,1\n  "
       "^\nNothing "
       "was marked.\n"},
      {"set/set.jsonl", "empty.csv",
       "empty.csv:1:1: nothing is in the file, expected a first row with the names of the columns\nNothing was marked.\n"},
  }));
  CAPTURE(c.set, c.answers);
  Marked place;
  place.write("good.csv", "student,1,2a,2b\nBo Sedge,right,right,right\n");
  place.write("other.csv", "student,1,2a,2b\nUna Sallow,1,2,3\n");
  place.write("headless.csv", "Bo Sedge,1\n");
  place.write("empty.csv", "");
  REQUIRE(place.run({"mark", "set/set.jsonl", "good.csv", "--out", "o"}).status == 0);
  auto const before = place.all("o");
  for (std::string const out : {"o", "new"}) {
    auto const said = place.run({"mark", c.set, c.answers, "--out", out});
    CHECK(said.status == 1);
    CHECK(said.out.empty());
    CHECK(said.err == c.said);
  }
  CHECK(place.all("o") == before);
  CHECK_FALSE(place.there("new"));
}

TEST_CASE("mark: a cell that is no text costs its student that cell alone", "[app][mark][bad-input]") {
  for (std::string const& cell : {std::string(1 << 20, '7'), std::string("0.1\0 g", 6), std::string("0.1 g\xE2\x80")}) {
    Marked place;
    place.write("a.csv", "student,1,2a,2b\nBo Sedge," + cell + ",right,right\n");
    auto const all = place.marked({"set/set.jsonl", "a.csv"});
    CHECK(of(all, "Bo Sedge", "1")["value"] == "unreadable");
    CHECK(of(all, "Bo Sedge", "2a")["value"] == "right");
    CHECK(of(all, "Bo Sedge", "2b")["value"] == "right");
    auto const said = place.run({"mark", "set/set.jsonl", "a.csv", "--out", "o"});
    CHECK(said.status == 1);
    CHECK(said.err.find("1 row or cell could not be marked.") != std::string::npos);
    CHECK(place.read("o/feedback.txt").find("You were not there", place.read("o/feedback.txt").find("Bo Sedge")) >
          place.read("o/feedback.txt").find("=Cleo Rush"));
  }
}

TEST_CASE("mark: answers to another set of the same class are suspected", "[app][mark][bad-input]") {
  Workplace place;
  std::string members_of_ten = "student\n";
  for (char name = 'a'; name < 'k'; ++name) members_of_ten += std::string("Student ") + name + '\n';
  place.write("class.csv", members_of_ten);
  place.write("own.problem",
              "problem feed\ngiven m(KNO3) = 2.52 g\ngiven V(KNO3) = 250.0 mL\nfind c(KNO3) in mol/L\ntext\n"
              "  Potassium nitrate, {m(KNO3)}, is dissolved to {V(KNO3)}. What is its concentration?\nend\n");
  std::string answers = "student,1,2,3\n";
  for (std::string const seed : {"first", "second"}) {
    std::string set = "title = \"Feed\"\nclass = \"class.csv\"\nseed = \"" + seed + "\"\n";
    for (int question = 0; question < 3; ++question) set += "[[question]]\nproblem = \"own.problem\"\nvary = true\n";
    place.write(seed + ".toml", set);
    REQUIRE(place.run({"set", seed + ".toml", "--out", seed}).status == 0);
  }
  std::string row;
  for (auto const& line : lines_of(place.read("first/set.jsonl"))) {
    auto const question = Json::parse(line);
    if (!question.contains("parts")) continue;
    if (question["number"] == "1") row = question["student"].get<std::string>();
    auto const part = question["parts"][0];
    row += ',' + part["answer"].get<std::string>() + ' ' + part["unit"].get<std::string>();
    if (question["number"] == "3") answers += row + '\n';
  }
  place.write("answers.csv", answers);
  auto const own = place.run({"mark", "first/set.jsonl", "answers.csv", "--out", "o"});
  CAPTURE(answers, own.err);
  CHECK(own.err.empty());
  CHECK(place.run({"mark", "second/set.jsonl", "answers.csv", "--out", "p"})
            .err.find("Are they answers to this set? The codes on the sheets tell one set from another.") != std::string::npos);
}

TEST_CASE("mark: other questions, bytes that are no text, a damaged line of the set", "[app][mark][bad-input]") {
  Marked place;
  place.write("columns.csv", "student,1,2a,7c\nBo Sedge,right,right,right\n");
  auto const columns = place.run({"mark", "set/set.jsonl", "columns.csv"});
  CHECK(columns.status == 1);
  CHECK(columns.err ==
        "columns.csv:1:14: unknown column \"7c\", expected 1, 2a or 2b\n  student,1,2a,7c\n               ^\n"
        "No file has a column for 2b. If the class did answer, it is missing.\n1 row or cell could not be marked.\n");
  place.write("bytes.csv", "student,1,2a,2b\nBo Sedge,right,right,right\n\"Reed, Ann\",\xFF,,\n");
  auto const bytes = place.run({"mark", "set/set.jsonl", "bytes.csv"});
  CHECK(bytes.status == 1);
  CHECK(lines_of(bytes.err).at(0).rfind("bytes.csv:3:13: a byte that is not UTF-8", 0) == 0);
  CHECK(place.run({"mark", "set/set.jsonl", "bytes.csv"}).out.find("Bo Sedge") != std::string::npos);

  auto text = place.read("set/set.jsonl");
  place.write("cut.jsonl", text.substr(0, text.size() - 200));
  place.write("good.csv", "student,1,2a,2b\nBo Sedge,right,right,right\n");
  auto const cut = place.run({"mark", "cut.jsonl", "good.csv"});
  CHECK(cut.status == 1);
  CHECK(cut.err == "cut.jsonl:9:1: this question is not a JSON object, expected a line as this program writes it\n");
  CHECK(cut.out.find("Bo Sedge") != std::string::npos);
}

TEST_CASE("mark: formulas in cells run in no output", "[app][mark][bad-input]") {
  Marked place;
  place.write("a.csv", "student,1,2a,2b\n'=Cleo Rush,=1+1,@x,\"+cmd|' /C calc'!A0\"\n");
  auto const said = place.run({"mark", "set/set.jsonl", "a.csv", "--out", "o"});
  CHECK(said.status == 1);  // what a spreadsheet would work out is nobody's answer
  for (auto const& file : {"o/marks.csv", "set/answers-to-fill.csv"})
    for (auto const& line : lines_of(place.read(file))) {
      CAPTURE(file, line);
      CHECK(line.find_first_of("=@+") != 0);
      CHECK(line.find(",=") == std::string::npos);
      CHECK(line.find(",@") == std::string::npos);
    }
  for (auto const& file : {"o/report.xlsx", "set/answers-to-fill.xlsx"})
    for (auto const& [cell, holds] : reading::cells_of(place.read(file))) {
      CAPTURE(file, cell, holds);
      auto const text = holds.substr(holds.find(' ') + 1);
      CHECK((holds[0] == 'f' || text.find_first_of("=@") != 0));
      if (holds[0] == 'f') CHECK(holds.find("Cleo") == std::string::npos);
    }
}

TEST_CASE("mark: the codes at the end of a row show that its cells moved", "[app][mark][bad-input]") {
  Marked place;
  auto rows = lines_of(place.read("set/answers-to-fill.csv"));
  REQUIRE(rows.at(0) == "\xEF\xBB\xBFstudent,1,2a,2b,code\r");
  auto const code = rows.at(2).substr(rows.at(2).rfind(',') + 1, 12);
  REQUIRE(rows.at(2).rfind("Bo Sedge,,,,", 0) == 0);
  struct Case {
    std::string row, column, message;
  };
  auto const c = GENERATE_COPY(values<Case>(
      {{"Bo Sedge,3.1 g,4.2 g," + code + ",", "2b", "the answers of \"Bo Sedge\" stand too far to the left: the code " + code},
       {"Bo Sedge,,3.1 g,4.2 g,5.3 g", "2b",
        "the answers of \"Bo Sedge\" stand too far to the right: \"5.3 g\" stands in the "}}));
  CAPTURE(c.row);
  place.write("a.csv", "student,1,2a,2b,code\n" + c.row + "\n");
  auto const said = place.run({"mark", "set/set.jsonl", "a.csv"});
  CHECK(said.status == 1);
  CHECK(said.err.rfind("a.csv:2:", 0) == 0);
  CHECK(said.err.find(c.message) != std::string::npos);
  CHECK(of(place.marked({"set/set.jsonl", "a.csv"}), "Bo Sedge", c.column)["value"] == "unreadable");
}

TEST_CASE("mark: a workbook is called one", "[app][mark][bad-input]") {
  Marked place;
  auto const begins = GENERATE(std::string("PK\x03\x04\x14\x00\x08\x00", 8), std::string("\xD0\xCF\x11\xE0\xA1\xB1", 6));
  place.write("a.xlsx", begins + std::string("\n,,\0\xFF", 5));
  auto const said = place.run({"mark", "set/set.jsonl", "a.xlsx"});
  CHECK(said.status == 1);
  CHECK(lines_of(said.err).front() ==
        "a.xlsx:1:1: this is a workbook, not a table of text, expected the sheet saved as CSV (UTF-8)");
  CHECK(said.err.find("NUL") == std::string::npos);
  CHECK(said.err.find("Nothing was marked.") != std::string::npos);
}

TEST_CASE("mark: the answers of another class are called that, once", "[app][mark][bad-input]") {
  Marked place;
  std::string rows = "student,question,answer\n";
  auto const common = GENERATE(true, false);  // a question of that number is in both sets
  for (char const* student : {"Kai Frond", "Lea Spore"})
    for (char const* question : {"7", "8a", "8b", "9"}) rows += std::string(student) + "," + question + ",1.0 g\n";
  if (common) rows += "Kai Frond,1,2.0 g\n";
  place.write("a.csv", rows);
  auto const said = place.run({"mark", "set/set.jsonl", "a.csv"});
  CHECK(said.status == 1);
  CAPTURE(said.err);
  CHECK(said.err.find(common ? "none of these students has a paper in this set"
                             : "none of the questions in this file is one of this set") != std::string::npos);
  CHECK(said.err.find("unknown question") == std::string::npos);
  CHECK(said.err.find("Nothing was marked.") != std::string::npos);
}
