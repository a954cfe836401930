#include "engine/statement_words.h"

#include <algorithm>

#include "engine/ascii.h"
#include "engine/nomenclature.h"

namespace molewright {

void take_unit(Quantity& of, Unit const& unit) {
  auto const measures = [&](char const* symbol) { return unit.dimension == working_unit(symbol).dimension; };
  Symbol& symbol = of.symbol;
  bool const in_traces = unit.symbol == "ppm" || unit.symbol == "ppb";
  if ((symbol == "c" || symbol == "gamma") && in_traces) symbol = "w";
  if ((symbol == "s" || symbol == "c" || symbol == "w") && measures("gamma"))
    symbol = "gamma";
  else if ((symbol == "M" || symbol == "C") && measures("c"))
    symbol = "c";
  else if ((symbol == "c" || symbol == "C") && measures("cp"))
    symbol = "cp";
  else if (symbol == "w" && unit.symbol == "% (v/v)")
    symbol = "phi";
}

std::string in_formulas(std::string_view words) {
  std::string out;
  std::size_t arrow_at = std::string_view::npos, arrow_length = 0;
  for (std::string_view sign : {"->", "→", "="})
    if (auto const at = words.find(sign); at != std::string_view::npos && arrow_length == 0) {
      arrow_at = at;
      arrow_length = sign.size();
    }
  if (arrow_length == 0 || words.find(" + ") == std::string_view::npos) return {};
  for (auto side : {words.substr(0, arrow_at), words.substr(arrow_at + arrow_length)}) {
    if (!out.empty()) out += " -> ";
    for (bool first = true; !side.empty(); first = false) {
      auto const end = std::min(side.size(), side.find(" + "));
      auto term = stripped(side.substr(0, end));
      side.remove_prefix(std::min(side.size(), end + 3));
      std::size_t digits = 0;
      while (digits < term.size() && term[digits] >= '0' && term[digits] <= '9') ++digits;
      auto const named = identify(term.substr(digits));
      if (!ok(named)) return {};
      out += (first ? "" : " + ") + std::string(term.substr(0, digits)) + value(named).formula;
    }
  }
  return out;
}

}  // namespace molewright
