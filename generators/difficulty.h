#pragma once
// How hard a question is, read off its working: what two papers of equal difficulty have in common.
#include "marker/question.h"

namespace molewright {

/// What a student has to do, counted over all parts once each.
struct Difficulty {
  int steps = 0;        ///< relations used (n = cV, a molar mass, a mole ratio ...), changes of unit left out
  int conversions = 0;  ///< changes of unit
  int ratios = 0;       ///< mole ratios that are not 1 : 1
  int total() const { return steps + conversions + ratios; }
};
/// Of the printed working. Common practice, no source: every relation, every change of unit and every ratio to think of counts
/// one.
Difficulty difficulty_of(Question const& question);

}  // namespace molewright
