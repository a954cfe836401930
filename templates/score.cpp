#include "templates/score.h"

#include <cmath>

namespace molewright::paper {

std::string counted_marks(int marks) { return std::to_string(marks) + (marks == 1 ? " mark" : " marks"); }

std::string score(int marks, int out_of, int to_read) {
  auto const marked = std::to_string(marks) + " of " + counted_marks(out_of);
  if (to_read == 0) return marked;
  return (out_of > 0 ? marked + "; " : "") + counted_marks(to_read) + (to_read == 1 ? " is not given yet" : " are not given yet");
}

std::string percent(double share) { return std::to_string(std::lround(share * 100)) + " %"; }

std::string share_bar(double share) {
  std::string squares;
  for (int i = 1; i <= 10; ++i) squares += i <= std::lround(share * 10) ? "■" : "□";
  return squares + " " + percent(share);
}

}  // namespace molewright::paper
