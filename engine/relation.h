#pragma once
// The relations of chemistry that the solver chains, each an entry of one table. Adding a relation is adding an entry.
#include <string_view>
#include <vector>

#include "engine/rational.h"
#include "engine/symbol.h"

namespace molewright {

/// Whose quantity a term of a relation is.
enum class Of {
  substance,   ///< of the substance itself, at its stage
  solution,    ///< the volume of the solution that it is dissolved in
  whole,       ///< of the solution, sample or mixture that it is part of
  unnumbered,  ///< of the substance itself, whatever the number of its solution
  solvent,     ///< of what it is dissolved in
  nothing      ///< a constant (R, N_A) or a condition (T, p) of the whole problem
};

/// A quantity's symbol, its exponent, and the unit it is usually worked in within this relation (empty: the symbol's own).
struct RelationTerm {
  Symbol symbol;
  int exponent;
  Of of = Of::substance;
  std::string_view unit = {};
};

/// For which substances a relation holds.
enum class Applies {
  counted,    ///< a number of entities is spoken of
  molar,      ///< it has a molar mass: a formula, or an unknown X
  dissolved,  ///< the volume spoken of is that of a solution
  dissolved_molar,
  pure,         ///< a density of its own is spoken of: V(X) is the volume of X itself
  gas,          ///< p, T or Vm stand in the problem, and V(X) or p(X) is that of the gas
  gas_density,  ///< a gas whose density is spoken of
  molar_volume,
  mass_part,    ///< its mass fraction in a solution or sample is spoken of
  amount_part,  ///< its amount fraction
  volume_part,
  bottle,           ///< its mass fraction and the density of its solution are spoken of, and the solution is diluted
  in_solvent,       ///< its molality
  partial_pressure  ///< its own pressure in a mixture of gases
};

struct Relation {
  std::string_view form;        ///< as printed and as nodes carry it: "n = m/M"
  std::string_view name;        ///< "amount from mass"
  std::string_view conditions;  ///< when it holds, for people; empty: by definition
  Applies applies;
  std::vector<RelationTerm> terms;  ///< the product of all of them, in their units, is 1
  int cost = 10;                    ///< 10 for a step that a chemist takes first; more where another way is more usual
  std::string_view source = {};
};

/// Relations among quantities of one substance at one stage.
std::vector<Relation> const& relations_of_a_substance();

/// A constant of nature or of a convention that a relation reads. `number` is exact.
struct Constant {
  Symbol symbol;
  std::string_view unit;
  Rational number;
  std::string_view source;
};
/// N_A, R, T0 (the kelvin temperature of 0 °C), Kw and pKw at 25 °C. nullptr for any other symbol.
Constant const* constant_of(Symbol symbol);

// Relations between several subjects, put together where a problem calls for them: networks of solutions, of mixtures, of ions
// and of reactions. Both volumes of a dilution are taken in one unit, and so are both concentrations.
inline constexpr char const* dilution_form = "c1V1 = c2V2";
inline constexpr char const* mass_dilution_form = "gamma1V1 = gamma2V2";
inline constexpr char const* factor_of_volumes_form = "dilution factor = V2/V1";
inline constexpr char const* factor_of_concentrations_form = "dilution factor = c1/c2";
inline constexpr char const* evaporated_volume_form = "V1 = V2 + V(evaporated)";
// Two solutions of one solute, mixed to a third that lies between them.
inline constexpr char const* difference_of_solutions_form = "difference of two solutions";
inline constexpr char const* mixing_form = "V1(c1 - c3) = V2(c3 - c2)";
inline constexpr char const* added_volume_form = "V2 = V1 + V(added)";
inline constexpr char const* mixed_volume_form = "V = V1 + V2";
inline constexpr char const* mixed_amount_form = "n = n1 + n2";
inline constexpr char const* mixed_mass_form = "m = m1 + m2";
inline constexpr char const* conserved_mass_form = "m(reactants) = m(products)";
inline constexpr char const* weighed_in_form = "m(together) = m(vessel) + m(contents)";
inline constexpr char const* whole_mass_form = "m(whole) = sum of m";
inline constexpr char const* whole_fraction_form = "w(whole) = sum of w";
inline constexpr char const* whole_amount_form = "n(total) = sum of n";
inline constexpr char const* hydrate_form = "n(hydrate) = n(salt)";
inline constexpr char const* unknown_mass_form = "M = sum of A";  ///< of a formula with an unknown in it
inline constexpr char const* acid_of_salt_form = "n(acid) = n(anion)";
inline constexpr char const* made_up_form = "n(solution) = n(left)";
inline constexpr char const* yield_form = "yield = actual/theoretical";
inline constexpr char const* overall_yield_form = "overall yield = product of yields";
inline constexpr char const* total_form = "n = sum over the reactions";
inline constexpr char const* left_form = "n(left) = n - n(used)";
inline constexpr char const* mass_ratio_form = "mass ratio";
inline constexpr char const* gas_ratio_form = "gas volume ratio";
// One portion of an ideal gas in two states, 1 and 2; what stays as it is drops out (Boyle, Charles, Gay-Lussac).
inline constexpr char const* combined_gas_form = "p1V1/T1 = p2V2/T2";
inline constexpr char const* boyle_form = "p1V1 = p2V2";
inline constexpr char const* charles_form = "V1/T1 = V2/T2";
inline constexpr char const* gay_lussac_form = "p1/T1 = p2/T2";
inline constexpr char const* avogadro_form = "V1/n1 = V2/n2";
inline constexpr char const* changed_gas_form = "p1V1/(n1T1) = p2V2/(n2T2)";
inline constexpr char const* partial_pressures_form = "p = sum of p(X)";
inline constexpr char const* over_water_form = "p(gas) = p - p(H2O)";
inline constexpr char const* part_form = "n(part) = nu n(whole)";
inline constexpr char const* ion_form = "c(ion) = nu c(salt)";
inline constexpr char const* composition_form = "w = nu M(part)/M(whole)";
inline constexpr char const* logarithm_form = "pX = -lg c(X)";
inline constexpr char const* water_log_form = "pH + pOH = pKw";
inline constexpr char const* water_form = "c(H^+) c(OH^-) = Kw";
inline constexpr char const* neutral_form = "pH of a neutral solution";
inline constexpr char const* product_form = "Ksp = product of c^nu";
inline constexpr char const* dissolving_form = "c(ion) = nu s";
inline constexpr char const* solubility_form = "Ksp = product of (nu s)^nu";
inline constexpr char const* heat_form = "q = m cp dT";
inline constexpr char const* temperature_form = "dT = T2 - T1";
inline constexpr char const* calorimeter_form = "q = C dT";
inline constexpr char const* enthalpy_form = "dH = -q/n";
inline constexpr char const* own_enthalpy_form = "dH = q/n";
inline constexpr char const* own_reaction_enthalpy_form = "dH = q nu/n";
inline constexpr char const* reaction_enthalpy_form = "dH = -q nu/n";  ///< for one mole of the reaction as it is written

}  // namespace molewright
