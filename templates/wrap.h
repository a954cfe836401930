#pragma once
// Breaking text into lines: at blanks only, and never inside what belongs together (a number and its unit, an operator and what
// follows it, a power of ten).
#include <functional>
#include <string>
#include <string_view>
#include <vector>

namespace molewright::paper {

/// Width of a piece of text, in whatever unit the limit is in (points, or columns of a terminal). Must be additive: the width of
/// two pieces is the sum of theirs.
using Measure = std::function<double(std::string_view)>;

struct Wrapping {
  double width = 0;    ///< of the first line
  double hanging = 0;  ///< by how much all lines after the very first are shorter (they are set in by as much)
};

/// The lines of `text`; a newline ends a paragraph, an empty paragraph is an empty line. A piece that is wider than a line is
/// broken at its own blanks, and a word that is wider is broken between characters, so that no line is ever wider than allowed (a
/// single character excepted).
std::vector<std::string> wrap(std::string_view text, Wrapping const& wrapping, Measure const& measure);

/// Whether a line may be broken at the blank between these two words, `before` being what stands to the left of it.
/// "25.0| mL", "=| 3", "1.20 |× 10³", "mol| L⁻¹" may not; before "=" or "+" it may.
bool may_break(std::string_view before, std::string_view after);

/// Number of code points, as columns of a terminal.
double columns(std::string_view text);

}  // namespace molewright::paper
