// Any bytes as a table, an answers file and a class file: rows of one width, faults that can be shown, and cells that survive
// being written and read again.
#include <set>
#include <string>
#include <vector>

#include "marker/answers_file.h"
#include "tests/fuzz/check.h"
#include "tests/marker/whole_file.h"

using namespace molewright;

namespace {

void check_faults(std::vector<PlacedFault> const& faults, std::string_view text) {
  for (auto const& each : faults) {
    demand_usable(each.fault, text);
    demand(each.line >= 1 && each.column >= 1, "a fault stands on a line and a column");
    demand(first_invalid_utf8(each.line_text) == std::string_view::npos, "the line of a fault can be printed");
    demand(each.line_text.find_first_of("\r\n") == std::string::npos, "the line of a fault is one line");
  }
}

/// Writes the rows as a file and demands that it reads back the same.
void check_round_trip(Table const& table) {
  std::string file;
  auto const write = [&](std::vector<std::string> const& cells) {
    for (std::size_t i = 0; i < cells.size(); ++i) file += (i > 0 ? "," : "") + csv_cell(cells[i]);
    file += '\n';
  };
  std::vector<std::string> names;  // of the columns: their own may stand twice, or look like the line that names a separator
  for (std::size_t i = 0; i < table.header.size(); ++i) names.push_back("c" + std::to_string(i));
  write(names);
  for (auto const& row : table.rows) write(row.cells);
  auto const again = read_table(file);
  demand(again.faults.empty(), "what is written has no fault");
  demand(names.size() < 2 || again.table.separator == ',', "the separator is found");
  demand(again.table.rows.size() == table.rows.size(), "no row is lost");
  for (std::size_t i = 0; i < table.rows.size(); ++i) demand(again.table.rows[i].cells == table.rows[i].cells, "no cell changes");
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(std::uint8_t const* data, std::size_t size) {
  auto const text = as_text(data, size);
  auto const read = read_table(text);
  check_faults(read.faults, text);
  for (auto const& row : read.table.rows) {
    std::size_t const width = read.table.header.size();
    demand(row.cells.size() == width && row.lines.size() == width && row.columns.size() == width,
           "a row is as wide as the header");
    for (auto const& cell : row.cells) demand(first_invalid_utf8(cell) == std::string_view::npos, "a cell is UTF-8");
  }
  if (!read.table.header.empty()) check_round_trip(read.table);

  static std::vector<std::string> const known = {"1", "2a", "2b", "3"};
  auto const answers = read_answers(text, known);
  check_faults(answers.faults, text);
  std::set<std::pair<std::string, std::string>> seen;
  for (auto const& each : answers.answers) {
    demand(!each.student.empty(), "an answer has a student");
    demand(seen.insert({each.student, each.question}).second, "an answer is given once");
    demand(each.line >= 1 && each.column >= 1, "an answer stands somewhere");
  }

  auto const members = read_class(text);
  check_faults(members.faults, text);
  for (auto const& each : members.members) demand(!each.student.empty(), "a member has a name");
  return 0;
}
