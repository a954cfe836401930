#pragma once
// Why draws are thrown out: how many break each limit. A draw that breaks several counts for each.
#include <map>
#include <string>
#include <utility>
#include <vector>

#include "generators/realism.h"

namespace molewright {

struct Rejections {
  struct By {
    int draws = 0;
    std::size_t line = 0;  ///< of the template that asks for it; 0 for what is asked of all
  };
  int draws = 0, fit = 0;
  std::map<std::string, By> by;  ///< "require m({solid}) >= 0.50 g", "c(KNO3) is above half the solubility"

  /// Takes in what a draw breaks; nothing for one that is fit.
  void take(std::vector<Limit const*> const& broken) {
    ++draws;
    fit += broken.empty() ? 1 : 0;
    for (Limit const* limit : broken) note(limit->what, limit->line);
  }
  /// A draw that could not even be worked, in the words of its fault: the numbers of the draw are left out of them.
  void take(std::string const& what);
  /// The limits by how many draws they throw out, most first.
  std::vector<std::pair<std::string, By>> most() const;
  /// "require m(AgCl) >= 30 g (64 of 64 draws), then m(AgCl) is too light to be weighed (12)": three at most.
  std::string words() const;

 private:
  void note(std::string const& what, std::size_t line) {
    By& entry = by[what];
    ++entry.draws;
    entry.line = line;
  }
};

}  // namespace molewright
