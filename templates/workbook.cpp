#include "templates/workbook.h"

#include <unistd.h>
#include <xlsxwriter.h>

#include <algorithm>
#include <cstdio>
#include <filesystem>
#include <fstream>
#include <map>
#include <utility>

#include "marker/table.h"

namespace molewright::book {
namespace {

/// The library writes files only, so that the bytes pass through one; it is gone with this.
class PassingFile {
 public:
  PassingFile() : path_((std::filesystem::temp_directory_path() / "molewright-book-XXXXXX").string()) {
    int const descriptor = mkstemp(path_.data());  // readable by nobody else
    made_ = descriptor >= 0;
    if (made_) close(descriptor);
  }
  ~PassingFile() {
    if (made_) std::remove(path_.c_str());
  }
  PassingFile(PassingFile const&) = delete;
  PassingFile& operator=(PassingFile const&) = delete;
  bool made() const { return made_; }
  char const* path() const { return path_.c_str(); }
  void hand_on(std::function<void(std::string_view)> const& take) const {
    std::ifstream in(path_, std::ios::binary);
    std::vector<char> piece(std::size_t{1} << 16U);
    while (in.read(piece.data(), static_cast<std::streamsize>(piece.size())) || in.gcount() > 0)
      take({piece.data(), static_cast<std::size_t>(in.gcount())});
  }

 private:
  std::string path_;
  bool made_ = false;
};

constexpr std::size_t longest_text = 8000;  // code units of UTF-8; a cell takes 32767 characters

/// What one cell can hold.
std::string fitting(std::string const& text) {
  if (text.size() <= longest_text) return text;
  std::size_t end = longest_text;
  while (end > 0 && (static_cast<unsigned char>(text[end]) & 0xC0U) == 0x80U) --end;
  return text.substr(0, end) + "…";
}

class Writer {
 public:
  Writer(std::string const& title, char const* path, bool large) {
    lxw_workbook_options options{};
    options.constant_memory = large ? LXW_TRUE : LXW_FALSE;
    book_ = workbook_new_opt(path, &options);
    lxw_doc_properties properties{};
    std::string shown = fitting(valid_utf8(title));
    properties.title = shown.data();
    properties.created = 946684800;  // 2000-01-01: the same sheets give the same bytes
    workbook_set_properties(book_, &properties);
  }
  void add(Sheet const& sheet) {
    auto* const page = workbook_add_worksheet(book_, sheet.name.c_str());
    for (std::size_t c = 0; c < sheet.widths.size(); ++c)
      worksheet_set_column(page, column(c), column(c), sheet.widths[c], sheet.takes_text ? format(Look::plain, true) : nullptr);
    auto const put_row = [&](std::size_t r, std::vector<Cell> const& cells) {
      for (std::size_t c = 0; c < cells.size(); ++c) put(page, row(r), column(c), cells[c], sheet.takes_text);
    };
    for (std::size_t r = 0; r < sheet.rows.size(); ++r) put_row(r, sheet.rows[r]);
    for (std::size_t nth = 0; nth < sheet.more_rows; ++nth) put_row(sheet.rows.size() + nth, sheet.make_row(nth));
    worksheet_freeze_panes(page, row(sheet.frozen_rows), column(sheet.frozen_columns));
    if (sheet.takes_text) worksheet_ignore_errors(page, LXW_IGNORE_NUMBER_STORED_AS_TEXT, "A1:XFD1048576");
  }
  bool close() { return workbook_close(book_) == LXW_NO_ERROR; }

 private:
  static lxw_row_t row(std::size_t r) { return static_cast<lxw_row_t>(r); }
  static lxw_col_t column(std::size_t c) { return static_cast<lxw_col_t>(c); }

  void put(lxw_worksheet* page, lxw_row_t r, lxw_col_t c, Cell const& cell, bool takes_text) {
    auto* const look = format(cell.look, takes_text && cell.kind != Cell::Kind::number && cell.kind != Cell::Kind::formula);
    switch (cell.kind) {
      case Cell::Kind::blank:
        worksheet_write_blank(page, r, c, look);
        break;
      case Cell::Kind::text:
        worksheet_write_string(page, r, c, fitting(cell.text).c_str(), look);
        break;
      case Cell::Kind::number:
        worksheet_write_number(page, r, c, cell.number, look);
        break;
      case Cell::Kind::formula:
        if (cell.empty_result)
          worksheet_write_formula_str(page, r, c, cell.text.c_str(), look, "");
        else
          worksheet_write_formula_num(page, r, c, cell.text.c_str(), look, cell.number);
        break;
    }
  }

  lxw_format* format(Look look, bool text) {
    auto const [at, fresh] = formats_.try_emplace({look, text}, nullptr);
    if (!fresh) return at->second;
    auto* const made = workbook_add_format(book_);
    if (look == Look::head || look == Look::strong) format_set_bold(made);
    if (look == Look::head) format_set_bottom(made, LXW_BORDER_THIN);
    if (look == Look::share) format_set_num_format(made, "0 %");
    if (text) format_set_num_format_index(made, 49);  // the built-in format of text
    return at->second = made;
  }

  lxw_workbook* book_ = nullptr;
  std::map<std::pair<Look, bool>, lxw_format*> formats_;
};
}  // namespace

Cell text(std::string_view utf8, Look look) { return {Cell::Kind::text, neutral_cell(valid_utf8(utf8)), 0, look, false}; }
Cell number(double value, Look look) { return {Cell::Kind::number, "", value, look, false}; }
Cell formula(std::string formula, double result, Look look) {
  return {Cell::Kind::formula, std::move(formula), result, look, false};
}
Cell formula_without_result(std::string formula, Look look) { return {Cell::Kind::formula, std::move(formula), 0, look, true}; }

std::string cell_name(std::size_t row, std::size_t column) {
  std::string letters;
  for (std::size_t left = column + 1; left > 0; left = (left - 1) / 26)
    letters.insert(letters.begin(), static_cast<char>('A' + static_cast<int>((left - 1) % 26)));
  return letters + std::to_string(row + 1);
}

std::string range(std::size_t row, std::size_t column, std::size_t last_row, std::size_t last_column) {
  return cell_name(row, column) + ":" + cell_name(last_row, last_column);
}

std::optional<Fault> write_workbook(std::string const& title, std::vector<Sheet> const& sheets,
                                    std::function<void(std::string_view bytes)> const& take) {
  Fault const no_room{"cannot-write", "a workbook cannot be written: there is no room for temporary files", "", 0};
  PassingFile const file;
  if (!file.made()) return no_room;
  bool const large = std::any_of(sheets.begin(), sheets.end(),
                                 [](Sheet const& sheet) { return sheet.rows.size() + sheet.more_rows >= rows_of_a_large_sheet; });
  Writer writer(title, file.path(), large);
  for (auto const& sheet : sheets) writer.add(sheet);
  if (!writer.close()) return no_room;
  file.hand_on(take);
  return std::nullopt;
}

Result<std::string> workbook(std::string const& title, std::vector<Sheet> const& sheets) {
  std::string bytes;
  if (auto const fault = write_workbook(title, sheets, [&](std::string_view piece) { bytes += piece; })) return *fault;
  return bytes;
}

}  // namespace molewright::book
