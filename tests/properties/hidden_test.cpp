// What is hidden and solved for comes back: for sets of relations, all quantities are made to agree, each is left out in turn,
// and the solver finds just the number that was left out (RapidCheck; RC_PARAMS="seed=1" repeats a run).
#include <rapidcheck/catch.h>

#include <catch2/catch.hpp>
#include <set>

#include "tests/engine/problem_text.h"

using namespace molewright;

namespace {

/// A quantity, its unit, and the whole numbers times a power of ten that it is drawn from.
struct Drawn {
  char const *quantity, *unit;
  std::int64_t low, high;
  int place;
};

struct Set {
  char const* name;
  char const* lines;  ///< what else the problem says
  std::vector<Drawn> given;
  char const *asked, *unit;
  bool exact = true;                   ///< no logarithm, power of ten or root on the way; else 12 digits count
  std::set<std::string> one_way = {};  ///< on both sides of a fraction, or what was in excess: nothing leads back to it
};

std::vector<Set> const& sets() {
  static std::vector<Set> const table{
      {"amount of a mass", "", {{"m(CuSO4)", "g", 1, 99999, -3}}, "n(CuSO4)", "mmol"},
      {"entities of a mass", "", {{"m(H2O)", "g", 1, 99999, -3}}, "N(H2O)", ""},
      {"atoms of a compound", "", {{"n(NH4NO3)", "mmol", 1, 9999, -2}}, "n(N)", "mol"},
      {"solution", "", {{"m(NaCl)", "g", 1, 9999, -2}, {"V(NaCl)", "mL", 10, 9999, -1}}, "c(NaCl)", "mol/L"},
      {"mass concentration", "", {{"c(KNO3)", "mmol/L", 1, 9999, -1}}, "gamma(KNO3)", "mg/L"},
      {"density", "", {{"m(C2H5OH)", "g", 1, 9999, -2}, {"V(C2H5OH)", "mL", 1, 9999, -1}}, "rho(C2H5OH)", "g/mL"},
      {"gas law",
       "",
       {{"p(O2)", "kPa", 500, 3000, -1}, {"V(O2)", "mL", 10, 9999, -1}, {"T", "K", 2500, 4000, -1}},
       "n(O2)",
       "mol"},
      {"gas law, mass",
       "",
       {{"p(CO2)", "atm", 50, 300, -2}, {"V(CO2)", "L", 1, 999, -2}, {"T", "K", 2500, 4000, -1}},
       "m(CO2)",
       "g"},
      {"molar volume", "", {{"m(N2)", "g", 1, 999, -2}, {"Vm", "L/mol", 220, 250, -1}}, "V(N2)", "L"},
      {"density of a gas", "", {{"p", "kPa", 500, 3000, -1}, {"T", "K", 2500, 4000, -1}}, "rho(CO2)", "g/L"},
      {"partial pressure", "", {{"x(O2)", "%", 1, 99, 0}, {"p", "kPa", 500, 3000, -1}}, "p(O2)", "kPa"},
      {"mass fraction", "", {{"m(NaOH)", "g", 1, 99, -1}, {"m(solution)", "g", 100, 999, -1}}, "w(NaOH)", "%"},
      {"volume fraction", "", {{"V(C2H5OH)", "mL", 1, 99, 0}, {"V(solution)", "mL", 100, 999, 0}}, "phi(C2H5OH)", "%"},
      {"bottle", "", {{"w(HCl)", "%", 10, 380, -1}, {"rho(solution)", "g/mL", 1000, 1200, -3}}, "c(HCl)", "mol/L"},
      {"molality", "", {{"m(NaCl)", "g", 1, 999, -2}, {"m(H2O)", "g", 100, 9999, -1}}, "b(NaCl)", "mol/kg"},
      {"amount fraction",
       "",
       {{"n(CH3OH)", "mol", 1, 999, -2}, {"n(H2O)", "mol", 1, 999, -2}},
       "x(CH3OH)",
       "%",
       true,
       {"n(CH3OH)"}},
      {"mass fraction in a solvent",
       "",
       {{"m(KCl)", "g", 1, 99, -1}, {"m(H2O)", "g", 100, 999, -1}},
       "w(KCl)",
       "%",
       true,
       {"m(KCl)"}},
      {"dilution",
       "",
       {{"c1(KOH)", "mol/L", 100, 999, -2}, {"V1(KOH)", "mL", 10, 99, 0}, {"V2(KOH)", "mL", 100, 999, 0}},
       "c2(KOH)",
       "mol/L"},
      {"dilution of a mass concentration",
       "",
       {{"gamma1(KCl)", "g/L", 10, 99, 0}, {"V1(KCl)", "mL", 10, 99, 0}, {"V2(KCl)", "mL", 100, 999, 0}},
       "gamma2(KCl)",
       "g/L"},
      {"evaporation",
       "evaporate 1 -> 2",
       {{"c1(NaCl)", "mol/L", 10, 999, -3}, {"V1(NaCl)", "mL", 100, 999, 0}, {"V2(NaCl)", "mL", 10, 99, 0}},
       "c2(NaCl)",
       "mol/L"},
      {"mixing",
       "mix 1 + 2 -> 3",
       {{"c1(NaCl)", "mol/L", 1, 99, -2},
        {"V1(NaCl)", "mL", 10, 99, 0},
        {"c2(NaCl)", "mol/L", 100, 199, -2},
        {"V2(NaCl)", "mL", 10, 99, 0}},
       "c3(NaCl)",
       "mol/L"},
      {"mixing of mass fractions",
       "mix 1 + 2 -> 3",
       {{"w1(NaCl)", "%", 1, 9, 0},
        {"m1(solution)", "g", 10, 99, 0},
        {"w2(NaCl)", "%", 10, 25, 0},
        {"m2(solution)", "g", 10, 99, 0}},
       "w3(NaCl)",
       "%"},
      {"ions of a salt", "", {{"m(CaCl2)", "g", 1, 999, -2}, {"V(CaCl2)", "mL", 100, 999, 0}}, "c(Cl^-)", "mol/L"},
      {"element in an oxide", "", {{"m(Fe2O3)", "g", 1, 9999, -2}}, "m(Fe in Fe2O3)", "g"},
      {"reaction, the other in excess",
       "reaction BaCl2 + AgNO3 -> AgCl + Ba(NO3)2\nexcess AgNO3",
       {{"V(BaCl2)", "mL", 10, 999, -1}, {"c(BaCl2)", "mol/L", 1, 999, -3}},
       "m(AgCl)",
       "g"},
      {"reaction, several steps",
       "reaction 4FeS2 + 11O2 -> 2Fe2O3 + 8SO2\nreaction 2SO2 + O2 -> 2SO3\nreaction SO3 + H2O -> H2SO4",
       {{"m(FeS2)", "g", 1, 9999, -1}},
       "m(H2SO4)",
       "g"},
      {"gas from a reaction",
       "reaction Zn + HCl -> ZnCl2 + H2\nexcess HCl",
       {{"m(Zn)", "g", 1, 999, -2}, {"T", "K", 2500, 4000, -1}, {"p", "kPa", 500, 3000, -1}},
       "V(H2)",
       "L"},
      {"gas over water",
       "reaction Mg + HCl -> MgCl2 + H2\nexcess HCl",
       {{"m(Mg)", "g", 1, 999, -3}, {"T", "K", 2800, 3100, -1}, {"p", "kPa", 900, 1100, -1}, {"p(H2O)", "kPa", 10, 40, -1}},
       "V(H2)",
       "mL"},
      {"volumes of gases", "reaction N2 + H2 -> NH3", {{"V(N2)", "L", 1, 999, -1}}, "V(NH3)", "L"},
      {"titration",
       "reaction H2SO4 + NaOH -> Na2SO4 + H2O",
       {{"V(H2SO4)", "mL", 100, 500, -1}, {"c(NaOH)", "mol/L", 1, 999, -3}, {"V(NaOH)", "mL", 100, 500, -1}},
       "c(H2SO4)",
       "mol/L"},
      {"titration of a sample",
       "reaction Na2CO3 + HCl -> NaCl + H2O + CO2",
       {{"m(sample)", "g", 500, 999, -2}, {"V(HCl)", "mL", 100, 500, -1}, {"c(HCl)", "mol/L", 1, 99, -3}},
       "w(Na2CO3)",
       "%"},
      {"purity", "reaction CaCO3 -> CaO + CO2", {{"m(sample)", "g", 1, 999, -1}, {"w(CaCO3)", "%", 10, 99, 0}}, "m(CaO)", "g"},
      {"hydrate dissolved", "", {{"m(CuSO4·5H2O)", "g", 1, 999, -2}, {"V(CuSO4)", "mL", 100, 999, 0}}, "c(CuSO4)", "mol/L"},
      {"yield",
       "reaction CuO + H2SO4 -> CuSO4 + H2O\nexcess H2SO4",
       {{"m(CuO)", "g", 100, 999, -2}, {"m(CuSO4, actual)", "g", 1, 99, -2}},
       "yield(CuSO4)",
       "%"},
      {"heat", "", {{"m(solution)", "g", 10, 999, 0}, {"cp", "J/(g K)", 10, 50, -1}, {"dT", "K", 1, 99, -1}}, "q", "kJ"},
      {"calorimeter",
       "",
       {{"C", "kJ/K", 10, 999, -2}, {"dT", "K", 1, 99, -1}, {"n(C6H12O6)", "mol", 1, 99, -3}},
       "dH(C6H12O6)",
       "kJ/mol"},
      {"gas in two states",
       "",
       {{"p1", "kPa", 500, 3000, -1},
        {"V1(N2)", "L", 1, 99, -1},
        {"T1", "K", 250, 400, 0},
        {"p2", "kPa", 500, 3000, -1},
        {"V2(N2)", "L", 1, 99, -1}},
       "T2",
       "K"},
      {"Boyle", "", {{"p1", "kPa", 500, 3000, -1}, {"V1(N2)", "L", 1, 99, -1}, {"V2(N2)", "mL", 10, 9999, 0}}, "p2", "kPa"},
      {"Charles", "", {{"V1(N2)", "L", 1, 99, -1}, {"T1", "K", 250, 400, 0}, {"V2(N2)", "L", 1, 99, -1}}, "T2", "K"},
      {"pressure and temperature",
       "",
       {{"p1", "bar", 10, 99, -1}, {"T1", "K", 250, 400, 0}, {"T2", "K", 250, 400, 0}},
       "p2",
       "bar"},
      {"aliquot",
       "reaction NaOH + HCl -> NaCl + H2O",
       {{"V(NaOH, aliquot)", "mL", 100, 500, -1},
        {"c(HCl)", "mol/L", 1, 999, -3},
        {"V(HCl)", "mL", 100, 500, -1},
        {"V(NaOH)", "mL", 100, 500, 0}},
       "m(NaOH)",
       "g"},
      {"serial dilution",
       "dilute 1 -> 2\ndilute 2 -> 3",
       {{"c1(KMnO4)", "mol/L", 10, 99, -3},
        {"V1(KMnO4, taken)", "mL", 10, 99, 0},
        {"V2(KMnO4)", "mL", 100, 500, 0},
        {"V2(KMnO4, taken)", "mL", 10, 99, 0},
        {"V3(KMnO4)", "mL", 100, 500, 0}},
       "c3(KMnO4)",
       "mmol/L"},
      {"yields of two steps",
       "reaction CaCO3 -> CaO + CO2\nreaction CaO + H2O -> Ca(OH)2\nexcess H2O",
       {{"m(CaCO3)", "g", 1, 999, -1}, {"yield1", "%", 10, 99, 0}, {"yield2", "%", 10, 99, 0}},
       "m(Ca(OH)2, actual)",
       "g"},
      {"back titration",
       "reaction CaCO3 + HCl -> CaCl2 + H2O + CO2\nreaction HCl + NaOH -> NaCl + H2O",
       {{"m(sample)", "g", 300, 999, -2},
        {"V(HCl)", "mL", 400, 500, -1},
        {"c(HCl)", "mol/L", 80, 120, -2},
        {"c(NaOH)", "mol/L", 10, 50, -2},
        {"V(NaOH)", "mL", 100, 500, -1}},
       "w(CaCO3)",
       "%",
       true,
       {"V(HCl)", "c(HCl)"}},
      {"from the bottle",
       "",
       {{"w(HCl)", "%", 200, 380, -1},
        {"rho(solution)", "g/mL", 1100, 1200, -3},
        {"c2(HCl)", "mol/L", 1, 99, -2},
        {"V2(HCl)", "mL", 100, 999, 0}},
       "V1(HCl)",
       "mL"},
      {"weighed in a vessel",
       "",
       {{"m(crucible)", "g", 1500, 2500, -2}, {"m(crucible + NaCl)", "g", 2600, 3500, -2}},
       "m(NaCl)",
       "g"},
      {"heat of dissolving",
       "",
       {{"m(NH4NO3)", "g", 1, 99, -1}, {"m(H2O)", "g", 100, 999, -1}, {"cp", "J/(g K)", 10, 50, -1}, {"dT", "K", 1, 99, -1}},
       "dH(NH4NO3)",
       "kJ/mol"},
      {"enthalpy of a reaction",
       "reaction 2Mg + O2 -> 2MgO",
       {{"m(Mg)", "g", 1, 999, -3}, {"q", "kJ", 1, 999, -1}},
       "dH",
       "kJ/mol"},
      {"Avogadro", "", {{"V1", "L", 1, 99, -1}, {"n1", "mol", 1, 99, -2}, {"n2", "mol", 1, 99, -2}}, "V2", "L"},
      {"dilution factor",
       "",
       {{"V1(KCl)", "mL", 1, 99, 0}, {"V2(KCl)", "mL", 100, 999, 0}, {"c1(KCl)", "mol/L", 1, 99, -2}},
       "c2(KCl)",
       "mmol/L"},
      {"ion with a common ion", "", {{"Ksp(AgCl)", "", 10, 99, -11}, {"c(NaCl)", "mol/L", 10, 99, -3}}, "c(Ag^+)", "mol/L"},
      {"solubility product", "", {{"s(PbI2)", "mol/L", 10, 999, -6}}, "Ksp(PbI2)", "", false},
      {"solubility and mass", "", {{"gamma(CaF2)", "g/L", 10, 99, -3}}, "Ksp(CaF2)", "", false},
      {"pH of an acid", "", {{"m(HCl)", "g", 10, 999, -3}, {"V(HCl)", "L", 10, 99, -1}}, "pH", "", false},
      {"pH of a base", "", {{"c(Ba(OH)2)", "mol/L", 10, 999, -4}}, "pH", "", false},
  };
  return table;
}

/// The set's problem with one given left out (none: -1), a number for what it asks put in its place.
Problem problem_of(Set const& set, std::vector<Rational> const& numbers, int hidden, Rational const& answer) {
  std::string text = "problem hidden\n" + std::string(set.lines) + '\n';
  auto const line = [&](char const* verb, char const* quantity, char const* joint, char const* unit) {
    text += std::string(verb) + ' ' + quantity + joint + unit + '\n';
  };
  auto const unit_of_find = [](char const* unit) { return *unit == '\0' ? "" : " in "; };
  std::vector<Rational> values;
  for (std::size_t i = 0; i < set.given.size(); ++i) {
    if (static_cast<int>(i) == hidden) continue;
    line("given", set.given[i].quantity, " = 1.0 ", set.given[i].unit);
    values.push_back(numbers[i]);
  }
  if (hidden < 0) {
    line("find", set.asked, unit_of_find(set.unit), set.unit);
  } else {
    auto const& left_out = set.given[static_cast<std::size_t>(hidden)];
    line("given", set.asked, " = 1.0 ", set.unit);
    values.push_back(answer);
    line("find", left_out.quantity, unit_of_find(left_out.unit), left_out.unit);
  }
  auto problem = test::read_problem(text);
  for (std::size_t i = 0; i < values.size(); ++i) {
    problem.givens[i].numbers.front().value = values[i];
    problem.givens[i].numbers.front().last_place = -9;
  }
  return problem;
}

constexpr int digits = 12;
bool same(Rational const& a, Rational const& b, bool exact) {
  return exact ? a == b : (a - b).absolute() <= b.absolute() * Rational::power_of_ten(-digits);
}

/// Empty where every working gives the number in the unit; else what went wrong.
std::string unlike(Problem const& problem, Rational const& number, char const* in, bool exact) {
  auto const result = solve(problem, {});
  if (auto const* fault = std::get_if<PlacedFault>(&result)) return sentence(fault->fault);
  for (auto const& working : std::get<Worked>(result).accepted) {
    auto const& value = test::answer_node(working).value;
    auto const ours = *in == '\0' ? value.number : convert(value.number, value.unit, unit(in));
    if (!same(ours, number, exact)) return "found " + unrounded(ours, 2 * digits) + ", hidden " + unrounded(number, 2 * digits);
  }
  return {};
}
}  // namespace

TEST_CASE("solver: each given of each set of relations comes back from the others and the answer", "[property][solver]") {
  for (auto const& set : sets()) {
    rc::prop(std::string("what is left out is found again: ") + set.name, [&set] {
      std::vector<Rational> numbers;
      for (auto const& drawn : set.given)
        numbers.push_back(Rational(*rc::gen::inRange(drawn.low, drawn.high + 1)) * Rational::power_of_ten(drawn.place));
      auto const forward = solve(problem_of(set, numbers, -1, {}), {});
      if (auto const* fault = std::get_if<PlacedFault>(&forward)) RC_FAIL(sentence(fault->fault));
      auto const& value = test::answer_node(std::get<Worked>(forward).accepted.front()).value;
      auto const answer = *set.unit == '\0' ? value.number : convert(value.number, value.unit, unit(set.unit));
      for (std::size_t i = 0; i < set.given.size(); ++i) {
        if (set.one_way.count(set.given[i].quantity) > 0) continue;
        auto const found =
            unlike(problem_of(set, numbers, static_cast<int>(i), answer), numbers[i], set.given[i].unit, set.exact);
        if (!found.empty()) RC_FAIL(std::string(set.given[i].quantity) + ": " + found);
      }
    });
  }
}
