// Slips in dilutions, single and in a row, and in the percentage yield.
#include "marker/slip_library.h"

namespace molewright {
namespace {

bool is_volume(Anatomy const& anatomy, int i) { return anatomy.symbol(i, "V"); }
bool is_concentration(Anatomy const& anatomy, int i) { return anatomy.symbol(i, "c") || anatomy.symbol(i, "gamma"); }

/// The relation with its volumes (c1V2/V1 for c1V1/V2) or its concentrations turned over; false where there are not two of them.
bool turned(Anatomy const& anatomy, int i, bool (*kind)(Anatomy const&, int), Definition& definition) {
  definition = anatomy.node(i).definition;
  int count = 0;
  for (auto& term : definition.terms) {
    if (!kind(anatomy, term.node)) continue;
    term.weight = -term.weight;
    ++count;
  }
  return count == 2;
}

/// V2/V1 of a dilution that was solved for its concentration.
Rational factor_of(Anatomy const& anatomy, int dilution) {
  Rational factor(1);
  for (auto const& term : anatomy.node(dilution).definition.terms)
    if (is_volume(anatomy, term.node)) factor *= anatomy.node(term.node).value.number.power(-term.weight);
  return factor;
}

/// Position of the concentration that a dilution starts from; -1 for none.
int stock(Anatomy const& anatomy, int dilution) {
  auto const& terms = anatomy.node(dilution).definition.terms;
  for (std::size_t t = 0; t < terms.size(); ++t)
    if (is_concentration(anatomy, terms[t].node)) return static_cast<int>(t);
  return -1;
}

/// Dilutions one after the other, the last one first.
std::vector<int> chain_ending_at(Anatomy const& anatomy, int last) {
  std::vector<int> chain;
  for (int i = last; anatomy.kind(i) == NodeKind::dilution && is_concentration(anatomy, i);) {
    chain.push_back(i);
    int const c = stock(anatomy, i);
    if (c < 0) break;
    i = anatomy.term(i, c).node;
  }
  return chain;
}

bool feeds_a_dilution(Anatomy const& anatomy, int i) {
  for (int const later : anatomy.all(NodeKind::dilution))
    for (auto const& term : anatomy.node(later).definition.terms)
      if (term.node == i && is_concentration(anatomy, later)) return true;
  return false;
}

void chains(Anatomy const& anatomy, Sink& sink) {
  static auto const* const missed = find_slip("serial-step-missed");
  static auto const* const added = find_slip("serial-factors-added");
  static auto const* const unchanged = find_slip("concentration-unchanged-on-mixing");
  for (int const i : anatomy.all(NodeKind::dilution)) {
    if (!anatomy.used(i) || !is_concentration(anatomy, i) || feeds_a_dilution(anatomy, i)) continue;
    auto const chain = chain_ending_at(anatomy, i);
    Rational sum(0);
    for (int const step : chain) {
      sum += factor_of(anatomy, step);
      int const c = stock(anatomy, step);
      if (c >= 0) sink.node(chain.size() > 1 ? missed : unchanged, step, copy_of(anatomy.term(step, c).node));
    }
    int const first = chain.empty() ? -1 : stock(anatomy, chain.back());
    if (chain.size() < 2 || first < 0 || sum.sign() <= 0) continue;
    sink.node(added, i, with_factor(copy_of(anatomy.term(chain.back(), first).node), sum.reciprocal()));
  }
}
/// c1V1/V2 with another V2: the volume taken added to it or taken off (1 + 9 read as 1 in 9, a flask's volume as water added).
/// The volume stands in the factor, for a product cannot hold a sum.
void parts_as_total(Anatomy const& anatomy, Sink& sink, int i) {
  static auto const* const parts = find_slip("dilution-parts-as-total");
  auto const& definition = anatomy.node(i).definition;
  int taken = -1, total = -1;
  for (std::size_t t = 0; t < definition.terms.size(); ++t)
    if (is_volume(anatomy, definition.terms[t].node)) (definition.terms[t].weight > 0 ? taken : total) = static_cast<int>(t);
  if (taken < 0 || total < 0) return;
  auto const volume = [&](int t) { return anatomy.node(anatomy.term(i, t).node).value.number; };
  for (auto const& other : {volume(total) - volume(taken), volume(total) + volume(taken)})
    if (other.sign() > 0)
      sink.node(parts, i, with_factor(without_term(definition, total), definition.factor * other.reciprocal()));
}
}  // namespace

void dilution_slips(Anatomy const& anatomy, Sink& sink) {
  static auto const* const inverted = find_slip("dilution-factor-inverted");
  static auto const* const swapped = find_slip("stock-and-final-swapped");
  static auto const* const as_final = find_slip("added-volume-as-final-volume");
  static auto const* const as_water = find_slip("total-volume-as-water-added");
  static auto const* const difference = find_slip("volume-difference-for-total");
  Definition definition;
  for (int const i : anatomy.all(NodeKind::dilution)) {
    if (!anatomy.used(i)) continue;
    if (is_concentration(anatomy, i)) parts_as_total(anatomy, sink, i);
    if (is_concentration(anatomy, i) && turned(anatomy, i, is_volume, definition)) sink.node(inverted, i, definition);
    if (is_volume(anatomy, i) && turned(anatomy, i, is_concentration, definition)) sink.node(swapped, i, definition);
  }
  for (int const i : anatomy.all(NodeKind::water_added)) {
    auto const& terms = anatomy.node(i).definition.terms;
    if (!anatomy.used(i) || terms.size() != 2) continue;
    if (anatomy.node(i).quantity.word == "added") {  // water = V2 - V1
      sink.node(as_water, i, copy_of(terms[terms[0].weight > 0 ? 0 : 1].node));
    } else if (anatomy.node(i).quantity.stage != 1) {  // V2 = V1 + water
      int const water = anatomy.node(terms[0].node).quantity.word == "added" ? 0 : 1;
      if (terms[0].weight <= 0 || terms[1].weight <= 0) continue;
      sink.node(as_final, i, copy_of(terms[static_cast<std::size_t>(water)].node));
      bool const first_larger = anatomy.node(terms[0].node).value.number > anatomy.node(terms[1].node).value.number;
      sink.node(difference, i, with_weight(anatomy.node(i).definition, first_larger ? 1 : 0, -1));
    }
  }
  chains(anatomy, sink);
}

void yield_slips(Anatomy const& anatomy, Sink& sink) {
  static auto const* const inverted = find_slip("yield-inverted");
  static auto const* const loss = find_slip("loss-given-for-yield");
  static auto const* const not_applied = find_slip("yield-not-applied");
  static auto const* const multiplied = find_slip("yield-multiplied-for-divided");
  static auto const* const added_back = find_slip("loss-added-back-as-percent");
  static auto const* const percent = find_slip("percent-left-as-number");
  static auto const* const over_reactant = find_slip("yield-over-reactant-mass");
  for (int const i : anatomy.all(NodeKind::yield)) {
    if (!anatomy.used(i)) continue;
    auto const& definition = anatomy.node(i).definition;
    if (anatomy.symbol(i, "yield")) {
      auto turned_over = definition;
      for (auto& term : turned_over.terms) term.weight = -term.weight;
      sink.node(inverted, i, std::move(turned_over));
      auto const lost = Rational(100) - anatomy.node(i).value.number;
      if (definition.factor == Rational(100) && lost.sign() > 0) sink.node(loss, i, constant_of(lost));
      for (std::size_t t = 0; t < definition.terms.size(); ++t) {
        auto const& term = definition.terms[t];
        if (term.weight > 0 || !anatomy.symbol(term.node, "m") || anatomy.printed(term.node)) continue;
        for (int const other : anatomy.all(NodeKind::given))
          if (anatomy.used(other) && anatomy.symbol(other, "m") && anatomy.term_of(i, "m") >= 0 &&
              other != anatomy.term(i, anatomy.term_of(i, "m")).node &&
              anatomy.node(other).value.unit == anatomy.node(term.node).value.unit)
            sink.node(over_reactant, i, with_node(definition, static_cast<int>(t), other));
      }
      continue;
    }
    int const y = anatomy.term_of(i, "yield");
    if (y < 0) continue;
    auto without = with_factor(without_term(definition, y), Rational(1));
    if (anatomy.term(i, y).weight > 0) {
      sink.node(not_applied, i, std::move(without));
    } else {
      sink.node(not_applied, i, std::move(without));
      auto times = with_weight(definition, y, 1);
      if (times.factor.sign() > 0) times.factor = times.factor.reciprocal();
      sink.node(multiplied, i, std::move(times));
      // What is lost, as a share of what is wanted, put on top: m (2 - y).
      auto const share = anatomy.node(anatomy.term(i, y).node).value.number / definition.factor;
      if (share < Rational(1)) sink.node(added_back, i, with_factor(without_term(definition, y), Rational(2) - share));
    }
    if (definition.factor != Rational(1)) sink.node(percent, i, with_factor(definition, Rational(1)));
  }
}

}  // namespace molewright
