// Names and formulas that need a word of their own: materials that are no single substance, halves of a water.
#include <map>

#include "engine/ascii.h"
#include "engine/nomenclature_parts.h"
#include "engine/tsv.h"

namespace molewright::data {
extern std::string_view const mixtures_tsv;
}

namespace molewright::naming {

MaterialName const* material(std::string_view name) {
  static std::map<std::string, MaterialName> const rows = [] {
    std::map<std::string, MaterialName> result;
    TsvTable const table(data::mixtures_tsv);
    auto const names = table.column("name"), what = table.column("what"), holds = table.column("holds");
    for (std::size_t row = 0; row < table.size(); ++row)
      result[key_of(table.cell(row, names))] = {std::string(table.cell(row, what)), std::string(table.cell(row, holds))};
    return result;
  }();
  auto const place = rows.find(key_of(name));
  return place == rows.end() ? nullptr : &place->second;
}

std::string half_hydrate(std::string_view text) {
  text = stripped(text);
  constexpr std::string_view water = "H2O";
  if (text.size() <= water.size() || text.substr(text.size() - water.size()) != water) return "";
  std::string_view rest = text.substr(0, text.size() - water.size());
  auto const drop = [&](std::string_view end) {
    if (rest.size() <= end.size() || rest.substr(rest.size() - end.size()) != end) return false;
    rest.remove_suffix(end.size());
    return true;
  };
  auto const blanks = [&] {
    while (drop(" ")) {
    }
  };
  auto const dot = [&] { return drop("·") || drop("•") || drop("⋅") || drop(".") || drop("*"); };
  auto const doubled = [](std::string_view dry, std::string_view waters) {
    std::string const formula = "(" + std::string(dry) + ")2·" + std::string(waters) + "H2O";
    return ok(parse_formula(dry)) ? formula : "";
  };
  blanks();
  for (auto const& [half, waters] : {std::pair{"1/2", ""}, std::pair{"½", ""}, std::pair{"0.5", ""}, std::pair{"0,5", ""},
                                     std::pair{"3/2", "3"}, std::pair{"1.5", "3"}, std::pair{"1½", "3"}}) {
    auto const whole = rest;
    if (drop(half)) {
      blanks();
      if (dot()) {
        blanks();
        return doubled(rest, waters);
      }
    }
    rest = whole;
  }
  // 2CaSO4·H2O
  bool const three = drop("3");
  blanks();
  if (!dot() || rest.size() < 2 || rest.front() != '2') return "";
  rest.remove_prefix(1);
  while (!rest.empty() && rest.front() == ' ') rest.remove_prefix(1);
  blanks();
  return doubled(rest, three ? "3" : "");
}

}  // namespace molewright::naming
