#pragma once
// The question templates of templates/questions/, compiled into the program.
#include <string_view>
#include <utility>
#include <vector>

namespace molewright {

/// Name (the file's, without its ending) and text of every built-in question template, sorted by name.
std::vector<std::pair<std::string_view, std::string_view>> const& question_templates();

}  // namespace molewright
