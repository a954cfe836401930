#pragma once
// The rows of a table that is compiled in: tab-separated text with a header row; lines that begin with # are notes.
#include <stdexcept>
#include <string>
#include <string_view>
#include <vector>

#include "engine/ascii.h"

namespace molewright {

/// Cells of one line; at least one.
inline std::vector<std::string_view> split_cells(std::string_view line, char separator = '\t') {
  std::vector<std::string_view> cells;
  for (;;) {
    std::size_t const at = line.find(separator);
    cells.push_back(line.substr(0, at));
    if (at == std::string_view::npos) return cells;
    line.remove_prefix(at + 1);
  }
}

/// A table of text; cells are views into it.
class TsvTable {
 public:
  explicit TsvTable(std::string_view text) {
    while (!text.empty()) {
      std::size_t const end = text.find('\n');
      std::string_view const line = text.substr(0, end);
      text.remove_prefix(end == std::string_view::npos ? text.size() : end + 1);
      if (line.empty() || line.front() == '#') continue;
      (header_.empty() ? header_ : rows_.emplace_back()) = split_cells(line);
    }
  }
  std::size_t size() const { return rows_.size(); }
  /// Throws std::invalid_argument when the table has no such column.
  std::size_t column(std::string_view name) const {
    for (std::size_t i = 0; i < header_.size(); ++i)
      if (header_[i] == name) return i;
    throw std::invalid_argument("table without a column " + std::string(name));
  }
  /// Empty where the row is shorter.
  std::string_view cell(std::size_t row, std::size_t column) const {
    return column < rows_[row].size() ? rows_[row][column] : std::string_view();
  }

 private:
  std::vector<std::string_view> header_;
  std::vector<std::vector<std::string_view>> rows_;
};

/// "a; b; c" -> a, b, c; empty text has none.
inline std::vector<std::string_view> split_list(std::string_view cell) {
  std::vector<std::string_view> items;
  for (auto const item : split_cells(cell, ';'))
    if (auto const text = stripped(item); !text.empty()) items.push_back(text);
  return items;
}

}  // namespace molewright
