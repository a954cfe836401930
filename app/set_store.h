#pragma once
// set.jsonl: a first line about the set, then a question a line in printed order. It is all that marking needs.
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "app/console.h"
#include "generators/set.h"

namespace molewright {

inline constexpr char const* set_format = "molewright-set/1";

/// The whole file, lines ended by \n.
std::string set_lines(ProblemSet const& set);
/// Its first line, and those of its questions: for a set that is written some papers at a time.
std::string set_header(ProblemSet const& set);
std::string question_lines(ProblemSet const& set);
/// The line of one question, without its end.
std::string question_line(Question const& question, Ties ties);

struct StoredSet {
  ProblemSet set;
  std::vector<PlacedFault> faults;  ///< a line that cannot be read is left out and named; without the first line nothing is read
};
/// Fault ids: "not-a-set" (another format or none), "newer-set" (a version this program does not know), "bad-question"
/// (also where a working does not add up, as after a change by hand), "mistyped-code".
StoredSet read_set(std::string_view text);
/// The set of a file, its faults reported; nothing where the file cannot be read, which is reported, too.
std::optional<ProblemSet> read_set_file(Console& console, std::string const& path);

}  // namespace molewright
