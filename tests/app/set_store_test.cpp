// set.jsonl: what is written is what is read, marking needs nothing else, and no damage to it goes unseen.
#include "app/set_store.h"

#include "app/class_marking.h"
#include "app/judgement_json.h"
#include "app/question_templates.h"
#include "generators/random.h"
#include "generators/set_maker.h"
#include "templates/from_set.h"
#include "tests/app/program.h"

using namespace molewright;

namespace {
ProblemSet made_set(SetPlan::Versions versions, Course const& course = {}) {
  auto read = read_templates(question_templates());
  QuestionMaker maker(std::move(read.templates), course);
  SetPlan plan;
  plan.title = "Feed";
  plan.versions = versions;
  // Templates by name, so that new ones of a kind do not change what these tests look at.
  for (char const* name :
       {"amount-in-feed", "weigh-a-hydrate", "pipette-into-a-flask", "solid-from-two-solutions", "limescale-and-acid"}) {
    SetItem item;
    item.template_name = name;
    plan.items.push_back(item);
  }
  std::vector<ClassMember> members;
  for (char const* name : {"Reed, Ann", "Bo Sedge", "Cleo \"Clay\" Rush"}) members.push_back({name, "", "", ""});
  auto made = make_set(plan, members, "seed", maker);
  REQUIRE(ok(made));
  return value(made);
}

std::string marks_of(ProblemSet const& set, std::string const& answers) {
  std::string out;
  AllHandedIn handed_in(set.class_order, {answer_columns(set), {}});
  handed_in.add(answers);
  MarksByHand const by_hand;
  ClassMarking marking(set, handed_in, {by_hand});
  for (std::size_t place = 0; place < marking.students(); ++place)
    for (auto const& part : marking.student(place).result.parts) out += judgement_json(part).dump() + '\n';
  return out;
}
}  // namespace

TEST_CASE("set store: read back, it is written the same", "[app][set-store]") {
  auto const versions = GENERATE(SetPlan::Versions::each, SetPlan::Versions::one, SetPlan::Versions::ab);
  Course course;
  course.conventions.weights.table = WeightTable::one_decimal;
  course.conventions.mark = DecimalMark::comma;
  course.rules.figures = MarkingRules::Figures::exact;
  auto const text = set_lines(made_set(versions, course));
  auto const read = read_set(text);
  for (auto const& found : read.faults) UNSCOPED_INFO(sentence(found.fault));
  CHECK(read.faults.empty());
  auto const again = lines_of(set_lines(read.set));
  auto const once = lines_of(text);
  REQUIRE(again.size() == once.size());
  for (std::size_t i = 0; i < once.size(); ++i)
    if (again[i] != once[i]) {
      auto const [a, b] = std::mismatch(again[i].begin(), again[i].end(), once[i].begin(), once[i].end());
      auto const from = static_cast<std::size_t>(std::max<std::ptrdiff_t>(b - once[i].begin() - 60, 0));
      FAIL_CHECK("line " << i + 1 << ": " << again[i].substr(from, 120) << "\n  was: " << once[i].substr(from, 120));
    }
  std::string windows;
  for (char c : text) windows += c == '\n' ? std::string("\r\n") : std::string(1, c);
  CHECK((set_lines(read_set(windows).set) == text));
}

TEST_CASE("set store: a set is marked as it was printed, from its file alone", "[app][set-store]") {
  auto const set = made_set(SetPlan::Versions::each);
  std::string csv = "student,question,answer\n";
  for (auto const& paper : set.papers)
    for (auto const& question : paper.questions)
      for (std::size_t f = 0; f < question.marks.size(); ++f) {
        bool const slip = !question.slip_key[f].empty() && paper.version != "1";
        csv += csv_cell(paper.student) + ',' + column_name(question, f) + ',' +
               (slip ? question.slip_key[f].front().answer : question.worked.accepted.front().finds[f].text) + '\n';
      }
  // The library of templates is never asked: the questions' templates could have gone.
  auto text = set_lines(set);
  for (auto at = text.find("\"template\":\""); at != std::string::npos; at = text.find("\"template\":\"", at + 12))
    text.insert(at + 12, "gone-");
  auto const read = read_set(text);
  REQUIRE(read.faults.empty());
  auto const marks = marks_of(read.set, csv);
  CHECK(marks == marks_of(set, csv));
  CHECK(marks.find("\"value\":\"right\"") != std::string::npos);
  CHECK(marks.find("\"value\":\"wrong\"") != std::string::npos);
}

TEST_CASE("set store: what is no set, and lines changed by hand", "[app][set-store][bad-input]") {
  struct Case {
    std::string text, id, what;
  };
  auto const c = GENERATE(values<Case>({
      {"", "not-a-set", "this file is empty"},
      {"student,1\nAnn,2\n", "not-a-set", "this is not a problem set"},
      {"{\"format\": 1}\n", "not-a-set", "this is not a problem set"},
      {"{\"format\": \"molewright-set/2\"}\n", "newer-set", "this set has the format molewright-set/2"},
      {"{\"format\": \"molewright-set/1\", \"title\": [], \"students\": 3, \"course\": []}\n", "bad-course",
       "the set's course is not an object"},
      {"{\"format\": \"molewright-set/1\", \"title\": \"x\"}\n\xFF\n", "bad-question", "this question is not a JSON object"},
      {"{\"format\": \"molewright-set/1\", \"title\": \"x\"}\n{}\n", "bad-question",
       "this question lacks something or holds something of the wrong type"},
  }));
  CAPTURE(c.text);
  auto const read = read_set(c.text);
  REQUIRE(read.faults.size() == 1);
  CHECK(read.faults.front().fault.id == c.id);
  CHECK(read.faults.front().fault.what == c.what);
}

TEST_CASE("set store: one line changed is one question left out, named by its line", "[app][set-store][bad-input]") {
  struct Change {
    std::string from, to, what;
  };
  auto const change = GENERATE(values<Change>({
      {"\"factor\":\"1/1000\"", "\"factor\":\"1/100\"", "question 1 of Reed, Ann has a working that does not add up"},
      {"\"unrounded\"", "\"unrounde", "this question is not a JSON object"},
      {"\"parts\":[{", "\"parts\":[{\"answer\":\"1\",\"find\":\"x\"},{", ""},
      {"\"marks\":", "\"marks\":-", "question 1 of Reed, Ann has marks that cannot be"},
      {"\"marks\":", "\"marks\":\"a\",\"m\":", ""},
      {"\"operation\":\"product\"", "\"operation\":\"choose\"", "question 1 of Reed, Ann has a working that does not add up"},
      {"\"operation\":\"product\"", "\"operation\":\"magic\"", "the working of a question has a node that cannot be read"},
      {"\"reads\":[[1,1]]", "\"reads\":[[99,1]]", "the working of a question has a node that cannot be read"},
      {"\"reads\":[[1,1]]", "\"reads\":[[1,1000000000]]", "question 1 of Reed, Ann has a working that does not add up"},
      {"\"problem\":\"problem", "\"problem\":\"oblem", "question 1 of Reed, Ann holds a problem that cannot be read"},
  }));
  CAPTURE(change.from, change.to);
  auto const lines = lines_of(set_lines(made_set(SetPlan::Versions::each)));
  std::string text;
  bool changed = false;
  for (std::size_t i = 0; i < lines.size(); ++i) {
    auto line = lines[i];
    auto const at = i == 1 ? line.find(change.from) : std::string::npos;
    if (at != std::string::npos) {
      line.replace(at, change.from.size(), change.to);
      changed = true;
    }
    text += line + '\n';
  }
  REQUIRE(changed);
  auto const read = read_set(text);
  REQUIRE(read.faults.size() == 1);
  CHECK(read.faults.front().line == 2);
  if (!change.what.empty()) CHECK(read.faults.front().fault.what == change.what);
  std::size_t questions = 0;
  for (auto const& paper : read.set.papers) questions += paper.questions.size();
  CHECK(questions == 14);
}

TEST_CASE("set store: any damage is read and marked without falling over", "[app][set-store][bad-input]") {
  auto const whole = set_lines(made_set(SetPlan::Versions::ab));
  std::string const answers = "student,1\nBo Sedge,1.72 g\n";
  Random random(20);
  std::string const bytes = "0123456789{}[]\",:-+eE. \n\\\xFFnVA";
  for (int round = 0; round < 300; ++round) {
    auto text = whole;
    for (int change = 0; change < 3; ++change) {
      auto const at = static_cast<std::size_t>(random.below(static_cast<std::uint32_t>(text.size())));
      text[at] = bytes[random.below(static_cast<std::uint32_t>(bytes.size()))];
    }
    if (round % 3 == 0) text.resize(random.below(static_cast<std::uint32_t>(text.size())));
    auto const read = read_set(text);
    if (read.set.papers.empty()) {
      CHECK_FALSE(read.faults.empty());
      continue;
    }
    CHECK_NOTHROW(marks_of(read.set, answers));
  }
}
