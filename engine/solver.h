#pragma once
// The solver: finds the working of a problem by itself, chaining the relations that hold from what is given to what is asked.
#include <memory>
#include <string>
#include <variant>
#include <vector>

#include "engine/conventions.h"
#include "engine/problem.h"
#include "engine/working.h"

namespace molewright {

class Conservation;
class SecondSolve;

struct Worked {
  Problem problem;                ///< reactions balanced, substances filled in where they were left out
  std::vector<Working> accepted;  ///< the first is printed; the others are as good
  std::vector<std::string> warnings;
  std::shared_ptr<Conservation const> conservation;  ///< empty in a question read from a file, and so is this:
  std::shared_ptr<SecondSolve const> second;         ///< for the printed working
};
using WorkedResult = std::variant<Worked, PlacedFault>;

/// Fault ids: "missing-data" (what would be enough), misspelt.h's, "contradiction" (names the two and by how much), "no-find",
/// "no-solution" and "not-unique" (the equation), "wrong-unit", "not-positive" (a negative or zero measure), "given-twice",
/// "not-in-reaction", "one-figure" (an answer that cannot be told less exactly), those of statements() and complete_reactions()
/// (engine/stated.h), "conservation" (the independent second working disagrees: the problem is refused). Every problem with a
/// reaction is also worked by extents of reaction and checked for atoms, charge and mass; every problem is solved a second time,
/// numerically, all relations at once (second_solve.h).
WorkedResult solve(Problem const& problem, Conventions const& conventions);

/// A plan is the structure of a working; new numbers of the same givens are put in by node id and everything is worked again,
/// exactly, the check included. REQUIRES: `numbers` has the same givens, forms and units as the planned problem, and the
/// conventions are those of the plan. nullptr-like false when the check fails or a divisor is zero.
WorkedResult rework(Worked const& plan, Problem const& numbers, Conventions const& conventions);
/// Only the constants of the first working are exchanged (fast, for drawing); call evaluate or an Estimator after it.
void put_numbers(Working& working, Problem const& numbers);

/// The conservation check on its own: works the reaction by extents, independently of the solver's relations. Empty when all is
/// conserved and agrees, else what differs.
std::string conservation_fault(Worked const& worked, Conventions const& conventions);

}  // namespace molewright
