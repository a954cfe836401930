#include "engine/hint.h"

#include <fmt/format.h>

#include <map>

#include "engine/hint_words.h"
#include "engine/steps.h"
#include "engine/tsv.h"

namespace molewright {
namespace data {
extern std::string_view const hints_tsv;
}
namespace {

std::map<std::string_view, std::string_view> read_hints() {
  TsvTable const table(data::hints_tsv);
  auto const relation = table.column("relation"), words = table.column("words");
  std::map<std::string_view, std::string_view> hints;
  for (std::size_t row = 0; row < table.size(); ++row) hints[table.cell(row, relation)] = table.cell(row, words);
  return hints;
}

std::string goal(Working const& working, Node const& node, std::string const& name, Conventions const& conventions) {
  switch (node.definition.operation) {
    case Operation::stated:
      return words::next_stated;
    case Operation::choose:
      return words::next_limiting;
    case Operation::proportion:
    case Operation::multiple:
      return fmt::format(words::next_formula, node.relation);
    default:
      break;
  }
  auto const unit = unit_text(node.value.unit, conventions);
  if (node.relation == relations::convert) {
    auto const& from = working.nodes[static_cast<std::size_t>(node.definition.terms.front().node)];
    return fmt::format(words::next_conversion, pretty(node.quantity), unit_text(from.value.unit, conventions), unit);
  }
  return unit.empty() ? fmt::format(words::next_without_unit, name) : fmt::format(words::next_in_unit, name, unit);
}
/// "1 L is 1000 mL" for a change of unit by a factor; empty for a temperature, whose zero moves.
std::string units_compared(Working const& working, Node const& node, Conventions const& conventions) {
  if (node.definition.operation != Operation::product) return {};
  auto const& from = working.nodes[static_cast<std::size_t>(node.definition.terms.front().node)].value.unit;
  auto const& to = node.value.unit;
  constexpr int figures = 10;
  auto ratio = to.factor / from.factor;
  bool const larger = ratio >= Rational(1);
  if (!larger) ratio = ratio.reciprocal();
  return fmt::format(words::one_is_many, unit_text(larger ? to : from, conventions), unrounded(ratio, figures),
                     unit_text(larger ? from : to, conventions));
}
}  // namespace

std::string_view hint_words(std::string_view relation) {
  static std::map<std::string_view, std::string_view> const hints = read_hints();
  auto const found = hints.find(relation);
  return found == hints.end() ? std::string_view() : found->second;
}

Hint hint(Worked const& worked, Working const& working, int node, Conventions const& conventions) {
  auto const& step = working.nodes[static_cast<std::size_t>(node)];
  auto const symbols = step_in_symbols(worked, working, node, conventions);
  Hint out;
  out.words = goal(working, step, symbols.left, conventions);
  if (auto const words = hint_words(step.relation); !words.empty()) out.words += ' ' + std::string(words);
  if (!symbols.right.empty()) out.formula = symbols.left + " = " + symbols.right;
  if (step.relation == relations::convert) out.formula = units_compared(working, step, conventions);
  return out;
}

}  // namespace molewright
