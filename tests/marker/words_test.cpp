// The sentences that a student reads: numbers, units and names in them.
#include "marker/words.h"

#include "worked.h"

using namespace molewright;

namespace {
std::string plain_blanks(std::string text) {
  for (std::size_t at; (at = text.find("\u00A0")) != std::string::npos;) text.replace(at, 2, " ");
  return text;
}
bool has(std::string const& text, std::string const& part) { return text.find(part) != std::string::npos; }

std::string feedback_to(std::string const& problem, std::string const& answer) {
  auto const question = question_from(problem);
  return plain_blanks(Judge(question, Course{}).judge({wrote(answer)}).front().feedback);
}
}  // namespace

TEST_CASE("words: where the answer is the number that a slip gives, it is said once", "[marker][words]") {
  struct Case {
    char const* words;
    SlipNumbers numbers;
    char const* said;
  };
  auto const c = GENERATE(values<Case>({
      {"Your {given} fits with {wrong}, the salt alone.",
       {"7.26 %", "", "7.259 %", "", true},
       "Your 7.26 % fits with the salt alone."},
      {"Your {given} fits with {wrong}, where two went.",
       {"5.15e-07 mol/L", "", "5.15 × 10⁻⁷ mol/L", "", true},
       "Your 5.15e-07 mol/L is what comes out where two went."},
      {"Your {given} fits with {wrong}. A cube grows.",
       {"12.0", "", "12.0", "", true},
       "Your 12.0 comes from this step. A cube grows."},
      {"Your {given} fits with c divided by V, {wrong}. Multiply.",
       {"3.0 mol", "", "3.00 mol", "", true},
       "Your 3.0 mol fits with c divided by V. Multiply."},
      // A step on the way: both are said.
      {"Your {given} fits with {wrong}, the salt alone.",
       {"7.26 %", "", "7.40 g", ""},
       "Your 7.26 % fits with 7.40 g, the salt alone."},
      // Words for the tutor compare no answer.
      {"salt alone: {wrong} for {right}", {"7.26 %", "", "7.26 %", "", true}, "salt alone: 7.26 % for "},
  }));
  CHECK(filled(c.words, c.numbers) == c.said);
}

TEST_CASE("words: an answer that is another quantity is held against that quantity", "[marker][words]") {
  // 0.150 mol of NaOH handed in as its mass: another unit, so that both are said; a mass for another mass is said once.
  auto const amount =
      feedback_to("problem p; given c(NaOH) = 0.600 mol/L; given V(NaOH) = 250.0 mL; find m(NaOH) in g", "0.150 g");
  CAPTURE(amount);
  CHECK(has(amount, "0.150 g"));
  CHECK(has(amount, "0.150 mol"));
}

TEST_CASE("words: a step that only changes its unit on the way to the answer stands in the asked unit", "[marker][words]") {
  // w = 5 × 18.015/249.677 = 0.36077, with one water 0.07215; worked by hand.
  auto const share = feedback_to("problem p; find w(H2O in CuSO4·5H2O) in %", "7.215 %");
  CAPTURE(share);
  CHECK(has(share, "36.08 %"));
  CHECK_FALSE(has(share, "0.36"));
  CHECK_FALSE(has(share, "element"));
  CHECK_FALSE(has(share, "fits with 7.215 %"));
}

TEST_CASE("words: the slips of a solubility product compare solubilities", "[marker][words]") {
  // s = ∛(Ksp/4): 4 left out, ∛(2.0e-13) = 5.848e-5 mol/L; worked by hand.
  auto const question = question_from("problem p; given Ksp(Mn(OH)2) = 2.0e-13; find s(Mn(OH)2) in mol/L");
  auto const judgement = Judge(question, Course{}).judge({wrote("5.848e-5 mol/L")}).front();
  REQUIRE_FALSE(judgement.candidates.empty());
  CHECK(judgement.candidates.front().slips.front().id == "ion-factor-left-out-of-product");
  auto const said = plain_blanks(judgement.feedback + judgement.candidates.front().text);
  CAPTURE(said);
  CHECK_FALSE(has(said, "10^-13"));
  CHECK(has(said, "3.68 × 10"));  // ∛(5.0e-14)
}

TEST_CASE("words: an answer without a unit that has one", "[marker][words]") {
  auto const said = say::other_unit("mol/L", "") + say::not_the_unit_either("mol/L", "") + say::unknown_unit("ph", "");
  CHECK_FALSE(has(said, "here it is ."));
  CHECK_FALSE(has(said, " in ."));
  CHECK(has(say::other_unit("mol/L", ""), "it has no unit here: leave out mol/L."));
  auto const pH = feedback_to("problem p; given c(HCl) = 0.0100 mol/L; find pH", "2.000 mol/L");
  CAPTURE(pH);
  CHECK(has(pH, "has no unit"));
}

TEST_CASE("words: steps of one name are told apart by their units, and no name comes twice", "[marker][words]") {
  auto const question = question_from(
      "problem p; reaction BaCl2 + AgNO3 -> AgCl + Ba(NO3)2; given n(AgNO3) = 0.00400 mol; given c(BaCl2) = 0.150 mol/L; find "
      "V(BaCl2) in mL");
  auto const& working = question.worked.accepted.front();
  std::vector<Node const*> volumes, all;
  for (auto const& node : working.nodes) {
    if (node.quantity.symbol == "V") volumes.push_back(&node);
    if (node.quantity.symbol == "n" && node.quantity.substance == "BaCl2") all.insert(all.end(), {&node, &node});
  }
  REQUIRE(volumes.size() == 2);
  CHECK(step_names(volumes) == std::vector<std::string>{"V(BaCl₂) in L", "V(BaCl₂) in mL"});
  CHECK(step_names(all) == std::vector<std::string>{"n(BaCl₂)"});
  Judgement judgement;
  judgement.value = ValueVerdict::wrong;
  judgement.marks = 1;
  judgement.out_of = 2;
  judgement.marks_given = {{volumes[0]->id, 1, 1, MarkReason::right}, {volumes[1]->id, 0, 1, MarkReason::departs}};
  CHECK(words_for_marks(judgement, working) == "1 for V(BaCl₂) in L and none for V(BaCl₂) in mL");
}

TEST_CASE("words: steps of one quantity have names of their own", "[marker][words]") {
  auto const problem = GENERATE(
      as<std::string>(),
      "problem p; reaction 2NO + O2 -> 2NO2; given n(NO) = 0.400 mol; given n(O2) = 0.710 mol; find n(NO2) in mol; find n(O2, "
      "left) in mol",
      "problem p; reaction H3PO4 + 3KOH -> K3PO4 + 3H2O; given V(KOH) = mean of 27.25 - 1.15 rough | 27.55 - 1.70 | 26.30 - 0.55 "
      "mL; "
      "given c(KOH) = 0.3015 mol/L; find n(H3PO4) in mmol");
  auto const question = question_from(problem);
  auto const& nodes = question.worked.accepted.front().nodes;
  int of_one_quantity = 0;
  for (auto const& node : nodes)
    for (auto const& other : nodes) {
      bool const alike = &node == &other || node.quantity.symbol.empty() || node.quantity != other.quantity ||
                         node.relation == other.relation || node.relation == relations::convert ||
                         other.relation == relations::convert || node.value.number == other.value.number;
      if (alike) continue;
      ++of_one_quantity;
      CAPTURE(node.id, other.id);
      CHECK(step_name(node) != step_name(other));
    }
  CHECK(of_one_quantity > 0);
}

TEST_CASE("words: nobody is asked for a number that the question prints", "[marker][words]") {
  // n(O2)/ν(O2) is n(O2), and the titres are worked for their mean.
  auto const excess = feedback_to(
      "problem p; reaction 2NO + O2 -> 2NO2; given n(NO) = 0.400 mol; given n(O2) = 0.710 mol; find n(O2, left) in mol",
      "0.123 mol");
  CAPTURE(excess);
  CHECK_FALSE(has(excess, "0.710 mol"));
  auto const titrated = feedback_to(
      "problem p; reaction H3PO4 + 3KOH -> K3PO4 + 3H2O; given V(KOH) = mean of 27.25 - 1.15 rough | 27.55 - 1.70 | 26.30 - 0.55 "
      "mL; "
      "given c(KOH) = 0.3015 mol/L; find n(H3PO4) in mmol",
      "1.234 mmol");
  CAPTURE(titrated);
  CHECK(has(titrated, "V(KOH) should come to 25.80 mL"));
}

TEST_CASE("words: with nothing but givens before the step, nobody is sent to what comes before", "[marker][words]") {
  auto const first = feedback_to(
      "problem p; given c1(HNO3) = 0.100 mol/L; given V1(HNO3) = 10.0 mL; given V2(HNO3) = 250.0 mL; find "
      "pH",
      "7.13");
  CAPTURE(first);
  CHECK_FALSE(has(first, "if not, at what comes before"));
  auto const later = feedback_to(
      "problem p; reaction BaCl2 + AgNO3 -> AgCl + Ba(NO3)2; given V(BaCl2) = 40.0 mL; given c(BaCl2) = 0.150 mol/L; excess "
      "AgNO3; "
      "find m(AgCl) in g",
      "137 g");
  CAPTURE(later);
  CHECK(has(later, "if not, at what comes before"));
}

TEST_CASE("words: where to begin is never the answer itself, nor what the student has right", "[marker][words]") {
  // n(HCl, left) 1.75 mmol, then c and pH = 1.57; worked by hand.
  char const* const mixed =
      "problem p; reaction HCl + NaOH -> NaCl + H2O; given V(HCl) = 40.0 mL; given c(HCl) = 0.0650 mol/L; given V(NaOH) = 25.0 "
      "mL; "
      "given c(NaOH) = 0.0340 mol/L; find n(HCl, left) in mmol; find pH";
  auto const question = question_from(mixed);
  auto const second = [&](char const* first, char const* given) {
    return plain_blanks(Judge(question, Course{}).judge({read_written(first, DecimalMark::point), wrote(given)}).at(1).feedback);
  };
  auto const behind = second("1.75 mmol", "7.13");
  CAPTURE(behind);
  CHECK(has(behind, "Go on from what you have right: "));
  CHECK_FALSE(has(behind, "n(HCl, left) should"));
  CHECK_FALSE(has(behind, "runs out"));
  auto const unknown = second("", "7.13");
  CAPTURE(unknown);
  CHECK(has(unknown, "Start in the middle: "));
  CHECK_FALSE(has(unknown, "should come to NaOH"));

  // The last step before an answer that only changes its unit is that answer.
  auto const in_mmol =
      feedback_to("problem p; reaction NaOH + HCl -> NaCl + H2O; given n(NaOH) = 0.00250 mol; find n(HCl) in mmol", "7.13 mmol");
  CAPTURE(in_mmol);
  CHECK_FALSE(has(in_mmol, "should come to"));
}

TEST_CASE("words: why a unit has to be changed is said of the relation that needs it", "[marker][words]") {
  struct Case {
    char const *problem, *answer, *said;
  };
  auto const c = GENERATE(values<Case>({
      // c = n/V, V = n Vm, q = m cp dT, n = m/M; each number is the answer a thousand times off, worked by hand.
      {"problem p; given V(NaCl) = 250.0 mL; given n(NaCl) = 0.0500 mol; find c(NaCl) in mol/L", "0.000200 mol/L",
       "c(NaCl) is in mol/L, so divide by 1000 first"},
      {"problem p; given V(CO2) = 134.5 mL; given Vm = 24.0 L/mol; find n(CO2) in mol", "5.60 mol",
       "Vm is in L/mol, so divide by 1000 first"},
      {"problem p; given m(H2O) = 0.700 kg; given cp = 4.18 J/(g K); given dT = 28.5 K; find q in kJ", "0.0834 kJ",
       "cp is in J/(g K), so multiply by 1000 first"},
      {"problem p; given m(NaCl) = 117 mg; find n(NaCl) in mol", "2.00 mol", "M(NaCl) is in g/mol, so divide by 1000 first"},
  }));
  auto const said = feedback_to(c.problem, c.answer);
  CAPTURE(said);
  CHECK(has(said, c.said));
}

TEST_CASE("words: what stands on the wrong side of the line is named", "[marker][words]") {
  // q = 0.100 kg ... with cp divided by: 100 g × 10.0 K / 4.18 = 239 J; worked by hand.
  auto const question = question_from("problem p; given m(H2O) = 100 g; given cp = 4.18 J/(g K); given dT = 10.0 K; find q in J");
  auto const judgement = Judge(question, Course{}).judge({wrote("239 J")}).front();
  REQUIRE_FALSE(judgement.candidates.empty());
  CHECK(judgement.candidates.front().slips.front().id == "divided-for-multiplied");
  CHECK(has(judgement.feedback, "you divided by cp"));
  CHECK(has(judgement.candidates.front().text, "divided by cp instead of multiplied"));
  CHECK_FALSE(has(judgement.feedback, "arithmetic"));
}

TEST_CASE("words: where every likely cause is a way of rounding, rounding is what to look at", "[marker][words]") {
  // n(HCl) 2.5625 mmol, n(NaOH) 0.840 mmol, left 1.7225 mmol in 65.0 mL: pH = 1.5768, cut to 1.57.
  auto const question = question_from(
      "problem p; reaction HCl + NaOH -> NaCl + H2O; given V(HCl) = 41.0 mL; given c(HCl) = 0.0625 mol/L; given V(NaOH) = 24.0 "
      "mL; "
      "given c(NaOH) = 0.0350 mol/L; find pH");
  auto const judgement = Judge(question, Course{}).judge({wrote("1.57")}).front();
  REQUIRE(judgement.value == ValueVerdict::wrong);
  CAPTURE(judgement.feedback);
  CHECK((has(judgement.feedback, "round once") || has(judgement.feedback, "cut")));
  CHECK_FALSE(has(judgement.feedback, "does not show what went wrong"));
}
