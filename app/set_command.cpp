#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <future>
#include <nlohmann/json.hpp>
#include <set>

#include "app/answers_to_fill.h"
#include "app/commands.h"
#include "app/files.h"
#include "app/maker_pool.h"
#include "app/marks_store.h"
#include "app/practice_order.h"
#include "app/question_templates.h"
#include "app/set_order.h"
#include "app/set_store.h"
#include "generators/kinds.h"
#include "generators/letters.h"
#include "generators/separation_report.h"
#include "templates/from_set.h"
#include "templates/pages.h"
#include "templates/volumes.h"

namespace molewright {
namespace {

/// Puts each student's practice in place of the first questions of their paper.
class Practice {
 public:
  Practice(std::vector<StoredMarks> const& results, QuestionMaker& maker, std::string seed, SetHistory const& history)
      : wanted_(practice_of(results, maker)),
        practice_(maker),
        seed_(std::move(seed)),
        texts_(history.texts),
        seen_(history.seen) {}

  void take_up(ProblemSet& set) {
    for (auto& paper : set.papers) {
      auto const at = wanted_.find(paper.student);
      if (at == wanted_.end()) continue;
      auto const put = put_practice(paper, at->second, practice_, seed_, texts_, seen_[paper.student]);
      questions_ += put;
      students_ += put > 0 ? 1 : 0;
    }
    letters_.settle(set);
  }
  std::string note() const {
    return std::to_string(questions_) + (questions_ == 1 ? " question" : " questions") + " on the slips of " +
           std::to_string(students_) + (students_ == 1 ? " student" : " students") + "; the others are as the order has them";
  }

 private:
  std::map<std::string, std::vector<ToPractise>> wanted_;
  SlipPractice practice_;
  std::string seed_;
  Wordings texts_;
  std::map<std::string, Wordings> seen_;
  Letters letters_;
  std::size_t questions_ = 0, students_ = 0;
};

/// The documents of a set, written a volume at a time. One volume has the plain names; of several each has its own PDFs.
class SetWriter {
 public:
  SetWriter(Console& console, SetOptions const& options, std::size_t papers)
      : console_(console),
        size_(options.page == "Letter" ? PageSize::letter : PageSize::a4),
        out_(options.out),
        volumes_(volumes_of(papers)),
        jobs_(options.jobs) {}

  void add(ProblemSet const& set) {
    ++volume_;
    warn_of_missing_glyphs(set);
    for (auto const& paper : set.papers) questions_ += paper.questions.size();
    auto const policy = jobs_ > 1 ? std::launch::async : std::launch::deferred;
    auto sheets = std::async(policy, [&] {
      auto const document = sheet_document(set);
      return std::pair{sheets_pdf(document, size_), sheets_text(document)};
    });
    auto answers = std::async(policy, [&] {
      auto const document = answers_document(set);
      return std::pair{answers_pdf(document, size_), answers_text(document)};
    });
    auto const card = marking_card(set);
    put("sheets", sheets.get());
    put("answers", answers.get());
    put("marking-card", {marking_card_pdf(card, size_), marking_card_text(card)});
    to_fill_.add(set);
    if (volume_ == 1) out_.add("set.jsonl", set_header(set));
    out_.add("set.jsonl", question_lines(set));
  }

  Result<std::vector<std::string>> write() {
    out_.add("answers-to-fill.csv", to_fill_.csv());
    auto const book = to_fill_.workbook();
    if (ok(book))
      out_.add("answers-to-fill.xlsx", value(book));
    else
      console_.report(fault(book), "answers-to-fill.xlsx");
    return out_.write();
  }
  std::size_t questions() const { return questions_; }
  std::size_t volumes() const { return volumes_; }

 private:
  void put(std::string const& name, std::pair<std::string, std::string> const& pdf_and_text) {
    out_.add(volume_name(name, ".pdf", volume_, volumes_), pdf_and_text.first);
    out_.add(name + ".txt", pdf_and_text.second);
  }

  void warn_of_missing_glyphs(ProblemSet const& set) {
    std::string all = volume_ == 1 ? set.title : "";
    if (volume_ == 1)
      for (auto const& student : set.class_order) all += student;
    for (auto const& paper : set.papers)
      for (auto const& question : paper.questions) all += question.text;
    auto const missing = paper::without_glyph(all);
    if (!missing.empty() && warned_.insert(missing).second)
      console_.warn("The fonts have no sign for: " + missing + " (printed as a box)");
  }

  Console& console_;
  PageSize size_;
  OutputFolder out_;
  AnswersToFill to_fill_;
  std::size_t volumes_, volume_ = 0, questions_ = 0;
  int jobs_;
  std::set<std::string> warned_;
};

/// The files of a set: name, and what it is to whoever made it.
constexpr std::array<std::pair<char const*, char const*>, 9> set_files{{
    {"sheets.pdf", "the sheets, to print"},
    {"sheets.txt", "the sheets as plain text"},
    {"answers.pdf", "answers with working, marks and wrong answers to expect"},
    {"answers.txt", "the same as plain text"},
    {"marking-card.pdf", "every student's answers on a few pages, to mark with a pen"},
    {"marking-card.txt", "the same as plain text"},
    {"answers-to-fill.csv", "a table for what the students write"},
    {"answers-to-fill.xlsx", "the same as a workbook of text cells; save it as CSV to have it marked"},
    {"set.jsonl", "what marking needs: keep it"},
}};

/// "about 5 100 000": two figures, for it is an estimate.
std::string about(double number) {
  double const unit = number < 100 ? 1 : std::pow(10.0, std::floor(std::log10(number)) - 1);
  std::string text = fmt::format("{:.0f}", std::round(number / unit) * unit);
  for (std::size_t at = text.size(); at > 3;) text.insert(at -= 3, " ");
  return "about " + text;
}

std::string share(SeparationReport const& report) {
  return report.questions == 0 ? "none made" : fmt::format("{:.2f} %", 100.0 * report.apart / report.questions);
}

/// Adds a template's to those of all.
void take_up(SeparationReport& all, SeparationReport const& one, std::string const& name) {
  all.questions += one.questions;
  all.apart += one.apart;
  all.by_substance += one.by_substance;
  for (auto const& [pair, times] : one.alike) all.alike[name + ": " + pair] += times;
  for (auto const& [pair, times] : one.always_alike) all.always_alike[pair] += times;
}

Json template_json(Template const& one, SeparationReport const& report, bool told_apart) {
  Json listed{{"template", one.name}, {"level", one.level}, {"questions", std::round(report.can_give)}};
  if (!told_apart) return listed;
  listed["made"] = report.questions;
  listed["told_apart"] = report.apart;
  listed["alike"] = report.alike;
  listed["by_substance"] = report.by_substance;
  listed["always_alike"] = report.always_alike;
  return listed;
}

void print_most(Console& console, std::string const& heading, std::map<std::string, int> const& counts) {
  constexpr std::size_t told = 30;
  std::vector<std::pair<std::string, int>> pairs(counts.begin(), counts.end());
  std::stable_sort(pairs.begin(), pairs.end(), [](auto const& a, auto const& b) { return a.second > b.second; });
  if (!pairs.empty()) console.print(heading);
  for (std::size_t i = 0; i < std::min(told, pairs.size()); ++i)
    console.print(fmt::format("{:>7}  {}", pairs[i].second, pairs[i].first));
}

void print_alike(Console& console, SeparationReport const& all) {
  console.print(fmt::format("All wrong answers told apart: {} of {} questions.", share(all), all.questions));
  if (all.questions > 0)
    console.print(fmt::format("Of these, with wrong answers alike that no numbers part (one entry of the key): {:.2f} %.",
                              100.0 * all.by_substance / all.questions));
  print_most(console, "Most often alike:", all.alike);
  print_most(console, "Most often alike whatever is drawn:", all.always_alike);
}

std::string counted(std::size_t number, std::string const& what) {
  return std::to_string(number) + ' ' + what + (number == 1 ? "" : "s");
}

}  // namespace

void kinds_command(Console& console, int told_apart) {
  auto templates = read_templates(question_templates());
  for (auto const& found : templates.faults) console.report(found.fault, found.name);
  QuestionMaker maker(std::move(templates.templates), console.course);
  SeparationReport all;
  for (auto const& kind : kinds_of(maker.templates())) {
    Json listed = Json::array();
    if (!console.json) console.print(fmt::format("{:<24} {}", kind, kind_words(kind)));
    for (char const* level : {"plain", "standard", "stretching"})
      for (auto const& one : maker.templates()) {
        if (one.kind != kind || one.level != level) continue;
        auto const report = separation_report(maker, one, told_apart);
        take_up(all, report, one.name);
        if (console.json)
          listed.push_back(template_json(one, report, told_apart > 0));
        else
          console.print(fmt::format("    {:<11} {:<40} {} questions{}", one.level, one.name, about(report.can_give),
                                    told_apart > 0 ? "; told apart: " + share(report) : ""));
      }
    if (console.json) console.print_json(Json{{"kind", kind}, {"words", kind_words(kind)}, {"templates", listed}});
  }
  if (told_apart > 0 && !console.json) print_alike(console, all);
}

void set_command(Console& console, SetOptions const& options) {
  SetOrder order(console, options);
  if (!order.read()) return;
  QuestionMaker maker(order.templates(), console.course);
  if (!order.results().empty()) order.take_items(items_of(order.results().back(), maker));
  auto const seed = options.seed ? *options.seed : order.file().seed.value_or(order.file().plan.title);
  auto history = order.history();
  note_seen(order.results(), maker, history);
  auto begun = SetMaker::begin(order.file().plan, order.members(), seed, maker, history);
  if (!ok(begun)) return console.report(placed(fault(begun), order.file(), seed, maker), options.set_file);
  auto& set_maker = *value(begun);
  std::optional<MakerPool> pool;
  if (options.jobs > 1) pool.emplace(maker.templates(), console.course, options.jobs);
  MakeMany make_many;
  if (pool) make_many = [&pool](std::vector<Ask> const& asks) { return (*pool)(asks); };
  std::optional<Practice> practice;
  if (!order.results().empty()) practice.emplace(order.results(), maker, seed, history);
  SetWriter writer(console, options, set_maker.papers());
  for (std::size_t made = 0; made < set_maker.papers(); made += students_of_a_volume) {
    auto set = set_maker.next(students_of_a_volume, make_many);
    if (!ok(set)) return console.report(placed(fault(set), order.file(), seed, maker), options.set_file);
    if (practice) practice->take_up(value(set));
    writer.add(value(set));
  }
  auto const written = writer.write();
  if (!ok(written)) return console.report(fault(written), options.out);
  auto notes = set_maker.notes();
  if (practice) notes.push_back(practice->note());
  if (console.json) {
    console.print_json(Json{{"title", order.file().plan.title},
                            {"papers", set_maker.papers()},
                            {"questions", writer.questions()},
                            {"files", value(written)},
                            {"notes", notes}});
    return;
  }
  console.print(order.file().plan.title + ": " + counted(set_maker.papers(), "paper") + ", " +
                counted(writer.questions(), "question") + '.');
  for (auto const& note : notes) console.print("  note: " + note);
  console.print("In " + options.out + (writer.volumes() > 1 ? fmt::format(" (PDFs in {} volumes):", writer.volumes()) : ":"));
  for (auto const& [name, about] : set_files) console.print(fmt::format("  {:<21} {}", name, about));
}

}  // namespace molewright
