// A slip and rounding on the way: numbers worked by hand.
#include "marker/rounded_slips.h"

#include <algorithm>
#include <catch2/catch.hpp>

#include "worked.h"

using namespace molewright;

namespace {
char const* const silver_chloride =
    "problem p; reaction BaCl2 + 2AgNO3 -> 2AgCl + Ba(NO3)2; given V(BaCl2) = 2.45 L; given c(BaCl2) = 0.1495 mol/L; excess "
    "AgNO3; find m(AgCl) in g";
char const* const hydroxide =
    "problem p; reaction FeCl3 + 3NaOH -> Fe(OH)3 + 3NaCl; given V(FeCl3) = 35.0 mL; given c(FeCl3) = 0.470 mol/L; find m(NaOH) "
    "in g";
char const* const two_parts =
    "problem p; reaction BaCl2 + 2AgNO3 -> 2AgCl + Ba(NO3)2; given V(BaCl2) = 2.45 L; given c(BaCl2) = 0.1495 mol/L; excess "
    "AgNO3; find n(BaCl2) in mol; find m(AgCl) in g";

Judgement judged(char const* problem, std::string const& answer, std::string const& lines = "", std::string const& first = "") {
  auto const question = question_from(problem);
  std::vector<Written> script;
  if (!first.empty()) script.push_back(wrote(first));
  script.push_back(wrote(answer));
  script.back().working = lines;
  return Judge(question, Course{}).judge(script).back();
}

/// The slip of the first candidate, where it is named with confidence; else nothing.
std::string named(Judgement const& judgement) {
  if (judgement.candidates.empty() || judgement.candidates.front().probability < name_above) return {};
  return judgement.candidates.front().slips.front().id;
}
}  // namespace

TEST_CASE("rounded slips: a slip is named though numbers on the way were rounded", "[marker][rounded]") {
  // n(H2SO4) = 0.0845 × 0.01735 = 0.001466075 mol. n(BaCl2) = 2.45 × 0.1495 = 0.366275 mol.
  struct Row {
    char const *problem, *answer, *first, *slip, *why;
  };
  for (auto const& row : std::vector<Row>{
           {titrated_alkali, "0.0733 mol/L", "", "mole-ratio-taken-as-one", "0.001466075/0.02000 = 0.07330"},
           {titrated_alkali, "0.0735 mol/L", "", "mole-ratio-taken-as-one", "0.00147/0.02000 = 0.0735"},
           {silver_chloride, "52.5 g", "", "mole-ratio-taken-as-one", "0.366275 × 143.32 = 52.495"},
           {silver_chloride, "53.0 g", "", "mole-ratio-taken-as-one", "0.37 × 143.32 = 53.028"},
           {two_parts, "53.0 g", "0.366 mol", "mole-ratio-taken-as-one",
            "0.37 × 143.32 = 53.028, behind a right answer to part a"},
           {titrated_alkali, "0.0741 mol/L", "", "", "no rounding leads from 0.07330 there"},
           {silver_chloride, "51.9 g", "", "", "nor here"},
       }) {
    CAPTURE(row.problem, row.answer, row.why);
    auto const judgement = judged(row.problem, row.answer, "", row.first);
    CHECK(judgement.value == ValueVerdict::wrong);
    CHECK(named(judgement) == row.slip);
    CHECK((judgement.marks_if_accepted > 0) == (*row.slip != '\0'));
    if (*row.slip != '\0') CHECK(judgement.feedback.find("ratio") != std::string::npos);
  }
}

TEST_CASE("rounded slips: lines that follow from rounded ones are right", "[marker][rounded]") {
  // n(FeCl3) = 0.01645 mol; rounded down to 0.0164, three times that is 0.0492, two units away from 0.04935.
  auto const off = judged(hydroxide, "0.00123 g", "n(FeCl3) = 0.0164 mol; n(NaOH) = 3 × 0.0164 = 0.0492 mol");
  REQUIRE(off.lines.size() == 2);
  CHECK(off.lines[0].verdict == LineVerdict::right);
  CHECK(off.lines[1].verdict == LineVerdict::right);
  CHECK(named(off) == "amount-divided-by-molar-mass");  // 0.0492/39.997 = 0.001230
  // And the ratio taken as one: 0.0164 × 39.997 = 0.6560.
  auto const skipped = judged(hydroxide, "0.656 g", "n(FeCl3) = 0.0164 mol; n(NaOH) = 0.0164 mol");
  REQUIRE(skipped.lines.size() == 2);
  CHECK(skipped.lines[1].verdict == LineVerdict::departs);
  CHECK(skipped.lines[1].node == "n(NaOH)");
  CHECK(named(skipped) == "mole-ratio-taken-as-one");
}

TEST_CASE("rounded slips: each way of rounding gives its own number, and none where nothing is on the way", "[marker][rounded]") {
  auto const worked = worked_from(titrated_alkali);
  auto const& working = worked.accepted.front();
  Estimator estimator(working);
  auto const all = value_applications(worked, working, Conventions{});
  auto const answers = slip_answers(all, estimator, working, 0);
  Conventions const conventions;
  RoundedSlips rounded(worked, conventions, all, estimator);
  std::vector<double> values;
  for (auto const& one : rounded.near(0.0733, answers, 0)) {
    CHECK(one.share > 0);
    if (answers[one.of].slip->id == "mole-ratio-taken-as-one") values.push_back(one.value);
  }
  std::sort(values.begin(), values.end());
  // To three places n is 0.001, to four figures 0.001466, to three 0.00147, the first alone or all; to two nothing is left.
  std::vector<double> const by_hand{0.0500, 0.0733, 0.0735, 0.0735};
  REQUIRE(values.size() == by_hand.size());
  for (std::size_t k = 0; k < values.size(); ++k) CHECK(values[k] == Approx(by_hand[k]).epsilon(1e-9));
  CHECK(rounded.near(12.5, answers, 0).empty());
}
