// A fresh question whose numbers tell causes apart.
#include "generators/telling_apart.h"

#include <algorithm>
#include <catch2/catch.hpp>
#include <cmath>

#include "app/question_templates.h"
#include "marker/judge.h"
#include "marker/slip_key.h"

using namespace molewright;

namespace {
QuestionMaker& maker() {
  static QuestionMaker one(read_templates(question_templates()).templates, Course{});
  return one;
}
Template const& template_of_kind(std::string const& kind) {
  auto const& all = maker().templates();
  return *std::find_if(all.begin(), all.end(), [&](Template const& one) { return one.kind == kind; });
}
}  // namespace

TEST_CASE("telling apart: each cause has a number of its own, and the marker reads it so", "[generators][telling]") {
  std::vector<std::string> const slips{"mole-ratio-taken-as-one", "volume-left-in-mL"};
  auto const found = telling_apart(maker(), template_of_kind("precipitate"), slips, "");
  REQUIRE(found);
  CHECK(found->all_apart);
  REQUIRE(found->wrong.size() == 2);
  Judge const judge(found->question, maker().course());
  auto const& working = found->question.worked.accepted.front();
  auto const& answer = working.finds[found->find];
  for (auto const& wrong : found->wrong) {
    REQUIRE(wrong.slips.size() == 1);
    CHECK(std::find(slips.begin(), slips.end(), wrong.slips.front()) != slips.end());
    CHECK_FALSE(look_alike(std::stod(wrong.answer), std::stod(answer.text), answer.figures));
    std::vector<Written> script(found->find);
    script.push_back(read_written(wrong.answer + ' ' + working.nodes[static_cast<std::size_t>(answer.node)].value.unit.symbol,
                                  DecimalMark::point));
    auto const judged = judge.judge(script).at(found->find);
    INFO(wrong.slips.front() << " " << wrong.answer);
    REQUIRE_FALSE(judged.candidates.empty());
    bool named = false;  // others may lead to the number too, but none of those that were to be told apart
    for (auto const& candidate : judged.candidates) {
      auto const& id = candidate.slips.front().id;
      named = named || id == wrong.slips.front();
      if (id != wrong.slips.front()) CHECK(std::find(slips.begin(), slips.end(), id) == slips.end());
    }
    CHECK(named);
  }
}

TEST_CASE("telling apart: another question than the one at hand; none where nothing shows", "[generators][telling]") {
  auto const& from = template_of_kind("n-cV");
  auto const first = telling_apart(maker(), from, {}, "");
  REQUIRE(first);
  auto const second = telling_apart(maker(), from, {}, first->question.code);
  REQUIRE(second);
  CHECK(second->question.code != first->question.code);
  CHECK_FALSE(telling_apart(maker(), from, {"hydrate-dot-multiplied"}, ""));
}
