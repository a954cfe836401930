#pragma once
// Chemical equations as written, and their balancing.
#include <cstdint>
#include <string>
#include <string_view>
#include <vector>

#include "engine/fault.h"
#include "engine/formula.h"
#include "engine/rational.h"

namespace molewright {

struct Species {
  Rational coefficient{1};  ///< as written; 1 where none is
  Formula formula;
  std::size_t offset = 0;  ///< byte in the equation's text
};

struct Equation {
  std::vector<Species> left, right;
  bool reversible = false;  ///< <=> or ⇌
};

/// Terms joined by +, sides by -> → = <=> ⇌, coefficients `2 H2O`, `2H2O`, `1/2 O2`, `½O2`.
/// `one_side` allows a missing arrow and right side ("BaCl2 + AgNO3"). Fault ids as parse_formula's and "no-arrow", "two-arrows",
/// "missing-term", "no-reactants", "no-products", "bad-coefficient". A + is a charge when it stands directly after a formula and
/// before another +, an arrow, a state or the end (Na+ + Cl-), or after ^.
/// `unknown` as in parse_formula.
Result<Equation> parse_equation(std::string_view text, bool one_side = false, std::string_view unknown = {});

/// "2H2(g) + O2(g) -> 2H2O(l)"; coefficient 1 left out, fractions as "1/2 O2". Parses back to the same equation.
std::string plain(Equation const& equation);
/// "2H₂(g) + O₂(g) → 2H₂O(l)".
std::string pretty(Equation const& equation);

/// Rows: elements in order of appearance, then charge where any species has one; columns: species, products negative. Row-major.
struct CompositionMatrix {
  std::size_t rows = 0, columns = 0;
  std::vector<std::int64_t> entries;
};
CompositionMatrix composition_matrix(Equation const& equation);

enum class Balance {
  unique,
  no_solution,  ///< no solution with every coefficient above 0
  not_unique,   ///< more than one independent solution with every coefficient above 0
  too_large     ///< solved, but the smallest whole numbers do not fit 63 bits
};
struct BalanceResult {
  Balance outcome = Balance::no_solution;
  std::vector<std::int64_t> coefficients;  ///< smallest whole numbers, left then right; for `unique`
  std::vector<std::vector<std::int64_t>>
      independent;  ///< for `not_unique`: a basis of the null space, every coefficient of it above 0
  std::string why;  ///< for people: "S stands on one side only", "the charges cannot be made equal", "2 independent reactions"
};
/// Exact null space over the integers (fraction-free elimination; falls back to big integers on overflow).
/// `unique`: one independent solution and all its coefficients have one sign. A one-dimensional solution with a zero or mixed
/// signs is no_solution.
BalanceResult balance(CompositionMatrix const& matrix);
BalanceResult balance(Equation const& equation);
/// The equation with balanced coefficients; fault id "no-solution", "not-unique" or "coefficients-too-large" with `why`.
Result<Equation> balanced(Equation const& equation);
/// True where the coefficients as written already conserve every element and charge.
bool is_balanced(Equation const& equation);

}  // namespace molewright
