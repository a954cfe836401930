#include "generators/mention.h"

#include <algorithm>
#include <cmath>
#include <string>
#include <string_view>

#include "engine/ascii.h"

namespace molewright {
namespace {

/// Whether a number may begin at `i`: not inside a word, a formula or another number.
bool may_begin(std::string_view text, std::size_t i) {
  if (!is_digit(text[i])) return false;
  if (i == 0) return true;
  char const before = text[i - 1];
  bool const inside = is_letter(before) || is_digit(before) || before == '.' || before == '^' || before == ')' ||
                      static_cast<unsigned char>(before) > 127;
  return !inside;
}
}  // namespace

std::vector<Mention> mentions_of(Problem const& problem) {
  std::vector<Mention> found;
  std::string_view const text = problem.text;
  for (std::size_t i = 0; i < text.size(); ++i) {
    if (text[i] == '{') {
      auto const close = std::min(text.find('}', i), text.size() - 1);
      auto const inside = text.substr(i + 1, close - i - 1);
      auto const quantity = parse_quantity(inside.substr(part_of_readings(inside).size()));
      Given const* const given = ok(quantity) ? given_named(problem, value(quantity)) : nullptr;
      if (given != nullptr && !given->numbers.empty())
        found.push_back({given->numbers.front(), given->unit, i, close + 1, given, false});
      i = close;
      continue;
    }
    if (!may_begin(text, i)) continue;
    auto const rest = text.substr(i);
    auto const number = read_decimal(rest);
    if (!ok(number)) continue;
    std::size_t end = value(number).length;
    while (end < rest.size() && (rest[end] == ' ' || rest.substr(end, 2) == "\xC2\xA0")) end += rest[end] == ' ' ? 1 : 2;
    auto const measure = read_unit(rest.substr(end));
    if (ok(measure) && value(measure).length > 0 && !value(measure).unit.symbol.empty()) {
      std::size_t const after = end + value(measure).length;
      bool const whole = after >= rest.size() || !is_letter(rest[after]) || !is_letter(rest[after - 1]);
      if (whole) found.push_back({value(number).number, value(measure).unit, i, i + after, nullptr, true});
    }
    i += value(number).length - 1;
  }
  return found;
}

bool tells(Mention const& mention, Given const& given) {
  if (mention.unit.dimension != given.unit.dimension) return false;
  double const said = mention.base();
  return std::any_of(given.numbers.begin(), given.numbers.end(), [&](Decimal const& number) {
    double const data = (number.value * given.unit.factor + given.unit.offset).to_double();
    return std::abs(said - data) <= 1e-9 * std::max(std::abs(said), std::abs(data));
  });
}

}  // namespace molewright
