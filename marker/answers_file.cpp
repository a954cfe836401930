#include "marker/answers_file.h"

#include <algorithm>
#include <map>
#include <set>
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

/// The name in `known` that `name` is, whatever its case; empty for none.
std::string as_known(std::string_view name, std::vector<std::string> const& known) {
  for (auto const& each : known)
    if (lowered(each) == lowered(name)) return each;
  return "";
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

PlacedFault in_header(Lines const& lines, Table const& table, std::size_t column, Fault fault) {
  return lines.place(std::move(fault), table.header_line, table.header_columns[column]);
}

PlacedFault in_cell(Lines const& lines, Table::Row const& row, std::size_t column, Fault fault) {
  return lines.place(std::move(fault), row.lines[column], row.columns[column]);
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

void read_wide(Table const& table, std::size_t student_column, std::vector<std::string> const& known,
               std::vector<std::string> const& reading_columns, Lines const& lines, AnswersRead& result) {
  std::vector<std::pair<std::size_t, std::string>> parts, readings;  // column, question
  auto const code = find_column(table, "code");
  for (std::size_t i = 0; i < table.header.size(); ++i) {
    std::string const& name = table.header[i];
    bool const again = find_column(table, lowered(name)) != i;  // already a fault of the table
    if (i == student_column || again || i == code) continue;
    std::string const question = name.empty() ? "" : as_known(name, known);
    if (!question.empty()) {
      parts.push_back({i, question});
      continue;
    }
    if (std::string const reading = name.empty() ? "" : as_known(clean_name(name), reading_columns); !reading.empty()) {
      readings.push_back({i, reading});
      continue;
    }
    std::string const what = name.empty() ? "a column has no name" : "unknown column \"" + name + "\"";
    result.faults.push_back(in_header(lines, table, i, Fault{"unknown-column", what, one_of(name, known), 0}));
  }
  std::set<std::string> seen;
  for (auto const& row : table.rows) {
    std::string const student = clean_name(row.cells[student_column]);
    if (student.empty()) {
      result.faults.push_back(
          in_cell(lines, row, student_column, Fault{"no-student", "no student is named", "a student's name", 0}));
      continue;
    }
    if (!seen.insert(student).second) {
      Fault fault{"given-twice", "the student \"" + student + "\" stands twice", "one row a student; the first is marked", 0};
      result.faults.push_back(in_cell(lines, row, student_column, std::move(fault)));
      continue;
    }
    for (auto const& [column, question] : parts) {
      result.answers.push_back(handed_in(row, student, question, column));
      result.answers.back().whole_row = true;
      if (code) result.answers.back().code = std::string(trimmed(row.cells[*code]));
    }
    for (auto const& [column, question] : readings) {
      result.readings.push_back(handed_in(row, student, question, column));
      result.readings.back().measured = std::string(trimmed(row.cells[column]));
    }
  }
}

struct LongColumns {
  std::optional<std::size_t> student;  ///< none: the whole file is of one student
  std::string whose;
  std::size_t question = 0, answer = 0;
  std::optional<std::size_t> working, measured, marks, code;
};

void read_long(Table const& table, LongColumns const& columns, std::vector<std::string> const& known, Lines const& lines,
               AnswersRead& result) {
  static std::set<std::string> const names = {"student", "question", "answer", "working", "measured", "marks", "code"};
  for (std::size_t i = 0; i < table.header.size(); ++i) {
    if (names.count(lowered(table.header[i])) > 0 ||
        (!table.header[i].empty() && find_column(table, lowered(table.header[i])) != i))
      continue;
    std::string const what = table.header[i].empty() ? "a column has no name" : "unknown column \"" + table.header[i] + "\"";
    result.faults.push_back(
        in_header(lines, table, i, Fault{"unknown-column", what, one_of(table.header[i], {names.begin(), names.end()}), 0}));
  }
  std::set<std::pair<std::string, std::string>> seen;
  for (auto const& row : table.rows) {
    std::string const student = clean_name(columns.student ? row.cells[*columns.student] : columns.whose);
    std::string const asked(trimmed(row.cells[columns.question]));
    if (student.empty()) {
      result.faults.push_back(
          in_cell(lines, row, columns.student.value_or(0), Fault{"no-student", "no student is named", "a student's name", 0}));
      continue;
    }
    std::string const question = asked.empty() ? "" : as_known(asked, known);
    if (question.empty()) {
      std::string const what = asked.empty() ? "no question is named" : "unknown question \"" + asked + "\"";
      result.faults.push_back(in_cell(lines, row, columns.question, Fault{"unknown-question", what, one_of(asked, known), 0}));
      continue;
    }
    if (!seen.insert({student, question}).second) {
      Fault fault{"given-twice", "question " + question + " of \"" + student + "\" stands twice",
                  "one row an answer; the first is marked", 0};
      result.faults.push_back(in_cell(lines, row, columns.question, std::move(fault)));
      continue;
    }
    HandedIn answer = handed_in(row, student, question, columns.answer);
    if (columns.code) answer.code = std::string(trimmed(row.cells[*columns.code]));
    if (columns.working) answer.working = row.cells[*columns.working];
    if (columns.measured) answer.measured = std::string(trimmed(row.cells[*columns.measured]));
    if (columns.marks) {
      std::string const marks(trimmed(row.cells[*columns.marks]));
      if (!marks.empty()) answer.marks = marks;
    }
    result.answers.push_back(std::move(answer));
  }
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

AnswersRead read_answers(std::string_view text, std::vector<std::string> const& known_columns,
                         std::vector<std::string> const& reading_columns, std::string const& whose) {
  TableRead read = read_table(text);
  AnswersRead result;
  result.faults = std::move(read.faults);
  Table const& table = read.table;
  if (table.header.empty()) return result;
  Lines const lines(text);
  auto const student = find_column(table, "student");
  auto const question = find_column(table, "question");
  auto const answer = find_column(table, "answer");
  result.wide = !question && !answer;
  bool const of_one = !whose.empty() && question && answer;
  std::optional<Fault> missing;
  if (!student && !of_one)
    missing = missing_column("student", "a first row such as: student,1,2a,2b");
  else if (question && !answer)
    missing = missing_column("answer", "a first row such as: student,question,answer");
  else if (answer && !question)
    missing = missing_column("question", "a first row such as: student,question,answer");
  if (missing) {
    result.faults.push_back(in_header(lines, table, 0, *missing));
  } else if (result.wide) {
    read_wide(table, *student, known_columns, reading_columns, lines, result);
  } else {
    LongColumns const columns{student,
                              whose,
                              *question,
                              *answer,
                              find_column(table, "working"),
                              find_column(table, "measured"),
                              find_column(table, "marks"),
                              find_column(table, "code")};
    read_long(table, columns, known_columns, lines, result);
  }
  in_order_of_the_file(result.faults);
  return result;
}

ClassRead read_class(std::string_view text) {
  static std::vector<std::string> const names = {"student", "level", "print", "version"};
  static std::vector<std::string> const levels = {"plain", "standard", "stretching"};
  static std::vector<std::string> const prints = {"standard", "large"};
  TableRead read = read_table(text);
  ClassRead result;
  result.faults = std::move(read.faults);
  Table const& table = read.table;
  if (table.header.empty()) return result;
  Lines const lines(text);
  auto const student = find_column(table, "student");
  auto const level = find_column(table, "level");
  auto const print = find_column(table, "print");
  auto const version = find_column(table, "version");
  if (!student)
    result.faults.push_back(in_header(lines, table, 0, missing_column("student", "a first row such as: student,level")));
  for (std::size_t i = 0; student && i < table.header.size(); ++i) {
    std::string const& name = table.header[i];
    if (!as_known(name, names).empty()) continue;
    std::string const what = name.empty() ? "a column has no name" : "unknown column \"" + name + "\"";
    result.faults.push_back(in_header(lines, table, i, Fault{"unknown-column", what, one_of(name, names), 0}));
  }
  std::map<std::string, std::string> seen;  ///< by the name without capitals
  for (auto const& row : table.rows) {
    if (!student) break;
    ClassMember member;
    member.student = clean_name(row.cells[*student]);
    if (member.student.empty()) {
      result.faults.push_back(in_cell(lines, row, *student, Fault{"no-student", "no student is named", "a student's name", 0}));
      continue;
    }
    // Ada and ada are one person to whoever reads the sheets.
    if (auto const twin = seen.emplace(lowered(member.student), member.student); !twin.second) {
      auto const& first = twin.first->second;
      Fault fault{"given-twice",
                  first == member.student ? "the student \"" + first + "\" stands twice"
                                          : "the students \"" + first + "\" and \"" + member.student + "\" have one name",
                  "each name once; the first is kept", 0};
      result.faults.push_back(in_cell(lines, row, *student, std::move(fault)));
      continue;
    }
    std::optional<Fault> fault;
    if (level) member.level = choice(row.cells[*level], levels, "unknown-level", "level", fault);
    if (fault) result.faults.push_back(in_cell(lines, row, *level, *std::exchange(fault, std::nullopt)));
    if (print) member.print = choice(row.cells[*print], prints, "unknown-print", "print", fault);
    if (fault) result.faults.push_back(in_cell(lines, row, *print, *fault));
    if (version) member.version = std::string(trimmed(row.cells[*version]));
    result.members.push_back(std::move(member));
  }
  in_order_of_the_file(result.faults);
  return result;
}

}  // namespace molewright
