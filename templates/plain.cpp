#include "templates/plain.h"

#include <algorithm>

#include "templates/wrap.h"

namespace molewright::paper {
namespace {

std::size_t width_of(std::string_view text) { return static_cast<std::size_t>(columns(text)); }

std::string padded(std::string const& text, std::size_t width, bool to_the_right) {
  std::size_t const have = width_of(text);
  std::string const blanks(width > have ? width - have : 0, ' ');
  return to_the_right ? blanks + text : text + blanks;
}

/// No-break blanks have done their work once lines are broken: terminals and searches want plain ones.
std::string ordinary_blanks(std::string text) {
  for (std::string_view const blank : {"\u00A0", "\u202F"}) {
    for (std::size_t at = text.find(blank); at != std::string::npos; at = text.find(blank, at))
      text.replace(at, blank.size(), " ");
  }
  return text;
}

void end_line(std::string& out) {
  while (!out.empty() && out.back() == ' ') out.pop_back();
  out += '\n';
}

/// One band of a table: the columns `which`, each of its `widths`.
void put_row(std::string& out, std::vector<std::string> const& cells, std::vector<std::size_t> const& which,
             std::vector<std::size_t> const& widths, std::vector<bool> const& to_the_right) {
  std::vector<std::vector<std::string>> lines;
  std::size_t most = 1;
  for (std::size_t k = 0; k < which.size(); ++k) {
    std::string const cell = which[k] < cells.size() ? cells[which[k]] : std::string();
    lines.push_back(wrap(cell, {static_cast<double>(widths[k]), 0}, columns));
    most = std::max(most, lines.back().size());
  }
  for (std::size_t i = 0; i < most; ++i) {
    for (std::size_t k = 0; k < which.size(); ++k) {
      out += padded(i < lines[k].size() ? ordinary_blanks(lines[k][i]) : std::string(), widths[k], to_the_right[which[k]]);
      if (k + 1 < which.size()) out += "  ";
    }
    end_line(out);
  }
}

}  // namespace

std::string plain_paragraph(std::string_view text, std::string_view lead, std::size_t hanging) {
  // The lead takes room of its own: all lines are wrapped to the narrower of the two widths.
  std::size_t const taken = std::max(width_of(lead), hanging);
  std::string out;
  bool first = true;
  for (std::string const& line : wrap(text, {static_cast<double>(plain_width - std::min(taken, plain_width - 10)), 0}, columns)) {
    out += first ? std::string(lead) : std::string(hanging, ' ');
    out += ordinary_blanks(line);
    end_line(out);
    first = false;
  }
  return out;
}

std::string plain_heading(std::string_view text, char sign) {
  std::string out;
  std::size_t longest = 0;
  for (std::string const& line : wrap(text, {static_cast<double>(plain_width), 0}, columns)) {
    out += line + "\n";
    longest = std::max(longest, width_of(line));
  }
  return ordinary_blanks(out) + std::string(longest, sign) + "\n";
}

std::string plain_sides(std::string_view left, std::string_view right) {
  std::size_t const used = width_of(left) + width_of(right);
  if (used + 2 > plain_width) return plain_paragraph(left) + plain_paragraph(right);
  return ordinary_blanks(std::string(left) + std::string(plain_width - used, ' ') + std::string(right)) + "\n";
}

std::string plain_table(std::vector<std::string> const& head, std::vector<std::vector<std::string>> const& rows,
                        std::vector<std::size_t> const& to_the_right) {
  if (head.empty()) return {};
  std::vector<bool> right(head.size(), false);
  for (std::size_t const c : to_the_right) {
    if (c < right.size()) right[c] = true;
  }
  constexpr std::size_t narrowest = 12;  // a column that must wrap keeps at least this
  std::vector<std::size_t> natural(head.size()), least(head.size());
  for (std::size_t c = 0; c < head.size(); ++c) {
    natural[c] = width_of(head[c]);
    for (auto const& row : rows) {
      if (c < row.size()) natural[c] = std::max(natural[c], width_of(row[c]));
    }
    least[c] = std::min(natural[c], narrowest);
  }

  std::string out;
  std::size_t next = 1;
  do {
    std::vector<std::size_t> which{0};
    std::size_t const first_width = std::min<std::size_t>(natural[0], 24);
    std::size_t sum = head.size() == 1 ? natural[0] : std::min(least[0], first_width);
    for (; next < head.size() && (which.size() == 1 || sum + 2 + least[next] <= plain_width); ++next) {
      which.push_back(next);
      sum += 2 + least[next];
    }
    // Hand out what is left, a column at a time, to the ones that still want it.
    std::vector<std::size_t> widths;
    for (std::size_t const c : which) widths.push_back(least[c]);
    std::size_t used = 2 * (which.size() - 1);
    for (std::size_t const w : widths) used += w;
    bool wanting = true;
    while (used < plain_width && wanting) {
      wanting = false;
      for (std::size_t k = 0; k < which.size() && used < plain_width; ++k) {
        if (widths[k] >= natural[which[k]]) continue;
        ++widths[k];
        ++used;
        wanting = true;
      }
    }
    if (!out.empty()) out += "\n";
    put_row(out, head, which, widths, right);
    for (std::size_t k = 0; k < widths.size(); ++k) out += std::string(widths[k], '-') + (k + 1 < widths.size() ? "  " : "\n");
    for (auto const& row : rows) put_row(out, row, which, widths, right);
  } while (next < head.size());
  return out;
}

}  // namespace molewright::paper
