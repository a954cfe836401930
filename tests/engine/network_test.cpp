// The quantities of a problem and the relations among them.
#include "engine/network.h"

#include "engine/relation.h"
#include "tests/engine/problem_text.h"

using namespace molewright;

namespace {
Quantity q(std::string const& text) { return value(parse_quantity(text)); }
}  // namespace

TEST_CASE("network: substances left out are filled in where only one fits", "[engine][network]") {
  Network const network(test::read_problem("given c1(KOH) = 2.0 mol/L; given V1 = 25 mL; given V2 = 0.5 L; find c2"));
  for (auto const& given : network.problem().givens) CHECK(given.quantity.substance == "KOH");
  CHECK(network.problem().finds[0].quantity == q("c2(KOH)"));
  REQUIRE(network.problem().handlings.size() == 1);  // one dilution, understood
  CHECK(network.problem().handlings[0].to == 2);
  Network const two(test::read_problem("given c(KOH) = 2.0 mol/L; given m(NaCl) = 1 g; given V = 1 L; find n(KOH)"));
  CHECK(two.problem().givens[2].quantity.substance.empty());
  Network const yield(
      test::read_problem("reaction CaCO3 -> CaO + CO2; given m(CaCO3) = 1 g; given m(CaO, actual) = 0.5 g; find yield"));
  CHECK(yield.problem().finds[0].quantity == q("yield(CaO)"));
}

TEST_CASE("network: one quantity, one name", "[engine][network]") {
  Network const network(test::read_problem("given m(KOH) = 2.0 g; given V1(KOH) = 25 mL; given V2(KOH) = 50 mL; find c1(KOH)"));
  CHECK(network.canonical(q("m(KOH)")) == q("m1(KOH)"));
  CHECK(network.canonical(q("m(KOH, theoretical)")) == q("m1(KOH)"));
  CHECK(network.canonical(Quantity{"M", 2, "KOH", "", ""}) == q("M(KOH)"));
  CHECK(network.find(network.canonical(q("m(KOH)"))) >= 0);
  CHECK(network.find(q("m(NaCl)")) == -1);
}

TEST_CASE("network: the cheapest derivation, and what stands in its way", "[engine][network]") {
  Network network(test::read_problem(
      "reaction BaCl2 + AgNO3 -> AgCl + Ba(NO3)2; given n(BaCl2) = 0.1 mol; given m(AgNO3) = 1.0 g; find m(AgCl)"));
  Network balanced = network;  // coefficients do not matter here
  CHECK(!network.derive().known(network.find(q("m(AgCl)"))));
  network.add_reactions();
  auto const derivation = network.derive();
  CHECK(derivation.known(network.find(q("m(AgCl)"))));
  CHECK(network.limiting()[0] == std::vector<std::string>{"BaCl2", "AgNO3"});
  REQUIRE(network.limiting_choice() != nullptr);
  CHECK(network.limiting_choice()->kind == Instance::Kind::pick);
  CHECK(balanced.limiting_choice() == nullptr);
  int const via = derivation.via[static_cast<std::size_t>(network.find(q("n(AgNO3)")))];
  REQUIRE(via >= 0);
  CHECK(network.instances()[static_cast<std::size_t>(via)].relation == "n = m/M");
  CHECK(!network.derive({via}).known(network.find(q("n(AgNO3)"))));
  CHECK(network.derive({}, {network.find(q("n(AgCl)"))}).cost[static_cast<std::size_t>(network.find(q("n(AgCl)")))] == 0);
  CHECK(network.reaction_of("AgCl") == 0);
  CHECK(network.reaction_of("KCl") == std::string::npos);
}

TEST_CASE("network: supposing a quantity shows what would be enough", "[engine][network]") {
  Network network(test::read_problem("given m(NaCl) = 1.0 g; find c(NaCl)"));
  CHECK(!network.derive().known(network.find(q("c(NaCl)"))));
  network.suppose(network.find(q("V(NaCl)")));
  CHECK(network.derive().known(network.find(q("c(NaCl)"))));
}

TEST_CASE("network: what is no water of crystallisation leaves no salt, and nothing is its own source", "[engine][network]") {
  for (char const* substance : {"CuSO4·5H", "H2·O", "Na2CO3·10Hg2O"}) {
    CAPTURE(substance);
    Network network(
        test::read_problem("given V = 100.0 mL; given c(CuSO4) = 0.150 mol/L; find m(" + std::string(substance) + ") in g"));
    CHECK(!network.derive().known(network.find(q("n(" + std::string(substance) + ")"))));
  }
}
