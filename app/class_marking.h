#pragma once
// Marks what a class handed in against its set, a student at a time: who sat which paper, what each wrote, and the rows that fit
// nobody.
#include <cstddef>
#include <functional>
#include <map>
#include <memory>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "app/corrected_key.h"
#include "generators/set.h"
#include "marker/handed_in.h"
#include "marker/results.h"
#include "marker/slip_record.h"

namespace molewright {

/// Marks of a part (a column such as "3a") given by hand, as text: a whole number from 0 to what the part is out of. Fault id:
/// "bad-mark".
Result<int> read_mark(std::string_view text, std::string const& column, int out_of);

/// Marks given by hand earlier, by student and column: they are kept.
using MarksByHand = std::map<std::pair<std::string, std::string>, int>;

/// A student's marked script with what was handed in beside the answers, as many as it has parts; empty for none.
struct MarkedStudent {
  struct Beside {
    std::string working, measured;  ///< lines of working; the student's own readings
    std::string cell;               ///< the whole cell, where not all of it stands in the judgement
    std::string code;               ///< that of the row, where it is of another question
  };
  StudentResult result;
  std::vector<Beside> beside;
};

/// What is known before a class is marked.
struct KnownBefore {
  MarksByHand const& by_hand;
  std::string strangers = {};                              ///< what whoever is not of the class is called, instead of their names
  PrintedKeys const* printed = nullptr;                    ///< the keys of the marking card, where the set's were corrected since
  std::vector<SlipRecord::Counts> const* slips = nullptr;  ///< of earlier sets, by place in the class
};

/// A class being marked: every student of the set in class order; whoever has no row is absent. Nothing of a student is kept but
/// which slips were named, which makes the same causes likelier with the others: so each script is marked once to count them, and
/// once more to be given out.
class ClassMarking {
 public:
  /// Marks the class for the first time: the faults and the counts of slips are known then. The places of `handed_in` are those
  /// of the set's class. REQUIRES: all outlive this, and so does what `known` refers to.
  ClassMarking(ProblemSet const& set, AllHandedIn& handed_in, KnownBefore known);
  ~ClassMarking();
  ClassMarking(ClassMarking const&) = delete;
  ClassMarking& operator=(ClassMarking const&) = delete;

  /// One student, by their place in the class.
  MarkedStudent student(std::size_t place);
  std::size_t students() const;
  /// The columns of all papers that somebody of the class sits ("1", "2a").
  std::vector<std::string> columns() const;
  /// In the order of the files. Fault ids beside the answers file's: "unknown-student" (with the nearest), "another-class" (no
  /// name fits at all), "another-set" (no question does), "bad-mark" (a mark given by hand that is no number from 0 to the part's
  /// marks), "looks-like-a-date", and those of what stands in the wrong place and of readings.
  std::vector<FiledFault> const& faults() const;

 private:
  class Inside;
  std::unique_ptr<Inside> inside_;
};

/// What stands in a table of marks in place of them, for whoever was not there and for a row that stands in the wrong place.
inline constexpr char const* absent_cell = "absent";
inline constexpr char const* not_marked_cell = "not marked";
/// The first line of a table of marks.
std::string marks_table_head(std::vector<std::string> const& columns);
/// A student's row: each part's marks, the total, and how many more there would be with the suggested marks accepted.
std::string marks_table_row(StudentResult const& student, std::vector<std::string> const& columns);

}  // namespace molewright
