#pragma once
// What each student slipped on in earlier sets.
#include <string>
#include <vector>

#include "app/console.h"
#include "marker/slip_record.h"

namespace molewright {

/// In how many questions of earlier sets each slip was named, by place in the class. `results`: marks.jsonl files, or the folders
/// with them; what cannot be read is reported. `names` of the class in its order; marks of others are passed over.
std::vector<SlipRecord::Counts> earlier_slips(Console& console, std::vector<std::string> const& results,
                                              std::vector<std::string> const& names);

}  // namespace molewright
