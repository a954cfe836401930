#pragma once
// The relations that hold for one substance or one solution, each an entry of one table. Adding a relation is adding an entry.
#include <string_view>
#include <vector>

namespace molewright {

/// A quantity's symbol and its exponent: the product of all of them, in working units, is 1.
struct RelationTerm {
  std::string_view symbol;
  int exponent;
};

struct Relation {
  std::string_view form;  ///< as printed and as nodes carry it: "n = m/M"
  std::string_view name;  ///< "amount from mass"
  std::vector<RelationTerm> terms;
  int cost;  ///< 10 for a step that a chemist takes first; more where another way is more usual
  std::string_view source;
};

/// Relations among quantities of one substance at one stage (M and N_A have no stage). Working units: mol, g, L, mol/L, g/mol,
/// g/L.
std::vector<Relation> const& relations_of_a_substance();

/// Relations between two solutions of one substance, before and after a dilution, for the symbols `c` and `gamma`.
/// Both volumes are taken in one unit, both concentrations in one unit.
inline constexpr char const* dilution_form = "c1V1 = c2V2";
inline constexpr char const* mass_dilution_form = "gamma1V1 = gamma2V2";
inline constexpr char const* added_volume_form = "V2 = V1 + V(added)";
inline constexpr char const* mixed_volume_form = "V = V1 + V2";
inline constexpr char const* mixed_amount_form = "n = n1 + n2";
inline constexpr char const* hydrate_form = "n(hydrate) = n(salt)";
inline constexpr char const* yield_form = "yield = actual/theoretical";
inline constexpr char const* left_form = "n(left) = n - n(used)";
inline constexpr char const* mass_ratio_form = "mass ratio";

}  // namespace molewright
