#pragma once
// An equation that lacks a substance on one side, completed where there is one way to do it.
#include <optional>
#include <string>
#include <vector>

#include "engine/equation.h"

namespace molewright {

struct Completion {
  Equation equation;               ///< balanced
  std::vector<std::string> added;  ///< plain formulas
  bool to_products = true;
};

/// What is missing from an equation that cannot be balanced: the further products of what happens when its reactants are mixed,
/// or the one by-product (H2O, H2, O2, CO2 ...) on one side with which it balances, where no other does. Nothing where a formula
/// of it cannot be (MgCl), where the tables know that something else happens, and where there is more than one way.
std::optional<Completion> completed(Equation const& written, std::vector<std::string> const& excess);

/// "H2 was added to the products, so that it balances".
std::string note_on(Completion const& completion);

}  // namespace molewright
