#pragma once
// Marking again: marks that were given by hand are kept, and whose marks changed is said.
#include <cstddef>
#include <cstdint>
#include <optional>
#include <string>
#include <unordered_map>
#include <vector>

#include "app/class_marking.h"
#include "app/console.h"

namespace molewright {

/// What a folder holds of an earlier marking of the same set: of each part its marks, and no more.
class Earlier {
 public:
  struct Part {
    std::uint16_t column;
    std::int16_t marks, out_of;
    bool to_read;  ///< it had no marks yet
  };
  void add(Judgement const& judgement);
  bool marked() const { return !students_.empty(); }
  /// The marks of a student's part then; nullptr for none.
  Part const* part(std::string const& student, std::string const& column) const;
  /// Whether a student was there for anything.
  bool was_there(std::string const& student) const;

  MarksByHand by_hand;  ///< given by hand then, or altered in marks.csv since

 private:
  struct Student {
    bool was_there = false;
    std::vector<Part> parts;
  };
  std::vector<std::string> columns_;
  std::unordered_map<std::string, Student> students_;  ///< looked up only
};
/// Marks of a set of another title are no earlier ones. A marks.csv that was altered so that a cell is no mark is reported.
Earlier read_earlier(Console& console, std::string const& folder, std::string const& title);

/// Answers of an earlier marking that no file holds now: a column that a student's rows do not have, or all of a student who
/// wrote nothing in them. Not those of a set with other questions.
struct Kept {
  std::string text;          ///< an answers file, line for line as the marks.jsonl that it comes from
  std::size_t students = 0;  ///< of how many
};
/// `names`: the class, as the files name it.
Kept answers_kept(std::string const& folder, ProblemSet const& set, std::vector<std::string> const& names,
                  AllHandedIn& handed_in);

/// The mark before, where it is another now.
std::optional<int> mark_before(Judgement const& judgement, Earlier const& earlier);

/// What has changed since an earlier marking, a line for each mark that is another now, and for each student who was not there
/// before: "Bo Sedge, 2a: 1 before, 3 now". REQUIRES: the earlier marking outlives it.
class Changes {
 public:
  explicit Changes(Earlier const& earlier) : earlier_(earlier) {}
  /// The next student, in class order.
  void add(StudentResult const& student);
  std::vector<std::string> const& lines() const { return lines_; }
  std::size_t more() const { return more_; }  ///< beyond the first ten thousand lines

 private:
  void say(std::string line);

  Earlier const& earlier_;
  std::vector<std::string> lines_;
  std::size_t more_ = 0;
};

}  // namespace molewright
