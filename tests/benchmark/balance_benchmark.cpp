// Molar masses and balancing, balancing beside FLINT's null space (https://flintlib.org, fmpz_mat_nullspace) in the same process.
// The labels carry the matrices and what came out, so that compare.py times sympy on the very same.
#include <benchmark/benchmark.h>
#include <flint/fmpz_mat.h>

#include <string>

#include "engine/element.h"
#include "engine/equation.h"
#include "engine/formula.h"
#include "tests/benchmark/equations.h"

using namespace molewright;
using namespace molewright::benchmarks;

namespace {

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

/// A matrix of FLINT's and room for its null space, which are not made anew for each call: FLINT's time is for the null space
/// alone, while ours includes the room for the answer and the judgement of it.
class Flint {
 public:
  explicit Flint(CompositionMatrix const& matrix) {
    fmpz_mat_init(matrix_, static_cast<slong>(matrix.rows), static_cast<slong>(matrix.columns));
    fmpz_mat_init(space_, static_cast<slong>(matrix.columns), static_cast<slong>(matrix.columns));
    for (std::size_t i = 0; i < matrix.entries.size(); ++i)
      fmpz_set_si(fmpz_mat_entry(matrix_, static_cast<slong>(i / matrix.columns), static_cast<slong>(i % matrix.columns)),
                  matrix.entries[i]);
  }
  Flint(Flint const&) = delete;
  ~Flint() {
    fmpz_mat_clear(matrix_);
    fmpz_mat_clear(space_);
  }
  slong null_space() { return fmpz_mat_nullspace(space_, matrix_); }
  /// Whether the null space is the line of these coefficients.
  bool agrees(std::vector<std::int64_t> const& coefficients) {
    if (null_space() != 1) return false;
    fmpz_t ours, theirs;
    fmpz_init(ours);
    fmpz_init(theirs);
    bool same = true;
    for (std::size_t i = 0; i < coefficients.size(); ++i) {  // a : b as c : d
      fmpz_mul_si(ours, fmpz_mat_entry(space_, 0, 0), coefficients[i]);
      fmpz_mul_si(theirs, fmpz_mat_entry(space_, static_cast<slong>(i), 0), coefficients[0]);
      same = same && fmpz_equal(ours, theirs) != 0 && fmpz_is_zero(ours) == 0;
    }
    fmpz_clear(ours);
    fmpz_clear(theirs);
    return same;
  }

 private:
  fmpz_mat_t matrix_, space_;
};

void ours_on(benchmark::State& state, std::string const& text) {
  auto const matrix = composition_matrix(value(parse_equation(text)));
  for (auto _ : state) benchmark::DoNotOptimize(balance(matrix));
  state.SetLabel(in_a_line(matrix, balance(matrix)));
}

void flint_on(benchmark::State& state, std::string const& text) {
  auto const matrix = composition_matrix(value(parse_equation(text)));
  Flint flint(matrix);
  if (!flint.agrees(balance(matrix).coefficients)) return state.SkipWithError("FLINT finds another null space");
  for (auto _ : state) benchmark::DoNotOptimize(flint.null_space());
}

void text_on(benchmark::State& state, std::string const& text) {
  for (auto _ : state) {
    auto const read = parse_equation(text);
    benchmark::DoNotOptimize(balance(value(read)));
  }
}

void balance_matrix(benchmark::State& state) { ours_on(state, textbook_equations[state.range(0)]); }
BENCHMARK(balance_matrix)->DenseRange(0, 2);
void flint_nullspace(benchmark::State& state) { flint_on(state, textbook_equations[state.range(0)]); }
BENCHMARK(flint_nullspace)->DenseRange(0, 2);
void balance_text(benchmark::State& state) { text_on(state, textbook_equations[state.range(0)]); }
BENCHMARK(balance_text)->DenseRange(0, 2);

std::string const& grown(benchmark::State const& state) { return grown_equation(static_cast<std::size_t>(state.range(0))); }
void all_sizes(benchmark::internal::Benchmark* benchmark) {
  for (auto const size : growth_sizes()) benchmark->Arg(static_cast<std::int64_t>(size));
}

void growth_matrix(benchmark::State& state) { ours_on(state, grown(state)); }
BENCHMARK(growth_matrix)->Apply(all_sizes);
void growth_flint(benchmark::State& state) { flint_on(state, grown(state)); }
BENCHMARK(growth_flint)->Apply(all_sizes);
void growth_text(benchmark::State& state) { text_on(state, grown(state)); }
BENCHMARK(growth_text)->Apply(all_sizes);

}  // namespace
