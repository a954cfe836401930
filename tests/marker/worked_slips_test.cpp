// Worked slips diagnose as they were worked; the decision tables of marking, row by row; what lines of working add.
#include <algorithm>
#include <catch2/catch.hpp>
#include <cmath>
#include <fstream>

#include "engine/tsv.h"
#include "marker/working_lines.h"
#include "worked.h"

using namespace molewright;

namespace {

std::string text_of(std::string const& name) {
  std::ifstream file(std::string(MOLEWRIGHT_TEST_DATA) + "/" + name);
  return {std::istreambuf_iterator<char>(file), {}};
}

char const* const titrated_alkali =
    "problem p; reaction H2SO4 + 2KOH -> K2SO4 + 2H2O; given V(KOH) = 20.00 mL; given V(H2SO4) = 17.35 mL; given c(H2SO4) = "
    "0.0845 mol/L; find c(KOH) in mol/L";

Written with_lines(std::string const& answer, std::string const& working) {
  auto written = wrote(answer);
  written.working = working;
  return written;
}

/// Whether the slip is first, or leads to the very number that the first leads to.
bool first_or_same_number(Judgement const& judgement, std::string_view slip) {
  auto const& all = judgement.candidates;
  return std::any_of(all.begin(), all.end(), [&](Candidate const& one) {
    return one.slips.size() == 1 && one.slips.front().id == slip &&
           std::abs(one.value - all.front().value) <= 1e-6 * std::abs(one.value);
  });
}

std::string ids(Judgement const& judgement) {
  std::string text;
  for (auto const& one : judgement.candidates) {
    for (auto const& slip : one.slips) text += slip.id + " ";
    text += "| ";
  }
  return text;
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

TEST_CASE("lines: a line that comes to nought departs, and is judged", "[marker][worked-slips][bad-input]") {
  auto const question = question_from(titrated_alkali);
  Course const course;
  Judge const judge(question, course);
  for (char const* lines :
       {"n(H2SO4) = 0 mol", "n(H2SO4) = 0.0845 × 0 = 0 mol; c(KOH) = 0.0 mol/L", "n(H2SO4) = 0.000; n(KOH) = -0"}) {
    CAPTURE(lines);
    CHECK(judge.judge({with_lines("12.5 mol/L", lines)}).front().value == ValueVerdict::wrong);
  }
}

TEST_CASE("lines: the first that departs is found, later ones are judged from it", "[marker][worked-slips]") {
  // The example of a marking guide: n(H2SO4) = 0.001466075 mol, n(KOH) = 0.00293215, c(KOH) = 0.1466075.
  auto const question = question_from(titrated_alkali);
  Course const course;
  auto const judgement =
      Judge(question, course)
          .judge({with_lines("0.0367 mol/L",
                             "n(H2SO4) = 0.001466 mol\nn(KOH) = 0.000733 mol\nc(KOH) = 0.000733/0.02000 = 0.0367 mol/L")})
          .front();
  REQUIRE(judgement.lines.size() == 3);
  CHECK(judgement.lines[0].verdict == LineVerdict::right);
  CHECK(judgement.lines[1].verdict == LineVerdict::departs);
  CHECK(judgement.lines[1].node == "n(KOH)");
  CHECK(judgement.lines[2].verdict == LineVerdict::follows);
  CAPTURE(ids(judgement));
  CHECK(first_or_same_number(judgement, "mole-ratio-inverted"));
}

TEST_CASE("marking: lines of working, by the table of decisions", "[marker][worked-slips][marks]") {
  // Steps with a mark each: n(H2SO4) = 0.001466075 mol, n(KOH) = 0.00293215 mol, c(KOH) = 0.1466075 mol/L.
  std::string const titration =
      "problem p; reaction H2SO4 + 2KOH -> K2SO4 + 2H2O; given V(KOH) = 20.00 mL; given V(H2SO4) = 17.35 mL; given c(H2SO4) = "
      "0.0845 mol/L; find c(KOH) in mol/L marks 3";
  // AgNO3 limits: n(AgCl) = 0.0300 mol, m(AgCl) = 4.30 g; whoever works a product out of each reagent is right as well.
  std::string const precipitate =
      "problem p; reaction CaCl2 + 2AgNO3 -> 2AgCl + Ca(NO3)2; given n(CaCl2) = 0.0200 mol; given n(AgNO3) = 0.0300 mol; find "
      "m(AgCl) in g marks 3";
  struct Row {
    std::string problem;
    char const* answer;
    char const* lines;
    std::vector<LineVerdict> verdicts;
    int marks;
    char const* why;
  };
  using V = LineVerdict;
  for (auto const& row : std::vector<Row>{
           {titration,
            "0.0367 mol/L",
            "n(H2SO4) = 0.001466 mol; n(KOH) = 0.000733 mol; c(KOH) = 0.0367 mol/L",
            {V::right, V::departs, V::follows},
            2,
            "the example: right, wrong, follow-through"},
           {titration, "0.0511 mol/L", "n(H2SO4) = 0.001466 mol", {V::right}, 1, "equals a quantity of the right working"},
           {titration, "0.0511 mol/L", "0.001466 mol", {V::right}, 1, "the same, not named"},
           {titration, "0.0511 mol/L", "n(KOH) = 0.002932 mol", {V::right}, 2, "and all steps that it implies"},
           {titration, "0.0511 mol/L", "n(KOH) = 0.002932 mol; n(H2SO4) = 0.001466 mol", {V::right, V::right}, 2, "in any order"},
           {titration,
            "0.0367 mol/L",
            "n(H2SO4) = 0.001466 mol; n(KOH) = 0.000733 mol",
            {V::right, V::departs},
            2,
            "the answer follows from the line"},
           {titration,
            "0.999 mol/L",
            "n(H2SO4) = 0.0845 × 0.01735 = 0.00234 mol",
            {V::departs},
            1,
            "right relation, number wrong: the method"},
           {titration,
            "0.234 mol/L",
            "n(H2SO4) = 0.0845 × 0.01735 = 0.00234 mol; n(KOH) = 0.00468 mol",
            {V::departs, V::follows},
            2,
            "one slip of arithmetic costs one mark"},
           {titration,
            "0.0733 mol/L",
            "n(H2SO4) = 0.001466 mol; n(KOH) = 0.001466 mol; c = 0.001466/0.02 = 0.0733 mol/L",
            {V::right, V::departs, V::follows},
            2,
            "a slip here: 0 for the step, later lines follow"},
           {titration,
            "0.0511 mol/L",
            "n(H2O) = 0.002932 mol; m(K2SO4) = 0.2555 g",
            {V::not_placed, V::not_placed},
            0,
            "true but useless: nothing, and no penalty"},
           {titration,
            "0.147 mol/L",
            "n(H2SO4) = 0.001466 mol; n(KOH) = 0.000733 mol",
            {V::right, V::departs},
            3,
            "final value right, a line wrong: the answer's marks"},
           {titration, "0.147 mol/L", "", {}, 3, "final value right, no line: all marks"},
           {titration,
            "0.0511 mol/L",
            "n(KOH) = 0.000733 mol; n(KOH) = 0.002932 mol",
            {V::not_placed, V::right},
            2,
            "two answers for one quantity: the last"},
           {titration,
            "0.0511 mol/L",
            "n(KOH) = 0.002932 mol; n(KOH) = 0.000733 mol",
            {V::not_placed, V::departs},
            0,
            "the same, the last wrong"},
           {titration, "0.0733 mol/L", "so I divided", {}, 0, "words only: as without lines"},
           {precipitate,
            "5.00 g",
            "n(AgCl) = 0.0400 mol; n(AgCl) = 0.0300 mol",
            {V::right, V::right},
            2,
            "product from each reagent: check by value"},
           {titration,
            "0.0367",
            "n(H2SO4) = 0.001466 mol; n(KOH) = 0.000733 mol",
            {V::right, V::departs},
            1,
            "the answer follows, its unit is missing: the unit's mark"},
       }) {
    CAPTURE(row.answer, row.lines, row.why);
    auto const question = question_from(row.problem);
    Course course;
    auto const judgement = Judge(question, course).judge({with_lines(row.answer, row.lines)}).front();
    std::vector<LineVerdict> verdicts;
    for (auto const& line : judgement.lines) verdicts.push_back(line.verdict);
    CHECK(verdicts == row.verdicts);
    CHECK(judgement.marks == row.marks);
    CHECK(judgement.marks_if_accepted >= judgement.marks);
    int sum = 0;
    for (auto const& one : judgement.marks_given) sum += one.out_of;
    CHECK((judgement.marks_given.empty() || sum == judgement.out_of));
    // The course may leave working out; then a wrong answer has what it has alone.
    course.rules.working = false;
    auto const alone = Judge(question, course).judge({with_lines(row.answer, row.lines)}).front();
    CHECK(alone.marks == (alone.value == ValueVerdict::wrong ? 0 : judgement.marks));
    CHECK(judgement.marks >= alone.marks);
    // Without follow-through only right lines count.
    course.rules = {};
    course.rules.follow_through = false;
    CHECK(Judge(question, course).judge({with_lines(row.answer, row.lines)}).front().marks <= judgement.marks);
  }
}

TEST_CASE("marking: each mark for a line is explained", "[marker][worked-slips][marks]") {
  auto const question = question_from(
      "problem p; reaction H2SO4 + 2KOH -> K2SO4 + 2H2O; given V(KOH) = 20.00 mL; given V(H2SO4) = 17.35 mL; given c(H2SO4) = "
      "0.0845 mol/L; find c(KOH) in mol/L marks 3");
  Course const course;
  auto const judgement =
      Judge(question, course).judge({with_lines("0.0367 mol/L", "n(H2SO4) = 0.001466 mol; n(KOH) = 0.000733 mol")}).front();
  std::string told;
  for (auto const& one : judgement.marks_given)
    told += one.node + " " + std::to_string(one.marks) + "/" + std::to_string(one.out_of) + " " + std::string(name(one.reason)) +
            "; ";
  CHECK(told == "n(H2SO4) 1/1 right; n(KOH) 0/1 departs; c(KOH) 1/1 follow-through; ");
  CAPTURE(judgement.feedback);
  CHECK(judgement.feedback.find("In your working n(H₂SO₄) is right. c(KOH) is right if your earlier numbers are used.") !=
        std::string::npos);
  auto const right = Judge(question, course).judge({with_lines("0.147 mol/L", "n(H2SO4) = 1.466 mol")}).front();
  CHECK(right.notes == std::vector<std::string>{"right-but-for-a-line"});
  CHECK(right.marks == 3);
}

TEST_CASE("lines: in the units that are printed, without writing them", "[marker][worked-slips]") {
  // n(H2SO4) = 1.466075 mmol, n(KOH) = 2.93215 mmol, c(KOH) = 0.1466075 mol/L.
  auto const question = question_from(titrated_alkali);
  Course const course;
  Judge const judge(question, course);
  using enum LineVerdict;
  struct Row {
    char const *answer, *lines;
    std::vector<LineVerdict> verdicts;
    char const* slip;  ///< the first candidate's
    char const* why;
  };
  for (auto const& row : std::vector<Row>{
           {"0.147 mol/L",
            "n(H2SO4) = 0.0845 x 17.35 = 1.466; n(KOH) = 2 x 1.466 = 2.932; c(KOH) = 2.932/20.00 = 0.147",
            {right, right, right},
            "",
            "mL × mol/L = mmol throughout"},
           {"0.147 mol/L",
            "V(H2SO4) = 0.01735; n(H2SO4) = 0.001466; n(KOH) = 2.932 mmol",
            {right, right, right},
            "",
            "litres, and a unit that is written"},
           {"0.0733 mol/L",
            "n(H2SO4) = 0.0845 x 17.35 = 1.466; n(KOH) = 1.466; c(KOH) = 1.466/20.00 = 0.0733",
            {right, departs, follows},
            "mole-ratio-taken-as-one",
            "a slip among millimoles"},
           {"147 mol/L",
            "n(H2SO4) = 0.0845 x 17.35 = 1.466; n(KOH) = 2.932; c(KOH) = 2.932/0.02000 = 147",
            {departs, follows, follows},
            "volume-left-in-mL",
            "litres in the next line: not consistent"},
           {"147 mol/L", "n(H2SO4) = 0.0845 x 17.35 = 1.466 mol", {departs}, "volume-left-in-mL", "the unit says mol"},
       }) {
    CAPTURE(row.lines, row.why);
    auto const judgement = judge.judge({with_lines(row.answer, row.lines)}).front();
    CAPTURE(ids(judgement));
    std::vector<LineVerdict> verdicts;
    for (auto const& line : judgement.lines) verdicts.push_back(line.verdict);
    CHECK(verdicts == row.verdicts);
    CHECK((*row.slip == '\0' ? judgement.candidates.empty() : first_or_same_number(judgement, row.slip)));
    CHECK(std::count(judgement.notes.begin(), judgement.notes.end(), "right-but-for-a-line") == 0);
  }
}

TEST_CASE("lines: what is right as an answer is right as a line", "[marker][worked-slips]") {
  // n(HNO3, left) = 4.1788 mmol: 4.19 is one of its last figure off, as an answer may be; 4.23 is not.
  auto const question = question_from(
      "problem p; reaction HNO3 + KOH -> KNO3 + H2O; given V(HNO3) = 57.5 mL; given c(HNO3) = 0.0815 mol/L; given V(KOH) = 17.5 "
      "mL; "
      "given c(KOH) = 0.0290 mol/L; find n(HNO3, left) in mmol");
  struct Row {
    char const* line;
    LineVerdict verdict;
  };
  for (auto const& row :
       {Row{"n(HNO3, left) = 4.18 mmol", LineVerdict::right}, Row{"n(HNO3, left) = 4.19 mmol", LineVerdict::right},
        Row{"n(HNO3, left) = 4.23 mmol", LineVerdict::departs}}) {
    CAPTURE(row.line);
    auto const judgement = Judge(question, Course{}).judge({with_lines("77 mmol", row.line)}).front();
    REQUIRE(judgement.lines.size() == 1);
    CHECK(judgement.lines[0].verdict == row.verdict);
  }
}

TEST_CASE("lines: a line that departs without a unit may be in the printed ones, as the next shows", "[marker][worked-slips]") {
  // n(AgCl) = 12.0 mmol, m(AgCl) = 1.72 g; with the ratio left out 6.00 (mmol, not said), and then 0.860 g.
  auto const question = question_from(
      "problem p; reaction BaCl2 + AgNO3 -> AgCl + Ba(NO3)2; given V(BaCl2) = 40.0 mL; given c(BaCl2) = 0.150 mol/L; excess "
      "AgNO3; "
      "find w(AgCl in residue) in %; given m(residue) = 2.00 g");
  auto const judgement =
      Judge(question, Course{}).judge({with_lines("43.0 %", "n(AgCl) = 6.00; m(AgCl) = 6.00 x 143.3 = 0.860 g")}).front();
  REQUIRE(judgement.lines.size() == 2);
  CHECK(judgement.lines[0].verdict == LineVerdict::departs);
  CHECK(judgement.lines[1].verdict == LineVerdict::follows);
}

TEST_CASE("lines: what goes on in the next line is one line", "[marker][worked-slips]") {
  struct Row {
    char const* text;
    std::vector<std::string> lines;
  };
  for (auto const& row : std::vector<Row>{
           {"n = 0.250 × 0.100\n= 0.0250 mol", {"n = 0.250 × 0.100 = 0.0250 mol"}},
           {"n = 0.250 × 0.100 =\n0.0250 mol\nm = 3.58 g", {"n = 0.250 × 0.100 = 0.0250 mol", "m = 3.58 g"}},
           {"moles of acid\n= 0.0250 mol", {"moles of acid = 0.0250 mol"}},
           {"= 0.0250 mol", {"= 0.0250 mol"}},
           {"n = 0.0250 mol\nm = 3.58 g", {"n = 0.0250 mol", "m = 3.58 g"}},
       }) {
    CAPTURE(row.text);
    std::vector<std::string> lines;
    for (auto const& line : read_working_lines(row.text, DecimalMark::point)) lines.push_back(line.text);
    CHECK(lines == row.lines);
  }
  auto const joined = read_working_lines("n(KOH) = 2 × 0.00100\n= 0.00200 mol", DecimalMark::point);
  REQUIRE(joined.size() == 1);
  CHECK(joined.front().symbol == "n");
  CHECK(joined.front().substance == "KOH");
  CHECK(joined.front().unit.has_value());
}

TEST_CASE("lines: a later part's lines may follow from an earlier wrong answer", "[marker][worked-slips][marks]") {
  // (a) 0.0845 x 17.35 = 1.466 mol, in mL; (b) from there n(KOH) = 2.932 mol is right for it, c(KOH) = 2.932 x 0.02000 is not.
  auto const question = question_from(
      "problem p; reaction H2SO4 + 2KOH -> K2SO4 + 2H2O; given V(KOH) = 20.00 mL; given V(H2SO4) = 17.35 mL; given c(H2SO4) = "
      "0.0845 mol/L; find n(H2SO4) in mol; find c(KOH) in mol/L marks 3");
  Course const course;
  auto const judged = Judge(question, course).judge({wrote("1.466 mol"), with_lines("0.0586 mol/L", "n(KOH) = 2.932 mol")});
  REQUIRE(judged[1].lines.size() == 1);
  CHECK(judged[1].lines[0].verdict == LineVerdict::follows);
  // The amount was judged in (a) and is not charged again; n(KOH) follows from it, c(KOH) is not right.
  CHECK(judged[1].out_of == 3);
  CHECK(judged[1].marks == 2);
}

TEST_CASE("lines: what is left and what is used, by their words", "[marker][worked-slips]") {
  // n(HCl) = 17.7 mmol, n(NaOH) = 4.05 mmol = n(HCl, left), n(HCl, used) = 13.65 mmol.
  auto const question = question_from(
      "problem p; reaction Mg(OH)2 + 2HCl -> MgCl2 + 2H2O; reaction HCl + NaOH -> NaCl + H2O; given V(HCl) = 25.00 mL; given "
      "c(HCl) = 0.708 mol/L; given c(NaOH) = 0.178 mol/L; given V(NaOH) = 22.75 mL; find n(HCl) in mmol; find n(HCl, used) in "
      "mmol");
  struct Row {
    char const* answer;
    char const* lines;
    std::vector<LineVerdict> verdicts;
    std::vector<std::string> nodes;
    char const* slip;
  };
  using V = LineVerdict;
  for (auto const& row : std::vector<Row>{
           {"15.7 mmol",
            "n(HCl) = 0.708×25.00 = 17.7 mmol; n(left) = 0.178×22.75/2 = 2.02 mmol; n(used) = 17.7-2.02 = 15.7 mmol",
            {V::right, V::departs, V::follows},
            {"n(HCl)", "n(HCl, left)", "n(HCl, used)"},
            ""},
           {"21.7 mmol",
            "n(NaOH) = 4.05 mmol; n(HCl, used) = 17.7 + 4.05 = 21.7 mmol",
            {V::right, V::departs},
            {"n(NaOH)", "n(HCl, used)"},
            "added-for-taken-away"},
           {"21.7 mmol",
            "n(NaOH) = 4.05 mmol; used = 17.7 + 4.05 = 21.7 mmol",
            {V::right, V::departs},
            {"n(NaOH)", "n(HCl, used)"},
            "added-for-taken-away"},
           {"13.7 mmol",
            "n(remaining) = 4.05 mmol; n(HCl, reacted) = 17.7 - 4.05 = 13.7 mmol",
            {V::right, V::right},
            {"n(HCl, left)", "n(HCl, used)"},
            ""},
       }) {
    CAPTURE(row.lines);
    auto const judgement = Judge(question, Course{}).judge({wrote("17.7 mmol"), with_lines(row.answer, row.lines)}).back();
    CAPTURE(ids(judgement), judgement.feedback);
    std::vector<V> verdicts;
    std::vector<std::string> nodes;
    for (auto const& line : judgement.lines) {
      verdicts.push_back(line.verdict);
      nodes.push_back(line.node);
    }
    CHECK(verdicts == row.verdicts);
    CHECK(nodes == row.nodes);
    CHECK((judgement.candidates.empty() ? "" : judgement.candidates.front().slips.front().id) == row.slip);
  }
}

TEST_CASE("lines: a word that no step is called by says nothing", "[marker][worked-slips]") {
  auto const question = question_from(titrated_alkali);
  Course const course;
  auto const judgement = Judge(question, course)
                             .judge({with_lines("0.0367 mol/L", "n(H2SO4, used) = 0.001466 mol; n(KOH, reacted) = 0.000733 mol")})
                             .front();
  REQUIRE(judgement.lines.size() == 2);
  CHECK(judgement.lines[0].verdict == LineVerdict::right);
  CHECK(judgement.lines[0].node == "n(H2SO4)");
  CHECK(judgement.lines[1].verdict == LineVerdict::departs);
  CHECK(judgement.lines[1].node == "n(KOH)");
}

TEST_CASE("lines: what is worked from one reagent shows which was used", "[marker][worked-slips]") {
  // n(Al) = 0.300/26.982 = 0.01112 mol gives 0.01668 mol H2, 400 mL; HCl limits: 0.0126 mol gives 0.0063 mol, 151 mL.
  auto const question = question_from(
      "problem p; reaction 2Al + 6HCl -> 2AlCl3 + 3H2; given m(Al) = 0.300 g; given V(HCl) = 28.0 mL; given c(HCl) = 0.450 "
      "mol/L; "
      "given Vm = 24.0 L/mol; find V(H2) in mL");
  Course const course;
  Judge const judge(question, course);
  auto const share = [](Judgement const& judgement, std::string_view slip) {
    double sum = 0;
    for (auto const& one : judgement.candidates)
      if (one.slips.size() == 1 && one.slips.front().id == slip) sum += one.probability;
    return sum;
  };
  std::string const from_al = "n(Al) = 0.300/26.98 = 0.0111 mol; n(H2) = 0.0111 × 3/2 = 0.0167 mol";
  auto const bare = judge.judge({wrote("400 mL")}).front();
  for (auto const& lines : {from_al, from_al + "; V = 0.0167 × 24.0 = 0.400 L = 400 mL"}) {
    auto const lined = judge.judge({with_lines("400 mL", lines)}).front();
    CAPTURE(lines, ids(bare), ids(lined), lined.feedback);
    REQUIRE_FALSE(lined.candidates.empty());
    CHECK(lined.candidates.front().slips.front().id == "excess-reagent-used");
    CHECK(share(lined, "excess-reagent-used") > share(bare, "excess-reagent-used"));
    CHECK(share(lined, "limiting-by-smaller-amount") < share(bare, "limiting-by-smaller-amount"));
    CHECK(share(lined, "volume-left-in-mL") <= share(bare, "volume-left-in-mL"));
  }
  // Who shows both amounts compared them.
  auto const both = judge.judge({with_lines("400 mL", "n(HCl) = 0.0126 mol; " + from_al)}).front();
  CAPTURE(ids(both));
  CHECK(share(both, "limiting-by-smaller-amount") > 0.5 * share(both, "excess-reagent-used"));
}

TEST_CASE("lines: read as students write them", "[marker][worked-slips]") {
  struct Row {
    char const* text;
    char const* symbol;
    char const* substance;
    double value;
    char const* unit;
    bool worked_out;
  };
  for (auto const& row : std::vector<Row>{
           {"n = 0.15 × 40 = 6", "n", "", 6, "", true},
           {"6 mol", "", "", 6, "mol", true},
           {"n(AgCl) = 0.0120 mol", "n", "AgCl", 0.012, "mol", true},
           {"m(AgCl) = 0.0120 mol × 143.32 g/mol = 1.72 g", "m", "AgCl", 1.72, "g", true},
           {"moles of AgCl = 0.0120", "n", "AgCl", 0.012, "", true},
           {"c = 0.5/(0.2 - 0.15) = 10 mol/L", "c", "", 10, "mol/L", true},
           {"n = 2 x 3 = 7", "n", "", 7, "", false},
           {"n = 0.15 mol/L x 0.040 L", "n", "", 0.006, "", true},
           {"n = 0.006 mol = 6 mmol", "n", "", 6, "mmol", true},
       }) {
    CAPTURE(row.text);
    auto const lines = read_working_lines(row.text, DecimalMark::point);
    REQUIRE(lines.size() == 1);
    CHECK(lines[0].symbol == row.symbol);
    CHECK(lines[0].substance == row.substance);
    CHECK(lines[0].number.value.to_double() == Approx(row.value));
    CHECK((lines[0].unit ? lines[0].unit->symbol : std::string()) == row.unit);
    CHECK(lines[0].worked_out == row.worked_out);
  }
  CHECK(read_working_lines("so it is that; ((((; = = =; n =", DecimalMark::point).empty());
  CHECK(read_working_lines("n = 1 mol; m = 2 g\nc = 3 mol/L", DecimalMark::point).size() == 3);
  CHECK(read_working_lines(std::string(100000, '('), DecimalMark::point).empty());
}
