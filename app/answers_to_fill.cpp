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

/// The columns behind the student's name: the readings of a question before its answers.
std::vector<std::string> columns_to_fill(ProblemSet const& set) {
  std::vector<std::string> columns;
  auto const readings = reading_columns(set);
  for (auto const& column : answer_columns(set)) {
    auto const number = column.substr(0, column.find_first_not_of("0123456789"));
    auto const reading = std::find(readings.begin(), readings.end(), number + " measured");
    bool const first = reading != readings.end() && std::find(columns.begin(), columns.end(), *reading) == columns.end();
    if (first) columns.push_back(*reading);
    columns.push_back(column);
  }
  return columns;
}

/// Of the first question of a student's own paper: it shows where rows have slipped.
std::string code_of(ProblemSet const& set, std::string const& student) {
  for (auto const& paper : set.papers)
    if (paper.student == student && !paper.questions.empty()) return paper.questions.front().code;
  return {};
}
}  // namespace

std::string answers_to_fill(ProblemSet const& set) {
  auto const columns = columns_to_fill(set);
  std::string out = "\xEF\xBB\xBFstudent";
  for (auto const& column : columns) out += ',' + csv_cell(column);
  out += "\r\n";
  for (auto const& student : set.class_order) out += csv_cell(student) + std::string(columns.size(), ',') + "\r\n";
  return out;
}

Result<std::string> answers_workbook(ProblemSet const& set) {
  auto const columns = columns_to_fill(set);
  book::Sheet answers;
  answers.name = words::answers;
  answers.takes_text = true;
  answers.widths.assign(columns.size() + 2, answer_width);
  answers.widths.front() = name_width;
  std::vector<book::Cell> head{book::text("student", book::Look::head)};
  for (auto const& column : columns) head.push_back(book::text(column, book::Look::head));
  answers.rows.push_back(std::move(head));
  bool const own = std::all_of(set.papers.begin(), set.papers.end(), [](Paper const& paper) { return !paper.student.empty(); });
  if (own) answers.rows.front().push_back(book::text("code", book::Look::head));
  for (auto const& student : set.class_order) {
    std::vector<book::Cell> row(columns.size() + 1);
    row.front() = book::text(student);
    if (own) row.push_back(book::text(code_of(set, student)));
    answers.rows.push_back(std::move(row));
  }
  book::Sheet help;
  help.name = words::help;
  help.widths = {100};
  help.frozen_rows = help.frozen_columns = 0;
  for (auto const* line : words::help_lines) help.rows.push_back({book::text(line)});
  return book::workbook(set.title, {std::move(answers), std::move(help)});
}

}  // namespace molewright
