#pragma once
// Places of TOML nodes as faults of the file they stand in.
#include <toml++/toml.h>

#include <string>
#include <string_view>
#include <vector>

#include "engine/fault.h"

namespace molewright {

/// The fault at a node's place, with the text of its line.
PlacedFault toml_fault(Fault fault, toml::source_region const& where, std::string_view file_text);
/// "\"a\", \"b\" or \"c\"".
std::string quoted_list(std::vector<std::string> const& words);

}  // namespace molewright
