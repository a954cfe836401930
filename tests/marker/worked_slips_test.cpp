// Worked slips diagnose as they were worked; the decision table of marking an answer alone, row by row.
#include <algorithm>
#include <catch2/catch.hpp>
#include <fstream>

#include "engine/tsv.h"
#include "worked.h"

using namespace molewright;

namespace {

std::string text_of(std::string const& name) {
  std::ifstream file(std::string(MOLEWRIGHT_TEST_DATA) + "/" + name);
  return {std::istreambuf_iterator<char>(file), {}};
}
}  // namespace

TEST_CASE("worked slips: each is found first, or with slips that give the very same number", "[marker][worked-slips]") {
  auto const text = text_of("slip_examples.tsv");
  TsvTable const table(text);
  auto const slip = table.column("slip"), problem = table.column("problem"), right = table.column("right"),
             slipped = table.column("slipped");
  REQUIRE(table.size() == 39);
  for (std::size_t row = 0; row < table.size(); ++row) {
    CAPTURE(table.cell(row, slip));
    auto const question = question_from("problem p; " + std::string(table.cell(row, problem)));
    Course const course;
    Judge const judge(question, course);
    auto const judged = [&](std::size_t column) {
      return judge.judge({read_written(table.cell(row, column), DecimalMark::point)}).front();
    };
    CHECK(judged(right).value == ValueVerdict::right);
    auto const judgement = judged(slipped);
    CHECK(judgement.value == ValueVerdict::wrong);
    CAPTURE(ids(judgement), judgement.feedback);
    CHECK(first_or_same_number(judgement, table.cell(row, slip)));
    // No hole of a sentence stays empty.
    for (auto const* const gap : {" ,", " .", " :", "  "}) CHECK(judgement.feedback.find(gap) == std::string::npos);
    for (auto const& one : judgement.candidates) CHECK(one.text.find("  ") == std::string::npos);
  }
}

TEST_CASE("worked slips: the right answer rounded twice, or cut to fewer figures", "[marker][worked-slips]") {
  // 7 x 18.015/246.466 = 51.1653 %, 18.015/198.805 x 4 = 36.2466 %; -lg 0.00116 = 2.93554; s = (2.6512e-13/4)^(1/3) = 4.0469e-5.
  std::string const share = "problem p; find w(H2O in FeCl2·4H2O) in % to 4 figures";
  std::string const acid = "problem p; given c(HNO3) = 0.00116 mol/L; find pH";
  std::string const solubility = "problem p; given Ksp(Mn(OH)2) = 2.651e-13; find s(Mn(OH)2) in mol/L to 3 figures";
  struct Row {
    std::string problem;
    char const* answer;
    ValueVerdict value;
    char const* slip;
    int if_accepted;
  };
  for (auto const& row : std::vector<Row>{
           {share, "36.25 %", ValueVerdict::right, "", 3},
           {share, "36.2 %", ValueVerdict::right, "", 3},
           {share, "36.24 %", ValueVerdict::right, "", 3},  // cut to the figures due
           {share, "36.3 %", ValueVerdict::wrong, "rounded-twice", 2},
           {share, "36.4 %", ValueVerdict::wrong, "", 0},
           {acid, "2.935", ValueVerdict::right, "", 3},
           {acid, "2.94", ValueVerdict::right, "", 3},
           {acid, "2.93", ValueVerdict::wrong, "truncated-not-rounded", 2},
           {solubility, "4.0e-5 mol/L", ValueVerdict::right, "", 3},
           {solubility, "4.1e-5 mol/L", ValueVerdict::wrong, "rounded-twice", 0},  // two figures say too little for marks
       }) {
    CAPTURE(row.problem, row.answer);
    auto const judgement = Judge(question_from(row.problem), Course{}).judge({wrote(row.answer)}).front();
    CAPTURE(ids(judgement), judgement.feedback, judgement.correct);
    CHECK(judgement.value == row.value);
    CHECK((judgement.candidates.empty() ? "" : judgement.candidates.front().slips.front().id) == row.slip);
    CHECK(judgement.marks_if_accepted == row.if_accepted);
  }
}

TEST_CASE("worked slips: what earlier parts of the script show", "[marker][worked-slips]") {
  // 0.360 x 25.00/500.0 = 0.0180 mol/L, x 20.00/250.0 = 0.00144; factors 20 and 12.5, added 32.5: 0.011077; with the first one
  // turned round 0.0180 becomes 7.2 mol/L.
  std::string const series =
      "problem p; dilute 1 -> 2; dilute 2 -> 3; given c1(KNO3) = 0.360 mol/L; given V1(KNO3, taken) = 25.00 mL; given V2(KNO3) = "
      "500.0 mL; given V2(KNO3, taken) = 20.00 mL; given V3(KNO3) = 250.0 mL; find c2(KNO3) in mmol/L; find c3(KNO3) in mmol/L";
  // m = 0.0400 x 74.551 = 2.982 g, of 8.00 g: 37.28 %; upside down 268.3 %, and from 2.98 g 268.5 %.
  std::string const share =
      "problem p; given n(KCl) = 0.0400 mol; given m(sample) = 8.00 g; find m(KCl) in g; find w(KCl) in % to 4 figures";
  struct Row {
    std::string problem;
    std::vector<char const*> answers;
    char const* slip;
    char const* node;
  };
  for (auto const& row : std::vector<Row>{
           {series, {"7200 mmol/L", "576 mmol/L"}, "", ""},  // follows
           {series, {"18.0 mmol/L", "576 mmol/L"}, "", ""},  // the first step is known to be right
           {series, {"", "576 mmol/L"}, "dilution-factor-inverted", "c2(KNO3)"},
           {series, {"18.0 mmol/L", "11.1 mmol/L"}, "serial-factors-added", "c3(KNO3)"},
           {share, {"2.98 g", "268.5 %"}, "mass-fraction-inverted", "w(KCl)"},
           {share, {"2.98 g", "268.3 %"}, "mass-fraction-inverted", "w(KCl)"},
       }) {
    auto const question = question_from(row.problem);
    std::vector<Written> script;
    for (auto const* answer : row.answers) script.push_back(*answer == 0 ? Written{} : wrote(answer));
    auto const judgement = Judge(question, Course{}).judge(script).back();
    CAPTURE(row.problem, row.answers.front(), row.answers.back(), ids(judgement), judgement.feedback);
    if (*row.slip == 0) {
      CHECK(judgement.candidates.empty());
      continue;
    }
    REQUIRE_FALSE(judgement.candidates.empty());
    auto const& first = judgement.candidates.front();
    CHECK(first.slips.front().id == row.slip);
    CHECK(first.slips.front().node == row.node);
    CHECK(first.probability > 0.8);
  }
}

TEST_CASE("worked slips: no cause contradicts a line that is right, whatever line departs", "[marker][worked-slips]") {
  // n(NaCl) = 0.2500 x 0.00420 = 0.00105 mol stands there; 150 g comes of 1.05 x 143, as if it were moles.
  auto const question = question_from(
      "problem p; reaction NaCl + AgNO3 -> AgCl + NaNO3; given V(NaCl) = 250.0 mL; given c(NaCl) = 4.20 mmol/L; excess AgNO3; "
      "find m(AgCl) in g to 3 figures");
  auto const answered = [&](Written const& written) { return Judge(question, Course{}).judge({written}).back(); };
  auto const speaks_of_conversions = [](Judgement const& judgement) {
    return std::any_of(judgement.candidates.begin(), judgement.candidates.end(), [](Candidate const& one) {
      auto const& node = one.slips.front().node;
      return node == "V(NaCl) in L" || node == "c(NaCl) in mol/L";
    });
  };
  CHECK(speaks_of_conversions(answered(wrote("150 g"))));
  auto const judgement = answered(with_lines("150 g", "n = 0.00105; m = 1.05 x 143"));
  CAPTURE(ids(judgement), judgement.feedback);
  CHECK_FALSE(speaks_of_conversions(judgement));
  CHECK(judgement.feedback.find("change of unit") == std::string::npos);
}

TEST_CASE("worked slips: of two names for one number the one that says more", "[marker][worked-slips]") {
  std::string const excess =
      "problem p; reaction 2NO + O2 -> 2NO2; given n(NO) = 0.400 mol; given n(O2) = 0.710 mol; find n(O2, left) in mol";
  struct Row {
    std::string problem;
    char const* answer;
    char const* slip;
  };
  for (auto const& row : std::vector<Row>{{excess, "0.200 mol", "excess-used-reported-as-left"},
                                          {excess, "0.310 mol", "excess-left-one-to-one"},
                                          {"problem p; reaction Fe + O2 -> Fe2O3; given n(Fe) = 0.0350 mol; find n(Fe2O3) in mol",
                                           "0.0350 mol", "mole-ratio-taken-as-one"}}) {
    auto const judgement = Judge(question_from(row.problem), Course{}).judge({wrote(row.answer)}).back();
    CAPTURE(row.problem, ids(judgement));
    REQUIRE_FALSE(judgement.candidates.empty());
    CHECK(judgement.candidates.front().slips.front().id == row.slip);
    CHECK(judgement.candidates.front().probability > 0.8);
  }
}

TEST_CASE("worked slips: the water of a hydrate from the wrong masses", "[marker][worked-slips]") {
  // n(ZnSO4) = 1.79/161.436 = 0.011088 mol, n(H2O) = 1.38/18.015 = 0.076603 mol: 6.91. Exchanged 0.099362/0.0085483 = 11.6; the
  // whole, 3.17 g, as water 0.175964/0.011088 = 15.9; masses as they stand 1.38/1.79 = 0.77.
  auto const question = question_from("problem p; given m(ZnSO4) = 1.79 g; given m(H2O) = 1.38 g; find formula of the hydrate");
  for (auto const& [answer, slip] : std::vector<std::pair<char const*, char const*>>{{"ZnSO4·12H2O", "residue-taken-as-water"},
                                                                                     {"ZnSO4·16H2O", "whole-taken-as-part"},
                                                                                     {"ZnSO4·H2O", "water-ratio-by-mass"},
                                                                                     {"ZnSO4·6H2O", ""}}) {
    auto const judgement = Judge(question, Course{}).judge({read_written(answer, DecimalMark::point)}).back();
    CAPTURE(answer, ids(judgement));
    CHECK((judgement.candidates.empty() ? "" : judgement.candidates.front().slips.front().id) == slip);
  }
}

TEST_CASE("marking: one answer without lines, by the table of decisions", "[marker][worked-slips]") {
  // c(KOH) = 0.146608 mol/L, three marks.
  auto const question = question_from(titrated_alkali);
  Course const course;
  Judge const judge(question, course);
  struct Row {
    char const* answer;
    ValueVerdict value;
    int marks, if_accepted;
    char const* why;
  };
  for (auto const& row : std::vector<Row>{
           {"0.147 mol/L", ValueVerdict::right, 3, 3, "right, right unit"},
           {"0.1466 mol/L", ValueVerdict::right, 3, 3, "one figure more"},
           {"0.1466075 mol/L", ValueVerdict::right, 2, 2, "figures off by two or more: the mark for figures"},
           {"0.147", ValueVerdict::right, 2, 2, "unit missing: the unit's mark"},
           {"0.147 g", ValueVerdict::right, 2, 2, "the number right, the unit of another quantity"},
           {"147 mmol/L", ValueVerdict::right, 3, 3, "another valid unit"},
           {"0.147 mmol/L", ValueVerdict::right, 2, 2, "right only in the unit asked"},
           {"0.0733 mol/L", ValueVerdict::wrong, 0, 2, "fits one slip: all marks but one, suggested"},
           {"73.3 mol/L", ValueVerdict::wrong, 0, 0, "fits only a pair, three figures: nothing is said"},
           {"0.0511 mol/L", ValueVerdict::wrong, 0, 0, "fits nothing"},
       }) {
    CAPTURE(row.answer, row.why);
    auto const judgement = judge.judge({wrote(row.answer)}).front();
    CHECK(judgement.value == row.value);
    CHECK(judgement.marks == row.marks);
    CHECK(judgement.marks_if_accepted == row.if_accepted);
  }
  CHECK(judge.judge({wrote("0.0511 mol/L")}).front().candidates.empty());
}

TEST_CASE("pairs: named with four figures, or where a line shows the first", "[marker][worked-slips]") {
  auto const question = question_from(titrated_alkali);
  Course const course;
  Judge const judge(question, course);
  // V(H2SO4) left in mL and the ratio taken as one: 0.0845 x 17.35 / 0.02000 = 73.30375.
  auto const alone = judge.judge({wrote("73.304 mol/L")}).front();
  CAPTURE(ids(alone));
  REQUIRE(!alone.candidates.empty());
  REQUIRE(alone.candidates.front().slips.size() == 2);
  auto const lined = judge.judge({with_lines("73.3 mol/L", "n(H2SO4) = 0.0845 × 17.35 = 1.466 mol; c = 73.3 mol/L")}).front();
  CAPTURE(ids(lined), lined.feedback);
  REQUIRE(!lined.candidates.empty());
  std::vector<std::string> found;
  for (auto const& slip : lined.candidates.front().slips) found.push_back(slip.id);
  std::sort(found.begin(), found.end());
  CHECK(found == std::vector<std::string>{"mole-ratio-taken-as-one", "volume-left-in-mL"});
}

TEST_CASE("marking: the unit of a part that has but one mark", "[marker][worked-slips][marks]") {
  auto question = question_from(titrated_alkali);
  question.marks = {1};
  using Units = MarkingRules::Units;
  struct Row {
    char const* answer;
    Units units;
    int marks;
    char const* why;
  };
  for (auto const& row : std::vector<Row>{
           {"0.147 mol/L", Units::required, 1, "right"},
           {"147 mmol/L", Units::required, 1, "another valid unit"},
           {"0.147 g", Units::required, 0, "a unit of another quantity: all marks but one"},
           {"0.147 mmol/L", Units::required, 0, "right only in the unit asked: all marks but one"},
           {"0.147", Units::required, 1, "missing: the unit's mark, and there is none"},
           {"0.147 flop", Units::required, 1, "not read as a unit"},
           {"0.147 g", Units::once_a_paper, 0, "the first of the paper"},
           {"0.147 g", Units::not_judged, 1, "not judged"},
       }) {
    CAPTURE(row.answer, row.why);
    Course course;
    course.rules.units = row.units;
    CHECK(Judge(question, course).judge({wrote(row.answer)}).front().marks == row.marks);
  }
  // And where a later part follows from an earlier wrong one: n = 0.0300 mol instead of 0.0250 mol, m = 0.0300 × 58.44 = 1.75 g.
  auto parts =
      question_from("problem p; given c(NaCl) = 0.100 mol/L; given V(NaCl) = 250.0 mL; find n(NaCl) in mol; find m(NaCl) in g");
  parts.marks = {1, 1};
  auto const followed = [&](char const* answer) {
    return Judge(parts, Course{}).judge({wrote("0.0300 mol"), wrote(answer)}).back();
  };
  CHECK(followed("1.75 g").marks == 1);
  auto const mol = followed("1.75 mol");
  CHECK(mol.value == ValueVerdict::follow_through);
  CHECK(mol.marks == 0);
  CHECK(mol.feedback.find("mol is a unit of another quantity") != std::string::npos);
}

TEST_CASE("slips: a slip's number under another unit is both at once", "[marker][worked-slips]") {
  // c(KOH) = 0.146608 mol/L; with the ratio taken as one 0.0733 mol/L.
  auto const question = question_from(titrated_alkali);
  Course const course;
  Judge const judge(question, course);
  for (auto const* lines : {"", "n(H2SO4) = 0.001466 mol; n(KOH) = 0.001466 mol"}) {
    CAPTURE(lines);
    auto const other = judge.judge({with_lines("0.0733 mmol/L", lines)}).front();
    CAPTURE(ids(other), other.feedback);
    CHECK(other.value == ValueVerdict::wrong);
    REQUIRE(!other.candidates.empty());
    auto const& first = other.candidates.front();
    REQUIRE(first.slips.size() == 2);
    CHECK(first.slips[0].id == "mole-ratio-taken-as-one");
    CHECK(first.slips[1].id == "unit-prefix-not-applied");
    CHECK(first.value == Approx(7.33e-5).epsilon(1e-3));  // as written, in mol/L
    CHECK(other.feedback.find("mole ratio") != std::string::npos);
    CHECK(other.feedback.find("fits with mol/L, but you wrote mmol/L") != std::string::npos);
    CHECK(other.marks_if_accepted <= 2);
  }
  // Rightly changed into mmol/L it is the slip alone; under g/L the unit is said to be another quantity's.
  auto const changed = judge.judge({wrote("73.3 mmol/L")}).front();
  REQUIRE(!changed.candidates.empty());
  CHECK(changed.candidates.front().slips.size() == 1);
  CHECK(changed.feedback.find("unit") == std::string::npos);
  auto const of_another = judge.judge({wrote("0.0733 g/L")}).front();
  REQUIRE(!of_another.candidates.empty());
  CHECK(of_another.candidates.front().slips.front().id == "mole-ratio-taken-as-one");
  CHECK(of_another.feedback.find("belongs to another quantity") != std::string::npos);
  // No slip leads there in either unit.
  CHECK(judge.judge({wrote("0.0511 mmol/L")}).front().candidates.empty());
}
