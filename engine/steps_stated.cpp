#include "engine/steps_stated.h"

#include <fmt/format.h>

#include <algorithm>
#include <cstdlib>

#include "engine/equation.h"
#include "engine/formula.h"
#include "engine/nomenclature_parts.h"
#include "engine/steps_words.h"
#include "engine/substance.h"

namespace molewright {
namespace {

bool is(Node const& node, char const* relation) { return node.relation == relation; }

/// "Fe 4, O 6": what stands on each side of a balanced equation, the charge with it where there is one.
std::string each_side(Equation const& equation) {
  std::vector<std::pair<std::string, Rational>> counts;
  Rational charge;
  bool charged = false;
  for (auto const& species : equation.left) {
    charged = charged || species.formula.charge != 0;
    charge += species.coefficient * Rational(species.formula.charge);
    for (auto const& [symbol, count] : species.formula.composition()) {
      auto at = counts.begin();
      while (at != counts.end() && at->first != symbol) ++at;
      if (at == counts.end()) at = counts.insert(at, {symbol, Rational(0)});
      at->second += species.coefficient * Rational(count);
    }
  }
  std::string out;
  auto const add = [&](std::string const& item) { out += (out.empty() ? "" : ", ") + item; };
  for (auto const& [symbol, count] : counts) add(fmt::format(words::atoms_each_side, symbol, count.text()));
  if (charged) add(fmt::format(words::charge_each_side, charge.text()));
  return out;
}

std::string balanced_text(Working const& working, Node const& node) {
  auto const equation = parse_equation(node.says);
  if (!ok(equation)) return words::nothing_happens_step;
  bool const as_it_stands = !node.definition.terms.empty() &&
                            working.nodes[static_cast<std::size_t>(node.definition.terms.front().node)].says == node.says;
  return fmt::format(fmt::runtime(as_it_stands ? words::balanced_already_step : words::balanced_step), pretty(value(equation)),
                     each_side(value(equation)));
}

/// "iron(III) ion" in the course's spelling.
std::string name_of_ion(std::string const& ion, Conventions const& conventions) {
  auto const name = name_of(ion, conventions.naming);
  return name.empty() ? pretty_formula(ion) : name;
}

/// "2 × 3 − 3 × 2": the charges of the ions that a formula holds.
std::string charges(Working const& working, Node const& node) {
  std::string out;
  for (auto const& term : node.definition.terms) {
    auto const& ion = working.nodes[static_cast<std::size_t>(term.node)];
    auto const formula = parse_formula(ion.quantity.substance);
    if (!is(ion, relations::ion) || !ok(formula)) continue;
    int const charge = value(formula).charge;
    out += out.empty() ? (charge < 0 ? "−" : "") : charge < 0 ? " − " : " + ";
    out += ion.says + " × " + std::to_string(std::abs(charge));
  }
  return out;
}

std::string formula_text(Working const& working, Node const& node, Conventions const& conventions) {
  auto const name = name_of(node.says, conventions.naming);
  auto const line = fmt::format(words::formula_step, name, pretty_formula(node.says));
  auto const sum = charges(working, node);
  return sum.empty() ? line : fmt::format(words::charges_step, sum) + ' ' + line;
}

std::string water_text(Node const& node, Conventions const&) {
  auto const name = naming::multiplying_prefix(std::strtoll(node.says.c_str(), nullptr, 10));
  std::string const word = std::string(name) + "hydrate";
  return node.says == "1" ? fmt::format(words::one_crystal_water_step, word)
                          : fmt::format(words::crystal_water_step, node.says, word);
}
}  // namespace

std::string pretty_stated(std::string_view says) {
  if (says.find("->") != std::string_view::npos) {
    auto const equation = parse_equation(says);
    if (ok(equation)) return pretty(value(equation));
  }
  std::string out;
  for (std::size_t begin = 0; begin <= says.size();) {
    auto const end = std::min(says.size(), says.find(", ", begin));
    out += (begin == 0 ? "" : ", ") + pretty_formula(says.substr(begin, end - begin));
    begin = end + 2;
  }
  return out;
}

std::string stated_text(Working const& working, Node const& node, Conventions const& conventions) {
  auto const said = pretty_stated(node.says);
  auto const substance = pretty_formula(node.quantity.substance);
  bool const none = node.says == relations::nothing;
  if (is(node, relations::skeleton)) return fmt::format(words::skeleton_step, said);
  if (is(node, relations::balanced_equation)) return balanced_text(working, node);
  if (is(node, relations::full_ionic)) return fmt::format(words::full_ionic_step, said);
  if (is(node, relations::spectators)) return fmt::format(words::spectators_step, said);
  if (is(node, relations::net_ionic)) return none ? words::nothing_happens_step : fmt::format(words::net_ionic_step, said);
  if (is(node, relations::ion)) return fmt::format(words::ion_step, substance, name_of_ion(node.quantity.substance, conventions));
  if (is(node, relations::crystal_water)) return water_text(node, conventions);
  if (is(node, relations::name)) return fmt::format(words::name_step, substance, node.says);
  if (is(node, relations::formula)) return formula_text(working, node, conventions);
  if (is(node, relations::in_water))
    return fmt::format(fmt::runtime(node.says == words::soluble ? words::soluble_step : words::insoluble_step), substance);
  if (is(node, relations::precipitate)) return none ? words::no_precipitate_step : fmt::format(words::precipitate_step, said);
  if (is(node, relations::on_mixing)) {
    auto const salt = pretty_formula(node.quantity.part);
    return none ? fmt::format(words::no_solid_on_mixing_step, substance, salt)
                : fmt::format(words::solid_on_mixing_step, substance, salt, said);
  }
  return fmt::format(words::reagent_step, said);
}

}  // namespace molewright
