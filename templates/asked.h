#pragma once
// A judged part as it stood in its set.
#include <cstddef>
#include <optional>

#include "generators/set.h"
#include "marker/judge.h"

namespace molewright {

struct Asked {
  Question const* question = nullptr;
  std::size_t find = 0;
};
/// The part of the set that a judgement speaks of: of the student's own paper, where papers are not shared. Nothing where the set
/// has none.
std::optional<Asked> asked(QuestionsByCode const& questions, Judgement const& judgement);

}  // namespace molewright
