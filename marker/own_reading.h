#pragma once
// Problems with a value that each student measures: `given V(HCl) = measured mL`. The question is worked anew with the student's
// own reading, and marked against that.
#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

#include "engine/decimal.h"
#include "engine/fault.h"
#include "marker/question.h"

namespace molewright {

/// Indices of the givens that are the student's own readings.
std::vector<std::size_t> readings_of(Problem const& problem);
/// "1 measured": the column of a wide answers file that holds the readings for a question.
std::string reading_column(Question const& question);
/// Whether the answer of a find is worked from a reading.
bool rests_on_reading(Question const& question, std::size_t find);

/// The problem with the readings of a cell put in: "24.65 mL", "24.65" and "24.65 - 0.20 mL" where one is asked, "V(HCl) = 24.65
/// mL; T = 21 °C" where several are; without a unit in that of the problem. Faults: "no-reading" (which are missing),
/// "unknown-reading", "given-twice", and those of a line `given`.
Result<Problem> with_readings(Problem const& problem, std::string_view cell, DecimalMark mark);

/// The question worked with those readings, its slip key too, under the same letters; and the solver's faults.
Result<Question> with_readings(Question const& question, std::string_view cell, Conventions const& conventions);

}  // namespace molewright
