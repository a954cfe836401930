#pragma once
// The printed lines of what is stated: equations, names, formulas, precipitates, reagents.
#include <string>
#include <string_view>

#include "engine/conventions.h"
#include "engine/working.h"

namespace molewright {

/// The line of a stated node. REQUIRES: the node is one.
std::string stated_text(Working const& working, Node const& node, Conventions const& conventions);

/// What a stated node, or a formula found from data, says as set in print: "Ag⁺(aq) + Cl⁻(aq) → AgCl(s)", "BaSO₄, Mg(OH)₂". A
/// name stays as it is.
std::string pretty_stated(std::string_view says);

}  // namespace molewright
