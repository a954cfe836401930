// Several answers files as one.
#include "marker/handed_in.h"

#include <catch2/catch.hpp>
#include <map>
#include <string>

#include "tests/marker/whole_file.h"

using namespace molewright;

TEST_CASE("handed in: cell by cell, the first file that says something counts", "[marker][handed-in]") {
  struct Case {
    std::string first, second, answer;
    std::size_t file;
    std::size_t faults;
  };
  auto const c = GENERATE(values<Case>({
      {"student,1,2\nAnn,1.2 g,\n", "student,1,2\nAnn,,\n", "1.2 g", 0, 0},
      {"student,1,2\nAnn,,\n", "student,1,2\nAnn,1.2 g,\n", "1.2 g", 1, 0},
      {"student,1,2\nAnn,absent,absent\n", "student,1,2\nAnn,1.2 g,\n", "1.2 g", 1, 0},
      {"student,1,2\nAnn,1.2 g,3\n", "student,1,2\nAnn,absent,absent\n", "1.2 g", 0, 0},
      {"student,1,2\nAnn,1.2 g,\n", "student,1,2\nAnn, 1.2 g ,\n", "1.2 g", 0, 0},
      {"student,1,2\nAnn,1.2 g,\n", "student,1,2\nAnn,1.3 g,\n", "1.2 g", 0, 1},
      {"student,1,2\nAnn,absent,absent\n", "student,1,2\nAnn,,7\n", "", 0, 0},       // there for the second part
      {"student,1,2\nAnn,absent,absent\n", "student,1,2\nAnn,,\n", "absent", 0, 0},  // nothing handed in
      {"student,1,2\nBo,1,2\n", "student,1,2\nAnn,1.2 g,\n", "1.2 g", 1, 0},
  }));
  CAPTURE(c.first, c.second);
  AllHandedIn class_of_two({"Bo", "Ann"}, {{"1", "2"}, {}});
  class_of_two.add(c.first);
  class_of_two.add(c.second);
  CHECK(class_of_two.faults().empty());
  auto const all = class_of_two.of(1);
  CHECK(all.faults.size() == c.faults);
  for (auto const& fault : all.faults) {
    CHECK(fault.placed.fault.id == "given-twice");
    CHECK(fault.file == 1);
  }
  int found = 0;
  for (auto const& row : all.answers) {
    CHECK(row.student == "Ann");
    if (row.question != "1") continue;
    ++found;
    CHECK(row.answer == c.answer);
    CHECK(row.file == c.file);
  }
  CHECK(found == 1);
}

TEST_CASE("handed in: marks of a second file join the answers of the first", "[marker][handed-in]") {
  AllHandedIn in_files({"Ann"}, {{"1"}, {}});
  in_files.add("student,1\nAnn,1.2 g\n");
  in_files.add("student,question,answer,marks\nAnn,1,,2\n");
  auto const all = in_files.of(0);
  REQUIRE(all.answers.size() == 1);
  CHECK(all.answers[0].answer == "1.2 g");
  CHECK(all.answers[0].marks == "2");
}

TEST_CASE("handed in: a file of one student, named by the caller", "[marker][handed-in]") {
  auto const read = read_answers("question,answer\n1,1.2 g\n", {"1"}, "Ann");
  REQUIRE(read.answers.size() == 1);
  CHECK(read.answers[0].student == "Ann");
  CHECK(read_answers("question,answer\n1,1.2 g\n", {"1"}).faults.at(0).fault.id == "missing-column");
  CHECK(read_answers("1\n1.2 g\n", {"1"}, "Ann").faults.at(0).fault.id == "missing-column");  // wide: whose row is it?
}

TEST_CASE("handed in: rows are found wherever they stand, and read as they would be from end to end", "[marker][handed-in]") {
  // Two files, long and wide, quoted line breaks, other names in between, a row that is given twice, a student of no row.
  std::string const first =
      "\xEF\xBB\xBFstudent;question;answer;working\r\nBo;2;7 g;\"a\r\nb\"\r\nZed;1;9;\r\nAnn;1;\"1.2\r\ng\";\r\nBo;1;;\r\nBo;2;8 "
      "g;\r\n";
  std::string const second = "student,1,2,1 measured\nAnn,,3 g,24.65 mL\nYan,1,1,\n";
  AllHandedIn all({"Ann", "Bo", "Cleo"}, {{"1", "2"}, {"1 measured"}});
  CHECK_FALSE(all.anything());
  all.add(first);
  all.add(second);
  CHECK(all.anything());
  CHECK(all.anything_of_the_class());
  auto const listed = [](std::vector<HandedIn> const& rows) {
    std::vector<std::string> out;
    for (auto const& row : rows)
      out.push_back(row.student + "|" + row.question + "|" + row.answer + "|" + row.working + "|" + row.measured + "|" +
                    std::to_string(row.file) + ":" + std::to_string(row.line) + ":" + std::to_string(row.column));
    return out;
  };
  for (int again = 0; again < 2; ++again) {
    CHECK(listed(all.of(0).answers) == std::vector<std::string>{"Ann|1|1.2\ng|||0:5:7", "Ann|2|3 g|||1:2:6"});
    CHECK(listed(all.of(0).readings) == std::vector<std::string>{"Ann|1 measured|24.65 mL||24.65 mL|1:2:10"});
    CHECK(listed(all.of(1).answers) == std::vector<std::string>{"Bo|2|7 g|a\nb||0:2:6", "Bo|1||||0:7:6"});
    CHECK(all.of(2).answers.empty());
  }
  CHECK(listed(all.of_strangers().answers) == std::vector<std::string>{"Zed|1|9|||0:4:7", "Yan|1|1|||1:3:5", "Yan|2|1|||1:3:7"});
  REQUIRE(all.faults().size() == 1);
  CHECK(all.faults()[0].placed.fault.id == "given-twice");
  CHECK(all.faults()[0].placed.line == 8);
  CHECK(all.faults()[0].placed.line_text == "Bo;2;8 g;");
}

TEST_CASE("handed in: a class with one name twice", "[marker][handed-in]") {
  AllHandedIn all({"Ann", "Ann", "Bo"}, {{"1"}, {}});
  all.add("student,1\nBo,2 g\nAnn,1 g\n");
  CHECK(all.of(0).answers.at(0).answer == "1 g");
  CHECK(all.of(1).answers.at(0).answer == "1 g");
  CHECK(all.of(2).answers.at(0).answer == "2 g");
}
