#pragma once
// Whether the tests run under the address sanitizer: it slows them down many times, and it holds on to memory that was let go.

#if defined(__has_feature)
#if __has_feature(address_sanitizer)
#define MOLEWRIGHT_ADDRESS_SANITIZER
#endif
#elif defined(__SANITIZE_ADDRESS__)
#define MOLEWRIGHT_ADDRESS_SANITIZER
#endif

namespace molewright::test {
#ifdef MOLEWRIGHT_ADDRESS_SANITIZER
inline constexpr bool under_sanitizer = true;
#else
inline constexpr bool under_sanitizer = false;
#endif
}  // namespace molewright::test
