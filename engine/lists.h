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

}  // namespace molewright
