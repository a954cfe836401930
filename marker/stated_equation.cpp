// Equations: in any order and any multiple; else the first thing that is wrong with them.
#include <algorithm>
#include <map>
#include <numeric>
#include <set>

#include "engine/ascii.h"
#include "engine/formula.h"
#include "marker/stated.h"

namespace molewright::stated {
namespace {

struct Term {
  Formula formula;
  Rational coefficient;
};
using Side = std::map<std::string, Term>;  // by atoms and charge: CH3COOH and C2H4O2 are one
struct Sides {
  Side left, right;
};

std::string identity(Formula const& formula) {
  std::string out = formula.electron ? "e" : "";
  for (auto const& [symbol, count] : formula.composition()) out += symbol + std::to_string(count);
  return out + '^' + std::to_string(formula.charge);
}

void add(Side& side, Formula const& formula, Rational const& coefficient) {
  auto const [at, fresh] = side.try_emplace(identity(formula), Term{formula, coefficient});
  if (!fresh) at->second.coefficient += coefficient;
}

std::string const water = "H2O1^0";

/// H3O^+ is H^+ and water: both ways of writing an acid are one.
Sides sides_of(Equation const& equation) {
  static Formula const hydron = value(parse_formula("H^+")), water_formula = value(parse_formula("H2O"));
  Sides sides;
  bool hydronium = false;
  for (auto const* from : {&equation.left, &equation.right})
    for (auto const& species : *from) {
      auto& side = from == &equation.left ? sides.left : sides.right;
      if (plain(species.formula) == "H3O^+") {
        hydronium = true;
        add(side, hydron, species.coefficient);
        add(side, water_formula, species.coefficient);
      } else {
        add(side, species.formula, species.coefficient);
      }
    }
  if (!hydronium || !sides.left.count(water) || !sides.right.count(water)) return sides;
  auto const common = std::min(sides.left[water].coefficient, sides.right[water].coefficient);
  for (auto* side : {&sides.left, &sides.right}) {
    side->at(water).coefficient -= common;
    if (side->at(water).coefficient.sign() == 0) side->erase(water);
  }
  return sides;
}

bool same_substances(Side const& a, Side const& b) {
  return a.size() == b.size() &&
         std::equal(a.begin(), a.end(), b.begin(), [](auto const& one, auto const& other) { return one.first == other.first; });
}
bool same_substances(Sides const& a, Sides const& b) {
  return same_substances(a.left, b.left) && same_substances(a.right, b.right);
}

/// How many times `due` is written; nothing where it is not the same number for every substance. REQUIRES: the same substances.
std::optional<Rational> multiple(Sides const& written, Sides const& due) {
  std::optional<Rational> times;
  for (auto const& [one, other] : {std::pair{&written.left, &due.left}, std::pair{&written.right, &due.right}})
    for (auto const& [key, term] : *one) {
      auto const ratio = term.coefficient / other->at(key).coefficient;
      if (times && *times != ratio) return std::nullopt;
      times = ratio;
    }
  return times;
}

std::string printed(Formula formula) {
  formula.state = State::none;
  return pretty(formula);
}
std::string listed(std::vector<std::string> const& items) {
  std::string out;
  for (auto const& item : items) out += (out.empty() ? "" : ", ") + item;
  return out;
}

struct Imbalance {
  std::vector<std::string> atoms;  ///< symbols
  std::vector<std::string> counts;
  bool charge = false;
  std::string charges;
};
Imbalance imbalance(Sides const& sides) {
  std::map<std::string, std::pair<Rational, Rational>> counts;
  Rational left, right;
  for (auto const* side : {&sides.left, &sides.right})
    for (auto const& [key, term] : *side) {
      bool const on_left = side == &sides.left;
      for (auto const& [symbol, count] : term.formula.composition())
        (on_left ? counts[symbol].first : counts[symbol].second) += term.coefficient * Rational(count);
      (on_left ? left : right) += term.coefficient * Rational(term.formula.charge);
    }
  Imbalance out;
  for (auto const& [symbol, both] : counts) {
    if (both.first == both.second) continue;
    out.atoms.push_back(symbol);
    out.counts.push_back(symbol + ": " + both.first.text() + " on the left, " + both.second.text() + " on the right");
  }
  out.charge = left != right;
  out.charges = left.text() + " on the left, " + right.text() + " on the right";
  return out;
}

StatedVerdict not_balanced(Sides const& written) {
  auto const found = imbalance(written);
  if (!found.atoms.empty()) return wrong("equation-not-balanced", listed(found.counts), "", listed(found.atoms));
  if (found.charge) return wrong("equation-charge-not-balanced", found.charges);
  return wrong("");
}

std::vector<std::string> only_in(Side const& one, Side const& other) {
  std::vector<std::string> out;
  for (auto const& [key, term] : one)
    if (!other.count(key)) out.push_back(key);
  return out;
}

std::set<std::string> elements(Formula const& formula) {
  std::set<std::string> out;
  for (auto const& [symbol, count] : formula.composition()) out.insert(symbol);
  return out;
}

/// Without what stands on both sides, and what that was.
Sides reduced(Sides sides, std::vector<std::string>& gone) {
  for (auto left = sides.left.begin(); left != sides.left.end();) {
    auto const right = sides.right.find(left->first);
    if (right == sides.right.end()) {
      ++left;
      continue;
    }
    auto const common = std::min(left->second.coefficient, right->second.coefficient);
    left->second.coefficient -= common;
    right->second.coefficient -= common;
    gone.push_back(printed(left->second.formula));
    if (right->second.coefficient.sign() == 0) sides.right.erase(right);
    left = left->second.coefficient.sign() == 0 ? sides.left.erase(left) : std::next(left);
  }
  return sides;
}

bool any_charge(Sides const& sides) {
  return std::any_of(sides.left.begin(), sides.left.end(), [](auto const& one) { return one.second.formula.charge != 0; });
}

/// The first substance that differs.
StatedVerdict other_substances(Sides const& written, Sides const& due) {
  bool const balanced = imbalance(written).atoms.empty();
  for (bool const left : {true, false}) {
    auto const& own = left ? written.left : written.right;
    auto const& own_due = left ? due.left : due.right;
    auto const& across = left ? due.right : due.left;
    for (auto const& key : only_in(own, own_due))
      if (across.count(key) && !(left ? written.right : written.left).count(key))
        return wrong("substance-on-wrong-side", printed(own.at(key).formula));
  }
  for (bool const left : {true, false}) {
    auto const& own = left ? written.left : written.right;
    auto const& own_due = left ? due.left : due.right;
    auto const extra = only_in(own, own_due), missing = only_in(own_due, own);
    for (auto const& e : extra)
      for (auto const& m : missing) {
        auto const &is = own.at(e).formula, &should_be = own_due.at(m).formula;
        if (is.composition() == should_be.composition()) return wrong("ion-charge-wrong", printed(is), printed(should_be));
        bool const akin = elements(is) == elements(should_be);
        if (!akin && (extra.size() > 1 || missing.size() > 1)) continue;
        return wrong(balanced && akin ? "formula-changed-to-balance" : "formula-in-equation-wrong", printed(is),
                     printed(should_be));
      }
  }
  for (auto const& [own, own_due] : {std::pair{&written.left, &due.left}, std::pair{&written.right, &due.right}}) {
    if (auto const missing = only_in(*own_due, *own); !missing.empty())
      return wrong("substance-left-out", "", printed(own_due->at(missing.front()).formula));
    if (auto const extra = only_in(*own, *own_due); !extra.empty())
      return wrong("substance-too-many", printed(own->at(extra.front()).formula));
  }
  return wrong("");
}

void look_at_states(Equation const& written, Equation const& due, StatedVerdict& verdict) {
  std::map<std::string, State> states;
  for (auto const* side : {&due.left, &due.right})
    for (auto const& species : *side) states[identity(species.formula)] = species.formula.state;
  bool missing = false, other = false;
  for (auto const* side : {&written.left, &written.right})
    for (auto const& species : *side) {
      auto const at = states.find(identity(species.formula));
      if (at == states.end() || at->second == State::none) continue;
      missing = missing || species.formula.state == State::none;
      other = other || (species.formula.state != State::none && species.formula.state != at->second);
    }
  if (missing) verdict.notes.push_back("states-missing");
  if (other) verdict.notes.push_back("state-wrong");
}

/// Arrows and states as people type them.
std::string with_usual_signs(std::string text) {
  auto const replace = [&](std::string_view from, std::string_view to) {
    for (auto at = text.find(from); at != std::string::npos; at = text.find(from, at + to.size()))
      text.replace(at, from.size(), to);
  };
  for (auto const* arrow : {"⟶", "⇒", "➔", "➝", "==>", "-->", "=>"}) replace(arrow, "->");
  replace("(S)", "(s)");
  replace("(L)", "(l)");
  replace("(G)", "(g)");
  replace("(AQ)", "(aq)");
  replace("(Aq)", "(aq)");
  return text;
}

bool in_words(std::string_view text) {
  int small = 0;
  for (char const c : text) {
    small = c >= 'a' && c <= 'z' ? small + 1 : 0;
    if (small >= 4) return true;
  }
  return false;
}
}  // namespace

StatedVerdict equation(std::string_view text, Equation const& due_equation, Equation const& whole, bool ionic) {
  auto const even = with_usual_signs(evened(text));
  if (says_none(even)) return wrong("reaction-missed");
  auto const read = parse_equation(even);
  if (!ok(read)) {
    if (in_words(even) && even.find_first_of("+>=") != std::string::npos) return wrong("names-in-equation");
    auto const one_side = parse_equation(even, true);
    if (ok(one_side) && value(one_side).right.empty()) return wrong("equation-one-side-only");
    return {};
  }
  auto const written = sides_of(value(read)), due = sides_of(due_equation);
  if (same_substances(written, due)) {
    auto const times = multiple(written, due);
    if (!times) return not_balanced(written);
    auto verdict = right();
    if (*times != Rational(1)) verdict.notes.push_back("equation-is-a-multiple");
    look_at_states(value(read), due_equation, verdict);
    return verdict;
  }
  if (same_substances(Sides{written.right, written.left}, due)) return wrong("equation-backwards");
  if (ionic) {
    std::vector<std::string> gone;
    auto const rest = reduced(written, gone);
    if (!gone.empty() && same_substances(rest, due) && multiple(rest, due)) return wrong("spectators-left-in", listed(gone));
    if (same_substances(written, sides_of(whole))) return wrong("ions-not-separated");
  } else if (any_charge(written) && !any_charge(due)) {
    return wrong("ionic-for-whole-equation");
  }
  return other_substances(written, due);
}

}  // namespace molewright::stated
