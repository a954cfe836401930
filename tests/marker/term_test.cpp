// A student across several sets: sums by hand, slips that are mended and those that are not.
#include "marker/term.h"

#include <catch2/catch.hpp>
#include <string>

using namespace molewright;

namespace {
Judgement one(std::string student, std::string code, ValueVerdict verdict, int marks, std::string const& slip = "") {
  Judgement out;
  out.student = std::move(student);
  out.code = std::move(code);
  out.value = verdict;
  out.marks = marks;
  out.out_of = 4;
  if (!slip.empty()) out.candidates.push_back({{{slip, "n"}}, 0.9, ""});
  return out;
}
/// The kind is the code's first letter; "?" has none.
std::string kind_of(std::string_view code) { return code[0] == '?' ? "" : std::string(1, code[0]); }
}  // namespace

TEST_CASE("term: marks, kinds and slips of a student over three sets", "[marker][term]") {
  auto const right = ValueVerdict::right, wrong = ValueVerdict::wrong, absent = ValueVerdict::absent;
  auto const students = term_of({{"one",
                                  {one("Ann", "d1", wrong, 0, "volume-left-in-mL"),
                                   one("Ann", "p1", wrong, 0, "mole-ratio-inverted"), one("Bo", "d1", right, 4)}},
                                 {"two",
                                  {one("Ann", "d2", right, 4), one("Ann", "p2", wrong, 3, "mole-ratio-inverted"),
                                   one("Bo", "d2", absent, 0), one("Bo", "p2", absent, 0)}},
                                 {"three",
                                  {one("Cy", "d3", right, 4), one("Ann", "d3", right, 4), one("Ann", "?3", right, 4),
                                   one("Bo", "d3", right, 3), one("Bo", "p3", absent, 0)}}},
                                kind_of);
  REQUIRE(students.size() == 3);
  auto const& ann = students[0];
  CHECK(ann.student == "Ann");
  REQUIRE(ann.sets.size() == 3);
  CHECK(ann.sets[0].marks == 0);
  CHECK(ann.sets[1].marks == 7);
  CHECK(ann.sets[2].out_of == 8);
  CHECK(ann.kinds_sure.empty());                             // d: 8 of 12
  CHECK(ann.kinds_unsure == std::vector<std::string>{"p"});  // 3 of 8
  REQUIRE(ann.slips.size() == 1);
  CHECK(ann.slips[0].id == "mole-ratio-inverted");
  CHECK(ann.slips[0].times == 2);
  REQUIRE(ann.mended.size() == 1);
  CHECK(ann.mended[0].id == "volume-left-in-mL");
  auto const& bo = students[1];
  CHECK_FALSE(bo.sets[0].absent);
  CHECK(bo.sets[1].absent);
  CHECK_FALSE(bo.sets[2].absent);  // one part of it was answered
  CHECK(bo.sets[2].marks == 3);
  CHECK(bo.kinds_sure == std::vector<std::string>{"d"});  // 7 of 8
  CHECK_FALSE(students[2].sets[0].had_paper);
}

TEST_CASE("term: what is still to be practised is not said to go well", "[marker][term]") {
  auto const right = ValueVerdict::right, wrong = ValueVerdict::wrong;
  auto const term = [&](std::vector<Judgement> later) {
    return term_of({{"one",
                     {one("Ann", "d1", right, 4), one("Ann", "d2", right, 4), one("Ann", "d3", wrong, 3, "volume-left-in-mL")}},
                    {"two", std::move(later)}},
                   kind_of)
        .front();
  };
  auto const open = term({one("Ann", "p1", right, 4)});  // d: 11 of 12, with a slip that stands
  CHECK(open.kinds_sure.empty());
  CHECK(open.slips.size() == 1);
  auto const mended = term({one("Ann", "d4", right, 4)});
  CHECK(mended.kinds_sure == std::vector<std::string>{"d"});
  CHECK(mended.mended.size() == 1);
}

TEST_CASE("term: a set in which a student's row stood in the wrong place was not marked", "[marker][term]") {
  auto lost = one("Ann", "d1", ValueVerdict::unreadable, 0), unread = lost, by_hand = lost;
  lost.notes = by_hand.notes = {"other-paper"};
  by_hand.by_hand = true;
  by_hand.marks = 3;
  auto const students = term_of({{"one", {lost, lost}}, {"two", {unread}}, {"three", {lost, by_hand}}}, kind_of);
  REQUIRE(students.size() == 1);
  auto const& sets = students[0].sets;
  CHECK(sets[0].absent);
  CHECK(sets[0].misplaced);
  CHECK_FALSE(sets[1].absent);
  CHECK_FALSE(sets[1].misplaced);
  CHECK_FALSE(sets[2].absent);
  CHECK(sets[2].marks == 3);
}
