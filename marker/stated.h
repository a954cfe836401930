#pragma once
// Judging what is stated and not worked out: equations, names, formulas, precipitates, a reagent. What is wrong is seen in what
// was written, so a cause is named without doubt or not at all.
#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

#include "engine/equation.h"
#include "engine/solver.h"
#include "engine/substance.h"
#include "marker/words.h"

namespace molewright {

struct StatedVerdict {
  enum class Value { right, wrong, unreadable } value = Value::unreadable;
  std::string slip;                ///< id of what is wrong; empty where it is right or nothing is recognised
  SlipNumbers holes;               ///< for the words of the slip; `given` is left empty
  std::vector<std::string> notes;  ///< "equation-is-a-multiple", "states-missing", "state-wrong", "order-of-symbols"
};
/// `written` as the student wrote it; names in any of their forms are right, and `naming` is how the verdict writes them.
/// REQUIRES: find `find` is stated.
StatedVerdict judge_stated(std::string_view written, Worked const& worked, std::size_t find, Naming naming = {});

/// For the parts of this judge only.
namespace stated {
StatedVerdict right();
/// `slip` with what was written and what should stand, both as set in print.
StatedVerdict wrong(char const* slip, std::string was = {}, std::string should_be = {}, std::string step = {});
/// Blanks and dashes of one kind, without those round the text.
std::string evened(std::string_view text);
/// "none", "no reaction", "nothing happens" ...
bool says_none(std::string_view written);

/// `whole`: the molecular equation, where that is not what is asked; may be empty.
StatedVerdict equation(std::string_view written, Equation const& due, Equation const& whole, bool ionic);
StatedVerdict name(std::string_view written, std::string const& formula, Naming naming);
StatedVerdict formula(std::string_view written, std::string const& formula, Naming naming);
}  // namespace stated

}  // namespace molewright
