#include "engine/fault.h"

#include <algorithm>
#include <limits>
#include <utility>

#include "engine/ascii.h"

namespace molewright {
namespace {

bool is_continuation(char byte) { return (static_cast<unsigned char>(byte) & 0xC0U) == 0x80U; }

/// Length of the well-formed UTF-8 sequence that begins at `at`, or 0. Unicode 15, table 3-7; a NUL byte is refused as well.
std::size_t sequence_length(std::string_view text, std::size_t at) {
  auto const byte = [&](std::size_t i) -> unsigned {
    return at + i < text.size() ? static_cast<unsigned char>(text[at + i]) : 0U;
  };
  auto const between = [&](std::size_t i, unsigned low, unsigned high) { return byte(i) >= low && byte(i) <= high; };
  unsigned const first = byte(0);
  if (first == 0) return 0;
  if (first < 0x80U) return 1;
  if (first >= 0xC2U && first <= 0xDFU) return between(1, 0x80U, 0xBFU) ? 2 : 0;
  if (first >= 0xE0U && first <= 0xEFU) {
    unsigned const low = first == 0xE0U ? 0xA0U : 0x80U;   // no overlong forms
    unsigned const high = first == 0xEDU ? 0x9FU : 0xBFU;  // no surrogates
    return between(1, low, high) && between(2, 0x80U, 0xBFU) ? 3 : 0;
  }
  if (first >= 0xF0U && first <= 0xF4U) {
    unsigned const low = first == 0xF0U ? 0x90U : 0x80U;
    unsigned const high = first == 0xF4U ? 0x8FU : 0xBFU;  // nothing beyond U+10FFFF
    return between(1, low, high) && between(2, 0x80U, 0xBFU) && between(3, 0x80U, 0xBFU) ? 4 : 0;
  }
  return 0;
}

/// The characters of a line, each as its bytes. What cannot be printed (a broken byte, a control character) becomes U+FFFD; a tab
/// stays. A stray continuation byte joins the character before it, so that the count agrees with column().
std::vector<std::string> characters(std::string_view line) {
  std::vector<std::string> result;
  std::size_t at = 0;
  while (at < line.size()) {
    std::size_t const length = sequence_length(line, at);
    auto const byte = static_cast<unsigned char>(line[at]);
    bool const control = (byte < 0x20U && byte != '\t') || byte == 0x7FU;
    result.push_back(length == 0 || control ? "\xEF\xBF\xBD" : std::string(line.substr(at, length)));
    at += std::max<std::size_t>(length, 1);
    while (at < line.size() && is_continuation(line[at])) ++at;
  }
  return result;
}

bool same_but_for_case(std::string_view a, std::string_view b) {
  return std::equal(a.begin(), a.end(), b.begin(), b.end(), [](char x, char y) { return lower(x) == lower(y); });
}

/// The code points of a name; a broken byte counts as one.
void decode(std::string_view text, std::u32string& result) {
  result.clear();
  for (std::size_t at = 0; at < text.size();) {
    std::size_t const length = std::max<std::size_t>(sequence_length(text, at), 1);
    auto letter = static_cast<char32_t>(static_cast<unsigned char>(text[at]));
    for (std::size_t i = 1; i < length; ++i) letter = letter << 8U | static_cast<unsigned char>(text[at + i]);
    result.push_back(letter);  // not the Unicode number, but one number for one character
    at += length;
  }
}

char32_t lower(char32_t letter) { return letter >= U'A' && letter <= U'Z' ? letter - U'A' + U'a' : letter; }

/// Edit distance (insert, delete, replace, swap of neighbours) in half steps: a change of case alone costs 1, anything else 2.
/// Some number greater than `limit` where it exceeds that. A faulty answer in a class's work asks some hundred names, so no
/// memory is taken for each.
class Distance {
 public:
  int operator()(std::u32string const& a, std::u32string const& b, int limit) {
    std::size_t const width = b.size() + 1;
    for (auto* row : {&before_, &above_, &here_}) row->assign(width, 0);
    for (std::size_t j = 0; j < width; ++j) above_[j] = 2 * static_cast<int>(j);
    for (std::size_t i = 1; i <= a.size(); ++i) {
      here_[0] = 2 * static_cast<int>(i);
      int least = here_[0];
      for (std::size_t j = 1; j < width; ++j) {
        char32_t const x = a[i - 1];
        char32_t const y = b[j - 1];
        int const replaced = x == y ? 0 : lower(x) == lower(y) ? 1 : 2;
        int best = std::min({above_[j] + 2, here_[j - 1] + 2, above_[j - 1] + replaced});
        if (i > 1 && j > 1 && x == b[j - 2] && a[i - 2] == y) best = std::min(best, before_[j - 2] + 2);
        here_[j] = best;
        least = std::min(least, best);
      }
      // A swap reaches back two rows at a cost of 2.
      if (least > limit + 2) return least;
      before_.swap(above_);
      above_.swap(here_);
    }
    return above_[b.size()];
  }

 private:
  std::vector<int> before_, above_, here_;
};

}  // namespace

std::size_t column(std::string_view line, std::size_t offset) {
  auto const before = line.substr(0, std::min(offset, line.size()));
  return 1 + static_cast<std::size_t>(std::count_if(before.begin(), before.end(), [](char c) { return !is_continuation(c); }));
}

std::size_t first_invalid_utf8(std::string_view text) {
  std::size_t at = 0;
  while (at < text.size()) {
    std::size_t const length = sequence_length(text, at);
    if (length == 0) return at;
    at += length;
  }
  return std::string_view::npos;
}

std::string sentence(Fault const& fault) {
  return fault.expected.empty() ? fault.what : fault.what + ", expected " + fault.expected;
}

PlacedFault with_line(PlacedFault fault, std::string_view file_text) {
  if (fault.line == 0) fault.line = fault.column = 1;
  std::size_t at = 0;
  for (std::size_t line = 1; line < fault.line; ++line) {
    at = file_text.find('\n', at);
    if (at == std::string_view::npos) return fault;
    ++at;
  }
  auto text = file_text.substr(at, file_text.find('\n', at) - at);
  while (!text.empty() && text.back() == '\r') text.remove_suffix(1);
  fault.line_text = std::string(text);
  return fault;
}

std::string show(PlacedFault const& fault, std::string_view file) {
  constexpr std::size_t widest = 120;
  std::string result(file);
  result += ":" + std::to_string(fault.line) + ":" + std::to_string(fault.column) + ": " + sentence(fault.fault);
  auto const line = characters(fault.line_text);
  std::size_t const caret = std::min(fault.column > 0 ? fault.column - 1 : 0, line.size());
  std::size_t first = 0;
  std::size_t last = line.size();
  if (line.size() > widest) {
    first = std::min(caret > widest / 2 ? caret - widest / 2 : 0, line.size() - widest);
    last = first + widest;
  }
  std::string shown = first > 0 ? "…" : "";
  std::string under = first > 0 ? " " : "";
  for (std::size_t i = first; i < last; ++i) {
    shown += line[i];
    if (i < caret) under += line[i] == "\t" ? '\t' : ' ';
  }
  if (last < line.size()) shown += "…";
  return result + "\n  " + shown + "\n  " + under + "^";
}

std::string either(std::vector<std::string> const& names) {
  constexpr std::size_t most = 12;
  bool const all = names.size() <= most;
  std::size_t const count = all ? names.size() : most - 1;
  std::string out;
  for (std::size_t i = 0; i < count; ++i) out += (i == 0 ? "" : all && i + 1 == count ? " or " : ", ") + names[i];
  return all ? out : out + " or " + std::to_string(names.size() - count) + " more";
}

std::vector<std::string> nearest_of_all(std::string_view name, std::vector<std::string> const& known, std::size_t most) {
  std::u32string letters;
  std::u32string other;
  decode(name.substr(0, 100), letters);
  Distance distance;
  std::vector<std::pair<int, std::string>> found;
  for (auto const& candidate : known) {
    decode(candidate, other);
    found.push_back({distance(letters, other, std::numeric_limits<int>::max() - 2), candidate});
  }
  std::stable_sort(found.begin(), found.end(), [](auto const& a, auto const& b) { return a.first < b.first; });
  std::vector<std::string> result;
  for (auto const& [far, candidate] : found) {
    if (result.size() == most) break;
    if (std::find(result.begin(), result.end(), candidate) == result.end()) result.push_back(candidate);
  }
  return result;
}

std::vector<std::string> nearest(std::string_view name, std::vector<std::string> const& known) {
  std::u32string letters;
  std::u32string other;
  decode(name.substr(0, 100), letters);
  int const size = static_cast<int>(letters.size());
  int const farthest = 2 * std::max(1, size / 3);
  // At least one letter must be shared: else "x" would be near every name of one letter.
  int const strange = 2 * size;
  Distance distance;
  std::vector<std::pair<int, std::string>> found;
  for (auto const& candidate : known) {
    decode(candidate, other);
    int const longer = static_cast<int>(other.size()) - size;
    if (2 * std::max(longer, -longer) > farthest) continue;
    int const far = same_but_for_case(name, candidate) ? (name == candidate ? 0 : 1) : distance(letters, other, farthest);
    if (far > farthest || far >= strange) continue;
    bool const seen = std::any_of(found.begin(), found.end(), [&](auto const& entry) { return entry.second == candidate; });
    if (!seen) found.push_back({far, candidate});
  }
  std::stable_sort(found.begin(), found.end(), [](auto const& a, auto const& b) { return a.first < b.first; });
  std::vector<std::string> result;
  for (auto const& [far, candidate] : found) {
    bool const only_case = found.front().first <= 1;
    if (result.size() == 3 || (only_case && far > 1)) break;
    result.push_back(candidate);
  }
  return result;
}

}  // namespace molewright
