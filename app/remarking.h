#pragma once
// Marking again: marks that were given by hand are kept, and whose marks changed is said.
#include <cstddef>
#include <map>
#include <string>
#include <utility>
#include <vector>

#include "app/class_marking.h"
#include "app/console.h"
#include "app/marks_store.h"

namespace molewright {

/// What a folder holds of an earlier marking of the same set.
struct Earlier {
  std::vector<Judgement> judgements;                                  ///< empty where there was none
  std::map<std::pair<std::string, std::string>, std::size_t> places;  ///< of these, by student and column
  MarksByHand by_hand;                                                ///< given by hand then, or altered in marks.csv since
};
/// Marks of a set of another title are no earlier ones. A marks.csv that was altered so that a cell is no mark is reported.
Earlier read_earlier(Console& console, std::string const& folder, std::string const& title);

/// A line for each mark that is another now, and for each student who was not there before: "Bo Sedge, 2a: 1 before, 3 now".
std::vector<std::string> changes(ClassResults const& results, Earlier const& earlier);
/// The mark before, where it is another now.
std::optional<int> mark_before(Judgement const& judgement, Earlier const& earlier);

}  // namespace molewright
