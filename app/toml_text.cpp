#include "app/toml_text.h"

#include <algorithm>

namespace molewright {

PlacedFault toml_fault(Fault fault, toml::source_region const& where, std::string_view file_text) {
  return with_line({std::move(fault), where.begin.line, where.begin.column, ""}, file_text);
}

PlacedFault toml_syntax(toml::parse_error const& error, std::string_view file_text) {
  if (auto const at = first_invalid_utf8(file_text); at != std::string_view::npos) {
    auto const before = file_text.substr(0, at);
    auto const start = before.rfind('\n') == std::string_view::npos ? 0 : before.rfind('\n') + 1;
    auto const line = static_cast<std::size_t>(std::count(before.begin(), before.end(), '\n')) + 1;
    return with_line({{"invalid-utf8", "these bytes are not UTF-8 text", "UTF-8", 0}, line, column(before.substr(start), at), ""},
                     file_text);
  }
  // The library names its own parts first: "Error while parsing string: ...". The table covers what people do most.
  static std::vector<std::pair<std::string_view, Fault>> const known{
      {"redefine", {"toml-syntax", "this key stands here for the second time", "each key once", 0}},
      {"parsing string",
       {"toml-syntax", "the quotes are not closed on this line, or hold a character that may not stand there", "\"text\"", 0}},
      {"parsing key-value", {"toml-syntax", "this line cannot be read", "key = \"text\", key = 3 or key = true", 0}},
      {"parsing key", {"toml-syntax", "this line does not begin with a key", "key = \"text\"", 0}},
      {"parsing value", {"toml-syntax", "this value cannot be read", "\"text\" in quotes, a number, true or false", 0}},
      {"parsing table", {"toml-syntax", "this heading cannot be read", "[[question]] alone on its line", 0}}};
  for (auto const& [part, fault] : known)
    if (error.description().find(part) != std::string_view::npos) return toml_fault(fault, error.source(), file_text);
  return toml_fault({"toml-syntax", "this cannot be read: " + std::string(error.description()), "", 0}, error.source(),
                    file_text);
}

std::string quoted_list(std::vector<std::string> const& words) {
  std::string out;
  for (std::size_t i = 0; i < words.size(); ++i)
    out += (i == 0 ? "" : i + 1 == words.size() ? " or " : ", ") + ('"' + words[i] + '"');
  return out;
}

}  // namespace molewright
