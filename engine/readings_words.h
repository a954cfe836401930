#pragma once
// The words of a table of readings, in one place, so that they can be translated.
namespace molewright::words {

inline constexpr char const* titration = "Titration";
inline constexpr char const* measurement = "Measurement";
inline constexpr char const* rough = "rough";
inline constexpr char const* final_reading = "Final reading";
inline constexpr char const* initial_reading = "Initial reading";
inline constexpr char const* titre = "Titre";
inline constexpr char const* difference = "Difference";
inline constexpr char const* reading = "Reading";
inline constexpr char const* container_with = "Container with ";  // then a formula
inline constexpr char const* container_alone = "Container alone";

}  // namespace molewright::words
