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

bool unknowns_print_as_such(Problem const& problem) {
  auto const reads_back = [](std::string const& substance) {
    if (!is_unknown(substance)) return true;
    for (std::size_t i = 0; i < substance.size(); ++i) {
      bool const symbol = i + 1 < substance.size() && substance[i + 1] >= 'a' && substance[i + 1] <= 'z';
      bool const letter = unknown_letters.find(substance[i]) != std::string_view::npos && !symbol;
      if (letter && !may_stand_for_unknown(substance, i)) return false;
    }
    return true;
  };
  auto const all = [&](std::vector<std::string> const& substances) {
    return std::all_of(substances.begin(), substances.end(), reads_back);
  };
  auto const quantity = [&](Quantity const& q) { return reads_back(q.substance) && reads_back(q.part); };
  return all(problem.excess) &&
         std::all_of(problem.givens.begin(), problem.givens.end(), [&](Given const& g) { return quantity(g.quantity); }) &&
         std::all_of(problem.stated.begin(), problem.stated.end(), [&](StatedAnswer const& a) { return quantity(a.quantity); }) &&
         std::all_of(problem.finds.begin(), problem.finds.end(), [&](Find const& f) {
           return quantity(f.quantity) && all(f.elements) && all(f.reagents) && all(f.with) && all(f.without);
         });
}

std::optional<PlacedFault> letter_without_meaning(Problem const& problem) {
  for (auto const& unknown : problem.unknowns)
    if (!means_something(problem, unknown.letter)) return at(unknown.place, unknown.fault);
  return std::nullopt;
}

}  // namespace molewright
