#include "templates/report.h"

#include <algorithm>
#include <utility>

#include "templates/grid.h"
#include "templates/plain.h"
#include "templates/score.h"

namespace molewright {
namespace {

using paper::Align;
using paper::Face;
using paper::Grid;
using paper::GridColumn;
using paper::Pages;
using paper::Style;

namespace words {
constexpr char const* report = "Class report";
constexpr char const* marks = "Marks";
constexpr char const* slips = "Where the working went wrong";
constexpr char const* parts = "How hard each part was";
constexpr char const* distribution = "How the marks are spread";
constexpr char const* axis_in_shares = "% of the student’s own paper; the number on a bar is how many students have so many";
constexpr char const* axis = "marks; the number on a bar is how many students have so many";
constexpr char const* commonest = "The commonest slips";
constexpr char const* faults = "Rows that could not be marked";
constexpr char const* student = "Student";
constexpr char const* total = "Total";
constexpr char const* not_read = "Answers that could not be read: look at them and give their marks by hand";
constexpr char const* ticked = "A tick beside an answer: the answer was marked, not the tick";
constexpr char const* one_not_whole =
    " student has answers that are still to be read by hand, and is left out of this until then.";
constexpr char const* more_not_whole =
    " students have answers that are still to be read by hand, and are left out of this until then.";
constexpr char const* misplaced = " not marked: row out of place or not usable";
constexpr char const* no_slips = "No slip was found with enough certainty to be named.";
}  // namespace words

constexpr Style body{Face::serif, 9.5, 0};
constexpr Style head{Face::bold, 9, 0};
constexpr Style small{Face::serif, 8.5, 0.25};

/// Papers of different length: only shares of the marks can be compared.
bool in_shares(ClassReport const& report) { return report.least_out_of != 0 && report.least_out_of != report.out_of; }

std::string present_line(ClassReport const& report) {
  std::string line = std::to_string(report.present) + " present, " + std::to_string(report.absent) + " absent" +
                     (report.misplaced > 0 ? ", " + std::to_string(report.misplaced) + words::misplaced : "") + "; out of " +
                     (in_shares(report) ? std::to_string(report.least_out_of) + " to " : "") +
                     paper::counted_marks(report.out_of) + ".";
  if (!report.summary.empty()) line += " " + report.summary;
  if (report.not_whole > 0)
    line += " " + std::to_string(report.not_whole) + (report.not_whole == 1 ? words::one_not_whole : words::more_not_whole);
  return line;
}

std::string joined(std::vector<std::string> const& names) {
  std::string line;
  for (std::string const& name : names) line += (line.empty() ? "" : "; ") + name;  // a name may hold a comma
  return line;
}

std::string cell_text(ReportCell const& cell) { return cell.sign.empty() ? cell.marks : cell.marks + " " + cell.sign; }

/// A heading never stands alone at the foot of a page: `below` points of what follows it are to have room there.
void heading(Pages& pages, char const* text, double below = 70) {
  pages.skip(12);
  if (pages.room() < below + 20) pages.new_page();
  pages.flow(pages.paragraph(pages.left(), pages.width(), text, {Face::bold, 11.5, 0}));
  pages.flow({paper::gap(3)});
}

void marks_grid(Pages& pages, ClassReport const& report) {
  heading(pages, words::marks);
  if (!report.names_elsewhere.empty())
    return pages.flow(pages.paragraph(pages.left(), pages.width(), report.names_elsewhere, body));
  double const total_width = std::max(44.0, [&] {
    double w = 0;
    for (ReportRow const& row : report.rows) w = std::max(w, paper::text_width(row.total, Face::bold, body.size));
    return w + 9;
  }());
  double name_width = 60, cell_width = 30;
  for (ReportRow const& row : report.rows) {
    name_width = std::max(name_width, paper::text_width(row.student, body.face, body.size) + 9);
    for (ReportCell const& cell : row.cells)
      cell_width = std::max(cell_width, paper::text_width(cell_text(cell), body.face, body.size) + 9);
  }
  for (std::string const& column : report.columns)
    cell_width = std::max(cell_width, paper::text_width(column, head.face, head.size) + 9);
  name_width = std::min(name_width, 150.0);
  auto const fits = std::max<std::size_t>(1, static_cast<std::size_t>((pages.width() - name_width - total_width) / cell_width));
  if (fits >= report.columns.size() && !report.columns.empty()) {  // all in one grid: as wide as the page, within reason
    double const spare = pages.width() - name_width - total_width - cell_width * static_cast<double>(report.columns.size());
    cell_width += std::min(24.0, spare / static_cast<double>(report.columns.size()));
  }
  std::size_t from = 0;
  do {
    std::size_t const to = std::min(report.columns.size(), from + fits);
    bool const last = to == report.columns.size();
    std::vector<GridColumn> columns{{words::student, name_width, Align::left}};
    for (std::size_t c = from; c < to; ++c) columns.push_back({report.columns[c], cell_width, Align::left});
    if (last) columns.push_back({words::total, total_width, Align::right});
    Grid grid(columns, head);
    for (ReportRow const& row : report.rows) {
      std::vector<paper::GridCell> cells{{{row.student, body}}};
      for (std::size_t c = from; c < to; ++c) {
        paper::GridCell cell;
        if (row.no_marks) {
          cell.push_back({"", body});
        } else if (c < row.cells.size()) {
          cell.push_back({cell_text(row.cells[c]), body});
        }
        cells.push_back(std::move(cell));
      }
      if (last) cells.push_back({{row.total, {row.no_marks ? Face::serif : Face::bold, body.size, 0}}});
      grid.add(std::move(cells));
    }
    grid.draw(pages, pages.left());
    pages.skip(6);
    from = to;
  } while (from < report.columns.size());
  std::string signs;
  for (std::string const& sign : report.signs) signs += (signs.empty() ? "" : "; ") + sign;
  if (!signs.empty()) pages.flow(pages.paragraph(pages.left(), pages.width(), signs + ".", small), true);
}

void distribution_chart(Pages& pages, ClassReport const& report) {
  if (report.distribution.empty()) return;
  heading(pages, words::distribution, 125);
  pages.flow({paper::standing_bars(pages, report.distribution, 80, in_shares(report) ? words::axis_in_shares : words::axis)});
}

/// The first ten, each with how many made it; all of them, and who, stand in the list below.
void slips_chart(Pages& pages, ClassReport const& report) {
  constexpr std::size_t most = 10;
  if (report.slips.empty()) return;
  std::vector<paper::Bar> bars;
  for (ReportSlip const& slip : report.slips) {
    if (bars.size() == most) break;
    bars.push_back({slip.tag + "  " + slip.meaning, static_cast<int>(slip.count())});
  }
  auto const rows = paper::lying_bars(pages, bars, 210);
  heading(pages, words::commonest, paper::height_of(rows) + 30);
  pages.flow(rows, true);
}

void slips_list(Pages& pages, ClassReport const& report) {
  heading(pages, words::slips);
  if (report.slips.empty()) {
    pages.flow(pages.paragraph(pages.left(), pages.width(), words::no_slips, body));
    return;
  }
  Grid grid({{"", 30, Align::left},
             {"Slip", (pages.width() - 98) * 0.47, Align::left},
             {"Made by", 68, Align::left},
             {"", (pages.width() - 98) * 0.53, Align::left}},
            head);
  for (ReportSlip const& slip : report.slips) {
    grid.add({{{slip.tag, {Face::bold, body.size, 0}}},
              {{slip.meaning, body}},
              {{std::to_string(slip.count()), body}},
              {{joined(slip.students), body}}});
  }
  grid.draw(pages, pages.left());
}

bool has_discrimination(ClassReport const& report) {
  return std::any_of(report.parts.begin(), report.parts.end(),
                     [](ReportPart const& part) { return !part.discrimination.empty(); });
}

void parts_list(Pages& pages, ClassReport const& report) {
  heading(pages, words::parts);
  double const narrow = 28, number = 43, share_width = 128;
  bool const discriminates = has_discrimination(report);
  double const last = discriminates ? 86 : 0;
  double const kind = pages.width() - 34 - 3 * narrow - 2 * number - share_width - last;
  std::vector<GridColumn> columns{{"Part", 34, Align::left},       {"Kind", kind, Align::left},
                                  {"✓", narrow, Align::right},     {"→", narrow, Align::right},
                                  {"wrong", number, Align::right}, {"blank", number, Align::right},
                                  {"?", narrow, Align::right},     {"share of marks", share_width, Align::left}};
  if (discriminates) columns.push_back({"discrimination", last, Align::right});
  Grid grid(columns, head);
  for (ReportPart const& part : report.parts) {
    paper::GridCell share{{paper::share_bar(part.facility), body}};
    if (!part.flag.empty()) share.push_back({part.flag, {Face::bold, 8.5, 0}});
    auto const count = [](int n) { return paper::GridCell{{n == 0 ? "–" : std::to_string(n), body}}; };
    grid.add({{{part.column, {Face::bold, body.size, 0}}},
              {{part.kind, body}},
              count(part.right),
              count(part.follow_through),
              count(part.wrong),
              count(part.blank),
              count(part.unreadable),
              std::move(share),
              {{part.discrimination.empty() ? "–" : part.discrimination, body}}});
  }
  grid.draw(pages, pages.left());
  if (report.about_discrimination.empty()) return;
  pages.skip(4);
  pages.flow(pages.paragraph(pages.left(), pages.width(), report.about_discrimination, small));
}

/// What the teacher is to look at, beneath all the rest.
std::vector<std::pair<char const*, std::vector<std::string> const*>> lists_at_end(ClassReport const& report) {
  return {{words::not_read, &report.not_read}, {words::ticked, &report.ticked}, {words::faults, &report.faults}};
}

/// The grid of marks in plain text.
std::string marks_text(ClassReport const& report) {
  std::vector<std::string> names{words::student};
  for (std::string const& column : report.columns) names.push_back(column);
  names.push_back(words::total);
  std::vector<std::vector<std::string>> rows;
  for (ReportRow const& row : report.rows) {
    std::vector<std::string> cells{row.student};
    for (std::size_t c = 0; c < report.columns.size(); ++c)
      cells.push_back(row.no_marks || c >= row.cells.size() ? "" : cell_text(row.cells[c]));
    cells.push_back(row.total);
    rows.push_back(std::move(cells));
  }
  auto out = paper::plain_table(names, rows, {names.size() - 1});
  for (std::string const& sign : report.signs) out += paper::plain_paragraph(sign, "  ", 4);
  return out;
}
}  // namespace

std::string report_pdf(ClassReport const& report, PageSize size) {
  Pages pages({size, false, 48, 8}, std::string(words::report) + ": " + report.title);
  pages.section(report.title, "", std::string(words::report) + " · " + report.title);
  pages.flow(pages.paragraph(pages.left(), pages.width(), words::report, {Face::serif, 10, 0.3}));
  pages.flow(pages.paragraph(pages.left(), pages.width(), report.title, {Face::bold, 15, 0}));
  pages.flow({{6, [&pages](double y) { pages.rule(pages.left(), y + 3, pages.right(), y + 3, 1, 0); }}});
  pages.flow(pages.paragraph(pages.left(), pages.width(), present_line(report), body));
  marks_grid(pages, report);
  distribution_chart(pages, report);
  slips_chart(pages, report);
  slips_list(pages, report);
  parts_list(pages, report);
  for (auto const& [title, lines] : lists_at_end(report)) {
    if (lines->empty()) continue;
    heading(pages, title);
    for (std::string const& line : *lines) pages.flow(pages.paragraph(pages.left(), pages.width(), "· " + line, body, 8), true);
  }
  return pages.finish();
}

std::string report_text(ClassReport const& report) {
  std::string out =
      paper::plain_heading(std::string(words::report) + ": " + report.title) + paper::plain_paragraph(present_line(report));

  out += "\n" + paper::plain_heading(words::marks, '-');
  out += report.names_elsewhere.empty() ? marks_text(report) : paper::plain_paragraph(report.names_elsewhere);

  if (!report.distribution.empty()) out += "\n" + paper::plain_heading(words::distribution, '-');
  for (paper::Bar const& bar : report.distribution)
    if (bar.count > 0)
      out += paper::plain_paragraph(bar.label +
                                    (in_shares(report)  ? " %: "
                                     : bar.label == "1" ? " mark: "
                                                        : " marks: ") +
                                    std::to_string(bar.count) + (bar.count == 1 ? " student" : " students"));

  out += "\n" + paper::plain_heading(words::slips, '-');
  if (report.slips.empty()) out += paper::plain_paragraph(words::no_slips);
  for (ReportSlip const& slip : report.slips) {
    std::string const start = slip.tag + std::string(slip.tag.size() < 4 ? 5 - slip.tag.size() : 1, ' ');
    auto const who = joined(slip.students);
    out += paper::plain_paragraph(slip.meaning + " (" + std::to_string(slip.count()) + ")" + (who.empty() ? "" : ": " + who),
                                  start, start.size());
  }

  out += "\n" + paper::plain_heading(words::parts, '-');
  std::vector<std::vector<std::string>> parts;
  for (ReportPart const& part : report.parts) {
    parts.push_back({part.column, part.kind, std::to_string(part.right), std::to_string(part.follow_through),
                     std::to_string(part.wrong), std::to_string(part.blank), std::to_string(part.unreadable),
                     paper::percent(part.facility)});
    if (has_discrimination(report)) parts.back().push_back(part.discrimination.empty() ? "–" : part.discrimination);
    parts.back().push_back(part.flag);
  }
  std::vector<std::string> part_names{"Part", "Kind", "✓", "→", "wrong", "blank", "?", "marks"};
  if (has_discrimination(report)) part_names.push_back("discr.");
  bool const flags =
      std::any_of(report.parts.begin(), report.parts.end(), [](ReportPart const& part) { return !part.flag.empty(); });
  if (flags) part_names.push_back("Note");
  out += paper::plain_table(part_names, parts, {2, 3, 4, 5, 6, 7});
  if (!report.about_discrimination.empty()) out += paper::plain_paragraph(report.about_discrimination);

  for (auto const& [title, lines] : lists_at_end(report)) {
    if (lines->empty()) continue;
    out += "\n" + paper::plain_heading(title, '-');
    for (std::string const& line : *lines) out += paper::plain_paragraph(line, "* ", 2);
  }
  return out;
}

}  // namespace molewright
