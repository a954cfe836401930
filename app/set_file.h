#pragma once
// SET.toml: what a teacher orders.
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "engine/fault.h"
#include "generators/set_maker.h"
#include "generators/variant.h"

namespace molewright {

struct SetFile {
  SetPlan plan;
  std::optional<std::string> class_file;   ///< as written; relative to the set file
  std::optional<std::string> course_file;  ///< likewise
  std::optional<std::string> seed;
  std::vector<std::string> avoid;       ///< earlier sets (set.jsonl) whose questions are not to come again; relative likewise
  std::optional<std::string> resit_of;  ///< the set.jsonl that this one stands in for; then no question needs to be named
  struct OwnProblem {
    std::size_t item = 0;  ///< index into plan.items that it fills
    std::string file;
    PlacedFault where;         ///< its place, for a fault about it
    std::optional<Vary> vary;  ///< variants of it, instead of the problem as it is
  };
  std::vector<OwnProblem> problems;
  std::vector<PlacedFault> places;  ///< of each of plan.items: its [[question]], for a fault about it
  std::vector<PlacedFault> faults;  ///< "toml-syntax", "unknown-key", "wrong-type", "unknown-value", "no-questions",
                                    ///< "no-versions", "one-of-kind-template-problem", "no-variants"
};
/// `needs_questions`: false where something else says what is asked, so that no [[question]] has to stand there.
SetFile read_set_file(std::string_view toml, bool needs_questions = true);

}  // namespace molewright
