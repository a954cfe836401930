#pragma once
// The table that a teacher fills with what a class wrote: as CSV and as a workbook.
#include <map>
#include <string>
#include <vector>

#include "engine/fault.h"
#include "generators/set.h"
#include "marker/results.h"

namespace molewright {

/// Takes a set a volume at a time. Behind the answers stands the code of the first question on each student's paper, where there
/// is more than one paper: whatever slips a row or a cell aside puts a code where none belongs.
class AnswersToFill {
 public:
  void add(ProblemSet const& volume);
  /// Names and columns in place, in the class's order, with a byte-order mark so that spreadsheets read it as UTF-8.
  std::string csv() const;
  /// The same as an .xlsx file whose cells are text, so that 1.20 stays 1.20; a second sheet says what a cell may hold. What it
  /// is filled with is read as CSV. Faults: those of book::workbook.
  Result<std::string> workbook() const;

 private:
  std::vector<std::string> columns() const;
  std::string code_of(std::size_t place) const;
  std::vector<std::vector<std::string>> rows() const;  ///< the head first

  std::string title_;
  std::vector<std::string> class_order_, class_versions_, readings_;
  ColumnOrder answers_;
  std::map<std::string, std::string> code_of_student_, code_of_version_;  ///< looked up only
};

}  // namespace molewright
