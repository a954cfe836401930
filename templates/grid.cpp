#include "templates/grid.h"

#include <algorithm>

namespace molewright::paper {
namespace {
/// A line of a cell, ready to be drawn.
struct Line {
  std::string text;
  Style style;
  std::vector<CellLine::Piece> pieces;
};
}  // namespace

std::vector<Row> Grid::rows_of(Pages& pages, double x, std::vector<GridCell> const& cells, bool head) const {
  std::vector<std::vector<Line>> lines(columns_.size());
  std::size_t most = 0;
  for (std::size_t c = 0; c < columns_.size() && c < cells.size(); ++c) {
    for (CellLine const& cell : cells[c]) {
      if (!cell.pieces.empty()) {
        lines[c].push_back({"", cell.style, cell.pieces});
        continue;
      }
      for (std::string& line : wrap(cell.text, {columns_[c].width - 2 * pad_, 0}, measure_in(cell.style))) {
        lines[c].push_back({std::move(line), cell.style, {}});
      }
    }
    most = std::max(most, lines[c].size());
  }
  // Usually one unbroken row. One higher than half a page is cut between its lines instead, so that it can run over.
  std::size_t const step = [&]() -> std::size_t {
    double height = 0;
    for (auto const& cell : lines) {
      double h = 0;
      for (Line const& line : cell) h += line.style.leading();
      height = std::max(height, h);
    }
    return height > (pages.bottom() - pages.top()) / 2 ? 1 : std::max<std::size_t>(most, 1);
  }();
  double const right = [&] {
    double sum = x;
    for (GridColumn const& column : columns_) sum += column.width;
    return sum;
  }();

  std::vector<Row> rows;
  for (std::size_t from = 0; from < std::max<std::size_t>(most, 1); from += step) {
    bool const first = from == 0, last = from + step >= most;
    std::vector<std::vector<Line>> slice(columns_.size());
    double height = 0;
    for (std::size_t c = 0; c < columns_.size(); ++c) {
      double h = 0;
      for (std::size_t i = from; i < std::min(from + step, lines[c].size()); ++i) {
        h += lines[c][i].style.leading();
        slice[c].push_back(lines[c][i]);
      }
      height = std::max(height, h);
    }
    double const above = first ? 2.5 : 0, below = last ? 2.5 : 0;
    rows.push_back({height + above + below, [this, &pages, x, right, slice = std::move(slice), above,
                                             total = height + above + below, head, last](double y) {
                      double cell_x = x;
                      for (std::size_t c = 0; c < columns_.size(); ++c) {
                        GridColumn const& column = columns_[c];
                        double line_y = y + above;
                        for (Line const& line : slice[c]) {
                          double const at = column.align == Align::left    ? cell_x + pad_
                                            : column.align == Align::right ? cell_x + column.width - pad_
                                                                           : cell_x + column.width / 2;
                          double const base = line_y + line.style.leading() * 0.5 + line.style.size * 0.36;
                          if (line.pieces.empty()) pages.text(at, base, line.text, line.style, column.align);
                          for (CellLine::Piece const& piece : line.pieces)
                            pages.text(cell_x + pad_ + piece.x, base, piece.text, piece.style);
                          line_y += line.style.leading();
                        }
                        if (upright_ && c > 0) pages.rule(cell_x, y, cell_x, y + total, 0.4, 0.55);
                        cell_x += column.width;
                      }
                      if (last) pages.rule(x, y + total, right, y + total, head ? 1 : 0.4, head ? 0 : 0.55);
                    }});
  }
  return rows;
}

void Grid::draw(Pages& pages, double x) const {
  std::vector<GridCell> names;
  for (GridColumn const& column : columns_) names.push_back({{column.head, head_}});
  std::vector<Row> const head = rows_of(pages, x, names, true);
  bool first = true;
  for (auto const& cells : rows_) {
    std::vector<Row> rows = rows_of(pages, x, cells, false);
    std::vector<Row> with_head;
    if (first) with_head = head;  // the head is never left alone at the foot of a page
    append(with_head, std::move(rows));
    pages.flow(with_head, first && with_head.size() <= head.size() + 1, head);  // later rows: a new page draws the head first
    first = false;
  }
  if (rows_.empty()) pages.flow(head, true);
}

}  // namespace molewright::paper
