// Several answers files as one.
#include "marker/handed_in.h"

#include <catch2/catch.hpp>
#include <map>
#include <string>

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
  auto const all = join({read_answers(c.first, {"1", "2"}), read_answers(c.second, {"1", "2"})});
  CHECK(all.faults.size() == c.faults);
  for (auto const& fault : all.faults) {
    CHECK(fault.placed.fault.id == "given-twice");
    CHECK(fault.file == 1);
  }
  int found = 0;
  for (auto const& row : all.answers) {
    if (row.student != "Ann" || row.question != "1") continue;
    ++found;
    CHECK(row.answer == c.answer);
    CHECK(row.file == c.file);
  }
  CHECK(found == 1);
}

TEST_CASE("handed in: marks of a second file join the answers of the first", "[marker][handed-in]") {
  auto const all =
      join({read_answers("student,1\nAnn,1.2 g\n", {"1"}), read_answers("student,question,answer,marks\nAnn,1,,2\n", {"1"})});
  REQUIRE(all.answers.size() == 1);
  CHECK(all.answers[0].answer == "1.2 g");
  CHECK(all.answers[0].marks == "2");
}

TEST_CASE("handed in: a file of one student, named by the caller", "[marker][handed-in]") {
  auto const read = read_answers("question,answer\n1,1.2 g\n", {"1"}, {}, "Ann");
  REQUIRE(read.answers.size() == 1);
  CHECK(read.answers[0].student == "Ann");
  CHECK(read_answers("question,answer\n1,1.2 g\n", {"1"}).faults.at(0).fault.id == "missing-column");
  CHECK(read_answers("1\n1.2 g\n", {"1"}, {}, "Ann").faults.at(0).fault.id == "missing-column");  // wide: whose row is it?
}
