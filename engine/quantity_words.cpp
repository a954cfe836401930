#include "engine/quantity_words.h"

#include <algorithm>
#include <array>
#include <utility>

#include "engine/ascii.h"
#include "engine/formula.h"

namespace molewright {
namespace {

using Row = std::pair<std::string_view, std::string_view>;

// Names of the quantities at school and in first-year books (IUPAC Green Book, 3rd ed., 2.10 to 2.13, and common practice); where
// one begins another, the longer one stands first.
constexpr std::array names{
    Row{"amount concentration", "c"},
    Row{"amount fraction", "x"},
    Row{"amount of substance", "n"},
    Row{"amount", "n"},
    Row{"concentration", "c"},
    Row{"density", "rho"},
    Row{"enthalpy change", "dH"},
    Row{"heat capacity", "C"},
    Row{"heat", "q"},
    Row{"mass concentration", "gamma"},
    Row{"mass fraction", "w"},
    Row{"mass percentage", "w"},
    Row{"mass percent", "w"},
    Row{"mass", "m"},
    Row{"molality", "b"},
    Row{"molar concentration", "c"},
    Row{"molar mass", "M"},
    Row{"molar volume", "Vm"},
    Row{"molarity", "c"},
    Row{"mole fraction", "x"},
    Row{"moles", "n"},
    Row{"number of formula units", "N"},
    Row{"number of molecules", "N"},
    Row{"number of moles", "n"},
    Row{"partial pressure", "p"},
    Row{"percent by mass", "w"},
    Row{"percent purity", "w"},
    Row{"percent yield", "yield"},
    Row{"percentage by mass", "w"},
    Row{"percentage purity", "w"},
    Row{"percentage yield", "yield"},
    Row{"pressure", "p"},
    Row{"purity", "w"},
    Row{"solubility product", "Ksp"},
    Row{"solubility", "s"},
    Row{"specific heat capacity", "cp"},
    Row{"temperature change", "dT"},
    Row{"temperature rise", "dT"},
    Row{"temperature", "T"},
    Row{"volume fraction", "phi"},
    Row{"volume", "V"},
    Row{"yield", "yield"},
    Row{"% yield", "yield"},
};

constexpr std::array words{
    Row{"collected", "actual"},    Row{"consumed", "used"},   Row{"excess", "left"},    Row{"expected", "theoretical"},
    Row{"experimental", "actual"}, Row{"isolated", "actual"}, Row{"leftover", "left"},  Row{"left over", "left"},
    Row{"maximum", "theoretical"}, Row{"obtained", "actual"}, Row{"reacted", "used"},   Row{"reacting", "used"},
    Row{"remaining", "left"},      Row{"unreacted", "left"},  Row{"in excess", "left"}, Row{"recovered", "actual"},
};

bool begins(std::string_view text, std::string_view with) { return text.substr(0, with.size()) == with; }
}  // namespace

SpeltOut spelt_out(std::string_view text) {
  for (auto const& [name, symbol] : names)
    if (begins(text, name) && (text.size() == name.size() || !(is_letter(text[name.size()]) || is_digit(text[name.size()]))))
      return {symbol, name.size()};
  return {};
}

SubstanceAhead substance_ahead(std::string_view text, bool may_have_part) {
  SubstanceAhead ahead;
  auto const end_from = [&](std::size_t from) {
    auto end = std::min(text.size(), text.find('=', from));
    for (std::string_view const word : {" in ", " to ", " marks ", " mark "}) end = std::min(end, text.find(word, from));
    return end;
  };
  ahead.length = end_from(0);
  constexpr std::size_t in_length = 4;
  if (!may_have_part || text.substr(ahead.length, in_length) != " in ") return ahead;
  auto const whole_at = ahead.length + in_length;
  auto const whole_end = end_from(whole_at);
  if (!ok(parse_formula(stripped(text.substr(whole_at, whole_end - whole_at))))) return ahead;
  ahead.in_part = whole_at;
  ahead.length = whole_end;
  return ahead;
}

std::string_view usual_word(std::string_view word) {
  auto const found = std::find_if(words.begin(), words.end(), [&](Row const& row) { return row.first == word; });
  return found == words.end() ? word : found->second;
}

}  // namespace molewright
