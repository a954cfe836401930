#pragma once
// What names are put together from, shared by naming a formula and by reading a name: the listed names, the endings of elements,
// the numbers in Greek and in Roman, the acids, the spellings.
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "engine/formula.h"
#include "engine/salt.h"
#include "engine/substance.h"

namespace molewright::naming {

/// A row of data/names.tsv.
struct Listed {
  std::string formula, name;  ///< plain; IUPAC spelling
  std::vector<std::string> other_names;
};
std::vector<Listed> const& listed();
/// The row of a substance however its formula is written, or nullptr.
Listed const* find_listed(Formula const& formula);

/// A row of data/naming.tsv: an element as it enters names.
struct ElementName {
  std::string symbol;
  std::string ending;         ///< "oxide"; empty where it ends no name
  int anion_charge = 0;       ///< 2 for O^2-; 0 for no simple ion
  std::vector<int> states;    ///< oxidation states met in compounds
  std::vector<int> usual;     ///< those that a name without a number means; empty for nonmetals
  bool number = false;        ///< names give the state: iron(III)
  int highest() const;        ///< the highest state
  bool has(int state) const;  ///< met in compounds, one atom an ion: mercury(I) is always a pair
};
std::vector<ElementName> const& element_names();
ElementName const* element_name(std::string_view symbol);
/// Nonmetals, and germanium, whose compounds are named as molecules are.
bool named_as_nonmetal(std::string_view symbol);

/// An oxoacid whose name follows from its anion's: sulfate -> sulfuric acid, sulfite -> sulfurous acid. The acids of organic
/// anions and those of hydrogen and one element stand in names.tsv. Source: IUPAC, Nomenclature of Inorganic Chemistry (Red Book
/// 2005), IR-8.3.
struct Acid {
  std::string formula, name;
};
std::vector<Acid> const& acids();

/// "penta" for 5, 1 to 20; empty beyond. Source: Red Book 2005, table IV.
std::string_view multiplying_prefix(std::int64_t number);
/// "dodeca" -> 12; nothing for any other text.
std::optional<std::int64_t> prefix_number(std::string_view prefix);
/// "penta" before "oxide" is "pent", "mono" is "mon"; other names keep the vowel. REQUIRES: number is 1 to 20.
std::string with_prefix(std::int64_t number, std::string_view name);
/// "III"; empty outside 1 to 8.
std::string_view roman(int number);
/// "iron(III)", "zinc"; a metal in one of its states as a name has it. REQUIRES: a metal's row.
std::string metal_name(ElementName const& metal, int state);
/// A compound of two elements, how many atoms of each: "N2O5", "NaCl".
std::string pair_formula(std::string_view first, std::int64_t first_count, std::string_view second, std::int64_t second_count);

/// A name with nothing in it that people write in several ways: small letters, IUPAC spelling (sulfur, aluminium, caesium),
/// without blanks, hyphens and apostrophes, a Roman number or a charge always in brackets ("iron III", "iron(3+)" are
/// "iron(iii)").
std::string key_of(std::string_view name);
/// A name of the tables as a course wants it.
std::string spelled(std::string name, Naming const& naming);

/// What name_of gives, in IUPAC spelling.
std::string composed_name(Formula const& formula);
/// The number of water molecules as it stands before "hydrate": "penta", "hemi"; empty where there is no such word.
std::string hydrate_prefix(Formula const& formula);
/// The salt of a hydrate as a name has it: CaSO4 of (CaSO4)2·H2O. REQUIRES: formula.hydrate().
Formula dry_unit(Formula const& formula);

using Formulas = std::vector<std::string>;
/// REQUIRES: `formula` is one.
Formula parsed(std::string const& formula);
/// The formula that the tables have for the same substance; the same where they have none.
std::string as_listed(std::string const& formula);
/// Compounds of two elements whose numbers are said: "dinitrogen pentoxide", "iron trichloride"; "nitrogen oxide" fits all that
/// are listed. "nitrogen(IV) oxide" too: the listed molecule in that state of its first element.
Formulas read_two_elements(std::string const& key);

/// Where a name leads: plain formulas, none twice. More than one: the name fits them all.
struct Reading {
  Formulas formulas;
  State state = State::none;  ///< written behind the name, or said in a word: "gas", "solution"
};
Reading read_name(std::string_view name);
/// "CaSO4·1/2H2O", "CaSO4·0.5H2O", "2CaSO4·H2O" as it is written here, "(CaSO4)2·H2O"; empty for any other text.
std::string half_hydrate(std::string_view text);

/// A row of data/mixtures.tsv: a material that is no single substance.
struct MaterialName {
  std::string what, holds;
};
MaterialName const* material(std::string_view name);

/// Up to three names near to one that could not be read, best first.
std::vector<std::string> nearest_names(std::string_view name);
/// The same, filled up to three with the nearest of all listed names, however far.
std::vector<std::string> three_nearest(std::string_view name);

}  // namespace molewright::naming
