#pragma once
// Which questions misfired: whether a part tells those who can from those who cannot, and wrong answers that many share though no
// slip explains them.
#include "marker/results.h"

namespace molewright {

/// Below so many students a discrimination says more of chance than of the question (common practice, no source).
inline constexpr int least_students_for_discrimination = 20;
/// A wrong answer without a cause that so many share points at the key or the wording (common practice, no source).
inline constexpr int least_students_for_a_shared_answer = 3;

/// For a class that all had one paper; `one_paper` false leaves everything empty, for then neither numbers nor answers compare.
/// Fills in `discrimination` of every part: the correlation (Pearson) of the marks for the part with the marks for the rest of
/// the paper, over those present (corrected item-total correlation; common practice, no source). Nothing where fewer than
/// least_students_for_discrimination are present or where one of the two does not vary. Fills in `shared_wrong` likewise.
void analyse_items(ClassResults& results, bool one_paper);

}  // namespace molewright
