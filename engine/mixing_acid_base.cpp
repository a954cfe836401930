// Acids and bases that are no plain exchange: acid salts, ammonia, oxides.
#include <algorithm>

#include "engine/mixing_meeting.h"
#include "engine/mixing_rules.h"
#include "engine/mixing_words.h"

namespace molewright::mixing {
namespace {

using words::fill;
using Verdict = Dissolving::Verdict;

/// The base takes the H of the salt's anion as far as `to`. Empty `left`: the tables are silent on `silent`.
Draft acid_salt_to(Reagent const& salt, Reagent const& base, Part const& from, std::string const& to, std::string& silent) {
  Draft draft;
  draft.kind = "neutralisation";
  draft.because = fill(words::water_from_acid_salt, {plain(from.ion)});
  draft.left = {salt.formula, base.formula};
  Part const anion = ion_part(to);
  if (salt.sort == Sort::ion || base.sort == Sort::ion) {
    draft.right = {anion.ion, water()};
    for (auto const* reagent : {&salt, &base})
      if (reagent->sort != Sort::ion)
        for (auto const& other : reagent->parts)
          if (other.ion.charge > 0) draft.right.push_back(other.ion);
    return draft;
  }
  auto const& plus = salt.parts[0];
  auto const& other = base.parts[0];
  auto const atoms = anion.ion.composition();
  bool const organic = atoms.count("C") != 0 && atoms.count("H") != 0;
  if (organic && anion.ion.charge == -2 && plus.ion.charge == 1 && other.ion.charge == 1 && plus.key != other.key) {
    Formula mixed = salt_of(plus, anion);  // Rochelle-type salts: one of each cation
    auto& groups = mixed.parts[0].groups;
    groups[0].count = 1;
    groups.insert(groups.begin() + 1, other.ion.parts[0].groups.front());
    draft.right = {with_state(mixed, State::aqueous)};
  } else {
    for (auto const& cation : {plus, other}) {
      Meeting const met = meet(cation, anion, nullptr);
      if (!met.silent.empty()) silent = met.silent;
      draft.right.insert(draft.right.end(), met.products.begin(), met.products.end());
      if (!met.because.empty() && draft.kind == "neutralisation") {
        draft.kind = "precipitation+neutralisation";
        draft.because += "; " + met.because;
      }
    }
  }
  draft.right.push_back(water());
  return draft;
}

/// Acid salt and base (NaHCO3 + NaOH): the anion gives up its last H, or stops on the way where that is asked for.
Answer acid_salt_and_base(Reagent const& salt, Reagent const& base, Asked const& asked) {
  for (auto const& part : salt.parts) {
    Acid const* const own = part.ion.charge > 0 ? nullptr : acid_with(part.key);
    if (own == nullptr) continue;
    std::vector<Draft> drafts;
    for (Acid const* const step : steps_of(*own)) {  // the whole first
      if (step->protons <= own->protons) continue;
      std::string silent;
      Draft const draft = acid_salt_to(salt, base, part, step->anion, silent);
      if (silent.empty())
        drafts.push_back(draft);
      else if (drafts.empty() && asked.wanted.empty())
        return undecided(fill(words::silent_on, {silent}));
    }
    if (!drafts.empty()) return chosen(drafts, {salt, base}, asked);
  }
  return std::nullopt;
}

/// Acid salt and carbonate (baking powder): the anion gives its H to the salt of a gas.
Answer acid_salt_and_carbonate(Reagent const& salt, Reagent const& other) {
  static std::string_view const givers[] = {"HSO4^-", "HC4H4O6^-", "C8H5O4^-", "HC2O4^-"};
  if (salt.parts.size() != 2 || other.parts.size() != 2 || salt.sort != Sort::salt || other.sort != Sort::salt)
    return std::nullopt;
  Part const& anion = salt.parts[1];
  if (std::find(std::begin(givers), std::end(givers), anion.key) == std::end(givers)) return std::nullopt;
  Acid const* const gas = acid_with(other.parts[1].key);
  Acid const* const own = acid_with(anion.key);
  std::string const bare = own == nullptr ? "C4H4O6^2-" : acid_of(formula_in(own->spellings.front()))->anion;
  if (gas == nullptr || gas->strength != Acid::Strength::gas) return std::nullopt;
  Draft draft;
  draft.kind = "gas";
  draft.left = {salt.formula, other.formula};
  std::string gives;
  for (auto const& product : gas->gives) gives += (gives.empty() ? "" : " and ") + plain(product);
  draft.because = fill(words::gas_forms, {plain(other.parts[1].ion), gives});
  auto const& plus = salt.parts[0];
  auto const& second = other.parts[0];
  Formula product = salt_of(plus, ion_part(bare));
  if (plus.key != second.key && plus.ion.charge == 1 && second.ion.charge == 1 && bare != "SO4^2-") {
    auto& groups = product.parts[0].groups;
    groups[0].count = 1;
    groups.insert(groups.begin() + 1, second.ion.parts[0].groups.front());
    draft.right = {with_state(product, State::aqueous)};
    if (other.parts[1].ion.charge != -1) return std::nullopt;
  } else {
    for (auto const& cation : {plus, second}) {
      Meeting const met = meet(cation, ion_part(bare), nullptr);
      if (!met.silent.empty()) return undecided(fill(words::silent_on, {met.silent}));
      draft.right.insert(draft.right.end(), met.products.begin(), met.products.end());
      if (!met.events.empty()) draft.kind = "precipitation+gas";
      draft.borderline = draft.borderline || (!met.events.empty() && met.borderline);
    }
  }
  draft.right.insert(draft.right.end(), gas->gives.begin(), gas->gives.end());
  return worked_out(draft);
}

/// Ammonia with an acid, or with a salt whose hydroxide does not dissolve.
Answer with_ammonia(Reagent const& ammonia, Reagent const& other) {
  Draft draft;
  draft.left = {ammonia.formula, other.formula};
  Part const ammonium = ion_part("NH4^+");
  bool const has_water = ammonia.key == "NH4OH";
  if (other.sort == Sort::acid || (other.sort == Sort::ion && other.key == "H^+")) {
    draft.kind = "neutralisation";
    draft.because = words::ammonia_takes;
    if (other.sort == Sort::ion)
      draft.right = {ammonium.ion};
    else
      draft.right = {with_state(salt_of(ammonium, other.parts.back()), State::aqueous)};
    if (has_water) draft.right.push_back(water());
    return worked_out(draft);
  }
  if (other.sort != Sort::salt && other.sort != Sort::ion) return std::nullopt;
  if (other.solid()) return undecided(fill(words::solid_stays, {other.key}));
  for (auto const& anion : other.parts) {
    Acid const* const row = anion.ion.charge < 0 ? acid_with(anion.key) : nullptr;
    if (row != nullptr && steps_of(*row).front()->protons > row->protons)
      return undecided(fill(words::silent_on, {"NH3 with " + plain(anion.ion)}));
  }
  for (auto const& cation : other.parts) {
    if (cation.ion.charge < 0) continue;
    Meeting met = cation.key == "NH4^+" ? Meeting() : meet(cation, ion_part("OH^-"), nullptr);
    // Too few OH^- in ammonia for a hydroxide that dissolves a little.
    if (met.borderline && dissolving(salt_of(cation, ion_part("OH^-"))).verdict == Verdict::slightly) met.events.clear();
    if (met.events.empty()) {
      if (cation.key == "NH4^+") return nothing(words::ammonia_ammonium);
      if (met.products.empty()) return undecided(fill(words::silent_on, {key_of(salt_of(cation, ion_part("OH^-")))}));
      auto const& base = met.products[0];
      return nothing(fill(words::ammonia_no_solid, {key_of(base), dissolving(with_state(base, State::none)).by}));
    }
    draft.right.insert(draft.right.end(), met.products.begin(), met.products.end());
    draft.because = fill(words::ammonia_hydroxide, {key_of(met.products[0]), "the solubility table"});
    draft.borderline = met.borderline;
  }
  if (draft.right.empty()) return undecided(words::silent);
  draft.kind = "precipitation";
  if (!has_water) draft.left.push_back(water());
  for (auto const& anion : other.parts)
    if (anion.ion.charge < 0) draft.right.push_back(with_state(salt_of(ammonium, anion), State::aqueous));
  if (other.sort == Sort::ion) draft.right.push_back(ammonium.ion);
  return worked_out(draft);
}

/// An acidic oxide and a base (or a basic oxide) that make the salt of `acid`.
Answer oxide_and_base(Draft draft, Reagent const& oxide, Reagent const& other, Acid const& acid) {
  draft.kind = "neutralisation";
  bool const basic_oxide = other.sort == Sort::basic_oxide;
  Part const anion = ion_part(acid.anion);
  if (other.sort == Sort::ion) draft.right.push_back(anion.ion);
  for (auto const& cation : other.parts) {
    if (cation.ion.charge < 0) continue;
    Meeting const met = meet(cation, anion, nullptr);
    if (!met.silent.empty()) return undecided(fill(words::silent_on, {met.silent}));
    if (met.water_used) return undecided(fill(words::silent_on, {key_of(salt_of(cation, anion))}));
    for (auto const& product : met.products) draft.right.push_back(basic_oxide ? with_state(product, State::solid) : product);
    if (!met.events.empty() && !basic_oxide) {
      draft.kind = "precipitation+neutralisation";
      draft.because += "; " + met.because;
    }
  }
  // CO2 + OH^- -> HCO3^-: all the hydrogen goes into the acid salt.
  bool const acid_salt = acid.anion.find('H') != std::string::npos;
  if (!basic_oxide && !acid_salt) draft.right.push_back(water());
  if (oxide.key == "CO2" && other.key == "Ca(OH)2" && !acid_salt) draft.observations = {words::milky};
  return worked_out(draft);
}

/// Oxides of nonmetals with water, bases and basic oxides; basic oxides with water.
Answer with_oxide(Reagent const& oxide, Reagent const& other, Asked const& asked) {
  Draft draft;
  draft.left = {oxide.formula, other.formula};
  if (oxide.sort == Sort::basic_oxide) {
    if (other.sort != Sort::water) return std::nullopt;
    if (oxide.dissolves.verdict != Verdict::not_formed)
      return nothing(fill(words::does_not_dissolve, {oxide.key, oxide.dissolves.by}));
    draft.kind = "oxide + water";
    draft.because = fill(words::oxide_water, {oxide.key});
    for (auto const& cation : oxide.parts)
      if (cation.ion.charge > 0) {
        Formula const base = salt_of(cation, ion_part("OH^-"));
        draft.right.push_back(with_state(base, dissolving(base).verdict == Verdict::soluble ? State::aqueous : State::solid));
      }
    return worked_out(draft);
  }
  Acid const* const acid = acid_from_oxide(with_state(oxide.formula, State::none));
  if (acid == nullptr) return std::nullopt;
  draft.because = fill(words::acid_oxide, {oxide.key, acid->spellings.front()});
  if (other.sort == Sort::water) {
    draft.kind = "oxide + water";
    draft.right = {with_state(formula_in(acid->spellings.front()), State::aqueous)};
    draft.borderline = acid->strength == Acid::Strength::gas;
    return worked_out(draft);
  }
  if (other.sort != Sort::base && other.sort != Sort::basic_oxide && !(other.sort == Sort::ion && other.key == "OH^-"))
    return std::nullopt;
  Answer const whole = oxide_and_base(draft, oxide, other, *acid);
  // Carbon dioxide and the like in excess go on to the acid salt: limewater clears again.
  Acid const* const step = steps_of(*acid).back();
  bool const halfway = acid->protons == 2 && step->protons == 1 && other.sort != Sort::basic_oxide;
  if (!halfway || (!oxide.excess && asked.wanted.empty())) return whole;
  auto further = oxide_and_base(draft, oxide, other, *step);
  if (!further || !further->reacts) return whole;
  if (oxide.excess) {
    further->conditions = fill(words::with_excess, {oxide.key});
    if (whole && !whole->observations.empty() && whole->kind != further->kind)
      further->observations = {whole->observations.front(), words::clears_again};
    return further;
  }
  return makes(*further, asked.wanted) ? further : whole;
}

bool holds_base(Reagent const& reagent) {
  return std::any_of(reagent.parts.begin(), reagent.parts.end(), [](Part const& part) { return part.key == "OH^-"; });
}

}  // namespace

Answer neutralised(Reagent const& a, Reagent const& b, Asked const& asked) {
  for (auto const& [one, other] : {std::pair{&a, &b}, std::pair{&b, &a}}) {
    if (one->sort == Sort::basic_oxide || one->sort == Sort::acidic_oxide)
      if (auto const found = with_oxide(*one, *other, asked)) return found;
    if (one->sort == Sort::ammonia)
      if (auto const found = with_ammonia(*one, *other)) return found;
    bool const dissolved_salt = (one->sort == Sort::salt || one->sort == Sort::ion) && !one->solid();
    if (dissolved_salt && holds_base(*other) && !other->parts.empty())
      if (auto const found = acid_salt_and_base(*one, *other, asked)) return found;
    if (auto const found = acid_salt_and_carbonate(*one, *other)) return found;
  }
  return std::nullopt;
}

}  // namespace molewright::mixing
