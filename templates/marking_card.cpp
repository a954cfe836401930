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
    "The legend is at the end.";
constexpr char const* legend = "What the letters mean";
constexpr char const* in_answers = "not the same on every paper: see the answers document";
constexpr char const* how_without_letters = "The right answer of every student. Tick a right answer.";
}  // namespace words

constexpr Style answer_style{Face::bold, 9.5, 0};
constexpr Style slip_style{Face::serif, 9, 0};
constexpr Style name_style{Face::bold, 9.5, 0};
constexpr Style letter_style{Face::bold, 9, 0};
constexpr double pad = 3;  // of a cell, each side
constexpr double most_for_names = 110;

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

std::string head_of(MarkingCard const& card, std::size_t column) {
  std::string head = card.columns[column];
  if (column < card.marks.size()) head += " [" + std::to_string(card.marks[column]) + "]";
  return head;
}

/// Where a letter stands in its cell, from 0. With gaps: a letter that a paper lacks leaves its place free.
std::vector<std::size_t> places_of(CardCell const& cell) {
  std::vector<std::size_t> places;
  for (CardCell::Slip const& slip : cell.slips) {
    std::size_t const next = places.empty() ? 0 : places.back() + 1;
    char const letter = slip.letter.empty() ? 'A' : slip.letter[0];
    places.push_back(letter < 'A' || letter > 'Z' ? next : std::max(next, static_cast<std::size_t>(letter - 'A')));
  }
  return places;
}

/// The letters of a column set in lines of `across`: each stands at one place in all rows, so that the eye finds it.
struct Lettering {
  std::size_t across = 1, most = 0;  ///< letters a line; letters of the fullest cell, gaps included
  std::vector<double> x;             ///< of each place in a line
  double letter = 0, width = 0;      ///< room for the letter itself; width of a whole line
};
constexpr double between_entries = 9;

Lettering lettering(MarkingCard const& card, std::size_t column, std::size_t across) {
  Lettering result;
  result.across = across;
  std::vector<double> widths(across, 0);
  for (CardRow const& row : card.rows) {
    if (column >= row.cells.size()) continue;
    CardCell const& cell = row.cells[column];
    std::vector<std::size_t> const places = places_of(cell);
    for (std::size_t i = 0; i < places.size(); ++i) {
      result.letter = std::max(result.letter, paper::text_width(cell.slips[i].letter, letter_style.face, letter_style.size) + 3);
      double& width = widths[places[i] % across];
      width = std::max(width, paper::text_width(cell.slips[i].answer, slip_style.face, slip_style.size));
      result.most = std::max(result.most, places[i] + 1);
    }
  }
  for (double const width : widths) {
    result.x.push_back(result.width);
    result.width += result.letter + width + between_entries;
  }
  result.width -= between_entries;
  return result;
}

/// What one column needs at least: its longest entry on one line.
double least_width(MarkingCard const& card, std::size_t column) {
  double width = paper::text_width(head_of(card, column), Face::bold, 10);
  for (CardRow const& row : card.rows) {
    if (column >= row.cells.size()) continue;
    width = std::max(width, paper::text_width(row.cells[column].answer, answer_style.face, answer_style.size));
  }
  return std::max(width, lettering(card, column, 1).width) + 2 * pad + 1;
}

struct ColumnShape {
  double width = 0;
  Lettering letters;
};

/// Shapes of columns `from` to `to`: what is left over goes first to the columns with the most lines, where one more letter a
/// line saves height, then to all alike.
std::vector<ColumnShape> share_out(MarkingCard const& card, std::vector<double> const& least, std::size_t from, std::size_t to,
                                   double room) {
  std::vector<ColumnShape> shapes;
  for (std::size_t c = from; c < to; ++c) {
    shapes.push_back({least[c], lettering(card, c, 1)});
    room -= least[c];
  }
  auto const lines = [](Lettering const& l) { return (l.most + l.across - 1) / l.across; };
  while (true) {
    ColumnShape* worst = nullptr;  // most lines; among equals the one that is cheapest to mend
    ColumnShape mended;
    for (std::size_t i = 0; i < shapes.size(); ++i) {
      Lettering const& now = shapes[i].letters;
      if (lines(now) < 2 || (worst != nullptr && lines(now) < lines(worst->letters))) continue;
      std::size_t const wanted = lines(now) - 1;
      Lettering wider = lettering(card, from + i, (now.most + wanted - 1) / wanted);
      double const width = std::max(shapes[i].width, wider.width + 2 * pad + 1);
      if (width - shapes[i].width > room) continue;
      bool const cheaper =
          worst == nullptr || lines(now) > lines(worst->letters) || width - shapes[i].width < mended.width - worst->width;
      if (!cheaper) continue;
      worst = &shapes[i];
      mended = {width, std::move(wider)};
    }
    if (worst == nullptr) break;
    room -= mended.width - worst->width;
    *worst = std::move(mended);
  }
  double const each = std::min(room / static_cast<double>(shapes.size()), 60.0);
  for (ColumnShape& shape : shapes) shape.width += each;
  return shapes;
}

/// The lettered answers of a cell, at their places.
void add_letters(paper::GridCell& lines, CardCell const& cell, ColumnShape const& shape) {
  if (shape.letters.width > shape.width - 2 * pad) {  // an entry wider than the column may be: it has to wrap
    if (!cell.slips.empty()) lines.push_back({slips_line(cell), slip_style});
    return;
  }
  std::vector<std::size_t> const places = places_of(cell);
  for (std::size_t i = 0; i < places.size();) {
    std::size_t const line = places[i] / shape.letters.across;
    paper::CellLine shown{"", slip_style};
    for (; i < places.size() && places[i] / shape.letters.across == line; ++i) {
      double const x = shape.letters.x[places[i] % shape.letters.across];
      shown.pieces.push_back({x, cell.slips[i].letter, letter_style});
      shown.pieces.push_back({x + shape.letters.letter, cell.slips[i].answer, slip_style});
    }
    lines.push_back(std::move(shown));
  }
}

/// Columns `from` to `to` with the names.
void band(Pages& pages, MarkingCard const& card, double name_width, std::vector<double> const& least, std::size_t from,
          std::size_t to) {
  std::vector<ColumnShape> const shapes = share_out(card, least, from, to, pages.width() - name_width);
  std::vector<paper::GridColumn> columns{{words::student, name_width, paper::Align::left}};
  for (std::size_t c = from; c < to; ++c) columns.push_back({head_of(card, c), shapes[c - from].width, paper::Align::left});
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
        add_letters(cell, row.cells[c], shapes[c - from]);
      }
      cells.push_back(std::move(cell));
    }
    grid.add(std::move(cells));
  }
  grid.draw(pages, pages.left());
}

std::string const& how_to_use(MarkingCard const& card) {
  static std::string const with = words::how, without = words::how_without_letters;
  return card.legend.empty() ? without : with;
}

/// The legend, three meanings beside each other; all on one page if a page can hold it.
void legend(Pages& pages, MarkingCard const& card) {
  if (card.legend.empty()) return;
  double const head = 30, letters = [&] {
    double widest = 0;
    for (CardLegend const& one : card.legend)
      for (CardLegend::Line const& line : one.lines)
        widest = std::max(widest, paper::text_width(line.letters, letter_style.face, letter_style.size));
    return widest + 6;
  }();
  constexpr std::size_t across = 3;
  double const column = (pages.width() - head) / across;
  std::vector<paper::Row> rows{paper::gap(10)};
  append(rows, pages.paragraph(pages.left(), pages.width(), words::legend, {Face::bold, 10.5, 0}));
  rows.push_back(paper::gap(2));
  for (CardLegend const& one : card.legend) {
    rows.push_back({4, [&pages](double y) { pages.rule(pages.left(), y + 2, pages.right(), y + 2, 0.4, 0.55); }});
    std::size_t const first = rows.size();
    if (one.lines.empty())
      append(rows, pages.paragraph(pages.left() + head, pages.width() - head, words::in_answers, slip_style));
    for (std::size_t i = 0; i < one.lines.size(); i += across) {
      struct Shown {
        std::string letters;
        std::vector<std::string> meaning;
      };
      std::vector<Shown> shown;
      std::size_t most = 1;
      for (std::size_t k = i; k < std::min(i + across, one.lines.size()); ++k) {
        shown.push_back(
            {one.lines[k].letters, paper::wrap(one.lines[k].meaning, {column - letters - 10, 0}, measure_in(slip_style))});
        most = std::max(most, shown.back().meaning.size());
      }
      rows.push_back({static_cast<double>(most) * slip_style.leading(), [&pages, shown, head, letters, column](double y) {
                        double x = pages.left() + head;
                        for (Shown const& entry : shown) {
                          double base = y + slip_style.leading() * 0.5 + slip_style.size * 0.36;
                          pages.text(x, base, entry.letters, letter_style);
                          for (std::string const& line : entry.meaning) {
                            pages.text(x + letters, base, line, slip_style);
                            base += slip_style.leading();
                          }
                          x += column;
                        }
                      }});
    }
    rows[first].draw = [&pages, draw = rows[first].draw, name = one.column](double y) {
      pages.text(pages.left() + pad, y + slip_style.leading() * 0.5 + slip_style.size * 0.36, name, {Face::bold, 10, 0});
      draw(y);
    };
  }
  pages.flow(rows, true);
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
      pages.flow(pages.paragraph(pages.left(), pages.width(), how_to_use(card), {Face::serif, 9, 0.2}));
      pages.flow({paper::gap(4)});
    } else {
      pages.new_page();
    }
    band(pages, card, name_width, least, from, to);
    from = to;
  } while (from < card.columns.size());
  legend(pages, card);
  return pages.finish();
}

std::string marking_card_text(MarkingCard const& card) {
  std::string out = paper::plain_heading(std::string(words::card) + ": " + card.title) + paper::plain_paragraph(how_to_use(card));
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
  if (!card.legend.empty()) out += "\n" + paper::plain_heading(words::legend, '-');
  for (CardLegend const& one : card.legend) {
    std::string lead = "  " + one.column + "  ";
    if (one.lines.empty()) out += paper::plain_paragraph(words::in_answers, lead, lead.size());
    std::size_t widest = 0;
    for (CardLegend::Line const& line : one.lines) widest = std::max(widest, line.letters.size());
    for (CardLegend::Line const& line : one.lines) {
      std::string const start = lead + line.letters + std::string(widest - line.letters.size() + 2, ' ');
      out += paper::plain_paragraph(line.meaning, start, start.size());
      lead = std::string(lead.size(), ' ');
    }
  }
  return out;
}

}  // namespace molewright
