#pragma once
// Names and formulas, both ways: what a formula is called, and which formula a name means.
// One set of rules serves both: a name is taken apart into the ions, elements, prefixes and water that the names of formulas are
// put together from (engine/nomenclature_parts.h), and what is read is named again by name_of (engine/substance.h).
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "engine/formula.h"
#include "engine/substance.h"

namespace molewright {

struct Identified {
  std::string formula;                   ///< as plain() writes it, without a state
  std::string name;                      ///< as name_of gives it
  std::vector<std::string> other_names;  ///< none twice, and not the name itself
  State state = State::none;             ///< said in the name: "ammonia gas", "limewater"
};

/// A formula or a name, either way. Read without regard to case, blanks and hyphens, in both spellings: `iron (III) sulphate`,
/// `sodium hydrogen carbonate`, `copper(II) sulfate-5-water`, `ferric chloride`, `baking soda`, `sulfate`, `HCl(aq)`. A state
/// behind a formula or a name settles "hydrogen chloride" (g) against "hydrochloric acid" (aq). Fault ids: "unknown-name" (up to
/// three nearest names in `expected`), "ambiguous-name" (the formulas named in `what`), "mixture-name" (no single substance:
/// bauxite), "no-name" (a formula that the tables and rules have no name for), "unbalanced-charge", and those of parse_formula.
Result<Identified> identify(std::string_view formula_or_name, Naming naming = {});

/// The fault of a text of letters that is neither a formula nor a name, as "unknown-name" with the three names of the tables that
/// are nearest, however far; any other fault as it is. For commands that are asked about one substance.
Fault with_nearest_names(Fault fault, std::string_view text, Naming naming = {});

/// The fault of a text that is no formula, as `fault` says: where it is in words, that of a name which is not known
/// ("unknown-name" with the three nearest, "ambiguous-name", "mixture-name"), at the beginning of the text.
Fault fault_of_name(Fault fault, std::string_view text, Naming naming = {});

/// The phthalate that a row of symbols with P at its end stands for: KHP and KNaP are no compounds of phosphorus. The state is
/// kept. Nothing for any other formula.
std::optional<Formula> abbreviated(Formula const& formula);

/// A formula, or the one that a name means: `NaCl`, `sodium chloride`, `KHP`. Faults as parse_formula's for what is no name, and
/// as fault_of_name's.
Result<Formula> formula_or_named(std::string_view text, Naming naming = {});

/// A salt made of known ions whose charges do not add up, as written: NaCl2, CaOH, AlSO4. Id "unbalanced-charge"; `expected` is
/// the formula that does. Nothing for what is listed, for molecules and acids, and for what could be a peroxide, a polysulfide, a
/// mixed oxide or an interstitial compound.
std::optional<Fault> unbalanced_charge(Formula const& formula);

}  // namespace molewright
