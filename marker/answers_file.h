#pragma once
// The answers file of a class: comma, semicolon or tab, wide (a column a part) or long (a row an answer).
#include <cstddef>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "engine/fault.h"
#include "marker/table.h"

namespace molewright {

/// One answer handed in.
struct HandedIn {
  std::string student;
  std::string question;              ///< "1", "2a"
  std::string answer;                ///< the cell as it stands
  std::string working;               ///< lines, if the column is there
  std::string measured;              ///< the student's own reading, if the column is there
  std::string code;                  ///< of the question, or in a wide file of any on the paper, if the column is there
  bool whole_row = false;            ///< of a wide file: the code may be that of any question
  std::optional<std::string> marks;  ///< a mark given by hand: it is kept
  std::size_t line = 0, column = 0;
  std::size_t file = 0;  ///< where several are read (handed_in.h)
};

struct AnswersRead {
  std::vector<HandedIn> answers;   ///< in the order of the file
  std::vector<HandedIn> readings;  ///< of a wide file: `question` is the column ("1 measured"), `measured` the cell
  std::vector<PlacedFault> faults;
  bool wide = true;
};
/// Wide: `student`, then a column a part. Long: `student,question,answer` and if wanted `working`, `measured`, `marks`; either
/// may have `code`. Header names in any case. A wide file has the students' own readings in `reading_columns` ("1 measured"). A
/// wide file gives an answer for each of its columns and students, blank ones too; `question` comes back as `known_columns`
/// writes it, a student's name without blanks at its ends and with single blanks inside. Other columns of a wide file that are
/// not in `known_columns` are faults ("unknown-column") naming the nearest, as are other questions of a long one
/// ("unknown-question"); an empty student is a fault ("no-student"); a student twice (wide) or a part twice (long) is a fault
/// ("given-twice") and the first stays. Without `student`, or with only one of `question` and `answer`, nothing can be read
/// ("missing-column"); a long file without `student` is that of `student`, where one is named. The faults of `read_table` come
/// with them, in the order of the file.
AnswersRead read_answers(std::string_view text, std::vector<std::string> const& known_columns,
                         std::vector<std::string> const& reading_columns = {}, std::string const& student = "");

/// CLASS.csv: `student`, and if wanted `level`, `print`, `version`.
struct ClassMember {
  std::string student, level, print, version;
};
/// The faults, in the order of the file. A member whose level or print is unknown is kept, with that field empty: the fault says
/// so.
struct ClassRead {
  std::vector<ClassMember> members;
  std::vector<PlacedFault> faults;  ///< "no-student", "given-twice", "unknown-column", "unknown-level", "unknown-print",
                                    ///< "missing-column", and those of read_table
};
/// `level` is plain, standard or stretching and `print` standard or large, in any case and given back in lower case; empty where
/// nothing is written.
ClassRead read_class(std::string_view text);

}  // namespace molewright
