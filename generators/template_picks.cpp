#include "generators/template_picks.h"

#include <algorithm>
#include <utility>

#include "engine/ascii.h"
#include "engine/element.h"
#include "engine/formula.h"
#include "engine/statement.h"

namespace molewright {
namespace {

/// value = digits * 10^place, where that is whole and small enough.
std::optional<std::int64_t> digits_at(Rational const& value, int place) {
  Rational const scaled = value * Rational::power_of_ten(-place);
  std::int64_t numerator = 0, denominator = 1;
  if (!scaled.is_integer() || !scaled.fits(numerator, denominator)) return std::nullopt;
  return numerator;
}

/// From text to something that can be drawn. Faults carry no offset: the whole right side is meant.
Result<Pick> pick_of_line(PickText const& text, std::vector<std::string>& names) {
  Pick pick;
  if (text.kind == PickText::Kind::choice) {
    for (std::string const& option : text.words) {
      std::vector<std::string> row;
      std::string_view rest = option;
      while (names.size() > 1) {
        auto const comma = rest.find(',');
        row.emplace_back(stripped(rest.substr(0, comma)));
        if (comma == std::string_view::npos) break;
        rest.remove_prefix(comma + 1);
      }
      if (names.size() == 1) row.emplace_back(stripped(rest));
      if (row.size() != names.size()) {
        return Fault{"unequal-choices", "the choice \"" + option + "\" does not have one value for each of " + listed(names),
                     std::to_string(names.size()) + " values with commas between", 0};
      }
      pick.options.push_back(row);
    }
    return pick;
  }
  if (text.kind == PickText::Kind::product) {
    auto const step = parse_decimal(text.words.back());
    if (!ok(step)) return fault(step);
    if (value(step).value != Rational::power_of_ten(value(step).last_place))
      return Fault{"empty-range", "a product is rounded to a place", "0.01, 0.1, 1 ...", 0};
    pick.place = value(step).last_place;
    pick.factors.assign(text.words.begin(), text.words.end() - 1);
    return pick;
  }
  if (text.kind == PickText::Kind::range || text.kind == PickText::Kind::titres) {
    std::vector<Decimal> ends;
    for (std::string const& word : text.words) {
      auto const read = parse_decimal(word);
      if (!ok(read)) return fault(read);
      ends.push_back(value(read));
      pick.place = ends.size() == 1 ? ends.back().last_place : std::min(pick.place, ends.back().last_place);
    }
    auto const first = digits_at(ends[0].value, pick.place);
    auto const last = digits_at(ends[1].value, pick.place);
    auto const step = digits_at(ends[2].value, pick.place);
    if (!first || !last || !step || *step <= 0 || *last < *first || (*last - *first) / *step >= 1000000) {
      return Fault{"empty-range", "this range holds no number, or more than a million", "first to last by step", 0};
    }
    pick.first = *first;
    pick.step = *step;
    pick.count = (*last - *first) / *step + 1;
    return pick;
  }
  if (auto const& sizes = glassware(text.set); !sizes.empty()) {
    Rational least(0), most(1000000);
    int place = 0;
    if (!text.words.empty()) {
      auto const from = parse_decimal(text.words[0]);
      auto const to = parse_decimal(text.words[1]);
      if (!ok(from)) return fault(from);
      if (!ok(to)) return fault(to);
      least = value(from).value;
      most = value(to).value;
      place = std::min({0, value(from).last_place, value(to).last_place});
    }
    for (int const size : sizes) {
      if (Rational(size) < least || Rational(size) > most) continue;
      std::string digits = std::to_string(size);
      if (place < 0) digits += "." + std::string(static_cast<std::size_t>(-place), '0');
      pick.options.push_back({digits});
    }
    if (pick.options.empty()) return Fault{"empty-range", "there is no " + text.set + " of such a size", "a wider range", 0};
    return pick;
  }
  std::vector<std::string> known{"flask", "pipette"};
  for (NamedSet const& set : named_sets()) {
    known.push_back(set.name);
    if (set.name != text.set) continue;
    if (names.size() != set.columns.size()) {
      if (names.size() != 1) {
        return Fault{"unequal-choices", "the set " + set.name + " binds " + listed(set.columns), "as many names, or one", 0};
      }
      names = set.columns;
    }
    pick.options = set.rows;
    return pick;
  }
  auto const near = nearest(text.set, known);
  return Fault{"unknown-set", "unknown set \"" + text.set + "\"", near.empty() ? either(known) : near.front(), 0};
}

/// A range and what is said of its readings.
Result<Pick> with_readings(Pick pick, PickText const& text, std::string_view symbol) {
  bool const titres = text.kind == PickText::Kind::titres;
  if (!titres && (text.rough >= 0 || text.concordant >= 0 || text.discordant >= 0 || text.as_readings))
    return Fault{"bad-given", "only titres are rough, concordant or discordant", "titres 18.00 to 28.00 by 0.05 mL concordant 3",
                 0};
  if (titres ? text.as_difference : text.as_difference && text.kind != PickText::Kind::range)
    return Fault{"bad-given", "only a range is given as a difference; titres are given as readings", "as readings", 0};
  if (!titres && !text.as_difference) return pick;
  DrawnReadings how;
  if (titres) {
    how = {std::max(0, text.rough), text.concordant < 0 ? 3 : text.concordant, std::max(0, text.discordant), text.as_readings,
           ""};
    constexpr std::int64_t most = 4400;  // 44.00 mL: the burette is filled to 4.00 mL at worst, and a rough titre is 1 mL more
    if (symbol != "V" || text.unit != "mL" || pick.place != -2 || pick.step % 5 != 0 || pick.first % 5 != 0 || pick.first < 500 ||
        pick.first + pick.step * (pick.count - 1) > most)
      return Fault{"bad-given", "titres are volumes between 5.00 and 44.00 mL, read to 0.05 mL",
                   "titres 18.00 to 28.00 by 0.05 mL", 0};
    if (how.rough > 1 || how.discordant > 1 || how.concordant < 2 || how.concordant > 6)
      return Fault{"bad-given", "so many titres are not drawn", "rough 0 or 1, concordant 2 to 6, discordant 0 or 1", 0};
  } else {
    // What the burette is filled to, a cold thermometer, or an empty container.
    std::int64_t const one = pick.place > 0 ? 1 : digits_at(Rational(1), pick.place).value_or(1);
    bool const burette = symbol == "V", thermometer = symbol == "dT" || symbol == "T";
    how.low_step = burette && pick.place == -2 ? 5 : 1;
    how.low_first = burette ? std::max<std::int64_t>(1, one / 5) : (thermometer ? 17 : 11) * one;
    std::int64_t const last = burette ? 4 * one : (thermometer ? 23 : 24) * one;
    how.low_count = (last - how.low_first) / how.low_step + 1;
  }
  pick.readings = how;
  return pick;
}

int place_of_discordant(Pick const& pick, Binding const& binding) {
  auto const at = binding.find(pick.readings->place_of_discordant);
  return at == binding.end() ? 0 : std::stoi(at->second);
}

}  // namespace

Result<Pick> pick_of(PickText const& text, std::vector<std::string>& names, std::string_view symbol) {
  auto pick = pick_of_line(text, names);
  return ok(pick) ? with_readings(value(pick), text, symbol) : pick;
}

std::string listed(std::vector<std::string> const& list) {
  std::string text;
  for (std::string const& item : list) text += (text.empty() ? "" : ", ") + item;
  return text;
}

std::string with_place(std::int64_t digits, int place) {
  if (place > 0) return print_to_place(Rational(digits) * Rational::power_of_ten(place), place, Rounding::half_up).plain;
  std::string text = std::to_string(digits);
  auto const decimals = static_cast<std::size_t>(-place);
  if (decimals == 0) return text;
  if (text.size() <= decimals) text.insert(0, decimals + 1 - text.size(), '0');
  return text.insert(text.size() - decimals, ".");
}

std::string range_text(Pick const& pick, std::uint32_t k) {
  return with_place(pick.first + pick.step * static_cast<std::int64_t>(k), pick.place);
}

std::vector<std::string> reading_numbers(Pick const& pick, std::uint32_t k, Binding const& binding) {
  auto const value = pick.first + pick.step * static_cast<std::int64_t>(k % pick.values());
  std::vector<std::string> numbers;
  for (auto const digits : draw_readings(*pick.readings, value, k / pick.values(), place_of_discordant(pick, binding)))
    numbers.push_back(with_place(digits, pick.place));
  return numbers;
}

std::string readings_text(Pick const& pick, std::uint32_t k, Binding const& binding) {
  return readings_text(*pick.readings, reading_numbers(pick, k, binding), place_of_discordant(pick, binding));
}

std::optional<std::string> product_text(Pick const& pick, Binding const& binding) {
  Rational product(1);
  for (std::string const& factor : pick.factors) {
    std::string const text = filled(factor, binding);
    if (text.front() != 'M') {
      auto const number = parse_decimal(text);
      if (!ok(number)) return std::nullopt;
      product *= value(number).value;
      continue;
    }
    auto const formula = parse_formula(std::string_view(text).substr(2, text.size() - 3));
    if (!ok(formula)) return std::nullopt;
    Rational mass;
    for (auto const& [element, atoms] : value(formula).composition())
      mass += AtomicWeights{}.weight(element).value * Rational(atoms);
    product *= mass;
  }
  return print_to_place(product, pick.place, Rounding::half_up).plain;
}

}  // namespace molewright
