// One question to a student that tells the possible causes of a wrong answer apart.
#include "marker/probe.h"

#include "worked.h"

using namespace molewright;

namespace {

char const* const silver =
    "problem p; reaction BaCl2 + AgNO3 -> AgCl + Ba(NO3)2; given V(BaCl2) = 40.0 mL; given c(BaCl2) = 0.150 mol/L; excess AgNO3; "
    "find m(AgCl) in g";

std::optional<Probe> probe_of(Question const& question, Judgement const& judgement) { return probe(question, 0, judgement, {}); }

Judgement with_candidates(char const* given, std::vector<Candidate> candidates) {
  Judgement judgement;
  judgement.given = given;
  judgement.value = ValueVerdict::wrong;
  judgement.candidates = std::move(candidates);
  return judgement;
}
Candidate candidate(char const* slip, char const* node, double probability) {
  Candidate out;
  out.slips = {{slip, node}};
  out.probability = probability;
  return out;
}
std::string plain_blanks(std::string text) {
  for (std::size_t at; (at = text.find("\u00A0")) != std::string::npos;) text.replace(at, 2, " ");
  return text;
}
}  // namespace

TEST_CASE("probe: rivals part at the step that is asked for", "[marker][probe]") {
  auto const question = question_from(silver);
  // The ratio left out: n(AgCl) 0.00600 mol in place of 0.0120; turned over: 0.00300.
  auto const found = probe_of(question, with_candidates("0.860 g", {candidate("mole-ratio-taken-as-one", "n(AgCl)", 0.5),
                                                                    candidate("mole-ratio-inverted", "n(AgCl)", 0.4)}));
  REQUIRE(found);
  CHECK(found->node == "n(AgCl)");
  REQUIRE(found->replies.size() == 3);
  CHECK(plain_blanks(found->replies[0].value) == "0.0120 mol");
  CHECK(found->replies[0].right);
  CHECK(found->replies[0].candidates.empty());
  CHECK(plain_blanks(found->replies[1].value) == "0.00600 mol");
  CHECK(found->replies[1].candidates == std::vector<std::size_t>{0});
  CHECK(plain_blanks(found->replies[2].value) == "0.00300 mol");
  CHECK(found->replies[2].candidates == std::vector<std::size_t>{1});
}

TEST_CASE("probe: one that comes late in the working leaves the earlier steps right", "[marker][probe]") {
  auto const question = question_from(silver);
  auto const found = probe_of(question, with_candidates("0.860 g", {candidate("mole-ratio-taken-as-one", "n(AgCl)", 0.5),
                                                                    candidate("volume-left-in-mL", "V(BaCl2) in L", 0.4)}));
  REQUIRE(found);
  REQUIRE(found->replies.size() >= 2);
  std::size_t told = 0;
  for (auto const& reply : found->replies) told += reply.candidates.size();
  CHECK(told == 2);
  for (auto const& reply : found->replies) CHECK(reply.candidates.size() < 2);
}

TEST_CASE("probe: with no candidate the working is halved", "[marker][probe]") {
  auto const question = question_from(silver);
  auto const found = probe_of(question, with_candidates("7.777 g", {}));
  REQUIRE(found);
  CHECK(found->node == "n(BaCl2)");  // second of four steps before the answer
  REQUIRE(found->replies.size() == 2);
  CHECK(plain_blanks(found->replies[0].value) == "0.00600 mol");
  CHECK(found->replies[1].value.empty());
}

TEST_CASE("probe: what was chosen is said as a substance", "[marker][probe]") {
  // AgNO3 limits; whoever works from the reagent in excess has taken CaCl2.
  auto const question = question_from(
      "problem p; reaction CaCl2 + 2AgNO3 -> 2AgCl + Ca(NO3)2; given n(CaCl2) = 0.0200 mol; given n(AgNO3) = 0.0300 mol; find "
      "m(AgCl) in g");
  auto const found = probe_of(question, with_candidates("5.73 g", {candidate("excess-reagent-used", "limiting reagent", 0.6),
                                                                   candidate("mole-ratio-inverted", "n(AgCl) from AgNO3", 0.2)}));
  REQUIRE(found);
  CHECK(found->node == "limiting reagent");
  REQUIRE(found->replies.size() >= 2);
  CHECK(found->replies[0].value == "AgNO₃");
  CHECK(found->replies[1].value == "CaCl₂");
}

TEST_CASE("probe: where no step stands before the answer, how it was done", "[marker][probe]") {
  auto const question = question_from("problem p; reaction H2 + O2 -> H2O; given n(H2) = 0.100 mol; find n(O2) in mol");
  auto const found = probe_of(question, with_candidates("0.100 mol", {candidate("mole-ratio-taken-as-one", "n(O2)", 0.5)}));
  REQUIRE(found);
  CHECK(found->node == "n(O2)");
  CHECK(found->replies.empty());
}

TEST_CASE("probe: nothing to ask", "[marker][probe]") {
  auto const question = question_from(silver);
  auto right = with_candidates("1.72 g", {});
  right.value = ValueVerdict::right;
  CHECK_FALSE(probe_of(question, right));
  CHECK_FALSE(probe_of(question_from("problem p; reaction Fe + O2 -> Fe2O3; find reaction"), with_candidates("Fe", {})));
  CHECK_FALSE(probe_of(question_from("problem p; given V1(KOH) = 25.0 mL; given V2(KOH) = 250.0 mL; given c1(KOH) = 0.100 mol/L; "
                                     "find c2(KOH)"),
                       with_candidates("7 mol/L", {})));
}

TEST_CASE("probe: what runs out first is asked for by its name, and answered by a formula", "[marker][probe]") {
  auto const question = question_from(
      "problem p; reaction Mg + 2HCl -> MgCl2 + H2; given n(Mg) = 0.0200 mol; given n(HCl) = 0.0300 mol; find n(H2) in mol");
  auto const found =
      probe_of(question, with_candidates("0.0200 mol", {candidate("excess-reagent-used", "limiting reagent", 0.9)}));
  REQUIRE(found);
  CHECK(found->step == "the limiting reagent");
  REQUIRE(found->replies.size() == 2);
  CHECK(found->replies[0].value == "HCl");
  CHECK(found->replies[1].value == "Mg");
}

TEST_CASE("probe: what is known already is not asked for", "[marker][probe]") {
  // The answer in another unit is the number that was given.
  auto const in_mmol = question_from(
      "problem p; reaction NaOH + HCl -> NaCl + H2O; given V(NaOH) = 25.00 mL; given c(NaOH) = 0.1000 mol/L; find n(HCl) in "
      "mmol");
  for (auto const& candidates :
       {std::vector<Candidate>{}, std::vector<Candidate>{candidate("mole-ratio-taken-as-one", "n(HCl)", 0.5)}}) {
    auto const found = probe_of(in_mmol, with_candidates("2.1 mmol", candidates));
    REQUIRE(found);
    CHECK(found->step != "n(HCl)");
  }
  // n(BaCl2) stands in a line; of what is left, n(AgCl) halves the working.
  auto const question = question_from(silver);
  auto with_line = with_candidates("7.777 g", {});
  with_line.lines = {{"n = 0.00600 mol", LineVerdict::right, "n(BaCl2)"}};
  auto const behind = probe_of(question, with_line);
  REQUIRE(behind);
  CHECK(behind->node == "n(AgCl)");
  with_line.lines = {{"n = 0.00600 mol", LineVerdict::not_placed, ""}};
  auto const not_placed = probe_of(question, with_line);
  REQUIRE(not_placed);
  CHECK(not_placed->node == "n(BaCl2)");
}
