#pragma once
// From the marks of earlier sets to what each student is to practise next.
#include <map>
#include <string>
#include <vector>

#include "app/marks_store.h"
#include "generators/set_maker.h"
#include "generators/slip_practice.h"

namespace molewright {

/// By student: slips named with confidence, most often first; then templates where an answer was wrong without a cause, or
/// missing. Whoever was absent or had all right is not there. The latest marks stand last in `results`.
std::map<std::string, std::vector<ToPractise>> practice_of(std::vector<StoredMarks> const& results, QuestionMaker const& maker);

/// The templates of these marks, in the order of the questions: what a set holds where its order names no question.
std::vector<SetItem> items_of(std::vector<StoredMarks> const& results, QuestionMaker const& maker);

}  // namespace molewright
