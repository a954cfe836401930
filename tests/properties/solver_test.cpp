// Properties of the solver over many drawn problems (RapidCheck; RC_PARAMS="seed=1" repeats a run).
#include <rapidcheck/catch.h>

#include <catch2/catch.hpp>
#include <map>

#include "tests/engine/problem_text.h"

using namespace molewright;
using test::solved;

TEST_CASE("solver: what is hidden and solved for comes back", "[property][solver]") {
  // For each relation: all its quantities are made to agree, one is left out, and the solver finds exactly that one.
  rc::prop("a quantity left out is found again, exactly", [] {
    auto const n = Rational(*rc::gen::inRange<std::int64_t>(1, 1000000), 10000);
    auto const v = Rational(*rc::gen::inRange<std::int64_t>(1, 100000), 1000);
    auto const molar = Rational(58440, 1000);  // NaCl
    std::map<std::string, Rational> const all{{"n", n}, {"V", v}, {"c", n / v}, {"m", n * molar}, {"gamma", n * molar / v}};
    // Pairs that settle the rest.
    using Pair = std::pair<std::string, std::string>;
    auto const known =
        *rc::gen::elementOf(std::vector<Pair>{{"n", "V"}, {"n", "c"}, {"m", "V"}, {"m", "c"}, {"c", "V"}, {"gamma", "V"}});
    auto const hidden = *rc::gen::elementOf(std::vector<std::string>{"n", "V", "c", "m", "gamma"});
    Problem problem;
    for (auto const& symbol : {known.first, known.second}) {
      Given given;
      given.quantity = {Symbol(symbol), 0, "NaCl", "", ""};
      Decimal number;
      number.value = all.at(symbol);
      number.last_place = -9;
      number.text = "1";
      given.numbers = {number};
      given.unit = working_unit(Symbol(symbol));
      problem.givens.push_back(given);
    }
    Find find;
    find.quantity = {Symbol(hidden), 0, "NaCl", "", ""};
    find.unit = working_unit(Symbol(hidden));
    problem.finds.push_back(find);
    auto const result = solve(problem, {});
    RC_ASSERT(std::holds_alternative<Worked>(result));
    for (auto const& working : std::get<Worked>(result).accepted)
      RC_ASSERT(test::answer_node(working).value.number == all.at(hidden));
  });
  rc::prop("an answer asked in another unit is the same answer", [] {
    auto const mass = *rc::gen::inRange<std::int64_t>(1, 1000000);
    auto const one = *rc::gen::elementOf(std::vector<std::string>{"g", "kg", "mg", "ug"});
    auto const other = *rc::gen::elementOf(std::vector<std::string>{"mol", "mmol", "umol"});
    auto const there = solved("given m(NaCl) = " + std::to_string(mass) + ".0 " + one + "; find n(NaCl) in " + other);
    auto const& value = test::answer_node(there.accepted.front()).value;
    RC_ASSERT(value.unit == unit(other));
    RC_ASSERT(convert(value.number, value.unit, unit("mol")) * Rational(58440, 1000) ==
              convert(Rational(mass), unit(one), unit("g")));
  });
}
