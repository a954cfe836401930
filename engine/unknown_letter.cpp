#include "engine/unknown_letter.h"

#include <algorithm>

#include "engine/formula_memo.h"
#include "engine/outcome.h"

namespace molewright {
namespace {

bool holds(std::string const& substance, char letter) {
  auto const formula = formula_of_unknown(substance);
  return formula && formula->composition.count(std::string(1, letter)) > 0;
}

bool holds(std::vector<Species> const& side, char letter) {
  return std::any_of(side.begin(), side.end(), [&](Species const& s) { return holds(plain(s.formula), letter); });
}

bool means_something(Problem const& problem, char letter) {
  bool molar_mass = false, another = false;
  auto const look = [&](Quantity const& q) {
    if (holds(q.substance, letter)) (q.symbol == "M" ? molar_mass : another) = true;
  };
  for (auto const& given : problem.givens) look(given.quantity);
  for (auto const& find : problem.finds) look(find.quantity);
  for (auto const& reaction : problem.reactions) {
    bool const left = holds(reaction.equation.left, letter), right = holds(reaction.equation.right, letter);
    if (left && right) return true;
    another = another || left || right;
  }
  return molar_mass && another;
}
}  // namespace

std::optional<PlacedFault> letter_without_meaning(Problem const& problem) {
  for (auto const& unknown : problem.unknowns)
    if (!means_something(problem, unknown.letter)) return at(unknown.place, unknown.fault);
  return std::nullopt;
}

}  // namespace molewright
