#pragma once
// What a relation of chemistry is. All of them stand in one table, engine/relation_table.h: adding a relation is adding an entry.
#include <algorithm>
#include <cstddef>
#include <span>
#include <string>
#include <string_view>

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

/// A quantity's symbol, its exponent, and the unit it is usually worked in within this relation (empty: the symbol's own, that of
/// `working_unit`).
struct RelationTerm {
  Symbol symbol;
  int exponent = 1;
  std::string_view unit = {};
  Of of = Of::substance;
};

/// For which substances a relation holds, or what else it is of.
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
  bottle,            ///< its mass fraction and the density of its solution are spoken of, and the solution is diluted
  in_solvent,        ///< its molality
  partial_pressure,  ///< its own pressure in a mixture of gases
  several,           ///< between several subjects: put together where a problem calls for it, in the network's own files
  graph              ///< what the builder of a working puts in itself: a change of unit, a molar mass, a choice
};

/// How the terms of a relation hang together.
enum class Shape {
  product,  ///< the product of all of them, in their units, is a number
  sum,      ///< one is the sum of the others, or their difference
  other     ///< a logarithm, a choice, a fact of a table, a statement
};

struct Relation {
  static constexpr std::size_t most_terms = 8;
  std::string_view form;        ///< as printed and as nodes carry it: "n = m/M"
  std::string_view name;        ///< "amount from mass"
  std::string_view conditions;  ///< when it holds, a clause for people: "the gas is ideal"; empty: by definition
  Applies applies;
  Shape shape;
  RelationTerm with[most_terms];  ///< NOLINT(modernize-avoid-c-arrays): one pair of braces an entry
  std::string_view source;
  int cost = 10;  ///< of a step: 10 for one that a chemist takes first; more where another way is more usual

  constexpr std::span<RelationTerm const> terms() const {
    return {with,
            static_cast<std::size_t>(
                std::find_if(with, with + most_terms, [](RelationTerm const& term) { return term.symbol.empty(); }) - with)};
  }
  /// Empty where it is the symbol's own.
  constexpr std::string_view unit_of(Symbol symbol) const {
    for (auto const& term : terms())
      if (term.symbol == symbol) return term.unit;
    return {};
  }
};

/// All of them, those of one substance first.
std::span<Relation const> all_relations();
/// Relations among quantities of one substance at one stage.
std::span<Relation const> relations_of_a_substance();
/// The entry of a form as nodes and steps carry it; nullptr for none.
Relation const* relation_of(std::string_view form);
/// "q in J, m in g, cp in J/(g K), dT in K": what its terms are usually worked in, each symbol once; empty where it has none.
std::string usual_units(Relation const& relation);

/// A constant of nature or of a convention that a relation reads. `number` is exact.
struct Constant {
  Symbol symbol;
  std::string_view unit;
  Rational number;
  std::string_view source;
};
/// N_A, R, T0 (the kelvin temperature of 0 °C), Kw and pKw at 25 °C. nullptr for any other symbol.
Constant const* constant_of(Symbol symbol);

}  // namespace molewright
