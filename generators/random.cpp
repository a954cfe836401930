#include "generators/random.h"

namespace molewright {

Random::Random(std::uint64_t seed, std::uint64_t stream) : increment_((stream << 1U) | 1U) {
  next();
  state_ += seed;
  next();
}

std::uint32_t Random::next() {
  std::uint64_t const old = state_;
  state_ = old * 6364136223846793005ULL + increment_;
  auto const shifted = static_cast<std::uint32_t>(((old >> 18U) ^ old) >> 27U);
  auto const turn = static_cast<std::uint32_t>(old >> 59U);
  return (shifted >> turn) | (shifted << ((32U - turn) & 31U));
}

std::uint32_t Random::below(std::uint32_t bound) {
  // The lowest 2^32 mod bound values would be drawn once too often: they are passed over.
  std::uint32_t const threshold = (0U - bound) % bound;
  for (;;) {
    std::uint32_t const value = next();
    if (value >= threshold) return value % bound;
  }
}

std::uint64_t hash_of(std::string_view text, std::uint64_t basis) {
  std::uint64_t hash = basis;
  for (char const c : text) {
    hash ^= static_cast<unsigned char>(c);
    hash *= 0x100000001b3ULL;
  }
  return hash;
}

std::uint64_t spread(std::uint64_t counter) {
  std::uint64_t z = counter + 0x9e3779b97f4a7c15ULL;
  z = (z ^ (z >> 30U)) * 0xbf58476d1ce4e5b9ULL;
  z = (z ^ (z >> 27U)) * 0x94d049bb133111ebULL;
  return z ^ (z >> 31U);
}

}  // namespace molewright
