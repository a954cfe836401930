// Any bytes as a problem file: faults point into it, what is read prints and reads as the same problem, and whatever is solved
// passes its own checks and can be printed step by step.
#include "engine/problem.h"
#include "engine/solver.h"
#include "engine/steps.h"
#include "tests/fuzz/check.h"

using namespace molewright;

namespace {
void look_at_placed(PlacedFault const& fault) {
  demand(!fault.fault.id.empty() && !fault.fault.what.empty(), "a fault has an id and says what is wrong");
  demand(first_invalid_utf8(show(fault, "file")) == std::string_view::npos, "what is shown is UTF-8, whatever was read");
}

void look_at_worked(Worked const& worked) {
  demand(!worked.accepted.empty(), "a solved problem has a working");
  for (auto const& working : worked.accepted) {
    demand(working.finds.size() == worked.problem.finds.size(), "each find has an answer");
    for (std::size_t i = 0; i < working.nodes.size(); ++i)
      for (auto const& term : working.nodes[i].definition.terms)
        demand(static_cast<std::size_t>(term.node) < i, "a node reads only earlier nodes");
    for (std::size_t f = 0; f < working.finds.size(); ++f) {
      for (auto const& step : steps(worked, working, f, {})) demand(!step.text.empty(), "each step has a text");
      demand(!answer_line(worked, working, f, {}).empty(), "each answer has a line");
    }
  }
}
}  // namespace

extern "C" int LLVMFuzzerTestOneInput(std::uint8_t const* data, std::size_t size) {
  auto const text = as_text(data, size);
  auto const file = parse_problems(text);
  for (auto const& fault : file.faults) look_at_placed(fault);
  for (auto const& problem : file.problems) {
    auto const printed = print(problem);
    auto const again = parse_problems(printed);
    demand(again.faults.empty() && again.problems.size() == 1, "a printed problem can be read");
    demand(print(again.problems.front()) == printed, "a printed problem is read as the same");
    auto const filled = wording(problem, {});
    if (!ok(filled)) demand_usable(fault(filled), problem.text);
    auto const result = solve(problem, {});
    if (auto const* fault = std::get_if<PlacedFault>(&result))
      look_at_placed(with_line(*fault, text));
    else
      look_at_worked(std::get<Worked>(result));
  }
  return 0;
}
