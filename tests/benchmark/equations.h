#pragma once
// The equations that balancing is measured on: three of a textbook's sizes, and made-up ones of any number of species.
#include <cstddef>
#include <string>
#include <vector>

#include "engine/equation.h"

namespace molewright::benchmarks {

/// Six or seven species: a redox equation of a textbook's usual size, one with large coefficients, and a half-reaction's rows of
/// charge as well.
inline constexpr char const* textbook_equations[] = {"KMnO4 + HCl -> KCl + MnCl2 + H2O + Cl2",
                                                     "K2Cr2O7 + FeSO4 + H2SO4 -> Cr2(SO4)3 + Fe2(SO4)3 + KHSO4 + H2O",
                                                     "Cr2O7^2- + Fe^2+ + H^+ -> Cr^3+ + Fe^3+ + H2O"};

/// Numbers of species for the tables of growth.
std::vector<std::size_t> const& growth_sizes();

/// The text of an equation of so many species with one solution, the same on every machine. It is built the other way round: what
/// the reactants bring, each with a coefficient of 1 to 3, is dealt out to the products, and the last product takes what is left.
/// REQUIRES: species is one of growth_sizes().
std::string const& grown_equation(std::size_t species);

/// "rows columns entries... : coefficients...", for compare.py.
std::string in_a_line(CompositionMatrix const& matrix, BalanceResult const& result);

}  // namespace molewright::benchmarks
