#pragma once
// A working with one slip in it, line by line, as whoever made it would have written it down.
#include <cstddef>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "marker/question.h"

namespace molewright {

struct WrongWorking {
  std::vector<std::string> lines;  ///< as a key prints them, without what becomes of the units and without conditions
  std::size_t wrong = 0;           ///< index of the first line that the right working does not have
  std::string instead;             ///< that line as it should be; empty where the right working only goes on from there
  double value = 0;                ///< the answer that it comes to, unrounded, in the asked unit
};

/// The slip made at `node` on the way to find `find`; of several ways to make it there, the one that leads nearest to `answer`
/// (in the asked unit). Nothing where the question has no such slip, where it cannot be worked, or where no line
/// shows it: the answer to another part is rightly worked.
std::optional<WrongWorking> wrong_working(Question const& question, std::size_t find, std::string_view slip,
                                          std::string_view node, std::optional<double> answer, Conventions const& conventions);

/// A printed line of the right working (as above), and where it stands: in which part (at most `find`), in which of that part's
/// lines.
struct RightStep {
  std::string text;
  std::size_t part, line;
};
/// The line at which a step on the way to find `find` stands: its own, or the first that rests on it. Nothing where there is
/// none.
std::optional<RightStep> right_step(Question const& question, std::size_t find, std::string_view node,
                                    Conventions const& conventions);

}  // namespace molewright
