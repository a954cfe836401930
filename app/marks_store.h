#pragma once
// marks.jsonl: a first line with the format and the set's title, then a judgement a line, student after student.
#include <string>
#include <string_view>
#include <vector>

#include "app/console.h"
#include "marker/judge.h"

namespace molewright {

inline constexpr char const* marks_format = "molewright-marks/1";

/// The first line.
std::string marks_header(std::string const& title);

struct StoredMarks {
  std::string title;  ///< empty where the file does not say
  std::vector<Judgement> judgements;
  std::vector<PlacedFault> faults;  ///< a line that cannot be read is left out and named; without the first line nothing is read
};
/// Fault ids: "not-marks" (another format or none), "newer-marks" (a version this program does not know), "bad-judgement".
StoredMarks read_marks(std::string_view text);

/// Where the marks of a results folder stand: PATH itself, or PATH/marks.jsonl where it is a folder.
std::string marks_path(std::string const& path);

}  // namespace molewright
