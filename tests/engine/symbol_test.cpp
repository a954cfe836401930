// The symbol of a quantity reads, compares and sorts as the text that it holds; the orders are those of std::string_view.
#include "engine/symbol.h"

#include <catch2/catch.hpp>
#include <string>

using namespace molewright;

TEST_CASE("symbol: compares as its text does, with texts too long for it as well", "[engine][symbol]") {
  char const* const texts[] = {"", "n", "m", "M", "N_A", "Ksp", "pH", "pOH", "gamma", "gamma2", "letters8", "letters89"};
  for (std::string_view const one : texts) {
    if (one.size() > Symbol::longest) continue;
    Symbol const symbol(one);
    CHECK(std::string_view(symbol) == one);
    CHECK(symbol.empty() == one.empty());
    for (char const* const other : texts) {
      CAPTURE(one, other);
      CHECK((symbol == other) == (one == other));
      CHECK((symbol == std::string(other)) == (one == other));
      if (std::string_view(other).size() > Symbol::longest) continue;
      CHECK((symbol == Symbol(other)) == (one == other));
      CHECK((symbol < Symbol(other)) == (one < std::string_view(other)));
    }
  }
  CHECK_THROWS_AS(Symbol("letters89"), std::length_error);
}
