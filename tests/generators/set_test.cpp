// Sets: who gets which question.
#include <algorithm>
#include <catch2/catch.hpp>
#include <map>
#include <set>
#include <string>

#include "app/question_templates.h"
#include "generators/difficulty.h"
#include "generators/kinds.h"
#include "generators/random.h"
#include "generators/set_maker.h"

using namespace molewright;

namespace {

QuestionMaker& maker() {
  static QuestionMaker made(read_templates(question_templates()).templates, Course{});
  return made;
}

SetItem item(std::string const& kind, int count = 1) {
  SetItem made;
  made.kind = kind;
  made.count = count;
  return made;
}

std::vector<ClassMember> students(int count) {
  std::vector<ClassMember> members;
  for (int i = 0; i < count; ++i) members.push_back({"Student " + std::to_string(i + 1), "", "", ""});
  return members;
}

SetPlan five_kinds() {
  SetPlan plan;
  plan.title = "Greenhouse";
  for (char const* kind : {"n = cV", "mass", "diluting", "precipitation", "limiting reactant"}) plan.items.push_back(item(kind));
  return plan;
}

ProblemSet made(SetPlan const& plan, std::vector<ClassMember> const& members, std::string const& seed = "spring") {
  auto set = make_set(plan, members, seed, maker());
  if (!ok(set)) FAIL(sentence(fault(set)));
  return value(set);
}

std::size_t templates_of_kind(std::string_view kind) {
  auto const& all = maker().templates();
  return static_cast<std::size_t>(std::count_if(all.begin(), all.end(), [&](Template const& t) { return t.kind == kind; }));
}

}  // namespace

TEST_CASE("set: one paper for all, or two, need no class list", "[generators][set]") {
  SetItem dilution;
  dilution.kind = "dilution";
  SetPlan plan;
  plan.items = {dilution};
  plan.versions = SetPlan::Versions::one;
  auto const one = make_set(plan, {}, "s", maker());
  REQUIRE(ok(one));
  CHECK(value(one).papers.size() == 1);
  plan.versions = SetPlan::Versions::ab;
  auto const two = make_set(plan, {}, "s", maker());
  REQUIRE(ok(two));
  REQUIRE(value(two).papers.size() == 2);
  CHECK(value(two).papers[1].version == "B");
}

TEST_CASE("set: each student has their own questions, of the kinds that were asked", "[generators][set]") {
  ProblemSet const set = made(five_kinds(), students(30));
  REQUIRE(set.papers.size() == 30);
  std::vector<std::string> const kinds{"n-cV", "mass-from-amount", "dilution", "precipitate", "limiting-reagent"};
  std::set<std::string> texts, codes;
  for (std::size_t p = 0; p < set.papers.size(); ++p) {
    Paper const& paper = set.papers[p];
    CHECK(paper.student == set.class_order[p]);
    CHECK(paper.version == std::to_string(p + 1));
    REQUIRE(paper.questions.size() == 5);
    for (std::size_t q = 0; q < 5; ++q) {
      Question const& question = paper.questions[q];
      CHECK(question.kind == kinds[q]);
      CHECK(question.number == std::to_string(q + 1));
      CHECK(question.student == paper.student);
      CHECK(question.template_name == set.papers[0].questions[q].template_name);  // one question for all, with other numbers
      CHECK(texts.insert(question.text).second);
      CHECK(codes.insert(question.code).second);
    }
  }
  CHECK(set.notes.empty());
}

TEST_CASE("set: the same seed gives the same set, and a new student changes nobody's paper", "[generators][set]") {
  auto members = students(8);
  ProblemSet const first = made(five_kinds(), members);
  ProblemSet const again = made(five_kinds(), members);
  ProblemSet const other = made(five_kinds(), members, "summer");
  members.insert(members.begin() + 3, {"Newcomer", "", "", ""});
  ProblemSet const grown = made(five_kinds(), members);
  int changed = 0;
  for (std::size_t p = 0; p < 8; ++p) {
    for (std::size_t q = 0; q < 5; ++q) {
      CHECK(first.papers[p].questions[q].code == again.papers[p].questions[q].code);
      CHECK(first.papers[p].questions[q].code == grown.papers[p < 3 ? p : p + 1].questions[q].code);
      changed += first.papers[p].questions[q].code != other.papers[p].questions[q].code ? 1 : 0;
    }
  }
  CHECK(changed == 40);
}

TEST_CASE("set: a kind uses all its templates before it uses one twice", "[generators][set]") {
  SetPlan plan;
  plan.items = {item("limiting-reagent", 5), item("limiting", 5)};
  ProblemSet const set = made(plan, students(2));
  std::set<std::string> first_five, texts;
  std::map<std::string, int> times;
  for (std::size_t q = 0; q < 10; ++q) {
    Question const& question = set.papers[0].questions[q];
    if (q < 5) first_five.insert(question.template_name);
    ++times[question.template_name];
    CHECK(texts.insert(question.text).second);
  }
  CHECK(first_five.size() == 5);
  REQUIRE(templates_of_kind("limiting-reagent") >= 5);
  REQUIRE(templates_of_kind("limiting-reagent") < 10);
  CHECK(times.size() == templates_of_kind("limiting-reagent"));
  for (auto const& [name, count] : times) CHECK(count <= 2);
}

TEST_CASE("set: levels, large print and versions come from the class list", "[generators][set]") {
  std::vector<ClassMember> const members{{"Ash", "plain", "large", ""}, {"Birch", "stretching", "", "7"}, {"Cedar", "", "", ""}};
  SetPlan plan;
  plan.items = {item("n-cV"), item("dilution")};
  ProblemSet const set = made(plan, members);
  CHECK(set.papers[0].large_print);
  CHECK_FALSE(set.papers[1].large_print);
  CHECK(set.papers[1].version == "7");
  for (Question const& question : set.papers[0].questions) CHECK(maker().find(question.template_name)->level == "plain");
  for (Question const& question : set.papers[1].questions) CHECK(maker().find(question.template_name)->level == "stretching");
}

TEST_CASE("set: one paper for all, and an A/B pair", "[generators][set]") {
  SetPlan plan = five_kinds();
  plan.versions = SetPlan::Versions::one;
  ProblemSet const one = made(plan, students(5));
  REQUIRE(one.papers.size() == 1);
  CHECK(one.papers[0].student.empty());
  CHECK(one.class_order.size() == 5);
  CHECK(one.class_versions == std::vector<std::string>(5, "1"));

  plan.versions = SetPlan::Versions::ab;
  auto members = students(4);
  members[1].version = "A";
  ProblemSet const pair = made(plan, members);
  REQUIRE(pair.papers.size() == 2);
  CHECK(pair.papers[0].version == "A");
  CHECK(pair.papers[1].version == "B");
  CHECK(pair.class_versions == std::vector<std::string>{"A", "A", "A", "B"});
  for (std::size_t q = 0; q < 5; ++q) {
    CHECK(pair.papers[0].questions[q].text != pair.papers[1].questions[q].text);
    CHECK(pair.papers[0].questions[q].template_name == pair.papers[1].questions[q].template_name);
  }
}

TEST_CASE("set: marks are spread over the parts", "[generators][set]") {
  SetPlan plan;
  plan.items.push_back(SetItem{});
  plan.items.front().template_name = "chloride-in-feed-water";
  plan.items.front().marks = 6;
  ProblemSet const set = made(plan, students(1));
  CHECK(set.papers[0].questions[0].marks == std::vector<int>{2, 4});  // usual marks 1 and 3
}

TEST_CASE("set: a teacher's own problem is given as it is", "[generators][set]") {
  auto const file = parse_problems(
      "given V(HCl) = 25.5 mL; given c(HCl) = 0.155 mol/L; find n(HCl) in mol marks 2; text What amount of {name HCl} is in "
      "{V(HCl)}?; end");
  REQUIRE(file.problems.size() == 1);
  SetPlan plan;
  plan.items.push_back(SetItem{});
  plan.items.front().own = file.problems.front();
  ProblemSet const set = made(plan, students(2));
  Question const& question = set.papers[1].questions[0];
  CHECK(question.kind == "own");
  CHECK(question.text == "What amount of hydrochloric acid is in 25.5 mL?");  // no line break between number and unit
  CHECK(question.worked.accepted.front().finds.front().text == "0.00395");    // 0.0255 x 0.155 = 0.0039525
  CHECK(question.marks == std::vector<int>{2});
  CHECK_FALSE(question.slip_key.front().empty());
  CHECK(set.papers[0].questions[0].code == question.code);
}

namespace {
/// Of a template that has two questions to give.
QuestionMaker of_two_questions() {
  auto read = read_templates({{"few",
                               "template few\nkind n-cV\ngiven V(KCl) = one of 25.5 | 35.5 mL\ngiven c(KCl) = 0.155 mol/L\nfind "
                               "n(KCl) in mol\ntext\nWhat amount is in {V(KCl)}?\nend\n"}});
  REQUIRE(read.templates.size() == 1);
  return QuestionMaker(read.templates, Course{});
}
}  // namespace

TEST_CASE("set: a template with little to give says that questions repeat", "[generators][set]") {
  auto few = of_two_questions();
  SetPlan plan;
  plan.items = {item("n-cV")};
  auto const set = make_set(plan, students(5), "s", few);
  REQUIRE(ok(set));
  REQUIRE(value(set).notes.size() == 2);
  CHECK(value(set).notes.front() ==
        "3 questions are the same as another student's or one set before: the template has no more to give");
  CHECK(value(set).notes.back() == "the template few has about 2 different questions to give, for 5 papers");
  plan.items = {item("n-cV", 3)};
  auto const too_many = make_set(plan, students(1), "s", few);
  REQUIRE(!ok(too_many));
  CHECK(sentence(fault(too_many)) == "the template few has too few different questions for one paper, expected a smaller count");
}

TEST_CASE("set: what a student has had comes again last of all, and that is said", "[generators][set]") {
  auto few = of_two_questions();
  SetPlan plan;
  plan.items = {item("n-cV")};
  SetHistory history;
  auto const text_for_next = [&](std::vector<std::string>& notes) {
    auto const set = make_set(plan, students(1), "s", few, history);
    REQUIRE(ok(set));
    notes = value(set).notes;
    return value(set).papers.front().questions.front().text;
  };
  std::vector<std::string> notes;
  auto const first = text_for_next(notes);
  history.seen["Student 1"] = {hash_of(first)};
  auto const second = text_for_next(notes);
  CHECK(second != first);
  CHECK(notes.empty());
  history.texts = {hash_of(second)};  // somebody else's: sooner that than the own once more
  CHECK(text_for_next(notes) == second);
  CHECK(notes.at(0) == "1 question is the same as another student's or one set before: the template has no more to give");
  history.seen["Student 1"].insert(hash_of(second));
  text_for_next(notes);
  CHECK(notes.at(0) == "1 question is one that the student has had before: the template has no more to give");
}

TEST_CASE("set: orders that cannot be met", "[generators][set]") {
  struct Case {
    std::string what;
    SetPlan plan;
    int students;
    std::string id, message;
  };
  auto const with = [](SetItem one) {
    SetPlan plan;
    plan.items = {std::move(one)};
    return plan;
  };
  SetItem no_template, odd_level = item("dilution"), few_marks = item("limiting-reagent");
  no_template.template_name = "two-dilution";
  odd_level.level = "hard";
  few_marks.marks = 1;
  SetPlan no_copies = with(item("dilution"));
  no_copies.copies = 0;
  SetPlan millions = with(item("dilution"));
  millions.copies = 10000000;
  std::vector<Case> const cases{
      {"nothing", SetPlan{}, 3, "no-questions", "the set asks for no question, expected a [[question]] or a kind"},
      {"nobody", with(item("dilution")), 0, "empty-class",
       "the class has no students, expected a class list, or a number of versions"},
      {"0 versions", no_copies, 0, "no-versions", "0 versions cannot be made, expected 1 to 100000"},
      {"10 million", millions, 0, "no-versions", "10000000 versions cannot be made, expected 1 to 100000"},
      {"kind", with(item("precipitat")), 3, "unknown-kind", "unknown kind \"precipitat\", expected precipitate"},
      {"kind far off", with(item("alchemy")), 3, "unknown-kind",
       "unknown kind \"alchemy\", expected a kind that set --kinds lists"},
      {"template", with(no_template), 3, "unknown-template", "unknown template \"two-dilution\", expected two-dilutions"},
      {"level", with(odd_level), 3, "unknown-level", "unknown level \"hard\", expected plain, standard, stretching"},
      {"count", with(item("dilution", 0)), 3, "bad-count", "count is 0, expected 1 to 200"},
      {"marks", with(few_marks), 3, "bad-marks",
       "a question of 2 parts has 1 mark, expected at least one a part, and 100 at most"},
  };
  for (Case const& c : cases) {
    CAPTURE(c.what);
    auto const got = make_set(c.plan, students(c.students), "s", maker());
    REQUIRE(!ok(got));
    CHECK(fault(got).id == c.id);
    CHECK(sentence(fault(got)) == c.message);
  }
}

namespace {

/// Ten questions, two of each of the five kinds.
SetPlan ten_questions() {
  SetPlan plan = five_kinds();
  for (SetItem& one : plan.items) one.count = 2;
  return plan;
}

int difficulty_of(Paper const& paper) {
  int sum = 0;
  for (Question const& question : paper.questions) sum += difficulty_of(question).total();
  return sum;
}
int marks_of(Paper const& paper) {
  int sum = 0;
  for (Question const& question : paper.questions)
    for (int const marks : question.marks) sum += marks;
  return sum;
}

}  // namespace

TEST_CASE("set: thirty versions of a test share no givens and no answer, and are equally hard", "[generators][set]") {
  for (char const* seed : {"autumn", "winter", "resits"}) {
    ProblemSet const set = made(ten_questions(), students(30), seed);
    CAPTURE(seed);
    for (Paper const& paper : set.papers) {
      CHECK(marks_of(paper) == marks_of(set.papers.front()));
      CHECK(std::abs(difficulty_of(paper) - difficulty_of(set.papers.front())) <= 1);
    }
    for (std::size_t q = 0; q < 10; ++q) {
      std::set<std::string> texts;
      std::map<std::pair<std::size_t, std::string>, int> answers;
      for (Paper const& paper : set.papers) {
        Question const& question = paper.questions[q];
        CHECK(texts.insert(question.text).second);
        auto const& finds = question.worked.accepted.front().finds;
        for (std::size_t f = 0; f < finds.size(); ++f)
          if (finds[f].figures > 0) ++answers[{f, finds[f].text}];
      }
      for (auto const& [answer, times] : answers) {
        CAPTURE(q, answer.second);
        CHECK(times == 1);
      }
    }
  }
}

TEST_CASE("set: a seed that nothing fits, after others that gave a question, spoils no set", "[generators][set]") {
  // Of 991 amounts 17 fit, so that a seed's 64 draws often hold none; and the answers are few, so that more seeds are tried.
  auto const read = read_templates(
      {{"narrow",
        "template narrow\nkind n-cV\nlevel plain\ngiven n(NaCl) = 0.010 to 1.000 by 0.001 mol\nrequire m(NaCl) >= 30.0 g\n"
        "require m(NaCl) <= 31.0 g\nfind m(NaCl) in g\ntext\n  Calculate the mass of {n(NaCl)} of {name NaCl}, in g.\nend\n"}});
  REQUIRE(read.templates.size() == 1);
  QuestionMaker narrow(read.templates, Course{});
  SetPlan plan;
  plan.items.emplace_back().template_name = "narrow";
  plan.copies = 40;
  auto const set = make_set(plan, {}, "narrow", narrow);
  if (!ok(set)) FAIL(sentence(fault(set)));
  CHECK(value(set).papers.size() == 40);
}

TEST_CASE("set: thirty papers of every template share no wording and no number, and have the same marks", "[generators][set]") {
  // A formula that is asked for may come twice: nature has not thirty of each kind.
  for (Template const& one : maker().templates()) {
    SetPlan plan;
    plan.title = "Thirty";
    plan.items.emplace_back().template_name = one.name;
    ProblemSet const set = made(plan, students(30), "thirty");
    CAPTURE(one.name);
    std::set<std::string> texts;
    std::map<std::pair<std::size_t, std::string>, int> answers;
    for (Paper const& paper : set.papers) {
      Question const& question = paper.questions.front();
      CHECK(question.marks == set.papers.front().questions.front().marks);
      bool const new_wording = texts.insert(question.text).second;
      CHECK((new_wording || maker().questions_of(one) < 30));
      auto const& finds = question.worked.accepted.front().finds;
      for (std::size_t f = 0; f < finds.size(); ++f)
        if (finds[f].figures > 0) ++answers[{f, finds[f].text}];
    }
    for (auto const& [answer, times] : answers) {
      CAPTURE(answer.second);
      CHECK(times == 1);
    }
  }
}

TEST_CASE("set: an A/B pair is equally hard, question by question", "[generators][set]") {
  SetPlan plan = ten_questions();
  plan.versions = SetPlan::Versions::ab;
  for (char const* seed : {"one", "two", "three", "four"}) {
    ProblemSet const set = made(plan, students(8), seed);
    REQUIRE(set.papers.size() == 2);
    for (std::size_t q = 0; q < 10; ++q) {
      Question const &a = set.papers[0].questions[q], &b = set.papers[1].questions[q];
      CAPTURE(seed, q, a.text, b.text);
      CHECK(a.text != b.text);
      CHECK(a.template_name == b.template_name);
      CHECK(std::abs(difficulty_of(a).total() - difficulty_of(b).total()) <= 1);
      CHECK(a.marks == b.marks);
    }
  }
}

TEST_CASE("set: a re-sit asks the same of each student with other numbers", "[generators][set]") {
  SetPlan plan = five_kinds();
  std::vector<ClassMember> members = students(6);
  members[2].level = "stretching";
  members[4].level = "plain";
  ProblemSet const first = made(plan, members, "june");
  SetHistory history;
  note_texts(first, history);
  history.resit_of = &first;
  SetPlan again;
  again.title = "Again";
  auto const second = make_set(again, members, "july", maker(), history);
  if (!ok(second)) FAIL(sentence(fault(second)));
  for (std::size_t p = 0; p < members.size(); ++p) {
    REQUIRE(value(second).papers[p].questions.size() == 5);
    CHECK(marks_of(value(second).papers[p]) == marks_of(first.papers[p]));
    for (std::size_t q = 0; q < 5; ++q) {
      Question const &a = first.papers[p].questions[q], &b = value(second).papers[p].questions[q];
      CHECK(a.template_name == b.template_name);
      CHECK(a.text != b.text);
      CHECK(std::abs(difficulty_of(a).total() - difficulty_of(b).total()) <= 1);
    }
  }
}

TEST_CASE("set: what was set before does not come again", "[generators][set]") {
  SetHistory history;
  std::set<std::string> texts;
  for (int week = 0; week < 8; ++week) {
    // The same seed on purpose: without the history it would be the same set.
    auto const set = make_set(five_kinds(), students(12), "same", maker(), history);
    REQUIRE(ok(set));
    for (Paper const& paper : value(set).papers)
      for (Question const& question : paper.questions) CHECK(texts.insert(question.text).second);
    note_texts(value(set), history);
  }
}

TEST_CASE("set: made some papers at a time it is the same, letters included", "[generators][set]") {
  SetPlan plan = five_kinds();
  plan.copies = 40;
  ProblemSet const whole = made(plan, {});
  auto begun = SetMaker::begin(plan, {}, "spring", maker());
  REQUIRE(ok(begun));
  int asked = 0;
  MakeMany const others_first = [&](std::vector<Ask> const& asks) {
    std::vector<Result<Question>> questions(asks.size(), Fault{});
    for (std::size_t i = asks.size(); i-- > 0; ++asked)  // in another order, as threads would
      questions[i] = maker().make(*maker().find(asks[i].template_name), asks[i].seed, asks[i].form);
    return questions;
  };
  std::size_t paper = 0;
  while (paper < 40) {
    auto const some = value(begun)->next(17, others_first);
    REQUIRE(ok(some));
    REQUIRE_FALSE(value(some).papers.empty());
    for (Paper const& one : value(some).papers) {
      for (std::size_t q = 0; q < one.questions.size(); ++q) {
        CHECK(one.questions[q].code == whole.papers[paper].questions[q].code);
        CHECK(one.questions[q].text == whole.papers[paper].questions[q].text);
      }
      ++paper;
    }
  }
  CHECK(asked == 200);
  CHECK(value(begun)->next(17).index() == 0);
}

TEST_CASE("kinds: understood as people say them", "[generators][kinds]") {
  std::vector<std::string> const all{"n-cV", "dilution", "serial-dilution", "ph", "solubility-product", "back-titration"};
  std::vector<std::pair<char const*, char const*>> const rows{{"pH", "ph"},
                                                              {"Ksp", "solubility-product"},
                                                              {"Serial dilutions", "serial-dilution"},
                                                              {"n = cV", "n-cV"},
                                                              {"back titrations", "back-titration"},
                                                              {"c1V1 = c2V2", "dilution"},
                                                              {"yield", ""},
                                                              {"", ""}};
  for (auto const& [said, kind] : rows) {
    CAPTURE(said);
    CHECK(kind_meant(said, all) == kind);
  }
  CHECK(kind_words("ph") == "pH of strong acids and bases");
  CHECK(kind_words("own") == "own");
}
