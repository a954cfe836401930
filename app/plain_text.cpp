#include "app/plain_text.h"

#include <utility>

namespace molewright {
namespace {

constexpr std::pair<std::string_view, char> raised[] = {{"⁰", '0'}, {"¹", '1'}, {"²", '2'}, {"³", '3'}, {"⁴", '4'}, {"⁵", '5'},
                                                        {"⁶", '6'}, {"⁷", '7'}, {"⁸", '8'}, {"⁹", '9'}, {"⁺", '+'}, {"⁻", '-'}};
constexpr std::pair<std::string_view, char> lowered[] = {{"₀", '0'}, {"₁", '1'}, {"₂", '2'}, {"₃", '3'}, {"₄", '4'},
                                                         {"₅", '5'}, {"₆", '6'}, {"₇", '7'}, {"₈", '8'}, {"₉", '9'}};

template <std::size_t N>
char plain_of(std::pair<std::string_view, char> const (&table)[N], std::string_view text, std::size_t& length) {
  for (auto const& [sign, plain] : table)
    if (text.substr(0, sign.size()) == sign) {
      length = sign.size();
      return plain;
    }
  return 0;
}

}  // namespace

std::string plain_text(std::string_view text) {
  constexpr std::string_view no_break_space = "\u00A0";
  std::string out;
  bool in_raised = false;
  while (!text.empty()) {
    std::size_t length = 1;
    if (char const up = plain_of(raised, text, length)) {
      if (!in_raised) out += '^';
      out += up;
      in_raised = true;
    } else {
      in_raised = false;
      if (char const down = plain_of(lowered, text, length)) {
        out += down;
      } else if (text.substr(0, no_break_space.size()) == no_break_space) {
        length = no_break_space.size();
        out += ' ';
      } else {
        out += text.front();
      }
    }
    text.remove_prefix(length);
  }
  return out;
}

}  // namespace molewright
