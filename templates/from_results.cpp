#include "templates/from_results.h"

#include <algorithm>
#include <cmath>
#include <string>
#include <utility>

#include "generators/kinds.h"
#include "marker/slip.h"
#include "templates/from_set.h"

namespace molewright {
namespace {

namespace words {
constexpr char const* nobody = "Nobody had this right: look at the question first.";
constexpr char const* right = "✓";
constexpr char const* follow_through = "→";
constexpr char const* wrong = "×";
constexpr char const* blank = "–";
constexpr char const* unreadable = "?";
/// Signs and what they mean, in the order of the legend.
constexpr std::pair<char const*, char const*> legend[] = {
    {"✓", "✓ right"},
    {"u", "u the unit is missing or wrong"},
    {"f", "f too few or too many figures"},
    {"→", "→ right from an earlier wrong value"},
    {"s", "s1, s2 … the slip named below"},
    {"×", "× wrong, no cause named"},
    {"–", "– nothing written"},
    {"?", "? could not be read"},
    {"h", "h a mark given by hand"},
    {"*", "* marks suggested for a slip, to be accepted by you; the total with them stands in brackets"},
};
}  // namespace words

/// The cause that a judgement names with enough confidence, by the same rule as the class's count; empty for none.
std::string named_slip(Judgement const& judgement) {
  if (judgement.candidates.empty()) return {};
  Candidate const& first = judgement.candidates.front();
  if (first.slips.size() != 1 || first.probability < least_probability_to_count) return {};
  return first.slips.front().id;
}

/// One decimal place, a tie away from zero.
std::string one_place(double number, DecimalMark mark) {
  long const tenths = std::lround(number * 10);
  std::string text = std::to_string(tenths / 10);
  if (tenths % 10 != 0) text += (mark == DecimalMark::comma ? "," : ".") + std::to_string(std::abs(tenths % 10));
  return text;
}

/// Mean and spread of those present.
std::string summary_of(std::vector<int> marks, DecimalMark mark) {
  if (marks.empty()) return {};
  std::sort(marks.begin(), marks.end());
  double sum = 0, squares = 0;
  for (int const m : marks) sum += m;
  double const n = static_cast<double>(marks.size()), mean = sum / n;
  for (int const m : marks) squares += (m - mean) * (m - mean);
  double const median = (marks[(marks.size() - 1) / 2] + marks[marks.size() / 2]) / 2.0;
  std::string text = "Mean " + one_place(mean, mark) + ", median " + one_place(median, mark) + ", from " +
                     std::to_string(marks.front()) + " to " + std::to_string(marks.back());
  if (marks.size() > 1) text += ", standard deviation " + one_place(std::sqrt(squares / (n - 1)), mark);  // of a sample: n - 1
  return text + ".";
}

std::string sign_of(Judgement const& judgement, std::vector<SlipCount> const& slips) {
  std::string sign;
  switch (judgement.value) {
    case ValueVerdict::right:
      sign = words::right;
      break;
    case ValueVerdict::follow_through:
      sign = words::follow_through;
      break;
    case ValueVerdict::blank:
    case ValueVerdict::absent:
      sign = words::blank;
      break;
    case ValueVerdict::unreadable:
      sign = words::unreadable;
      break;
    case ValueVerdict::wrong: {
      std::string const id = named_slip(judgement);
      auto const at = std::find_if(slips.begin(), slips.end(), [&](SlipCount const& count) { return count.id == id; });
      sign = id.empty() || at == slips.end() ? std::string(words::wrong) : "s" + std::to_string(at - slips.begin() + 1);
      break;
    }
  }
  if (judgement.unit == UnitVerdict::missing || judgement.unit == UnitVerdict::wrong) sign += "u";
  if (judgement.figures == FiguresVerdict::too_few || judgement.figures == FiguresVerdict::too_many) sign += "f";
  if (judgement.by_hand) sign += "h";
  return sign;
}

/// Where a script was marked with a letter or a tick, what the student must have written.
std::string what_was_written(Judgement const& judgement, ProblemSet const& set) {
  std::string const& given = judgement.given;
  bool const has_digit = std::any_of(given.begin(), given.end(), [](char c) { return c >= '0' && c <= '9'; });
  bool const letter = given.size() == 1 && ((given[0] >= 'A' && given[0] <= 'Z') || (given[0] >= 'a' && given[0] <= 'z'));
  if (judgement.value == ValueVerdict::right && !has_digit &&
      (given == "right" || given == "✓" || given == "✔" || given == "ok")) {
    return pretty_answer(judgement.correct, set.course.conventions);
  }
  if (!letter) return given;
  char const upper = static_cast<char>(given[0] >= 'a' ? given[0] - 'a' + 'A' : given[0]);
  for (Paper const& paper : set.papers) {
    for (Question const& question : paper.questions) {
      if (question.code != judgement.code) continue;
      for (std::size_t find = 0; find < question.slip_key.size(); ++find) {
        if (part_name(question, find) != judgement.part) continue;
        for (SlipKeyEntry const& entry : question.slip_key[find]) {
          if (entry.letter == upper) return pretty_answer(entry.answer, set.course.conventions);
        }
      }
    }
  }
  return given;
}

}  // namespace

ClassReport class_report(ClassResults const& results, std::string_view answers_file, DecimalMark mark) {
  ClassReport report;
  report.title = results.title;
  for (PartSummary const& part : results.parts) {
    std::string const flag =
        part.right + part.follow_through == 0 && part.wrong + part.blank + part.unreadable > 0 ? words::nobody : "";
    report.columns.push_back(part.column);
    report.parts.push_back({part.column, kind_words(part.kind), part.right, part.follow_through, part.wrong, part.blank,
                            part.unreadable, part.facility, flag});
  }

  std::vector<int> marks;
  std::string seen;  // signs in use, for the legend
  for (StudentResult const& student : results.students) {
    ReportRow row{student.student, student.absent, std::vector<ReportCell>(report.columns.size()), std::to_string(student.marks)};
    (student.absent ? report.absent : report.present) += 1;
    report.out_of = std::max(report.out_of, student.out_of);
    if (!student.absent) {
      marks.push_back(student.marks);
      if (student.marks_if_accepted != student.marks) {
        row.total += " (" + std::to_string(student.marks_if_accepted) + ")";
        seen += "*";
      }
      for (Judgement const& judgement : student.parts) {
        auto const at =
            std::find(report.columns.begin(), report.columns.end(), judgement.question + judgement.part) - report.columns.begin();
        if (static_cast<std::size_t>(at) == report.columns.size()) continue;
        ReportCell const cell{std::to_string(judgement.marks) + (judgement.suggested ? "*" : ""),
                              sign_of(judgement, results.slips)};
        seen += cell.sign + cell.marks;
        row.cells[static_cast<std::size_t>(at)] = cell;
      }
    }
    report.rows.push_back(std::move(row));
  }
  report.summary = summary_of(std::move(marks), mark);
  for (auto const& [sign, text] : words::legend) {
    if (seen.find(sign) != std::string::npos) report.signs.emplace_back(text);
  }

  for (std::size_t i = 0; i < results.slips.size(); ++i) {
    SlipCount const& slip = results.slips[i];
    report.slips.push_back({"s" + std::to_string(i + 1), short_words(slip.id), slip.students});
  }
  for (PlacedFault const& fault : results.faults) {
    report.faults.push_back(std::string(answers_file) + ":" + std::to_string(fault.line) + ":" + std::to_string(fault.column) +
                            ": " + sentence(fault.fault));
  }
  return report;
}

FeedbackDocument feedback_document(ClassResults const& results, ProblemSet const& set) {
  FeedbackDocument document{results.title, {}};
  for (StudentResult const& student : results.students) {
    FeedbackPage page{student.student, student.absent, student.marks, student.out_of, {}};
    for (Judgement const& judgement : student.parts) {
      if (student.absent) break;
      FeedbackItem item{judgement.question + judgement.part,
                        what_was_written(judgement, set),
                        pretty_answer(judgement.correct, set.course.conventions),
                        judgement.marks,
                        judgement.out_of,
                        judgement.value == ValueVerdict::right && judgement.marks == judgement.out_of,
                        judgement.feedback,
                        {}};
      std::string const slip = named_slip(judgement);
      if (!slip.empty() && judgement.value == ValueVerdict::wrong) item.practise = std::string(words_of(slip).practise);
      page.items.push_back(std::move(item));
    }
    document.pages.push_back(std::move(page));
  }
  return document;
}

}  // namespace molewright
