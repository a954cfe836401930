#pragma once
// Feedback for someone who is going to try again: what it says must not hand over the answer.
#include <string>

#include "marker/judge.h"

namespace molewright {

/// The feedback, and of a wrong answer with the answer to find `find` itself kept back: where the slip's words would say what its
/// step comes to and that step is the answer, they say "the answer" instead, and nobody is sent to a worked answer that they do
/// not have. Everything else stays. `judgement` is of this question.
std::string feedback_to_try_again(Judgement const& judgement, Question const& question, std::size_t find,
                                  Conventions const& conventions);

}  // namespace molewright
