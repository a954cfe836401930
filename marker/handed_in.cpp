#include "marker/handed_in.h"

#include <map>
#include <set>
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
void take_in(HandedIn& kept, HandedIn&& more, AllHandedIn& all) {
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
  if (!kept.marks) kept.marks = std::move(more.marks);
}
}  // namespace

AllHandedIn join(std::vector<AnswersRead> files) {
  AllHandedIn all;
  if (files.size() == 1) {  // the usual case, and then a million rows are not looked up
    all.answers = std::move(files.front().answers);
    all.readings = std::move(files.front().readings);
    for (auto& fault : files.front().faults) all.faults.push_back({std::move(fault), 0});
    return all;
  }
  using Place = std::pair<std::string, std::string>;  // student, question
  std::map<Place, std::size_t> answers, readings;
  std::map<Place, std::vector<std::size_t>> left_blank;           // in which files
  std::set<std::pair<std::string, std::size_t>> wrote_something;  // student, file
  for (std::size_t file = 0; file < files.size(); ++file) {
    for (auto& fault : files[file].faults) all.faults.push_back({std::move(fault), file});
    auto const take = [&](std::vector<HandedIn>& rows, std::vector<HandedIn>& into, std::map<Place, std::size_t>& known) {
      for (auto& row : rows) {
        row.file = file;
        auto const what = says(row.answer);
        if (what == Says::something) wrote_something.insert({row.student, file});
        if (what == Says::nothing) left_blank[{row.student, row.question}].push_back(file);
        auto const [at, fresh] = known.try_emplace({row.student, row.question}, into.size());
        if (fresh)
          into.push_back(std::move(row));
        else
          take_in(into[at->second], std::move(row), all);
      }
    };
    take(files[file].answers, all.answers, answers);
    take(files[file].readings, all.readings, readings);
  }
  // Whoever was absent and handed in later left out what is blank there.
  for (auto& row : all.answers) {
    if (says(row.answer) != Says::absent) continue;
    for (std::size_t const file : left_blank[{row.student, row.question}])
      if (wrote_something.count({row.student, file}) > 0) row.answer.clear();
  }
  return all;
}

}  // namespace molewright
