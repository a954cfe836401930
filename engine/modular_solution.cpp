#include "engine/modular_solution.h"

#include <array>
#include <bit>
#include <cstddef>
#include <utility>

namespace molewright {
namespace {

__extension__ typedef unsigned __int128 Wide;
using Residue = std::uint64_t;  // 0 .. prime - 1

constexpr std::size_t side = 64;  ///< columns that a mask has bits for
constexpr Residue prime = (Residue(1) << 61U) - 1;
constexpr std::int64_t bound = std::int64_t(1) << 30U;  ///< 2 * bound^2 <= prime: a fraction within is the only one

Residue residue(std::int64_t number) {
  auto const rest = number % static_cast<std::int64_t>(prime);
  return static_cast<Residue>(rest < 0 ? rest + static_cast<std::int64_t>(prime) : rest);
}
Residue negative(Residue a) { return a == 0 ? 0 : prime - a; }
Residue sum(Residue a, Residue b) {
  Residue const all = a + b;
  return all >= prime ? all - prime : all;
}
Residue product(Residue a, Residue b) {
  Wide const all = static_cast<Wide>(a) * b;
  return sum(static_cast<Residue>(all) & prime, static_cast<Residue>(all >> 61U));
}
Residue inverse(Residue a) {  // a^(prime - 2)
  Residue result = 1;
  for (Residue exponent = prime - 2; exponent != 0; exponent >>= 1U) {
    if ((exponent & 1U) != 0) result = product(result, a);
    a = product(a, a);
  }
  return result;
}

/// numerator / denominator = a modulo the prime, both within the bound; false where there is no such fraction.
bool fraction(Residue a, std::int64_t& numerator, std::int64_t& denominator) {
  auto const number = static_cast<std::int64_t>(a);
  if (number <= bound || static_cast<std::int64_t>(prime) - number <= bound) {
    numerator = number <= bound ? number : number - static_cast<std::int64_t>(prime);
    denominator = 1;
    return true;
  }
  std::int64_t before = static_cast<std::int64_t>(prime), rest = number, factor_before = 0, factor = 1;
  while (rest > bound) {
    std::int64_t const times = before / rest;
    before = std::exchange(rest, before - times * rest);
    factor_before = std::exchange(factor, factor_before - times * factor);
  }
  if (factor > bound || factor < -bound) return false;
  numerator = factor < 0 ? -rest : rest;
  denominator = factor < 0 ? -factor : factor;
  return true;
}

struct Row {
  std::array<Residue, side> entries;
  std::uint64_t filled = 0;  ///< a bit for each column that is not 0
};

template <class Visit>
void each_column(std::uint64_t mask, Visit visit) {
  for (; mask != 0; mask &= mask - 1) visit(static_cast<std::size_t>(std::countr_zero(mask)));
}

bool solves(CompositionMatrix const& matrix, std::vector<std::int64_t> const& solution) {
  for (std::size_t i = 0; i < matrix.rows; ++i) {
    std::int64_t total = 0, part = 0;
    for (std::size_t j = 0; j < matrix.columns; ++j)
      if (__builtin_mul_overflow(matrix.entries[i * matrix.columns + j], solution[j], &part) ||
          __builtin_add_overflow(total, part, &total))
        return false;
    if (total != 0) return false;
  }
  return true;
}

}  // namespace

bool modular_solution(CompositionMatrix const& matrix, std::vector<std::int64_t>& solution) {
  std::size_t const rows = matrix.rows, columns = matrix.columns;
  if (rows > side || columns > side) return false;
  std::array<Row, side> table;
  std::array<Row*, side> row{};
  for (std::size_t i = 0; i < rows; ++i) {
    row[i] = &table[i];
    for (std::size_t j = 0; j < columns; ++j) {
      auto const number = residue(matrix.entries[i * columns + j]);
      table[i].entries[j] = number;
      if (number != 0) table[i].filled |= std::uint64_t(1) << j;
    }
  }

  // Downwards, with the emptiest row first: then few places fill up.
  std::array<std::size_t, side> pivots{};
  std::size_t rank = 0, free = columns;
  for (std::size_t column = 0; column < columns; ++column) {
    std::uint64_t const here = std::uint64_t(1) << column;
    std::size_t found = rows;
    for (std::size_t i = rank; i < rows; ++i)
      if ((row[i]->filled & here) != 0 && (found == rows || std::popcount(row[i]->filled) < std::popcount(row[found]->filled)))
        found = i;
    if (found == rows) {
      if (free != columns) return false;
      free = column;
      continue;
    }
    std::swap(row[rank], row[found]);
    Row const& own = *row[rank];
    Residue const pivot = own.entries[column];
    for (std::size_t i = rank + 1; i < rows; ++i) {
      Row& other = *row[i];
      if ((other.filled & here) == 0) continue;
      Residue const times = negative(other.entries[column]);
      other.filled &= ~here;
      each_column(other.filled, [&](std::size_t j) { other.entries[j] = product(other.entries[j], pivot); });
      each_column(own.filled & ~here, [&](std::size_t j) {
        auto const bit = std::uint64_t(1) << j;
        auto const added = product(times, own.entries[j]);
        other.entries[j] = (other.filled & bit) != 0 ? sum(other.entries[j], added) : added;
        other.filled = other.entries[j] == 0 ? other.filled & ~bit : other.filled | bit;
      });
    }
    pivots[rank++] = column;
  }
  if (free == columns) return false;

  // One division for all pivots: the inverse of their product, from which each one's own is taken.
  std::array<Residue, side + 1> before{1};
  for (std::size_t k = 0; k < rank; ++k) before[k + 1] = product(before[k], row[k]->entries[pivots[k]]);
  Residue rest = inverse(before[rank]);

  // Upwards, times a common denominator that grows as it must, so that nearly every number is whole at first sight.
  std::array<Residue, side> number{};
  std::int64_t common = 1;
  solution.assign(columns, 0);
  number[free] = 1;
  for (std::size_t k = rank; k-- > 0;) {
    Row const& own = *row[k];
    Residue total = 0;
    each_column(own.filled & ~(std::uint64_t(1) << pivots[k]),
                [&](std::size_t j) { total = sum(total, product(own.entries[j], number[j])); });
    number[pivots[k]] = negative(product(total, product(rest, before[k])));
    rest = product(rest, own.entries[pivots[k]]);
  }
  for (std::size_t j = 0; j < columns; ++j) {
    std::int64_t numerator = 0, denominator = 1;
    if (!fraction(product(number[j], static_cast<Residue>(common)), numerator, denominator)) return false;
    if (denominator != 1) {
      common *= denominator;
      if (common > bound) return false;
      for (std::size_t i = 0; i < j; ++i)
        if (__builtin_mul_overflow(solution[i], denominator, &solution[i])) return false;
    }
    solution[j] = numerator;
  }
  return solves(matrix, solution);
}

}  // namespace molewright
