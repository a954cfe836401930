// The second working can fail: whatever is wrong in the first is found and named.
#include "engine/edit.h"
#include "tests/engine/problem_text.h"

using namespace molewright;
using test::solved;

namespace {
char const* const exchange =
    "reaction BaCl2 + AgNO3 -> AgCl + Ba(NO3)2; given n(BaCl2) = 0.0100 mol; given m(AgNO3) = 1.69874 g; find m(AgCl); find "
    "n(BaCl2, left)";

/// The first working with one node defined otherwise, and what the check says of it.
std::string after(Worked worked, std::string const& id, Definition const& definition) {
  auto& working = worked.accepted.front();
  int const node = working.find_node(id);
  REQUIRE(node >= 0);
  working.nodes[static_cast<std::size_t>(node)].definition = definition;
  REQUIRE(evaluate(working, Ties::half_up, {}));
  worked.accepted.resize(1);
  return conservation_fault(worked, {});
}
Definition times(Definition definition, Rational const& factor) {
  definition.factor *= factor;
  return definition;
}
}  // namespace

TEST_CASE("conservation: a right working passes", "[engine][conservation]") {
  for (char const* text :
       {exchange, "reaction MnO4^- + Fe^2+ + H^+ -> Mn^2+ + Fe^3+ + H2O; given n(MnO4^-) = 1.0 mol; excess H^+; find m(Fe^2+)",
        "reaction N2 + H2 -> NH3; reaction NH3 + HCl -> NH4Cl; given n(N2) = 2.0 mol; given n(H2) = 3.0 mol; given n(HCl) = 5.0 "
        "mol; "
        "find m(NH4Cl)",
        "given m(NaCl) = 5.8 g; given V(NaCl) = 1 L; find c(NaCl)"})
    CHECK(conservation_fault(solved(text), {}).empty());
}

TEST_CASE("conservation: every step of a working that is changed is named", "[engine][conservation]") {
  auto const worked = solved(exchange);
  auto const& working = worked.accepted.front();
  struct Row {
    char const *id, *fault;
  };
  Row const table[] = {
      {"n(AgCl) from AgNO3", "n(AgCl): worked 0.02, by extents of reaction 0.01"},
      {"m(AgCl)", "m(AgCl): worked 2.8664, by extents of reaction 1.4332"},
      {"n(BaCl2, used) from AgNO3", "n(BaCl2, used): worked 0.01, by extents of reaction 0.005"},
      {"n(BaCl2, left)", "n(BaCl2, left): worked 0.01, by extents of reaction 0.005"},
      {"M(AgCl)", "m(AgCl): worked 2.8664, by extents of reaction 1.4332"},
      {"nu(AgCl)", "n(AgCl): worked 0.02, by extents of reaction 0.01"},
  };
  for (auto const& row : table) {
    CAPTURE(row.id);
    auto const* node = test::node_named(working, row.id);
    REQUIRE(node != nullptr);
    CHECK(after(worked, row.id, times(node->definition, Rational(2))) == row.fault);
  }
  auto const concentration = solved("given n(NaCl) = 0.10 mol; given V(NaCl) = 50.0 mL; find c(NaCl)");
  CHECK(after(concentration, "V(NaCl) in L",
              {Operation::product, {{concentration.accepted[0].find_node("V(NaCl)"), 1}}, Rational(1)}) ==
        "n(NaCl): worked 0.1, by extents of reaction 0.0001");
}

TEST_CASE("conservation: a wrong choice of the limiting reagent is found", "[engine][conservation]") {
  auto const worked = solved(exchange);
  auto const* choice = test::node_named(worked.accepted.front(), "limiting reagent");
  auto definition = choice->definition;
  definition.operation = Operation::constant;  // always the first
  definition.factor = Rational(0);
  definition.terms.clear();
  CHECK(after(worked, "limiting reagent", definition) == "n(BaCl2, used): worked 0.01, by extents of reaction 0.005");
}

TEST_CASE("conservation: coefficients that do not balance are found, though the working agrees with itself",
          "[engine][conservation]") {
  auto worked = solved(exchange);
  worked.problem.reactions[0].equation.right[0].coefficient = Rational(3);
  worked.accepted.resize(1);
  auto& working = worked.accepted.front();
  working.nodes[static_cast<std::size_t>(working.find_node("nu(AgCl)"))].definition.factor = Rational(3);
  REQUIRE(evaluate(working, Ties::half_up, {}));
  auto const fault = conservation_fault(worked, {});
  CHECK(fault == "mass is not conserved");
}

TEST_CASE("conservation: two accepted workings must agree", "[engine][conservation]") {
  auto worked = solved("given c1(KOH) = 2.00 mol/L; given V1 = 25.0 mL; given V2 = 250.0 mL; find c2");
  REQUIRE(worked.accepted.size() > 1);
  auto& other = worked.accepted.back();
  auto& node = other.nodes[static_cast<std::size_t>(other.finds[0].node)];
  node.definition.factor = Rational(2);
  // The nodes agree among themselves only if the amount follows; without it the definition is broken first.
  node.quantity = {"c", 2, "KOH", "wrong", ""};
  REQUIRE(evaluate(other, Ties::half_up, {}));
  CHECK(conservation_fault(worked, {}) == "two accepted workings of part 1 do not agree");
}
