#include "app/misplaced.h"

#include <algorithm>
#include <cmath>
#include <map>
#include <string_view>
#include <unordered_map>

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

std::vector<Written> in_a_row(Answered const& answered) {
  std::vector<Written> all;
  for (auto const& one : answered) all.insert(all.end(), one.begin(), one.end());
  return all;
}

/// How far off a number may be and still agree, where it is written to its own figures or to those that are due.
double band_of(Written const& written) {
  auto const number = written_number(written.number);
  return number.step * Rational::power_of_ten(number.figures - number.certain).to_double();
}
}  // namespace

PlacesInSet::PlacesInSet(ProblemSet const& set) : set_(set), of_code_(set) {
  std::unordered_map<std::string_view, Paper const*> of_student, of_version;
  for (auto const& paper : set.papers)
    (paper.student.empty() ? of_version : of_student).try_emplace(paper.student.empty() ? paper.version : paper.student, &paper);
  papers_.assign(set.class_order.size(), nullptr);
  for (std::size_t i = 0; i < papers_.size(); ++i)
    if (auto const own = of_student.find(set.class_order[i]); own != of_student.end())
      papers_[i] = own->second;
    else if (i < set.class_versions.size() && of_version.count(set.class_versions[i]) > 0)
      papers_[i] = of_version.at(set.class_versions[i]);
}

std::string PlacesInSet::place_of_code(std::string const& code) const {
  auto const& places = of_code_[code];
  if (places.empty()) return {};
  auto const& [paper, question] = places.front();
  return "question " + question->number +
         (paper->student.empty() ? " of version " + paper->version : " of \"" + paper->student + "\"");
}

std::vector<PlacesInSet::Column> PlacesInSet::columns() const {
  std::vector<Column> all;
  for (std::size_t p = 0; p < set_.papers.size(); ++p) {
    auto const cells = cells_of(set_.papers[p]);
    if (all.size() < cells.size()) all.resize(cells.size());
    for (std::size_t i = 0; i < cells.size() && !set_.papers[p].student.empty(); ++i) {
      auto const& working = cells[i].question->worked.accepted.front();
      auto const& answer = working.finds[cells[i].find];
      if (answer.figures == 0) continue;
      auto const& right = working.nodes[static_cast<std::size_t>(answer.node)].value;
      double const value = right.number.to_double(), factor = right.unit.factor.to_double();
      double const band = due_of(answer, right.number).last.to_double();
      all[i].plain.push_back({value, p});
      all[i].in_base_units.push_back({value * factor, p});
      all[i].widest = std::max(all[i].widest, band);
      all[i].widest_in_base_units = std::max(all[i].widest_in_base_units, band * factor);
    }
  }
  for (auto& column : all)
    for (auto* numbers : {&column.plain, &column.in_base_units})
      std::sort(numbers->begin(), numbers->end(), [](Number const& a, Number const& b) { return a.value < b.value; });
  return all;
}

/// Papers on which the number may be right in this column: those whose right number lies near enough.
std::vector<std::size_t> PlacesInSet::papers_like(Written const& written, Column const& column) const {
  constexpr double slack = 1e-9;
  double const factor = written.unit ? written.unit->factor.to_double() : 1;
  double const value = written.number.value.to_double() * factor;
  double const band =
      std::max(band_of(written) * factor, written.unit ? column.widest_in_base_units : column.widest) + slack * std::abs(value);
  auto const& numbers = written.unit ? column.in_base_units : column.plain;
  std::vector<std::size_t> papers;
  auto at = std::lower_bound(numbers.begin(), numbers.end(), value - band,
                             [](Number const& number, double least) { return number.value < least; });
  for (; at != numbers.end() && at->value <= value + band; ++at) papers.push_back(at->paper);
  return papers;
}

bool PlacesInSet::anything_right(Paper const& paper, Answered const& answered) {
  return right_when_shifted(cells_of(paper), in_a_row(answered), 0) > 0;
}

std::optional<PlacesInSet::Elsewhere> PlacesInSet::misplaced(Paper const& paper, std::string const& student,
                                                             Answered const& answered) const {
  constexpr std::size_t least_numbers = 3, least_shifted = 2;
  auto const all = in_a_row(answered);
  auto const numbers = static_cast<std::size_t>(
      std::count_if(all.begin(), all.end(), [](Written const& one) { return one.kind == Written::Kind::number; }));
  auto const cells = cells_of(paper);
  if (numbers < least_numbers || right_when_shifted(cells, all, 0) > 0) return std::nullopt;
  for (int const shift : {1, -1}) {
    auto const right = right_when_shifted(cells, all, shift);
    if (right >= least_shifted && 2 * right >= numbers)
      return Elsewhere{{"shifted-columns",
                        "the answers of \"" + student + "\" stand one column too far to the " + (shift > 0 ? "right" : "left") +
                            ": " + std::to_string(right) + " of " + std::to_string(numbers) +
                            " numbers are right in the column beside theirs",
                        "each answer in its own column", 0}};
  }
  if (!columns_) columns_ = columns();
  std::map<std::size_t, std::size_t> near;  // paper: numbers that may be right there
  for (std::size_t i = 0; i < all.size() && i < columns_->size(); ++i)
    if (all[i].kind == Written::Kind::number)
      for (auto const p : papers_like(all[i], (*columns_)[i])) ++near[p];
  for (auto const& [p, count] : near) {
    auto const& other = set_.papers[p];
    if (&other == &paper || count < least_numbers) continue;
    auto const right = right_when_shifted(cells_of(other), all, 0);
    if (right >= least_numbers && 2 * right >= numbers)
      return Elsewhere{{"other-paper",
                        "the answers in the row of \"" + student + "\" are to the paper of \"" + other.student +
                            "\": " + std::to_string(right) + " of " + std::to_string(numbers) + " numbers are right there",
                        "each student's answers in their own row", 0},
                       &other};
  }
  return std::nullopt;
}

}  // namespace molewright
