#pragma once
// What comes of a mixture, for tests.
#include <algorithm>
#include <catch2/catch.hpp>
#include <string>
#include <vector>

#include "engine/mixing.h"

namespace molewright {

inline Mixing mixed(std::string const& text) {
  CAPTURE(text);
  auto const mixture = read_mixture(text);
  REQUIRE(ok(mixture));
  auto const result = mix(value(mixture));
  REQUIRE(ok(result));
  return value(result);
}

inline bool says(std::vector<std::string> const& list, std::string const& text) {
  return std::any_of(list.begin(), list.end(), [&](std::string const& line) { return line.find(text) != std::string::npos; });
}

}  // namespace molewright
