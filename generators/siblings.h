#pragma once
// Substances that can stand in for those of a teacher's own problem: the same stoichiometry, other names.
#include <string>
#include <vector>

#include "engine/fault.h"
#include "engine/problem.h"

namespace molewright {

/// What moves in a problem, and what can stand for it. Substances that move, move together: an equation stays an equation.
struct Siblings {
  std::vector<std::string> substances;         ///< plain formulas of the problem
  std::vector<std::vector<std::string>> rows;  ///< a plain formula for each; the first row is the problem's own
};

/// The rows that the tables allow. Ions of one group of data/sibling_ions.tsv change places, all over the problem at once, where
/// every new substance is as soluble as the old one (or as insoluble), is handed out at school, and is bought with or without
/// water as the old one where it is weighed; where every reaction is one that `mix` decides and finds again, of the same kind and
/// with the same coefficients. What the text names by itself stays: an ion, an element, a common name, "a" before a vowel; so do
/// substances whose own facts are given (a density, a solubility, an element's share). Fault "cannot-move" where nothing is left
/// to move, or no row but the problem's own; it names the words, and `offset` is their place in the problem's text.
Result<Siblings> siblings_of(Problem const& problem);

/// The problem with {s1}, {s2} ... in place of the substances that move, in its text, too.
Problem with_variables(Problem const& problem, std::vector<std::string> const& moving);

}  // namespace molewright
