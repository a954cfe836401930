#include "app/remarking.h"

#include <filesystem>
#include <set>

#include "app/files.h"
#include "marker/table.h"

namespace molewright {
namespace {

Judgement const* find(Earlier const& earlier, std::string const& student, std::string const& column) {
  auto const at = earlier.places.find({student, column});
  return at == earlier.places.end() ? nullptr : &earlier.judgements[at->second];
}

bool is_absent(Judgement const& one) { return one.value == ValueVerdict::absent && !one.by_hand; }

/// Cells of marks.csv that are not what was written there are marks given by hand since.
void take_altered(Console& console, std::string const& path, std::string const& text, Earlier& earlier) {
  auto const read = read_table(text);
  for (auto const& found : read.faults) console.report(found, path);
  auto const& table = read.table;
  if (table.header.empty()) return;
  Lines const lines(text);
  for (auto const& row : table.rows)
    for (std::size_t c = 1; c < table.header.size(); ++c) {
      auto const* before = find(earlier, row.cells[0], table.header[c]);
      auto const cell = trimmed(row.cells[c]);
      if (!before || cell == std::to_string(before->marks) || cell.empty() || cell == "absent") continue;
      auto const marks = read_mark(cell, table.header[c], before->out_of);
      if (ok(marks))
        earlier.by_hand[{before->student, table.header[c]}] = value(marks);
      else
        console.report(lines.place(fault(marks), row.lines[c], row.columns[c]), path);
    }
}
}  // namespace

Earlier read_earlier(Console& console, std::string const& folder, std::string const& title) {
  Earlier earlier;
  auto const path = std::filesystem::path(folder) / "marks.jsonl", table = std::filesystem::path(folder) / "marks.csv";
  std::error_code ignored;
  if (folder.empty() || !std::filesystem::is_regular_file(path, ignored)) return earlier;
  auto const text = read_file(path.string());
  if (!ok(text)) return earlier;
  auto marks = read_marks(value(text));
  for (auto const& found : marks.faults) console.report(found, path.string());
  if (!marks.title.empty() && marks.title != title) return earlier;
  earlier.judgements = std::move(marks.judgements);
  for (std::size_t i = 0; i < earlier.judgements.size(); ++i) {
    auto const& one = earlier.judgements[i];
    earlier.places.try_emplace({one.student, one.question + one.part}, i);
    if (one.by_hand) earlier.by_hand[{one.student, one.question + one.part}] = one.marks;
  }
  auto const altered = std::filesystem::is_regular_file(table, ignored) ? read_file(table.string()) : Result<std::string>("");
  if (ok(altered) && !value(altered).empty()) take_altered(console, table.string(), value(altered), earlier);
  return earlier;
}

std::optional<int> mark_before(Judgement const& judgement, Earlier const& earlier) {
  auto const* before = find(earlier, judgement.student, judgement.question + judgement.part);
  if (!before || before->marks == judgement.marks) return std::nullopt;
  return before->marks;
}

std::vector<std::string> changes(ClassResults const& results, Earlier const& earlier) {
  std::vector<std::string> out;
  std::set<std::string> there;
  for (auto const& one : earlier.judgements)
    if (!is_absent(one)) there.insert(one.student);
  for (auto const& student : results.students) {
    if (!student.absent && there.count(student.student) == 0) {
      out.push_back(student.student + ": not marked before, " + std::to_string(student.marks) + " of " +
                    std::to_string(student.out_of) + " now");
      continue;
    }
    for (auto const& part : student.parts)
      if (auto const before = mark_before(part, earlier))
        out.push_back(student.student + ", " + part.question + part.part + ": " + std::to_string(*before) + " before, " +
                      std::to_string(part.marks) + " now" + (part.by_hand ? " (by hand)" : ""));
  }
  return out;
}

}  // namespace molewright
