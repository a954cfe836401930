// From a class's results to report and feedback. Judgements are made by hand, so that nothing here leans on the marker's judging.
#include "templates/from_results.h"

#include <algorithm>
#include <catch2/catch.hpp>
#include <string>
#include <utility>
#include <vector>

#include "templates/after_marking.h"
#include "templates/volumes.h"
#include "tests/marker/summarised.h"
#include "tests/templates/pdf_reading.h"
#include "tests/templates/solved_sample.h"

using namespace molewright;

namespace {

Judgement judgement(std::string question, std::string part, std::string given, ValueVerdict verdict, int marks, int out_of) {
  Judgement j;
  j.question = std::move(question);
  j.part = std::move(part);
  j.code = j.question == "2" ? "K7M2Q4TX9" : "A3F977KDQ";
  j.given = std::move(given);
  j.correct = j.question == "1" ? "0.00500 mol" : j.part == "b" ? "1.72 g" : "0.00600 mol";
  j.value = verdict;
  j.marks = j.marks_if_accepted = marks;
  j.out_of = out_of;
  j.feedback = "A sentence.";
  return j;
}

Judgement slipped(Judgement j, std::string id, double probability) {
  j.candidates.push_back({{{std::move(id), "n(BaCl2)"}}, probability, "for the tutor"});
  return j;
}

std::vector<StudentResult> students() {
  Judgement suggested = slipped(judgement("2", "b", "B", ValueVerdict::wrong, 0, 3), "volume-left-in-mL", 0.9);
  suggested.suggested = true;
  Judgement no_unit = judgement("1", "", "0.00500", ValueVerdict::right, 1, 2);
  no_unit.unit = UnitVerdict::missing;
  return {{"Ada Moss", false, 2, 4, 6, {no_unit, judgement("2", "a", "✓", ValueVerdict::right, 1, 1), suggested}},
          {"Ben Reed",
           false,
           3,
           3,
           6,
           {judgement("1", "", "", ValueVerdict::blank, 0, 2),
            slipped(judgement("2", "a", "6.1 mol", ValueVerdict::wrong, 0, 1), "volume-left-in-mL", 0.3),
            judgement("2", "b", "1720 g", ValueVerdict::follow_through, 3, 3)}},
          {"Cleo Hart", true, 0, 0, 6, {}}};
}

ClassResults results() {
  auto r = summarise("Solutions for the greenhouse", students());
  r.parts = {
      {"1", "n-cV", 1, 0, 0, 1, 0, 0.25}, {"2a", "precipitate", 1, 1, 0, 0, 0, 0.5}, {"2b", "precipitate", 0, 2, 0, 0, 0, 0.0}};
  r.faults.push_back({{{"no-student", "no student is named in this row", "a name", 0}, 7, 1, ",,,"}, 0});
  return r;
}

}  // namespace

TEST_CASE("from results: the class report", "[templates][from_results]") {
  ClassReport const report = class_report(results(), {"answers.csv"});
  CHECK(report.present == 2);
  CHECK(report.absent == 1);
  CHECK(report.out_of == 6);
  // Of 2 and 3: mean 2.5, standard deviation sqrt(0.5) = 0.707 (n - 1); worked by hand.
  CHECK(report.summary == "Mean 2.5, median 2.5, from 2 to 3, standard deviation 0.7.");
  Conventions with_comma;
  with_comma.mark = DecimalMark::comma;
  CHECK(class_report(results(), {"answers.csv"}, with_comma).summary ==
        "Mean 2,5, median 2,5, from 2 to 3, standard deviation 0,7.");
  CHECK(report.columns == std::vector<std::string>{"1", "2a", "2b"});
  REQUIRE(report.rows.size() == 3);
  auto const cell = [&](std::size_t row, std::size_t column) {
    return report.rows[row].cells[column].marks + " " + report.rows[row].cells[column].sign;
  };
  CHECK(cell(0, 0) == "1 ✓u");
  CHECK(cell(0, 1) == "1 ✓");
  CHECK(cell(0, 2) == "0* s1");
  CHECK(cell(1, 0) == "0 –");
  CHECK(cell(1, 1) == "0 ×");  // the cause is too unsure to be named
  CHECK(cell(1, 2) == "3 →");
  CHECK(report.rows[0].total == "2 (4)");
  CHECK(report.rows[2].no_marks);
  CHECK(report.rows[2].total == "absent");
  CHECK(report.signs.size() == 7);  // ✓ u → s × – *: what is not used is not explained
  REQUIRE(report.slips.size() == 1);
  CHECK(report.slips[0].meaning == "volume left in mL");
  CHECK(report.parts[0].flag.empty());
  CHECK(report.parts[2].flag == "Nobody had this right: look at the question first.");
  CHECK(report.parts[2].kind == "mass of a precipitate");
  CHECK(report.faults == std::vector<std::string>{"answers.csv:7:1: no student is named in this row, expected a name"});
}

TEST_CASE("from results: papers of different length are compared by shares", "[templates][from_results]") {
  auto r = results();
  r.students[1].out_of = 4;
  ClassReport const report = class_report(r, {"answers.csv"});
  CHECK(report.least_out_of == 4);
  CHECK(report.out_of == 6);
  CHECK(report.rows[0].total == "2/6 (4)");
  CHECK(report.rows[1].total == "3/4");
  // 2 of 6 and 3 of 4: 33 and 75 %, mean 54, standard deviation 42 / sqrt(2) = 29.7; worked by hand.
  CHECK(report.summary ==
        "Papers differ in length, so what follows is in % of the student’s own paper. Mean 54, median 54, from 33 to 75, "
        "standard deviation 29.7.");
}

TEST_CASE("from results: a total without an answer that is still to be read is out of the mean", "[templates][from_results]") {
  auto r = results();
  auto& ben = r.students[1];
  ben.out_of = 4;
  ben.to_read = 2;
  REQUIRE_FALSE(ben.parts.empty());
  ben.parts[0].value = ValueVerdict::unreadable;
  ben.parts[0].by_hand = false;
  ClassReport const report = class_report(r, {"answers.csv"});
  auto const& cell = report.rows[1].cells[static_cast<std::size_t>(ben.parts[0].column)];
  CHECK(cell.marks.empty());  // it is no nought
  CHECK(cell.sign == "?");
  CHECK(report.out_of == 6);
  CHECK(report.least_out_of == 6);
  CHECK(report.present == 2);
  CHECK(report.not_whole == 1);
  CHECK(report.rows[1].total == "3/4 ?");
  CHECK(report.summary == "Mean 2, median 2, from 2 to 2.");  // the first student's alone
}

TEST_CASE("from results: of a class beyond a volume nobody is named, and everybody counts", "[templates][from_results]") {
  auto const more = GENERATE(std::size_t{0}, std::size_t{1});
  ClassResults r;
  for (std::size_t s = 0; s < students_of_a_volume + more; ++s)
    r.students.push_back({"Student " + std::to_string(s), s == 7, 3, 3, 6, {}});
  r.slips.push_back({"volume-left-in-mL", {0, 5}});
  auto const report = class_report(r, {"a.csv"});
  auto const all = static_cast<int>(students_of_a_volume + more);
  CHECK(report.present == all - 1);
  CHECK(report.absent == 1);
  CHECK(report.summary == "Mean 3, median 3, from 3 to 3, standard deviation 0.");
  CHECK(report.slips.at(0).count() == 2);
  auto const text = report_text(report);
  bool const named = more == 0;
  CHECK(report.rows.size() == (named ? students_of_a_volume : 0));
  CHECK((text.find("Student 5") != std::string::npos) == named);
  CHECK((text.find("volume left in mL (2): Student 0; Student 5\n") != std::string::npos) == named);
  CHECK((text.find("volume left in mL (2)\n") != std::string::npos) == !named);
  CHECK((text.find("stand in marks.csv") != std::string::npos) == !named);
  auto const pages = reading::pages_of(reading::PdfFile(report_pdf(report, PageSize::a4)));
  CHECK((pages.size() > 5) == named);
}

TEST_CASE("from results: nobody there", "[templates][from_results]") {
  ClassResults r;
  r.students.push_back({"Cleo Hart", true, 0, 0, 6, {}});
  ClassReport const report = class_report(r, {"answers.csv"});
  CHECK(report.present == 0);
  CHECK(report.summary.empty());
}

TEST_CASE("from results: feedback", "[templates][from_results]") {
  auto const set = sample::solved_set();
  QuestionsByCode const questions(set);
  FeedbackDocument d;
  for (auto const& student : students()) d.pages.push_back(feedback_page(student, set, questions));
  REQUIRE(d.pages.size() == 3);
  std::vector<FeedbackItem> const& ada = d.pages[0].items;
  REQUIRE(ada.size() == 3);
  CHECK_FALSE(ada[0].right);  // the value is, the unit is not
  CHECK(ada[1].right);
  CHECK(ada[1].written == "0.00600 mol");  // a tick stands for the right answer
  CHECK(ada[2].written == "1.72 × 10³");   // the letter B of the key
  CHECK_FALSE(ada[2].practise.empty());
  CHECK(d.pages[1].items[1].practise.empty());
  CHECK(d.pages[2].absent);
  CHECK(d.pages[2].items.empty());
}

TEST_CASE("from results: the wrong step stands beside the right one", "[templates][from_results]") {
  auto const set = sample::solved_set();
  auto const questions = QuestionsByCode(set);
  struct Case {
    std::string answer, lines, own, right;  ///< how both lines begin; empty for none
    bool own_words;
  };
  auto const c = GENERATE(values<Case>({
      {"1720 g", "", "V(BaCl₂) = 40.0 mL = 40.0 L", "V(BaCl₂) = 40.0 mL = 0.0400 L", false},
      {"0.860 g", "", "n(AgCl) = n(BaCl₂)", "n(AgCl) = n(BaCl₂) × ν(AgCl)", false},
      {"0.860 g", "n(BaCl2) = 0.00600 mol; n(AgCl) = 0.00600 mol", "n(AgCl) = 0.00600 mol", "n(AgCl) = n(BaCl₂) × ν(AgCl)", true},
      {"0.0120 g", "", "n(AgCl) = n(BaCl₂) × ν(AgCl)", "m(AgCl) = n(AgCl) × M(AgCl)", false},  // it stops short
      {"7.1234 g", "", "", "", false},
      {"1.72 g", "", "", "", false},
  }));
  CAPTURE(c.answer, c.lines);
  auto const& paper = set.papers.front();
  auto const at =
      std::find_if(paper.questions.begin(), paper.questions.end(), [&](Question const& one) { return one.number == "2"; });
  REQUIRE(at != paper.questions.end());
  auto written = read_written(c.answer, DecimalMark::point);
  written.working = c.lines;
  StudentResult student{paper.student, false, 0, 0, 0, Judge(*at, set.course).judge({{}, written})};
  for (auto& one : student.parts) one.student = paper.student;
  auto const item = feedback_page(student, set, questions).items.at(1);
  auto const plain_blanks = [](std::string text) {
    for (auto b = text.find("\u00A0"); b != std::string::npos; b = text.find("\u00A0")) text.replace(b, 2, " ");
    return text;
  };
  CAPTURE(item.own_line, item.right_line, item.feedback);
  CHECK(plain_blanks(item.own_line).rfind(c.own, 0) == 0);
  CHECK(item.own_line.empty() == c.own.empty());
  CHECK(plain_blanks(item.right_line).rfind(c.right, 0) == 0);
  CHECK(item.right_line.empty() == c.right.empty());
  CHECK(item.own_words == c.own_words);
}

TEST_CASE("from results: how the marks are spread, in bars of a round width", "[templates][from_results]") {
  struct Case {
    int out_of;
    std::vector<int> marks;
    std::size_t bars;
    std::string first, last;
    int in_last;
  };
  auto const c = GENERATE(values<Case>({
      {6, {0, 6, 6}, 7, "0", "6", 2},
      {20, {20}, 21, "0", "20", 1},
      {21, {21, 20}, 11, "0–1", "20–21", 2},
      {60, {60, 59, 3}, 13, "0–4", "60", 1},
      {150, {150}, 16, "0–9", "150", 1},
      {400, {0}, 21, "0–19", "400", 0},
  }));
  ClassResults r;
  for (int const marks : c.marks) r.students.push_back({"S", false, marks, marks, c.out_of, {}});
  auto const bars = class_report(r, {"a.csv"}).distribution;
  CAPTURE(c.out_of);
  REQUIRE(bars.size() == c.bars);
  CHECK(bars.front().label == c.first);
  CHECK(bars.back().label == c.last);
  CHECK(bars.back().count == c.in_last);
  int all = 0;
  for (auto const& bar : bars) all += bar.count;
  CHECK(all == static_cast<int>(c.marks.size()));
}

TEST_CASE("from results: parts that misfired are flagged", "[templates][from_results]") {
  ClassResults r = results();
  r.one_paper = true;
  r.parts[0].discrimination = -0.254;
  r.parts[0].right = 50;
  r.parts[0].wrong = 40;
  r.parts[2].right = 20;
  r.parts[2].wrong = 4;
  r.parts[2].discrimination = -0.3;  // of 24, chance alone gives as much
  r.parts[1].discrimination = 0.4;
  r.parts[1].shared_wrong = SharedAnswer{"7.5 mol", 4};
  ClassReport const report = class_report(r, {"a.csv"});
  CHECK(report.parts[0].discrimination == "−0.25");
  CHECK(report.parts[0].flag == "Who did well elsewhere did worse here: look at the wording and the key.");
  CHECK(report.parts[1].flag == "4 wrote one wrong answer, which no slip explains: 7.5 mol. Look at the key.");
  CHECK(report.parts[2].discrimination == "−0.30");
  CHECK(report.parts[2].flag.empty());
  CHECK(report.about_discrimination.rfind("Discrimination: how the marks", 0) == 0);
  r = results();
  CHECK(class_report(r, {"a.csv"}).about_discrimination == "Discrimination is not given: it needs one paper for all.");
  r.one_paper = true;
  CHECK(class_report(r, {"a.csv"}).about_discrimination == "Discrimination is not given: it needs 20 students or more.");
  std::string const text = report_text(report);
  CHECK(text.find("−0.25") != std::string::npos);
  CHECK(text.find("How the marks are spread") != std::string::npos);
}

TEST_CASE("next morning: a slip with many causes does not lead where two made one thing", "[templates][from_results]") {
  ClassResults r;
  ProblemSet const set;
  QuestionsByCode const questions(set);
  for (std::size_t s = 0; s < 6; ++s) r.students.push_back({"Student " + std::to_string(s), false, 0, 0, 6, {}});
  r.slips = {
      {"power-of-ten", {0, 1, 2, 3}}, {"digits-transposed", {0, 4, 5}}, {"volume-left-in-mL", {2, 5}}, {"mass-left-in-mg", {3}}};
  std::vector<std::string> shown;
  for (auto const& slip : slips_of_the_morning(r, set, questions, [](std::size_t) { return StudentResult{}; }))
    shown.push_back(slip.id);
  CHECK(shown == std::vector<std::string>{"volume-left-in-mL", "power-of-ten", "digits-transposed"});
}

TEST_CASE("next morning: a working that stops short has no line at fault, and what is missing is said",
          "[templates][from_results]") {
  auto const set = sample::solved_set();
  SlipShown stops{"unit-prefix-not-applied", 2, &set.papers.front().questions.front(), "",
                  WrongWorking{{"n = 0.00600 mol"}, 0, "", 6}};
  stops.last_line = "n = 6.00 mmol";
  SlipShown departs{"volume-left-in-mL", 2, nullptr, "", WrongWorking{{"V = 40.0 L"}, 0, "V = 0.0400 L", 6}};
  auto const page = next_morning({}, set, {stops, departs}, {});
  REQUIRE(page.slips.size() == 2);
  CHECK(page.slips[0].stops_short);
  CHECK(page.slips[0].wrong == 1);  // behind the lines
  auto const text = next_morning_text(page);
  CAPTURE(text);
  CHECK(text.find("   n = 0.00600 mol\n   It stops short. It should go on to: n = 6.00 mmol\n") != std::string::npos);
  CHECK(text.find("   wrong: V = 40.0 L\n   It should be: V = 0.0400 L\n") != std::string::npos);
}
