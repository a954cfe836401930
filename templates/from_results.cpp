#include "templates/from_results.h"

#include <algorithm>
#include <cmath>
#include <string>
#include <utility>

#include "generators/kinds.h"
#include "marker/diagnosis.h"
#include "marker/item_analysis.h"
#include "marker/own_reading.h"
#include "marker/slip.h"
#include "marker/words.h"
#include "marker/wrong_working.h"
#include "templates/asked.h"
#include "templates/from_set.h"
#include "templates/reading_table.h"
#include "templates/volumes.h"

namespace molewright {
namespace {

namespace words {
constexpr char const* in_shares = "Papers differ in length, so what follows is in % of the student’s own paper. ";
constexpr char const* nobody = "Nobody had this right: look at the question first.";
constexpr char const* turned = "Who did well elsewhere did worse here: look at the wording and the key.";
constexpr char const* shared = " wrote one wrong answer, which no slip explains: ";
constexpr char const* shared_end = ". Look at the key.";
constexpr char const* about_discrimination =
    "Discrimination: how the marks for a part go with those for the rest, from −1 to 1. Below 0.2 a part tells few apart "
    "(common practice).";
constexpr char const* too_few = "Discrimination is not given: it needs 20 students or more.";
constexpr char const* own_papers = "Discrimination is not given: it needs one paper for all.";
constexpr char const* names_elsewhere =
    "A class too large for a row a student: the marks of each stand in marks.csv and report.xlsx.";
constexpr char const* right = "✓";
constexpr char const* follow_through = "→";
constexpr char const* wrong = "×";
constexpr char const* blank = "–";
constexpr char const* unreadable = "?";
constexpr char const* absent = "absent";
constexpr char const* misplaced = "not marked";
constexpr char const* more_not_read = " more: `unreadable` in marks.jsonl";
constexpr char const* more_ticked = " more: `tick-beside-answer` in marks.jsonl";
constexpr char const* expected = "; the right answer is ";
/// Signs and what they mean, in the order of the legend.
constexpr std::pair<char const*, char const*> legend[] = {
    {"✓", "✓ right"},
    {"u", "u the unit is missing or wrong"},
    {"f", "f too few or too many figures"},
    {"→", "→ right from an earlier wrong value"},
    {"s", "s1, s2 … the slip named below"},
    {"×", "× wrong, no cause named"},
    {"–", "– nothing written"},
    {"?", "? could not be read; the total is out of what is marked until you give it marks by hand"},
    {"h", "h a mark given by hand"},
    {"*", "* marks suggested for a slip, to be accepted by you; the total with them stands in brackets"},
};
}  // namespace words

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

/// "−0.12".
std::string two_places(double number, DecimalMark mark) {
  long const hundredths = std::lround(std::abs(number) * 100);
  std::string const tail = std::to_string(hundredths % 100);
  return (number < 0 && hundredths > 0 ? "−" : "") + std::to_string(hundredths / 100) + (mark == DecimalMark::comma ? "," : ".") +
         (tail.size() < 2 ? "0" : "") + tail;
}

/// How many have how many marks, in steps of 1, 2, 5, 10 ... so that at most 21 bars stand beside each other.
std::vector<paper::Bar> distribution_of(std::vector<int> const& marks, int out_of) {
  constexpr int most_bars = 21;
  if (marks.empty()) return {};
  int const highest = std::max(out_of, *std::max_element(marks.begin(), marks.end()));
  int step = 1;
  for (int i = 0; highest / step + 1 > most_bars; ++i) step = i % 3 == 1 ? step / 2 * 5 : step * 2;
  std::vector<paper::Bar> bars;
  for (int from = 0; from <= highest; from += step) {
    int const to = std::min(from + step - 1, highest);
    bars.push_back({from == to ? std::to_string(from) : std::to_string(from) + "–" + std::to_string(to), 0});
  }
  for (int const one : marks) ++bars[static_cast<std::size_t>(std::max(one, 0) / step)].count;
  return bars;
}

/// What the teacher should look at in a part; empty for nothing.
std::string flag_of(PartSummary const& part) {
  std::string flag;
  auto const add = [&flag](std::string const& sentence) { flag += (flag.empty() ? "" : " ") + sentence; };
  if (part.right + part.follow_through == 0 && part.wrong + part.blank > 1) add(words::nobody);
  // Chance alone spreads a correlation about nought by 1/sqrt(n - 1); only what lies twice as far below says anything.
  int const answered = part.right + part.follow_through + part.wrong + part.blank + part.unreadable;
  if (part.discrimination && answered > 1 && *part.discrimination < -2 / std::sqrt(answered - 1.0)) add(words::turned);
  if (part.shared_wrong)
    add(std::to_string(part.shared_wrong->students) + words::shared + part.shared_wrong->given + words::shared_end);
  return flag;
}

std::string about_discrimination(ClassResults const& results, int present) {
  if (present == 0) return {};
  if (!results.one_paper) return words::own_papers;
  bool const known = std::any_of(results.parts.begin(), results.parts.end(),
                                 [](PartSummary const& part) { return part.discrimination.has_value(); });
  if (known) return words::about_discrimination;
  return present < least_students_for_discrimination ? words::too_few : "";
}

std::string sign_of(PartMarks const& part) {
  std::string sign;
  switch (part.value) {
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
    case ValueVerdict::wrong:
      sign = part.slip == PartMarks::no_slip ? std::string(words::wrong) : "s" + std::to_string(part.slip + 1);
      break;
  }
  if (part.unit == UnitVerdict::missing || part.unit == UnitVerdict::wrong) sign += "u";
  if (part.figures == FiguresVerdict::too_few || part.figures == FiguresVerdict::too_many) sign += "f";
  if (part.by_hand) sign += "h";
  return sign;
}

/// A student's row; the signs in it are noted for the legend.
ReportRow row_of(StudentMarks const& student, std::size_t columns, bool shares, std::string& seen) {
  ReportRow row{student.student, !student.counts(), std::vector<ReportCell>(columns), std::to_string(student.marks)};
  if (row.no_marks) {
    row.total = student.misplaced ? words::misplaced : words::absent;
    return row;
  }
  if (shares || student.to_read > 0) row.total += "/" + std::to_string(student.out_of);
  if (student.marks_if_accepted != student.marks) {
    row.total += " (" + std::to_string(student.marks_if_accepted) + ")";
    seen += "*";
  }
  if (student.to_read > 0) row.total += std::string(" ") + words::unreadable;
  for (PartMarks const& part : student.parts) {
    bool const to_read = part.to_read();  // which is no nought
    ReportCell const cell{to_read ? std::string() : std::to_string(part.marks) + (part.suggested ? "*" : ""), sign_of(part)};
    seen += cell.sign + cell.marks;
    row.cells[static_cast<std::size_t>(part.column)] = cell;
  }
  return row;
}

/// Puts the step that went wrong beside the right one: a line that the student handed in, else that of the slip which is named.
void put_steps_beside(FeedbackItem& item, Judgement const& judgement, Asked const& place, Conventions const& conventions) {
  auto const& question = *place.question;
  if (rests_on_reading(question, place.find)) return;  // every student's working is another
  auto const astray = std::find_if(judgement.lines.begin(), judgement.lines.end(),
                                   [](LineJudged const& line) { return line.verdict == LineVerdict::departs; });
  if (astray != judgement.lines.end()) {
    auto const right = right_step(question, place.find, astray->node, conventions);
    if (!right) return;
    item.right_line = right->text;
    item.own_line = astray->text;
    item.own_words = true;
    return;
  }
  auto const slip = named_slip(judgement);
  if (slip.empty() || judgement.candidates.front().probability < name_above) return;
  auto const& cause = judgement.candidates.front();
  auto const working = wrong_working(question, place.find, slip, cause.slips.front().node, cause.value, conventions);
  // What an earlier wrong answer led to stands on no line of the printed working.
  if (!working || std::abs(working->value - cause.value) > 1e-9 * std::abs(cause.value)) return;
  item.own_line = working->lines[working->wrong];
  item.right_line = working->instead;
  if (!item.right_line.empty()) return;
  auto const& right = question.worked.accepted.front();  // it stops short: what is missing is the way to the answer
  auto const last =
      right_step(question, place.find, right.nodes[static_cast<std::size_t>(right.finds[place.find].node)].id, conventions);
  if (last) item.right_line = last->text;
}

}  // namespace

std::string what_was_written(Judgement const& judgement, QuestionsByCode const& questions, Conventions const& conventions) {
  std::string const& given = judgement.given;
  bool const has_digit = std::any_of(given.begin(), given.end(), [](char c) { return c >= '0' && c <= '9'; });
  bool const letter = given.size() == 1 && ((given[0] >= 'A' && given[0] <= 'Z') || (given[0] >= 'a' && given[0] <= 'z'));
  if (judgement.value == ValueVerdict::right && !has_digit &&
      (given == "right" || given == "✓" || given == "✔" || given == "ok")) {
    return pretty_answer(judgement.correct, conventions);
  }
  if (!letter) return given;
  char const upper = static_cast<char>(given[0] >= 'a' ? given[0] - 'a' + 'A' : given[0]);
  for (auto const& [paper, question] : questions[judgement.code]) {
    for (std::size_t find = 0; find < question->slip_key.size(); ++find) {
      if (part_name(*question, find) != judgement.part) continue;
      for (SlipKeyEntry const& entry : question->slip_key[find]) {
        if (entry.letter == upper) return pretty_answer(entry.answer, conventions);
      }
    }
  }
  return given;
}

/// "Bo Sedge, 2: \"3.5.3 mg/L\"; the right answer is 35.3 mg/L (answers.csv:3:12)", a line each, and how many more there are.
std::vector<std::string> to_look_at(ClassResults const& results, std::vector<ToLookAt> const& list, std::size_t all,
                                    char const* more, std::vector<std::string> const& files, Conventions const& conventions) {
  std::vector<std::string> lines;
  bool const large = results.students.size() > students_of_a_volume;
  for (auto const& one : list) {
    if (large) break;
    auto line = results.students[one.student].student + ", " + results.parts[static_cast<std::size_t>(one.column)].column +
                ": \"" + one.given + "\"";
    if (!one.expected.empty()) line += words::expected + pretty_answer(one.expected, conventions);
    if (one.place.line > 0 && one.place.file < files.size())
      line += " (" + files[one.place.file] + ":" + std::to_string(one.place.line) + ":" + std::to_string(one.place.column) + ")";
    lines.push_back(std::move(line));
  }
  if (all > lines.size()) lines.push_back(std::to_string(all - lines.size()) + more);
  return lines;
}

ClassReport class_report(ClassResults const& results, std::vector<std::string> const& answers_files,
                         Conventions const& conventions) {
  auto const mark = conventions.mark;
  ClassReport report;
  report.title = results.title;
  for (PartSummary const& part : results.parts) {
    report.columns.push_back(part.column);
    report.parts.push_back({part.column, kind_words(part.kind), part.right, part.follow_through, part.wrong, part.blank,
                            part.unreadable, part.facility, flag_of(part),
                            part.discrimination ? two_places(*part.discrimination, mark) : ""});
  }

  for (StudentMarks const& student : results.students) {
    int const out_of = student.out_of + student.to_read;
    report.out_of = std::max(report.out_of, out_of);
    report.least_out_of = report.least_out_of == 0 ? out_of : std::min(report.least_out_of, out_of);
  }
  bool const large = results.students.size() > students_of_a_volume;
  if (large) report.names_elsewhere = words::names_elsewhere;
  bool const shares = report.least_out_of != report.out_of;  // papers of different length: only shares can be compared
  std::vector<int> marks;                                    // or per cent of the own paper
  std::string seen;                                          // signs in use, for the legend
  for (StudentMarks const& student : results.students) {
    (student.misplaced ? report.misplaced : student.absent ? report.absent : report.present) += 1;
    report.not_whole += student.counts() && !student.whole() ? 1 : 0;
    if (student.whole())
      marks.push_back(shares && student.out_of > 0 ? static_cast<int>(std::lround(100.0 * student.marks / student.out_of))
                                                   : student.marks);
    if (!large) report.rows.push_back(row_of(student, report.columns.size(), shares, seen));
  }
  report.distribution = distribution_of(marks, shares ? 100 : report.out_of);
  report.about_discrimination = about_discrimination(results, report.present);
  report.summary = summary_of(std::move(marks), mark);
  if (shares && !report.summary.empty()) report.summary = words::in_shares + report.summary;
  for (auto const& [sign, text] : words::legend) {
    if (seen.find(sign) != std::string::npos) report.signs.emplace_back(text);
  }

  for (std::size_t i = 0; i < results.slips.size(); ++i) {
    SlipCount const& slip = results.slips[i];
    report.slips.push_back({"s" + std::to_string(i + 1), short_words(slip.id), {}});
    if (large) report.slips.back().unnamed = slip.students.size();
    if (large) continue;
    for (auto const student : slip.students) report.slips.back().students.push_back(results.students[student].student);
  }
  auto const look_at = [&](std::vector<ToLookAt> const& list, std::size_t all, char const* more) {
    return to_look_at(results, list, all, more, answers_files, conventions);
  };
  report.not_read = look_at(results.not_read, results.all_not_read, words::more_not_read);
  report.ticked = look_at(results.ticked, results.all_ticked, words::more_ticked);
  for (auto const& [placed, file] : results.faults) {
    report.faults.push_back((file < answers_files.size() ? answers_files[file] : "") + ":" + std::to_string(placed.line) + ":" +
                            std::to_string(placed.column) + ": " + sentence(placed.fault));
  }
  return report;
}

FeedbackPage feedback_page(StudentResult const& student, ProblemSet const& set, QuestionsByCode const& questions,
                           std::vector<OnSlip> const& fresh) {
  FeedbackPage page{student.student, student.absent, student.marks, student.out_of, {}};
  page.to_read = student.to_read;
  if (student.absent) return page;
  for (Judgement const& judgement : student.parts) {
    FeedbackItem item{judgement.question + judgement.part,
                      what_was_written(judgement, questions, set.course.conventions),
                      pretty_answer(judgement.correct, set.course.conventions),
                      judgement.marks,
                      judgement.out_of,
                      judgement.value == ValueVerdict::right && judgement.marks == judgement.out_of,
                      judgement.feedback,
                      {}};
    item.to_read = to_read(judgement);
    std::string const slip = named_slip(judgement);
    if (!slip.empty() && judgement.value == ValueVerdict::wrong) item.practise = std::string(words_of(slip).practise);
    auto const on_it = std::find_if(fresh.begin(), fresh.end(), [&](OnSlip const& one) { return one.slip == slip; });
    if (!item.practise.empty() && on_it != fresh.end()) item.fresh = static_cast<int>(on_it - fresh.begin());
    if (auto const place = asked(questions, judgement)) {
      if (judgement.value == ValueVerdict::wrong) put_steps_beside(item, judgement, *place, set.course.conventions);
      item.marks_words = words_for_marks(judgement, place->question->worked.accepted.front());
    }
    page.items.push_back(std::move(item));
  }
  for (auto const& [slip, question] : fresh)
    page.fresh.push_back({std::string(words_of(slip).practise), question.code, with_told_tables(question.text),
                          answers_line(question, set.course.conventions)});
  return page;
}

}  // namespace molewright
