// Slips of copying: digits that change places, another given in its place.
#include <algorithm>

#include "marker/slip_library.h"

namespace molewright {
namespace {

/// `number` with two neighbouring digits exchanged, for each pair that differs and leaves the first digit what it can be.
std::vector<Rational> transposed(Rational const& number, int last_place) {
  std::vector<Rational> all;
  auto const scaled = number * Rational::power_of_ten(-last_place);
  if (!scaled.is_integer()) return all;
  auto const digits = scaled.integer_digits();
  for (std::size_t i = 0; i + 1 < digits.size(); ++i) {
    if (digits[i] == digits[i + 1] || (i == 0 && digits[1] == '0')) continue;
    auto swapped = digits;
    std::swap(swapped[i], swapped[i + 1]);
    all.push_back(Rational::from_digits(swapped) * Rational::power_of_ten(last_place));
  }
  return all;
}

void transposed_digits(Anatomy const& anatomy, Sink& sink) {
  static auto const* const digits = find_slip("digits-transposed");
  for (auto const kind : {NodeKind::given, NodeKind::reading})
    for (int const i : anatomy.all(kind)) {
      auto const& node = anatomy.node(i);
      if (!anatomy.used(i) || node.definition.operation != Operation::constant || !node.value.last_place) continue;
      for (auto& number : transposed(node.definition.factor, *node.value.last_place))
        sink.node(digits, i, constant_of(std::move(number)));
    }
  for (auto const& answer : anatomy.working.finds) {
    if (anatomy.kind(answer.node) == NodeKind::limiting) continue;
    auto const& number = anatomy.node(answer.node).value.number;
    auto const rounded = round_to_place(number, answer.place, nearest_by(anatomy.conventions.ties));
    for (auto& wrong : transposed(rounded, answer.place)) sink.node(digits, answer.node, constant_of(std::move(wrong)));
  }
}

/// Put into n = cV, itself or in litres, and into nothing else: there another solution's value is other-solution-volume or
/// -concentration.
bool goes_into_solution_alone(Anatomy const& anatomy, int i) {
  bool goes = false;
  for (int reader = 0; reader < anatomy.size(); ++reader) {
    if (!anatomy.used(reader)) continue;
    for (auto const& term : anatomy.node(reader).definition.terms) {
      if (term.node != i) continue;
      if (anatomy.kind(reader) == NodeKind::conversion) {
        if (!goes_into_solution_alone(anatomy, reader)) return false;
      } else if (anatomy.kind(reader) != NodeKind::amount_in_solution) {
        return false;
      }
      goes = true;
    }
  }
  return goes;
}

void other_givens(Anatomy const& anatomy, Sink& sink) {
  static auto const* const other_given = find_slip("other-given-copied");
  std::vector<int> printed;
  for (auto const kind : {NodeKind::given, NodeKind::difference, NodeKind::mean})
    for (int const i : anatomy.all(kind)) printed.push_back(i);
  for (int const i : printed) {
    if (!anatomy.used(i) || goes_into_solution_alone(anatomy, i)) continue;
    for (int const other : printed)
      if (other != i && anatomy.node(other).value.unit == anatomy.node(i).value.unit &&
          anatomy.node(other).value.number != anatomy.node(i).value.number)
        sink.node(other_given, i, constant_of(anatomy.node(other).value.number));
  }
}
}  // namespace

void copying_slips(Anatomy const& anatomy, Sink& sink) {
  transposed_digits(anatomy, sink);
  other_givens(anatomy, sink);
}

}  // namespace molewright
