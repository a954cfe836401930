#include "engine/statement_words.h"

#include <fmt/format.h>

#include <algorithm>

#include "engine/ascii.h"
#include "engine/meant_words.h"
#include "engine/nomenclature.h"

namespace molewright {

void take_unit(Quantity& of, Unit const& unit) {
  auto const measures = [&](char const* symbol) { return unit.dimension == working_unit(symbol).dimension; };
  Symbol& symbol = of.symbol;
  bool const in_traces = unit.symbol == "ppm" || unit.symbol == "ppb";
  if ((symbol == "c" || symbol == "gamma") && in_traces) symbol = "w";
  if ((symbol == "s" || symbol == "c" || symbol == "w") && measures("gamma"))
    symbol = "gamma";
  else if ((symbol == "M" || symbol == "C") && measures("c"))
    symbol = "c";
  else if ((symbol == "c" || symbol == "C") && measures("cp"))
    symbol = "cp";
  else if (symbol == "w" && unit.symbol == "% (v/v)")
    symbol = "phi";
}

namespace {
/// One term of an equation in words as a formula, its number before it kept; nothing where it is no name and no formula.
Result<std::string> term_in_formulas(std::string_view term) {
  std::size_t digits = 0;
  while (digits < term.size() && is_digit(term[digits])) ++digits;
  auto const named = identify(term.substr(digits));
  if (ok(named)) return std::string(term.substr(0, digits)) + value(named).formula;
  auto const name = stripped(term.substr(digits));
  Fault found = fault_of_name(fault(named), name);
  found.offset = static_cast<std::size_t>(name.data() - term.data());
  return found;
}
}  // namespace

EquationInWords in_formulas(std::string_view words) {
  std::size_t arrow_at = std::string_view::npos, arrow_length = 0;
  for (std::string_view sign : {"->", "→", "="})
    if (auto const at = words.find(sign); at != std::string_view::npos && arrow_length == 0) {
      arrow_at = at;
      arrow_length = sign.size();
    }
  if (arrow_length == 0) return {};
  EquationInWords out;
  bool unread = false;
  for (auto side : {words.substr(0, arrow_at), words.substr(arrow_at + arrow_length)}) {
    if (!out.formulas.empty()) out.formulas += " -> ";
    for (bool first = true; !side.empty(); first = false) {
      auto const end = std::min(side.size(), side.find(" + "));
      auto const term = stripped(side.substr(0, end));
      side.remove_prefix(std::min(side.size(), end + 3));
      auto const read = term_in_formulas(term);
      if (ok(read)) {
        out.formulas += (first ? "" : " + ") + value(read);
        continue;
      }
      unread = true;
      bool const is_a_name = fault(read).id.ends_with("-name") && fault(read).id != "no-name";
      if (out.not_understood || !is_a_name) continue;
      out.not_understood = fault(read);
      out.not_understood->offset += static_cast<std::size_t>(term.data() - words.data());
    }
  }
  if (unread) out.formulas.clear();
  return out;
}

void take_abbreviations(Equation& equation) {
  for (auto* side : {&equation.left, &equation.right})
    for (auto& species : *side)
      if (auto meant = abbreviated(species.formula)) species.formula = std::move(*meant);
}

bool is_degree_letter(std::string_view text) {
  if (text.empty() || text.front() != 'C') return false;
  auto const rest = text.substr(1);
  if (rest.empty()) return true;
  auto const next = stripped(rest);
  return rest.front() == ' ' && (next.starts_with("to ") || next.starts_with("mark"));
}

namespace {
/// Two runs of digits with a sign between them: "0,250", "1:10".
struct TwoNumbers {
  std::string_view first, second;
  std::size_t begin = 0, end = 0;
};
std::optional<TwoNumbers> two_numbers(std::string_view line, char between) {
  for (std::size_t at = line.find(between); at != std::string_view::npos; at = line.find(between, at + 1)) {
    TwoNumbers found;
    found.begin = found.end = at;
    while (found.begin > 0 && is_digit(line[found.begin - 1])) --found.begin;
    for (++found.end; found.end < line.size() && is_digit(line[found.end]);) ++found.end;
    found.first = line.substr(found.begin, at - found.begin);
    found.second = line.substr(at + 1, found.end - at - 1);
    if (!found.first.empty() && !found.second.empty()) return found;
  }
  return std::nullopt;
}

Fault comma_in(TwoNumbers const& number, Fault const& first) {
  auto const typed = fmt::format("{},{}", number.first, number.second);
  auto const point = fmt::format("{}.{}", number.first, number.second);
  constexpr std::size_t group = 3;
  bool const thousands = number.second.size() == group && number.first.size() <= group && number.first.front() != '0';
  if (thousands)
    return {first.id, fmt::format(words::comma_or_thousands, typed),
            fmt::format(words::point_or_thousands, point, std::string(number.first) + std::string(number.second)), number.begin};
  return {"decimal-comma", fmt::format(words::comma_in_number, typed), fmt::format(words::comma_expected, point), number.begin};
}

/// Whole parts, from 1 to 99999.
bool counts_parts(std::string_view number) {
  return number.size() <= 5 && number.find_first_not_of('0') != std::string_view::npos;
}

Fault ratio_in(TwoNumbers const& ratio) {
  double const part = std::stod(std::string(ratio.first)), other = std::stod(std::string(ratio.second));
  return {"unclear-ratio", fmt::format(words::ratio_unclear, ratio.first, ratio.second),
          fmt::format(words::ratio_expected, other / part, (part + other) / part), ratio.begin};
}

/// "STP", "s.t.p.", "room temperature ..." at the start of a text, as it is written; empty for none.
std::string_view conditions_at(std::string_view text) {
  constexpr std::string_view known[] = {"standard temperature and pressure", "standard conditions", "stp", "s.t.p.", "ntp",
                                        "room temperature and pressure",     "room conditions",     "rtp", "r.t.p."};
  auto const small = lowered(text);
  for (auto const name : known)
    if (small.starts_with(name) && (small.size() == name.size() || !is_letter(small[name.size()])))
      return text.substr(0, name.size());
  return {};
}

std::optional<Fault> conditions_in(std::string_view line, std::size_t from) {
  auto rest = stripped(line.substr(std::min(from, line.size())));
  bool const behind = from > 0 && rest.starts_with("at ");
  Fault const in_own_lines{"unclear-conditions", fmt::format(words::behind_a_value, rest), words::lines_expected,
                           static_cast<std::size_t>(rest.data() - line.data())};
  if (rest.starts_with("at ")) rest.remove_prefix(std::string_view("at ").size());
  rest = stripped(rest);
  auto const conditions = conditions_at(rest);
  if (conditions.empty()) return behind ? std::optional(in_own_lines) : std::nullopt;
  bool const of_room = lower(conditions.front()) == 'r';
  return Fault{"unclear-conditions", fmt::format(words::conditions_unclear, conditions),
               of_room ? words::room_expected : words::standard_expected, static_cast<std::size_t>(rest.data() - line.data())};
}
}  // namespace

Fault what_was_meant(Fault first, std::string_view line) {
  auto const at = first.offset;
  auto const stumbled_over = [&](std::optional<TwoNumbers> const& found) {
    return found && found->begin <= at && at <= found->end;
  };
  if (auto const number = two_numbers(line, ','); stumbled_over(number)) return comma_in(*number, first);
  bool const of_ratio = line.find("ratio") != std::string_view::npos || line.find("dilut") != std::string_view::npos;
  if (auto const ratio = two_numbers(line, ':');
      ratio && (of_ratio || stumbled_over(ratio)) && counts_parts(ratio->first) && counts_parts(ratio->second))
    return ratio_in(*ratio);
  if (auto conditions = conditions_in(line, at)) return *conditions;
  return first;
}

}  // namespace molewright
