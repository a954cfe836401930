// The graph of a working: figures along each step, evaluation exact and fast, edits.
#include "engine/working.h"

#include <algorithm>
#include <cmath>
#include <random>

#include "engine/edit.h"
#include "engine/estimator.h"
#include "tests/engine/problem_text.h"

using namespace molewright;
using test::solved;

namespace {
Node made(char const* id, Definition definition, std::optional<int> place = {}) {
  Node node;
  node.id = id;
  node.definition = std::move(definition);
  node.value.number = node.definition.factor;
  node.value.last_place = place;
  return node;
}
Definition constant(char const* number) { return {Operation::constant, {}, value(parse_decimal(number)).value}; }
}  // namespace

TEST_CASE("working: figures are carried along each step", "[engine][working]") {
  // Products keep the fewest figures, sums the coarsest place (NIST SP 811, B.7); exact values never limit.
  struct Row {
    Operation operation;
    char const *a, *b;
    int weight;
    std::optional<int> place_a, place_b, expected;
  };
  Row const table[] = {
      {Operation::product, "0.150", "40.0", 1, -3, -1, -2},  // 6.00
      {Operation::product, "0.15", "40.00", 1, -2, -2, -1},  // 6.0
      {Operation::product, "3", "0.6667", -1, {}, -4, -3},   // 4.500
      {Operation::product, "3", "4", 1, {}, {}, {}},         // counted
      {Operation::sum, "25.0", "100", 1, -1, 0, 0},          // 125
      {Operation::sum, "24.65", "1.2", -1, -2, -1, -1},      // 23.4|5
      {Operation::sum, "2.00", "2", 1, -2, {}, -2},          // 4.00
      {Operation::product, "9.99", "9.99", 1, -2, -2, -1},   // 99.8
  };
  for (auto const& row : table) {
    Working working;
    working.nodes.push_back(made("a", constant(row.a), row.place_a));
    working.nodes.push_back(made("b", constant(row.b), row.place_b));
    working.nodes.push_back(made("r", {row.operation, {{0, 1}, {1, row.weight}}, Rational(1)}));
    REQUIRE(evaluate(working, Ties::half_up, {}));
    CAPTURE(row.a, row.b);
    CHECK(working.nodes[2].value.last_place == row.expected);
  }
}

TEST_CASE("working: choose takes the smallest, the first of equals; pick follows it", "[engine][working]") {
  for (auto const& [first, second, index] :
       {std::tuple{"0.2", "0.1", 1}, std::tuple{"0.1", "0.2", 0}, std::tuple{"0.1", "0.1", 0}}) {
    Working working;
    working.nodes.push_back(made("a", constant(first), -1));
    working.nodes.push_back(made("b", constant(second), -1));
    working.nodes.push_back(made("choice", {Operation::choose, {{0, 1}, {1, 1}}, Rational(1)}));
    working.nodes.push_back(made("picked", {Operation::pick, {{2, 1}, {0, 1}, {1, 1}}, Rational(1)}));
    REQUIRE(evaluate(working, Ties::half_up, {}));
    CHECK(working.nodes[2].value.number == Rational(index));
    CHECK(working.nodes[3].value.number == working.nodes[static_cast<std::size_t>(index)].value.number);
    CHECK(Estimator(working).base(2) == index);
  }
}

TEST_CASE("working: a zero divisor is refused", "[engine][working]") {
  Working working;
  working.nodes.push_back(made("a", constant("1"), 0));
  working.nodes.push_back(made("b", constant("0"), 0));
  working.nodes.push_back(made("r", {Operation::product, {{0, 1}, {1, -1}}, Rational(1)}));
  CHECK(!evaluate(working, Ties::half_up, {}));
}

TEST_CASE("working: order of work puts a molar mass just before its first use and the answer last", "[engine][working]") {
  auto const worked =
      solved("reaction BaCl2 + AgNO3 -> AgCl + Ba(NO3)2; given n(BaCl2) = 0.010 mol; given m(AgNO3) = 1.50 g; find m(AgCl)");
  auto const& working = worked.accepted.front();
  auto const order = order_of_work(working, 0);
  CHECK(order.back() == working.finds[0].node);
  auto const at = [&](char const* id) { return std::find(order.begin(), order.end(), working.find_node(id)) - order.begin(); };
  CHECK(at("M(AgNO3)") < at("n(AgNO3)"));
  CHECK(at("n(AgNO3)") < at("M(AgCl)"));
  CHECK(at("M(AgCl)") < at("m(AgCl)"));
  CHECK(std::find(order.begin(), order.end(), working.find_node("n(AgCl) from BaCl2")) == order.end());  // branch not taken
}

namespace {
/// Problems of every structure, with numbers drawn from `random`.
std::string random_problem(std::mt19937& random) {
  char const* const lines[] = {
      "given m(NaCl) = @ g; given V(NaCl) = @ mL; find c(NaCl)",
      "given c1(KOH) = @ mol/L; given V1 = @ mL; given V(H2O, added) = @ mL; find c2; find n2",
      "given m(CuSO4·5H2O) = @ g; given V1(CuSO4) = @ mL; given V1(CuSO4, taken) = @ mL; given V2 = @ mL; find c2",
      ("reaction BaCl2 + AgNO3 -> AgCl + Ba(NO3)2; given c(BaCl2) = @ mol/L; given V(BaCl2) = @ mL; given m(AgNO3) = @ g; find "
       "limiting reagent; find m(AgCl); find n(AgNO3, used)"),
      "reaction Fe2O3 + CO -> Fe + CO2; given m(Fe2O3) = @ kg; excess CO; given yield(Fe) = @ %; find m(Fe, actual)",
      "given V(HCl) = mean of @ | @ | @ mL; given c(HCl) = @ mmol/L; find N(HCl)",
      "given c1(NaCl) = @ mol/L; given V1 = @ mL; given c2 = @ mol/L; given V2 = @ mL; mix 1 + 2 -> 3; find c3 in mmol/L",
  };
  std::string text = lines[random() % std::size(lines)];
  for (std::size_t at; (at = text.find('@')) != std::string::npos;) {
    auto const digits = 100 + random() % 900;
    static char const* const scale[] = {"e-4", "e-3", "e-2", "e-1", ""};
    text.replace(at, 1, std::to_string(digits) + scale[random() % std::size(scale)]);
  }
  return text;
}

/// The same definition with its factor, or a weight, or a term changed.
Definition changed(Definition definition, std::mt19937& random) {
  if (!definition.terms.empty() && definition.operation != Operation::choose && definition.operation != Operation::pick &&
      random() % 2) {
    auto& weight = definition.terms[random() % definition.terms.size()].weight;
    weight = -weight;
    return definition;
  }
  definition.factor *= Rational(static_cast<std::int64_t>(1 + random() % 50), 7);
  return definition;
}

bool close(double fast, Rational const& exact) {
  double const e = exact.to_double();
  return std::abs(fast - e) <= 1e-12 * std::max(std::abs(e), 1e-300);
}
}  // namespace

TEST_CASE("working: the fast estimate equals exact evaluation, unchanged and with edits", "[engine][working]") {
  std::mt19937 random(20);  // NOLINT: a fixed seed, the same 200 workings each time
  int edits = 0;
  for (int i = 0; i < 200; ++i) {
    auto const text = random_problem(random);
    CAPTURE(text);
    auto const worked = solved(text);
    for (auto const& working : worked.accepted) {
      Estimator estimator(working);
      for (std::size_t n = 0; n < working.nodes.size(); ++n)
        CHECK(close(estimator.base(static_cast<int>(n)), working.nodes[n].value.number));
    }
    auto const& working = worked.accepted.front();
    Estimator estimator(working);
    for (int k = 0; k < 5; ++k) {
      int const node = static_cast<int>(random() % working.nodes.size());
      auto const definition = changed(working.nodes[static_cast<std::size_t>(node)].definition, random);
      int const target = working.finds.back().node;
      auto const exact = run(worked, working, {NodeEdit{node, definition}}, {});
      if (!std::holds_alternative<Working>(exact)) continue;
      double const fast = estimator.with({{node, &definition}}, target);
      auto const& number = test::answer_node(std::get<Working>(exact), working.finds.size() - 1).value.number;
      CAPTURE(working.nodes[static_cast<std::size_t>(node)].id, number.text());
      // A difference of two sums loses figures in floating point; nothing else does.
      bool const cancels = std::abs(fast) < 1e-6 * std::abs(estimator.base(target));
      CHECK((cancels || close(fast, number)));
      ++edits;
    }
  }
  CHECK(edits > 800);
}

TEST_CASE("working: a loop made by a change is no number", "[engine][working]") {
  auto const worked = solved("given m(NaCl) = 5.85 g; find n(NaCl)");
  auto const& working = worked.accepted.front();
  int const m = working.find_node("m(NaCl)"), n = working.find_node("n(NaCl)");
  Definition const loop{Operation::product, {{n, 1}}, Rational(1)};
  CHECK(std::isnan(Estimator(working).with({{m, &loop}}, n)));
  CHECK(std::holds_alternative<PlacedFault>(run(worked, working, {NodeEdit{m, loop}}, {})));
}
