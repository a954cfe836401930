// The relations: each is coherent in the units it is worked in, and a problem for each comes out as worked apart.
#include "engine/relation.h"

#include <catch2/catch.hpp>
#include <fstream>
#include <map>
#include <set>
#include <sstream>

#include "engine/second_solve.h"
#include "engine/solver.h"

using namespace molewright;

namespace {

ProblemFile problems_of(char const* name) {
  std::ifstream file(std::string(MOLEWRIGHT_TEST_DATA) + name, std::ios::binary);
  REQUIRE(file.good());
  std::ostringstream text;
  text << file.rdbuf();
  return parse_problems(text.str());
}
ProblemFile relation_problems() { return problems_of("/relations.problems"); }

/// The find of a stated answer, -1 for none.
int find_of(Problem const& problem, StatedAnswer const& stated) {
  for (std::size_t f = 0; f < problem.finds.size(); ++f)
    if (problem.finds[f].quantity == stated.quantity) return static_cast<int>(f);
  return -1;
}
}  // namespace

TEST_CASE("relation: the units of each hang together", "[engine][relation]") {
  for (auto const& relation : all_relations()) {
    CAPTURE(std::string(relation.form));
    auto const unit_of = [](RelationTerm const& term) {
      auto const* const constant = constant_of(term.symbol);
      return constant ? unit(constant->unit) : term.unit.empty() ? working_unit(term.symbol) : unit(term.unit);
    };
    if (relation.shape == Shape::sum)
      for (auto const& term : relation.terms()) CHECK(unit_of(term).dimension == unit_of(relation.terms().front()).dimension);
    if (relation.shape != Shape::product) continue;
    Rational factor(1);
    Dimension dimension;
    for (auto const& term : relation.terms()) {
      Unit const u = unit_of(term);
      factor *= u.factor.power(term.exponent);
      for (std::size_t i = 0; i < dimension.exponents.size(); ++i)
        dimension.exponents[i] = static_cast<std::int8_t>(dimension.exponents[i] + u.dimension.exponents[i] * term.exponent);
    }
    CHECK(factor == (relation.form == "yield = actual/theoretical" ? Rational(1, 100) : Rational(1)));  // it is a percentage
    CHECK(dimension == Dimension{});
  }
}

TEST_CASE("relation: an entry is found by its form, with its units in words", "[engine][relation]") {
  struct Row {
    char const *form, *name, *conditions, *units;
  };
  Row const table[] = {
      {"n = cV", "amount from concentration and volume", "", "n in mol, c in mol/L, V in L"},
      {"rho = m/V", "density of a liquid, a solid or a solution", "", "rho in g/mL, m in g, V in mL"},
      {"pV = nRT", "gas law", "the gas is ideal", "p in kPa, V in L, n in mol, R in J/(mol K), T in K"},
      {"q = m cp dT", "heat from a change of temperature", "no heat is lost to the surroundings",
       "q in J, m in g, cp in J/(g K), dT in K"},
      {"mole ratio", "amounts in the ratio of the coefficients", "", "n in mol"},
      {"given", "as the question states it", "", ""},
  };
  for (auto const& row : table) {
    CAPTURE(row.form);
    auto const* const found = relation_of(row.form);
    REQUIRE(found != nullptr);
    CHECK(found->name == row.name);
    CHECK(found->conditions == row.conditions);
    CHECK(usual_units(*found) == row.units);
  }
  CHECK(relation_of("n = mM") == nullptr);
  CHECK(relation_of("") == nullptr);
}

TEST_CASE("relation: every node of every working has an entry", "[engine][relation]") {
  std::set<std::string> without, met;
  for (char const* file : {"/relations.problems", "/sound.problems"})
    for (auto const& problem : problems_of(file).problems) {
      auto const result = solve(problem, {});
      if (!std::holds_alternative<Worked>(result)) continue;
      for (auto const& working : std::get<Worked>(result).accepted)
        for (auto const& node : working.nodes) (relation_of(node.relation) ? met : without).insert(node.relation);
    }
  CHECK(without == std::set<std::string>{});
  CHECK(met.size() > 50);
}

TEST_CASE("relation: a problem for each comes out as worked apart", "[engine][relation][solver]") {
  auto const file = relation_problems();
  for (auto const& found : file.faults) UNSCOPED_INFO(show(found, "relations.problems"));
  REQUIRE(file.faults.empty());
  std::map<std::string, std::string> const formulas{{"hydrate-from-masses", "MgSO4·7H2O"},
                                                    {"hydrate-from-fractions", "CuSO4·5H2O"},
                                                    {"hydrate-from-its-mass", "CuSO4·5H2O"},
                                                    {"hydrate-from-the-fraction-of-water", "MgSO4·7H2O"},
                                                    {"gas-density-and-molar-volume", "C2H4"},
                                                    {"empirical-formula", "KMnO4"},
                                                    {"molecular-formula", "C6H12O6"},
                                                    {"combustion-analysis", "CH2O"},
                                                    {"limiting-reagent", "N2"},
                                                    {"washing-soda", "Na2CO3·10H2O"}};
  int answers = 0;
  for (auto const& problem : file.problems) {
    CAPTURE(problem.id);
    auto const result = solve(problem, {});
    if (auto const* found = std::get_if<PlacedFault>(&result)) FAIL_CHECK(sentence(found->fault));
    if (!std::holds_alternative<Worked>(result)) continue;
    auto const& worked = std::get<Worked>(result);
    for (auto const& stated : problem.stated) {
      CAPTURE(plain(stated.quantity));
      int const f = find_of(problem, stated);
      REQUIRE(f >= 0);
      for (auto const& working : worked.accepted) {
        auto const& value = working.nodes[static_cast<std::size_t>(working.finds[static_cast<std::size_t>(f)].node)].value;
        auto const ours = convert(value.number, value.unit, stated.unit);
        CAPTURE(unrounded(ours));
        // Within a unit of the last place of ten figures: the answers were worked in floating point.
        CHECK((ours - stated.number.value).absolute() <= Rational::power_of_ten(stated.number.last_place));
      }
      ++answers;
    }
    auto const formula = formulas.find(problem.id);
    if (formula == formulas.end()) continue;
    bool shown = false;
    for (auto const& answer : worked.accepted.front().finds) shown = shown || answer.text == formula->second;
    CHECK(shown);
    ++answers;
  }
  CHECK(answers >= 90);
}

TEST_CASE("second solve: a wrong number anywhere in a working is seen", "[engine][solver]") {
  int tampered = 0;
  for (auto const& problem : relation_problems().problems) {
    auto const result = solve(problem, {});
    if (!std::holds_alternative<Worked>(result)) continue;
    auto const& worked = std::get<Worked>(result);
    CAPTURE(problem.id);
    REQUIRE(worked.second);
    CHECK(worked.second->disagreement(worked.accepted.front()).empty());
    for (std::size_t f = 0; f < problem.finds.size(); ++f) {
      auto working = worked.accepted.front();
      if (working.finds[f].figures == 0) continue;
      // The node worked out last, before its conversion to the unit asked for.
      auto index = static_cast<std::size_t>(working.finds[f].node);
      if (working.nodes[index].relation == relations::convert)
        index = static_cast<std::size_t>(working.nodes[index].definition.terms[0].node);
      if (working.nodes[index].value.number.sign() == 0 || working.nodes[index].relation == relations::given) continue;
      working.nodes[index].value.number *= Rational(1000001, 1000000);
      CHECK(!worked.second->disagreement(working).empty());
      ++tampered;
    }
  }
  CHECK(tampered > 60);
}

TEST_CASE("solver: what a mixture, an acidity or a fraction cannot be", "[engine][solver]") {
  struct Row {
    char const *problem, *id, *said;
  };
  Row const table[] = {
      {"given c1(HCl) = 0.100 mol/L\ngiven V1(HCl) = 20.0 mL\ngiven c2(NaOH) = 0.0500 mol/L\ngiven V2(NaOH) = 30.0 mL\n"
       "mix 1 + 2 -> 3\nfind c3(H^+)",
       "reacts-when-mixed", "HCl and NaOH react when they are mixed"},
      {"given c(AgNO3) = 0.100 mol/L\ngiven V(AgNO3) = 20.0 mL\ngiven c(NaCl) = 0.0500 mol/L\ngiven V(NaCl) = 30.0 mL\n"
       "find c(Ag^+)",
       "reacts-when-mixed", "AgNO3 and NaCl react when they are mixed"},
      {"reaction I2 + S2O3^2- -> I^- + S4O6^2-\ngiven V(I2) = 100.0 mL\ngiven V(aliquot) = 25.00 mL\n"
       "given V(S2O3^2-) = 24.60 mL\ngiven c(S2O3^2-) = 0.1000 mol/L\nfind n(I2)",
       "idle-portion", "it is not clear what V(aliquot) was taken of"},
      {"given c1(AgNO3) = 0.100 mol/L\ngiven V1(AgNO3) = 20.0 mL\ngiven c2(NaCl) = 0.0500 mol/L\ngiven V2(NaCl) = 30.0 mL\n"
       "mix 1 + 2 -> 3\nfind c3(Ag^+)",
       "reacts-when-mixed", "AgNO3 and NaCl react when they are mixed"},
      {"given c(HCl) = 1.0e-8 mol/L\nfind pH", "too-dilute", "c(H^+) is so small that the ions of the water itself count"},
      {"given c(CH3COOH) = 0.100 mol/L\nfind pH", "missing-data", "there is too little to find pH from"},
      {"given m(sample) = 1.00 g\ngiven m(Fe) = 1.60 g\nfind w(Fe) in %", "more-than-all", "w(Fe) is 160 %: more than the whole"},
  };
  for (auto const& row : table) {
    CAPTURE(row.problem);
    auto const file = parse_problems(std::string("problem p\n") + row.problem + "\n");
    REQUIRE(file.problems.size() == 1);
    auto const result = solve(file.problems.front(), {});
    auto const* const found = std::get_if<PlacedFault>(&result);
    REQUIRE(found != nullptr);
    CHECK(found->fault.id == row.id);
    CHECK(found->fault.what == row.said);
  }
}
