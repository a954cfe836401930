#include "app/class_marking.h"

#include <algorithm>
#include <map>
#include <memory>
#include <set>

#include "app/misplaced.h"
#include "marker/diagnosis.h"
#include "marker/item_analysis.h"
#include "marker/marks.h"
#include "marker/own_reading.h"
#include "marker/spreadsheet.h"
#include "templates/from_set.h"

namespace molewright {
namespace {

using RowsOfOne = std::map<std::string, HandedIn const*>;  // column
using Rows = std::map<std::string, RowsOfOne>;             // student

namespace words {
constexpr char const* not_in_place =
    "This is not marked yet: the answers seem to stand in the wrong place of the table. Your teacher will look at it.";
}  // namespace words

/// For the student, where an answer cannot be marked for want of a reading.
std::string not_marked_words(Fault const& fault) {
  return fault.id == "no-reading" ? "This is not marked yet: your own reading is missing. Give it to your teacher."
                                  : "This is not marked yet: your own reading could not be used. Your teacher will look at it.";
}

/// A fault of a whole row: it stands at the row's beginning.
FiledFault placed(HandedIn const& row, Fault fault) { return {{std::move(fault), row.line, 1, ""}, row.file}; }

void give_by_hand(Judgement& judgement, int marks) {
  judgement.marks = judgement.marks_if_accepted = marks;
  judgement.by_hand = true;
  judgement.suggested = false;
}

class ClassMarker {
 public:
  ClassMarker(ProblemSet const& set, AllHandedIn const& handed_in, MarksByHand const& by_hand)
      : set_(set), places_(set), boxes_(set.course.conventions.mark), by_hand_(by_hand) {
    results_.faults = handed_in.faults;
    sort_rows(handed_in);
    look_for_lost_zeros();
  }

  ClassResults mark() {
    std::vector<StudentResult> students;
    for (auto const& student : set_.class_order) {
      students.push_back(mark_student(student));
      for (; last_ < unsure_.size(); ++last_) unsure_[last_].student = students.size() - 1;
    }
    look_again(students);
    auto out = summarise(set_.title, std::move(students));
    analyse_items(out, set_.papers.size() == 1);
    std::stable_sort(results_.faults.begin(), results_.faults.end(), [](auto const& a, auto const& b) {
      return a.file != b.file ? a.file < b.file : a.placed.line < b.placed.line;
    });
    out.faults = std::move(results_.faults);
    if (!set_.papers.empty()) name_kinds(out, set_.papers.front().questions);
    return out;
  }

 private:
  void sort_rows(AllHandedIn const& answers) {
    for (auto const& row : answers.readings) readings_[row.student][row.question] = &row;
    std::vector<HandedIn const*> strangers;
    std::set<std::string_view> const known(set_.class_order.begin(), set_.class_order.end());
    for (auto const& row : answers.answers) {
      if (known.count(row.student) > 0)
        rows_[row.student][row.question] = &row;
      else if (strangers.empty() || strangers.back()->student != row.student)
        strangers.push_back(&row);
    }
    if (rows_.empty() && !strangers.empty()) {
      results_.faults.push_back(placed(
          *strangers.front(), {"another-class", "none of these students has a paper in this set", "the set of this class", 0}));
      return;
    }
    for (auto const* row : strangers) {
      auto const near = nearest(row->student, set_.class_order);
      results_.faults.push_back(placed(*row, {"unknown-student", "\"" + row->student + "\" has no paper in this set",
                                              near.empty() ? "a name of the class" : near.front(), 0}));
    }
  }

  void look_for_lost_zeros() {
    KeptZeros zeros;
    for (auto const& [student, rows] : rows_)
      for (auto const& [column, row] : rows) zeros.look_at(boxes_.read(row->answer));
    zeros_may_be_lost_ = zeros.may_be_lost();
  }

  /// A cell as it was meant; what a spreadsheet made a date of is nobody's answer and is told.
  Written read_cell(HandedIn const& row) {
    auto written = boxes_.read(row.answer);
    if (looks_like_a_date(row.answer)) {
      written.kind = Written::Kind::unreadable;
      written.notes.push_back("looks-like-a-date");
      Fault fault{"looks-like-a-date", "\"" + written.raw + "\" looks like a date that a spreadsheet made of an answer",
                  "the answer as it stands on the paper, in a cell of text", 0};
      results_.faults.push_back({{std::move(fault), row.line, row.column, ""}, row.file});
    }
    written.working = row.working;
    written.zeros_may_be_lost = zeros_may_be_lost_ && number_alone(written);
    return written;
  }

  /// Causes that one answer leaves open are judged again with what the student and the class slipped on elsewhere. Marks stay.
  void look_again(std::vector<StudentResult>& students) {
    if (unsure_.empty()) return;
    using ByQuestion = std::map<std::string, std::set<std::string>>;  // slip: questions in which it was named
    std::vector<ByQuestion> named(students.size());
    SlipRecord::Counts in_papers;
    for (std::size_t s = 0; s < students.size(); ++s) {
      for (auto const& part : students[s].parts)
        if (!part.candidates.empty() && part.candidates.front().probability >= name_above &&
            part.candidates.front().slips.size() == 1)
          named[s][part.candidates.front().slips.front().id].insert(part.question);
      for (auto const& [slip, questions] : named[s]) ++in_papers[slip];
    }
    for (auto const& unsure : unsure_) {
      SlipRecord record;
      record.papers = static_cast<int>(students.size()) - 1;
      record.classmates = in_papers;
      for (auto const& [slip, questions] : named[unsure.student]) {
        --record.classmates[slip];
        record.student[slip] = static_cast<int>(questions.size() - questions.count(unsure.question->number));
      }
      auto judged = judge_of(*unsure.question).judge(unsure.written, &record);
      for (auto& part : students[unsure.student].parts)
        for (auto& again : judged)
          if (part.question == again.question && part.part == again.part && part.value == ValueVerdict::wrong) {
            part.candidates = std::move(again.candidates);
            part.feedback = std::move(again.feedback);
          }
    }
  }

  /// What a student wrote to a question; "absent" to everything where there is no row.
  std::vector<Written> answers_to(Question const& question, RowsOfOne const* rows) {
    std::vector<Written> written;
    for (std::size_t f = 0; f < question.marks.size(); ++f) {
      auto const* row = rows ? find(*rows, column_name(question, f)) : nullptr;
      written.push_back(row ? read_cell(*row) : read_written(rows ? "" : "absent", set_.course.conventions.mark));
      if (row && !row->code.empty() && !has_code(question, *row)) written.back().kind = Written::Kind::unreadable;
    }
    return written;
  }

  /// Whether the code in a row is one of the question or, in a wide file, of its paper; told where it is not.
  bool has_code(Question const& question, HandedIn const& row) {
    auto const* paper = places_.paper_of(row.student);
    bool const there = paper && std::any_of(paper->questions.begin(), paper->questions.end(),
                                            [&](Question const& one) { return one.code == row.code; });
    if (row.code == question.code || (there && row.whole_row)) return true;
    auto const place = places_.place_of_code(row.code);
    auto const first = codes_told_.insert({row.file, row.line}).second;
    if (first)
      results_.faults.push_back(placed(
          row,
          {"other-code", "the code " + row.code + (place.empty() ? " is of no question of this set" : " is that of " + place),
           "the code " + question.code, 0}));
    return false;
  }

  /// Says so where a student's answers stand in the wrong columns or row, and takes them for unreadable then.
  bool stands_elsewhere(Paper const& paper, std::string const& student, RowsOfOne const& rows, Answered& answered) {
    auto const found = places_.misplaced(paper, student, answered);
    if (!found || rows.empty()) return false;
    results_.faults.push_back(placed(*rows.begin()->second, *found));
    for (auto& question : answered)
      for (auto& written : question) {
        if (written.kind != Written::Kind::number && written.kind != Written::Kind::words) continue;
        written.kind = Written::Kind::unreadable;
        written.notes.push_back(found->id);
      }
    return true;
  }

  /// "absent" once, and nothing else in the row, says it of the whole paper.
  static void spread_absence(Answered& answered) {
    bool absent = false;
    for (auto const& question : answered)
      for (auto const& written : question) {
        if (written.kind != Written::Kind::absent && written.kind != Written::Kind::blank) return;
        absent = absent || written.kind == Written::Kind::absent;
      }
    if (!absent) return;
    for (auto& question : answered)
      for (auto& written : question) written.kind = Written::Kind::absent;
  }

  StudentResult mark_student(std::string const& student) {
    StudentResult result;
    result.student = student;
    auto const* paper = places_.paper_of(student);
    if (!paper) {
      result.absent = true;
      return result;
    }
    auto const at = rows_.find(student);
    auto const* rows = at == rows_.end() ? nullptr : &at->second;
    Answered answered;
    for (auto const& question : paper->questions) answered.push_back(answers_to(question, rows));
    spread_absence(answered);
    bool const lost = rows && stands_elsewhere(*paper, student, *rows, answered);
    for (std::size_t q = 0; q < paper->questions.size(); ++q) {
      auto const& question = paper->questions[q];
      auto judged = readings_of(question.worked.problem).empty() ? judge_of(question).judge(answered[q])
                                                                 : judge_own_reading(question, student, answered[q], rows);
      bool const unsure = !lost && std::any_of(judged.begin(), judged.end(), [](Judgement const& j) {
        return !j.candidates.empty() && j.candidates.front().probability < name_above;
      });
      if (unsure && readings_of(question.worked.problem).empty()) unsure_.push_back({0, &question, answered[q]});
      for (std::size_t f = 0; f < judged.size(); ++f) {
        judged[f].student = student;
        if (lost && judged[f].value == ValueVerdict::unreadable) judged[f].feedback = words::not_in_place;
        auto const* row = rows ? find(*rows, column_name(question, f)) : nullptr;
        give_marks_by_hand(judged[f], row, column_name(question, f));
        result.parts.push_back(std::move(judged[f]));
      }
    }
    settle_paper(result.parts, set_.course.rules);
    result.absent =
        std::all_of(result.parts.begin(), result.parts.end(), [](Judgement const& j) { return j.value == ValueVerdict::absent; });
    for (auto const& part : result.parts) {
      result.marks += part.marks;
      result.marks_if_accepted += part.marks_if_accepted;
      result.out_of += part.out_of;
    }
    return result;
  }

  /// Those of the answers file, or else those that were given earlier.
  void give_marks_by_hand(Judgement& judgement, HandedIn const* row, std::string const& column) {
    if (row && row->marks && !row->marks->empty()) {
      auto const marks = read_mark(*row->marks, column, judgement.out_of);
      if (ok(marks))
        give_by_hand(judgement, value(marks));
      else
        results_.faults.push_back(placed(*row, fault(marks)));
      return;
    }
    auto const earlier = by_hand_.find({judgement.student, column});
    if (earlier == by_hand_.end()) return;
    give_by_hand(judgement, std::min(earlier->second, judgement.out_of));
  }

  /// The row that holds a student's readings for a question: a column of a wide file, or of a long one the column beside any of
  /// the question's answers. nullptr where nothing is written.
  HandedIn const* reading_of(Question const& question, std::string const& student, RowsOfOne const* rows) const {
    if (auto const own = readings_.find(student); own != readings_.end())
      if (auto const* row = find(own->second, reading_column(question)); row && !row->measured.empty()) return row;
    for (std::size_t f = 0; rows && f < question.marks.size(); ++f)
      if (auto const* row = find(*rows, column_name(question, f)); row && !row->measured.empty()) return row;
    return nullptr;
  }

  /// Judged against what the student's own reading comes to. Without one that can be used, what rests on it is not marked, and
  /// why is said; the rest is.
  std::vector<Judgement> judge_own_reading(Question const& question, std::string const& student,
                                           std::vector<Written> const& written, RowsOfOne const* rows) {
    auto const* row = reading_of(question, student, rows);
    auto const own = with_readings(question, row ? row->measured : "", set_.course.conventions);
    if (ok(own)) return Judge(value(own), set_.course).judge(written);
    auto rest = written;
    bool anything = false;
    for (std::size_t f = 0; f < rest.size(); ++f) {
      // A tick or a letter is the teacher's own judgement: it stands.
      auto const kind = rest[f].kind;
      bool const to_judge = kind == Written::Kind::number || kind == Written::Kind::words || kind == Written::Kind::unreadable;
      if (!to_judge || !rests_on_reading(question, f)) continue;
      anything = true;
      rest[f].kind = Written::Kind::unreadable;
    }
    auto judged = judge_of(question).judge(rest);
    for (std::size_t f = 0; f < judged.size(); ++f) {
      if (!rests_on_reading(question, f)) continue;
      judged[f].correct.clear();
      if (judged[f].value != ValueVerdict::unreadable) continue;
      judged[f].notes.push_back(fault(own).id);
      judged[f].feedback = not_marked_words(fault(own));
    }
    if (!anything) return judged;
    if (!row)
      for (std::size_t f = 0; rows && f < question.marks.size() && !row; ++f) row = find(*rows, column_name(question, f));
    auto told = fault(own);
    told.what = "question " + question.number + " of \"" + student + "\" is not marked: " + told.what;
    if (row) results_.faults.push_back(placed(*row, std::move(told)));
    return judged;
  }

  static HandedIn const* find(std::map<std::string, HandedIn const*> const& rows, std::string const& column) {
    auto const at = rows.find(column);
    return at == rows.end() ? nullptr : at->second;
  }

  /// Versions that several students share are made ready once.
  Judge const& judge_of(Question const& question) {
    auto const [at, fresh] = judges_.try_emplace(&question, nullptr);
    if (fresh) at->second = std::make_unique<Judge>(question, set_.course);
    return *at->second;
  }

  ProblemSet const& set_;
  PlacesInSet places_;
  BoxReader boxes_;
  MarksByHand const& by_hand_;
  ClassResults results_;
  Rows rows_, readings_;
  bool zeros_may_be_lost_ = false;
  struct Unsure {
    std::size_t student;
    Question const* question;
    std::vector<Written> written;
  };
  std::vector<Unsure> unsure_;
  std::size_t last_ = 0;
  std::set<std::pair<std::size_t, std::size_t>> codes_told_;  ///< file and line
  std::map<Question const*, std::unique_ptr<Judge>> judges_;
};
}  // namespace

Result<int> read_mark(std::string_view text, std::string const& column, int out_of) {
  auto const number = parse_decimal(text);
  if (ok(number) && value(number).value.is_integer() && value(number).value.sign() >= 0 &&
      value(number).value <= Rational(out_of))
    return static_cast<int>(value(number).value.to_double());
  return Fault{"bad-mark", "\"" + std::string(text) + "\" is not a mark for part " + column,
               "a whole number from 0 to " + std::to_string(out_of), 0};
}

ClassResults mark_class(ProblemSet const& set, AllHandedIn const& handed_in, MarksByHand const& by_hand) {
  return ClassMarker(set, handed_in, by_hand).mark();
}

std::string marks_table(ClassResults const& results) {
  std::string out = "\xEF\xBB\xBFstudent";
  for (auto const& part : results.parts) out += ',' + csv_cell(part.column);
  out += ",total,out of,with suggested marks\r\n";
  for (auto const& student : results.students) {
    out += csv_cell(student.student);
    for (auto const& part : results.parts) {
      auto const at = std::find_if(student.parts.begin(), student.parts.end(),
                                   [&](Judgement const& j) { return j.question + j.part == part.column; });
      out += ',';
      if (at != student.parts.end()) out += student.absent ? std::string("absent") : std::to_string(at->marks);
    }
    if (student.absent)
      out += ",absent,,\r\n";
    else
      out += ',' + std::to_string(student.marks) + ',' + std::to_string(student.out_of) + ',' +
             std::to_string(student.marks_if_accepted) + "\r\n";
  }
  return out;
}

}  // namespace molewright
