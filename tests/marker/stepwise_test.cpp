// A part taken step by step, and what is said to someone who will try again.
#include "marker/stepwise.h"

#include "engine/steps.h"
#include "marker/kept_back.h"
#include "worked.h"

using namespace molewright;

namespace {

char const* const silver =
    "problem p; reaction BaCl2 + AgNO3 -> AgCl + Ba(NO3)2; given V(BaCl2) = 40.0 mL; given c(BaCl2) = 0.150 mol/L; excess AgNO3; "
    "find m(AgCl) in g";
char const* const gas =
    "problem p; reaction Mg + HCl -> MgCl2 + H2; given m(Mg) = 0.486 g; given V(HCl) = 25.0 mL; given c(HCl) = 1.00 mol/L; find "
    "n(H2) in mol";
char const* const stated = "problem p; reaction Fe + O2 -> Fe2O3; find reaction";

std::string steps_of(Question const& question) {
  std::string out;
  auto const steps = stepwise(question, 0, {});
  for (auto const& answer : steps.question.worked.accepted.front().finds) out += answer.text + "; ";
  return out;
}
}  // namespace

TEST_CASE("stepwise: every step has an answer of its own", "[marker][stepwise]") {
  // By hand: 0.0400 L; 0.00600 mol; 0.0120 mol; 143.32 g/mol; 1.72 g. 0.486/24.305 = 0.0200 mol; HCl 0.0250 mol, half of it
  // 0.0125 mol, so that HCl limits.
  CHECK(steps_of(question_from(silver)) == "0.0400; 0.00600; 0.0120; 143.32; 1.72; ");
  CHECK(steps_of(question_from(gas)) == "24.305; 0.0200; 0.0200; 0.0250; 0.0250; 0.0125; HCl; 0.0125; ");
  CHECK(steps_of(question_from(stated)) == "4Fe + 3O2 -> 2Fe2O3; ");
}

TEST_CASE("stepwise: a step is judged by what stands before it", "[marker][stepwise]") {
  auto const question = question_from(silver);
  auto const steps = stepwise(question, 0, {});
  Course const course;
  Judge const judge(steps.question, course);
  struct Row {
    std::vector<char const*> written;
    char const* value;
    char const* slip;
  };
  // The ratio left out gives 0.00600 mol of AgCl; turned over 0.00300.
  for (auto const& row : std::vector<Row>{{{"0.0400 L"}, "right", ""},
                                          {{"0.04 L", "0.006 mol"}, "right", ""},
                                          {{"0.0400 L", "6.00 mol"}, "wrong", "volume-left-in-mL"},
                                          {{"0.0400 L", "0.00600 mol", "0.00300 mol"}, "wrong", "mole-ratio-inverted"},
                                          {{"0.0400 L", "0.00600 mol", "0.00600 mol"}, "wrong", "mole-ratio-taken-as-one"}}) {
    std::vector<Written> written;
    for (auto const* text : row.written) written.push_back(read_written(text, DecimalMark::point));
    auto const judged = judge.judge(written).at(written.size() - 1);
    INFO(row.written.back());
    auto rules = course;
    rules.rules.figures = MarkingRules::Figures::not_judged;
    CHECK(name(Judge(steps.question, rules).judge(written).at(written.size() - 1).value) == row.value);
    std::string const slip = judged.candidates.empty() ? "" : judged.candidates.front().slips.front().id;
    if (*row.slip != 0) CHECK(slip == row.slip);
  }
}

TEST_CASE("feedback to try again: the answer is kept back", "[marker][stepwise]") {
  struct Row {
    char const* problem;
    char const* written;
    char const* has;
    char const* has_not;
  };
  for (auto const& row : std::vector<Row>{
           {"problem p; given m(NaCl) = 1.46 g; find n(NaCl) in mol", "40.0 mol", "The amount is mass divided by molar mass.",
            "that gives"},
           {silver, "1720 g", "that gives 0.0400", "1.72 "},  // a step on the way may be told
           {"problem p; given m(NaCl) = 1.46 g; find n(NaCl) in mol", "7.777 g",
            "Nor is the unit right: g belongs to another quantity; the answer is in mol.", "0.0250"},
           {silver, "7.777 g", "7.777 g is not the answer yet.", "worked answer"},
           {"problem p; find name of Fe2(SO4)3", "iron sulfate", "Say which with a Roman numeral.", "(III)"},
           {"problem p; find formula of iron(III) chloride", "FeBr3", "which is another substance.", "FeCl₃"},
           {"problem p; reaction Mg + HCl -> MgCl2 + H2; given n(Mg) = 0.0200 mol; given n(HCl) = 0.0300 mol; find limiting "
            "reagent",
            "Mg", "Divide", "0.0150"},
           {"problem p; find formula of iron(III) chloride", "FeCl2", "here it is Fe³⁺", "FeCl₃"},
       }) {
    auto const question = question_from(row.problem);
    Course const course;
    auto const judged = Judge(question, course).judge({read_written(row.written, DecimalMark::point)}).front();
    auto const text = feedback_to_try_again(judged, question, 0, course.conventions);
    INFO(row.written << ": " << text << " / " << judged.feedback);
    CHECK(text.find(row.has) != std::string::npos);
    CHECK(text.find(row.has_not) == std::string::npos);
  }
}

TEST_CASE("feedback to try again: what is right is said as ever", "[marker][stepwise]") {
  auto const question = question_from(silver);
  Course const course;
  auto const judged = Judge(question, course).judge({read_written("1.72 g", DecimalMark::point)}).front();
  CHECK(feedback_to_try_again(judged, question, 0, course.conventions) == judged.feedback);
}
