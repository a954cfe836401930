#pragma once
// The printed form of a working: an ordered list of steps in plain words, with numbers and units.
#include <string>
#include <string_view>
#include <vector>

#include "engine/conventions.h"
#include "engine/solver.h"
#include "engine/working.h"

namespace molewright {

struct Step {
  int node = 0;
  std::string relation;
  std::string text;  ///< "n(BaCl₂) = c(BaCl₂) × V(BaCl₂) = 0.150 mol/L × 0.0400 L = 0.006000 mol": two guard digits kept
  std::string symbol;  ///< plain quantity
  std::string value;   ///< plain number, guard digits kept
  std::string unit;    ///< plain
  std::string line{};  ///< the text without what becomes of its units and without what must be so for its relation to hold
};

/// Steps for one find, from `order_of_work`, givens left out; a node already shown for an earlier find is not repeated.
std::vector<Step> steps(Worked const& worked, Working const& working, std::size_t find, Conventions const& conventions);
/// A step before it is worked: what it finds, and by which symbols.
struct StepInSymbols {
  std::string left;   ///< "n(BaCl₂)", "n(H₂) / ν(H₂)"
  std::string right;  ///< "c(BaCl₂) × V(BaCl₂)"; empty where there is nothing to write (a change of unit, a choice)
                      ///< or where it would give the choice away
};
StepInSymbols step_in_symbols(Worked const& worked, Working const& working, int node, Conventions const& conventions);
/// Words with their units as the course prints them: "mol/L" in the course's spelling and, where volumes are in cm³, mL and L as
/// cm³ and dm³. A unit is a word of its own.
std::string in_units_of_course(std::string_view text, Conventions const& conventions);
/// A unit as the course prints it: pretty, and amount concentrations in the course's spelling of mol/L.
std::string unit_text(Unit const& unit, Conventions const& conventions);
/// Number and unit joined by a no-break space, "25.0 mL"; the number alone where there is no unit.
std::string measure_text(std::string const& number, Unit const& unit, Conventions const& conventions);
/// "m(AgCl) = 1.72 g": the answer as a key prints it, for people.
std::string answer_line(Worked const& worked, Working const& working, std::size_t find, Conventions const& conventions);
/// How a part is headed for people: "n(BaCl₂)", "balanced equation", "formula of iron(III) sulfate"; never what gives it away.
std::string find_label(Find const& find, Conventions const& conventions);
/// "(a)" ... for parts; empty where the problem has one find.
std::string part_letter(Worked const& worked, std::size_t find);

}  // namespace molewright
