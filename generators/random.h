#pragma once
// Random numbers that are the same on every machine, compiler and build. The standard library's distributions differ by vendor.
#include <cstdint>
#include <string_view>

namespace molewright {

/// PCG32 (XSH RR, 64-bit state). Source: M. E. O'Neill, "PCG: A family of simple fast space-efficient statistically good
/// algorithms for random number generation", HMC-CS-2014-0905, and the published C reference pcg-c-basic.
class Random {
 public:
  /// `stream` picks one of 2^63 sequences that share nothing with each other.
  explicit Random(std::uint64_t seed, std::uint64_t stream = 54);
  std::uint32_t next();
  /// Uniform in 0 .. bound - 1, without bias (short values are thrown away). REQUIRES: bound > 0.
  std::uint32_t below(std::uint32_t bound);

 private:
  std::uint64_t state_ = 0;
  std::uint64_t increment_ = 0;
};

/// FNV-1a, 64 bits, over the bytes. Source: Fowler, Noll, Vo; IETF draft-eastlake-fnv. `basis` carries an earlier hash on.
std::uint64_t hash_of(std::string_view text, std::uint64_t basis = 0xcbf29ce484222325ULL);
/// One step of SplitMix64: spreads a counter over 64 bits. Source: G. Steele, D. Lea, C. Flood, OOPSLA 2014; S. Vigna,
/// splitmix64.c.
std::uint64_t spread(std::uint64_t counter);

}  // namespace molewright
