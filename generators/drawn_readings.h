#pragma once
// Readings that are drawn round a value: the titres of a titration, or the two readings of a burette or a balance.
#include <cstdint>
#include <string>
#include <vector>

namespace molewright {

/// How they are drawn. Numbers are whole counts of the last place that is read.
struct DrawnReadings {
  int rough = 0, concordant = 0, discordant = 0;  ///< titres; none: one difference
  bool in_pairs = false;                          ///< each titre as a final and an initial reading
  std::string place_of_discordant;                ///< the name whose number says which accurate titre is the discordant one
  std::int64_t low_first = 0, low_step = 1, low_count = 1;  ///< the smaller reading of a difference
  int titres() const { return rough + concordant + discordant; }
};
/// Ways to draw the readings of one value.
inline constexpr std::uint32_t ways_of_reading = 997;

/// The numbers of a given in the order of `Given::numbers`, of which `value` is the mean or the difference. `way` (below
/// ways_of_reading) settles everything else. `discordant_at` counts accurate titres from 1; 0 where none is discordant. A burette
/// is read to 0.05 mL: the concordant titres lie within 0.10 mL, a rough one 0.30 to 1.00 mL above, a discordant one 0.25 to 0.60
/// mL off (common practice, no source). A burette is filled to between 0.20 and 4.00 mL, or goes on from where it stopped.
/// REQUIRES: for titres, counts of 0.01 mL.
std::vector<std::int64_t> draw_readings(DrawnReadings const& how, std::int64_t value, std::uint32_t way, int discordant_at);

/// The right side of a given with these numbers as they are to be printed: "24.65 - 1.20", "mean of 25.10 rough | 24.65 | 24.70".
std::string readings_text(DrawnReadings const& how, std::vector<std::string> const& numbers, int discordant_at);

}  // namespace molewright
