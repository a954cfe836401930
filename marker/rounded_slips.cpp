#include "marker/rounded_slips.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <optional>

#include "marker/slip_library.h"

namespace molewright {
namespace {

/// A way to round on the way. The shares are proposals, to be replaced by counts from real classes.
struct Habit {
  int figures, places;  ///< significant figures; where there are none, decimal places
  bool first_only;      ///< the first number alone, and then no more
  double share;
};
constexpr std::array habits{Habit{4, 0, false, 0.10}, Habit{3, 0, false, 0.08}, Habit{3, 0, true, 0.03}, Habit{0, 2, false, 0.02},
                            Habit{0, 3, false, 0.02}};

/// Beyond this distance (relative) rounding on the way moves no answer worth looking at.
constexpr double farthest = 0.10;

constexpr double not_a_number = std::numeric_limits<double>::quiet_NaN();

/// Power of ten of the first figure; none of what is no number that a student writes.
std::optional<int> place_of_first_figure(double value) {
  constexpr double least = 1e-30, most = 1e30;
  double size = std::abs(value);
  if (!(size > least && size < most)) return std::nullopt;
  int place = 0;
  for (; size >= 10; size /= 10) ++place;
  for (; size < 1; size *= 10) --place;
  return place;
}

/// Not a number where it is rounded away, or has more figures than can be held.
double rounded(double value, Habit const& habit) {
  constexpr int most_figures = 15;
  auto const first = place_of_first_figure(value);
  if (!first) return not_a_number;
  int const last = habit.figures > 0 ? *first - habit.figures + 1 : -habit.places;
  if (*first - last >= most_figures) return not_a_number;
  double const place = std::pow(10.0, std::abs(last));
  auto const steps = static_cast<double>(std::llround(last > 0 ? value / place : value * place));
  if (steps == 0) return not_a_number;
  return last > 0 ? steps * place : steps / place;
}

Definition const& definition_of(int node, Working const& working, std::vector<Estimator::Change> const& changes) {
  for (auto change = changes.rbegin(); change != changes.rend(); ++change)
    if (change->node == node) return *change->definition;
  return working.nodes[static_cast<std::size_t>(node)].definition;
}

/// What `node` rests on once the changes are made, each behind what it rests on itself, and the node last.
void add_in_order(int node, Working const& working, std::vector<Estimator::Change> const& changes, std::vector<char>& seen,
                  std::vector<int>& order) {
  auto& was_here = seen[static_cast<std::size_t>(node)];
  if (was_here != 0) return;
  was_here = 1;
  for (auto const& term : definition_of(node, working, changes).terms) add_in_order(term.node, working, changes, seen, order);
  order.push_back(node);
}

double rounded_value(Working const& working, std::vector<char> const& written_down, Estimator& estimator,
                     std::vector<Estimator::Change> const& changes, std::vector<int> const& order, Habit const& habit) {
  bool any = false;
  double const value = estimator.with_noted(changes, order, [&](int node, double exact) {
    if (node == order.back() || written_down[static_cast<std::size_t>(node)] == 0 || (any && habit.first_only)) return exact;
    if (definition_of(node, working, changes).operation == Operation::constant) return exact;
    any = true;
    return rounded(exact, habit);
  });
  return any ? value : not_a_number;
}
}  // namespace

RoundedSlips::RoundedSlips(Worked const& worked, Conventions const& conventions, std::vector<Application> const& all,
                           Estimator& estimator)
    : working_(worked.accepted.front()),
      all_(all),
      estimator_(estimator),
      written_down_(written_down_on_the_way(Anatomy(worked, working_, conventions))) {}

RoundedSlips::Values RoundedSlips::values_of(std::vector<Estimator::Change> const& changes, int target) {
  order_.clear();
  seen_.assign(working_.nodes.size(), 0);
  add_in_order(target, working_, changes, seen_, order_);
  Values values;
  for (std::size_t way = 0; way < ways; ++way)
    values[way] = rounded_value(working_, written_down_, estimator_, changes, order_, habits[way]);
  return values;
}

std::vector<RoundedAnswer> RoundedSlips::near(double written, std::span<SlipAnswer const> answers, std::size_t find,
                                              std::vector<Estimator::Change> const& carried) {
  static_assert(habits.size() == ways);
  static auto const* const of_another_part = find_slip("answer-of-another-part");
  std::vector<RoundedAnswer> found;
  std::vector<Estimator::Change> changes;
  for (std::size_t a = 0; a < answers.size(); ++a) {
    auto const& answer = answers[a];
    if (answer.slip->reach != Reach::specific || answer.slip == of_another_part || answer.working != 0) continue;
    if (!(std::abs(written - answer.value) <= farthest * std::abs(answer.value))) continue;
    auto const& application = all_[answer.application];
    int const target = target_of(application, find, working_.finds[find].node);
    changes.clear();
    add_changes(application, changes);
    Values values;
    if (!changes_answer(answer.value, estimator_.with(changes, target))) {
      auto const [at, first] = alone_.try_emplace({answer.application, find});
      if (first) at->second = values_of(changes, target);
      values = at->second;
    } else {
      changes = carried;
      add_changes(application, changes);
      if (changes_answer(answer.value, estimator_.with(changes, target))) continue;  // a problem solved again
      values = values_of(changes, target);
    }
    for (std::size_t way = 0; way < ways; ++way)
      if (changes_answer(values[way], answer.value)) found.push_back({a, values[way], habits[way].share});
  }
  return found;
}

}  // namespace molewright
