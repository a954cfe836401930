#pragma once
// Where a problem's text speaks of its substances, and what it says that holds for them alone.
#include <cstddef>
#include <string>
#include <vector>

#include "engine/problem.h"

namespace molewright {

/// A substance spoken of: typed as a name or a formula, or in braces.
struct Spoken {
  std::size_t begin = 0, end = 0;  ///< bytes of the text
  std::size_t substance = 0;       ///< index into those that were asked about
  std::string with_variable;       ///< "{name {s1}}", "{V({s1})}"
  bool by_name = false;
  bool in_quantity = false;          ///< as part of {V(KCl)}, so that it is not printed
  bool article = false, an = false;  ///< "a" or "an" stands before it
};
/// In the order of the text. `substances` are plain formulas.
std::vector<Spoken> spoken_of(Problem const& problem, std::vector<std::string> const& substances);

/// Words that hold for the problem's own substances alone.
struct Pin {
  std::vector<std::string> ions;        ///< "Mg^2+": what has to stay; empty with no substance: everything
  std::vector<std::string> substances;  ///< plain formulas that have to stay
  std::string words;                    ///< "Epsom salt"
  std::size_t offset = 0;               ///< byte of the text
};
/// `ions` are those that might move.
std::vector<Pin> pins_of(Problem const& problem, std::vector<std::string> const& substances,
                         std::vector<std::string> const& ions);

/// "{s1}" of the first substance.
std::string sibling_variable(std::size_t substance);

}  // namespace molewright
