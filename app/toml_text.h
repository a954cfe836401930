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
/// What keeps a file from being TOML, in words for who wrote it. Id "toml-syntax", or "invalid-utf8".
PlacedFault toml_syntax(toml::parse_error const& error, std::string_view file_text);
/// "\"a\", \"b\" or \"c\"".
std::string quoted_list(std::vector<std::string> const& words);

}  // namespace molewright
