// Slips in a molar mass: subscripts, brackets, the wrong column of the periodic table, the water of a hydrate.
#include <algorithm>

#include "marker/slip_library.h"

namespace molewright {
namespace {

bool is_element(Anatomy const& anatomy, int i) {
  auto const& terms = anatomy.node(i).definition.terms;
  return terms.size() == 1 && anatomy.kind(terms[0].node) == NodeKind::atomic_weight;
}

/// "Ag" of "A(Ag)".
std::string_view symbol_of(Node const& atomic_weight) {
  std::string_view id = atomic_weight.id;
  auto const open = id.find('(');
  return open == std::string_view::npos ? std::string_view() : id.substr(open + 1, id.size() - open - 2);
}

void subscripts(Anatomy const& anatomy, Sink& sink, int i, int at) {
  static auto const* const subscript = find_slip("subscript-ignored");
  static auto const* const diatomic = find_slip("diatomic-taken-as-atom");
  auto const& definition = anatomy.node(i).definition;
  for (std::size_t t = 0; t < definition.terms.size(); ++t) {
    if (definition.terms[t].weight == 1 || anatomy.kind(definition.terms[t].node) != NodeKind::atomic_weight) continue;
    bool const gas = is_element(anatomy, i) && definition.terms[t].weight == 2;
    sink.node(gas ? diatomic : subscript, i, with_weight(definition, static_cast<int>(t), 1), at);
  }
}

/// How often each element stands in a molar mass, brackets counted, the water of a hydrate not.
void count_elements(Anatomy const& anatomy, int i, int times, std::vector<Term>& counts) {
  int const water = water_term(anatomy, i);
  auto const& terms = anatomy.node(i).definition.terms;
  for (std::size_t t = 0; t < terms.size(); ++t) {
    auto const& [node, weight] = terms[t];
    if (static_cast<int>(t) == water) continue;
    if (anatomy.kind(node) != NodeKind::atomic_weight) {
      count_elements(anatomy, node, times * weight, counts);
      continue;
    }
    auto const at = std::find_if(counts.begin(), counts.end(), [&n = node](Term const& one) { return one.node == n; });
    if (at == counts.end())
      counts.push_back(Term{node, times * weight});
    else
      at->weight += times * weight;
  }
}

void left_out_elements(Anatomy const& anatomy, Sink& sink, int i) {
  static auto const* const left_out = find_slip("element-left-out-of-sum");
  auto const& definition = anatomy.node(i).definition;
  std::vector<Term> counts;
  count_elements(anatomy, i, 1, counts);
  if (counts.size() > 1)
    for (auto const& element : counts) {
      bool const one_term = std::any_of(definition.terms.begin(), definition.terms.end(), [&](Term const& term) {
        return term.node == element.node && term.weight == element.weight;
      });
      if (one_term) continue;  // left out as that term, below
      auto without = definition;
      without.terms.push_back(Term{element.node, -element.weight});
      sink.node(left_out, i, std::move(without));
    }
  if (definition.terms.size() < 2) return;
  for (std::size_t t = 0; t < definition.terms.size(); ++t)
    if (auto const kind = anatomy.kind(definition.terms[t].node); kind == NodeKind::atomic_weight || kind == NodeKind::group_mass)
      sink.node(left_out, i, without_term(definition, static_cast<int>(t)));
}

/// M(Ca(NO3)2) with the 2 left out, on the last atom only (N once, O six times), and on the whole formula.
void brackets(Anatomy const& anatomy, Sink& sink, int i) {
  static auto const* const ignored = find_slip("bracket-multiplier-ignored");
  static auto const* const on_last = find_slip("bracket-multiplier-on-last-atom");
  static auto const* const on_all = find_slip("bracket-multiplier-on-whole-formula");
  auto const& definition = anatomy.node(i).definition;
  for (std::size_t t = 0; t < definition.terms.size(); ++t) {
    auto const& group = definition.terms[t];
    if (group.weight == 1 || anatomy.kind(group.node) != NodeKind::group_mass) continue;
    auto once = with_weight(definition, static_cast<int>(t), 1);
    sink.node(ignored, i, once);
    auto const& inside = anatomy.node(group.node).definition.terms;
    if (inside.size() > 1) {
      auto last = once;
      last.terms.push_back(Term{inside.back().node, inside.back().weight * (group.weight - 1)});
      sink.node(on_last, i, std::move(last));
    }
    if (definition.terms.size() > 1) {
      auto whole = definition;
      int const water = water_term(anatomy, i);  // of a hydrate: the dot ends what the number could count
      for (std::size_t u = 0; u < whole.terms.size(); ++u)
        if (u != t && static_cast<int>(u) != water) whole.terms[u].weight *= group.weight;
      sink.node(on_all, i, std::move(whole));
    }
  }
}

/// The molar mass made of atomic numbers; nothing where an element has none.
std::optional<Rational> sum_of_numbers(Anatomy const& anatomy, int i) {
  Rational sum(0);
  for (auto const& term : anatomy.node(i).definition.terms) {
    std::optional<Rational> part;
    if (anatomy.kind(term.node) == NodeKind::atomic_weight) {
      auto const* const element = find_element(symbol_of(anatomy.node(term.node)));
      if (element) part = Rational(element->atomic_number);
    } else {
      part = sum_of_numbers(anatomy, term.node);
    }
    if (!part) return std::nullopt;
    sum += *part * Rational(term.weight);
  }
  return sum * anatomy.node(i).definition.factor;
}

void atomic_numbers(Anatomy const& anatomy, Sink& sink) {
  static auto const* const number = find_slip("atomic-number-for-weight");
  // Whoever reads the wrong number of a box reads it in every box (proposal).
  constexpr double one_element_alone = 0.03;
  std::vector<NodeEdit> every;
  int hydrogen = -1;  // 1 for 1.008 is a rounding, and shows as little
  for (int const i : anatomy.all(NodeKind::atomic_weight)) {
    if (!anatomy.used(i)) continue;
    auto const* const element = find_element(symbol_of(anatomy.node(i)));
    if (!element) continue;
    if (element->atomic_number == 1) hydrogen = i;
    every.push_back(NodeEdit{i, constant_of(Rational(element->atomic_number))});
  }
  if (every.empty()) return;
  if (every.size() > 1)
    for (auto const& one : every)
      if (one.node != hydrogen) sink.node(number, one.node, one.definition, -1, one_element_alone);
  int const at = every.front().node;
  sink.nodes(number, at, std::move(every));
  // In one molar mass of several.
  std::vector<int> masses;
  for (int const i : anatomy.all(NodeKind::molar_mass))
    if (anatomy.used(i)) masses.push_back(i);
  if (masses.size() > 1)
    for (int const i : masses)
      if (auto const sum = sum_of_numbers(anatomy, i)) sink.node(number, i, constant_of(*sum));
}
}  // namespace

int water_term(Anatomy const& anatomy, int molar_mass) {
  auto const& node = anatomy.node(molar_mass);
  if (node.quantity.substance.find("·") == std::string::npos) return -1;
  for (std::size_t t = 0; t < node.definition.terms.size(); ++t) {
    int const part = node.definition.terms[t].node;
    if (anatomy.kind(part) == NodeKind::molar_mass && anatomy.substance(part, "H2O")) return static_cast<int>(t);
  }
  return -1;
}

void molar_mass_slips(Anatomy const& anatomy, Sink& sink) {
  std::vector<char> inside(static_cast<std::size_t>(anatomy.size()), 0);  // the water of a hydrate: nobody slips on M(H2O) there
  for (int const i : anatomy.all(NodeKind::molar_mass))
    if (int const water = water_term(anatomy, i); water >= 0) inside[static_cast<std::size_t>(anatomy.term(i, water).node)] = 1;
  for (int const i : anatomy.all(NodeKind::molar_mass)) {
    if (!anatomy.used(i) || inside[static_cast<std::size_t>(i)]) continue;
    subscripts(anatomy, sink, i, i);
    left_out_elements(anatomy, sink, i);
    brackets(anatomy, sink, i);
  }
  // A subscript inside a bracket: the slip shows in the molar mass that holds the bracket.
  for (int const group : anatomy.all(NodeKind::group_mass)) {
    if (!anatomy.used(group)) continue;
    int at = group;
    for (int const i : anatomy.all(NodeKind::molar_mass))
      for (auto const& term : anatomy.node(i).definition.terms)
        if (term.node == group) at = i;
    subscripts(anatomy, sink, group, at);
    brackets(anatomy, sink, group);
  }
  atomic_numbers(anatomy, sink);
}

namespace {
/// A hydrate's formula with the masses of salt and water exchanged, and with that of the whole for one of them.
void hydrate_from_other_masses(Anatomy const& anatomy, Sink& sink, int formula) {
  static auto const* const exchanged = find_slip("residue-taken-as-water");
  static auto const* const whole = find_slip("whole-taken-as-part");
  auto const& parts = anatomy.node(formula).definition.terms;
  if (parts.size() != 2) return;
  int const one = parts[0].node, two = parts[1].node;
  int const at_one = anatomy.term_of(one, "m"), at_two = anatomy.term_of(two, "m");
  int const m_one = anatomy.term(one, at_one).node, m_two = anatomy.term(two, at_two).node;
  if (m_one < two && m_two < one)
    sink.nodes(exchanged, formula,
               {NodeEdit{one, with_node(anatomy.node(one).definition, at_one, m_two)},
                NodeEdit{two, with_node(anatomy.node(two).definition, at_two, m_one)}});
  auto const& more = std::max(anatomy.node(m_one).value.number, anatomy.node(m_two).value.number);
  bool printed = false;
  for (auto const kind : {NodeKind::given, NodeKind::difference})
    for (int const other : anatomy.all(kind)) {
      bool const of_all = anatomy.symbol(other, "m") && vessel_of(anatomy.node(other).quantity).empty() &&
                          anatomy.node(other).value.unit == anatomy.node(m_one).value.unit &&
                          anatomy.node(other).value.number > more;
      if (!of_all) continue;
      printed = true;
      if (other < one) sink.node(whole, one, with_node(anatomy.node(one).definition, at_one, other), formula);
      if (other < two) sink.node(whole, two, with_node(anatomy.node(two).definition, at_two, other), formula);
    }
  if (printed) return;
  auto const both = anatomy.node(m_one).value.number + anatomy.node(m_two).value.number;
  for (auto const& [part, at] : {std::pair(one, at_one), std::pair(two, at_two)}) {
    auto const& definition = anatomy.node(part).definition;
    sink.node(whole, part, with_factor(without_term(definition, at), definition.factor * both), formula);
  }
}

/// A formula's numbers from the masses of its parts, as they stand.
void formula_from_masses(Anatomy const& anatomy, Sink& sink) {
  static auto const* const water = find_slip("water-ratio-by-mass");
  static auto const* const masses = find_slip("mass-used-as-amount");
  for (int i = 0; i < anatomy.size(); ++i) {
    if (!anatomy.used(i) || anatomy.node(i).definition.operation != Operation::proportion) continue;
    std::vector<NodeEdit> edits;
    for (auto const& part : anatomy.node(i).definition.terms) {
      int const M = anatomy.kind(part.node) == NodeKind::amount_of_mass ? anatomy.term_of(part.node, "M") : -1;
      if (M < 0) return;
      edits.push_back(NodeEdit{part.node, without_term(anatomy.node(part.node).definition, M)});
    }
    bool const hydrate = anatomy.node(i).relation == relations::hydrate_formula;
    sink.nodes(hydrate ? water : masses, i, std::move(edits));
    if (hydrate) hydrate_from_other_masses(anatomy, sink, i);
  }
}
}  // namespace

void hydrate_slips(Anatomy const& anatomy, Sink& sink) {
  static auto const* const forgotten = find_slip("hydrate-water-forgotten");
  static auto const* const one_water = find_slip("hydrate-one-water");
  static auto const* const multiplied = find_slip("hydrate-dot-multiplied");
  static auto const* const hydrogen_only = find_slip("hydrate-number-on-hydrogen-only");
  for (int const i : anatomy.all(NodeKind::molar_mass)) {
    if (!anatomy.used(i)) continue;
    int const water = water_term(anatomy, i);
    if (water < 0) continue;
    auto const& definition = anatomy.node(i).definition;
    auto const& term = anatomy.term(i, water);
    auto const anhydrous = without_term(definition, water);
    sink.node(forgotten, i, anhydrous);
    // M(salt) x 5 x M(H2O): the water's mass stands in the factor, for a sum cannot multiply two nodes.
    sink.node(multiplied, i, with_factor(anhydrous, Rational(term.weight) * anatomy.node(term.node).value.number));
    if (term.weight == 1) continue;
    sink.node(one_water, i, with_weight(definition, water, 1));
    int const oxygen = anatomy.working.find_node("A(O)");
    if (oxygen < 0) continue;
    auto dry = definition;
    dry.terms.push_back(Term{oxygen, 1 - term.weight});
    sink.node(hydrogen_only, i, std::move(dry));
  }
  formula_from_masses(anatomy, sink);
}

}  // namespace molewright
