#pragma once
// A step of a working before it is worked: what it is to find and which relation leads there, without its numbers.
#include <string>

#include "engine/conventions.h"
#include "engine/solver.h"
#include "engine/working.h"

namespace molewright {

struct Hint {
  std::string words;    ///< "Next: find n(BaCl₂) in mol. Amount, concentration and volume belong together: n = c × V, ..."
  std::string formula;  ///< "n(BaCl₂) = c(BaCl₂) × V(BaCl₂)", "1 L is 1000 mL"; empty where a step has none (an equation)
};

/// REQUIRES: `node` is one that `steps` shows in `working`, which belongs to `worked`.
Hint hint(Worked const& worked, Working const& working, int node, Conventions const& conventions);
/// The words for a relation (a form of relation.h or a name of `relations`); empty where data/hints.tsv has none.
std::string_view hint_words(std::string_view relation);

}  // namespace molewright
