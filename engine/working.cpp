#include "engine/working.h"

#include <algorithm>
#include <cmath>
#include <set>

#include "engine/logarithm.h"
#include "engine/nomenclature_parts.h"

namespace molewright {
namespace {

/// Figures of a product: the fewest among what it reads; none when all are exact.
std::optional<int> figures_of_product(Working const& working, Definition const& definition) {
  std::optional<int> fewest;
  for (auto const& term : definition.terms) {
    auto const& value = working.nodes[static_cast<std::size_t>(term.node)].value;
    if (!value.last_place) continue;
    int const figures = figures_at(value.number, *value.last_place);
    fewest = fewest ? std::min(*fewest, figures) : figures;
  }
  return fewest;
}

/// The power of ten by which a node shifts the one node that it reads (mol to mmol: 3); nothing where it does anything else.
std::optional<int> shift_of(Definition const& definition) {
  constexpr int greatest_shift = 9;
  if (definition.operation != Operation::product || definition.terms.size() != 1) return std::nullopt;
  if (definition.terms.front().weight != 1 || definition.root != 1) return std::nullopt;
  static std::vector<Rational> const powers = [] {
    std::vector<Rational> all;
    for (int shift = -greatest_shift; shift <= greatest_shift; ++shift) all.push_back(Rational::power_of_ten(shift));
    return all;
  }();
  auto const at = std::find(powers.begin(), powers.end(), definition.factor);
  if (at == powers.end()) return std::nullopt;
  return static_cast<int>(at - powers.begin()) - greatest_shift;
}

/// Whether a value is sure to a decimal place and not to a number of figures: a sum, a logarithm, and these in another unit.
/// Then 9.96 that is sure to one place is 10.0, not 9.96.
bool is_sure_to_a_place(Working const& working, Node const& node) {
  if (node.definition.operation == Operation::sum || node.definition.operation == Operation::logarithm) return true;
  return shift_of(node.definition) &&
         is_sure_to_a_place(working, working.nodes[static_cast<std::size_t>(node.definition.terms.front().node)]);
}

bool evaluate_product(Working& working, Node& node) {
  Rational number = node.definition.factor;
  for (auto const& term : node.definition.terms) {
    auto const& read = working.nodes[static_cast<std::size_t>(term.node)].value.number;
    if (term.weight < 0 && read.sign() == 0) return false;
    if (term.weight == 1)
      number *= read;
    else if (term.weight == -1)
      number /= read;
    else
      number *= read.power(term.weight);
  }
  if (node.definition.root != 1) {
    if (number.sign() < 0) return false;
    number = root_of(number, node.definition.root);
  }
  auto const figures = figures_of_product(working, node.definition);
  node.value.last_place.reset();
  if (figures) {
    auto const shift = shift_of(node.definition);
    node.value.last_place =
        shift ? *working.nodes[static_cast<std::size_t>(node.definition.terms.front().node)].value.last_place + *shift
              : place_of_figures(number, *figures, Rounding::half_up);
  }
  node.value.number = std::move(number);
  return true;
}

void evaluate_sum(Working& working, Node& node) {
  Rational number;
  std::optional<int> coarsest;
  for (auto const& term : node.definition.terms) {
    auto const& read = working.nodes[static_cast<std::size_t>(term.node)].value;
    if (term.weight == 1)
      number += read.number;
    else
      number += Rational(term.weight) * read.number;
    if (read.last_place && term.weight != 0) coarsest = coarsest ? std::max(*coarsest, *read.last_place) : *read.last_place;
  }
  node.value.number = number * node.definition.factor;
  node.value.last_place = coarsest;
}

/// Index of the smallest among the nodes that a choose node reads.
int smallest(Working const& working, Definition const& definition) {
  int best = 0;
  auto const number = [&](int i) -> Rational const& {
    return working.nodes[static_cast<std::size_t>(definition.terms[static_cast<std::size_t>(i)].node)].value.number;
  };
  for (int i = 1; i < static_cast<int>(definition.terms.size()); ++i)
    if (number(i) < number(best)) best = i;
  return best;
}

bool evaluate_pick(Working& working, Node& node) {
  auto const& terms = node.definition.terms;
  auto const index = working.nodes[static_cast<std::size_t>(terms[0].node)].value.number.to_double();
  auto const at = static_cast<std::size_t>(index) + 1;
  if (index < 0 || at >= terms.size()) return false;
  auto const& picked = working.nodes[static_cast<std::size_t>(terms[at].node)].value;
  node.value.number = picked.number;
  node.value.last_place = picked.last_place;
  return true;
}

/// The figures of a number are the decimal places of its logarithm, and the other way round: ISO 80000-1:2009, B does not say so;
/// NIST and textbooks do (OpenStax, Chemistry 2e, 14.2: pH to as many decimals as the concentration has figures).
bool evaluate_logarithm(Working& working, Node& node) {
  auto const& read = working.nodes[static_cast<std::size_t>(node.definition.terms[0].node)].value;
  if (read.number.sign() <= 0) return false;
  node.value.number = node.definition.factor * log10_of(read.number);
  node.value.last_place.reset();
  if (read.last_place) node.value.last_place = -figures_at(read.number, *read.last_place);
  return true;
}

bool evaluate_exponential(Working& working, Node& node) {
  Rational exponent;
  std::optional<int> coarsest;
  for (auto const& term : node.definition.terms) {
    auto const& read = working.nodes[static_cast<std::size_t>(term.node)].value;
    exponent += Rational(term.weight) * read.number;
    if (read.last_place) coarsest = coarsest ? std::max(*coarsest, *read.last_place) : *read.last_place;
  }
  constexpr int largest_exponent = 300;
  if (exponent.absolute() > Rational(largest_exponent)) return false;
  node.value.number = node.definition.factor * power_of_ten(exponent);
  node.value.last_place.reset();
  if (coarsest) node.value.last_place = place_of_figures(node.value.number, std::max(1, -*coarsest), Rounding::half_up);
  return true;
}

/// A ratio is taken as whole when it is within a tenth and within 3 % of a whole number: published compositions leave as much.
bool nearly_whole(double ratio) {
  double const whole = std::round(ratio);
  return whole >= 1 && std::abs(ratio - whole) <= 0.1 && std::abs(ratio - whole) <= 0.03 * whole;
}
constexpr int largest_multiplier = 8;

/// Amounts of the parts over the smallest of them; empty where one is not above zero.
std::vector<double> ratios(Working const& working, Definition const& definition) {
  std::vector<double> out;
  for (auto const& term : definition.terms)
    out.push_back(working.nodes[static_cast<std::size_t>(term.node)].value.number.to_double());
  if (out.empty()) return out;
  double const least = *std::min_element(out.begin(), out.end());
  if (!(least > 0)) return {};
  for (double& ratio : out) ratio /= least;
  return out;
}

bool evaluate_proportion(Working& working, Node& node) {
  auto const all = ratios(working, node.definition);
  node.value.last_place.reset();
  // A hydrate has a whole number of waters, or a half; what is weighed leaves some doubt.
  if (node.relation == relations::hydrate_formula && all.size() == 2) {
    double const waters = all[1] / all[0];
    constexpr double doubt = 0.25;
    for (int multiplier : {1, 2})
      if (waters * multiplier >= 1 - doubt && std::abs(waters * multiplier - std::round(waters * multiplier)) < doubt) {
        node.value.number = Rational(multiplier);
        return true;
      }
    return false;
  }
  // What is there in traces is what weighing leaves over: no school formula has a hundred and fifty atoms to one.
  constexpr double most_atoms = 150;
  if (!all.empty() && *std::max_element(all.begin(), all.end()) > most_atoms) return false;
  for (int multiplier = 1; multiplier <= largest_multiplier && !all.empty(); ++multiplier)
    if (std::all_of(all.begin(), all.end(), [&](double ratio) { return nearly_whole(ratio * multiplier); })) {
      node.value.number = Rational(multiplier);
      return true;
    }
  return false;
}

bool evaluate_multiple(Working& working, Node& node) {
  auto const& terms = node.definition.terms;
  auto const& proportion = working.nodes[static_cast<std::size_t>(terms[1].node)];
  auto const counts = counts_of_parts(working, proportion);
  Rational one;
  for (std::size_t i = 0; i < counts.size(); ++i)
    one += Rational(counts[i]) * working.nodes[static_cast<std::size_t>(terms[i + 2].node)].value.number;
  if (one.sign() <= 0) return false;
  node.value.number =
      round_to_place(working.nodes[static_cast<std::size_t>(terms[0].node)].value.number / one, 0, Rounding::half_up);
  node.value.last_place.reset();
  return node.value.number.sign() > 0;
}

bool evaluate_node(Working& working, Node& node) {
  switch (node.definition.operation) {
    case Operation::constant:
      node.value.number = node.definition.factor;
      return true;
    case Operation::product:
      return evaluate_product(working, node);
    case Operation::sum:
      evaluate_sum(working, node);
      return true;
    case Operation::choose:
      node.value.number = Rational(smallest(working, node.definition));
      node.value.last_place.reset();
      return true;
    case Operation::pick:
      return evaluate_pick(working, node);
    case Operation::logarithm:
      return evaluate_logarithm(working, node);
    case Operation::exponential:
      return evaluate_exponential(working, node);
    case Operation::proportion:
      return evaluate_proportion(working, node);
    case Operation::multiple:
      return evaluate_multiple(working, node);
    case Operation::stated:
      node.value.number = Rational(1);
      node.value.last_place.reset();
      return true;
  }
  return false;
}

/// An exact answer (a molar mass, a count) is printed whole where its decimals end, else to six figures.
constexpr int whole_figures = 12;

void print_exact(Answer& answer, Rational const& number) {
  answer.text = unrounded(number, whole_figures);
  if (Rational::power_of_ten(whole_figures) * number != (Rational::power_of_ten(whole_figures) * number).floor())
    answer.text = unrounded(number, figures_of_unending);
  auto const read = parse_decimal(answer.text);
  answer.figures = value(read).figures;
  answer.place = value(read).last_place;
}

void settle_answer(Working const& working, Answer& answer, std::optional<int> asked, Ties ties) {
  auto const& node = working.nodes[static_cast<std::size_t>(answer.node)];
  if (node.definition.operation == Operation::choose) {
    answer.text = chosen_formula(working, node);
    answer.figures = 0;
    return;
  }
  if (node.definition.operation == Operation::proportion || node.definition.operation == Operation::multiple) {
    answer.text = found_formula(working, node);
    answer.figures = 0;
    return;
  }
  if (node.definition.operation == Operation::stated) {
    answer.text = node.says;
    answer.figures = 0;
    return;
  }
  auto const rounding = nearest_by(ties);
  auto const& number = node.value.number;
  answer.by_place = false;
  if (asked) {
    answer.figures = *asked;
  } else if (!node.value.last_place) {
    print_exact(answer, number);
    return;
  } else {
    answer.by_place = is_sure_to_a_place(working, node);
    answer.figures = figures_at(number, *node.value.last_place);
  }
  if (answer.by_place) {
    answer.place = *node.value.last_place;
    answer.text = print_to_place(number, answer.place, rounding).plain;
    answer.figures = figures_at(round_to_place(number, answer.place, rounding), answer.place);
  } else {
    answer.place = place_of_figures(number, answer.figures, rounding);
    answer.text = print_to_figures(number, answer.figures, rounding).plain;
  }
}
}  // namespace

int Working::find_node(std::string_view id) const {
  for (std::size_t i = 0; i < nodes.size(); ++i)
    if (nodes[i].id == id) return static_cast<int>(i);
  return -1;
}

bool leads_on(Node const& node) {
  using namespace relations;
  for (auto const* relation : {skeleton, full_ionic, spectators, ion, crystal_water, in_water, on_mixing})
    if (node.relation == relation) return true;
  return false;
}

std::string const& chosen_formula(Working const& working, Node const& node) {
  auto const index = static_cast<std::size_t>(node.value.number.to_double());
  return working.nodes[static_cast<std::size_t>(node.definition.terms[index].node)].quantity.substance;
}

std::vector<std::int64_t> counts_of_parts(Working const& working, Node const& node) {
  if (node.definition.operation == Operation::multiple) {
    auto counts = counts_of_parts(working, working.nodes[static_cast<std::size_t>(node.definition.terms[1].node)]);
    auto const times = static_cast<std::int64_t>(node.value.number.to_double());
    for (auto& count : counts) count *= times;
    return counts;
  }
  std::vector<std::int64_t> counts;
  auto all = ratios(working, node.definition);
  if (node.relation == relations::hydrate_formula && all.size() == 2) all = {1, all[1] / all[0]};
  for (double ratio : all) counts.push_back(std::llround(ratio * node.value.number.to_double()));
  return counts;
}

namespace {
using Parts = std::vector<std::pair<std::string, std::int64_t>>;

/// How far an element stands from the front of a formula: Nomenclature of Inorganic Chemistry, IUPAC Recommendations 2005, Table
/// VI, read from its end (from memory); but oxygen behind chlorine, bromine and iodine, as in KClO3.
std::size_t place_in_formula(std::string_view element) {
  static std::vector<std::string_view> const sequence{
      "Rn", "Xe", "Kr", "Ar", "Ne", "He", "Fr", "Cs", "Rb", "K",  "Na", "Li", "Ra", "Ba", "Sr", "Ca", "Mg", "Be", "Am",
      "Pu", "Np", "U",  "Pa", "Th", "Ac", "Lu", "Yb", "Tm", "Er", "Ho", "Dy", "Tb", "Gd", "Eu", "Sm", "Pm", "Nd", "Pr",
      "Ce", "La", "Y",  "Sc", "Hf", "Zr", "Ti", "Ta", "Nb", "V",  "W",  "Mo", "Cr", "Re", "Tc", "Mn", "Os", "Ru", "Fe",
      "Ir", "Rh", "Co", "Pt", "Pd", "Ni", "Au", "Ag", "Cu", "Hg", "Cd", "Zn", "Tl", "In", "Ga", "Al", "B",  "Pb", "Sn",
      "Ge", "Si", "C",  "Bi", "Sb", "As", "P",  "N",  "H",  "Po", "Te", "Se", "S",  "At", "I",  "Br", "Cl", "O",  "F"};
  return static_cast<std::size_t>(std::find(sequence.begin(), sequence.end(), element) - sequence.begin());
}

/// With carbon and no metal: carbon, hydrogen, then the alphabet (Hill, J. Am. Chem. Soc. 1900, 22, 478). Else the metals, then
/// the others by the sequence of the elements, where the hydrogen of an acid comes first: H3PO4, NaHCO3, but NH3 and NaC2H3O2.
void in_usual_order(Parts& parts) {
  static std::set<std::string, std::less<>> const of_organic{"C", "H", "N", "O", "S", "P", "F", "Cl", "Br", "I", "Si", "B"};
  auto const count_of = [&](std::string_view element) {
    auto const found = std::find_if(parts.begin(), parts.end(), [&](auto const& part) { return part.first == element; });
    return found == parts.end() ? 0 : found->second;
  };
  bool const carbon = count_of("C") > 0, acid = count_of("O") > 0 && (!carbon || count_of("H") == 1);
  bool const organic =
      carbon && std::all_of(parts.begin(), parts.end(), [](auto const& part) { return of_organic.count(part.first) > 0; });
  auto const rank = [&](std::string const& element) {
    if (!organic && !naming::named_as_nonmetal(element)) return 0;
    if (element == "H") return acid && !organic ? 1 : carbon ? 3 : 4;
    return element == "C" ? 2 : 4;
  };
  std::sort(parts.begin(), parts.end(), [&](auto const& a, auto const& b) {
    int const one = rank(a.first), other = rank(b.first);
    if (one != other) return one < other;
    auto const place = place_in_formula(a.first), behind = place_in_formula(b.first);
    return organic || place == behind ? a.first < b.first : place < behind;
  });
}
}  // namespace

std::string found_formula(Working const& working, Node const& node) {
  auto const counts = counts_of_parts(working, node);
  auto const& proportion = node.definition.operation == Operation::multiple
                               ? working.nodes[static_cast<std::size_t>(node.definition.terms[1].node)]
                               : node;
  Parts parts;
  for (std::size_t i = 0; i < counts.size(); ++i)
    parts.push_back({working.nodes[static_cast<std::size_t>(proportion.definition.terms[i].node)].quantity.substance, counts[i]});
  auto const number = [](std::int64_t count) { return count == 1 ? std::string() : std::to_string(count); };
  if (node.relation == relations::hydrate_formula)
    return number(parts[0].second) + parts[0].first + "·" + number(parts[1].second) + parts[1].first;
  in_usual_order(parts);
  std::string out;
  for (auto const& [element, count] : parts) out += element + number(count);
  return out;
}

Decimal told_value(Working const& working, std::size_t find, Ties ties) {
  constexpr int usual_figures = 2;
  auto const& answer = working.finds[find];
  auto const& number = working.nodes[static_cast<std::size_t>(answer.node)].value.number;
  auto const rounding = nearest_by(ties);
  // pH 2.35 is told as 2.4: one place less, not one figure.
  auto const printed = answer.by_place
                           ? print_to_place(number, answer.place + 1, rounding)
                           : print_to_figures(number, std::max(1, std::min(usual_figures, answer.figures - 1)), rounding);
  return value(parse_decimal(printed.plain));
}

bool evaluate(Working& working, Ties ties, std::vector<std::optional<int>> const& asked_figures) {
  for (auto& node : working.nodes)
    if (!evaluate_node(working, node)) return false;
  for (std::size_t i = 0; i < working.finds.size(); ++i)
    settle_answer(working, working.finds[i], i < asked_figures.size() ? asked_figures[i] : std::nullopt, ties);
  return true;
}

namespace {
/// Adds a node and all that it reads, where they are not there yet, what is read first.
void add_in_order(Working const& working, int index, std::vector<bool>& seen, std::vector<int>& order) {
  if (seen[static_cast<std::size_t>(index)]) return;
  seen[static_cast<std::size_t>(index)] = true;
  auto const& definition = working.nodes[static_cast<std::size_t>(index)].definition;
  if (definition.operation == Operation::pick) {  // the choice, then only the branch taken
    int const choice = definition.terms[0].node;
    add_in_order(working, choice, seen, order);
    auto const chosen = working.nodes[static_cast<std::size_t>(choice)].value.number.to_double();
    add_in_order(working, definition.terms[static_cast<std::size_t>(chosen) + 1].node, seen, order);
  } else {
    for (auto const& term : definition.terms) add_in_order(working, term.node, seen, order);
  }
  order.push_back(index);
}
}  // namespace

std::vector<int> order_of_work(Working const& working, std::size_t find) {
  std::vector<int> order;
  order.reserve(working.nodes.size());
  std::vector<bool> seen(working.nodes.size(), false);
  add_in_order(working, working.finds[find].node, seen, order);
  return order;
}

}  // namespace molewright
