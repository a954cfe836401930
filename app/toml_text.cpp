#include "app/toml_text.h"

#include "app/problem_json.h"

namespace molewright {

PlacedFault toml_fault(Fault fault, toml::source_region const& where, std::string_view file_text) {
  return with_line_text({std::move(fault), where.begin.line, where.begin.column, ""}, file_text);
}

std::string quoted_list(std::vector<std::string> const& words) {
  std::string out;
  for (std::size_t i = 0; i < words.size(); ++i)
    out += (i == 0 ? "" : i + 1 == words.size() ? " or " : ", ") + ('"' + words[i] + '"');
  return out;
}

}  // namespace molewright
