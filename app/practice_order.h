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

/// Notes every question that the marks speak of as one not to come again, and as had by its student: those of the sets, and the
/// new ones on the students' feedback. One whose template is not there is passed over.
void note_seen(std::vector<StoredMarks> const& results, QuestionMaker& maker, SetHistory& history);

/// What a set holds where its order names no question: place by place the template of the set that was marked, or its kind where
/// the class had several there, so that each student has one of their level.
std::vector<SetItem> items_of(StoredMarks const& latest, QuestionMaker const& maker);

}  // namespace molewright
