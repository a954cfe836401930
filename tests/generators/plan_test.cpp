// A plan keeps what other numbers leave as it is: its slips and the words of its questions must be those made anew.
#include <fmt/format.h>

#include <catch2/catch.hpp>

#include "app/question_templates.h"
#include "engine/wording.h"
#include "generators/question_maker.h"

using namespace molewright;

namespace {
/// The applications and answers of a table as text, to be compared.
std::string listed(SlipTable const& table) {
  std::string out;
  for (auto const& one : table.all) out += std::string(one.slip->id) + '@' + one.node + '\n';
  for (auto const& answers : table.by_find)
    for (auto const& answer : answers)
      out += std::string(answer.slip->id) + ' ' + std::to_string(answer.application) + ' ' + fmt::format("{:a}", answer.value) +
             '\n';
  return out;
}
}  // namespace

TEST_CASE("plan: slips kept from other numbers are those found anew", "[generators][plan]") {
  auto const templates = read_templates(question_templates()).templates;
  Course const course;
  int compared = 0;
  for (auto const& from : templates) {
    CAPTURE(from.name);
    Drawn drawn = draw(from, 1, 0);
    auto made = Plan::make(from, drawn, course);
    if (std::holds_alternative<PlacedFault>(made)) continue;  // numbers of this draw that cannot be
    auto& plan = *std::get<0>(made);
    SlipTable kept;
    for (std::uint32_t seed = 1; seed < 6; ++seed) {
      auto const other = draw(from, seed, 1);
      for (std::size_t i = 0; i < from.lets.size(); ++i)
        if (from.lets[i].number) drawn.picks[i] = other.picks[i];
      plan.put(drawn);
      if (plan.broken() != nullptr) continue;
      renew(kept, plan.solved(), course.conventions);
      CHECK(listed(kept) == listed(slip_table(plan.solved(), course.conventions, false)));
      ++compared;
      auto const worked = plan.worked(drawn);
      if (!std::holds_alternative<Worked>(worked)) continue;
      auto const& question = std::get<Worked>(worked);
      auto const kept_words = plan.text(question, drawn);
      auto const words = wording(question.problem, course.conventions, &question.accepted.front());
      REQUIRE(ok(kept_words));
      REQUIRE(ok(words));
      CHECK(value(kept_words) == value(words));
    }
  }
  CHECK(compared > 400);
}
