#include "marker/results.h"

#include <algorithm>
#include <numeric>
#include <tuple>

namespace molewright {
namespace {

std::size_t index_of(std::vector<std::string> const& columns, std::string const& column) {
  return static_cast<std::size_t>(std::find(columns.begin(), columns.end(), column) - columns.begin());
}

/// Number at the start of a column's name; -1 for none.
int number_of(std::string const& column) {
  if (column.empty() || column[0] < '0' || column[0] > '9') return -1;
  int number = 0;
  for (char const c : column) {
    if (c < '0' || c > '9' || number > 99999) break;
    number = 10 * number + (c - '0');
  }
  return number;
}

void count_verdict(PartSummary& part, ValueVerdict verdict) {
  switch (verdict) {
    case ValueVerdict::right:
      ++part.right;
      break;
    case ValueVerdict::wrong:
      ++part.wrong;
      break;
    case ValueVerdict::follow_through:
      ++part.follow_through;
      break;
    case ValueVerdict::blank:
      ++part.blank;
      break;
    case ValueVerdict::unreadable:
      ++part.unreadable;
      break;
    case ValueVerdict::absent:
      break;
  }
}

}  // namespace

PartMarks const* part_of(StudentMarks const& student, std::size_t column) {
  auto const at = std::find_if(student.parts.begin(), student.parts.end(),
                               [&](PartMarks const& one) { return static_cast<std::size_t>(one.column) == column; });
  return at == student.parts.end() ? nullptr : &*at;
}

bool out_of_place(Judgement const& judgement) {
  static constexpr char const* why[] = {"shifted-columns", "other-paper", "other-code", "row-not-used"};
  return judgement.value == ValueVerdict::unreadable && !judgement.by_hand &&
         std::any_of(judgement.notes.begin(), judgement.notes.end(), [](std::string const& note) {
           return std::any_of(std::begin(why), std::end(why), [&](char const* one) { return note == one; });
         });
}

std::string named_slip(Judgement const& judgement) {
  if (judgement.candidates.empty()) return "";
  Candidate const& first = judgement.candidates.front();
  if (first.slips.size() != 1) return "";
  // Two that are as likely, lead to one number and lie at one step are one thing to practise.
  constexpr double nearly_half = 0.4;
  double all = 0;
  for (auto const& one : judgement.candidates)
    if (one.slips.size() == 1 && one.slips.front().node == first.slips.front().node && !changes_answer(one.value, first.value))
      all += one.probability;
  bool const alone = first.probability >= least_probability_to_count;
  return alone || (first.probability >= nearly_half && all >= least_probability_to_count) ? first.slips.front().id : "";
}

void ColumnOrder::add(std::vector<std::string> const& columns_of_a_paper) {
  std::size_t place = 0;
  for (auto const& column : columns_of_a_paper) {
    auto const found = index_of(columns_, column);
    if (found < columns_.size())
      place = found;
    else
      columns_.insert(columns_.begin() + static_cast<std::ptrdiff_t>(place), column);
    ++place;
  }
}

std::vector<std::string> ColumnOrder::all() const {
  auto columns = columns_;
  if (std::all_of(columns.begin(), columns.end(), [](std::string const& column) { return number_of(column) >= 0; }))
    std::stable_sort(columns.begin(), columns.end(), [](std::string const& a, std::string const& b) {
      return std::make_tuple(number_of(a), a.size(), a) < std::make_tuple(number_of(b), b.size(), b);
    });
  return columns;
}

ClassSummary::ClassSummary(std::string title, std::vector<std::string> const& columns)
    : shares_(columns.size(), 0), present_(columns.size(), 0) {
  results_.title = std::move(title);
  for (auto const& column : columns) {
    PartSummary part;
    part.column = column;
    results_.parts.push_back(std::move(part));
  }
}

std::int16_t ClassSummary::slip_of(Judgement const& judgement) {
  auto const id = named_slip(judgement);
  if (id.empty()) return PartMarks::no_slip;
  auto const [at, fresh] = slips_.try_emplace(id, static_cast<std::int16_t>(results_.slips.size()));
  if (fresh) results_.slips.push_back({id, {}});
  auto const here = static_cast<std::uint32_t>(results_.students.size());
  auto& students = results_.slips[static_cast<std::size_t>(at->second)].students;
  if (students.empty() || students.back() != here) students.push_back(here);
  return at->second;
}

void ClassSummary::add(StudentResult const& student) {
  StudentMarks kept{student.student,   student.absent, student.marks, student.marks_if_accepted, student.out_of, {},
                    student.misplaced, student.to_read};
  kept.parts.reserve(student.parts.size());
  for (std::size_t i = 0; i < student.parts.size(); ++i) {
    auto const& judged = student.parts[i];
    auto const at = static_cast<std::size_t>(
        std::find_if(results_.parts.begin(), results_.parts.end(),
                     [column = judged.question + judged.part](PartSummary const& part) { return part.column == column; }) -
        results_.parts.begin());
    if (at == results_.parts.size()) continue;
    auto const small = [](int marks) { return static_cast<std::int16_t>(marks); };
    PartMarks const part{static_cast<std::int16_t>(at),
                         slip_of(judged),
                         small(judged.marks),
                         small(judged.marks_if_accepted),
                         small(judged.out_of),
                         judged.value,
                         judged.unit,
                         judged.figures,
                         judged.suggested,
                         judged.by_hand};
    kept.parts.push_back(part);
    if (!student.counts()) continue;
    count_verdict(results_.parts[at], part.value);
    auto const note = [&](std::vector<ToLookAt>& list, std::size_t& all) {
      if (++all <= most_to_look_at)
        list.push_back({static_cast<std::uint32_t>(results_.students.size()), part.column, judged.given, judged.correct,
                        i < student.places.size() ? student.places[i] : AnswerPlace{}});
    };
    if (part.to_read()) note(results_.not_read, results_.all_not_read);
    bool const ticked = std::find(judged.notes.begin(), judged.notes.end(), "tick-beside-answer") != judged.notes.end();
    if (ticked && !part.by_hand) note(results_.ticked, results_.all_ticked);
    if (part.missing() || part.out_of <= 0) continue;
    shares_[at] += static_cast<double>(part.marks) / part.out_of;
    ++present_[at];
  }
  results_.students.push_back(std::move(kept));
}

ClassResults ClassSummary::take() {
  for (std::size_t i = 0; i < present_.size(); ++i)
    if (present_[i] > 0) results_.parts[i].facility = shares_[i] / present_[i];
  std::vector<std::size_t> order(results_.slips.size());
  std::iota(order.begin(), order.end(), std::size_t{0});
  std::stable_sort(order.begin(), order.end(), [&](std::size_t a, std::size_t b) {
    return results_.slips[a].students.size() > results_.slips[b].students.size();
  });
  std::vector<SlipCount> sorted;
  std::vector<std::int16_t> place(order.size());
  for (auto const from : order) {
    place[from] = static_cast<std::int16_t>(sorted.size());
    sorted.push_back(std::move(results_.slips[from]));
  }
  results_.slips = std::move(sorted);
  for (auto& student : results_.students)
    for (auto& part : student.parts)
      if (part.slip != PartMarks::no_slip) part.slip = place[static_cast<std::size_t>(part.slip)];
  return std::move(results_);
}

void name_kinds(ClassResults& results, std::vector<Question> const& questions) {
  for (auto& part : results.parts) {
    for (auto const& question : questions) {
      bool named = false;
      for (std::size_t find = 0; find < question.worked.problem.finds.size() && !named; ++find)
        named = column_name(question, find) == part.column;
      if (!named) continue;
      part.kind = question.kind;
      break;
    }
  }
}

}  // namespace molewright
