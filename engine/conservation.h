#pragma once
// The second working of every problem. It shares nothing with the solver's relations: amounts before and after by extents of
// reaction, atoms, charge and mass counted from the formulas, and each quantity of a substance held against its definition.
#include <optional>
#include <string>
#include <vector>

#include "engine/solver.h"

namespace molewright {

/// What is to be held against what in the workings of one problem. It is settled once for their structure, and looked at for
/// every set of numbers.
class Conservation {
 public:
  struct Species {
    std::string substance;
    bool reactant = false, in_excess = false;
    bool rest_asked = false;  ///< what is left of it, or was used
    Rational coefficient;
    int amount = -1;       ///< node of the portion that takes part; -1 for none
    bool derived = false;  ///< by the coefficients of this reaction, rather than from data of its own
    bool goes_on = false;  ///< a later reaction uses what this one leaves
    int used = -1, left = -1;
  };
  struct InReaction {
    std::vector<Species> species;
    std::string unbalanced;  ///< "atoms of Ag are not conserved"; empty for an equation that balances
  };
  /// m = nM or n = cV, where one of these was worked out from another.
  struct Definition {
    int amount = -1;
    int mass = -1;
    Rational molar_mass;
    int found_molar_mass = -1;  ///< of an unknown: the node that was worked out from both
    int concentration = -1, volume = -1;
  };
  struct OfWorking {
    std::vector<InReaction> reactions;
    std::vector<Definition> definitions;
  };

  Conservation(Worked const& worked, Conventions const& conventions);

  /// Empty when all is conserved and agrees, else what differs: "n(AgCl): worked 0.02, by extents of reaction 0.01". REQUIRES:
  /// the workings have the structure of those that this was made for.
  std::string fault(Worked const& worked) const;

 private:
  std::vector<OfWorking> workings_;  ///< in the order of the accepted ones
};

}  // namespace molewright
