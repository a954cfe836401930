#pragma once
// A judgement as the line of the contract for `mark` and `explain`.
#include "app/console.h"
#include "marker/judge.h"

namespace molewright {

Json judgement_json(Judgement const& judgement);

}  // namespace molewright
