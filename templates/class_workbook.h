#pragma once
// A class's results as the sheets of a workbook, with formulas: whoever alters a mark sees every total follow.
#include <vector>

#include "marker/results.h"
#include "templates/workbook.h"

namespace molewright {

/// Sheets "Marks" (a row a student, a column a part; totals, means and spreads are formulas), "With suggested" (the same with the
/// marks suggested for slips accepted; only where there are any), "Slips" (who made which; only how many, of a slip that more
/// than a volume of students made) and "Parts" (how each was answered). Rows of marks are made as they are written. REQUIRES: the
/// results outlive the sheets.
std::vector<book::Sheet> class_workbook(ClassResults const& results);

}  // namespace molewright
