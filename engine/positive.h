#pragma once
// A solution of A x = 0 with every x above 0: tells whether several reactions can run side by side.
#include <optional>
#include <vector>

#include "engine/rational.h"

namespace molewright {

/// `rows` are independent equations over `columns` unknowns, each the coefficients of one sum that must be 0. The solution with
/// every unknown at least 1 and the smallest sum, by the simplex method in exact numbers; nullopt where no solution has every
/// unknown above 0. Source of the pivot rule, which cannot cycle: R. G. Bland, Math. Oper. Res. 2 (1977) 103.
std::optional<std::vector<Rational>> positive_solution(std::vector<std::vector<Rational>> const& rows, std::size_t columns);

}  // namespace molewright
