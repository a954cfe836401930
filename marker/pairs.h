#pragma once
// Two slips in one answer, composed from the single ones. A pair fits almost any number of three figures by chance, so pairs are
// asked only where four figures are written.
#include <functional>
#include <vector>

#include "marker/diagnosis.h"

namespace molewright {

/// Two slips made together, with the answer they lead to.
struct PairAnswer {
  SlipAnswer const* first = nullptr;
  SlipAnswer const* second = nullptr;
  double value = 0;        ///< in the asked unit
  double probability = 0;  ///< share, "none of these" and the single slips among the rivals
};

/// Figures that must be written before pairs are asked where no line of working is given.
inline constexpr int figures_for_pairs = 4;

/// Whether changes made together agree with what else is known, such as a line of working; nothing: all do.
using AgreesWithLines = std::function<bool(std::vector<Estimator::Change> const&)>;

/// The pairs that the number may come from, most likely first, at most five; empty where none is likely enough to speak of.
/// `answers`: single slips of the find, made in `all`; of the generic ones only powers of ten are tried, and none of
/// rounding. `least_figures`: fewer explain nothing.
std::vector<PairAnswer> pairs_behind(WrittenNumber const& written, std::vector<SlipAnswer> const& answers,
                                     std::vector<Application> const& all, Estimator& estimator, Working const& working,
                                     std::size_t find, Due const& due, double table_band, int least_figures,
                                     AgreesWithLines const& agrees = {});

}  // namespace molewright
