#pragma once
// Formulas as students type them: a zero for the letter O, small letters only, blanks for the dot of a hydrate. Read as meant
// where only one thing can be meant, and noted.
#include <optional>
#include <set>
#include <string>
#include <string_view>
#include <vector>

#include "engine/formula.h"
#include "engine/problem.h"

namespace molewright {

/// `text` with the letter O for a zero that can be none: before all digits of a number ("S04", "Mg(0H)2": no number in a formula
/// begins with a zero), and in "H20" where it stands by itself or behind the number of a hydrate's water ("ZnSO4.7H20").
std::string with_letter_o(std::string_view text);

struct FormulaRead {
  Formula formula;
  std::vector<std::string> notes;  ///< "zero-for-the-letter", "capitals-of-formula"
};
/// A formula of which the question says that it is made of `elements`. Where the capitals say nothing ("znso4", "CUSO4", "Feso4")
/// it is read in them, if that goes in one way only; other elements are only read where they are written properly.
std::optional<FormulaRead> read_formula_as_meant(std::string_view text, std::set<std::string> const& elements);

struct ChoiceRead {
  int index = -1;                  ///< of the substances that may be chosen; -1 for none, or where it cannot be told
  std::string other;               ///< where it is another substance: that one, as written
  std::vector<std::string> notes;  ///< the same
};
/// Which of `formulas` a student says is the limiting one: by formula, by any name, by its kind where only one is of it ("the
/// acid"), by the word that `text`, the question, has for it; "CaCO3 is limiting", "HCl, CaCO3 is in excess", "because ..."
/// behind it. That one is in excess says it of the other, where there are two.
ChoiceRead read_choice(std::string_view written, std::vector<std::string> const& formulas, Problem const& problem,
                       std::string_view text);

}  // namespace molewright
