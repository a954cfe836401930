#include "marker/words.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <map>

#include "engine/lists.h"
#include "engine/logarithm.h"
#include "engine/steps.h"
#include "engine/substance.h"
#include "engine/tsv.h"
#include "marker/marks.h"
#include "marker/written.h"

namespace molewright {
namespace data {
extern std::string_view const slip_words_tsv;
}
namespace {

std::map<std::string_view, SlipWords> read_words() {
  TsvTable const table(data::slip_words_tsv);
  auto const id = table.column("id"), student = table.column("student"), tutor = table.column("tutor"),
             brief = table.column("brief"), practise = table.column("practise");
  std::map<std::string_view, SlipWords> words;
  for (std::size_t row = 0; row < table.size(); ++row)
    words[table.cell(row, id)] = {table.cell(row, student), table.cell(row, tutor), table.cell(row, brief),
                                  table.cell(row, practise)};
  return words;
}

/// Value of a definition when everything else is as in the right working; false where it cannot be had.
bool value_of(Working const& working, Definition const& definition, Rational& number) {
  auto const read = [&](Term const& term) -> Rational const& {
    return working.nodes[static_cast<std::size_t>(term.node)].value.number;
  };
  number = definition.factor;
  if (definition.operation == Operation::constant) return true;
  if (definition.operation == Operation::product) {
    for (auto const& term : definition.terms) {
      if (term.weight < 0 && read(term).sign() == 0) return false;
      number *= read(term).power(term.weight);
    }
    if (definition.root != 1 && (definition.root < 1 || number.sign() < 0)) return false;
    if (definition.root != 1) number = root_of(number, definition.root);
    return true;
  }
  if (definition.operation != Operation::sum) return false;
  Rational sum(0);
  for (auto const& term : definition.terms) sum += Rational(term.weight) * read(term);
  number = sum * definition.factor;
  return true;
}

/// The reagent that a choice made otherwise takes, as a formula; empty where it is none of them.
std::string reagent_taken(Working const& working, Node const& choice, Definition const& otherwise) {
  auto const number = [&](Term const& term) { return working.nodes[static_cast<std::size_t>(term.node)].value.number; };
  std::size_t at = choice.definition.terms.size();
  if (otherwise.operation == Operation::constant) {
    at = static_cast<std::size_t>(otherwise.factor.to_double());
  } else if (otherwise.operation == Operation::choose) {
    auto const& terms = otherwise.terms;
    auto const least =
        std::min_element(terms.begin(), terms.end(), [&](Term const& a, Term const& b) { return number(a) < number(b); });
    at = static_cast<std::size_t>(least - terms.begin());
  }
  if (at >= choice.definition.terms.size()) return {};
  return pretty_formula(working.nodes[static_cast<std::size_t>(choice.definition.terms[at].node)].quantity.substance);
}

/// Whether a node stands for a number as a table or the question has it, a molar mass being read off a table, too.
bool is_looked_up(Node const& node) {
  return node.definition.operation == Operation::constant || node.relation == relations::molar_mass ||
         node.relation == relations::group_mass;
}

/// A number at a node as the working prints it: whole for a table's value, else to the node's figures and never fewer than three;
/// four of what is worked out of exact numbers alone.
std::string number_at(Node const& node, Rational const& number, Conventions const& conventions) {
  constexpr int table_figures = 6, figures_of_exact = 4, least_figures = 3, most_figures = 5;
  if (number.sign() == 0 || !node.value.last_place) {
    auto const whole = parse_decimal(unrounded(number, is_looked_up(node) ? table_figures : figures_of_exact));
    return ok(whole) ? print_as_typed(value(whole), conventions.mark).pretty : unrounded(number, table_figures);
  }
  int const own = node.value.number.sign() == 0 ? least_figures : figures_at(node.value.number, *node.value.last_place);
  int const figures = std::clamp(own, least_figures, most_figures);
  return print_to_figures(number, figures, nearest_by(conventions.ties), conventions.mark).pretty;
}

std::string with_unit(std::string number, Unit const& unit, Conventions const& conventions) {
  auto const symbol = unit_text(unit, conventions);
  return symbol.empty() ? number : std::move(number) + "\u00a0" + symbol;
}

/// The node in whose unit a node's number is said: that of an answer to which only its unit is changed, or which picks it, else
/// its own.
Node const& said_as(Working const& working, Node const& node) {
  if (node.relation == relations::convert) return node;
  for (auto const& find : working.finds) {
    auto const& answer = working.nodes[static_cast<std::size_t>(find.node)];
    auto const& terms = answer.definition.terms;
    auto const is_it = [&](Term const& term) { return &working.nodes[static_cast<std::size_t>(term.node)] == &node; };
    if (answer.relation == relations::convert && terms.size() == 1 && is_it(terms.front())) return answer;
    if (answer.relation == relations::from_limiting && std::any_of(terms.begin(), terms.end(), is_it) &&
        answer.value.number == node.value.number)
      return answer;
  }
  return node;
}
/// A number of a node as it is said, with its unit.
std::string said(Working const& working, Node const& node, Rational const& number, Conventions const& conventions) {
  auto const& as = said_as(working, node);
  auto const in_its_unit = as.relation == relations::convert && &as != &node ? number * as.definition.factor : number;
  return with_unit(number_at(as, in_its_unit, conventions), as.value.unit, conventions);
}

/// A slip's words for where the answer is itself the number that they compare it with: "Your 7.26 % fits with 7.26 %, the salt
/// alone" says that number once. Words for the tutor compare no answer.
std::string said_once(std::string_view words) {
  static constexpr std::pair<std::string_view, std::string_view> otherwise[] = {
      {"fits with {wrong}, where ", "is what comes out where "},
      {"fits with {wrong}, which is ", "fits with "},
      {"fits with {wrong}. ", "comes from this step. "},
      {"fits with {wrong}, ", "fits with "},
      {", {wrong}", ""}};
  std::string text(words);
  if (text.find("{given}") == std::string::npos) return text;
  for (auto const& [from, to] : otherwise)
    if (auto const at = text.find(from); at != std::string::npos) return text.replace(at, from.size(), to);
  return text;
}

/// "1 significant figure", "2 decimal places".
std::string counted_figures(int due, bool places) {
  return std::to_string(due) + (places ? " decimal place" : " significant figure") + (due == 1 ? "" : "s");
}

std::string_view taken_off_for(MarkReason reason) {
  if (reason == MarkReason::unit) return "the unit";
  return reason == MarkReason::figures ? "the significant figures" : "the states";
}

/// Changes of unit that went astray together are named together: one of them alone would not give the number.
void name_all_conversions(Working const& working, Application const& application, Conventions const& conventions,
                          SlipNumbers& numbers) {
  std::vector<std::string> steps, wrong, right;
  for (auto const& edit : application.edits) {
    auto const* const one = std::get_if<NodeEdit>(&edit);
    if (!one) return;
    auto const& node = working.nodes[static_cast<std::size_t>(one->node)];
    Rational value;
    if (node.relation != relations::convert || !value_of(working, one->definition, value)) return;
    steps.push_back(step_name(node));
    wrong.push_back(number_at(node, value, conventions));
    right.push_back(with_unit(number_at(node, node.value.number, conventions), node.value.unit, conventions));
  }
  if (steps.size() < 2) return;
  numbers.step = enumerated(steps);
  numbers.wrong = enumerated(wrong);
  numbers.right = enumerated(right);
}

/// Whether the text of a unit holds another as a word: "g/mol" holds g and mol, no "m".
bool unit_holds(std::string_view text, std::string_view word) {
  auto const is_letter = [](char c) { return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z'); };
  for (auto at = text.find(word); at != std::string_view::npos; at = text.find(word, at + 1))
    if ((at == 0 || !is_letter(text[at - 1])) && (at + word.size() == text.size() || !is_letter(text[at + word.size()])))
      return true;
  return false;
}

/// Why a quantity changes its unit: "c(NaCl) is in mol/L", a quantity of the step that reads it.
std::string reason_for_unit(Working const& working, int converted, Conventions const& conventions) {
  auto const& node = working.nodes[static_cast<std::size_t>(converted)];
  auto const& wanted = node.value.unit.symbol;
  auto const speaks_of_it = [&](Node const& one) {
    return one.value.unit.symbol != wanted && unit_holds(one.value.unit.symbol, wanted);
  };
  auto const said = [&](Node const& one) { return step_name(one) + " is in " + unit_text(one.value.unit, conventions); };
  for (auto const& reader : working.nodes) {
    auto const& terms = reader.definition.terms;
    if (std::none_of(terms.begin(), terms.end(), [&](Term const& term) { return term.node == converted; })) continue;
    for (auto const& term : terms)
      if (auto const& one = working.nodes[static_cast<std::size_t>(term.node)]; speaks_of_it(one)) return said(one);
    if (speaks_of_it(reader)) return said(reader);
  }
  return "The next step needs " + unit_text(node.value.unit, conventions);
}

/// What stands on the wrong side of the line in a product made otherwise: "the molar mass M(NaCl)".
std::string turned_over(Working const& working, Definition const& right, Definition const& otherwise) {
  std::vector<std::string> names;
  for (auto const& term : right.terms)
    for (auto const& other : otherwise.terms) {
      if (other.node != term.node || (other.weight > 0) == (term.weight > 0)) continue;
      auto const& node = working.nodes[static_cast<std::size_t>(term.node)];
      names.push_back((node.relation == relations::molar_mass ? "the molar mass " : "") + step_name(node));
    }
  return names.empty() ? "a number" : enumerated(names);
}
}  // namespace

SlipWords words_of(std::string_view slip_id) {
  static std::map<std::string_view, SlipWords> const words = read_words();
  auto const found = words.find(slip_id);
  return found == words.end() ? SlipWords{} : found->second;
}

SlipNumbers slip_numbers(Working const& working, Application const& application, std::size_t find,
                         Conventions const& conventions) {
  SlipNumbers numbers;
  auto const node_of = [&](int i) -> Node const& { return working.nodes[static_cast<std::size_t>(i)]; };
  int const at = working.find_node(application.node);
  if (at >= 0) numbers.step = step_name(node_of(at));
  for (auto const& edit : application.edits) {
    if (auto const* const node_edit = std::get_if<NodeEdit>(&edit)) {
      auto const& node = node_of(node_edit->node);
      if (node.definition.operation == Operation::choose) {
        numbers.right = pretty_formula(chosen_formula(working, node));
        numbers.wrong = reagent_taken(working, node, node_edit->definition);
        break;
      }
      numbers.right = said(working, node, node.value.number, conventions);
      numbers.by = turned_over(working, node.definition, node_edit->definition);
      if (node.relation == relations::convert) numbers.because = reason_for_unit(working, node_edit->node, conventions);
      Rational wrong;
      // A number whose change of unit went astray has no unit that could be written beside it.
      if (value_of(working, node_edit->definition, wrong))
        numbers.wrong =
            node.relation == relations::convert ? number_at(node, wrong, conventions) : said(working, node, wrong, conventions);
      numbers.wrong_is_answer = &said_as(working, node) == &node_of(working.finds[find].node);
      if (node.relation == relations::convert) name_all_conversions(working, application, conventions, numbers);
      break;
    }
    if (auto const* const answer = std::get_if<AnswerEdit>(&edit); answer && answer->find == find) {
      auto const& right = node_of(working.finds[find].node);
      auto const& wrong = node_of(answer->node);
      numbers.right = with_unit(number_at(right, right.value.number, conventions), right.value.unit, conventions);
      numbers.wrong = with_unit(number_at(wrong, wrong.value.number, conventions), wrong.value.unit, conventions);
      numbers.wrong_is_answer = wrong.value.unit.symbol == right.value.unit.symbol;
      break;
    }
  }
  return numbers;
}

std::string said_number(double number, Conventions const& conventions) {
  auto const as_written = parse_decimal(fmt::format("{:.3e}", number));
  return ok(as_written) ? print_to_figures(value(as_written).value, 4, nearest_by(conventions.ties), conventions.mark).pretty
                        : std::string();
}

std::string filled(std::string_view slip_words, SlipNumbers const& numbers) {
  std::string text;
  std::string const otherwise = numbers.wrong_is_answer ? said_once(slip_words) : std::string();
  std::string_view words = numbers.wrong_is_answer ? otherwise : slip_words;
  while (!words.empty()) {
    auto const open = words.find('{');
    text += words.substr(0, open);
    if (open == std::string_view::npos) break;
    auto const close = words.find('}', open);
    auto const hole = words.substr(open + 1, close - open - 1);
    text += hole == "given"     ? numbers.given
            : hole == "step"    ? numbers.step
            : hole == "wrong"   ? numbers.wrong
            : hole == "by"      ? numbers.by
            : hole == "because" ? numbers.because
                                : numbers.right;
    words.remove_prefix(close + 1);
  }
  return text;
}

std::string step_name(Node const& node) {
  if (node.relation == relations::limiting) return "the " + node.id;
  if (node.quantity.symbol.empty()) return node.id;
  if (node.relation == relations::atomic_weight || node.relation == relations::coefficient) return node.id;
  auto const name = pretty(node.quantity);
  if (node.relation == relations::reading) return "a reading of " + name;
  if (node.relation == relations::titre) return "a titre of " + name;
  if (node.relation == relations::batches) return name + "/ν(" + pretty_formula(node.quantity.substance) + ')';
  // One of the amounts that a choice picks from, "n(H2) from HCl"; units tell the others of one quantity apart.
  static constexpr std::string_view from = " from ";
  auto const at = node.relation == relations::mole_ratio ? node.id.find(from) : std::string::npos;
  return at == std::string::npos ? name : name + std::string(from) + pretty_formula(node.id.substr(at + from.size()));
}

std::vector<std::string> step_names(std::vector<Node const*> const& nodes) {
  std::vector<std::string> names;
  for (auto const* node : nodes) {
    auto name = step_name(*node);
    bool const alike = std::any_of(nodes.begin(), nodes.end(), [&](Node const* other) {
      return other != node && step_name(*other) == name && other->value.unit.symbol != node->value.unit.symbol;
    });
    if (alike) name += " in " + unit_text(node->value.unit, {});
    if (std::find(names.begin(), names.end(), name) == names.end()) names.push_back(std::move(name));
  }
  return names;
}

std::string step_value(Working const& working, Node const& node, Conventions const& conventions) {
  if (node.definition.operation == Operation::choose) return pretty_formula(chosen_formula(working, node));
  return said(working, node, node.value.number, conventions);
}

std::string step_words(Working const& working, std::string_view node_id) {
  int const at = working.find_node(node_id);
  if (at < 0) return std::string(node_id);
  auto const& node = working.nodes[static_cast<std::size_t>(at)];
  auto const name = step_name(node);
  if (node.relation == relations::convert) return "the change of unit for " + name;
  if (node.relation == relations::mole_ratio) return "the mole ratio at " + name;
  if (node.relation == relations::limiting || node.relation == relations::from_limiting) return "which reagent runs out first";
  if (node.relation == relations::molar_mass || node.relation == relations::group_mass) return "the molar mass " + name;
  if (node.relation == relations::atomic_weight) return "the atomic weights";
  if (node.relation == relations::given || node.relation == relations::reading)
    return "how " + name + " was copied from the question";
  if (node.relation == relations::difference) return "the two readings for " + name;
  if (node.relation == relations::titre) return name;
  if (node.relation == relations::mean) return "the mean for " + name;
  return "the step for " + name;
}

std::string words_for_marks(Judgement const& judgement, Working const& working) {
  auto const account = account_of_marks(judgement);
  bool const by_steps = !account.front().node.empty();
  if (!by_steps && account.back().marks >= 0) return {};
  auto const node_of = [&](MarkGiven const& one) -> Node const* {
    int const at = working.find_node(one.node);
    return at < 0 ? nullptr : &working.nodes[static_cast<std::size_t>(at)];
  };
  std::vector<std::string> parts;
  for (auto const& one : account) {
    if (one.marks < 0) {
      parts.push_back(std::to_string(-one.marks) + " off for " + std::string(taken_off_for(one.reason)));
      continue;
    }
    auto const* const node = node_of(one);
    std::string what = one.node.empty() ? "the answer" : node ? step_name(*node) : one.node;
    for (auto const& other : account)  // one quantity in two units is two steps
      if (auto const* const twin = node_of(other);
          node && twin && twin != node && step_names({node, twin}).front() != step_name(*node)) {
        what = step_names({node, twin}).front();
        break;
      }
    parts.push_back((one.marks == 0 ? "none" : std::to_string(one.marks)) + " for " + what);
  }
  return enumerated(parts);
}

namespace say {
std::string right() { return "Right."; }
std::string the_answer() { return "the answer"; }
std::vector<std::pair<std::string, std::string>> empty_tails() {
  std::vector<std::pair<std::string, std::string>> tails;
  for (char const* tail : {" Here that is ", " That gives "}) tails.emplace_back(tail + the_answer() + ".", "");
  for (char const* tail : {": that gives ", ", which gives ", ": "}) tails.emplace_back(tail + the_answer() + ".", ".");
  return tails;
}
std::string right_in_other_unit(std::string_view asked) {
  return "Right. The question asks for it in " + std::string(asked) + ".";
}
std::string follows() {
  return "This follows correctly from your earlier answer, so it counts. Once the earlier answer is mended, work this part again "
         "with the new number.";
}
std::string nothing_written(std::string_view first_step) {
  std::string text = "Nothing is written here yet.";
  if (!first_step.empty()) text += " A good first step: " + std::string(first_step) + ".";
  return text;
}
std::string not_read() { return "This could not be read as one number with its unit. Your teacher will look at it."; }
std::string not_read_formula() { return "This could not be read as a formula. Your teacher will look at it."; }
std::string given_by_hand(int marks, int out_of) {
  return "Your teacher looked at this and gave " + std::to_string(marks) + " of " + std::to_string(out_of) +
         (out_of == 1 ? " mark." : " marks.");
}
std::string name_not_formula() { return "This is a name, and the question asks for a formula. Your teacher will look at it."; }
std::string not_read_choice() {
  return "It could not be read which reactant is meant. Write its name or its formula alone. Your teacher will look at it.";
}
std::string zero_for_the_letter() { return " (You wrote a zero for the letter O.)"; }
std::string capitals_of_formula() {
  return " (Mind the capital letters: the first letter of each element is a capital, the second a small one.)";
}
std::string not_read_line() { return "This could not be read as the number of a line. Your teacher will look at it."; }
std::string not_read_in_words() {
  return "This could not be read as chemistry is usually written. Your teacher will look at it.";
}
std::string not_right_in_words(std::string_view given) {
  return std::string(given) + " is not the answer. Compare it with the worked answer, piece by piece.";
}
std::string smaller_numbers() {
  return " The numbers before the formulas have a common factor; usually they are written as small as they go.";
}
std::string states() { return " Write the state behind each formula: (s), (l), (g) or (aq)."; }
std::string check_step(std::string_view given, std::string_view step) {
  return std::string(given) + " is not the answer yet. Look again at " + std::string(step) + ".";
}
std::string check_either(std::string_view given, std::string_view step, std::string_view other) {
  return std::string(given) + " is not the answer yet. Two steps could lead to it, so check both: " + std::string(step) +
         ", and " + std::string(other) + ".";
}
std::string check_both(std::string_view given, std::string_view step, std::string_view other) {
  return std::string(given) +
         " is not the answer yet. Two things together would lead to it, so check both: " + std::string(step) + ", and " +
         std::string(other) + ".";
}
std::string comes_to(std::string_view step, std::string_view value) {
  return ' ' + std::string(step) + " should come to " + std::string(value) + '.';
}
std::string goes_so(std::string_view formula) {
  std::string text = " Work it out like this: " + std::string(formula) + '.';
  auto const at = formula.find("ν(");
  if (at == std::string_view::npos) return text;
  bool const inside = formula.substr(at, formula.find(')', at) - at).find(" in ") != std::string_view::npos;
  text += inside ? " (ν counts how many of them one formula unit holds.)"
                 : " (ν is the number in front of the formula in the equation.)";
  return text;
}
std::string go_line_by_line() { return " Go through your working line by line, and write the unit beside every number."; }
std::string runs_out_first(std::string_view formula) { return ' ' + std::string(formula) + " runs out first."; }
std::string should_come_to(std::string_view step, std::string_view value) {
  return std::string(step) + " should come to " + std::string(value);
}
std::string should_run_out(std::string_view formula) { return std::string(formula) + " should be what runs out first"; }
std::string from_the_middle(std::string_view what) {
  return " The number alone does not show what went wrong. Start in the middle: " + std::string(what) +
         ". If you have that, look at what comes after it; if not, at what comes before.";
}
std::string from_the_first(std::string_view what) {
  return " The number alone does not show what went wrong. Look at your working again from the first line: " + std::string(what) +
         ". If you have that, look at what comes after it.";
}
std::string from_what_is_right(std::string_view what) {
  return " The number alone does not show what went wrong. Go on from what you have right: " + std::string(what) +
         ". If you have that, look at what comes after it.";
}
std::string how_to_compare() {
  return " Divide the amount of each reactant by the number before its formula in the equation; the smallest result runs out "
         "first.";
}
std::string compared(std::string_view numbers) { return " Here that is " + std::string(numbers) + '.'; }
std::string formula_is_a_multiple(std::string_view given) {
  return "In " + std::string(given) +
         " the elements are in the right ratio, but the numbers are not the ones asked for. An empirical formula has the "
         "smallest "
         "whole numbers; a molecular formula is as many times that as its molar mass says.";
}
std::string other_ratio(std::string_view given) {
  return std::string(given) +
         " has the right elements in another ratio. Divide each mass by its molar mass, then divide every amount by the smallest "
         "one.";
}
std::string element_missing(std::string_view given) {
  return std::string(given) + " lacks an element that the question speaks of. Look again at what was found in it.";
}
std::string other_elements(std::string_view given) {
  return std::string(given) + " holds other elements than the question speaks of. Look again at what was found in it.";
}
std::string other_line(std::string_view given, std::string_view line, std::string_view slip) {
  std::string text = std::string(given) + " is not the line. The first one that goes wrong is line " + std::string(line);
  if (!slip.empty()) text += ": " + std::string(slip);
  return text + ". Check each line by itself, from the top: does it follow from the data and from the lines above it?";
}
std::string not_a_reagent(std::string_view given) {
  return std::string(given) + " is not one of the substances that react here. Choose among those on the left of the arrow.";
}
std::string is_a_product(std::string_view given) {
  return std::string(given) + " forms in this reaction. Only what is used up, on the left of the arrow, can run out.";
}
std::string is_in_excess(std::string_view given) {
  return std::string(given) +
         " is there in excess: the question says that there is more than enough of it, so it cannot run out.";
}
std::string not_right(std::string_view given) { return std::string(given) + " is not the answer."; }
std::string not_right_yet(std::string_view given) {
  return std::string(given) +
         " is not the answer yet. The answer alone does not show what went wrong: go through it step by step.";
}
std::string one_figure(std::string_view given, int due, bool places) {
  return std::string(given) + " is rounded so far that it is no longer the answer. Keep " + counted_figures(due, places) + ".";
}
std::string add_unit(std::string_view asked) { return " Write the unit beside your number: " + std::string(asked) + "."; }
std::string other_unit(std::string_view written, std::string_view asked) {
  if (asked.empty()) return " The number is right, but it has no unit here: leave out " + std::string(written) + ".";
  return " The number is right, but " + std::string(written) + " is a unit of another quantity; here it is " +
         std::string(asked) + ".";
}
std::string not_the_unit_either(std::string_view written, std::string_view asked) {
  if (asked.empty()) return " The answer has no unit: leave out " + std::string(written) + ".";
  return " Nor is the unit right: " + std::string(written) + " belongs to another quantity; the answer is in " +
         std::string(asked) + ".";
}
std::string unit_off_as_well(std::string_view written, std::string_view asked) {
  return " Look at the unit, too: your number fits with " + std::string(asked) + ", but you wrote " + std::string(written) + ".";
}
std::string unit_off_for_tutor(std::string_view written, std::string_view asked) {
  return "the number is one in " + std::string(asked) + ", but " + std::string(written) + " is written";
}
std::string which_unit(std::string_view written, std::string_view asked) {
  return " The number is right in " + std::string(asked) + ", but you wrote " + std::string(written) +
         ". Check which of the two you mean.";
}
std::string unknown_unit(std::string_view written, std::string_view asked) {
  if (asked.empty()) return " The number has no unit here: leave out \u201c" + std::string(written) + "\u201d.";
  return " The unit \u201c" + std::string(written) + "\u201d is not one that can be read; here it is " + std::string(asked) + ".";
}
std::string too_few(int due, bool places) {
  return " The numbers in the question are good enough for " + counted_figures(due, places) + ".";
}
std::string too_many(int due, bool places) {
  return " The numbers in the question are good enough for only " + counted_figures(due, places) +
         ", so round to that at the end.";
}
std::string rounded_on_the_way() { return " The last figure is off by a little: keep all figures until the end and round once."; }
std::string good_in_working(std::vector<std::string> const& right, std::vector<std::string> const& following) {
  auto const are = [](std::vector<std::string> const& names) { return names.size() == 1 ? " is right" : " are right"; };
  std::string text;
  if (!right.empty()) text += " In your working " + enumerated(right) + are(right) + '.';
  if (!following.empty()) text += ' ' + enumerated(following) + are(following) + " if your earlier numbers are used.";
  return text;
}
std::string look_at_rounding(int due, bool places) {
  return " It is near, so look at how you rounded: keep all figures until the end, then round once, to " +
         counted_figures(due, places) + '.';
}
std::string fraction_for_percent() { return " In per cent the number is a hundred times as large."; }
}  // namespace say

}  // namespace molewright
