#pragma once
// An edit is one thing done otherwise in a working: what a slip is made of, and how a student's own value is carried forward.
#include <memory>
#include <variant>

#include "engine/problem.h"
#include "engine/solver.h"
#include "engine/working.h"

namespace molewright {

/// Another problem, solved again (a wrong formula from a name, an equation not balanced).
struct ProblemEdit {
  std::shared_ptr<Problem const> problem;  ///< shared, so that the many small edits stay small
};
/// Another definition for a node; a given is a node, so a miscopied given is a constant here.
struct NodeEdit {  // NOLINT(bugprone-exception-escape): a few terms moved in place allocate nothing
  int node = 0;
  Definition definition;
};
/// The answer of find `find` is read from another node (stopped one step early, another part's answer).
struct AnswerEdit {
  std::size_t find = 0;
  int node = 0;
};
/// Only the writing differs: the number is the right one, rounded otherwise or under another unit.
struct WritingEdit {
  std::size_t find = 0;
  Rounding rounding = Rounding::half_up;
  std::optional<int> figures;  ///< figures written instead of those due
  std::optional<int> places;   ///< or decimal places
};
using Edit = std::variant<ProblemEdit, NodeEdit, AnswerEdit, WritingEdit>;
/// One, most often: it stands in place then.
using Edits = boost::container::small_vector<Edit, 1>;

/// The working that a student with these edits would have done, worked exactly; `working` is one of `worked.accepted`, and the
/// edits are taken in their order (a node edit after a problem edit finds its node by id). The nodes are put in order again, so
/// look them up by id. Fault "cannot-run" where an edit makes a loop, divides by zero or names no node, or where an edited
/// problem cannot be solved.
std::variant<Working, PlacedFault> run(Worked const& worked, Working const& working, Edits const& edits,
                                       Conventions const& conventions);

}  // namespace molewright
