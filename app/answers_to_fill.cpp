#include "app/answers_to_fill.h"

#include <algorithm>
#include <vector>

#include "marker/table.h"
#include "templates/from_set.h"
#include "templates/workbook.h"

namespace molewright {
namespace {

namespace words {
constexpr char const* answers = "Answers";
constexpr char const* code = "code";
constexpr char const* help = "What to write";
constexpr char const* help_lines[] = {
    "One row a student, one column a part. Leave a cell empty where nothing was written.",
    "An answer as it stands on the paper, with its unit: 1.20 g. The cells are text, so that its zeros stay.",
    "Or a letter of the slip key (B), or right, or ✓.",
    "absent where the student was not there.",
    "In a column \"1 measured\": the student's own reading, such as 24.65 mL.",
    "The column \"code\" shows where rows have slipped against each other; leave it as it is, or take it out.",
    "Then save this sheet as CSV (UTF-8), and mark the CSV file.",
};
}  // namespace words

constexpr double name_width = 28, answer_width = 16;  // characters
}  // namespace

void AnswersToFill::add(ProblemSet const& volume) {
  title_ = volume.title;
  class_order_ = volume.class_order;
  class_versions_ = volume.class_versions;
  answers_.add(answer_columns(volume));
  for (auto const& column : reading_columns(volume))
    if (std::find(readings_.begin(), readings_.end(), column) == readings_.end()) readings_.push_back(column);
  for (auto const& paper : volume.papers) {
    if (paper.questions.empty()) continue;
    auto& codes = paper.student.empty() ? code_of_version_ : code_of_student_;
    codes.try_emplace(paper.student.empty() ? paper.version : paper.student, paper.questions.front().code);
  }
}

/// The columns behind the student's name: the readings of a question before its answers, the codes at the end.
std::vector<std::string> AnswersToFill::columns() const {
  std::vector<std::string> columns;
  for (auto const& column : answers_.all()) {
    auto const number = column.substr(0, column.find_first_not_of("0123456789"));
    auto const reading = std::find(readings_.begin(), readings_.end(), number + " measured");
    bool const first = reading != readings_.end() && std::find(columns.begin(), columns.end(), *reading) == columns.end();
    if (first) columns.push_back(*reading);
    columns.push_back(column);
  }
  if (code_of_student_.size() + code_of_version_.size() > 1) columns.push_back(words::code);
  return columns;
}

/// Of the first question of the paper that a student gets.
std::string AnswersToFill::code_of(std::size_t place) const {
  if (auto const own = code_of_student_.find(class_order_[place]); own != code_of_student_.end()) return own->second;
  auto const shared = place < class_versions_.size() ? code_of_version_.find(class_versions_[place]) : code_of_version_.end();
  return shared == code_of_version_.end() ? "" : shared->second;
}

std::vector<std::vector<std::string>> AnswersToFill::rows() const {
  std::vector<std::vector<std::string>> rows{columns()};
  bool const codes = !rows[0].empty() && rows[0].back() == words::code;
  rows[0].insert(rows[0].begin(), "student");
  auto const width = rows[0].size();
  for (std::size_t place = 0; place < class_order_.size(); ++place) {
    std::vector<std::string> row(width);
    row.front() = class_order_[place];
    if (codes) row.back() = code_of(place);
    rows.push_back(std::move(row));
  }
  return rows;
}

std::string AnswersToFill::csv() const {
  std::string out = "\xEF\xBB\xBF";
  for (auto const& row : rows()) {
    for (std::size_t i = 0; i < row.size(); ++i) out += (i > 0 ? "," : "") + csv_cell(row[i]);
    out += "\r\n";
  }
  return out;
}

Result<std::string> AnswersToFill::workbook() const {
  book::Sheet answers;
  answers.name = words::answers;
  answers.takes_text = true;
  for (auto const& row : rows()) {
    auto const look = answers.rows.empty() ? book::Look::head : book::Look::plain;
    std::vector<book::Cell> cells;
    for (auto const& cell : row) cells.push_back(cell.empty() ? book::Cell{} : book::text(cell, look));
    answers.rows.push_back(std::move(cells));
  }
  answers.widths.assign(answers.rows.front().size(), answer_width);
  answers.widths.front() = name_width;
  book::Sheet help;
  help.name = words::help;
  help.widths = {100};
  help.frozen_rows = help.frozen_columns = 0;
  for (auto const* line : words::help_lines) help.rows.push_back({book::text(line)});
  return book::workbook(title_, {std::move(answers), std::move(help)});
}

}  // namespace molewright
