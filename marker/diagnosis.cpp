#include "marker/diagnosis.h"

#include <algorithm>
#include <cmath>
#include <iterator>
#include <limits>
#include <utility>

#include "marker/rounded_slips.h"

namespace molewright {
namespace {

/// "None of these": slips that are not in the library, two slips at once, arithmetic, guesses.
constexpr double prior_of_none = 0.30;
/// A number from none of these is flat in ln v over this many decades (proposal; wrong answers of one question spread about so
/// far).
constexpr double decades_of_none = 6;
/// Of these, what comes from arithmetic or copying gone astray, or from a molar mass that is a little off, lies near the right
/// answer: the nearer, the denser. Shares of none of these by how far off they are, counted on simulated work of the seeds
/// `design`; the bounds are ratios to the right answer.
struct Ring {
  double ratio, density;  ///< density in ln v within that ratio, outside of the ring before
};
constexpr Ring rings[] = {{1.1, 0.75}, {1.35, 0.5}, {2.0, 0.33}};
constexpr double ln_10 = 2.302585092994046;
/// How a student with a slip writes its value: rounded as written, or a little off by rounding on the way or by another table of
/// atomic weights. More than this share are a little off; but what lies close to a slip's number and is not it is often another
/// slip that is not in the library, so that so much is counted (simulated work, seeds `design`, each slip left out in turn).
constexpr double rounded_right = 0.82, a_little_off = 0.04;

struct Likelihood {
  double value = 0;
  bool rounded = false;  ///< exactly the slip's value, rounded as written
};

/// Chance that a student whose working comes to `value` writes a number with unit `step` in its last digit at this distance.
Likelihood likelihood(double distance, double step, double value, double due_last, double table_band) {
  double const width = std::max(std::max(1.5 * step, due_last), table_band * std::abs(value));
  Likelihood found;
  found.rounded = distance <= 0.5 * step + 1e-9 * std::abs(value);
  if (found.rounded) found.value += rounded_right;
  if (distance <= width) found.value += a_little_off * std::min(1.0, step / (2 * width));
  return found;
}

/// One unit of the last due figure of another value with as many figures.
double due_last_for(double value, Due const& due) {
  double power = 1, size = std::abs(value);
  if (!(size > 0) || !std::isfinite(size)) return 0;
  while (size >= 10) size /= 10, power *= 10;
  while (size < 1) size *= 10, power /= 10;
  for (int i = 1; i < due.figures; ++i) power /= 10;
  return power;
}

struct Scored {
  SlipAnswer const* answer;
  double score;
  bool rounded;
};

/// The step that shows in an answer: where it was made, or the choice of the limiting reagent where it shows through that only.
std::string const& step_of(SlipAnswer const& answer, std::vector<Scored> const& scored) {
  if (answer.through_choice)
    for (auto const& other : scored)
      if (other.answer->slip->group == "limiting") return other.answer->node;
  return answer.node;
}

/// Rivals made one for each slip and step, with probabilities, and what may be said.
Diagnosis settle(std::vector<Scored> const& scored, double none_score, bool may_name, bool may_speak,
                 double least_share = step_above) {
  Diagnosis diagnosis;
  double total = none_score;
  for (auto const& one : scored) total += one.score;
  if (!(total > 0)) return diagnosis;
  diagnosis.none = none_score / total;
  for (auto const& one : scored) {
    auto const same = [&](Rival const& rival) {
      return rival.answer->slip == one.answer->slip && rival.answer->node == one.answer->node;
    };
    auto const found = std::find_if(diagnosis.rivals.begin(), diagnosis.rivals.end(), same);
    if (found == diagnosis.rivals.end())
      diagnosis.rivals.push_back(Rival{one.answer, one.score / total});
    else
      found->probability += one.score / total;
  }
  std::stable_sort(diagnosis.rivals.begin(), diagnosis.rivals.end(),
                   [](Rival const& a, Rival const& b) { return a.probability > b.probability; });
  std::vector<std::pair<std::string, double>> steps;
  for (auto const& rival : diagnosis.rivals) {
    auto const& at = step_of(*rival.answer, scored);
    auto found = std::find_if(steps.begin(), steps.end(), [&](auto const& step) { return step.first == at; });
    if (found == steps.end()) found = steps.insert(steps.end(), {at, 0.0});
    found->second += rival.probability;
  }
  std::stable_sort(steps.begin(), steps.end(), [](auto const& a, auto const& b) { return a.second > b.second; });
  bool const one_step = !steps.empty() && steps[0].second >= least_share;
  bool const two_steps = steps.size() > 1 && steps[0].second + steps[1].second >= name_above;
  bool const some_slip = 1 - diagnosis.none >= name_above;
  if (!may_speak || (!one_step && !two_steps && !some_slip)) {
    diagnosis.rivals.clear();
    return diagnosis;
  }
  if (!one_step && !two_steps) {
    // One of several slips at as many steps: there is nothing to tell the student, but much to ask them.
  } else if (may_name && diagnosis.rivals.front().probability >= name_above) {
    diagnosis.speech = Diagnosis::Speech::slip;
    diagnosis.node = diagnosis.rivals.front().answer->node;
  } else {
    diagnosis.speech = one_step ? Diagnosis::Speech::step : Diagnosis::Speech::either;
    diagnosis.node = steps[0].first;
    if (!one_step) diagnosis.other_node = steps[1].first;
  }
  constexpr double worth_listing = 0.02;
  constexpr std::size_t most_rivals = 5;
  while (diagnosis.rivals.size() > most_rivals || diagnosis.rivals.back().probability < worth_listing)
    diagnosis.rivals.pop_back();
  return diagnosis;
}

/// One unit of the last digit that is sure: zeros at the end that may only place the point are not.
double coarse_step(WrittenNumber const& written) {
  return written.certain == written.figures
             ? written.step
             : written.step * Rational::power_of_ten(written.figures - written.certain).to_double();
}

std::size_t place_of(Slip const& slip) { return static_cast<std::size_t>(&slip - slips().data()); }

/// How many variants there are of a slip: its prior is shared among them. A right part before speaks against some, and leaves the
/// prior to the others.
struct Variants {
  int all = 0, open = 0;
  int among(SlipAnswer const& answer) const { return answer.against_right_part ? all : open; }
};

/// In the order of slips().
std::vector<Variants> variants_of(std::span<SlipAnswer const> answers) {
  std::vector<Variants> variants(slips().size());
  for (auto const& answer : answers) {
    auto& of_slip = variants[place_of(*answer.slip)];
    ++of_slip.all;
    of_slip.open += answer.against_right_part ? 0 : 1;
  }
  return variants;
}

/// A slip in one of two amounts that shows only because it turns the choice round: it must be made in one amount and not in the
/// other, and go unseen.
constexpr double through_choice = 0.2;

/// Hardly anybody who did a step rightly in one part does it wrongly in the next, where they work it anew (proposal).
constexpr double worked_anew = 0.001;

/// Fewer work a problem in another way than the printed one.
constexpr double other_working = 0.4;

/// A common slip at one of two places is not half as common at each: a student who makes it makes it somewhere. Generic ones and
/// those of rounding, which can be made at every step, are shared out in full.
double shared_prior(Slip const& slip, int variants) {
  if (slip.reach != Reach::specific) return starting_weight(slip) / variants;
  return starting_weight(slip) * (variants > 1 ? 1.5 / variants : 1.0);
}

/// What a slip's answer weighs before its number is looked at.
double weight_of(SlipAnswer const& answer, Variants const& variants, SlipRecord const* record) {
  return shared_prior(*answer.slip, variants.among(answer)) * answer.way * (answer.through_choice ? through_choice : 1.0) *
         (answer.working > 0 ? other_working : 1.0) * (answer.against_right_part ? worked_anew : 1.0) *
         (record ? record->factor(answer.slip->id) : 1.0);
}

/// Whether a number is a value rounded as it is written.
bool is_rounded_to(WrittenNumber const& written, double value) {
  return std::abs(written.approximate - value) <= 0.5 * std::max(written.step, coarse_step(written)) + 1e-9 * std::abs(value);
}

/// Whether of two slips that lead to the very same number one says all that the other says, and more: what was left out where the
/// working stops a step early, where the ratio was left out, that equal volumes make a mean.
bool says_more(Slip const* more, Slip const* less) {
  static auto const* const early = find_slip("stopped-one-step-early");
  static auto const* const of_another_part = find_slip("answer-of-another-part");
  static auto const* const other_given = find_slip("other-given-copied");
  static auto const* const averaged = find_slip("mixture-concentration-averaged");
  static auto const* const unbalanced = find_slip("ratio-from-unbalanced-equation");
  static auto const* const as_one = find_slip("mole-ratio-taken-as-one");
  static auto const* const left_one_to_one = find_slip("excess-left-one-to-one");
  if (less == early) return more->reach == Reach::specific && more != early && more != of_another_part;
  if (less == other_given) return more == averaged;
  if (less == unbalanced) return more == as_one || more == left_one_to_one;
  return less == as_one && more == left_one_to_one;
}

/// The one that says more is named for both.
void name_what_says_more(std::vector<Scored>& scored) {
  for (auto one = scored.begin(); one != scored.end();) {
    auto best = scored.end();
    for (auto other = scored.begin(); other != scored.end(); ++other)
      if (says_more(other->answer->slip, one->answer->slip) && !changes_answer(other->answer->value, one->answer->value) &&
          (!other->answer->against_right_part || one->answer->against_right_part) &&
          (best == scored.end() || other->score > best->score))
        best = other;
    if (best == scored.end()) {
      ++one;
      continue;
    }
    best->score += one->score;
    one = scored.erase(one);
  }
}

/// Where a slip has a name of its own, the general one that does the same at the same step is no rival to it.
void drop_nameless(std::vector<Scored>& scored) {
  auto const named = [&](Scored const& one) {
    return std::any_of(scored.begin(), scored.end(), [&](Scored const& other) {
      return other.answer->slip->reach == Reach::specific && other.answer->node == one.answer->node &&
             !changes_answer(other.answer->value, one.answer->value);
    });
  };
  std::vector<Scored> kept;
  for (auto const& one : scored)
    if (one.answer->slip->reach != Reach::generic || !named(one)) kept.push_back(one);
  scored = std::move(kept);
}
}  // namespace

// To be replaced by a class's own counts. No source gives rates that carry over (common practice, no source); the grades are
// those of data/slips.tsv.
double starting_weight(Slip const& slip) {
  constexpr double generic = 0.03;  // powers of ten, transposed digits: each shared among all its variants
  if (slip.reach == Reach::generic) return generic;
  switch (slip.frequency) {
    case Frequency::common:
      return 0.05;
    case Frequency::occasional:
      return 0.02;
    case Frequency::rare:
      return 0.006;
  }
  return 0;
}

double weight_of_none(WrittenNumber const& written, Due const& due) {
  double const coarse = coarse_step(written), size = std::abs(written.approximate), right = std::abs(due.right);
  if (!(size > 0)) return prior_of_none;
  double density = 1 / (decades_of_none * ln_10);
  auto const within = [&](Ring const& ring) { return size < ring.ratio * right && size * ring.ratio > right; };
  if (auto const* const ring = std::find_if(std::begin(rings), std::end(rings), within); ring != std::end(rings))
    density = ring->density;
  return prior_of_none * std::min(1.0, 0.5 * (written.step + coarse) / size * density);
}

namespace {
/// Steps of the last digit, and table bands, beyond which no value fits.
constexpr double most_steps = 3, most_bands = 2;
}  // namespace

Sizes where_it_fits(WrittenNumber const& written, double table_band) {
  double const size = std::abs(written.approximate), steps = most_steps * written.step, band = most_bands * table_band;
  return {std::min(size - steps, size / (1 + band)),
          band < 1 ? std::max(size + steps, size / (1 - band)) : std::numeric_limits<double>::infinity()};
}

double fit_of(WrittenNumber const& written, double value, Due const& due, double table_band) {
  double const distance = std::abs(written.approximate - value);
  if (!(distance <= std::max(most_steps * written.step, most_bands * table_band * std::abs(value)))) return 0;
  return likelihood(distance, written.step, value, due_last_for(value, due), table_band).value;
}

Diagnosis diagnose(WrittenNumber const& written, std::span<SlipAnswer const> answers, Due const& due, double table_band,
                   SlipRecord const* record, std::span<RoundedAnswer const> rounded) {
  bool const ambiguous = written.certain != written.figures;
  double const coarse = coarse_step(written), size = std::abs(written.approximate);
  std::vector<Scored> scored;
  if (!(size > 0)) return Diagnosis{};
  // Most answers are far off: they are passed over before anything is counted.
  double const reach = std::max(std::max(1.5 * coarse, table_band * size * 1.5), 2 * due_last_for(size, due));
  std::vector<Variants> variants;
  for (auto const& answer : answers) {
    double const distance = std::abs(written.approximate - answer.value);
    if (distance > reach) continue;
    if (answer.slip->reach == Reach::generic && written.certain < 3) continue;
    if (variants.empty()) variants = variants_of(answers);
    double const due_last = due_last_for(answer.value, due);
    auto found = likelihood(distance, written.step, answer.value, due_last, table_band);
    if (ambiguous) {
      auto const other = likelihood(distance, coarse, answer.value, due_last, table_band);
      found.value = 0.5 * (found.value + other.value);
      found.rounded = found.rounded || other.rounded;
    }
    if (answer.slip->reach == Reach::generic && !found.rounded) continue;
    double const score = weight_of(answer, variants[place_of(*answer.slip)], record) * found.value;
    if (score > 0) scored.push_back(Scored{&answer, score, found.rounded});
  }
  for (auto const& one : rounded) {
    auto const& answer = answers[one.of];
    if (!is_rounded_to(written, one.value) || (answer.slip->reach == Reach::generic && written.certain < 3)) continue;
    if (variants.empty()) variants = variants_of(answers);
    scored.push_back(
        Scored{&answer, weight_of(answer, variants[place_of(*answer.slip)], record) * rounded_right * one.share, true});
  }
  drop_nameless(scored);
  name_what_says_more(scored);
  double const none = weight_of_none(written, due);
  // One figure is next to no evidence, unless it is the slip's very value (6 for 6.000).
  bool const exact = std::any_of(scored.begin(), scored.end(), [&](Scored const& one) {
    return std::abs(one.answer->value - written.approximate) <= 1e-9 * size;
  });
  int const sure = std::max(written.certain, std::min(written.figures, due.figures));
  auto diagnosis = settle(scored, none, sure >= 3, sure >= 2 || exact);
  if (sure < 3)  // what is not said aloud is not counted as sure either
    for (auto& rival : diagnosis.rivals) rival.probability = std::min(rival.probability, name_above - 0.01);
  return diagnosis;
}

Diagnosis diagnose(WrittenNumber const& written, std::span<SlipAnswer const> answers, Due const& due, double table_band,
                   SlipRecord const* record) {
  return diagnose(written, answers, due, table_band, record, {});
}

Diagnosis diagnose_formula(std::vector<SlipAnswer> const& answers, int waters_off, SlipRecord const* record) {
  // A wrong formula from none of these is one of about so many: small whole numbers, in one ratio or another; of a hydrate those
  // near the right one, for which arithmetic goes astray, or any number of waters (proposals).
  constexpr double near = 12, far = 40;
  constexpr int waters_near = 2;
  double const formulas_of_none = std::abs(waters_off) > waters_near ? far : near;
  std::vector<Scored> scored;
  auto const variants = variants_of(answers);
  for (auto const& answer : answers)
    scored.push_back(Scored{
        &answer,
        shared_prior(*answer.slip, variants[place_of(*answer.slip)].all) * (record ? record->factor(answer.slip->id) : 1.0),
        true});
  return settle(scored, prior_of_none / formulas_of_none, true, true);
}

Diagnosis diagnose_choice(int value, int choices, std::vector<SlipAnswer> const& answers, SlipRecord const* record) {
  std::vector<Scored> scored;
  auto const variants = variants_of(answers);
  for (auto const& answer : answers)
    if (answer.slip->reach == Reach::specific && static_cast<int>(answer.value) == value)
      scored.push_back(Scored{&answer,
                              shared_prior(*answer.slip, variants[place_of(*answer.slip)].all) *
                                  (answer.slip->group == "limiting" ? 1.0 : through_choice) *
                                  (record ? record->factor(answer.slip->id) : 1.0),
                              true});
  // Whatever the cause, it shows in the choice: that step is spoken of however the causes share the probability.
  return settle(scored, prior_of_none / std::max(1, choices - 1), true, true, 0);
}

bool fits(WrittenNumber const& written, SlipAnswer const& answer, Due const& due) {
  static auto const* const of_another_part = find_slip("answer-of-another-part");
  if (answer.slip == of_another_part) return false;
  if (written.figures < std::min(3, due.figures) || (answer.slip->reach == Reach::generic && written.certain < 3)) return false;
  double const distance = std::abs(written.approximate - answer.value);
  double const most_last = due.figures > 1 ? 0.11 : 1.1;  // one unit of the last figure due is no greater share of a value
  return is_rounded_to(written, answer.value) ||
         (written.figures >= due.figures && distance <= most_last * std::abs(answer.value) &&
          distance <= due_last_for(answer.value, due) * (1 + 1e-9));
}

bool fits(WrittenNumber const& written, RoundedAnswer const& rounded, Due const& due) {
  return written.figures >= std::min(3, due.figures) && is_rounded_to(written, rounded.value);
}

}  // namespace molewright
