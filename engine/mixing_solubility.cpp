// Whether a salt dissolves: the table first, the rules where it is silent.
#include <algorithm>

#include "engine/formula_index.h"
#include "engine/lists.h"
#include "engine/mixing_reagent.h"
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

/// What the rules say of a salt of `cation` and `anion`; those of cations go first.
Dissolving by_rule(std::string const& cation, std::string const& anion) {
  // The rules were made for cations up to 3+; 4+ ones do not stand in water as such.
  if (cation.find("^4+") != std::string::npos) return {};
  for (bool const of_cation : {true, false})
    for (Rule const& rule : rules()) {
      if (rule.of_cation != of_cation || rule.ion != (of_cation ? cation : anion)) continue;
      std::string const& partner = of_cation ? anion : cation;
      if (!rule.only.empty() && !contains(rule.only, partner)) continue;
      bool const soluble = rule.soluble != contains(rule.exceptions, partner);
      Dissolving found;
      found.verdict = soluble ? Dissolving::Verdict::soluble : Dissolving::Verdict::insoluble;
      found.disputed = contains(rule.disputed, partner);
      found.by = "the rule for " + rule.ion + " (" + rule.source + ")";
      return found;
    }
  return {};
}

}  // namespace

Dissolving dissolving(Formula const& salt) {
  Dissolving found;
  auto const parts = parts_of(with_state(salt, State::none));
  if (Solubility const* const row = solubility(plain(with_state(salt, State::none)))) {
    found.by = "the solubility table";
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
    if (parts.size() == 2) found.disputed = by_rule(parts[0].key, parts[1].key).disputed;
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
