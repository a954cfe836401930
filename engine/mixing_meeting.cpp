#include "engine/mixing_meeting.h"

#include <algorithm>

#include "engine/mixing_words.h"
#include "engine/tsv.h"

namespace molewright::data {
extern std::string_view const not_formed_tsv;
}

namespace molewright::mixing {
namespace {

using words::fill;
using Verdict = Dissolving::Verdict;

struct Instead {
  std::string salt, because, kind;
  std::vector<Formula> products;
  bool water = false;
};
Instead const* instead_of(std::string const& salt) {
  static std::vector<Instead> const rows = [] {
    std::vector<Instead> result;
    TsvTable const table(data::not_formed_tsv);
    auto const name = table.column("salt"), products = table.column("instead"), because = table.column("because"),
               kind = table.column("kind"), water = table.column("water");
    for (std::size_t row = 0; row < table.size(); ++row)
      result.push_back({std::string(table.cell(row, name)), std::string(table.cell(row, because)),
                        std::string(table.cell(row, kind)), formulas_in(table.cell(row, products)),
                        table.cell(row, water) == "yes"});
    return result;
  }();
  for (auto const& row : rows)
    if (row.salt == salt) return &row;
  return nullptr;
}

/// An acid and an anion that pass electrons rather than a proton: left to other tables.
bool quarrel(Acid const& acid, std::string const& anion) {
  static std::string_view const reducing[] = {"HCl", "HBr", "HI", "H2S", "H2SO3", "H2C2O4", "HCOOH"};
  std::string const& name = acid.spellings.front();
  if (name == "HNO2") return anion == "I^-" || anion == "S^2-" || anion == "HS^-" || anion == "SO3^2-" || anion == "HSO3^-";
  if (anion != "ClO^-" && anion != "NO2^-") return false;
  if (anion == "NO2^-") return name == "HI" || name == "H2S" || name == "H2SO3";
  return std::find(std::begin(reducing), std::end(reducing), name) != std::end(reducing);
}

Meeting meet_proton(Acid const* acid, Part const& anion) {
  Meeting met;
  if (base_ion(anion)) {
    met.products = {water()};
    met.events = {Event::water};
    met.because = words::water_forms;
    return met;
  }
  if (acid != nullptr && quarrel(*acid, anion.key)) {
    met.silent = plain(anion.ion) + " with " + acid->spellings.front();
    return met;
  }
  Acid const* const formed = acid_with(anion.key);
  if (formed == nullptr) {
    met.silent = plain(anion.ion) + " in acid";
    return met;
  }
  if (formed->strength == Acid::Strength::strong) {
    met.products = {with_state(acid_spelled(*formed, anion), State::aqueous)};
    met.by = words::by_acids;
    if (acid != nullptr && acid->strength != Acid::Strength::strong) met.too_weak = plain(met.products[0]);
    return met;
  }
  Formula const spelled = acid_spelled(*formed, anion);
  if (acid != nullptr && !drives_out(*acid, *formed)) {
    if ((formed->protons > 1 && formed->pka > acid->first_pka) || formed->first_pka > acid->pka)
      met.partly = plain(anion.ion);
    else
      met.products = {with_state(spelled, State::aqueous)};
    met.by = words::by_acids;
    met.too_weak = plain(spelled);
    return met;
  }
  met.products = formed->gives;
  if (formed->strength == Acid::Strength::gas) {
    met.events = {Event::gas};
    std::string gives;
    for (auto const& product : formed->gives) gives += (gives.empty() ? "" : " and ") + plain(product);
    met.because = fill(words::gas_forms, {plain(anion.ion), gives});
  } else {
    for (auto& product : met.products)
      if (product.composition() == spelled.composition()) product = with_state(spelled, product.state);
    met.events = {Event::weak_acid};
    met.borderline = acid != nullptr && acid->strength != Acid::Strength::strong && formed->first_pka < acid->pka + 1;
    met.because = fill(words::weak_acid_forms, {plain(spelled)});
  }
  return met;
}

}  // namespace

bool drives_out(Acid const& acid, Acid const& formed) {
  if (acid.strength == Acid::Strength::strong) return true;
  // Less than this apart, the two share the protons about evenly.
  constexpr double least = 0.3;
  bool const leaves = formed.strength == Acid::Strength::gas && acid.strength != Acid::Strength::gas && acid.protons > 1;
  return formed.first_pka + (leaves ? 1 : 0) > acid.pka + least;
}

Formula water(State state) { return with_state(formula_in("H2O"), state); }

bool base_ion(Part const& part) { return part.key == "OH^-" || part.key == "O^2-"; }

Meeting meet(Part const& cation, Part const& anion, Acid const* acid) {
  if (cation.key == "H^+" || cation.key == "H3O^+") return meet_proton(acid, anion);
  Meeting met;
  if (cation.key == "NH4^+" && base_ion(anion)) {
    met.products = {with_state(formula_in("NH3"), State::gas), water()};
    met.events = {Event::gas};
    met.because = words::ammonia_leaves;
    return met;
  }
  Formula const salt = salt_of(cation, anion);
  std::string const key = key_of(salt);
  if (Instead const* const other = instead_of(key)) {
    met.products = other->products;
    for (auto const& product : other->products)
      if (product.state == State::solid || product.state == State::gas)
        met.events.push_back(product.state == State::solid ? Event::solid : Event::gas);
    met.because = other->because;
    if (other->kind == "redox") met.events.push_back(Event::electrons);
    met.water_used = other->water;
    return met;
  }
  Dissolving const found = dissolving(salt);
  met.borderline = found.disputed;
  switch (found.verdict) {
    case Verdict::soluble:
      met.products = {with_state(salt, State::aqueous)};
      met.by = found.by;
      break;
    case Verdict::slightly:
    case Verdict::insoluble:
      met.products = {with_state(salt, State::solid)};
      met.events = {Event::solid};
      met.because = fill(found.verdict == Verdict::slightly ? words::slightly_forms : words::solid_forms, {key, found.by});
      met.borderline = met.borderline || found.verdict == Verdict::slightly;
      break;
    case Verdict::not_formed:
    case Verdict::unknown:
      met.silent = key;
      break;
  }
  return met;
}

}  // namespace molewright::mixing
