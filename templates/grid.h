#pragma once
// A table on paper: cells wrap, rows stay whole, the head stands again on every page.
#include <string>
#include <utility>
#include <vector>

#include "templates/pages.h"

namespace molewright::paper {

struct GridColumn {
  std::string head;
  double width = 0;  ///< points
  Align align = Align::left;
};
/// A paragraph of a cell, in its own style.
struct CellLine {
  struct Piece {
    double x = 0;  ///< points from the left of the cell's room
    std::string text;
    Style style;
  };
  std::string text;
  Style style;
  std::vector<Piece> pieces{};  ///< in place of `text`: set at their places, never wrapped. REQUIRES: they fit
};
using GridCell = std::vector<CellLine>;

class Grid {
 public:
  Grid(std::vector<GridColumn> columns, Style head) : columns_(std::move(columns)), head_(head) {}
  void add(std::vector<GridCell> cells) { rows_.push_back(std::move(cells)); }
  /// Upright rules between the columns, for grids that are read across with a pen in hand.
  void set_upright_rules(bool on) { upright_ = on; }
  /// Room inside a cell, left and right; 4 points unless said.
  void set_padding(double points) { pad_ = points; }
  void draw(Pages& pages, double x) const;

 private:
  std::vector<Row> rows_of(Pages& pages, double x, std::vector<GridCell> const& cells, bool head) const;
  std::vector<GridColumn> columns_;
  Style head_;
  std::vector<std::vector<GridCell>> rows_;
  bool upright_ = false;
  double pad_ = 4;
};

}  // namespace molewright::paper
