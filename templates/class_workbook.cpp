#include "templates/class_workbook.h"

#include <algorithm>
#include <cmath>
#include <memory>
#include <optional>
#include <string>
#include <utility>

#include "generators/kinds.h"
#include "templates/from_set.h"
#include "templates/volumes.h"

namespace molewright {
namespace {

using book::Cell;
using book::Look;

namespace words {
constexpr char const* marks = "Marks";
constexpr char const* with_suggested = "With suggested";
constexpr char const* slips = "Slips";
constexpr char const* parts = "Parts";
constexpr char const* student = "student";
constexpr char const* out_of = "out of";
constexpr char const* total = "total";
constexpr char const* share = "share";
constexpr char const* absent = "absent";
constexpr char const* misplaced = "not marked";
constexpr char const* not_read = "?";
constexpr char const* mean = "mean";
constexpr char const* spread = "standard deviation";
constexpr char const* share_of_marks = "share of marks";
constexpr char const* slip = "slip";
constexpr char const* how_many = "students";
constexpr char const* who = "who";
constexpr char const* too_many = "too many to name; marks.jsonl has them";
constexpr char const* of_parts[] = {"part", "kind", "right", "follows", "wrong", "blank", "not read", "share of marks"};
}  // namespace words

constexpr double name_width = 28, mark_width = 8, words_width = 44;  // characters

/// What a part is out of, where that is one number for the whole class.
std::optional<int> out_of(ClassResults const& results, std::size_t column) {
  std::optional<int> found;
  for (auto const& student : results.students)
    if (auto const* part = part_of(student, column)) {
      if (found && *found != part->out_of) return std::nullopt;
      found = part->out_of;
    }
  return found;
}

/// Out of: row 1 (from 0). Students from row 2 on, then what sums them up. Rows are made when they are asked for.
class MarksSheet {
 public:
  MarksSheet(ClassResults const& results, bool accepted) : results_(results), accepted_(accepted), parts_(results.parts.size()) {
    for (std::size_t p = 0; p < parts_; ++p) outs_.push_back(out_of(results, p));
  }

  std::vector<Cell> row(std::size_t at) const {
    auto const students = results_.students.size();
    if (at == 0) return names();
    if (at == 1) return outs();
    if (at < 2 + students) return student(results_.students[at - 2], at);
    return at == 2 + students ? means() : at == 3 + students ? spreads() : shares();
  }
  std::size_t rows() const { return 2 + results_.students.size() + (results_.students.empty() ? 0 : 3); }

 private:
  std::size_t total() const { return parts_ + 1; }

  std::optional<double> marks(StudentMarks const& student, std::size_t p) const {
    auto const* part = part_of(student, p);
    if (!student.counts() || !part || part->missing()) return std::nullopt;
    return accepted_ ? part->marks_if_accepted : part->marks;
  }
  /// The number of a column of parts, or of the totals behind them; nothing where the student has none there.
  std::optional<double> number(StudentMarks const& student, std::size_t column) const {
    if (column < parts_) return marks(student, column);
    if (!student.whole() || parts_ == 0) return std::nullopt;
    double sum = 0;
    for (std::size_t p = 0; p < parts_; ++p) sum += marks(student, p).value_or(0);
    return sum;
  }

  /// What the formulas below a column come to, before a spreadsheet works them out.
  struct Column {
    std::size_t count = 0;
    double mean = 0;
  };
  Column column(std::size_t c) const {
    Column out;
    double sum = 0;
    for (auto const& student : results_.students)
      if (auto const one = number(student, c)) {
        sum += *one;
        ++out.count;
      }
    out.mean = sum / static_cast<double>(out.count);
    return out;
  }
  double spread(std::size_t c, Column const& all) const {  // of a sample: n - 1
    double squares = 0;
    for (auto const& student : results_.students)
      if (auto const one = number(student, c)) squares += (*one - all.mean) * (*one - all.mean);
    return std::sqrt(squares / static_cast<double>(all.count - 1));
  }

  static char const* no_marks(StudentMarks const& student) { return student.misplaced ? words::misplaced : words::absent; }

  std::vector<Cell> names() const {
    std::vector<Cell> cells{book::text(words::student, Look::head)};
    for (auto const& part : results_.parts) cells.push_back(book::text(part.column, Look::head));
    for (auto const* name : {words::total, words::out_of, words::share}) cells.push_back(book::text(name, Look::head));
    return cells;
  }

  std::vector<Cell> outs() const {
    std::vector<Cell> cells{book::text(words::out_of)};
    for (auto const& out : outs_) cells.push_back(out ? book::number(*out) : Cell{});
    return cells;
  }

  std::vector<Cell> student(StudentMarks const& student, std::size_t row) const {
    std::vector<Cell> cells{book::text(student.student)};
    for (std::size_t p = 0; p < parts_; ++p) {
      auto const* part = part_of(student, p);
      if (auto const here = marks(student, p))
        cells.push_back(book::number(*here));
      else
        cells.push_back(!student.counts()                         ? book::text(no_marks(student))
                        : !part                                   ? Cell{}
                        : part->value == ValueVerdict::unreadable ? book::text(words::not_read)
                                                                  : book::text(words::absent));
    }
    auto const sum = number(student, parts_);
    if (!sum && student.counts() && parts_ > 0) {
      add_open_total(cells, student, row);
      return cells;
    }
    if (!sum) {
      cells.push_back(book::text(no_marks(student)));
      return cells;
    }
    auto const here = book::cell_name(row, total()), of = book::cell_name(row, total() + 1);
    cells.push_back(book::formula("=SUM(" + book::range(row, 1, row, parts_) + ")", *sum, Look::strong));
    cells.push_back(book::number(student.out_of));
    auto const share = "=IF(" + of + ">0," + here + "/" + of + ",\"\")";
    cells.push_back(student.out_of > 0 ? book::formula(share, *sum / student.out_of, Look::share)
                                       : book::formula_without_result(share));
    return cells;
  }

  /// No total, and so in no mean, until each answer that is still to be read has its marks.
  void add_open_total(std::vector<Cell>& cells, StudentMarks const& student, std::size_t row) const {
    std::string read;
    for (std::size_t p = 0; p < parts_; ++p)
      if (auto const* part = part_of(student, p); part && part->to_read())
        read += (read.empty() ? "ISNUMBER(" : ",ISNUMBER(") + book::cell_name(row, 1 + p) + ")";
    auto const here = book::cell_name(row, total()), of = book::cell_name(row, total() + 1);
    cells.push_back(
        book::formula_without_result("=IF(AND(" + read + "),SUM(" + book::range(row, 1, row, parts_) + "),\"\")", Look::strong));
    cells.push_back(book::number(student.out_of + student.to_read));
    cells.push_back(book::formula_without_result("=IF(ISNUMBER(" + here + ")," + here + "/" + of + ",\"\")", Look::share));
  }

  std::string students_of(std::size_t column) const {
    return book::range(2, column + 1, 1 + results_.students.size(), column + 1);
  }

  std::vector<Cell> means() const {
    std::vector<Cell> cells{book::text(words::mean, Look::strong)};
    for (std::size_t c = 0; c <= parts_; ++c) {
      auto const all = students_of(c);
      auto const here = column(c);
      auto const mean = "=IF(COUNT(" + all + ")>0,AVERAGE(" + all + "),\"\")";
      cells.push_back(here.count == 0 ? book::formula_without_result(mean, Look::strong)
                                      : book::formula(mean, here.mean, Look::strong));
    }
    return cells;
  }

  std::vector<Cell> spreads() const {
    std::vector<Cell> cells{book::text(words::spread)};
    for (std::size_t c = 0; c <= parts_; ++c) {
      auto const all = students_of(c);
      auto const here = column(c);
      auto const formula = "=IF(COUNT(" + all + ")>1,STDEV(" + all + "),\"\")";
      cells.push_back(here.count < 2 ? book::formula_without_result(formula) : book::formula(formula, spread(c, here)));
    }
    return cells;
  }

  std::vector<Cell> shares() const {
    std::vector<Cell> cells{book::text(words::share_of_marks)};
    for (std::size_t c = 0; c <= parts_; ++c) {
      auto const out = c < parts_ ? outs_[c] : std::nullopt;
      if (!out || *out == 0) {
        cells.push_back(Cell{});
        continue;
      }
      auto const all = students_of(c);
      auto const here = column(c);
      auto const share = "=IF(COUNT(" + all + ")>0,AVERAGE(" + all + ")/" + book::cell_name(1, c + 1) + ",\"\")";
      cells.push_back(here.count == 0 ? book::formula_without_result(share)
                                      : book::formula(share, here.mean / *out, Look::share));
    }
    return cells;
  }

  ClassResults const& results_;
  bool accepted_;
  std::size_t parts_;
  std::vector<std::optional<int>> outs_;  ///< what each part is out of, where that is one number
};

book::Sheet marks_sheet(ClassResults const& results, bool accepted) {
  auto const marks = std::make_shared<MarksSheet const>(results, accepted);
  book::Sheet sheet;
  sheet.name = accepted ? words::with_suggested : words::marks;
  sheet.widths.assign(results.parts.size() + 4, mark_width);
  sheet.widths.front() = name_width;
  sheet.frozen_rows = 2;
  sheet.more_rows = marks->rows();
  sheet.make_row = [marks](std::size_t at) { return marks->row(at); };
  return sheet;
}

/// Who made which; of a slip that more made than a volume holds, how many.
book::Sheet slips_sheet(ClassResults const& results) {
  book::Sheet sheet;
  sheet.name = words::slips;
  sheet.widths = {words_width, mark_width + 2, name_width};
  sheet.rows.push_back(
      {book::text(words::slip, Look::head), book::text(words::how_many, Look::head), book::text(words::who, Look::head)});
  for (auto const& slip : results.slips) {
    std::size_t const row = sheet.rows.size();
    auto const count = static_cast<double>(slip.students.size());
    std::vector<Cell> cells{book::text(short_words(slip.id))};
    if (slip.students.size() > students_of_a_volume) {
      cells.push_back(book::number(count));
      cells.push_back(book::text(words::too_many));
    } else {
      cells.push_back(book::formula("=COUNTA(" + book::range(row, 2, row, 1 + slip.students.size()) + ")", count));
      for (auto const student : slip.students) cells.push_back(book::text(results.students[student].student));
    }
    sheet.rows.push_back(std::move(cells));
  }
  return sheet;
}

book::Sheet parts_sheet(ClassResults const& results) {
  book::Sheet sheet;
  sheet.name = words::parts;
  sheet.widths = {mark_width, words_width, mark_width, mark_width, mark_width, mark_width, mark_width, mark_width * 2};
  std::vector<Cell> names;
  for (auto const* name : words::of_parts) names.push_back(book::text(name, Look::head));
  sheet.rows.push_back(std::move(names));
  std::size_t const share_row = 2 + results.students.size() + 2;  // of the sheet of marks
  for (std::size_t p = 0; p < results.parts.size(); ++p) {
    auto const& part = results.parts[p];
    std::vector<Cell> cells{book::text(part.column), book::text(kind_words(part.kind))};
    for (int const count : {part.right, part.follow_through, part.wrong, part.blank, part.unreadable})
      cells.push_back(book::number(count));
    bool const from_marks = out_of(results, p).value_or(0) > 0 && !results.students.empty();
    cells.push_back(from_marks ? book::formula("=" + std::string(words::marks) + "!" + book::cell_name(share_row, p + 1),
                                               part.facility, Look::share)
                               : book::number(part.facility, Look::share));
    sheet.rows.push_back(std::move(cells));
  }
  return sheet;
}
}  // namespace

std::vector<book::Sheet> class_workbook(ClassResults const& results) {
  std::vector<book::Sheet> sheets{marks_sheet(results, false)};
  bool const suggested = std::any_of(results.students.begin(), results.students.end(),
                                     [](StudentMarks const& one) { return one.marks != one.marks_if_accepted; });
  if (suggested) sheets.push_back(marks_sheet(results, true));
  sheets.push_back(slips_sheet(results));
  sheets.push_back(parts_sheet(results));
  return sheets;
}

}  // namespace molewright
