// Conversion of units from text, beside udunits2 (https://www.unidata.ucar.edu/software/udunits) in the same process.
#include <benchmark/benchmark.h>
#include <udunits2.h>

#include <cmath>
#include <string>

#include "engine/measured.h"
#include "engine/unit.h"

using namespace molewright;

namespace {

struct Conversion {
  char const *from, *to;
};
/// Spelled so that both read them, and mean the same by them.
constexpr Conversion conversions[] = {{"mL", "L"},         {"mg", "g"},      {"kg", "mg"},         {"cm3", "mL"},
                                      {"mol/L", "mol/m3"}, {"mg/L", "g/m3"}, {"g/mL", "kg/m3"},    {"atm", "kPa"},
                                      {"kJ/mol", "J/mol"}, {"degC", "K"},    {"mmol/mL", "mol/L"}, {"min", "s"}};
constexpr std::size_t count = sizeof conversions / sizeof conversions[0];

ut_system* shared_system() {
  static ut_system* const system = [] {
    ut_set_error_message_handler(ut_ignore);
    return ut_read_xml(nullptr);
  }();
  return system;
}

/// One of theirs from text, as a program would that gets the text from a person; NaN where it fails.
double theirs(double number, char const* from, char const* to) {
  double result = std::nan("");
  ut_unit* const a = ut_parse(shared_system(), from, UT_ASCII);
  ut_unit* const b = ut_parse(shared_system(), to, UT_ASCII);
  if (cv_converter* const converter = a && b ? ut_get_converter(a, b) : nullptr) {
    result = cv_convert_double(converter, number);
    cv_free(converter);
  }
  ut_free(a);
  ut_free(b);
  return result;
}

/// "25.0 mL" as text, which udunits2 reads as a unit of that size.
double theirs_measured(char const* from, char const* to) { return theirs(1, from, to); }

Rational ours(Rational const& number, char const* from, char const* to) {
  auto const a = parse_unit(from);
  auto const b = parse_unit(to);
  return convert(number, value(a), value(b));
}

Rational ours_measured(char const* from, char const* to) {
  auto const measured = parse_measured(from);
  auto const b = parse_unit(to);
  return convert(value(measured).number.value, *value(measured).unit, value(b));
}

bool near(double a, double b) { return std::fabs(a - b) <= 1e-12 * std::fabs(b); }

void convert_ours(benchmark::State& state) {
  auto const& c = conversions[state.range(0)];
  Rational const number(1234, 100);
  for (auto _ : state) benchmark::DoNotOptimize(ours(number, c.from, c.to));
  state.SetLabel(std::string(c.from) + " -> " + c.to);
}
BENCHMARK(convert_ours)->DenseRange(0, count - 1);

void convert_udunits(benchmark::State& state) {
  auto const& c = conversions[state.range(0)];
  if (shared_system() == nullptr) return state.SkipWithError("the unit database of udunits2 is not there");
  if (!near(theirs(12.34, c.from, c.to), ours(Rational(1234, 100), c.from, c.to).to_double()))
    return state.SkipWithError("udunits2 converts otherwise");
  for (auto _ : state) benchmark::DoNotOptimize(theirs(12.34, c.from, c.to));
}
BENCHMARK(convert_udunits)->DenseRange(0, count - 1);

/// With the number read from text as well. Not for °C: a temperature of 25.0 °C is no multiple of 1 °C.
constexpr Conversion measured[] = {{"25.00 mL", "L"}, {"0.1250 mol/L", "mol/m3"}, {"1.180 g/mL", "kg/m3"}, {"0.954 atm", "kPa"}};
constexpr std::size_t measured_count = sizeof measured / sizeof measured[0];

void measured_ours(benchmark::State& state) {
  auto const& c = measured[state.range(0)];
  for (auto _ : state) benchmark::DoNotOptimize(ours_measured(c.from, c.to));
  state.SetLabel(std::string(c.from) + " -> " + c.to);
}
BENCHMARK(measured_ours)->DenseRange(0, measured_count - 1);

void measured_udunits(benchmark::State& state) {
  auto const& c = measured[state.range(0)];
  if (shared_system() == nullptr) return state.SkipWithError("the unit database of udunits2 is not there");
  if (!near(theirs_measured(c.from, c.to), ours_measured(c.from, c.to).to_double()))
    return state.SkipWithError("udunits2 converts otherwise");
  for (auto _ : state) benchmark::DoNotOptimize(theirs_measured(c.from, c.to));
}
BENCHMARK(measured_udunits)->DenseRange(0, measured_count - 1);

}  // namespace
