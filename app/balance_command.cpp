#include <fmt/format.h>

#include <nlohmann/json.hpp>

#include "app/commands.h"
#include "engine/equation.h"
#include "engine/statement_words.h"

namespace molewright {
namespace {

/// Faults of parsing are one kind for a script; the person reads which.
Fault as_syntax(Fault fault) {
  fault.id = "syntax";
  return fault;
}

std::string solution_text(Equation const& equation, std::vector<std::int64_t> const& coefficients) {
  std::size_t at = 0;
  Equation shown = equation;
  for (auto* side : {&shown.left, &shown.right}) {
    std::vector<Species> kept;
    for (auto& species : *side) {
      species.coefficient = Rational(coefficients[at++]);
      if (species.coefficient.sign() != 0) kept.push_back(species);
    }
    *side = kept;
  }
  return pretty(shown);
}

Result<Equation> formulas_or_names(std::string_view text) {
  auto equation = parse_equation(text);
  if (!ok(equation)) {
    auto const words = in_formulas(text);
    if (words.not_understood) return *words.not_understood;
    if (!words.formulas.empty()) equation = parse_equation(words.formulas);
  }
  if (ok(equation)) take_abbreviations(value(equation));
  return equation;
}

void failed(Console& console, Item const& item, Fault const& fault, BalanceResult const* result) {
  console.report(fault, item);
  if (console.json) {
    auto out = error_json(fault, item.text);
    auto const input = out.at("input");
    out.erase("input");
    if (result && !result->independent.empty()) out["independent"] = result->independent;
    out["input"] = input;
    console.print_json(out);
  } else if (item.listed) {
    console.print("error: " + sentence(fault));
  }
}
}  // namespace

void balance_command(Console& console, std::vector<std::string> const& equations) {
  for (auto const& item : Console::items(equations)) {
    auto const equation = formulas_or_names(item.text);
    if (!ok(equation)) {
      failed(console, item, as_syntax(fault(equation)), nullptr);
      continue;
    }
    auto const result = balance(value(equation));
    if (result.outcome != Balance::unique) {
      bool const none = result.outcome == Balance::no_solution;
      Fault const found{none ? "no-solution" : "not-unique",
                        (none ? "this equation cannot be balanced: " : "this equation has no single balance: ") + result.why, "",
                        0};
      failed(console, item, found, &result);
      if (!none && !console.json && !item.listed)
        for (auto const& one : result.independent) console.print("  " + solution_text(value(equation), one));
      continue;
    }
    auto const made = balanced(value(equation));
    if (console.json)
      console.print_json(Json{{"equation", plain(value(made))}, {"coefficients", result.coefficients}});
    else
      console.print(pretty(value(made)));
  }
}

}  // namespace molewright
