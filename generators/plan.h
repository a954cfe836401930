#pragma once
// One way of working of a template: the substances are settled, only the numbers are still to be drawn. Solved once, used for
// every draw.
#include <cstdint>
#include <map>
#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "engine/wording.h"
#include "generators/realism.h"
#include "generators/separation.h"
#include "generators/template.h"
#include "marker/rules.h"

namespace molewright {

/// What was drawn: an index for each let, and which wording.
struct Drawn {
  std::vector<std::uint32_t> picks;
  std::uint32_t wording = 0;
};
/// The draw number `draw` of a seed, straight away. It depends on nothing else: same machine or another, same draw.
Drawn draw(Template const& from, std::uint32_t seed, std::uint32_t draw);
/// What stands for each name.
Binding binding_of(Template const& from, Drawn const& drawn);

/// Whether a fault of solving would be mended by other numbers: the same substances may still make a plan.
bool depends_on_numbers(Fault const& fault);

class Plan {
 public:
  /// Solves the template for the substances of `drawn`. Faults: the engine's, "chemistry" (a salt that does not dissolve, a solid
  /// that does), "require" (about a quantity that the working lacks).
  static std::variant<std::unique_ptr<Plan>, PlacedFault> make(Template const& from, Drawn const& drawn, Course const& course);

  /// Puts the numbers of a draw in, which must have the same substances.
  void put(Drawn const& drawn);
  /// The first limit or requirement that the numbers break; nullptr where they are fit.
  Limit const* broken() const;
  /// All of them: one that is looked at early is not to hide another.
  std::vector<Limit const*> all_broken() const;
  /// Slips that the numbers leave alike; call after put(), and only for numbers that break nothing.
  Separation::Alike alike(bool with_names);
  /// Slips that the substances leave alike, whatever is drawn; call after alike().
  std::vector<std::string> const& alike_by_substance() { return separation().by_substance(); }
  /// Slips of the numbers that were looked at last.
  SlipTable const& slips() const { return slips_; }
  /// Works the numbers exactly, conservation check included.
  WorkedResult worked(Drawn const& drawn) const;
  /// The wording of what worked() made of the draw. Faults: those of wording().
  Result<std::string> text(Worked const& worked, Drawn const& drawn);
  Worked const& solved() const { return worked_; }
  /// The problem with this draw's numbers.
  Problem const& numbers() const { return numbers_; }

 private:
  Plan(Template const& from, Course const& course, Worked worked) : from_(from), course_(course), worked_(std::move(worked)) {}
  std::optional<PlacedFault> prepare(std::vector<int> const& line_of_given);
  /// What the limiting reagents of the numbers are: slips that agree in one branch part in another.
  int branch() const;
  Separation const& separation();
  Separation learn(int branch);

  /// Where the numbers of a given come from: index of a let, -1 for a number that stands in the template.
  struct Source {
    std::size_t given = 0;
    std::vector<int> lets;
  };
  Template const& from_;
  Course const& course_;
  Worked worked_;  ///< its first working holds the numbers of the draw
  Problem numbers_;
  std::vector<int> line_of_given_;  ///< index into the template's lines
  std::vector<Source> sources_;
  std::vector<std::optional<int>> asked_figures_;
  std::vector<Limit> limits_;
  std::map<int, Separation> separations_;  ///< by branch
  std::map<std::uint32_t, Wording> wordings_;
  Drawn last_;
  SlipTable slips_;
};

}  // namespace molewright
