// The part of judging a script that looks for a slip behind a number that is written under the wrong unit.
#include "engine/steps.h"
#include "marker/script.h"

namespace molewright {
namespace {

/// How often whoever made a slip also writes another prefix than the one that the number is in, or a fraction for per cent
/// (proposal).
constexpr double unit_off_as_well = 0.03;

/// Readings that put the unit right: their notes are the ids of the slips.
bool puts_unit_right(Reading const& reading) {
  return !reading.as_meant && (reading.note == "unit-prefix-not-applied" || reading.note == "fraction-for-percent");
}
}  // namespace

/// A slip whose number stands under a unit that it is not in; with no `answers`, the one that the first line to depart shows.
bool Script::explain_with_unit_off(Written const& written, std::vector<Reading> const& all, std::span<SlipAnswer const> answers,
                                   double table_band, Judgement& judgement) {
  for (auto const& reading : all) {
    if (!puts_unit_right(reading)) continue;
    if (answers.empty()) {
      if (!explain_by_departure(reading, judgement)) continue;
    } else {
      std::vector<SlipAnswer> rarer(answers.begin(), answers.end());
      for (auto& one : rarer) one.way *= unit_off_as_well;
      auto const on_the_way = rounded_on_the_way(reading, rarer);
      auto const diagnosis = diagnose(reading.number, rarer, due(), table_band, record_, on_the_way);
      if (diagnosis.rivals.empty()) continue;
      speak(diagnosis, judgement);
    }
    add_unit_off(written, all.front(), reading, judgement);
    return true;
  }
  return false;
}

/// What was found of a number in the unit `meant` is half of the cause: the unit as written is the other half.
void Script::add_unit_off(Written const& written, Reading const& plain, Reading const& meant, Judgement& judgement) const {
  bool const fraction = meant.note == "fraction-for-percent";
  auto const asked = unit_text(node().value.unit, judge_.course_.conventions);
  auto const tutor = fraction ? std::string(words_of(meant.note).tutor) : say::unit_off_for_tutor(written.unit_text, asked);
  for (auto& candidate : judgement.candidates) {
    candidate.slips.push_back({meant.note, node().id});
    candidate.value *= plain.number.approximate / meant.number.approximate;
    candidate.text += "; and " + tutor;
  }
  if (!judgement.feedback.empty())
    judgement.feedback += fraction ? say::fraction_for_percent() : say::unit_off_as_well(written.unit_text, asked);
  judgement.notes.push_back(meant.note);
}

}  // namespace molewright
