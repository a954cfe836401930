#pragma once
// From reactants and products to the three equations, all of them balanced, and to what is seen.
#include <optional>
#include <string>
#include <vector>

#include "engine/mixing.h"
#include "engine/mixing_reagent.h"

namespace molewright::mixing {

/// A reaction that a table or a rule has decided on, not yet balanced.
struct Draft {
  std::vector<Formula> left, right;
  std::string kind, conditions, because;
  std::vector<std::string> observations, warnings;
  bool borderline = false;
};

/// Balanced, with ionic and net ionic equations, spectators and observations; nothing where it cannot be balanced in one way or
/// where nothing is left of the net equation.
std::optional<Mixing> worked_out(Draft const& draft);
/// The same from a net ionic equation with its coefficients (redox): the reagents supply its left side, and what else they bring
/// stands by. Nothing where a species of the left side has no reagent and is not H^+, OH^- or water.
std::optional<Mixing> dressed(Draft const& draft, Equation const& net, std::vector<Reagent> const& reagents);

Mixing nothing(std::string because, bool borderline = false);  ///< a table or rule says so
Mixing undecided(std::string because);                         ///< the tables are silent
/// True where atoms and charge agree and the coefficients are positive.
bool holds(Equation const& equation);

}  // namespace molewright::mixing
