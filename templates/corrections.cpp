#include "templates/corrections.h"

#include <utility>

#include "templates/plain.h"
#include "templates/reading_table.h"
#include "templates/score.h"

namespace molewright {
namespace {

using paper::Align;
using paper::Face;
using paper::Pages;
using paper::Row;
using paper::Style;

namespace words {
constexpr char const* corrections = "Corrections";
constexpr char const* about =
    "Do the step named below again, then finish the part. The numbers are those of your own question. Your teacher says how many "
    "of the marks come back.";
constexpr char const* question = "Question ";
constexpr char const* wrote = "You wrote: ";
constexpr char const* nothing = "(nothing)";
constexpr char const* step = "This step again";
constexpr char const* answer = "Then the answer, with its unit";
constexpr char const* answer_alone = "The answer again, with its unit";
constexpr char const* no_number = "Then the answer";
constexpr char const* no_number_alone = "The answer again";
constexpr char const* everyone_right = "Nobody lost a mark: there is nothing to correct.";
}  // namespace words

constexpr Style body{Face::serif, 10.5, 0};
constexpr Style strong{Face::bold, 10.5, 0};
constexpr Style label{Face::serif, 9, 0.3};

std::string marks_lost(int marks) { return paper::counted_marks(marks) + " lost"; }

/// A label and a dotted line to write on, `high` points.
Row to_write(Pages& pages, char const* name, double high) {
  return {high, [&pages, name, high](double y) {
            double const x = pages.left() + 28, width = paper::text_width(name, label.face, label.size);
            pages.text(x, y + high - 6, name, label);
            pages.dots(x + width + 8, y + high - 5, pages.right(), 3, 0.4);
          }};
}

char const* answer_label(CorrectionItem const& item) {
  if (!item.is_number) return item.only_writing ? words::no_number_alone : words::no_number;
  return item.only_writing ? words::answer_alone : words::answer;
}

void item(Pages& pages, CorrectionItem const& item) {
  std::vector<Row> rows{{8, [&pages](double y) { pages.rule(pages.left(), y + 3, pages.right(), y + 3, 0.4, 0.55); }}};
  double const indent = 28;
  rows.push_back({strong.leading(), [&pages, column = item.column, code = item.code, lost = marks_lost(item.to_win)](double y) {
                    double const base = y + strong.leading() * 0.5 + strong.size * 0.36;
                    pages.text(pages.left(), base, column, strong);
                    pages.text(pages.left() + 28, base, code, label);
                    pages.text(pages.right(), base, lost, strong, Align::right);
                  }});
  for (auto const& piece : pieces_of(item.text)) {
    if (item.text.empty()) break;
    append(rows, piece.table.empty()
                     ? pages.paragraph(pages.left() + indent, pages.width() - indent, piece.paragraph, body)
                     : ruled_table(pages, pages.left() + indent, pages.width() - indent, piece.table, body, label));
  }
  rows.push_back(paper::gap(3));
  append(rows, pages.paragraph(pages.left() + indent, pages.width() - indent,
                               words::wrote + (item.written.empty() ? words::nothing : item.written), body));
  append(rows, pages.paragraph(pages.left() + indent, pages.width() - indent, item.look_at, strong));
  if (!item.only_writing) rows.push_back(to_write(pages, words::step, 30));
  rows.push_back(to_write(pages, answer_label(item), 30));
  rows.push_back(paper::gap(6));
  pages.flow(rows, true);
}
}  // namespace

std::string corrections_pdf(CorrectionsDocument const& document, PageSize size) {
  Pages pages({size, false, 54, 8}, std::string(words::corrections) + ": " + document.title);
  if (document.pages.empty()) {
    pages.section(words::corrections, "", document.title);
    pages.flow(pages.paragraph(pages.left(), pages.width(), words::everyone_right, body));
  }
  for (CorrectionsPage const& page : document.pages) {
    pages.section(page.student, "", page.student + " · " + document.title);
    pages.flow(pages.paragraph(pages.left(), pages.width(), std::string(words::corrections) + " · " + document.title, label));
    pages.flow(pages.paragraph(pages.left(), pages.width(), page.student, {Face::bold, 15, 0}));
    pages.flow(
        pages.paragraph(pages.left(), pages.width(), paper::score(page.marks, page.out_of, page.to_read), {Face::bold, 11, 0}));
    pages.flow(pages.paragraph(pages.left(), pages.width(), words::about, label));
    pages.flow({paper::gap(6)});
    for (CorrectionItem const& one : page.items) item(pages, one);
  }
  return pages.finish();
}

std::string corrections_text(CorrectionsDocument const& document) {
  if (document.pages.empty()) return std::string(words::everyone_right) + "\n";
  std::string out;
  for (CorrectionsPage const& page : document.pages) {
    out += (out.empty() ? "" : "\n\n") + paper::plain_heading(page.student);
    out += paper::plain_paragraph(std::string(words::corrections) + ": " + document.title) +
           paper::score(page.marks, page.out_of, page.to_read) + "\n" + paper::plain_paragraph(words::about);
    for (CorrectionItem const& item : page.items) {
      out += "\n" + paper::plain_sides(words::question + item.column + (item.code.empty() ? "" : "  " + item.code),
                                       marks_lost(item.to_win));
      if (!item.text.empty()) out += paper::plain_paragraph(with_told_tables(item.text), "  ", 2);
      out += paper::plain_paragraph(item.written.empty() ? words::nothing : item.written, std::string("  ") + words::wrote, 4);
      out += paper::plain_paragraph(item.look_at, "  ", 2);
      if (!item.only_writing) out += std::string("  ") + words::step + ":\n";
      out += std::string("  ") + answer_label(item) + ":\n";
    }
  }
  return out;
}

}  // namespace molewright
