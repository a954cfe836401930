#pragma once
// One letter, one meaning: the slip keys of a set lettered alike on every paper, so that a teacher learns them once.
#include <cstddef>

#include "generators/set.h"

namespace molewright {

/// Letters that a part has over all papers of a set: beyond that nobody keeps them in mind.
inline constexpr std::size_t most_letters_of_a_set = 10;

/// Gives the entries of all slip keys their letters anew. At each place of the paper, for each part, and among the papers that
/// have the same template there, an entry is known by its first slip and by how many-th of that slip it is on its paper: "other
/// molar mass, the second time" is one letter on every paper, whatever the numbers are. A is what most papers hold; among equals
/// the one that stood higher on its papers (there the order is that of frequency). Entries then stand in the order of their
/// letters, with gaps where a paper lacks one; those without a letter left are taken out.
void settle_letters(ProblemSet& set);

}  // namespace molewright
