#include "engine/unit.h"

#include <array>
#include <stdexcept>

#include "engine/ascii.h"
#include "engine/unit_table.h"

namespace molewright {
namespace {

constexpr std::array<std::string_view, 10> superscripts{"⁰", "¹", "²", "³", "⁴", "⁵", "⁶", "⁷", "⁸", "⁹"};

struct NamedDimension {
  Dimension dimension;
  char const* name;
};

Dimension of(int mass, int length, int amount, int time, int temperature) {
  auto const small = [](int exponent) { return static_cast<std::int8_t>(exponent); };
  return {{small(mass), small(length), small(amount), small(time), small(temperature)}};
}

/// Names of quantities by dimension: Green Book, 3rd ed., chapter 2, from memory.
std::vector<NamedDimension> const& named_dimensions() {
  static std::vector<NamedDimension> const names{
      {of(0, 0, 0, 0, 0), "a pure number"},
      {of(1, 0, 0, 0, 0), "mass"},
      {of(0, 1, 0, 0, 0), "length"},
      {of(0, 2, 0, 0, 0), "area"},
      {of(0, 3, 0, 0, 0), "volume"},
      {of(0, 0, 1, 0, 0), "amount"},
      {of(0, 0, 0, 1, 0), "time"},
      {of(0, 0, 0, 0, 1), "temperature"},
      {of(0, -3, 1, 0, 0), "amount concentration"},
      {of(1, -3, 0, 0, 0), "mass concentration or density"},
      {of(1, 0, -1, 0, 0), "molar mass"},
      {of(-1, 0, 1, 0, 0), "molality"},
      {of(0, 3, -1, 0, 0), "molar volume"},
      {of(0, 0, -1, 0, 0), "entities per amount"},
      {of(1, -1, 0, -2, 0), "pressure"},
      {of(1, 2, 0, -2, 0), "energy"},
      {of(1, 2, -1, -2, 0), "molar energy"},
      {of(1, 2, 0, -2, -1), "heat capacity"},
      {of(0, 2, 0, -2, -1), "specific heat capacity"},
      {of(1, 2, -1, -2, -1), "molar heat capacity"},
      {of(0, 0, 0, -1, 0), "rate constant or frequency"},
      {of(0, -3, 1, -1, 0), "rate of concentration"},
  };
  return names;
}

}  // namespace

std::string pretty(Unit const& unit) {
  std::string_view symbol = unit.symbol;
  bool const inverse = symbol.starts_with("1/") && symbol.find_first_of("( ") == std::string_view::npos;
  if (inverse) symbol.remove_prefix(2);
  std::string result;
  bool power = false;
  for (std::size_t at = 0; at < symbol.size();) {
    std::size_t end = at;
    while (end < symbol.size() && is_letter(symbol[end])) ++end;
    if (end > at) {
      auto const word = symbol.substr(at, end - at);
      auto const* entry = find_unit(word);
      result += entry == nullptr ? std::string(word) : entry->printed;
      at = end;
      if (at < symbol.size() && is_digit(symbol[at])) {  // a digit right after a letter is a power, the 100 of g/100 mL is not
        result += (inverse ? "⁻" : "") + std::string(superscripts[static_cast<std::size_t>(symbol[at] - '0')]);
        power = true;
        ++at;
      }
    } else {
      result += symbol[at++];
    }
  }
  return inverse && !power ? result + "⁻¹" : result;
}

std::string dimension_name(Dimension const& dimension) {
  for (auto const& named : named_dimensions()) {
    if (named.dimension == dimension) return named.name;
  }
  static constexpr std::array<std::string_view, 5> bases{"mass", "length", "amount", "time", "temperature"};
  std::string result;
  for (std::size_t i = 0; i < bases.size(); ++i) {
    int const exponent = dimension.exponents[i];
    if (exponent == 0) continue;
    if (!result.empty()) result += " × ";
    result += bases[i];
    if (exponent == 1) continue;
    if (exponent < 0) result += "⁻";
    for (char const digit : std::to_string(exponent < 0 ? -exponent : exponent))
      result += superscripts[static_cast<std::size_t>(digit - '0')];
  }
  return result;
}

bool convertible(Unit const& from, Unit const& to) { return from.dimension == to.dimension; }

Rational conversion_factor(Unit const& from, Unit const& to) { return from.factor / to.factor; }

Rational convert(Rational const& number, Unit const& from, Unit const& to) {
  return (number * from.factor + from.offset - to.offset) / to.factor;
}

}  // namespace molewright
