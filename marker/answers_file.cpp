#include "marker/answers_file.h"

#include <algorithm>
#include <iterator>
#include <map>
#include <utility>

#include "engine/ascii.h"

namespace molewright {
namespace {

/// A name as it is compared and printed: no blanks at its ends, single blanks inside.
std::string clean_name(std::string_view text) {
  std::string result;
  text = trimmed(text);
  for (std::size_t i = 0; i < text.size(); ++i) {
    bool const no_break = text.substr(i, 2) == "\xC2\xA0";
    if (no_break) ++i;
    bool const blank = no_break || text[i] == ' ' || text[i] == '\t' || text[i] == '\n' || text[i] == '\r';
    if (!blank)
      result += text[i];
    else if (result.back() != ' ')  // never empty here: the text begins with no blank
      result += ' ';
  }
  return result;
}

std::optional<std::size_t> find_column(Table const& table, std::string_view name) {
  for (std::size_t i = 0; i < table.header.size(); ++i)
    if (lowered(table.header[i]) == name) return i;
  return std::nullopt;
}

/// Which of `known` a name is, whatever its case; known.size() for none.
std::size_t place_in(std::vector<std::string> const& known, std::string_view name) {
  auto const low = lowered(name);
  return static_cast<std::size_t>(
      std::find_if(known.begin(), known.end(), [&](std::string const& each) { return lowered(each) == low; }) - known.begin());
}

/// "2a, or 2b", for the part of a fault that says what was expected; everything that could stand there where nothing is near and
/// it is short.
std::string one_of(std::string_view name, std::vector<std::string> const& known) {
  auto names = nearest(name, known);
  if (names.empty() && known.size() <= 6) names = known;
  return either(names);
}

void in_order_of_the_file(std::vector<PlacedFault>& faults) {
  std::stable_sort(faults.begin(), faults.end(), [](PlacedFault const& a, PlacedFault const& b) {
    return a.line != b.line ? a.line < b.line : a.column < b.column;
  });
}

Fault missing_column(std::string const& name, std::string const& expected) {
  return Fault{"missing-column", "there is no column \"" + name + "\"", expected, 0};
}

HandedIn handed_in(Table::Row const& row, std::string student, std::string question, std::size_t column) {
  HandedIn answer;
  answer.student = std::move(student);
  answer.question = std::move(question);
  answer.answer = row.cells[column];
  answer.line = row.lines[column];
  answer.column = row.columns[column];
  return answer;
}

/// A word of a fixed list, in lower case; a fault where it is another.
std::string choice(std::string_view cell, std::vector<std::string> const& known, char const* id, std::string_view what,
                   std::optional<Fault>& fault) {
  std::string const word = lowered(trimmed(cell));
  if (word.empty() || std::find(known.begin(), known.end(), word) != known.end()) return word;
  fault = Fault{id, "unknown " + std::string(what) + " \"" + std::string(trimmed(cell)) + "\"", one_of(word, known), 0};
  return "";
}

}  // namespace

AnswersFile::AnswersFile(std::string_view text, AnswerColumns const& columns, NameNumbers& names, std::string whose)
    : table_(text), columns_(&columns), names_(&names), whose_(std::move(whose)) {
  if (!table_.head().header.empty()) find_columns();
}

void AnswersFile::find_columns() {
  auto const& table = table_.head();
  student_ = find_column(table, "student");
  question_ = find_column(table, "question");
  answer_ = find_column(table, "answer");
  code_ = find_column(table, "code");
  wide_ = !question_ && !answer_;
  bool const of_one = !whose_.empty() && question_ && answer_;
  std::optional<Fault> missing;
  if (!student_ && !of_one)
    missing = missing_column("student", "a first row such as: student,1,2a,2b");
  else if (question_ && !answer_)
    missing = missing_column("answer", "a first row such as: student,question,answer");
  else if (answer_ && !question_)
    missing = missing_column("question", "a first row such as: student,question,answer");
  if (missing) {
    faults_.push_back(table_.in_header(0, *missing));
    return;
  }
  readable_ = true;
  wide_ ? find_wide_columns() : find_long_columns();
}

void AnswersFile::find_wide_columns() {
  auto const& table = table_.head();
  for (std::size_t i = 0; i < table.header.size(); ++i) {
    std::string const& name = table.header[i];
    bool const again = find_column(table, lowered(name)) != i;  // already a fault of the table
    if (i == *student_ || again || i == code_) continue;
    auto const part = name.empty() ? columns_->answers.size() : place_in(columns_->answers, name);
    if (part < columns_->answers.size()) {
      parts_.push_back({i, columns_->answers[part]});
      questions_.insert(columns_->answers[part]);
      continue;
    }
    auto const reading = name.empty() ? columns_->readings.size() : place_in(columns_->readings, clean_name(name));
    if (reading < columns_->readings.size()) {
      readings_.push_back({i, columns_->readings[reading]});
      continue;
    }
    std::string const what = name.empty() ? "a column has no name" : "unknown column \"" + name + "\"";
    faults_.push_back(table_.in_header(i, Fault{"unknown-column", what, one_of(name, columns_->answers), 0}));
  }
}

void AnswersFile::find_long_columns() {
  static std::vector<std::string> const names = {"answer", "code", "marks", "measured", "question", "student", "working"};
  auto const& table = table_.head();
  working_ = find_column(table, "working");
  measured_ = find_column(table, "measured");
  marks_ = find_column(table, "marks");
  questions_.insert(columns_->answers.begin(), columns_->answers.end());
  for (std::size_t i = 0; i < table.header.size(); ++i) {
    std::string const& name = table.header[i];
    bool const again = !name.empty() && find_column(table, lowered(name)) != i;  // already a fault of the table
    if (again || place_in(names, name) < names.size()) continue;
    std::string const what = name.empty() ? "a column has no name" : "unknown column \"" + name + "\"";
    faults_.push_back(table_.in_header(i, Fault{"unknown-column", what, one_of(name, names), 0}));
  }
}

/// Whether a student, or in a long file a student's question, is seen for the first time.
bool AnswersFile::first_time(std::uint32_t student, std::size_t question) {
  auto const place = wide_ ? student : student * columns_->answers.size() + question;
  if (place >= seen_.size()) seen_.resize(std::max(place + 1, 2 * seen_.size()));
  bool const first = !seen_[place];
  seen_[place] = true;
  return first;
}

/// The students of rows that the table left out, as far as they are named in front of the fault.
void AnswersFile::note_left_out() {
  for (auto const& cells : table_.take_left_out()) {
    auto student = student_ ? (*student_ < cells.size() ? clean_name(valid_utf8(cells[*student_])) : "") : whose_;
    if (readable_ && !student.empty()) not_used_.push_back(std::move(student));
  }
}

std::optional<AnswersRow> AnswersFile::next() {
  Table::Row row;
  while (table_.next(row)) {
    if (!readable_) continue;  // what is wrong with the rows is told all the same
    auto const student = clean_name(student_ ? std::string_view(row.cells[*student_]) : whose_);
    if (holds_broken_bytes(student)) {  // told by the table
      not_used_.push_back(student);
      continue;
    }
    if (student.empty()) {
      faults_.push_back(
          table_.in_cell(row, student_.value_or(0), Fault{"no-student", "no student is named", "a student's name", 0}));
      continue;
    }
    std::size_t question = 0;
    if (!wide_) {
      auto const asked = trimmed(row.cells[*question_]);
      question = asked.empty() ? columns_->answers.size() : place_in(columns_->answers, asked);
      if (question == columns_->answers.size()) {
        std::string const what = asked.empty() ? "no question is named" : "unknown question \"" + std::string(asked) + "\"";
        faults_.push_back(table_.in_cell(row, *question_, Fault{"unknown-question", what, one_of(asked, columns_->answers), 0}));
        not_used_.push_back(student);
        continue;
      }
    }
    auto const number = names_->of(student);
    if (!first_time(number, question)) {
      auto const what =
          (wide_ ? "the student \"" : "question " + columns_->answers[question] + " of \"") + student + "\" stands twice";
      auto const* expected = wide_ ? "one row a student; the first is marked" : "one row an answer; the first is marked";
      faults_.push_back(table_.in_cell(row, wide_ ? *student_ : *question_, Fault{"given-twice", what, expected, 0}));
      continue;
    }
    return AnswersRow{number, row.at, row.line};
  }
  note_left_out();
  seen_ = {};
  return std::nullopt;
}

void AnswersFile::read(AnswersRow const& place, RowsRead& into) {
  auto const row = table_.row_at(place.at, place.line);
  auto const& student = names_->name(place.student);
  auto const cell = [&](std::optional<std::size_t> column) {
    return column ? std::string(trimmed(row.cells[*column])) : std::string();
  };
  for (auto const& [column, question] : parts_) {
    into.answers.push_back(handed_in(row, student, question, column));
    into.answers.back().whole_row = true;
    into.answers.back().code = cell(code_);
  }
  for (auto const& [column, question] : readings_) {
    into.readings.push_back(handed_in(row, student, question, column));
    into.readings.back().measured = cell(column);
  }
  if (wide_) return;
  auto answer = handed_in(row, student, columns_->answers[place_in(columns_->answers, cell(question_))], *answer_);
  answer.code = cell(code_);
  if (working_) answer.working = row.cells[*working_];
  answer.measured = cell(measured_);
  if (auto marks = cell(marks_); !marks.empty()) {
    answer.marks = std::move(marks);
    answer.marks_line = row.lines[*marks_];
    answer.marks_column = row.columns[*marks_];
  }
  into.answers.push_back(std::move(answer));
}

std::vector<PlacedFault> AnswersFile::take_faults() {
  auto all = table_.take_faults();
  all.insert(all.end(), std::make_move_iterator(faults_.begin()), std::make_move_iterator(faults_.end()));
  faults_.clear();
  in_order_of_the_file(all);
  return all;
}

ClassRead read_class(std::string_view text) {
  static std::vector<std::string> const names = {"student", "level", "print", "version"};
  static std::vector<std::string> const levels = {"plain", "standard", "stretching"};
  static std::vector<std::string> const prints = {"standard", "large"};
  TableReader reader(text);
  ClassRead result;
  Table const& table = reader.head();
  auto const student = find_column(table, "student");
  auto const level = find_column(table, "level");
  auto const print = find_column(table, "print");
  auto const version = find_column(table, "version");
  if (!student && !table.header.empty())
    result.faults.push_back(reader.in_header(0, missing_column("student", "a first row such as: student,level")));
  for (std::size_t i = 0; student && i < table.header.size(); ++i) {
    std::string const& name = table.header[i];
    if (place_in(names, name) < names.size()) continue;
    std::string const what = name.empty() ? "a column has no name" : "unknown column \"" + name + "\"";
    result.faults.push_back(reader.in_header(i, Fault{"unknown-column", what, one_of(name, names), 0}));
  }
  std::map<std::string, std::string> seen;  ///< by the name without capitals
  Table::Row row;
  while (reader.next(row)) {
    if (!student) continue;
    ClassMember member;
    member.student = clean_name(row.cells[*student]);
    if (holds_broken_bytes(member.student)) continue;  // told by the table
    if (member.student.empty()) {
      result.faults.push_back(reader.in_cell(row, *student, Fault{"no-student", "no student is named", "a student's name", 0}));
      continue;
    }
    // Ada and ada are one person to whoever reads the sheets.
    if (auto const twin = seen.emplace(lowered(member.student), member.student); !twin.second) {
      auto const& first = twin.first->second;
      Fault fault{"given-twice",
                  first == member.student ? "the student \"" + first + "\" stands twice"
                                          : "the students \"" + first + "\" and \"" + member.student + "\" have one name",
                  "each name once; the first is kept", 0};
      result.faults.push_back(reader.in_cell(row, *student, std::move(fault)));
      continue;
    }
    std::optional<Fault> fault;
    if (level) member.level = choice(row.cells[*level], levels, "unknown-level", "level", fault);
    if (fault) result.faults.push_back(reader.in_cell(row, *level, *std::exchange(fault, std::nullopt)));
    if (print) member.print = choice(row.cells[*print], prints, "unknown-print", "print", fault);
    if (fault) result.faults.push_back(reader.in_cell(row, *print, *fault));
    if (version) member.version = std::string(trimmed(row.cells[*version]));
    result.members.push_back(std::move(member));
  }
  auto faults = reader.take_faults();
  faults.insert(faults.end(), std::make_move_iterator(result.faults.begin()), std::make_move_iterator(result.faults.end()));
  result.faults = std::move(faults);
  in_order_of_the_file(result.faults);
  return result;
}

}  // namespace molewright
