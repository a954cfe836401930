#pragma once
// What is asked of short lists.
#include <algorithm>
#include <span>
#include <string>
#include <string_view>
#include <vector>

namespace molewright {

inline bool contains(std::span<std::string const> list, std::string_view item) {
  return std::find(list.begin(), list.end(), item) != list.end();
}

/// The item at the end of the list, where it is not there yet. Nothing is no item.
inline void add_once(std::vector<std::string>& list, std::string const& item) {
  if (!item.empty() && !contains(list, item)) list.push_back(item);
}

/// "a", "a and b", "a, b and c".
inline std::string enumerated(std::span<std::string const> names) {
  std::string text;
  for (std::size_t i = 0; i < names.size(); ++i) text += (i == 0 ? "" : i + 1 == names.size() ? " and " : ", ") + names[i];
  return text;
}

}  // namespace molewright
