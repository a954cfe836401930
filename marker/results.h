#pragma once
// The results of a class: every judgement, and what they say together.
#include <string>
#include <utility>
#include <vector>

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

struct PartSummary {
  std::string column;    ///< "3" or "3a"
  std::string kind;
  int right = 0, wrong = 0, follow_through = 0, blank = 0, unreadable = 0;
  double facility = 0;   ///< mean share of the marks among those present
};

struct ClassResults {
  std::string title;
  std::vector<StudentResult> students;  ///< in class order
  std::vector<SlipCount> slips;         ///< most frequent first; only causes named with enough confidence to be spoken
  std::vector<PartSummary> parts;
  std::vector<PlacedFault> faults;      ///< rows that could not be marked
};
ClassResults summarise(std::string title, std::vector<StudentResult> students);

}  // namespace molewright
