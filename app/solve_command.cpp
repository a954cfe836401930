#include <nlohmann/json.hpp>

#include "app/commands.h"
#include "app/files.h"
#include "app/problem_json.h"
#include "engine/problem.h"
#include "engine/solver.h"
#include "engine/statement.h"
#include "engine/steps.h"
#include "engine/steps_answer.h"

namespace molewright {
namespace {

void print_worked(Console& console, Worked const& worked) {
  auto const& conventions = console.course.conventions;
  auto const& working = worked.accepted.front();
  console.print(worked.problem.title.empty() ? worked.problem.id : worked.problem.id + ": " + worked.problem.title);
  for (auto const& reaction : worked.problem.reactions) console.print("  " + pretty(reaction.equation));
  for (std::size_t f = 0; f < working.finds.size(); ++f) {
    auto const letter = part_letter(worked, f);
    if (!letter.empty()) console.print("  " + letter);
    for (auto const& step : steps(worked, working, f, conventions)) console.print("    " + step.text);
    console.print("    " + rounded_line(worked, working, f, conventions));
  }
  for (auto const& warning : worked.warnings) console.print("  note: " + warning);
}
}  // namespace

void solve_command(Console& console, std::vector<std::string> const& files) {
  for (auto const& file : files) {
    auto const text = read_file(file);
    if (!ok(text)) {
      console.report(fault(text), file);
      continue;
    }
    auto const read = parse_problems(value(text), console.course.conventions.mark);
    for (auto const& found : read.faults) console.report(found, file);
    if (read.problems.empty() && read.faults.empty()) console.report(no_problem(), file);
    for (auto const& problem : read.problems) {
      auto const result = solve(problem, console.course.conventions);
      if (auto const* found = std::get_if<PlacedFault>(&result)) {
        console.report(with_line(*found, value(text)), file);
        if (console.json)
          console.print_json(Json{{"problem", problem.id},
                                  {"error", found->fault.id},
                                  {"message", sentence(found->fault)},
                                  {"line", found->line},
                                  {"column", found->column}});
      } else if (console.json) {
        console.print_json(worked_json(std::get<Worked>(result), console.course.conventions));
      } else {
        print_worked(console, std::get<Worked>(result));
      }
    }
  }
}

}  // namespace molewright
