// Any bytes as a formula or a name: found, or refused with a usable fault; what is found is found again by its own formula and,
// where one substance alone has the name, by its name.
#include <algorithm>

#include "engine/nomenclature.h"
#include "tests/fuzz/check.h"

using namespace molewright;

namespace {

/// Without its state a formula may have another of its names: HCl is hydrochloric acid, as a gas hydrogen chloride.
bool has_name(Identified const& substance, std::string const& name) {
  return substance.name == name ||
         std::find(substance.other_names.begin(), substance.other_names.end(), name) != substance.other_names.end();
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(std::uint8_t const* data, std::size_t size) {
  auto const text = as_text(data, size);
  auto const found = identify(text);
  if (!ok(found)) {
    demand_usable(fault(found), text);
    return 0;
  }
  auto const& substance = value(found);
  demand(!substance.name.empty(), "what is found has a name");
  auto const formula = parse_formula(substance.formula);
  demand(ok(formula), "the formula can be read");
  demand(plain(value(formula)) == substance.formula, "the formula is as it is printed");
  auto const again = identify(substance.formula);
  demand(ok(again) && value(again).formula == substance.formula, "a formula is found again");
  for (auto const& other : substance.other_names) demand(other != substance.name, "the other names are others");
  // Deep brackets and long formulas may be named by their atoms; their name then leads to the usual formula, or to none.
  auto const back = identify(substance.name);
  if (ok(back)) demand(has_name(value(identify(value(back).formula)), value(back).name), "a name and its formula agree");
  demand(!unbalanced_charge(value(formula)).has_value(), "what has a name has charges that add up");
  auto const british = identify(text, Spelling::sulphur);
  demand(ok(british) && value(british).formula == substance.formula, "the spelling changes no formula");
  return 0;
}
