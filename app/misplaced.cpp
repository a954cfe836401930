#include "app/misplaced.h"

#include <algorithm>

#include "marker/agreement.h"
#include "marker/own_reading.h"

namespace molewright {
namespace {

struct Cell {
  Question const* question;
  std::size_t find;
};

std::vector<Cell> cells_of(Paper const& paper) {
  std::vector<Cell> cells;
  for (auto const& question : paper.questions)
    for (std::size_t find = 0; find < question.marks.size(); ++find) cells.push_back({&question, find});
  return cells;
}

/// Whether a number is the right one here, its unit taken as written where it can be.
bool is_right(Cell const& cell, Written const& written) {
  if (written.kind != Written::Kind::number || rests_on_reading(*cell.question, cell.find)) return false;
  auto const& working = cell.question->worked.accepted.front();
  auto const& answer = working.finds[cell.find];
  if (answer.figures == 0) return false;
  auto const& right = working.nodes[static_cast<std::size_t>(answer.node)].value;
  Rational factor(1);
  if (written.unit) {
    if (written.unit->dimension != right.unit.dimension) return false;
    factor = written.unit->factor / right.unit.factor;
  }
  return agrees(written_number(written.number, factor), right.number, due_of(answer, right.number));
}

/// How many of the answers are right `shift` columns to the left of where they stand.
std::size_t right_when_shifted(std::vector<Cell> const& cells, std::vector<Written> const& all, int shift) {
  std::size_t count = 0;
  for (std::size_t i = 0; i < all.size(); ++i) {
    auto const at = static_cast<std::ptrdiff_t>(i) - shift;
    if (at >= 0 && at < static_cast<std::ptrdiff_t>(cells.size()) && is_right(cells[static_cast<std::size_t>(at)], all[i]))
      ++count;
  }
  return count;
}
}  // namespace

std::optional<Fault> misplaced(ProblemSet const& set, Paper const& paper, std::string const& student, Answered const& answered) {
  constexpr std::size_t least_numbers = 3, least_shifted = 2;
  std::vector<Written> all;
  for (auto const& one : answered) all.insert(all.end(), one.begin(), one.end());
  auto const numbers = static_cast<std::size_t>(
      std::count_if(all.begin(), all.end(), [](Written const& one) { return one.kind == Written::Kind::number; }));
  auto const cells = cells_of(paper);
  if (numbers < least_numbers || right_when_shifted(cells, all, 0) > 0) return std::nullopt;
  for (int const shift : {1, -1}) {
    auto const right = right_when_shifted(cells, all, shift);
    if (right >= least_shifted && 2 * right >= numbers)
      return Fault{"shifted-columns",
                   "the answers of \"" + student + "\" stand one column too far to the " + (shift > 0 ? "right" : "left") + ": " +
                       std::to_string(right) + " of " + std::to_string(numbers) +
                       " numbers are right in the column beside theirs",
                   "each answer in its own column", 0};
  }
  for (auto const& other : set.papers) {
    if (&other == &paper || other.student.empty()) continue;
    auto const right = right_when_shifted(cells_of(other), all, 0);
    if (right >= least_numbers && 2 * right >= numbers)
      return Fault{"other-paper",
                   "the answers in the row of \"" + student + "\" are to the paper of \"" + other.student +
                       "\": " + std::to_string(right) + " of " + std::to_string(numbers) + " numbers are right there",
                   "each student's answers in their own row", 0};
  }
  return std::nullopt;
}

std::string place_of_code(ProblemSet const& set, std::string const& code) {
  for (auto const& paper : set.papers)
    for (auto const& question : paper.questions)
      if (question.code == code)
        return "question " + question.number +
               (paper.student.empty() ? " of version " + paper.version : " of \"" + paper.student + "\"");
  return {};
}

}  // namespace molewright
