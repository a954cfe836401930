// Slips in which the right quantity of the wrong solution or substance is used.
#include "marker/slip_library.h"

namespace molewright {
namespace {

/// A printed quantity of the same symbol and unit as `i`, of another solution.
bool could_be_taken_for(Anatomy const& anatomy, int other, int i) {
  return other != i && anatomy.printed(other) && anatomy.node(other).quantity.symbol == anatomy.node(i).quantity.symbol &&
         anatomy.node(other).value.unit == anatomy.node(i).value.unit && anatomy.node(other).quantity.word != "added";
}

/// The printed quantity behind a term, itself or through a change of unit; -1 where it was worked out.
int printed_behind(Anatomy const& anatomy, int i) {
  if (anatomy.kind(i) == NodeKind::conversion) i = anatomy.node(i).definition.terms[0].node;
  return anatomy.printed(i) ? i : -1;
}

template <class Visit>
void each_printed(Anatomy const& anatomy, Visit const& visit) {
  for (auto const kind : {NodeKind::given, NodeKind::difference, NodeKind::mean})
    for (int const i : anatomy.all(kind)) visit(i);
}

/// In n = cV, the term of `symbol` read from every other solution.
void other_solution(Anatomy const& anatomy, Sink& sink, Slip const* slip, int i, std::string_view symbol) {
  int const position = anatomy.term_of(i, symbol);
  if (position < 0) return;
  int const used = anatomy.term(i, position).node;
  int const printed = printed_behind(anatomy, used);
  if (printed < 0) return;
  each_printed(anatomy, [&](int other) {
    if (!could_be_taken_for(anatomy, other, printed)) return;
    if (used == printed) {
      sink.node(slip, i, with_node(anatomy.node(i).definition, position, other));
    } else {  // the other volume, changed into litres the same way
      sink.node(slip, used, with_node(anatomy.node(used).definition, 0, other), i);
    }
  });
}

/// The titre and the pipetted volume change places: V of the solution whose amount is found first, V of the one whose
/// concentration is sought.
void swapped_volumes(Anatomy const& anatomy, Sink& sink) {
  static auto const* const swapped = find_slip("titre-and-aliquot-swapped");
  for (int const first : anatomy.all(NodeKind::amount_in_solution)) {
    if (!anatomy.symbol(first, "n") || !anatomy.used(first)) continue;
    for (int const second : anatomy.all(NodeKind::amount_in_solution)) {
      if (!anatomy.symbol(second, "c") || !anatomy.used(second)) continue;
      if (anatomy.node(first).quantity.substance == anatomy.node(second).quantity.substance) continue;
      int const a = anatomy.term_of(first, "V"), b = anatomy.term_of(second, "V");
      if (a < 0 || b < 0) continue;
      int const V1 = printed_behind(anatomy, anatomy.term(first, a).node);
      int const V2 = printed_behind(anatomy, anatomy.term(second, b).node);
      if (V1 < 0 || V2 < 0 || V1 == V2 || anatomy.node(V1).value.unit != anatomy.node(V2).value.unit) continue;
      sink.nodes(
          swapped, first,
          {NodeEdit{V1, constant_of(anatomy.node(V2).value.number)}, NodeEdit{V2, constant_of(anatomy.node(V1).value.number)}});
    }
  }
}

/// True for a substance that the problem itself speaks of, so not for the water inside a hydrate.
bool spoken_of(Anatomy const& anatomy, std::string const& substance) {
  if (anatomy.find(NodeKind::coefficient, substance) >= 0) return true;
  for (auto const& given : anatomy.worked.problem.givens)
    if (given.quantity.substance == substance) return true;
  for (auto const& find : anatomy.worked.problem.finds)
    if (find.quantity.substance == substance) return true;
  return false;
}

void other_molar_mass(Anatomy const& anatomy, Sink& sink, int i) {
  static auto const* const other_substance = find_slip("other-substance-molar-mass");
  static auto const* const hydrate_for_anhydrous = find_slip("hydrate-mass-for-anhydrous");
  int const position = anatomy.term_of(i, NodeKind::molar_mass);
  if (position < 0) return;
  auto const& mine = anatomy.node(anatomy.term(i, position).node).quantity.substance;
  for (int const other : anatomy.all(NodeKind::molar_mass)) {
    auto const& theirs = anatomy.node(other).quantity.substance;
    if (theirs == mine || !spoken_of(anatomy, theirs)) continue;
    if (mine.size() > theirs.size() && mine.compare(0, theirs.size(), theirs) == 0 &&
        water_term(anatomy, anatomy.term(i, position).node) >= 0)
      continue;  // the salt without its water: hydrate-water-forgotten
    bool const hydrate =
        theirs.size() > mine.size() && theirs.compare(0, mine.size(), mine) == 0 && water_term(anatomy, other) >= 0;
    sink.node(hydrate ? hydrate_for_anhydrous : other_substance, i, with_node(anatomy.node(i).definition, position, other));
  }
}
}  // namespace

void exchange_slips(Anatomy const& anatomy, Sink& sink) {
  static auto const* const volume = find_slip("other-solution-volume");
  static auto const* const concentration = find_slip("other-solution-concentration");
  for (int const i : anatomy.all(NodeKind::amount_in_solution)) {
    if (!anatomy.used(i)) continue;
    other_solution(anatomy, sink, volume, i, "V");
    other_solution(anatomy, sink, concentration, i, "c");
  }
  swapped_volumes(anatomy, sink);
  for (auto const kind : {NodeKind::amount_of_mass, NodeKind::mass_concentration})
    for (int const i : anatomy.all(kind))
      if (anatomy.used(i)) other_molar_mass(anatomy, sink, i);
}

}  // namespace molewright
