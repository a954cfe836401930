#pragma once
// Letters, digits, blanks and lines of ASCII, whatever the locale says.
#include <algorithm>
#include <string>
#include <string_view>

namespace molewright {

constexpr bool is_digit(char c) { return c >= '0' && c <= '9'; }
constexpr bool is_small(char c) { return c >= 'a' && c <= 'z'; }
constexpr bool is_capital(char c) { return c >= 'A' && c <= 'Z'; }
constexpr bool is_letter(char c) { return is_small(c) || is_capital(c); }
constexpr char lower(char c) { return is_capital(c) ? static_cast<char>(c - 'A' + 'a') : c; }

inline std::string lowered(std::string_view text) {
  std::string result(text);
  std::transform(result.begin(), result.end(), result.begin(), lower);
  return result;
}

/// With a capital where it begins with a small letter.
inline std::string capitalized(std::string text) {
  if (!text.empty() && is_small(text[0])) text[0] = static_cast<char>(text[0] - 'a' + 'A');
  return text;
}

/// Without the blanks, tabs and ends of lines around it.
constexpr std::string_view stripped(std::string_view text) {
  constexpr std::string_view blanks = " \t\r\n";
  auto const begin = text.find_first_not_of(blanks);
  if (begin == std::string_view::npos) return text.substr(text.size());
  return text.substr(begin, text.find_last_not_of(blanks) + 1 - begin);
}

/// Takes the first line off `text`; without its end, which is LF or CRLF. REQUIRES: `text` is not empty.
constexpr std::string_view take_line(std::string_view& text) {
  auto const end = text.find('\n');
  auto line = text.substr(0, end);
  text = end == std::string_view::npos ? std::string_view() : text.substr(end + 1);
  if (line.ends_with('\r')) line.remove_suffix(1);
  return line;
}

}  // namespace molewright
