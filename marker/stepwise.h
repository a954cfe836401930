#pragma once
// One part of a question taken step by step: each step of its working is asked for by itself and judged as any answer is.
#include <cstddef>
#include <vector>

#include "marker/question.h"

namespace molewright {

struct Stepwise {
  Question question;       ///< its finds are the steps of the part, in the order of the printed working, the answer last
  std::vector<int> nodes;  ///< the node of each step, in the printed working
};

/// The steps that have an answer of their own: numbers, and which reactant runs out first. Lines of a stated answer (an equation
/// without numbers, the ions ...) are passed over, the answer itself is kept. `conventions` are those the question was made with.
Stepwise stepwise(Question const& question, std::size_t find, Conventions const& conventions);

}  // namespace molewright
