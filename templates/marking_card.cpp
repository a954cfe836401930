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
    "The right answer comes first, then the wrong ones to expect. Tick a right answer; write the letter beside a wrong one. "
    "What each letter means stands in the answers document.";
}  // namespace words

constexpr Style answer_style{Face::bold, 9.5, 0};
constexpr Style slip_style{Face::serif, 9, 0};
constexpr Style name_style{Face::bold, 9.5, 0};
constexpr double pad = 3;  // of a cell, each side
constexpr double most_for_names = 96;

/// A letter and its answer stay on one line: they are joined by narrow no-break spaces (U+202F), and entries by plain blanks.
std::string entry(CardCell::Slip const& slip) {
  std::string text = slip.letter + " " + slip.answer;
  for (std::size_t at = text.find(' '); at != std::string::npos; at = text.find(' ', at)) text.replace(at, 1, "\u202F");
  return text;
}

std::string slips_line(CardCell const& cell) {
  std::string line;
  for (CardCell::Slip const& slip : cell.slips) line += (line.empty() ? "" : " ") + entry(slip);
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
  return width + 2 * pad + 1;
}

std::string head_of(MarkingCard const& card, std::size_t column) {
  std::string head = card.columns[column];
  if (column < card.marks.size()) head += " [" + std::to_string(card.marks[column]) + "]";
  return head;
}

/// Widths for columns `from` to `to`: what is left over goes first to the columns with the most lines, where one more entry a
/// line saves height, then to all alike.
std::vector<double> share_out(MarkingCard const& card, std::vector<double> const& least, std::size_t from, std::size_t to,
                              double room) {
  struct Need {
    double width = 0, entry = 0;
    std::vector<std::size_t> counts;  // of entries, a row
    std::size_t lines(std::size_t per_line) const {
      std::size_t sum = 0;
      for (std::size_t const n : counts) sum += (n + per_line - 1) / per_line;
      return sum;
    }
    std::size_t per_line(double inner) const {
      return entry > 0 ? std::max<std::size_t>(1, static_cast<std::size_t>(inner / entry)) : 1;
    }
  };
  double const blank = paper::text_width(" ", slip_style.face, slip_style.size);
  std::vector<Need> needs;
  for (std::size_t c = from; c < to; ++c) {
    Need need;
    need.width = least[c];
    room -= least[c];
    for (CardRow const& row : card.rows) {
      if (c >= row.cells.size()) continue;
      need.counts.push_back(row.cells[c].slips.size());
      for (CardCell::Slip const& slip : row.cells[c].slips) {
        need.entry = std::max(need.entry, paper::text_width(entry(slip), slip_style.face, slip_style.size) + blank);
      }
    }
    needs.push_back(std::move(need));
  }
  while (true) {
    Need* worst = nullptr;
    std::size_t most = 0;
    double cost = 0;
    for (Need& need : needs) {
      std::size_t const now = need.per_line(need.width - 2 * pad + blank - 0.5);
      double const wanted = static_cast<double>(now + 1) * need.entry - blank + 0.5 + 2 * pad - need.width;
      if (need.entry > 0 && need.lines(now) > most && need.lines(now + 1) < need.lines(now) && wanted <= room) {
        worst = &need;
        most = need.lines(now);
        cost = wanted;
      }
    }
    if (worst == nullptr) break;
    worst->width += cost;
    room -= cost;
  }
  std::vector<double> widths;
  for (Need const& need : needs) widths.push_back(need.width + std::min(room / static_cast<double>(needs.size()), 60.0));
  return widths;
}

/// Columns `from` to `to` with the names.
void band(Pages& pages, MarkingCard const& card, double name_width, std::vector<double> const& least, std::size_t from,
          std::size_t to) {
  std::vector<double> const widths = share_out(card, least, from, to, pages.width() - name_width);
  std::vector<paper::GridColumn> columns{{words::student, name_width, paper::Align::left}};
  for (std::size_t c = from; c < to; ++c) columns.push_back({head_of(card, c), widths[c - from], paper::Align::left});
  paper::Grid grid(columns, {Face::bold, 10, 0});
  grid.set_upright_rules(true);
  grid.set_padding(pad);
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
  Pages pages({size, true, 30, 8}, std::string(words::card) + ": " + card.title);
  double name_width = 60;
  for (CardRow const& row : card.rows)
    name_width = std::max(name_width, paper::text_width(row.student, name_style.face, name_style.size) + 2 * pad + 1);
  name_width = std::min(name_width, most_for_names);  // a longer name wraps
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
      std::string line = std::string(words::right_answer) + "\u202F" + cell.answer;
      for (CardCell::Slip const& slip : cell.slips) line += "; " + entry(slip);
      out += paper::plain_paragraph(line, start, static_cast<std::size_t>(paper::columns(start)));
    }
  }
  return out;
}

}  // namespace molewright
