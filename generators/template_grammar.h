#pragma once
// The lines that a template has beyond the problem language, taken apart. The grammar stands in template_grammar.cpp.
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "engine/fault.h"

namespace molewright {

/// The right side of a `let`, or of a given that varies, still as text.
struct PickText {
  enum class Kind { choice, range, any, product, titres } kind = Kind::choice;
  std::vector<std::string> words;  ///< choice: the options; range, titres: first, last, step; any: first and last where they are
                                   ///< written; product: the factors, then the last digit's worth
  std::string set;                 ///< any: the set's name
  std::string unit;                ///< what follows the last number of a given
  int rough = -1, concordant = -1, discordant = -1;  ///< how many titres of each; -1 where it is not said
  bool as_difference = false, as_readings = false;
};

struct LetText {
  std::vector<std::string> names;
  PickText pick;
};
/// What follows `let`: names = pick.
Result<LetText> parse_let(std::string_view text);

struct GivenText {
  std::string quantity;
  PickText pick;
};
/// What follows `given`, where its value varies. `varies` tells these from a given with a plain value.
bool varies(std::string_view given);
Result<GivenText> parse_varying_given(std::string_view text);

struct RequireText {
  std::string quantity, over;
  bool at_least = true;
  std::string bound;
  std::string unit;
};
/// What follows `require`.
Result<RequireText> parse_require(std::string_view text);

}  // namespace molewright
