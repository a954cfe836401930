#include "engine/nomenclature.h"

#include <algorithm>
#include <utility>

#include "engine/ascii.h"
#include "engine/element.h"
#include "engine/formula_index.h"
#include "engine/formula_text.h"
#include "engine/nomenclature_parts.h"
#include "engine/nomenclature_words.h"

namespace molewright {
namespace {

/// "a", "a or b", "a, b or c".
std::string listing(std::vector<std::string> const& items, std::string_view last) {
  std::string result;
  for (std::size_t i = 0; i < items.size(); ++i)
    result += (i == 0 ? "" : i + 1 == items.size() ? ' ' + std::string(last) + ' ' : ", ") + items[i];
  return result;
}

/// "iron(III)" and "ferric", each with "sulfate": the names of a salt that its ions' names give.
void add_salt_names(Formula const& formula, std::vector<std::string>& names) {
  auto const pair = salt_pair(formula);
  if (!pair) return;
  std::string const first = salt_name(formula);
  if (first.empty()) return;
  names.push_back(first);  // "vanadyl sulfate", where the table has another name
  NamedIon const& cation = named_ions()[pair->cation];
  NamedIon const& anion = named_ions()[pair->anion];
  for (auto const& other : cation.other_names)
    if (other.find('(') == std::string::npos) names.push_back(other + ' ' + anion.name);  // "zinc(II)" says nothing new
  for (auto const& other : anion.other_names)
    if (other.find("-)") == std::string::npos)
      names.push_back(cation.name + ' ' + other);  // dioxide(2-) is a name of the ion alone
}

/// All names but those that a formula's row gives itself, in IUPAC spelling.
std::vector<std::string> composed_others(Formula const& formula) {
  std::vector<std::string> names;
  if (formula.charge != 0) {
    for (NamedIon const& ion : named_ions())
      if (ion.formula == plain(formula))
        for (auto const& other : ion.other_names) names.push_back(other + " ion");
  } else if (formula.hydrate()) {
    std::string const prefix = naming::hydrate_prefix(formula);
    std::vector<std::string> dry;
    add_salt_names(naming::dry_unit(formula), dry);
    if (!prefix.empty())
      for (auto const& other : dry) names.push_back(other + ' ' + prefix + "hydrate");
  } else {
    add_salt_names(formula, names);
  }
  return names;
}

void replace_first(std::string& text, std::string_view from, std::string_view to) {
  if (auto const at = text.find(from); at != std::string::npos) text.replace(at, from.size(), to);
}

Identified identified(Formula formula, Naming naming) {
  std::string const name = naming::composed_name(formula);
  std::vector<std::string> others;
  if (naming::Listed const* const row = naming::find_listed(formula)) {
    others.push_back(row->name);
    others.insert(others.end(), row->other_names.begin(), row->other_names.end());
  }
  auto const more = composed_others(formula);
  others.insert(others.end(), more.begin(), more.end());
  Naming american = naming;
  american.aluminium = Aluminium::aluminum;
  others.push_back(naming::spelled(name, american));
  others.push_back(name);
  Identified result;
  formula.state = State::none;
  result.formula = plain(formula);
  result.name = naming::spelled(name, naming);
  for (auto& other : others) {
    replace_first(other, "sulph", "sulf");
    std::string const text = naming::spelled(other, naming.spelling);
    if (text != result.name && std::find(result.other_names.begin(), result.other_names.end(), text) == result.other_names.end())
      result.other_names.push_back(text);
  }
  return result;
}

/// The ion that a formula without its charge is: "SO4" is sulfate.
NamedIon const* uncharged_ion(Formula const& formula) {
  std::string const text = plain(formula);
  for (NamedIon const& ion : named_ions())
    if (ion.inside == text) return &ion;
  return nullptr;
}

/// "MgOH2" with its brackets, "Mg(OH)2"; empty where the formula does not end so.
std::string with_hydroxide(Formula formula) {
  if (formula.charge != 0 || formula.parts.size() != 1) return "";
  auto& groups = formula.parts.front().groups;
  std::size_t const size = groups.size();
  if (size < 3 || groups[size - 1].element != "H" || groups[size - 1].count < 2) return "";
  if (groups[size - 2].element != "O" || groups[size - 2].count != 1) return "";
  Group hydroxide;
  hydroxide.count = groups[size - 1].count;
  hydroxide.inside = {groups[size - 2], groups[size - 1]};
  hydroxide.inside.back().count = 1;
  groups.resize(size - 2);
  groups.push_back(hydroxide);
  return salt_name(formula).empty() ? "" : plain(formula);
}

Result<Identified> from_formula(Formula const& formula, Naming naming) {
  if (!naming::composed_name(formula).empty()) return identified(formula, naming);
  if (auto const unbalanced = unbalanced_charge(formula)) return *unbalanced;
  Fault fault{"no-name", naming::words::fill(naming::words::no_name, {pretty(formula)}), "", 0};
  if (NamedIon const* const ion = formula.charge == 0 ? uncharged_ion(formula) : nullptr)
    fault.expected = naming::words::fill(naming::words::ion_meant, {naming::spelled(ion->name, naming) + " ion", ion->formula});
  else if (auto const bracketed = with_hydroxide(formula); !bracketed.empty())
    fault.expected = naming::words::fill(naming::words::brackets_meant, {bracketed});
  return fault;
}

/// A text that is no formula may be a name, or a formula with a mistake: a name has a word of three small letters, or of four
/// letters in all.
bool looks_like_a_name(std::string_view text) {
  std::size_t small = 0, letters = 0;
  bool word = false;
  for (char const c : text) {
    small = c >= 'a' && c <= 'z' ? small + 1 : 0;
    letters = is_letter(c) ? letters + 1 : 0;
    word = word || small >= 3 || letters >= 5;
  }
  return word;
}

/// Three small letters in a row, or two words of four letters and more, which no formula has: a name, or what is to be one.
bool has_a_word(std::string_view text) {
  int small = 0, letters = 0, long_words = 0;
  for (char const c : text) {
    small = c >= 'a' && c <= 'z' ? small + 1 : 0;
    letters = is_letter(c) ? letters + 1 : 0;
    constexpr int long_word = 4;  // no formula has two such runs with a blank between: SODIUM CHLORIDE
    if (letters == long_word) ++long_words;
    if (small == 3 || long_words == 2) return true;
  }
  return false;
}

Result<Identified> from_name(std::string_view text, Naming naming) {
  std::string const typed(text);
  if (naming::MaterialName const* const material = naming::material(text))
    return Fault{"mixture-name", naming::words::fill(naming::words::mixture_name, {typed, material->what, material->holds}),
                 naming::words::substance_expected, 0};
  auto const reading = naming::read_name(text);
  if (reading.formulas.size() == 1) {
    Formula formula = value(parse_formula(reading.formulas.front()));
    formula.state = reading.state;
    // "hydrogen chloride" names the gas, whose solution is hydrochloric acid.
    bool const as_gas = formula.state == State::none && lowered(typed).rfind("hydrogen ", 0) == 0;
    if (as_gas) formula.state = State::gas;
    auto named = from_formula(formula, naming);
    if (ok(named)) value(named).state = reading.state;
    return named;
  }
  std::vector<std::string> names;
  if (reading.formulas.empty()) {
    for (auto const& name : naming::nearest_names(text)) names.push_back(naming::spelled(name, naming));
    return Fault{"unknown-name", naming::words::fill(naming::words::unknown_name, {typed}),
                 names.empty() ? naming::words::name_expected : listing(names, "or"), 0};
  }
  std::vector<std::string> meanings;
  for (auto const& formula : reading.formulas) {
    names.push_back(name_of(formula, naming));
    meanings.push_back(formula + " (" + names.back() + ')');
  }
  return Fault{"ambiguous-name", naming::words::fill(naming::words::ambiguous_name, {typed, listing(meanings, "and")}),
               listing(names, "or"), 0};
}

/// Words, blanks and what stands between them in names: no digits, no signs of a formula.
bool is_all_letters(std::string_view text) {
  return std::all_of(text.begin(), text.end(), [](char c) { return is_letter(c) || c == ' ' || c == '-' || c == '\''; });
}

/// A listed formula without its capital letters: "nacl".
bool formula_in_small_letters(std::string_view rest, std::string const& begun = "") {
  if (rest.empty()) return naming::find_listed(naming::parsed(begun)) != nullptr;
  for (std::size_t const length : {std::size_t{1}, std::size_t{2}}) {
    if (rest.size() < length) break;
    std::string symbol = lowered(rest.substr(0, length));
    symbol.front() = static_cast<char>(symbol.front() - 'a' + 'A');
    if (find_element(symbol) && formula_in_small_letters(rest.substr(length), begun + symbol)) return true;
  }
  return false;
}

}  // namespace

Fault with_nearest_names(Fault fault, std::string_view text, Naming naming) {
  auto const name = stripped(text);
  bool const unread = fault.id != "no-name" && fault.id != "ambiguous-name" && fault.id != "mixture-name" &&
                      fault.id != "unbalanced-charge" && fault.id != "invalid-utf8";
  bool const small = !name.empty() && name.front() >= 'a' && name.front() <= 'z';
  if (!unread || name.size() > naming::words::longest_name || !is_all_letters(name)) return fault;
  if (!small && !looks_like_a_name(name)) return fault;
  constexpr std::size_t short_formula = 8;
  if (name.size() <= short_formula && std::all_of(name.begin(), name.end(), is_letter) && formula_in_small_letters(name))
    return fault;
  std::vector<std::string> names;
  for (auto const& near : naming::three_nearest(name)) names.push_back(naming::spelled(near, naming));
  return {"unknown-name", naming::words::fill(naming::words::unknown_name, {std::string(name)}), listing(names, "or"), 0};
}

Fault fault_of_name(Fault fault, std::string_view text, Naming naming) {
  if (!has_a_word(text)) return fault;
  auto const named = identify(text, naming);
  return ok(named) ? fault : with_nearest_names(molewright::fault(named), text, naming);
}

std::optional<Formula> abbreviated(Formula const& formula) {
  if (formula.parts.size() != 1 || formula.charge != 0 || formula.parts.front().multiplier != 1) return std::nullopt;
  auto const& groups = formula.parts.front().groups;
  bool const symbols = groups.size() > 2 && std::all_of(groups.begin(), groups.end(), [](Group const& group) {
                         return !group.element.empty() && group.count == 1;
                       });
  if (!symbols || groups.back().element != "P") return std::nullopt;
  auto const reading = naming::read_name(plain(formula));
  if (reading.formulas.size() != 1) return std::nullopt;
  auto meant = naming::parsed(reading.formulas.front());
  meant.state = formula.state;
  return meant;
}

Result<Formula> formula_or_named(std::string_view text, Naming naming) {
  auto formula = parse_formula(text);
  if (ok(formula)) return abbreviated(value(formula)).value_or(value(formula));
  auto const named = identify(text, naming);
  if (!ok(named)) return has_a_word(text) ? with_nearest_names(fault(named), text, naming) : fault(formula);
  auto meant = naming::parsed(value(named).formula);
  meant.state = value(named).state;
  return meant;
}

Result<Identified> identify(std::string_view formula_or_name, Naming naming) {
  auto const formula = parse_formula(formula_or_name);
  if (ok(formula)) {
    auto named = from_formula(value(formula), naming);
    if (ok(named)) return named;
    auto const known_as = from_name(formula_or_name, naming);  // KHP is no compound of phosphorus
    return ok(known_as) ? known_as : named;
  }
  if (auto const half = naming::half_hydrate(formula_or_name); !half.empty()) return identify(half, naming);
  auto const text = make_plain(formula_or_name);
  if (!ok(text)) return fault(text);
  auto const name = stripped(formula_or_name);
  if (name.size() > naming::words::longest_name)
    return looks_like_a_name(name.substr(0, 100))
               ? Fault{"unknown-name", naming::words::long_name, naming::words::name_expected, 0}
               : fault(formula);
  auto named = from_name(name, naming);
  if (ok(named) || fault(named).id != "unknown-name") return named;
  // "nacl" wants its capital letters, "Xy2" its symbol mended.
  bool const near_a_name = fault(named).expected != naming::words::name_expected;
  constexpr std::size_t short_formula = 6;
  if (!looks_like_a_name(name) || (!near_a_name && name.size() <= short_formula)) return fault(formula);
  return named;
}

}  // namespace molewright
