#pragma once
// Whether the numbers of a draw could stand in a school laboratory: the salt dissolves, the glassware exists, the balance can
// weigh it.
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "engine/solver.h"

namespace molewright {

/// Plain formula without water of crystallisation and state; the text itself where it is no formula.
std::string anhydrous_plain(std::string const& substance);

/// Largest amount concentration in mol/L that students are given; nothing where the table is silent. `substance` is an anhydrous
/// plain formula.
std::optional<double> school_limit(std::string_view substance);
/// Amount concentration in mol/L of the strongest solution on sale, which only staff dilute; nothing where the table is silent.
std::optional<double> bought_concentration(std::string_view substance);

/// One thing that a draw's numbers must meet. Limits of one way of working are set up once and looked at for every draw.
struct Limit {
  enum class Kind { between, glassware, no_tie, apart } kind = Kind::between;
  std::string id;  ///< "solubility", "school-limit", "too-light-to-weigh", "measured-volume", "flask", "pipette", "answer-range",
                   ///< "rounding-tie", "both-limit", "require"
  std::string what;  ///< for people: "c(KNO3) is above half its solubility"
  int node = 0;
  int over = -1;                            ///< divisor node; -1 for none
  double factor = 1;                        ///< value looked at = node * factor (/ over)
  double least = 0, most = 0;               ///< between, ends included; apart: not between
  std::vector<int> const* sizes = nullptr;  ///< glassware: nominal volumes in mL
  std::size_t find = 0;                     ///< no_tie: which answer
  std::size_t line = 0;                     ///< of the template, where one asks for it
};

/// Ids of the limits that a template may waive: those of the laboratory, not those of a clear key. Variants of a problem whose
/// own numbers break one may break it, too.
std::vector<std::string> const& waivable_limits();

/// What does not depend on the numbers: every dissolved substance is soluble and every precipitate insoluble by the table. Empty
/// where all is well, else sentences.
std::vector<std::string> chemistry_faults(Worked const& worked);

/// The limits for one way of working. Rules, where no source is named in the tables, are common practice in schools:
/// a dissolved salt at most at half its solubility and at most at the school's limit, a bought stock that is diluted at most as
/// strong as it is sold; a mass to weigh at least a hundred times its last digit; a volume with two decimals in mL is from a
/// pipette or burette, 1 to 100 mL, unless a flask has that volume; the volume a dilution is made up to is a flask's; what is
/// pipetted (two decimals, taken for a dilution) is a pipette's volume; a volume written in litres may be a tank's, a gas
/// has room anywhere; a weighed
/// product at least 0.1 g (a mass in mg or µg is reckoned, not weighed); answers between 10^-4 and 10^5 in the asked unit (a
/// number of particles, a solubility product and a concentration beside one or beside a pH may be any) and off every rounding
/// tie. No two reactants run out together, within 1 %: else neither limits.
std::vector<Limit> limits_of(Worked const& worked);

/// The first limit that the numbers break, -1 for none. `value` gives a node's number in the node's unit.
template <class Value>
int first_broken(std::vector<Limit> const& limits, Working const& working, Value&& value);
template <class Value>
bool is_broken(Limit const& limit, Working const& working, Value&& value);
bool within(Limit const& limit, double looked_at);
/// How far a number lies from a tie when it is rounded as the answer is: 0 on the tie, 0.5 at most, in units of the last figure.
double distance_from_tie(double number, Answer const& answer);

template <class Value>
bool is_broken(Limit const& limit, Working const& working, Value&& value) {
  double looked_at = value(limit.node) * limit.factor;
  if (limit.over >= 0) looked_at /= value(limit.over);
  return limit.kind == Limit::Kind::no_tie ? distance_from_tie(looked_at, working.finds[limit.find]) <= 1e-4
                                           : !within(limit, looked_at);
}

template <class Value>
int first_broken(std::vector<Limit> const& limits, Working const& working, Value&& value) {
  for (std::size_t i = 0; i < limits.size(); ++i)
    if (is_broken(limits[i], working, value)) return static_cast<int>(i);
  return -1;
}

}  // namespace molewright
