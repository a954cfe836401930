// The tables of this room: sets to draw from, glassware, and what schools keep to.
#include <algorithm>
#include <cmath>
#include <cstddef>
#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "engine/tsv.h"
#include "generators/realism.h"
#include "generators/template.h"

namespace molewright {
namespace data {
extern std::string_view const sets_tsv;
extern std::string_view const glassware_tsv;
extern std::string_view const school_limits_tsv;
}  // namespace data

namespace {

std::vector<std::string> listed(std::string_view cell) {
  auto const items = split_list(cell);
  return {items.begin(), items.end()};
}

std::vector<int> sizes_of(std::string_view kind) {
  TsvTable const table(data::glassware_tsv);
  auto const kinds = table.column("kind"), nominal = table.column("nominal_mL");
  std::vector<int> sizes;
  for (std::size_t row = 0; row < table.size(); ++row)
    if (table.cell(row, kinds) == kind) sizes.push_back(std::stoi(std::string(table.cell(row, nominal))));
  return sizes;
}

using Concentrations = std::map<std::string, double, std::less<>>;
/// A column of the limits by substance; rows that leave it blank are not in it.
Concentrations concentrations(std::string_view column) {
  TsvTable const table(data::school_limits_tsv);
  auto const substances = table.column("substance"), wanted = table.column(column);
  Concentrations all;
  for (std::size_t row = 0; row < table.size(); ++row) {
    auto const number = parse_decimal(table.cell(row, wanted));
    if (ok(number)) all.emplace(table.cell(row, substances), value(number).value.to_double());
  }
  return all;
}
std::optional<double> in(Concentrations const& all, std::string_view substance) {
  auto const found = all.find(substance);
  return found == all.end() ? std::nullopt : std::optional<double>(found->second);
}

}  // namespace

std::vector<NamedSet> const& named_sets() {
  static std::vector<NamedSet> const sets = [] {
    TsvTable const table(data::sets_tsv);
    auto const set = table.column("set"), columns = table.column("columns"), values = table.column("values");
    std::vector<NamedSet> all;
    for (std::size_t row = 0; row < table.size(); ++row) {
      std::string const name(table.cell(row, set));
      if (all.empty() || all.back().name != name) all.push_back(NamedSet{name, listed(table.cell(row, columns)), {}});
      all.back().rows.push_back(listed(table.cell(row, values)));
    }
    return all;
  }();
  return sets;
}

std::vector<int> const& glassware(std::string_view kind) {
  static std::vector<int> const flasks = sizes_of("flask");
  static std::vector<int> const pipettes = sizes_of("pipette");
  static std::vector<int> const none;
  return kind == "flask" ? flasks : kind == "pipette" ? pipettes : none;
}

bool is_nominal(std::string_view kind, double millilitres) {
  auto const& sizes = glassware(kind);
  return std::any_of(sizes.begin(), sizes.end(), [&](int size) { return std::abs(millilitres - size) < 1e-9; });
}

std::optional<double> school_limit(std::string_view substance) {
  static Concentrations const limits = concentrations("most_mol_per_L");
  return in(limits, substance);
}

std::optional<double> bought_concentration(std::string_view substance) {
  static Concentrations const bought = concentrations("bought_mol_per_L");
  return in(bought, substance);
}

}  // namespace molewright
