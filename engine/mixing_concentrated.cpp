// What concentrated sulfuric and nitric acid do, and the dilute ones do not: they oxidise, and the one takes water away.
#include <algorithm>

#include "engine/mixing_rules.h"
#include "engine/mixing_words.h"
#include "engine/tsv.h"

namespace molewright::data {
extern std::string_view const concentrated_acids_tsv;
}

namespace molewright::mixing {
namespace {

struct ByAcid {
  std::string acid, with;
  Equation equation;  ///< no species where nothing happens
  std::string kind, conditions, seen;
};

std::vector<ByAcid> const& rows() {
  static std::vector<ByAcid> const made = [] {
    std::vector<ByAcid> result;
    TsvTable const table(data::concentrated_acids_tsv);
    for (std::size_t r = 0; r < table.size(); ++r) {
      auto const cell = [&](char const* column) { return std::string(table.cell(r, table.column(column))); };
      Equation equation;
      if (auto const text = cell("reaction"); !text.empty()) {
        auto const read = parse_equation(text);
        if (!ok(read)) throw std::invalid_argument("table with the reaction " + text);
        equation = value(read);
      }
      result.push_back({cell("acid"), cell("with"), equation, cell("kind"), cell("conditions"), cell("seen")});
    }
    return result;
  }();
  return made;
}

/// What takes H^+ from an acid, concentrated or not.
bool is_neutralised(Reagent const& reagent) {
  bool const carbonate = std::any_of(reagent.parts.begin(), reagent.parts.end(),
                                     [](Part const& part) { return part.key == "CO3^2-" || part.key == "HCO3^-"; });
  return carbonate || reagent.sort == Sort::base || reagent.sort == Sort::basic_oxide || reagent.sort == Sort::ammonia;
}

}  // namespace

Answer with_concentrated_acid(std::vector<Reagent> const& reagents) {
  if (reagents.size() != 2) return std::nullopt;
  auto const acid = std::find_if(reagents.begin(), reagents.end(), [](Reagent const& reagent) {
    return reagent.concentrated && (reagent.key == "H2SO4" || reagent.key == "HNO3");
  });
  if (acid == reagents.end()) return std::nullopt;
  Reagent const& other = acid == reagents.begin() ? reagents.back() : reagents.front();
  for (auto const& row : rows()) {
    if (row.acid != acid->key || row.with != other.key) continue;
    if (row.equation.left.empty()) return nothing(row.conditions);
    Draft draft;
    for (auto const& species : row.equation.left) draft.left.push_back(species.formula);
    return by_row(std::move(draft), row.equation, row.kind, row.conditions, row.seen);
  }
  if (is_neutralised(other)) return std::nullopt;
  return undecided(words::fill(words::silent_concentrated, {acid->key, other.key}));
}

}  // namespace molewright::mixing
