// Conversions of units over every pair that can be converted, and over drawn products and quotients (RapidCheck;
// RC_PARAMS="seed=1" repeats a run).
#include "engine/unit.h"

#include <rapidcheck/catch.h>

#include <catch2/catch.hpp>
#include <cstdint>
#include <map>

using namespace molewright;

namespace {

Rational any_rational() {
  auto const above = *rc::gen::inRange<std::int64_t>(-1000000000, 1000000001);
  auto const below = *rc::gen::inRange<std::int64_t>(1, 1000000001);
  return Rational(above, below) * Rational::power_of_ten(*rc::gen::inRange(-30, 31));
}

/// Units of the table by dimension.
std::map<std::string, std::vector<Unit>> const& families() {
  static std::map<std::string, std::vector<Unit>> const all = [] {
    std::map<std::string, std::vector<Unit>> sorted;
    for (auto const& symbol : unit_symbols()) {
      auto const one = unit(symbol);
      sorted[dimension_name(one.dimension)].push_back(one);
    }
    return sorted;
  }();
  return all;
}

/// "mg/mL", "kJ/(mol K)", "mol2/L2".
std::string any_text() {
  static std::vector<std::string> const symbols{"g",   "kg", "mg", "mol", "mmol", "L",   "mL", "dm3", "cm3", "m3",
                                                "kPa", "Pa", "J",  "kJ",  "K",    "min", "s",  "h",   "cm",  "bar"};
  auto const factor = [&] {
    auto text = *rc::gen::elementOf(symbols);
    bool const has_power = text.back() == '3';
    auto const power = *rc::gen::inRange(1, 4);
    return power == 1 || has_power ? text : text + std::to_string(power);
  };
  auto const over = factor(), second = factor(), under = factor(), last = factor();
  switch (*rc::gen::inRange(0, 5)) {
    case 0:
      return over;
    case 1:
      return over + '/' + under;
    case 2:
      return over + "·" + second;
    case 3:
      return over + "·" + second + '/' + under;
    default:
      return over + "/(" + under + ' ' + last + ')';
  }
}

}  // namespace

TEST_CASE("unit: there and back is exact for every pair of one dimension", "[property][unit]") {
  int pairs = 0;
  for (auto const& [name, units] : families())
    for (auto const& from : units)
      for (auto const& to : units) {
        CAPTURE(from.symbol, to.symbol);
        REQUIRE(convertible(from, to));
        ++pairs;
        if (from.offset.sign() == 0 && to.offset.sign() == 0)
          CHECK(conversion_factor(from, to) * conversion_factor(to, from) == Rational(1));
      }
  CHECK(pairs > 400);
  rc::prop("any number, any pair, and by way of any third unit", [] {
    std::vector<std::string> names;
    for (auto const& [name, units] : families()) names.push_back(name);
    // Every pair of one drawn dimension with one number.
    auto const& units = families().at(*rc::gen::elementOf(names));
    auto const number = any_rational();
    auto const& by = *rc::gen::elementOf(units);
    for (auto const& from : units)
      for (auto const& to : units) {
        auto const there = convert(number, from, to);
        RC_ASSERT(convert(there, to, from) == number);
        RC_ASSERT(convert(convert(number, from, by), by, to) == there);
      }
  });
}

TEST_CASE("unit: products and quotients come back from their symbol and their print", "[property][unit]") {
  rc::prop("text -> unit -> symbol and print -> the same unit", [] {
    auto const text = any_text();
    RC_LOG() << text << '\n';
    auto const read = parse_unit(text);
    RC_ASSERT(ok(read));
    auto const& one = value(read);
    RC_PRE(!one.symbol.empty());  // g/g is a pure number and prints as nothing
    RC_LOG() << one.symbol << "  " << pretty(one) << '\n';
    RC_ASSERT(ok(parse_unit(one.symbol)));
    RC_ASSERT(value(parse_unit(one.symbol)) == one);
    RC_ASSERT(value(parse_unit(one.symbol)).symbol == one.symbol);
    RC_ASSERT(ok(parse_unit(pretty(one))));
    RC_ASSERT(value(parse_unit(pretty(one))) == one);
  });
  rc::prop("what is converted to it comes back exactly", [] {
    auto const read = parse_unit(any_text());
    RC_ASSERT(ok(read));
    auto base = value(read);
    base.factor = Rational(1);  // the coherent unit of the same dimension
    auto const number = any_rational();
    RC_ASSERT(convert(convert(number, base, value(read)), value(read), base) == number);
    RC_ASSERT(convert(number, value(read), base) == number * value(read).factor);
  });
}
