// Which question comes next in practice.
#include "generators/practice.h"

#include <algorithm>
#include <catch2/catch.hpp>

#include "app/question_templates.h"
#include "engine/hint.h"
#include "engine/relation.h"
#include "engine/steps.h"
#include "generators/kinds.h"
#include "generators/slip_practice.h"

using namespace molewright;

namespace {

QuestionMaker& maker() {
  static QuestionMaker one(read_templates(question_templates()).templates, Course{});
  return one;
}

PracticeChoice next(PracticeWish const& wish, std::vector<Practised> const& before, std::string const& seed = "s") {
  auto made = next_practice(maker(), wish, before, seed);
  if (!ok(made)) FAIL(sentence(fault(made)));
  return value(made);
}

Practised done(std::string kind, bool right, std::vector<std::string> slips = {}, std::string chosen_for = "") {
  return {"", "", std::move(kind), std::move(chosen_for), std::move(slips), right};
}
}  // namespace

TEST_CASE("practice: kinds in turn, stayed with until one is right at once", "[generators][practice]") {
  PracticeWish const two{{"dilution", "n-cV"}, ""};
  CHECK(next(two, {}).question.kind == "dilution");
  CHECK(next(two, {done("dilution", false)}).question.kind == "dilution");
  CHECK(next(two, {done("dilution", true)}).question.kind == "n-cV");
  CHECK(next(two, {done("dilution", true), done("n-cV", true)}).question.kind == "dilution");
  CHECK(next(two, {done("titration", false)}).question.kind == "dilution");  // of another wish
  CHECK(next({}, {}).question.kind == kinds_of(maker().templates()).front());
}

TEST_CASE("practice: levels grow with what is right, or are kept", "[generators][practice]") {
  auto const level = [&](PracticeWish const& wish, std::vector<Practised> const& before) {
    return maker().find(next(wish, before).question.template_name)->level;
  };
  PracticeWish const one{{"titration"}, ""};
  CHECK(level(one, {}) == "plain");
  CHECK(level(one, {done("titration", false)}) == "plain");
  CHECK(level(one, {done("titration", true)}) == "standard");
  CHECK(level(one, {done("titration", true), done("titration", true), done("titration", true)}) == "stretching");
  CHECK(level({{"titration"}, "stretching"}, {}) == "stretching");
}

TEST_CASE("practice: a slip comes back until it is overcome", "[generators][practice]") {
  std::string const slip = "volume-left-in-mL";
  PracticeWish const any;
  std::vector<Practised> past{done("n-cV", false, {slip})};
  CHECK(slip_to_practise(any, past) == slip);
  auto const choice = next(any, past);
  CHECK(choice.chosen_for == slip);
  bool made = false;
  for (auto const& find : choice.question.slip_key)
    for (auto const& entry : find) made = made || std::find(entry.ids.begin(), entry.ids.end(), slip) != entry.ids.end();
  CHECK(made);
  past.push_back(done("n-cV", true, {}, slip));
  CHECK(slip_to_practise(any, past) == slip);
  past.push_back(done("n-cV", true, {}, slip));
  CHECK(slip_to_practise(any, past).empty());
  past.push_back(done("dilution", false, {slip}));  // made again
  CHECK(slip_to_practise(any, past) == slip);
  CHECK(slip_to_practise({{"titration"}, ""}, past).empty());  // not in the kinds wished for
  CHECK(slip_to_practise(any, {done("n-cV", false, {"a", "b"}), done("n-cV", true, {}, "a"), done("n-cV", true, {}, "a")}) ==
        "b");
}

TEST_CASE("practice: nothing comes twice, and a seed gives the same again", "[generators][practice]") {
  PracticeWish const one{{"dilution"}, ""};
  std::vector<Practised> past;
  std::vector<std::string> codes;
  for (int i = 0; i < 30; ++i) {
    auto const choice = next(one, past);
    CHECK(std::find(codes.begin(), codes.end(), choice.question.code) == codes.end());
    codes.push_back(choice.question.code);
    past.push_back({choice.question.code, choice.question.template_name, "dilution", "", {}, true});
  }
  CHECK(next(one, {}).question.code == codes.front());
  CHECK(next(one, {}, "another").question.code != codes.front());
}

TEST_CASE("practice: every step of every template has words for its hint", "[generators][practice][hint]") {
  for (auto const& from : maker().templates()) {
    auto const made = maker().make(from, 1);
    if (!ok(made)) continue;  // question_test tells of it
    auto const& worked = value(made).worked;
    auto const& working = worked.accepted.front();
    for (auto const& node : working.nodes)
      if (!relation_of(node.relation)) FAIL_CHECK(from.name << ": no entry in the table of relations: " << node.relation);
    for (std::size_t f = 0; f < working.finds.size(); ++f)
      for (auto const& step : steps(worked, working, f, {})) {
        INFO(from.name << ": " << step.relation << ": " << step.text);
        CHECK_FALSE(hint_words(step.relation).empty());
      }
  }
}

TEST_CASE("practice: a new question on each slip that is named, of which the slip shows", "[generators][practice]") {
  SlipPractice practice(maker());
  Paper paper;
  std::vector<std::string> const slips = {"hydrate-water-forgotten", "volume-left-in-mL", "hydrate-water-forgotten",
                                          "power-of-ten"};
  StudentResult student;
  student.student = "Ada";
  for (std::size_t i = 0; i < 4; ++i) {
    paper.questions.push_back(value(maker().make(maker().templates()[i], 7)));
    paper.questions.back().number = std::to_string(i + 1);
    Judgement judged;
    judged.question = std::to_string(i + 1);
    judged.value = i < 3 ? ValueVerdict::wrong : ValueVerdict::right;
    judged.candidates.push_back({{{slips[i], ""}}, 0.9, ""});
    student.parts.push_back(std::move(judged));
  }
  auto const fresh = questions_on_slips(student, paper, practice, "seed");
  REQUIRE(fresh.size() == 2);  // each slip once; none for an answer that is right
  CHECK(fresh[0].slip == "hydrate-water-forgotten");
  CHECK(fresh[1].slip == "volume-left-in-mL");
  for (auto const& [slip, question] : fresh) {
    auto const& keys = question.slip_key;
    CHECK(std::any_of(keys.begin(), keys.end(), [&slip = slip](auto const& key) {
      return std::any_of(key.begin(), key.end(), [&](SlipKeyEntry const& entry) { return entry.ids.front() == slip; });
    }));
    for (auto const& asked : paper.questions) CHECK(question.text != asked.text);
  }
  CHECK(questions_on_slips(student, paper, practice, "seed")[0].question.text == fresh[0].question.text);
  student.student = "Bo";
  CHECK(questions_on_slips(student, paper, practice, "seed")[0].question.text != fresh[0].question.text);
}

TEST_CASE("practice: nothing that the student has seen is put on the next paper", "[generators][practice]") {
  auto read = read_templates({{"few",
                               "template few\nkind n-cV\ngiven V(KCl) = one of 25.5 | 35.5 mL\ngiven c(KCl) = 0.155 mol/L\nfind "
                               "n(KCl) in mol\ntext\nWhat amount is in {V(KCl)}?\nend\n"}});
  REQUIRE(read.templates.size() == 1);
  QuestionMaker few(read.templates, Course{});
  SlipPractice practice(few);
  ToPractise const what{"", "few"};
  Wordings texts, of_ada, of_bo;
  auto const first = practice.question_for("Ada", what, 0, "seed", texts, of_ada);
  auto const second = practice.question_for("Ada", what, 1, "seed", texts, of_ada);
  REQUIRE(first);
  REQUIRE(second);
  CHECK(first->text != second->text);
  CHECK_FALSE(practice.question_for("Ada", what, 2, "seed", texts, of_ada));  // there are two, and Ada has had both
  CHECK(practice.question_for("Bo", what, 0, "seed", texts, of_bo));          // Ada's, for want of another
  Paper paper{"1", "Ada", false, {value(maker().make(maker().templates()[0], 7))}};
  auto const before = paper.questions.front().text;
  CHECK(put_practice(paper, {what}, practice, "seed", texts, of_ada) == 0);
  CHECK(paper.questions.front().text == before);
  CHECK(put_practice(paper, {what}, practice, "seed", texts, {hash_of(first->text)}) == 1);
  CHECK(paper.questions.front().text == second->text);
}

TEST_CASE("practice: a slip leads to no kind that was not asked for", "[generators][practice]") {
  // These slips show in questions of many kinds.
  auto const slip = GENERATE(as<std::string>(), "volume-left-in-mL", "mole-ratio-taken-as-one", "other-solution-volume");
  PracticeWish const two{{"titration", "back-titration"}, ""};
  std::vector<Practised> past{done("titration", false, {slip})};
  past.front().template_name = "titration-two-to-one";
  for (int i = 0; i < 6; ++i) {  // the turn of the templates goes with how many came before
    auto const choice = next(two, past);
    CAPTURE(slip, i, choice.question.template_name);
    CHECK((choice.question.kind == "titration" || choice.question.kind == "back-titration"));
    past.push_back(done("n-cV", false));
  }
}

TEST_CASE("practice: a slip that explains almost any number shows in no question", "[generators][practice]") {
  SlipPractice practice(maker());
  CHECK_FALSE(practice.question({"power-of-ten", "titration-two-to-one"}, 0, 1));
  CHECK(practice.question({"volume-left-in-mL", "titration-two-to-one"}, 0, 1));
}
