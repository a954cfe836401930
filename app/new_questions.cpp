#include "app/new_questions.h"

#include <algorithm>

#include "app/question_templates.h"

namespace molewright {

SlipPractice& NewQuestions::practice() {
  if (!practice_) {
    constexpr std::size_t most_plans = 150;  // as fast as with thousands, and the memory of a large class stays its marks'
    maker_.emplace(read_templates(question_templates()).templates, set_.course, most_plans);
    practice_.emplace(*maker_);
  }
  return *practice_;
}

std::vector<OnSlip> NewQuestions::on_slips_of(StudentResult const& student) {
  bool const any = std::any_of(student.parts.begin(), student.parts.end(), [](Judgement const& part) {
    return part.value == ValueVerdict::wrong && !named_slip(part).empty();
  });
  if (!any) return {};
  for (auto const& [paper, question] : questions_[student.parts.front().code])
    if (paper->student.empty() || paper->student == student.student)
      return questions_on_slips(student, *paper, practice(), set_.seed);
  return {};
}

std::vector<Question> NewQuestions::starter(std::vector<SlipShown> const& slips) {
  std::vector<Question> out;
  constexpr std::size_t most_templates = 4;
  for (auto const& slip : slips)
    for (std::size_t nth = 0; nth < most_templates; ++nth) {
      auto const from = slip.question ? slip.question->template_name : std::string();
      auto question = practice().question({slip.id, from}, nth, hash_of(set_.seed, hash_of(slip.id)));
      if (!question) break;
      bool const there = std::any_of(out.begin(), out.end(),
                                     [&](Question const& other) { return other.template_name == question->template_name; });
      if (there) continue;
      out.push_back(std::move(*question));
      break;
    }
  return out;
}

}  // namespace molewright
