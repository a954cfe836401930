#pragma once
// Problems of any size, as text, to see how times grow.
#include <string>

namespace molewright {

/// So many solutions of one salt poured together: two givens each.
std::string mixing(int solutions);
/// One dilution after another: three givens for the first, two for each further one.
std::string diluting(int steps);
/// Two or three reactants that may each limit, two givens each.
std::string limiting(int reactants);
/// A question with so many parts, each on a solution of its own: two givens and one find each.
std::string parts(int count);

}  // namespace molewright
