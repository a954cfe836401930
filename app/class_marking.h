#pragma once
// Marks what a class handed in against its set: who sat which paper, what each wrote, and the rows that fit nobody.
#include <map>
#include <string>
#include <string_view>
#include <utility>

#include "generators/set.h"
#include "marker/handed_in.h"
#include "marker/results.h"

namespace molewright {

/// Marks of a part (a column such as "3a") given by hand, as text: a whole number from 0 to what the part is out of. Fault id:
/// "bad-mark".
Result<int> read_mark(std::string_view text, std::string const& column, int out_of);

/// Marks given by hand earlier, by student and column: they are kept.
using MarksByHand = std::map<std::pair<std::string, std::string>, int>;

/// Every student of the set in class order; whoever has no row is absent. Fault ids beside the answers file's: "unknown-student"
/// (with the nearest), "another-class" (no name fits at all), "bad-mark" (a mark given by hand that is no number from 0 to the
/// part's marks), "looks-like-a-date".
ClassResults mark_class(ProblemSet const& set, AllHandedIn const& handed_in, MarksByHand const& by_hand = {});

/// A row a student: each part's marks, the total, and how many more there would be with the suggested marks accepted.
std::string marks_table(ClassResults const& results);

}  // namespace molewright
