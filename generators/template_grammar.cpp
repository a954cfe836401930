#include "generators/template_grammar.h"

#include <boost/spirit/home/x3.hpp>

namespace molewright {
namespace {
namespace x3 = boost::spirit::x3;
using It = char const*;
using x3::ascii::char_;

// Bytes above 127 pass through: formulas and units hold · and °.
auto const trimmed = [](auto& c) {
  auto const range = x3::_attr(c);
  std::string text(range.begin(), range.end());
  while (!text.empty() && (text.back() == ' ' || text.back() == '\t')) text.pop_back();
  x3::_val(c) = text;
};

x3::rule<struct name_id, std::string> const name{"a name of small letters"};
x3::rule<struct set_id, std::string> const set_name{"the name of a set"};
x3::rule<struct number_id, std::string> const number{"a number"};
x3::rule<struct bound_id, std::string> const bound{"a number"};
x3::rule<struct option_id, std::string> const option{"a choice"};
x3::rule<struct quantity_id, std::string> const quantity{"a quantity such as n(NaCl)"};
x3::rule<struct rest_id, std::string> const rest{"a unit"};
x3::rule<struct measure_id, std::string> const measure{"a unit"};
x3::rule<struct factor_id, std::string> const factor{"a number, a {name} or M(formula)"};
x3::rule<struct number_pick_id, PickText> const number_pick{"a range or choice of numbers"};
x3::rule<struct word_pick_id, PickText> const word_pick{"one of ..., any ... or a range"};
x3::rule<struct let_id, LetText> const let{"let"};
x3::rule<struct given_id, GivenText> const given{"given"};
x3::rule<struct require_id, RequireText> const require{"require"};

auto const small = char_('a', 'z');
auto const digit = char_('0', '9');
auto const name_def = x3::raw[x3::lexeme[small >> *(small | digit | char_('_'))]][trimmed];
auto const set_name_def = x3::raw[x3::lexeme[small >> *(small | digit | char_('-'))]][trimmed];
auto const number_def = x3::raw[x3::lexeme[+digit >> -('.' >> +digit) >> -(x3::lit('e') >> -char_("+-") >> +digit)]][trimmed];
auto const bound_def =
    x3::raw[x3::lexeme[(-x3::lit('-') >> +digit >> -('.' >> +digit) >> -(x3::lit('e') >> -char_("+-") >> +digit)) |
                       ('{' >> small >> *(small | digit | char_('_')) >> '}')]][trimmed];
auto const option_def = x3::raw[x3::lexeme[+(x3::char_ - '|')]][trimmed];
/// A symbol, perhaps a stage, and a bracket that may hold brackets.
x3::rule<struct inner_id> const inner{"brackets"};
auto const inner_def = '(' >> *(inner | (x3::char_ - '(' - ')')) >> ')';
auto const quantity_def = x3::raw[x3::lexeme[+(x3::ascii::alnum) >> -inner]][trimmed];
auto const rest_def = x3::raw[x3::lexeme[+x3::char_]][trimmed];

auto const word = [](char const* text) { return x3::lexeme[x3::lit(text) >> !x3::ascii::alnum]; };
/// What may follow the unit of a given that is drawn as readings.
auto const of_readings = word("rough") | word("concordant") | word("discordant") | word("as");
auto const measure_def = x3::raw[x3::lexeme[+(x3::char_ - (+x3::ascii::blank >> of_readings))]][trimmed];
template <PickText::Kind kind>
struct set_kind {
  template <class C>
  void operator()(C& c) const {
    x3::_val(c).kind = kind;
  }
};
auto const add_word = [](auto& c) { x3::_val(c).words.push_back(x3::_attr(c)); };
auto const set_set = [](auto& c) { x3::_val(c).set = x3::_attr(c); };

auto const any = word("any")[set_kind<PickText::Kind::any>{}] > set_name[set_set] >>
                 -(x3::lit("from") > number[add_word] > "to" > number[add_word]);
auto const range = number[add_word] >> x3::lit("to")[set_kind<PickText::Kind::range>{}] > number[add_word] >
                   "by" > number[add_word];
auto const titres =
    word("titres")[set_kind<PickText::Kind::titres>{}] > number[add_word] > "to" > number[add_word] > "by" > number[add_word];
auto const factor_def = x3::raw[x3::lexeme[('{' >> name >> '}') | ('M' >> &x3::lit('(') >> inner) | number]][trimmed];
auto const product = word("product")[set_kind<PickText::Kind::product>{}] > "of" > factor[add_word] > *('|' > factor[add_word]) >
                     "by" > number[add_word];
auto const number_pick_def =
    product | titres | (word("one")[set_kind<PickText::Kind::choice>{}] > "of" > number[add_word] > *('|' > number[add_word])) |
    any | range;
auto const word_pick_def =
    (word("one")[set_kind<PickText::Kind::choice>{}] > "of" > option[add_word] > *('|' > option[add_word])) | any | range;

auto const add_name = [](auto& c) { x3::_val(c).names.push_back(x3::_attr(c)); };
auto const set_pick = [](auto& c) { x3::_val(c).pick = x3::_attr(c); };
auto const set_unit = [](auto& c) { x3::_val(c).pick.unit = x3::_attr(c); };
auto const set_quantity = [](auto& c) { x3::_val(c).quantity = x3::_attr(c); };
auto const let_def = x3::eps > name[add_name] > *(',' > name[add_name]) > '=' > word_pick[set_pick] > x3::eoi;
x3::rule<struct count_id, unsigned> const count{"a number from 0 to 9"};
auto const count_def = x3::uint_parser<unsigned, 10, 1, 1>{};
template <int PickText::*member>
struct set_count {
  template <class C>
  void operator()(C& c) const {
    x3::_val(c).pick.*member = static_cast<int>(x3::_attr(c));
  }
};
auto const readings = (word("rough") > count[set_count<&PickText::rough>{}]) |
                      (word("concordant") > count[set_count<&PickText::concordant>{}]) |
                      (word("discordant") > count[set_count<&PickText::discordant>{}]) |
                      (word("as") > (word("difference")[([](auto& c) { x3::_val(c).pick.as_difference = true; })] |
                                     word("readings")[([](auto& c) { x3::_val(c).pick.as_readings = true; })]));
auto const given_def = x3::eps > quantity[set_quantity] > '=' > number_pick[set_pick] > -(!of_readings >> measure[set_unit]) >
                       *readings > x3::eoi;
auto const require_def = x3::eps > quantity[set_quantity] >
                         -('/' > quantity[([](auto& c) { x3::_val(c).over = x3::_attr(c); })]) >
                         (x3::lit(">=")[([](auto& c) { x3::_val(c).at_least = true; })] |
                          x3::lit("<=")[([](auto& c) { x3::_val(c).at_least = false; })]) >
                         bound[([](auto& c) { x3::_val(c).bound = x3::_attr(c); })] >
                         -rest[([](auto& c) { x3::_val(c).unit = x3::_attr(c); })] > x3::eoi;

BOOST_SPIRIT_DEFINE(name, set_name, number, option, quantity, rest, measure, count, factor, number_pick, word_pick, let, given,
                    require, inner, bound)

using ExpectedAfter = char const* (*)(std::string_view before);
bool holds(std::string_view text, char c) { return text.find(c) != std::string_view::npos; }
bool blank_only(std::string_view text) { return text.find_first_not_of(" \t") == std::string_view::npos; }
char const* expected_in_let(std::string_view before) {
  return holds(before, '=') ? "one of ..., any ... or a range" : "a name of small letters";
}
char const* expected_in_given(std::string_view before) { return holds(before, '=') ? "a number" : "a quantity such as n(NaCl)"; }
char const* expected_in_require(std::string_view before) {
  if (holds(before, '=')) return "a number";
  return blank_only(before) || blank_only(before.substr(before.rfind('/') + 1)) ? "a quantity such as n(NaCl)" : ">= or <=";
}

template <class Rule, class Body>
std::optional<Fault> parse_with(Rule const& rule, std::string_view text, char const* id, char const* what,
                                ExpectedAfter expected_after, Body& body) {
  It it = text.data();
  It const begin = it;
  It const end = begin + text.size();
  Fault fault{id, what, "", 0};
  try {
    if (x3::phrase_parse(it, end, rule, x3::ascii::blank, body) && it == end) return std::nullopt;
    fault.offset = static_cast<std::size_t>(it - begin);
  } catch (x3::expectation_failure<It> const& failure) {
    fault.offset = static_cast<std::size_t>(failure.where() - begin);
    std::string const which = failure.which();
    if (which == "eoi") {
      fault.expected = "the end of the line";
    } else if (which.find("boost") != std::string::npos) {
      fault.expected = expected_after(text.substr(0, fault.offset));  // a rule with an action has no name of its own
    } else {
      fault.expected = which;
    }
  }
  while (fault.offset < text.size() && (text[fault.offset] == ' ' || text[fault.offset] == '\t')) ++fault.offset;
  return fault;
}

}  // namespace

Result<LetText> parse_let(std::string_view text) {
  LetText body;
  if (auto found = parse_with(let, text, "bad-let", "this let cannot be read", expected_in_let, body)) return *found;
  return body;
}

bool varies(std::string_view text) {
  auto const equals = text.find('=');
  if (equals == std::string_view::npos) return false;
  It it = text.data() + equals + 1;
  It const end = text.data() + text.size();
  try {
    return x3::phrase_parse(it, end,
                            word("one") | word("any") | word("product") | word("titres") | (x3::omit[number] >> word("to")),
                            x3::ascii::blank);
  } catch (x3::expectation_failure<It> const&) {
    return false;
  }
}

Result<GivenText> parse_varying_given(std::string_view text) {
  GivenText body;
  if (auto found = parse_with(given, text, "bad-given", "this given cannot be read", expected_in_given, body)) return *found;
  return body;
}

Result<RequireText> parse_require(std::string_view text) {
  RequireText body;
  if (auto found = parse_with(require, text, "bad-require", "this require cannot be read", expected_in_require, body))
    return *found;
  return body;
}

}  // namespace molewright
