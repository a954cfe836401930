#pragma once
// Problems worked for tests: a problem on one line, its lines parted by `;`.
#include <catch2/catch.hpp>
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

}  // namespace molewright
