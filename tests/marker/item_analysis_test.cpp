// Which questions misfired: correlations worked by hand, wrong answers that many share.
#include "marker/item_analysis.h"

#include <catch2/catch.hpp>
#include <string>
#include <vector>

#include "tests/marker/summarised.h"

using namespace molewright;

namespace {
Judgement part(std::string question, int marks, int out_of, std::string given = "1 g", bool explained = false) {
  Judgement one;
  one.question = std::move(question);
  one.marks = one.marks_if_accepted = marks;
  one.out_of = out_of;
  one.given = std::move(given);
  one.value = marks > 0 ? ValueVerdict::right : ValueVerdict::wrong;
  if (explained) one.candidates.push_back({{{"volume-left-in-mL", "n"}}, 0.9, ""});
  return one;
}

/// `pairs`: marks for part 1 (of 1) and part 2 (of 10), a student each.
ClassResults class_of(std::vector<std::pair<int, int>> const& pairs) {
  std::vector<StudentResult> students;
  for (auto const& [one, two] : pairs)
    students.push_back(
        {"S" + std::to_string(students.size()), false, one + two, one + two, 11, {part("1", one, 1), part("2", two, 10)}});
  return summarise("t", std::move(students));
}

std::vector<std::pair<int, int>> times(int count, std::vector<std::pair<int, int>> const& pairs) {
  std::vector<std::pair<int, int>> all;
  for (int i = 0; i < count; ++i) all.insert(all.end(), pairs.begin(), pairs.end());
  return all;
}
}  // namespace

TEST_CASE("item analysis: correlation with the rest of the paper, worked by hand", "[marker][items]") {
  struct Case {
    std::vector<std::pair<int, int>> pairs;
    double expected;
  };
  // 0, 1 against 2, 8: all on one line. Of 0 0 1 1 against 2 8 2 8 nothing goes with anything. Of 0 0 1 1 against 2 2 2 8 (means
  // 1/2 and 3.5): xy 3, xx 1, yy 27: 3/sqrt(27).
  auto const c = GENERATE(values<Case>({
      {times(10, {{0, 2}, {1, 8}}), 1},
      {times(10, {{1, 2}, {0, 8}}), -1},
      {times(5, {{0, 2}, {0, 8}, {1, 2}, {1, 8}}), 0},
      {times(5, {{0, 2}, {0, 2}, {1, 2}, {1, 8}}), 0.57735},
  }));
  auto results = class_of(c.pairs);
  analyse_items(results, {});
  REQUIRE(results.parts.at(0).discrimination);
  CHECK(*results.parts[0].discrimination == Approx(c.expected).margin(1e-5));
}

TEST_CASE("item analysis: silent where it would say nothing", "[marker][items]") {
  auto few = class_of(times(9, {{0, 2}, {1, 8}}));  // 18
  analyse_items(few, {});
  CHECK_FALSE(few.parts.at(0).discrimination);
  auto level = class_of(times(10, {{1, 2}, {1, 8}}));  // all had part 1 right
  analyse_items(level, {});
  CHECK_FALSE(level.parts.at(0).discrimination);
  auto absent = class_of(times(10, {{0, 2}, {1, 8}}));
  absent.students[3].absent = true;
  analyse_items(absent, {});
  CHECK_FALSE(absent.parts.at(0).discrimination);
}

TEST_CASE("item analysis: a wrong answer that three share and no slip explains", "[marker][items]") {
  auto const of = [](std::vector<Judgement> const& parts) {
    WrongAnswers wrong;
    for (auto const& one : parts) wrong.add({"S", false, 0, 0, 1, {one}});
    return wrong.most_shared("1");
  };
  auto const wrong = part("1", 0, 1, "7.5 g"), other = part("1", 0, 1, "8 g"), known = part("1", 0, 1, "7.5 g", true);
  auto const found = of({wrong, other, wrong, part("1", 0, 1, " 7.5 g ")});
  REQUIRE(found);
  CHECK(found->given == "7.5 g");
  CHECK(found->students == 3);
  CHECK_FALSE(of({wrong, other, wrong, other}));
  CHECK_FALSE(of({known, known, known}));
  CHECK_FALSE(of({part("1", 1, 1), part("1", 1, 1), part("1", 1, 1)}));  // right
  CHECK_FALSE(of({}));
  WrongAnswers all;
  for (int i = 0; i < 3; ++i) all.add({"S", false, 0, 0, 1, {wrong}});
  auto results = class_of({{0, 2}});
  analyse_items(results, all);
  REQUIRE(results.parts.at(0).shared_wrong);
  CHECK(results.parts[0].shared_wrong->students == 3);
  CHECK_FALSE(results.parts.at(1).shared_wrong);
  CHECK(results.one_paper);
}

TEST_CASE("item analysis: of very many wrong answers those that came first are counted, to the end", "[marker][items]") {
  WrongAnswers wrong;
  auto const write = [&](std::string const& text) { wrong.add({"S", false, 0, 0, 1, {part("1", 0, 1, text)}}); };
  for (int i = 0; i < 3; ++i) write("first");
  for (std::size_t i = 0; i < most_texts_counted; ++i) write(std::to_string(i) + " g");
  for (int i = 0; i < 9; ++i) write("late");
  write("first");
  auto const found = wrong.most_shared("1");
  REQUIRE(found);
  CHECK(found->given == "first");
  CHECK(found->students == 4);
}
