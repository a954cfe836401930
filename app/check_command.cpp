#include <fmt/format.h>

#include <nlohmann/json.hpp>

#include "app/commands.h"
#include "app/files.h"
#include "app/problem_json.h"
#include "generators/review.h"

namespace molewright {

void check_command(Console& console, std::vector<std::string> const& files) {
  for (auto const& file : files) {
    auto const text = read_file(file);
    if (!ok(text)) {
      console.report(fault(text), file);
      continue;
    }
    auto const all = review(value(text), console.course);
    if (all.empty()) console.report(no_problem(), file);
    std::size_t found = 0;
    for (auto const& one : all) {
      found += one.findings.size();
      if (console.json) {
        Json findings = Json::array();
        for (auto const& finding : one.findings) {
          Json line{{"kind", finding.kind},
                    {"line", finding.line},
                    {"text", finding.text},
                    {"why", finding.why},
                    {"mend", finding.mend}};
          if (!finding.slip.empty()) line["slip"] = finding.slip;
          findings.push_back(std::move(line));
        }
        console.print_json(Json{{"problem", one.problem}, {"findings", findings}});
        continue;
      }
      for (auto const& finding : one.findings) {
        console.print(fmt::format("{}:{}: {}: {} [{}]", file, finding.line, one.problem, finding.text, finding.kind));
        if (!finding.why.empty()) console.print("    why it matters: " + finding.why);
        if (!finding.mend.empty()) console.print("    how to mend it: " + finding.mend);
      }
    }
    if (found > 0) console.at_fault();
    if (!console.json && !all.empty())
      console.print(fmt::format("{}: {} problem{}, {}", file, all.size(), all.size() == 1 ? "" : "s",
                                found == 0 ? "nothing found" : fmt::format("{} finding{}", found, found == 1 ? "" : "s")));
  }
}

}  // namespace molewright
