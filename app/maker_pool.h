#pragma once
// Several question makers side by side: the questions are the same as one maker's, only sooner.
#include <memory>
#include <vector>

#include "generators/question_maker.h"
#include "generators/set_maker.h"

namespace molewright {

class MakerPool {
 public:
  /// `jobs` threads, each with a maker of its own.
  MakerPool(std::vector<Template> const& templates, Course const& course, int jobs);
  /// The questions asked for, in order.
  std::vector<Result<Question>> operator()(std::vector<Ask> const& asks);

 private:
  std::vector<std::unique_ptr<QuestionMaker>> makers_;
};

}  // namespace molewright
