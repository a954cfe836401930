// Slips in the relations between amount, mass, volume, concentration and number of entities.
#include <algorithm>

#include "engine/relation_table.h"
#include "marker/slip_library.h"

namespace molewright {
namespace {

/// The node's relation with the term of that symbol turned over.
void turned(Anatomy const& anatomy, Sink& sink, Slip const* slip, int i, std::string_view symbol) {
  int const position = anatomy.term_of(i, symbol);
  if (position < 0) return;
  sink.node(slip, i, with_weight(anatomy.node(i).definition, position, -anatomy.term(i, position).weight));
}

void all_turned(Anatomy const& anatomy, Sink& sink, Slip const* slip, int i) {
  Definition definition = anatomy.node(i).definition;
  for (auto& term : definition.terms) term.weight = -term.weight;
  sink.node(slip, i, std::move(definition));
}

void left_out(Anatomy const& anatomy, Sink& sink, Slip const* slip, int i, int position) {
  if (position >= 0) sink.node(slip, i, without_term(anatomy.node(i).definition, position));
}

void solution_relation(Anatomy const& anatomy, Sink& sink, int i) {
  static auto const* const c_over_V = find_slip("amount-as-c-over-V");
  static auto const* const V_over_c = find_slip("amount-as-V-over-c");
  static auto const* const n_times_V = find_slip("concentration-as-n-times-V");
  static auto const* const upside_down = find_slip("concentration-upside-down");
  static auto const* const n_times_c = find_slip("volume-as-n-times-c");
  static auto const* const keyed = find_slip("bracket-missing-on-calculator");
  if (anatomy.symbol(i, "n")) {
    turned(anatomy, sink, c_over_V, i, "V");
    turned(anatomy, sink, V_over_c, i, "c");
  } else if (anatomy.symbol(i, "c")) {
    turned(anatomy, sink, n_times_V, i, "V");
    all_turned(anatomy, sink, upside_down, i);
    // m/(M V) keyed in one line as m/M x V.
    int const n = anatomy.term_of(i, "n");
    if (n >= 0 && anatomy.kind(anatomy.term(i, n).node) == NodeKind::amount_of_mass) turned(anatomy, sink, keyed, i, "V");
  } else if (anatomy.symbol(i, "V")) {
    turned(anatomy, sink, n_times_c, i, "c");
  }
}

/// The coefficient multiplied into the molar mass: the term of M with its coefficient beside it.
void coefficient_inside(Anatomy const& anatomy, Sink& sink, int i) {
  static auto const* const inside = find_slip("coefficient-inside-molar-mass");
  int const M = anatomy.term_of(i, "M");
  if (M < 0) return;
  int const nu = anatomy.find(NodeKind::coefficient, anatomy.node(anatomy.term(i, M).node).quantity.substance);
  if (nu < 0 || anatomy.node(nu).definition.factor == Rational(1)) return;
  Definition definition = anatomy.node(i).definition;
  definition.terms.push_back(Term{nu, anatomy.term(i, M).weight});
  sink.node(inside, i, std::move(definition));
}

/// Coefficients put straight to grams: m(B) = m(A) x nu(B)/nu(A).
void ratio_of_masses(Anatomy const& anatomy, Sink& sink, int i) {
  static auto const* const to_masses = find_slip("ratio-applied-to-masses");
  int const n = anatomy.term_of(i, "n");
  if (n < 0) return;
  int const ratio = anatomy.term(i, n).node;
  if (anatomy.kind(ratio) != NodeKind::mole_ratio) return;
  int const from = anatomy.term_of(ratio, "n");
  if (from < 0) return;
  int const known = anatomy.term(ratio, from).node;
  int const mass = anatomy.kind(known) == NodeKind::amount_of_mass ? anatomy.term_of(known, "m") : -1;
  if (mass < 0) return;
  Definition definition = anatomy.node(ratio).definition;
  definition.terms[static_cast<std::size_t>(from)].node = anatomy.term(known, mass).node;
  sink.node(to_masses, i, std::move(definition), ratio);
}

/// m(part) from m(whole) or the other way round, where the mass is handed on as it is: n(part) = nu n(whole) between the two.
void mass_handed_on(Anatomy const& anatomy, Sink& sink, int i) {
  static auto const* const whole_for_part = find_slip("gravimetric-factor-left-out");
  static auto const* const part_for_whole = find_slip("ion-mass-for-salt-mass");
  int const n = anatomy.term_of(i, "n");
  if (n < 0) return;
  int const counted = anatomy.term(i, n).node;
  auto const& definition = anatomy.node(counted).definition;
  if (anatomy.node(counted).relation != RelationForm("n(part) = nu n(whole)") || definition.operation != Operation::product)
    return;
  int const nu = anatomy.term_of(counted, "nu"), from = anatomy.term_of(counted, "n");
  if (nu < 0 || from < 0) return;
  int const known = anatomy.term(counted, from).node;
  int const mass = anatomy.kind(known) == NodeKind::amount_of_mass ? anatomy.term_of(known, "m") : -1;
  if (mass < 0) return;
  sink.node(anatomy.term(counted, nu).weight > 0 ? whole_for_part : part_for_whole, i, copy_of(anatomy.term(known, mass).node));
}

/// An answer, or what becomes one by a change of unit: there the last step is missing, which is looked for by find.
bool ends_the_work(Anatomy const& anatomy, int i) {
  auto const& finds = anatomy.working.finds;
  return std::any_of(finds.begin(), finds.end(), [&](Answer const& answer) {
    return answer.node == i || (anatomy.kind(answer.node) == NodeKind::conversion && anatomy.term(answer.node, 0).node == i);
  });
}

void mass_relation(Anatomy const& anatomy, Sink& sink, int i) {
  static auto const* const times_M = find_slip("mass-times-molar-mass");
  static auto const* const upside_down = find_slip("mass-over-molar-mass-inverted");
  static auto const* const as_amount = find_slip("mass-used-as-amount");
  static auto const* const over_M = find_slip("amount-divided-by-molar-mass");
  static auto const* const as_mass = find_slip("amount-reported-as-mass");
  if (anatomy.symbol(i, "n")) {
    turned(anatomy, sink, times_M, i, "M");
    all_turned(anatomy, sink, upside_down, i);
    left_out(anatomy, sink, as_amount, i, anatomy.term_of(i, "M"));
  } else if (anatomy.symbol(i, "m")) {
    turned(anatomy, sink, over_M, i, "M");
    if (!ends_the_work(anatomy, i)) left_out(anatomy, sink, as_mass, i, anatomy.term_of(i, "M"));
    ratio_of_masses(anatomy, sink, i);
    mass_handed_on(anatomy, sink, i);
  }
  coefficient_inside(anatomy, sink, i);
}
}  // namespace

void amount_slips(Anatomy const& anatomy, Sink& sink) {
  static auto const* const avogadro_times = find_slip("avogadro-multiplied-for-divided");
  static auto const* const avogadro_none = find_slip("avogadro-left-out");
  static auto const* const gamma_as_c = find_slip("mass-concentration-as-amount-concentration");
  static auto const* const c_as_gamma = find_slip("amount-concentration-as-mass-concentration");
  for (int const i : anatomy.all(NodeKind::amount_in_solution))
    if (anatomy.used(i)) solution_relation(anatomy, sink, i);
  for (int const i : anatomy.all(NodeKind::amount_of_mass))
    if (anatomy.used(i)) mass_relation(anatomy, sink, i);
  for (int const i : anatomy.all(NodeKind::entities)) {
    if (!anatomy.used(i)) continue;
    int const N_A = anatomy.term_of(i, NodeKind::table_value);
    if (N_A < 0) continue;
    if (anatomy.symbol(i, "n"))
      sink.node(avogadro_times, i, with_weight(anatomy.node(i).definition, N_A, -anatomy.term(i, N_A).weight));
    else
      left_out(anatomy, sink, avogadro_none, i, N_A);
  }
  for (int const i : anatomy.all(NodeKind::mass_concentration))
    if (anatomy.used(i)) left_out(anatomy, sink, anatomy.symbol(i, "c") ? gamma_as_c : c_as_gamma, i, anatomy.term_of(i, "M"));
}

}  // namespace molewright
