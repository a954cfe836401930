#pragma once
// The last line of a part's working: the answer, rounded.
#include <optional>
#include <string>

#include "engine/steps.h"

namespace molewright {

/// The answer as a working ends with it, with what it is rounded to where it is a number but not nothing:
/// "m(AgCl) = 1.72 g   (3 figures)", "pH = 2.92   (2 decimal places)".
std::string rounded_line(Worked const& worked, Working const& working, std::size_t find, Conventions const& conventions);
/// The same as a step, the last of its part: relation "rounding", the answer as its value. Nothing where it is no number.
std::optional<Step> rounding_step(Worked const& worked, Working const& working, std::size_t find, Conventions const& conventions);

}  // namespace molewright
