#pragma once
// Marking by a key that was corrected after the set was printed: the order, as it stands now, says what is right.
#include <map>
#include <optional>
#include <string>
#include <vector>

#include "app/console.h"
#include "generators/set.h"
#include "marker/written.h"

namespace molewright {

/// What stood on paper of the questions whose key is another now: a letter or a tick that was set by the printed marking card
/// means what that card says.
class PrintedKeys {
 public:
  void add(Question const& question, Question printed) { printed_.emplace(&question, std::move(printed)); }
  std::size_t size() const { return printed_.size(); }
  /// A tick or a letter as the answer that it stood for. Where that was the student's own reading, it can be no more than looked
  /// at: unreadable, with the note "key-corrected".
  Written as_printed(Question const& question, std::size_t find, Written written) const;

 private:
  std::map<Question const*, Question> printed_;  ///< looked up only
};

/// Makes the set again from an order (SET.toml) with the seed of the printed one, and puts its workings and slip keys in place of
/// those that differ. What is printed stays: text, codes, numbers, marks, and what is given. Where other atomic weights, say,
/// draw a question anew, the printed code is worked instead. Told are the questions that cannot be corrected so: that the order
/// no longer has in that place, that have other parts or givens now, or that were not put openly. These keep their printed key.
/// The course is --course, else the order's, else the printed one; it becomes the set's, marking rules included, which is told.
/// Nothing where the order cannot be made, which is told. REQUIRES: the set is not moved while the keys are in use.
std::optional<PrintedKeys> correct_key(Console& console, ProblemSet& set, std::string const& order);

}  // namespace molewright
