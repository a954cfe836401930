// Any bytes as an equation: read or refused with a usable fault; what is read prints and reads again, and a unique balance
// balances.
#include "engine/equation.h"
#include "tests/fuzz/check.h"

using namespace molewright;

namespace {
void balance_and_look(Equation const& equation) {
  auto const result = balance(equation);
  if (result.outcome != Balance::unique) {
    demand(result.outcome != Balance::no_solution || !result.why.empty(), "no solution comes with a reason");
    return;
  }
  demand(result.coefficients.size() == equation.left.size() + equation.right.size(), "a coefficient for every species");
  for (auto const coefficient : result.coefficients) demand(coefficient > 0, "coefficients are positive");
  auto const done = balanced(equation);
  demand(ok(done), "a unique balance can be written down");
  demand(is_balanced(value(done)), "a balanced equation is balanced");
}
}  // namespace

extern "C" int LLVMFuzzerTestOneInput(std::uint8_t const* data, std::size_t size) {
  auto const text = as_text(data, size);
  for (bool const one_side : {false, true}) {
    auto const read = parse_equation(text, one_side);
    if (!ok(read)) {
      demand_usable(fault(read), text);
      continue;
    }
    auto const& equation = value(read);
    auto const again = parse_equation(plain(equation), one_side);
    demand(ok(again), "a printed equation can be read");
    demand(plain(value(again)) == plain(equation), "printing and reading an equation changes nothing");
    demand(!pretty(equation).empty(), "an equation has a form for people");
    // Elimination is cubic, and a line of many species is no equation that a person writes.
    if (equation.left.size() + equation.right.size() <= 24 && !equation.right.empty()) balance_and_look(equation);
  }
  return 0;
}
