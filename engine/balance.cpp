// Balancing: the null space of the composition matrix, by fraction-free Gauss-Jordan elimination (E. H. Bareiss, Math. Comp. 22
// (1968) 565); before that a shorter way for the usual equation with one solution.
#include <boost/multiprecision/cpp_int.hpp>
#include <numeric>
#include <optional>

#include "engine/chemistry_words.h"
#include "engine/equation.h"
#include "engine/modular_solution.h"
#include "engine/positive.h"
#include "engine/single_solution.h"

namespace molewright {
namespace {

using Big = boost::multiprecision::number<boost::multiprecision::cpp_int_backend<>, boost::multiprecision::et_off>;

constexpr std::size_t small_side = 16;  ///< matrices up to 16 x 16 are reduced on the stack

/// (p a - b c) / d, exact; false when a machine integer would overflow.
bool step(std::int64_t p, std::int64_t b, std::int64_t c, std::int64_t d, std::int64_t& a) {
  std::int64_t first = 0, second = 0, difference = 0;
  if (__builtin_mul_overflow(p, a, &first) || __builtin_mul_overflow(b, c, &second) ||
      __builtin_sub_overflow(first, second, &difference) || difference == INT64_MIN)  // INT64_MIN has no negative
    return false;
  a = d == 1 ? difference : difference / d;
  return true;
}
bool step(Big const& p, Big const& b, Big const& c, Big const& d, Big& a) {
  a = (p * a - b * c) / d;
  return true;
}

/// Reduces `a` (row-major) so that every pivot column holds `pivot` in its own row and 0 elsewhere. `pivots[k]` is the column of
/// row k. False on overflow; `a` is then spoilt.
template <class Number>
bool reduce(Number* a, std::size_t rows, std::size_t columns, std::size_t* pivots, std::size_t& rank, Number& pivot) {
  rank = 0;
  pivot = 1;
  for (std::size_t column = 0; column < columns && rank < rows; ++column) {
    std::size_t found = rank;
    while (found < rows && a[found * columns + column] == 0) ++found;
    if (found == rows) continue;
    if (found != rank)
      for (std::size_t j = 0; j < columns; ++j) std::swap(a[found * columns + j], a[rank * columns + j]);
    Number* const own = a + rank * columns;
    Number const previous = pivot;
    pivot = own[column];
    for (std::size_t i = 0; i < rows; ++i) {
      if (i == rank) continue;
      Number* const row = a + i * columns;
      Number const times = row[column];
      if (times == 0 && pivot == previous) continue;
      for (std::size_t j = 0; j < columns; ++j) {
        if (row[j] == 0 && (times == 0 || own[j] == 0)) continue;
        if (!step(pivot, times, own[j], previous, row[j])) return false;
      }
    }
    pivots[rank++] = column;
  }
  return true;
}

std::int64_t gcd(std::int64_t a, std::int64_t b) { return std::gcd(a, b); }
Big gcd(Big const& a, Big const& b) { return boost::multiprecision::gcd(a, b); }

/// Solution with `free` at 1 and the other free columns at 0, in lowest whole numbers, `free` positive.
template <class Number>
void null_vector(Number const* a, std::size_t columns, std::size_t const* pivots, std::size_t rank, Number const& pivot,
                 std::size_t free, Number* solution) {
  for (std::size_t j = 0; j < columns; ++j) solution[j] = 0;
  solution[free] = pivot;
  Number common = pivot;
  for (std::size_t k = 0; k < rank; ++k) {
    Number const& entry = a[k * columns + free];
    solution[pivots[k]] = -entry;
    if (entry != 0) common = gcd(common, entry);
  }
  if (common < 0) common = -common;
  if (pivot < 0) common = -common;
  if (common != 1)
    for (std::size_t j = 0; j < columns; ++j) solution[j] /= common;
}

/// What the elimination found. `vectors` spans the null space; empty with `fits` false where a number needs more than 63 bits.
struct NullSpace {
  std::size_t nullity = 0;
  bool fits = true;
  std::vector<std::vector<std::int64_t>> vectors;
  std::vector<std::vector<Rational>> rows;  ///< independent rows, each divided by its pivot; only where nullity > 1
};

bool narrow(std::int64_t from, std::int64_t& to) {
  to = from;
  return true;
}
bool narrow(Big const& from, std::int64_t& to) {
  static Big const limit = Big(INT64_MAX);
  if (from > limit || from < -limit) return false;
  to = static_cast<std::int64_t>(from);
  return true;
}

Rational ratio(std::int64_t above, std::int64_t below) { return Rational(above, below); }
Rational ratio(Big const& above, Big const& below) { return Rational::from_text(above.str()) / Rational::from_text(below.str()); }

template <class Number>
bool find_null_space(Number* a, std::size_t rows, std::size_t columns, std::size_t* pivots, Number* solution, NullSpace& space) {
  std::size_t rank = 0;
  Number pivot = 1;
  if (!reduce(a, rows, columns, pivots, rank, pivot)) return false;
  space.nullity = columns - rank;
  space.vectors.reserve(space.nullity);
  std::size_t next_pivot = 0;
  for (std::size_t column = 0; column < columns; ++column) {
    if (next_pivot < rank && pivots[next_pivot] == column) {
      ++next_pivot;
      continue;
    }
    null_vector(a, columns, pivots, rank, pivot, column, solution);
    std::vector<std::int64_t> vector(columns);
    for (std::size_t j = 0; j < columns; ++j) space.fits = narrow(solution[j], vector[j]) && space.fits;
    space.vectors.push_back(std::move(vector));
  }
  if (space.nullity < 2) return true;
  for (std::size_t k = 0; k < rank; ++k) {
    std::vector<Rational> row(columns);
    for (std::size_t j = 0; j < columns; ++j) row[j] = ratio(a[k * columns + j], pivot);
    space.rows.push_back(std::move(row));
  }
  return true;
}

NullSpace null_space(CompositionMatrix const& matrix) {
  NullSpace space;
  if (matrix.rows <= small_side && matrix.columns <= small_side) {
    std::int64_t a[small_side * small_side];
    std::int64_t solution[small_side];
    std::size_t pivots[small_side];
    for (std::size_t i = 0; i < matrix.entries.size(); ++i) a[i] = matrix.entries[i];
    if (find_null_space(a, matrix.rows, matrix.columns, pivots, solution, space)) return space;
  }
  std::vector<Big> a(matrix.entries.begin(), matrix.entries.end());
  std::vector<Big> solution(matrix.columns);
  std::vector<std::size_t> pivots(matrix.rows);
  find_null_space(a.data(), matrix.rows, matrix.columns, pivots.data(), solution.data(), space);
  return space;
}

/// Smallest whole numbers in the ratio of `numbers`; nullopt where one needs more than 63 bits.
std::optional<std::vector<std::int64_t>> whole_numbers(std::vector<Rational> const& numbers) {
  std::int64_t common = 1;
  std::vector<std::pair<std::int64_t, std::int64_t>> parts(numbers.size());
  for (std::size_t i = 0; i < numbers.size(); ++i) {
    if (!numbers[i].fits(parts[i].first, parts[i].second)) return std::nullopt;
    std::int64_t const factor = parts[i].second / std::gcd(common, parts[i].second);
    if (__builtin_mul_overflow(common, factor, &common)) return std::nullopt;
  }
  std::vector<std::int64_t> whole(numbers.size());
  std::int64_t divisor = 0;
  for (std::size_t i = 0; i < numbers.size(); ++i) {
    if (__builtin_mul_overflow(parts[i].first, common / parts[i].second, &whole[i])) return std::nullopt;
    divisor = std::gcd(divisor, whole[i]);
  }
  if (divisor > 1)
    for (std::int64_t& number : whole) number /= divisor;
  return whole;
}

/// `sign` * vector + t * positive in lowest terms, t the smallest whole number that makes every entry positive.
std::optional<std::vector<std::int64_t>> lift(std::vector<std::int64_t> const& vector, int sign,
                                              std::vector<std::int64_t> const& positive) {
  std::int64_t t = 0;
  for (std::size_t j = 0; j < vector.size(); ++j) {
    std::int64_t const entry = sign * vector[j];
    if (entry <= 0) t = std::max(t, -entry / positive[j] + 1);
  }
  std::vector<Rational> sum(vector.size());
  for (std::size_t j = 0; j < vector.size(); ++j) sum[j] = Rational(sign * vector[j]) + Rational(t) * Rational(positive[j]);
  return whole_numbers(sum);
}

/// A basis with every coefficient above 0: one positive solution, and all but one of the vectors lifted by it. Those stay
/// independent, for the positive solution has a part of each vector, its free column being above 0.
std::optional<std::vector<std::vector<std::int64_t>>> positive_basis(NullSpace const& space,
                                                                     std::vector<Rational> const& solution) {
  auto const first = whole_numbers(solution);
  if (!first) return std::nullopt;
  std::vector<std::vector<std::int64_t>> basis{*first};
  auto const total = [](std::vector<std::int64_t> const& vector) {
    double sum = 0;
    for (std::int64_t const number : vector) sum += static_cast<double>(number);
    return sum;
  };
  for (std::size_t i = 0; i + 1 < space.vectors.size(); ++i) {
    auto const up = lift(space.vectors[i], 1, *first);
    auto const down = lift(space.vectors[i], -1, *first);
    if (!up && !down) return std::nullopt;
    basis.push_back(!down || (up && total(*up) <= total(*down)) ? *up : *down);
  }
  return basis;
}

BalanceResult too_large() {
  BalanceResult result;
  result.outcome = Balance::too_large;
  result.why = words::too_large;
  return result;
}

/// `single`: the solution of a one-dimensional null space that has a 0 or mixed signs.
BalanceResult balance(CompositionMatrix const& matrix, std::vector<std::int64_t>* single) {
  BalanceResult result;
  std::vector<std::int64_t> vector;
  NullSpace space;
  bool const small = matrix.rows <= small_side && matrix.columns <= small_side;
  if ((small && single_solution(matrix, vector)) || modular_solution(matrix, vector)) {
    space.nullity = 1;
  } else {
    space = null_space(matrix);
    if (space.nullity == 1) vector = std::move(space.vectors[0]);
  }
  if (space.nullity == 1) {
    if (!space.fits) return too_large();
    bool positive = true;
    for (std::int64_t const number : vector) positive = positive && number > 0;
    if (positive) {
      result.outcome = Balance::unique;
      result.coefficients = std::move(vector);
      return result;
    }
    if (single != nullptr) *single = std::move(vector);
  } else if (space.nullity > 1) {
    auto const solution = positive_solution(space.rows, matrix.columns);
    if (solution) {
      auto basis = space.fits ? positive_basis(space, *solution) : std::nullopt;
      if (!basis) return too_large();
      result.outcome = Balance::not_unique;
      result.independent = std::move(*basis);
      result.why = words::fill(words::independent_reactions, std::to_string(space.nullity));
      return result;
    }
  }
  result.why = words::no_numbers;
  return result;
}

Formula const& formula_at(Equation const& equation, std::size_t column) {
  std::size_t const split = equation.left.size();
  return (column < split ? equation.left[column] : equation.right[column - split]).formula;
}

std::string join(std::vector<std::string> const& names) {
  std::string text;
  for (std::size_t i = 0; i < names.size(); ++i) {
    if (i > 0) text += i + 1 == names.size() ? words::and_word : ", ";
    text += names[i];
  }
  return text;
}

std::string one_sided_elements(Equation const& equation) {
  std::map<std::string, int> sides;
  std::vector<std::string> in_order;
  for (std::size_t column = 0; column < equation.left.size() + equation.right.size(); ++column)
    for (auto const& [element, count] : formula_at(equation, column).composition()) {
      int& side = sides[element];
      if (side == 0) in_order.push_back(element);
      side |= column < equation.left.size() ? 1 : 2;
    }
  std::vector<std::string> lonely;
  for (std::string const& element : in_order)
    if (sides[element] != 3) lonely.push_back(element);
  if (lonely.empty()) return "";
  return words::fill(words::one_side_only, words::fill(lonely.size() == 1 ? words::stands : words::stand, join(lonely)));
}

/// Names the species that a one-dimensional solution leaves out or turns round.
std::string odd_species(Equation const& equation, std::vector<std::int64_t> const& single) {
  std::vector<std::string> zero, negative, positive;
  for (std::size_t column = 0; column < single.size(); ++column) {
    auto& group = single[column] == 0 ? zero : single[column] < 0 ? negative : positive;
    group.push_back(plain(formula_at(equation, column)));
  }
  if (!negative.empty() && !positive.empty())
    return words::fill(words::needs_negative, join(negative.size() <= positive.size() ? negative : positive));
  return words::fill(words::needs_zero, join(zero));
}

std::string why_not(Equation const& equation, CompositionMatrix matrix, std::vector<std::int64_t> const& single) {
  std::string const lonely = one_sided_elements(equation);
  if (!lonely.empty()) return lonely;
  bool charged = false;
  for (std::size_t column = 0; column < matrix.columns; ++column) charged = charged || formula_at(equation, column).charge != 0;
  if (charged) {
    --matrix.rows;
    matrix.entries.resize(matrix.rows * matrix.columns);
    if (balance(matrix, nullptr).outcome != Balance::no_solution) return words::charges_unequal;
  }
  return single.empty() ? words::no_numbers : odd_species(equation, single);
}

}  // namespace

BalanceResult balance(CompositionMatrix const& matrix) { return balance(matrix, nullptr); }

BalanceResult balance(Equation const& equation) {
  CompositionMatrix const matrix = composition_matrix(equation);
  std::vector<std::int64_t> single;
  BalanceResult result = balance(matrix, &single);
  if (result.outcome == Balance::no_solution) result.why = why_not(equation, matrix, single);
  return result;
}

Result<Equation> balanced(Equation const& equation) {
  BalanceResult const result = balance(equation);
  switch (result.outcome) {
    case Balance::unique:
      break;
    case Balance::no_solution:
      return Fault{"no-solution", words::fill(words::cannot_balance, result.why), "", 0};
    case Balance::not_unique:
      return Fault{"not-unique", words::fill(words::balances_many_ways, result.why), "", 0};
    case Balance::too_large:
      return Fault{"coefficients-too-large", words::fill(words::cannot_balance, result.why), "", 0};
  }
  Equation copy = equation;
  for (std::size_t i = 0; i < copy.left.size(); ++i) copy.left[i].coefficient = Rational(result.coefficients[i]);
  for (std::size_t i = 0; i < copy.right.size(); ++i)
    copy.right[i].coefficient = Rational(result.coefficients[copy.left.size() + i]);
  return copy;
}

}  // namespace molewright
