#include "engine/single_solution.h"

#include <cstddef>
#include <numeric>
#include <utility>

namespace molewright {
namespace {

constexpr std::size_t side = 16;  ///< of a small matrix, at most: it is reduced on the stack

/// Not 0 where the number is outside -2^29 .. 2^29 - 1. Of numbers within, sums of 16 products fit a machine integer, so that one
/// look a row does instead of one an operation.
std::uint64_t beyond(std::int64_t number) { return (static_cast<std::uint64_t>(number) + (1U << 29U)) >> 30U; }

}  // namespace

bool single_solution(CompositionMatrix const& matrix, std::vector<std::int64_t>& solution) {
  std::size_t const rows = matrix.rows, columns = matrix.columns;
  if (rows > side || columns > side) return false;
  std::int64_t a[side * side];
  std::int64_t* row[side];
  std::size_t pivots[side];
  std::uint64_t large = 0;
  for (std::size_t i = 0; i < matrix.entries.size(); ++i) {
    a[i] = matrix.entries[i];
    large |= beyond(a[i]);
  }
  for (std::size_t i = 0; i < rows; ++i) row[i] = a + i * columns;

  // Downwards only, and past what is 0 already. A pivot of 1 or -1 is taken where there is one: then nothing grows.
  std::size_t rank = 0, free = columns;
  for (std::size_t column = 0; column < columns; ++column) {
    std::size_t found = rows;
    for (std::size_t i = rank; i < rows; ++i) {
      std::int64_t const entry = row[i][column];
      if (entry == 0) continue;
      found = i;
      if (entry == 1 || entry == -1) break;
    }
    if (found == rows) {
      if (free != columns) return false;
      free = column;
      continue;
    }
    std::swap(row[rank], row[found]);
    std::int64_t const* const own = row[rank];
    std::int64_t const pivot = own[column];
    for (std::size_t i = rank + 1; i < rows && large == 0; ++i) {
      std::int64_t* const other = row[i];
      std::int64_t const times = other[column];
      if (times == 0) continue;
      for (std::size_t j = column; j < columns; ++j) {
        other[j] = pivot * other[j] - times * own[j];
        large |= beyond(other[j]);
      }
    }
    if (large != 0) return false;
    pivots[rank++] = column;
  }
  if (free == columns) return false;

  // Upwards: what stands there so far is multiplied by what makes the next number whole, and so stays in lowest terms.
  solution.assign(columns, 0);
  std::int64_t* const number = solution.data();
  number[free] = 1;
  for (std::size_t k = rank; k-- > 0;) {
    std::int64_t sum = 0, pivot = row[k][pivots[k]];
    for (std::size_t j = pivots[k] + 1; j < columns; ++j) sum -= row[k][j] * number[j];
    if (pivot < 0) {
      pivot = -pivot;
      sum = -sum;
    }
    if (pivot != 1) {
      std::int64_t const common = std::gcd(pivot, sum);
      sum /= common;
      if (pivot != common) {
        for (std::size_t j = pivots[k] + 1; j < columns; ++j) {
          number[j] *= pivot / common;
          large |= beyond(number[j]);
        }
      }
    }
    number[pivots[k]] = sum;
    if ((large | beyond(sum)) != 0) return false;
  }
  return true;
}

}  // namespace molewright
