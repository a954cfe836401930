#pragma once
// A spreadsheet's workbook: sheets of text, numbers and formulas, as bytes. It knows nothing of students.
#include <cstddef>
#include <functional>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "engine/fault.h"

namespace molewright::book {

enum class Look {
  plain,
  head,    ///< names of columns
  strong,  ///< totals
  share    ///< a number from 0 to 1, shown in per cent
};

struct Cell {
  enum class Kind { blank, text, number, formula } kind = Kind::blank;
  std::string text;   ///< the text, or the formula with its "="
  double number = 0;  ///< the number, or what the formula comes to; of a formula that comes to nothing `empty_result` is set
  Look look = Look::plain;
  bool empty_result = false;
};
/// Text is neutralised: what a spreadsheet would run gets an apostrophe in front, as in our CSV files.
Cell text(std::string_view utf8, Look look = Look::plain);
Cell number(double value, Look look = Look::plain);
/// `result` is shown by whatever does not recalculate.
Cell formula(std::string formula, double result, Look look = Look::plain);
/// A formula whose result is empty text for now.
Cell formula_without_result(std::string formula, Look look = Look::plain);

struct Sheet {
  std::string name;            ///< up to 31 characters, none of []:*?/\, each name once
  std::vector<double> widths;  ///< of the columns, in characters
  std::vector<std::vector<Cell>> rows;
  /// Rows behind these, each made when it is written: of a large sheet no more than one is there at a time.
  std::size_t more_rows = 0;
  std::function<std::vector<Cell>(std::size_t nth)> make_row{};
  std::size_t frozen_rows = 1, frozen_columns = 1;  ///< stay in sight
  /// Cells are text whatever is typed into them, the empty ones below the last row too: 1.20 stays 1.20, 3/4 becomes no date.
  bool takes_text = false;
};

/// "B3"; rows and columns from 0.
std::string cell_name(std::size_t row, std::size_t column);
/// "B3:B14".
std::string range(std::size_t row, std::size_t column, std::size_t last_row, std::size_t last_column);

/// From so many rows on the texts of a sheet stand in its cells, and each row goes to disk at once; a smaller workbook has every
/// text once.
inline constexpr std::size_t rows_of_a_large_sheet = 2000;

/// An .xlsx file, handed on piece by piece; the same bytes for the same sheets. Faults: "cannot-write" (no room for temporary
/// files).
std::optional<Fault> write_workbook(std::string const& title, std::vector<Sheet> const& sheets,
                                    std::function<void(std::string_view bytes)> const& take);
/// The same as a whole.
Result<std::string> workbook(std::string const& title, std::vector<Sheet> const& sheets);

}  // namespace molewright::book
