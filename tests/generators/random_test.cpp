// The random engine against its publications.
#include "generators/random.h"

#include <catch2/catch.hpp>
#include <string>
#include <vector>

using namespace molewright;

TEST_CASE("random: the first numbers of PCG32", "[generators][random]") {
  // Source: demo output published with pcg-c-basic, seed 42, stream 54, round 1.
  Random random(42, 54);
  for (std::uint32_t const expected : {0xa15c02b7U, 0x7b47f409U, 0xba1d3330U, 0x83d2f293U, 0xbfa4784bU, 0xcbed606eU}) {
    CHECK(random.next() == expected);
  }
  std::string coins;
  for (int i = 0; i < 65; ++i) coins += random.below(2) == 1 ? 'H' : 'T';
  CHECK(coins == "HHTTTHTHHHTHTTTHHHHHTTTHHHTHTHTHTTHTTTHHHHHHTTTTHHTTTTTHTTTTTTTHT");
  std::vector<std::uint32_t> const rolls{3, 4, 1, 1, 2, 2, 3, 2, 4, 3, 2, 4, 3, 3, 5, 2, 3,
                                         1, 3, 1, 5, 1, 4, 1, 5, 6, 4, 6, 6, 2, 6, 3, 3};
  for (std::uint32_t const expected : rolls) CHECK(random.below(6) + 1 == expected);
}

TEST_CASE("random: the hash and the spreading of counters", "[generators][random]") {
  CHECK(hash_of("") == 0xcbf29ce484222325ULL);        // FNV reference values
  CHECK(hash_of("a") == 0xaf63dc4c8601ec8cULL);       // the same
  CHECK(hash_of("foobar") == 0x85944171f73967e8ULL);  // the same
  CHECK(hash_of("bar", hash_of("foo")) == hash_of("foobar"));
  CHECK(spread(1234567) == 6457827717110365317ULL);                          // first output of splitmix64.c, seed 1234567
  CHECK(spread(1234567 + 0x9e3779b97f4a7c15ULL) == 3203168211198807973ULL);  // its second
}

TEST_CASE("random: every value below a bound comes equally often", "[generators][random]") {
  Random random(7);
  std::vector<int> counts(7);
  for (int i = 0; i < 70000; ++i) ++counts[random.below(7)];
  double chi_squared = 0;
  for (int const count : counts) chi_squared += (count - 10000.0) * (count - 10000.0) / 10000.0;
  CHECK(chi_squared < 22.5);  // 0.1 % point of chi squared with 6 degrees of freedom (standard table, from memory)
}
