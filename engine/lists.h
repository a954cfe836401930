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

}  // namespace molewright
