// What a problem leaves unsaid of its samples: what was measured out and diluted, water that is not known, what falls out.
#include <algorithm>

#include "engine/formula_memo.h"
#include "engine/lists.h"
#include "engine/network.h"
#include "engine/substance.h"

namespace molewright {
namespace {

bool is_unknown(std::string const& substance) { return substance == "X" || substance == "Z"; }

bool any_given(Problem const& problem, Symbol symbol, std::string const& substance) {
  return std::any_of(problem.givens.begin(), problem.givens.end(),
                     [&](Given const& g) { return g.quantity.symbol == symbol && g.quantity.substance == substance; });
}
}  // namespace

/// V(vinegar), V(flask), V(aliquot): the one reactant whose solution has no volume of its own was measured out, made up to the
/// mark and titrated in portions. What is asked of its solution is asked of what was measured out.
void Network::resolve_diluted_sample() {
  if (problem_.reactions.empty()) return;
  std::set<std::string> poured;
  Quantity const* flask = nullptr;
  Quantity const* portion = nullptr;
  for (auto const& given : problem_.givens) {
    auto const& q = given.quantity;
    if (q.symbol != "V" || q.stage != 0) continue;
    if (q.word == "aliquot" || q.substance == "aliquot" || q.substance == "portion")
      portion = &q;
    else if (q.substance == "flask" || q.substance == "solution")
      flask = &q;
    else if (is_whole(q.substance) && q.word.empty())
      poured.insert(q.substance);
  }
  if (!flask || !portion || poured.size() != 1) return;
  std::string reactant;
  for (auto const& species : problem_.reactions.front().equation.left) {
    auto const substance = plain(species.formula);
    if (any_given(problem_, "V", substance) || contains(problem_.excess, substance)) continue;
    if (!reactant.empty()) return;
    reactant = substance;
  }
  if (reactant.empty()) return;
  auto const is_portion = [portion = *portion](Quantity const& q) { return q == portion; };
  auto const is_flask = [flask = *flask](Quantity const& q) { return q == flask; };
  each_quantity(problem_, [&](Quantity& q) {
    if (is_portion(q))
      q = {"V", 2, reactant, "aliquot", ""};
    else if (is_flask(q))
      q = {"V", 2, reactant, "", ""};
    else if (q.symbol == "V" && q.substance == *poured.begin())
      q = {"V", 1, reactant, "", ""};
    else if ((q.symbol == "c" || q.symbol == "gamma") && q.stage == 0 && q.word.empty() &&
             (q.substance == reactant || q.substance == *poured.begin()))
      q = {q.symbol, 1, reactant, "", ""};
  });
}

/// CuSO4·xH2O is the hydrate whose formula is asked, and so is x.
void Network::resolve_unknown_water() {
  each_quantity(problem_, [&](Quantity& q) {
    auto salt = salt_of_unknown_hydrate(q.substance);
    if (salt.empty()) return;
    q.substance = "hydrate";
    salt_of_hydrate_ = std::move(salt);
  });
  if (salt_of_hydrate_.empty()) return;
  for (auto& find : problem_.finds) {
    bool const of_water = find.quantity.symbol == "x" || find.quantity.symbol == "n";
    if (find.kind != Find::Kind::number || !of_water || !find.quantity.substance.empty() || find.quantity.stage != 0) continue;
    find.kind = Find::Kind::hydrate_formula;
    find.quantity = {};
    find.unit.reset();
  }
}

/// m(fuel), M(fuel): a word that has a molar mass is a substance, the unknown of the problem.
void Network::resolve_unknown() {
  std::set<std::string> words;
  bool other = formula_find() != nullptr;
  each_quantity(problem_, [&](Quantity const& q) {
    if (q.symbol == "M" && is_whole(q.substance) && q.substance != "hydrate") words.insert(q.substance);
    other = other || is_unknown(q.substance);
  });
  if (words.size() != 1 || other) return;
  each_quantity(problem_, [&](Quantity& q) {
    if (q.substance == *words.begin()) q.substance = "X";
  });
}

/// What is asked of an ion that falls out, where two solutions react, is what is left of it in the mixture.
void Network::resolve_ions_left() {
  for (auto& find : problem_.finds) {
    auto& q = find.quantity;
    auto const ion = known_formula(q.substance);
    if (find.kind != Find::Kind::number || q.symbol != "c" || !q.word.empty() || q.stage != 0 || !ion ||
        ion->formula.charge == 0 || reaction_of(q.substance) != std::string::npos)
      continue;
    for (auto const& reaction : problem_.reactions) {
      auto const& [left, right] = std::pair{reaction.equation.left, reaction.equation.right};
      auto const poured = std::count_if(left.begin(), left.end(), [&](Species const& s) {
        auto const reactant = plain(s.formula);
        return any_given(problem_, "c", reactant) && any_given(problem_, "V", reactant);
      });
      auto const brought =
          std::count_if(left.begin(), left.end(), [&](Species const& s) { return count_in(q.substance, plain(s.formula)) > 0; });
      bool const falls_out = std::any_of(right.begin(), right.end(), [&](Species const& s) {
        auto const* const known = solubility(plain(s.formula));
        bool const solid = s.formula.state == State::solid || (known && known->verdict == Solubility::Verdict::insoluble);
        return solid && count_in(q.substance, plain(s.formula)) > 0;
      });
      if (poured == 2 && brought == 1 && falls_out) q.word = "left";
    }
  }
}

}  // namespace molewright
