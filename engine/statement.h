#pragma once
// One line of the problem language, taken apart: which statement it is and what follows. The grammar stands in statement.cpp.
#include <optional>
#include <string>
#include <string_view>
#include <variant>

#include "engine/problem.h"

namespace molewright {

/// The statement words of the problem language, for messages and for splitting a line.
std::vector<std::string> const& statement_words();

/// Keyword at the start of a line and the byte where the rest begins; the keyword is empty for a line without one.
struct StatementStart {
  std::string_view keyword;
  std::size_t rest = 0;
};
StatementStart statement_start(std::string_view line);

/// As in problem.h, for a course that writes a comma in numbers with DecimalMark::comma: `0,250` and `0.250` are read, and both
/// are kept with a point, so that the problem can be read again by anyone.
ProblemFile parse_problems(std::string_view text, DecimalMark mark);
std::optional<Fault> add_statement(Problem& problem, std::string_view text, DecimalMark mark);

/// The line without its comment (`#` to the end) and without blanks at the end.
std::string_view without_comment(std::string_view line);

}  // namespace molewright
