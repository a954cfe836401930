#include "templates/class_workbook.h"

#include <algorithm>
#include <cmath>
#include <optional>
#include <string>
#include <utility>

#include "generators/kinds.h"
#include "templates/from_set.h"

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
constexpr char const* mean = "mean";
constexpr char const* spread = "standard deviation";
constexpr char const* share_of_marks = "share of marks";
constexpr char const* slip = "slip";
constexpr char const* how_many = "students";
constexpr char const* who = "who";
constexpr char const* of_parts[] = {"part", "kind", "right", "follows", "wrong", "blank", "not read", "share of marks"};
}  // namespace words

constexpr double name_width = 28, mark_width = 8, words_width = 44;  // characters

/// The numbers of one column as they stand, for what its formulas come to before a spreadsheet works them out.
struct Column {
  std::vector<double> numbers;
  double mean() const {
    double sum = 0;
    for (double const number : numbers) sum += number;
    return sum / static_cast<double>(numbers.size());
  }
  double spread() const {  // of a sample: n - 1
    double const middle = mean();
    double squares = 0;
    for (double const number : numbers) squares += (number - middle) * (number - middle);
    return std::sqrt(squares / static_cast<double>(numbers.size() - 1));
  }
};

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

/// Out of: row 1 (from 0). Students from row 2 on, then what sums them up.
class MarksSheet {
 public:
  MarksSheet(ClassResults const& results, bool accepted)
      : results_(results), accepted_(accepted), parts_(results.parts.size()), columns_(parts_ + 1) {}

  book::Sheet make() {
    sheet_.name = accepted_ ? words::with_suggested : words::marks;
    sheet_.widths.assign(parts_ + 4, mark_width);
    sheet_.widths.front() = name_width;
    sheet_.frozen_rows = 2;
    heads();
    for (auto const& student : results_.students) row_of(student);
    if (!results_.students.empty()) sums();
    return std::move(sheet_);
  }

 private:
  std::size_t total() const { return parts_ + 1; }

  void heads() {
    std::vector<Cell> names{book::text(words::student, Look::head)}, outs{book::text(words::out_of)};
    for (std::size_t p = 0; p < parts_; ++p) {
      names.push_back(book::text(results_.parts[p].column, Look::head));
      auto const out = out_of(results_, p);
      outs.push_back(out ? book::number(*out) : Cell{});
    }
    for (auto const* name : {words::total, words::out_of, words::share}) names.push_back(book::text(name, Look::head));
    sheet_.rows.push_back(std::move(names));
    sheet_.rows.push_back(std::move(outs));
  }

  void row_of(StudentMarks const& student) {
    std::size_t const row = sheet_.rows.size();
    std::vector<Cell> cells{book::text(student.student)};
    double sum = 0;
    for (std::size_t p = 0; p < parts_; ++p) {
      auto const* part = part_of(student, p);
      bool const missing = student.absent || (part && part->missing());
      if (missing || !part) {
        cells.push_back(missing ? book::text(words::absent) : Cell{});
        continue;
      }
      double const marks = accepted_ ? part->marks_if_accepted : part->marks;
      sum += marks;
      columns_[p].numbers.push_back(marks);
      cells.push_back(book::number(marks));
    }
    if (student.absent || parts_ == 0) {
      cells.push_back(book::text(words::absent));
    } else {
      auto const here = book::cell_name(row, total()), of = book::cell_name(row, total() + 1);
      columns_[parts_].numbers.push_back(sum);
      cells.push_back(book::formula("=SUM(" + book::range(row, 1, row, parts_) + ")", sum, Look::strong));
      cells.push_back(book::number(student.out_of));
      auto const share = "=IF(" + of + ">0," + here + "/" + of + ",\"\")";
      cells.push_back(student.out_of > 0 ? book::formula(share, sum / student.out_of, Look::share)
                                         : book::formula_without_result(share));
    }
    sheet_.rows.push_back(std::move(cells));
  }

  void sums() {
    std::size_t const first = 2, last = sheet_.rows.size() - 1;
    std::vector<Cell> means{book::text(words::mean, Look::strong)}, spreads{book::text(words::spread)},
        shares{book::text(words::share_of_marks)};
    for (std::size_t c = 0; c <= parts_; ++c) {
      auto const all = book::range(first, c + 1, last, c + 1);
      auto const& column = columns_[c];
      auto const mean = "=IF(COUNT(" + all + ")>0,AVERAGE(" + all + "),\"\")";
      auto const spread = "=IF(COUNT(" + all + ")>1,STDEV(" + all + "),\"\")";
      means.push_back(column.numbers.empty() ? book::formula_without_result(mean, Look::strong)
                                             : book::formula(mean, column.mean(), Look::strong));
      spreads.push_back(column.numbers.size() < 2 ? book::formula_without_result(spread)
                                                  : book::formula(spread, column.spread()));
      auto const out = c < parts_ ? out_of(results_, c) : std::nullopt;
      if (!out || *out == 0) {
        shares.push_back(Cell{});
        continue;
      }
      auto const share = "=IF(COUNT(" + all + ")>0,AVERAGE(" + all + ")/" + book::cell_name(1, c + 1) + ",\"\")";
      shares.push_back(column.numbers.empty() ? book::formula_without_result(share)
                                              : book::formula(share, column.mean() / *out, Look::share));
    }
    sheet_.rows.push_back(std::move(means));
    sheet_.rows.push_back(std::move(spreads));
    sheet_.rows.push_back(std::move(shares));
  }

  ClassResults const& results_;
  bool accepted_;
  std::size_t parts_;
  std::vector<Column> columns_;  ///< a part each, then the totals
  book::Sheet sheet_;
};

book::Sheet slips_sheet(ClassResults const& results) {
  book::Sheet sheet;
  sheet.name = words::slips;
  sheet.widths = {words_width, mark_width + 2, name_width};
  sheet.rows.push_back(
      {book::text(words::slip, Look::head), book::text(words::how_many, Look::head), book::text(words::who, Look::head)});
  for (auto const& slip : results.slips) {
    std::size_t const row = sheet.rows.size();
    std::vector<Cell> cells{book::text(short_words(slip.id)),
                            book::formula("=COUNTA(" + book::range(row, 2, row, 1 + slip.students.size()) + ")",
                                          static_cast<double>(slip.students.size()))};
    for (auto const student : slip.students) cells.push_back(book::text(results.students[student].student));
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
  std::vector<book::Sheet> sheets{MarksSheet(results, false).make()};
  bool const suggested = std::any_of(results.students.begin(), results.students.end(),
                                     [](StudentMarks const& one) { return one.marks != one.marks_if_accepted; });
  if (suggested) sheets.push_back(MarksSheet(results, true).make());
  sheets.push_back(slips_sheet(results));
  sheets.push_back(parts_sheet(results));
  return sheets;
}

}  // namespace molewright
