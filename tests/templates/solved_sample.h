#pragma once
// A small problem set, worked by the solver.
#include <catch2/catch.hpp>
#include <string>
#include <utility>
#include <variant>

#include "engine/problem.h"
#include "engine/solver.h"
#include "generators/set.h"

namespace molewright::sample {

inline Question question(std::string number, std::string code, std::string const& text, Conventions const& conventions) {
  ProblemFile const file = parse_problems(text);
  REQUIRE(file.faults.empty());
  REQUIRE(file.problems.size() == 1);
  WorkedResult const worked = solve(file.problems[0], conventions);
  REQUIRE(std::holds_alternative<Worked>(worked));
  Question q;
  q.code = std::move(code);
  q.number = std::move(number);
  q.worked = std::get<Worked>(worked);
  auto const words = wording(q.worked.problem, conventions);
  REQUIRE(ok(words));
  q.text = value(words);
  for (Find const& find : q.worked.problem.finds) q.marks.push_back(find.marks.value_or(1));
  q.slip_key.resize(q.marks.size());
  return q;
}

inline ProblemSet solved_set() {
  ProblemSet set;
  set.title = "Solutions for the greenhouse";
  set.seed = "thornmere-7";
  set.notes = {"Question 2: two slips lead to one number in version 1."};
  Conventions const& conventions = set.course.conventions;
  Question first =
      question("1", "A3F977KDQ",
               "problem packet\ngiven V(KNO3) = 25.0 mL\ngiven c(KNO3) = 0.200 mol/L\nfind n(KNO3) in mol marks 2\ntext\n"
               "  What amount of {formula KNO3} is in {V(KNO3)} of a {c(KNO3)} solution?\nend\n",
               conventions);
  Question second =
      question("2", "K7M2Q4TX9",
               "problem silver\nreaction BaCl2(aq) + AgNO3(aq) -> AgCl(s) + Ba(NO3)2(aq)\ngiven V(BaCl2) = 40.0 mL\n"
               "given c(BaCl2) = 0.150 mol/L\nexcess AgNO3\nfind n(BaCl2) in mol marks 1\nfind m(AgCl) in g marks 3\ntext\n"
               "  Excess {name AgNO3} solution is added to {V(BaCl2)} of {c(BaCl2)} {name BaCl2} solution. What mass of {name "
               "AgCl} forms?\nend\n",
               conventions);
  second.slip_key[1] = {{'A', {"mole-ratio-ignored"}, "0.860", 0.85992},
                        {'B', {"volume-left-in-mL", "a-slip-without-words"}, "1.72e3", 1719.84}};
  second.told_apart_not = {"volume-left-in-mL = a-slip-without-words"};
  set.papers.push_back({"1", "Ada Moss", false, {first, second}});
  set.papers.push_back({"2", "Ben Reed", true, {first, second}});
  set.class_order = {"Ada Moss", "Ben Reed"};
  return set;
}

}  // namespace molewright::sample
