// Slips that make another problem of it: a formula written from the name with its charges not balanced.
#include <algorithm>

#include "engine/substance.h"
#include "marker/slip_library.h"

namespace molewright {
namespace {

/// "CaNO3" for Ca(NO3)2: one of each ion, however they are charged. Empty where that is right, or the substance is no salt.
std::string one_of_each_ion(std::string const& formula) {
  auto const salt = ions_of(formula);
  if (salt.size() != 2 || (salt[0].count == 1 && salt[1].count == 1)) return "";
  std::string joined;
  for (auto const& ion : salt) joined += ion.ion.substr(0, ion.ion.find('^'));
  return joined;
}

void rename(Quantity& quantity, std::string const& from, std::string const& to) {
  if (quantity.substance == from) quantity.substance = to;
}
}  // namespace

void problem_slips(Anatomy const& anatomy, Sink& sink) {
  static auto const* const wrong_formula = find_slip("wrong-formula-from-name");
  auto const& problem = anatomy.worked.problem;
  if (!problem.reactions.empty()) return;  // the equation that a wrong formula leads to cannot be balanced
  for (int const i : anatomy.all(NodeKind::molar_mass)) {
    auto const& right = anatomy.node(i).quantity.substance;
    if (!anatomy.used(i)) continue;
    auto const wrong = one_of_each_ion(right);
    if (wrong.empty() || !ok(parse_formula(wrong))) continue;
    auto other = std::make_shared<Problem>(problem);
    for (auto& given : other->givens) rename(given.quantity, right, wrong);
    for (auto& find : other->finds) rename(find.quantity, right, wrong);
    std::vector<Edit> edits;
    edits.emplace_back(ProblemEdit{std::move(other)});
    sink.edits(wrong_formula, i, std::move(edits));
  }
}

}  // namespace molewright
