#include <nlohmann/json.hpp>

#include "app/commands.h"
#include "engine/nomenclature.h"

namespace molewright {
namespace {

/// "Fe₂(SO₄)₃  iron(III) sulfate  (also: ferric sulfate)".
std::string line_of(Identified const& found) {
  std::string line = pretty_formula(found.formula) + "  " + found.name;
  for (std::size_t i = 0; i < found.other_names.size(); ++i) line += (i == 0 ? "  (also: " : "; ") + found.other_names[i];
  return found.other_names.empty() ? line : line + ')';
}

}  // namespace

void name_command(Console& console, std::vector<std::string> const& formulas_or_names) {
  for (auto const& item : Console::items(formulas_or_names)) {
    auto const& naming = console.course.conventions.naming;
    auto found = identify(item.text, naming);
    if (!ok(found)) found = with_nearest_names(fault(found), item.text, naming);
    if (!ok(found)) {
      console.report(fault(found), item);
      if (console.json)
        console.print_json(error_json(fault(found), item.text));
      else if (item.listed)
        console.print("error: " + sentence(fault(found)));
    } else if (console.json) {
      console.print_json(
          Json{{"formula", value(found).formula}, {"name", value(found).name}, {"other_names", value(found).other_names}});
    } else {
      console.print(line_of(value(found)));
    }
  }
}

}  // namespace molewright
