#include "marker/diagnosis.h"

#include <catch2/catch.hpp>

#include "worked.h"

using namespace molewright;

namespace {

WrittenNumber number(char const* text) { return written_number(value(parse_decimal(text))); }

Due three_figures(char const* right) {
  Answer answer;
  answer.figures = 3;
  return due_of(answer, value(parse_decimal(right)).value);
}

SlipAnswer slip(char const* id, char const* node, double v) { return SlipAnswer{find_slip(id), node, v, 0, false}; }
}  // namespace

TEST_CASE("diagnosis: one slip that fits is named, and only at three figures or more", "[marker][diagnosis]") {
  std::vector<SlipAnswer> const answers{slip("volume-left-in-mL", "V", 4.375), slip("amount-as-c-over-V", "n", 3.5714)};
  auto const due = three_figures("0.004375");
  struct Row {
    char const* written;
    Diagnosis::Speech speech;
    char const* first;
  };
  for (auto const& row : std::vector<Row>{{"4.38", Diagnosis::Speech::slip, "volume-left-in-mL"},
                                          {"4.375", Diagnosis::Speech::slip, "volume-left-in-mL"},
                                          {"3.57", Diagnosis::Speech::slip, "amount-as-c-over-V"},
                                          {"4.4", Diagnosis::Speech::step, "volume-left-in-mL"},
                                          {"4", Diagnosis::Speech::silent, ""},
                                          {"4.50", Diagnosis::Speech::silent, ""},
                                          {"77.7", Diagnosis::Speech::silent, ""}}) {
    CAPTURE(row.written);
    auto const found = diagnose(number(row.written), answers, due, 0);
    CHECK(found.speech == row.speech);
    CHECK(found.rivals.empty() == (std::string_view(row.first).empty()));
    if (!found.rivals.empty()) {
      CHECK(found.rivals.front().answer->slip->id == row.first);
      if (row.speech == Diagnosis::Speech::step) CHECK(found.rivals.front().probability < name_above);
    }
  }
}

TEST_CASE("diagnosis: rivals of one step name the step, of two steps both", "[marker][diagnosis]") {
  auto const due = three_figures("4.16");
  auto const one = diagnose(number("1.50"),
                            std::vector{slip("excess-reagent-used", "limiting reagent", 1.5),
                                        slip("limiting-by-smaller-amount", "limiting reagent", 1.5)},
                            due, 0);
  CHECK(one.speech == Diagnosis::Speech::step);
  CHECK(one.node == "limiting reagent");
  auto const two = diagnose(
      number("1.50"), std::vector{slip("mole-ratio-taken-as-one", "n(B)", 1.5), slip("subscript-ignored", "M(B)", 1.5)}, due, 0);
  CHECK(two.rivals.size() == 2);
  CHECK((two.node == "n(B)" || two.node == "M(B)"));
  CHECK(two.speech != Diagnosis::Speech::slip);
}

TEST_CASE("diagnosis: probabilities are shares", "[marker][diagnosis]") {
  auto const due = three_figures("4.16");
  std::vector<SlipAnswer> const answers{slip("mole-ratio-taken-as-one", "n(B)", 2.08),
                                        slip("diatomic-taken-as-atom", "M(B)", 2.08), slip("power-of-ten", "m", 41.6),
                                        slip("digits-transposed", "m", 2.081)};
  auto const found = diagnose(number("2.08"), answers, due, 0);
  double sum = found.none;
  for (auto const& rival : found.rivals) sum += rival.probability;
  CHECK(sum <= 1.0 + 1e-12);
  CHECK(sum > 0.95);
  // Computed in the reference on evidence: equal fit leaves the priors, here equal.
  CHECK(found.rivals[0].probability == Approx(found.rivals[1].probability));
}

TEST_CASE("diagnosis: generic slips keep silent below three figures", "[marker][diagnosis]") {
  auto const due = three_figures("4.16");
  CHECK(diagnose(number("42"), std::vector{slip("power-of-ten", "m", 41.6)}, due, 0).speech == Diagnosis::Speech::silent);
  CHECK(diagnose(number("41.6"), std::vector{slip("power-of-ten", "m", 41.6)}, due, 0).speech == Diagnosis::Speech::slip);
}

TEST_CASE("diagnosis: numbers of no meaning are met with silence", "[marker][diagnosis]") {
  // A question with about as many slips as they come; 999 numbers of three figures spread evenly over six decades by ratio (no
  // random engine needed).
  auto const question = question_from(
      "problem p; reaction BaCl2 + AgNO3 -> AgCl + Ba(NO3)2; given V(BaCl2) = 36.0 mL; given c(BaCl2) = 0.145 mol/L; given "
      "V(AgNO3) = 52.0 mL; "
      "given c(AgNO3) = 0.174 mol/L; find m(AgCl) in g");
  auto const table = slip_table(question.worked, Conventions{});
  auto const due = three_figures("1.30");
  int spoken = 0, named = 0, all = 0;
  double v = 1.2968e-3;
  for (int i = 0; i < 999; ++i, v *= 1.01393) {
    auto const text =
        print_to_figures(Rational(static_cast<std::int64_t>(v * 1e9)) / Rational(1000000000), 3, Rounding::half_up).plain;
    auto const found = diagnose(number(text.c_str()), table.by_find.front(), due, 0.001);
    ++all;
    if (found.speech != Diagnosis::Speech::silent) ++spoken;
    if (found.speech == Diagnosis::Speech::slip) ++named;
  }
  CAPTURE(spoken, named, all);
  CHECK(spoken * 10 <= all);
  CHECK(named * 20 <= all);
}

TEST_CASE("diagnosis: what was slipped on elsewhere makes a slip likelier, and marks nothing", "[marker][diagnosis]") {
  // Computed in the reference on evidence: two slips that fit alike are told apart by what else the student did.
  auto const due = three_figures("4.16");
  std::vector<SlipAnswer> const answers{slip("mole-ratio-taken-as-one", "n(B)", 2.08), slip("subscript-ignored", "M(B)", 2.08)};
  CHECK(diagnose(number("2.08"), answers, due, 0).speech != Diagnosis::Speech::slip);
  SlipRecord record;
  record.student["subscript-ignored"] = 2;
  auto const found = diagnose(number("2.08"), answers, due, 0, &record);
  CHECK(found.speech == Diagnosis::Speech::slip);
  CHECK(found.rivals.front().answer->slip->id == "subscript-ignored");
  SlipRecord of_class;
  of_class.papers = 10;
  of_class.classmates["subscript-ignored"] = 10;
  CHECK(diagnose(number("2.08"), answers, due, 0, &of_class).rivals.front().answer->slip->id == "subscript-ignored");
}

TEST_CASE("diagnosis: near the right answer arithmetic gone astray is the likelier", "[marker][diagnosis]") {
  auto const near = three_figures("4.16"), far = three_figures("0.0416");
  auto const share = [&](Due const& due) {
    return diagnose(number("4.23"), std::vector{slip("other-given-copied", "V", 4.23)}, due, 0).none;
  };
  CHECK(share(near) > 2 * share(far));
}
