// Any bytes as a formula: read or refused with a usable fault; what is read prints as a formula that reads the same again.
#include "engine/formula.h"
#include "tests/fuzz/check.h"

using namespace molewright;

extern "C" int LLVMFuzzerTestOneInput(std::uint8_t const* data, std::size_t size) {
  auto const text = as_text(data, size);
  auto const read = parse_formula(text);
  if (!ok(read)) {
    demand_usable(fault(read), text);
    return 0;
  }
  auto const& formula = value(read);
  auto const again = parse_formula(plain(formula));
  demand(ok(again), "a printed formula can be read");
  demand(plain(value(again)) == plain(formula), "printing and reading a formula changes nothing");
  demand(value(again).composition() == formula.composition(), "the atoms stay the same");
  demand(value(again).charge == formula.charge, "the charge stays the same");
  auto const set = parse_formula(pretty(formula));
  demand(ok(set) && plain(value(set)) == plain(formula), "the form for people can be read, too");
  if (formula.hydrate()) demand(waters(anhydrous(formula)) == 0, "an anhydrous salt holds no water");
  demand(waters(formula) >= 0, "a count of water molecules is not negative");
  return 0;
}
