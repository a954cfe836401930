#pragma once
// Lines of a student's working, each placed at the step that it is a value of.
#include <functional>
#include <optional>
#include <vector>

#include "marker/agreement.h"
#include "marker/judge.h"
#include "marker/slip_library.h"
#include "marker/working_lines.h"

namespace molewright {

struct PlacedLine {
  WorkingLine line;
  LineVerdict verdict = LineVerdict::not_placed;
  int node = -1;        ///< where it is placed
  bool method = false;  ///< a departing line whose own arithmetic would come to the right value: only its number is wrong
};

struct PlacedLines {
  /// A line that departs, at its node: what comes after it is judged from its number.
  struct Carried {  // NOLINT(bugprone-exception-escape): a few terms moved in place allocate nothing
    int node = -1;
    WrittenNumber number;  ///< in the node's unit
    Definition definition;
  };
  std::vector<PlacedLine> lines;  ///< as handed in
  std::vector<int> right;         ///< nodes that a line shows right
  std::vector<Carried> carried;
  std::vector<Carried> as_written;  ///< the right ones as well, rounded as they are: what comes after may be worked from them
  bool holds(int node) const;
  std::vector<Estimator::Change> changes() const;  ///< of the carried lines; valid until they change
  /// The same behind those that are right, as written.
  std::vector<Estimator::Change> changes_as_written() const;
};

/// Whether a written number is that value, one unit of its last digit either way (or two in a thousand); of two figures or fewer,
/// half a unit.
bool is_near(WrittenNumber const& number, double value);

/// Whether some slip explains a line that departs first, at this node; asked while `placed` holds the lines before it.
using Explained = std::function<bool(int node, WrittenNumber const& number)>;

/// Places lines at the steps of find `find`: first by the quantity that a line names, then, of a line that names none (or none
/// that is worked out), by its value. A line is right, or follows from those before it that departed or from `earlier` (what was
/// carried from earlier parts), or departs, or cannot be placed: then it is passed over. No two lines stand at one step; of two
/// values for one quantity the last counts. `placed` is filled as it goes, from empty.
/// `scales`: for each node, what a number without a unit may also be times (see scales_of_printed_units); empty for one.
void place_lines(std::vector<WorkingLine> const& lines, Anatomy const& anatomy, Estimator& estimator, std::size_t find,
                 std::vector<Estimator::Change> const& earlier, Explained const& explained, PlacedLines& placed,
                 std::vector<Rational> const& scales = {});

/// Whoever works in the units that are printed (mL × mol/L = mmol, mmol × g/mol = mg) has consistent numbers: for each node, what
/// such a number is times in the node's own unit, a power of a thousand. Empty where they are the same everywhere.
std::vector<Rational> scales_of_printed_units(Anatomy const& anatomy, Estimator& estimator);

}  // namespace molewright
