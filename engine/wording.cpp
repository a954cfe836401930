#include <algorithm>

#include "engine/nomenclature.h"
#include "engine/problem.h"
#include "engine/steps.h"
#include "engine/substance.h"

namespace molewright {
namespace {

std::string given_text(Given const& given, Conventions const& conventions) {
  auto const one = [&](Decimal const& number) {
    return measure_text(print_as_typed(number, conventions.mark).pretty, given.unit, conventions);
  };
  switch (given.form) {
    case Given::Form::value:
      return one(given.numbers[0]);
    case Given::Form::difference:
      return one(given.numbers[1]) + " to " + one(given.numbers[0]);
    case Given::Form::mean: {
      std::string out;
      for (std::size_t i = 0; i < given.numbers.size(); ++i)
        out += (i == 0                          ? ""
                : i + 1 == given.numbers.size() ? " and "
                                                : ", ") +
               one(given.numbers[i]) +
               (std::find(given.rough.begin(), given.rough.end(), i) != given.rough.end() ? " (rough)" : "");
      return out;
    }
    case Given::Form::measured:  // each student writes their own
      return "______ " + unit_text(given.unit, conventions);
  }
  return {};
}

Fault unknown(std::string const& what, std::size_t offset) {
  return {"unknown-in-text", "{" + what + "} is nothing that this problem knows",
          "a given such as {V(NaCl)}, or {name NaCl}, {formula NaCl} or {equation}", offset};
}

/// The substance that a formula or a name stands for, by its name (the formula where it has none) or by its formula.
Result<std::string> name_or_formula(std::string_view substance, std::size_t offset, bool by_name,
                                    Conventions const& conventions) {
  auto const at_offset = [&](Fault found) {
    found.offset += offset;
    return found;
  };
  if (auto const formula = parse_formula(substance); ok(formula)) {
    auto const name = by_name ? name_of(plain(value(formula)), conventions.spelling) : std::string();
    return name.empty() ? pretty(value(formula)) : name;
  }
  auto const known = identify(substance, conventions.spelling);
  if (!ok(known)) return at_offset(fault(known));
  return by_name ? value(known).name : pretty_formula(value(known).formula);
}

Result<std::string> fill(std::string_view inside, std::size_t offset, Problem const& problem, Conventions const& conventions) {
  auto const starts = [&](std::string_view word) { return inside.substr(0, word.size()) == word; };
  if (starts("equation")) {  // the first, or one by its number
    auto const which = inside.substr(8);
    for (std::size_t i = 0; i < problem.reactions.size(); ++i)
      if (which == " " + std::to_string(i + 1) || (which.empty() && i == 0)) return pretty(problem.reactions[i].equation);
    return unknown(std::string(inside), offset);
  }
  if (starts("name ") || starts("formula ")) {
    bool const name = starts("name ");
    std::size_t const word = name ? 5 : 8;
    return name_or_formula(inside.substr(word), offset + word, name, conventions);
  }
  auto const quantity = parse_quantity(inside);
  if (!ok(quantity)) return unknown(std::string(inside), offset);
  if (auto const* given = given_named(problem, value(quantity))) return given_text(*given, conventions);
  return unknown(std::string(inside), offset);
}
}  // namespace

Given const* given_named(Problem const& problem, Quantity const& quantity) {
  for (auto const& given : problem.givens)
    if (given.quantity == quantity) return &given;
  for (auto const& given : problem.givens) {
    auto unnamed = given.quantity;
    unnamed.substance.clear();
    if (unnamed == quantity) return &given;
  }
  return nullptr;
}

Result<std::string> wording(Problem const& problem, Conventions const& conventions) {
  std::string out, plain_words;
  auto const settle = [&] {  // the author wrote mL, L and mol/L; the course may print others
    out += in_units_of_course(plain_words, conventions);
    plain_words.clear();
  };
  std::string_view const text = problem.text;
  for (std::size_t at = 0; at < text.size(); ++at) {
    if (text[at] == '{' && at + 1 < text.size() && text[at + 1] == '{') {
      plain_words += '{';
      ++at;
    } else if (text[at] == '{') {
      auto const close = text.find('}', at);
      if (close == std::string_view::npos) return Fault{"unknown-in-text", "a brace is not closed", "'}'", at};
      auto filled = fill(text.substr(at + 1, close - at - 1), at + 1, problem, conventions);
      if (!ok(filled)) return filled;
      settle();
      out += value(filled);
      at = close;
    } else {
      plain_words += text[at];
    }
  }
  settle();
  return out;
}

std::string fingerprint(Conventions const& conventions) {
  std::string out = std::to_string(static_cast<int>(conventions.weights.table));
  for (auto const& [symbol, weight] : conventions.weights.overrides) out += ';' + symbol + '=' + weight.text;
  out += '|' + std::to_string(static_cast<int>(conventions.ties)) + std::to_string(static_cast<int>(conventions.mark)) +
         std::to_string(static_cast<int>(conventions.spelling));
  out += '|' + conventions.concentration_unit + '|' + conventions.volume_unit + '|' + conventions.amount_word;
  if (auto const& volume = conventions.molar_gas_volume) out += '|' + volume->number.text + volume->unit->symbol;
  return out;
}

}  // namespace molewright
