#include "marker/pairs.h"

#include <algorithm>
#include <cmath>
#include <limits>

namespace molewright {
namespace {

/// How often whoever made one slip makes a given second one as well, as a share of how often it is made at all: a slip is in a
/// quarter of answers that are wrong already (proposal).
constexpr double second_slip = 0.25;

/// A pair is a guess to be looked at long before it is sure: it is listed from here on, named from `name_above`.
constexpr double worth_saying = 0.30;

/// A power of ten has this many variants.
constexpr double powers = 6;

constexpr double not_worked = std::numeric_limits<double>::quiet_NaN();

double weight_in_pair(Slip const& slip) { return starting_weight(slip) / (slip.reach == Reach::generic ? powers : 1.0); }

/// One answer for each number that single slips lead to: the likeliest.
std::vector<SlipAnswer const*> distinct(std::span<SlipAnswer const> answers) {
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

void put(std::vector<std::uint64_t>& nodes, std::size_t i) { nodes[i / 64] |= std::uint64_t{1} << (i % 64); }

int weight_of(Definition const& definition, int node) {
  int weight = 0;
  for (auto const& term : definition.terms) weight += term.node == node ? term.weight : 0;
  return weight;
}

/// Nodes that stand in a definition with another exponent than before; of what is no product, all of them.
void put_otherwise_read(std::vector<std::uint64_t>& nodes, Definition const& before, Definition const& after) {
  bool const alike = before.operation == Operation::product && after.operation == Operation::product && before.root == after.root;
  for (auto const* definition : {&before, &after})
    for (auto const& term : definition->terms)
      if (!alike || weight_of(before, term.node) != weight_of(after, term.node)) put(nodes, static_cast<std::size_t>(term.node));
}
}  // namespace

PairSearch::PairSearch(std::span<SlipAnswer const> answers, std::vector<Application> const& all, Estimator& estimator,
                       Working const& working, std::size_t find)
    : all_(all), estimator_(estimator), working_(working), find_(find) {
  Nodes const none(estimator.touched({}));
  not_a_product_ = none;
  for (std::size_t i = 0; i < working.nodes.size(); ++i)
    if (working.nodes[i].definition.operation != Operation::product) put(not_a_product_, i);
  int const node = working.finds[find].node;
  double const right = estimator.base(node);
  auto const kept = distinct(answers);
  singles_.reserve(kept.size());
  for (auto const* answer : kept) {
    Single single{*answer, 1, {}, none, false};
    changes_.clear();
    for (auto const& edit : all[answer->application].edits) {
      if (auto const* const one = std::get_if<NodeEdit>(&edit)) {
        changes_.push_back({one->node, &one->definition});
        put_otherwise_read(single.otherwise_read, working.nodes[static_cast<std::size_t>(one->node)].definition, one->definition);
      } else {
        single.elsewhere = true;
      }
    }
    single.touched = estimator.touched(changes_);
    single.times = estimator.with(changes_, node) / right;  // the answer may stand on what was carried from an earlier part
    singles_.push_back(std::move(single));
  }
}

/// Whatever both touch is a product of the same powers as before, and neither reads otherwise what the other touches: then each
/// node that both touch is multiplied by what each does to it alone, and so is the answer.
bool PairSearch::are_factors(Single const& a, Single const& b) const {
  if (a.elsewhere || b.elsewhere) return false;
  for (std::size_t w = 0; w < not_a_product_.size(); ++w)
    if ((a.touched[w] & b.touched[w] & not_a_product_[w]) != 0 || (a.otherwise_read[w] & b.touched[w]) != 0 ||
        (b.otherwise_read[w] & a.touched[w]) != 0)
      return false;
  return true;
}

/// Puts both sets of changes together; false where they are one slip, change one node, or both read the answer from elsewhere.
bool PairSearch::together(Single const& a, Single const& b) {
  if (a.answer.slip == b.answer.slip) return false;
  changes_.clear();
  target_ = working_.finds[find_].node;
  int pointers = 0;
  for (auto const* single : {&a, &b})
    for (auto const& edit : all_[single->answer.application].edits) {
      if (auto const* const one = std::get_if<NodeEdit>(&edit)) {
        bool const again =
            std::any_of(changes_.begin(), changes_.end(), [&](Estimator::Change const& c) { return c.node == one->node; });
        if (again) return false;
        changes_.push_back({one->node, &one->definition});
      } else if (auto const* const answer = std::get_if<AnswerEdit>(&edit)) {
        if (answer->find != find_) continue;
        target_ = answer->node;
        ++pointers;
      } else {
        return false;
      }
    }
  return pointers < 2;
}

void PairSearch::work_all() {
  for (std::uint32_t i = 0; i < singles_.size(); ++i)
    for (std::uint32_t j = i + 1; j < singles_.size(); ++j)
      if (together(singles_[i], singles_[j]))
        if (double const value = estimator_.with(changes_, target_); std::isfinite(value))
          worked_.push_back({std::abs(value), value, i, j});
  std::sort(worked_.begin(), worked_.end(), [](Pair const& a, Pair const& b) { return a.size < b.size; });
}

/// The pairs that may come to such a size, in the order of the singles. Those that change different factors of a product come to
/// the right answer times what each makes of it alone, and are passed over where that is elsewhere; the others are taken in.
void PairSearch::add_near(Sizes const& where, std::vector<Pair>& near) {
  constexpr int before_all_are_worked = 2;
  constexpr double slack = 1e-6;  // far more than what rounding does to a product
  double const least = where.least * (1 - slack), most = where.most * (1 + slack);
  if (asked_++ == before_all_are_worked) work_all();
  if (asked_ > before_all_are_worked) {
    auto const from =
        std::lower_bound(worked_.begin(), worked_.end(), least, [](Pair const& pair, double size) { return pair.size < size; });
    for (auto at = from; at != worked_.end() && at->size <= most; ++at) near.push_back(*at);
    std::sort(near.begin(), near.end(),
              [](Pair const& a, Pair const& b) { return a.first != b.first ? a.first < b.first : a.second < b.second; });
    return;
  }
  double const right = estimator_.base(working_.finds[find_].node);
  for (std::uint32_t i = 0; i < singles_.size(); ++i)
    for (std::uint32_t j = i + 1; j < singles_.size(); ++j) {
      double const size = std::abs(singles_[i].times * singles_[j].times * right);
      if ((size < least || size > most) && are_factors(singles_[i], singles_[j])) continue;
      near.push_back({size, not_worked, i, j});
    }
}

std::vector<PairAnswer> PairSearch::behind(WrittenNumber const& written, Due const& due, double table_band, int least_figures,
                                           AgreesWithLines const& agrees) {
  std::vector<PairAnswer> pairs;
  if (written.certain < least_figures) return pairs;
  std::vector<Pair> near;
  add_near(where_it_fits(written, table_band), near);
  double total = weight_of_none(written, due);
  for (auto const& pair : near) {
    auto const& a = singles_[pair.first];
    auto const& b = singles_[pair.second];
    bool const worked = !std::isnan(pair.value);
    if ((!worked || agrees) && !together(a, b)) continue;
    double const value = worked ? pair.value : estimator_.with(changes_, target_);
    double const fit = fit_of(written, value, due, table_band);
    if (!(fit > 0) || !changes_answer(value, a.answer.value) || !changes_answer(value, b.answer.value)) continue;
    if (agrees && !agrees(changes_)) continue;
    pairs.push_back(
        {&a.answer, &b.answer, value, weight_in_pair(*a.answer.slip) * weight_in_pair(*b.answer.slip) * second_slip * fit});
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
