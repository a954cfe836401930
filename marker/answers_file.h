#pragma once
// The answers file of a class: comma, semicolon or tab, wide (a column a part) or long (a row an answer).
#include <cstddef>
#include <cstdint>
#include <optional>
#include <set>
#include <string>
#include <string_view>
#include <unordered_map>
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
  /// Where the mark stands, which may be another file than the answer's.
  std::size_t marks_line = 0, marks_column = 0, marks_file = 0;
};

/// What heads the columns of a set's answers ("1", "2a") and of the students' own readings ("1 measured").
struct AnswerColumns {
  std::vector<std::string> answers, readings;
};

/// Numbers for names, from 0 in the order in which they are first seen.
class NameNumbers {
 public:
  std::uint32_t of(std::string const& name) {
    auto const [at, fresh] = numbers_.try_emplace(name, static_cast<std::uint32_t>(names_.size()));
    if (fresh) names_.push_back(&at->first);
    return at->second;
  }
  std::string const& name(std::uint32_t number) const { return *names_[number]; }
  std::size_t size() const { return names_.size(); }

 private:
  std::unordered_map<std::string, std::uint32_t> numbers_;  ///< looked up only
  std::vector<std::string const*> names_;
};

/// A row of an answers file: whose it is and where it stands.
struct AnswersRow {
  std::uint32_t student = 0;  ///< its number
  std::size_t at = 0, line = 0;
};

/// What rows say.
struct RowsRead {
  std::vector<HandedIn> answers;   ///< in the order of the file
  std::vector<HandedIn> readings;  ///< of a wide file: `question` is the column ("1 measured"), `measured` the cell
};

/// An answers file, read row by row. Wide: `student`, then a column a part. Long: `student,question,answer` and if wanted
/// `working`, `measured`, `marks`; either may have `code`. Header names in any case. A wide file has the students' own readings
/// in columns of their own. A wide file gives an answer for each of its columns and students, blank ones too; `question` comes
/// back as the columns are named, a student's name without blanks at its ends and with single blanks inside. Other columns of a
/// wide file are faults ("unknown-column") naming the nearest, as are other questions of a long one ("unknown-question"); an
/// empty student is a fault ("no-student"); a student twice (wide) or a part twice (long) is a fault ("given-twice") and the
/// first stays. Without `student`, or with only one of `question` and `answer`, nothing can be read ("missing-column"); a long
/// file without `student` is that of `whose`, where one is named. The faults of the table come with them.
class AnswersFile {
 public:
  /// REQUIRES: text, columns and names outlive this.
  AnswersFile(std::string_view text, AnswerColumns const& columns, NameNumbers& names, std::string whose = "");
  bool wide() const { return wide_; }
  /// Whether its rows hold answers: a wide file may hold readings alone.
  bool has_answers() const { return !wide_ || !parts_.empty(); }
  /// The next row that counts; nothing at the end.
  std::optional<AnswersRow> next();
  /// What stands in a row that next() gave, behind what was read before.
  void read(AnswersRow const& row, RowsRead& into);
  /// Which questions it has room for: a wide file those with a column, a long one all.
  std::set<std::string> const& questions() const { return questions_; }
  /// The students named in rows that could not be used, once there is no next row.
  std::vector<std::string> take_not_used() { return std::move(not_used_); }
  /// All of them, in the order of the file, once there is no next row.
  std::vector<PlacedFault> take_faults();

 private:
  void find_columns();
  void find_wide_columns();
  void find_long_columns();
  void note_left_out();
  bool first_time(std::uint32_t student, std::size_t question);
  std::size_t known_question(std::string_view name) const;

  struct Named {
    std::size_t column;
    std::string name;
  };

  TableReader table_;
  AnswerColumns const* columns_;
  NameNumbers* names_;
  std::string whose_;
  bool wide_ = true, readable_ = false;
  std::vector<PlacedFault> faults_;
  std::optional<std::size_t> student_, question_, answer_, working_, measured_, marks_, code_;
  std::vector<Named> parts_, readings_;  ///< of a wide file
  std::vector<std::string> not_used_;
  std::set<std::string> questions_;
  std::vector<bool> seen_;  ///< by student; of a long file by student and question
};

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
