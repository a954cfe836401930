#pragma once
// The results of a class: every judgement, and what they say together.
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "marker/handed_in.h"
#include "marker/judge.h"

namespace molewright {

struct StudentResult {
  std::string student;
  bool absent = false;  ///< every answer absent, or no row at all: out of the averages
  int marks = 0, marks_if_accepted = 0, out_of = 0;
  std::vector<Judgement> parts;  ///< in the order of the paper
};

struct SlipCount {
  std::string id;
  std::vector<std::string> students;  ///< in class order, each once
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
  std::vector<StudentResult> students;  ///< in class order
  std::vector<SlipCount> slips;         ///< most frequent first; only causes named with enough confidence to be spoken
  std::vector<PartSummary> parts;
  std::vector<FiledFault> faults;  ///< rows that could not be marked
  bool one_paper = false;          ///< all had the same
};

/// A cause is counted only from this probability on: below it the rivals together are likelier than the cause, so that a count
/// would be wrong more often than right.
inline constexpr double least_probability_to_count = 0.5;

/// What a student wrote at a column ("3", "3a"); nullptr where the paper has none.
Judgement const* part_of(StudentResult const& student, std::string const& column);

/// The one slip that a judgement names with confidence; empty for none.
std::string named_slip(Judgement const& judgement);

/// Everything that the judgements say together. `students` in class order, which the result keeps. A part's counts and facility
/// leave out who was absent, for the paper or for that part. A slip is counted once a student, where it alone is the likeliest
/// cause and at least `least_probability_to_count`; equal counts stand in the order in which the class first shows them. Parts
/// come in the order of the paper, also where students hold different questions. Faults are left for the caller.
ClassResults summarise(std::string title, std::vector<StudentResult> students);
/// Fills in the kind of every part from questions of the set; the first question with that column speaks.
void name_kinds(ClassResults& results, std::vector<Question> const& questions);

}  // namespace molewright
