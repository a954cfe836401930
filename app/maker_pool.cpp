#include "app/maker_pool.h"

#include <future>
#include <optional>

namespace molewright {

MakerPool::MakerPool(std::vector<Template> const& templates, Course const& course, int jobs) {
  for (int i = 0; i < jobs; ++i) makers_.push_back(std::make_unique<QuestionMaker>(templates, course));
}

std::vector<Result<Question>> MakerPool::operator()(std::vector<Ask> const& asks) {
  std::vector<std::optional<Result<Question>>> made(asks.size());
  std::vector<std::future<void>> running;
  for (std::size_t worker = 0; worker < makers_.size(); ++worker) {
    running.push_back(std::async(std::launch::async, [&, worker] {
      QuestionMaker& maker = *makers_[worker];
      for (std::size_t i = worker; i < asks.size(); i += makers_.size())
        made[i] = maker.make(*maker.find(asks[i].template_name), asks[i].seed, asks[i].form);
    }));
  }
  for (auto& one : running) one.get();
  std::vector<Result<Question>> questions;
  questions.reserve(asks.size());
  for (auto& one : made) questions.push_back(std::move(*one));
  return questions;
}

}  // namespace molewright
