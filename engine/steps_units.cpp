// Units in words and in a printed working, as the course has them.
#include <array>

#include "engine/ascii.h"
#include "engine/steps.h"
#include "engine/steps_numbers.h"

namespace molewright {
namespace {
/// mol/L as the course spells it: "mol L⁻¹", "mol/dm³", "M".
std::string concentration_unit(Conventions const& conventions) {
  static constexpr std::array<std::string_view, 10> raised{"⁰", "¹", "²", "³", "⁴", "⁵", "⁶", "⁷", "⁸", "⁹"};
  std::string out;
  for (char const c : conventions.concentration_unit)
    out += c == '-'      ? "⁻"
           : c == ' '    ? no_break_space
           : is_digit(c) ? raised[static_cast<std::size_t>(c - '0')]
                         : std::string_view(&c, 1);
  return out;
}
}  // namespace

std::string in_units_of_course(std::string_view text, Conventions const& conventions) {
  constexpr std::string_view per_litre = "mol/L";
  bool const cubic = conventions.volume_unit == "cm3";
  if (!cubic && conventions.concentration_unit == per_litre) return std::string(text);  // the usual units
  std::string out;
  for (std::size_t at = 0; at < text.size();) {
    if (!is_letter(text[at])) {
      out += text[at++];
      continue;
    }
    std::size_t end = at;
    while (end < text.size() && is_letter(text[end])) ++end;
    auto const word = text.substr(at, end - at);
    std::size_t const after = at + per_litre.size();
    if (text.substr(at, per_litre.size()) == per_litre && (after >= text.size() || !is_letter(text[after]))) {
      out += concentration_unit(conventions);
      end = after;
    } else if (cubic && word == "mL") {
      out += "cm³";
    } else if (cubic && word == "L") {
      out += "dm³";
    } else {
      out += word;
    }
    at = end;
  }
  return out;
}

std::string unit_text(Unit const& u, Conventions const& conventions) {
  static Unit const per_litre = unit("mol/L");
  if (u == per_litre && (u.symbol == "mol/L" || u.symbol == "mol/dm3")) {
    return concentration_unit(conventions);
  }
  return in_units_of_course(pretty(u), conventions);
}

std::string measure_text(std::string const& number, Unit const& u, Conventions const& conventions) {
  auto const text = unit_text(u, conventions);
  return text.empty() ? number : number + no_break_space + text;
}

}  // namespace molewright
