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

/// Which pairs can be passed over unworked. Where two slips change different factors of a product, the answer to both is the
/// right one times what each makes of it alone; only pairs that come near the written number so, and those that are no product,
/// are worked together.
class Together {
 public:
  Together(std::vector<SlipAnswer const*> const& singles, std::vector<Application> const& all, Estimator& estimator,
           Working const& working, std::size_t find)
      : right_(estimator.base(working.finds[find].node)) {
    std::vector<Estimator::Change> changes;
    auto const no_change = estimator.touched(changes);
    words_ = no_change.size();
    not_a_product_.assign(words_, 0);
    for (std::size_t i = 0; i < working.nodes.size(); ++i)
      if (working.nodes[i].definition.operation != Operation::product) put(not_a_product_, i);
    made_.reserve(singles.size());
    for (auto const* answer : singles) {
      Made made{1, {}, Nodes(words_, 0), false};
      changes.clear();
      for (auto const& edit : all[answer->application].edits) {
        if (auto const* const node = std::get_if<NodeEdit>(&edit)) {
          changes.push_back({node->node, &node->definition});
          put_otherwise_read(made.otherwise_read, working.nodes[static_cast<std::size_t>(node->node)].definition,
                             node->definition);
        } else {
          made.elsewhere = true;
        }
      }
      made.touched = estimator.touched(changes);
      // The answer's own value may stand on what was carried from an earlier part.
      made.times = estimator.with(changes, working.finds[find].node) / right_;
      made_.push_back(std::move(made));
    }
  }

  /// Whether the pair's answer surely lies outside `least` to `most` (sizes, without sign).
  bool far_off(std::size_t a, std::size_t b, double least, double most) const {
    double const size = std::abs(made_[a].times * made_[b].times * right_);
    return (size < least || size > most) && are_factors(made_[a], made_[b]);
  }

 private:
  using Nodes = std::vector<std::uint64_t>;  ///< a bit each
  struct Made {
    double times;          ///< what the answer is multiplied by
    Nodes touched;         ///< as the estimator has it
    Nodes otherwise_read;  ///< by a changed node: with another exponent than before
    bool elsewhere;        ///< the answer is read from another node
  };

  static void put(Nodes& nodes, std::size_t i) { nodes[i / 64] |= std::uint64_t{1} << (i % 64); }

  static void put_otherwise_read(Nodes& nodes, Definition const& before, Definition const& after) {
    bool const was_product = before.operation == Operation::product, is_product = after.operation == Operation::product;
    bool const alike = was_product && is_product && before.root == after.root;
    auto const weight = [&](Definition const& definition, int node) {
      int sum = 0;
      for (auto const& term : definition.terms) sum += term.node == node ? term.weight : 0;
      return sum;
    };
    for (auto const* definition : {&before, &after})
      for (auto const& term : definition->terms)
        if (!alike || weight(before, term.node) != weight(after, term.node)) put(nodes, static_cast<std::size_t>(term.node));
  }

  /// Whatever both touch is a product of the same powers as before, and neither reads otherwise what the other touches: then each
  /// node that both touch is multiplied by what each does to it alone.
  bool are_factors(Made const& a, Made const& b) const {
    if (a.elsewhere || b.elsewhere) return false;
    for (std::size_t w = 0; w < words_; ++w)
      if ((a.touched[w] & b.touched[w] & not_a_product_[w]) != 0 || (a.otherwise_read[w] & b.touched[w]) != 0 ||
          (b.otherwise_read[w] & a.touched[w]) != 0)
        return false;
    return true;
  }

  double right_;
  std::size_t words_ = 0;
  Nodes not_a_product_;
  std::vector<Made> made_;
};
}  // namespace

std::vector<PairAnswer> pairs_behind(WrittenNumber const& written, std::vector<SlipAnswer> const& answers,
                                     std::vector<Application> const& all, Estimator& estimator, Working const& working,
                                     std::size_t find, Due const& due, double table_band, int least_figures,
                                     AgreesWithLines const& agrees) {
  std::vector<PairAnswer> pairs;
  if (written.certain < least_figures) return pairs;
  auto const singles = distinct(answers);
  int const node = working.finds[find].node;
  auto const where = where_it_fits(written, table_band);
  std::vector<Estimator::Change> changes;
  int target = node;
  double total = weight_of_none(written, due);
  Together const pairs_of(singles, all, estimator, working, find);
  constexpr double slack = 1e-6;  // far more than what rounding does to a product
  double const least = where.least * (1 - slack), most = where.most * (1 + slack);
  for (std::size_t i = 0; i < singles.size(); ++i)
    for (std::size_t j = i + 1; j < singles.size(); ++j) {
      auto const& a = *singles[i];
      auto const& b = *singles[j];
      if (a.slip == b.slip || pairs_of.far_off(i, j, least, most) ||
          !together(all[a.application], all[b.application], find, node, changes, target))
        continue;
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
