// What is remembered from one script to the next must not show: every script is judged as it would be alone.
#include <catch2/catch.hpp>
#include <cstdio>
#include <string>
#include <vector>

#include "marker/judge.h"
#include "worked.h"

using namespace molewright;

namespace {

char const* const problems[] = {
    // Each part rests on the one before it.
    "problem p; reaction BaCl2 + AgNO3 -> AgCl + Ba(NO3)2; given V(BaCl2) = 40.0 mL; given c(BaCl2) = 0.150 mol/L; excess AgNO3; "
    "find n(BaCl2) in mol; find n(AgCl) in mol; find m(AgCl) in g",
    // Two parts that do not rest on each other, and one that rests on both.
    "problem p; reaction BaCl2 + AgNO3 -> AgCl + Ba(NO3)2; given V(BaCl2) = 40.0 mL; given c(BaCl2) = 0.150 mol/L; "
    "given V(AgNO3) = 60.0 mL; given c(AgNO3) = 0.115 mol/L; find n(BaCl2) in mol; find n(AgNO3) in mol; find m(AgCl) in g",
    // A choice first.
    "problem p; reaction Mg + HCl -> MgCl2 + H2; given m(Mg) = 0.486 g; given V(HCl) = 60.0 mL; given c(HCl) = 0.500 mol/L; "
    "find limiting reagent; find n(H2) in mol; find m(MgCl2) in g"};

/// What may stand in the box of a part: right, right to fewer figures, what slips lead to, what nothing explains, and no number.
std::vector<std::string> boxes(Question const& question, std::size_t find) {
  auto const& working = question.worked.accepted.front();
  auto const& answer = working.finds[find];
  if (answer.figures == 0) return {answer.text, "Mg", "HCl", "H2", "right", ""};
  auto const& right = working.nodes[static_cast<std::size_t>(answer.node)].value;
  auto const with_unit = [&](double number, int figures) {
    char text[64];
    std::snprintf(text, sizeof text, "%.*e %s", figures - 1, number, right.unit.symbol.c_str());
    return std::string(text);
  };
  std::vector<std::string> all{answer.text + " " + right.unit.symbol, with_unit(right.number.to_double(), 2)};
  auto const table = slip_table(question.worked, {});
  auto const& slips = table.by_find[find];
  for (std::size_t k = 0; k < slips.size(); k += slips.size() / 3 + 1) all.push_back(with_unit(slips[k].value, 3));
  all.push_back(with_unit(1.23457 * right.number.to_double(), 4));
  all.insert(all.end(), {"B", "right", ""});
  return all;
}

/// All of a judgement that anybody is told.
std::string told(Judgement const& one) {
  std::string text = one.question + one.part + '|' + one.given + '|' + one.correct + '|' + std::to_string(one.marks) + '/' +
                     std::to_string(one.out_of) + '|' + std::to_string(one.marks_if_accepted) + (one.suggested ? "*|" : "|") +
                     std::string(name(one.value)) + '|' + std::string(name(one.unit)) + '|' + std::string(name(one.figures)) +
                     '|' + one.feedback;
  for (auto const& note : one.notes) text += '|' + note;
  for (auto const& candidate : one.candidates) {
    text += '|' + candidate.text + ' ' + std::to_string(candidate.probability) + ' ' + std::to_string(candidate.value);
    for (auto const& slip : candidate.slips) text += ' ' + slip.id + '@' + slip.node;
  }
  return text;
}
}  // namespace

TEST_CASE("judge: every script is judged as it would be alone, whatever others wrote before", "[marker][judge][known]") {
  for (bool const follow_through : {true, false})
    for (auto const* problem : problems) {
      Course course;
      course.rules.follow_through = follow_through;
      auto const question = question_from(problem);
      Judge const shared(question, course);
      std::vector<std::vector<std::string>> of_part;
      for (std::size_t find = 0; find < question.marks.size(); ++find) of_part.push_back(boxes(question, find));
      REQUIRE(of_part.size() == 3);
      std::size_t scripts = 0;
      for (int round = 0; round < 2; ++round)
        for (auto const& a : of_part[0])
          for (auto const& b : of_part[1])
            for (auto const& c : of_part[2]) {
              std::vector<Written> script;
              for (auto const* box : {&a, &b, &c}) script.push_back(read_written(*box, DecimalMark::point));
              auto const together = shared.judge(script), alone = Judge(question, course).judge(script);
              INFO(problem << " : " << a << " ; " << b << " ; " << c);
              for (std::size_t part = 0; part < 3; ++part) REQUIRE(told(together[part]) == told(alone[part]));
              ++scripts;
            }
      CHECK(scripts > 500);
    }
}
