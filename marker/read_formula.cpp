#include "marker/read_formula.h"

#include <algorithm>
#include <array>
#include <functional>

#include "engine/ascii.h"
#include "engine/formula_index.h"
#include "engine/nomenclature.h"
#include "engine/steps.h"
#include "engine/substance.h"
#include "marker/stated.h"

namespace molewright {
namespace {

constexpr std::size_t longest_formula = 60;

/// With a dot, and no blanks, before the water of "ZnSO4 7H2O", "ZnSO4 x 7H2O" and "ZnSO4 · 7 H2O".
std::string with_dot_of_hydrate(std::string_view text) {
  std::string const low = lowered(text);
  if (!low.ends_with("h2o")) return std::string(text);
  std::size_t at = text.size() - 3;
  while (at > 0 && text[at - 1] == ' ') --at;
  std::size_t const end = at;
  while (at > 0 && is_digit(text[at - 1])) --at;
  std::size_t const number = at;
  if (number == end) return std::string(text);
  while (at > 0 && text[at - 1] == ' ') --at;
  std::size_t const blank = at;
  bool blanks = blank != number || end + 3 != text.size();
  auto const before = text.substr(0, at);
  constexpr std::string_view times = "×";
  static constexpr std::array<std::string_view, 6> dots{"·", "•", "∙", "⋅", ".", "*"};
  auto const dot = std::find_if(dots.begin(), dots.end(), [&](auto one) { return before.ends_with(one); });
  if (before.ends_with(times)) {
    at -= times.size();
  } else if (dot != dots.end()) {
    at -= dot->size();
    blanks = blanks || (at > 0 && text[at - 1] == ' ');
    if (!blanks) return std::string(text);
  } else if (at > 0 && (lower(text[at - 1]) == 'x' || text[at - 1] == ',')) {
    --at;
  }
  if (at == number && !blanks) return std::string(text);
  auto const salt = stripped(text.substr(0, at));
  if (salt.empty()) return std::string(text);
  return std::string(salt) + "·" + std::string(text.substr(number, end - number)) + "H2O";
}

/// Whether the capitals of a formula say nothing: there are none, or nothing else, or only one at the beginning.
bool capitals_say_nothing(std::string_view text) {
  bool const small = std::any_of(text.begin(), text.end(), is_small);
  bool const capital_behind = std::any_of(text.begin() + (text.empty() ? 0 : 1), text.end(), is_capital);
  return !small || !capital_behind;
}

/// Every way to read `text` in `elements`, whatever its capitals; two are enough.
std::vector<Formula> in_elements(std::string_view text, std::set<std::string> const& elements) {
  std::vector<Formula> found;
  if (text.size() > longest_formula) return found;
  std::string made;
  std::function<void(std::size_t)> const go_on = [&](std::size_t at) {
    if (found.size() > 1) return;
    if (at == text.size()) {
      if (auto const read = parse_formula(made); ok(read)) found.push_back(value(read));
      return;
    }
    auto const before = made.size();
    if (!is_letter(text[at])) {
      made += text[at];
      go_on(at + 1);
      made.resize(before);
      return;
    }
    for (std::size_t length = 1; length <= 2 && at + length <= text.size(); ++length) {
      if (!is_letter(text[at + length - 1])) break;
      auto const symbol = capitalized(lowered(text.substr(at, length)));
      if (elements.find(symbol) == elements.end()) continue;
      made += symbol;
      go_on(at + length);
      made.resize(before);
    }
  };
  go_on(0);
  return found;
}

std::string bare(Formula formula) {
  formula.state = State::none;
  return plain(formula);
}

/// What a clause says of the substance that it names.
enum class Claim { none, limits, excess };
struct Clause {
  std::string substance;
  Claim claim = Claim::none;
  bool both = false;  ///< says both, or denies
};

bool is_among(std::string_view word, std::initializer_list<std::string_view> words) {
  return std::find(words.begin(), words.end(), word) != words.end();
}

/// "the limiting reagent is CaCO3", "CaCO3 runs out first", "HCl in excess": the words round the substance taken off.
Clause read_clause(std::string_view text) {
  std::vector<std::string_view> words;
  for (std::size_t at = 0; at < text.size();) {
    while (at < text.size() && (text[at] == ' ' || text[at] == ':' || text[at] == '=')) ++at;
    std::size_t const end = std::min(text.find_first_of(" :=", at), text.size());
    if (end > at) words.push_back(text.substr(at, end - at));
    at = end;
  }
  Clause clause;
  bool limits = false, excess = false;
  auto const says = [&](std::string_view word) {
    auto const low = lowered(word);
    bool const of_limit = is_among(low, {"limiting", "limits", "limit", "lr", "l.r.", "runs", "run", "used", "finishes"});
    bool const of_excess = is_among(low, {"excess", "left", "remains", "xs"});
    limits = limits || of_limit;
    excess = excess || of_excess;
    return of_limit || of_excess ||
           is_among(low, {"is",     "are", "the", "a",     "an", "reagent", "reactant", "reaction",  "one",        "it",
                          "answer", "in",  "out", "first", "up", "over",    "so",       "therefore", "completely", "all"});
  };
  std::size_t first = 0, last = words.size();
  while (first < last && says(words[first])) ++first;
  while (last > first && says(words[last - 1])) --last;
  for (std::size_t i = first; i < last; ++i) {
    auto const low = lowered(words[i]);
    clause.both = clause.both || is_among(low, {"not", "isn't", "no", "or"});
    clause.substance += (clause.substance.empty() ? "" : " ") + std::string(words[i]);
  }
  clause.both = clause.both || (limits && excess);
  clause.claim = excess ? Claim::excess : limits ? Claim::limits : Claim::none;
  return clause;
}

/// The clauses of an answer, without the reason behind "because".
std::vector<std::string> clauses_of(std::string_view text) {
  std::string even;
  for (std::size_t at = 0; at < text.size(); ++at) {
    bool const bracket = text[at] == '(' && at > 0 && text[at - 1] == ' ' && text.find(')', at) != std::string_view::npos;
    if (!bracket) {
      even += text[at];
      continue;
    }
    // "calcium carbonate (CaCO3)": a clause of its own; "iron (III) chloride" is one name.
    auto const end = text.find(')', at);
    auto const inside = text.substr(at + 1, end - at - 1);
    bool const number = inside.find_first_not_of("IVX") == std::string_view::npos;
    even += number ? '(' + std::string(inside) + ')' : ';' + std::string(inside) + ';';
    at = end;
  }
  auto low = lowered(even);
  for (std::string_view const why : {" because", " since ", " as ", " cause "})
    if (auto const at = low.find(why); at != std::string::npos) {
      even.resize(at);
      low.resize(at);
    }
  std::vector<std::string> clauses{""};
  for (std::size_t at = 0; at < even.size();) {
    std::size_t length = even[at] == ';' || even[at] == '\n' ? 1 : 0;
    for (std::string_view const between : {", ", " and ", " so ", " but ", " while ", " with "})
      if (length == 0 && std::string_view(low).substr(at, between.size()) == between) length = between.size();
    if (length == 0) {
      clauses.back() += even[at++];
      continue;
    }
    clauses.emplace_back();
    at += length;
  }
  for (auto& clause : clauses) clause = std::string(stripped(clause));
  std::erase(clauses, "");
  return clauses;
}

/// Whether a substance is of a kind that people name it by: "acid", "base", "metal", or the last word of its name ("carbonate").
bool is_of_kind(std::string const& formula, std::string_view kind) {
  auto const name = lowered(name_of(formula));
  auto const read = parse_formula(formula);
  auto const atoms = ok(read) ? value(read).composition() : std::map<std::string, std::int64_t>{};
  auto const named = identify(formula);
  bool acid = name.ends_with("acid");
  if (ok(named))
    for (auto const& other : value(named).other_names) acid = acid || other.ends_with("acid");
  bool const alkali = name.ends_with("hydroxide") || name == "ammonia";
  if (kind == "acid") return acid;
  if (kind == "alkali") return alkali;
  if (kind == "base") return alkali || name.ends_with("oxide") || name.ends_with("carbonate");
  if (kind == "metal") return atoms.size() == 1 && is_metal(atoms.begin()->first);
  auto const blank = name.rfind(' ');
  return blank != std::string::npos && kind.size() > 3 && name.substr(blank + 1) == kind;
}

/// Looks a clause's substance up among those that may be chosen, and among all of the problem's.
class Chooser {
 public:
  Chooser(std::vector<std::string> const& formulas, Problem const& problem, std::string_view text)
      : formulas_(formulas), text_(lowered(text)) {
    auto const take = [&](Formula const& formula) {
      for (auto const& [element, count] : formula.composition()) elements_.insert(element);
    };
    for (auto const& formula : formulas)
      if (auto const read = parse_formula(formula); ok(read)) take(value(read));
    for (auto const& reaction : problem.reactions)
      for (auto const* side : {&reaction.equation.left, &reaction.equation.right})
        for (auto const& species : *side) {
          take(species.formula);
          species_.insert(bare(species.formula));
        }
  }

  ChoiceRead look_up(std::string const& substance) const {
    ChoiceRead result;
    auto const typed = with_letter_o(substance);
    if (typed != substance) result.notes.push_back("zero-for-the-letter");
    auto const read = parse_formula(typed);
    auto const formula = ok(read) ? bare(value(read)) : std::string();
    auto const named = identify(typed);  // in any spelling
    for (std::size_t i = 0; i < formulas_.size(); ++i) {
      bool const by_name = ok(named) && !value(named).name.empty() && value(named).name == name_of(formulas_[i]);
      if (by_name || (!formula.empty() && formula == formulas_[i])) return at(std::move(result), i);
    }
    if (species_.count(formula) == 0) {
      std::set<std::string> fitting;
      for (auto const& one : in_elements(typed, elements_))
        if (auto const text = bare(one); species_.count(text) > 0) fitting.insert(text);
      if (fitting.size() == 1) {
        result.notes.push_back("capitals-of-formula");
        for (std::size_t i = 0; i < formulas_.size(); ++i)
          if (formulas_[i] == *fitting.begin()) return at(std::move(result), i);
        result.other = *fitting.begin();
        return result;
      }
    }
    auto const low = lowered(substance);
    int of_kind = -1, in_text = -1, count_of_kind = 0, count_in_text = 0;
    for (std::size_t i = 0; i < formulas_.size(); ++i) {
      if (is_of_kind(formulas_[i], low)) {
        of_kind = static_cast<int>(i);
        ++count_of_kind;
      }
      // "Limescale, CaCO₃, ..."
      if (text_.find(low + ", " + lowered(pretty_formula(formulas_[i])) + ',') != std::string::npos ||
          text_.find(low + ", " + lowered(formulas_[i]) + ',') != std::string::npos) {
        in_text = static_cast<int>(i);
        ++count_in_text;
      }
    }
    // "nitrate" and "salt" have a substance of their own as names, and mean a kind.
    static constexpr std::array<std::string_view, 5> kinds{"salt", "solid", "gas", "liquid", "solution"};
    auto const own = ok(named) ? parse_formula(value(named).formula) : read;
    bool const kind = std::find(kinds.begin(), kinds.end(), low) != kinds.end() ||
                      (ok(named) && !ok(read) && ok(own) && value(own).charge != 0);
    bool const substance_of_its_own = (ok(named) || ok(read)) && !kind;
    if (!substance_of_its_own && (count_of_kind == 1 || count_in_text == 1))
      return at(std::move(result), static_cast<std::size_t>(count_of_kind == 1 ? of_kind : in_text));
    if (substance_of_its_own) result.other = substance;
    return result;
  }

 private:
  static ChoiceRead at(ChoiceRead result, std::size_t index) {
    result.index = static_cast<int>(index);
    return result;
  }

  std::vector<std::string> const& formulas_;
  std::string text_;
  std::set<std::string> elements_, species_;
};
}  // namespace

std::string with_letter_o(std::string_view text) {
  std::string out(text);
  for (std::size_t at = 1; at < text.size(); ++at) {
    if (text[at] != '0') continue;
    char const before = text[at - 1];
    bool const letter_behind = at + 1 < text.size() && is_letter(text[at + 1]);
    if (is_letter(before) || (before == '(' && letter_behind)) {
      out[at] = 'O';
      continue;
    }
    if (at < 2 || before != '2' || lower(text[at - 2]) != 'h') continue;
    if (at + 1 < text.size() && (is_digit(text[at + 1]) || is_letter(text[at + 1]) || text[at + 1] == '(')) continue;
    std::size_t front = at - 2;
    while (front > 0 && is_digit(text[front - 1])) --front;
    bool const apart = front == 0 || !(is_letter(text[front - 1]) || text[front - 1] == ')' || text[front - 1] == ']');
    if (apart) out[at] = 'O';
  }
  return out;
}

std::optional<FormulaRead> read_formula_as_meant(std::string_view text, std::set<std::string> const& elements) {
  auto const even = stated::evened(text);
  auto const letters = with_letter_o(even);
  auto const typed = with_dot_of_hydrate(letters);
  FormulaRead result;
  if (letters != even) result.notes.push_back("zero-for-the-letter");
  auto const read = parse_formula(typed);
  auto const of_the_question = [&](Formula const& formula) {
    auto const atoms = formula.composition();
    return std::all_of(atoms.begin(), atoms.end(), [&](auto const& atom) { return elements.count(atom.first) > 0; });
  };
  if (!(ok(read) && of_the_question(value(read))) && capitals_say_nothing(even)) {
    auto const ways = in_elements(typed, elements);
    if (ways.size() == 1) {
      result.formula = ways.front();
      result.notes.push_back("capitals-of-formula");
      return result;
    }
  }
  if (!ok(read)) return std::nullopt;
  result.formula = value(read);
  return result;
}

ChoiceRead read_choice(std::string_view written, std::vector<std::string> const& formulas, Problem const& problem,
                       std::string_view text) {
  Chooser const chooser(formulas, problem, text);
  auto const even = stated::evened(written);
  auto const whole = chooser.look_up(even);  // "iron (III) chloride, hydrated": names hold what parts clauses elsewhere
  if (whole.index >= 0) return whole;
  ChoiceRead result;
  std::set<int> limiting, in_excess;
  auto const clauses = clauses_of(even);
  for (auto const& one : clauses) {
    auto const clause = read_clause(one);
    if (clause.both) return {};
    bool const remark = clause.substance.empty() || is_digit(clause.substance.front());  // "(0.0115 mol)"
    if (remark && clauses.size() > 1 && clause.claim == Claim::none) continue;
    auto found = chooser.look_up(clause.substance);
    if (found.index < 0) {
      if (clauses.size() == 1 && clause.claim != Claim::excess) return found;
      return {};
    }
    (clause.claim == Claim::excess ? in_excess : limiting).insert(found.index);
    for (auto& note : found.notes)
      if (std::find(result.notes.begin(), result.notes.end(), note) == result.notes.end())
        result.notes.push_back(std::move(note));
  }
  if (limiting.empty() && in_excess.size() == 1 && formulas.size() == 2) limiting.insert(1 - *in_excess.begin());
  if (limiting.size() == 1 && in_excess.count(*limiting.begin()) == 0) result.index = *limiting.begin();
  return result.index >= 0 ? result : ChoiceRead{};
}

}  // namespace molewright
