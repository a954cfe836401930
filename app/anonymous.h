#pragma once
// Codes in place of names.
#include <string>

#include "generators/set.h"
#include "marker/handed_in.h"

namespace molewright {

/// Puts a code in place of every student's name, in the set and in what was handed in, and the class in the order of the codes,
/// so that the order tells nobody. Whoever has a paper of their own is called by the code of its first question, which stands on
/// the sheet; who shares a paper gets a code from the set's seed and the name. A name that is not of the class becomes "unknown".
void make_anonymous(ProblemSet& set, AllHandedIn& handed_in);

}  // namespace molewright
