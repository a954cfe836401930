// The last line of a working, and how a part is headed.
#include "engine/steps_answer.h"

#include <fmt/format.h>

#include "engine/nomenclature.h"
#include "engine/relation_table.h"
#include "engine/steps_stated.h"
#include "engine/steps_words.h"

namespace molewright {
namespace {
Node const& answer_node(Working const& working, std::size_t find) {
  return working.nodes[static_cast<std::size_t>(working.finds[find].node)];
}
}  // namespace

std::string answer_line(Worked const& worked, Working const& working, std::size_t find, Conventions const& conventions) {
  auto const& answer = working.finds[find];
  auto const& node = answer_node(working, find);
  auto const kind = worked.problem.finds[find].kind;
  if (kind == Find::Kind::line_at_fault) return fmt::format(words::line_at_fault, answer.text);
  if (kind != Find::Kind::number) return pretty_stated(answer.text);
  auto const rounding = nearest_by(conventions.ties);
  auto const printed = answer.by_place ? print_to_place(node.value.number, answer.place, rounding, conventions.mark)
                                       : print_to_figures(node.value.number, answer.figures, rounding, conventions.mark);
  return pretty(node.quantity) + " = " + measure_text(printed.pretty, node.value.unit, conventions);
}

std::string rounded_line(Worked const& worked, Working const& working, std::size_t find, Conventions const& conventions) {
  auto const& answer = working.finds[find];
  auto const line = answer_line(worked, working, find, conventions);
  if (answer.figures == 0 || answer_node(working, find).value.number.sign() == 0) return line;
  auto const places = answer.decimal_places().value_or(0);
  int const count = places > 0 ? places : answer.figures;
  return fmt::format(words::rounded_to, line, count, places > 0 ? words::decimal_place : words::figure,
                     count == 1 ? "" : words::plural);
}

std::optional<Step> rounding_step(Worked const& worked, Working const& working, std::size_t find,
                                  Conventions const& conventions) {
  auto const& answer = working.finds[find];
  auto const& node = answer_node(working, find);
  if (worked.problem.finds[find].kind != Find::Kind::number) return std::nullopt;
  auto const line = rounded_line(worked, working, find, conventions);
  return Step{
      answer.node, std::string(RelationForm("rounding").text()), line, plain(node.quantity), answer.text, node.value.unit.symbol,
      line};
}

std::string find_label(Find const& find, Conventions const& conventions) {
  switch (find.kind) {
    case Find::Kind::number:
      return pretty(find.quantity);
    case Find::Kind::reaction:
      return relations::balanced_equation;
    case Find::Kind::ionic_equation:
      return relations::net_ionic;
    case Find::Kind::name:
      return fmt::format(words::name_label, pretty_formula(find.substance));
    case Find::Kind::formula: {
      auto const name = name_of(find.substance, conventions.naming);
      return fmt::format(words::formula_label, name.empty() ? pretty_formula(find.substance) : name);
    }
    case Find::Kind::reagent:
      return words::reagent_label;
    default:
      return plain(find);
  }
}

std::string part_letter(Worked const& worked, std::size_t find) {
  if (worked.problem.finds.size() < 2) return {};
  return fmt::format(words::part, static_cast<char>('a' + find));
}

}  // namespace molewright
