#include "generators/drawn_readings.h"

#include <cstdlib>

#include "generators/random.h"

namespace molewright {
namespace {

// In counts of 0.01 mL.
constexpr std::int64_t division = 5;         // half of a burette's smallest division of 0.1 mL
constexpr std::int64_t lowest_filling = 20;  // never 0.00, so that a titre and its final reading differ
constexpr std::uint32_t fillings = 77;       // up to 4.00 mL
constexpr std::int64_t lowest_mark = 5000;   // of a 50 mL burette
constexpr std::int64_t concordant_within = 10;

/// Deviations of the concordant titres in divisions: -1, 0 or 1 each, nothing in sum, so that the value is their mean; the first
/// one is off, so that it is not the mean by itself.
std::vector<std::int64_t> deviations(int count, Random& random) {
  if (count < 2) return {0};
  while (true) {
    std::vector<std::int64_t> all;
    std::int64_t sum = 0;
    for (int i = 0; i < count; ++i) {
      all.push_back(static_cast<std::int64_t>(random.below(3)) - 1);
      sum += all.back();
    }
    if (sum == 0 && all.front() != 0) return all;
  }
}

std::vector<std::int64_t> draw_titres(DrawnReadings const& how, std::int64_t value, int discordant_at, Random& random) {
  std::vector<std::int64_t> titres;
  for (int i = 0; i < how.rough; ++i) titres.push_back(value + division * (6 + static_cast<std::int64_t>(random.below(15))));
  auto const off = deviations(how.concordant, random);
  std::int64_t discordant = division * (5 + static_cast<std::int64_t>(random.below(8)));
  if (random.below(2) == 0) discordant = -discordant;
  // A discordant titre that agreed with the rough one would look like the better pair.
  if (how.rough > 0 && std::abs(value + discordant - titres.front()) <= concordant_within) discordant = -discordant;
  std::size_t next = 0;
  for (int i = 1; i <= how.concordant + how.discordant; ++i)
    titres.push_back(value + (i == discordant_at ? discordant : division * off[next++]));
  return titres;
}

/// Each titre with its two readings: the burette is filled up, or used on from where it stands if what is left in it will do.
std::vector<std::int64_t> in_pairs(std::vector<std::int64_t> const& titres, Random& random) {
  std::vector<std::int64_t> readings;
  for (std::int64_t const titre : titres) {
    std::int64_t const stands_at = readings.empty() ? lowest_mark : readings[readings.size() - 2];
    std::int64_t const filled = lowest_filling + division * static_cast<std::int64_t>(random.below(fillings));
    bool const goes_on = random.below(2) == 0 && stands_at + titre <= lowest_mark;
    std::int64_t const initial = goes_on ? stands_at : filled;
    readings.push_back(initial + titre);
    readings.push_back(initial);
  }
  return readings;
}
}  // namespace

std::vector<std::int64_t> draw_readings(DrawnReadings const& how, std::int64_t value, std::uint32_t way, int discordant_at) {
  Random random(spread((static_cast<std::uint64_t>(value) << 10U) | way));
  if (how.titres() == 0) {
    std::int64_t const low =
        how.low_first + how.low_step * static_cast<std::int64_t>(random.below(static_cast<std::uint32_t>(how.low_count)));
    return {low + value, low};
  }
  auto const titres = draw_titres(how, value, discordant_at, random);
  return how.in_pairs ? in_pairs(titres, random) : titres;
}

std::string readings_text(DrawnReadings const& how, std::vector<std::string> const& numbers, int discordant_at) {
  if (how.titres() == 0) return numbers[0] + " - " + numbers[1];
  std::string text = "mean of ";
  std::size_t next = 0;
  for (int i = 0; i < how.titres(); ++i) {
    text += (i == 0 ? "" : " | ") + numbers[next++];
    if (how.in_pairs) text += " - " + numbers[next++];
    text += i < how.rough ? " rough" : i - how.rough + 1 == discordant_at ? " discordant" : "";
  }
  return text;
}

}  // namespace molewright
