#pragma once
// What is said of finds that are stated: one table, apart from the logic, so that it can be translated.
#include <string>

namespace molewright::words {

inline constexpr char const* other_substances = "substances for which the tables settle it";
inline constexpr char const* dissolved_substances = "a reaction of dissolved substances";
inline constexpr char const* states = "(s), (l), (g) or (aq) behind every formula";
inline constexpr char const* named_substance = "a substance with a name of its own";
inline constexpr char const* no_reagent = "none of these reagents does what is asked";
inline constexpr char const* another_reagent = "one that gives a solid with the first and none with the others";
inline constexpr char const* one_reagent = "one reagent only that does what is asked";
inline constexpr char const* a_reaction_line = "a line such as reaction BaCl2(aq) + Na2SO4(aq)";

inline std::string undecided(std::string const& mixed, std::string const& because) {
  return "what happens to " + mixed + " is not known: " + because;
}
inline std::string borderline(std::string const& mixed, std::string const& because) {
  return "what happens to " + mixed + " is a borderline case: " + because;
}
inline std::string nothing_left(std::string const& equation) {
  return "without the ions that stand on both sides nothing is left of " + equation;
}
inline std::string states_needed(std::string const& equation) { return "the states in " + equation + " are not known"; }
inline std::string no_name(std::string const& formula) { return "the tables have no name for " + formula; }
inline std::string name_not_unique(std::string const& name) { return "the name " + name + " does not lead to one formula"; }
inline std::string several_reagents(std::string const& which) { return "more than one of these reagents would do: " + which; }
inline std::string no_reaction(std::string const& find) { return "there is no reaction for the " + find; }

}  // namespace molewright::words
