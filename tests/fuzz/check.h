#pragma once
// What every harness demands: a broken promise stops the program, so that the fuzzer keeps the input.
#include <cstddef>
#include <cstdint>
#include <cstdio>
#include <cstdlib>
#include <string_view>

#include "engine/fault.h"

inline void demand(bool holds, char const* promise) {
  if (holds) return;
  std::fprintf(stderr, "broken promise: %s\n", promise);
  std::abort();
}

/// A fault names itself and points into the text that was read.
inline void demand_usable(molewright::Fault const& fault, std::string_view text) {
  demand(!fault.id.empty(), "a fault has an id");
  demand(!fault.what.empty(), "a fault says what is wrong");
  demand(fault.offset <= text.size(), "a fault points into its text");
  demand(molewright::first_invalid_utf8(molewright::sentence(fault)) == std::string_view::npos,
         "a message is UTF-8, whatever was read");
}

inline std::string_view as_text(std::uint8_t const* data, std::size_t size) {
  return {reinterpret_cast<char const*>(data), size};
}
