#include "marker/handed_in.h"

#include <algorithm>
#include <map>
#include <set>
#include <tuple>
#include <utility>

#include "engine/ascii.h"

namespace molewright {
namespace {

enum class Says { nothing, absent, something };

Says says(std::string_view cell) {
  auto const text = trimmed(cell);
  if (text.empty()) return Says::nothing;
  auto const word = lowered(text);
  return word == "absent" || word == "abs" ? Says::absent : Says::something;
}

/// What one more file says about an answer that is there already.
void take_in(HandedIn& kept, HandedIn&& more, Joined& all) {
  auto const had = says(kept.answer), has = says(more.answer);
  if (has == Says::something && had == Says::something && trimmed(kept.answer) != trimmed(more.answer)) {
    Fault fault{"given-twice", "question " + more.question + " of \"" + more.student + "\" has another answer in another file",
                "one answer; the first is marked", 0};
    all.faults.push_back({{std::move(fault), more.line, more.column, ""}, more.file});
  }
  if (has > had) {
    kept.answer = std::move(more.answer);
    kept.file = more.file;
    kept.line = more.line;
    kept.column = more.column;
  }
  if (kept.working.empty()) kept.working = std::move(more.working);
  if (kept.measured.empty()) kept.measured = std::move(more.measured);
  if (!kept.marks && more.marks) {
    kept.marks = std::move(more.marks);
    kept.marks_line = more.marks_line;
    kept.marks_column = more.marks_column;
    kept.marks_file = more.marks_file;
  }
}
}  // namespace

Joined join(std::vector<RowsRead> files) {
  Joined all;
  if (files.size() == 1) {  // the usual case
    all.answers = std::move(files.front().answers);
    all.readings = std::move(files.front().readings);
    return all;
  }
  using Place = std::pair<std::string, std::string>;  // student, question
  std::map<Place, std::size_t> answers, readings;
  std::map<Place, std::vector<std::size_t>> left_blank;           // in which files
  std::set<std::pair<std::string, std::size_t>> wrote_something;  // student, file
  for (auto& file : files) {
    auto const take = [&](std::vector<HandedIn>& rows, std::vector<HandedIn>& into, std::map<Place, std::size_t>& known) {
      for (auto& row : rows) {
        auto const what = says(row.answer);
        if (what == Says::something) wrote_something.insert({row.student, row.file});
        if (what == Says::nothing) left_blank[{row.student, row.question}].push_back(row.file);
        auto const [at, fresh] = known.try_emplace({row.student, row.question}, into.size());
        if (fresh)
          into.push_back(std::move(row));
        else
          take_in(into[at->second], std::move(row), all);
      }
    };
    take(file.answers, all.answers, answers);
    take(file.readings, all.readings, readings);
  }
  // Whoever was absent and handed in later left out what is blank there.
  for (auto& row : all.answers) {
    if (says(row.answer) != Says::absent) continue;
    for (std::size_t const file : left_blank[{row.student, row.question}])
      if (wrote_something.count({row.student, file}) > 0) row.answer.clear();
  }
  return all;
}

AllHandedIn::AllHandedIn(std::vector<std::string> const& students, AnswerColumns columns) : columns_(std::move(columns)) {
  for (auto const& student : students) students_.push_back(names_.of(student));
  class_numbers_ = names_.size();
}

void AllHandedIn::add(std::string_view text, std::string const& whose) {
  auto const number = static_cast<std::uint32_t>(files_.size());
  auto& file = files_.emplace_back(text, columns_, names_, whose);
  RowsRead strangers;
  while (auto const row = file.next()) {
    anything_ = anything_ || file.has_answers();
    if (row->student < class_numbers_) {
      of_the_class_ = of_the_class_ || file.has_answers();
      places_.push_back({row->at, static_cast<std::uint32_t>(row->line), row->student, number});
    } else {
      file.read(*row, strangers);
    }
  }
  for (auto* rows : {&strangers.answers, &strangers.readings})
    for (auto& row : *rows) row.file = row.marks_file = number;
  if (!strangers.answers.empty() || !strangers.readings.empty()) strangers_.push_back(std::move(strangers));
  questions_.insert(file.questions().begin(), file.questions().end());
  for (auto& name : file.take_not_used()) not_used_.push_back(std::move(name));
  for (auto& fault : file.take_faults()) faults_.push_back({std::move(fault), number});
  sorted_ = false;
}

Joined AllHandedIn::of(std::size_t student) {
  if (!sorted_)
    std::sort(places_.begin(), places_.end(), [](Place const& a, Place const& b) {
      return std::tie(a.student, a.file, a.at) < std::tie(b.student, b.file, b.at);
    });
  sorted_ = true;
  auto const number = students_[student];
  auto at = std::lower_bound(places_.begin(), places_.end(), number,
                             [](Place const& place, std::uint32_t wanted) { return place.student < wanted; });
  std::vector<RowsRead> files;
  for (auto from = at; at != places_.end() && at->student == number; ++at) {
    if (files.empty() || at->file != from->file) files.emplace_back();
    from = at;
    auto& rows = files.back();
    auto const answers = rows.answers.size(), readings = rows.readings.size();
    files_[at->file].read({at->student, at->at, at->line}, rows);
    for (auto i = answers; i < rows.answers.size(); ++i) rows.answers[i].file = rows.answers[i].marks_file = at->file;
    for (auto i = readings; i < rows.readings.size(); ++i) rows.readings[i].file = at->file;
  }
  return join(std::move(files));
}

Joined AllHandedIn::of_strangers() const { return join(strangers_); }

}  // namespace molewright
