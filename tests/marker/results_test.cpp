// What a class's judgements say together. The numbers are counted by hand from the little classes below.
#include "marker/results.h"

#include <catch2/catch.hpp>
#include <string>
#include <vector>

#include "tests/marker/summarised.h"

using namespace molewright;

namespace {

Judgement judged(std::string question, std::string part, ValueVerdict value, int marks, int out_of,
                 std::vector<Candidate> candidates = {}) {
  Judgement judgement;
  judgement.question = std::move(question);
  judgement.part = std::move(part);
  judgement.value = value;
  judgement.marks = marks;
  judgement.out_of = out_of;
  judgement.candidates = std::move(candidates);
  return judgement;
}

Candidate cause(std::vector<std::string> const& ids, double probability) {
  Candidate candidate;
  for (auto const& id : ids) candidate.slips.push_back({id, "n"});
  candidate.probability = probability;
  return candidate;
}

StudentResult student(std::string name, std::vector<Judgement> parts, bool absent = false) {
  StudentResult result;
  result.student = std::move(name);
  result.parts = std::move(parts);
  result.absent = absent;
  return result;
}

Judgement wrong(std::string const& question, std::vector<Candidate> candidates) {
  return judged(question, "", ValueVerdict::wrong, 0, 1, std::move(candidates));
}

std::vector<std::string> who(ClassResults const& results, std::size_t slip) {
  std::vector<std::string> names;
  for (auto const student : results.slips.at(slip).students) names.push_back(results.students.at(student).student);
  return names;
}

std::vector<std::string> columns(ClassResults const& results) {
  std::vector<std::string> names;
  for (auto const& part : results.parts) names.push_back(part.column);
  return names;
}

}  // namespace

TEST_CASE("results: parts are counted without those who were absent", "[marker][results]") {
  auto const results = summarise(
      "Tank 3",
      {
          student("Ada", {judged("1", "a", ValueVerdict::right, 3, 3), judged("1", "b", ValueVerdict::wrong, 1, 2)}),
          student("Bo", {judged("1", "a", ValueVerdict::absent, 0, 3), judged("1", "b", ValueVerdict::absent, 0, 2)}, true),
          student("Cy", {judged("1", "a", ValueVerdict::blank, 0, 3), judged("1", "b", ValueVerdict::follow_through, 2, 2)}),
          student("Di", {judged("1", "a", ValueVerdict::unreadable, 0, 3), judged("1", "b", ValueVerdict::absent, 0, 2)}),
      });
  CHECK(results.title == "Tank 3");
  REQUIRE(columns(results) == std::vector<std::string>{"1a", "1b"});
  auto const& a = results.parts[0];
  CHECK(a.right == 1);
  CHECK(a.wrong == 0);
  CHECK(a.blank == 1);
  CHECK(a.unreadable == 1);
  CHECK(a.facility == Approx(0.5));  // (3/3 + 0/3) / 2: what could not be read counts once it has marks by hand
  REQUIRE(results.not_read.size() == 1);
  CHECK(results.students[results.not_read[0].student].student == "Di");
  CHECK(results.parts[static_cast<std::size_t>(results.not_read[0].column)].column == "1a");
  auto const& b = results.parts[1];
  CHECK(b.wrong == 1);
  CHECK(b.follow_through == 1);
  CHECK(b.facility == Approx(0.75));  // (1/2 + 2/2) / 2: Di was absent for this part only
  REQUIRE(results.students.size() == 4);
  CHECK(results.students[1].student == "Bo");
}

TEST_CASE("results: who stands in the wrong row counts nowhere, and marks by hand bring an unread answer back",
          "[marker][results]") {
  auto by_hand = judged("1", "a", ValueVerdict::unreadable, 2, 4);
  by_hand.by_hand = true;
  auto lost = student("Bo", {judged("1", "a", ValueVerdict::unreadable, 0, 4)});
  lost.misplaced = true;
  auto const results =
      summarise("", {student("Ada", {judged("1", "a", ValueVerdict::right, 4, 4)}), lost, student("Cy", {by_hand})});
  REQUIRE(results.parts.size() == 1);
  CHECK(results.parts[0].facility == Approx(0.75));  // (4/4 + 2/4) / 2
  CHECK(results.parts[0].unreadable == 1);           // Cy's
  CHECK(results.not_read.empty());
  CHECK(results.all_not_read == 0);
  auto note = judged("1", "a", ValueVerdict::unreadable, 0, 4);
  CHECK_FALSE(out_of_place(note));
  note.notes = {GENERATE("shifted-columns", "row-not-used")};
  CHECK(out_of_place(note));
  note.by_hand = true;
  CHECK_FALSE(out_of_place(note));
}

TEST_CASE("results: nobody there, or no marks to have, is a facility of 0", "[marker][results]") {
  CHECK(summarise("", {}).parts.empty());
  auto const absent = summarise("", {student("Bo", {judged("1", "", ValueVerdict::absent, 0, 3)}, true)});
  REQUIRE(absent.parts.size() == 1);
  CHECK(absent.parts[0].facility == 0);
  auto const unmarked = summarise("", {student("Ada", {judged("1", "", ValueVerdict::right, 0, 0)})});
  CHECK(unmarked.parts[0].facility == 0);
  CHECK(unmarked.parts[0].right == 1);
}

TEST_CASE("results: a mark given by hand counts though the cell says absent", "[marker][results]") {
  auto by_hand = judged("1", "", ValueVerdict::absent, 2, 4);
  by_hand.by_hand = true;
  CHECK(summarise("", {student("Ada", {by_hand})}).parts[0].facility == Approx(0.5));
}

TEST_CASE("results: a slip is counted once a student, where it is named with confidence and alone", "[marker][results]") {
  auto const results = summarise(
      "",
      {
          student("Ada", {wrong("1", {cause({"ratio"}, 0.9)}), wrong("2", {cause({"ratio"}, 0.8)}),
                          wrong("3", {cause({"hydrate"}, 0.7)})}),
          student("Bo", {wrong("1", {cause({"volume"}, 0.5), cause({"ratio"}, 0.5)}), wrong("2", {cause({"hydrate"}, 0.49)})}),
          student("Cy", {wrong("1", {cause({"volume", "ratio"}, 0.99)}), wrong("2", {cause({"volume"}, 0.6)})}),
          student("Di", {wrong("1", {}), wrong("2", {cause({"ratio"}, 0.95)})}),
          student("Ed", {wrong("1", {cause({}, 0.95)}), wrong("2", {cause({"figures"}, 0.95)})}),
      });
  // ratio: Ada, Di. volume: Bo, Cy (Cy's pair is not one slip). hydrate: Ada. figures: Ed. Equal counts in the order of first
  // sight: ratio before hydrate before volume before figures.
  REQUIRE(results.slips.size() == 4);
  CHECK(results.slips[0].id == "ratio");
  CHECK(who(results, 0) == std::vector<std::string>{"Ada", "Di"});
  CHECK(results.slips[1].id == "volume");
  CHECK(who(results, 1) == std::vector<std::string>{"Bo", "Cy"});
  CHECK(results.slips[2].id == "hydrate");
  CHECK(who(results, 2) == std::vector<std::string>{"Ada"});
  CHECK(results.slips[3].id == "figures");
  // What is kept of a part names its slip by its place in that order.
  auto const slip_of = [&](std::size_t student, std::size_t part) { return results.students.at(student).parts.at(part).slip; };
  CHECK(slip_of(0, 0) == 0);
  CHECK(slip_of(0, 2) == 2);
  CHECK(slip_of(1, 1) == PartMarks::no_slip);  // too unsure
  CHECK(slip_of(2, 0) == PartMarks::no_slip);  // two slips
  CHECK(slip_of(4, 1) == 3);
}

TEST_CASE("results: parts stand in the order of the paper, whoever has which", "[marker][results]") {
  auto const part = [](char const* question) { return judged(question, "", ValueVerdict::right, 1, 1); };
  CHECK(columns(summarise("", {student("Ada", {}), student("Bo", {part("1"), part("3")}),
                               student("Cy", {part("1"), part("2"), part("3"), part("10")})})) ==
        std::vector<std::string>{"1", "2", "3", "10"});
  // Papers of two levels: other parts to a question stand beside each other, and parts beyond z behind z.
  CHECK(columns(summarise("", {student("Ada", {part("1"), part("2a"), part("2aa"), part("2b"), part("3")}),
                               student("Bo", {part("1a"), part("1b"), part("2"), part("3")})})) ==
        std::vector<std::string>{"1", "1a", "1b", "2", "2a", "2b", "2aa", "3"});
  CHECK(columns(summarise("", {student("Ada", {part("B"), part("A")})})) == std::vector<std::string>{"B", "A"});
}

TEST_CASE("results: of a part its marks and verdicts are kept, in few bytes", "[marker][results]") {
  auto one = judged("1", "b", ValueVerdict::wrong, 1, 1000);
  one.marks_if_accepted = 999;
  one.suggested = true;
  one.unit = UnitVerdict::missing;
  one.figures = FiguresVerdict::too_many;
  auto two = judged("1", "a", ValueVerdict::absent, 3, 4);
  two.by_hand = true;
  auto const results = summarise("", {student("Ada", {one, two})});
  REQUIRE(results.students.at(0).parts.size() == 2);
  auto const& part = results.students[0].parts[0];
  CHECK(results.parts.at(static_cast<std::size_t>(part.column)).column == "1b");
  CHECK(part.marks == 1);
  CHECK(part.marks_if_accepted == 999);
  CHECK(part.out_of == 1000);
  CHECK(part.value == ValueVerdict::wrong);
  CHECK(part.unit == UnitVerdict::missing);
  CHECK(part.figures == FiguresVerdict::too_many);
  CHECK(part.suggested);
  CHECK_FALSE(part.by_hand);
  CHECK_FALSE(part.missing());
  auto const* other = part_of(results.students[0], 0);
  REQUIRE(other);
  CHECK(other->by_hand);
  CHECK_FALSE(other->missing());
  CHECK(part_of(results.students[0], 7) == nullptr);
  CHECK(sizeof(PartMarks) <= 16);  // a million of them are 16 MB
}

TEST_CASE("results: kinds come from the questions", "[marker][results]") {
  Question one;
  one.number = "1";
  one.kind = "dilution";
  one.worked.problem.finds.resize(2);
  Question two;
  two.number = "2";
  two.kind = "precipitate";
  two.worked.problem.finds.resize(1);
  CHECK(part_name(one, 1) == "b");
  CHECK(column_name(one, 1) == "1b");
  CHECK(part_name(two, 0).empty());
  CHECK(column_name(two, 0) == "2");
  auto results =
      summarise("", {student("Ada", {judged("1", "a", ValueVerdict::right, 1, 1), judged("1", "b", ValueVerdict::right, 1, 1),
                                     judged("2", "", ValueVerdict::right, 1, 1), judged("9", "", ValueVerdict::right, 1, 1)})});
  name_kinds(results, {one, two});
  REQUIRE(results.parts.size() == 4);
  CHECK(results.parts[0].kind == "dilution");
  CHECK(results.parts[1].kind == "dilution");
  CHECK(results.parts[2].kind == "precipitate");
  CHECK(results.parts[3].kind.empty());
}

TEST_CASE("question: parts beyond z go on as columns of a spreadsheet do", "[marker][question]") {
  Question question;
  question.number = "3";
  question.worked.problem.finds.resize(60);
  CHECK(column_name(question, 0) == "3a");
  CHECK(column_name(question, 25) == "3z");
  CHECK(column_name(question, 26) == "3aa");
  CHECK(column_name(question, 53) == "3bb");
}

TEST_CASE("results: two causes of one number at one step, as likely, are one thing to practise", "[marker][results]") {
  Judgement judged;
  judged.candidates.push_back({{{"mole-ratio-taken-as-one", "n(AgCl)"}}, 0.49, "", 0.86});
  judged.candidates.push_back({{{"ratio-from-unbalanced-equation", "n(AgCl)"}}, 0.49, "", 0.86});
  CHECK(named_slip(judged) == "mole-ratio-taken-as-one");
  judged.candidates[1].value = 0.43;  // another number: each is less likely than not
  CHECK(named_slip(judged).empty());
  judged.candidates[1].value = 0.86;
  judged.candidates[1].slips.front().node = "m(AgCl)";
  CHECK(named_slip(judged).empty());
}
