#include "marker/probe.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <string_view>

#include "engine/steps.h"
#include "marker/words.h"

namespace molewright {
namespace {

/// What a working comes to at a step: a number, or the formula that is chosen.
struct Said {
  Rational number;
  std::string formula;
  bool known = false;
};

bool same(Said const& a, Said const& b) {
  if (!a.known || !b.known) return a.known == b.known;
  if (a.formula != b.formula) return false;
  double const x = a.number.to_double(), y = b.number.to_double();
  constexpr double one_in_three_figures = 2e-3;
  return std::abs(x - y) <= one_in_three_figures * std::max(std::abs(x), std::abs(y));
}

/// `right`: what a step is in the right working says what it is; a slip may have put a bare number in place of a choice.
Said said_at(Working const& working, Working const& right, std::string const& id) {
  Said out;
  int const at = working.find_node(id), as_it_should_be = right.find_node(id);
  if (at < 0 || as_it_should_be < 0) return out;
  auto const& number = working.nodes[static_cast<std::size_t>(at)].value.number;
  out.known = true;
  auto step = right.nodes[static_cast<std::size_t>(as_it_should_be)];
  step.value.number = number;
  if (step.definition.operation == Operation::choose) {
    out.known = number.sign() >= 0 && number < Rational(static_cast<std::int64_t>(step.definition.terms.size()));
    if (out.known) out.formula = chosen_formula(right, step);
  } else {
    out.number = number;
  }
  return out;
}

/// Of the applications of a candidate's slips, the working whose answer lies nearest to what was written.
std::optional<Working> working_of(Candidate const& candidate, Question const& question, std::size_t find,
                                  std::vector<Application> const& all, double written, Conventions const& conventions) {
  auto const& right = question.worked.accepted.front();
  std::vector<Edits> ways{{}};
  bool anywhere = false;
  for (auto const& slip : candidate.slips) {
    std::vector<Edits> longer;
    for (auto const& way : ways)
      for (auto const& application : all) {
        if (application.slip->id != slip.id || application.node != slip.node) continue;
        auto edits = way;
        edits.insert(edits.end(), application.edits.begin(), application.edits.end());
        longer.push_back(std::move(edits));
      }
    if (longer.empty() && candidate.slips.size() > 1) continue;  // of a pair, the unit that is written beside the number
    anywhere = anywhere || !longer.empty();
    ways = std::move(longer);
  }
  if (!anywhere) return std::nullopt;
  std::optional<Working> best;
  double least = 0;
  for (auto const& edits : ways) {
    auto result = run(question.worked, right, edits, conventions);
    auto* const working = std::get_if<Working>(&result);
    if (working == nullptr || find >= working->finds.size()) continue;
    double const value = working->nodes[static_cast<std::size_t>(working->finds[find].node)].value.number.to_double();
    double const distance = std::abs(value - written);
    if (best && distance >= least) continue;
    least = distance;
    best = std::move(*working);
  }
  return best;
}

/// The number that was written, in the asked unit where it can be had.
double number_written(Judgement const& judgement, Unit const& asked, Conventions const& conventions) {
  auto const written = read_written(judgement.given, conventions.mark);
  double number = written.number.value.to_double();
  if (written.unit && written.unit->dimension == asked.dimension) number *= (written.unit->factor / asked.factor).to_double();
  return number;
}

std::string printed(Said const& said, Node const& node, Conventions const& conventions) {
  if (!said.formula.empty()) return pretty_formula(said.formula);
  constexpr int least_figures = 3, most_figures = 5;
  int figures = least_figures;
  if (node.value.last_place && node.value.number.sign() != 0)
    figures = std::clamp(figures_at(node.value.number, *node.value.last_place), least_figures, most_figures);
  else if (!node.value.last_place)
    figures = most_figures;
  auto const number = said.number.sign() == 0
                          ? std::string("0")
                          : print_to_figures(said.number, figures, nearest_by(conventions.ties), conventions.mark).pretty;
  return measure_text(number, node.value.unit, conventions);
}

/// Of each node, whether what the student got there is known: a line of working shows it, or a line that is right rests on it.
std::vector<char> known_from_lines(Working const& working, Judgement const& judgement) {
  std::vector<char> known(working.nodes.size());
  std::vector<int> right;
  for (auto const& line : judgement.lines) {
    int const at = working.find_node(line.node);
    if (at < 0 || line.verdict == LineVerdict::not_placed) continue;
    known[static_cast<std::size_t>(at)] = 1;
    if (line.verdict == LineVerdict::right) right.push_back(at);
  }
  while (!right.empty()) {
    auto const& node = working.nodes[static_cast<std::size_t>(right.back())];
    right.pop_back();
    for (auto const& term : node.definition.terms)
      if (auto& seen = known[static_cast<std::size_t>(term.node)]; seen == 0) {
        seen = 1;
        right.push_back(term.node);
      }
  }
  return known;
}

/// The candidates by what they would say at one step.
struct Parting {
  int node = 0;
  std::vector<Probe::Reply> replies;
  double doubt = 0;  ///< bits expected to be left
};
}  // namespace

std::vector<int> steps_to_ask(Working const& working, std::size_t find) {
  static constexpr std::array<std::string_view, 3> small{relations::group_mass, relations::titre, relations::given};
  std::vector<int> steps;
  for (int const i : order_of_work(working, find)) {
    auto const& node = working.nodes[static_cast<std::size_t>(i)];
    bool const is_small = std::any_of(small.begin(), small.end(), [&](auto const& one) { return node.relation == one; });
    // An amount over the number 1 is that amount once more.
    bool const says_nothing =
        node.relation == relations::batches &&
        node.value.number == working.nodes[static_cast<std::size_t>(node.definition.terms.front().node)].value.number;
    if (is_a_step(node.definition) && i != working.finds[find].node && !is_small && !says_nothing) steps.push_back(i);
  }
  return steps;
}

std::optional<Probe> probe(Question const& question, std::size_t find, Judgement const& judgement,
                           Conventions const& conventions) {
  auto const& right = question.worked.accepted.front();
  auto const& asked = question.worked.problem.finds[find];
  bool const worked_out = asked.kind == Find::Kind::number || asked.kind == Find::Kind::limiting_reagent;
  if (judgement.value != ValueVerdict::wrong || !worked_out || question.form != Form::open) return std::nullopt;
  auto asked_nodes = steps_to_ask(right, find);
  auto const known_steps = known_from_lines(right, judgement);
  auto const answer = step_name(right.nodes[static_cast<std::size_t>(right.finds[find].node)]);
  std::erase_if(asked_nodes, [&](int i) {  // the answer in another unit was given, too
    auto const& node = right.nodes[static_cast<std::size_t>(i)];
    return known_steps[static_cast<std::size_t>(i)] != 0 || step_name(node) == answer;
  });
  if (asked_nodes.empty() && judgement.candidates.empty()) return std::nullopt;

  Probe out;
  auto const at = [&](int i) -> Node const& { return right.nodes[static_cast<std::size_t>(i)]; };
  auto const name_it = [&](int i) {
    out.node = at(i).id;
    out.step = step_name(at(i));
  };
  if (asked_nodes.empty()) {
    name_it(right.finds[find].node);
    return out;
  }
  if (judgement.candidates.empty()) {
    name_it(asked_nodes[(asked_nodes.size() - 1) / 2]);
    auto const value = said_at(right, right, out.node);
    out.replies = {{printed(value, at(right.find_node(out.node)), conventions), true, {}}, {"", false, {}}};
    return out;
  }

  auto all = applications(question.worked, right, conventions);
  auto const written = number_written(judgement, at(right.finds[find].node).value.unit, conventions);
  std::vector<std::optional<Working>> workings;
  double known = 0;
  for (auto const& candidate : judgement.candidates) {
    workings.push_back(working_of(candidate, question, find, all, written, conventions));
    known += candidate.probability;
  }
  std::optional<Parting> best;
  for (int const i : asked_nodes) {
    Parting parting{i, {}, 0};
    auto const value = said_at(right, right, at(i).id);
    std::vector<Said> said{value};
    parting.replies.push_back({printed(value, at(i), conventions), true, {}});
    for (std::size_t c = 0; c < workings.size(); ++c) {
      auto const own = workings[c] ? said_at(*workings[c], right, at(i).id) : Said{};
      std::size_t group = 0;
      while (group < said.size() && !same(said[group], own)) ++group;
      if (group == said.size()) {
        said.push_back(own);
        parting.replies.push_back({own.known ? printed(own, at(i), conventions) : "", false, {}});
      }
      parting.replies[group].candidates.push_back(c);
    }
    // Causes that are none of these may say anything: they share the right value's reply with half a vote.
    double const none = std::max(0.0, 1 - known);
    for (std::size_t g = 0; g < parting.replies.size(); ++g) {
      double share = g == 0 ? none : 0;
      for (auto const c : parting.replies[g].candidates) share += judgement.candidates[c].probability;
      for (auto const c : parting.replies[g].candidates) {
        double const p = judgement.candidates[c].probability;
        if (p > 0) parting.doubt -= p * std::log2(p / share);
      }
      if (g == 0 && none > 0) parting.doubt -= none * std::log2(none / share);
    }
    if (!best || parting.doubt < best->doubt - 1e-9) best = std::move(parting);
  }
  bool const parts = best->replies.size() > 1;
  name_it(parts ? best->node : asked_nodes.back());
  if (parts) {
    out.replies = std::move(best->replies);
    return out;
  }
  // All of them have every step as it should be, or part in no number: how was the step of the likeliest done?
  int const place = right.find_node(judgement.candidates.front().slips.front().node);
  if (place >= 0) name_it(place);
  return out;
}

}  // namespace molewright
