#include "engine/measured.h"

#include <boost/spirit/home/x3.hpp>
#include <utility>

namespace molewright {
namespace {

namespace x3 = boost::spirit::x3;

struct Mark {};   // context tags
struct Found {};  // the fault, where one of the parsers below has seen it

using Iterator = std::string_view::const_iterator;

std::string_view rest(Iterator first, Iterator last) {
  return first == last ? std::string_view() : std::string_view(&*first, static_cast<std::size_t>(last - first));
}

/// A typed number, by read_decimal.
struct NumberParser : x3::parser<NumberParser> {
  using attribute_type = Decimal;
  [[maybe_unused]] static constexpr bool has_attribute = true;
  template <class Context, class RuleContext, class Attribute>
  bool parse(Iterator& first, Iterator const& last, Context const& context, RuleContext&, Attribute& attribute) const {
    auto read = read_decimal(rest(first, last), x3::get<Mark>(context));
    if (!ok(read)) {
      x3::get<Found>(context) = {fault(read), first};
      return false;
    }
    std::size_t const end = value(read).length;
    auto const after = rest(first, last).substr(end, 2);
    if (after.size() == 2 && (after[0] == ',' || after[0] == '.') && after[1] >= '0' && after[1] <= '9') {
      // Another mark in the middle of the digits is a fault of the number, not a unit.
      auto parsed = parse_decimal(rest(first, last).substr(0, end + 2), x3::get<Mark>(context));
      if (!ok(parsed)) {
        x3::get<Found>(context) = {fault(parsed), first};
        return false;
      }
    }
    first += static_cast<std::ptrdiff_t>(end);
    x3::traits::move_to(std::move(value(read).number), attribute);
    return true;
  }
};

/// A unit that takes all that is left, by parse_unit: its faults say more than "unit expected".
struct UnitParser : x3::parser<UnitParser> {
  using attribute_type = Unit;
  [[maybe_unused]] static constexpr bool has_attribute = true;
  template <class Context, class RuleContext, class Attribute>
  bool parse(Iterator& first, Iterator const& last, Context const& context, RuleContext&, Attribute& attribute) const {
    auto parsed = parse_unit(rest(first, last));
    if (!ok(parsed)) {
      x3::get<Found>(context) = {fault(parsed), first};
      return false;
    }
    first = last;
    x3::traits::move_to(std::move(value(parsed)), attribute);
    return true;
  }
};

struct Place {
  Fault fault;
  Iterator from;
};

auto const keep_number = [](auto& context) { x3::_val(context).number = std::move(x3::_attr(context)); };
auto const keep_unit = [](auto& context) { x3::_val(context).unit = std::move(x3::_attr(context)); };

// Blanks as bytes: a set of characters would match half of a typographic blank.
auto const blank = x3::lit(' ') | '\t' | "\u00A0" | "\u2009" | "\u202F";
x3::rule<struct measured_id, Measured> const measured{"a number with a unit"};
auto const measured_def = *blank >> NumberParser()[keep_number] >> *blank >> (x3::eoi | UnitParser()[keep_unit]);
BOOST_SPIRIT_DEFINE(measured)

/// Without the blanks at the end, of whatever kind.
std::string_view without_end_blanks(std::string_view text) {
  for (;;) {
    if (text.ends_with(' ') || text.ends_with('\t')) {
      text.remove_suffix(1);
    } else if (text.ends_with("\u00A0")) {
      text.remove_suffix(2);
    } else if (text.ends_with("\u2009") || text.ends_with("\u202F")) {
      text.remove_suffix(3);
    } else {
      return text;
    }
  }
}

}  // namespace

Result<Measured> parse_measured(std::string_view text, DecimalMark mark) {
  std::size_t const broken = first_invalid_utf8(text);
  if (broken != std::string_view::npos) return Fault{"invalid-utf8", "a byte that is not UTF-8", "", broken};
  text = without_end_blanks(text);
  Place place{{"not-a-number", "the number is missing", "a digit", 0}, text.begin()};
  Measured result;
  Iterator first = text.begin();
  if (x3::parse(first, text.end(), x3::with<Mark>(mark)[x3::with<Found>(place)[measured]], result)) return result;
  Fault found = place.fault;
  found.offset += static_cast<std::size_t>(place.from - text.begin());
  return found;
}

}  // namespace molewright
