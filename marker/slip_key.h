#pragma once
// The slip key of a question: the wrong answers to expect, lettered, so that scripts can be marked with a pen.
#include <vector>

#include "marker/question.h"
#include "marker/slip.h"

namespace molewright {

/// Letters a find has at most: more cannot be kept in mind while marking.
inline constexpr std::size_t most_letters = 8;

/// True where two wrong answers cannot be told apart at `figures` figures: they round to one number, or lie within one part in
/// 10^figures.
bool look_alike(double a, double b, int figures);

/// For each find, the wrong answers in order of frequency (A the most frequent), those that look alike in one entry. Specific
/// slips only: who has made a generic one writes almost anything. An answer that looks like the right one is not in it, nor are
/// finds that are not numbers.
std::vector<std::vector<SlipKeyEntry>> slip_key(Worked const& worked, SlipTable const& table, Conventions const& conventions);

}  // namespace molewright
