#include <fmt/format.h>

#include <algorithm>
#include <nlohmann/json.hpp>

#include "app/commands.h"
#include "engine/nomenclature.h"

namespace molewright {
namespace {

/// Elements in the order in which the formula names them.
void gather(std::vector<Group> const& groups, std::vector<std::string>& order) {
  for (auto const& group : groups) {
    if (!group.element.empty() && std::find(order.begin(), order.end(), group.element) == order.end())
      order.push_back(group.element);
    gather(group.inside, order);
  }
}

struct MassPart {
  std::string element, weight;
  std::int64_t count;
  Rational mass;
};
struct Mass {
  std::vector<MassPart> parts;
  Rational total;
};

Mass mass_of(Formula const& formula, AtomicWeights const& weights) {
  std::vector<std::string> order;
  for (auto const& part : formula.parts) gather(part.groups, order);
  auto const counts = formula.composition();
  Mass mass;
  for (auto const& element : order) {
    auto const weight = weights.weight(element);
    auto const count = counts.at(element);
    mass.parts.push_back({element, weight.text, count, weight.value * Rational(count)});
    mass.total += mass.parts.back().mass;
  }
  return mass;
}

constexpr int all_figures = 30;  // a sum of table values always ends
}  // namespace

void mass_command(Console& console, std::vector<std::string> const& formulas) {
  for (auto const& item : Console::items(formulas)) {
    auto const formula = formula_or_named(item.text, console.course.conventions.naming);
    if (!ok(formula)) {
      console.report(fault(formula), item);
      if (console.json)
        console.print_json(error_json(fault(formula), item.text));
      else if (item.listed)
        console.print("error: " + sentence(fault(formula)));
      continue;
    }
    auto const mass = mass_of(value(formula), console.course.conventions.weights);
    auto const total = unrounded(mass.total, all_figures);
    if (console.json) {
      Json parts = Json::array();
      for (auto const& part : mass.parts)
        parts.push_back({{"element", part.element},
                         {"count", part.count},
                         {"atomic_weight", part.weight},
                         {"mass", unrounded(part.mass, all_figures)}});
      console.print_json(Json{{"formula", plain(value(formula))}, {"molar_mass", total}, {"unit", "g/mol"}, {"parts", parts}});
      continue;
    }
    console.print(fmt::format("{}  {} g/mol", pretty(value(formula)), total));
    if (item.listed) continue;
    for (auto const& part : mass.parts)
      console.print(
          fmt::format("  {:<2} {:>4} × {:<9} = {:>9}", part.element, part.count, part.weight, unrounded(part.mass, all_figures)));
  }
}

}  // namespace molewright
