#include "generators/rejections.h"

#include <algorithm>

#include "engine/ascii.h"

namespace molewright {

void Rejections::take(std::string const& what) {
  ++draws;
  std::string words;
  for (std::size_t i = 0; i < what.size();) {
    std::size_t end = i;
    while (end < what.size() && (is_digit(what[end]) || what[end] == '.')) ++end;
    bool const number = end > i && is_digit(what[i]) && (i == 0 || what[i - 1] == ' ');
    words += number ? "..." : what.substr(i, std::max<std::size_t>(end - i, 1));
    i = std::max(end, i + 1);
  }
  note(words, 0);
}

std::vector<std::pair<std::string, Rejections::By>> Rejections::most() const {
  std::vector<std::pair<std::string, By>> sorted(by.begin(), by.end());
  std::stable_sort(sorted.begin(), sorted.end(), [](auto const& a, auto const& b) { return a.second.draws > b.second.draws; });
  return sorted;
}

std::string Rejections::words() const {
  constexpr std::size_t told = 3;
  std::string text;
  std::size_t told_so_far = 0;
  for (auto const& [what, by_it] : most()) {
    if (told_so_far == told) break;
    text += (told_so_far == 0 ? "" : ", then ") + what + " (" + std::to_string(by_it.draws) +
            (told_so_far == 0 ? " of " + std::to_string(draws) + " draws)" : ")");
    ++told_so_far;
  }
  return text;
}

}  // namespace molewright
