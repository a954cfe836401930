#pragma once
// marks.jsonl: a first line with the format and the set's title, then a judgement a line, student after student.
#include <cstddef>
#include <functional>
#include <istream>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "app/console.h"
#include "marker/judge.h"

namespace molewright {

inline constexpr char const* marks_format = "molewright-marks/1";

/// The first line.
std::string marks_header(std::string const& title);

/// Reads marks line by line. A line that cannot be read is left out and named; without the first line nothing is read. Fault ids:
/// "not-marks" (another format or none), "newer-marks" (a version this program does not know), "bad-judgement".
class MarksReader {
 public:
  /// The judgement that the next line holds, if any.
  std::optional<Judgement> take(std::string_view line);
  std::string const& title() const { return title_; }  ///< empty where the file does not say
  std::vector<PlacedFault> const& faults() const { return faults_; }
  bool refused() const { return refused_; }  ///< these are no marks

 private:
  void refuse(char const* id, std::string what, std::string expected);

  std::size_t line_ = 0;
  std::string title_;
  std::vector<PlacedFault> faults_;
  bool refused_ = false;
};

/// Takes every line of a file of marks; `take` has each judgement and the reader as it stands then.
void each_judgement(std::istream& in, MarksReader& reader, std::function<void(Judgement const&)> const& take);

struct StoredMarks {
  std::string title;
  std::vector<Judgement> judgements;
  std::vector<PlacedFault> faults;
};
/// All of them at once.
StoredMarks read_marks(std::string_view text);

/// Where the marks of a results folder stand: PATH itself, or PATH/marks.jsonl where it is a folder.
std::string marks_path(std::string const& path);

}  // namespace molewright
