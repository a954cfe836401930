#pragma once
// Problems worked for tests: a problem on one line, its lines parted by `;`; what is written to them.
#include <algorithm>
#include <catch2/catch.hpp>
#include <cmath>
#include <string>

#include "engine/problem.h"
#include "engine/solver.h"
#include "marker/judge.h"

namespace molewright {

inline Worked worked_from(std::string const& text, Conventions const& conventions = {}) {
  INFO(text);
  auto const file = parse_problems(text);
  for (auto const& fault : file.faults) INFO(sentence(fault.fault));
  REQUIRE(file.faults.empty());
  REQUIRE(file.problems.size() == 1);
  auto result = solve(file.problems.front(), conventions);
  if (auto const* const fault = std::get_if<PlacedFault>(&result)) FAIL(sentence(fault->fault));
  return std::get<Worked>(std::move(result));
}

inline Question question_from(std::string const& text, Conventions const& conventions = {}) {
  Question question;
  question.code = "TEST";
  question.student = "A";
  question.number = "1";
  question.worked = worked_from(text, conventions);
  question.marks.assign(question.worked.problem.finds.size(), 3);
  return question;
}

/// What `read_written` makes of a plain "1.72 g": the tests of this room's judging do not rest on the reading of odd cells.
inline Written wrote(std::string const& text) {
  Written written;
  written.raw = text;
  written.kind = Written::Kind::number;
  auto const read = read_decimal(text);
  REQUIRE(ok(read));
  written.number = value(read).number;
  auto rest = text.substr(value(read).length);
  while (!rest.empty() && rest.front() == ' ') rest.erase(0, 1);
  written.unit_text = rest;
  if (rest.empty()) return written;
  auto const unit = parse_unit(rest);
  if (ok(unit)) written.unit = value(unit);
  return written;
}

inline constexpr char const* titrated_alkali =
    "problem p; reaction H2SO4 + 2KOH -> K2SO4 + 2H2O; given V(KOH) = 20.00 mL; given V(H2SO4) = 17.35 mL; given c(H2SO4) = "
    "0.0845 mol/L; find c(KOH) in mol/L";

inline Written with_lines(std::string const& answer, std::string const& working) {
  auto written = wrote(answer);
  written.working = working;
  return written;
}

inline std::string ids(Judgement const& judgement) {
  std::string text;
  for (auto const& one : judgement.candidates) {
    for (auto const& slip : one.slips) text += slip.id + " ";
    text += "| ";
  }
  return text;
}

/// Whether the slip is first, or leads to the very number that the first leads to.
inline bool first_or_same_number(Judgement const& judgement, std::string_view slip) {
  auto const& all = judgement.candidates;
  return std::any_of(all.begin(), all.end(), [&](Candidate const& one) {
    return one.slips.size() == 1 && one.slips.front().id == slip &&
           std::abs(one.value - all.front().value) <= 1e-6 * std::abs(one.value);
  });
}

}  // namespace molewright
