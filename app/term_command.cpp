#include <filesystem>
#include <nlohmann/json.hpp>

#include "app/commands.h"
#include "app/files.h"
#include "app/marks_store.h"
#include "app/question_templates.h"
#include "generators/slip_practice.h"
#include "templates/term.h"

namespace molewright {
namespace {

Json json_of(StudentTerm const& student, std::vector<TermSet> const& sets) {
  Json sat = Json::array();
  for (std::size_t i = 0; i < student.sets.size(); ++i) {
    auto const& one = student.sets[i];
    if (!one.had_paper) continue;
    Json set{{"title", sets[i].title}};
    if (one.absent)
      set["absent"] = true;
    else
      set["marks"] = one.marks;
    set["out_of"] = one.out_of;
    sat.push_back(std::move(set));
  }
  auto const slips = [](std::vector<StudentTerm::Slip> const& all) {
    Json out = Json::array();
    for (auto const& one : all) out.push_back({{"id", one.id}, {"times", one.times}});
    return out;
  };
  return {{"student", student.student},       {"sets", sat},
          {"kinds_sure", student.kinds_sure}, {"kinds_unsure", student.kinds_unsure},
          {"slips", slips(student.slips)},    {"mended", slips(student.mended)}};
}
}  // namespace

void term_command(Console& console, TermOptions const& options) {
  std::vector<TermSet> sets;
  for (auto const& given : options.results) {
    auto const path = marks_path(given);
    auto const text = read_file(path);
    if (!ok(text)) {
      console.report(fault(text), path);
      continue;
    }
    auto marks = read_marks(value(text));
    for (auto const& found : marks.faults) console.report(found, path);
    if (marks.judgements.empty()) continue;
    auto title = marks.title.empty() ? std::filesystem::path(given).filename().string() : std::move(marks.title);
    sets.push_back({std::move(title), std::move(marks.judgements)});
  }
  if (sets.empty()) return;
  QuestionMaker const maker(read_templates(question_templates()).templates, console.course);
  auto const students = term_of(sets, [&maker](std::string_view code) {
    auto const* from = template_of(maker, code);
    return from ? from->kind : std::string();
  });
  auto const pages = term_pages(students, sets);
  if (!options.out.empty()) {
    OutputFolder out(options.out);
    out.add("term.txt", term_text(pages));
    out.add("term.pdf", term_pdf(pages, options.page == "Letter" ? PageSize::letter : PageSize::a4));
    auto const written = out.write();
    if (!ok(written)) return console.report(fault(written), options.out);
  }
  if (console.json)
    for (auto const& student : students) console.print_json(json_of(student, sets));
  else if (options.out.empty())
    console.print(term_text(pages));
  else
    console.print("A page each for " + std::to_string(pages.size()) + (pages.size() == 1 ? " student" : " students") + ": " +
                  (std::filesystem::path(options.out) / "term.pdf").string());
}

}  // namespace molewright
