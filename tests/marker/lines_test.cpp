// What lines of working add: where each stands, the first that departs, and the marks for them.
#include <algorithm>
#include <catch2/catch.hpp>
#include <cmath>

#include "marker/working_lines.h"
#include "worked.h"

using namespace molewright;

TEST_CASE("lines: a sum worked out wrongly is named, and so is an answer copied wrongly", "[marker][lines]") {
  char const* const from_chalk =
      "problem p; reaction CaCO3 + HCl -> CaCl2 + H2O + CO2; given m(CaCO3) = 3.50 g; excess HCl; given T = 22.0 °C; given p = "
      "99.5 kPa; find V(CO2) in L";
  struct Row {
    char const* problem;
    char const* answer;
    char const* lines;
    char const* slip;
    char const* said;  ///< in the words for the student; worked by hand
  };
  for (auto const& row : std::vector<Row>{
           {titrated_alkali, "0.1446 mol/L", "n(H2SO4) = 0.001466 mol; 0.001466 x 2 = 0.002892; c = 0.1446",
            "sum-worked-out-wrongly", "0.002932"},
           {titrated_alkali, "0.1446 mol/L", "n(KOH) = 2 x 0.001466 = 0.002892 mol; c = 0.002892/0.02000 = 0.1446",
            "sum-worked-out-wrongly", "0.002932"},
           // Exchanged digits of the mass, 5.30 g, would give the same number; the line shows 3.50.
           {from_chalk, "1.31 L", "M = 100.09; n = 3.50/100.09 = 0.0530 mol; V = 0.0530 x 8.314 x 295.15/99.5 = 1.31 L",
            "sum-worked-out-wrongly", "0.03497"},
           {titrated_alkali, "0.1646 mol/L", "n(KOH) = 0.002932 mol; c(KOH) = 0.1466 mol/L", "copied-wrongly-from-own-line",
            "c(KOH) = 0.1466 mol/L"},
       }) {
    CAPTURE(row.lines);
    auto const question = question_from(row.problem);
    Course const course;
    auto const judged = Judge(question, course).judge({with_lines(row.answer, row.lines)}).front();
    CAPTURE(judged.feedback);
    REQUIRE_FALSE(judged.candidates.empty());
    CHECK(judged.candidates.front().slips.front().id == row.slip);
    CHECK(judged.feedback.find(row.said) != std::string::npos);
  }
  // A line that is worked out rightly and holds a slip is that slip, as before.
  auto const question = question_from(titrated_alkali);
  Course const course;
  auto const judged =
      Judge(question, course).judge({with_lines("0.0733 mol/L", "n(KOH) = 0.001466 mol; c = 0.001466/0.02000 = 0.0733")}).front();
  REQUIRE_FALSE(judged.candidates.empty());
  CHECK(judged.candidates.front().slips.front().id == "mole-ratio-taken-as-one");
}

TEST_CASE("lines: a line that comes to nought departs, and is judged", "[marker][lines][bad-input]") {
  auto const question = question_from(titrated_alkali);
  Course const course;
  Judge const judge(question, course);
  for (char const* lines :
       {"n(H2SO4) = 0 mol", "n(H2SO4) = 0.0845 × 0 = 0 mol; c(KOH) = 0.0 mol/L", "n(H2SO4) = 0.000; n(KOH) = -0"}) {
    CAPTURE(lines);
    CHECK(judge.judge({with_lines("12.5 mol/L", lines)}).front().value == ValueVerdict::wrong);
  }
}

TEST_CASE("lines: the first that departs is found, later ones are judged from it", "[marker][lines]") {
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

TEST_CASE("marking: lines of working, by the table of decisions", "[marker][lines][marks]") {
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

TEST_CASE("marking: each mark for a line is explained", "[marker][lines][marks]") {
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

TEST_CASE("lines: in the units that are printed, without writing them", "[marker][lines]") {
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

TEST_CASE("lines: what is right as an answer is right as a line", "[marker][lines]") {
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

TEST_CASE("lines: a line that departs without a unit may be in the printed ones, as the next shows", "[marker][lines]") {
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

TEST_CASE("lines: what goes on in the next line is one line", "[marker][lines]") {
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

TEST_CASE("lines: a later part's lines may follow from an earlier wrong answer", "[marker][lines][marks]") {
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

TEST_CASE("lines: what is left and what is used, by their words", "[marker][lines]") {
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

TEST_CASE("lines: a word that no step is called by says nothing", "[marker][lines]") {
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

TEST_CASE("lines: what is worked from one reagent shows which was used", "[marker][lines]") {
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

TEST_CASE("lines: read as students write them", "[marker][lines]") {
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
           {"left 6.00 - 3.00 = 4.00 mmol", "", "", 4, "mmol", false},
           {"n 0.15 × 0.040 = 0.0060 mol", "n", "", 0.006, "mol", true},
           {"0.002352/2 = 0.001167", "", "", 0.001167, "", false},
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
