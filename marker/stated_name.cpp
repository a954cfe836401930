// Names and formulas: any accepted name, atoms in any order; else what is wrong with them.
#include <algorithm>
#include <array>

#include "engine/ascii.h"
#include "engine/formula.h"
#include "engine/nomenclature.h"
#include "engine/substance.h"
#include "marker/stated.h"

namespace molewright::stated {
namespace {

/// Without what people write in several ways: capitals, blanks, hyphens, sulph.
std::string even_name(std::string_view name) {
  std::string out;
  for (char const c : lowered(name))
    if (c != ' ' && c != '-') out += c;
  for (auto at = out.find("sulph"); at != std::string::npos; at = out.find("sulph", at + 1)) out.replace(at, 5, "sulf");
  return out;
}

/// "copper sulfate" of "copper(II) sulfate".
std::string without_brackets(std::string_view name) {
  std::string out;
  int depth = 0;
  for (char const c : name) {
    depth += c == '(' ? 1 : 0;
    if (depth == 0) out += c;
    depth -= c == ')' ? 1 : 0;
  }
  return out;
}

/// "carbon oxide" of "carbon dioxide".
std::string without_prefixes(std::string const& name) {
  static constexpr std::array prefixes{"mono",  "mon",  "di",   "tri",   "tetra", "tetr",
                                       "penta", "pent", "hexa", "hepta", "octa",  "deca"};
  std::string out;
  for (std::size_t begin = 0; begin <= name.size();) {
    auto const end = std::min(name.size(), name.find(' ', begin));
    std::string_view word = std::string_view(name).substr(begin, end - begin);
    for (std::string_view const prefix : prefixes)
      if (word.size() > prefix.size() + 3 && word.substr(0, prefix.size()) == prefix) {
        word.remove_prefix(prefix.size());
        break;
      }
    out += (out.empty() ? "" : " ") + std::string(word);
    begin = end + 1;
  }
  return out;
}

Formula read(std::string const& formula) { return value(parse_formula(formula)); }
std::string bare(std::string const& formula) { return plain(anhydrous(read(formula))); }

struct Ions {
  std::string cation, anion;
};
/// Of a salt of two ions; empty for others.
Ions two_ions(std::string const& formula) {
  auto const ions = ions_of(formula);
  return ions.size() == 2 ? Ions{ions[0].ion, ions[1].ion} : Ions{};
}
std::string first_element(std::string const& ion) {
  for (auto const& [symbol, count] : read(ion).composition())
    if (symbol != "O" && symbol != "H") return symbol;
  return ion;
}

/// What tells one substance from the one that is due; both have a name.
StatedVerdict other_substance(std::string const& given, std::string const& due, Naming naming) {
  auto const written = pretty_formula(given), should_be = pretty_formula(due);
  if (given == due) return wrong("");
  if (bare(given) == bare(due)) {
    bool const none = !read(given).hydrate();
    return wrong(none ? "hydrate-water-not-named" : "hydrate-wrong-number", written, should_be);
  }
  auto const is = two_ions(given), asked = two_ions(due);
  if (!is.cation.empty() && !asked.cation.empty()) {
    bool const one_metal = first_element(is.cation) == first_element(asked.cation);
    bool const one_family = first_element(is.anion) == first_element(asked.anion);
    if (one_metal && is.cation != asked.cation && is.anion == asked.anion)
      return wrong("wrong-charge-of-metal", pretty_formula(is.cation), pretty_formula(asked.cation));
    if (is.cation == asked.cation && is.anion != asked.anion && one_family)
      return wrong("ending-confused", name_of(is.anion, naming), name_of(asked.anion, naming));
  }
  bool const molecules = is.cation.empty() && asked.cation.empty();
  auto const a = read(given).composition(), b = read(due).composition();
  bool const same_elements = a.size() == b.size() && std::equal(a.begin(), a.end(), b.begin(),
                                                                [](auto const& x, auto const& y) { return x.first == y.first; });
  if (molecules && same_elements) return wrong("number-prefix-wrong", written, should_be);
  return wrong("other-substance", written, should_be);
}

bool lacks_stock_number(std::string_view written, std::string const& name) {
  auto const shorter = without_brackets(name);
  return shorter != name && even_name(shorter) == even_name(written);
}

std::string letters(std::string_view text) {
  std::string out;
  for (char const c : lowered(text))
    if (c != '(' && c != ')' && c != ' ') out += c;
  return out;
}
}  // namespace

StatedVerdict name(std::string_view text, std::string const& formula, Naming naming) {
  auto const written = evened(text);
  auto const due = name_of(formula);
  auto const told = name_of(formula, naming);
  if (ok(parse_formula(written))) return wrong("formula-for-name", "", told);
  if (lacks_stock_number(written, due)) return wrong("stock-number-missing", "", told);
  auto const by_name = identify(written);
  if (ok(by_name)) return value(by_name).formula == formula ? right() : other_substance(value(by_name).formula, formula, naming);
  if (auto const with_ion = identify(written + " ion"); ok(with_ion) && value(with_ion).formula == formula) return right();
  if (auto const shorter = without_prefixes(due); shorter != due && even_name(shorter) == even_name(written))
    return wrong("number-prefix-missing", "", told);
  return {};
}

StatedVerdict formula(std::string_view text, std::string const& due_text, Naming naming) {
  auto const written = evened(text);
  auto const due = read(due_text);
  auto const parsed = parse_formula(written);
  if (!ok(parsed)) {
    auto const by_name = identify(written);
    if (ok(by_name) || fault(by_name).id == "ambiguous-name") return wrong("name-for-formula");
    if (letters(written) == letters(due_text)) return wrong("capital-letters", "", pretty(due));
    return {};
  }
  auto formula = value(parsed);
  formula.state = State::none;
  if (formula.composition() == due.composition() && formula.charge == due.charge && formula.hydrate() == due.hydrate()) {
    auto verdict = right();
    if (plain(formula) != plain(due)) verdict.notes.push_back("order-of-symbols");
    return verdict;
  }
  if (formula.composition() == due.composition()) return wrong("ion-charge-wrong", pretty(formula), pretty(due));
  if (letters(plain(formula)) == letters(due_text)) return wrong("bracket-left-out", "", pretty(due));
  auto const ours = due.composition(), theirs = formula.composition();
  bool const same_elements =
      ours.size() == theirs.size() &&
      std::equal(ours.begin(), ours.end(), theirs.begin(), [](auto const& a, auto const& b) { return a.first == b.first; });
  bool const proportional = same_elements && std::all_of(ours.begin(), ours.end(), [&](auto const& element) {
                              return element.second * theirs.begin()->second == theirs.at(element.first) * ours.begin()->second;
                            });
  if (proportional) return wrong("multiple-of-formula", pretty(formula), pretty(due));
  bool const salt = !ions_of(due_text).empty();
  if (auto const known = identify(plain(formula)); ok(known)) {
    if (salt || !same_elements) return other_substance(value(known).formula, due_text, naming);
    return wrong("number-in-formula-wrong", pretty(formula), pretty(due));
  }
  if (unbalanced_charge(formula) || (salt && same_elements)) return wrong("charges-do-not-cancel", pretty(formula), pretty(due));
  return wrong(same_elements ? "number-in-formula-wrong" : "other-substance", pretty(formula), pretty(due));
}

}  // namespace molewright::stated
