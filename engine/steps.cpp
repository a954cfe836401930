#include "engine/steps.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <map>
#include <set>

#include "engine/ascii.h"
#include "engine/cancelled_units.h"
#include "engine/formula_memo.h"
#include "engine/readings_words.h"
#include "engine/relation_table.h"
#include "engine/steps_numbers.h"
#include "engine/steps_stated.h"
#include "engine/steps_words.h"
#include "engine/substance.h"

namespace molewright {
namespace {

Node const& node_of(Working const& working, int index) { return working.nodes[static_cast<std::size_t>(index)]; }

std::string superscript(int exponent) {
  static std::array<char const*, 10> const digits{"⁰", "¹", "²", "³", "⁴", "⁵", "⁶", "⁷", "⁸", "⁹"};
  std::string out;
  for (char digit : std::to_string(exponent)) out += digits[static_cast<std::size_t>(digit - '0')];
  return out;
}

/// What a slip may leave out or change of pH = −lg c and of c = 10^(−pH) is printed as it was worked.
std::string logarithm_of(Definition const& definition) {
  bool const to_ten = definition.factor.absolute() == Rational(1);
  return std::string(definition.factor.sign() < 0 ? "−" : "") + (to_ten ? "lg" : "ln");
}
std::string minus_of(Definition const& definition) { return definition.terms[0].weight < 0 ? "−" : ""; }

class StepWriter {
 public:
  StepWriter(Problem const& problem, Working const& working, Conventions const& conventions)
      : problem_(problem),
        working_(working),
        conventions_(conventions),
        typed_(typed_numbers(problem, working)),
        several_reactions_(problem.reactions.size() > 1) {}

  /// A step with what becomes of its units.
  std::string text(Node const& node) const { return line(node, true); }

  std::string line(Node const& node, bool with_units = false) const {
    if (node.definition.operation == Operation::stated) return stated_text(working_, node, conventions_);
    if (node.relation == relations::convert)
      return fmt::format(words::short_step, pretty(node.quantity), measure(read(node, 0)), measure(node));
    if (node.relation == relations::molar_mass && node.definition.terms.size() == 1 && node.definition.terms[0].weight == 1)
      return fmt::format(words::look_up_step, pretty(node.quantity), measure(node));
    if (node.relation == relations::molar_mass)
      return fmt::format(words::short_step, pretty(node.quantity), sum_of_weights(node), measure(node));
    if (node.relation == relations::basis) return fmt::format(words::basis_step, pretty(node.quantity), measure(node));
    if (node.relation == relations::density_of_water)
      return fmt::format(words::density_of_water_step, pretty(node.quantity), measure(node));
    if (node.relation == relations::course_value)
      return fmt::format(words::course_value_step, pretty(node.quantity), measure(node));
    if (node.relation == RelationForm("pH of a neutral solution"))
      return fmt::format(words::neutral_step, pretty(node.quantity), measure(node));
    if (node.definition.operation == Operation::logarithm)
      return fmt::format(words::logarithm_step, pretty(node.quantity), logarithm_of(node.definition), symbol_of(read(node, 0)),
                         number_of(working_, read(node, 0), conventions_).pretty, measure(node));
    if (node.definition.operation == Operation::exponential)
      return fmt::format(words::exponential_step, pretty(node.quantity), minus_of(node.definition), symbol_of(read(node, 0)),
                         measure(read(node, 0)), measure(node));
    if (node.relation == relations::batches)
      return fmt::format(words::batches_step, pretty(read(node, 0).quantity), pretty_formula(node.quantity.substance),
                         numbers(node), measure(node));
    if (node.relation == relations::limiting) return limiting(node);
    if (node.definition.operation == Operation::proportion) return proportion(node);
    if (node.definition.operation == Operation::multiple) return multiple(node);
    if (node.relation == relations::from_limiting)
      return fmt::format(words::all_used, pretty(node.quantity), pretty(picked(node).quantity), measure(node));
    if (node.relation == RelationForm("n(hydrate) = n(salt)")) return hydrate(node);
    if (node.relation == RelationForm("n(acid) = n(anion)"))
      return fmt::format(words::acid_of_salt_step, pretty(node.quantity), pretty(read(node, 0).quantity), measure(node),
                         pretty_formula(read(node, 0).quantity.substance), pretty_formula(node.quantity.substance));
    if (auto const text = ion_of_element(node); !text.empty()) return text;
    if (node.relation == relations::titre)
      return fmt::format(words::titre_step, titre_or_reading(node), place_in_table(node), numbers(node), measure(node));
    if (node.relation == relations::difference || node.relation == relations::mean)
      return left_out(node) + fmt::format(words::short_step, pretty(node.quantity), numbers(node), measure(node));
    bool const same = (node.definition.operation == Operation::sum || node.definition.operation == Operation::product) &&
                      node.definition.root == 1 && node.definition.terms.size() == 1 && node.definition.terms[0].weight == 1 &&
                      node.definition.factor == Rational(1);
    if (same) return fmt::format(words::short_step, pretty(node.quantity), symbol_of(read(node, 0)), measure(node));
    auto const step = in_its_reaction(
        node, fmt::format(words::equation_step, pretty(node.quantity), symbols(node), numbers(node), measure(node)));
    if (auto const law = solubility_law(node); !law.empty()) return fmt::format(words::solubility_step, law, step);
    auto const units = with_units ? units_of(node) : std::string();
    return units.empty() ? step : fmt::format(words::with_units, step, units);
  }

  StepInSymbols in_symbols(Node const& node) const {
    if (node.relation == relations::batches)
      return {fmt::format(words::batches_symbols, pretty(read(node, 0).quantity), pretty_formula(node.quantity.substance)), ""};
    std::string const left = pretty(node.quantity);
    if (node.relation == relations::titre) return {std::string(titre_or_reading(node)) + ' ' + place_in_table(node), ""};
    if (node.relation == relations::molar_mass) return {left, weights_in_symbols(node)};
    for (char const* bare :
         {relations::convert, relations::difference, relations::mean, relations::from_limiting, "pH of a neutral solution"})
      if (node.relation == bare) return {left, ""};
    switch (node.definition.operation) {
      case Operation::product:
      case Operation::sum:
        return {left, symbols(node)};
      case Operation::logarithm:
        return {left, fmt::format(words::logarithm_symbols, logarithm_of(node.definition), symbol_of(read(node, 0)))};
      case Operation::exponential:
        return {left, fmt::format(words::exponential_symbols, minus_of(node.definition), symbol_of(read(node, 0)))};
      default:
        return {left, ""};
    }
  }

  Node const& picked(Node const& node) const {
    auto const index = static_cast<std::size_t>(read(node, 0).value.number.to_double());
    return node_of(working_, node.definition.terms[index + 1].node);
  }

  /// Whether more than one of the amounts that a choice compares is the smallest.
  bool ties(Node const& choice) const {
    auto const& least = read(choice, static_cast<std::size_t>(choice.value.number.to_double())).value.number;
    auto const& terms = choice.definition.terms;
    return std::count_if(terms.begin(), terms.end(),
                         [&](Term const& t) { return node_of(working_, t.node).value.number == least; }) > 1;
  }

  std::string measure(Node const& node) const {
    auto const typed = typed_.find(static_cast<int>(&node - working_.nodes.data()));
    auto const number =
        typed == typed_.end() ? number_of(working_, node, conventions_) : print_as_typed(*typed->second, conventions_.mark);
    return measure_text(number.pretty, node.value.unit, conventions_);
  }

 private:
  Node const& read(Node const& node, std::size_t term) const { return node_of(working_, node.definition.terms[term].node); }

  /// The number of a coefficient's reaction is said behind the step, not at the coefficient.
  static std::string symbol_of(Node const& node) {
    auto quantity = node.quantity;
    if (node.relation == relations::coefficient) quantity.stage = 0;
    return pretty(quantity);
  }

  static char const* titre_or_reading(Node const& node) { return node.quantity.symbol == "V" ? words::titre : words::reading; }
  Given const* mean_of(Node const& node) const {
    auto const* given = given_named(problem_, node.quantity);
    return given != nullptr && given->form == Given::Form::mean ? given : nullptr;
  }
  /// The number that the question's table gives the titre: the rough ones have none there.
  static std::size_t place_in_table(Given const& given, std::size_t titre) {
    std::size_t place = 0;
    for (std::size_t i = 0; i <= titre; ++i) place += is_rough(given, i) ? 0 : 1;
    return place;
  }
  std::string place_in_table(Node const& node) const {
    auto const which = node.id.substr(node.id.rfind(' ') + 1);
    auto const* given = mean_of(node);
    return given == nullptr ? which : std::to_string(place_in_table(*given, std::stoul(which) - 1));
  }

  /// What is said of the titres that a mean leaves out; empty where it leaves none.
  std::string left_out(Node const& node) const {
    auto const* given = node.relation == relations::mean ? mean_of(node) : nullptr;
    if (given == nullptr) return {};
    std::string out = given->rough.empty() ? "" : words::rough_left_out;
    for (auto const i : given->discordant) {
      auto const one = titre(*given, i);
      std::optional<Rational> nearest;
      for (std::size_t other = 0; other < titres(*given); ++other) {
        if (!counts(*given, other)) continue;
        auto const apart = (titre(*given, other) - one).absolute();
        if (!nearest || apart < *nearest) nearest = apart;
      }
      auto const shown = [&](Rational const& number) {
        auto const printed =
            print_to_place(number, given->numbers.front().last_place, nearest_by(conventions_.ties), conventions_.mark);
        return measure_text(printed.pretty, given->unit, conventions_);
      };
      out += fmt::format(words::titre_left_out, titre_or_reading(node), place_in_table(*given, i), shown(one), shown(*nearest));
    }
    return out;
  }

  std::string hydrate(Node const& node) const {
    auto const& from = read(node, 0).quantity;
    auto const known = known_formula(from.substance);
    bool const dissolves = known && known->formula.hydrate();
    auto const& whole = dissolves ? from : node.quantity;
    auto const& part = dissolves ? node.quantity : from;
    return fmt::format(words::hydrate_step, pretty(node.quantity), pretty(from), measure(node), pretty_formula(whole.substance),
                       pretty_formula(part.substance));
  }

  /// "n(Fe) = n(Fe²⁺) = 0.00305 mol: each Fe gives one Fe²⁺." where the part is an ion of the element; else empty.
  std::string ion_of_element(Node const& node) const {
    auto const& terms = node.definition.terms;
    if (node.relation != RelationForm("n(part) = nu n(whole)") || node.definition.operation != Operation::product ||
        terms.size() != 2)
      return {};
    std::size_t const counted = read(node, 0).relation == relations::count ? 0 : 1;
    auto const& count = read(node, counted);
    auto const part = known_formula(count.quantity.part), whole = known_formula(count.quantity.substance);
    bool const ion = part && whole && part->formula.charge != 0 && whole->formula.charge == 0 && whole->composition.size() == 1;
    if (!ion || count.value.number != Rational(1)) return {};
    return fmt::format(words::ion_of_element_step, pretty(node.quantity), pretty(read(node, 1 - counted).quantity), measure(node),
                       pretty_formula(count.quantity.substance), pretty_formula(count.quantity.part));
  }

  /// "Ksp = s × (2s)² = 4s³" for a step between a solubility and a solubility product.
  static std::string solubility_law(Node const& node) {
    if (node.relation != RelationForm("Ksp = product of (nu s)^nu")) return {};
    std::string law;
    Rational factor(1);
    int all = 0;
    for (auto const& [ion, count] : ions_of(node.quantity.substance)) {
      int const times = static_cast<int>(count);
      law += law.empty() ? "" : " × ";
      law += times == 1 ? "s" : '(' + std::to_string(times) + "s)" + superscript(times);
      factor *= Rational(count).power(times);
      all += times;
    }
    if (law.empty()) return {};
    return fmt::format(words::solubility_law, law, factor == Rational(1) ? "" : factor.text(), superscript(all));
  }

  /// The step with the number of the reaction whose coefficients it reads, where the problem has several.
  std::string in_its_reaction(Node const& node, std::string const& step) const {
    if (!several_reactions_) return step;
    for (auto const& term : node.definition.terms) {
      auto const& other = node_of(working_, term.node);
      if (other.relation == relations::coefficient)
        return fmt::format(words::in_reaction, step, std::max(1, other.quantity.stage));
    }
    return step;
  }

  /// a × b / (c × d), or a + b − c; each piece by `piece`.
  template <class Piece>
  std::string expression(Node const& node, Piece piece) const {
    auto const inside = quotient(node, piece);
    int const root = node.definition.root;
    if (root == 1) return inside;
    if (root == 2) return fmt::format(words::square_root, inside);
    return root == 3 ? fmt::format(words::cube_root, inside) : fmt::format(words::other_root, inside, root);
  }
  template <class Piece>
  std::string quotient(Node const& node, Piece piece) const {
    auto const& definition = node.definition;
    std::string over, under;
    int below = 0;
    if (definition.operation == Operation::sum) return sum_expression(definition, piece);
    if (node.relation == RelationForm("yield = actual/theoretical")) {  // a yield in per cent is the quotient times 100 %
      (definition.factor == Rational(100) ? over : under) = words::hundred_per_cent;
      if (!under.empty()) ++below;
    } else if (definition.factor == Rational(-1)) {
      over = "−";
    } else if (definition.factor < Rational(1) && definition.factor.reciprocal().is_integer()) {
      under = unrounded(definition.factor.reciprocal(), exact_figures);
      ++below;
    } else if (definition.factor != Rational(1)) {
      over = unrounded(definition.factor, exact_figures);
    }
    for (std::size_t t = 0; t < definition.terms.size(); ++t) {
      bool const multiplied = definition.terms[t].weight > 0;
      std::string& side = multiplied ? over : under;
      if (!multiplied) ++below;
      int const exponent = std::abs(definition.terms[t].weight);
      auto written = piece(read(node, t));
      bool const behind_a_sign = !side.empty() && written.rfind("−", 0) == 0;
      if (behind_a_sign) written = '(' + written + ')';
      if (!side.empty() && side != "−") side += " × ";
      side += exponent == 1 ? written : '(' + written + ')' + superscript(exponent);
    }
    if (over.empty()) over = "1";
    if (under.empty()) return over;
    // One solidus only without brackets: SI Brochure, 9th ed., 5.4.6.
    bool const bracketed = below > 1 || under.find('/') != std::string::npos || under.find(" × ") != std::string::npos;
    bool const lone = over.find('/') != std::string::npos && over.find(" × ") == std::string::npos;
    return (lone ? '(' + over + ')' : over) + " / " + (bracketed ? '(' + under + ')' : under);
  }
  template <class Piece>
  std::string sum_expression(Definition const& definition, Piece piece) const {
    std::string out;
    for (std::size_t t = 0; t < definition.terms.size(); ++t) {
      int const weight = definition.terms[t].weight;
      auto written = piece(node_of(working_, definition.terms[t].node));
      if (!out.empty() && written.rfind("−", 0) == 0) written = '(' + written + ')';
      if (!out.empty()) out += weight < 0 ? " − " : " + ";
      if (std::abs(weight) != 1) out += std::to_string(std::abs(weight)) + " × ";
      out += written;
    }
    if (definition.factor == Rational(1)) return out;
    return '(' + out + ") / " + unrounded(definition.factor.reciprocal(), exact_figures);
  }
  std::string symbols(Node const& node) const { return expression(node, symbol_of); }
  std::string numbers(Node const& node) const {
    return expression(node, [this](Node const& n) { return measure(n); });
  }

  /// "mol/L × L = mol: L cancels", for a product; empty where nothing cancels.
  std::string units_of(Node const& node) const {
    auto const& definition = node.definition;
    if (definition.operation != Operation::product || definition.root != 1) return {};
    std::vector<PrintedUnit> factors;
    Rational size = node.value.unit.factor.reciprocal();
    Dimension dimension = node.value.unit.dimension;
    for (auto& exponent : dimension.exponents) exponent = static_cast<std::int8_t>(-exponent);
    if (node.relation == RelationForm("yield = actual/theoretical"))
      factors.push_back({words::per_cent, definition.factor == Rational(100) ? 1 : -1});
    for (auto const& term : definition.terms) {
      auto const& unit = node_of(working_, term.node).value.unit;
      factors.push_back({unit_text(unit, conventions_), term.weight});
      size *= unit.factor.power(term.weight);
      for (std::size_t i = 0; i < dimension.exponents.size(); ++i)
        dimension.exponents[i] = static_cast<std::int8_t>(dimension.exponents[i] + term.weight * unit.dimension.exponents[i]);
    }
    return cancelled_units(factors, unit_text(node.value.unit, conventions_), dimension == Dimension{} && size == Rational(1));
  }

  /// The two carbons of CH₃COOH are added as 2 × 12.011.
  static Definition like_weights_together(Definition definition) {
    Terms together;
    for (auto const& term : definition.terms) {
      auto const same = std::find_if(together.begin(), together.end(), [&](Term const& t) { return t.node == term.node; });
      if (same == together.end())
        together.push_back(term);
      else
        same->weight += term.weight;
    }
    definition.terms = std::move(together);
    return definition;
  }

  /// 40.078 + 2 × (14.007 + 3 × 15.999)
  std::string sum_of_weights(Node const& node) const {
    return sum_expression(like_weights_together(node.definition), [this](Node const& n) -> std::string {
      if (n.definition.operation != Operation::sum) return number_of(working_, n, conventions_).pretty;
      auto const inner = sum_of_weights(n);
      return inner.find(" + ") == std::string::npos && inner.find(" × ") == std::string::npos ? inner : '(' + inner + ')';
    });
  }

  /// A(Ca) + 2 × (A(N) + 3 × A(O))
  std::string weights_in_symbols(Node const& node) const {
    return sum_expression(like_weights_together(node.definition), [this](Node const& n) -> std::string {
      if (n.definition.operation != Operation::sum) return n.id;
      auto const inner = weights_in_symbols(n);
      return inner.find(' ') == std::string::npos ? inner : '(' + inner + ')';
    });
  }

  /// n(C) : n(H) = 0.10 mol : 0.20 mol = 1 : 2, so the empirical formula is CH₂.
  std::string proportion(Node const& node) const {
    std::string names, amounts, shares, whole;
    auto const counts = counts_of_parts(working_, node);
    double least = 0;
    for (auto const& term : node.definition.terms) {
      double const amount = node_of(working_, term.node).value.number.to_double();
      if (least == 0 || amount < least) least = amount;
    }
    auto const join = [](std::string& list, std::string const& item) { list += (list.empty() ? "" : " : ") + item; };
    for (std::size_t t = 0; t < counts.size(); ++t) {
      auto const& part = read(node, t);
      join(names, symbol_of(part));
      join(amounts, measure(part));
      join(shares, with_mark(fmt::format("{:.2f}", part.value.number.to_double() / least)));
      join(whole, std::to_string(counts[t]));
    }
    return fmt::format(words::proportion_step, names, amounts, shares, whole, node.relation,
                       pretty_formula(found_formula(working_, node)));
  }
  std::string multiple(Node const& node) const {
    auto const& empirical = read(node, 1);
    Rational one;
    auto const counts = counts_of_parts(working_, empirical);
    for (std::size_t i = 0; i < counts.size(); ++i) one += Rational(counts[i]) * read(node, i + 2).value.number;
    auto const each = with_mark(unrounded(one, exact_figures)) + no_break_space + pretty(working_unit("M"));
    return fmt::format(words::multiple_step, pretty_formula(found_formula(working_, empirical)), each, measure(read(node, 0)),
                       each, node.value.number.text(), pretty_formula(found_formula(working_, node)));
  }
  std::string with_mark(std::string number) const {
    auto const point = number.find('.');
    if (point != std::string::npos && conventions_.mark == DecimalMark::comma) number[point] = ',';
    return number;
  }

  std::string limiting(Node const& node) const {
    auto const index = static_cast<std::size_t>(node.value.number.to_double());
    std::string list;
    auto const count = node.definition.terms.size();
    for (std::size_t t = 0; t < count; ++t) {
      if (t > 0) list += t + 1 == count ? words::and_word : ", ";
      list += measure(read(node, t));
    }
    auto const& least = read(node, index);
    std::string together;
    for (std::size_t t = 0; t < count; ++t)
      if (read(node, t).value.number == least.value.number)
        together += (together.empty() ? "" : words::and_word) + pretty_formula(read(node, t).quantity.substance);
    if (ties(node)) return fmt::format(words::tie_step, together, measure(least));
    auto const reagent = pretty_formula(least.quantity.substance);
    return count == 2 ? fmt::format(words::limiting_of_two_step, reagent, list, measure(least))
                      : fmt::format(words::limiting_step, reagent, list, measure(least));
  }

  Problem const& problem_;
  Working const& working_;
  Conventions const& conventions_;
  std::map<int, Decimal const*> typed_;
  bool several_reactions_;
};

/// The formula that a node stands for: a limiting reagent, one found from data. Empty for a number.
std::string formula_text(Working const& working, Node const& node) {
  switch (node.definition.operation) {
    case Operation::choose:
      return chosen_formula(working, node);
    case Operation::proportion:
    case Operation::multiple:
      return found_formula(working, node);
    case Operation::stated:
      return node.says;
    default:
      return {};
  }
}

/// Nodes that stand for themselves in the printed working and get no line of their own.
bool is_silent(Node const& node) {
  bool const spoken = node.relation == relations::basis || node.relation == relations::course_value ||
                      node.relation == relations::density_of_water;
  return (node.definition.operation == Operation::constant && !spoken) || node.relation == relations::group_mass ||
         node.relation == relations::given_formula;
}

std::string_view condition_of(Node const& node) {
  auto const* const relation = relation_of(node.relation);
  return relation == nullptr ? std::string_view() : relation->conditions;
}

/// The step with what must be so for its relation to hold, but where its own words say it.
std::string under_condition(Node const& node, std::string step, std::string_view condition) {
  if (node.relation == relations::density_of_water) return step;
  return fmt::format(fmt::runtime(step.back() == '.' ? words::sentence_under_condition : words::under_condition), step,
                     condition);
}

/// "From (a): the limiting reagent is Al.": a formula that an earlier part has found is the whole of this one's working.
std::optional<Step> found_before(Worked const& worked, Working const& working, std::size_t find, StepWriter const& writer) {
  int const index = working.finds[find].node;
  auto const& node = node_of(working, index);
  auto const formula = formula_text(working, node);
  if (formula.empty() || node.definition.operation == Operation::stated) return std::nullopt;
  for (std::size_t f = 0; f < find; ++f) {
    auto const order = order_of_work(working, f);
    if (std::find(order.begin(), order.end(), index) == order.end()) continue;
    bool const tie = node.definition.operation == Operation::choose && writer.ties(node);
    auto const text = tie ? fmt::format(words::tie_before, part_letter(worked, f), writer.line(node))
                          : fmt::format(words::found_before, part_letter(worked, f), node.relation, pretty_formula(formula));
    return Step{index, node.relation, text, node.relation, formula, "", text};
  }
  return std::nullopt;
}
}  // namespace

StepInSymbols step_in_symbols(Worked const& worked, Working const& working, int node, Conventions const& conventions) {
  return StepWriter(worked.problem, working, conventions).in_symbols(node_of(working, node));
}

std::vector<Step> steps(Worked const& worked, Working const& working, std::size_t find, Conventions const& conventions) {
  std::set<int> shown;
  for (std::size_t f = 0; f < find; ++f)
    for (int index : order_of_work(working, f)) shown.insert(index);
  StepWriter const writer(worked.problem, working, conventions);
  std::set<std::string_view> conditions;  // that have been said
  for (int const index : shown) conditions.insert(condition_of(node_of(working, index)));
  std::vector<Step> out;
  auto const order = order_of_work(working, find);
  std::set<std::string> inside_molar_mass;  // the water of a hydrate is worked inside the hydrate's own line
  for (int index : order) {
    auto const& node = node_of(working, index);
    if (node.relation == relations::molar_mass)
      for (auto const& term : node.definition.terms) inside_molar_mass.insert(node_of(working, term.node).id);
  }
  for (int index : order) {
    auto const& node = node_of(working, index);
    if (is_silent(node) || shown.count(index)) continue;
    if (node.relation == relations::molar_mass && inside_molar_mass.count(node.id)) continue;
    bool const repeats_branch =
        node.relation == relations::from_limiting && writer.picked(node).relation == relations::mole_ratio;
    if (repeats_branch) continue;
    Step step;
    step.node = index;
    step.relation = node.relation;
    step.text = writer.text(node);
    step.line = writer.line(node);
    if (auto const condition = condition_of(node); !condition.empty() && conditions.insert(condition).second)
      step.text = under_condition(node, std::move(step.text), condition);
    auto const formula = formula_text(working, node);
    step.symbol = formula.empty() ? plain(node.quantity) : node.relation;
    step.value = formula.empty() ? number_of(working, node, conventions).plain : formula;
    step.unit = node.value.unit.symbol;
    out.push_back(std::move(step));
  }
  if (auto again = out.empty() ? found_before(worked, working, find, writer) : std::nullopt) out.push_back(std::move(*again));
  return out;
}

}  // namespace molewright
