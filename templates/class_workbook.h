#pragma once
// A class's results as the sheets of a workbook, with formulas: whoever alters a mark sees every total follow.
#include <vector>

#include "marker/results.h"
#include "templates/workbook.h"

namespace molewright {

/// Sheets "Marks" (a row a student, a column a part; totals, means and spreads are formulas), "With suggested" (the same with the
/// marks suggested for slips accepted; only where there are any), "Slips" (who made which) and "Parts" (how each was answered).
std::vector<book::Sheet> class_workbook(ClassResults const& results);

}  // namespace molewright
