#pragma once
// What the tables know of a substance: its name, and whether and how well it dissolves in water.
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "engine/decimal.h"

namespace molewright {

enum class Spelling { sulfur, sulphur };
enum class Aluminium { aluminium, aluminum };  ///< aluminum: cesium too
enum class AceticAcid { acetic, ethanoic };    ///< ethanoic: ethanoates, methanoic acid and methanoates too
enum class Hydrogencarbonate { hydrogencarbonate, bicarbonate };

/// Which of two names of the trade is printed. All of them are read, whatever is printed.
struct Naming {
  Spelling spelling = Spelling::sulfur;
  Aluminium aluminium = Aluminium::aluminium;
  AceticAcid acetic_acid = AceticAcid::acetic;
  Hydrogencarbonate hydrogencarbonate = Hydrogencarbonate::hydrogencarbonate;
  Naming(Spelling of_sulfur = Spelling::sulfur) : spelling(of_sulfur) {}
  friend bool operator==(Naming const&, Naming const&) = default;
};

/// Name from data/names.tsv (and hydrates composed with their Greek prefix: "copper(II) sulfate pentahydrate").
/// `formula` is a plain formula; compounds are matched by identity, then by composition where only one substance has it
/// (not for isomers: C, H and no metal; nor for square brackets). Ions are "sulfate ion", an element has its name, and a salt of
/// one cation and one anion that is not listed is named from its ions. Empty where all that is silent.
std::string name_of(std::string_view formula, Naming naming = {});

/// Whether a plain formula with no state written means a gas: an element or a compound that is one at room temperature and that
/// nobody takes for its solution in water, as HCl and NH3 may be.
bool is_surely_a_gas(std::string_view formula);

struct Solubility {
  std::string formula;  ///< anhydrous, plain
  std::string name;
  enum class Verdict { soluble, slightly_soluble, insoluble, reacts, unknown } verdict = Verdict::unknown;
  std::optional<Rational> grams_per_100g_water;  ///< at 20 °C (25 °C where only that is known), anhydrous salt
  std::string hydrate_usually_bought;            ///< plain formula; empty for none
  std::string colour_of_solid;
};
/// nullptr where the table is silent. `formula` may be a hydrate: its anhydrous salt is looked up.
Solubility const* solubility(std::string_view formula);
std::vector<Solubility> const& solubilities();

struct Ion {
  std::string formula;  ///< "SO4^2-"
  std::string name;
  int charge = 0;
  bool usual = true;  ///< of the usual school list, which published rules of solubility have in mind
};
std::vector<Ion> const& ions();
/// The ions of a salt and how many of each ("Ca(NO3)2" -> 1 Ca^2+, 2 NO3^-); empty where it is not a salt of the table's ions
/// (acids and molecules are not taken apart). Cations first. Alums, double and basic salts have three. Water of crystallisation
/// is left out.
struct IonCount {
  std::string ion;
  std::int64_t count = 1;
};
std::vector<IonCount> ions_of(std::string_view formula);

/// Usual cautions for a reagent at school, as bought (the concentrated acid; the hydrate, where only that is listed),
/// second-hand: "Check the safety data sheet." is added by whoever prints them. Empty where the table is silent.
struct Caution {
  std::string hazards;  ///< "H272 H314 H410"
  std::string text;     ///< short cautions
  bool listed = true;   ///< false: the tables have none, and the text says so
};
std::optional<Caution> caution_for(std::string_view formula);
/// What to print with a substance: its own caution; where it has none, those of the ions that it holds (lead, chromate), for a
/// salt of a poisonous ion is poisonous; else that the tables have none, so that silence is not read as safety. The text is empty
/// for a lone ion without a row: it comes with a salt.
Caution caution_to_print(std::string_view formula);

}  // namespace molewright
