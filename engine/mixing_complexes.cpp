// Complex ions of the school cases: ammonia and hydroxide in excess, thiosulfate, thiocyanate.
#include <algorithm>

#include "engine/lists.h"
#include "engine/mixing_rules.h"
#include "engine/mixing_words.h"
#include "engine/tsv.h"

namespace molewright::data {
extern std::string_view const complexes_tsv;
}

namespace molewright::mixing {
namespace {

using words::fill;

struct Complex {
  std::string ion, with, formula, excess, little;
  std::vector<std::string> dissolves, leaves;
};

std::vector<Complex> const& complexes() {
  static std::vector<Complex> const made = [] {
    std::vector<Complex> result;
    TsvTable const table(data::complexes_tsv);
    auto const ion = table.column("ion"), with = table.column("with"), formula = table.column("complex"),
               excess = table.column("excess"), little = table.column("little"), dissolves = table.column("dissolves"),
               leaves = table.column("not");
    for (std::size_t row = 0; row < table.size(); ++row) {
      auto const text = [&](std::size_t column) { return std::string(table.cell(row, column)); };
      Complex entry{text(ion), text(with), text(formula), text(excess), text(little), {}, {}};
      for (auto const name : split_list(table.cell(row, dissolves))) entry.dissolves.emplace_back(name);
      for (auto const name : split_list(table.cell(row, leaves))) entry.leaves.emplace_back(name);
      result.push_back(entry);
    }
    return result;
  }();
  return made;
}

/// The ligand that a reagent brings, as the table names it, and the rest of it.
bool brings(Reagent const& reagent, std::string const& ligand) {
  if (ligand == "NH3") return reagent.key == "NH3";
  if (reagent.formula.state != State::aqueous) return false;
  return std::any_of(reagent.parts.begin(), reagent.parts.end(), [&](Part const& part) { return part.key == ligand; });
}

Answer built(Complex const& row, Reagent const& source, Reagent const& ligand, std::vector<Part> const& centres) {
  Draft draft;
  draft.kind = "complex formation";
  draft.left = {source.formula, ligand.formula};
  Part const complex = ion_part(row.formula);
  std::string const name = plain(ligand.formula);
  bool const amphoteric = row.with == "OH^-";
  draft.because = amphoteric ? fill(words::amphoteric, {source.key, row.formula})
                             : fill(words::complex_forms, {row.ion, row.formula, row.with});
  if (!row.excess.empty()) draft.conditions = fill(words::with_excess, {name});
  if (!row.little.empty() && !source.solid()) {
    draft.observations = {fill(words::first_then_dissolves, {name, row.little})};
    std::string const before = ion_colour(row.ion), after = ion_colour(row.formula);
    if (!before.empty() && !after.empty())
      draft.observations.push_back(fill(words::colour_turns, {before, after}));
    else if (!after.empty())
      draft.observations.push_back(fill(words::colour_comes, {after}));
    else
      draft.observations.emplace_back(words::clear_again);
  }
  bool const bare = source.sort == Sort::ion || ligand.sort == Sort::ion;
  std::vector<Part> plus, minus;  // what else there is
  for (auto const* reagent : {&source, &ligand}) {
    if (reagent->key == "NH3") continue;
    for (auto const& part : reagent->parts) {
      bool const centre = reagent == &source && part.key == centres[0].key;
      if (!centre && part.key != row.with && part.key != "O^2-" && !(amphoteric && part.key == "OH^-"))
        (part.ion.charge > 0 ? plus : minus).push_back(part);
    }
  }
  if (bare) {
    draft.right = {complex.ion};
    for (auto const* list : {&plus, &minus})
      for (auto const& part : *list) draft.right.push_back(part.ion);
  } else if (complex.ion.charge > 0) {
    for (auto const& part : source.parts) {
      if (part.ion.charge > 0) continue;
      bool const oxide = part.key == "O^2-";
      draft.right.push_back(with_state(salt_of(complex, oxide ? ion_part("OH^-") : part), State::aqueous));
    }
  } else {
    for (auto const& cation : plus) {
      draft.right.push_back(with_state(salt_of(cation, complex), State::aqueous));
      for (auto const& anion : minus) {
        Formula const salt = salt_of(cation, anion);
        auto const found = dissolving(salt);
        if (found.verdict != Dissolving::Verdict::soluble) return undecided(fill(words::silent_on, {key_of(salt)}));
        draft.right.push_back(with_state(salt, State::aqueous));
      }
    }
  }
  if (source.sort == Sort::basic_oxide) draft.left.push_back(with_state(formula_in("H2O"), State::liquid));
  return worked_out(draft);
}

/// Iron(III) thiocyanate: one ligand takes the place of one ion, so only ions tell the tale.
Answer red_iron(Complex const& row, Reagent const& source, Reagent const& ligand) {
  Draft draft;
  draft.kind = "complex formation";
  draft.because = fill(words::complex_forms, {row.ion, row.formula, row.with});
  auto const net = parse_equation(row.ion + "(aq) + " + row.with + "(aq) -> " + row.formula + "(aq)");
  auto found = ok(net) ? dressed(draft, value(net), {source, ligand}) : std::nullopt;
  if (!found) return found;
  found->molecular = found->ionic;
  if (source.parts.size() != 2 || ligand.parts.size() != 2) return found;
  // As whole formulas: [FeSCN]Cl2 and KCl.
  Part const& anion = source.parts.back();
  Draft whole;
  whole.left = {source.formula, ligand.formula};
  for (Formula const& salt : {salt_of(ion_part(row.formula), anion), salt_of(ligand.parts.front(), anion)})
    whole.right.push_back(with_state(salt, State::aqueous));
  if (auto const molecular = worked_out(whole); molecular && plain(molecular->net_ionic) == plain(found->net_ionic))
    found->molecular = molecular->molecular;
  return found;
}

/// An ammine complex and an acid: the acid takes the ammonia, and the metal's ion or its salt is left.
Answer ammine_and_acid(Complex const& row, Reagent const& source, Reagent const& acid) {
  if (acid.key != "H^+" && (acid.sort != Sort::acid || dissolved_ions(with_state(acid.formula, State::aqueous)).empty()))
    return undecided(fill(words::silent_on, {row.formula + " with " + acid.key}));
  Part const metal = ion_part(row.ion), ammonium = ion_part("NH4^+");
  Draft draft;
  draft.kind = "complex taken apart";
  draft.left = {source.formula, acid.formula};
  draft.because = fill(words::ammine_in_acid, {row.formula});
  if (source.sort == Sort::ion || acid.sort == Sort::ion) {
    draft.right = {metal.ion, ammonium.ion};
    for (auto const* reagent : {&source, &acid})
      for (auto const& part : reagent->parts)
        if (part.ion.charge < 0) draft.right.push_back(part.ion);
    return worked_out(draft);
  }
  Part const& own = source.parts.back();
  Part const& acids = acid.parts.back();
  if (own.key == "OH^-") return undecided(fill(words::silent_on, {source.key + " with " + acid.key}));
  auto const verdict = [&](Part const& anion) { return dissolving(salt_of(metal, anion)).verdict; };
  auto const salt = [&](Part const& anion) {
    return with_state(salt_of(metal, anion), verdict(anion) == Dissolving::Verdict::soluble ? State::aqueous : State::solid);
  };
  draft.right = {with_state(salt_of(ammonium, acids), State::aqueous)};
  if (verdict(acids) == Dissolving::Verdict::soluble || own.key == acids.key) {
    draft.right.push_back(salt(own));
  } else {
    draft.right.push_back(salt(acids));
    draft.right.push_back(with_state(salt_of(ammonium, own), State::aqueous));
  }
  return worked_out(draft);
}

/// A hydroxido complex and an acid or carbon dioxide: the hydroxide comes back, and more acid dissolves it.
Answer hydroxide_back(Complex const& row, Reagent const& source, Reagent const& acid) {
  bool const carbon_dioxide = acid.key == "CO2";
  if (!carbon_dioxide && (acid.sort != Sort::acid || dissolved_ions(with_state(acid.formula, State::aqueous)).empty()))
    return undecided(fill(words::silent_on, {row.formula + " with " + acid.key}));
  if (source.sort == Sort::ion || source.parts.size() != 2) return undecided(fill(words::silent_on, {row.formula}));
  Part const& partner = source.parts.front();
  std::string const& hydroxide = row.dissolves.front();
  Draft draft;
  draft.kind = "complex taken apart";
  draft.left = {source.formula, acid.formula};
  draft.because = fill(words::hydroxide_in_acid, {row.formula, hydroxide});
  if (carbon_dioxide) {
    draft.right = {with_state(formula_in(hydroxide), State::solid),
                   with_state(salt_of(partner, ion_part("HCO3^-")), State::aqueous)};
    return worked_out(draft);
  }
  Part const& anion = acid.parts.back();
  Formula const salt = salt_of(ion_part(row.ion), anion);
  if (acid.excess && dissolving(salt).verdict != Dissolving::Verdict::soluble)
    return undecided(fill(words::silent_on, {key_of(salt)}));
  draft.right = {acid.excess ? with_state(salt, State::aqueous) : with_state(formula_in(hydroxide), State::solid),
                 with_state(salt_of(partner, anion), State::aqueous), with_state(formula_in("H2O"), State::liquid)};
  if (acid.excess)
    draft.conditions = fill(words::with_excess, {acid.key});
  else
    draft.warnings.push_back(fill(words::more_acid_dissolves, {acid.key, hydroxide}));
  return worked_out(draft);
}

/// A complex of the table and an acid that takes its ligands away.
Answer taken_apart(Reagent const& source, Reagent const& acid) {
  bool const acidic = acid.sort == Sort::acid || acid.key == "H^+" || acid.key == "CO2";
  if (!acidic || source.formula.state != State::aqueous) return std::nullopt;
  for (auto const& row : complexes())
    for (auto const& part : source.parts) {
      if (part.key != row.formula) continue;
      if (row.with == "NH3" && acid.key != "CO2") return ammine_and_acid(row, source, acid);
      if (row.with == "OH^-") return hydroxide_back(row, source, acid);
    }
  return std::nullopt;
}

}  // namespace

std::vector<std::string> in_excess(Mixing const& mixing, std::vector<Reagent> const& reagents) {
  std::vector<std::string> texts;
  for (auto const& species : mixing.net_ionic.right) {
    std::string const key = plain(species.formula);
    if (species.formula.state != State::solid) continue;
    for (auto const& row : complexes())
      for (auto const& reagent : reagents)
        if (contains(row.dissolves, key) && brings(reagent, row.with))
          texts.push_back(fill(words::more_dissolves, {plain(reagent.formula), key, row.formula}));
  }
  return texts;
}

Answer complexed(std::vector<Reagent> const& reagents) {
  if (reagents.size() != 2) return std::nullopt;
  for (auto const& [source, acid] : {std::pair{&reagents[0], &reagents[1]}, std::pair{&reagents[1], &reagents[0]}})
    if (auto const found = taken_apart(*source, *acid)) return found;
  for (auto const& [source, ligand] : {std::pair{&reagents[0], &reagents[1]}, std::pair{&reagents[1], &reagents[0]}}) {
    for (auto const& row : complexes()) {
      if (!brings(*ligand, row.with) || source->sort == Sort::acid || source->sort == Sort::metal) continue;
      std::vector<Part> centres;
      std::size_t cations = 0;
      for (auto const& part : source->parts) {
        cations += part.ion.charge > 0 ? 1U : 0U;
        if (part.key == row.ion) centres.push_back(part);
      }
      if (centres.empty()) continue;
      if (contains(row.leaves, source->key)) return nothing(fill(words::not_dissolved_by, {source->key, plain(ligand->formula)}));
      bool const dissolves = contains(row.dissolves, source->key);
      if (source->solid() && !dissolves && source->dissolves.verdict == Dissolving::Verdict::insoluble) continue;
      if (source->sort == Sort::basic_oxide && !dissolves) continue;
      if (cations > 1) continue;
      // A dissolved salt of an amphoteric metal gives the hydroxide first; the complex only where an excess is asked for.
      if (row.excess == "stated" && !dissolves && !ligand->excess) continue;
      if (row.with == "SCN^-") return red_iron(row, *source, *ligand);
      return built(row, *source, *ligand, centres);
    }
  }
  return std::nullopt;
}

}  // namespace molewright::mixing
