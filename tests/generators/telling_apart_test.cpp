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
  auto const found = telling_apart(maker(), template_of_kind("precipitate"), {{slips[0]}, {slips[1]}}, "");
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

TEST_CASE("telling apart: another question than the one at hand; one of the template where nothing shows",
          "[generators][telling]") {
  auto const& from = template_of_kind("n-cV");
  auto const first = telling_apart(maker(), from, {}, "");
  REQUIRE(first);
  auto const second = telling_apart(maker(), from, {}, first->question.code);
  REQUIRE(second);
  CHECK(second->question.code != first->question.code);
  auto const nowhere = telling_apart(maker(), from, {{"hydrate-dot-multiplied"}}, "");
  REQUIRE(nowhere);
  CHECK(nowhere->question.template_name == from.name);
  CHECK(nowhere->wrong.empty());
}

TEST_CASE("telling apart: the likeliest cause is the one that has to show", "[generators][telling]") {
  auto const& from = template_of_kind("precipitate");
  // Of these only the second and third show in a precipitate; likelier than both is what shows nowhere there.
  std::vector<Cause> const hidden{{"pOH-given-as-pH", std::nullopt, 0.8},
                                  {"volume-left-in-mL", std::nullopt, 0.1},
                                  {"mole-ratio-taken-as-one", std::nullopt, 0.1}};
  auto const none = telling_apart(maker(), from, hidden, "");
  REQUIRE(none);
  CHECK(none->question.template_name == from.name);
  CHECK(none->wrong.empty());
  // What is likeliest shows, and by itself, whatever becomes of the others.
  std::vector<Cause> const shown{{"volume-left-in-mL", std::nullopt, 0.8},
                                 {"pOH-given-as-pH", std::nullopt, 0.1},
                                 {"mole-ratio-taken-as-one", std::nullopt, 0.1}};
  auto const found = telling_apart(maker(), from, shown, "");
  REQUIRE(found);
  CHECK(found->question.template_name == from.name);
  CHECK(found->wrong.front().slips == std::vector<std::string>{"volume-left-in-mL"});
  CHECK(found->likeliest_apart);
  CHECK_FALSE(found->all_apart);
}

namespace {
/// A question of the kind, and a judgement whose candidates are slips that lead somewhere in its last part.
struct Judged {
  Question question;
  std::size_t find = 0;
  double right = 0;
  Judgement judgement;
  void add(SlipAnswer const& answer) {
    judgement.candidates.push_back({{{std::string(answer.slip->id), answer.node}}, 0.5, "", answer.value});
  }
};
Judged question_of_kind(std::string const& kind) {
  auto made = maker().make(template_of_kind(kind), 1);
  REQUIRE(ok(made));
  Judged out{value(made), value(made).worked.accepted.front().finds.size() - 1, 0, {}};
  auto const& working = out.question.worked.accepted.front();
  out.right = working.nodes[static_cast<std::size_t>(working.finds[out.find].node)].value.number.to_double();
  return out;
}
}  // namespace

TEST_CASE("telling apart: a cause keeps its power of ten", "[generators][telling]") {
  for (double const times : {0.001, 0.01, 0.1, 10.0, 100.0}) {
    CAPTURE(times);
    auto judged = question_of_kind("precipitate");
    auto const table = slip_table(judged.question.worked, maker().course().conventions);
    for (auto const& one : table.by_find[judged.find])
      if (one.slip->id == "power-of-ten" && std::abs(one.value / (times * judged.right) - 1) < 1e-6) judged.add(one);
    REQUIRE(judged.judgement.candidates.size() >= 1);
    judged.judgement.candidates.resize(1);
    auto const causes = causes_of(judged.question, judged.find, judged.judgement, maker().course().conventions);
    REQUIRE(causes.size() == 1);
    auto const found = telling_apart(maker(), template_of_kind("precipitate"), causes, judged.question.code);
    REQUIRE(found);
    REQUIRE(found->wrong.size() == 1);
    auto const& answer = found->question.worked.accepted.front().finds[found->find];
    CHECK(std::stod(found->wrong.front().answer) / std::stod(answer.text) == Approx(times).epsilon(0.02));
  }
}

TEST_CASE("telling apart: one slip at two places is two causes with a number each", "[generators][telling]") {
  auto judged = question_of_kind("titration");
  auto const table = slip_table(judged.question.worked, maker().course().conventions);
  std::vector<double> ratios;
  for (auto const& one : table.by_find[judged.find]) {
    bool const again = std::any_of(judged.judgement.candidates.begin(), judged.judgement.candidates.end(),
                                   [&](Candidate const& other) { return other.slips.front().node == one.node; });
    if (one.slip->id != "volume-left-in-mL" || again) continue;
    judged.add(one);
    ratios.push_back(one.value / judged.right);
  }
  REQUIRE(ratios.size() == 2);
  auto const causes = causes_of(judged.question, judged.find, judged.judgement, maker().course().conventions);
  REQUIRE(causes.size() == 2);
  auto const found = telling_apart(maker(), template_of_kind("titration"), causes, judged.question.code);
  REQUIRE(found);
  CHECK(found->all_apart);
  REQUIRE(found->wrong.size() == 2);
  CHECK(found->wrong[0].answer != found->wrong[1].answer);
  CHECK(found->wrong[0].nodes != found->wrong[1].nodes);
  auto const& answer = found->question.worked.accepted.front().finds[found->find];
  for (std::size_t k = 0; k < 2; ++k)
    CHECK(std::stod(found->wrong[k].answer) / std::stod(answer.text) == Approx(ratios[k]).epsilon(0.02));
}
