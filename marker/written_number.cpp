#include "marker/written_number.h"

#include <algorithm>
#include <array>
#include <utility>

#include "engine/ascii.h"

namespace molewright {
namespace {
using namespace std::string_view_literals;

bool digit_at(std::string_view text, std::size_t at) { return at < text.size() && is_digit(text[at]); }
bool starts(std::string_view text, std::size_t at, std::string_view piece) {
  return text.substr(std::min(at, text.size()), piece.size()) == piece;
}

std::size_t past_blanks(std::string_view text, std::size_t at) {
  while (at < text.size() && text[at] == ' ') ++at;
  return at;
}

/// Superscript digits and signs, with what they stand for.
constexpr std::array<std::pair<std::string_view, char>, 12> superscripts = {{{"⁰", '0'},
                                                                             {"¹", '1'},
                                                                             {"²", '2'},
                                                                             {"³", '3'},
                                                                             {"⁴", '4'},
                                                                             {"⁵", '5'},
                                                                             {"⁶", '6'},
                                                                             {"⁷", '7'},
                                                                             {"⁸", '8'},
                                                                             {"⁹", '9'},
                                                                             {"⁻", '-'},
                                                                             {"⁺", '+'}}};

struct Power {
  std::string exponent;  ///< "-2"
  std::size_t end = 0;
};

/// A sign and digits at `at`.
std::optional<Power> signed_digits(std::string_view text, std::size_t at) {
  Power power;
  if (starts(text, at, "-") || starts(text, at, "+")) {
    if (text[at] == '-') power.exponent = "-";
    ++at;
  }
  if (!digit_at(text, at)) return std::nullopt;
  for (; digit_at(text, at); ++at) power.exponent += text[at];
  power.end = at;
  return power;
}

/// What makes the 10 before `at` a power: ^-2, ^(-2), ^{-2}, **-2, ⁻².
std::optional<Power> marked_power(std::string_view text, std::size_t at) {
  std::size_t const sign = past_blanks(text, at);
  std::size_t const length = starts(text, sign, "^") ? 1 : starts(text, sign, "**") ? 2 : 0;
  if (length > 0) {
    std::size_t inside = past_blanks(text, sign + length);
    bool const bracket = starts(text, inside, "(") || starts(text, inside, "{");
    if (bracket) inside = past_blanks(text, inside + 1);
    auto power = signed_digits(text, inside);
    if (!power || !bracket) return power;
    power->end = past_blanks(text, power->end);
    if (!starts(text, power->end, ")") && !starts(text, power->end, "}")) return std::nullopt;
    ++power->end;
    return power;
  }
  std::string raised;
  bool more = true;
  while (more) {
    more = false;
    for (auto const& [mark, plain] : superscripts) {
      if (!starts(text, at, mark)) continue;
      raised += plain;
      at += mark.size();
      more = true;
    }
  }
  auto power = signed_digits(raised, 0);
  if (!power || power->end != raised.size()) return std::nullopt;
  power->end = at;
  return power;
}

/// A full stop for a sign of multiplication, before a power of ten only: "8.2 . 10^-5", "8.2.10^-5".
std::optional<Power> power_behind_a_dot(std::string_view text, std::size_t at) {
  std::size_t const dot = past_blanks(text, at);
  if (!starts(text, dot, ".")) return std::nullopt;
  std::size_t const ten = past_blanks(text, dot + 1);
  return starts(text, ten, "10") ? marked_power(text, ten + 2) : std::nullopt;
}

/// The power of ten behind a mantissa that ends at `at`: e-2, x10^-2, x10-2, " 10^-2".
std::optional<Power> power_of_ten(std::string_view text, std::size_t at) {
  std::size_t const sign = past_blanks(text, at);
  if (starts(text, sign, "e") || starts(text, sign, "E")) return signed_digits(text, sign + 1);
  if (auto const power = power_behind_a_dot(text, at)) return power;
  std::size_t ten = sign;
  for (auto const times : {"x"sv, "X"sv, "×"sv, "·"sv, "*"sv}) {
    if (!starts(text, sign, times)) continue;
    ten = past_blanks(text, sign + times.size());
    break;
  }
  if (!starts(text, ten, "10")) return std::nullopt;
  if (ten == sign && sign == at) return std::nullopt;  // the digits of the mantissa itself
  if (auto const power = marked_power(text, ten + 2)) return power;
  // A raised exponent that fell down on the way: only with its sign, and only behind a sign of multiplication; "x 103" may be a
  // product.
  std::size_t const fallen = past_blanks(text, ten + 2);
  if (ten == sign || (!starts(text, fallen, "-") && !starts(text, fallen, "+"))) return std::nullopt;
  return signed_digits(text, fallen);
}

/// End of the digits and marks of a mantissa that begins at `at` (behind its sign).
std::size_t mantissa_end(std::string_view text, std::size_t at) {
  std::size_t run = 0;  // digits since the last blank or mark
  bool marked = false;  // a mark was seen
  bool grouped = false;
  std::size_t const begin = at;
  while (at < text.size()) {
    char const c = text[at];
    if ((c == '.' || c == ' ') && power_behind_a_dot(text, at)) break;
    if (c == ' ' && text.substr(begin, at - begin) == "0" && starts(text, at, " . ") && digit_at(text, at + 3)) {
      at += 2;  // "0 . 144": nought times something is no answer, so that it is the decimal mark
      marked = true;
      run = 0;
      ++at;
    } else if (is_digit(c)) {
      ++run;
      ++at;
    } else if (c == '.' || c == ',') {
      // A mark belongs to the number before a digit; alone at its end ("1200.") if it is the first and not one of several dots.
      bool const at_its_end = c == '.' && !marked && run > 0 && !starts(text, at + 1, ".");
      if (!digit_at(text, at + 1) && !at_its_end) break;
      marked = true;
      run = 0;
      ++at;
    } else if (c == ' ') {
      bool const three = digit_at(text, at + 1) && digit_at(text, at + 2) && digit_at(text, at + 3) && !digit_at(text, at + 4);
      bool const fits = grouped || marked ? run == 3 : run >= 1 && run <= 3;
      if (!three || !fits) break;
      grouped = true;
      run = 0;
      ++at;
    } else {
      break;
    }
  }
  return at;
}

/// True for digits in groups parted by `mark`: 1,234,567.
bool in_groups(std::string_view digits, char mark) {
  auto const first = digits.find(mark);
  if (first == std::string_view::npos || first == 0 || first > 3 || digits[0] == '0') return false;
  for (std::size_t at = first; at < digits.size(); at += 4) {
    if (digits[at] != mark || at + 4 > digits.size()) return false;
    for (std::size_t i = at + 1; i < at + 4; ++i)
      if (!is_digit(digits[i])) return false;
  }
  return true;
}

std::string without(std::string_view text, char mark) {
  std::string result(text);
  result.erase(std::remove(result.begin(), result.end(), mark), result.end());
  return result;
}

/// One way, or two, to read the marks of a mantissa; each with a point for its decimal mark.
struct Readings {
  std::string first, other;
  std::string note;
};

std::optional<Readings> readings(std::string const& body, bool has_power, DecimalMark mark) {
  auto const commas = std::count(body.begin(), body.end(), ',');
  auto const points = std::count(body.begin(), body.end(), '.');
  if (commas + points == 0) return Readings{body, "", ""};
  auto const last = body.find_last_of(".,");
  char const decimal = body[last];
  char const group = decimal == ',' ? '.' : ',';
  bool const by_comma = decimal == ',';
  bool const courses_own = by_comma == (mark == DecimalMark::comma);
  std::string const note = courses_own ? "" : by_comma ? "decimal-comma" : "decimal-point";
  std::string as_decimal = body;
  as_decimal[last] = '.';
  if (commas > 0 && points > 0) {  // 1,720.5 or 1.720,5: the last mark is the decimal one
    if (std::count(body.begin(), body.end(), decimal) != 1 || !in_groups(std::string_view(body).substr(0, last), group))
      return std::nullopt;
    return Readings{without(std::string_view(body).substr(0, last), group) + as_decimal.substr(last), "", by_comma ? note : ""};
  }
  if (commas + points > 1) {  // 1,234,567
    if (!in_groups(body, decimal)) return std::nullopt;
    return Readings{without(body, decimal), "", ""};
  }
  // One mark. Before exactly three digits, and where no power follows, it may part thousands.
  if (courses_own || has_power || !in_groups(body, decimal)) return Readings{as_decimal, "", by_comma ? note : ""};
  // The course's point makes "1,720" first of all a number with a group; a point under a course with a comma is first of all a
  // calculator's.
  if (by_comma) return Readings{without(body, ','), as_decimal, note};
  return Readings{as_decimal, without(body, '.'), note};
}

}  // namespace

bool begins_number(std::string_view text) {
  std::size_t const at = starts(text, 0, "-") || starts(text, 0, "+") ? 1 : 0;
  if (digit_at(text, at)) return true;
  return (starts(text, at, ".") || starts(text, at, ",")) && digit_at(text, at + 1);
}

Result<NumberWritten> read_written_number(std::string_view text, DecimalMark mark) {
  if (!begins_number(text)) return Fault{"not-a-number", "no number", "a number", 0};
  bool const negative = text[0] == '-';
  std::size_t const begin = negative || text[0] == '+' ? 1 : 0;
  std::size_t end = mantissa_end(text, begin);
  std::string const body = without(text.substr(begin, end - begin), ' ');
  auto power = power_of_ten(text, end);
  auto const ways = readings(body, power.has_value(), mark);
  if (!ways) return Fault{"marks-do-not-fit", "the commas and points do not fit a number", "one decimal mark", 0};
  std::string first = ways->first;
  if (!power && body == "10") {  // "10^-3" on its own
    power = marked_power(text, end);
    if (power) first = "1";
  }
  std::string tail;
  if (power) {
    tail = "e" + power->exponent;
    end = power->end;
  }
  std::string const sign = negative ? "-" : "";
  auto const number = parse_decimal(sign + first + tail, DecimalMark::point);
  if (!ok(number)) return fault(number);
  NumberWritten result;
  result.number = value(number);
  result.number.text = std::string(text.substr(0, end));
  result.length = end;
  if (!ways->other.empty()) {
    auto const other = parse_decimal(sign + ways->other, DecimalMark::point);
    if (ok(other)) {
      result.other = value(other);
      result.other->text = result.number.text;
    }
  }
  if (!ways->note.empty()) result.notes.push_back(ways->note);
  return result;
}

}  // namespace molewright
