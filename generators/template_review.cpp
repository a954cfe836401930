#include "generators/template_review.h"

#include <algorithm>
#include <map>
#include <set>

#include "engine/ascii.h"
#include "engine/statement.h"
#include "engine/tsv.h"
#include "generators/plan.h"
#include "generators/rejections.h"
#include "generators/review_parts.h"

namespace molewright {
namespace {

constexpr std::uint32_t draws = 200;       ///< that are looked at
constexpr std::size_t ways_to_review = 6;  ///< of these, choices of substances whose problems are reviewed
constexpr int seldom = 3;                  ///< of a hundred draws: fewer that are fit are too few

/// The templates of a file, each behind as many empty lines as stand before it, so that line numbers stay.
std::vector<std::string> parts_of(std::vector<std::string_view> const& lines) {
  std::vector<std::string> parts;
  bool in_text = false;
  for (std::size_t i = 0; i < lines.size(); ++i) {
    auto const word = statement_start(without_comment(lines[i])).keyword;
    if (in_text)
      in_text = stripped(lines[i]) != "end";
    else if (word == "text")
      in_text = true;
    else if (word == "template" || parts.empty()) {
      if (word != "template") continue;  // comments above
      parts.emplace_back(i, '\n');
    }
    if (!parts.empty()) (parts.back() += lines[i]) += '\n';
  }
  return parts;
}

class TemplateReview {
 public:
  TemplateReview(std::string const& text, Course const& course)
      : text_(text), course_(course), lines_(split_cells(text_, '\n')), out_{blank_, course, nullptr, lines_, {}} {
    first_ = static_cast<std::size_t>(
                 std::find_if(lines_.begin(), lines_.end(), [](auto line) { return !stripped(line).empty(); }) - lines_.begin()) +
             1;
  }

  Reviewed run() {
    auto read = parse_template(text_);
    for (PlacedFault const& placed : read.faults) say(placed.fault, placed.line);
    std::string name = "line " + std::to_string(first_);
    if (read.read) {
      template_ = std::move(*read.read);
      name = template_.name;
      look_at_names();
      draw_some();
      look_at_finds();
      review_what_is_drawn();
    }
    std::stable_sort(out_.findings.begin(), out_.findings.end(), [](auto const& a, auto const& b) { return a.line < b.line; });
    return {name, std::move(out_.findings)};
  }

 private:
  /// A fault of reading, or of a plan.
  void say(Fault const& found, std::size_t line) {
    out_.say(found.id, std::max(line, first_), {{"what", found.what}, {"enough", found.expected}});
  }

  /// A name of a row that nothing uses; where nothing uses any of the row the reader has said so. A set's columns come as they
  /// are.
  void look_at_names() {
    std::string everything;
    for (auto const* list : {&template_.lines, &template_.wordings})
      for (TemplateLine const& line : *list) everything += line.text + '\n';
    for (Requirement const& one : template_.requirements) everything += one.quantity + ' ' + one.over + ' ' + one.bound + '\n';
    for (Let const& let : template_.lets)
      for (std::string const& factor : let.pick.factors) everything += factor + '\n';
    for (Let const& let : template_.lets) {
      auto const& sets = named_sets();
      if (let.names.size() < 2 ||
          std::any_of(sets.begin(), sets.end(), [&](NamedSet const& set) { return set.columns == let.names; }))
        continue;
      for (std::string const& name : let.names)
        if (everything.find('{' + name + '}') == std::string::npos)
          out_.say("unused-variable", let.place.line, {{"what", "nothing uses " + name}});
    }
  }

  /// Draws whose numbers are fit, one for each choice of substances first; faults of the ways of working.
  void draw_some() {
    std::map<std::vector<std::uint32_t>, std::unique_ptr<Plan>> plans;
    std::map<std::vector<std::uint32_t>, int> kept_of;
    for (std::uint32_t k = 0; k < draws; ++k) {
      Drawn const drawn = draw(template_, k, 0);
      if (k == 0) any_ = drawn;
      std::vector<std::uint32_t> key;
      for (std::size_t i = 0; i < template_.lets.size(); ++i)
        if (!template_.lets[i].number) key.push_back(drawn.picks[i]);
      auto at = plans.find(key);
      if (at == plans.end()) {
        auto made = Plan::make(template_, drawn, course_);
        if (auto const* placed = std::get_if<PlacedFault>(&made)) {
          if (!depends_on_numbers(placed->fault)) at = plans.emplace(key, nullptr).first;
          note_fault(*placed, drawn);
          continue;
        }
        at = plans.emplace(key, std::move(std::get<0>(made))).first;
      }
      if (at->second == nullptr) continue;
      at->second->put(drawn);
      auto const broken = at->second->all_broken();
      thrown_out_.take(broken);
      if (!broken.empty()) continue;
      if (kept_of[key]++ == 0 && kept_.size() < ways_to_review) kept_.push_back(drawn);
    }
    while (!kept_.empty() && kept_.size() < template_.wordings.size()) kept_.push_back(kept_.back());
    if (thrown_out_.by.empty() || thrown_out_.fit * 100 >= seldom * thrown_out_.draws) return;
    auto const by = thrown_out_.most().front().second;
    out_.say(thrown_out_.fit == 0 ? "nothing-fits" : "rarely-fits", std::max(by.line, first_),
             {{"fit", std::to_string(thrown_out_.fit)},
              {"draws", std::to_string(thrown_out_.draws)},
              {"limits", thrown_out_.words()}});
  }

  void note_fault(PlacedFault const& placed, Drawn const& drawn) {
    if (depends_on_numbers(placed.fault)) {
      thrown_out_.take(placed.fault.what);
      return;
    }
    bool const of_a_line = placed.fault.id == "require" || placed.line > 1;
    if (of_a_line || placed.fault.id == "chemistry") {
      say(placed.fault, placed.line);
      return;
    }
    // What the solver lacks or finds contradicting is said of the problem that was drawn.
    if (kept_.size() < ways_to_review) kept_.push_back(drawn);
  }

  /// Each find by itself, where all together cannot be worked.
  void look_at_finds() {
    std::set<std::size_t> said;
    for (Drawn const& drawn : kept_) {
      auto const file = parse_problems(as_problem(drawn, 0));
      if (file.problems.empty()) continue;
      auto const whole = solve(file.problems.front(), course_.conventions);
      if (std::get_if<PlacedFault>(&whole) == nullptr) continue;
      for (Find const& find : file.problems.front().finds) {
        Problem alone = file.problems.front();
        alone.finds = {find};
        auto const result = solve(alone, course_.conventions);
        auto const* placed = std::get_if<PlacedFault>(&result);
        if (placed == nullptr || placed->fault.id != "missing-data" || !said.insert(find.place.line).second) continue;
        out_.say("unreachable-find", find.place.line,
                 {{"find", plain(find)}, {"because", placed->fault.what}, {"enough", placed->fault.expected}});
      }
    }
  }

  void review_what_is_drawn() {
    std::vector<Problem> wordings;
    for (std::size_t i = 0; i < std::max(kept_.size(), template_.wordings.size()); ++i) {
      std::size_t const w = i % template_.wordings.size();
      auto const text = as_problem(kept_.empty() ? any_ : kept_[i % kept_.size()], w);
      if (i < template_.wordings.size()) {
        auto const file = parse_problems(as_problem(kept_.empty() ? any_ : kept_.front(), w));
        if (!file.problems.empty()) {
          wordings.push_back(file.problems.front());
          wordings.back().place.line = template_.wordings[w].place.line;
        }
      }
      if (kept_.empty()) continue;
      for (Reviewed& one : review(text, course_))
        for (Finding& finding : one.findings) {
          if (finding.kind == "missing-given" && out_.said("unreachable-find")) continue;
          bool const there = std::any_of(out_.findings.begin(), out_.findings.end(), [&](Finding const& other) {
            return other.kind == finding.kind && other.line == finding.line;
          });
          if (!there) out_.findings.push_back(std::move(finding));
        }
    }
    reviewing::look_at_wordings(out_, wordings);
  }

  /// A draw as a problem of the problem language, each statement in the line where the template has it.
  std::string as_problem(Drawn const& drawn, std::size_t wording) const {
    Binding const binding = binding_of(template_, drawn);
    std::vector<std::string> out(lines_.size());
    out[first_ - 1] = "problem " + template_.name;
    for (TemplateLine const& line : template_.lines) out[line.place.line - 1] = filled(line.text, binding);
    for (std::size_t i = template_.wordings[wording].place.line - 1; i < lines_.size(); ++i) {
      out[i] = filled(lines_[i], binding);
      if (stripped(lines_[i]) == "end") break;
    }
    std::string all;
    for (auto const& line : out) all += line + '\n';
    return all;
  }

  std::string text_;
  Course const& course_;
  std::vector<std::string_view> lines_;
  Problem blank_;
  reviewing::Review out_;
  std::size_t first_ = 1;
  Template template_;
  Drawn any_;
  std::vector<Drawn> kept_;
  Rejections thrown_out_;
};

}  // namespace

bool holds_templates(std::string_view text) {
  for (auto const line : split_cells(text, '\n'))
    if (auto const word = statement_start(without_comment(line)).keyword; !word.empty()) return word == "template";
  return false;
}

std::vector<Reviewed> review_templates(std::string_view text, Course const& course) {
  std::vector<Reviewed> all;
  for (auto const& part : parts_of(split_cells(text, '\n'))) all.push_back(TemplateReview(part, course).run());
  return all;
}

}  // namespace molewright
