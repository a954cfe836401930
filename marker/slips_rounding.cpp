// Slips of rounding: on the way, and of the answer as it is written.
#include <algorithm>

#include "marker/rounded_slips.h"
#include "marker/slip_library.h"

namespace molewright {
namespace {

/// A value that a student writes down on the way: not printed, not from a table, not a choice.
bool is_written_down(Anatomy const& anatomy, int i) {
  switch (anatomy.kind(i)) {
    case NodeKind::given:
    case NodeKind::reading:
    case NodeKind::atomic_weight:
    case NodeKind::group_mass:
    case NodeKind::molar_mass:
    case NodeKind::coefficient:
    case NodeKind::table_value:
    case NodeKind::limiting:
    case NodeKind::conversion:
    case NodeKind::difference:
    case NodeKind::titre:
    case NodeKind::mean:
      return false;
    default: {
      auto const& definition = anatomy.node(i).definition;
      bool const a_copy =
          definition.operation == Operation::pick || (definition.terms.size() == 1 && definition.factor == Rational(1));
      return !a_copy;
    }
  }
}

/// And that is not the answer itself.
bool written_on_the_way(Anatomy const& anatomy, int i, int answer) { return i != answer && is_written_down(anatomy, i); }

/// Value of a product or sum when its terms have the values `at`; choices keep the branch taken.
Rational worked(Anatomy const& anatomy, int i, std::vector<Rational> const& at) {
  auto const& definition = anatomy.node(i).definition;
  auto const read = [&](Term const& term) -> Rational const& { return at[static_cast<std::size_t>(term.node)]; };
  switch (definition.operation) {
    case Operation::product: {
      Rational result = definition.factor;
      for (auto const& term : definition.terms) result *= read(term).power(term.weight);
      return result;
    }
    case Operation::sum: {
      Rational result(0);
      for (auto const& term : definition.terms) result += Rational(term.weight) * read(term);
      return result * definition.factor;
    }
    case Operation::pick:
      return at[static_cast<std::size_t>(
          definition.terms[static_cast<std::size_t>(anatomy.node(definition.terms[0].node).value.number.to_double()) + 1].node)];
    default:
      return at[static_cast<std::size_t>(i)];
  }
}

void on_the_way(Anatomy const& anatomy, Sink& sink, std::size_t find) {
  static auto const* const each = find_slip("rounded-each-step");
  static auto const* const once = find_slip("rounded-early-once");
  auto const rounding = nearest_by(anatomy.conventions.ties);
  int const answer = anatomy.working.finds[find].node;
  auto const order = order_of_work(anatomy.working, find);
  for (int const i : order) {
    auto const& number = anatomy.node(i).value.number;
    if (!written_on_the_way(anatomy, i, answer) || number.sign() == 0) continue;
    for (int figures = 1; figures <= 2; ++figures) sink.node(once, i, constant_of(round_to_figures(number, figures, rounding)));
  }
  for (int figures = 2; figures <= std::max(2, anatomy.working.finds[find].figures); ++figures) {
    std::vector<Rational> at;
    for (auto const& node : anatomy.working.nodes) at.push_back(node.value.number);
    std::vector<NodeEdit> edits;
    for (int const i : order) {
      if (anatomy.printed(i) || anatomy.node(i).definition.operation == Operation::constant) continue;
      auto& number = at[static_cast<std::size_t>(i)];
      number = worked(anatomy, i, at);
      if (!written_on_the_way(anatomy, i, answer) || number.sign() == 0) continue;
      number = round_to_figures(number, figures, rounding);
      edits.push_back(NodeEdit{i, constant_of(number)});
    }
    if (edits.size() < 2) return;  // one rounding is rounded-early-once
    int const first = edits.front().node;
    sink.nodes(each, first, std::move(edits));
  }
}

void of_the_answer(Anatomy const& anatomy, Sink& sink, std::size_t find) {
  static auto const* const truncated = find_slip("truncated-not-rounded");
  static auto const* const places = find_slip("decimal-places-for-figures");
  static auto const* const many = find_slip("too-many-figures");
  static auto const* const few = find_slip("too-few-figures");
  static auto const* const zero = find_slip("trailing-zero-dropped");
  constexpr int calculator_figures = 10;
  auto const& answer = anatomy.working.finds[find];
  auto const nearest = nearest_by(anatomy.conventions.ties);
  auto const write = [&](Slip const* slip, Rounding rounding, std::optional<int> figures, std::optional<int> decimals) {
    sink.edits(slip, answer.node, {Edit(WritingEdit{find, rounding, figures, decimals})});
  };
  write(truncated, Rounding::truncate, answer.figures, std::nullopt);
  if (!answer.by_place) write(places, nearest, std::nullopt, answer.figures);
  write(many, nearest, calculator_figures, std::nullopt);
  for (int figures = std::min(2, answer.figures - 1); figures >= 1; --figures) write(few, nearest, figures, std::nullopt);
  auto const rounded = round_to_place(anatomy.node(answer.node).value.number, answer.place, nearest);
  if (answer.figures > 1 && round_to_place(rounded, answer.place + 1, nearest) == rounded)
    write(zero, nearest, answer.figures - 1, std::nullopt);
}
}  // namespace

std::vector<char> written_down_on_the_way(Anatomy const& anatomy) {
  std::vector<char> down;
  for (int i = 0; i < anatomy.size(); ++i) down.push_back(is_written_down(anatomy, i) ? 1 : 0);
  return down;
}

void rounding_slips(Anatomy const& anatomy, Sink& sink) {
  for (std::size_t find = 0; find < anatomy.working.finds.size(); ++find) {
    if (anatomy.working.finds[find].figures == 0) continue;
    on_the_way(anatomy, sink, find);
    of_the_answer(anatomy, sink, find);
  }
}

}  // namespace molewright
