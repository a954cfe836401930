#include "marker/results.h"

#include <algorithm>
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

/// All columns in the order of the paper: a column that is new stands behind the one that it follows on its student's paper.
/// Where papers have other parts to a question, these stand beside each other.
std::vector<std::string> columns_in_order(std::vector<StudentResult> const& students) {
  std::vector<std::string> columns;
  for (auto const& student : students) {
    std::size_t place = 0;
    for (auto const& part : student.parts) {
      std::string const column = part.question + part.part;
      std::size_t const found = index_of(columns, column);
      if (found < columns.size()) {
        place = found + 1;
        continue;
      }
      columns.insert(columns.begin() + static_cast<std::ptrdiff_t>(place), column);
      ++place;
    }
  }
  if (std::all_of(columns.begin(), columns.end(), [](std::string const& column) { return number_of(column) >= 0; }))
    std::stable_sort(columns.begin(), columns.end(), [](std::string const& a, std::string const& b) {
      return std::make_tuple(number_of(a), a.size(), a) < std::make_tuple(number_of(b), b.size(), b);
    });
  return columns;
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

std::vector<SlipCount> count_slips(std::vector<StudentResult> const& students) {
  std::vector<SlipCount> counts;
  for (auto const& student : students) {
    for (auto const& part : student.parts) {
      std::string const id = named_slip(part);
      if (id.empty()) continue;
      auto found = std::find_if(counts.begin(), counts.end(), [&](SlipCount const& count) { return count.id == id; });
      if (found == counts.end()) found = counts.insert(counts.end(), SlipCount{id, {}});
      // Students come one after the other, so that one already counted is the last; two students of one name stay apart only in a
      // class file that refuses them.
      if (found->students.empty() || found->students.back() != student.student) found->students.push_back(student.student);
    }
  }
  std::stable_sort(counts.begin(), counts.end(),
                   [](SlipCount const& a, SlipCount const& b) { return a.students.size() > b.students.size(); });
  return counts;
}

}  // namespace

Judgement const* part_of(StudentResult const& student, std::string const& column) {
  auto const at = std::find_if(student.parts.begin(), student.parts.end(),
                               [&](Judgement const& one) { return one.question + one.part == column; });
  return at == student.parts.end() ? nullptr : &*at;
}

std::string named_slip(Judgement const& judgement) {
  if (judgement.candidates.empty()) return "";
  Candidate const& first = judgement.candidates.front();
  if (first.slips.size() != 1 || !(first.probability >= least_probability_to_count)) return "";
  return first.slips.front().id;
}

ClassResults summarise(std::string title, std::vector<StudentResult> students) {
  ClassResults results;
  results.title = std::move(title);
  auto const columns = columns_in_order(students);
  std::vector<double> shares(columns.size(), 0);
  std::vector<int> present(columns.size(), 0);
  for (auto const& column : columns) {
    PartSummary part;
    part.column = column;
    results.parts.push_back(std::move(part));
  }
  for (auto const& student : students) {
    if (student.absent) continue;
    for (auto const& judged : student.parts) {
      std::size_t const at = index_of(columns, judged.question + judged.part);
      count_verdict(results.parts[at], judged.value);
      bool const missing = judged.value == ValueVerdict::absent && !judged.by_hand;
      if (missing || judged.out_of <= 0) continue;
      shares[at] += static_cast<double>(judged.marks) / judged.out_of;
      ++present[at];
    }
  }
  for (std::size_t i = 0; i < columns.size(); ++i)
    if (present[i] > 0) results.parts[i].facility = shares[i] / present[i];
  results.slips = count_slips(students);
  results.students = std::move(students);
  return results;
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
