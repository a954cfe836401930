#pragma once
// A substance as it goes into a mixture or comes out of it: which ions it holds, spelled as its formula spells them, and whether
// it dissolves.
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "engine/formula.h"
#include "engine/mixing.h"

namespace molewright::mixing {

/// An ion as spelled in a formula, and as the tables spell it.
struct Part {
  Formula ion;      ///< C2H3O2^-
  std::string key;  ///< "CH3COO^-"
  std::int64_t count = 1;
  bool first = false;  ///< an anion that stands before its cation: CH3COONa
};

/// A row of acids.tsv.
struct Acid {
  std::vector<std::string> spellings;
  std::string anion;
  std::int64_t protons = 1;
  enum class Strength { strong, weak, gas } strength = Strength::weak;
  double pka = 0;        ///< of the last proton given up
  double first_pka = 0;  ///< of the first
  std::vector<Formula> gives;
  std::vector<std::string> oxides;
};
/// The row for all protons of an acid; nullptr for no acid.
Acid const* acid_of(Formula const& formula);
/// The row for what an anion (table spelling) becomes in acid; nullptr where the table is silent.
Acid const* acid_with(std::string_view anion);
/// The rows of one acid, from the most protons given up to the fewest.
std::vector<Acid const*> steps_of(Acid const& acid);
/// The row whose anhydride this is.
Acid const* acid_from_oxide(Formula const& formula);

/// The ions of a salt (cations first), of an acid (H^+ first), or a bare ion itself; empty for other substances.
std::vector<Part> parts_of(Formula const& formula);
/// The ions as written in an ionic equation: parts_of for what is dissolved and a strong electrolyte, else empty.
std::vector<Part> dissolved_ions(Formula const& formula);
/// One cation and one anion as a formula without state, charges made equal.
Formula salt_of(Part const& cation, Part const& anion);
/// The acid as the anion's spelling asks for: C2H3O2^- gives HC2H3O2.
Formula acid_spelled(Acid const& acid, Part const& anion);
Part ion_part(std::string_view plain_ion);

/// Whether a salt dissolves, and who says so.
struct Dissolving {
  enum class Verdict { soluble, slightly, insoluble, not_formed, unknown } verdict = Verdict::unknown;
  bool disputed = false;  ///< school lists differ
  std::string by;         ///< "the solubility table", "the rule for CO3^2- (source)"
};
Dissolving dissolving(Formula const& salt);

enum class Sort { ion, acid, salt, base, ammonia, basic_oxide, acidic_oxide, metal, halogen, water, oxygen, molecule };

struct Reagent {
  Formula formula;  ///< with the state that it has in the mixture; without crystal water where it dissolves
  std::string key;  ///< plain formula without state and crystal water
  Sort sort = Sort::molecule;
  std::vector<Part> parts;  ///< parts_of
  std::int64_t stated = 0;  ///< the number written before it
  bool excess = false;
  bool concentrated = false;
  bool state_said = false;
  Dissolving dissolves;  ///< of a salt or a base
  std::vector<std::string> warnings;
  bool solid() const { return formula.state == State::solid; }
};
Reagent reagent_of(Reactant const& reactant);

/// Formulas of a cell, states included: "Al(OH)3(s); CO2(g)". Throws std::invalid_argument for a cell that is none.
std::vector<Formula> formulas_in(std::string_view cell);
Formula formula_in(std::string_view text);
std::string key_of(Formula const& formula);  ///< plain, without state
Formula with_state(Formula formula, State state);
/// An element alone: "Zn", "Cl2"; empty otherwise.
std::string lone_element(Formula const& formula);
/// Colour of an ion in water by ions.tsv ("blue"); empty for colourless and unknown.
std::string ion_colour(std::string_view ion);

}  // namespace molewright::mixing
