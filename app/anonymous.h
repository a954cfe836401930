#pragma once
// Codes in place of names.
#include <string>
#include <vector>

#include "generators/set.h"

namespace molewright {

/// What whoever is not of the class is called then.
inline constexpr char const* anonymous_stranger = "unknown";

/// Puts a code in place of every student's name in the set, and the class in the order of the codes, so that the order tells
/// nobody. Whoever has a paper of their own is called by the code of its first question, which stands on the sheet; who shares a
/// paper gets a code from the set's seed and the name. The names, in the order that the class has now: the answers have them.
std::vector<std::string> make_anonymous(ProblemSet& set);

}  // namespace molewright
