// The tables of this room: sets to draw from, glassware, and what schools keep to.
#include <cstddef>
#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "generators/realism.h"
#include "generators/template.h"

namespace molewright {
namespace data {
extern std::string_view const sets_tsv;
extern std::string_view const glassware_tsv;
extern std::string_view const school_limits_tsv;
}  // namespace data

namespace {

std::vector<std::string> split(std::string_view text, char separator) {
  std::vector<std::string> cells;
  for (;;) {
    auto const end = text.find(separator);
    auto cell = text.substr(0, end);
    while (!cell.empty() && cell.front() == ' ') cell.remove_prefix(1);
    while (!cell.empty() && cell.back() == ' ') cell.remove_suffix(1);
    cells.emplace_back(cell);
    if (end == std::string_view::npos) return cells;
    text.remove_prefix(end + 1);
  }
}

/// Rows of a table without its notes and its header.
std::vector<std::vector<std::string>> rows_of(std::string_view table) {
  std::vector<std::vector<std::string>> rows;
  bool header = true;
  for (std::string const& line : split(table, '\n')) {
    if (line.empty() || line.front() == '#') continue;
    if (!header) rows.push_back(split(line, '\t'));
    header = false;
  }
  return rows;
}

std::vector<int> sizes_of(std::string_view kind) {
  std::vector<int> sizes;
  for (auto const& row : rows_of(data::glassware_tsv)) {
    if (row.at(0) == kind) sizes.push_back(std::stoi(row.at(1)));
  }
  return sizes;
}

}  // namespace

std::vector<NamedSet> const& named_sets() {
  static std::vector<NamedSet> const sets = [] {
    std::vector<NamedSet> all;
    for (auto const& row : rows_of(data::sets_tsv)) {
      if (all.empty() || all.back().name != row.at(0)) all.push_back(NamedSet{row.at(0), split(row.at(1), ';'), {}});
      all.back().rows.push_back(split(row.at(2), ';'));
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

std::optional<double> school_limit(std::string_view substance) {
  static std::map<std::string, double, std::less<>> const limits = [] {
    std::map<std::string, double, std::less<>> all;
    for (auto const& row : rows_of(data::school_limits_tsv)) {
      Result<Decimal> const most = parse_decimal(row.at(1));
      all.emplace(row.at(0), value(most).value.to_double());
    }
    return all;
  }();
  auto const found = limits.find(substance);
  if (found == limits.end()) return std::nullopt;
  return found->second;
}

}  // namespace molewright
