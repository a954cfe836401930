#pragma once
// A table of text cells as spreadsheets write them: comma, semicolon or tab, quoted or not. It knows nothing of students.
#include <cstddef>
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "engine/fault.h"

namespace molewright {

struct Table {
  struct Row {
    std::size_t at = 0;  ///< byte of the text at which it begins
    std::size_t line = 0;
    std::vector<std::string> cells;    ///< as many as the header has; a cell that the row lacks is empty
    std::vector<std::size_t> lines;    ///< on which line each cell begins: a quoted line break may stand before it
    std::vector<std::size_t> columns;  ///< where each cell begins on its line, in code points from 1
  };
  std::vector<std::string> header;  ///< blanks round a name taken off; empty where the file could not be read at all
  std::size_t header_at = 0, header_line = 0;
  std::vector<std::size_t> header_columns;  ///< where each name begins, in code points from 1
  std::vector<Row> rows;                    ///< rows with something in them
  char separator = ',';
};

/// Reads a table row by row, of which it holds one. RFC 4180 with kindness: quotes (doubled inside), line breaks in quotes (read
/// as LF), CRLF, CR or LF, a byte-order mark, blank lines passed over, the separator found from the header line (or from a first
/// line `sep=;`). A quotation mark inside a cell stands for itself. A row with too few cells has blank ones; cells beyond the
/// header do no harm while they are blank. The apostrophe that `csv_cell` puts before a dangerous cell is taken off again.
/// Faults: "quote-not-closed" (reading goes on with the next line), "stray-quote" (text after a closing quote), "too-many-cells"
/// (more than the header), "invalid-utf8", "nul-byte", "cell-too-long" (over 64 kB; a name over 1 kB), "column-twice" (a name
/// stands twice, in any case), "too-many-columns" (over 500), "empty-file", "is-a-workbook".
class TableReader {
 public:
  /// Reads the header. REQUIRES: the text outlives this.
  explicit TableReader(std::string_view text);
  /// The table without its rows; no header where nothing could be read.
  Table const& head() const { return head_; }
  /// The next row with something in it whose cells can be told apart: false where there is none.
  bool next(Table::Row& row);
  /// A row that next() gave, read once more: only where it stands need be kept.
  Table::Row row_at(std::size_t at, std::size_t line);
  /// A fault in a cell of a row, or in the name of a column, with its line.
  PlacedFault in_cell(Table::Row const& row, std::size_t column, Fault fault) const;
  PlacedFault in_header(std::size_t column, Fault fault) const;
  /// What was found so far. A row whose cells cannot be told apart is left out; one with bytes that are no text (U+FFFD in their
  /// place), or with a cell that is cut because it is too long, is given all the same.
  std::vector<PlacedFault> take_faults() { return std::move(faults_); }
  /// The rows that were left out, with their cells as far as those could be told apart.
  std::vector<std::vector<std::string>> take_left_out() { return std::move(left_out_); }

 private:
  struct Spot {
    std::size_t line = 1;
    std::size_t start = 0;  ///< byte at which that line begins
    std::size_t at = 0;     ///< byte in the text
  };
  struct Record {
    Table::Row row;
    Spot began;
    std::optional<Fault> fault;
    Spot fault_at;
  };

  bool at_end() const { return here_.at >= text_.size(); }
  bool ends_cell(std::size_t at) const;
  std::size_t past_blanks(std::size_t at) const;
  std::string_view line_at(std::size_t start) const;
  void take_break();
  void take_separator_line();
  void find_separator();
  Record read_record();
  void read_cell(Record& record);
  bool read_quoted(Record& record, std::size_t quote);
  void read_plain(Record& record);
  void keep(Record& record, Spot began, std::string cell);
  static void blame(Record& record, Spot spot, char const* id, std::string what, std::string expected);
  void add_fault(Fault fault, Spot spot);
  bool check_bytes(Record const& record);
  void read_header();
  bool fit(Record& record);

  std::string_view text_;
  Spot here_;
  char separator_ = ',';
  Table head_;
  std::vector<PlacedFault> faults_;
  std::vector<std::vector<std::string>> left_out_;
};

struct TableRead {
  Table table;
  std::vector<PlacedFault> faults;
};
/// A whole table.
TableRead read_table(std::string_view text);

/// Text with an apostrophe in front where a spreadsheet would run it: after blanks, = and @ always, + and - unless a plain number
/// with its unit follows.
std::string neutral_cell(std::string_view text);
/// A neutral cell, quoted where it must be.
std::string csv_cell(std::string_view text, char separator = ',');

/// Without the blanks, no-break blanks, thin blanks, line breaks and marks of no width at either end.
std::string_view trimmed(std::string_view text);

/// Whether U+FFFD stands in a text: for bytes that were none, here or where the text comes from.
bool holds_broken_bytes(std::string_view text);
/// The same text with U+FFFD in place of every byte that is not UTF-8, and of NUL: fit for any output.
std::string valid_utf8(std::string_view text);

}  // namespace molewright
