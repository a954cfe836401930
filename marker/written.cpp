#include "marker/written.h"

#include <algorithm>
#include <array>
#include <utility>

#include "engine/ascii.h"
#include "engine/equation.h"
#include "marker/table.h"
#include "marker/written_measure.h"

namespace molewright {
namespace {
using namespace std::string_view_literals;

constexpr std::size_t longest_answer = 1000;  // bytes; no answer to a question of ours comes near
constexpr std::size_t longest_raw = 200;      // code points kept for printing

std::string cut(std::string_view cell) {
  // A code point has at most four bytes (a broken byte is one): what lies further is not looked at, so that a long cell costs no
  // time.
  auto const text = valid_utf8(cell.substr(0, 4 * (longest_raw + 1)));
  std::size_t points = 0;
  for (std::size_t i = 0; i < text.size(); ++i) {
    if ((static_cast<unsigned char>(text[i]) & 0xC0U) == 0x80U) continue;
    if (points++ == longest_raw) return text.substr(0, i) + "…";
  }
  return text;
}

/// Signs that mean one thing and come in many shapes, as one: blanks, minus signs, quotation marks, dots set in the middle,
/// full-width forms; marks of no width go.
std::string evened(std::string_view text) {
  static constexpr std::array<std::pair<std::string_view, std::string_view>, 33> shapes = {
      {{"\xC2\xA0", " "}, {"\u2002", " "},  {"\u2003", " "}, {"\u2005", " "}, {"\u2007", " "}, {"\u2008", " "}, {"\u2009", " "},
       {"\u200A", " "},   {"\u202F", " "},  {"\u205F", " "}, {"\u3000", " "}, {"\t", " "},     {"\u2212", "-"}, {"\u2010", "-"},
       {"\u2011", "-"},   {"\u2012", "-"},  {"\u2013", "-"}, {"\u2014", "-"}, {"\u2018", "'"}, {"\u2019", "'"}, {"\u201C", "\""},
       {"\u201D", "\""},  {"\u201E", "\""}, {"\u2215", "/"}, {"\u2044", "/"}, {"\u22C5", "·"}, {"\u2219", "·"}, {"\u2715", "×"},
       {"\u2716", "×"},   {"\u200B", ""},   {"\uFEFF", ""},  {"\uFE0F", ""},  {"\uFE0E", ""}}};
  std::string result;
  for (std::size_t at = 0; at < text.size();) {
    if (static_cast<unsigned char>(text[at]) < 0x80U && text[at] != '\t' && text[at] != '\r') {
      result += text[at++];
      continue;
    }
    auto const shape = std::find_if(shapes.begin(), shapes.end(),
                                    [&](auto const& pair) { return text.substr(at, pair.first.size()) == pair.first; });
    if (shape != shapes.end()) {
      result += shape->second;
      at += shape->first.size();
      continue;
    }
    auto const next = [&](std::size_t i) -> unsigned {
      return at + i < text.size() ? static_cast<unsigned char>(text[at + i]) : 0U;
    };
    if (next(0) == 0xEFU && (next(1) == 0xBCU || next(1) == 0xBDU)) {  // U+FF01 to U+FF5E are ! to ~ for wide scripts
      unsigned const point = 0xF000U | ((next(1) & 0x3FU) << 6U) | (next(2) & 0x3FU);
      if (point >= 0xFF01U && point <= 0xFF5EU) {
        result += static_cast<char>(point - 0xFF01U + '!');
        at += 3;
        continue;
      }
    }
    if (text.substr(at, 2) == "\r\n") ++at;
    result += text[at] == '\r' ? '\n' : text[at];
    ++at;
  }
  return result;
}

bool holds_control(std::string_view text) {
  return std::any_of(text.begin(), text.end(),
                     [](char c) { return (static_cast<unsigned char>(c) < 0x20U && c != '\n') || c == 0x7F; });
}

/// Without the brackets or quotation marks that hold the whole text.
std::string_view unwrapped(std::string_view text) {
  while (text.size() > 2) {
    bool const quoted = (text.front() == '"' || text.front() == '\'') && text.back() == text.front();
    char const open = text.front(), close = open == '(' ? ')' : ']';
    bool bracketed = (open == '(' || open == '[') && text.back() == close;
    int depth = 0;
    for (std::size_t i = 0; bracketed && i + 1 < text.size(); ++i) {
      depth += text[i] == open ? 1 : text[i] == close ? -1 : 0;
      bracketed = depth > 0;
    }
    if (!quoted && !bracketed) return text;
    text = trimmed(text.substr(1, text.size() - 2));
  }
  return text;
}

constexpr std::array<std::string_view, 4> ticks{"✓", "✔", "☑", "✅"};

/// Without ticks before and behind an answer.
std::string_view without_ticks(std::string_view text) {
  for (bool more = true; more;) {
    more = false;
    for (auto const tick : ticks) {
      bool const front = text.starts_with(tick);
      if (text.size() <= tick.size() || (!front && !text.ends_with(tick))) continue;
      text = trimmed(front ? text.substr(tick.size()) : text.substr(0, text.size() - tick.size()));
      more = true;
    }
  }
  return text;
}

/// Without the marks of bold and slanted print, as messages and notes are typed: "**6.58** mmol". A pair of them stands round
/// words: never within a number (10**-2), nor with a blank inside of it.
std::string without_emphasis(std::string text) {
  for (auto const mark : {"**"sv, "__"sv, "*"sv, "_"sv, "`"sv}) {
    auto const open = text.find(mark), close = open == std::string::npos ? open : text.find(mark, open + mark.size());
    if (close == std::string::npos || close == open + mark.size() || text.find(mark, close + mark.size()) != std::string::npos)
      continue;
    auto const behind = close + mark.size();
    bool const before_words =
        (open == 0 || std::string_view(" =([").find(text[open - 1]) != std::string_view::npos) && text[open + mark.size()] != ' ';
    bool const behind_words = text[close - 1] != ' ' &&
                              (behind == text.size() || std::string_view(" =)].,;").find(text[behind]) != std::string_view::npos);
    if (before_words && behind_words) text.erase(close, mark.size()).erase(open, mark.size());
  }
  return text;
}

bool one_of(std::string_view word, std::initializer_list<std::string_view> words) {
  return std::find(words.begin(), words.end(), word) != words.end();
}

/// The entries that a teacher types in place of an answer; nothing where it is none of them.
std::optional<Written> entry(std::string_view text) {
  Written result;
  std::string word = lowered(text);
  while (word.size() > 1 && (word.back() == '.' || word.back() == '!')) word.pop_back();
  if (one_of(word, {"right", "correct", "ok", "okay"}) || std::find(ticks.begin(), ticks.end(), word) != ticks.end()) {
    result.kind = Written::Kind::ticked;
    return result;
  }
  if (one_of(word, {"absent", "abs"})) {
    result.kind = Written::Kind::absent;
    return result;
  }
  bool const dash = text.find_first_not_of('-') == std::string_view::npos;
  if (dash) {
    add_note(result, "dash");
    return result;
  }
  bool const alone = text.size() == 1 || (text.size() == 2 && std::string_view(").:").find(text[1]) != std::string_view::npos);
  if (alone && is_letter(text[0])) {
    result.kind = Written::Kind::letter;
    result.letter = static_cast<char>(lower(text[0]) - 'a' + 'A');
    return result;
  }
  if (one_of(word, {"\"", "\"\"", "''", "'", "〃", "ditto", "do"}))
    return unreadable("a ditto mark, which does not say which answer is meant");
  if (text.size() > 2 && text[0] == '#' && (text.back() == '!' || text.back() == '?' || text == "#N/A"))
    return unreadable("a spreadsheet's error, not an answer");
  return std::nullopt;
}

/// Pieces of `text` between signs of equality, or behind "name: ".
std::vector<std::string_view> sides(std::string_view text) {
  std::vector<std::string_view> result;
  std::size_t begin = 0;
  for (std::size_t at = 0; at < text.size();) {
    std::size_t length = 0;
    bool const may_be_a_sign =
        std::string_view("=-:").find(text[at]) != std::string_view::npos || static_cast<unsigned char>(text[at]) >= 0x80U;
    for (auto const sign : {"=>"sv, "->"sv, "="sv, "≈"sv, "≃"sv, "≅"sv, "⇒"sv, "→"sv, ": "sv})
      if (may_be_a_sign && length == 0 && text.substr(at, sign.size()) == sign) length = sign.size();
    if (length == 0) {
      ++at;
      continue;
    }
    result.push_back(text.substr(begin, at - begin));
    at += length;
    begin = at;
  }
  result.push_back(text.substr(begin));
  return result;
}

/// Pieces of `text` that stand beside each other: line breaks, ";", ", " (outside brackets), "or", "and".
std::vector<std::string_view> statements(std::string_view text) {
  std::vector<std::string_view> result;
  std::string const low = lowered(text);
  std::size_t begin = 0;
  int depth = 0;
  for (std::size_t at = 0; at < text.size();) {
    char const c = text[at];
    depth += c == '(' || c == '[' ? 1 : c == ')' || c == ']' ? -1 : 0;
    std::size_t length = c == '\n' || c == ';' ? 1 : 0;
    if (depth <= 0 && c == ',' && text.substr(at + 1, 1) == " ") length = 2;
    for (auto const word : {" or "sv, " and "sv, " & "sv})
      if (c == ' ' && std::string_view(low).substr(at, word.size()) == word) length = word.size();
    if (length == 0) {
      ++at;
      continue;
    }
    result.push_back(trimmed(text.substr(begin, at - begin)));
    at += length;
    begin = at;
  }
  result.push_back(trimmed(text.substr(begin)));
  result.erase(std::remove_if(result.begin(), result.end(), [](std::string_view piece) { return piece.empty(); }), result.end());
  return result;
}

bool is_equation(std::string_view text) {
  bool const arrow = text.find("->") != std::string_view::npos || text.find("→") != std::string_view::npos ||
                     text.find("⇌") != std::string_view::npos;
  bool const sum = text.find('+') != std::string_view::npos && text.find('=') != std::string_view::npos;
  return (arrow || sum) && ok(parse_equation(text));
}

Written two_answers() {
  Written result = unreadable("two answers");
  add_note(result, "two-answers");
  return result;
}

/// "n = m/M = 0.0120 mol": the last side counts, and no side before it may give another value.
Written read_statement(std::string_view text, DecimalMark mark) {
  auto const parts = sides(text);
  Written last = read_measure(unwrapped(trimmed(parts.back())), mark);
  if (parts.size() == 1) return last;
  if (trimmed(parts.back()).empty()) return unreadable("nothing after the sign of equality");
  bool const formula_of_a_spreadsheet = trimmed(parts.front()).empty() && parts.size() == 2 && text.front() == '=';
  if (formula_of_a_spreadsheet && last.kind != Written::Kind::number)
    return last.kind == Written::Kind::unreadable && last.why == "a sum that is not worked out"
               ? last
               : unreadable("a spreadsheet's formula, not an answer");
  if (last.kind == Written::Kind::words && parts.size() == 2) {  // "1.72 g = m(AgCl)"
    Written const first = read_measure(unwrapped(trimmed(parts.front())), mark);
    if (first.kind == Written::Kind::number) return first;
  }
  if (last.kind != Written::Kind::number) return last;
  for (std::size_t i = 0; i + 1 < parts.size(); ++i) {
    Written const earlier = read_measure(unwrapped(trimmed(parts[i])), mark);
    if (earlier.kind == Written::Kind::number && !agree(last, earlier)) return two_answers();
  }
  return last;
}

/// "n(HCl) " of "n(HCl) = 0.0300 mol", without blanks; empty where no name stands there.
std::string name_of_line(std::string_view line) {
  auto const front = sides(line).front();
  std::string name;
  for (char const c : front)
    if (c != ' ') name += c;
  return front.size() == line.size() || name.empty() || !is_letter(name.front()) ? std::string() : name;
}

/// "(a) 5 g", "b) ...", "c: ...": the answer to a part rather than a line of working.
bool begins_with_part(std::string_view line) {
  std::size_t at = line.starts_with('(') ? 1 : 0;
  if (at >= line.size() || !is_letter(line[at])) return false;
  ++at;
  return at < line.size() && (line[at] == ')' || (line[at] == ':' && !line.starts_with('(')));
}

/// Whether a sum stands in `text`, such as "0.150 × 0.0400" or "8.63 g/287.5 g/mol": a sign between a number (with or without its
/// unit) and another. `minus`: a dash is such a sign, too, and not that of a range.
bool is_sum(std::string_view text, bool minus, DecimalMark mark) {
  if (read_measure(unwrapped(trimmed(text)), mark).kind == Written::Kind::number) return false;  // "3.4x10-2", "5 g/100 mL"
  bool number = false;
  for (std::size_t at = 0; at < text.size(); ++at) {
    number = number || is_digit(text[at]);
    for (auto const sign : {"*"sv, "/"sv, "+"sv, "×"sv, "÷"sv, "·"sv, "x"sv, "X"sv, "-"sv}) {
      if (!number || text.substr(at, sign.size()) != sign || (sign == "-" && !minus)) continue;
      auto const behind = stripped(text.substr(at + sign.size()));
      if (!behind.empty() && (is_digit(behind.front()) || behind.front() == '(' || behind.front() == '.')) return true;
    }
  }
  return false;
}

bool holds_sum(std::string_view line, DecimalMark mark) {
  auto const parts = sides(line);
  return std::any_of(parts.begin(), parts.end(), [&](std::string_view side) { return is_sum(side, parts.size() > 1, mark); });
}

/// The answer behind lines of working ("n = 8.63/287.5 = 0.0300; 0.0300 mol"), which become its working; nothing where they are
/// not plainly that.
std::optional<Written> behind_lines(std::string_view text, DecimalMark mark) {
  auto const end = text.find_last_of(";\n");
  if (end == std::string_view::npos) return std::nullopt;
  auto const last = trimmed(text.substr(end + 1));
  auto const lines = trimmed(text.substr(0, end));
  auto const named = name_of_line(last);
  bool sum = false;
  for (std::size_t at = 0; at <= lines.size();) {
    auto const next = std::min(lines.find_first_of(";\n", at), lines.size());
    auto const line = trimmed(lines.substr(at, next - at));
    at = next + 1;
    if (line.empty()) continue;
    bool const sum_here = holds_sum(line, mark);
    bool const plain = !begins_with_part(line) && (sum_here || !name_of_line(line).empty());
    if (!plain) return std::nullopt;
    if (!named.empty() && name_of_line(line) == named) {
      auto const here = read_statement(line, mark), there = read_statement(last, mark);
      if (here.kind == Written::Kind::number && there.kind == Written::Kind::number && !agree(here, there)) return two_answers();
    }
    sum = sum || sum_here;
  }
  if (!sum || begins_with_part(last) || statements(last).size() != 1) return std::nullopt;
  auto result = read_statement(last, mark);
  if (result.kind != Written::Kind::number && result.kind != Written::Kind::words) return std::nullopt;
  if (result.answer.empty()) result.answer = std::string(last);
  result.working = std::string(lines);
  return result;
}

Written read_statements(std::string_view text, DecimalMark mark) {
  if (auto found = behind_lines(text, mark)) return *found;
  auto const pieces = statements(text);
  if (pieces.empty()) return unreadable("no number, formula or word");
  if (pieces.size() == 1) return read_statement(pieces.front(), mark);
  std::vector<Written> read;
  for (auto const piece : pieces) read.push_back(read_statement(piece, mark));
  auto const count = [&](Written::Kind kind) {
    return std::count_if(read.begin(), read.end(), [&](Written const& each) { return each.kind == kind; });
  };
  if (count(Written::Kind::number) > 1) return two_answers();
  if (count(Written::Kind::number) == 1) return unreadable("words or a sum beside the number");
  for (auto const& each : read)
    if (each.kind == Written::Kind::unreadable) return each;
  return read.front();  // words all of them
}

/// Without "exothermic" or "endothermic" before or behind a value: they say its sign, below 0 or above. 0 for neither.
std::pair<std::string_view, int> without_word_for_sign(std::string_view text) {
  std::string const low = lowered(text);
  constexpr std::string_view between = " ,:;()";
  for (auto const& [word, sign] : {std::pair("exothermic"sv, -1), std::pair("endothermic"sv, 1)}) {
    auto const at = low.find(word);
    if (at == std::string::npos || std::none_of(text.begin(), text.end(), is_digit)) continue;
    auto const edge = [&](std::string_view rest, bool front) {
      while (!rest.empty() && between.find(front ? rest.front() : rest.back()) != std::string_view::npos)
        front ? rest.remove_prefix(1) : rest.remove_suffix(1);
      return rest;
    };
    if (at == 0 && low.size() > word.size() && between.find(text[word.size()]) != std::string_view::npos)
      return {edge(text.substr(word.size()), true), sign};
    auto const behind = edge(text.substr(at + word.size()), true);
    if (behind.empty() && between.find(text[at - 1]) != std::string_view::npos) return {edge(text.substr(0, at), false), sign};
  }
  return {text, 0};
}

Written read_evened(std::string_view text, DecimalMark mark) {
  if (text.empty()) return Written();
  // A spreadsheet's apostrophe that forbids it to work the cell out.
  if (text.size() > 1 && text[0] == '\'' && std::string_view("=+-@").find(text[1]) != std::string_view::npos)
    text.remove_prefix(1);
  if (auto const found = entry(unwrapped(text))) return *found;
  // A tick beside an answer is no mark: it may be the student's own. The answer speaks for itself, and the tick is noted.
  auto const bare = without_ticks(text);
  auto const plain = without_emphasis(std::string(bare));
  auto const inside = unwrapped(trimmed(plain));
  if (auto const found = entry(inside)) return *found;
  if (is_equation(inside)) {
    Written result;
    result.kind = Written::Kind::words;
    return result;
  }
  bool approximate = false;
  auto const [measure, sign] = without_word_for_sign(inside);
  auto result = read_statements(without_remark(without_words_behind(without_remark(measure), approximate)), mark);
  bool const number = result.kind == Written::Kind::number;
  if (sign != 0 && !(number && (sign < 0) == (result.number.value.sign() < 0)))
    return unreadable(number ? "a word that says another sign than the number has" : "words beside the answer");
  if (result.kind == Written::Kind::number && approximate) add_note(result, "approximate");
  if (result.kind == Written::Kind::number && bare.size() < text.size()) add_note(result, "tick-beside-answer");
  return result;
}

}  // namespace

Written read_written(std::string_view cell, DecimalMark mark) {
  auto const text = trimmed(cell);
  Written result;
  if (text.size() > longest_answer) {
    result = unreadable("longer than an answer can be");
  } else if (first_invalid_utf8(text) != std::string_view::npos || holds_broken_bytes(text)) {
    result =
        unreadable(text.find('\0') != std::string_view::npos ? "a NUL byte, which is no text" : "bytes that are not UTF-8 text");
  } else {
    auto const even = evened(text);
    result = holds_control(even) ? unreadable("a control character, which is no text") : read_evened(trimmed(even), mark);
  }
  result.raw = cut(text);
  return result;
}

void set_aside(Written& written) {
  written.kind = Written::Kind::unreadable;
  written.why.clear();
}

void add_working(Written& written, std::string_view lines) {
  if (lines.empty()) return;
  written.working += (written.working.empty() ? "" : "\n") + std::string(lines);
}

Written const& BoxReader::read(std::string const& cell) {
  constexpr std::size_t most_kept = 10000;
  auto known = known_.find(cell);
  if (known != known_.end()) return known->second;
  if (known_.size() >= most_kept) known_.clear();
  return known_.emplace(cell, read_written(cell, mark_)).first->second;
}

}  // namespace molewright
