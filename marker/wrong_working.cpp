#include "marker/wrong_working.h"

#include <algorithm>
#include <cmath>
#include <set>

#include "engine/steps.h"
#include "marker/slip.h"

namespace molewright {
namespace {

/// A line, and the node it is about.
struct Line {
  std::string node, text;
  friend bool operator==(Line const& a, Line const& b) { return a.node == b.node && a.text == b.text; }
};

/// A step with the place where it is printed.
struct Placed {
  Step step;
  std::size_t part, line;
};

/// The steps on the way to a find, with those that are printed at an earlier one.
std::vector<Placed> whole_way(Worked const& worked, Working const& working, std::size_t find, Conventions const& conventions) {
  auto const way = order_of_work(working, find);
  std::vector<Placed> all;
  for (std::size_t part = 0; part <= find; ++part) {
    auto printed = steps(worked, working, part, conventions);
    for (std::size_t line = 0; line < printed.size(); ++line)
      if (std::find(way.begin(), way.end(), printed[line].node) != way.end())
        all.push_back({std::move(printed[line]), part, line});
  }
  return all;
}

std::vector<Line> lines_of(Worked const& worked, Working const& working, std::size_t find, Conventions const& conventions) {
  std::vector<Line> lines;
  for (auto& [step, part, line] : whole_way(worked, working, find, conventions))
    lines.push_back({working.nodes[static_cast<std::size_t>(step.node)].id, std::move(step.line)});
  return lines;
}

SlipAnswer const* nearest_to(SlipTable const& table, std::size_t find, std::string_view slip, std::string_view node,
                             std::optional<double> answer) {
  SlipAnswer const* best = nullptr;
  double least = 0;
  for (auto const& one : table.by_find[find]) {
    if (one.slip->id != slip || one.node != node) continue;
    double const distance = answer ? std::abs(one.value - *answer) : 0;
    if (best && distance >= least) continue;
    best = &one;
    least = distance;
  }
  return best;
}

/// Whether the lines lead rightly to what another find asks for: right, and in the wrong place.
bool answers_another_part(Worked const& worked, Working const& right, std::size_t find, std::vector<Line> const& lines,
                          Conventions const& conventions) {
  std::vector<Line> of_all;
  bool ends_there = false;
  for (std::size_t other = 0; other < right.finds.size(); ++other) {
    auto const those = lines_of(worked, right, other, conventions);
    ends_there = ends_there || (other != find && !those.empty() && those.back() == lines.back());
    of_all.insert(of_all.end(), those.begin(), those.end());
  }
  return ends_there && std::all_of(lines.begin(), lines.end(), [&](Line const& line) {
           return std::find(of_all.begin(), of_all.end(), line) != of_all.end();
         });
}
}  // namespace

std::optional<WrongWorking> wrong_working(Question const& question, std::size_t find, std::string_view slip,
                                          std::string_view node, std::optional<double> answer, Conventions const& conventions) {
  auto const& worked = question.worked;
  auto const& right = worked.accepted.front();
  if (find >= right.finds.size()) return std::nullopt;
  auto const table = slip_table(worked, conventions);
  auto const* leads_there = nearest_to(table, find, slip, node, answer);
  if (!leads_there) return std::nullopt;
  auto const& application = table.all[leads_there->application];
  auto const ran = run(worked, right, application.edits, conventions);
  if (std::holds_alternative<PlacedFault>(ran)) return std::nullopt;
  auto const wrong_lines = lines_of(worked, std::get<Working>(ran), find, conventions);
  auto const right_lines = lines_of(worked, right, find, conventions);
  if (wrong_lines.empty() || answers_another_part(worked, right, find, wrong_lines, conventions)) return std::nullopt;
  std::set<std::string> known;
  for (auto const& line : right_lines) known.insert(line.text);
  WrongWorking out;
  out.value = leads_there->value;
  for (auto const& line : wrong_lines) out.lines.push_back(line.text);
  auto const first =
      std::find_if(wrong_lines.begin(), wrong_lines.end(), [&](Line const& line) { return known.count(line.text) == 0; });
  if (first == wrong_lines.end()) {
    if (wrong_lines.size() >= right_lines.size()) return std::nullopt;
    out.wrong = wrong_lines.size() - 1;  // it stops short
    return out;
  }
  out.wrong = static_cast<std::size_t>(first - wrong_lines.begin());
  auto same = right_lines.end();
  // Whoever takes the wrong reagent has no line for the comparison that was left out.
  if (application.slip->group == "limiting")
    same = std::find_if(right_lines.begin(), right_lines.end(), [&](Line const& line) {
      int const at = right.find_node(line.node);
      return at >= 0 && right.nodes[static_cast<std::size_t>(at)].relation == relations::limiting;
    });
  if (same == right_lines.end())
    same = std::find_if(right_lines.begin(), right_lines.end(), [&](Line const& line) { return line.node == first->node; });
  if (same == right_lines.end())  // another quantity was worked in place of the right one
    same = std::find_if(right_lines.begin(), right_lines.end(), [&](Line const& line) {
      return std::find(out.lines.begin(), out.lines.end(), line.text) == out.lines.end();
    });
  if (same != right_lines.end()) out.instead = same->text;
  return out;
}

std::optional<RightStep> right_step(Question const& question, std::size_t find, std::string_view node,
                                    Conventions const& conventions) {
  auto const& working = question.worked.accepted.front();
  for (auto& [step, part, line] : whole_way(question.worked, working, find, conventions)) {
    auto const& shown = working.nodes[static_cast<std::size_t>(step.node)];
    bool const rests = std::any_of(shown.definition.terms.begin(), shown.definition.terms.end(), [&](Term const& term) {
      return working.nodes[static_cast<std::size_t>(term.node)].id == node;
    });
    if (shown.id == node || rests) return RightStep{std::move(step.line), part, line};
  }
  return std::nullopt;
}

}  // namespace molewright
