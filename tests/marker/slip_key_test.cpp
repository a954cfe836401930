#include "marker/slip_key.h"

#include <catch2/catch.hpp>
#include <set>

#include "worked.h"

using namespace molewright;

TEST_CASE("slip key: lettered in order, told apart, never like the right answer", "[marker][slip_key]") {
  for (auto const* const problem : {"problem p; given V(K2SO4) = 35.0 mL; given c(K2SO4) = 0.125 mol/L; find n(K2SO4) in mol",
                                    "problem p; reaction BaCl2 + AgNO3 -> AgCl + Ba(NO3)2; given V(BaCl2) = 36.0 mL; given "
                                    "c(BaCl2) = 0.145 mol/L; given V(AgNO3) = 52.0 mL; "
                                    "given c(AgNO3) = 0.174 mol/L; find limiting reagent; find m(AgCl) in g",
                                    "problem p; dilute 1 -> 2; dilute 2 -> 3; given c1(KNO3) = 1.20 mol/L; given V1(KNO3) = "
                                    "10.00 mL; given V2(KNO3) = 100.0 mL; "
                                    "given V2(KNO3, taken) = 5.00 mL; given V3(KNO3) = 250.0 mL; find c3(KNO3) in mol/L"}) {
    CAPTURE(problem);
    auto const worked = worked_from(problem);
    auto const keys = slip_key(worked, slip_table(worked, Conventions{}), Conventions{});
    auto const& working = worked.accepted.front();
    REQUIRE(keys.size() == working.finds.size());
    for (std::size_t f = 0; f < keys.size(); ++f) {
      auto const& find = working.finds[f];
      if (find.figures == 0) {
        CHECK(keys[f].empty());
        continue;
      }
      CHECK(keys[f].size() >= 3);
      CHECK(keys[f].size() <= most_letters);
      std::set<std::string> answers{find.text};
      char letter = 'A';
      for (auto const& entry : keys[f]) {
        CAPTURE(entry.answer);
        CHECK(entry.letter == letter++);
        CHECK(answers.insert(entry.answer).second);
        CHECK_FALSE(entry.ids.empty());
        auto const read = parse_decimal(entry.answer);
        REQUIRE(ok(read));
        CHECK(value(read).figures == find.figures);
      }
    }
  }
}

TEST_CASE("slip key: an answer below zero has one, too", "[marker][slip_key]") {
  // By hand: 100.0 g x 4.18 J/(g K) x 5.00 K = 2090 J, over 0.0500 mol -41.8 kJ/mol; J left in the place of kJ is 1000
  // times that.
  auto const worked = worked_from(
      "problem p; given m(solution) = 100.0 g; given cp = 4.18 J/(g K); given dT = 5.00 K; given n(MgSO4) = 0.0500 mol; find "
      "dH(MgSO4) in kJ/mol");
  auto const keys = slip_key(worked, slip_table(worked, Conventions{}), Conventions{});
  REQUIRE(keys.size() == 1);
  CHECK(worked.accepted.front().finds.front().text == "-41.8");
  std::set<std::string> answers;
  for (auto const& entry : keys.front()) {
    CHECK(entry.value < 0);
    answers.insert(entry.answer);
  }
  CAPTURE(answers);
  CHECK(answers.count("-4.18e4") == 1);
}

TEST_CASE("slip key: numbers that look alike", "[marker][slip_key]") {
  CHECK(look_alike(1.234, 1.236, 3));
  CHECK(look_alike(1.234, 1.244, 3));
  CHECK_FALSE(look_alike(1.234, 1.245, 3));
  CHECK_FALSE(look_alike(9.99, 10.11, 3));
  CHECK_FALSE(look_alike(0.00296, 2.96, 3));
  CHECK(look_alike(-1.234, -1.244, 3));
  CHECK_FALSE(look_alike(-1.234, 1.234, 3));
}
