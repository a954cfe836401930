// Whether a salt dissolves: the table first, the rules where it is silent.
#include <algorithm>

#include "engine/formula_index.h"
#include "engine/lists.h"
#include "engine/mixing_reagent.h"
#include "engine/mixing_words.h"
#include "engine/substance.h"
#include "engine/tsv.h"

namespace molewright::data {
extern std::string_view const solubility_rules_tsv;
}

namespace molewright::mixing {
namespace {

struct Rule {
  std::string ion, source;
  bool soluble = false, of_cation = false;
  std::vector<std::string> exceptions, disputed, only;
};

std::vector<std::string> words_in(std::string_view cell) {
  std::vector<std::string> result;
  for (auto const text : split_list(cell)) result.emplace_back(text);
  return result;
}

std::vector<Rule> const& rules() {
  static std::vector<Rule> const made = [] {
    std::vector<Rule> result;
    TsvTable const table(data::solubility_rules_tsv);
    auto const ion = table.column("ion"), verdict = table.column("verdict"), exceptions = table.column("exceptions"),
               disputed = table.column("disputed"), only = table.column("only"), source = table.column("source");
    for (std::size_t row = 0; row < table.size(); ++row) {
      Rule rule;
      rule.ion = std::string(table.cell(row, ion));
      rule.source = std::string(table.cell(row, source));
      rule.soluble = table.cell(row, verdict) == "soluble";
      rule.of_cation = rule.ion.back() == '+';
      rule.exceptions = words_in(table.cell(row, exceptions));
      rule.disputed = words_in(table.cell(row, disputed));
      rule.only = words_in(table.cell(row, only));
      result.push_back(rule);
    }
    return result;
  }();
  return made;
}

/// The rule that speaks of a salt of `cation` and `anion`, those of cations first; nullptr where none does.
Rule const* rule_for(std::string const& cation, std::string const& anion) {
  // The rules were made for cations up to 3+; 4+ ones do not stand in water as such.
  if (cation.find("^4+") != std::string::npos) return nullptr;
  for (bool const of_cation : {true, false})
    for (Rule const& rule : rules()) {
      if (rule.of_cation != of_cation || rule.ion != (of_cation ? cation : anion)) continue;
      if (rule.only.empty() || contains(rule.only, of_cation ? anion : cation)) return &rule;
    }
  return nullptr;
}

bool usual(std::string const& cation) {
  return std::any_of(ions().begin(), ions().end(), [&](Ion const& ion) { return ion.usual && ion.formula == cation; });
}

/// Whether the rule can be taken to mean this cation: all are meant where there are no exceptions (nitrates), else those that it
/// names and those of the usual list, for which the school lists were made.
bool means(Rule const& rule, std::string const& cation) {
  return rule.of_cation || rule.exceptions.empty() || contains(rule.exceptions, cation) || contains(rule.disputed, cation) ||
         contains(rule.only, cation) || usual(cation);
}

bool lists_differ(std::string const& cation, std::string const& anion) {
  Rule const* const rule = rule_for(cation, anion);
  return rule != nullptr && contains(rule->disputed, rule->of_cation ? anion : cation);
}

/// What the rules say of a salt of `cation` and `anion`. Borderline where lists differ, and for a cation that a list with
/// exceptions does not name: it may be one of them.
Dissolving by_rule(std::string const& cation, std::string const& anion) {
  Rule const* const rule = rule_for(cation, anion);
  if (rule == nullptr) return {};
  bool const soluble = rule->soluble != contains(rule->exceptions, rule->of_cation ? anion : cation);
  Dissolving found;
  found.verdict = soluble ? Dissolving::Verdict::soluble : Dissolving::Verdict::insoluble;
  found.disputed = lists_differ(cation, anion) || !means(*rule, cation);
  found.by = words::fill(means(*rule, cation) ? words::by_rule : words::by_rule_unnamed, {rule->ion, rule->source, cation});
  return found;
}

/// K2[PtCl6] stands in the table without brackets, as its sources write it.
Solubility const* row_of(std::string formula) {
  if (Solubility const* const row = solubility(formula)) return row;
  std::erase_if(formula, [](char c) { return c == '[' || c == ']'; });
  return solubility(formula);
}

}  // namespace

Dissolving dissolving(Formula const& salt) {
  Dissolving found;
  auto const parts = parts_of(with_state(salt, State::none));
  if (Solubility const* const row = row_of(plain(with_state(salt, State::none)))) {
    found.by = words::by_table;
    switch (row->verdict) {
      case Solubility::Verdict::soluble:
        found.verdict = Dissolving::Verdict::soluble;
        break;
      case Solubility::Verdict::slightly_soluble:
        found.verdict = Dissolving::Verdict::slightly;
        break;
      case Solubility::Verdict::insoluble:
        found.verdict = Dissolving::Verdict::insoluble;
        break;
      case Solubility::Verdict::reacts:
        found.verdict = Dissolving::Verdict::not_formed;
        break;
      case Solubility::Verdict::unknown:
        break;
    }
    if (parts.size() == 2) found.disputed = lists_differ(parts[0].key, parts[1].key);
    if (found.verdict != Dissolving::Verdict::unknown) return found;
  }
  if (parts.size() == 2) {
    // A complex ion stays dissolved with any partner but another complex or a metal that the table names.
    if (parts[0].key.front() == '[' || (parts[1].key.front() == '[' && parts[1].key.find("CN") == std::string::npos)) {
      found.verdict = Dissolving::Verdict::soluble;
      found.by = "its complex ion, which is a dissolved one";
      return found;
    }
    return by_rule(parts[0].key, parts[1].key);
  }
  // An alum or a double salt: as soluble as the worst pair of its ions.
  for (auto const& cation : parts)
    for (auto const& anion : parts) {
      if (cation.ion.charge < 0 || anion.ion.charge > 0) continue;
      Dissolving const pair = dissolving(salt_of(cation, anion));
      if (found.by.empty() || pair.verdict > found.verdict) found = pair;
    }
  return found;
}

}  // namespace molewright::mixing
