#pragma once
// Chemical formulas: CuSO4·5H2O, [Cu(NH3)4]SO4·H2O, SO4^2-, Fe3+, e^-.
#include <cstdint>
#include <map>
#include <string>
#include <string_view>
#include <vector>

#include "engine/fault.h"

namespace molewright {

/// An element with its subscript, or a bracket with the number after it.
struct Group {
  std::string element;        ///< empty for a bracket
  std::vector<Group> inside;  ///< empty for an element
  char bracket = '(';         ///< '(' or '['
  std::int64_t count = 1;
};

/// One part between hydrate dots: 5H2O has multiplier 5.
struct FormulaPart {
  std::int64_t multiplier = 1;
  std::vector<Group> groups;
};

enum class State { none, solid, liquid, gas, aqueous };

struct Formula {
  std::vector<FormulaPart> parts;  ///< the first is the compound, the rest what it crystallises with; empty for the electron
  int charge = 0;
  State state = State::none;
  bool electron = false;

  /// Atoms of each element in one formula unit (symbol -> count); none for the electron.
  std::map<std::string, std::int64_t> composition() const;
  bool hydrate() const;  ///< holds water of crystallisation: not CuCO3·Cu(OH)2
};

/// Reads every spelling of the contract, states and arrows (↓ is solid, ↑ gas) included; no leading coefficient. `SO42-` is read
/// as SO4 2-, `Fe3+` as Fe 3+, `Cr2O72-` as Cr2O7 2-, `NO3-` as NO3 1-, `NH4+`, `Hg2^2+`. At most 50 nested brackets (fault
/// "nested-too-deep") and counts up to 9999. Digits typed without ^ are the charge of a lone atom or of square brackets (O2- is
/// oxide, [Fe(CN)6]4-); elsewhere the last of two or more digits is the charge and a single one a subscript. I3- is triiodide.
/// Fault ids: "unknown-element", "bracket-not-closed", "bracket-too-many", "brackets-crossed", "empty-bracket", "empty-formula",
/// "charge-without-sign", "count-out-of-range", "unknown-state", "not-a-formula", "invalid-utf8", "text-too-long" (20000 bytes).
/// A letter of `unknown` that is no element stands for an unknown one, or for an unknown ion: A of HA, M of M2CO3.
Result<Formula> parse_formula(std::string_view text, std::string_view unknown = {});

/// Capitals that are no elements and with which books write what is not known: HA, MX, R-OH. Common practice, no source.
inline constexpr std::string_view unknown_letters = "AEGJLMQRXZ";
/// Whether the letter at `at` may be meant so and is no misspelt element: not the L of NaCL, the Z of ZN, the X of Xa. (MO is the
/// oxide of a metal, and MCO3 its carbonate.)
bool may_stand_for_unknown(std::string_view text, std::size_t at);

/// ASCII with `^2+` charges and `·` for hydrates, no state: the identity of a substance in the program.
std::string plain(Formula const& formula);
/// As set in print: "CuSO₄·5H₂O", "SO₄²⁻", "e⁻".
std::string pretty(Formula const& formula);
/// "(s)", "(aq)", "" ...
std::string plain(State state);
/// The formula without its water of crystallisation; the same where it has none.
Formula anhydrous(Formula const& formula);
/// Count of water molecules in a hydrate; 0 for none.
std::int64_t waters(Formula const& formula);
/// pretty(parse_formula(text)) where that is possible, else `text` unchanged: for printing identities.
std::string pretty_formula(std::string_view plain_text);

}  // namespace molewright
