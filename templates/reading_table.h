#pragma once
// Tables within a question's wording: lines whose cells have tabs between. On paper they are ruled; in plain text each titration
// is a line of its own, as a screen reader wants it.
#include <string>
#include <string_view>
#include <vector>

#include "templates/pages.h"

namespace molewright {

using TableCells = std::vector<std::vector<std::string>>;

/// A wording in order, a paragraph or a table a piece.
struct WordingPiece {
  std::string paragraph;
  TableCells table;  ///< rows; empty for a paragraph
};
std::vector<WordingPiece> pieces_of(std::string_view text);

/// The wording with every table told in lines: "Titration 1: final reading 24.65 mL; initial reading 1.20 mL; titre ______ mL".
std::string with_told_tables(std::string_view text);
/// The paragraphs alone, with blanks between them: enough to know a question by.
std::string without_tables(std::string_view text);

/// A ruled table as rows for `Pages::flow`, with room to write in where a cell is empty. `head` is of the first row of a table
/// with several columns of readings, and of the labels.
std::vector<paper::Row> ruled_table(paper::Pages& pages, double x, double width, TableCells const& cells,
                                    paper::Style const& body, paper::Style const& head);

}  // namespace molewright
