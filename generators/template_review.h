#pragma once
// The review of question templates: what is wrong with the lines that only templates have, and with the problems that they make.
#include <string_view>
#include <vector>

#include "generators/review.h"

namespace molewright {

/// Whether the file's first statement is `template NAME`.
bool holds_templates(std::string_view file_text);

/// Reviews every template of a file; each begins at its line `template`. Beside the kinds of review(), which looks at what is
/// drawn: faults of parse_template, "unused-variable" (a name of a row), "unreachable-find", "find-not-asked", "find-in-no-text",
/// "part-without-find", "unit-twice", "wordings-differ", "chemistry", "require", "nothing-fits" and "rarely-fits" (with the limit
/// that throws out most draws).
std::vector<Reviewed> review_templates(std::string_view file_text, Course const& course);

}  // namespace molewright
