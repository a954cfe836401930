// Complex ions of the school cases: ammonia and hydroxide in excess, thiosulfate, thiocyanate.
#include <algorithm>

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

bool among(std::vector<std::string> const& list, std::string const& text) {
  return std::find(list.begin(), list.end(), text) != list.end();
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
  if (!row.little.empty() && !source.solid()) draft.warnings.push_back(fill(words::with_little, {name, row.little}));
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
  if (found) found->molecular = found->ionic;
  return found;
}

}  // namespace

Answer complexed(std::vector<Reagent> const& reagents) {
  if (reagents.size() != 2) return std::nullopt;
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
      if (among(row.leaves, source->key)) return nothing(fill(words::not_dissolved_by, {source->key, plain(ligand->formula)}));
      bool const dissolves = among(row.dissolves, source->key);
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
