#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <filesystem>
#include <nlohmann/json.hpp>

#include "app/class_marking.h"
#include "app/commands.h"
#include "app/course_file.h"
#include "app/files.h"
#include "app/question_templates.h"
#include "app/set_file.h"
#include "app/set_store.h"
#include "templates/from_set.h"
#include "templates/pages.h"

namespace molewright {
namespace {

/// Everything that the set file names, read; nothing where something was at fault and told.
class Order {
 public:
  Order(Console& console, SetOptions const& options) : console_(console), options_(options) {}

  bool read() {
    auto const text = read_file(options_.set_file);
    if (!ok(text)) {
      console_.report(fault(text), options_.set_file);
      return false;
    }
    file_ = read_set_file(value(text));
    for (auto const& found : file_.faults) console_.report(found, options_.set_file);
    if (file_.course_file && !console_.own_course && !read_course_of_set()) return false;
    if (file_.class_file) read_members();
    for (auto const& own : file_.problems) read_own(own);
    return console_.faults() == 0;
  }

  SetFile const& file() const { return file_; }
  std::vector<ClassMember> const& members() const { return members_; }

 private:
  std::string beside(std::string const& name) const {
    return (std::filesystem::path(options_.set_file).parent_path() / name).string();
  }

  bool read_course_of_set() {
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

  void read_members() {
    auto const path = beside(*file_.class_file);
    auto const text = read_file(path);
    if (!ok(text)) return console_.report(fault(text), path);
    auto read = read_class(value(text));
    for (auto const& found : read.faults) console_.report(found, path);
    members_ = std::move(read.members);
  }

  void read_own(SetFile::OwnProblem const& own) {
    auto const path = beside(own.file);
    auto const text = read_file(path);
    if (!ok(text)) return console_.report(fault(text), path);
    auto const read = parse_problems(value(text));
    for (auto const& found : read.faults) console_.report(found, path);
    if (read.problems.size() != 1) {
      if (read.faults.empty())
        console_.report(Fault{"one-problem", "this file holds " + std::to_string(read.problems.size()) + " problems",
                              "one problem a file", 0},
                        path);
      return;
    }
    file_.plan.items[own.item].own = read.problems.front();
  }

  Console& console_;
  SetOptions const& options_;
  SetFile file_;
  std::vector<ClassMember> members_;
};

/// A fault of the whole order, placed at the question that causes it: the first that fails in the same way by itself.
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

/// The files of a set: name, and what it is to whoever made it.
constexpr std::array<std::pair<char const*, char const*>, 8> set_files{{
    {"sheets.pdf", "the sheets, to print"},
    {"sheets.txt", "the sheets as plain text"},
    {"answers.pdf", "answers with working, marks and wrong answers to expect"},
    {"answers.txt", "the same as plain text"},
    {"marking-card.pdf", "every student's answers on a few pages, to mark with a pen"},
    {"marking-card.txt", "the same as plain text"},
    {"answers-to-fill.csv", "a table for what the students write"},
    {"set.jsonl", "what marking needs: keep it"},
}};

std::string counted(std::size_t number, std::string const& what) {
  return std::to_string(number) + ' ' + what + (number == 1 ? "" : "s");
}

void warn_of_missing_glyphs(Console& console, ProblemSet const& set) {
  std::string all = set.title;
  for (auto const& student : set.class_order) all += student;
  for (auto const& paper : set.papers)
    for (auto const& question : paper.questions) all += question.text;
  auto const missing = paper::without_glyph(all);
  if (!missing.empty()) console.warn("The fonts have no sign for: " + missing + " (printed as a box)");
}
}  // namespace

void set_command(Console& console, SetOptions const& options) {
  Order order(console, options);
  if (!order.read()) return;
  auto templates = read_templates(question_templates());
  for (auto const& found : templates.faults) console.report(found.fault, found.name);
  QuestionMaker maker(std::move(templates.templates), console.course);
  auto const seed = options.seed ? *options.seed : order.file().seed.value_or(order.file().plan.title);
  auto const made = make_set(order.file().plan, order.members(), seed, maker);
  if (!ok(made)) return console.report(placed(fault(made), order.file(), seed, maker), options.set_file);
  auto const& set = value(made);

  warn_of_missing_glyphs(console, set);
  auto const size = options.page == "Letter" ? PageSize::letter : PageSize::a4;
  auto const sheets = sheet_document(set);
  auto const answers = answers_document(set);
  auto const card = marking_card(set);
  OutputFolder out(options.out);
  out.add("sheets.pdf", sheets_pdf(sheets, size));
  out.add("sheets.txt", sheets_text(sheets));
  out.add("answers.pdf", answers_pdf(answers, size));
  out.add("answers.txt", answers_text(answers));
  out.add("marking-card.pdf", marking_card_pdf(card, size));
  out.add("marking-card.txt", marking_card_text(card));
  out.add("answers-to-fill.csv", answers_to_fill(set));
  out.add("set.jsonl", set_lines(set));
  auto const written = out.write();
  if (!ok(written)) return console.report(fault(written), options.out);

  std::size_t questions = 0;
  for (auto const& paper : set.papers) questions += paper.questions.size();
  if (console.json) {
    console.print_json(Json{{"title", set.title},
                            {"papers", set.papers.size()},
                            {"questions", questions},
                            {"files", value(written)},
                            {"notes", set.notes}});
    return;
  }
  console.print(set.title + ": " + counted(set.papers.size(), "paper") + ", " + counted(questions, "question") + '.');
  for (auto const& note : set.notes) console.print("  note: " + note);
  console.print("In " + options.out + ':');
  for (auto const& [name, about] : set_files) console.print(fmt::format("  {:<20} {}", name, about));
}

}  // namespace molewright
