#pragma once
// What a line of a template draws from: choices, ranges, sets, glassware, products, titres. For template.cpp.
#include <string>
#include <string_view>
#include <vector>

#include "engine/fault.h"
#include "generators/template.h"
#include "generators/template_grammar.h"

namespace molewright {

/// From text to something that can be drawn. `names` are those that are bound; a set of several columns binds its own instead of
/// one. `symbol` is that of the quantity, for a given. Faults carry no offset: the whole right side is meant. Ids: "bad-given",
/// "empty-range", "unequal-choices", "unknown-set", and those of numbers.
Result<Pick> pick_of(PickText const& text, std::vector<std::string>& names, std::string_view symbol = {});

/// "a, b, c".
std::string listed(std::vector<std::string> const& list);

}  // namespace molewright
