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

Estimator::Estimator(Working const& working) { reload(working); }

void Estimator::reload(Working const& working) {
  flat_.clear();
  terms_.clear();
  for (auto const& node : working.nodes) {
    auto const& definition = node.definition;
    flat_.push_back({definition.operation, static_cast<int>(terms_.size()), static_cast<int>(definition.terms.size()),
                     definition.factor.to_double(), definition.root});
    terms_.insert(terms_.end(), definition.terms.begin(), definition.terms.end());
  }
  base_.assign(flat_.size(), 0.0);
  for (std::size_t i = 0; i < flat_.size(); ++i) base_[i] = value_of(flat_[i], terms_.data() + flat_[i].first, base_);
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
  constexpr char fresh = 0, open = 1, done = 2;
  trial_ = base_;
  state_.assign(flat_.size(), fresh);
  // Most edits read only what comes before: then one pass over the nodes up to the target works anew what they touch.
  int first = target + 1;
  bool forward = true;
  for (auto const& change : changes) {
    first = std::min(first, change.node);
    for (auto const& term : change.definition->terms) forward = forward && term.node < change.node;
  }
  if (forward) {
    for (int index = std::max(first, 0); index <= target; ++index) {
      auto const i = static_cast<std::size_t>(index);
      auto const& flat = flat_[i];
      Definition const* changed = nullptr;
      for (auto const& change : changes)
        if (change.node == index) changed = change.definition;
      if (changed) {
        trial_[i] =
            value_of({changed->operation, 0, static_cast<int>(changed->terms.size()), changed->factor.to_double(), changed->root},
                     changed->terms.data(), trial_);
        state_[i] = done;
        continue;
      }
      Term const* const terms = terms_.data() + flat.first;
      bool touched = false;
      for (int t = 0; t < flat.count && !touched; ++t) touched = state_[static_cast<std::size_t>(terms[t].node)] == done;
      if (!touched) continue;
      trial_[i] = value_of(flat, terms, trial_);
      state_[i] = done;
    }
    double const result = trial_[static_cast<std::size_t>(target)];
    return std::isfinite(result) ? result : not_a_number;
  }
  // Another may read a node that comes later, so nodes are worked on demand; a loop leaves NaN.
  auto const visit = [&](auto const& self, int index) -> bool {
    auto const i = static_cast<std::size_t>(index);
    if (state_[i] == done) return true;
    if (state_[i] == open) return false;
    state_[i] = open;
    auto const& flat = flat_[i];
    Definition const* changed = nullptr;
    for (auto const& change : changes)
      if (change.node == index) changed = change.definition;
    Term const* terms = changed ? changed->terms.data() : terms_.data() + flat.first;
    int const count = changed ? static_cast<int>(changed->terms.size()) : flat.count;
    for (int t = 0; t < count; ++t)
      if (!self(self, terms[t].node)) return false;
    if (changed)
      trial_[i] = value_of({changed->operation, 0, count, changed->factor.to_double(), changed->root}, terms, trial_);
    else if (count > 0)
      trial_[i] = value_of(flat, terms, trial_);
    state_[i] = done;
    return true;
  };
  if (!visit(visit, target)) return not_a_number;
  double const result = trial_[static_cast<std::size_t>(target)];
  return std::isfinite(result) ? result : not_a_number;
}

}  // namespace molewright
