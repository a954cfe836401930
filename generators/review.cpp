#include "generators/review.h"

#include <algorithm>
#include <map>

#include "engine/ascii.h"
#include "engine/statement.h"
#include "engine/tsv.h"
#include "generators/review_parts.h"
#include "generators/template_review.h"

namespace molewright {
namespace {

/// Loose problems get a name where they begin, in their own line, so that all line numbers stay: a block after a blank line that
/// gives and asks something, after another loose block that did.
std::string with_problem_lines(std::vector<std::string_view> const& lines) {
  std::string out;
  bool named = false, in_text = false, asked = false, blank = true;
  int loose = 0;
  for (std::size_t i = 0; i < lines.size(); ++i) {
    auto const content = stripped(without_comment(lines[i]));
    auto const word = statement_start(content).keyword;
    if (i > 0) out += '\n';
    if (in_text) {
      in_text = stripped(lines[i]) != "end";
    } else if (content.empty()) {
      blank = blank || stripped(lines[i]).empty();
    } else {
      if (word == "problem") {
        named = true;
      } else if (blank && !named && (loose == 0 || (asked && (word == "given" || word == "reaction")))) {
        out += "problem loose-" + std::to_string(++loose) + "; ";
        asked = false;
      }
      asked = asked || word == "find";
      in_text = word == "text" && content.find(';') == std::string_view::npos;
      blank = false;
    }
    out += lines[i];
  }
  return out;
}

void add_engine_fault(reviewing::Review& review, PlacedFault const& placed) {
  auto const& found = placed.fault;
  std::size_t const line = placed.line > 0 ? placed.line : review.problem.place.line;
  Binding const holes{{"what", found.what}, {"enough", found.expected.empty() ? "data that agree" : found.expected}};
  bool const of_equation = found.id == "no-solution" || found.id == "not-unique" || found.id == "does-not-happen";
  if (of_equation && (review.said("no-such-reaction") || review.said("impossible-equation"))) return;
  if (found.id == "missing-data") {
    review.say("missing-given", line, holes);
  } else if (found.id == "contradiction" && found.what.find("in excess") != std::string::npos) {
    review.say("not-in-excess", review.line_of("excess"), holes);
  } else if (found.id == "contradiction" || found.id == "given-twice") {
    review.say("contradiction", line, holes);
  } else if (found.id == "does-not-happen") {
    review.say(
        "no-such-reaction", line,
        {{"reactants", "these reagents"}, {"products", "these products"}, {"because", found.what}, {"mend", found.expected}});
  } else if (of_equation) {
    review.say("impossible-equation", line,
               {{"because", found.what}, {"mend", "complete or correct the substances of the equation"}});
  } else if (found.id == "more-than-all") {
    if (!review.said("above-100-percent")) review.say("above-100-percent", line, holes);
  } else {
    review.say(found.id, line, holes);
  }
}

/// Two questions of a file with one answer: who has one has the other.
void look_at_same_answers(std::vector<Reviewed>& all, std::vector<std::optional<Worked>> const& worked,
                          std::vector<std::string_view> const& lines, Course const& course) {
  struct Seen {
    std::string problem;
    std::size_t index;
  };
  std::map<std::string, Seen> seen;
  for (std::size_t i = 0; i < worked.size(); ++i) {
    if (!worked[i]) continue;
    auto const& working = worked[i]->accepted.front();
    for (std::size_t f = 0; f < working.finds.size(); ++f) {
      auto const& answer = working.finds[f];
      if (answer.figures < 2) continue;
      auto const text = answer.text + ' ' + working.nodes[static_cast<std::size_t>(answer.node)].value.unit.symbol;
      auto const [at, fresh] = seen.emplace(text, Seen{worked[i]->problem.id, i});
      if (fresh || at->second.index == i) continue;
      reviewing::Review review{worked[i]->problem, course, nullptr, lines, std::move(all[i].findings)};
      review.say("same-answer", worked[i]->problem.finds[f].place.line,
                 {{"find", plain(worked[i]->problem.finds[f])}, {"value", text}, {"other", at->second.problem}});
      all[i].findings = std::move(review.findings);
    }
  }
}
}  // namespace

std::vector<Reviewed> review(std::string_view file_text, Course const& course) {
  if (holds_templates(file_text)) return review_templates(file_text, course);
  auto const lines = split_cells(file_text, '\n');
  auto const text = with_problem_lines(lines);
  auto const file = parse_problems(text, course.conventions.mark);
  std::vector<Reviewed> all;
  std::vector<std::optional<Worked>> worked;
  for (auto const& problem : file.problems) {
    worked.emplace_back();
    auto solved = solve(problem, course.conventions);
    if (auto* done = std::get_if<Worked>(&solved)) worked.back() = std::move(*done);
    reviewing::Review one{problem, course, worked.back() ? &*worked.back() : nullptr, lines, {}};
    reviewing::look_at_reactions(one);
    reviewing::look_at_data(one);
    if (auto const* found = std::get_if<PlacedFault>(&solved)) add_engine_fault(one, *found);
    if (one.worked != nullptr) {
      reviewing::look_at_answers(one);
      reviewing::look_at_bench(one);
    }
    reviewing::look_at_text(one);
    all.push_back({problem.id, std::move(one.findings)});
  }
  look_at_same_answers(all, worked, lines, course);
  for (auto& one : all)
    std::stable_sort(one.findings.begin(), one.findings.end(), [](auto const& a, auto const& b) { return a.line < b.line; });
  for (auto const& placed : file.faults) {
    std::string name = "line " + std::to_string(placed.line);
    for (std::size_t i = placed.line; i-- > 0;) {
      if (statement_start(lines[i]).keyword != "problem") continue;
      name = std::string(stripped(without_comment(lines[i]).substr(statement_start(lines[i]).rest)));
      break;
    }
    Finding const finding{placed.fault.id,       placed.line, placed.fault.what, "the problem cannot be read as it stands",
                          placed.fault.expected, ""};
    auto const same = std::find_if(all.begin(), all.end(), [&](Reviewed const& r) { return r.problem == name; });
    if (same != all.end())
      same->findings.push_back(finding);
    else
      all.push_back({name, {finding}});
  }
  return all;
}

}  // namespace molewright
