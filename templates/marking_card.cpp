#include "templates/marking_card.h"

#include <algorithm>
#include <utility>

#include "templates/grid.h"
#include "templates/plain.h"

namespace molewright {
namespace {

using paper::Face;
using paper::Pages;
using paper::Style;

namespace words {
constexpr char const* card = "Marking card";
constexpr char const* student = "Student";
constexpr char const* right_answer = "right";
constexpr char const* how =
    "Bold: the right answer. Below it, the wrong answers to expect. Tick a right answer; write the letter beside a wrong one. "
    "The answers document says what each letter means.";
}  // namespace words

constexpr Style answer_style{Face::bold, 10, 0};
constexpr Style slip_style{Face::serif, 9, 0};
constexpr Style name_style{Face::bold, 9.5, 0};
constexpr double cell_pad = 8;  // of a grid's cell, both sides

/// A letter and its answer stay on one line: they are joined by a no-break space, and entries by plain blanks.
std::string entry(CardCell::Slip const& slip) {
  std::string text = slip.letter + " " + slip.answer;
  for (std::size_t at = text.find(' '); at != std::string::npos; at = text.find(' ', at + 2)) text.replace(at, 1, "\u00A0");
  return text;
}

std::string slips_line(CardCell const& cell) {
  std::string line;
  for (CardCell::Slip const& slip : cell.slips) line += (line.empty() ? "" : "   ") + entry(slip);
  return line;
}

/// What one column needs at least: its longest entry on one line.
double least_width(MarkingCard const& card, std::size_t column) {
  double width = paper::text_width(card.columns[column], Face::bold, 10) + 30;
  for (CardRow const& row : card.rows) {
    if (column >= row.cells.size()) continue;
    CardCell const& cell = row.cells[column];
    width = std::max(width, paper::text_width(cell.answer, answer_style.face, answer_style.size));
    for (CardCell::Slip const& slip : cell.slips)
      width = std::max(width, paper::text_width(entry(slip), slip_style.face, slip_style.size));
  }
  return width + cell_pad + 1;
}

std::string head_of(MarkingCard const& card, std::size_t column) {
  std::string head = card.columns[column];
  if (column < card.marks.size()) head += " [" + std::to_string(card.marks[column]) + "]";
  return head;
}

/// Columns `from` to `to` with the names.
void band(Pages& pages, MarkingCard const& card, double name_width, std::vector<double> const& least, std::size_t from,
          std::size_t to) {
  double spare = pages.width() - name_width;
  for (std::size_t c = from; c < to; ++c) spare -= least[c];
  std::vector<paper::GridColumn> columns{{words::student, name_width, paper::Align::left}};
  for (std::size_t c = from; c < to; ++c) {
    double const width = std::min(least[c] + spare / static_cast<double>(to - from), pages.width() / 2);
    columns.push_back({head_of(card, c), width, paper::Align::left});
  }
  paper::Grid grid(columns, {Face::bold, 10, 0});
  grid.set_upright_rules(true);
  for (CardRow const& row : card.rows) {
    std::vector<paper::GridCell> cells{{{row.student, name_style}}};
    if (!row.version.empty()) cells[0].push_back({row.version, slip_style});
    if (row.student.empty()) cells[0].erase(cells[0].begin());
    for (std::size_t c = from; c < to; ++c) {
      paper::GridCell cell;
      if (c < row.cells.size()) {
        cell.push_back({row.cells[c].answer, answer_style});
        if (!row.cells[c].slips.empty()) cell.push_back({slips_line(row.cells[c]), slip_style});
      }
      cells.push_back(std::move(cell));
    }
    grid.add(std::move(cells));
  }
  grid.draw(pages, pages.left());
}

}  // namespace

std::string marking_card_pdf(MarkingCard const& card, PageSize size) {
  Pages pages({size, true, 34, 8}, std::string(words::card) + ": " + card.title);
  double name_width = 70;
  for (CardRow const& row : card.rows)
    name_width = std::max(name_width, paper::text_width(row.student, name_style.face, name_style.size) + cell_pad + 1);
  name_width = std::min(name_width, 120.0);  // a longer name wraps
  std::vector<double> least;
  for (std::size_t c = 0; c < card.columns.size(); ++c)
    least.push_back(std::min(least_width(card, c), (pages.width() - name_width) / 2));

  std::size_t from = 0;
  do {
    double used = name_width;
    std::size_t to = from;
    while (to < card.columns.size() && (to == from || used + least[to] <= pages.width())) used += least[to++];
    if (from == 0) {
      pages.section(card.title, "", std::string(words::card) + " · " + card.title);
      pages.flow(pages.paragraph(pages.left(), pages.width(), std::string(words::card) + ": " + card.title, {Face::bold, 12, 0}));
      pages.flow(pages.paragraph(pages.left(), pages.width(), words::how, {Face::serif, 9, 0.2}));
      pages.flow({paper::gap(4)});
    } else {
      pages.new_page();
    }
    band(pages, card, name_width, least, from, to);
    from = to;
  } while (from < card.columns.size());
  return pages.finish();
}

std::string marking_card_text(MarkingCard const& card) {
  std::string out = paper::plain_heading(std::string(words::card) + ": " + card.title) + paper::plain_paragraph(words::how);
  for (CardRow const& row : card.rows) {
    std::string who = row.student;
    if (!row.version.empty()) who += who.empty() ? row.version : ", " + row.version;
    out += "\n" + paper::plain_paragraph(who);
    for (std::size_t c = 0; c < row.cells.size() && c < card.columns.size(); ++c) {
      CardCell const& cell = row.cells[c];
      if (cell.answer.empty()) continue;
      std::string const start = "  " + head_of(card, c) + "  ";
      std::string line = std::string(words::right_answer) + "\u00A0" + cell.answer;
      for (CardCell::Slip const& slip : cell.slips) line += "; " + entry(slip);
      out += paper::plain_paragraph(line, start, static_cast<std::size_t>(paper::columns(start)));
    }
  }
  // The no-break blanks have done their work; a terminal wants plain ones.
  for (std::size_t at = out.find("\u00A0"); at != std::string::npos; at = out.find("\u00A0", at)) out.replace(at, 2, " ");
  return out;
}

}  // namespace molewright
