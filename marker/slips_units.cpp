// Slips of conversions: of what is put into a relation, and of the answer at the end.
#include <algorithm>

#include "marker/slip_library.h"

namespace molewright {
namespace {

/// A conversion of something that was printed, before it goes into a relation.
bool converts_input(Anatomy const& anatomy, int i) {
  auto const& terms = anatomy.node(i).definition.terms;
  return terms.size() == 1 && anatomy.printed(terms[0].node);
}

std::string const& unit_before(Anatomy const& anatomy, int i) {
  return anatomy.node(anatomy.node(i).definition.terms[0].node).value.unit.symbol;
}

/// One application for each conversion, and one for all of them together: who leaves one volume in millilitres often leaves them
/// all.
void each_and_all(Sink& sink, Anatomy const& anatomy, Slip const* slip, std::vector<int> const& conversions,
                  Rational const& factor) {
  for (int const i : conversions) sink.node(slip, i, with_factor(anatomy.node(i).definition, factor));
  if (conversions.size() < 2) return;
  std::vector<NodeEdit> edits;
  for (int const i : conversions) edits.push_back(NodeEdit{i, with_factor(anatomy.node(i).definition, factor)});
  sink.nodes(slip, conversions.front(), std::move(edits));
}

struct Lists {
  std::vector<int> volumes, small_masses, large_masses, amounts, mass_concentrations, per_100_mL, pressures, cubic, percents;
};

Lists sorted(Anatomy const& anatomy) {
  Lists lists;
  Rational const thousandth(1, 1000);
  for (int const i : anatomy.all(NodeKind::conversion)) {
    if (!anatomy.used(i) || !converts_input(anatomy, i)) continue;
    auto const& factor = anatomy.node(i).definition.factor;
    auto const& symbol = anatomy.node(i).quantity.symbol;
    if (factor == Rational(1000) && symbol == "m") lists.large_masses.push_back(i);
    if (factor == Rational(10) && symbol == "gamma") lists.per_100_mL.push_back(i);
    if (symbol == "p") lists.pressures.push_back(i);
    if (factor == Rational(1, 100) && unit_before(anatomy, i) == "%") lists.percents.push_back(i);
    if (factor != thousandth) continue;
    if (symbol == "V") {
      lists.volumes.push_back(i);
      if (unit_before(anatomy, i) == "cm3") lists.cubic.push_back(i);
    } else if (symbol == "m") {
      lists.small_masses.push_back(i);
    } else if (symbol == "n" || symbol == "c") {
      lists.amounts.push_back(i);
    } else if (symbol == "gamma") {
      lists.mass_concentrations.push_back(i);
    }
  }
  return lists;
}
}  // namespace

void conversion_slips(Anatomy const& anatomy, Sink& sink) {
  static auto const* const left_in_mL = find_slip("volume-left-in-mL");
  static auto const* const by_100 = find_slip("volume-converted-by-100");
  static auto const* const wrong_way = find_slip("volume-converted-wrong-way");
  static auto const* const linear = find_slip("cubic-unit-taken-as-linear");
  static auto const* const left_in_mg = find_slip("mass-left-in-mg");
  static auto const* const left_in_kg = find_slip("mass-left-in-kg");
  static auto const* const mass_wrong_way = find_slip("mass-converted-wrong-way");
  static auto const* const millimole = find_slip("millimole-taken-as-mole");
  static auto const* const mg_per_L = find_slip("mg-per-L-taken-as-g-per-L");
  static auto const* const per_litre = find_slip("percent-w-v-taken-per-litre");
  static auto const* const pressure = find_slip("pressure-unit-mismatch");
  static auto const* const percent = find_slip("percent-left-as-number");
  auto const lists = sorted(anatomy);
  each_and_all(sink, anatomy, left_in_mL, lists.volumes, Rational(1));
  each_and_all(sink, anatomy, by_100, lists.volumes, Rational(1, 100));
  each_and_all(sink, anatomy, wrong_way, lists.volumes, Rational(1000));
  each_and_all(sink, anatomy, linear, lists.cubic, Rational(1, 10));
  each_and_all(sink, anatomy, left_in_mg, lists.small_masses, Rational(1));
  each_and_all(sink, anatomy, left_in_kg, lists.large_masses, Rational(1));
  each_and_all(sink, anatomy, mass_wrong_way, lists.small_masses, Rational(1000));
  each_and_all(sink, anatomy, mass_wrong_way, lists.large_masses, Rational(1, 1000));
  each_and_all(sink, anatomy, millimole, lists.amounts, Rational(1));
  each_and_all(sink, anatomy, mg_per_L, lists.mass_concentrations, Rational(1));
  each_and_all(sink, anatomy, per_litre, lists.per_100_mL, Rational(1));
  each_and_all(sink, anatomy, pressure, lists.pressures, Rational(1));
  each_and_all(sink, anatomy, percent, lists.percents, Rational(1));
}

namespace {
/// Read off as an answer, itself or once its unit is changed.
bool ends_the_work(Anatomy const& anatomy, int i) {
  return std::any_of(anatomy.working.finds.begin(), anatomy.working.finds.end(), [&](Answer const& find) {
    return find.node == i || (anatomy.kind(find.node) == NodeKind::conversion && anatomy.term(find.node, 0).node == i);
  });
}

/// The answer of a part in mg or mmol put into the last step of another as it stands.
void answers_put_in(Anatomy const& anatomy, Sink& sink) {
  static auto const* const mass = find_slip("mass-left-in-mg");
  static auto const* const amount = find_slip("millimole-taken-as-mole");
  for (auto const& find : anatomy.working.finds) {
    if (anatomy.kind(find.node) != NodeKind::conversion || anatomy.node(find.node).definition.terms.size() != 1) continue;
    int const worked = anatomy.term(find.node, 0).node;
    auto const& symbol = anatomy.node(find.node).value.unit.symbol;
    auto const* const slip = symbol == "mg" ? mass : symbol == "mmol" ? amount : nullptr;
    if (slip == nullptr || anatomy.printed(worked)) continue;
    for (int i = find.node + 1; i < anatomy.size(); ++i) {
      auto const& definition = anatomy.node(i).definition;
      bool const a_ratio = anatomy.kind(i) == NodeKind::mole_ratio;  // which is one in any unit
      if (definition.operation != Operation::product || a_ratio || !ends_the_work(anatomy, i)) continue;
      for (std::size_t t = 0; t < definition.terms.size(); ++t)
        if (definition.terms[t].node == worked && anatomy.kind(i) != NodeKind::conversion)
          sink.node(slip, i, with_node(definition, static_cast<int>(t), find.node), worked);
    }
  }
}
}  // namespace

void answer_slips(Anatomy const& anatomy, Sink& sink) {
  static auto const* const prefix = find_slip("unit-prefix-not-applied");
  static auto const* const on_the_way = find_slip("unit-not-changed-on-the-way");
  static auto const* const wrong_way = find_slip("answer-converted-wrong-way");
  static auto const* const early = find_slip("stopped-one-step-early");
  static auto const* const as_mass = find_slip("amount-reported-as-mass");
  static auto const* const other_part = find_slip("answer-of-another-part");
  static auto const* const molar_mass = find_slip("molar-mass-given-as-answer");
  static auto const* const powers = find_slip("power-of-ten");
  auto const& finds = anatomy.working.finds;
  answers_put_in(anatomy, sink);
  for (int const i : anatomy.all(NodeKind::conversion))  // on the way: joules put in where kilojoules are wanted
    if (anatomy.used(i) && !converts_input(anatomy, i) && !anatomy.is_answer(i) &&
        anatomy.node(i).definition.operation == Operation::product)
      sink.node(on_the_way, i, with_factor(anatomy.node(i).definition, Rational(1)));
  for (std::size_t f = 0; f < finds.size(); ++f) {
    int last = finds[f].node;
    int const answer = last;
    if (anatomy.kind(last) == NodeKind::limiting) continue;
    if (anatomy.kind(last) == NodeKind::conversion) {
      auto const& definition = anatomy.node(last).definition;
      int const before = definition.terms[0].node;
      if (!anatomy.printed(before)) {
        sink.answer(prefix, f, before, last);
        sink.node(wrong_way, last, with_factor(definition, definition.factor.reciprocal()));
        last = before;
      }
    }
    if (anatomy.kind(last) == NodeKind::amount_of_mass)
      if (int const M = anatomy.term_of(last, NodeKind::molar_mass); M >= 0)
        sink.answer(molar_mass, f, anatomy.term(last, M).node, answer);
    // The step before: what the last relation was worked from, seen through choices and changes of unit.
    for (auto const& term : anatomy.node(last).definition.terms) {
      int before = term.node;
      auto kind = anatomy.kind(before);
      if (kind == NodeKind::conversion) {
        before = anatomy.node(before).definition.terms[0].node;
        kind = anatomy.kind(before);
      }
      bool const a_step = !anatomy.printed(before) && kind != NodeKind::molar_mass && kind != NodeKind::coefficient &&
                          kind != NodeKind::table_value && kind != NodeKind::limiting && kind != NodeKind::batches &&
                          kind != NodeKind::reading && kind != NodeKind::titre && kind != NodeKind::atomic_weight &&
                          kind != NodeKind::group_mass;
      if (!a_step || anatomy.kind(last) == NodeKind::from_limiting) continue;
      bool const mass_from_amount = anatomy.kind(last) == NodeKind::amount_of_mass && anatomy.symbol(last, "m");
      sink.answer(mass_from_amount ? as_mass : early, f, before, last);
      if (last != answer)
        sink.node(mass_from_amount ? as_mass : early, last, copy_of(before));  // and the unit changed all the same
    }
    for (std::size_t g = 0; g < finds.size(); ++g)
      if (g != f && finds[g].figures > 0 && anatomy.kind(finds[g].node) != NodeKind::limiting)
        sink.answer(other_part, f, finds[g].node, finds[f].node);
    auto const& definition = anatomy.node(answer).definition;
    if (definition.operation != Operation::product && definition.operation != Operation::sum) continue;
    for (int k = -3; k <= 3; ++k)  // the factor stands under the root
      if (k != 0)
        sink.node(powers, answer, with_factor(definition, definition.factor * Rational::power_of_ten(k * definition.root)));
  }
}

}  // namespace molewright
