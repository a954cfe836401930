#include "generators/form.h"

#include <catch2/catch.hpp>
#include <set>

#include "app/question_templates.h"
#include "engine/steps.h"
#include "generators/question_maker.h"
#include "marker/judge.h"
#include "marker/written.h"

using namespace molewright;

namespace {

char const* const solid =
    "template solid\nkind precipitate\nlevel plain\nreaction CaCl2(aq) + Na2CO3(aq) -> CaCO3(s) + NaCl(aq)\n"
    "given V(CaCl2) = 25.5 to 85.0 by 0.5 mL\ngiven c(CaCl2) = 0.115 to 0.295 by 0.005 mol/L\nexcess Na2CO3\n"
    "find m(CaCO3) in g\ntext\n  {V(CaCl2)} of {c(CaCl2)} solution. What mass of {name CaCO3} forms, in g?\nend\n";
char const* const two_parts =
    "template two\nkind limiting-reagent\nlevel plain\nreaction CaCl2(aq) + Na2CO3(aq) -> CaCO3(s) + NaCl(aq)\n"
    "given V(CaCl2) = 25.5 to 85.0 by 0.5 mL\ngiven c(CaCl2) = 0.115 to 0.295 by 0.005 mol/L\n"
    "given V(Na2CO3) = 25.5 to 85.0 by 0.5 mL\ngiven c(Na2CO3) = 0.115 to 0.295 by 0.005 mol/L\n"
    "find limiting reagent\nfind m(CaCO3) in g\ntext\n  {V(CaCl2)} of {c(CaCl2)} solution meets {V(Na2CO3)} of {c(Na2CO3)}.\n"
    "  (a) Which is limiting?\n  (b) What mass of {name CaCO3} forms, in g?\nend\n";

Question made(char const* text, std::uint32_t seed, FormChoice const& form) {
  auto read = parse_template(text);
  REQUIRE(read.read);
  QuestionMaker maker({*read.read}, Course{});
  auto question = maker.make(maker.templates().front(), seed, form);
  if (!ok(question)) FAIL(fault(question).what);
  // A code gives the same question again, form included.
  auto again = maker.remake(value(question).code);
  REQUIRE(ok(again));
  CHECK(value(again).text == value(question).text);
  CHECK(value(again).form == form.form);
  return value(question);
}

std::vector<Judgement> judged(Question const& question, std::vector<std::string> const& cells) {
  Course const course;
  Judge const judge(question, course);
  std::vector<Written> written;
  for (auto const& cell : cells) written.push_back(read_written(cell, DecimalMark::point));
  return judge.judge(written);
}

}  // namespace

TEST_CASE("form: a choice offers the right answer among those that slips lead to, by size", "[generators][form]") {
  for (std::uint32_t seed = 0; seed < 20; ++seed) {
    Question const question = made(solid, seed, {Form::choice, 1});
    REQUIRE(question.options.size() == 4);
    double last = 0;
    int right = 0, far_off = 0;
    double const answer = question.worked.accepted.front()
                              .nodes[static_cast<std::size_t>(question.worked.accepted.front().finds.front().node)]
                              .value.number.to_double();
    for (Option const& option : question.options) {
      INFO(question.text);
      auto const number = parse_decimal(option.answer.substr(0, option.answer.find(' ')));
      REQUIRE(ok(number));
      CHECK(value(number).value.to_double() > last);
      last = value(number).value.to_double();
      far_off += last > 30 * answer || 30 * last < answer ? 1 : 0;
      CHECK(question.text.find(std::string("\n") + option.letter + ":") != std::string::npos);
      right += option.right ? 1 : 0;
      auto const judgement = judged(question, {std::string(1, option.letter)}).front();
      CHECK((judgement.value == ValueVerdict::right) == option.right);
      CHECK((judgement.marks == 1) == option.right);
      CHECK(judgement.candidates.empty() == option.right);  // a wrong one names its slip
    }
    CHECK(right == 1);
    CHECK(far_off <= 1);
    CHECK(question.slip_key.front().size() == 3);
    CHECK(judged(question, {question.worked.accepted.front().finds.front().text + " g"}).front().value == ValueVerdict::right);
    CHECK(judged(question, {"H"}).front().value == ValueVerdict::unreadable);
  }
}

TEST_CASE("form: no share is offered that nobody could believe", "[generators][form]") {
  int offered = 0;
  QuestionMaker maker(read_templates(question_templates()).templates, Course{});
  for (Template const& one : maker.templates())
    for (std::uint32_t seed = 0; seed < 10; ++seed) {
      auto const question = maker.make(one, seed, {Form::choice, 1});
      if (!ok(question)) break;  // not every template can be put so
      for (Option const& option : value(question).options) {
        if (option.answer.find('%') == std::string::npos) continue;
        ++offered;
        auto const number = parse_decimal(option.answer.substr(0, option.answer.find(' ')));
        REQUIRE(ok(number));
        CAPTURE(value(question).text);
        CHECK(value(number).value.to_double() <= 1000);
      }
    }
  CHECK(offered > 50);
}

TEST_CASE("form: a working with a mistake has one line that is wrong, and those below follow from it", "[generators][form]") {
  Conventions const conventions;
  std::set<std::string> planted;
  for (std::uint32_t seed = 0; seed < 60; ++seed) {
    Question const question = made(solid, seed, {Form::mistake, 1});
    INFO(question.text);
    planted.insert(question.planted);
    Working const& right = question.worked.accepted.front();
    REQUIRE(right.finds.size() == 2);
    auto const line = std::stoul(right.finds[0].text);
    Question const plain = made(solid, seed, {});
    auto const lines = steps(plain.worked, plain.worked.accepted.front(), 0, conventions);
    // Every line above the wrong one stands as in the right working; the wrong one does not stand there at all.
    for (std::size_t i = 0; i < lines.size(); ++i) {
      auto const printed = "Line " + std::to_string(i + 1) + ":  " + lines[i].text + '\n';
      bool const stands = question.text.find(printed) != std::string::npos;
      if (i + 1 < line) CHECK(stands);
      if (i + 1 == line) CHECK_FALSE(stands);
    }
    auto const node = right.nodes[static_cast<std::size_t>(right.finds[1].node)];
    CHECK(node.value.number == plain.worked.accepted.front()
                                   .nodes[static_cast<std::size_t>(plain.worked.accepted.front().find_node(node.id))]
                                   .value.number);
    auto const good = judged(question, {"line " + right.finds[0].text, right.finds[1].text + " " + node.value.unit.symbol});
    CHECK(good[0].value == ValueVerdict::right);
    CHECK(good[1].value == ValueVerdict::right);
    CHECK(good[0].marks + good[1].marks == 2);
    auto const bad = judged(question, {std::to_string(line + 1), "0.777 " + node.value.unit.symbol});
    CHECK(bad[0].value == ValueVerdict::wrong);
    CHECK(bad[0].feedback.find("line " + right.finds[0].text) != std::string::npos);
    CHECK(bad[1].value == ValueVerdict::wrong);
    CHECK(judged(question, {"the top", ""})[0].value == ValueVerdict::unreadable);
  }
  CHECK(planted.size() >= 3);
}

TEST_CASE("form: a faded working gives its first lines and never an answer", "[generators][form]") {
  for (int left = 1; left <= 5; ++left) {
    Question const question = made(solid, 7, {Form::faded, left});
    INFO(question.text);
    CHECK(question.lines_given == std::max(1, 5 - left));
    CHECK(question.text.find("\nLine " + std::to_string(question.lines_given) + ":") != std::string::npos);
    CHECK(question.text.find("\nLine " + std::to_string(question.lines_given + 1) + ":") == std::string::npos);
    CHECK(question.marks.front() <= left);
  }
  Question const two = made(two_parts, 3, {Form::faded, 1});
  CHECK(two.text.find("limiting reagent is") == std::string::npos);
}

TEST_CASE("form: what cannot be put so says why", "[generators][form]") {
  struct Row {
    FormChoice form;
    char const* why;
  };
  auto read = parse_template(two_parts);
  REQUIRE(read.read);
  QuestionMaker maker({*read.read}, Course{});
  for (Row const& row :
       {Row{{Form::choice, 1}, "it asks for more than one number"}, {{Form::mistake, 1}, "it asks for more than one number"}}) {
    auto const question = maker.make(maker.templates().front(), 1, row.form);
    REQUIRE_FALSE(ok(question));
    CHECK(fault(question).id == "form-does-not-fit");
    CHECK(fault(question).what == std::string("a question of the template two cannot be put so: ") + row.why);
  }
}

TEST_CASE("form: each form has its own number in a code", "[generators][form]") {
  for (std::uint32_t code = 0; code < 8; ++code) CHECK(code_of(form_of(code)) == code);
}
