#pragma once
// The places of a paper: what the lines of an order come to, each with the templates that may fill it.
#include <vector>

#include "generators/set_maker.h"

namespace molewright {

/// One question's place on every paper. REQUIRES: the question maker whose templates it points to outlives it.
struct QuestionPlace {
  SetItem item;                      ///< the line of the order it comes from
  std::vector<Template const*> fit;  ///< none for a teacher's own problem
  FormChoice form;
};

/// A line with a count has so many places, one after another. Faults: "no-questions", "bad-count", "unknown-level",
/// "unknown-template" and "unknown-kind" (with the nearest), "form-does-not-fit" (and what would).
Result<std::vector<QuestionPlace>> places_of(std::vector<SetItem> const& items, QuestionMaker& maker);

/// An order for the same templates and forms, place by place, as the first paper of an earlier set has.
std::vector<SetItem> items_like(ProblemSet const& earlier);

}  // namespace molewright
