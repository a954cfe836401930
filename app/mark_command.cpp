#include <algorithm>
#include <nlohmann/json.hpp>

#include "app/anonymous.h"
#include "app/answers_source.h"
#include "app/class_marking.h"
#include "app/commands.h"
#include "app/console.h"
#include "app/corrected_key.h"
#include "app/earlier_slips.h"
#include "app/files.h"
#include "app/judgement_json.h"
#include "app/marks_store.h"
#include "app/new_questions.h"
#include "app/problem_json.h"
#include "app/remarking.h"
#include "app/set_store.h"
#include "marker/item_analysis.h"
#include "templates/after_marking.h"
#include "templates/class_workbook.h"
#include "templates/from_results.h"
#include "templates/from_set.h"
#include "templates/volumes.h"

namespace molewright {
namespace {

/// An old set is marked as it was printed; how strictly is the teacher's to say again, and how the class writes its numbers.
void take_rules(Course& set, Course const& own) {
  set.rules = own.rules;
  set.conventions.mark = own.conventions.mark;
}

/// Whether anything of the class's work was found in the file: if nothing was, the marks of an earlier run must stay.
bool nothing_to_mark(AllHandedIn const& answers, std::vector<FiledFault> const& faults) {
  if (!answers.anything() && !answers.faults().empty()) return true;
  return std::any_of(faults.begin(), faults.end(),
                     [](FiledFault const& found) { return found.placed.fault.id == "another-class"; });
}

/// Figures that were not judged because a spreadsheet may have had a hand in them.
std::size_t with_lost_zeros(StudentResult const& student) {
  std::size_t count = 0;
  for (auto const& part : student.parts)
    count += static_cast<std::size_t>(std::count(part.notes.begin(), part.notes.end(), "zeros-may-be-lost"));
  return count;
}
void say_lost_zeros(Console& console, std::size_t count) {
  if (count > 0)
    console.warn("No number that stands alone ends in a zero: a spreadsheet may have dropped them. In " + std::to_string(count) +
                 (count == 1 ? " answer" : " answers") + " the figures were not judged.");
}

/// Answers to another set of the same class look like answers that are nearly all wrong.
void say_hardly_any_right(Console& console, ClassResults const& results) {
  constexpr int enough = 20, one_in = 6;  // common practice, no source
  int right = 0, answers = 0;
  for (auto const& part : results.parts) {
    right += part.right + part.follow_through;
    answers += part.right + part.follow_through + part.wrong;
  }
  if (answers >= enough && right * one_in < answers)
    console.warn("Only " + std::to_string(right) + " of " + std::to_string(answers) +
                 " answers are right. Are they answers to this set? The codes on the sheets tell one set from another.");
}

/// Parts that no file has room for: their columns may have been lost.
void say_missing_columns(Console& console, AllHandedIn const& handed_in, std::vector<std::string> const& columns) {
  std::string missing;
  for (auto const& column : columns)
    if (handed_in.questions().count(column) == 0) missing += (missing.empty() ? "" : ", ") + column;
  if (!missing.empty()) console.warn("No file has a column for " + missing + ". If the class did answer, it is missing.");
}

void say_count(Console& console, std::size_t faults) {
  if (faults > 0)
    console.warn(std::to_string(faults) + (faults == 1 ? " row or cell" : " rows or cells") + " could not be marked.");
}

/// Rows in the wrong place or not usable: whose they are is said with each fault.
void say_misplaced(Console& console, std::size_t count) {
  if (count > 0) console.warn(std::to_string(count) + " not marked: row out of place or not usable.");
}

/// Faults as the report lists them where no name may stand in it.
void hide_words(ClassReport& report, ClassResults const& results, std::vector<std::string> const& names) {
  report.faults.clear();
  for (auto const& [placed, file] : results.faults)
    report.faults.push_back(names[file] + ":" + std::to_string(placed.line) + ": " + placed.fault.id);
  for (auto* list : {&report.not_read, &report.ticked})
    for (auto& line : *list) line = line.substr(0, line.find(": \""));
}

/// The set of a file; nothing, and told, where it holds none.
std::optional<ProblemSet> set_to_mark_by(Console& console, std::string const& path) {
  auto set = read_set_file(console, path);
  if (set && set->papers.empty()) return std::nullopt;
  return set;
}

PageSize page_size(MarkOptions const& options) { return options.page == "Letter" ? PageSize::letter : PageSize::a4; }

/// What goes to disk, or to standard output, while a class is marked: a volume of students at a time, which is let go then.
class MarkWriter {
 public:
  MarkWriter(Console& console, MarkOptions const& options, ProblemSet const& set, QuestionsByCode const& questions,
             ClassMarking const& marking, Earlier const& earlier)
      : console_(console),
        options_(options),
        set_(set),
        questions_(questions),
        earlier_(earlier),
        new_questions_(set, questions),
        columns_(marking.columns()),
        volumes_(volumes_of(marking.students())),
        out_(options.out),
        feedback_{set.title, {}} {
    table_ = marks_table_head(columns_);
    if (!options.out.empty()) out_.add("marks.jsonl", marks_header(set.title));
  }

  void add(MarkedStudent marked) {
    table_ += marks_table_row(marked.result, columns_);
    if (!options_.out.empty()) give_feedback(marked.result);
    for (std::size_t i = 0; i < marked.result.parts.size(); ++i) {
      auto const& part = marked.result.parts[i];
      auto line = judgement_json(part);
      auto const& beside = marked.beside[i];
      if (!beside.working.empty()) line["working"] = beside.working;
      if (!beside.measured.empty()) line["measured"] = beside.measured;
      if (!beside.cell.empty()) line["cell"] = beside.cell;
      if (!beside.code.empty()) line["row_code"] = beside.code;
      if (auto const before = marked.result.misplaced ? std::nullopt : mark_before(part, earlier_))
        line["marks_before"] = *before;
      lines_ += json_line(line);
    }
    students_.push_back(std::move(marked.result));
    if (students_.size() == students_of_a_volume) end_volume();
  }

  /// What is left of the last volume, and the pages of the whole class. Fault of the workbook, or of the folder.
  std::optional<Fault> finish(ClassResults const& results, ClassReport const& report, ClassMarking& marking) {
    if (!students_.empty() || volume_ == 0) end_volume();
    if (options_.out.empty()) return std::nullopt;
    auto const size = page_size(options_);
    if (!anybody_corrects_) out_.add("corrections.txt", corrections_text({results.title, {}}));
    out_.add("report.txt", report_text(report));
    out_.add("report.pdf", report_pdf(report, size));
    auto const no_book = book::write_workbook(results.title, class_workbook(results),
                                              [&](std::string_view bytes) { out_.add("report.xlsx", bytes); });
    if (no_book) return no_book;
    auto const slips =
        slips_of_the_morning(results, set_, questions_, [&](std::size_t student) { return marking.student(student).result; });
    auto const morning = next_morning(results, set_, slips, new_questions_.starter(slips));
    out_.add("next-morning.txt", next_morning_text(morning));
    out_.add("next-morning.pdf", next_morning_pdf(morning, size));
    auto const written = out_.write();
    if (!ok(written)) return fault(written);
    return std::nullopt;
  }

 private:
  /// The student's page, and the code of each new question on it noted in the marks. None where the row stands in the wrong
  /// place.
  void give_feedback(StudentResult& student) {
    if (student.misplaced) return;
    auto const fresh = student.absent ? std::vector<OnSlip>{} : new_questions_.on_slips_of(student);
    feedback_.pages.push_back(feedback_page(student, set_, questions_, fresh));
    for (auto const& [slip, question] : fresh) {
      auto const part = std::find_if(student.parts.begin(), student.parts.end(), [&slip = slip](Judgement const& one) {
        return one.value == ValueVerdict::wrong && named_slip(one) == slip;
      });
      if (part != student.parts.end()) part->new_question = question.code;
    }
  }

  void end_volume() {
    ++volume_;
    if (console_.json && !lines_.empty()) console_.print(std::string_view(lines_).substr(0, lines_.size() - 1));
    if (!options_.out.empty()) {
      out_.add("marks.csv", table_);
      out_.add("marks.jsonl", lines_);
      out_.add(pdf_name("feedback"), feedback_pdf(feedback_, page_size(options_)));
      out_.add("feedback.txt", (volume_ > 1 ? between_pages : "") + feedback_text(feedback_));
      auto const corrections = corrections_document(students_, set_, questions_);
      out_.add(pdf_name("corrections"), corrections_pdf(corrections, page_size(options_)));
      if (!corrections.pages.empty()) {
        out_.add("corrections.txt", (anybody_corrects_ ? between_pages : "") + corrections_text(corrections));
        anybody_corrects_ = true;
      }
    }
    table_.clear();
    lines_.clear();
    students_.clear();
    feedback_.pages.clear();
  }
  std::string pdf_name(char const* document) const { return volume_name(document, ".pdf", volume_, volumes_); }

  static constexpr char const* between_pages = "\n\n";

  Console& console_;
  MarkOptions const& options_;
  ProblemSet const& set_;
  QuestionsByCode const& questions_;
  Earlier const& earlier_;
  NewQuestions new_questions_;
  std::vector<std::string> columns_;
  std::size_t volumes_, volume_ = 0;
  bool anybody_corrects_ = false;
  OutputFolder out_;
  FeedbackDocument feedback_;            ///< of this volume
  std::vector<StudentResult> students_;  ///< of this volume, and what their marks are written as
  std::string table_, lines_;
};

/// A late script may be marked by itself: what was marked before and stands in none of these files stays.
void keep_answers(Console& console, AnswersSource& source, std::string const& folder, ProblemSet const& set,
                  std::vector<std::string> const& names) {
  if (!source.handed_in.anything_of_the_class()) return;  // files of another class are told as such
  auto kept = answers_kept(folder, set, names, source.handed_in);
  if (kept.students == 0) return;
  source.add(marks_path(folder), std::move(kept.text));
  console.warn("The answers of " + std::to_string(kept.students) + (kept.students == 1 ? " student" : " students") +
               " that were marked before stand in none of these files: they are kept as they were.");
}

void say_changes(Console& console, Changes const& changes) {
  console.print(changes.lines().empty() ? "\nNo mark has changed since the last marking." : "\nChanged since the last marking:");
  for (auto const& line : changes.lines()) console.print("  " + line);
  if (changes.more() > 0) console.print("  and " + std::to_string(changes.more()) + " more: `marks_before` in marks.jsonl");
}
}  // namespace

void mark_command(Console& console, MarkOptions const& options) {
  auto found_set = set_to_mark_by(console, options.set_file);
  if (!found_set) return;
  auto& set = *found_set;
  if (console.own_course) take_rules(set.course, console.course);
  std::optional<PrintedKeys> printed;
  if (!options.key.empty()) {
    printed = correct_key(console, set, options.key);
    if (!printed) return;
  }
  auto const names = options.anonymous ? make_anonymous(set) : set.class_order;
  auto const slips = earlier_slips(console, options.earlier, names);
  AnswersSource source(console, options.answers, set, names);
  if (source.paths.empty()) return;
  auto const earlier = read_earlier(console, options.out, set.title);
  if (earlier.marked()) keep_answers(console, source, options.out, set, names);
  ClassMarking marking(set, source.handed_in,
                       {earlier.by_hand, options.anonymous ? anonymous_stranger : "", printed ? &*printed : nullptr, &slips});
  auto const tell_faults = [&] {
    for (auto const& found : marking.faults()) console.report(source.with_line(found), source.paths[found.file]);
  };
  if (nothing_to_mark(source.handed_in, marking.faults())) {
    tell_faults();
    return console.warn("Nothing was marked.");
  }

  QuestionsByCode const questions(set);
  MarkWriter writer(console, options, set, questions, marking, earlier);
  ClassSummary summary(set.title, marking.columns());
  bool const one_paper = set.papers.size() == 1;
  WrongAnswers wrong_answers;
  Changes changed(earlier);
  std::size_t lost_zeros = 0;
  for (std::size_t place = 0; place < marking.students(); ++place) {
    auto marked = marking.student(place);
    summary.add(marked.result);
    if (one_paper) wrong_answers.add(marked.result);
    changed.add(marked.result);
    lost_zeros += with_lost_zeros(marked.result);
    writer.add(std::move(marked));
  }
  auto results = summary.take();
  if (one_paper) analyse_items(results, wrong_answers);
  name_kinds(results, set.papers.front().questions);
  results.faults = marking.faults();

  auto report = class_report(results, source.names(), set.course.conventions);
  if (options.anonymous) hide_words(report, results, source.names());
  if (auto const found = writer.finish(results, report, marking)) return console.report(*found, options.out);
  if (!console.json) {
    console.print(report_text(report));
    if (earlier.marked()) say_changes(console, changed);
  }
  tell_faults();
  say_lost_zeros(console, lost_zeros);
  say_hardly_any_right(console, results);
  say_missing_columns(console, source.handed_in, marking.columns());
  say_count(console, results.faults.size());
  say_misplaced(console, static_cast<std::size_t>(report.misplaced));
}

}  // namespace molewright
