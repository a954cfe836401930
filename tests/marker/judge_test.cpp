#include "marker/judge.h"

#include <fmt/format.h>

#include <algorithm>
#include <catch2/catch.hpp>
#include <cmath>

#include "marker/marks.h"
#include "marker/slip_key.h"
#include "worked.h"

using namespace molewright;

namespace {

char const* const silver =
    "problem p; reaction BaCl2 + AgNO3 -> AgCl + Ba(NO3)2; given V(BaCl2) = 40.0 mL; given c(BaCl2) = 0.150 mol/L; excess AgNO3; "
    "find n(BaCl2) in mol; find n(AgCl) in mol; find m(AgCl) in g";
char const* const solution = "problem p; given V(K2SO4) = 35.0 mL; given c(K2SO4) = 0.125 mol/L; find n(K2SO4) in mol";
char const* const salt = "problem p; given n(CaCl2) = 0.0245 mol; find m(CaCl2) in g";

Written kind(Written::Kind what, std::string raw = "") {
  Written written;
  written.kind = what;
  written.raw = std::move(raw);
  return written;
}

struct Row {
  char const* problem;
  char const* answer;
  char const* value;
  char const* unit;
  char const* figures;
  int marks;
  char const* why;
};
}  // namespace

TEST_CASE("judge: value, unit and figures apart", "[marker][judge]") {
  // n(K2SO4) = 0.004375 mol, a tie at three figures; m(CaCl2) = 0.0245 x 110.978 = 2.718961 g. Figures within one, units required
  // (the standard course).
  Course const course;
  for (auto const& row : std::vector<Row>{
           {solution, "0.00438 mol", "right", "right", "right", 3, "half up"},
           {solution, "0.00437 mol", "right", "right", "right", 3, "the other tie, and the cut number"},
           {solution, "4.38e-3 mol", "right", "right", "right", 3, "another form"},
           {solution, "4.38 mmol", "right", "equivalent", "right", 3, "another unit, converted rightly"},
           {solution, "0.004375 mol", "right", "right", "right", 3, "one figure more"},
           {solution, "0.0043750 mol", "right", "right", "too-many", 2, "two figures more"},
           {solution, "0.0044 mol", "right", "right", "right", 3, "one figure fewer"},
           {solution, "0.004 mol", "wrong", "right", "too-few", 0, "one figure"},
           {solution, "0.00438", "right", "missing", "right", 2, "no unit"},
           {solution, "0.00438 g", "right", "wrong", "right", 2, "a unit of another quantity"},
           {solution, "0.00438 mmol", "right", "wrong", "right", 2, "right only in the unit asked"},
           {solution, "0.00438 quux", "right", "wrong", "right", 2, "no unit at all"},
           {solution, "0.00439 mol", "right", "right", "right", 3, "one unit off: rounded early"},
           {solution, "0.00442 mol", "wrong", "right", "not-judged", 0, "four units off"},
           {salt, "2.72 g", "right", "right", "right", 3, "rounded"},
           {salt, "2.71896 g", "right", "right", "too-many", 2, "a display"},
           {salt, "2720 mg", "right", "equivalent", "right", 3, "another unit"},
           {salt, "2.718 g", "right", "right", "right", 3, "cut"},
           {salt, "2.71 g", "right", "right", "right", 3, "cut to three figures"},
           {salt, "2.7195 g", "right", "right", "too-many", 2, "worked with whole numbers, Cl 35.5: 0.0245 x 111.0"},
           {salt, "-2.72 g", "wrong", "right", "not-judged", 0, "a sign too many"},
           {salt, "0 g", "wrong", "right", "not-judged", 0, "nothing"},
       }) {
    CAPTURE(row.problem, row.answer, row.why);
    auto const question = question_from(row.problem);
    Judge const judge(question, course);
    auto const judged = judge.judge({wrote(row.answer)}).front();
    CAPTURE(judged.feedback);
    CHECK(name(judged.value) == row.value);
    CHECK(name(judged.unit) == row.unit);
    CHECK(name(judged.figures) == row.figures);
    CHECK(judged.marks == row.marks);
    CHECK(judged.out_of == 3);
    CHECK_FALSE(judged.feedback.empty());
    CHECK(judged.feedback.find('!') == std::string::npos);
    CHECK(judged.feedback.find('{') == std::string::npos);
  }
}

TEST_CASE("judge: a course's tolerance, short of half way to a slip's number", "[marker][judge]") {
  // n = 0.0350 x 0.125 = 0.004375 mol; 0.00445 is 1.7 % off, 0.00450 2.9 %.
  auto const question = question_from(solution);
  Course course;
  CHECK(name(Judge(question, course).judge({wrote("0.00445 mol")}).front().value) == "wrong");
  course.rules.tolerance = 0.02;
  Judge const judge(question, course);
  auto const near = judge.judge({wrote("0.00445 mol")}).front();
  CHECK(name(near.value) == "right");
  CHECK(near.notes == std::vector<std::string>{"within-tolerance"});
  CHECK(near.marks == 3);
  CHECK(name(judge.judge({wrote("0.00450 mol")}).front().value) == "wrong");
  CHECK(name(judge.judge({wrote("4.375 mol")}).front().value) == "wrong");
  course.rules.tolerance = 0.5;  // however wide, a slip's number is not taken in
  auto const table = slip_table(question.worked, {});
  for (auto const& slip : table.by_find[0]) {
    if (slip.slip->reach != Reach::specific) continue;
    CAPTURE(slip.slip->id, slip.value);
    CHECK(name(Judge(question, course).judge({wrote(fmt::format("{:.3g} mol", slip.value))}).front().value) == "wrong");
  }
}

TEST_CASE("judge: a course's rules for figures and units", "[marker][judge]") {
  auto const question = question_from(solution);
  struct Rule {
    MarkingRules::Figures figures;
    MarkingRules::Units units;
    char const* answer;
    char const* figures_verdict;
    int marks;
  };
  using F = MarkingRules::Figures;
  using U = MarkingRules::Units;
  for (auto const& rule : std::vector<Rule>{{F::exact, U::required, "0.0044 mol", "too-few", 2},
                                            {F::exact, U::required, "0.004375 mol", "too-many", 2},
                                            {F::within_one, U::required, "0.0044 mol", "right", 3},
                                            {F::at_least_two, U::required, "0.0043750 mol", "right", 3},
                                            {F::not_judged, U::required, "0.004 mol", "not-judged", 3},
                                            {F::within_one, U::not_judged, "0.00438", "right", 3},
                                            {F::exact, U::required, "0.0044", "too-few", 1}}) {
    CAPTURE(rule.answer, rule.figures_verdict);
    Course course;
    course.rules.figures = rule.figures;
    course.rules.units = rule.units;
    Judge const judge(question, course);
    auto const judged = judge.judge({wrote(rule.answer)}).front();
    CHECK(name(judged.value) == "right");
    CHECK(name(judged.figures) == rule.figures_verdict);
    CHECK(judged.marks == rule.marks);
  }
}

TEST_CASE("judge: an answer in another unit than the later parts work in is followed", "[marker][judge]") {
  // n = 0.0400 x 0.150 = 0.00600 mol; m(AgCl) = 2 x 0.00600 x 143.32 = 1.72 g. With 0.600 mmol: 0.000600 mol, 0.172 g.
  auto const in_mmol = question_from(
      "problem p; reaction BaCl2 + AgNO3 -> AgCl + Ba(NO3)2; given V(BaCl2) = 40.0 mL; given c(BaCl2) = 0.150 mol/L; excess "
      "AgNO3; find n(BaCl2) in mmol; find m(AgCl) in g");
  auto const in_both = question_from(
      "problem p; given V(K2SO4) = 35.0 mL; given c(K2SO4) = 0.120 mol/L; find n(K2SO4) in mmol; find n(K2SO4) in mol");
  struct Case {
    Question const* question;
    std::vector<char const*> answers, verdicts;
  };
  Course const course;
  for (auto const& c : std::vector<Case>{
           {&in_mmol, {"6.00 mmol", "1.72 g"}, {"right", "right"}},
           {&in_mmol, {"0.600 mmol", "0.172 g"}, {"wrong", "follow-through"}},
           {&in_mmol, {"0.600 mmol", "172 g"}, {"wrong", "wrong"}},  // the conversion forgotten on top
           {&in_mmol, {"7.10 mmol", "2.04 g"}, {"wrong", "follow-through"}},
           {&in_both, {"8.40 mmol", "0.00840 mol"}, {"wrong", "follow-through"}},
       }) {
    CAPTURE(c.answers.front(), c.answers.back());
    Judge const judge(*c.question, course);
    std::vector<Written> written;
    for (char const* answer : c.answers) written.push_back(wrote(answer));
    auto const judged = judge.judge(written);
    REQUIRE(judged.size() == c.verdicts.size());
    for (std::size_t i = 0; i < judged.size(); ++i) CHECK(name(judged[i].value) == c.verdicts[i]);
  }
}

TEST_CASE("judge: what may be zero or less is followed by its decimal places", "[marker][judge]") {
  // c2 = 0.0580 x 10.00/500.0 = 0.00116 mol/L, pH 2.936; -lg 2.90 = -0.4624, -lg 0.990 = 0.00436, -lg 1.01 = -0.00432.
  // q = 4.18 x 50.0 x 6.0 = 1254 J, dH = -1.254 kJ/0.0250 mol = -50.2 kJ/mol; with 12.5 kJ -502.
  auto const acid = question_from(
      "problem p; given c1(HNO3) = 0.0580 mol/L; given V1(HNO3) = 10.00 mL; given V2(HNO3) = 500.0 mL; find c2(HNO3) in mol/L; "
      "find pH2");
  auto const heat = question_from(
      "problem p; reaction NaOH + HCl -> NaCl + H2O; given m(solution) = 50.0 g; given cp(solution) = 4.18 J/(g K); given dT = "
      "6.00 K; given n(NaOH) = 0.0250 mol; excess HCl; find q in kJ; find dH(NaOH) in kJ/mol");
  struct Script {
    Question const* question;
    char const* first;
    char const* second;
    char const* value;
    char const* figures;
    int marks;
  };
  Course course;
  course.rules.figures = MarkingRules::Figures::exact;
  for (auto const& script : std::vector<Script>{
           {&acid, "2.90 mol/L", "-0.462", "follow-through", "right", 3},
           {&acid, "2.90 mol/L", "-0.46", "follow-through", "too-few", 2},
           {&acid, "2.90 mol/L", "-0.5", "wrong", "not-judged", 0},
           {&acid, "2.90 mol/L", "0.462", "wrong", "not-judged", 0},
           {&acid, "0.990 mol/L", "0.004", "follow-through", "right", 3},
           {&acid, "0.990 mol/L", "0.0044", "follow-through", "too-many", 2},
           {&acid, "0.990 mol/L", "0", "wrong", "not-judged", 0},
           {&acid, "1.01 mol/L", "-0.004", "follow-through", "right", 3},
           {&acid, "0.116 mol/L", "0.936", "follow-through", "right", 3},
           {&acid, "0.116 mol/L", "0.94", "follow-through", "too-few", 2},
           {&acid, "0.00000116 mol/L", "5.936", "follow-through", "right", 3},
           {&heat, "12.5 kJ", "-500 kJ/mol", "follow-through", "right", 3},
           {&heat, "12.5 kJ", "500 kJ/mol", "wrong", "not-judged", 0},
           {&acid, "-0.0116 mol/L", "1.936", "wrong", "not-judged", 0},
       }) {
    CAPTURE(script.first, script.second);
    auto const judged = Judge(*script.question, course).judge({wrote(script.first), wrote(script.second)});
    REQUIRE(judged.size() == 2);
    CAPTURE(judged[1].feedback);
    CHECK(name(judged[1].value) == script.value);
    CHECK(name(judged[1].figures) == script.figures);
    CHECK(judged[1].marks == script.marks);
  }
}

TEST_CASE("judge: later parts follow from earlier wrong ones", "[marker][judge]") {
  // n(BaCl2) = 0.00600 mol, n(AgCl) = 0.0120 mol, m(AgCl) = 1.71984 g; M(AgCl) = 143.32 g/mol.
  auto const question = question_from(silver);
  Course course;
  struct Script {
    std::vector<char const*> answers;
    std::vector<char const*> values;
    char const* why;
  };
  for (auto const& script : std::vector<Script>{
           {{"0.00600 mol", "0.0120 mol", "1.72 g"}, {"right", "right", "right"}, "all right"},
           {{"6.00 mol", "12.0 mol", "1720 g"}, {"wrong", "follow-through", "follow-through"}, "b from a, c from b"},
           {{"6.00 mol", "0.0120 mol", "1.72 g"}, {"wrong", "right", "right"}, "right again later"},
           {{"0.00600 mol", "0.00300 mol", "0.430 g"}, {"right", "wrong", "follow-through"}, "ratio turned over in b"},
           {{"0.00600 mol", "0.00600 mol", "0.860 g"}, {"right", "wrong", "follow-through"}, "ratio left out in b"},
           {{"6.00 mol", "3.00 mol", "430 g"}, {"wrong", "wrong", "follow-through"}, "a second slip in b, c from b"},
           {{"0.0071 mol", "0.0142 mol", "2.04 g"},
            {"wrong", "follow-through", "follow-through"},
            "a wrong number with no cause"},
           {{"0.0071 mol", "0.0142 mol", "9.99 g"}, {"wrong", "follow-through", "wrong"}, "and another at the end"},
           {{"6.00 mmol", "0.0120 mol", "1.72 g"}, {"right", "right", "right"}, "another unit carries on as itself"},
       }) {
    CAPTURE(script.why);
    Judge const judge(question, course);
    std::vector<Written> written;
    for (auto const* const answer : script.answers) written.push_back(wrote(answer));
    auto const judged = judge.judge(written);
    REQUIRE(judged.size() == 3);
    for (std::size_t i = 0; i < 3; ++i) {
      CAPTURE(i, judged[i].given, judged[i].feedback);
      CHECK(name(judged[i].value) == script.values[i]);
      if (std::string_view(script.values[i]) != "wrong") CHECK(judged[i].marks == 3);
      CHECK(judged[i].part == std::string(1, static_cast<char>('a' + static_cast<int>(i))));
    }
  }
  course.rules.follow_through = false;
  Judge const strict(question, course);
  auto const judged = strict.judge({wrote("6.00 mol"), wrote("12.0 mol"), wrote("1720 g")});
  CHECK(name(judged[1].value) == "wrong");
  CHECK(name(judged[2].value) == "wrong");
}

TEST_CASE("judge: marks for a slip are as the course says and do not hang on its probability", "[marker][judge][marks]") {
  auto const question = question_from(solution);
  struct Rule {
    MarkingRules::SlipMarks rule;
    int marks, if_accepted;
    bool suggested;
  };
  for (auto const& rule : std::vector<Rule>{{MarkingRules::SlipMarks::none, 0, 0, false},
                                            {MarkingRules::SlipMarks::suggested, 0, 2, true},
                                            {MarkingRules::SlipMarks::given, 2, 2, false}}) {
    Course course;
    course.rules.slip_marks = rule.rule;
    Judge const judge(question, course);
    auto const judged = judge.judge({wrote("4.38 mol")}).front();
    CHECK(judged.marks == rule.marks);
    CHECK(judged.marks_if_accepted == rule.if_accepted);
    CHECK(judged.suggested == rule.suggested);
    auto const nonsense = judge.judge({wrote("77.7 mol")}).front();
    CHECK(nonsense.marks == 0);
    CHECK(nonsense.marks_if_accepted == 0);
    CHECK(nonsense.candidates.empty());
  }
}

TEST_CASE("judge: cells that are no number", "[marker][judge]") {
  auto question = question_from(solution);
  question.slip_key = slip_key(question.worked, slip_table(question.worked, Conventions{}), Conventions{});
  REQUIRE_FALSE(question.slip_key.front().empty());
  CHECK(question.slip_key.front().front().ids.front() == "volume-left-in-mL");
  Course const course;
  Judge const judge(question, course);
  CHECK(judge.judge({}).front().value == ValueVerdict::blank);
  CHECK(judge.judge({kind(Written::Kind::absent)}).front().value == ValueVerdict::absent);
  CHECK(judge.judge({kind(Written::Kind::unreadable, "??")}).front().value == ValueVerdict::unreadable);
  CHECK(judge.judge({kind(Written::Kind::words, "silver")}).front().value == ValueVerdict::unreadable);
  auto const ticked = judge.judge({kind(Written::Kind::ticked, "right")}).front();
  CHECK(ticked.value == ValueVerdict::right);
  CHECK(ticked.marks == 3);
  auto letter = kind(Written::Kind::letter, "A");
  letter.letter = 'A';
  auto const lettered = judge.judge({letter}).front();
  CHECK(lettered.value == ValueVerdict::wrong);
  REQUIRE(lettered.candidates.size() == 1);
  CHECK(lettered.candidates.front().slips.front().id == "volume-left-in-mL");
  CHECK(lettered.candidates.front().probability == 1.0);
  letter.letter = 'Z';
  auto const unknown = judge.judge({letter}).front();
  CHECK(unknown.value == ValueVerdict::unreadable);
  CHECK(unknown.notes == std::vector<std::string>{"no-such-letter"});
}

TEST_CASE("judge: a fraction is exact and has no figures, a tick beside an answer is no mark", "[marker][judge]") {
  // n(K2SO4) = 0.0350 x 0.125 = 0.004375 mol = 7/1600 mol.
  auto const question = question_from(solution);
  Course course;
  course.rules.figures = MarkingRules::Figures::exact;
  struct Cell {
    char const* cell;
    char const* value;
    char const* figures;
    int marks;
  };
  for (auto const& cell : std::vector<Cell>{{"7/1600 mol", "right", "not-judged", 3},
                                            {"35/8 mmol", "right", "not-judged", 3},
                                            {"1/230 mol", "wrong", "not-judged", 0},
                                            {"7/1600 g", "right", "not-judged", 2},
                                            {"0.00438 mol ✓", "right", "right", 3},
                                            {"0.00538 mol ✓", "wrong", "not-judged", 0},
                                            {"✓", "right", "not-judged", 3}}) {
    CAPTURE(cell.cell);
    auto const judged = Judge(question, course).judge({read_written(cell.cell, DecimalMark::point)}).front();
    CHECK(name(judged.value) == cell.value);
    CHECK(name(judged.figures) == cell.figures);
    CHECK(judged.marks == cell.marks);
  }
}

TEST_CASE("judge: the limiting reagent is named by formula or by name", "[marker][judge]") {
  auto const question = question_from(
      "problem p; reaction CaCl2 + AgNO3 -> AgCl + Ca(NO3)2; given n(CaCl2) = 0.0200 mol; given n(AgNO3) = 0.0300 mol; "
      "find limiting reagent; find m(AgCl) in g");
  Course const course;
  Judge const judge(question, course);
  struct Named {
    char const* answer;
    char const* value;
  };
  for (auto const& row : std::vector<Named>{{"AgNO3", "right"},
                                            {"AgNO3(aq)", "right"},
                                            {"silver nitrate", "right"},
                                            {"Silver nitrate", "right"},
                                            {"CaCl2", "wrong"},
                                            {"water", "wrong"},
                                            {"agno3", "right"},
                                            {"AGNO3", "right"},
                                            {"AgN03", "right"},
                                            {"cacl2", "wrong"},
                                            {"nitrate", "right"},
                                            {"the nitrate", "right"},
                                            {"AgNO3 is limiting", "right"},
                                            {"AgNO3 limits", "right"},
                                            {"limiting: AgNO3", "right"},
                                            {"The limiting reagent is silver nitrate.", "right"},
                                            {"silver nitrate (AgNO3)", "right"},
                                            {"AgNO3, CaCl2 is in excess", "right"},
                                            {"AgNO3 because it gives the smaller number", "right"},
                                            {"CaCl2 is in excess", "right"},
                                            {"AgNO3 is in excess", "wrong"},
                                            {"CaCl2 limits, AgNO3 in excess", "wrong"},
                                            {"AgNO3, CaCl2", "unreadable"},
                                            {"AgNO3 is not limiting", "unreadable"},
                                            {"AgNO3 is limiting, AgNO3 is in excess", "unreadable"},
                                            {"the salt", "unreadable"},
                                            {"don't know", "unreadable"}}) {
    CAPTURE(row.answer);
    auto const judged = judge.judge({read_written(row.answer, DecimalMark::point)}).front();
    CHECK(name(judged.value) == row.value);
    if (judged.value != ValueVerdict::right) CHECK(judged.marks == 0);
    if (judged.value == ValueVerdict::unreadable) CHECK(judged.feedback.find("reactant") != std::string::npos);
  }
  auto const both = judge.judge({kind(Written::Kind::words, "CaCl2"), wrote("5.73 g")});
  CHECK(name(both[1].value) == "follow-through");
  REQUIRE_FALSE(both[0].candidates.empty());
  CHECK(both[0].candidates.front().slips.front().node == "limiting reagent");
}

TEST_CASE("judge: a reactant by its kind, where only one is of it", "[marker][judge]") {
  auto const question = question_from(
      "problem p; reaction CaCO3 + HCl -> CaCl2 + H2O + CO2; given n(CaCO3) = 0.0100 mol; given n(HCl) = 0.0150 mol; "
      "find limiting reagent; text; Chalk, {formula CaCO3}, is put into acid.; end");
  Course const course;
  Judge const judge(question, course);
  struct Named {
    char const *answer, *value;
  };
  for (auto const& row : std::vector<Named>{{"the acid", "right"},
                                            {"Acid", "right"},
                                            {"HCL", "right"},
                                            {"hcl", "right"},
                                            {"hydrochloric acid", "right"},
                                            {"HCl, CaCO3 is in excess", "right"},
                                            {"the carbonate", "wrong"},
                                            {"caco3", "wrong"},
                                            {"CaC03", "wrong"},
                                            {"calcium carbonate (CaCO3)", "wrong"},
                                            {"co2", "wrong"},
                                            {"the chloride", "unreadable"},
                                            {"chalk", "wrong"},
                                            {"the chalk", "wrong"},
                                            {"limescale", "unreadable"}}) {
    CAPTURE(row.answer);
    auto const judged = judge.judge({read_written(row.answer, DecimalMark::point)}).front();
    CHECK(name(judged.value) == row.value);
    if (judged.value == ValueVerdict::wrong) CHECK(judged.feedback.find("does not react") == std::string::npos);
  }
}

TEST_CASE("judge: a formula found from data, in any order of its elements", "[marker][judge]") {
  // 40.0 % C, 6.7 % H, 53.3 % O: CH2O (OpenStax, Chemistry 2e, 3.2 has the like).
  char const* const sugar = "problem p; given w(C) = 40.0 %; given w(H) = 6.7 %; given w(O) = 53.3 %; find empirical formula";
  struct Case {
    char const *answer, *value, *note;
  };
  for (auto const& row : std::vector<Case>{{"CH2O", "right", ""},
                                           {"COH2", "right", ""},
                                           {"C6H12O6", "wrong", "formula-is-a-multiple"},
                                           {"CHO", "wrong", "other-ratio"},
                                           {"CH2N", "wrong", "other-elements"},
                                           {"don't know", "unreadable", ""}}) {
    CAPTURE(row.answer);
    auto const question = question_from(sugar);
    Course const course;
    Judge const judge(question, course);
    auto const judged = judge.judge({kind(Written::Kind::words, row.answer)}).front();
    CHECK(name(judged.value) == row.value);
    if (*row.note != 0) {
      CHECK(std::find(judged.notes.begin(), judged.notes.end(), row.note) != judged.notes.end());
      CHECK_FALSE(judged.feedback.empty());
    }
  }
}

TEST_CASE("judge: the water of a hydrate, as its formula or as a number", "[marker][judge]") {
  // CuSO4·5H2O: 3.19 g of 159.602 g/mol are 0.0200 mol, the 1.80 g lost 0.0999 mol.
  auto const question = question_from("problem p; given m(CuSO4·xH2O) = 4.99 g; given m(CuSO4) = 3.19 g; find x");
  Course const course;
  Judge const judge(question, course);
  struct Case {
    char const *answer, *value;
  };
  for (auto const& row : std::vector<Case>{{"CuSO4·5H2O", "right"},
                                           {"CuSO4.5H2O", "right"},
                                           {"5", "right"},
                                           {"x = 5", "right"},
                                           {"x=5", "right"},
                                           {"5 H2O", "right"},
                                           {"5 water", "right"},
                                           {"10", "wrong"},
                                           {"x = 1", "wrong"},
                                           {"CuSO4·7H2O", "wrong"},
                                           {"CuSO4.5H20", "right"},
                                           {"CuS04.5H2O", "right"},
                                           {"5 H20", "right"},
                                           {"cuso4.5h2o", "right"},
                                           {"CUSO4.5H2O", "right"},
                                           {"Cuso4.5h20", "right"},
                                           {"CuSO4 5H2O", "right"},
                                           {"CuSO4 x 5H2O", "right"},
                                           {"CuSO4 × 5 H2O", "right"},
                                           {"CuSO4.5H2O.", "right"},
                                           {"CuSO4.7H20", "wrong"},
                                           {"cuso4.7h2o", "wrong"},
                                           {"CuSO4.50H2O", "wrong"},
                                           {"CuSO3.5H20", "wrong"},
                                           {"copper(II) sulfate pentahydrate", "unreadable"},
                                           {"no idea", "unreadable"}}) {
    CAPTURE(row.answer);
    auto const judged = judge.judge({read_written(row.answer, DecimalMark::point)}).front();
    CHECK(name(judged.value) == row.value);
    CHECK_FALSE(judged.feedback.empty());
    bool const zero = std::string(row.answer).find(".5H20") != std::string::npos;
    if (zero && judged.value == ValueVerdict::right) CHECK(judged.feedback.find("a zero for the letter O") != std::string::npos);
  }
}

TEST_CASE("judge: whoever uses another table of atomic weights is right", "[marker][judge]") {
  // M(CuSO4·5H2O): 249.677 abridged, 249.5 with whole numbers and Cu 63.5: 24.0 g / M.
  auto const question = question_from("problem p; given m(CuSO4·5H2O) = 24.012 g; find n(CuSO4·5H2O) in mol");
  Course const course;
  Judge const judge(question, course);
  CHECK(name(judge.judge({wrote("0.096172 mol")}).front().value) == "right");
  CHECK(name(judge.judge({wrote("0.096240 mol")}).front().value) == "right");
  CHECK(name(judge.judge({wrote("0.096400 mol")}).front().value) == "wrong");
}

TEST_CASE("marks: once a paper is charged once", "[marker][marks]") {
  auto const question = question_from(silver);
  Course course;
  course.rules.units = MarkingRules::Units::once_a_paper;
  Judge const judge(question, course);
  auto paper = judge.judge({wrote("0.00600"), wrote("0.0120"), wrote("1.72")});
  settle_paper(paper, course.rules);
  CHECK(paper[0].marks == 2);
  CHECK(paper[1].marks == 3);
  CHECK(paper[2].marks == 3);
}

TEST_CASE("marks: spread over the steps", "[marker][marks]") {
  auto const worked = worked_from(silver);
  auto const& working = worked.accepted.front();
  struct Spread {
    int out_of;
    std::vector<std::string> nodes;
  };
  for (auto const& row :
       std::vector<Spread>{{1, {"m(AgCl)"}}, {2, {"n(AgCl)", "m(AgCl)"}}, {3, {"n(BaCl2)", "n(AgCl)", "m(AgCl)"}}}) {
    std::vector<std::string> nodes;
    int sum = 0;
    for (auto const& mark : marks_of_steps(worked, working, 2, row.out_of)) {
      nodes.push_back(working.nodes[static_cast<std::size_t>(mark.node)].id);
      sum += mark.marks;
    }
    CHECK(nodes == row.nodes);
    CHECK(sum == row.out_of);
  }
  int sum = 0;
  for (auto const& mark : marks_of_steps(worked, working, 2, 12)) sum += mark.marks;
  CHECK(sum == 12);
}

namespace {

char const* const many[] = {
    solution,
    salt,
    "problem p; given m(Ca(NO3)2) = 5.05 g; find n(Ca(NO3)2) in mmol",
    "problem p; given V(CuSO4) = 485.0 mL; given c(CuSO4) = 0.0545 mol/L; find m(CuSO4·5H2O) in g",
    "problem p; given V(HCl) = 24.65 - 1.20 mL; given c(HCl) = 0.1045 mol/L; find V(HCl) in mL; find n(HCl) in mol",
    "problem p; given c1(KNO3) = 0.505 mol/L; given V2(KNO3) = 2.45 L; given c2(KNO3) = 0.0102 mol/L; find V(H2O, added) in L",
    "problem p; reaction BaCl2 + AgNO3 -> AgCl + Ba(NO3)2; given V(BaCl2) = 36.0 mL; given c(BaCl2) = 0.145 mol/L; given "
    "V(AgNO3) = 52.0 mL; "
    "given c(AgNO3) = 0.174 mol/L; find m(AgCl) in mg",
    "problem p; given m(MgSO4, actual) = 32.5 g; given m(MgSO4, theoretical) = 40.5 g; find yield(MgSO4) in %",
};

Judgement judged_last(Judge const& judge, Question const& question, Written const& answer) {
  std::vector<Written> written(question.worked.problem.finds.size());
  written.back() = answer;
  return judge.judge(written).back();
}
}  // namespace

TEST_CASE("judge: a right answer is right in every rounding, form and unit", "[marker][judge]") {
  int tried = 0;
  for (auto const* const problem : many) {
    auto const question = question_from(problem);
    auto const& working = question.worked.accepted.front();
    auto const& find = working.finds.back();
    auto const& node = working.nodes[static_cast<std::size_t>(find.node)];
    Course const course;
    Judge const judge(question, course);
    std::vector<std::string> units{node.value.unit.symbol};
    if (node.value.unit.symbol == "g") units.insert(units.end(), {"mg", "kg"});
    if (node.value.unit.symbol == "mol") units.insert(units.end(), {"mmol"});
    if (node.value.unit.symbol == "L") units.insert(units.end(), {"mL", "dm3", "cm3"});
    for (auto const& symbol : units) {
      auto const number = convert(node.value.number, node.value.unit, unit(symbol));
      for (int figures = 2; figures <= 10; ++figures)
        for (auto const rounding : {Rounding::half_up, Rounding::half_even, Rounding::truncate}) {
          if (rounding == Rounding::truncate && figures <= find.figures) continue;  // a cut display has more figures than are due
          auto const text = print_to_figures(number, figures, rounding).plain + " " + symbol;
          CAPTURE(problem, text);
          auto const judged = judged_last(judge, question, wrote(text));
          CHECK(judged.value == ValueVerdict::right);
          CHECK(judged.candidates.empty());
          ++tried;
        }
    }
  }
  CHECK(tried > 300);
}

TEST_CASE("judge: a slip's answer that differs by more than the band is never right", "[marker][judge]") {
  int tried = 0;
  for (auto const* const problem : many) {
    auto const question = question_from(problem);
    auto const& working = question.worked.accepted.front();
    auto const& find = working.finds.back();
    auto const& node = working.nodes[static_cast<std::size_t>(find.node)];
    Course const course;
    Judge const judge(question, course);
    auto const table = slip_table(question.worked, course.conventions);
    double const right = node.value.number.to_double();
    for (auto const& answer : table.by_find.back()) {
      auto const result = run(question.worked, working, table.all[answer.application].edits, course.conventions);
      REQUIRE(std::holds_alternative<Working>(result));
      auto const& edited = std::get<Working>(result);
      auto const& number = edited.nodes[static_cast<std::size_t>(edited.finds.back().node)].value.number;
      if (number.sign() <= 0 || std::abs(answer.value - right) < 0.03 * right) continue;
      auto const text =
          print_to_figures(number, std::max(3, find.figures), Rounding::half_up).plain + " " + node.value.unit.symbol;
      CAPTURE(problem, text, answer.slip->id, answer.node);
      CHECK(judged_last(judge, question, wrote(text)).value == ValueVerdict::wrong);
      ++tried;
    }
  }
  CHECK(tried > 150);
}

TEST_CASE("judge: feedback says where to look, with the numbers of the question", "[marker][judge][feedback]") {
  char const* const metal =
      "problem p; reaction Mg + HCl -> MgCl2 + H2; given n(Mg) = 0.0200 mol; given n(HCl) = 0.0300 mol; find limiting reagent";
  struct Said {
    char const *problem, *answer, *has;
  };
  for (auto const& row : std::vector<Said>{
           // n/nu: 0.0200/1 and 0.0300/2
           {metal, "Mg", "Here that is 0.0200 mol for Mg and 0.0150 mol for HCl."},
           {metal, "H2", "H2 forms in this reaction."},
           {metal, "NaCl", "NaCl is not one of the substances that react here."},
           // silence: the second of the steps before the answer
           {"problem p; given m(NaCl) = 1.46 g; given V(NaCl) = 250.0 mL; find c(NaCl) in mol/L", "7.777 mol/L",
            "Start in the middle: n(NaCl) should come to 0.0250"},
           {"problem p; given V1(KOH) = 25.0 mL; given V2(KOH) = 250.0 mL; given c1(KOH) = 0.100 mol/L; find c2(KOH)",
            "7.777 mol/L", "Work it out like this: c₂(KOH) = c₁(KOH) × V₁(KOH) / V₂(KOH)."},
           {"problem p; given c(Ca(NO3)2) = 0.00350 mol/L; find c(NO3^-) in mol/L", "7.777 mol/L",
            "(ν counts how many of them one formula unit holds.)"},
           {"problem p; given V(CuSO4) = 500.0 mL; given c(CuSO4) = 0.0500 mol/L; find m(CuSO4·5H2O) in g", "7.777 g",
            "Start in the middle: n(CuSO₄) should come to 0.0250"},
           {solution, "7.777 g", "Nor is the unit right: g belongs to another quantity; the answer is in mol."},
           {solution, "0.00438 g", "The number is right, but g is a unit of another quantity; here it is mol."},
           {solution, "", "A good first step: n(K₂SO₄) = c(K₂SO₄) × V(K₂SO₄)."},
           {metal, "7 g", "could not be read which reactant is meant"},
       }) {
    auto const question = question_from(row.problem);
    Course const course;
    auto judged = Judge(question, course).judge({read_written(row.answer, DecimalMark::point)}).front();
    for (std::size_t at; (at = judged.feedback.find("\u00A0")) != std::string::npos;) judged.feedback.replace(at, 2, " ");
    INFO(row.answer << ": " << judged.feedback);
    CHECK(judged.feedback.find(row.has) != std::string::npos);
    CHECK(judged.feedback.rfind("Right. The number", 0) != 0);
  }
}
