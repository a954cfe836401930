#include "templates/after_marking.h"

#include <algorithm>
#include <cmath>
#include <deque>
#include <map>
#include <optional>
#include <set>

#include "engine/steps.h"
#include "marker/words.h"
#include "marker/written.h"
#include "marker/wrong_working.h"
#include "templates/from_results.h"
#include "templates/from_set.h"
#include "templates/reading_table.h"

namespace molewright {
namespace {

namespace words {
constexpr char const* again = "Do again: ";
constexpr char const* and_also = "Check both: ";
constexpr char const* no_cause = "Write every step on a line of its own, each number with its unit, and check them one by one.";
constexpr char const* unreadable = "Write the answer as one number with its unit.";
constexpr char const* by_hand = "See what your teacher wrote on your paper.";
}  // namespace words

constexpr std::size_t slips_of_a_morning = 3;

/// A part as it stood in the set.
struct Asked {
  Question const* question = nullptr;
  std::size_t find = 0;
};

std::optional<Asked> asked(QuestionsByCode const& questions, Judgement const& judgement) {
  for (auto const& [paper, question] : questions[judgement.code]) {
    if (!paper->student.empty() && paper->student != judgement.student) continue;
    if (question->number != judgement.question) continue;
    for (std::size_t find = 0; find < question->marks.size(); ++find)
      if (part_name(*question, find) == judgement.part) return Asked{question, find};
  }
  return std::nullopt;
}

std::string sentence_of(std::string text) { return text + (text.empty() || text.back() == '.' ? "" : "."); }

/// Which step to do again; nothing of what it comes to.
std::string look_at(Judgement const& judgement, std::optional<Asked> const& place) {
  if (judgement.by_hand) return words::by_hand;
  if (judgement.value == ValueVerdict::unreadable) return words::unreadable;
  if (judgement.value != ValueVerdict::wrong) return judgement.feedback;
  std::vector<std::string> steps;
  for (auto const& candidate : judgement.candidates)
    for (auto const& slip : candidate.slips) {
      if (!place || slip.node.empty()) continue;
      auto step = step_words(place->question->worked.accepted.front(), slip.node);
      if (std::find(steps.begin(), steps.end(), step) == steps.end()) steps.push_back(std::move(step));
    }
  bool const sure = !named_slip(judgement).empty();
  if (steps.empty()) return words::no_cause;
  if (sure || steps.size() == 1) return sentence_of(words::again + steps.front());
  return sentence_of(words::and_also + steps[0] + ", and " + steps[1]);
}

/// The part of a student in which a slip was named; the first of those that can be shown line by line, else the first at all.
struct Shown {
  Judgement const* judgement = nullptr;
  Asked place;
  std::optional<WrongWorking> working;
};

std::optional<Shown> shown(ClassResults const& results, QuestionsByCode const& questions, Conventions const& conventions,
                           std::string const& slip) {
  std::optional<Shown> any;
  for (auto const& student : results.students)
    for (auto const& part : student.parts) {
      if (part.value != ValueVerdict::wrong || named_slip(part) != slip) continue;
      auto const place = asked(questions, part);
      if (!place) continue;
      auto const written = read_written(part.given, conventions.mark);
      std::optional<double> answer;
      if (written.kind == Written::Kind::number) answer = written.number.value.to_double();
      auto working =
          wrong_working(*place->question, place->find, slip, part.candidates.front().slips.front().node, answer, conventions);
      bool const good = working.has_value();
      if (good || !any) any = Shown{&part, *place, std::move(working)};
      if (good) return any;
    }
  return any;
}

/// The column in which a student made the slip; empty for none.
std::string column_of(StudentResult const& student, std::string const& slip) {
  for (auto const& part : student.parts)
    if (part.value == ValueVerdict::wrong && named_slip(part) == slip) return part.question + part.part;
  return {};
}
bool has_right(StudentResult const& student, std::string const& column) {
  return std::any_of(student.parts.begin(), student.parts.end(), [&](Judgement const& part) {
    return part.question + part.part == column && part.value == ValueVerdict::right;
  });
}

/// Those who could help with one column, in class order by their marks.
class Helpers {
 public:
  void add(StudentResult const& student) { by_marks_[student.marks].push_back(&student); }
  /// The nearest in marks of those that are not paired yet: neither is to do all the talking. nullptr for none.
  StudentResult const* nearest(int marks, std::set<std::string> const& paired) {
    StudentResult const* best = nullptr;
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
  std::map<int, std::deque<StudentResult const*>> by_marks_;
};

/// Slip by slip, the commonest first: whoever made it sits with someone who had that part right. Each student once.
std::vector<MorningPair> pairs_of(ClassResults const& results, Conventions const& conventions, std::set<std::string>& paired) {
  std::vector<MorningPair> pairs;
  for (auto const& slip : results.slips) {
    std::vector<std::string> columns;
    std::map<std::string, Helpers> helpers;
    for (auto const& student : results.students) {
      columns.push_back(column_of(student, slip.id));
      if (!columns.back().empty()) helpers.try_emplace(columns.back());
    }
    for (std::size_t s = 0; s < columns.size(); ++s)
      for (auto& [column, those] : helpers)
        if (columns[s].empty() && !results.students[s].absent && has_right(results.students[s], column))
          those.add(results.students[s]);
    for (std::size_t s = 0; s < columns.size(); ++s) {
      auto const& student = results.students[s];
      if (columns[s].empty() || paired.count(student.student) > 0) continue;
      auto const* helper = helpers[columns[s]].nearest(student.marks, paired);
      if (!helper) continue;
      paired.insert(student.student);
      paired.insert(helper->student);
      pairs.push_back({student.student, helper->student, short_words(slip.id, conventions)});
    }
  }
  return pairs;
}
}  // namespace

CorrectionsDocument corrections_document(ClassResults const& results, ProblemSet const& set) {
  CorrectionsDocument document{results.title, {}};
  QuestionsByCode const questions(set);
  for (auto const& student : results.students) {
    if (student.absent) continue;
    CorrectionsPage page{student.student, student.marks, student.out_of, {}};
    std::string last_text;
    for (auto const& part : student.parts) {
      if (part.marks >= part.out_of || part.value == ValueVerdict::absent) continue;
      auto const place = asked(questions, part);
      std::string const text = place ? place->question->text : "";
      bool const right = part.value == ValueVerdict::right || part.value == ValueVerdict::follow_through;
      page.items.push_back({part.question + part.part, part.code, text == last_text ? "" : text, what_was_written(part, set),
                            look_at(part, place), part.out_of - part.marks, right && !part.by_hand});
      last_text = text;
    }
    if (!page.items.empty()) document.pages.push_back(std::move(page));
  }
  return document;
}

std::vector<std::pair<std::string, std::string>> slips_to_start_with(ClassResults const& results, ProblemSet const& set) {
  std::vector<std::pair<std::string, std::string>> out;
  QuestionsByCode const questions(set);
  for (auto const& slip : results.slips) {
    if (out.size() == slips_of_a_morning) break;
    auto const found = shown(results, questions, set.course.conventions, slip.id);
    out.emplace_back(slip.id, found ? found->place.question->template_name : "");
  }
  return out;
}

NextMorning next_morning(ClassResults const& results, ProblemSet const& set, std::vector<Question> const& starter) {
  auto const& conventions = set.course.conventions;
  QuestionsByCode const questions(set);
  NextMorning page;
  page.title = results.title;
  for (auto const& student : results.students) page.present += student.absent ? 0 : 1;
  for (auto const& slip : results.slips) {
    if (page.slips.size() == slips_of_a_morning) break;
    MorningSlip one{short_words(slip.id, conventions), static_cast<int>(slip.students.size()), "", {}, 0, ""};
    if (auto found = shown(results, questions, set.course.conventions, slip.id)) {
      one.question = found->place.question->text;
      if (found->working) {
        one.lines = std::move(found->working->lines);
        one.wrong = found->working->wrong;
        one.instead = std::move(found->working->instead);
      } else {
        one.instead = found->judgement->candidates.front().text;
      }
    }
    page.slips.push_back(std::move(one));
  }
  std::set<std::string> paired;
  page.pairs = pairs_of(results, conventions, paired);
  for (auto const& student : results.students)
    if (!student.absent && paired.count(student.student) == 0) page.free.push_back(student.student);
  for (auto const& question : starter) {
    MorningQuestion one{with_told_tables(question.text), ""};
    auto const& working = question.worked.accepted.front();
    for (std::size_t find = 0; find < working.finds.size(); ++find)
      one.answer += (find > 0 ? "; " : "") + answer_line(question.worked, working, find, conventions);
    page.starter.push_back(std::move(one));
  }
  return page;
}

}  // namespace molewright
