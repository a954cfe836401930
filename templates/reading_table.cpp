#include "templates/reading_table.h"

#include <algorithm>

#include "engine/ascii.h"
#include "engine/tsv.h"
#include "templates/wrap.h"

namespace molewright {
namespace {

namespace words {
constexpr char const* to_write_in = "______";
}

std::string in_small(std::string text) {
  if (!text.empty() && text[0] >= 'A' && text[0] <= 'Z') text[0] = static_cast<char>(text[0] - 'A' + 'a');
  return text;
}

/// "Final reading, mL" with its value: "final reading 24.65 mL".
std::string told(std::string label, std::string const& cell, bool within_a_line) {
  auto const comma = label.rfind(", ");
  std::string const unit = comma == std::string::npos ? "" : "\u00A0" + label.substr(comma + 2);
  label = label.substr(0, comma);
  if (within_a_line) label = in_small(std::move(label));
  return label + (within_a_line ? " " : ": ") + (cell.empty() ? words::to_write_in : cell) + unit;
}

/// "Titration 2", "Rough titration".
std::string headed(std::string what, std::string head) {
  if (head.empty() || (head[0] >= '0' && head[0] <= '9')) return what + " " + head;
  what = in_small(std::move(what));
  return capitalized(std::move(head)) + " " + what;
}

std::string told(TableCells const& table) {
  std::string out;
  std::size_t const columns = table.front().size();
  if (columns <= 2) {
    for (auto const& row : table)
      out += (out.empty() ? "" : "\n") + told(row.front(), row.size() > 1 ? row[1] : std::string(), false);
    return out;
  }
  for (std::size_t c = 1; c < columns; ++c) {
    out += (c == 1 ? "" : "\n") + headed(table[0][0], table[0][c]) + ":";
    for (std::size_t r = 1; r < table.size(); ++r)
      out += (r == 1 ? " " : "; ") + told(table[r][0], c < table[r].size() ? table[r][c] : std::string(), true);
  }
  return out;
}
}  // namespace

std::vector<WordingPiece> pieces_of(std::string_view text) {
  std::vector<WordingPiece> pieces;
  for (auto const line : split_cells(text, '\n')) {
    if (line.find('\t') == std::string_view::npos) {
      pieces.push_back({std::string(line), {}});
      continue;
    }
    auto const views = split_cells(line);
    std::vector<std::string> cells(views.begin(), views.end());
    // A head of as many columns goes on; another number of them begins another table.
    bool const goes_on = !pieces.empty() && !pieces.back().table.empty() && pieces.back().table.front().size() == cells.size();
    if (!goes_on) pieces.emplace_back();
    pieces.back().table.push_back(std::move(cells));
  }
  return pieces;
}

std::string with_told_tables(std::string_view text) {
  std::string out;
  bool first = true;
  for (auto const& piece : pieces_of(text)) {
    out += (first ? "" : "\n") + (piece.table.empty() ? piece.paragraph : told(piece.table));
    first = false;
  }
  return out;
}

std::string without_tables(std::string_view text) {
  std::string out;
  for (auto const& piece : pieces_of(text))
    if (piece.table.empty()) out += (out.empty() ? "" : " ") + piece.paragraph;
  return out;
}

std::vector<paper::Row> ruled_table(paper::Pages& pages, double x, double width, TableCells const& cells,
                                    paper::Style const& body, paper::Style const& head) {
  double const pad = body.size * 0.35;
  std::size_t const columns = std::max<std::size_t>(2, cells.front().size());
  double label = 0, reading = 0;
  for (auto const& row : cells) {
    label = std::max(label, paper::text_width(row[0], head.face, head.size) + 2 * pad);
    for (std::size_t c = 1; c < row.size(); ++c)
      reading = std::max(reading, paper::text_width(row[c], body.face, body.size) + 2 * pad);
  }
  // Room to write in where there is some; where the page is too narrow, it is the labels that wrap.
  auto const readings = static_cast<double>(columns - 1);
  reading = std::max(reading, std::min(body.size * 4.4, (width - label) / readings));
  label = std::min(label, std::max(width / 5, width - reading * readings));
  std::vector<double> edges{x, x + label};
  for (std::size_t c = 1; c < columns; ++c) edges.push_back(edges.back() + reading);

  std::vector<paper::Row> rows{paper::gap(body.size * 0.3)};
  for (std::size_t r = 0; r < cells.size(); ++r) {
    bool const heads = r == 0 && columns > 2;
    bool const to_fill = std::any_of(cells[r].begin() + 1, cells[r].end(), [](std::string const& cell) { return cell.empty(); });
    auto const lines = paper::wrap(cells[r][0], {label - 2 * pad, 0}, measure_in(head));
    double const leading = body.leading();
    double const height = leading * static_cast<double>(lines.size()) + pad + (to_fill ? leading * 0.6 : 0);
    rows.push_back(
        {height, [&pages, row = cells[r], lines, edges, body, head, pad, height, heads, leading, first = r == 0](double y) {
           double const middle = y + height / 2 + body.size * 0.36;
           double base = middle - leading * static_cast<double>(lines.size() - 1) / 2;
           for (auto const& line : lines) {
             pages.text(edges[0] + pad, base, line, head);
             base += leading;
           }
           for (std::size_t c = 1; c < row.size(); ++c)
             pages.text((edges[c] + edges[c + 1]) / 2, middle, row[c], heads ? head : body, paper::Align::centre);
           if (first) pages.rule(edges.front(), y, edges.back(), y, 0.7);
           pages.rule(edges.front(), y + height, edges.back(), y + height, heads ? 0.7 : 0.4);
           for (double const edge : edges) pages.rule(edge, y, edge, y + height, 0.4);
         }});
  }
  rows.push_back(paper::gap(body.size * 0.5));
  return rows;
}

}  // namespace molewright
