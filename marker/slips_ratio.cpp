// Slips in the mole ratio, in the choice of the limiting reagent and in what is left over.
#include <algorithm>

#include "engine/equation.h"
#include "marker/slip_library.h"

namespace molewright {
namespace {

Definition ratio_with(Definition definition, Anatomy const& anatomy, int times) {
  Terms kept;
  for (auto term : definition.terms) {
    if (anatomy.kind(term.node) == NodeKind::coefficient) term.weight *= times;
    if (term.weight != 0) kept.push_back(term);
  }
  definition.terms = std::move(kept);
  return definition;
}

bool ratio_is_one(Anatomy const& anatomy, int i) {
  Rational product(1);
  for (auto const& term : anatomy.node(i).definition.terms)
    if (anatomy.kind(term.node) == NodeKind::coefficient) product *= anatomy.node(term.node).definition.factor.power(term.weight);
  return product == Rational(1);
}

/// Water and the ions that make a solution acid or alkaline: of what goes on in them nobody takes their numbers.
bool is_medium(std::string const& substance) {
  return substance == "H2O" || substance == "H^+" || substance == "H3O^+" || substance == "OH^-";
}

/// The number of a third substance in the place of one of the two; nothing where that makes a ratio which has a name of its own.
void other_pairs(Anatomy const& anatomy, Sink& sink, int i) {
  static auto const* const other_pair = find_slip("ratio-of-another-pair");
  auto const& definition = anatomy.node(i).definition;
  auto const ratio_of = [&](Definition const& one) {
    Rational ratio(1);
    for (auto const& term : one.terms)
      if (anatomy.kind(term.node) == NodeKind::coefficient) ratio *= anatomy.node(term.node).definition.factor.power(term.weight);
    return ratio;
  };
  auto const right = ratio_of(definition);
  std::vector<Rational> seen{Rational(1), right, right.reciprocal(), right * right};
  for (std::size_t t = 0; t < definition.terms.size(); ++t) {
    int const own = definition.terms[t].node;
    if (anatomy.kind(own) != NodeKind::coefficient) continue;
    for (int const other : anatomy.all(NodeKind::coefficient)) {
      auto const& third = anatomy.node(other).quantity;
      if (other >= i || third.stage != anatomy.node(own).quantity.stage || is_medium(third.substance)) continue;
      auto replaced = with_node(definition, static_cast<int>(t), other);
      auto const ratio = ratio_of(replaced);
      if (std::find(seen.begin(), seen.end(), ratio) != seen.end()) continue;
      seen.push_back(ratio);
      sink.node(other_pair, i, std::move(replaced));
    }
  }
}

/// The coefficients of the first reaction before it was balanced; whoever was given it balanced has nothing to balance.
void unbalanced(Anatomy const& anatomy, Sink& sink, int at) {
  static auto const* const skeleton = find_slip("ratio-from-unbalanced-equation");
  auto const& reactions = anatomy.worked.problem.reactions;
  if (reactions.empty()) return;
  auto const read = parse_equation(reactions.front().written, true);
  bool const as_written = ok(read) && !value(read).right.empty();
  if (as_written && is_balanced(value(read))) return;
  std::vector<NodeEdit> edits;
  for (int const nu : anatomy.all(NodeKind::coefficient)) {
    if (anatomy.node(nu).quantity.stage > 1) continue;  // the second reaction's
    Rational written(1);
    if (as_written) {
      for (auto const* side : {&value(read).left, &value(read).right})
        for (auto const& species : *side)
          if (anatomy.substance(nu, plain(species.formula))) written = species.coefficient;
    }
    if (written != anatomy.node(nu).definition.factor && written.sign() > 0) edits.push_back(NodeEdit{nu, constant_of(written)});
  }
  if (!edits.empty()) sink.nodes(skeleton, at, std::move(edits));
}
}  // namespace

void ratio_slips(Anatomy const& anatomy, Sink& sink) {
  static auto const* const inverted = find_slip("mole-ratio-inverted");
  static auto const* const as_one = find_slip("mole-ratio-taken-as-one");
  static auto const* const twice = find_slip("ratio-used-twice");
  int first = -1;
  for (int const i : anatomy.all(NodeKind::mole_ratio)) {
    if (!anatomy.used(i)) continue;
    if (first < 0) first = i;
    other_pairs(anatomy, sink, i);
    if (ratio_is_one(anatomy, i)) continue;
    auto const& definition = anatomy.node(i).definition;
    sink.node(inverted, i, ratio_with(definition, anatomy, -1));
    sink.node(as_one, i, ratio_with(definition, anatomy, 0));
    sink.node(twice, i, ratio_with(definition, anatomy, 2));
  }
  // Where a limiting reagent is chosen, who leaves the ratio out leaves it out of the comparison too.
  std::vector<NodeEdit> everywhere;
  for (int const i : anatomy.all(NodeKind::batches))
    if (anatomy.used(i)) everywhere.push_back(NodeEdit{i, ratio_with(anatomy.node(i).definition, anatomy, 0)});
  if (!everywhere.empty() && first >= 0) {
    for (int const i : anatomy.all(NodeKind::mole_ratio))
      everywhere.push_back(NodeEdit{i, ratio_with(anatomy.node(i).definition, anatomy, 0)});
    sink.nodes(as_one, first, std::move(everywhere));
  }
  if (first >= 0) unbalanced(anatomy, sink, first);
}

namespace {

/// Who compares something else than n/nu: the choice made over those nodes. `pick_from` gives for an amount the node compared, -1
/// for none.
template <class Compared>
void chosen_by(Anatomy const& anatomy, Sink& sink, Slip const* slip, int choice, Compared const& compared) {
  Definition definition;
  definition.operation = Operation::choose;
  Unit const* shared = nullptr;
  for (auto const& term : anatomy.node(choice).definition.terms) {
    int const n = anatomy.term_of(term.node, "n");
    int const other = n < 0 ? -1 : compared(anatomy.term(term.node, n).node);
    if (other < 0) return;
    auto const& unit = anatomy.node(other).value.unit;
    if (shared && *shared != unit) return;
    shared = &unit;
    definition.terms.push_back(Term{other, 1});
  }
  sink.node(slip, choice, std::move(definition));
}

int behind(Anatomy const& anatomy, int amount, NodeKind relation, std::string_view symbol) {
  int const position = anatomy.kind(amount) == relation ? anatomy.term_of(amount, symbol) : -1;
  return position < 0 ? -1 : anatomy.term(amount, position).node;
}

void choice_slips(Anatomy const& anatomy, Sink& sink, int choice) {
  static auto const* const excess = find_slip("excess-reagent-used");
  static auto const* const by_amount = find_slip("limiting-by-smaller-amount");
  static auto const* const by_mass = find_slip("limiting-by-smaller-mass");
  static auto const* const by_volume = find_slip("limiting-by-smaller-volume");
  static auto const* const by_coefficient = find_slip("limiting-by-coefficient");
  static auto const* const by_product = find_slip("limiting-compared-by-product");
  auto const& terms = anatomy.node(choice).definition.terms;
  auto const taken = anatomy.node(choice).value.number;
  int largest = -1, count = 0;
  Rational coefficient(0);
  std::vector<NodeEdit> products;
  for (std::size_t t = 0; t < terms.size(); ++t) {
    if (taken != Rational(static_cast<std::int64_t>(t)))
      sink.node(excess, choice, constant_of(Rational(static_cast<std::int64_t>(t))));
    int const nu = anatomy.term_of(terms[t].node, NodeKind::coefficient);
    if (nu < 0) continue;
    auto const& own = anatomy.node(anatomy.term(terms[t].node, nu).node).definition.factor;
    if (own > coefficient) {
      coefficient = own;
      largest = static_cast<int>(t);
      count = 1;
    } else if (own == coefficient) {
      ++count;
    }
    products.push_back(NodeEdit{terms[t].node, ratio_with(anatomy.node(terms[t].node).definition, anatomy, -1)});
  }
  chosen_by(anatomy, sink, by_amount, choice, [](int n) { return n; });
  chosen_by(anatomy, sink, by_mass, choice, [&](int n) { return behind(anatomy, n, NodeKind::amount_of_mass, "m"); });
  chosen_by(anatomy, sink, by_volume, choice, [&](int n) { return behind(anatomy, n, NodeKind::amount_in_solution, "V"); });
  if (largest >= 0 && count == 1) sink.node(by_coefficient, choice, constant_of(Rational(largest)));
  if (!products.empty()) sink.nodes(by_product, choice, std::move(products));
}

/// The amount that a used amount was worked from: through the choice to the branch taken.
int amount_before(Anatomy const& anatomy, int used) {
  if (anatomy.kind(used) == NodeKind::from_limiting) {
    auto const& terms = anatomy.node(used).definition.terms;
    auto const at = static_cast<std::size_t>(anatomy.node(terms[0].node).value.number.to_double()) + 1;
    if (at >= terms.size()) return -1;
    used = terms[at].node;
  }
  if (anatomy.kind(used) != NodeKind::mole_ratio) return -1;
  int const n = anatomy.term_of(used, "n");
  return n < 0 ? -1 : anatomy.term(used, n).node;
}
}  // namespace

void limiting_slips(Anatomy const& anatomy, Sink& sink) {
  static auto const* const added = find_slip("products-from-both-added");
  static auto const* const averaged = find_slip("products-from-both-averaged");
  static auto const* const not_subtracted = find_slip("excess-left-not-subtracted");
  static auto const* const total_used = find_slip("back-titration-total-used");
  static auto const* const back_not_subtracted = find_slip("back-titration-not-subtracted");
  static auto const* const one_to_one = find_slip("excess-left-one-to-one");
  static auto const* const used_given = find_slip("excess-used-reported-as-left");
  for (int const i : anatomy.all(NodeKind::limiting))
    if (anatomy.used(i)) choice_slips(anatomy, sink, i);
  for (int const i : anatomy.all(NodeKind::from_limiting)) {
    if (!anatomy.used(i)) continue;
    Definition sum;
    sum.operation = Operation::sum;
    auto const& terms = anatomy.node(i).definition.terms;
    for (std::size_t t = 1; t < terms.size(); ++t) sum.terms.push_back(Term{terms[t].node, 1});
    if (sum.terms.size() < 2) continue;
    if (anatomy.node(i).quantity.word != "used") sink.node(added, i, sum);  // more would be used than there is
    sink.node(averaged, i, with_factor(sum, Rational(1, static_cast<std::int64_t>(sum.terms.size()))));
  }
  for (int const i : anatomy.all(NodeKind::left_over)) {
    auto const& terms = anatomy.node(i).definition.terms;
    if (!anatomy.used(i) || terms.size() != 2) continue;
    bool const used = anatomy.node(i).quantity.word == "used";  // by titrating back what is left
    sink.node(used ? total_used : not_subtracted, i, copy_of(terms[0].node));
    sink.node(used ? back_not_subtracted : used_given, i, copy_of(terms[1].node));
    int const before = amount_before(anatomy, terms[1].node);
    if (before >= 0 && before != terms[0].node) sink.node(one_to_one, i, with_node(anatomy.node(i).definition, 1, before));
  }
}

}  // namespace molewright
