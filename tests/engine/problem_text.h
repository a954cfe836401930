#pragma once
// Problems for tests: read, solved, or refused with the whole message as a person sees it.
#include <catch2/catch.hpp>
#include <string>
#include <variant>

#include "engine/solver.h"
#include "engine/steps.h"

namespace molewright::test {

inline Problem read_problem(std::string const& text) {
  INFO(text);
  auto const file = parse_problems(text);
  for (auto const& fault : file.faults) UNSCOPED_INFO(show(fault, "p"));
  REQUIRE(file.faults.empty());
  REQUIRE(file.problems.size() == 1);
  return file.problems.front();
}

inline Worked solved(std::string const& text, Conventions const& conventions = {}) {
  auto result = solve(read_problem(text), conventions);
  INFO(text);
  if (auto const* fault = std::get_if<PlacedFault>(&result)) FAIL(show(*fault, "p"));
  return std::get<Worked>(std::move(result));
}

/// What is shown for the first fault, of reading or of solving, before it its id; empty where all is well.
inline std::string refused(std::string const& text, Conventions const& conventions = {}) {
  auto const file = parse_problems(text);
  if (!file.faults.empty()) return file.faults.front().fault.id + '\n' + show(file.faults.front(), "p");
  for (auto const& problem : file.problems) {
    auto const result = solve(problem, conventions);
    if (auto const* fault = std::get_if<PlacedFault>(&result)) return fault->fault.id + '\n' + show(with_line(*fault, text), "p");
  }
  return {};
}

inline Node const& answer_node(Working const& working, std::size_t find = 0) {
  return working.nodes[static_cast<std::size_t>(working.finds[find].node)];
}

/// "0.0120 mol": the answer as handed in.
inline std::string answer(Worked const& worked, std::size_t find = 0) {
  auto const& working = worked.accepted.front();
  auto const unit = answer_node(working, find).value.unit.symbol;
  return working.finds[find].text + (unit.empty() ? "" : ' ' + unit);
}

inline Node const* node_named(Working const& working, std::string const& id) {
  int const at = working.find_node(id);
  return at < 0 ? nullptr : &working.nodes[static_cast<std::size_t>(at)];
}

}  // namespace molewright::test
