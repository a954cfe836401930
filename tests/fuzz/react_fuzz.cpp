// Any bytes as a mixture: read or refused with a usable fault; what reacts has three balanced equations, and its spectators stand
// on both sides of the ionic one; what does not says why.
#include <algorithm>

#include "engine/mixing.h"
#include "tests/fuzz/check.h"

using namespace molewright;

namespace {
bool stands(std::vector<Species> const& side, std::string const& ion) {
  return std::any_of(side.begin(), side.end(), [&](Species const& species) { return plain(species.formula) == ion; });
}

void look(Mixing const& mixing) {
  demand(!mixing.because.empty(), "an answer has a reason");
  if (!mixing.reacts) return;
  demand(!mixing.kind.empty(), "a reaction has a kind");
  for (auto const* equation : {&mixing.molecular, &mixing.ionic, &mixing.net_ionic}) {
    demand(is_balanced(*equation), "every equation is balanced");
    demand(!equation->left.empty() && !equation->right.empty(), "no side is empty");
    auto const again = parse_equation(plain(*equation));
    demand(ok(again) && plain(value(again)) == plain(*equation), "an equation can be read again");
  }
  for (auto const& ion : mixing.spectators) {
    demand(stands(mixing.ionic.left, ion) && stands(mixing.ionic.right, ion), "a spectator stands on both sides");
    demand(!stands(mixing.net_ionic.left, ion) || !stands(mixing.net_ionic.right, ion), "a spectator is not in the net equation");
  }
}
}  // namespace

extern "C" int LLVMFuzzerTestOneInput(std::uint8_t const* data, std::size_t size) {
  auto const text = as_text(data, size);
  auto const read = read_mixture(text);
  if (!ok(read)) {
    demand_usable(fault(read), text);
    return 0;
  }
  demand(!value(read).reactants.empty(), "a mixture has reactants");
  auto const mixed = mix(value(read));
  if (ok(mixed))
    look(value(mixed));
  else
    demand_usable(fault(mixed), text);
  return 0;
}
