// The teacher's own answers under review: right, in the right unit, to figures that the data carry; and if wrong, by which slip.
#include <algorithm>
#include <cmath>

#include "generators/review_parts.h"
#include "marker/agreement.h"
#include "marker/diagnosis.h"
#include "marker/slip.h"

namespace molewright::reviewing {
namespace {

/// The find that an answer is for; -1 where none is.
int find_of(Review const& review, StatedAnswer const& stated) {
  auto const& own = review.problem.finds;
  auto const& full = review.data().finds;
  for (std::size_t f = 0; f < own.size(); ++f)
    if (own[f].kind == Find::Kind::number && (own[f].quantity == stated.quantity || full[f].quantity == stated.quantity))
      return static_cast<int>(f);
  return -1;
}

/// The slip that explains a wrong answer best: among those that fit, the likeliest; a specific one before a generic one.
Slip const* slip_behind(Review const& review, WrittenNumber const& written, std::size_t find, Due const& due) {
  auto const table = slip_table(*review.worked, review.course.conventions);
  auto const& answers = table.by_find[find];
  constexpr double table_band = 5e-4;
  auto const diagnosis = diagnose(written, answers, due, table_band);
  if (!diagnosis.rivals.empty() && diagnosis.rivals.front().answer != nullptr) return diagnosis.rivals.front().answer->slip;
  Slip const* best = nullptr;
  for (auto const& answer : answers) {
    if (!fits(written, answer, due)) continue;
    if (best == nullptr || (best->reach != Reach::specific && answer.slip->reach == Reach::specific)) best = answer.slip;
  }
  return best;
}

/// "it is 1/2 of the right one": where no slip explains a number, a ratio of small whole numbers may.
std::string ratio_words(double ratio, int figures) {
  double const close = 0.6 * std::pow(10.0, 1 - figures);
  for (int below = 1; below <= 6; ++below)
    for (int above = 1; above <= 6; ++above)
      if (above != below && std::abs(ratio * below / above - 1) < close)
        return "it is " + std::to_string(above) + (below == 1 ? " times" : "/" + std::to_string(below) + " of") +
               " the right one: look at a coefficient or a subscript";
  return "";
}

void look_at_answer(Review& review, StatedAnswer const& stated) {
  int const index = find_of(review, stated);
  auto const& working = review.working();
  int node = index >= 0 ? working.finds[static_cast<std::size_t>(index)].node : working.find_node(plain(stated.quantity));
  if (node < 0) return review.say("answer-not-asked", stated.place.line, {{"find", plain(stated.quantity)}});
  auto const& reached = working.nodes[static_cast<std::size_t>(node)].value;
  auto const name = plain(stated.quantity);
  if (!convertible(stated.unit, reached.unit)) {
    review.say("answer-unit", stated.place.line,
               {{"find", name},
                {"dimension", dimension_name(reached.unit.dimension)},
                {"unit", stated.unit.symbol.empty() ? "no unit" : stated.unit.symbol},
                {"asked", reached.unit.symbol.empty() ? "no unit" : reached.unit.symbol}});
    return;
  }
  if (index < 0) return;  // a value on the way: not an answer that is marked
  auto const f = static_cast<std::size_t>(index);
  auto const& answer = working.finds[f];
  bool const shifted = stated.unit.offset != reached.unit.offset;
  auto const written = written_number(stated.number, shifted ? Rational(1) : conversion_factor(stated.unit, reached.unit));
  auto const due = due_of(answer, reached.number);
  double const off = std::abs(written.approximate - reached.number.to_double());
  bool const near = off <= due.last.to_double() * 1.000001;
  if (near || agrees(written, reached.number, due) || is_rounded_to_one_figure(written, reached.number)) {
    bool const exact = working.nodes[static_cast<std::size_t>(node)].value.last_place == std::nullopt;
    if (!exact && stated.number.certain_figures > answer.figures && !review.problem.finds[f].figures)
      review.say("too-many-figures", stated.place.line,
                 {{"find", "the answer for " + name},
                  {"figures", std::to_string(stated.number.figures)},
                  {"due", std::to_string(answer.figures)}});
    return;
  }
  Slip const* slip = slip_behind(review, written, f, due);
  std::string const cause = slip != nullptr ? std::string(words_of(slip->id).brief)
                                            : ratio_words(written.approximate / reached.number.to_double(), written.figures);
  auto const unit = reached.unit.symbol.empty() ? "" : ' ' + reached.unit.symbol;
  review.say("wrong-answer", stated.place.line,
             {{"find", name},
              {"right", answer.text + unit},
              {"stated", stated.number.text + (stated.unit.symbol.empty() ? "" : ' ' + stated.unit.symbol)},
              {"cause", cause.empty() ? "" : " (" + cause + ")"}},
             slip == nullptr ? "" : std::string(slip->id));
}

/// "to N figures" beyond what the data carry.
void look_at_asked_figures(Review& review) {
  auto working = review.working();
  std::vector<std::optional<int>> const unasked(working.finds.size());
  if (!evaluate(working, review.course.conventions.ties, unasked)) return;
  for (std::size_t f = 0; f < working.finds.size(); ++f) {
    auto const& find = review.data().finds[f];
    bool const exact = !working.nodes[static_cast<std::size_t>(working.finds[f].node)].value.last_place;
    if (!find.figures || exact || *find.figures <= working.finds[f].figures) continue;
    review.say(
        "too-many-figures", find.place.line,
        {{"find", plain(find)}, {"figures", std::to_string(*find.figures)}, {"due", std::to_string(working.finds[f].figures)}});
  }
}
}  // namespace

void look_at_answers(Review& review) {
  for (auto const& stated : review.problem.stated) look_at_answer(review, stated);
  look_at_asked_figures(review);
}

}  // namespace molewright::reviewing
