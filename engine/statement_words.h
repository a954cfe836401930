#pragma once
// Lines that say what they mean in other ways: by their unit, by the names of substances, by what people write beside a value.
#include <optional>
#include <string>
#include <string_view>

#include "engine/equation.h"
#include "engine/fault.h"
#include "engine/quantity.h"

namespace molewright {

/// The unit tells which quantity is meant: a solubility or a concentration in g/L is a mass concentration, an M or a C in mol/L a
/// concentration, a c in J/(g K) a specific heat capacity, a w in % (v/v) a volume fraction, a concentration in ppm a mass
/// fraction.
void take_unit(Quantity& of, Unit const& unit);

/// "magnesium + hydrochloric acid -> magnesium chloride + hydrogen" in formulas; empty where a term is no name and no formula.
/// `not_understood`, with its place in `words`, where such a term is in words: a name that is not known.
struct EquationInWords {
  std::string formulas;
  std::optional<Fault> not_understood;
};
EquationInWords in_formulas(std::string_view words);

/// Puts what an abbreviation stands for in its place: KHP in an equation is potassium hydrogenphthalate.
void take_abbreviations(Equation& equation);

/// The C of "25 C", up to the end or the next word of a find: a degree Celsius, whatever it is of.
bool is_degree_letter(std::string_view text);

/// `first` is what the readers say of the line. Where it stumbles over something that people do write, what it means cannot be
/// told for certain, and what to write instead is said: a comma in a number, a ratio 1:10, "at STP".
Fault what_was_meant(Fault first, std::string_view line);

}  // namespace molewright
