#include "marker/working_lines.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <boost/spirit/home/x3.hpp>
#include <cmath>
#include <utility>

#include "engine/ascii.h"
#include "engine/formula.h"
#include "engine/quantity_words.h"
#include "marker/written_number.h"

namespace molewright {
namespace {

namespace x3 = boost::spirit::x3;

// A sum of products of numbers, once units and substances are taken out: "0.15*(0.040-0.002)/2".
x3::rule<class SumRule, double> const sum = "sum";
x3::rule<class ProductRule, double> const product = "product";
x3::rule<class PowerRule, double> const power = "power";
auto const set = [](auto& context) { x3::_val(context) = x3::_attr(context); };
auto const add = [](auto& context) { x3::_val(context) += x3::_attr(context); };
auto const take = [](auto& context) { x3::_val(context) -= x3::_attr(context); };
auto const multiply = [](auto& context) { x3::_val(context) *= x3::_attr(context); };
auto const divide = [](auto& context) { x3::_val(context) /= x3::_attr(context); };
auto const raise = [](auto& context) { x3::_val(context) = std::pow(x3::_val(context), x3::_attr(context)); };
auto const sum_def = product[set] >> *(('+' >> product[add]) | ('-' >> product[take]));
auto const product_def = power[set] >> *(('*' >> power[multiply]) | ('/' >> power[divide]));
auto const power_def = (x3::double_[set] | ('(' >> sum[set] >> ')')) >> -('^' >> x3::int_[raise]);
BOOST_SPIRIT_DEFINE(sum, product, power)

constexpr std::size_t longest_line = 200, most_lines = 40;
constexpr std::size_t deepest = 20;  // brackets

/// Signs made even: × ÷ − and hard blanks become * / - and blanks.
std::string even(std::string_view text) {
  static constexpr std::array<std::pair<std::string_view, char>, 6> signs{
      {{"×", '*'}, {"÷", '/'}, {"−", '-'}, {"\u00a0", ' '}, {"≈", '='}, {"–", '-'}}};
  std::string out;
  while (!text.empty()) {
    bool replaced = false;
    for (auto const& [sign, ascii] : signs)
      if (text.starts_with(sign)) {
        out += ascii;
        text.remove_prefix(sign.size());
        replaced = true;
        break;
      }
    if (replaced) continue;
    out += text.front();
    text.remove_prefix(1);
  }
  return out;
}

/// What stands between two signs of equality: numbers, operators, and the unit of the last number.
struct Piece {
  std::string arithmetic;
  int numbers = 0, operators = 0;
  Decimal last;
  std::optional<Unit> unit;
  bool readable = true;
};

/// The length of a word that is no operator: a substance ("AgCl", "Ca(NO3)2") or a word.
std::size_t word_length(std::string_view text) {
  std::size_t n = 0, open = 0;
  while (n < text.size() && text[n] != ' ' && text[n] != '*' && text[n] != '/' && text[n] != '+') {
    if (text[n] == '(') ++open;
    if (text[n] == ')' && open-- == 0) break;
    ++n;
  }
  return n;
}

Piece read_piece(std::string_view text, DecimalMark mark) {
  Piece piece;
  std::size_t depth = 0;
  for (text = stripped(text); !text.empty(); text = stripped(text)) {
    bool const after_number = !piece.arithmetic.empty() && (piece.arithmetic.back() == ')' ||
                                                            (piece.arithmetic.back() >= '0' && piece.arithmetic.back() <= '9') ||
                                                            piece.arithmetic.back() == '.');
    if (!after_number && begins_number(text)) {
      auto const number = read_written_number(text, mark);
      if (!ok(number) || value(number).length == 0) break;
      piece.last = value(number).number;
      piece.arithmetic += fmt::format("{:.17g}", piece.last.value.to_double());
      ++piece.numbers;
      piece.unit.reset();
      text = stripped(text.substr(value(number).length));
      if (text.empty() || text.front() == '*' || text.front() == 'x') continue;
      if (auto const found = read_unit(text); ok(found) && value(found).length > 0 && text.front() != '/') {
        piece.unit = value(found).unit;
        text = text.substr(value(found).length);
      } else if (text.front() == '%') {
        piece.unit = unit("%");
        text = text.substr(1);
      }
      continue;
    }
    char const c = text.front();
    if (after_number && (c == 'x' || c == 'X') && (text.size() == 1 || !is_letter(text[1]))) {
      piece.arithmetic += '*';
      ++piece.operators;
    } else if (c == '*' || c == '/' || c == '+' || c == '-' || c == '^') {
      piece.arithmetic += c;
      ++piece.operators;
    } else if (c == '(' || c == ')') {
      if (c == '(' && ++depth > deepest) break;
      piece.arithmetic += c;
    } else if (after_number) {
      auto const word = std::max<std::size_t>(1, word_length(text));
      text = text.substr(std::min(word, text.size()));
      continue;
    } else {
      break;
    }
    text.remove_prefix(1);
  }
  piece.readable = text.empty() && piece.numbers > 0;
  return piece;
}

std::optional<double> worked(std::string const& arithmetic) {
  double result = 0;
  auto first = arithmetic.begin();
  if (!x3::phrase_parse(first, arithmetic.end(), sum, x3::space, result) || first != arithmetic.end()) return std::nullopt;
  return std::isfinite(result) ? std::optional(result) : std::nullopt;
}

/// "left" and "used" in the words that people use for them; empty for any other.
std::string_view word_of_amount(std::string_view text) {
  auto const usual = usual_word(stripped(text));
  return usual == "left" || usual == "used" ? usual : std::string_view();
}

/// "n(AgCl)", "c1", "moles of AgCl", "n(HCl, used)", "used": the symbol, the substance and the word.
void read_quantity(std::string_view text, WorkingLine& line) {
  static constexpr std::array<std::pair<std::string_view, std::string_view>, 9> words{{{"moles", "n"},
                                                                                       {"amount", "n"},
                                                                                       {"mol", "n"},
                                                                                       {"molar mass", "M"},
                                                                                       {"Mr", "M"},
                                                                                       {"mass", "m"},
                                                                                       {"volume", "V"},
                                                                                       {"concentration", "c"},
                                                                                       {"conc", "c"}}};
  text = stripped(text);
  line.word = word_of_amount(text);
  if (!line.word.empty()) return;
  std::string_view rest;
  for (auto const& [word, symbol] : words)
    if (text.starts_with(word)) {
      line.symbol = symbol;
      rest = text.substr(word.size());
      break;
    }
  if (line.symbol.empty()) {
    std::size_t n = 0;
    while (n < text.size() && is_letter(text[n])) ++n;
    line.symbol = std::string(text.substr(0, n));
    for (; n < text.size() && text[n] >= '0' && text[n] <= '9' && line.stage < 100; ++n)
      line.stage = 10 * line.stage + (text[n] - '0');
    rest = text.substr(n);
  }
  rest = stripped(rest);
  if (rest.starts_with("of ")) rest = stripped(rest.substr(3));
  if (rest.size() > 2 && rest.front() == '(' && rest.back() == ')') rest = rest.substr(1, rest.size() - 2);
  line.word = word_of_amount(rest);
  if (!line.word.empty()) return;
  if (auto const comma = rest.find(','); comma != std::string_view::npos) {
    line.word = word_of_amount(rest.substr(comma + 1));
    rest = rest.substr(0, comma);
  }
  if (rest.empty()) return;
  if (auto const formula = parse_formula(std::string(stripped(rest))); ok(formula)) {
    auto bare = value(formula);
    bare.state = State::none;
    line.substance = plain(bare);
  }
}

/// The sum in "left 6.00 - 3.00", behind a name with no sign of equality between them; empty for none.
std::string_view sum_behind_name(std::string_view text, DecimalMark mark) {
  for (auto at = text.find(' '); at != std::string_view::npos; at = text.find(' ', at + 1)) {
    auto const rest = stripped(text.substr(at));
    if (!begins_number(rest)) continue;
    auto const piece = read_piece(rest, mark);
    return piece.readable && piece.operators > 0 ? text.substr(at) : std::string_view();
  }
  return {};
}

std::optional<WorkingLine> read_line(std::string_view text, DecimalMark mark) {
  WorkingLine line;
  line.text = std::string(text);
  auto const made_even = even(text);
  std::vector<std::string_view> parts;
  std::string_view rest = made_even;
  for (auto at = rest.find('='); at != std::string_view::npos; at = rest.find('=')) {
    parts.push_back(stripped(rest.substr(0, at)));
    rest.remove_prefix(at + 1);
  }
  parts.push_back(stripped(rest));
  auto const last = read_piece(parts.back(), mark);
  if (!last.readable) return std::nullopt;
  bool const named = parts.size() > 1 && !parts.front().empty() && is_letter(parts.front().front());
  if (named) {
    auto const behind = sum_behind_name(parts.front(), mark);
    read_quantity(parts.front().substr(0, parts.front().size() - behind.size()), line);
    parts.front() = behind;
  }
  auto const comes_to = worked(last.arithmetic);
  if (!comes_to) return std::nullopt;
  line.unit = last.unit;
  if (last.operators == 0 && last.numbers == 1) {
    line.number = last.last;
  } else {
    auto const number = parse_decimal(fmt::format("{:.3e}", *comes_to));
    if (!ok(number)) return std::nullopt;
    line.number = value(number);
    line.unit.reset();
  }
  double const own = line.number.value.to_double();
  for (std::size_t p = 0; p + 1 < parts.size(); ++p) {
    auto const piece = read_piece(parts[p], mark);
    if (!piece.readable || piece.operators == 0) continue;
    auto const before = worked(piece.arithmetic);
    if (before && !line.comes_to) line.comes_to = before;
    // What stands for its numbers may have more digits than they were written with.
    double const rounding = std::max(0.003 * std::abs(own), 0.9 * Rational::power_of_ten(line.number.last_place).to_double());
    if (before && std::abs(*before - own) > rounding) {
      // A change of unit on the way ("0.006 mol = 6 mmol") is no slip of arithmetic.
      double const ratio = std::abs(own) > 0 ? std::log10(std::abs(*before / own)) / 3 : 0;
      if (std::round(ratio) == 0 || std::abs(ratio - std::round(ratio)) > 0.003) line.worked_out = false;
    }
  }
  return line;
}

/// "n = 0.10 × 0.25" and "= 0.025 mol" below it are one line, and so are "n = 0.10 × 0.25 =" and "0.025 mol".
bool goes_on(std::string_view before, std::string_view line) {
  constexpr std::string_view about = "≈";
  bool const begins = line.starts_with('=') || line.starts_with(about);
  return before.size() + line.size() < longest_line && !before.empty() && begins != before.ends_with('=');
}
}  // namespace

std::vector<WorkingLine> read_working_lines(std::string_view text, DecimalMark mark) {
  std::vector<std::string> joined;
  while (!text.empty() && joined.size() <= most_lines) {
    auto const end = text.find_first_of(";\n\r");
    auto const one = stripped(text.substr(0, end));
    if (!one.empty() && one.size() <= longest_line) {
      if (!joined.empty() && goes_on(joined.back(), one))
        joined.back() += ' ' + std::string(one);
      else
        joined.emplace_back(one);
    }
    if (end == std::string_view::npos) break;
    text.remove_prefix(end + 1);
  }
  std::vector<WorkingLine> lines;
  for (auto const& one : joined)
    if (auto line = read_line(one, mark); line && lines.size() < most_lines) lines.push_back(std::move(*line));
  return lines;
}

}  // namespace molewright
