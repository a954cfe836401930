#pragma once
// The second working of every problem, by another way: all relations that the working used, taken together as one system of
// equations and solved numerically at once, where the working chains them one by one, exactly.
#include <string>
#include <utility>
#include <vector>

#include "engine/network.h"
#include "engine/working.h"

namespace molewright {

class SecondSolve {
 public:
  /// `chain` holds, for each variable that was worked out, the instance that it was worked out by.
  SecondSolve(Network const& network, std::vector<std::pair<int, int>> const& chain, Working const& working);

  /// Solves the system for the constants and givens of `working` (of the structure that it was made for) by Newton's method in
  /// the logarithms of the unknowns, and compares. Empty where all agree to 12 digits, else what differs: "m(AgCl): worked 1.72,
  /// by all relations at once 1.73". What is zero has no logarithm and is checked by the sums that it stands in.
  std::string disagreement(Working const& working) const;

 private:
  struct Unknown {
    int node;     ///< of the working
    bool linear;  ///< a logarithm itself (pH): not taken in logarithms
  };
  struct Part {
    int node;     ///< -1 for an unknown
    int unknown;  ///< -1 for a constant
    int weight;
    int coefficient = -1;  ///< node of the stoichiometric coefficient, for a choice
  };
  struct Equation {
    Instance::Kind kind;
    std::vector<Part> parts;
    long double log_factor = 0;  ///< of the factor in base units, for a product; the number for a constant
  };
  std::vector<Unknown> unknowns_;
  std::vector<Equation> equations_;
};

}  // namespace molewright
