#pragma once
// The results of a class: what is kept of every judgement, and what they say together. Students come one after the other and are
// let go: of a part some twenty bytes stay, however much was said about it.
#include <cstddef>
#include <cstdint>
#include <map>
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "marker/handed_in.h"
#include "marker/judge.h"

namespace molewright {

/// Where an answer stands in the files; line 0 for nowhere.
struct AnswerPlace {
  std::size_t file = 0, line = 0, column = 0;
};

/// An answer that could not be read and has no marks given by hand yet: it is no zero, and out of everything that is counted.
inline bool to_read(Judgement const& judgement) { return judgement.value == ValueVerdict::unreadable && !judgement.by_hand; }

/// One student's script, marked.
struct StudentResult {
  std::string student;
  bool absent = false;                               ///< every answer absent, or no row at all: out of the averages
  int marks = 0, marks_if_accepted = 0, out_of = 0;  ///< of what is marked
  std::vector<Judgement> parts;                      ///< in the order of the paper
  bool misplaced = false;  ///< the row stands in the wrong place: nothing of it is marked, and it is out of the averages
  int to_read = 0;         ///< what the answers are out of that are still to be read by hand
  std::vector<AnswerPlace> places{};  ///< where each part's answer stands; none where that is not known

  bool counts() const { return !absent && !misplaced; }
};

/// What is kept of a judgement. Marks are those of `Judgement`, which go up to 1000.
struct PartMarks {
  static constexpr std::int16_t no_slip = -1;
  std::int16_t column = 0;      ///< of ClassResults::parts
  std::int16_t slip = no_slip;  ///< the one named with confidence, of ClassResults::slips
  std::int16_t marks = 0, marks_if_accepted = 0, out_of = 0;
  ValueVerdict value = ValueVerdict::blank;
  UnitVerdict unit = UnitVerdict::not_judged;
  FiguresVerdict figures = FiguresVerdict::not_judged;
  bool suggested = false, by_hand = false;

  /// Nobody was there for this part, or it could not be read, and nobody gave it marks: out of the averages.
  bool missing() const { return (value == ValueVerdict::absent && !by_hand) || to_read(); }
  /// It could not be read, and has no marks given by hand yet.
  bool to_read() const { return value == ValueVerdict::unreadable && !by_hand; }
};

struct StudentMarks {
  std::string student;
  bool absent = false;
  int marks = 0, marks_if_accepted = 0, out_of = 0;
  std::vector<PartMarks> parts;  ///< in the order of the paper
  bool misplaced = false;
  int to_read = 0;

  bool counts() const { return !absent && !misplaced; }
  /// Whether the total is that of the whole paper, and so can be held against others'.
  bool whole() const { return counts() && to_read == 0; }
};

/// An answer that the teacher has to look at.
struct ToLookAt {
  std::uint32_t student = 0;  ///< of ClassResults::students
  std::int16_t column = 0;    ///< of ClassResults::parts
  std::string given, expected;
  AnswerPlace place;
};

struct SlipCount {
  std::string id;
  std::vector<std::uint32_t> students;  ///< of ClassResults::students, in class order, each once
};

/// A wrong answer that several students wrote.
struct SharedAnswer {
  std::string given;
  int students = 0;
};

struct PartSummary {
  std::string column;  ///< "3" or "3a"
  std::string kind;    ///< of the question ("dilution"), filled in by name_kinds
  int right = 0, wrong = 0, follow_through = 0, blank = 0, unreadable = 0;
  double facility = 0;  ///< mean share of the marks (marks/out_of) among those present, as they stand; 0 where nobody was
  std::optional<double> discrimination{};      ///< -1 to 1; filled in by analyse_items (item_analysis.h), as is the next
  std::optional<SharedAnswer> shared_wrong{};  ///< no slip explains it
};

struct ClassResults {
  std::string title;
  std::vector<StudentMarks> students;  ///< in class order
  std::vector<SlipCount> slips;        ///< most frequent first; only causes named with enough confidence to be spoken
  std::vector<PartSummary> parts;
  std::vector<FiledFault> faults;  ///< rows that could not be marked
  bool one_paper = false;          ///< all had the same
  std::vector<ToLookAt> not_read;  ///< still to be read: the first `most_to_look_at`, in class order
  std::size_t all_not_read = 0;    ///< how many there are
  std::vector<ToLookAt> ticked;    ///< with a tick beside the answer: as many, likewise
  std::size_t all_ticked = 0;
};
inline constexpr std::size_t most_to_look_at = 40;

/// A cause is counted only from this probability on: below it the rivals together are likelier than the cause, so that a count
/// would be wrong more often than right.
inline constexpr double least_probability_to_count = 0.5;

/// What a student has at a column (of ClassResults::parts); nullptr where the paper has none.
PartMarks const* part_of(StudentMarks const& student, std::size_t column);

/// Whether a judgement is one of a row that stands in the wrong place or could not be used ("shifted-columns", "other-paper",
/// "other-code", "row-not-used" in its notes) and has no marks given by hand.
bool out_of_place(Judgement const& judgement);

/// The one slip that a judgement names with confidence; empty for none.
std::string named_slip(Judgement const& judgement);

/// The columns of all papers in the order of the paper, also where students hold different questions: a column that is new stands
/// behind the one that it follows on its paper. Where papers have other parts to a question, these stand beside each other.
class ColumnOrder {
 public:
  void add(std::vector<std::string> const& columns_of_a_paper);
  std::vector<std::string> all() const;

 private:
  std::vector<std::string> columns_;
};

/// Everything that a class's judgements say together. A part's counts leave out who was absent, for the paper or for that
/// part, and whose row stands in the wrong place; its facility also what could not be read. A slip is counted once a student,
/// where it alone is the likeliest cause and at least `least_probability_to_count`; equal counts stand in the order in which the
/// class first shows them. Faults are left for the caller.
class ClassSummary {
 public:
  /// `columns` of all papers, in order (ColumnOrder).
  ClassSummary(std::string title, std::vector<std::string> const& columns);
  /// The next student, in class order. Columns that were not named are passed over.
  void add(StudentResult const& student);
  /// The results; nothing can be added afterwards.
  ClassResults take();

 private:
  std::int16_t slip_of(Judgement const& judgement);

  ClassResults results_;
  std::vector<double> shares_;  ///< of the marks, by column
  std::vector<int> present_;
  std::map<std::string, std::int16_t> slips_;
};

/// Fills in the kind of every part from questions of the set; the first question with that column speaks.
void name_kinds(ClassResults& results, std::vector<Question> const& questions);

}  // namespace molewright
