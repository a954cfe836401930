#include <algorithm>
#include <map>
#include <nlohmann/json.hpp>

#include "app/anonymous.h"
#include "app/answers_source.h"
#include "app/class_marking.h"
#include "app/commands.h"
#include "app/console.h"
#include "app/files.h"
#include "app/judgement_json.h"
#include "app/marks_store.h"
#include "app/problem_json.h"
#include "app/question_templates.h"
#include "app/remarking.h"
#include "app/set_store.h"
#include "generators/slip_practice.h"
#include "templates/after_marking.h"
#include "templates/class_workbook.h"
#include "templates/from_results.h"
#include "templates/from_set.h"

namespace molewright {
namespace {

/// An old set is marked as it was printed; how strictly is the teacher's to say again, and how the class writes its numbers.
void take_rules(Course& set, Course const& own) {
  set.rules = own.rules;
  set.conventions.mark = own.conventions.mark;
}

/// Whether anything of the class's work was found in the file: if nothing was, the marks of an earlier run must stay.
bool nothing_to_mark(AllHandedIn const& answers, ClassResults const& results) {
  if (answers.answers.empty() && !answers.faults.empty()) return true;
  return std::any_of(results.faults.begin(), results.faults.end(),
                     [](FiledFault const& found) { return found.placed.fault.id == "another-class"; });
}

using RowOf = std::map<std::pair<std::string, std::string>, HandedIn const*>;

/// With the lines of working that were handed in beside the answer.
Json with_working(Json judged, RowOf const& rows, Judgement const& part) {
  auto const row = rows.find({part.student, part.question + part.part});
  if (row != rows.end() && !row->second->working.empty()) judged["working"] = row->second->working;
  return judged;
}

/// Figures that were not judged because a spreadsheet may have had a hand in them.
void say_lost_zeros(Console& console, ClassResults const& results) {
  std::size_t count = 0;
  for (auto const& student : results.students)
    for (auto const& part : student.parts)
      count += static_cast<std::size_t>(std::count(part.notes.begin(), part.notes.end(), "zeros-may-be-lost"));
  if (count > 0)
    console.warn("No number that stands alone ends in a zero: a spreadsheet may have dropped them. In " + std::to_string(count) +
                 (count == 1 ? " answer" : " answers") + " the figures were not judged.");
}

/// Fresh questions on the commonest slips, for the next morning.
std::vector<Question> starter_of(ClassResults const& results, ProblemSet const& set) {
  std::vector<Question> out;
  auto const slips = slips_to_start_with(results, set);
  if (slips.empty()) return out;
  QuestionMaker maker(read_templates(question_templates()).templates, set.course);
  SlipPractice practice(maker);
  constexpr std::size_t most_templates = 4;
  for (auto const& [slip, from] : slips)
    for (std::size_t nth = 0; nth < most_templates; ++nth) {  // of a template that no other starter question has
      auto question = practice.question({slip, from}, nth, hash_of(set.seed, hash_of(slip)));
      if (!question) break;
      bool const there = std::any_of(out.begin(), out.end(),
                                     [&](Question const& other) { return other.template_name == question->template_name; });
      if (there) continue;
      out.push_back(std::move(*question));
      break;
    }
  return out;
}

void say_count(Console& console, std::size_t faults) {
  if (faults > 0)
    console.warn(std::to_string(faults) + (faults == 1 ? " row or cell" : " rows or cells") + " could not be marked.");
}

/// Faults as the report lists them where no name may stand in it.
void hide_words(ClassReport& report, ClassResults const& results, std::vector<std::string> const& names) {
  report.faults.clear();
  for (auto const& [placed, file] : results.faults)
    report.faults.push_back(names[file] + ":" + std::to_string(placed.line) + ": " + placed.fault.id);
}

std::string lines_of(ClassResults const& results, AllHandedIn const& handed_in, Earlier const& earlier) {
  std::string lines;
  RowOf rows;
  for (auto const& row : handed_in.answers) rows.emplace(std::pair{row.student, row.question}, &row);
  for (auto const& student : results.students)
    for (auto const& part : student.parts) {
      auto line = with_working(judgement_json(part), rows, part);
      if (auto const before = mark_before(part, earlier)) line["marks_before"] = *before;
      lines += json_line(line);
    }
  return lines;
}

/// Everything of a class's results, for the folder. Fault of the workbook, or of the folder.
std::optional<Fault> write_all(ClassResults const& results, ProblemSet const& set, ClassReport const& report,
                               std::string const& lines, MarkOptions const& options) {
  auto const size = options.page == "Letter" ? PageSize::letter : PageSize::a4;
  OutputFolder out(options.out);
  out.add("marks.csv", marks_table(results));
  out.add("marks.jsonl", marks_header(results.title));
  out.add("marks.jsonl", lines);
  out.add("report.txt", report_text(report));
  out.add("report.pdf", report_pdf(report, size));
  // Of a large class each of these is as large as all its marks: one goes before the next is laid out.
  {
    auto const book = book::workbook(results.title, class_workbook(results));
    if (!ok(book)) return fault(book);
    out.add("report.xlsx", value(book));
  }
  {
    auto const feedback = feedback_document(results, set);
    out.add("feedback.txt", feedback_text(feedback));
    out.add("feedback.pdf", feedback_pdf(feedback, size));
  }
  {
    auto const corrections = corrections_document(results, set);
    out.add("corrections.txt", corrections_text(corrections));
    out.add("corrections.pdf", corrections_pdf(corrections, size));
  }
  auto const morning = next_morning(results, set, starter_of(results, set));
  out.add("next-morning.txt", next_morning_text(morning));
  out.add("next-morning.pdf", next_morning_pdf(morning, size));
  auto const written = out.write();
  if (!ok(written)) return fault(written);
  return std::nullopt;
}

void say_changes(Console& console, ClassResults const& results, Earlier const& earlier) {
  if (earlier.judgements.empty()) return;
  auto const lines = changes(results, earlier);
  console.print(lines.empty() ? "\nNo mark has changed since the last marking." : "\nChanged since the last marking:");
  for (auto const& line : lines) console.print("  " + line);
}
}  // namespace

void mark_command(Console& console, MarkOptions const& options) {
  auto const stored = read_file(options.set_file);
  if (!ok(stored)) return console.report(fault(stored), options.set_file);
  auto set = read_set(value(stored));
  for (auto const& found : set.faults) console.report(found, options.set_file);
  if (set.set.papers.empty()) return;
  if (console.own_course) take_rules(set.set.course, console.course);
  auto source = read_answers_source(console, options.answers, set.set);
  if (source.paths.empty()) return;
  if (options.anonymous) make_anonymous(set.set, source.handed_in);
  auto const earlier = read_earlier(console, options.out, set.set.title);
  auto const results = mark_class(set.set, source.handed_in, earlier.by_hand);
  auto const tell_faults = [&] {
    for (auto const& found : results.faults) console.report(source.with_line(found), source.paths[found.file]);
  };
  if (nothing_to_mark(source.handed_in, results)) {
    tell_faults();
    return console.warn("Nothing was marked.");
  }

  auto report = class_report(results, source.names(), set.set.course.conventions.mark);
  if (options.anonymous) hide_words(report, results, source.names());
  auto const lines = lines_of(results, source.handed_in, earlier);
  if (!options.out.empty())
    if (auto const found = write_all(results, set.set, report, lines, options)) return console.report(*found, options.out);
  if (!console.json) {
    console.print(report_text(report));
    say_changes(console, results, earlier);
  } else if (!lines.empty()) {
    console.print(std::string_view(lines).substr(0, lines.size() - 1));
  }
  tell_faults();
  say_lost_zeros(console, results);
  say_count(console, results.faults.size());
}

}  // namespace molewright
