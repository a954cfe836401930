#pragma once
// What is said of things that people write in a line and whose meaning cannot be told for certain: one table, apart from the
// logic, so that it can be translated. {} is filled in order.

namespace molewright::words {

constexpr char const* comma_in_number = "{} has a comma, and this course writes a point";
constexpr char const* comma_expected = "{}, or a course with decimal = \"comma\"";
constexpr char const* comma_or_thousands = "{} has a comma: this course writes a point, and thousands without a mark";
constexpr char const* point_or_thousands = "{} or {}";
constexpr char const* ratio_unclear = "a dilution of {0}:{1} can mean {0} made up to {1}, or {0} with {1} of water";
constexpr char const* ratio_expected = "given dilution factor = {:g} for the first, {:g} for the second";
constexpr char const* conditions_unclear = "\"{}\" is no datum: books mean different temperatures and pressures by it";
// Standard temperature and pressure by the Gold Book: 273.15 K and 100 kPa; older books have 101.325 kPa.
constexpr char const* standard_expected =
    "lines of their own: given T = 273.15 K and given p = 100.0 kPa (or 101.325 kPa); or given Vm = 22.7 L/mol (or 22.4 L/mol)";
// Common practice, no source.
constexpr char const* room_expected =
    "lines of their own: given T = 298 K and given p = 101.3 kPa; or given Vm = 24.0 L/mol (or 24.5 L/mol)";

constexpr char const* behind_a_value = "\"{}\" stands behind a value";
constexpr char const* lines_expected = "conditions in lines of their own, such as given T = 298 K and given p = 100.0 kPa";

}  // namespace molewright::words
