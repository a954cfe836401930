#include <catch2/catch.hpp>
#include <cstdio>
#include <cstdlib>
#include <fstream>
#include <sstream>

#include "engine/equation.h"
#include "engine/modular_solution.h"
#include "tests/engine/table_file.h"

namespace molewright {
namespace {

std::vector<std::int64_t> numbers(std::string const& list) {
  std::vector<std::int64_t> read;
  for (std::string_view const cell : split_cells(list, ',')) read.push_back(std::strtoll(std::string(cell).c_str(), nullptr, 10));
  return read;
}

bool conserves(CompositionMatrix const& matrix, std::vector<std::int64_t> const& coefficients) {
  if (coefficients.size() != matrix.columns) return false;
  for (std::size_t row = 0; row < matrix.rows; ++row) {
    Rational sum;
    for (std::size_t column = 0; column < matrix.columns; ++column)
      sum += Rational(matrix.entries[row * matrix.columns + column]) * Rational(coefficients[column]);
    if (sum.sign() != 0) return false;
  }
  return true;
}

/// Rank by plain elimination in exact numbers: another way than the balancer's own.
std::size_t rank_of(std::vector<std::vector<std::int64_t>> const& vectors) {
  std::vector<std::vector<Rational>> rows;
  for (auto const& vector : vectors) rows.push_back(std::vector<Rational>(vector.begin(), vector.end()));
  std::size_t rank = 0;
  for (std::size_t column = 0; !rows.empty() && column < rows[0].size(); ++column) {
    std::size_t pivot = rank;
    while (pivot < rows.size() && rows[pivot][column].sign() == 0) ++pivot;
    if (pivot == rows.size()) continue;
    std::swap(rows[pivot], rows[rank]);
    for (std::size_t i = rank + 1; i < rows.size(); ++i) {
      Rational const times = rows[i][column] / rows[rank][column];
      for (std::size_t j = 0; j < rows[i].size(); ++j) rows[i][j] -= times * rows[rank][j];
    }
    ++rank;
  }
  return rank;
}

/// Every vector is positive and conserves, and they are independent.
void check_basis(CompositionMatrix const& matrix, std::vector<std::vector<std::int64_t>> const& basis) {
  for (auto const& vector : basis) {
    CHECK(conserves(matrix, vector));
    for (std::int64_t const coefficient : vector) CHECK(coefficient > 0);
  }
  CHECK(rank_of(basis) == basis.size());
}

TEST_CASE("balance: equations of open textbooks and hard ones from the literature", "[engine][balance][outside]") {
  test::TableFile const file("equations_public.tsv");
  REQUIRE(file.table.size() == 449);
  for (std::size_t row = 0; row < file.table.size(); ++row) {
    std::string const text = file.cell(row, "equation_without_coefficients");
    CAPTURE(file.cell(row, "id"), text);
    auto const read = parse_equation(text);
    REQUIRE(ok(read));
    BalanceResult const result = balance(value(read));
    auto const expected = numbers(file.cell(row, "coefficients"));
    if (file.cell(row, "nullity") == "1") {
      CHECK(result.outcome == Balance::unique);
      CHECK(result.coefficients == expected);
      continue;
    }
    CHECK(result.outcome == Balance::not_unique);
    CompositionMatrix const matrix = composition_matrix(value(read));
    REQUIRE(std::to_string(result.independent.size()) == file.cell(row, "nullity"));
    check_basis(matrix, result.independent);
    auto with_theirs = result.independent;
    with_theirs.push_back(expected);
    CHECK(rank_of(with_theirs) == result.independent.size());  // the printed solution is a mixture of ours
  }
}

TEST_CASE("balance: equations that are wrong", "[engine][balance]") {
  test::TableFile const file("equations_bad.tsv");
  REQUIRE(file.table.size() == 88);
  for (std::size_t row = 0; row < file.table.size(); ++row) {
    std::string const text = file.cell(row, "equation"), expected = file.cell(row, "expected");
    CAPTURE(text, file.cell(row, "why"));
    auto const read = parse_equation(text);
    if (expected == "syntax") {
      CHECK(!ok(read));
      continue;
    }
    REQUIRE(ok(read));
    BalanceResult const result = balance(value(read));
    CHECK(result.coefficients.empty());
    CHECK_FALSE(result.why.empty());
    auto const after = balanced(value(read));
    REQUIRE(!ok(after));
    CHECK(fault(after).id == expected);
    if (expected == "not-unique") {
      CHECK(result.outcome == Balance::not_unique);
      CHECK(result.independent.size() > 1);
      check_basis(composition_matrix(value(read)), result.independent);
    } else {
      CHECK(result.outcome == Balance::no_solution);
    }
  }
}

struct Why {
  char const* text;
  char const* says;
};

TEST_CASE("balance: says why it cannot be done", "[engine][balance]") {
  auto const c = GENERATE(values<Why>({
      {"Fe + S -> Fe2O3", "S and O stand on one side only"},
      {"C3H8 + O2 -> H2O", "C stands on one side only"},
      {"Pb(NO3)2 + KI -> PbI2", "N, O and K stand on one side only"},
      {"Fe^2+ -> Fe^3+", "the charges cannot be made equal"},
      {"Cr2O7^2- + 14H^+ -> 2Cr^3+ + 7H2O", "the charges cannot be made equal"},
      {"SO2 + O2 -> SO", "O2 would need a coefficient below 0"},
      {"[Cu(NH3)4]^2+ + H^+ -> Cu^2+ + NH3", "H^+ would need the coefficient 0"},
      {"CH4 + Cl2 -> CH3Cl", "no numbers make every element equal on both sides"},
      {"C + O2 -> CO + CO2", "2 independent reactions"},
      {"C3H8 + O2 -> C + CO + CO2 + H2O", "3 independent reactions"},
  }));
  CAPTURE(c.text);
  CHECK(balance(value(parse_equation(c.text))).why == c.says);
}

TEST_CASE("balance: coefficients are put into the equation", "[engine][balance]") {
  auto const done = balanced(value(parse_equation("7BaCl2(aq) + AgNO3(aq) -> AgCl(s) + Ba(NO3)2(aq)")));
  REQUIRE(ok(done));
  CHECK(plain(value(done)) == "BaCl2(aq) + 2AgNO3(aq) -> 2AgCl(s) + Ba(NO3)2(aq)");
  CHECK(is_balanced(value(done)));
}

TEST_CASE("balance: numbers beyond machine integers", "[engine][balance]") {
  // Each species hands 997 of its kind on for 991: the coefficients are powers, in lowest terms 991^k 997^(n-k).
  auto const chain = [](std::size_t links) {
    CompositionMatrix matrix;
    matrix.rows = links;
    matrix.columns = links + 1;
    matrix.entries.assign(matrix.rows * matrix.columns, 0);
    for (std::size_t i = 0; i < links; ++i) {
      matrix.entries[i * matrix.columns + i] = 997;
      matrix.entries[i * matrix.columns + i + 1] = -991;
    }
    return matrix;
  };
  BalanceResult const six = balance(chain(6));
  REQUIRE(six.outcome == Balance::unique);
  CHECK(six.coefficients.front() == 947200518061237441);  // 991^6 by Python
  CHECK(conserves(chain(6), six.coefficients));
  BalanceResult const seven = balance(chain(7));  // 991^7 needs 70 bits
  CHECK(seven.outcome == Balance::too_large);
  CHECK(seven.why == "its coefficients have more than 18 digits");

  // More than sixteen species leave the stack's small matrix.
  CompositionMatrix wide;
  wide.rows = 20;
  wide.columns = 21;
  wide.entries.assign(wide.rows * wide.columns, 0);
  for (std::size_t i = 0; i < wide.rows; ++i) {
    wide.entries[i * wide.columns + i] = 1;
    wide.entries[i * wide.columns + i + 1] = -1;
  }
  CHECK(balance(wide).coefficients == std::vector<std::int64_t>(21, 1));
}

/// A small generator of its own, so that every machine checks the same matrices.
struct Dice {
  std::uint64_t state = 20240229;
  std::int64_t roll(std::int64_t below) {
    state = state * 6364136223846793005u + 1442695040888963407u;
    return static_cast<std::int64_t>((state >> 33) % static_cast<std::uint64_t>(below));
  }
};

/// Rows that the ratio of `numbers` solves, and nothing else: each number is tied to an earlier one, then rows are added up.
CompositionMatrix solved_by(std::vector<std::int64_t> const& numbers, Dice& dice) {
  CompositionMatrix matrix;
  matrix.columns = numbers.size();
  matrix.rows = numbers.size() - 1;
  matrix.entries.assign(matrix.rows * matrix.columns, 0);
  auto const entry = [&](std::size_t row, std::size_t column) -> std::int64_t& {
    return matrix.entries[row * matrix.columns + column];
  };
  for (std::size_t i = 1; i < numbers.size(); ++i) {
    auto const earlier = static_cast<std::size_t>(dice.roll(static_cast<std::int64_t>(i)));
    entry(i - 1, i) = numbers[earlier];
    entry(i - 1, earlier) = -numbers[i];
  }
  for (std::size_t row = 0; row < matrix.rows; ++row) {
    auto const other = static_cast<std::size_t>(dice.roll(static_cast<std::int64_t>(matrix.rows)));
    if (other == row) continue;
    auto const times = dice.roll(5) - 2;
    for (std::size_t column = 0; column < matrix.columns; ++column) entry(row, column) += times * entry(other, column);
  }
  return matrix;
}

TEST_CASE("balance: many species", "[engine][balance]") {
  Dice dice;
  for (std::size_t species = 2; species <= 64; ++species) {
    CAPTURE(species);
    std::vector<std::int64_t> numbers(species);
    for (auto& number : numbers) number = 1 + dice.roll(40);
    numbers[static_cast<std::size_t>(dice.roll(static_cast<std::int64_t>(species)))] = 1;  // in lowest terms
    auto const matrix = solved_by(numbers, dice);
    std::vector<std::int64_t> found;
    REQUIRE(modular_solution(matrix, found));
    CHECK(found == numbers);
    CHECK(balance(matrix).coefficients == numbers);

    auto fewer = matrix;  // two solutions
    --fewer.rows;
    fewer.entries.resize(fewer.rows * fewer.columns);
    CHECK_FALSE(modular_solution(fewer, found));
    auto more = matrix;  // none
    ++more.rows;
    more.entries.resize(more.rows * more.columns, 0);
    more.entries.back() = 1;
    CHECK_FALSE(modular_solution(more, found));
  }
  auto large = solved_by({1, 1 << 20, 1, 1 << 20}, dice);
  std::vector<std::int64_t> found;
  CHECK(modular_solution(large, found));
  // 2^31 is beyond what a fraction modulo the prime can be told from another, and 65 species are beyond the masks.
  CHECK_FALSE(modular_solution(solved_by({1, std::int64_t(1) << 31}, dice), found));
  CHECK_FALSE(modular_solution(solved_by(std::vector<std::int64_t>(65, 1), dice), found));
  CHECK(balance(solved_by(std::vector<std::int64_t>(65, 1), dice)).coefficients == std::vector<std::int64_t>(65, 1));
}

/// Formulas of a few elements with small counts, or with counts up to 9999; products are negative.
CompositionMatrix random_matrix(Dice& dice) {
  CompositionMatrix matrix;
  matrix.rows = static_cast<std::size_t>(2 + dice.roll(5));
  matrix.columns = matrix.rows + static_cast<std::size_t>(dice.roll(3));
  std::int64_t const most = dice.roll(6) == 0 ? 9999 : 7;
  std::size_t const reactants = 1 + static_cast<std::size_t>(dice.roll(static_cast<std::int64_t>(matrix.columns) - 1));
  for (std::size_t row = 0; row < matrix.rows; ++row)
    for (std::size_t column = 0; column < matrix.columns; ++column) {
      std::int64_t const count = dice.roll(2) == 0 ? 0 : dice.roll(most + 1);
      matrix.entries.push_back(column < reactants ? count : -count);
    }
  return matrix;
}

/// Prints a matrix for sympy_balance.py.
void print(std::ostream& out, CompositionMatrix const& matrix) {
  out << matrix.rows << ' ' << matrix.columns;
  for (std::int64_t const entry : matrix.entries) out << ' ' << entry;
  out << '\n';
}

/// Compares with one line of sympy's: nullity, then the solution of a one-dimensional null space.
void check_against(std::string const& line, CompositionMatrix const& matrix) {
  std::istringstream answer(line);
  std::size_t nullity = 0;
  REQUIRE(answer >> nullity);
  BalanceResult const result = balance(matrix);
  std::vector<std::int64_t> solution;
  bool positive = true, fits = true;
  for (std::string number; answer >> number;) {
    errno = 0;
    solution.push_back(std::strtoll(number.c_str(), nullptr, 10));
    fits = fits && errno == 0;
    positive = positive && number[0] != '-' && number != "0";
  }
  if (nullity == 0) {
    CHECK(result.outcome == Balance::no_solution);
  } else if (nullity == 1) {
    REQUIRE(solution.size() == matrix.columns);
    if (!fits)
      CHECK(result.outcome == Balance::too_large);
    else if (positive)
      CHECK(result.coefficients == solution);
    else
      CHECK(result.outcome == Balance::no_solution);
    CHECK((result.outcome == Balance::unique) == (positive && fits));
  } else if (result.outcome == Balance::not_unique) {
    CHECK(result.independent.size() == nullity);
    check_basis(matrix, result.independent);
  } else {
    CHECK(result.outcome != Balance::unique);
  }
}

TEST_CASE("balance: agrees with sympy's null spaces", "[engine][balance][outside]") {
#ifdef __EMSCRIPTEN__
  WARN("not checked: no other programs here");
#else
  if (std::system("/usr/bin/python3 -c 'import sympy' >/dev/null 2>&1") != 0) {
    WARN("not checked: python3-sympy is not installed");
    return;
  }
  std::vector<CompositionMatrix> matrices;
  test::TableFile const file("equations_public.tsv");
  for (std::size_t row = 0; row < file.table.size(); ++row)
    matrices.push_back(composition_matrix(value(parse_equation(file.cell(row, "equation_without_coefficients")))));
  Dice dice;
  for (int i = 0; i < 200; ++i) matrices.push_back(random_matrix(dice));

  char path[] = "/tmp/molewright_balance_XXXXXX";
  int const handle = mkstemp(path);
  REQUIRE(handle >= 0);
  std::ofstream input(path);
  for (CompositionMatrix const& matrix : matrices) print(input, matrix);
  input.close();
  std::string const command =
      std::string("/usr/bin/python3 '") + MOLEWRIGHT_SOURCE_DIR "/tests/outside/sympy_balance.py' < " + path;
  std::FILE* const pipe = popen(command.c_str(), "r");
  REQUIRE(pipe != nullptr);
  std::string text;
  char buffer[4096];
  for (std::size_t n = 0; (n = fread(buffer, 1, sizeof buffer, pipe)) > 0;) text.append(buffer, n);
  CHECK(pclose(pipe) == 0);
  std::remove(path);
  std::istringstream lines(text);
  std::size_t checked = 0;
  for (std::string line; std::getline(lines, line); ++checked) {
    REQUIRE(checked < matrices.size());
    CAPTURE(checked, line);
    check_against(line, matrices[checked]);
  }
  CHECK(checked == matrices.size());
#endif
}

}  // namespace
}  // namespace molewright
