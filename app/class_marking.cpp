#include "app/class_marking.h"

#include <algorithm>
#include <map>
#include <memory>
#include <set>
#include <unordered_map>
#include <unordered_set>

#include "app/misplaced.h"
#include "generators/code.h"
#include "marker/diagnosis.h"
#include "marker/marks.h"
#include "marker/own_reading.h"
#include "marker/spreadsheet.h"
#include "marker/words.h"
#include "templates/from_set.h"

namespace molewright {
namespace {

using ByColumn = std::map<std::string, HandedIn const*>;

/// What one student handed in, by columns.
struct Rows {
  explicit Rows(Joined const& all) {
    for (auto const& row : all.answers) answers[row.question] = &row;
    for (auto const& row : all.readings) readings[row.question] = &row;
  }
  /// Nothing of this student stands in any file.
  bool none() const { return answers.empty(); }
  HandedIn const* answer(std::string const& column) const { return find(answers, column); }
  HandedIn const* reading(std::string const& column) const { return find(readings, column); }

  ByColumn answers, readings;

 private:
  static HandedIn const* find(ByColumn const& rows, std::string const& column) {
    auto const at = rows.find(column);
    return at == rows.end() ? nullptr : at->second;
  }
};

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

/// What was said of the answer goes where the teacher has settled it: that it is not read yet, or not right.
void give_by_hand(Judgement& judgement, int marks) {
  bool const value_stands = judgement.value == ValueVerdict::right || judgement.value == ValueVerdict::follow_through;
  bool const wrong_but_in_part = judgement.value == ValueVerdict::wrong && marks < judgement.out_of;
  if (!value_stands && !wrong_but_in_part) judgement.feedback = say::given_by_hand(marks, judgement.out_of);
  judgement.marks = judgement.marks_if_accepted = marks;
  judgement.by_hand = true;
  judgement.suggested = false;
}

/// One student marked, and which questions leave a cause open.
struct Marked {
  MarkedStudent student;
  struct Unsure {
    Question const* question;
    std::vector<Written> written;
  };
  std::vector<Unsure> unsure;
};

/// The slips that a student's answers name, each with the questions in which it is named.
std::map<std::string, std::set<std::string>> slips_named(StudentResult const& student) {
  std::map<std::string, std::set<std::string>> named;
  for (auto const& part : student.parts)
    if (!part.candidates.empty() && part.candidates.front().probability >= name_above &&
        part.candidates.front().slips.size() == 1)
      named[part.candidates.front().slips.front().id].insert(part.question);
  return named;
}
}  // namespace

class ClassMarking::Inside {
 public:
  Inside(ProblemSet const& set, AllHandedIn& handed_in, KnownBefore known)
      : set_(set), handed_in_(handed_in), places_(set), boxes_(set.course.conventions.mark), known_(std::move(known)) {
    faults_ = handed_in.faults();
    tell_another_set();
    for (auto const& name : handed_in.not_used()) take_for_not_used(name);
    tell_strangers(known_.strangers);
    look_for_lost_zeros();
    count_slips();
    all_faults_known_ = true;
    if (!stands_with_.empty()) count_slips();  // whose row holds another's answers is known by now
    std::stable_sort(faults_.begin(), faults_.end(), [](auto const& a, auto const& b) {
      return a.file != b.file ? a.file < b.file : a.placed.line < b.placed.line;
    });
  }

  /// Causes that one answer leaves open are judged again with what the student and the class slipped on elsewhere. Marks stay.
  MarkedStudent student(std::size_t place) {
    auto marked = mark(place);
    auto& parts = marked.student.result.parts;
    if (marked.unsure.empty()) return std::move(marked.student);
    auto const named = slips_named(marked.student.result);
    SlipRecord record;
    record.papers = static_cast<int>(set_.class_order.size()) - 1;
    record.classmates = in_papers_;
    for (auto const& [slip, questions] : named) --record.classmates[slip];
    for (auto const& [question, written] : marked.unsure) {
      record.student = known_.slips ? (*known_.slips)[place] : SlipRecord::Counts{};
      for (auto const& [slip, questions] : named)
        record.student[slip] += static_cast<int>(questions.size() - questions.count(question->number));
      auto judged = judge_of(*question).judge(written, &record);
      for (auto& part : parts)
        for (auto& again : judged)
          if (part.question == again.question && part.part == again.part && part.value == ValueVerdict::wrong) {
            part.candidates = std::move(again.candidates);
            part.feedback = std::move(again.feedback);
          }
    }
    return std::move(marked.student);
  }

  std::size_t students() const { return set_.class_order.size(); }
  std::vector<FiledFault> const& faults() const { return faults_; }
  std::vector<std::string> columns() const {
    ColumnOrder order;
    std::set<Paper const*> seen;
    for (std::size_t place = 0; place < students(); ++place) {
      auto const* paper = places_.paper_of(place);
      if (!paper || !seen.insert(paper).second) continue;
      std::vector<std::string> columns;
      for (auto const& question : paper->questions)
        for (std::size_t f = 0; f < question.marks.size(); ++f) columns.push_back(column_name(question, f));
      order.add(columns);
    }
    return order.all();
  }

 private:
  void count_slips() {
    in_papers_.clear();
    for (std::size_t place = 0; place < students(); ++place)
      for (auto const& [slip, questions] : slips_named(mark(place).student.result)) ++in_papers_[slip];
  }

  /// Row after row of another set, or of another class: that is said once, and not what is strange about each.
  void forget_strange_questions() {
    std::erase_if(faults_, [](FiledFault const& one) { return one.placed.fault.id == "unknown-question"; });
  }

  /// Questions that this set does not have, and no other.
  void tell_another_set() {
    constexpr std::ptrdiff_t enough = 4;  // fewer are misspelt
    auto const strange = [](FiledFault const& one) { return one.placed.fault.id == "unknown-question"; };
    if (handed_in_.anything() || std::count_if(faults_.begin(), faults_.end(), strange) < enough) return;
    auto first = *std::find_if(faults_.begin(), faults_.end(), strange);
    forget_strange_questions();
    first.placed.fault = {"another-set", "none of the questions in this file is one of this set", "answers to this set", 0};
    tell(std::move(first));
  }

  void tell_strangers(std::string const& called) {
    auto all = handed_in_.of_strangers();
    for (auto& fault : all.faults) tell(std::move(fault));
    std::vector<HandedIn const*> strangers;
    for (auto& row : all.answers) {
      if (!called.empty()) row.student = called;
      if (strangers.empty() || strangers.back()->student != row.student) strangers.push_back(&row);
    }
    if (!handed_in_.anything_of_the_class() && !strangers.empty()) {
      forget_strange_questions();
      return tell(placed(*strangers.front(),
                         {"another-class", "none of these students has a paper in this set", "the set of this class", 0}));
    }
    for (auto const* row : strangers) {
      auto const near = nearest(row->student, set_.class_order);
      take_for_not_used(row->student);
      tell(placed(*row, {"unknown-student", "\"" + row->student + "\" has no paper in this set",
                         near.empty() ? "a name of the class" : near.front(), 0}));
    }
  }

  /// Whose row could not be used is not absent: the student of that name, or of the nearest.
  void take_for_not_used(std::string const& name) {
    auto const& known = set_.class_order;
    auto const same = std::find(known.begin(), known.end(), name) != known.end();
    auto const near = same ? std::vector<std::string>{name} : nearest(name, known);
    if (!near.empty()) not_used_.insert(near.front());
  }

  void look_for_lost_zeros() {
    KeptZeros zeros;
    for (std::size_t place = 0; place < students() && zeros.may_be_lost(); ++place)
      for (auto const& row : handed_in_.of(place).answers) zeros.look_at(boxes_.read(row.answer));
    zeros_may_be_lost_ = zeros.may_be_lost();
  }

  /// A cell as it was meant; what a spreadsheet made a date of is nobody's answer and is told.
  Written read_cell(HandedIn const& row) {
    auto written = boxes_.read(row.answer);
    if (looks_like_a_date(row.answer)) {
      set_aside(written);
      written.notes.push_back("looks-like-a-date");
      Fault fault{"looks-like-a-date", "\"" + written.raw + "\" looks like a date that a spreadsheet made of an answer",
                  "the answer as it stands on the paper, in a cell of text", 0};
      tell({{std::move(fault), row.line, row.column, ""}, row.file});
    } else if (looks_like_a_formula(row.answer, written)) {
      Fault fault{"looks-like-a-formula", "\"" + written.raw + "\" is a formula of a spreadsheet, or its error",
                  "the answer as it stands on the paper, in a cell of text", 0};
      tell({{std::move(fault), row.line, row.column, ""}, row.file});
    }
    add_working(written, row.working);
    written.zeros_may_be_lost = zeros_may_be_lost_ && number_alone(written);
    return written;
  }

  /// What a student wrote to a question; "absent" to everything where there is no row.
  std::vector<Written> answers_to(Question const& question, Paper const& paper, Rows const& rows) {
    std::vector<Written> written;
    for (std::size_t f = 0; f < question.marks.size(); ++f) {
      auto const* row = rows.answer(column_name(question, f));
      written.push_back(row ? read_cell(*row) : read_written(rows.none() ? "absent" : "", set_.course.conventions.mark));
      if (known_.printed) written.back() = known_.printed->as_printed(question, f, std::move(written.back()));
      if (row && !row->code.empty() && !has_code(question, paper, *row)) take_for_misplaced(written.back(), "other-code");
    }
    return written;
  }

  /// Whether the code in a row is one of the question or, in a wide file, of its paper; told where it is not.
  bool has_code(Question const& question, Paper const& paper, HandedIn const& row) {
    bool const there =
        std::any_of(paper.questions.begin(), paper.questions.end(), [&](Question const& one) { return one.code == row.code; });
    if (row.code == question.code || (there && row.whole_row)) return true;
    auto const place = places_.place_of_code(row.code);
    auto const first = codes_told_.insert({row.file, row.line}).second;
    if (first && place.empty() && !ok(parse_code(row.code)))
      tell(placed(row, shifted(row, "right", "\"" + row.code + "\" stands in the column \"code\"")));
    else if (first)
      tell(placed(row, {"other-code",
                        "the code " + row.code + (place.empty() ? " is of no question of this set" : " is that of " + place),
                        "the code " + question.code, 0}));
    return false;
  }

  static Fault shifted(HandedIn const& row, char const* side, std::string const& why) {
    return {"shifted-columns", "the answers of \"" + row.student + "\" stand too far to the " + side + ": " + why,
            "each answer in its own column", 0};
  }

  /// A code of the set where an answer should stand: the cells of that row moved.
  std::optional<Fault> code_among_answers(Rows const& rows) const {
    for (auto const& [column, row] : rows.answers)
      if (!places_.place_of_code(row->answer).empty())
        return shifted(*row, "left", "the code " + row->answer + " stands in column " + column);
    return std::nullopt;
  }

  static void take_for_misplaced(Written& written, char const* why) {
    set_aside(written);
    written.notes.push_back(why);
  }

  /// Whether a student's rows, if there are any, hold no answer, nor say that the student was absent.
  static bool nothing_written(Rows const& rows) {
    return std::all_of(rows.answers.begin(), rows.answers.end(),
                       [](auto const& one) { return trimmed(one.second->answer).empty(); });
  }

  /// Whether the codes in a student's rows are those of other papers, all of them.
  static bool other_codes(Answered const& answered) {
    bool any = false;
    for (auto const& question : answered)
      for (auto const& written : question) {
        if (written.kind == Written::Kind::blank || written.kind == Written::Kind::absent) continue;
        if (std::find(written.notes.begin(), written.notes.end(), "other-code") == written.notes.end()) return false;
        any = true;
      }
    return any;
  }

  /// Whether a student's answers stand in the wrong columns or row: said, and nothing of them is read then.
  bool stands_elsewhere(Paper const& paper, std::string const& student, Rows const& rows, Answered& answered) {
    if (not_used_.count(student) > 0 && nothing_written(rows)) {
      for (auto& question : answered)
        for (auto& written : question) take_for_misplaced(written, "row-not-used");
      return true;
    }
    if (rows.none()) return false;
    if (other_codes(answered)) {
      for (auto& question : answered)
        for (auto& written : question)
          if (written.kind != Written::Kind::unreadable) take_for_misplaced(written, "other-code");
      return true;
    }
    auto found = code_among_answers(rows);
    if (!found)
      if (auto elsewhere = places_.misplaced(paper, student, answered)) {
        found = std::move(elsewhere->fault);
        if (elsewhere->whose) stands_with_.emplace(elsewhere->whose, student);
      }
    if (found) tell(placed(*rows.answers.begin()->second, *found));
    if (!found) found = given_elsewhere(paper, student, rows, answered);
    if (!found) return false;
    for (auto& question : answered)
      for (auto& written : question) take_for_misplaced(written, found->id.c_str());
    return true;
  }

  /// Two rows that changed places: where the answers to a paper stand in another student's row, and none in its own row is right,
  /// what stands there is somebody else's. It may be known only after the row was marked once.
  std::optional<Fault> given_elsewhere(Paper const& paper, std::string const& student, Rows const& rows,
                                       Answered const& answered) {
    auto const with = stands_with_.find(&paper);
    bool const absent = std::all_of(answered.begin(), answered.end(), [](auto const& question) {
      return std::all_of(question.begin(), question.end(), [](Written const& w) { return w.kind == Written::Kind::absent; });
    });
    if (with == stands_with_.end() || absent || PlacesInSet::anything_right(paper, answered)) return std::nullopt;
    Fault fault{"other-paper",
                "the answers to the paper of \"" + student + "\" stand in the row of \"" + with->second +
                    "\", and no number in the own row is right",
                "each student's answers in their own row", 0};
    if (exchange_told_.insert(&paper).second) faults_.push_back(placed(*rows.answers.begin()->second, fault));
    return fault;
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

  Marked mark(std::size_t place) {
    auto const& student = set_.class_order[place];
    Marked marked;
    auto& result = marked.student.result;
    result.student = student;
    auto const* paper = places_.paper_of(place);
    if (!paper) {
      result.absent = true;
      return marked;
    }
    forget_now_and_then();
    auto all = handed_in_.of(place);
    for (auto& fault : all.faults) tell(std::move(fault));
    Rows const rows(all);
    Answered answered;
    for (auto const& question : paper->questions) answered.push_back(answers_to(question, *paper, rows));
    spread_absence(answered);
    bool const lost = stands_elsewhere(*paper, student, rows, answered);
    for (std::size_t q = 0; q < paper->questions.size(); ++q) {
      auto const& question = paper->questions[q];
      auto judged = readings_of(question.worked.problem).empty() ? judge_of(question).judge(answered[q])
                                                                 : judge_own_reading(question, student, answered[q], rows);
      bool const unsure = !lost && std::any_of(judged.begin(), judged.end(), [](Judgement const& j) {
        return !j.candidates.empty() && j.candidates.front().probability < name_above;
      });
      if (unsure && readings_of(question.worked.problem).empty()) marked.unsure.push_back({&question, answered[q]});
      for (std::size_t f = 0; f < judged.size(); ++f) {
        judged[f].student = student;
        if (lost && judged[f].value == ValueVerdict::unreadable) judged[f].feedback = words::not_in_place;
        auto const* row = rows.answer(column_name(question, f));
        give_marks_by_hand(judged[f], row, column_name(question, f));
        marked.student.beside.push_back(beside(judged[f], question, row, rows));
        result.places.push_back(row ? AnswerPlace{row->file, row->line, row->column} : AnswerPlace{});
        result.parts.push_back(std::move(judged[f]));
      }
    }
    settle_paper(result.parts, set_.course.rules);
    result.absent =
        std::all_of(result.parts.begin(), result.parts.end(), [](Judgement const& j) { return j.value == ValueVerdict::absent; });
    result.misplaced =
        lost && std::none_of(result.parts.begin(), result.parts.end(), [](Judgement const& j) { return j.by_hand; });
    for (auto const& part : result.parts) {
      (to_read(part) ? result.to_read : result.out_of) += part.out_of;
      result.marks += part.marks;
      result.marks_if_accepted += part.marks_if_accepted;
    }
    return marked;
  }

  static MarkedStudent::Beside beside(Judgement const& judgement, Question const& question, HandedIn const* row,
                                      Rows const& rows) {
    MarkedStudent::Beside out;
    auto const* reading = reading_of(question, rows);
    if (reading) out.measured = reading->measured;
    if (!row) return out;
    out.working = row->working;
    if (trimmed(row->answer) != judgement.given) out.cell = row->answer;
    if (std::find(judgement.notes.begin(), judgement.notes.end(), "other-code") != judgement.notes.end()) out.code = row->code;
    return out;
  }

  /// Those of the answers file, or else those that were given earlier.
  void give_marks_by_hand(Judgement& judgement, HandedIn const* row, std::string const& column) {
    if (row && row->marks && !row->marks->empty()) {
      auto const marks = read_mark(*row->marks, column, judgement.out_of);
      if (ok(marks))
        give_by_hand(judgement, value(marks));
      else
        tell({{fault(marks), row->marks_line, row->marks_column, ""}, row->marks_file});
      return;
    }
    auto const earlier = known_.by_hand.find({judgement.student, column});
    if (earlier == known_.by_hand.end()) return;
    give_by_hand(judgement, std::min(earlier->second, judgement.out_of));
  }

  /// The row that holds a student's readings for a question: a column of a wide file, or of a long one the column beside any of
  /// the question's answers. nullptr where nothing is written.
  static HandedIn const* reading_of(Question const& question, Rows const& rows) {
    if (auto const* row = rows.reading(reading_column(question)); row && !row->measured.empty()) return row;
    for (std::size_t f = 0; f < question.marks.size(); ++f)
      if (auto const* row = rows.answer(column_name(question, f)); row && !row->measured.empty()) return row;
    return nullptr;
  }

  /// Judged against what the student's own reading comes to. Without one that can be used, what rests on it is not marked, and
  /// why is said; the rest is.
  std::vector<Judgement> judge_own_reading(Question const& question, std::string const& student,
                                           std::vector<Written> const& written, Rows const& rows) {
    auto const* row = reading_of(question, rows);
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
      set_aside(rest[f]);
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
      for (std::size_t f = 0; f < question.marks.size() && !row; ++f) row = rows.answer(column_name(question, f));
    auto told = fault(own);
    told.what = "question " + question.number + " of \"" + student + "\" is not marked: " + told.what;
    if (row) tell(placed(*row, std::move(told)));
    return judged;
  }

  /// Versions that several students share are made ready once.
  Judge const& judge_of(Question const& question) {
    auto const [at, fresh] = judges_.try_emplace(&question, nullptr);
    if (fresh) at->second = std::make_unique<Judge>(question, set_.course);
    return *at->second;
  }

  /// What is ready and what was judged before may be had again: of a large class it is let go, so that it does not grow with it.
  void forget_now_and_then() {
    constexpr std::size_t most_ready = 2500, most_marked = 2000;
    if (++marked_since_ < most_marked && judges_.size() < most_ready) return;
    judges_.clear();
    marked_since_ = 0;
  }

  /// A script that is marked once more has no fault that was not told.
  void tell(FiledFault fault) {
    if (!all_faults_known_) faults_.push_back(std::move(fault));
  }

  ProblemSet const& set_;
  AllHandedIn& handed_in_;
  PlacesInSet places_;
  BoxReader boxes_;
  KnownBefore known_;
  std::vector<FiledFault> faults_;
  bool all_faults_known_ = false;
  bool zeros_may_be_lost_ = false;
  SlipRecord::Counts in_papers_;                               ///< in how many each slip is named
  std::set<std::pair<std::size_t, std::size_t>> codes_told_;   ///< file and line
  std::unordered_map<Paper const*, std::string> stands_with_;  ///< the student in whose row the answers to a paper stand
  std::unordered_set<Paper const*> exchange_told_;
  std::unordered_set<std::string> not_used_;  ///< students a row of whom could not be used
  std::map<Question const*, std::unique_ptr<Judge>> judges_;
  std::size_t marked_since_ = 0;
};

ClassMarking::ClassMarking(ProblemSet const& set, AllHandedIn& handed_in, KnownBefore known)
    : inside_(std::make_unique<Inside>(set, handed_in, std::move(known))) {}
ClassMarking::~ClassMarking() = default;
MarkedStudent ClassMarking::student(std::size_t place) { return inside_->student(place); }
std::size_t ClassMarking::students() const { return inside_->students(); }
std::vector<std::string> ClassMarking::columns() const { return inside_->columns(); }
std::vector<FiledFault> const& ClassMarking::faults() const { return inside_->faults(); }

Result<int> read_mark(std::string_view text, std::string const& column, int out_of) {
  auto const number = parse_decimal(text);
  if (ok(number) && value(number).value.is_integer() && value(number).value.sign() >= 0 &&
      value(number).value <= Rational(out_of))
    return static_cast<int>(value(number).value.to_double());
  return Fault{"bad-mark", "\"" + std::string(text) + "\" is not a mark for part " + column,
               "a whole number from 0 to " + std::to_string(out_of), 0};
}

std::string marks_table_head(std::vector<std::string> const& columns) {
  std::string out = "\xEF\xBB\xBFstudent";
  for (auto const& column : columns) out += ',' + csv_cell(column);
  return out + ",total,out of,with suggested marks\r\n";
}

std::string marks_table_row(StudentResult const& student, std::vector<std::string> const& columns) {
  auto out = csv_cell(student.student);
  std::string const instead = student.misplaced ? not_marked_cell : absent_cell;
  for (auto const& column : columns) {
    auto const at = std::find_if(student.parts.begin(), student.parts.end(),
                                 [&](Judgement const& j) { return j.question + j.part == column; });
    out += ',';
    if (at == student.parts.end()) continue;
    out += !student.counts() ? instead : to_read(*at) ? not_marked_cell : std::to_string(at->marks);
  }
  if (!student.counts()) return out + ',' + instead + ",,\r\n";
  return out + ',' + std::to_string(student.marks) + ',' + std::to_string(student.out_of) + ',' +
         std::to_string(student.marks_if_accepted) + "\r\n";
}

}  // namespace molewright
