#include "engine/decimal.h"

#include <array>
#include <utility>
#include <vector>

#include "engine/ascii.h"

namespace molewright {
namespace {

constexpr std::size_t most_digits = 100;
constexpr int greatest_exponent = 99;

/// Reads pieces of one text from the left.
struct Cursor {
  std::string_view text;
  std::size_t at = 0;

  char peek() const { return at < text.size() ? text[at] : '\0'; }
  bool eat(std::string_view piece) {
    if (text.substr(at, piece.size()) != piece) return false;
    at += piece.size();
    return true;
  }
  template <std::size_t N>
  bool eat_one(std::array<std::string_view, N> const& pieces) {
    for (auto const piece : pieces) {
      if (eat(piece)) return true;
    }
    return false;
  }
};

constexpr std::array<std::string_view, 4> blanks{" ", "\u00A0", "\u2009", "\u202F"};
constexpr std::array<std::string_view, 3> minus_signs{"-", "\u2212", "\u2013"};  // word processors make an en dash of a hyphen
constexpr std::array<std::string_view, 6> times_signs{"×", "x", "X", "*", "·", "⋅"};
constexpr std::array<std::string_view, 10> superscripts{"⁰", "¹", "²", "³", "⁴", "⁵", "⁶", "⁷", "⁸", "⁹"};

/// A number in pieces, before it is given a value.
struct Pieces {
  bool negative = false;
  std::string whole, fraction;                             ///< digits only
  std::vector<std::size_t> whole_breaks, fraction_breaks;  ///< a blank stood before these digits
  bool mark = false;
  bool power_only = false;  ///< "10^-3": the digits are then 1
  std::string exponent_digits;
  bool exponent_negative = false;
  std::size_t exponent_at = 0;
  std::size_t length = 0;

  bool has_exponent() const { return !exponent_digits.empty(); }
  /// Beyond the limit any size will do.
  int exponent() const {
    int size = 0;
    for (char const digit : exponent_digits) size = size > greatest_exponent ? size : size * 10 + (digit - '0');
    return exponent_negative ? -size : size;
  }
};

/// Digits with blanks between groups of three. A first group of the whole part may be shorter, but is no single 0.
void read_digits(Cursor& cursor, bool whole, std::string& digits, std::vector<std::size_t>& breaks) {
  while (is_digit(cursor.peek())) digits += cursor.text[cursor.at++];
  bool const may_go_on = whole ? digits.size() <= 3 && digits != "0" : digits.size() == 3;
  if (digits.empty() || !may_go_on) return;
  for (;;) {
    Cursor ahead = cursor;
    if (!ahead.eat_one(blanks)) return;
    std::size_t count = 0;
    while (ahead.at + count < ahead.text.size() && is_digit(ahead.text[ahead.at + count])) ++count;
    if (count != 3) return;
    breaks.push_back(digits.size());
    digits += ahead.text.substr(ahead.at, 3);
    ahead.at += 3;
    cursor = ahead;
  }
}

/// A signed whole number in ordinary digits; nothing is taken where there is none.
bool read_exponent(Cursor& cursor, bool sign_needed, Pieces& pieces) {
  Cursor ahead = cursor;
  bool const negative = ahead.eat_one(minus_signs);
  if (!negative && !ahead.eat("+") && sign_needed) return false;
  if (!is_digit(ahead.peek())) return false;
  pieces.exponent_negative = negative;
  pieces.exponent_at = cursor.at;
  while (is_digit(ahead.peek())) pieces.exponent_digits += ahead.text[ahead.at++];
  cursor = ahead;
  return true;
}

bool read_raised_exponent(Cursor& cursor, Pieces& pieces) {
  Cursor ahead = cursor;
  bool const negative = ahead.eat("⁻");
  if (!negative) ahead.eat("⁺");
  std::string digits;
  for (bool more = true; more;) {
    more = false;
    for (std::size_t i = 0; i < superscripts.size() && !more; ++i) {
      if (!ahead.eat(superscripts[i])) continue;
      digits += static_cast<char>('0' + i);
      more = true;
    }
  }
  if (digits.empty()) return false;
  pieces.exponent_negative = negative;
  pieces.exponent_at = cursor.at;
  pieces.exponent_digits = digits;
  cursor = ahead;
  return true;
}

/// What follows the 10: ^-3, **-3, ⁻³, and -3 where `bare` (a sheet that lost its superscripts).
bool read_power(Cursor& cursor, bool bare, Pieces& pieces) {
  Cursor ahead = cursor;
  bool const found = ahead.eat("^") || ahead.eat("**")
                         ? read_exponent(ahead, false, pieces)
                         : read_raised_exponent(ahead, pieces) || (bare && read_exponent(ahead, true, pieces));
  if (found) cursor = ahead;
  return found;
}

void read_scale(Cursor& cursor, Pieces& pieces) {
  Cursor ahead = cursor;
  if (ahead.eat("e") || ahead.eat("E")) {
    if (read_exponent(ahead, false, pieces)) cursor = ahead;
    return;
  }
  while (ahead.eat_one(blanks)) {
  }
  if (!ahead.eat_one(times_signs)) return;
  while (ahead.eat_one(blanks)) {
  }
  if (ahead.eat("10") && read_power(ahead, true, pieces)) cursor = ahead;
}

bool read_pieces(std::string_view text, DecimalMark mark, Pieces& pieces, std::size_t& fault_at) {
  Cursor cursor{text};
  pieces.negative = cursor.eat_one(minus_signs);
  if (!pieces.negative) cursor.eat("+");
  fault_at = cursor.at;
  read_digits(cursor, true, pieces.whole, pieces.whole_breaks);
  char const sign = cursor.peek();
  char const after = cursor.at + 1 < text.size() ? text[cursor.at + 1] : '\0';
  bool const trailing_point = sign == '.' && !pieces.whole.empty();
  if ((sign == '.' || (sign == ',' && mark == DecimalMark::comma)) && (is_digit(after) || trailing_point)) {
    ++cursor.at;
    pieces.mark = true;
    read_digits(cursor, false, pieces.fraction, pieces.fraction_breaks);
  }
  if (pieces.whole.empty() && pieces.fraction.empty()) return false;
  if (pieces.whole == "10" && !pieces.mark && read_power(cursor, false, pieces)) {
    pieces.power_only = true;
    pieces.whole = "1";
  } else {
    read_scale(cursor, pieces);
  }
  pieces.length = cursor.at;
  return true;
}

/// The digits with `separator` at the breaks.
std::string grouped(std::string const& digits, std::vector<std::size_t> const& breaks, std::string_view separator) {
  std::string result;
  std::size_t next = 0;
  for (std::size_t i = 0; i < digits.size(); ++i) {
    if (next < breaks.size() && breaks[next] == i) {
      result += separator;
      ++next;
    }
    result += digits[i];
  }
  return result;
}

std::string_view trimmed(std::string_view text, std::size_t& cut) {
  Cursor cursor{text};
  while (cursor.eat_one(blanks) || cursor.eat("\t")) {
  }
  cut = cursor.at;
  text.remove_prefix(cut);
  for (bool more = true; more;) {
    more = false;
    for (auto const blank : {blanks[0], blanks[1], blanks[2], blanks[3], std::string_view("\t")}) {
      if (!text.ends_with(blank)) continue;
      text.remove_suffix(blank.size());
      more = true;
    }
  }
  return text;
}

}  // namespace

Result<DecimalRead> read_decimal(std::string_view text, DecimalMark mark) {
  Pieces pieces;
  std::size_t fault_at = 0;
  if (!read_pieces(text, mark, pieces, fault_at)) {
    return Fault{"not-a-number", text.empty() ? "the number is missing" : "not a number", "a digit", fault_at};
  }
  std::string const digits = pieces.whole + pieces.fraction;
  if (digits.size() > most_digits) {
    return Fault{"number-too-long", "a number of " + std::to_string(digits.size()) + " digits",
                 "at most " + std::to_string(most_digits), 0};
  }
  int const exponent = pieces.exponent();
  if (exponent > greatest_exponent || exponent < -greatest_exponent) {
    return Fault{"exponent-too-large", "a power of ten beyond the limit", "an exponent from -99 to 99", pieces.exponent_at};
  }
  DecimalRead read;
  read.length = pieces.length;
  Decimal& number = read.number;
  number.last_place = exponent - static_cast<int>(pieces.fraction.size());
  number.value = Rational::from_digits(digits) * Rational::power_of_ten(number.last_place);
  if (pieces.negative) number.value = -number.value;
  number.text = std::string(text.substr(0, pieces.length));
  auto const first = digits.find_first_not_of('0');
  if (first != std::string::npos) {
    number.figures = static_cast<int>(digits.size() - first);
    auto const last = pieces.mark ? digits.size() - 1 : digits.find_last_not_of('0');
    number.certain_figures = static_cast<int>(last - first + 1);
  }
  return read;
}

Result<Decimal> parse_decimal(std::string_view text, DecimalMark mark) {
  std::size_t cut = 0;
  auto const inner = trimmed(text, cut);
  auto read = read_decimal(inner, mark);
  if (!ok(read)) {
    Fault found = fault(read);
    found.offset += cut;
    return found;
  }
  std::size_t const end = value(read).length;
  if (end == inner.size()) return std::move(value(read).number);
  if (inner[end] == ',')
    return Fault{"not-a-number", "a comma inside a number", "a decimal point or the end of the number", cut + end};
  return Fault{"not-a-number", "not a number to its end", "the end of the number", cut + end};
}

PrintedNumber print_as_typed(Decimal const& number, DecimalMark mark) {
  Pieces pieces;
  std::size_t fault_at = 0;
  // Typed text may carry either mark; a comma is only there where the course has one.
  if (number.text.empty() || !read_pieces(number.text, DecimalMark::comma, pieces, fault_at)) {
    return print_to_place(number.value, number.last_place, Rounding::half_up, mark);
  }
  PrintedNumber printed;
  std::string const sign = mark == DecimalMark::comma && !pieces.fraction.empty() ? "," : ".";
  auto const digits = [&](std::string_view separator) {
    std::string result = pieces.whole.empty() ? "0" : grouped(pieces.whole, pieces.whole_breaks, separator);
    if (pieces.mark) result += sign + grouped(pieces.fraction, pieces.fraction_breaks, separator);
    return result;
  };
  printed.plain = (pieces.negative ? "-" : "") + digits("");
  printed.pretty = pieces.negative ? "\u2212" : "";
  if (!pieces.power_only) printed.pretty += digits("\u202F");
  if (pieces.has_exponent()) {
    printed.plain += (pieces.exponent_negative ? "e-" : "e") + pieces.exponent_digits;
    printed.pretty += pieces.power_only ? "10" : " × 10";
    if (pieces.exponent_negative) printed.pretty += "⁻";
    for (char const digit : pieces.exponent_digits) printed.pretty += superscripts[static_cast<std::size_t>(digit - '0')];
  }
  return printed;
}

}  // namespace molewright
