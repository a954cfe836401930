#pragma once
// The answers file of a class: comma, semicolon or tab, wide (a column a part) or long (a row an answer).
#include <cstddef>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "engine/fault.h"

namespace molewright {

/// A table of text cells with the line each row began on.
struct Table {
  struct Row {
    std::size_t line = 0;
    std::vector<std::string> cells;
    std::vector<std::size_t> columns;  ///< where each cell begins on its line, in code points from 1
  };
  std::vector<std::string> header;
  std::vector<Row> rows;
  char separator = ',';
};

struct TableRead {
  Table table;
  std::vector<PlacedFault> faults;  ///< a faulty row is left out and named here
};

/// RFC 4180 with kindness: quotes (doubled inside), line breaks in quotes, CRLF, CR or LF, a byte-order mark, blank lines passed over, the separator found from the header line.
/// Faults: "quote-not-closed", "too-many-cells" (more than the header), "invalid-utf8", "nul-byte", "cell-too-long" (over 64 kB), "empty-file".
TableRead read_table(std::string_view text);
/// A cell quoted where it must be, and neutralised (a leading apostrophe) where a spreadsheet would run it (= + @ and - before a letter).
std::string csv_cell(std::string_view text, char separator = ',');

/// One answer handed in.
struct HandedIn {
  std::string student;
  std::string question;  ///< "1", "2a"
  std::string answer;    ///< the cell as it stands
  std::string working;   ///< lines, if the column is there
  std::string measured;  ///< the student's own reading, if the column is there
  std::optional<std::string> marks;  ///< a mark given by hand: it is kept
  std::size_t line = 0, column = 0;
};

struct AnswersRead {
  std::vector<HandedIn> answers;   ///< in the order of the file
  std::vector<PlacedFault> faults;
  bool wide = true;
};
/// Wide: `student`, then a column a part. Long: `student,question,answer` and if wanted `working`, `measured`, `marks`. Header names in any case. Other columns of a wide file that are not
/// in `known_columns` are faults ("unknown-column") naming the nearest; an empty student is a fault ("no-student"); a student twice (wide) or a part twice (long) is a fault ("given-twice") and the first stays.
AnswersRead read_answers(std::string_view text, std::vector<std::string> const& known_columns);

/// CLASS.csv: `student`, and if wanted `level`, `print`, `version`.
struct ClassMember {
  std::string student, level, print, version;
};
struct ClassRead {
  std::vector<ClassMember> members;
  std::vector<PlacedFault> faults;  ///< "no-student", "given-twice", "unknown-column", "unknown-level", "unknown-print"
};
ClassRead read_class(std::string_view text);

}  // namespace molewright
