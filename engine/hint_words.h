#pragma once
// What a hint says around the words of data/hints.tsv: patterns for fmt.
namespace molewright::words {

inline constexpr char const* next_in_unit = "Next: find {} in {}.";
inline constexpr char const* next_without_unit = "Next: find {}.";
inline constexpr char const* next_conversion = "Next: change {} from {} to {}.";
inline constexpr char const* one_is_many = "1 {} is {} {}";  // 1 L is 1000 mL
inline constexpr char const* next_limiting = "Next: find out which reactant runs out first.";
inline constexpr char const* next_formula = "Next: find the {}.";  // empirical formula
inline constexpr char const* next_stated = "Next:";

}  // namespace molewright::words
