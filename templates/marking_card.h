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
struct MarkingCard {
  std::string title;
  std::vector<std::string> columns;  ///< "1", "2a"; as the answers file is headed
  std::vector<int> marks;            ///< of each column
  std::vector<CardRow> rows;         ///< in class order
};

/// Landscape, 9 point and up. Columns that do not fit go on further pages, with the names again.
std::string marking_card_pdf(MarkingCard const& card, PageSize size);
std::string marking_card_text(MarkingCard const& card);

}  // namespace molewright
