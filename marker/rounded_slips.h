#pragma once
// A slip, and rounding on the way: whoever makes a slip and writes every number on the way to a few figures comes to another
// number than the slip alone leads to.
#include <array>
#include <cstddef>
#include <map>
#include <span>
#include <utility>
#include <vector>

#include "marker/diagnosis.h"

namespace molewright {

class Anatomy;

/// For each node, whether a student writes its value down on the way: what is worked out, no change of unit.
std::vector<char> written_down_on_the_way(Anatomy const& anatomy);

/// What the answer of a slip becomes where the numbers on the way are rounded.
struct RoundedAnswer {
  std::size_t of = 0;  ///< index of the answer
  double value = 0;    ///< in the asked unit
  double share = 0;    ///< of those who make the slip, how many round so
};

/// A question's slips with rounding on the way behind them; what a slip alone leads to is worked once. REQUIRES: all that it is
/// made of outlives it.
class RoundedSlips {
 public:
  /// `all`: the applications that answers point into; `estimator`: one of the printed working.
  RoundedSlips(Worked const& worked, Conventions const& conventions, std::vector<Application> const& all, Estimator& estimator);

  /// The answers of find `find` within a few per cent of the number `written`, as they come out where all that is written down on
  /// the way is rounded: to three or four figures, or to two or three decimal places. Left out: slips of rounding and generic
  /// ones, those of another working than the printed one, and what rounding does not move. `carried` (a student's earlier answers
  /// at their nodes) stand under the slips that are nothing without them.
  std::vector<RoundedAnswer> near(double written, std::span<SlipAnswer const> answers, std::size_t find,
                                  std::vector<Estimator::Change> const& carried = {});

 private:
  static constexpr std::size_t ways = 5;  ///< to round on the way
  using Values = std::array<double, ways>;
  Values values_of(std::vector<Estimator::Change> const& changes, int target);

  Working const& working_;
  std::vector<Application> const& all_;
  Estimator& estimator_;
  std::vector<char> written_down_;
  std::vector<char> seen_;
  std::vector<int> order_;
  std::map<std::pair<std::size_t, std::size_t>, Values> alone_;  ///< of an application at a find; looked up only
};

/// As without `rounded`; a cause of a number that some of them come to is their slip.
Diagnosis diagnose(WrittenNumber const& written, std::span<SlipAnswer const> answers, Due const& due, double table_band,
                   SlipRecord const* record, std::span<RoundedAnswer const> rounded);

/// True where the number is the slip's value with rounding on the way: this, not the probability, is what marks depend on.
bool fits(WrittenNumber const& written, RoundedAnswer const& rounded, Due const& due);

}  // namespace molewright
