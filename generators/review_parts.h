#pragma once
// One problem under review, and the groups of checks. For the review*.cpp files only.
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "engine/solver.h"
#include "generators/realism.h"
#include "generators/review.h"
#include "generators/template.h"

namespace molewright::reviewing {

/// Lines of the file and what was found so far.
struct Review {
  Problem const& problem;
  Course const& course;
  Worked const* worked = nullptr;              ///< nullptr where it cannot be worked
  std::vector<std::string_view> const& lines;  ///< of the file
  std::vector<Finding> findings;

  /// `holes` fill the words of the kind. Nothing is said twice of one kind in one line.
  void say(std::string const& kind, std::size_t line, Binding const& holes, std::string slip = "");
  bool said(std::string_view kind) const;
  /// The problem with substances filled in where it could be worked.
  Problem const& data() const { return worked != nullptr ? worked->problem : problem; }
  Working const& working() const { return worked->accepted.front(); }
  /// The line of this problem that begins with a word; the problem's own where there is none.
  std::size_t line_of(std::string_view word) const;
  /// The first given with this symbol and substance (water of crystallisation aside); nullptr for none.
  Given const* given_of(std::string_view symbol, std::string const& substance) const;
};

double in_base(Value const& value);
/// "0.0253 mol", with `figures` figures.
std::string shown(double number, int figures);

void look_at_reactions(Review& review);  ///< balance, what would really form, states
void look_at_data(Review& review);       ///< missing, unused, contradicting, more than all, dilutions, titres, molar masses
void look_at_answers(Review& review);    ///< the teacher's answers, figures
void look_at_bench(Review& review);      ///< solubility, school limits, what can be measured, harmful and dear reagents
void look_at_text(Review& review);       ///< text against data, names, claims, glassware

/// One draw of a template with each of its wordings, `place.line` that of the wording: does each ask what the finds want, in
/// their units, and do all tell the same?
void look_at_wordings(Review& review, std::vector<Problem> const& wordings);

}  // namespace molewright::reviewing
