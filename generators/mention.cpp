#include "generators/mention.h"

#include <algorithm>
#include <array>
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

std::vector<Mention> mentions_of(Problem const& problem, DecimalMark mark) {
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
    auto const number = read_decimal(rest, mark);
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

std::vector<std::string_view> sentences(std::string_view text) {
  std::vector<std::string_view> all;
  std::size_t begin = 0;
  for (std::size_t i = 0; i < text.size(); ++i) {
    bool const last = i + 1 == text.size();
    bool const stop = text[i] == '.' && (last || text[i + 1] == ' ' || text[i + 1] == '\n');
    if (!last && !stop && text[i] != '?' && text[i] != '!') continue;
    all.push_back(text.substr(begin, i + 1 - begin));
    begin = i + 1;
  }
  return all;
}

bool asks(std::string_view sentence) {
  static constexpr std::array<std::string_view, 9> words{"calculate", "find", "work out", "state", "give",
                                                         "how",       "show", "write",    "name"};
  if (sentence.ends_with('?')) return true;
  auto const low = lowered(sentence) + ' ';
  auto const stands_alone = [&](std::string_view word, char after) { return holds_word(low, std::string(word) + after); };
  return std::any_of(words.begin(), words.end(),
                     [&](std::string_view word) { return stands_alone(word, ' ') || stands_alone(word, '\n'); });
}

std::vector<AskedUnit> asked_units(std::string_view text) {
  std::vector<AskedUnit> found;
  for (std::string_view const lead : {" in ", " many "})
    for (std::size_t at = text.find(lead); at != std::string_view::npos; at = text.find(lead, at + 1)) {
      auto const rest = text.substr(at + lead.size());
      auto const read = read_unit(rest);
      if (!ok(read) || value(read).length == 0 || value(read).unit.symbol.empty()) continue;
      if (value(read).length < rest.size() && is_letter(rest[value(read).length])) continue;
      found.push_back({value(read).unit, at});
    }
  return found;
}

Unit unit_of(Find const& find) { return find.unit ? *find.unit : working_unit(find.quantity.symbol); }

bool holds_word(std::string_view text, std::string_view word) {
  for (std::size_t at = text.find(word); at != std::string_view::npos; at = text.find(word, at + 1))
    if (at == 0 || (!is_letter(text[at - 1]) && text[at - 1] != '{')) return true;
  return false;
}

}  // namespace molewright
