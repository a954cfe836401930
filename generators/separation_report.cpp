#include "generators/separation_report.h"

namespace molewright {

SeparationReport separation_report(QuestionMaker& maker, Template const& from, int wanted) {
  SeparationReport report;
  report.can_give = maker.questions_of(from);
  for (int seed = 0; seed < wanted; ++seed) {
    auto const question = maker.make(from, static_cast<std::uint32_t>(seed) % code_seeds);
    if (!ok(question)) continue;
    ++report.questions;
    auto const& alike = value(question).told_apart_not;
    report.apart += alike.empty() ? 1 : 0;
    report.by_substance += alike.empty() && !value(question).alike_by_substance.empty() ? 1 : 0;
    for (std::string const& pair : value(question).alike_by_substance) ++report.always_alike[pair];
    for (std::string const& pair : alike) ++report.alike[pair];
  }
  return report;
}

}  // namespace molewright
