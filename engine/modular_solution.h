#pragma once
// The way to balance an equation of many species that has one solution.
#include <cstdint>
#include <vector>

#include "engine/equation.h"

namespace molewright {

/// As `single_solution`, for a matrix of up to 64 x 64: found modulo the prime 2^61 - 1, made fractions again (P. S. Wang, SYMSAC
/// '81, 212), and verified against the matrix in whole numbers, so that what comes back is the solution. The rank modulo a prime
/// is never above the true one: with one free column and a solution there is exactly one. False where there is none or more than
/// one, and where a numerator or denominator is beyond 2^30; the whole null space then says which.
bool modular_solution(CompositionMatrix const& matrix, std::vector<std::int64_t>& solution);

}  // namespace molewright
