#include "templates/wrap.h"

#include <algorithm>
#include <array>
#include <cstddef>

#include "engine/ascii.h"
#include "templates/typeface.h"

namespace molewright::paper {
namespace {

constexpr std::array<std::string_view, 17> operators{"=", "≈", "≥", "≤", "<", ">",  "+", "-", "−",
                                                     "×", "÷", "/", "·", "→", "->", "⇌", "±"};

bool is_operator(std::string_view word) { return std::find(operators.begin(), operators.end(), word) != operators.end(); }

bool ends_in_superscript(std::string_view word) {
  for (std::string_view const s : {"¹", "²", "³", "⁰", "⁴", "⁵", "⁶", "⁷", "⁸", "⁹"}) {
    if (word.ends_with(s)) return true;
  }
  return false;
}

/// "25.0", "1 250"'s parts, "−1.2", "10³", "g/100": anything that a unit may follow.
bool number_like(std::string_view word) {
  if (word.empty()) return false;
  if (is_digit(word.back())) {
    bool const sign = word.starts_with("-") || word.starts_with("−") || word.starts_with(".") || word.starts_with("(");
    return is_digit(word.front()) || sign || word.find('/') != std::string_view::npos;
  }
  return word.starts_with("10") && ends_in_superscript(word);
}

std::string_view without_stop(std::string_view word) {
  while (!word.empty() && std::string_view(".,;:?!)").find(word.back()) != std::string_view::npos) word.remove_suffix(1);
  return word;
}

/// Short enough, or built like a unit. That "of" and "and" pass, too, does no harm: it keeps two words together.
bool unit_like(std::string_view word) {
  word = without_stop(word);
  if (word.empty() || is_digit(word.front())) return false;
  return columns(word) <= 4 || word.find('/') != std::string_view::npos || ends_in_superscript(word);
}

/// Words that a line keeps together.
struct Piece {
  std::string text;
  double width = 0;
  bool begins_with_operator = false;
};

std::vector<std::string_view> words(std::string_view paragraph) {
  std::vector<std::string_view> result;
  std::size_t begin = 0;
  for (std::size_t i = 0; i <= paragraph.size(); ++i) {
    if (i == paragraph.size() || paragraph[i] == ' ' || paragraph[i] == '\t' || paragraph[i] == '\r') {
      if (i > begin) result.push_back(paragraph.substr(begin, i - begin));
      begin = i + 1;
    }
  }
  return result;
}

/// A word cut between characters into parts no wider than `width`; after a hyphen or a slash where one stands in the later half
/// of a part.
void cut_word(std::string_view word, double width, Measure const& measure, std::vector<Piece>& out) {
  std::size_t begin = 0;
  std::size_t good = 0;  // after the last hyphen or slash of this part; 0 for none
  double so_far = 0, up_to_good = 0;
  for (std::size_t at = 0; at < word.size();) {
    std::size_t const here = at;
    next_code_point(word, at);
    double const w = measure(word.substr(here, at - here));
    if (so_far + w > width && here > begin) {
      bool const at_good = good > begin && up_to_good > width / 2;
      std::size_t const end = at_good ? good : here;
      out.push_back({std::string(word.substr(begin, end - begin)), at_good ? up_to_good : so_far, false});
      so_far = at_good ? so_far - up_to_good : 0;
      begin = end;
      good = 0;
    }
    so_far += w;
    if (word[here] == '-' || word[here] == '/') {
      good = at;
      up_to_good = so_far;
    }
  }
  out.push_back({std::string(word.substr(begin)), so_far, false});
}

std::vector<Piece> pieces(std::string_view paragraph, double width, double blank, Measure const& measure) {
  std::vector<std::string_view> const all = words(paragraph);
  std::vector<Piece> result;
  for (std::size_t i = 0; i < all.size();) {
    std::size_t end = i + 1;
    double w = measure(all[i]);
    std::vector<double> each{w};
    while (end < all.size() && !may_break(all[end - 1], all[end])) {
      each.push_back(measure(all[end]));
      w += blank + each.back();
      ++end;
    }
    bool const too_wide = w > width;
    if (!too_wide) {
      Piece piece{std::string(all[i]), w, is_operator(all[i])};
      for (std::size_t k = i + 1; k < end; ++k) piece.text.append(" ").append(all[k]);
      result.push_back(std::move(piece));
    } else {
      for (std::size_t k = i; k < end; ++k) {
        if (each[k - i] > width) {
          cut_word(all[k], width, measure, result);
        } else {
          result.push_back({std::string(all[k]), each[k - i], is_operator(all[k])});
        }
      }
    }
    i = end;
  }
  return result;
}

void break_paragraph(std::string_view paragraph, Wrapping const& wrapping, Measure const& measure,
                     std::vector<std::string>& lines) {
  double const blank = measure(" ");
  double const later = wrapping.width - wrapping.hanging;
  std::vector<Piece> const all = pieces(paragraph, later, blank, measure);
  double limit = lines.empty() ? wrapping.width : later;
  std::size_t begin = 0;
  auto const put = [&](std::size_t end) {
    std::string line;
    for (std::size_t k = begin; k < end; ++k) line.append(k > begin ? " " : "").append(all[k].text);
    lines.push_back(std::move(line));
    begin = end;
    limit = later;
  };
  double width = 0;
  for (std::size_t i = 0; i < all.size(); ++i) {
    double const more = (i > begin ? blank : 0) + all[i].width;
    if (i > begin && width + more > limit + 1e-9) {
      // Rather than break before "=", go one piece back where that leaves a decent line: "c = 0.100 mol/L" in prose stays whole.
      std::size_t end = i;
      if (all[i].begins_with_operator && i - begin >= 2 && !all[i - 1].begins_with_operator &&
          width - blank - all[i - 1].width > 0.7 * limit) {
        end = i - 1;
      }
      put(end);
      width = 0;
      for (std::size_t k = begin; k <= i; ++k) width += (k > begin ? blank : 0) + all[k].width;
      if (width > limit + 1e-9 && i > begin) {
        put(i);
        width = all[i].width;
      }
    } else {
      width += more;
    }
  }
  put(all.size());
}

}  // namespace

bool may_break(std::string_view before, std::string_view after) {
  if (is_operator(before)) return false;
  if (after == "×" || after == "x")
    return !number_like(before);  // a power of ten; a product of symbols may break before its sign
  if (number_like(before) && unit_like(after) && !is_operator(after)) return false;
  if (number_like(before) && is_digit(after.front()) && after.size() >= 3 && is_digit(after[1]) && is_digit(after[2]) &&
      (after.size() == 3 || !is_digit(after[3])) && without_stop(before).size() == before.size()) {
    return false;  // 1 250
  }
  // mol L⁻¹, g·mol⁻¹ written with a blank
  if (columns(before) <= 4 && after.find("⁻") != std::string_view::npos && ends_in_superscript(without_stop(after))) return false;
  return true;
}

double columns(std::string_view text) {
  return static_cast<double>(
      std::count_if(text.begin(), text.end(), [](char c) { return (static_cast<unsigned char>(c) & 0xC0U) != 0x80; }));
}

std::vector<std::string> wrap(std::string_view text, Wrapping const& wrapping, Measure const& measure) {
  std::vector<std::string> lines;
  std::size_t begin = 0;
  while (true) {
    std::size_t const end = text.find('\n', begin);
    break_paragraph(text.substr(begin, end == std::string_view::npos ? end : end - begin), wrapping, measure, lines);
    if (end == std::string_view::npos) break;
    begin = end + 1;
  }
  return lines;
}

}  // namespace molewright::paper
