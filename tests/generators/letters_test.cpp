// Letters of the slip key: the same meaning on every paper of a set.
#include "generators/letters.h"

#include <catch2/catch.hpp>
#include <map>
#include <set>
#include <string>
#include <vector>

#include "app/question_templates.h"
#include "generators/set_maker.h"

using namespace molewright;

namespace {

/// A key of entries with these slips, in order of frequency, as the marker letters them for one paper.
std::vector<SlipKeyEntry> key(std::vector<std::vector<std::string>> const& slips) {
  std::vector<SlipKeyEntry> entries;
  for (auto const& ids : slips) {
    char const letter = static_cast<char>('A' + static_cast<int>(entries.size()));
    entries.push_back({letter, ids, std::to_string(entries.size() + 1), 1.0 + static_cast<double>(entries.size())});
  }
  return entries;
}

Question question(std::string template_name, std::vector<std::vector<SlipKeyEntry>> keys) {
  Question q;
  q.template_name = std::move(template_name);
  q.slip_key = std::move(keys);
  return q;
}

ProblemSet set_of(std::vector<std::vector<Question>> papers) {
  ProblemSet set;
  for (auto& questions : papers) {
    Paper paper;
    paper.questions = std::move(questions);
    set.papers.push_back(std::move(paper));
  }
  return set;
}

/// "A=unit/1 C=ratio/2": letter, first slip, answer.
std::string shown(ProblemSet const& set, std::size_t paper, std::size_t place = 0, std::size_t find = 0) {
  std::string line;
  for (SlipKeyEntry const& entry : set.papers[paper].questions[place].slip_key[find])
    line += (line.empty() ? "" : " ") + std::string(1, entry.letter) + "=" + entry.ids.front() + "/" + entry.answer;
  return line;
}

}  // namespace

TEST_CASE("letters: what most papers hold comes first, and means the same on each", "[generators][letters]") {
  ProblemSet set = set_of({{question("t", {key({{"unit"}, {"ratio"}, {"mass"}})})},
                           {question("t", {key({{"water"}, {"unit"}, {"ratio"}})})},
                           {question("t", {key({{"water"}, {"unit"}})})}});
  Letters().settle(set);
  // By hand: unit on 3 papers; water on 2 (places 0, 0), ratio on 2 (places 1, 2); mass on 1.
  CHECK(shown(set, 0) == "A=unit/1 C=ratio/2 D=mass/3");
  CHECK(shown(set, 1) == "A=unit/2 B=water/1 C=ratio/3");
  CHECK(shown(set, 2) == "A=unit/2 B=water/1");
}

TEST_CASE("letters: an entry is known by its first slip, and by how many-th of it", "[generators][letters]") {
  ProblemSet set =
      set_of({{question("t", {key({{"other", "water"}, {"other"}, {"unit"}})})}, {question("t", {key({{"unit"}, {"other"}})})}});
  Letters().settle(set);
  // On both: the first "other" (places 0, 1), "unit" (places 2, 0). The mean places are 1/2 and 1.
  CHECK(shown(set, 0) == "A=other/1 B=unit/3 C=other/2");
  CHECK(shown(set, 1) == "A=other/2 B=unit/1");
  CHECK(set.papers[0].questions[0].slip_key[0][0].ids == std::vector<std::string>{"other", "water"});
}

TEST_CASE("letters: another template, another place and another part have letters of their own", "[generators][letters]") {
  ProblemSet set = set_of({{question("t", {key({{"unit"}}), key({{"ratio"}, {"unit"}})}), question("t", {key({{"mass"}})})},
                           {question("u", {key({{"water"}, {"unit"}})}), question("t", {key({{"unit"}, {"mass"}})})}});
  Letters().settle(set);
  CHECK(shown(set, 0, 0, 0) == "A=unit/1");
  CHECK(shown(set, 0, 0, 1) == "A=ratio/1 B=unit/2");
  CHECK(shown(set, 1, 0, 0) == "A=water/1 B=unit/2");
  CHECK(shown(set, 0, 1, 0) == "A=mass/1");
  CHECK(shown(set, 1, 1, 0) == "A=mass/2 B=unit/1");
}

TEST_CASE("letters: one paper keeps the letters it has; no papers and no keys are nothing to do", "[generators][letters]") {
  ProblemSet one = set_of({{question("t", {key({{"unit"}, {"ratio"}, {"unit"}}), {}})}});
  std::string const as_it_was = shown(one, 0);
  Letters().settle(one);
  CHECK(shown(one, 0) == as_it_was);
  CHECK(one.papers[0].questions[0].slip_key[1].empty());
  ProblemSet none;
  Letters().settle(none);
  CHECK(none.papers.empty());
}

TEST_CASE("letters: ten at most, the rarest left out", "[generators][letters]") {
  std::vector<std::vector<std::string>> first, second;
  for (int i = 0; i < 8; ++i) first.push_back({"first" + std::to_string(i)});
  for (int i = 0; i < 6; ++i) second.push_back({"second" + std::to_string(i)});
  second.push_back({"first7"});
  ProblemSet set = set_of({{question("t", {key(first)})}, {question("t", {key(second)})}});
  Letters().settle(set);
  // 14 meanings: first7 on both papers, then by place: first0 second0 first1 second1 ... until ten.
  CHECK(shown(set, 0) == "A=first7/8 B=first0/1 D=first1/2 F=first2/3 H=first3/4 J=first4/5");
  CHECK(shown(set, 1) == "A=first7/7 C=second0/1 E=second1/2 G=second2/3 I=second3/4");
}

TEST_CASE("letters: a made set has one meaning a letter", "[generators][letters]") {
  // No outside source: every paper of a real set is looked at, letter by letter.
  TemplatesRead read = read_templates(question_templates());
  REQUIRE(read.faults.empty());
  QuestionMaker maker(std::move(read.templates), Course{});
  SetPlan plan;
  plan.title = "Greenhouse";
  for (char const* const kind : {"precipitate", "limiting-reagent"}) {
    SetItem item;
    item.kind = kind;
    plan.items.push_back(item);
  }
  std::vector<ClassMember> members;
  for (char const* const name : {"Ada", "Ben", "Cleo", "Dov", "Edda", "Finn"}) {
    ClassMember member;
    member.student = name;
    members.push_back(member);
  }
  auto const made = make_set(plan, members, "thornmere", maker);
  REQUIRE(ok(made));
  std::size_t entries = 0;
  std::map<std::string, std::set<std::string>> meanings;  // place, template, part, letter -> first slips
  for (Paper const& paper : value(made).papers) {
    for (Question const& one : paper.questions) {
      for (std::size_t find = 0; find < one.slip_key.size(); ++find) {
        char last = 'A' - 1;
        for (SlipKeyEntry const& entry : one.slip_key[find]) {
          CHECK(entry.letter > last);
          last = entry.letter;
          CHECK(entry.letter <= 'J');
          meanings[one.number + " " + one.template_name + " " + part_name(one, find) + entry.letter].insert(entry.ids.front());
          ++entries;
        }
      }
    }
  }
  CHECK(entries > 30);
  for (auto const& [letter, slips] : meanings) {
    CAPTURE(letter, slips);
    CHECK(slips.size() == 1);
  }
}
