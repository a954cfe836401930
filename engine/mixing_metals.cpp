// Metals and halogens: the activity series decides.
#include <algorithm>

#include "engine/mixing_rules.h"
#include "engine/mixing_words.h"
#include "engine/tsv.h"

namespace molewright::data {
extern std::string_view const activity_series_tsv;
}

namespace molewright::mixing {
namespace {

using words::fill;
using Verdict = Dissolving::Verdict;

struct Place {
  std::string element, ion, water, burns_to, note, seen;
  bool metal = false;
  double potential = 0;
};

std::vector<Place> const& series() {
  static std::vector<Place> const made = [] {
    std::vector<Place> result;
    TsvTable const table(data::activity_series_tsv);
    auto const element = table.column("element"), kind = table.column("kind"), ion = table.column("ion"),
               potential = table.column("potential"), water = table.column("water"), burns_to = table.column("burns_to"),
               note = table.column("note"), seen = table.column("seen");
    for (std::size_t row = 0; row < table.size(); ++row) {
      auto const text = [&](std::size_t column) { return std::string(table.cell(row, column)); };
      result.push_back({text(element), text(ion), text(water), text(burns_to), text(note), text(seen), text(kind) == "metal",
                        std::stod(text(potential))});
    }
    return result;
  }();
  return made;
}

Place const* place_of(std::string const& element) {
  for (auto const& place : series())
    if (place.element == element) return &place;
  return nullptr;
}

/// The element of a cation: Fe for Fe^3+ too.
Place const* place_of_ion(Part const& part) {
  if (part.ion.charge <= 0) return nullptr;
  auto const atoms = part.ion.composition();
  return atoms.size() == 1 ? place_of(atoms.begin()->first) : nullptr;
}

bool above(Place const& a, Place const& b) { return &a < &b; }  // rows stand in order

Formula element_formula(Place const& place) {
  return with_state(formula_in(place.element), place.element == "Hg" ? State::liquid : State::solid);
}

Answer with_acid(Reagent const& metal, Place const& own, Reagent const& acid) {
  if (acid.key == "HNO3" && own.element != "Au" && own.element != "Pt") return undecided(words::nitric);
  Place const* const hydrogen = place_of("H");
  if (!above(own, *hydrogen)) return nothing(fill(words::below_hydrogen, {own.element}));
  Draft draft;
  draft.kind = "acid + metal";
  draft.left = {metal.formula, acid.formula};
  draft.because = fill(words::metal_above, {own.element, "hydrogen"});
  draft.borderline = hydrogen->potential - own.potential < 0.15;
  if (draft.borderline) draft.warnings.push_back(words::close);
  if (!own.note.empty() && (own.element == "Al" || own.element == "Cr")) draft.warnings.push_back(own.note);
  if (own.water == "cold") draft.warnings.push_back(fill(words::violent, {own.element}));
  Part const cation = ion_part(own.ion);
  if (acid.sort == Sort::ion) {
    draft.right = {cation.ion};
  } else {
    Acid const* const row = acid_of(with_state(acid.formula, State::none));
    if (row != nullptr && row->strength == Acid::Strength::gas) return undecided(fill(words::silent_on, {acid.key}));
    Formula const salt = salt_of(cation, acid.parts.back());
    Dissolving const found = dissolving(salt);
    if (found.verdict == Verdict::unknown || found.verdict == Verdict::not_formed)
      return undecided(fill(words::silent_on, {key_of(salt)}));
    if (found.verdict != Verdict::soluble) return nothing(fill(words::metal_coated, {key_of(salt)}), true);
    draft.right = {with_state(salt, State::aqueous)};
  }
  draft.right.push_back(with_state(formula_in("H2"), State::gas));
  return worked_out(draft);
}

Answer with_salt(Reagent const& metal, Place const& own, Reagent const& salt) {
  std::vector<Part const*> cations;
  for (auto const& part : salt.parts)
    if (part.ion.charge > 0) cations.push_back(&part);
  if (cations.size() != 1) return std::nullopt;
  Place const* const other = place_of_ion(*cations[0]);
  bool const oxide = salt.sort == Sort::basic_oxide;
  if (other == nullptr || other->element == "H") {
    if (cations[0]->key == "NH4^+") return undecided(fill(words::silent_on, {"NH4^+ with metals"}));
    return undecided(fill(words::not_in_series, {salt.key}));
  }
  // Fe + Fe^3+, Cu + Fe^3+: the series speaks of other ions, the half-reactions know.
  bool const of_series = cations[0]->key == other->ion || cations[0]->key == "Cu^+" || cations[0]->key == "Hg2^2+";
  if (own.element == other->element) return of_series ? Answer(nothing(fill(words::own_salt, {own.element}))) : std::nullopt;
  if (!of_series && !oxide) return std::nullopt;
  if (!above(own, *other)) return nothing(fill(words::metal_below, {own.element, other->element}));
  if (own.water == "cold" && !oxide) return nothing(fill(words::reacts_with_water, {own.element}));
  if (!oxide && salt.solid()) return undecided(fill(words::solid_stays, {salt.key}));
  Draft draft;
  draft.kind = oxide ? "redox" : "metal displacement";
  draft.conditions = oxide ? "on heating" : "";
  draft.left = {metal.formula, salt.formula};
  draft.because = fill(words::metal_above, {own.element, other->element});
  double const apart = other->potential - own.potential;
  draft.borderline = apart < 0.05;
  if (draft.borderline) draft.warnings.push_back(words::close);
  if (own.element == "Al") draft.warnings.push_back(own.note);
  Part const cation = ion_part(own.ion);
  if (salt.sort == Sort::ion) {
    draft.right = {cation.ion};
  } else if (oxide) {
    draft.right = {with_state(salt_of(cation, ion_part("O^2-")), State::solid)};
  } else {
    for (auto const& part : salt.parts) {
      if (part.ion.charge > 0) continue;
      Formula const formed = salt_of(cation, part);
      Dissolving const found = dissolving(formed);
      if (found.verdict == Verdict::unknown || found.verdict == Verdict::not_formed)
        return undecided(fill(words::silent_on, {key_of(formed)}));
      if (found.verdict != Verdict::soluble) return nothing(fill(words::metal_coated, {key_of(formed)}), true);
      draft.right.push_back(with_state(formed, State::aqueous));
    }
  }
  draft.right.push_back(element_formula(*other));
  return worked_out(draft);
}

Answer with_water(Reagent const& metal, Place const& own, Reagent const& water) {
  if (own.water == "none" || own.water.empty()) return nothing(fill(words::no_water, {own.element}));
  Draft draft;
  draft.kind = "metal + water";
  draft.left = {metal.formula, water.formula};
  draft.because = fill(words::metal_above, {own.element, "hydrogen"});
  Part const cation = ion_part(own.ion);
  if (own.water == "cold") {
    draft.right = {with_state(salt_of(cation, ion_part("OH^-")), State::aqueous)};
  } else {
    draft.conditions = "in steam";
    draft.left[1] = with_state(water.formula, State::gas);
    draft.right = {with_state(salt_of(cation, ion_part("O^2-")), State::solid)};
  }
  draft.right.push_back(with_state(formula_in("H2"), State::gas));
  return worked_out(draft);
}

}  // namespace

Answer with_metal(Reagent const& metal, Reagent const& other) {
  Place const* const own = place_of(lone_element(metal.formula));
  if (own == nullptr) return std::nullopt;
  switch (other.sort) {
    case Sort::acid:
      return with_acid(metal, *own, other);
    case Sort::ion:
      return other.key == "H^+" ? with_acid(metal, *own, other) : with_salt(metal, *own, other);
    case Sort::salt:
    case Sort::basic_oxide:
      return with_salt(metal, *own, other);
    case Sort::water:
      return with_water(metal, *own, other);
    case Sort::oxygen: {
      if (own->burns_to.empty()) return nothing(fill(words::does_not_burn, {own->element}));
      Draft draft;
      draft.kind = "combustion";
      draft.conditions = "on heating";
      draft.left = {metal.formula, other.formula};
      draft.right = {with_state(formula_in(own->burns_to), State::solid)};
      draft.because = "the activity series table: " + own->element + " burns to " + own->burns_to;
      if (!own->seen.empty()) draft.observations = {own->seen};
      if (!own->note.empty() && own->element != "Al") draft.warnings.push_back(own->note);
      return worked_out(draft);
    }
    default:
      return std::nullopt;
  }
}

Answer with_halogen(Reagent const& halogen, Reagent const& salt) {
  Place const* const own = place_of(lone_element(halogen.formula));
  if (own == nullptr || own->metal || (salt.sort != Sort::salt && salt.sort != Sort::ion)) return std::nullopt;
  for (auto const& part : salt.parts) {
    auto const other =
        std::find_if(series().begin(), series().end(), [&](Place const& place) { return !place.metal && place.ion == part.key; });
    if (other == series().end()) continue;
    if (salt.parts.size() > 2 || salt.solid()) return std::nullopt;
    if (&*other == own) return nothing(fill(words::own_salt, {own->element}));
    if (!above(*own, *other)) return nothing(fill(words::halogen_below, {own->element, other->element}));
    if (own->element == "F2") return undecided(own->note);
    // A metal that the halogen oxidises too (Fe^2+) is for the half-reactions.
    if (salt.parts[0].key == "Fe^2+" || salt.parts[0].key == "Sn^2+") return std::nullopt;
    Draft draft;
    draft.kind = "halogen displacement";
    draft.left = {halogen.formula, salt.formula};
    draft.because = fill(words::halogen_above, {own->element, other->element});
    if (salt.sort == Sort::ion) {
      draft.right = {ion_part(own->ion).ion};
    } else {
      Formula const formed = salt_of(salt.parts[0], ion_part(own->ion));
      if (dissolving(formed).verdict != Verdict::soluble) return undecided(fill(words::silent_on, {key_of(formed)}));
      draft.right = {with_state(formed, State::aqueous)};
    }
    draft.right.push_back(with_state(formula_in(other->element), State::aqueous));
    return worked_out(draft);
  }
  return std::nullopt;
}

}  // namespace molewright::mixing

namespace molewright {

std::optional<std::string> cannot_displace(Formula const& element, Formula const& other) {
  using namespace mixing;
  Place const* const own = place_of(lone_element(with_state(element, State::none)));
  if (own == nullptr || other.charge != 0 || reagent_of({other, 0, false}).formula.state != State::aqueous) return std::nullopt;
  for (auto const& part : parts_of(with_state(other, State::none))) {
    Place const* held = nullptr;
    if (own->metal)
      held = part.key == "H^+" ? place_of("H") : place_of_ion(part);
    else
      for (auto const& place : series())
        if (!place.metal && place.ion == part.key) held = &place;
    if (held == nullptr || held == own || above(*own, *held)) continue;
    if (own->metal && held->element == "H") return words::fill(words::below_hydrogen, {own->element});
    return words::fill(own->metal ? words::metal_below : words::halogen_below, {own->element, held->element});
  }
  return std::nullopt;
}

}  // namespace molewright
