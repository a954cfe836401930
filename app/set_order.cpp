#include "app/set_order.h"

#include <algorithm>
#include <filesystem>

#include "app/course_file.h"
#include "app/files.h"
#include "app/question_templates.h"
#include "app/set_store.h"
#include "engine/solver.h"
#include "engine/statement.h"
#include "generators/variant.h"

namespace molewright {
namespace {

/// A fault about a problem's text, placed in the file that the problem was read from.
PlacedFault in_wording(Fault fault, Problem const& problem, std::string_view file, bool of_text = false) {
  std::string_view const text = problem.text;
  bool const about_text = of_text || fault.id == "cannot-move" || fault.id == "variant-would-lie";
  std::size_t const at = about_text ? std::min(fault.offset, text.size()) : 0;
  std::size_t const begin = at == 0 ? 0 : text.rfind('\n', at - 1) + 1;
  auto const line = text.substr(begin, text.find('\n', begin) - begin);
  fault.offset = 0;
  std::size_t number = 0;
  while (!file.empty()) {
    auto const end = file.find('\n');
    auto const here = file.substr(0, end);
    ++number;
    if (auto const found = here.find(line); !line.empty() && number > problem.place.line && found != std::string_view::npos)
      return {fault, number, column(here, found + (at - begin)), std::string(here)};
    file.remove_prefix(end == std::string_view::npos ? file.size() : end + 1);
  }
  return {fault, problem.place.line, 1, ""};
}
}  // namespace

bool SetOrder::read() {
  auto const text = read_file(options_.set_file);
  if (!ok(text)) {
    console_.report(fault(text), options_.set_file);
    return false;
  }
  file_ = read_set_file(value(text), options_.practise_from.empty());
  for (auto const& found : file_.faults) console_.report(found, options_.set_file);
  if (file_.course_file && !console_.own_course && !read_course_of_set()) return false;
  if (file_.class_file) read_members();
  for (auto const& own : file_.problems) read_own(own);
  for (auto const& path : file_.avoid) read_earlier(beside(path));
  for (auto const& path : options_.avoid) read_earlier(path);
  if (file_.resit_of) {
    resit_of_ = read_earlier(beside(*file_.resit_of));
    history_.resit_of = resit_of_ ? &*resit_of_ : nullptr;
  }
  for (auto const& path : options_.practise_from) read_results(marks_path(path));
  return console_.faults() == 0;
}

std::vector<Template> SetOrder::templates() const {
  auto read = read_templates(question_templates());
  for (auto const& found : read.faults) console_.report(found.fault, found.name);
  read.templates.insert(read.templates.end(), variants_.begin(), variants_.end());
  return std::move(read.templates);
}

void SetOrder::take_items(std::vector<SetItem> items) {
  if (file_.plan.items.empty() && !file_.resit_of) file_.plan.items = std::move(items);
  file_.plan.versions = SetPlan::Versions::each;
  if (file_.class_file || file_.plan.copies) return;
  for (auto const& marks : results_)  // nobody is named: whoever has marks
    for (auto const& one : marks.judgements) {
      bool const there =
          std::any_of(members_.begin(), members_.end(), [&](ClassMember const& member) { return member.student == one.student; });
      if (!there) members_.push_back({one.student, "", "", ""});
    }
}

std::string SetOrder::beside(std::string const& name) const {
  return (std::filesystem::path(options_.set_file).parent_path() / name).string();
}

bool SetOrder::read_course_of_set() {
  auto const path = beside(*file_.course_file);
  auto const text = read_file(path);
  if (!ok(text)) {
    console_.report(fault(text), path);
    return false;
  }
  auto const course = read_course(value(text), std::filesystem::path(path).parent_path().string());
  for (auto const& found : course.faults) console_.report(found, path);
  console_.course = course.course;
  return course.faults.empty();
}

void SetOrder::read_members() {
  auto const path = beside(*file_.class_file);
  auto const text = read_file(path);
  if (!ok(text)) return console_.report(fault(text), path);
  auto read = read_class(value(text));
  for (auto const& found : read.faults) console_.report(found, path);
  members_ = std::move(read.members);
}

/// A set made before, its questions noted as not to come again.
std::optional<ProblemSet> SetOrder::read_earlier(std::string const& path) {
  auto set = read_set_file(console_, path);
  if (set) note_texts(*set, history_);
  return set;
}

void SetOrder::read_results(std::string const& path) {
  auto const text = read_file(path);
  if (!ok(text)) return console_.report(fault(text), path);
  auto marks = read_marks(value(text));
  for (auto const& found : marks.faults) console_.report(found, path);
  results_.push_back(std::move(marks));
}

bool SetOrder::is_sound(Problem const& problem, std::string const& file_text, std::string const& path) {
  auto const& conventions = console_.course.conventions;
  auto const result = solve(problem, conventions);
  if (auto const* found = std::get_if<PlacedFault>(&result)) {
    console_.report(with_line(*found, file_text), path);
    return false;
  }
  auto const& worked = std::get<Worked>(result);
  auto const filled_in = wording(worked.problem, conventions, &worked.accepted.front());
  if (!ok(filled_in)) console_.report(in_wording(fault(filled_in), problem, file_text, true), path);
  return ok(filled_in);
}

void SetOrder::read_own(SetFile::OwnProblem const& own) {
  auto const path = beside(own.file);
  auto const text = read_file(path);
  if (!ok(text)) return console_.report(fault(text), path);
  auto const read = parse_problems(value(text), console_.course.conventions.mark);
  for (auto const& found : read.faults) console_.report(found, path);
  if (read.problems.size() != 1) {
    if (read.faults.empty())
      console_.report(
          Fault{"one-problem", "this file holds " + std::to_string(read.problems.size()) + " problems", "one problem a file", 0},
          path);
    return;
  }
  if (!own.vary) {
    if (!is_sound(read.problems.front(), value(text), path)) return;
    file_.plan.items[own.item].own = read.problems.front();
    return;
  }
  // Several problems may have one name: the line of the order tells them apart.
  auto const& problem = read.problems.front();
  auto made = variant_of(problem, "own-" + std::to_string(own.item + 1) + "-" + problem.id, *own.vary);
  if (!ok(made)) return console_.report(in_wording(fault(made), problem, value(text)), path);
  file_.plan.items[own.item].template_name = value(made).name;
  variants_.push_back(std::move(value(made)));
}

PlacedFault placed(Fault const& fault, SetFile const& file, std::string const& seed, QuestionMaker& maker) {
  for (std::size_t i = 0; i < file.plan.items.size() && i < file.places.size(); ++i) {
    SetPlan alone = file.plan;
    alone.items = {file.plan.items[i]};
    alone.copies = 1;
    auto const made = make_set(alone, {}, seed, maker);
    if (ok(made) || molewright::fault(made).id != fault.id) continue;
    auto where = file.places[i];
    where.fault = molewright::fault(made);
    return where;
  }
  return {fault, 1, 1, ""};
}

}  // namespace molewright
