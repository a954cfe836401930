#pragma once
// The measured values that a problem's text speaks of: typed, or filled in from the data.
#include <cstddef>
#include <vector>

#include "engine/problem.h"

namespace molewright {

struct Mention {
  Decimal number;
  Unit unit;
  std::size_t begin = 0, end = 0;  ///< bytes of the text
  Given const* given = nullptr;    ///< that it is filled in from, as {V(NaOH)}; nullptr where it is typed
  bool typed = true;
  /// In coherent units, °C as K.
  double base() const { return (number.value * unit.factor + unit.offset).to_double(); }
};

/// In the order of the text. A number without a unit is none: "24 pupils". REQUIRES: the problem outlives what is returned.
std::vector<Mention> mentions_of(Problem const& problem);

/// Whether the value is that of the given, in whatever unit; any reading of a mean or a difference.
bool tells(Mention const& mention, Given const& given);

}  // namespace molewright
