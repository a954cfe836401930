#include "engine/statement.h"

#include <algorithm>
#include <boost/spirit/home/x3.hpp>
#include <utility>

#include "engine/ascii.h"
#include "engine/lists.h"
#include "engine/nomenclature.h"
#include "engine/statement_words.h"
#include "engine/unknown_letter.h"
#include "engine/unknown_water.h"

namespace molewright {
namespace {
namespace x3 = boost::spirit::x3;
using It = char const*;

struct Begin {};  // context tags: where the text begins, the fault that lies furthest on, and how the text is read
struct Found {};
struct Way {};
struct FoundFault {
  std::optional<Fault> fault;
};
struct WayOfReading {
  std::string_view unknown;  ///< letters that may be no elements
  DecimalMark mark = DecimalMark::point;
};

/// A terminal of the grammar that is read by one of the engine's own readers: a quantity, a number, a unit, a formula.
template <class Attribute, class Read>
struct Reader : x3::parser<Reader<Attribute, Read>> {
  using attribute_type = Attribute;
  static bool const has_attribute = true;
  Read read;
  explicit Reader(Read r) : read(r) {}

  template <class Context, class RuleContext, class Into>
  bool parse(It& first, It const& last, Context const& context, RuleContext const&, Into& into) const {
    It at = first;
    while (at != last && (*at == ' ' || *at == '\t')) ++at;
    auto const text = std::string_view(at, static_cast<std::size_t>(last - at));
    auto result = read(text, x3::get<Way>(context));
    if (!ok(result)) {
      Fault found = fault(result);
      found.offset += static_cast<std::size_t>(at - x3::get<Begin>(context));
      auto& best = x3::get<Found>(context).fault;
      if (!best || found.offset >= best->offset) best = std::move(found);
      return false;
    }
    first = at + value(result).second;
    x3::traits::move_to(std::move(value(result).first), into);
    return true;
  }
};
template <class Attribute, class Read>
auto reader(Read read) {
  return Reader<Attribute, Read>(read);
}

auto const quantity_reader =
    reader<Quantity>([](std::string_view text, WayOfReading const& way) -> Result<std::pair<Quantity, std::size_t>> {
      auto r = read_quantity(text, way.unknown);
      if (!ok(r)) return fault(r);
      return std::pair{std::move(value(r).quantity), value(r).length};
    });
auto const number_reader =
    reader<Decimal>([](std::string_view text, WayOfReading const& way) -> Result<std::pair<Decimal, std::size_t>> {
      auto r = read_decimal(text, way.mark);
      if (!ok(r)) return fault(r);
      if (way.mark == DecimalMark::comma) {  // whoever prints it again sets the course's mark
        auto& typed = value(r).number.text;
        std::replace(typed.begin(), typed.end(), ',', '.');
      }
      return std::pair{std::move(value(r).number), value(r).length};
    });
auto const unit_reader = reader<Unit>([](std::string_view text, WayOfReading const&) -> Result<std::pair<Unit, std::size_t>> {
  if (is_degree_letter(text)) return std::pair{unit("degC"), std::size_t{1}};
  auto r = read_unit(text);
  if (!ok(r)) return fault(r);
  return std::pair{std::move(value(r).unit), value(r).length};
});
/// A substance runs to the next comma outside brackets or blank.
auto const substance_reader =
    reader<std::string>([](std::string_view text, WayOfReading const& way) -> Result<std::pair<std::string, std::size_t>> {
      auto const end = std::min(text.size(), text.find_first_of(", \t"));
      auto r = parse_formula(text.substr(0, end), way.unknown);
      if (ok(r)) return std::pair{plain(abbreviated(value(r)).value_or(value(r))), end};
      auto const whole = std::min(text.size(), text.find_first_of(",|"));  // a name has blanks
      auto const named = identify(text.substr(0, whole));
      if (ok(named)) return std::pair{value(named).formula, whole};
      return fault_of_name(fault(r), text.substr(0, whole));
    });

/// A formula or a name runs to what may follow it on the line: "marks 2".
auto const substance_or_name_reader =
    reader<std::string>([](std::string_view text, WayOfReading const&) -> Result<std::pair<std::string, std::size_t>> {
      auto end = text.size();
      for (auto const* word : {" marks ", " mark "}) end = std::min(end, text.find(word));
      auto r = identify(text.substr(0, end));
      if (!ok(r)) return fault_of_name(fault(r), text.substr(0, end));
      return std::pair{value(r).formula, end};
    });

struct GivenBody {
  Quantity quantity;
  Given::Form form = Given::Form::value;
  std::vector<Decimal> numbers;
  std::size_t titres = 0, pairs = 0;
  std::vector<std::size_t> rough, discordant;
  Unit unit;
  std::string empirical;  ///< in place of all these: the empirical formula that is given
};
struct FindBody {
  Find find;
};
struct HandlingBody {
  Handling handling;
};
struct StatedBody {
  StatedAnswer stated;
};

auto const blank = x3::ascii::blank;
x3::rule<struct given_id, GivenBody> const given{"given"};
x3::rule<struct find_id, FindBody> const find{"find"};
x3::rule<struct dilute_id, HandlingBody> const dilute{"dilute"};
x3::rule<struct mix_id, HandlingBody> const mix{"mix"};
x3::rule<struct stated_id, StatedBody> const stated{"answer"};
x3::rule<struct excess_id, std::vector<std::string>> const excess{"excess"};

x3::rule<struct quantity_id, Quantity> const quantity{"a quantity such as n(NaCl)"};
x3::rule<struct number_id, Decimal> const number{"a number"};
x3::rule<struct unit_id, Unit> const measure{"a unit"};
x3::rule<struct substance_id, std::string> const substance{"a formula"};
x3::rule<struct substance_or_name_id, std::string> const substance_or_name{"a formula or a name"};
x3::rule<struct solution_id, unsigned> const solution{"the number of a solution"};
x3::rule<struct count_id, unsigned> const count{"a whole number"};
auto const quantity_def = quantity_reader;
auto const number_def = number_reader;
auto const measure_def = unit_reader;
auto const substance_def = substance_reader;
auto const substance_or_name_def = substance_or_name_reader;
auto const solution_def = x3::uint_parser<unsigned, 10, 1, 2>{};
auto const count_def = x3::uint_parser<unsigned, 10, 1, 3>{};

auto const set_quantity = [](auto& c) { x3::_val(c).quantity = std::move(x3::_attr(c)); };
auto const add_number = [](auto& c) { x3::_val(c).numbers.push_back(std::move(x3::_attr(c))); };
auto const begin_titre = [](auto& c) {
  x3::_val(c).numbers.push_back(x3::_attr(c));
  ++x3::_val(c).titres;
};
auto const add_initial = [](auto& c) {
  x3::_val(c).numbers.push_back(x3::_attr(c));
  ++x3::_val(c).pairs;
};
auto const mark_rough = [](auto& c) { x3::_val(c).rough.push_back(x3::_val(c).titres - 1); };
auto const mark_discordant = [](auto& c) { x3::_val(c).discordant.push_back(x3::_val(c).titres - 1); };
auto const set_unit = [](auto& c) { x3::_val(c).unit = std::move(x3::_attr(c)); };
template <Given::Form form>
struct set_form {
  template <class C>
  void operator()(C& c) const {
    x3::_val(c).form = form;
  }
};

auto const keyword = [](char const* word) { return x3::lexeme[x3::lit(word) >> !x3::ascii::alnum]; };

auto const in_words = [](char const* word) { return keyword(word) | (x3::lit('(') >> keyword(word) >> ')'); };
auto const minus = x3::lit('-') | x3::lit("−");
auto const one_titre = number[begin_titre] > -(minus > number[add_initial]) >
                       -(in_words("rough")[mark_rough] | in_words("discordant")[mark_discordant]);
auto const set_empirical = [](auto& c) { x3::_val(c).empirical = std::move(x3::_attr(c)); };
// Of what it is, says nothing: it is that of the one unknown.
auto const of_unknown = (x3::lit('(') > x3::omit[+(x3::char_ - ')')] > ')') | (keyword("of") > x3::omit[+(x3::char_ - '=')]);
auto const empirical_def = -keyword("the") >> keyword("empirical") > keyword("formula") > -of_unknown >
                           '=' > substance[set_empirical];
auto const value_def =
    -keyword("the") >> quantity[set_quantity] > '=' >
    (((keyword("mean") >> -keyword("of"))[set_form<Given::Form::mean>{}] > one_titre > +('|' > one_titre) > -measure[set_unit]) |
     (keyword("measured")[set_form<Given::Form::measured>{}] > -(keyword("about") > number[add_number]) > -measure[set_unit]) |
     (number[add_number] >> -(minus[set_form<Given::Form::difference>{}] > number[add_number]) >> -measure[set_unit]));
auto const given_def = (empirical_def | value_def) > x3::eoi;

template <Find::Kind kind>
struct find_kind {
  template <class C>
  void operator()(C& c) const {
    x3::_val(c).find.kind = kind;
  }
};
auto const add_element = [](auto& c) { x3::_val(c).find.elements.push_back(x3::_attr(c)); };
auto const elements = keyword("of") > substance[add_element] > *(',' > substance[add_element]);

auto const set_substance = [](auto& c) { x3::_val(c).find.substance = x3::_attr(c); };
auto const add_reagent = [](auto& c) { x3::_val(c).find.reagents.push_back(x3::_attr(c)); };
auto const add_with = [](auto& c) { x3::_val(c).find.with.push_back(x3::_attr(c)); };
auto const add_without = [](auto& c) { x3::_val(c).find.without.push_back(x3::_attr(c)); };
auto const reagent = keyword("reagent")[find_kind<Find::Kind::reagent>{}] > keyword("from") > substance[add_reagent] >
                     +('|' > substance[add_reagent]) > keyword("to") > keyword("precipitate") > substance[add_with] >
                     *(',' > substance[add_with]) >
                     -(keyword("but") > keyword("not") > substance[add_without] > *(',' > substance[add_without]));

auto const stated_find = keyword("reaction")[find_kind<Find::Kind::reaction>{}] |
                         (keyword("ionic") > keyword("equation"))[find_kind<Find::Kind::ionic_equation>{}] |
                         keyword("precipitate")[find_kind<Find::Kind::precipitate>{}] | reagent |
                         (keyword("name")[find_kind<Find::Kind::name>{}] > keyword("of") > substance_or_name[set_substance]);
auto const formula_find = (keyword("formula") > keyword("of")) >
                          (((keyword("the") > keyword("hydrate"))[find_kind<Find::Kind::hydrate_formula>{}] >
                            -(keyword("of") > substance_or_name[add_element])) |
                           substance_or_name[set_substance][find_kind<Find::Kind::formula>{}]);

auto const find_def =
    -keyword("the") >> -(keyword("value") >> keyword("of")) >>
    ((keyword("limiting") >
      (keyword("reagent") | keyword("reactant")))[([](auto& c) { x3::_val(c).find.kind = Find::Kind::limiting_reagent; })] |
     ((keyword("empirical") > keyword("formula"))[find_kind<Find::Kind::empirical_formula>{}] > -elements) |
     ((keyword("molecular") > keyword("formula"))[find_kind<Find::Kind::molecular_formula>{}] > -elements) | formula_find |
     stated_find | (keyword("line") > keyword("at") > keyword("fault"))[find_kind<Find::Kind::line_at_fault>{}] |
     quantity[([](auto& c) { x3::_val(c).find.quantity = std::move(x3::_attr(c)); })]) >
    *((keyword("in") > measure[([](auto& c) { x3::_val(c).find.unit = std::move(x3::_attr(c)); })]) |
      (keyword("to") > count[([](auto& c) { x3::_val(c).find.figures = static_cast<int>(x3::_attr(c)); })] >
       ((-keyword("significant") >> (keyword("figures") | keyword("figure"))) | keyword("sf"))) |
      ((keyword("marks") | keyword("mark")) >
       count[([](auto& c) { x3::_val(c).find.marks = static_cast<int>(x3::_attr(c)); })])) > x3::eoi;

auto const from = [](auto& c) { x3::_val(c).handling.from.push_back(static_cast<int>(x3::_attr(c))); };
auto const to = [](auto& c) { x3::_val(c).handling.to = static_cast<int>(x3::_attr(c)); };
auto const arrow = x3::lit("->") | x3::lit("→");
auto const dilute_def = solution[from] > arrow > solution[to] > x3::eoi;
auto const mix_def = solution[from] > +('+' > solution[from]) > arrow > solution[to] > x3::eoi;

auto const stated_def = quantity[([](auto& c) { x3::_val(c).stated.quantity = x3::_attr(c); })] > '=' >
                        number[([](auto& c) { x3::_val(c).stated.number = x3::_attr(c); })] >
                        -measure[([](auto& c) { x3::_val(c).stated.unit = x3::_attr(c); })] > x3::eoi;
auto const excess_def = substance[([](auto& c) { x3::_val(c).push_back(x3::_attr(c)); })] >
                        *(',' > substance[([](auto& c) { x3::_val(c).push_back(x3::_attr(c)); })]) > x3::eoi;

BOOST_SPIRIT_DEFINE(given, find, dilute, mix, stated, excess, quantity, number, measure, substance, substance_or_name, solution,
                    count)

std::string for_people(std::string which) {
  if (which == "eoi") return "nothing more on this line";
  if (!which.empty() && which.find("N5boost") != std::string::npos) return "";
  return which;
}

/// A line after its keyword.
struct BodyText {
  std::string_view text;
  WayOfReading way;
  std::size_t offset = 0;
};

template <class Rule, class Body>
std::optional<Fault> parse_body(Rule const& rule, BodyText const& of, char const* what, Body& body) {
  auto const text = of.text;
  FoundFault found;
  It it = text.data();
  It const begin = it;
  It const end = text.data() + text.size();
  Fault fault{"bad-statement", what, "", 0};
  try {
    if (x3::phrase_parse(it, end, x3::with<Begin>(begin)[x3::with<Found>(found)[x3::with<Way>(of.way)[rule]]], blank, body) &&
        it == end)
      return std::nullopt;
    fault.offset = static_cast<std::size_t>(it - begin);
  } catch (x3::expectation_failure<It> const& failure) {
    fault.offset = static_cast<std::size_t>(failure.where() - begin);
    while (fault.offset < text.size() && (text[fault.offset] == ' ' || text[fault.offset] == '\t')) ++fault.offset;
    fault.expected = for_people(failure.which());
  }
  if (found.fault && found.fault->offset >= fault.offset) fault = *found.fault;
  fault.offset += of.offset;
  return fault;
}

/// What is special to a mean of titres.
std::optional<Fault> check_titres(GivenBody const& body, std::size_t offset) {
  auto const name = plain(body.quantity);
  if (body.rough.size() + body.discordant.size() + 2 > body.titres)
    return Fault{"bad-statement", "the mean of " + name + " has fewer than two readings that are not rough or discordant",
                 "two concordant readings or more", offset};
  if (body.pairs > 0 && body.pairs < body.titres)
    return Fault{"bad-statement", "some titres of " + name + " have both readings, some have not", "final - initial for each",
                 offset};
  for (std::size_t i = 0; body.pairs > 0 && i < body.titres; ++i)
    if (body.numbers[2 * i].value <= body.numbers[2 * i + 1].value)
      return Fault{"not-positive", "an initial reading of " + name + " is not below its final one", "the larger reading first",
                   offset};
  return std::nullopt;
}

/// A measure that cannot be zero or less is refused where it stands.
std::optional<Fault> check_given(GivenBody const& body, std::size_t offset) {
  Dimension dimension;
  auto const& symbol = body.quantity.symbol;
  bool const by_difference = body.form == Given::Form::difference || body.pairs > 0;
  if (!by_difference && !may_be_below_zero(symbol))
    for (auto const& typed : body.numbers)
      if (typed.value.sign() <= 0)
        return Fault{"not-positive", plain(body.quantity) + " is " + (typed.value.sign() < 0 ? "negative" : "zero"),
                     "a number above zero", offset};
  if (body.form == Given::Form::mean)
    if (auto found = check_titres(body, offset)) return found;
  if (body.form == Given::Form::difference && body.numbers[0].value <= body.numbers[1].value)
    return Fault{"not-positive", "the second reading of " + plain(body.quantity) + " is not below the first",
                 "the larger reading first", offset};
  if (dimension_of(symbol, dimension) && body.unit.dimension != dimension) {
    std::string const got = body.unit.symbol.empty() ? "has no unit" : "cannot be in " + body.unit.symbol;
    return Fault{"wrong-unit", plain(body.quantity) + " " + got, "a unit of " + dimension_name(dimension), offset};
  }
  return std::nullopt;
}

// More than any person writes, so that no file keeps the solver busy for long; parts are lettered a to z.
std::size_t most_of(std::string_view word) {
  if (word == "find" || word == "show") return 26;
  if (word == "given") return 60;
  if (word == "reaction") return 6;
  return word == "dilute" || word == "mix" || word == "evaporate" ? 12 : 0;
}
std::size_t count_of(std::string_view word, Problem const& problem) {
  if (word == "find" || word == "show") return problem.finds.size();
  if (word == "given") return problem.givens.size();
  return word == "reaction" ? problem.reactions.size() : problem.handlings.size();
}
constexpr std::size_t most_species = 24;
constexpr std::size_t most_reagents = 8;
}  // namespace

std::vector<std::string> const& statement_words() {
  static std::vector<std::string> const words{"problem", "title", "reaction",  "given",  "excess", "find", "show",
                                              "dilute",  "mix",   "evaporate", "answer", "text",   "end"};
  return words;
}

StatementStart statement_start(std::string_view line) {
  std::size_t at = 0;
  while (at < line.size() && (line[at] == ' ' || line[at] == '\t')) ++at;
  std::size_t end = at;
  while (end < line.size() && line[end] != ' ' && line[end] != '\t' && line[end] != '\r') ++end;
  std::size_t rest = end;
  if (end > at && line[end - 1] == ':' && contains(statement_words(), line.substr(at, end - 1 - at))) --end;  // "given: ..."
  while (rest < line.size() && (line[rest] == ' ' || line[rest] == '\t')) ++rest;
  return {line.substr(at, end - at), rest};
}

std::string_view without_comment(std::string_view line) {
  auto const cut = line.substr(0, std::min(line.size(), line.find('#')));
  auto kept = cut;
  while (!kept.empty() && (kept.back() == ' ' || kept.back() == '\t' || kept.back() == '\r')) kept.remove_suffix(1);
  return kept;
}

namespace {
std::optional<Fault> read_statement(Problem& problem, std::string_view text, WayOfReading const& way) {
  auto const start = statement_start(text);
  auto const keyword_at = static_cast<std::size_t>(start.keyword.data() - text.data());
  auto const body = stripped(text.substr(start.rest));
  auto const word = start.keyword;
  BodyText const of{body, way, start.rest};
  if (auto const most = most_of(word); most > 0 && count_of(word, problem) >= most)
    return Fault{"too-many", "a problem has at most " + std::to_string(most) + " lines \"" + std::string(word) + "\"",
                 "another problem for the rest", keyword_at};
  if (body.empty() && word != "end" && word != "text")
    return Fault{"bad-statement", "nothing stands after " + std::string(word), "what " + std::string(word) + " is about",
                 text.size()};
  if (word == "problem") {
    problem.id = std::string(body);
  } else if (word == "title") {
    problem.title = std::string(body);
  } else if (word == "reaction") {
    auto const of_salt = with_salt_alone(body);
    if (of_salt.unknown_water && of_salt.equation.empty()) return std::nullopt;
    auto equation = parse_equation(of_salt.unknown_water ? std::string_view(of_salt.equation) : body, true);
    auto const names = ok(equation) ? EquationInWords{} : in_formulas(body);
    if (!names.formulas.empty()) equation = parse_equation(names.formulas, true);
    if (!ok(equation) && !way.unknown.empty()) equation = parse_equation(body, true, way.unknown);
    if (!ok(equation)) {
      Fault found = names.not_understood.value_or(fault(equation));
      found.offset += start.rest;
      return found;
    }
    if (value(equation).left.size() + value(equation).right.size() > most_species)
      return Fault{"too-many", "a reaction has at most " + std::to_string(most_species) + " substances", "fewer substances",
                   start.rest};
    take_abbreviations(value(equation));
    problem.reactions.push_back({std::string(body), std::move(value(equation)), {}});
  } else if (word == "given") {
    GivenBody read;
    if (auto found = parse_body(given, of, "this is not a given", read)) return found;
    if (!read.empirical.empty()) {
      if (!problem.empirical.empty()) return Fault{"bad-statement", "a second empirical formula is given", "one", start.rest};
      if (auto const formula = parse_formula(read.empirical); !ok(formula)) return fault(formula);  // it has no unknown in it
      problem.empirical = std::move(read.empirical);
      return std::nullopt;
    }
    take_unit(read.quantity, read.unit);
    if (auto found = check_given(read, start.rest)) return found;
    problem.givens.push_back({std::move(read.quantity),
                              read.form,
                              std::move(read.numbers),
                              std::move(read.unit),
                              {},
                              read.pairs > 0,
                              std::move(read.rough),
                              std::move(read.discordant)});
  } else if (word == "find" || word == "show") {
    FindBody read;
    if (auto found = parse_body(find, of, "this is not a find", read)) return found;
    if (read.find.unit) take_unit(read.find.quantity, *read.find.unit);
    read.find.told = word == "show";
    if (read.find.told && read.find.kind != Find::Kind::number)
      return Fault{"bad-statement", "only a number can be told in the text and shown to be right",
                   "find " + std::string(body) + ", or a quantity such as n(NaCl)", start.rest};
    if (read.find.told && read.find.figures == 1)
      return Fault{"bad-statement", "an answer of one figure cannot be told less exactly", "2 to 15 figures", start.rest};
    if (read.find.reagents.size() > most_reagents || read.find.with.size() + read.find.without.size() > most_reagents)
      return Fault{"too-many", "a choice has at most " + std::to_string(most_reagents) + " reagents and as many substances",
                   "fewer", start.rest};
    if (read.find.figures && (*read.find.figures < 1 || *read.find.figures > 15))
      return Fault{"bad-statement", "no answer has " + std::to_string(*read.find.figures) + " figures", "1 to 15 figures",
                   start.rest};
    Dimension dimension;
    if (read.find.unit && dimension_of(read.find.quantity.symbol, dimension) && read.find.unit->dimension != dimension)
      return Fault{"wrong-unit", plain(read.find.quantity) + " cannot be in " + read.find.unit->symbol,
                   "a unit of " + dimension_name(dimension), start.rest};
    problem.finds.push_back(std::move(read.find));
  } else if (word == "excess") {
    std::vector<std::string> read;
    if (auto found = parse_body(excess, of, "this is not a list of formulas", read)) return found;
    problem.excess.insert(problem.excess.end(), read.begin(), read.end());
  } else if (word == "dilute" || word == "mix" || word == "evaporate") {
    HandlingBody read;
    read.handling.kind = word == "mix"      ? Handling::Kind::mix
                         : word == "dilute" ? Handling::Kind::dilute
                                            : Handling::Kind::evaporate;
    auto found = word == "mix" ? parse_body(mix, of, "this is not a mixing", read)
                               : parse_body(dilute, of, "this is not a dilution", read);
    if (found) return found;
    problem.handlings.push_back(read.handling);
  } else if (word == "answer") {
    StatedBody read;
    if (auto found = parse_body(stated, of, "this is not an answer", read)) return found;
    problem.stated.push_back(read.stated);
  } else {
    auto const near = nearest(word, statement_words());
    return Fault{"unknown-statement", "unknown statement \"" + std::string(word) + "\"",
                 near.empty() ? "problem, title, reaction, given, excess, find, dilute, mix, answer or text" : near.front(),
                 keyword_at};
  }
  return std::nullopt;
}

}  // namespace

std::optional<Fault> add_statement(Problem& problem, std::string_view text, DecimalMark mark) {
  auto const first = read_statement(problem, text, {"", mark});
  if (!first) return first;
  if (first->id != "unknown-element") return what_was_meant(*first, text);
  // A letter that is no element may be meant so: it is read as something unknown, and the problem as a whole tells
  // (unknown_letter.h).
  std::vector<UnknownLetter> letters;
  std::string unknown;
  auto read = problem;
  for (auto found = first; found; found = read_statement(read, text, {unknown, mark})) {
    bool const meant = found->id == "unknown-element" && may_stand_for_unknown(text, found->offset);
    if (!meant || unknown.find(text[found->offset]) != std::string::npos) return first;
    unknown += text[found->offset];
    letters.push_back({text[found->offset], *found, {}});
  }
  if (!unknowns_print_as_such(read)) return first;  // C1A is CA in print
  problem = std::move(read);
  problem.unknowns.insert(problem.unknowns.end(), letters.begin(), letters.end());
  return std::nullopt;
}

std::optional<Fault> add_statement(Problem& problem, std::string_view text) {
  return add_statement(problem, text, DecimalMark::point);
}

}  // namespace molewright
