#include "generators/telling_apart.h"

#include <algorithm>
#include <cmath>

#include "generators/random.h"
#include "marker/slip_key.h"

namespace molewright {
namespace {

constexpr int most_questions = 24;  ///< tried of a template
constexpr int best_of_kind = 6;     ///< of each other template of the kind

/// The number as it would be handed in: floating point is near enough, for nobody is marked by it.
std::string printed(double value, Answer const& answer, Ties ties) {
  constexpr int digits = 14;
  int const place = static_cast<int>(std::floor(std::log10(std::abs(value)))) - digits;
  auto const scaled = static_cast<std::int64_t>(std::llround(value / std::pow(10.0, place)));
  return print_to_figures(Rational(scaled) * Rational::power_of_ten(place), answer.figures, nearest_by(ties)).plain;
}

/// What one part of a question makes of the slips.
struct Look {
  TellingApart found;
  std::size_t shown = 0;   ///< slips that show
  std::size_t alone = 0;   ///< of these, the ones whose number no other slip leads to
  bool likeliest = false;  ///< whether the likeliest shows
  bool in_place = false;   ///< and that at the step where it was made
  double parted = 0;       ///< doubt that is told apart: the products of the probabilities of each pair with different numbers
};

bool same_kind(Node const& a, Cause::Made const& made) {
  return a.relation == made.relation && a.quantity.symbol == made.symbol && a.quantity.stage == made.stage;
}

/// Among the ways of making its slip at its node, which one an application is.
std::size_t way_of(SlipTable const& table, std::size_t application) {
  auto const& one = table.all[application];
  std::size_t way = 0;
  for (std::size_t a = 0; a < application; ++a)
    if (table.all[a].slip == one.slip && table.all[a].node == one.node) ++way;
  return way;
}

/// The node of a working where a cause was made in another; empty for none.
std::string place_in(Working const& working, Cause::Made const& made) {
  std::size_t nth = 0;
  for (auto const& node : working.nodes)
    if (same_kind(node, made) && nth++ == made.nth) return node.id;
  return {};
}

/// What a cause leads to here; nullptr where it does not show. `in_place`: whether it is made where the cause says.
SlipAnswer const* answer_of(Cause const& cause, Working const& working, std::size_t find, SlipTable const& table, double right,
                            bool& in_place) {
  int const figures = working.finds[find].figures;
  auto const place = cause.made ? place_in(working, *cause.made) : std::string();
  SlipAnswer const* anywhere = nullptr;
  bool made_there = false;
  in_place = !cause.made;
  for (auto const& one : table.by_find[find]) {
    if (one.slip->id != cause.slip) continue;
    bool const shows = one.value > 0 && !look_alike(one.value, right, figures);
    if (cause.made && one.node == place) {
      made_there = in_place = true;
      if (way_of(table, one.application) == cause.made->way) return shows ? &one : nullptr;
    }
    if (shows && !anywhere) anywhere = &one;
  }
  return made_there ? nullptr : anywhere;
}

Look look_at(Question const& question, std::size_t find, SlipTable const& table, std::vector<Cause> const& causes, Ties ties) {
  auto const& working = question.worked.accepted.front();
  auto const& answer = working.finds[find];
  double const right = working.nodes[static_cast<std::size_t>(answer.node)].value.number.to_double();
  Look look;
  look.found.find = find;
  std::vector<double> values, shares;  // numbers, and how likely their causes are together
  double all = 0;
  for (auto const& cause : causes) {
    bool in_place = false;
    auto const* const one = answer_of(cause, working, find, table, right, in_place);
    if (!one) continue;
    ++look.shown;
    if (&cause == &causes.front()) {
      look.likeliest = true;
      look.in_place = in_place;
    }
    std::size_t at = 0;
    while (at < values.size() && !look_alike(values[at], one->value, answer.figures)) ++at;
    if (at == values.size()) {
      values.push_back(one->value);
      shares.push_back(0);
      look.found.wrong.push_back({{}, {}, printed(one->value, answer, ties)});
    }
    look.parted += cause.probability * (all - shares[at]);
    shares[at] += cause.probability;
    all += cause.probability;
    look.found.wrong[at].slips.push_back(cause.slip);
    look.found.wrong[at].nodes.push_back(one->node);
  }
  for (std::size_t g = 0; g < values.size(); ++g) {
    bool const others = std::any_of(table.by_find[find].begin(), table.by_find[find].end(), [&](SlipAnswer const& other) {
      auto const& own = look.found.wrong[g].slips;
      return other.slip->reach == Reach::specific && std::find(own.begin(), own.end(), other.slip->id) == own.end() &&
             look_alike(other.value, values[g], answer.figures);
    });
    if (look.found.wrong[g].slips.size() == 1 && !others) ++look.alone;
  }
  look.found.all_apart = values.size() == causes.size();
  look.found.likeliest_apart = look.likeliest && look.found.wrong.front().slips.size() == 1;
  return look;
}

bool better(Look const& a, Look const& b) {
  constexpr double near = 1e-9;
  if (a.likeliest != b.likeliest) return a.likeliest;
  if (a.in_place != b.in_place) return a.in_place;
  if (std::abs(a.parted - b.parted) > near) return a.parted > b.parted;
  return a.alone != b.alone ? a.alone > b.alone : a.shown > b.shown;
}
}  // namespace

std::vector<Cause> causes_of(Question const& question, std::size_t find, Judgement const& judgement,
                             Conventions const& conventions) {
  auto const& working = question.worked.accepted.front();
  auto const table = slip_table(question.worked, conventions);
  std::vector<Cause> causes;
  std::vector<std::pair<std::string, std::string>> seen;
  for (auto const& candidate : judgement.candidates)
    for (auto const& slip : candidate.slips) {
      if (std::find(seen.begin(), seen.end(), std::pair(slip.id, slip.node)) != seen.end()) continue;
      seen.emplace_back(slip.id, slip.node);
      causes.push_back({slip.id, std::nullopt, candidate.probability});
      int const at = working.find_node(slip.node);
      SlipAnswer const* made = nullptr;  // of the ways that show, the one that leads nearest to the candidate's number
      for (auto const& one : table.by_find[find]) {
        if (one.slip->id != slip.id || one.node != slip.node) continue;
        if (!made || std::abs(one.value - candidate.value) < std::abs(made->value - candidate.value)) made = &one;
      }
      if (at < 0 || !made) continue;
      auto const& node = working.nodes[static_cast<std::size_t>(at)];
      Cause::Made how{node.relation, node.quantity.symbol, node.quantity.stage, 0, way_of(table, made->application)};
      for (int i = 0; i < at; ++i)
        if (same_kind(working.nodes[static_cast<std::size_t>(i)], how)) ++how.nth;
      causes.back().made = std::move(how);
    }
  return causes;
}

std::optional<TellingApart> telling_apart(QuestionMaker& maker, Template const& from, std::vector<Cause> const& causes,
                                          std::string const& other_than) {
  std::optional<Look> best;
  auto const try_some = [&](Template const& one, int most) {
    for (int k = 0; k < most && !(best && best->alone == causes.size()); ++k) {
      auto const seed = static_cast<std::uint32_t>(spread(hash_of(other_than, static_cast<std::uint64_t>(k))) % code_seeds);
      auto made = maker.make(one, seed);
      if (!ok(made)) continue;  // no draw of this seed fits
      auto& question = value(made);
      if (question.code == other_than) continue;
      auto const table = slip_table(question.worked, maker.course().conventions);
      for (std::size_t f = 0; f < question.worked.accepted.front().finds.size(); ++f) {
        if (question.worked.accepted.front().finds[f].figures == 0 && !causes.empty()) continue;
        auto look = look_at(question, f, table, causes, maker.course().conventions.ties);
        if (best && !better(look, *best)) continue;
        look.found.question = question;
        best = std::move(look);
      }
    }
  };
  try_some(from, most_questions);
  auto const of_the_template = best;
  bool const alone_in_doubt = causes.size() < 2;
  auto const will_do = [&] { return best && best->likeliest && (alone_in_doubt || best->found.likeliest_apart); };
  for (auto const& one : maker.templates())
    if (&one != &from && one.kind == from.kind && !will_do()) try_some(one, best_of_kind);
  if (!will_do() && of_the_template && of_the_template->likeliest) best = of_the_template;  // no other does better
  if (best && !best->likeliest && !causes.empty()) return telling_apart(maker, from, {}, other_than);
  if (!best) return std::nullopt;
  return std::move(best->found);
}

}  // namespace molewright
