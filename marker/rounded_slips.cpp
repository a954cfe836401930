#include "marker/rounded_slips.h"

#include <algorithm>
#include <array>
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

/// Nothing where it is rounded away, or has more figures than can be held.
std::optional<Rational> rounded(double value, Habit const& habit) {
  constexpr int most_figures = 15;
  auto const first = place_of_first_figure(value);
  if (!first) return std::nullopt;
  int const last = habit.figures > 0 ? *first - habit.figures + 1 : -habit.places;
  if (*first - last >= most_figures) return std::nullopt;
  auto const steps = std::llround(value * Rational::power_of_ten(-last).to_double());
  if (steps == 0) return std::nullopt;
  return Rational(steps) * Rational::power_of_ten(last);
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
                     std::vector<Estimator::Change> changes, std::vector<int> const& order, Habit const& habit) {
  std::vector<Definition> values;
  values.reserve(order.size());  // the changes point into it
  for (int const node : order) {
    if (node == order.back() || written_down[static_cast<std::size_t>(node)] == 0) continue;
    if (definition_of(node, working, changes).operation == Operation::constant) continue;
    auto const value = rounded(estimator.with(changes, node), habit);
    if (!value) return not_a_number;
    values.push_back(constant_of(*value));
    changes.push_back({node, &values.back()});
    if (habit.first_only) break;
  }
  return values.empty() ? not_a_number : estimator.with(changes, order.back());
}
}  // namespace

std::vector<RoundedAnswer> rounded_answers(double written, std::span<SlipAnswer const> answers,
                                           std::vector<Application> const& all, Worked const& worked,
                                           Conventions const& conventions, Estimator& estimator, std::size_t find,
                                           std::vector<Estimator::Change> const& carried) {
  static auto const* const of_another_part = find_slip("answer-of-another-part");
  auto const& working = worked.accepted.front();
  std::vector<RoundedAnswer> found;
  std::vector<Estimator::Change> changes;
  std::vector<int> order;
  std::vector<char> written_down, seen;
  for (std::size_t a = 0; a < answers.size(); ++a) {
    auto const& answer = answers[a];
    if (answer.slip->reach != Reach::specific || answer.slip == of_another_part || answer.working != 0) continue;
    if (!(std::abs(written - answer.value) <= farthest * std::abs(answer.value))) continue;
    auto const& application = all[answer.application];
    int const target = target_of(application, find, working.finds[find].node);
    changes.clear();
    add_changes(application, changes);
    if (changes_answer(answer.value, estimator.with(changes, target))) {
      changes = carried;
      add_changes(application, changes);
      if (changes_answer(answer.value, estimator.with(changes, target))) continue;  // a problem solved again
    }
    if (written_down.empty()) written_down = written_down_on_the_way(Anatomy(worked, working, conventions));
    order.clear();
    seen.assign(working.nodes.size(), 0);
    add_in_order(target, working, changes, seen, order);
    for (auto const& habit : habits) {
      double const value = rounded_value(working, written_down, estimator, changes, order, habit);
      if (changes_answer(value, answer.value)) found.push_back({a, value, habit.share});
    }
  }
  return found;
}

}  // namespace molewright
