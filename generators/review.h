#pragma once
// The review of a teacher's own problems, before students see them: what is wrong, where, why it matters and how to mend it.
#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

#include "marker/rules.h"

namespace molewright {

struct Finding {
  std::string kind;      ///< stable: "no-such-reaction"; the rows of data/review_words.tsv, or the id of a fault of the engine
  std::size_t line = 0;  ///< in the file, from 1
  std::string text;      ///< what is wrong
  std::string why;       ///< why it matters
  std::string mend;
  std::string slip;  ///< that explains a wrong answer; empty for none
};

struct Reviewed {
  std::string problem;
  std::vector<Finding> findings;  ///< by line
};

/// Reviews every problem of a file, also one that cannot be read (its faults are then the findings). A loose form is read too:
/// lines `given`, `find`, `answer` without a line `problem`; a blank line parts one loose problem from the next.
std::vector<Reviewed> review(std::string_view file_text, Course const& course);

}  // namespace molewright
