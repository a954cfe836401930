#include "marker/table.h"

#include <algorithm>
#include <array>
#include <map>
#include <optional>
#include <utility>

#include "engine/ascii.h"

namespace molewright {
namespace {

constexpr std::size_t longest_cell = 64 * 1024;
constexpr std::size_t kept_of_a_long_cell = 2000;  ///< bytes: more than an answer can have, so that it is seen to be none
constexpr std::size_t longest_name = 1024;
// A wide file has a column a part; 500 is far beyond any paper. The bound keeps the work on a hostile file in step with its
// length.
constexpr std::size_t most_columns = 500;
constexpr std::string_view byte_order_mark = "\xEF\xBB\xBF";
constexpr std::string_view replacement = "\xEF\xBF\xBD";

// Blanks that a spreadsheet or a phone leaves round a cell: U+00A0, U+2009, U+202F, U+3000, and of no width U+200B, U+FEFF.
constexpr std::array<std::string_view, 10> blank_marks = {
    " ", "\t", "\n", "\r", "\xC2\xA0", "\xE2\x80\x89", "\xE2\x80\xAF", "\xE3\x80\x80", "\xE2\x80\x8B", "\xEF\xBB\xBF"};

bool is_break(char c) { return c == '\n' || c == '\r'; }

/// Where the line after the one that holds `at` begins; the text's size for the last.
std::size_t next_line(std::string_view text, std::size_t at) {
  auto const end = text.find_first_of("\r\n", at);
  if (end == std::string_view::npos) return text.size();
  return end + (text.substr(end, 2) == "\r\n" ? 2 : 1);
}

/// True for what a spreadsheet would work out instead of showing it.
bool would_be_run(std::string_view text) {
  auto const first = text.find_first_not_of(" \t\r\n");
  if (first == std::string_view::npos) return false;
  text.remove_prefix(first);
  if (text[0] == '=' || text[0] == '@') return true;
  if (text[0] != '+' && text[0] != '-') return false;
  if (text.size() == 1) return false;
  bool const number = is_digit(text[1]) || text[1] == '.' || text[1] == ',';
  return !number || text.find_first_of("=(!|@\"") != std::string_view::npos;
}

/// What stands after the apostrophes that begin a text.
std::string_view after_apostrophes(std::string_view text) {
  auto const first = text.find_first_not_of('\'');
  return first == std::string_view::npos ? std::string_view() : text.substr(first);
}

bool blank_row(Table::Row const& row) {
  return std::all_of(row.cells.begin(), row.cells.end(), [](std::string const& cell) { return trimmed(cell).empty(); });
}
}  // namespace

bool TableReader::ends_cell(std::size_t at) const { return at >= text_.size() || text_[at] == separator_ || is_break(text_[at]); }

std::size_t TableReader::past_blanks(std::size_t at) const {
  while (at < text_.size() && (text_[at] == ' ' || (text_[at] == '\t' && separator_ != '\t'))) ++at;
  return at;
}

/// The line that begins there, without its end.
std::string_view TableReader::line_at(std::size_t start) const {
  auto const end = text_.find_first_of("\r\n", start);
  return text_.substr(start, end == std::string_view::npos ? end : end - start);
}

void TableReader::take_break() {
  if (at_end() || !is_break(text_[here_.at])) return;
  here_.at = next_line(text_, here_.at);
  here_.start = here_.at;
  ++here_.line;
}

void TableReader::blame(Record& record, Spot spot, char const* id, std::string what, std::string expected) {
  if (record.fault) return;
  record.fault = Fault{id, std::move(what), std::move(expected), 0};
  record.fault_at = spot;
}

void TableReader::keep(Record& record, Spot began, std::string cell) {
  if (cell.size() > longest_cell) {
    blame(record, began, "cell-too-long", "a cell is longer than 64 kB", "");
    cell.resize(kept_of_a_long_cell);
  }
  if (!cell.empty() && cell[0] == '\'' && would_be_run(after_apostrophes(cell))) cell.erase(0, 1);
  record.row.cells.push_back(std::move(cell));
  record.row.lines.push_back(began.line);
  record.row.columns.push_back(column(line_at(began.start), began.at - began.start));
}

void TableReader::read_plain(Record& record) {
  Spot const began = here_;
  while (!ends_cell(here_.at)) ++here_.at;
  keep(record, began, std::string(text_.substr(began.at, here_.at - began.at)));
}

/// A cell whose first mark is the quotation mark at `quote`. False where it is no quoted cell after all.
bool TableReader::read_quoted(Record& record, std::size_t quote) {
  Spot const began = here_;
  Spot opened = began;
  opened.at = quote;
  std::string cell;
  bool spread = false;  // holds a separator or a line break, so that it cannot be read without its quotes
  Spot spot = here_;
  spot.at = quote + 1;
  while (spot.at < text_.size()) {
    char const c = text_[spot.at];
    if (c == '"') {
      if (spot.at + 1 < text_.size() && text_[spot.at + 1] == '"') {
        spot.at += 2;
        if (cell.size() <= longest_cell) cell += '"';
        continue;
      }
      std::size_t const after = past_blanks(spot.at + 1);
      if (ends_cell(after)) {
        here_ = spot;
        here_.at = after;
        keep(record, began, std::move(cell));
        return true;
      }
      if (!spread) return false;
      if (spot.line != opened.line) {  // the quotation mark that was met is the first of another cell
        blame(record, opened, "quote-not-closed", "a quotation mark is opened and not closed in its row",
              "a second quotation mark; the next one stands in line " + std::to_string(spot.line));
        return true;
      }
      blame(record, spot, "stray-quote", "text follows a closing quotation mark",
            "a separator; inside a quoted cell a quotation mark is written twice");
      return true;
    }
    spread = spread || c == separator_ || is_break(c);
    if (is_break(c)) {
      spot.at = next_line(text_, spot.at);
      spot.start = spot.at;
      ++spot.line;
    } else {
      ++spot.at;
    }
    if (cell.size() <= longest_cell) cell += is_break(c) ? '\n' : c;
  }
  blame(record, opened, "quote-not-closed", "a quotation mark is opened and never closed", "a second quotation mark");
  return true;
}

void TableReader::read_cell(Record& record) {
  std::size_t const first = past_blanks(here_.at);
  if (first < text_.size() && text_[first] == '"' && read_quoted(record, first)) return;
  read_plain(record);
}

/// Reads one row and the line break after it. After a fault in the quotes, reading goes on with the line after the row's first.
TableReader::Record TableReader::read_record() {
  Record record;
  record.began = here_;
  record.row.at = here_.at;
  record.row.line = here_.line;
  while (true) {
    read_cell(record);
    bool const lost = record.fault && (record.fault->id == "quote-not-closed" || record.fault->id == "stray-quote");
    if (lost || record.row.cells.size() > most_columns) {
      here_ = record.began;
      while (!at_end() && !is_break(text_[here_.at])) ++here_.at;
      break;
    }
    if (at_end() || is_break(text_[here_.at])) break;
    ++here_.at;  // the separator
  }
  take_break();
  return record;
}

void TableReader::add_fault(Fault fault, Spot spot) {
  auto const line = line_at(spot.start);
  fault.offset = spot.at;
  faults_.push_back({std::move(fault), spot.line, column(line, spot.at - spot.start), valid_utf8(line)});
}

/// Names the first byte of a row that is no text.
bool TableReader::check_bytes(Record const& record) {
  auto const region = text_.substr(record.began.at, here_.at - record.began.at);
  auto const bad = first_invalid_utf8(region);
  if (bad == std::string_view::npos) return true;
  Spot spot = record.began;
  std::size_t const target = record.began.at + bad;
  while (true) {  // the line on which it stands
    auto const next = next_line(text_, spot.start);
    if (next > target || next >= text_.size()) break;
    spot.start = next;
    ++spot.line;
  }
  spot.at = target;
  if (region[bad] == '\0')
    add_fault(Fault{"nul-byte", "a NUL byte, which is no text", "text in UTF-8", 0}, spot);
  else
    add_fault(Fault{"invalid-utf8", "a byte that is not UTF-8", "text in UTF-8 (save the file as CSV UTF-8)", 0}, spot);
  return false;
}

/// `sep=;` as a first line is a spreadsheet's way to name the separator.
void TableReader::take_separator_line() {
  auto const line = text_.substr(here_.at, 5);
  if (line.size() < 5 || lowered(line.substr(0, 4)) != "sep=" || std::string_view(",;\t").find(line[4]) == std::string_view::npos)
    return;
  if (here_.at + 5 < text_.size() && !is_break(text_[here_.at + 5])) return;
  separator_ = line[4];
  here_.at += 5;
  take_break();
}

/// The mark that stands most often in the header outside quotes; a comma where none does.
void TableReader::find_separator() {
  std::array<std::pair<char, int>, 3> counts = {{{',', 0}, {';', 0}, {'\t', 0}}};
  bool quoted = false;
  for (std::size_t i = here_.at; i < text_.size() && (quoted || !is_break(text_[i])); ++i) {
    if (text_[i] == '"') quoted = !quoted;
    for (auto& [mark, count] : counts)
      if (!quoted && text_[i] == mark) ++count;
  }
  auto const most =
      std::max_element(counts.begin(), counts.end(), [](auto const& a, auto const& b) { return a.second < b.second; });
  separator_ = most->first;
}

void TableReader::read_header() {
  // What .xlsx and .ods begin with (a ZIP archive), and the older .xls (a compound file); from memory.
  if (text_.substr(0, 4) == "PK\x03\x04" || text_.substr(0, 4) == "\xD0\xCF\x11\xE0") {
    here_.at = text_.size();
    return add_fault(Fault{"is-a-workbook", "this is a workbook, not a table of text", "the sheet saved as CSV (UTF-8)", 0},
                     Spot{});
  }
  if (text_.substr(0, 2) == "\xFF\xFE" || text_.substr(0, 2) == "\xFE\xFF")
    return add_fault(Fault{"invalid-utf8", "the file is UTF-16", "text in UTF-8 (save the file as CSV UTF-8)", 0}, here_);
  if (text_.substr(0, byte_order_mark.size()) == byte_order_mark) here_.at = here_.start = byte_order_mark.size();
  take_separator_line();
  bool const named = here_.line > 1;
  Record record;
  do {
    if (at_end())
      return add_fault(Fault{"empty-file", "nothing is in the file", "a first row with the names of the columns", 0}, here_);
    if (!named) find_separator();
    record = read_record();
  } while (blank_row(record.row) && !record.fault && check_bytes(record));
  if (!faults_.empty()) return;
  if (record.row.cells.size() > most_columns) blame(record, record.began, "too-many-columns", "more than 500 columns", "");
  if (record.fault) return add_fault(*record.fault, record.fault_at);
  if (!check_bytes(record)) return;

  Table head;
  head.separator = separator_;
  head.header_at = record.row.at;
  head.header_line = record.row.line;
  while (trimmed(record.row.cells.back()).empty()) record.row.cells.pop_back();  // a spreadsheet's empty columns
  std::vector<PlacedFault> twice;
  std::map<std::string, std::size_t> seen;
  for (std::size_t i = 0; i < record.row.cells.size(); ++i) {
    std::string const name(trimmed(record.row.cells[i]));
    if (name.size() > longest_name) {
      faults_ = std::move(twice);
      return add_fault(Fault{"cell-too-long", "the name of a column is longer than 1 kB", "", 0}, record.began);
    }
    head.header.push_back(name);
    head.header_columns.push_back(record.row.columns[i]);
    auto const [first, fresh] = seen.insert({lowered(name), i});
    if (name.empty() || fresh) continue;
    Fault fault{"column-twice", "the column \"" + name + "\" stands twice", "each name once; the first is read", 0};
    twice.push_back(in_cell(record.row, i, std::move(fault)));
  }
  faults_ = std::move(twice);
  head_ = std::move(head);
}

/// Makes a row as wide as the header. False, and told, where something is wrong with it.
bool TableReader::fit(Record& record) {
  Table::Row& row = record.row;
  std::size_t const width = head_.header.size();
  if (record.fault) {
    add_fault(*record.fault, record.fault_at);
    if (record.fault->id != "cell-too-long") return false;
  }
  if (!check_bytes(record))
    for (auto& cell : row.cells) cell = valid_utf8(cell);
  if (blank_row(row)) return false;
  for (std::size_t i = width; i < row.cells.size(); ++i) {
    if (trimmed(row.cells[i]).empty()) continue;
    Fault fault{"too-many-cells",
                "the row has " + std::to_string(row.cells.size()) + " cells and the header " + std::to_string(width),
                std::string("a cell that holds ") +
                    (separator_ == ','   ? "a comma"
                     : separator_ == ';' ? "a semicolon"
                                         : "a tab") +
                    " to stand in quotation marks",
                0};
    // The line is found again from the start of the row: a quoted line break may stand before the cell.
    Spot spot = record.began;
    while (spot.line < row.lines[i]) {
      spot.start = next_line(text_, spot.start);
      ++spot.line;
    }
    spot.at = spot.start;
    add_fault(std::move(fault), spot);
    faults_.back().column = row.columns[i];
    return false;
  }
  std::size_t const given = row.cells.size();
  row.cells.resize(width);
  row.lines.resize(width, row.lines[given - 1]);
  row.columns.resize(width, row.columns[given - 1]);
  return true;
}

TableReader::TableReader(std::string_view text) : text_(text) { read_header(); }

bool TableReader::next(Table::Row& row) {
  while (!head_.header.empty() && !at_end()) {
    auto record = read_record();
    if (!fit(record)) {
      if (!blank_row(record.row)) left_out_.push_back(std::move(record.row.cells));
      continue;
    }
    row = std::move(record.row);
    return true;
  }
  return false;
}

Table::Row TableReader::row_at(std::size_t at, std::size_t line) {
  Spot const before = here_;
  here_ = {line, at, at};
  auto record = read_record();
  fit(record);
  here_ = before;
  return std::move(record.row);
}

PlacedFault TableReader::in_cell(Table::Row const& row, std::size_t column, Fault fault) const {
  std::size_t start = row.at;
  for (std::size_t line = row.line; line < row.lines[column]; ++line) start = next_line(text_, start);
  return {std::move(fault), row.lines[column], row.columns[column], valid_utf8(line_at(start))};
}

PlacedFault TableReader::in_header(std::size_t column, Fault fault) const {
  return {std::move(fault), head_.header_line, head_.header_columns[column], valid_utf8(line_at(head_.header_at))};
}

TableRead read_table(std::string_view text) {
  TableReader reader(text);
  TableRead out{reader.head(), {}};
  Table::Row row;
  while (reader.next(row)) out.table.rows.push_back(std::move(row));
  out.faults = reader.take_faults();
  return out;
}

std::string neutral_cell(std::string_view text) {
  std::string cell(text);
  if (would_be_run(after_apostrophes(text))) cell.insert(0, 1, '\'');
  return cell;
}

std::string csv_cell(std::string_view text, char separator) {
  std::string const cell = neutral_cell(text);
  bool const blank_at_an_end =
      !cell.empty() && (cell.front() == ' ' || cell.back() == ' ' || cell.front() == '\t' || cell.back() == '\t');
  if (cell.find_first_of("\"\r\n") == std::string::npos && cell.find(separator) == std::string::npos && !blank_at_an_end)
    return cell;
  std::string quoted = "\"";
  for (char const c : cell) {
    if (c == '"') quoted += '"';
    quoted += c;
  }
  return quoted + '"';
}

std::string_view trimmed(std::string_view text) {
  auto const stands = [](char c) { return c > ' ' && c < 0x7F; };
  if (!text.empty() && stands(text.front()) && stands(text.back())) return text;
  bool more = true;
  while (more) {
    more = false;
    for (auto const mark : blank_marks) {
      if (text.substr(0, mark.size()) == mark) {
        text.remove_prefix(mark.size());
        more = true;
      }
      if (text.size() >= mark.size() && text.substr(text.size() - mark.size()) == mark) {
        text.remove_suffix(mark.size());
        more = true;
      }
    }
  }
  return text;
}

bool holds_broken_bytes(std::string_view text) { return text.find("\uFFFD") != std::string_view::npos; }

std::string valid_utf8(std::string_view text) {
  std::string result;
  while (true) {
    auto const bad = first_invalid_utf8(text);
    if (bad == std::string_view::npos) return result.append(text);
    result.append(text.substr(0, bad)).append(replacement);
    text.remove_prefix(bad + 1);
  }
}

}  // namespace molewright
