#include <algorithm>
#include <cmath>
#include <limits>

#include "engine/working.h"

namespace molewright {
namespace {

constexpr double not_a_number = std::numeric_limits<double>::quiet_NaN();

double power(double base, int exponent) {
  switch (exponent) {
    case 1:
      return base;
    case -1:
      return 1.0 / base;
    case 2:
      return base * base;
    default:
      return std::pow(base, exponent);
  }
}
}  // namespace

Estimator::Estimator(Working const& working) {
  flat_.reserve(working.nodes.size());
  for (auto const& node : working.nodes) {
    auto const& definition = node.definition;
    flat_.push_back({definition.operation, static_cast<int>(terms_.size()), static_cast<int>(definition.terms.size()),
                     definition.factor.to_double(), definition.root});
    terms_.insert(terms_.end(), definition.terms.begin(), definition.terms.end());
  }
  base_.assign(flat_.size(), 0.0);
  for (std::size_t i = 0; i < flat_.size(); ++i) base_[i] = value_of(flat_[i], terms_.data() + flat_[i].first, base_);
  trial_ = base_;
  // A node reads only nodes before it: going down, whatever rests on a node is known before it is handed on.
  words_ = (flat_.size() + 63) / 64;
  resting_.assign(words_ * flat_.size(), 0);
  for (std::size_t i = flat_.size(); i-- > 0;)
    for (int t = 0; t < flat_[i].count; ++t) {
      auto const read = static_cast<std::size_t>(terms_[static_cast<std::size_t>(flat_[i].first + t)].node);
      for (std::size_t w = 0; w < words_; ++w) resting_[read * words_ + w] |= resting_[i * words_ + w];
      resting_[read * words_ + i / 64] |= std::uint64_t{1} << (i % 64);
    }
}

std::vector<std::uint64_t> Estimator::touched(std::vector<Change> const& changes) const {
  std::vector<std::uint64_t> nodes;
  mark_touched(changes, nodes);
  return nodes;
}

void Estimator::mark_touched(std::vector<Change> const& changes, std::vector<std::uint64_t>& nodes) const {
  nodes.assign(words_, 0);
  for (auto const& change : changes) {
    auto const i = static_cast<std::size_t>(change.node);
    for (std::size_t w = 0; w < words_; ++w) nodes[w] |= resting_[i * words_ + w];
    nodes[i / 64] |= std::uint64_t{1} << (i % 64);
  }
}

double Estimator::value_of(Flat const& flat, Term const* terms, std::vector<double> const& values) {
  int const count = flat.count;
  double const factor = flat.factor;
  auto const at = [&](int i) { return values[static_cast<std::size_t>(terms[i].node)]; };
  switch (flat.operation) {
    case Operation::constant:
      return factor;
    case Operation::product: {
      double result = factor;
      for (int i = 0; i < count; ++i) result *= power(at(i), terms[i].weight);
      return flat.root == 1 ? result : std::pow(result, 1.0 / flat.root);
    }
    case Operation::logarithm:
      return factor * std::log10(at(0));
    case Operation::proportion:  // a formula or a name is no number: searching for slips among numbers passes it by
    case Operation::multiple:
    case Operation::stated:
      return not_a_number;
    case Operation::exponential: {
      double exponent = 0;
      for (int i = 0; i < count; ++i) exponent += terms[i].weight * at(i);
      return factor * std::pow(10.0, exponent);
    }
    case Operation::sum: {
      double result = 0;
      for (int i = 0; i < count; ++i) result += terms[i].weight * at(i);
      return result * factor;
    }
    case Operation::choose: {
      int best = 0;
      for (int i = 1; i < count; ++i)
        if (at(i) < at(best)) best = i;
      return best;
    }
    case Operation::pick: {
      double const index = at(0);
      return index >= 0 && index + 1 < count ? at(static_cast<int>(index) + 1) : not_a_number;
    }
  }
  return not_a_number;
}

double Estimator::with(std::vector<Change> const& changes, int target) {
  auto const changed_at = [&](int index) {
    Definition const* changed = nullptr;
    for (auto const& change : changes)
      if (change.node == index) changed = change.definition;
    return changed;
  };
  auto const as_changed = [&](Definition const& changed) {
    return value_of({changed.operation, 0, static_cast<int>(changed.terms.size()), changed.factor.to_double(), changed.root},
                    changed.terms.data(), trial_);
  };
  // Most edits read only what comes before: then what they touch is worked anew in one pass, up to the target.
  bool const forward = std::all_of(changes.begin(), changes.end(), [](Change const& change) {
    auto const& terms = change.definition->terms;
    return std::all_of(terms.begin(), terms.end(), [&](Term const& term) { return term.node < change.node; });
  });
  double result = not_a_number;
  if (forward) {
    mark_touched(changes, touched_);
    auto const each = [&](auto const& visit) {
      for (std::size_t w = 0; w < words_; ++w)
        for (std::uint64_t rest = touched_[w]; rest != 0; rest &= rest - 1) {
          auto const i = 64 * w + static_cast<std::size_t>(__builtin_ctzll(rest));
          if (static_cast<int>(i) > target) return;
          visit(i);
        }
    };
    each([&](std::size_t i) {
      auto const* const changed = changed_at(static_cast<int>(i));
      trial_[i] = changed ? as_changed(*changed) : value_of(flat_[i], terms_.data() + flat_[i].first, trial_);
    });
    result = trial_[static_cast<std::size_t>(target)];
    each([&](std::size_t i) { trial_[i] = base_[i]; });
    return std::isfinite(result) ? result : not_a_number;
  }
  // Another may read a node that comes later, so nodes are worked on demand; a loop leaves NaN.
  constexpr char fresh = 0, open = 1, done = 2;
  state_.assign(flat_.size(), fresh);
  auto const visit = [&](auto const& self, int index) -> bool {
    auto const i = static_cast<std::size_t>(index);
    if (state_[i] == done) return true;
    if (state_[i] == open) return false;
    state_[i] = open;
    auto const& flat = flat_[i];
    auto const* const changed = changed_at(index);
    Term const* terms = changed ? changed->terms.data() : terms_.data() + flat.first;
    int const count = changed ? static_cast<int>(changed->terms.size()) : flat.count;
    for (int t = 0; t < count; ++t)
      if (!self(self, terms[t].node)) return false;
    if (changed)
      trial_[i] = as_changed(*changed);
    else if (count > 0)
      trial_[i] = value_of(flat, terms, trial_);
    state_[i] = done;
    return true;
  };
  if (visit(visit, target)) result = trial_[static_cast<std::size_t>(target)];
  trial_ = base_;
  return std::isfinite(result) ? result : not_a_number;
}

}  // namespace molewright
