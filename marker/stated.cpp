#include "marker/stated.h"

#include <algorithm>
#include <array>

#include "engine/ascii.h"
#include "engine/formula.h"
#include "engine/nomenclature.h"
#include "engine/steps_words.h"
#include "engine/substance.h"
#include "marker/table.h"

namespace molewright {
namespace stated {

StatedVerdict right() {
  StatedVerdict verdict;
  verdict.value = StatedVerdict::Value::right;
  return verdict;
}

StatedVerdict wrong(char const* slip, std::string was, std::string should_be, std::string step) {
  StatedVerdict verdict;
  verdict.value = StatedVerdict::Value::wrong;
  verdict.slip = slip;
  verdict.holes.wrong = std::move(was);
  verdict.holes.right = std::move(should_be);
  verdict.holes.step = std::move(step);
  return verdict;
}

std::string evened(std::string_view text) {
  std::string out(text);
  static constexpr std::array<std::pair<std::string_view, std::string_view>, 12> shapes = {{{"\xC2\xA0", " "},
                                                                                            {"\u2009", " "},
                                                                                            {"\u202F", " "},
                                                                                            {"\u2010", "-"},
                                                                                            {"\u2011", "-"},
                                                                                            {"\u2012", "-"},
                                                                                            {"\u2013", "-"},
                                                                                            {"\u2014", "-"},
                                                                                            {"\u2212", "-"},
                                                                                            {"\n", " "},
                                                                                            {"\t", " "},
                                                                                            {"\u200B", ""}}};
  for (auto const& [shape, sign] : shapes)
    for (auto at = out.find(shape); at != std::string::npos; at = out.find(shape, at + sign.size()))
      out.replace(at, shape.size(), sign);
  std::string_view rest = trimmed(out);
  if (rest.size() > 1 && (rest.front() == '\'' || rest.front() == '=')) rest.remove_prefix(1);  // of a spreadsheet
  while (!rest.empty() && rest.back() == '.') rest.remove_suffix(1);
  return std::string(trimmed(rest));
}

bool says_none(std::string_view written) {
  static constexpr std::array words{"none",
                                    "no",
                                    "nothing",
                                    "nil",
                                    "no precipitate",
                                    "no ppt",
                                    "no reaction",
                                    "nothing happens",
                                    "no solid",
                                    "no change",
                                    "no precipitate forms",
                                    "nothing forms",
                                    "none forms",
                                    "n/a",
                                    "no equation",
                                    "they do not react",
                                    "does not react",
                                    "no rxn"};
  auto const low = lowered(evened(written));
  return std::find(words.begin(), words.end(), low) != words.end();
}
}  // namespace stated

namespace {

Node const& node_at(Working const& working, int index) { return working.nodes[static_cast<std::size_t>(index)]; }

Equation equation_of(std::string const& text) {
  auto const read = parse_equation(text);
  return ok(read) ? value(read) : Equation{};
}

/// The plain formula of what is named by formula or name; empty for nothing that is known.
std::string substance_named(std::string_view text) {
  auto const known = identify(text);
  if (ok(known)) return value(known).formula;
  auto const formula = parse_formula(text);
  if (!ok(formula)) return {};
  auto bare = value(formula);
  bare.state = State::none;
  return plain(bare);
}

std::vector<std::string> pieces_of(std::string const& text) {
  std::vector<std::string> pieces{""};
  auto const low = lowered(text);
  for (std::size_t at = 0; at < text.size();) {
    std::size_t length = 0;
    for (std::string_view const between : {", ", ",", ";", " and ", " & ", " + "})
      if (length == 0 && std::string_view(low).substr(at, between.size()) == between) length = between.size();
    if (length == 0) {
      pieces.back() += text[at++];
      continue;
    }
    pieces.emplace_back();
    at += length;
  }
  for (auto& piece : pieces) piece = std::string(trimmed(piece));
  pieces.erase(std::remove(pieces.begin(), pieces.end(), ""), pieces.end());
  return pieces;
}

bool same_substance(std::string const& a, std::string const& b) {
  if (a == b) return true;
  auto const one = parse_formula(a), other = parse_formula(b);
  return ok(one) && ok(other) && value(one).charge == value(other).charge &&
         value(one).composition() == value(other).composition();
}

StatedVerdict judge_precipitate(std::string_view written, Working const& working, Node const& answer) {
  auto text = stated::evened(written);
  for (std::string_view const word : {" precipitate", " ppt", " solid"})
    if (text.size() > word.size() && lowered(text).substr(text.size() - word.size()) == word && !stated::says_none(text))
      text.resize(text.size() - word.size());
  bool const none_due = answer.says == relations::nothing;
  if (stated::says_none(text))
    return none_due ? stated::right() : stated::wrong("precipitate-missed", "", pretty_formula(answer.says));
  auto const due = none_due ? std::vector<std::string>{} : pieces_of(answer.says);
  std::vector<std::string> named;
  for (auto const& piece : pieces_of(text)) {
    auto const substance = substance_named(piece);
    if (substance.empty()) return {};
    named.push_back(substance);
  }
  auto const is_due = [&](std::string const& one) {
    return std::any_of(due.begin(), due.end(), [&](std::string const& solid) { return same_substance(one, solid); });
  };
  for (auto const& one : named) {
    if (is_due(one)) continue;
    auto const shown = pretty_formula(one);
    for (auto const& term : answer.definition.terms) {
      auto const& product = node_at(working, term.node);
      if (product.says == words::soluble && same_substance(product.quantity.substance, one))
        return stated::wrong("soluble-salt-taken-for-solid", shown, none_due ? "" : pretty_formula(answer.says));
    }
    if (auto const formula = parse_formula(one); ok(formula) && value(formula).charge != 0)
      return stated::wrong("ion-taken-for-precipitate", shown);
    if (due.size() == 1 && named.size() == 1) {
      auto verdict = stated::formula(one, due.front(), {});
      if (verdict.slip == "charges-do-not-cancel" || verdict.slip == "bracket-left-out" ||
          verdict.slip == "multiple-of-formula" || verdict.slip == "wrong-charge-of-metal" || verdict.slip == "ending-confused")
        return verdict;
    }
    return stated::wrong("not-a-product", shown);
  }
  for (auto const& solid : due)
    if (std::none_of(named.begin(), named.end(), [&](std::string const& one) { return same_substance(one, solid); }))
      return stated::wrong("second-solid-missed", "", pretty_formula(solid));
  return stated::right();
}

StatedVerdict judge_reagent(std::string_view written, Find const& find, Working const& working, Node const& answer) {
  auto const text = stated::evened(written);
  auto const named = substance_named(text);
  if (named.empty()) return {};
  if (same_substance(named, answer.says)) return stated::right();
  auto const chosen = std::find_if(find.reagents.begin(), find.reagents.end(),
                                   [&](std::string const& reagent) { return same_substance(reagent, named); });
  if (chosen == find.reagents.end()) return stated::wrong("not-a-reagent-to-choose", pretty_formula(named));
  std::string misses, hits;  // salts that it should act on and does not, and the other way round
  for (auto const& term : answer.definition.terms) {
    auto const& mixed = node_at(working, term.node);
    if (mixed.quantity.substance != *chosen) continue;
    bool const wanted = std::find(find.with.begin(), find.with.end(), mixed.quantity.part) != find.with.end();
    bool const solid = mixed.says != relations::nothing;
    auto& list = wanted && !solid ? misses : hits;
    if (wanted != solid) list += (list.empty() ? "" : ", ") + pretty_formula(mixed.quantity.part);
  }
  if (misses.empty()) return stated::wrong("reagent-precipitates-both", hits, "", pretty_formula(named));
  return stated::wrong(hits.empty() ? "reagent-precipitates-nothing" : "reagent-precipitates-the-other", misses, hits,
                       pretty_formula(named));
}
}  // namespace

StatedVerdict judge_stated(std::string_view written, Worked const& worked, std::size_t find, Naming naming) {
  auto const& working = worked.accepted.front();
  auto const& asked = worked.problem.finds[find];
  auto const& answer = node_at(working, working.finds[find].node);
  switch (asked.kind) {
    case Find::Kind::reaction:
    case Find::Kind::ionic_equation: {
      bool const ionic = asked.kind == Find::Kind::ionic_equation;
      if (answer.says == relations::nothing) {
        if (stated::says_none(written)) return stated::right();
        auto const other = stated::equation(written, Equation{}, Equation{}, ionic);
        return other.value == StatedVerdict::Value::unreadable ? other : stated::wrong("reaction-where-none-is");
      }
      int const whole = working.find_node(relations::balanced_equation);
      return stated::equation(written, equation_of(answer.says),
                              whole < 0 ? Equation{} : equation_of(node_at(working, whole).says), ionic);
    }
    case Find::Kind::name:
      return stated::name(written, asked.substance, naming);
    case Find::Kind::formula:
      return stated::formula(written, asked.substance, naming);
    case Find::Kind::precipitate:
      return judge_precipitate(written, working, answer);
    default:
      return judge_reagent(written, asked, working, answer);
  }
}

}  // namespace molewright
