#pragma once
// Which slip a wrong number comes from: Bayes over the slips of the question, with "none of these" among the rivals, and when to
// name one or keep silent.
#include <span>
#include <string>
#include <vector>

#include "marker/agreement.h"
#include "marker/slip.h"
#include "marker/slip_record.h"

namespace molewright {

/// A rival with its share of the probability.
struct Rival {
  SlipAnswer const* answer = nullptr;
  double probability = 0;
};

struct Diagnosis {
  enum class Speech {
    silent,  ///< nothing is likely enough to be said to the student
    step,    ///< where, but not what: several slips of one step, or too few figures
    either,  ///< one of two steps: each alone is too unlikely to speak of, both together are not
    slip     ///< named
  };
  Speech speech = Speech::silent;
  std::vector<Rival> rivals;  ///< most likely first, one for each slip and step; empty where no slip is likely enough
  std::string node;           ///< the step spoken of
  std::string other_node;     ///< for `either`: the second
  double none = 1;            ///< share of "none of these"
};

/// Above this a slip is named. Naming falsely costs five times what silence costs, and one speaks when P > 1 - c_silence/c_false
/// (Chow 1970, IEEE Trans. Inf. Theory 16, 41-46).
inline constexpr double name_above = 0.80;
/// Above this the step is named.
inline constexpr double step_above = 0.50;

/// Starting weight of a slip: how often a student whose answer is wrong made it, where it could be made.
double starting_weight(Slip const& slip);
/// Weight of "none of these" for a number: flat in ln v, and denser round the right answer, where arithmetic goes astray.
double weight_of_none(WrittenNumber const& written, Due const& due);
/// Chance that a student whose working comes to `value` writes this number; 0 where it is too far off.
double fit_of(WrittenNumber const& written, double value, Due const& due, double table_band);
/// Sizes (without sign) of the values that a number can come from: outside of them fit_of() is 0.
struct Sizes {
  double least = 0, most = 0;
};
Sizes where_it_fits(WrittenNumber const& written, double table_band);

/// `answers`: what the slips of the question lead to, for this find, all different from the right answer. `table_band`: how far
/// (relative) other tables of atomic weights move the right answer. One- and two-figure numbers name no slip (three figures cover
/// 0.1 to 1 %, two 1 to 10 %). Only + - x / and comparisons, so that every machine finds the same probabilities.
Diagnosis diagnose(WrittenNumber const& written, std::span<SlipAnswer const> answers, Due const& due, double table_band,
                   SlipRecord const* record = nullptr);
/// For an answer that is a choice (a limiting reagent): `value` is its index among `choices`.
Diagnosis diagnose_choice(int value, int choices, std::vector<SlipAnswer> const& answers, SlipRecord const* record = nullptr);
/// For a formula found from data: `answers` are those that lead to it; `waters_off`: of a hydrate, how many waters it has too
/// many or too few.
Diagnosis diagnose_formula(std::vector<SlipAnswer> const& answers, int waters_off = 0, SlipRecord const* record = nullptr);

/// True where the number is the slip's value as a student would write it: this, not the probability, is what marks depend on.
bool fits(WrittenNumber const& written, SlipAnswer const& answer, Due const& due);

}  // namespace molewright
