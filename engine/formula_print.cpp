// Formulas printed: plain for files and identities, pretty for people.
#include "engine/formula.h"
#include "engine/formula_memo.h"

namespace molewright {
namespace {

constexpr std::string_view lowered[] = {"₀", "₁", "₂", "₃", "₄", "₅", "₆", "₇", "₈", "₉"};
constexpr std::string_view raised[] = {"⁰", "¹", "²", "³", "⁴", "⁵", "⁶", "⁷", "⁸", "⁹"};

std::string digits_in(std::string_view const (&digits)[10], std::int64_t number) {
  std::string text;
  for (char const c : std::to_string(number)) text += digits[static_cast<std::size_t>(c - '0')];
  return text;
}

void add_groups(std::string& text, std::vector<Group> const& groups, bool is_pretty) {
  for (Group const& group : groups) {
    if (group.element.empty()) {
      text += group.bracket;
      add_groups(text, group.inside, is_pretty);
      text += group.bracket == '(' ? ')' : ']';
    } else {
      text += group.element;
    }
    if (group.count != 1) text += is_pretty ? digits_in(lowered, group.count) : std::to_string(group.count);
  }
}

std::string print(Formula const& formula, bool is_pretty) {
  std::string text = formula.electron ? "e" : "";
  for (std::size_t i = 0; i < formula.parts.size(); ++i) {
    FormulaPart const& part = formula.parts[i];
    if (i > 0) text += "·";
    if (part.multiplier != 1) text += std::to_string(part.multiplier);
    add_groups(text, part.groups, is_pretty);
  }
  if (formula.charge != 0) {
    int const size = formula.charge < 0 ? -formula.charge : formula.charge;
    if (!is_pretty) text += '^';
    if (size != 1) text += is_pretty ? digits_in(raised, size) : std::to_string(size);
    if (is_pretty)
      text += formula.charge > 0 ? "⁺" : "⁻";
    else
      text += formula.charge > 0 ? '+' : '-';
  }
  return text;
}

bool is_water(FormulaPart const& part) {
  Formula alone;
  alone.parts.push_back(part);
  alone.parts[0].multiplier = 1;
  return alone.composition() == std::map<std::string, std::int64_t>{{"H", 2}, {"O", 1}};
}

}  // namespace

std::string plain(Formula const& formula) { return print(formula, false); }

std::string pretty(Formula const& formula) { return print(formula, true); }

std::string plain(State state) {
  switch (state) {
    case State::none:
      return "";
    case State::solid:
      return "(s)";
    case State::liquid:
      return "(l)";
    case State::gas:
      return "(g)";
    case State::aqueous:
      return "(aq)";
  }
  return "";
}

bool Formula::hydrate() const { return waters(*this) > 0; }

Formula anhydrous(Formula const& formula) {
  Formula dry = formula;
  dry.parts.clear();
  for (std::size_t i = 0; i < formula.parts.size(); ++i)
    if (i == 0 || !is_water(formula.parts[i])) dry.parts.push_back(formula.parts[i]);
  return dry;
}

std::int64_t waters(Formula const& formula) {
  std::int64_t count = 0;
  for (std::size_t i = 1; i < formula.parts.size(); ++i)
    if (is_water(formula.parts[i])) count += formula.parts[i].multiplier;
  return count;
}

std::string pretty_formula(std::string_view plain_text) {
  std::string text(plain_text);
  auto known = known_formula(text);
  if (!known) known = formula_of_unknown(text);
  return known ? pretty(known->formula) : text;
}

}  // namespace molewright
