#pragma once
// What happens when substances are mixed: read the reactants, find what a table or a rule says, and write the three equations.
// Nothing is said to react without a row or a rule; what cannot be decided says so.
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "engine/equation.h"
#include "engine/fault.h"
#include "engine/formula.h"

namespace molewright {

/// Of a redox reaction; unsaid: as the reactants tell, else acid.
enum class Medium { unsaid, acid, base };

struct Reactant {
  Formula formula;         ///< State::none where none is written: dissolved if it dissolves
  std::int64_t parts = 0;  ///< the number written before it ("2 NaOH"); 0 where none is
  bool excess = false;
  bool concentrated = false;  ///< of an acid; otherwise it is dilute
};

struct Mixture {
  std::vector<Reactant> reactants;
  /// Products written after an arrow: to choose between several ("H3PO4 + NaOH -> NaH2PO4"), and for redox that no table has,
  /// which is then balanced by half-reactions ("MnO4^- + Br^- -> MnO2 + BrO3^- in base").
  std::vector<Formula> wanted;
  Medium medium = Medium::unsaid;
};

/// "BaCl2 + AgNO3", "barium chloride + 2 NaOH", "ZnCl2 + excess NaOH", "MnO4^- + Fe^2+ in acid", "H3PO4 + NaOH -> Na2HPO4".
/// "Cu + concentrated HNO3", "Cu + conc. HNO3", "Zn + HCl (dilute)": unless it is said to be concentrated, an acid is dilute.
/// "NaHCO3 (heat)", "heat NaHCO3": one substance alone is heated, with or without the word.
/// A + between blanks parts the reactants; names are read where a piece is no formula. Faults as parse_formula's, those of names,
/// (engine/nomenclature.h) and "missing-term", "no-reactants", "bad-coefficient", "unbalanced-charge" (NaCl2),
/// "unclear-heat" (of several substances), "too-many-reactants" (more than 6), "text-too-long", "invalid-utf8".
Result<Mixture> read_mixture(std::string_view text);

/// What stays dissolved, and which table or rule says so.
struct StaysDissolved {
  std::string formula, by;
};

struct Mixing {
  bool reacts = false;
  bool decided = false;    ///< false where the tables are silent: then whether it reacts is not known
  std::string kind;        ///< "precipitation", "neutralisation", "gas", "weak acid forms", joined by + where two happen at once;
                           ///< "acid + metal", "metal displacement", "combustion", "thermal decomposition", "redox" ...
  std::string conditions;  ///< "on heating", "with NH3 in excess"; empty for none
  Equation molecular;      ///< balanced, with states; the ionic equation again where the ions fit no single set of formulas
  Equation ionic;          ///< strong electrolytes as ions; the molecular one where nothing is dissolved
  Equation net_ionic;      ///< without spectators, in lowest terms
  std::vector<std::string> spectators;    ///< plain formulas, in the order of the ionic equation
  std::vector<std::string> observations;  ///< what is seen
  std::string because;                    ///< the row or rule that decided; why nothing happens
  std::vector<StaysDissolved> dissolved;  ///< where an exchange of ions makes nothing: what it would make
  bool borderline = false;                ///< slightly soluble, lists that differ, potentials that are close
  std::vector<std::string> warnings;      ///< toxic gases; states that contradict the tables
};

/// Fault "more-than-one-reaction" where several pairs of three or more reactants react.
/// REQUIRES: at least one reactant.
Result<Mixing> mix(Mixture const& mixture);
Result<Mixing> mix(std::vector<Formula> const& reactants);

/// The ionic equations of a reaction that is written out with its states: dissolved strong electrolytes as ions. Nothing where it
/// does not balance, or where nothing is left once the spectators are gone. Only the equations and the spectators are filled in.
std::optional<Mixing> ionic_forms(Equation const& reaction);

/// Why `element` cannot displace what `other` holds in water: "Cu stands below hydrogen in the activity series, ...". Nothing
/// where it can, and where the series does not settle it.
std::optional<std::string> cannot_displace(Formula const& element, Formula const& other);

}  // namespace molewright
