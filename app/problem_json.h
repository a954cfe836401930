#pragma once
// Problems and their workings as JSON: for `solve`, and for set.jsonl, which holds the worked nodes so that an old set is marked
// as it was printed.
#include <string_view>

#include "app/console.h"
#include "engine/solver.h"

namespace molewright {

/// The line of the contract for `solve`.
Json worked_json(Worked const& worked, Conventions const& conventions);
/// Unrounded value of an answer: at least ten figures where it does not end.
std::string unrounded_answer(Working const& working, Answer const& answer);

/// Every node of a working, exactly; read back by working_from_json.
Json working_json(Working const& working);
Result<Working> working_from_json(Json const& json);

/// A file in which no problem begins.
Fault no_problem();

}  // namespace molewright
