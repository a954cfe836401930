#include "engine/formula.h"

#include <boost/spirit/home/x3.hpp>
#include <utility>

#include "engine/ascii.h"
#include "engine/chemistry_words.h"
#include "engine/element.h"
#include "engine/formula_text.h"

namespace molewright {
namespace {

namespace x3 = boost::spirit::x3;
using It = char const*;
using Groups = std::vector<Group>;

constexpr std::int64_t most_atoms = 1'000'000'000;
constexpr std::size_t deepest = 50;

/// What the parse needs to know and what it finds out beside the formula.
struct Reading {
  It begin, end;
  std::string_view unknown;  ///< letters that may stand where an element does
  It typed_charge;           ///< where a charge without ^ begins, as in SO42-; `end` for none
  Fault fault;               ///< the first special fault; its offset is a position in the plain text
  bool special = false;
  void refuse(It at, char const* id, std::string what, std::string expected) {
    if (special) return;
    special = true;
    fault = {id, std::move(what), std::move(expected), static_cast<std::size_t>(at - begin)};
  }
};
struct ReadingTag {};

/// "did you mean Cl?" for NaCL, Al for AL, SO for CuSo4; or nothing better than "an element symbol".
std::string element_hint(Reading const& reading, It at) {
  auto const meant = [](std::string const& symbol) {
    return find_element(symbol) != nullptr ? words::fill(words::element_meant, symbol) : std::string();
  };
  std::string hint;
  if (is_capital(*at) && at + 1 < reading.end && is_small(at[1])) {
    std::string const one(1, *at), other(1, static_cast<char>(at[1] - 'a' + 'A'));
    bool const both = find_element(one) != nullptr && find_element(other) != nullptr;
    return both ? words::fill(words::element_meant, one + other) : words::element_expected;
  }
  if (is_small(*at)) {
    std::string symbol(1, static_cast<char>(*at - 'a' + 'A'));
    if (at + 1 < reading.end && is_small(at[1])) hint = meant(symbol + at[1]);
    if (hint.empty()) hint = meant(symbol);
  } else if (at > reading.begin && is_capital(at[-1])) {
    hint = meant({at[-1], static_cast<char>(*at - 'A' + 'a')});
  }
  bool const next_stands_alone =
      at + 1 < reading.end && is_capital(at[1]) && !(at + 2 < reading.end && is_small(at[2]));  // not the A of ACl
  if (hint.empty() && is_capital(*at) && next_stands_alone)
    hint = meant({static_cast<char>(*at), static_cast<char>(at[1] - 'A' + 'a')});
  return hint.empty() ? words::element_expected : hint;
}

/// "Na": a capital letter, a small one if there is one; must be an element.
struct SymbolParser : x3::parser<SymbolParser> {
  using attribute_type = std::string;
  [[maybe_unused]] static bool const has_attribute = true;
  template <class Iterator, class Context, class RuleContext, class Attribute>
  bool parse(Iterator& first, Iterator const& last, Context const& context, RuleContext&, Attribute& attribute) const {
    if (first == last || !is_capital(*first)) return false;
    std::size_t const length = first + 1 != last && is_small(first[1]) ? 2 : 1;
    std::string_view const symbol(&*first, length);
    bool const stands_for_unknown = length == 1 && x3::get<ReadingTag>(context).unknown.find(symbol) != std::string_view::npos;
    if (!stands_for_unknown && find_element(symbol) == nullptr) {
      Reading& reading = x3::get<ReadingTag>(context);
      reading.refuse(first, "unknown-element", words::fill(words::unknown_element, symbol), element_hint(reading, first));
      return false;
    }
    attribute.assign(symbol.data(), length);
    first += static_cast<std::ptrdiff_t>(length);
    return true;
  }
};

/// 1 to 9999 without a leading zero; stops where a charge without ^ begins.
struct CountParser : x3::parser<CountParser> {
  using attribute_type = std::int64_t;
  [[maybe_unused]] static bool const has_attribute = true;
  template <class Iterator, class Context, class RuleContext, class Attribute>
  bool parse(Iterator& first, Iterator const& last, Context const& context, RuleContext&, Attribute& attribute) const {
    Reading& reading = x3::get<ReadingTag>(context);
    Iterator it = first;
    std::int64_t number = 0;
    while (it != last && it != reading.typed_charge && is_digit(*it)) {
      if (number <= 9999) number = 10 * number + (*it - '0');
      ++it;
    }
    if (it == first) return false;
    if (*first == '0' || number > 9999) {
      reading.refuse(first, "count-out-of-range", words::count_range, words::count_expected);
      return false;
    }
    x3::traits::move_to(number, attribute);
    first = it;
    return true;
  }
};

/// Everything after the groups that is a charge: ^2+ ^+2 ^(2+) ^{2+} (2+), or 2+ at `typed_charge`.
struct ChargeParser : x3::parser<ChargeParser> {
  using attribute_type = int;
  [[maybe_unused]] static bool const has_attribute = true;
  template <class Iterator, class Context, class RuleContext, class Attribute>
  bool parse(Iterator& first, Iterator const& last, Context const& context, RuleContext&, Attribute& attribute) const {
    Reading& reading = x3::get<ReadingTag>(context);
    Iterator it = first;
    auto const at = [&](auto... characters) { return it != last && ((*it == characters) || ...); };
    bool const raised = at('^');
    if (raised) ++it;
    char closing = '\0';
    if (at('(', '{')) {
      if (!raised && !(it + 1 != last && (is_digit(it[1]) || it[1] == '+' || it[1] == '-'))) return false;
      closing = *it == '(' ? ')' : '}';
      ++it;
    } else if (!raised && it != reading.typed_charge) {
      return false;
    }
    Iterator const number_at = it;
    int number = 0;
    auto const read_number = [&] {
      Iterator const begin = it;
      for (; it != last && is_digit(*it); ++it)
        if (number <= 99) number = 10 * number + (*it - '0');
      return it != begin;
    };
    bool counted = read_number();
    if (!at('+', '-')) {
      reading.refuse(it, "charge-without-sign", words::charge_without_sign, words::sign_expected);
      return false;
    }
    int const sign = *it++ == '+' ? 1 : -1;
    if (!counted && (raised || closing != '\0')) counted = read_number();
    if ((counted && (number < 1 || number > 99)) || (closing != '\0' && !at(closing))) {
      reading.refuse(number_at, "not-a-formula", words::charge_range, words::charge_expected);
      return false;
    }
    if (closing != '\0') ++it;
    x3::traits::move_to(counted ? sign * number : sign, attribute);
    first = it;
    return true;
  }
};

/// (s) (l) (g) (aq) ↓ ↑, with blanks before.
struct StateParser : x3::parser<StateParser> {
  using attribute_type = State;
  [[maybe_unused]] static bool const has_attribute = true;
  template <class Iterator, class Context, class RuleContext, class Attribute>
  bool parse(Iterator& first, Iterator const& last, Context const& context, RuleContext&, Attribute& attribute) const {
    Iterator it = first;
    while (it != last && *it == ' ') ++it;
    if (it == last) return false;
    State state = State::none;
    if (*it == sign_solid || *it == sign_gas) {
      state = *it++ == sign_solid ? State::solid : State::gas;
    } else if (*it == '(') {
      Iterator const word_at = ++it;
      while (it != last && is_small(*it)) ++it;
      std::string_view const word(&*first + (word_at - first), static_cast<std::size_t>(it - word_at));
      if (word.empty() || it == last || *it != ')' || it + 1 != last) return false;
      ++it;
      state = word == "s" ? State::solid : word == "l" ? State::liquid : word == "g" ? State::gas : State::aqueous;
      if (state == State::aqueous && word != "aq") {
        x3::get<ReadingTag>(context).refuse(word_at, "unknown-state", words::fill(words::unknown_state, word),
                                            words::state_expected);
        return false;
      }
    } else {
      return false;
    }
    x3::traits::move_to(state, attribute);
    first = it;
    return true;
  }
};

struct report_fault {  // base of the outermost rule's id, and of no other: on a recursive rule it would hide the inner fault
  template <class Iterator, class Context>
  x3::error_handler_result on_error(Iterator&, Iterator const&, x3::expectation_failure<Iterator> const& failure,
                                    Context const& context) {
    Reading& reading = x3::get<ReadingTag>(context);
    std::string const expected = failure.which() == "eoi" ? words::end_expected : failure.which();
    reading.refuse(failure.where(), "not-a-formula", words::not_a_formula, expected);
    return x3::error_handler_result::fail;
  }
};

struct formula_id : report_fault {};
// What stands behind > must be a bare rule: its name is what the reader is told.
x3::rule<formula_id, Formula> const formula{"formula"};
x3::rule<struct body_id, Formula> const body{words::symbol_or_bracket};
x3::rule<struct electron_id, bool> const electron{"electron"};
x3::rule<struct compound_id, std::vector<FormulaPart>> const compound{"compound"};
x3::rule<struct hydrate_id, FormulaPart> const hydrate{"hydrate"};
x3::rule<struct hydrate_part_id, FormulaPart> const hydrate_part{words::after_dot};
x3::rule<struct groups_id, Groups> const groups{words::symbol_or_bracket};
x3::rule<struct item_id, Group> const item{"item"};
x3::rule<struct bracketed_id, Group> const bracketed{"bracketed group"};
x3::rule<struct round_id, Groups> const round{"round brackets"};
x3::rule<struct square_id, Groups> const square{"square brackets"};

auto const set_symbol = [](auto& ctx) { x3::_val(ctx).element = std::move(x3::_attr(ctx)); };
auto const set_group = [](auto& ctx) { x3::_val(ctx) = std::move(x3::_attr(ctx)); };
auto const set_count = [](auto& ctx) { x3::_val(ctx).count = x3::_attr(ctx); };
auto const set_round = [](auto& ctx) {
  x3::_val(ctx).inside = std::move(x3::_attr(ctx));
  x3::_val(ctx).bracket = '(';
};
auto const set_square = [](auto& ctx) {
  x3::_val(ctx).inside = std::move(x3::_attr(ctx));
  x3::_val(ctx).bracket = '[';
};
auto const add_item = [](auto& ctx) { x3::_val(ctx).push_back(std::move(x3::_attr(ctx))); };
auto const set_multiplier = [](auto& ctx) { x3::_val(ctx).multiplier = x3::_attr(ctx); };
auto const set_groups = [](auto& ctx) { x3::_val(ctx).groups = std::move(x3::_attr(ctx)); };
auto const first_part = [](auto& ctx) {
  x3::_val(ctx).push_back({});
  x3::_val(ctx).back().groups = std::move(x3::_attr(ctx));
};
auto const add_part = [](auto& ctx) { x3::_val(ctx).push_back(std::move(x3::_attr(ctx))); };
auto const refuse_fraction = [](auto& ctx) {
  x3::get<ReadingTag>(ctx).refuse(&*x3::_where(ctx).begin(), "not-a-formula", words::fraction_in_hydrate,
                                  words::whole_hydrate_expected);
  x3::_pass(ctx) = false;
};
auto const set_electron = [](auto& ctx) { x3::_val(ctx).electron = true; };
auto const set_compound = [](auto& ctx) { x3::_val(ctx).parts = std::move(x3::_attr(ctx)); };
auto const set_charge = [](auto& ctx) { x3::_val(ctx).charge = x3::_attr(ctx); };
auto const set_state = [](auto& ctx) { x3::_val(ctx).state = x3::_attr(ctx); };

SymbolParser const symbol{};
CountParser const count{};
ChargeParser const charge{};
StateParser const state{};

// A bracket that opens a group: "(2+)" is a charge and "(aq)" a state.
auto const opens_group = &x3::omit[x3::char_('(') >> x3::char_("A-Z([")] >> '(';
auto const blanks = x3::omit[*x3::char_(' ')];
auto const fraction = x3::omit[+x3::digit] >> (x3::lit('/') | '.') >> x3::omit[x3::digit];
auto const round_def = opens_group > groups > ')';
auto const square_def = x3::lit('[') > groups > ']';
auto const bracketed_def = round[set_round] | square[set_square];
auto const item_def = (symbol[set_symbol] | bracketed[set_group]) >> -count[set_count];
auto const groups_def = +item[add_item];
auto const hydrate_part_def = (&fraction >> x3::eps[refuse_fraction]) | (-count[set_multiplier] >> blanks >> groups[set_groups]);
auto const hydrate_def = (blanks >> '.' >> blanks) > hydrate_part;
auto const compound_def = groups[first_part] >> *hydrate[add_part];
auto const electron_def = x3::lit('e') >> &(x3::omit[x3::char_("^+(")] | '-') >> x3::attr(true);
auto const body_def = (electron[set_electron] | compound[set_compound]) >> -charge[set_charge] >> -state[set_state];
auto const formula_def = x3::eps > body > x3::eoi;

BOOST_SPIRIT_DEFINE(formula, body, electron, compound, hydrate, hydrate_part, groups, item, bracketed, round, square)

/// Nesting is counted before the recursive grammar runs.
void check_brackets(Reading& reading) {
  char open[deepest];
  std::size_t depth = 0;
  char before = '\0';
  for (It it = reading.begin; it != reading.end; ++it) {
    char const c = *it;
    if (c == '(' || c == '[') {
      if (depth == deepest) return reading.refuse(it, "nested-too-deep", words::nested_too_deep, "");
      open[depth++] = c;
    } else if (c == ')' || c == ']') {
      if (depth == 0) return reading.refuse(it, "bracket-too-many", words::bracket_too_many, words::bracket_opened);
      char const opened = open[--depth];
      char const wanted = opened == '(' ? ')' : ']';
      if (c != wanted) return reading.refuse(it, "brackets-crossed", words::brackets_crossed, std::string("'") + wanted + "'");
      if (before == opened) return reading.refuse(it, "empty-bracket", words::empty_bracket, words::symbol_or_bracket);
    }
    if (c != ' ') before = c;
  }
  if (depth > 0)
    reading.refuse(reading.end, "bracket-not-closed", words::bracket_not_closed, open[depth - 1] == '(' ? "')'" : "']'");
}

/// Where the charge of SO42-, Fe3+ or Cl- begins: students leave out the ^. A digit before the sign is the charge of a lone atom
/// and of square brackets; elsewhere the last of two or more digits is the charge, and a single one is a subscript (NO3- is one
/// nitrate).
It find_typed_charge(Reading const& reading) {
  It const begin = reading.begin;
  It end = reading.end;
  auto const skip_blanks = [&] {
    while (end > begin && end[-1] == ' ') --end;
  };
  if (end > begin && (end[-1] == sign_solid || end[-1] == sign_gas)) {
    --end;
  } else if (end > begin && end[-1] == ')') {
    It open = end - 1;
    while (open > begin && is_small(open[-1])) --open;
    if (open > begin && open[-1] == '(') end = open - 1;
  }
  skip_blanks();
  if (end <= begin + 1 || (end[-1] != '+' && end[-1] != '-')) return reading.end;
  It const sign = end - 1;
  It digits = sign;
  while (digits > begin && is_digit(digits[-1])) --digits;
  if (digits == begin || digits[-1] == '^' || digits[-1] == '(' || digits[-1] == '{') return reading.end;
  auto const digit_count = sign - digits;
  if (digit_count == 0 || digits[-1] == ']') return digits;
  int atoms = 0;
  for (It it = begin; it != digits; ++it) atoms += is_capital(*it) ? 1 : 0;
  bool const lone = atoms == 1 && (is_capital(digits[-1]) || is_small(digits[-1]));
  bool const triiodide =
      lone && digit_count == 1 && *digits == '3' && sign[0] == '-' && std::string_view(begin, 1) == "I" && digits == begin + 1;
  if (lone && digit_count == 1 && !triiodide) return digits;
  return digit_count == 1 || sign[-1] == '0' ? sign : sign - 1;
}

/// Atoms in all, or more than `most_atoms`.
std::int64_t atoms_in(Groups const& all) {
  std::int64_t sum = 0;
  for (Group const& group : all) {
    std::int64_t const one = group.element.empty() ? atoms_in(group.inside) : 1;
    sum += one * group.count;  // both factors are bounded: one by most_atoms + 1, count by 9999
    if (sum > most_atoms) return most_atoms + 1;
  }
  return sum;
}

void check_size(Reading& reading, Formula const& read) {
  std::int64_t sum = 0;
  for (FormulaPart const& part : read.parts) sum += part.multiplier * atoms_in(part.groups);
  if (sum > most_atoms) reading.refuse(reading.begin, "count-out-of-range", words::too_many_atoms, "");
}

/// H20, alone or as the water of a hydrate: no substance, but a zero for the letter O.
void check_zero(Reading& reading, Formula const& read) {
  for (FormulaPart const& part : read.parts)
    if (part.groups.size() == 1 && part.groups.front().element == "H" && part.groups.front().count == 20)
      reading.refuse(reading.begin, "not-a-formula", words::zero_for_letter, words::letter_expected);
}

void count_atoms(Groups const& all, std::int64_t times, std::map<std::string, std::int64_t>& counts) {
  for (Group const& group : all) {
    if (group.element.empty())
      count_atoms(group.inside, times * group.count, counts);
    else
      counts[group.element] += times * group.count;
  }
}

}  // namespace

Result<Formula> parse_formula(PlainText const& text, std::size_t begin, std::size_t end, std::string_view unknown) {
  It const first = text.text.data() + begin;
  It const last = text.text.data() + end;
  Reading reading{first, last, unknown, last, {}, false};
  Formula result;
  if (begin == end) {
    reading.refuse(first, "empty-formula", words::empty_formula, words::formula_expected);
  } else {
    check_brackets(reading);
    if (!reading.special) {
      reading.typed_charge = find_typed_charge(reading);
      It it = first;
      if (x3::parse(it, last, x3::with<ReadingTag>(reading)[formula], result)) {
        reading.special = false;  // a branch that was tried and left
        check_size(reading, result);
        check_zero(reading, result);
      } else if (!reading.special) {
        reading.refuse(it, "not-a-formula", words::not_a_formula, words::symbol_or_bracket);
      }
      if (result.electron && !reading.special && result.charge != -1)
        reading.refuse(first, "not-a-formula", words::charge_range, "e^-");
    }
  }
  if (!reading.special) return result;
  Fault fault = reading.fault;
  It at = first + fault.offset;
  if (at + 1 < last && *at == '(') ++at;  // Ca(oh)2
  if (fault.id == "not-a-formula" && fault.what == words::not_a_formula && at < last && is_small(*at)) {
    fault.offset = static_cast<std::size_t>(at - first);
    fault.id = "unknown-element";
    fault.what = words::small_letter;
    fault.expected = element_hint(reading, at);
  }
  fault.offset = text.offset(begin + fault.offset);
  return fault;
}

Result<Formula> parse_formula(std::string_view text, std::string_view unknown) {
  Result<PlainText> const plain = make_plain(text);
  if (!ok(plain)) return fault(plain);
  std::string const& characters = value(plain).text;
  std::size_t begin = 0, end = characters.size();
  while (begin < end && characters[begin] == ' ') ++begin;
  while (end > begin && characters[end - 1] == ' ') --end;
  return parse_formula(value(plain), begin, end, unknown);
}

bool may_stand_for_unknown(std::string_view text, std::size_t at) {
  if (at >= text.size() || unknown_letters.find(text[at]) == std::string_view::npos) return false;
  auto const small_from = [&](std::size_t i) { return i < text.size() && is_small(text[i]); };
  auto const capital = [&](std::size_t i) { return i < text.size() && is_capital(text[i]) && !small_from(i + 1); };
  // Both capitals of a symbol typed large: NaCL, ZN.
  auto const typed_large = [&](std::size_t first) {
    constexpr int last_at_school = 103;
    auto const* const element = find_element(std::string{text[first], static_cast<char>(text[first + 1] - 'A' + 'a')});
    return element != nullptr && element->atomic_number <= last_at_school && element->symbol != "Mo";
  };
  if (small_from(at + 1)) return false;
  if (at > 0 && capital(at - 1) && typed_large(at - 1)) return false;
  return !(capital(at + 1) && typed_large(at));
}

std::map<std::string, std::int64_t> Formula::composition() const {
  std::map<std::string, std::int64_t> counts;
  for (FormulaPart const& part : parts) count_atoms(part.groups, part.multiplier, counts);
  return counts;
}

}  // namespace molewright
