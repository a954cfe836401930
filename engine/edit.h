#pragma once
// An edit is one thing done otherwise in a working: what a slip is made of, and how a student's own value is carried forward.
#include <variant>
#include <vector>

#include "engine/problem.h"
#include "engine/solver.h"
#include "engine/working.h"

namespace molewright {

/// Another problem, solved again (a wrong formula from a name, an equation not balanced).
struct ProblemEdit {
  Problem problem;
};
/// Another definition for a node; a given is a node, so a miscopied given is a constant here.
struct NodeEdit {
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

/// The working that a student with these edits would have done, worked exactly. Fault "cannot-run" where an edit makes a loop or divides by zero.
std::variant<Working, PlacedFault> run(Worked const& worked, Working const& working, std::vector<Edit> const& edits, Conventions const& conventions);

}  // namespace molewright
