#pragma once
// The marking card: everyone's right answers, and the lettered wrong ones, in class order, so that a pile of scripts can be
// marked with a pen.
#include <string>
#include <vector>

#include "templates/pages.h"

namespace molewright {

struct CardCell {
  struct Slip {
    std::string letter, answer;
  };
  std::string answer;  ///< "1.72 g"; empty where the student's paper has no such part
  std::vector<Slip> slips;
};
struct CardRow {
  std::string student, version;
  std::vector<CardCell> cells;  ///< one a column
};
/// What the letters of one column mean.
struct CardLegend {
  struct Line {
    std::string letters;  ///< "A", or "C D" where two letters mean the same
    std::string meaning;
  };
  std::string column;
  std::vector<Line> lines;  ///< none: they differ from paper to paper, and the answers document has them
};
struct MarkingCard {
  std::string title;
  std::vector<std::string> columns;  ///< "1", "2a"; as the answers file is headed
  std::vector<int> marks;            ///< of each column
  std::vector<CardRow> rows;         ///< in class order
  std::vector<CardLegend> legend;    ///< of the columns that have letters
};

/// Landscape, 9 point and up; a letter stands at the same place in every cell of its column. Columns that do not fit go on
/// further pages, with the names again. The legend follows the last of them.
std::string marking_card_pdf(MarkingCard const& card, PageSize size);
std::string marking_card_text(MarkingCard const& card);

}  // namespace molewright
