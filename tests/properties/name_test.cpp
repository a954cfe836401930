// Names and formulas over drawn salts (RapidCheck; RC_PARAMS="seed=1" repeats a run).
#include <rapidcheck/catch.h>

#include <algorithm>
#include <catch2/catch.hpp>
#include <map>

#include "engine/nomenclature.h"
#include "engine/salt.h"

using namespace molewright;

namespace {

Formula read(std::string const& formula) { return value(parse_formula(formula)); }

/// Salts that no chemist would name so, because the atoms are those of another kind of compound.
bool makes_sense(NamedIon const& cation, NamedIon const& anion) {
  static std::vector<std::string> const group_1_and_2 = {"Li", "Na", "K", "Rb", "Cs", "Fr", "Mg", "Ca", "Sr", "Ba", "Ra"};
  bool const pairs = anion.formula == "O2^2-" || anion.formula == "O2^-" || anion.formula == "HO2^-" || anion.formula == "S2^2-";
  if (pairs) return std::find(group_1_and_2.begin(), group_1_and_2.end(), cation.metal) != group_1_and_2.end();
  if (cation.formula == "H^+" || cation.name.find("nitr") == 0) return false;  // acids; nitrosyl and nitryl compounds
  // Old and new formula have one name (zincates), two carbides have one name, and uranyl oxide is an oxide of uranium(VI).
  std::string const formula = salt_formula(cation, anion);
  if (formula == "Na2ZnO2" || formula == "Ca2C" || formula == "UO2O") return false;
  return cation.metal.empty() || cation.metal != anion.metal || anion.complex;
}

/// The name of a formula leads back to its atoms and to the same name.
bool comes_back(std::string const& formula) {
  auto const named = identify(formula);
  if (!ok(named)) return false;
  auto const back = identify(value(named).name);
  return ok(back) && read(value(back).formula).composition() == read(formula).composition() &&
         value(back).name == value(named).name;
}

}  // namespace

TEST_CASE("name: formula -> name -> formula", "[property][name]") {
  std::vector<NamedIon> cations, anions;
  for (NamedIon const& ion : named_ions()) (ion.charge > 0 ? cations : anions).push_back(ion);
  rc::prop("a salt of any cation and any anion, with water or without", [&] {
    auto const cation = *rc::gen::elementOf(cations);
    auto const anion = *rc::gen::elementOf(anions);
    RC_PRE(makes_sense(cation, anion));
    auto const water = *rc::gen::inRange(0, 13);
    std::string const dry = salt_formula(cation, anion);
    std::string const formula = dry + (water == 0 ? "" : "·" + (water == 1 ? std::string() : std::to_string(water)) + "H2O");
    RC_LOG() << formula << '\n';
    RC_ASSERT(comes_back(formula));
    RC_ASSERT(!unbalanced_charge(read(formula)).has_value());
  });
  rc::prop("one anion or one cation too many is said", [&] {
    auto const cation = *rc::gen::elementOf(std::vector<std::string>{"Li", "Na", "K", "NH4"});
    auto const anion = *rc::gen::elementOf(std::vector<std::string>{"NO3", "CO3", "SO4", "PO4", "ClO3"});
    auto const charge = std::map<std::string, int>{{"NO3", 1}, {"CO3", 2}, {"SO4", 2}, {"PO4", 3}, {"ClO3", 1}}.at(anion);
    auto const count = *rc::gen::inRange(1, 6);
    std::string const front = count == 1        ? cation
                              : cation == "NH4" ? "(NH4)" + std::to_string(count)
                                                : cation + std::to_string(count);
    RC_ASSERT(unbalanced_charge(read(front + anion)).has_value() == (count != charge));
  });
}

TEST_CASE("name: every cation of the table with every anion, there and back", "[property][name]") {
  int salts = 0;
  for (NamedIon const& cation : named_ions())
    for (NamedIon const& anion : named_ions()) {
      if (cation.charge < 0 || anion.charge > 0 || !makes_sense(cation, anion)) continue;
      ++salts;
      std::string const formula = salt_formula(cation, anion);
      if (comes_back(formula)) continue;
      CAPTURE(formula);
      FAIL_CHECK("does not come back");
    }
  CHECK(salts > 12000);
}
