#include <filesystem>
#include <nlohmann/json.hpp>

#include "app/class_marking.h"
#include "app/commands.h"
#include "app/files.h"
#include "app/judgement_json.h"
#include "app/set_store.h"
#include "templates/from_results.h"
#include "templates/from_set.h"

namespace molewright {

void mark_command(Console& console, MarkOptions const& options) {
  auto const stored = read_file(options.set_file);
  if (!ok(stored)) return console.report(fault(stored), options.set_file);
  auto const set = read_set(value(stored));
  for (auto const& found : set.faults) console.report(found, options.set_file);
  if (set.set.papers.empty()) return;
  auto const handed_in = read_file(options.answers_file);
  if (!ok(handed_in)) return console.report(fault(handed_in), options.answers_file);
  auto const answers = read_answers(value(handed_in), answer_columns(set.set));
  auto const results = mark_class(set.set, answers);

  auto const size = options.page == "Letter" ? PageSize::letter : PageSize::a4;
  auto const file_name = std::filesystem::path(options.answers_file).filename().string();
  auto const report = class_report(results, file_name, set.set.course.conventions.mark);
  auto const feedback = feedback_document(results, set.set);
  std::string lines;
  for (auto const& student : results.students)
    for (auto const& part : student.parts)
      lines += judgement_json(part).dump(-1, ' ', false, Json::error_handler_t::replace) + '\n';

  if (!options.out.empty()) {
    OutputFolder out(options.out);
    out.add("marks.csv", marks_table(results));
    out.add("marks.jsonl", "{\"format\": \"molewright-marks/1\"}\n" + lines);
    out.add("report.txt", report_text(report));
    out.add("report.pdf", report_pdf(report, size));
    out.add("feedback.txt", feedback_text(feedback));
    out.add("feedback.pdf", feedback_pdf(feedback, size));
    auto const written = out.write();
    if (!ok(written)) return console.report(fault(written), options.out);
  }
  if (console.json)
    console.print(std::string_view(lines).substr(0, lines.empty() ? 0 : lines.size() - 1));
  else
    console.print(report_text(report));
  for (auto const& found : results.faults) console.report(found, options.answers_file);
  if (!results.faults.empty())
    console.warn(std::to_string(results.faults.size()) + (results.faults.size() == 1 ? " row or cell" : " rows or cells") +
                 " could not be marked.");
}

}  // namespace molewright
