#include "templates/asked.h"

namespace molewright {

std::optional<Asked> asked(QuestionsByCode const& questions, Judgement const& judgement) {
  for (auto const& [paper, question] : questions[judgement.code]) {
    if (!paper->student.empty() && paper->student != judgement.student) continue;
    if (question->number != judgement.question) continue;
    for (std::size_t find = 0; find < question->marks.size(); ++find)
      if (part_name(*question, find) == judgement.part) return Asked{question, find};
  }
  return std::nullopt;
}

}  // namespace molewright
