#pragma once
// Two slips in one answer, composed from the single ones. A pair fits almost any number of three figures by chance, so pairs are
// asked only where four figures are written.
#include <cstdint>
#include <functional>
#include <span>
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

/// The pairs of one find's slips, to be asked about one number after another.
class PairSearch {
 public:
  /// `answers`: single slips of the find, made in `all`; of the generic ones only powers of ten are tried, and none of rounding.
  /// REQUIRES: `all`, `estimator` and `working` outlive it.
  PairSearch(std::span<SlipAnswer const> answers, std::vector<Application> const& all, Estimator& estimator,
             Working const& working, std::size_t find);
  /// The pairs that the number may come from, most likely first, at most five; empty where none is likely enough to speak of.
  /// `least_figures`: fewer explain nothing. They point into this search.
  std::vector<PairAnswer> behind(WrittenNumber const& written, Due const& due, double table_band, int least_figures,
                                 AgreesWithLines const& agrees = {});

 private:
  using Nodes = std::vector<std::uint64_t>;  ///< a bit each
  struct Single {
    SlipAnswer answer;
    double times;          ///< what the right answer is multiplied by
    Nodes touched;         ///< as the estimator has it
    Nodes otherwise_read;  ///< by a changed node: with another exponent than before
    bool elsewhere;        ///< the answer is read from another node
  };
  struct Pair {
    double size;   ///< of its answer, without sign
    double value;  ///< with it; NaN where it is yet to be worked
    std::uint32_t first, second;
  };
  bool are_factors(Single const& a, Single const& b) const;
  bool together(Single const& a, Single const& b);
  void work_all();
  void add_near(Sizes const& where, std::vector<Pair>& near);

  std::vector<Application> const& all_;
  Estimator& estimator_;
  Working const& working_;
  std::size_t find_;
  std::vector<Single> singles_;
  Nodes not_a_product_;
  int asked_ = 0;
  std::vector<Pair> worked_;  ///< every pair, smallest first, once several numbers were asked about
  std::vector<Estimator::Change> changes_;
  int target_ = 0;
};

}  // namespace molewright
