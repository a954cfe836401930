// Readings of a mean or a difference: which of them count, and how they stand in a table.
#include <algorithm>

#include "engine/ascii.h"
#include "engine/formula.h"
#include "engine/problem.h"
#include "engine/readings_words.h"
#include "engine/steps.h"

namespace molewright {
namespace {

bool among(std::vector<std::size_t> const& list, std::size_t i) { return std::find(list.begin(), list.end(), i) != list.end(); }

/// A row of a table: what it holds, the unit, then the cells.
std::string row(std::string const& label, std::string const& unit, std::vector<std::string> const& cells) {
  std::string out = unit.empty() ? label : label + ", " + unit;
  for (auto const& cell : cells) out += '\t' + cell;
  return out;
}

std::string table_of_titres(Given const& given, std::string const& unit, std::vector<std::string> const& numbers) {
  bool const volume = given.quantity.symbol == "V";
  std::vector<std::string> heads, finals, initials, results;
  std::size_t counted = 0;
  for (std::size_t i = 0; i < titres(given); ++i) {
    heads.emplace_back(is_rough(given, i) ? words::rough : std::to_string(++counted));
    if (given.in_pairs) {
      finals.push_back(numbers[2 * i]);
      initials.push_back(numbers[2 * i + 1]);
    }
    results.push_back(given.in_pairs ? "" : numbers[i]);
  }
  std::string out = row(volume ? words::titration : words::measurement, "", heads);
  if (given.in_pairs) out += '\n' + row(words::final_reading, unit, finals) + '\n' + row(words::initial_reading, unit, initials);
  return out + '\n' + row(volume ? words::titre : given.in_pairs ? words::difference : words::reading, unit, results);
}
}  // namespace

std::optional<int> last_place(Given const& given, std::size_t i) {
  auto const& number = given.numbers[i];
  auto const& symbol = given.quantity.symbol;
  bool const condition = symbol == "p" && number.text == "1" && (given.unit.symbol == "atm" || given.unit.symbol == "bar");
  bool const times = symbol == "DF" && number.last_place == 0;
  if (given.form == Given::Form::value && (condition || times)) return std::nullopt;
  return number.last_place;
}

std::size_t titres(Given const& given) { return given.in_pairs ? given.numbers.size() / 2 : given.numbers.size(); }

Rational titre(Given const& given, std::size_t i) {
  return given.in_pairs ? given.numbers[2 * i].value - given.numbers[2 * i + 1].value : given.numbers[i].value;
}

bool is_rough(Given const& given, std::size_t i) { return among(given.rough, i); }
bool is_discordant(Given const& given, std::size_t i) { return among(given.discordant, i); }

Rational spread_of_titres(Given const& given) {
  std::optional<Rational> least, most;
  for (std::size_t i = 0; i < titres(given); ++i) {
    if (!counts(given, i)) continue;
    auto const one = titre(given, i);
    if (!least || one < *least) least = one;
    if (!most || one > *most) most = one;
  }
  return least ? *most - *least : Rational(0);
}

std::string table_of_readings(Given const& given, Conventions const& conventions) {
  auto const unit = unit_text(given.unit, conventions);
  std::vector<std::string> numbers;
  for (auto const& number : given.numbers) numbers.push_back(print_as_typed(number, conventions.mark).pretty);
  if (given.form == Given::Form::mean) return table_of_titres(given, unit, numbers);
  if (given.form != Given::Form::difference) return {};
  bool const weighed = given.quantity.symbol == "m";
  auto const what = pretty_formula(given.quantity.substance);
  return row(weighed ? words::container_with + what : words::final_reading, unit, {numbers[0]}) + '\n' +
         row(weighed ? words::container_alone : words::initial_reading, unit, {numbers[1]}) + '\n' +
         row(weighed ? capitalized(what) : words::difference, unit, {""});
}

}  // namespace molewright
