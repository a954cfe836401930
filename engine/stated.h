#pragma once
// Finds whose answer is stated and not worked out: an equation, a name, a formula, a precipitate, a choice of reagent. What each
// comes to, and the lines that lead there.
#include <cstddef>
#include <optional>
#include <string>
#include <variant>
#include <vector>

#include "engine/conventions.h"
#include "engine/problem.h"

namespace molewright {

/// One line; it becomes a node of the working (Operation::stated).
struct Statement {
  std::string id;
  char const* relation = "";  ///< one of namespace relations
  std::string substance;      ///< what it is about; empty for the reaction
  std::string part;           ///< the salt that a reagent is mixed with
  std::string says;
  std::vector<std::size_t> reads;  ///< lines before it
};
/// The last line holds the answer. Faults: "no-reaction-line", "not-decided" and "borderline" (the tables do not settle what
/// happens), "states-needed" (for an ionic equation), "other-products" (the tables know others than the author), "no-name" and
/// "name-not-unique", "no-reagent" and "several-reagents" (none of the reagents, or more than one, does what is asked).
/// REQUIRES: is_stated(find.kind); reactions balanced.
std::variant<std::vector<Statement>, PlacedFault> statements(Problem const& problem, Find const& find,
                                                             Conventions const& conventions);

/// Whether an answer of the problem is about what its reaction is: its equation, its ions, its precipitate.
bool asks_what_happens(Problem const& problem);
/// Reactions that are written without products get those that mixing gives, where an answer of the problem is about what
/// happens. One whose substances do not react keeps its right side empty. Faults as above.
std::optional<PlacedFault> complete_reactions(Problem& problem);

}  // namespace molewright
