#include "app/remarking.h"

#include <algorithm>
#include <filesystem>
#include <fstream>
#include <nlohmann/json.hpp>
#include <set>

#include "app/files.h"
#include "app/marks_store.h"
#include "marker/table.h"

namespace molewright {
namespace {

/// Cells of marks.csv that are not what was written there are marks given by hand since.
void take_altered(Console& console, std::string const& path, std::string const& text, Earlier& earlier) {
  TableReader reader(text);
  auto const& table = reader.head();
  std::vector<PlacedFault> no_marks;
  Table::Row row;
  while (reader.next(row))
    for (std::size_t c = 1; c < table.header.size(); ++c) {
      auto const* before = earlier.part(row.cells[0], table.header[c]);
      auto const cell = trimmed(row.cells[c]);
      if (!before || (!before->to_read && cell == std::to_string(before->marks)) || cell.empty() || cell == absent_cell ||
          cell == not_marked_cell)
        continue;
      auto const marks = read_mark(cell, table.header[c], before->out_of);
      if (ok(marks))
        earlier.by_hand[{row.cells[0], table.header[c]}] = value(marks);
      else
        no_marks.push_back(reader.in_cell(row, c, fault(marks)));
    }
  for (auto const& found : reader.take_faults()) console.report(found, path);
  for (auto const& found : no_marks) console.report(found, path);
}

/// The columns of which a student's rows say what there is; none where no answer stands in them.
std::set<std::string> columns_held(Joined const& all) {
  std::set<std::string> columns;
  bool anything = false;
  for (auto const& row : all.answers) {
    columns.insert(row.question);
    anything = anything || !trimmed(row.answer).empty();
  }
  return anything ? columns : std::set<std::string>();
}

std::string on_one_line(std::string text) {
  std::replace(text.begin(), text.end(), '\n', ';');  // as lines of working may stand
  std::replace(text.begin(), text.end(), '\r', ' ');
  return text;
}
}  // namespace

void Earlier::add(Judgement const& judgement) {
  auto const name = judgement.question + judgement.part;
  auto const column = std::find(columns_.begin(), columns_.end(), name) - columns_.begin();
  if (static_cast<std::size_t>(column) == columns_.size()) columns_.push_back(name);
  auto& student = students_[judgement.student];
  student.was_there =
      student.was_there || (judgement.value != ValueVerdict::absent && !out_of_place(judgement)) || judgement.by_hand;
  if (part(judgement.student, name) == nullptr)
    student.parts.push_back({static_cast<std::uint16_t>(column), static_cast<std::int16_t>(judgement.marks),
                             static_cast<std::int16_t>(judgement.out_of), to_read(judgement)});
  if (judgement.by_hand) by_hand[{judgement.student, name}] = judgement.marks;
}

Earlier::Part const* Earlier::part(std::string const& student, std::string const& column) const {
  auto const at = students_.find(student);
  if (at == students_.end()) return nullptr;
  for (auto const& part : at->second.parts)
    if (columns_[part.column] == column) return &part;
  return nullptr;
}

bool Earlier::was_there(std::string const& student) const {
  auto const at = students_.find(student);
  return at != students_.end() && at->second.was_there;
}

Earlier read_earlier(Console& console, std::string const& folder, std::string const& title) {
  Earlier earlier;
  auto const path = std::filesystem::path(folder) / "marks.jsonl", table = std::filesystem::path(folder) / "marks.csv";
  std::error_code ignored;
  if (folder.empty() || !std::filesystem::is_regular_file(path, ignored)) return earlier;
  std::ifstream in(path, std::ios::binary);
  if (!in) return earlier;
  MarksReader marks;
  auto const of_this_set = [&] { return marks.title().empty() || marks.title() == title; };
  each_judgement(in, marks, [&](Judgement const& judgement) {
    if (of_this_set()) earlier.add(judgement);
  });
  for (auto const& found : marks.faults()) console.report(found, path.string());
  if (!of_this_set()) return earlier;
  auto const altered = std::filesystem::is_regular_file(table, ignored) ? read_file(table.string()) : Result<std::string>("");
  if (ok(altered) && !value(altered).empty()) take_altered(console, table.string(), value(altered), earlier);
  return earlier;
}

Kept answers_kept(std::string const& folder, ProblemSet const& set, std::vector<std::string> const& names,
                  AllHandedIn& handed_in) {
  Kept kept;
  std::ifstream in(marks_path(folder), std::ios::binary);
  std::unordered_map<std::string, std::size_t> place_of;
  for (std::size_t place = 0; place < names.size(); ++place) place_of.emplace(set.class_order[place], place);
  QuestionsByCode const questions(set);
  std::optional<std::size_t> looked_at;  // students stand one after the other
  std::set<std::string> held;            // columns of that student in the files
  bool counted = false;
  kept.text = "student,question,answer,working,measured,code\n";
  std::string line;
  std::getline(in, line);
  while (std::getline(in, line)) {
    std::string row;
    auto const json = Json::parse(line, nullptr, false);
    auto const cell = [&](char const* key) {
      return json.contains(key) && json[key].is_string() ? json[key].get<std::string>() : std::string();
    };
    auto const at = place_of.find(cell("student"));
    if (at != place_of.end() && cell("value") != name(ValueVerdict::absent) && !questions[cell("code")].empty()) {
      if (looked_at != at->second) {
        looked_at = at->second;
        held = columns_held(handed_in.of(at->second));
        counted = false;
      }
      auto const column = cell("question") + cell("part");
      auto const answer = json.contains("cell") ? cell("cell") : cell("given");
      if (held.count(column) == 0) {
        for (auto const& text : {names[at->second], column, answer, cell("working"), cell("measured"), cell("row_code")})
          row += (row.empty() ? "" : ",") + csv_cell(on_one_line(text));
        kept.students += counted ? 0 : 1;
        counted = true;
      }
    }
    kept.text += row + '\n';
  }
  return kept;
}

std::optional<int> mark_before(Judgement const& judgement, Earlier const& earlier) {
  auto const* before = earlier.part(judgement.student, judgement.question + judgement.part);
  if (!before || before->to_read || before->marks == judgement.marks || !earlier.was_there(judgement.student))
    return std::nullopt;
  return before->marks;
}

void Changes::say(std::string line) {
  constexpr std::size_t most_lines = 10000;
  if (lines_.size() < most_lines)
    lines_.push_back(std::move(line));
  else
    ++more_;
}

void Changes::add(StudentResult const& student) {
  if (!earlier_.marked()) return;
  if (student.misplaced) {
    if (earlier_.was_there(student.student))
      say(student.student + ": marked before, not marked now: row out of place or not usable");
    return;
  }
  if (!student.absent && !earlier_.was_there(student.student)) {
    say(student.student + ": not marked before, " + std::to_string(student.marks) + " of " + std::to_string(student.out_of) +
        " now");
    return;
  }
  for (auto const& part : student.parts) {
    auto const* before = earlier_.part(part.student, part.question + part.part);
    bool const changed = before && earlier_.was_there(part.student) &&
                         (before->to_read != to_read(part) || (!before->to_read && before->marks != part.marks));
    if (!changed) continue;
    say(student.student + ", " + part.question + part.part + ": " +
        (before->to_read ? "not marked before, " : std::to_string(before->marks) + " before, ") +
        (to_read(part) ? "not marked" : std::to_string(part.marks)) + " now" + (part.by_hand ? " (by hand)" : ""));
  }
}

}  // namespace molewright
