#pragma once
// Plain charts in black and grey: bars that lie, bars that stand. Every bar has its number beside it.
#include <string>
#include <vector>

#include "templates/pages.h"

namespace molewright::paper {

struct Bar {
  std::string label;
  int count = 0;
};

/// A row a bar, its label to the left (`label_width` points, wrapped), its count behind it; the longest fills the page's width.
std::vector<Row> lying_bars(Pages& pages, std::vector<Bar> const& bars, double label_width);
/// All bars in one row, `height` points for the tallest, counts on top, labels and `axis` (what the labels are) below.
Row standing_bars(Pages& pages, std::vector<Bar> const& bars, double height, std::string const& axis);

}  // namespace molewright::paper
