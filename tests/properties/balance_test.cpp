// Balancing over equations made the other way round: what the reactants bring, in known amounts, is dealt out to the products, so
// that a balance is known to exist (RapidCheck; RC_PARAMS="seed=1" repeats a run).
#include <rapidcheck/catch.h>

#include <algorithm>
#include <catch2/catch.hpp>
#include <cstdint>
#include <map>
#include <numeric>

#include "engine/equation.h"

using namespace molewright;

namespace {

using Atoms = std::map<std::string, std::int64_t>;

struct Known {
  std::string text;
  std::vector<std::int64_t> coefficients;  ///< left, then right
};

std::string numbered(std::string const& what, std::int64_t count) { return count == 1 ? what : what + std::to_string(count); }

std::string charge_of(std::int64_t charge) {
  if (charge == 0) return "";
  auto const size = charge < 0 ? -charge : charge;
  return "^" + (size == 1 ? std::string() : std::to_string(size)) + (charge > 0 ? "+" : "-");
}

/// The atoms as a formula, in no fixed order; where they share a divisor, now and then in brackets.
std::string formula_of(Atoms const& atoms) {
  std::vector<std::pair<std::string, std::int64_t>> list;
  std::int64_t common = 0;
  for (auto const& [element, count] : atoms)
    if (count > 0) {
      list.emplace_back(element, count);
      common = std::gcd(common, count);
    }
  std::rotate(list.begin(), list.begin() + *rc::gen::inRange<std::ptrdiff_t>(0, std::ssize(list)), list.end());
  bool const brackets = common > 1 && *rc::gen::arbitrary<bool>();
  std::string text;
  for (auto const& [element, count] : list) text += numbered(element, brackets ? count / common : count);
  return brackets ? numbered('(' + text + ')', common) : text;
}

/// Charges are dealt out like atoms: the last product takes what is left.
Known known_equation() {
  auto const all = std::vector<std::string>{"H", "O", "Na", "Cl", "S", "N", "Fe", "C", "K", "Mn"};
  auto const kinds = *rc::gen::inRange<std::size_t>(1, 7);
  std::vector<std::string> const elements(all.begin(), all.begin() + static_cast<std::ptrdiff_t>(kinds));
  auto const element = [&] { return *rc::gen::elementOf(elements); };
  auto const left = *rc::gen::inRange<std::size_t>(1, 5), right = *rc::gen::inRange<std::size_t>(1, 5);
  bool const charged = *rc::gen::inRange(0, 3) == 0;
  Known known;
  Atoms pool;
  std::int64_t charge_left = 0;
  auto const put = [&](Atoms const& atoms, std::int64_t charge, std::int64_t coefficient) {
    auto const i = known.coefficients.size();
    known.text += (i == 0 ? "" : i == left ? " -> " : " + ") + formula_of(atoms) + charge_of(charge);
    known.coefficients.push_back(coefficient);
  };
  for (std::size_t i = 0; i < left; ++i) {
    Atoms atoms;
    for (auto k = *rc::gen::inRange(1, 5); k > 0; --k) atoms[element()] += *rc::gen::inRange<std::int64_t>(1, 6);
    auto const coefficient = *rc::gen::inRange<std::int64_t>(1, 12);
    auto const charge = charged ? *rc::gen::inRange<std::int64_t>(-3, 4) : 0;
    for (auto const& [name, count] : atoms) pool[name] += coefficient * count;
    charge_left += coefficient * charge;
    put(atoms, charge, coefficient);
  }
  for (std::size_t i = 0; i + 1 < right; ++i) {
    auto const coefficient = *rc::gen::inRange<std::int64_t>(1, 12);
    Atoms atoms;
    for (auto k = *rc::gen::inRange(1, 5); k > 0; --k) {
      auto const name = element();
      auto const most = std::min<std::int64_t>(pool[name] / coefficient, 6);
      if (most == 0) continue;
      auto const count = *rc::gen::inRange<std::int64_t>(1, most + 1);
      atoms[name] += count;
      pool[name] -= coefficient * count;
    }
    if (atoms.empty()) continue;
    auto const charge = charged ? *rc::gen::inRange<std::int64_t>(-3, 4) : 0;
    charge_left -= coefficient * charge;
    put(atoms, charge, coefficient);
  }
  // What is left over, in as many units as share it out evenly.
  std::int64_t common = charge_left;
  bool any = false;
  for (auto const& [name, count] : pool) {
    common = std::gcd(common, count);
    any = any || count > 0;
  }
  RC_PRE(any && common != 0);
  std::vector<std::int64_t> divisors;
  for (std::int64_t d = 1; d <= common; ++d)
    if (common % d == 0) divisors.push_back(d);
  auto const coefficient = *rc::gen::elementOf(divisors);
  for (auto& [name, count] : pool) count /= coefficient;
  auto const charge = charge_left / coefficient;
  RC_PRE(charge >= -99 && charge <= 99);  // what a formula can say
  put(pool, charge, coefficient);
  return known;
}

/// Rank over the rational numbers, by plain elimination.
std::size_t rank(std::vector<std::vector<Rational>> rows) {
  std::size_t rank = 0;
  for (std::size_t column = 0; !rows.empty() && column < rows[0].size() && rank < rows.size(); ++column) {
    auto found = rank;
    while (found < rows.size() && rows[found][column].sign() == 0) ++found;
    if (found == rows.size()) continue;
    std::swap(rows[found], rows[rank]);
    for (auto i = rank + 1; i < rows.size(); ++i) {
      auto const times = rows[i][column] / rows[rank][column];
      for (auto j = column; j < rows[i].size(); ++j) rows[i][j] -= times * rows[rank][j];
    }
    ++rank;
  }
  return rank;
}

std::vector<Rational> row_of(std::int64_t const* numbers, std::size_t count) {
  std::vector<Rational> row;
  for (std::size_t i = 0; i < count; ++i) row.emplace_back(numbers[i]);
  return row;
}

bool conserves(CompositionMatrix const& matrix, std::vector<std::int64_t> const& coefficients) {
  for (std::size_t r = 0; r < matrix.rows; ++r) {
    std::int64_t sum = 0;
    for (std::size_t c = 0; c < matrix.columns; ++c) sum += matrix.entries[r * matrix.columns + c] * coefficients[c];
    if (sum != 0) return false;
  }
  return true;
}

bool all_positive(std::vector<std::int64_t> const& numbers) {
  return std::all_of(numbers.begin(), numbers.end(), [](std::int64_t number) { return number > 0; });
}

}  // namespace

TEST_CASE("balance: an equation made from a known balance gets it back", "[property][balance]") {
  rc::prop("the one balance in lowest terms, or a basis that spans the known one", [] {
    auto const known = known_equation();
    RC_LOG() << known.text << '\n';
    auto const read = parse_equation(known.text);
    RC_ASSERT(ok(read));
    auto const matrix = composition_matrix(value(read));
    RC_ASSERT(matrix.columns == known.coefficients.size());
    RC_ASSERT(conserves(matrix, known.coefficients));  // else the equation was made wrong, or read wrong
    std::vector<std::vector<Rational>> rows;
    for (std::size_t r = 0; r < matrix.rows; ++r) rows.push_back(row_of(&matrix.entries[r * matrix.columns], matrix.columns));
    auto const nullity = matrix.columns - rank(rows);

    auto const result = balance(value(read));
    RC_CLASSIFY(result.outcome == Balance::unique, "unique");
    RC_CLASSIFY(result.outcome == Balance::not_unique, "not unique");
    if (nullity == 1) {
      RC_ASSERT(result.outcome == Balance::unique);
      auto lowest = known.coefficients;
      std::int64_t divisor = 0;
      for (auto const number : lowest) divisor = std::gcd(divisor, number);
      for (auto& number : lowest) number /= divisor;
      RC_ASSERT(result.coefficients == lowest);
    } else {
      RC_ASSERT(result.outcome == Balance::not_unique);
      RC_ASSERT(result.independent.size() == nullity);
      std::vector<std::vector<Rational>> basis;
      for (auto const& vector : result.independent) {
        RC_ASSERT(all_positive(vector));
        RC_ASSERT(conserves(matrix, vector));
        basis.push_back(row_of(vector.data(), vector.size()));
      }
      RC_ASSERT(rank(basis) == nullity);
      basis.push_back(row_of(known.coefficients.data(), known.coefficients.size()));
      RC_ASSERT(rank(basis) == nullity);
    }
  });
  rc::prop("coefficients as written are balanced, and no longer when one is changed", [] {
    auto const known = known_equation();
    auto const read = parse_equation(known.text);
    RC_ASSERT(ok(read));
    auto equation = value(read);
    auto const at = [&](std::size_t i) -> Rational& {
      auto const left = equation.left.size();
      return (i < left ? equation.left[i] : equation.right[i - left]).coefficient;
    };
    auto const factor = Rational(*rc::gen::inRange<std::int64_t>(1, 50), *rc::gen::inRange<std::int64_t>(1, 50));
    for (std::size_t i = 0; i < known.coefficients.size(); ++i) at(i) = factor * Rational(known.coefficients[i]);
    RC_LOG() << plain(equation) << '\n';
    RC_ASSERT(is_balanced(equation));
    auto const again = parse_equation(plain(equation));  // the coefficients are printed as well
    RC_ASSERT(ok(again));
    RC_ASSERT(is_balanced(value(again)));
    RC_ASSERT(plain(value(again)) == plain(equation));
    at(*rc::gen::inRange<std::size_t>(0, known.coefficients.size())) += Rational(1, 3);  // no species is without atoms
    RC_ASSERT(!is_balanced(equation));
  });
}
