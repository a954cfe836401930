#include "engine/estimator.h"

#include <algorithm>
#include <cmath>
#include <limits>

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

/// The last change of a node counts; nullptr for none.
Definition const* changed_at(std::vector<Estimator::Change> const& changes, int node) {
  Definition const* changed = nullptr;
  for (auto const& change : changes)
    if (change.node == node) changed = change.definition;
  return changed;
}

bool reads_only_before(std::vector<Estimator::Change> const& changes) {
  return std::all_of(changes.begin(), changes.end(), [](Estimator::Change const& change) {
    auto const& terms = change.definition->terms;
    return std::all_of(terms.begin(), terms.end(), [&](Term const& term) { return term.node < change.node; });
  });
}

template <class Visit>
void each_up_to(int last, std::vector<std::uint64_t> const& nodes, Visit const& visit) {
  for (std::size_t w = 0; w < nodes.size(); ++w)
    for (std::uint64_t rest = nodes[w]; rest != 0; rest &= rest - 1) {
      auto const i = 64 * w + static_cast<std::size_t>(__builtin_ctzll(rest));
      if (static_cast<int>(i) > last) return;
      visit(i);
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
      auto const at = static_cast<std::size_t>(flat_[i].first) + static_cast<std::size_t>(t);
      auto const read = static_cast<std::size_t>(terms_[at].node);
      for (std::size_t w = 0; w < words_; ++w) resting_[read * words_ + w] |= resting_[i * words_ + w];
      resting_[read * words_ + i / 64] |= std::uint64_t{1} << (i % 64);
    }
}

Estimator Estimator::with_fixed(std::vector<Change> const& values) const {
  Estimator other = *this;
  for (auto const& value : values)
    other.flat_[static_cast<std::size_t>(value.node)] = {Operation::constant, 0, 0, value.definition->factor.to_double(), 1};
  mark_touched(values, other.touched_);
  each_up_to(static_cast<int>(flat_.size()), other.touched_, [&](std::size_t i) {
    other.base_[i] = value_of(other.flat_[i], other.terms_.data() + other.flat_[i].first, other.base_);
  });
  other.trial_ = other.base_;
  return other;
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

double Estimator::as_changed(Definition const& changed) const {
  return value_of({changed.operation, 0, static_cast<int>(changed.terms.size()), changed.factor.to_double(), changed.root},
                  changed.terms.data(), trial_);
}

double Estimator::finite_or_nan(double value) { return std::isfinite(value) ? value : not_a_number; }

double Estimator::worked(std::vector<Change> const& changes, int node) const {
  if (auto const* const changed = changed_at(changes, node)) return as_changed(*changed);
  auto const& flat = flat_[static_cast<std::size_t>(node)];
  return value_of(flat, terms_.data() + flat.first, trial_);
}

double Estimator::with(std::vector<Change> const& changes, int target) {
  targets_.assign(1, target);
  with(changes, targets_, values_);
  return values_.front();
}

void Estimator::with(std::vector<Change> const& changes, std::vector<int> const& targets, std::vector<double>& values) {
  values.clear();
  mark_touched(changes, touched_);
  bool const changed_at_all = std::any_of(targets.begin(), targets.end(), [&](int target) {
    auto const i = static_cast<std::size_t>(target);
    return (touched_[i / 64] >> (i % 64) & 1U) != 0;
  });
  if (!changed_at_all) {
    for (int const target : targets) values.push_back(finite_or_nan(base(target)));
    return;
  }
  if (!reads_only_before(changes)) {
    for (int const target : targets) values.push_back(on_demand(changes, target));
    return;
  }
  // What the changes touch is worked anew in one pass, up to the last target.
  int const last = targets.empty() ? -1 : *std::max_element(targets.begin(), targets.end());
  each_up_to(last, touched_, [&](std::size_t i) { trial_[i] = worked(changes, static_cast<int>(i)); });
  for (int const target : targets) values.push_back(finite_or_nan(trial_[static_cast<std::size_t>(target)]));
  each_up_to(last, touched_, [&](std::size_t i) { trial_[i] = base_[i]; });
}

/// A change may read a node that comes later: then nodes are worked when they are asked for. A loop leaves NaN.
double Estimator::on_demand(std::vector<Change> const& changes, int target) {
  constexpr char fresh = 0, open = 1, done = 2;
  state_.assign(flat_.size(), fresh);
  auto const visit = [&](auto const& self, int index) -> bool {
    auto const i = static_cast<std::size_t>(index);
    if (state_[i] == done) return true;
    if (state_[i] == open) return false;
    state_[i] = open;
    auto const& flat = flat_[i];
    auto const* const changed = changed_at(changes, index);
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
  double const result = visit(visit, target) ? trial_[static_cast<std::size_t>(target)] : not_a_number;
  trial_ = base_;
  return finite_or_nan(result);
}

}  // namespace molewright
