#pragma once
// The table that a teacher fills with what a class wrote: as CSV and as a workbook.
#include <string>

#include "engine/fault.h"
#include "generators/set.h"

namespace molewright {

/// Names and columns in place, in the class's order, with a byte-order mark so that spreadsheets read it as UTF-8.
std::string answers_to_fill(ProblemSet const& set);
/// The same as an .xlsx file whose cells are text, so that 1.20 stays 1.20; a second sheet says what a cell may hold. What it is
/// filled with is read as CSV. Faults: those of book::workbook.
Result<std::string> answers_workbook(ProblemSet const& set);

}  // namespace molewright
