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
  double as_changed(Definition const& changed) const;
  static double value_of(Flat const& flat, Term const* terms, std::vector<double> const& values);
};

}  // namespace molewright
