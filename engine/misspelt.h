#pragma once
// A word of a problem that is taken for what a sample is called, where it was to be the name of a substance.
#include <functional>
#include <optional>
#include <string>

#include "engine/problem.h"

namespace molewright {

/// For a problem that cannot be worked: the first small word of its quantities that is no name but near to one ("soduim
/// chloride", "magnesum"), or that fits several ("copper oxide"), where the problem can be worked once it is that substance
/// (`works`), or where every word of it is near to one of the name. "unknown-name" with the nearest names, "ambiguous-name" with
/// those that it fits, at its quantity. Words such as tank, sample or ore, which may be called anything, are left alone.
std::optional<PlacedFault> misspelt_name(Problem const& problem, std::function<bool(Problem const&)> const& works);

/// For such a problem: the first word that is the name of a substance, but one that samples go by (limestone, common salt), where
/// the problem could be worked if it were the substance: " (limestone is what a sample is called, and is not taken for CaCO3)".
/// Empty for none.
std::string name_of_a_sample(Problem const& problem, std::function<bool(Problem const&)> const& works);

}  // namespace molewright
