// Molar masses and balancing. The labels carry the matrices and what came out, so that compare.py times sympy on the very same.
#include <benchmark/benchmark.h>

#include <string>

#include "engine/element.h"
#include "engine/equation.h"
#include "engine/formula.h"

using namespace molewright;

namespace {
/// Six or seven species: a redox equation of a textbook's usual size, one with large coefficients, and a half-reaction's rows of
/// charge as well.
constexpr char const* equations[] = {"KMnO4 + HCl -> KCl + MnCl2 + H2O + Cl2",
                                     "K2Cr2O7 + FeSO4 + H2SO4 -> Cr2(SO4)3 + Fe2(SO4)3 + KHSO4 + H2O",
                                     "Cr2O7^2- + Fe^2+ + H^+ -> Cr^3+ + Fe^3+ + H2O"};

Rational molar_mass(Formula const& formula, AtomicWeights const& weights) {
  Rational sum;
  for (auto const& [element, atoms] : formula.composition()) sum += weights.weight(element).value * Rational(atoms);
  return sum;
}

void molar_mass_from_text(benchmark::State& state) {
  AtomicWeights const weights;
  constexpr char const* formulas[] = {"CuSO4·5H2O", "[Cu(NH3)4]SO4·H2O", "Ca3(PO4)2", "NaCl"};
  std::size_t i = 0;
  for (auto _ : state) {
    auto const formula = parse_formula(formulas[i++ % 4]);
    benchmark::DoNotOptimize(molar_mass(value(formula), weights));
  }
  state.SetItemsProcessed(state.iterations());
}
BENCHMARK(molar_mass_from_text);

std::string in_a_line(CompositionMatrix const& matrix, BalanceResult const& result) {
  auto line = std::to_string(matrix.rows) + " " + std::to_string(matrix.columns);
  for (auto const entry : matrix.entries) line += " " + std::to_string(entry);
  line += " :";
  for (auto const coefficient : result.coefficients) line += " " + std::to_string(coefficient);
  return line;
}

void balance_matrix(benchmark::State& state) {
  auto const read = parse_equation(equations[state.range(0)]);
  auto const matrix = composition_matrix(value(read));
  for (auto _ : state) benchmark::DoNotOptimize(balance(matrix));
  state.SetLabel(in_a_line(matrix, balance(matrix)));
}
BENCHMARK(balance_matrix)->DenseRange(0, 2);

void balance_text(benchmark::State& state) {
  for (auto _ : state) {
    auto const read = parse_equation(equations[state.range(0)]);
    benchmark::DoNotOptimize(balance(value(read)));
  }
}
BENCHMARK(balance_text)->DenseRange(0, 2);
}  // namespace
