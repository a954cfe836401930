#pragma once
// Fast evaluation of a working in floating point, for searching.
#include <cstdint>
#include <vector>

#include "engine/working.h"

namespace molewright {

/// Fast evaluation in floating point, for searching only (slips, draws), never for a printed answer.
class Estimator {
 public:
  explicit Estimator(Working const& working);
  double base(int node) const { return base_[static_cast<std::size_t>(node)]; }
  struct Change {
    int node;
    Definition const* definition;
  };
  /// Value of `target` with some nodes defined otherwise; NaN where the change makes a loop or divides by zero.
  double with(std::vector<Change> const& changes, int target);
  /// The same for several targets, in one go: a value each.
  void with(std::vector<Change> const& changes, std::vector<int> const& targets, std::vector<double>& values);
  /// Value of the last of `order`, where every value is noted down as `as_noted(node, value)` before another reads it. `order`
  /// names all that the last rests on once the changes are made, each behind what it rests on itself.
  template <class Note>
  double with_noted(std::vector<Change> const& changes, std::vector<int> const& order, Note const& as_noted) {
    for (int const node : order) trial_[static_cast<std::size_t>(node)] = as_noted(node, worked(changes, node));
    double const result = trial_[static_cast<std::size_t>(order.back())];
    for (int const node : order) trial_[static_cast<std::size_t>(node)] = base_[static_cast<std::size_t>(node)];
    return finite_or_nan(result);
  }
  /// The same working with some nodes fixed at values: each definition is a constant.
  Estimator with_fixed(std::vector<Change> const& values) const;
  /// The nodes that changes touch, a bit each (of node i, bit i % 64 of word i / 64): those changed, and whatever rests on them.
  std::vector<std::uint64_t> touched(std::vector<Change> const& changes) const;

 private:
  struct Flat {
    Operation operation;
    int first, count;  ///< into terms_
    double factor;
    int root;
  };
  std::vector<Flat> flat_;
  std::vector<Term> terms_;
  std::vector<double> base_;
  std::vector<double> trial_;  ///< the base between calls
  std::vector<char> state_;
  std::size_t words_ = 0;               ///< for a bit each node
  std::vector<std::uint64_t> resting_;  ///< for each node, what rests on it
  std::vector<std::uint64_t> touched_;
  std::vector<int> targets_;
  std::vector<double> values_;

  void mark_touched(std::vector<Change> const& changes, std::vector<std::uint64_t>& nodes) const;
  double on_demand(std::vector<Change> const& changes, int target);
  double worked(std::vector<Change> const& changes, int node) const;  ///< from the values of the trial
  static double finite_or_nan(double value);
  double as_changed(Definition const& changed) const;
  static double value_of(Flat const& flat, Term const* terms, std::vector<double> const& values);
};

}  // namespace molewright
