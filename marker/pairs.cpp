#include "marker/pairs.h"

#include <algorithm>
#include <cmath>

namespace molewright {
namespace {

/// How often whoever made one slip makes a given second one as well, as a share of how often it is made at all: a slip is in a
/// quarter of answers that are wrong already (proposal).
constexpr double second_slip = 0.25;

/// A pair is a guess to be looked at long before it is sure: it is listed from here on, named from `name_above`.
constexpr double worth_saying = 0.30;

/// A power of ten has this many variants.
constexpr double powers = 6;

double weight_in_pair(Slip const& slip) { return starting_weight(slip) / (slip.reach == Reach::generic ? powers : 1.0); }

/// Both sets of changes; nothing where they change one node, or both read the answer from elsewhere.
bool together(Application const& a, Application const& b, std::size_t find, int node, std::vector<Estimator::Change>& changes,
              int& target) {
  changes.clear();
  target = node;
  int pointers = 0;
  for (auto const* application : {&a, &b})
    for (auto const& edit : application->edits) {
      if (auto const* const one = std::get_if<NodeEdit>(&edit)) {
        bool const again =
            std::any_of(changes.begin(), changes.end(), [&](Estimator::Change const& c) { return c.node == one->node; });
        if (again) return false;
        changes.push_back({one->node, &one->definition});
      } else if (auto const* const answer = std::get_if<AnswerEdit>(&edit)) {
        if (answer->find != find) continue;
        target = answer->node;
        ++pointers;
      } else {
        return false;
      }
    }
  return pointers < 2;
}

/// One answer for each number that single slips lead to: the likeliest.
std::vector<SlipAnswer const*> distinct(std::vector<SlipAnswer> const& answers) {
  std::vector<SlipAnswer const*> sorted;
  static auto const* const power = find_slip("power-of-ten");
  for (auto const& answer : answers)
    if ((answer.slip->reach == Reach::specific || answer.slip == power) && std::isfinite(answer.value) && answer.value != 0)
      sorted.push_back(&answer);
  std::stable_sort(sorted.begin(), sorted.end(), [](auto const* a, auto const* b) { return a->value < b->value; });
  std::vector<SlipAnswer const*> kept;
  for (auto const* answer : sorted) {
    if (kept.empty() || changes_answer(kept.back()->value, answer->value))
      kept.push_back(answer);
    else if (weight_in_pair(*answer->slip) > weight_in_pair(*kept.back()->slip))
      kept.back() = answer;
  }
  return kept;
}
}  // namespace

std::vector<PairAnswer> pairs_behind(WrittenNumber const& written, std::vector<SlipAnswer> const& answers,
                                     std::vector<Application> const& all, Estimator& estimator, Working const& working,
                                     std::size_t find, Due const& due, double table_band, int least_figures,
                                     AgreesWithLines const& agrees) {
  std::vector<PairAnswer> pairs;
  if (written.certain < least_figures) return pairs;
  auto const singles = distinct(answers);
  int const node = working.finds[find].node;
  std::vector<Estimator::Change> changes;
  int target = node;
  double total = weight_of_none(written, due);
  for (std::size_t i = 0; i < singles.size(); ++i)
    for (std::size_t j = i + 1; j < singles.size(); ++j) {
      auto const& a = *singles[i];
      auto const& b = *singles[j];
      if (a.slip == b.slip || !together(all[a.application], all[b.application], find, node, changes, target)) continue;
      double const value = estimator.with(changes, target);
      double const fit = fit_of(written, value, due, table_band);
      if (!(fit > 0) || !changes_answer(value, a.value) || !changes_answer(value, b.value)) continue;
      if (agrees && !agrees(changes)) continue;
      pairs.push_back({&a, &b, value, weight_in_pair(*a.slip) * weight_in_pair(*b.slip) * second_slip * fit});
      total += pairs.back().probability;
    }
  for (auto& pair : pairs) pair.probability /= total;
  std::stable_sort(pairs.begin(), pairs.end(), [](auto const& a, auto const& b) { return a.probability > b.probability; });
  constexpr std::size_t most_pairs = 5;
  if (pairs.size() > most_pairs) pairs.resize(most_pairs);
  if (pairs.empty() || pairs.front().probability < worth_saying) pairs.clear();
  return pairs;
}

}  // namespace molewright
