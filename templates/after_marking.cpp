#include "templates/after_marking.h"

#include <algorithm>
#include <cmath>
#include <deque>
#include <map>
#include <optional>
#include <set>

#include "engine/steps.h"
#include "marker/slip.h"
#include "marker/words.h"
#include "marker/written.h"
#include "marker/wrong_working.h"
#include "templates/asked.h"
#include "templates/from_results.h"
#include "templates/from_set.h"
#include "templates/reading_table.h"
#include "templates/volumes.h"

namespace molewright {
namespace {

namespace words {
constexpr char const* again = "Do again: ";
constexpr char const* and_also = "Check both: ";
constexpr char const* no_cause = "Write every step on a line of its own, each number with its unit, and check them one by one.";
constexpr char const* by_hand = "See what your teacher wrote on your paper.";
}  // namespace words

constexpr std::size_t slips_of_a_morning = 3;
constexpr std::int16_t nowhere = -1;

std::string sentence_of(std::string text) { return text + (text.empty() || text.back() == '.' ? "" : "."); }

bool is_number(std::optional<Asked> const& place) {
  return !place || place->question->worked.problem.finds[place->find].kind == Find::Kind::number;
}

/// Which step to do again; nothing of what it comes to.
std::string look_at(Judgement const& judgement, std::optional<Asked> const& place) {
  if (judgement.by_hand) return words::by_hand;
  if (judgement.value != ValueVerdict::wrong) return judgement.feedback;
  std::vector<std::string> steps;
  for (auto const& candidate : judgement.candidates)
    for (auto const& slip : candidate.slips) {
      if (!place || slip.node.empty()) continue;
      auto step = step_words(place->question->worked.accepted.front(), slip.node);
      if (std::find(steps.begin(), steps.end(), step) == steps.end()) steps.push_back(std::move(step));
    }
  bool const sure = !named_slip(judgement).empty();
  if (judgement.candidates.empty() && judgement.figures == FiguresVerdict::too_few) return judgement.feedback;
  double likely = 0;  // causes that are all unlikely point nowhere
  for (std::size_t i = 0; i < std::min<std::size_t>(2, judgement.candidates.size()); ++i)
    likely += judgement.candidates[i].probability;
  if (steps.empty() || likely < least_probability_to_count) return words::no_cause;
  if (sure || steps.size() == 1) return sentence_of(words::again + steps.front());
  return sentence_of(words::and_also + steps[0] + ", and " + steps[1]);
}

/// A slip in the first part of those who made it that can be shown line by line, else in the first at all.
SlipShown shown(SlipCount const& slip, QuestionsByCode const& questions, Conventions const& conventions,
                MarkAgain const& mark_again) {
  SlipShown out{slip.id, static_cast<int>(slip.students.size()), nullptr, "", std::nullopt};
  for (std::size_t nth = 0; nth < std::min(students_of_a_volume, slip.students.size()); ++nth)
    for (auto const& part : mark_again(slip.students[nth]).parts) {
      if (part.value != ValueVerdict::wrong || named_slip(part) != slip.id) continue;
      auto const place = asked(questions, part);
      if (!place) continue;
      auto const written = read_written(part.given, conventions.mark);
      std::optional<double> answer;
      if (written.kind == Written::Kind::number) answer = written.number.value.to_double();
      auto working =
          wrong_working(*place->question, place->find, slip.id, part.candidates.front().slips.front().node, answer, conventions);
      if (!working && out.question) continue;
      out.question = place->question;
      out.instead = part.candidates.front().text;
      out.working = std::move(working);
      auto const& right = place->question->worked.accepted.front();
      auto const answer_node = right.nodes[static_cast<std::size_t>(right.finds[place->find].node)].id;
      if (auto const last = right_step(*place->question, place->find, answer_node, conventions)) out.last_line = last->text;
      if (out.working) return out;
    }
  return out;
}

/// The column in which a student made the slip, or nowhere.
std::int16_t column_of(StudentMarks const& student, std::size_t slip) {
  for (auto const& part : student.parts)
    if (part.value == ValueVerdict::wrong && part.slip == static_cast<std::int16_t>(slip)) return part.column;
  return nowhere;
}
bool has_right(StudentMarks const& student, std::int16_t column) {
  auto const* part = part_of(student, static_cast<std::size_t>(column));
  return part && part->value == ValueVerdict::right;
}

/// Those who could help with one column, in class order by their marks.
class Helpers {
 public:
  void add(StudentMarks const& student) { by_marks_[student.marks].push_back(&student); }
  /// The nearest in marks of those that are not paired yet: neither is to do all the talking. nullptr for none.
  StudentMarks const* nearest(int marks, std::set<std::string> const& paired) {
    StudentMarks const* best = nullptr;
    for (auto at = by_marks_.begin(); at != by_marks_.end();) {
      auto& there = at->second;
      while (!there.empty() && paired.count(there.front()->student) > 0) there.pop_front();
      if (there.empty()) {
        at = by_marks_.erase(at);
        continue;
      }
      int const apart = std::abs(at->first - marks), least = best ? std::abs(best->marks - marks) : apart + 1;
      if (apart < least || (apart == least && there.front() < best)) best = there.front();
      ++at;
    }
    return best;
  }

 private:
  std::map<int, std::deque<StudentMarks const*>> by_marks_;
};

/// Slip by slip, the commonest first: whoever made it sits with someone who had that part right. Each student once.
std::vector<MorningPair> pairs_of(ClassResults const& results, Conventions const& conventions, std::set<std::string>& paired) {
  std::vector<MorningPair> pairs;
  for (std::size_t slip = 0; slip < results.slips.size(); ++slip) {
    std::vector<std::int16_t> columns;
    std::map<std::int16_t, Helpers> helpers;
    for (auto const& student : results.students) {
      columns.push_back(column_of(student, slip));
      if (columns.back() != nowhere) helpers.try_emplace(columns.back());
    }
    for (std::size_t s = 0; s < columns.size(); ++s)
      for (auto& [column, those] : helpers)
        if (columns[s] == nowhere && results.students[s].counts() && has_right(results.students[s], column))
          those.add(results.students[s]);
    for (std::size_t s = 0; s < columns.size(); ++s) {
      auto const& student = results.students[s];
      if (columns[s] == nowhere || paired.count(student.student) > 0) continue;
      auto const* helper = helpers[columns[s]].nearest(student.marks, paired);
      if (!helper) continue;
      paired.insert(student.student);
      paired.insert(helper->student);
      pairs.push_back({student.student, helper->student, short_words(results.slips[slip].id, conventions)});
    }
  }
  return pairs;
}
}  // namespace

CorrectionsDocument corrections_document(std::vector<StudentResult> const& students, ProblemSet const& set,
                                         QuestionsByCode const& questions) {
  CorrectionsDocument document{set.title, {}};
  for (auto const& student : students) {
    if (!student.counts()) continue;
    CorrectionsPage page{student.student, student.marks, student.out_of, {}, student.to_read};
    std::string last_text;
    for (auto const& part : student.parts) {
      if (part.marks >= part.out_of || part.value == ValueVerdict::absent || to_read(part)) continue;
      auto const place = asked(questions, part);
      std::string const text = place ? place->question->text : "";
      bool const right = part.value == ValueVerdict::right || part.value == ValueVerdict::follow_through;
      page.items.push_back({part.question + part.part, part.code, text == last_text ? "" : text,
                            what_was_written(part, questions, set.course.conventions), look_at(part, place),
                            part.out_of - part.marks, right && !part.by_hand, is_number(place)});
      last_text = text;
    }
    if (!page.items.empty()) document.pages.push_back(std::move(page));
  }
  return document;
}

std::vector<SlipShown> slips_of_the_morning(ClassResults const& results, ProblemSet const& set, QuestionsByCode const& questions,
                                            MarkAgain const& mark_again) {
  // Answers that are off by a power of ten have many causes: a lesson on one thing made by two says more.
  std::vector<SlipCount const*> order;
  for (auto const& slip : results.slips) order.push_back(&slip);
  std::stable_partition(order.begin(), order.end(), [](SlipCount const* slip) {
    auto const* const known = find_slip(slip->id);
    return known && known->reach == Reach::specific && slip->students.size() > 1;
  });
  std::vector<SlipShown> out;
  for (std::size_t i = 0; i < std::min(slips_of_a_morning, order.size()); ++i)
    out.push_back(shown(*order[i], questions, set.course.conventions, mark_again));
  return out;
}

NextMorning next_morning(ClassResults const& results, ProblemSet const& set, std::vector<SlipShown> const& slips,
                         std::vector<Question> const& starter) {
  auto const& conventions = set.course.conventions;
  NextMorning page;
  page.title = results.title;
  for (auto const& student : results.students) page.present += student.counts() ? 1 : 0;
  for (auto const& slip : slips) {
    MorningSlip one{
        short_words(slip.id, conventions), slip.students, slip.question ? with_told_tables(slip.question->text) : "", {}, 0, ""};
    if (slip.working) {
      one.lines = slip.working->lines;
      one.wrong = slip.working->wrong;
      one.instead = slip.working->instead;
      one.stops_short = one.instead.empty();
      if (one.stops_short) {
        one.wrong = one.lines.size();
        one.instead = slip.last_line;
      }
    } else {
      one.instead = slip.instead;
    }
    page.slips.push_back(std::move(one));
  }
  if (results.students.size() <= students_of_a_volume) {
    std::set<std::string> paired;
    page.pairs = pairs_of(results, conventions, paired);
    for (auto const& student : results.students)
      if (student.counts() && paired.count(student.student) == 0)
        (student.to_read > 0 ? page.to_read : page.free).push_back(student.student);
  }
  for (auto const& question : starter)
    page.starter.push_back({with_told_tables(question.text), answers_line(question, conventions)});
  return page;
}

}  // namespace molewright
