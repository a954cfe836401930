#pragma once
// The class report: who did what, which slips were made by whom, which parts were hard, and what could not be marked.
#include <cstddef>
#include <string>
#include <vector>

#include "templates/charts.h"
#include "templates/pages.h"

namespace molewright {

struct ReportCell {
  std::string marks;  ///< "2"; with * where they are only suggested
  std::string sign;   ///< see `ClassReport::signs`
};
struct ReportRow {
  std::string student;
  bool no_marks = false;  ///< absent or not marked: `total` says which
  std::vector<ReportCell> cells;
  std::string total;
};
struct ReportSlip {
  std::string tag;  ///< "s1": stands in the grid
  std::string meaning;
  std::vector<std::string> students;
  std::size_t unnamed = 0;  ///< how many more made it, of a class too large to be named

  std::size_t count() const { return students.size() + unnamed; }
};
struct ReportPart {
  std::string column, kind;
  int right = 0, follow_through = 0, wrong = 0, blank = 0, unreadable = 0;
  double facility = 0;           ///< mean share of the marks, 0 to 1
  std::string flag;              ///< what the teacher should look at; empty for nothing
  std::string discrimination{};  ///< "0.41"; empty where it is not known
};
struct ClassReport {
  std::string title;
  int present = 0, absent = 0, misplaced = 0;
  int out_of = 0, least_out_of = 0;  ///< marks of the longest and of the shortest paper
  std::string summary;               ///< mean and spread, in words; empty where nobody was there
  std::vector<std::string> columns;  ///< "1", "2a"
  std::vector<ReportRow> rows;       ///< in class order; none where `names_elsewhere` says so
  std::vector<std::string> signs;    ///< what the signs in the grid mean, a line each
  std::vector<ReportSlip> slips;     ///< most frequent first
  std::vector<ReportPart> parts;
  int not_whole = 0;                       ///< of those present: whose answers are not all marked yet, and so out of the summary
  std::vector<std::string> not_read;       ///< answers that are still to be read by hand, a line each
  std::vector<std::string> ticked;         ///< answers with a tick beside them, likewise
  std::vector<std::string> faults;         ///< rows that could not be marked, a line each
  std::vector<paper::Bar> distribution{};  ///< how many students have how many marks: "7", or "5–9"
  std::string names_elsewhere{};           ///< of a class too large for a row a student: where the marks of each stand
  std::string about_discrimination{};      ///< what it is, or why it is not given; empty where nobody was there
};

std::string report_pdf(ClassReport const& report, PageSize size);
std::string report_text(ClassReport const& report);

}  // namespace molewright
