#pragma once
// A table of text cells as spreadsheets write them: comma, semicolon or tab, quoted or not. It knows nothing of students.
#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

#include "engine/fault.h"

namespace molewright {

struct Table {
  struct Row {
    std::size_t line = 0;
    std::vector<std::string> cells;    ///< as many as the header has; a cell that the row lacks is empty
    std::vector<std::size_t> lines;    ///< on which line each cell begins: a quoted line break may stand before it
    std::vector<std::size_t> columns;  ///< where each cell begins on its line, in code points from 1
  };
  std::vector<std::string> header;  ///< blanks round a name taken off; empty where the file could not be read at all
  std::size_t header_line = 0;
  std::vector<std::size_t> header_columns;  ///< where each name begins, in code points from 1
  std::vector<Row> rows;                    ///< rows with something in them
  char separator = ',';
};

struct TableRead {
  Table table;
  std::vector<PlacedFault> faults;  ///< a faulty row is left out and named here
};

/// RFC 4180 with kindness: quotes (doubled inside), line breaks in quotes (read as LF), CRLF, CR or LF, a byte-order mark, blank
/// lines passed over, the separator found from the header line (or from a first line `sep=;`). A quotation mark inside a cell
/// stands for itself. A row with too few cells has blank ones; cells beyond the header do no harm while they are blank. The
/// apostrophe that `csv_cell` puts before a dangerous cell is taken off again. Faults: "quote-not-closed" (reading goes on with
/// the next line), "stray-quote" (text after a closing quote), "too-many-cells" (more than the header), "invalid-utf8",
/// "nul-byte", "cell-too-long" (over 64 kB; a name over 1 kB), "column-twice" (a name stands twice, in any case),
/// "too-many-columns" (over 500), "empty-file".
TableRead read_table(std::string_view text);

/// Text with an apostrophe in front where a spreadsheet would run it: after blanks, = and @ always, + and - unless a plain number
/// with its unit follows.
std::string neutral_cell(std::string_view text);
/// A neutral cell, quoted where it must be.
std::string csv_cell(std::string_view text, char separator = ',');

/// Without the blanks, no-break blanks, thin blanks, line breaks and marks of no width at either end.
std::string_view trimmed(std::string_view text);

/// The lines of a text, to show a fault with: CRLF, CR and LF each end one. The text must outlive it.
class Lines {
 public:
  explicit Lines(std::string_view text);
  /// Line `number`, from 1, with U+FFFD for bytes that are not UTF-8; empty for a line that is not there.
  std::string text(std::size_t number) const;
  /// A fault at a line and a column that are known.
  PlacedFault place(Fault fault, std::size_t line, std::size_t column) const;

 private:
  std::string_view text_;
  std::vector<std::size_t> starts_;
};

/// The same text with U+FFFD in place of every byte that is not UTF-8, and of NUL: fit for any output.
std::string valid_utf8(std::string_view text);

}  // namespace molewright
