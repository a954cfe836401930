#include "app/answers_source.h"

#include <algorithm>
#include <filesystem>

#include "app/files.h"
#include "engine/ascii.h"
#include "templates/from_set.h"

namespace molewright {
namespace fs = std::filesystem;
namespace {

struct Found {
  std::string path;
  std::string student;  ///< whom a file of a folder is named after
};

bool holds_a_table(fs::path const& path) {
  auto const name = path.filename().string(), ending = lowered(path.extension().string());
  return !name.empty() && name[0] != '.' && (ending == ".csv" || ending == ".tsv" || ending == ".txt");
}

std::vector<Found> files_at(Console& console, std::string const& path) {
  std::error_code error;
  if (path == "-" || !fs::is_directory(path, error)) return {{path, ""}};
  std::vector<Found> found;
  for (auto const& entry : fs::directory_iterator(path, error))
    if (entry.is_regular_file(error) && holds_a_table(entry.path()))
      found.push_back({entry.path().string(), entry.path().stem().string()});
  std::sort(found.begin(), found.end(), [](Found const& a, Found const& b) { return a.path < b.path; });
  if (found.empty())
    console.report(Fault{"no-answers", "no answers are in this folder", "files that end in .csv, .tsv or .txt", 0}, path);
  return found;
}
}  // namespace

std::vector<std::string> AnswersSource::names() const {
  std::vector<std::string> out;
  for (auto const& path : paths) out.push_back(fs::path(path).filename().string());
  return out;
}

PlacedFault AnswersSource::with_line(FiledFault const& fault) {
  if (!fault.placed.line_text.empty() || fault.file >= texts.size()) return fault.placed;
  std::string_view const text = texts[fault.file];
  if (fault.file != reached_.file || fault.placed.line < reached_.line) reached_ = {fault.file, 1, 0};
  for (; reached_.line < fault.placed.line; ++reached_.line) {
    auto const end = text.find('\n', reached_.at);
    if (end == std::string_view::npos) return fault.placed;
    reached_.at = end + 1;
  }
  auto placed = fault.placed;
  placed.line = 1;
  placed = molewright::with_line(std::move(placed), text.substr(reached_.at));
  placed.line = fault.placed.line;
  return placed;
}

AnswersSource::AnswersSource(Console& console, std::vector<std::string> const& given, ProblemSet const& set,
                             std::vector<std::string> const& students)
    : handed_in(students, {answer_columns(set), reading_columns(set)}) {
  for (auto const& path : given)
    for (auto const& file : files_at(console, path)) {
      auto text = read_file(file.path);
      if (!ok(text)) {
        console.report(fault(text), file.path);
        continue;
      }
      add(file.path, std::move(value(text)), file.student);
    }
}

void AnswersSource::add(std::string path, std::string text, std::string const& whose) {
  paths.push_back(std::move(path));
  handed_in.add(texts.emplace_back(std::move(text)), whose);
}

}  // namespace molewright
