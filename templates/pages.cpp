#include "templates/pages.h"

#include <hpdf.h>
#include <sys/mman.h>
#include <unistd.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <stdexcept>
#include <utility>

#include "templates/fonts.h"

namespace molewright::paper {
namespace {

[[noreturn]] void raise(HPDF_STATUS error, HPDF_STATUS detail, void*) {
  static constexpr char const* digits = "0123456789ABCDEF";
  std::string code;
  for (int shift = 12; shift >= 0; shift -= 4) code += digits[error >> static_cast<unsigned>(shift) & 0xFU];
  throw std::runtime_error("the PDF library refused a call (0x" + code + ", " + std::to_string(detail) + ")");
}

/// libharu loads fonts from files only: a file in memory, gone when it is closed.
class MemoryFile {
 public:
  explicit MemoryFile(std::string_view bytes) : descriptor_(memfd_create("font", 0)) {
    if (descriptor_ < 0) throw std::runtime_error("no memory file for a font");
    while (!bytes.empty()) {
      ssize_t const written = write(descriptor_, bytes.data(), bytes.size());
      if (written <= 0) {
        close(descriptor_);
        throw std::runtime_error("a font could not be put into memory");
      }
      bytes.remove_prefix(static_cast<std::size_t>(written));
    }
  }
  ~MemoryFile() { close(descriptor_); }
  MemoryFile(MemoryFile const&) = delete;
  MemoryFile& operator=(MemoryFile const&) = delete;
  std::string path() const { return "/proc/self/fd/" + std::to_string(descriptor_); }

 private:
  int descriptor_;
};

std::string_view bytes_of(Face face) {
  switch (face) {
    case Face::serif:
      return serif_font();
    case Face::bold:
      return serif_bold_font();
    case Face::sans:
      return sans_font();
  }
  return serif_font();
}

bool ascii(std::string_view text) {
  return std::all_of(text.begin(), text.end(), [](char c) { return c >= 0x20 && c < 0x7F && c != '(' && c != ')' && c != '\\'; });
}

HPDF_REAL real(double v) { return static_cast<HPDF_REAL>(v); }

}  // namespace

struct Pages::Inside {
  struct Section {
    std::string footer;
    std::size_t first = 0;
    double size = 8;
  };

  Setup setup;
  HPDF_Doc doc = nullptr;
  std::array<HPDF_Font, 3> fonts{};  // loaded when first used: most documents need no sans
  std::vector<HPDF_Page> pages;
  std::vector<Section> sections;
  double width = 0, height = 0, y = 0;
  // What the current page's graphics state holds, so that it is not said again.
  double fill = -1, stroke = -1, weight = -1;
  bool dashed = false;

  ~Inside() {
    if (doc != nullptr) HPDF_Free(doc);
  }

  HPDF_Font font(Face face) {
    HPDF_Font& font = fonts[static_cast<std::size_t>(face)];
    if (font == nullptr) {
      MemoryFile const file(bytes_of(face));
      font = HPDF_GetFont(doc, HPDF_LoadTTFontFromFile(doc, file.path().c_str(), HPDF_TRUE), "UTF-8");
    }
    return font;
  }
  HPDF_Page page() const { return pages.back(); }
  HPDF_REAL up(double from_top) const { return real(height - from_top); }
  void set_fill(double grey) {
    if (grey == fill) return;
    HPDF_Page_SetGrayFill(page(), real(grey));
    fill = grey;
  }
  void set_stroke(double line_weight, double grey) {
    if (grey != stroke) HPDF_Page_SetGrayStroke(page(), real(grey));
    if (line_weight != weight) HPDF_Page_SetLineWidth(page(), real(line_weight));
    stroke = grey;
    weight = line_weight;
  }
  void solid() {
    if (dashed) HPDF_Page_SetDash(page(), nullptr, 0, 0);
    dashed = false;
  }
  void show(HPDF_Page on, double x, double baseline, std::string_view utf8, Style const& style) {
    HPDF_Page_BeginText(on);
    bool first = true;
    for (Run const& run : runs(utf8, style.face)) {
      HPDF_Page_SetFontAndSize(on, font(run.face), real(style.size));
      if (first) HPDF_Page_MoveTextPos(on, real(x), up(baseline));
      HPDF_Page_ShowText(on, run.text.c_str());
      first = false;
    }
    HPDF_Page_EndText(on);
  }
};

Pages::Pages(Setup const& setup, std::string_view title) : inside_(std::make_unique<Inside>()) {
  Inside& in = *inside_;
  in.setup = setup;
  in.width = setup.size == PageSize::a4 ? 595.276 : 612;  // ISO 216: 210 mm x 297 mm; ANSI A: 8.5 in x 11 in
  in.height = setup.size == PageSize::a4 ? 841.89 : 792;
  if (setup.landscape) std::swap(in.width, in.height);
  in.doc = HPDF_New(raise, nullptr);
  if (in.doc == nullptr) throw std::runtime_error("the PDF library did not start");
  HPDF_SetCompressionMode(in.doc, HPDF_COMP_ALL);
  HPDF_UseUTFEncodings(in.doc);
  HPDF_SetCurrentEncoder(in.doc, "UTF-8");
  HPDF_SetInfoAttr(in.doc, HPDF_INFO_TITLE, std::string(title).c_str());
  HPDF_Date const fixed{2000, 1, 1, 0, 0, 0, 'Z', 0, 0};  // any fixed date: the same input must give the same bytes
  HPDF_SetInfoDateAttr(in.doc, HPDF_INFO_CREATION_DATE, fixed);
  HPDF_SetInfoDateAttr(in.doc, HPDF_INFO_MOD_DATE, fixed);
}

Pages::~Pages() = default;

double Pages::left() const { return inside_->setup.margin; }
double Pages::right() const { return inside_->width - inside_->setup.margin; }
double Pages::top() const { return inside_->setup.margin; }
double Pages::bottom() const { return inside_->height - inside_->setup.margin - 2 * inside_->setup.footer_size; }
double Pages::y() const { return inside_->y; }
std::size_t Pages::page_count() const { return inside_->pages.size(); }

void Pages::section(std::string_view outline, std::string_view label, std::string_view footer, double footer_size) {
  Inside& in = *inside_;
  in.sections.push_back({std::string(footer), in.pages.size(), footer_size > 0 ? footer_size : in.setup.footer_size});
  new_page();
  if (!outline.empty()) {
    HPDF_Outline const entry =
        HPDF_CreateOutline(in.doc, nullptr, std::string(outline).c_str(), HPDF_GetEncoder(in.doc, "UTF-8"));
    HPDF_Outline_SetDestination(entry, HPDF_Page_CreateDestination(in.page()));
  }
  std::string const prefix = ascii(label) ? std::string(label) : std::string();
  HPDF_AddPageLabel(in.doc, static_cast<HPDF_UINT>(in.pages.size() - 1), HPDF_PAGE_NUM_STYLE_DECIMAL, 1, prefix.c_str());
}

void Pages::new_page() {
  Inside& in = *inside_;
  if (in.sections.empty()) in.sections.push_back({{}, 0, in.setup.footer_size});
  in.pages.push_back(HPDF_AddPage(in.doc));
  HPDF_Page_SetWidth(in.page(), real(in.width));
  HPDF_Page_SetHeight(in.page(), real(in.height));
  in.fill = in.stroke = in.weight = -1;
  in.dashed = false;
  in.y = top();
}

void Pages::skip(double height) {
  if (inside_->y > top()) inside_->y += height;
}

void Pages::flow(std::vector<Row> const& rows, bool together, std::vector<Row> const& head) {
  Inside& in = *inside_;
  if (in.pages.empty()) new_page();
  double const all = height_of(rows);
  if (together && all > room() && all <= bottom() - top()) new_page();
  for (Row const& row : rows) {
    if (row.height > room() + 1e-6 && in.y > top()) {
      new_page();
      for (Row const& h : head) {
        if (h.draw) h.draw(in.y);
        in.y += h.height;
      }
    }
    if (row.draw) row.draw(in.y);
    if (row.draw || in.y > top()) in.y += row.height;
  }
}

void Pages::text(double x, double baseline, std::string_view utf8, Style const& style, Align align) {
  if (utf8.empty()) return;
  if (align != Align::left) {
    double const w = text_width(utf8, style.face, style.size);
    x -= align == Align::right ? w : w / 2;
  }
  inside_->set_fill(style.grey);
  inside_->show(inside_->page(), x, baseline, utf8, style);
}

void Pages::rule(double x1, double y1, double x2, double y2, double weight, double grey) {
  Inside& in = *inside_;
  in.solid();
  in.set_stroke(weight, grey);
  HPDF_Page_MoveTo(in.page(), real(x1), in.up(y1));
  HPDF_Page_LineTo(in.page(), real(x2), in.up(y2));
  HPDF_Page_Stroke(in.page());
}

void Pages::dots(double x1, double y, double x2, double gap, double grey) {
  Inside& in = *inside_;
  in.set_stroke(1, grey);
  // libharu takes whole points only: a dash of one point, then the gap.
  std::array<HPDF_UINT16, 2> const pattern{1, static_cast<HPDF_UINT16>(std::lround(gap) - 1)};
  if (!in.dashed) HPDF_Page_SetDash(in.page(), pattern.data(), 2, 0);
  in.dashed = true;
  HPDF_Page_MoveTo(in.page(), real(x1), in.up(y));
  HPDF_Page_LineTo(in.page(), real(x2), in.up(y));
  HPDF_Page_Stroke(in.page());
}

void Pages::box(double x, double y, double width, double height, double weight, double grey) {
  Inside& in = *inside_;
  in.solid();
  in.set_stroke(weight, grey);
  HPDF_Page_Rectangle(in.page(), real(x), in.up(y + height), real(width), real(height));
  HPDF_Page_Stroke(in.page());
}

void Pages::shade(double x, double y, double width, double height, double grey) {
  Inside& in = *inside_;
  in.set_fill(grey);
  HPDF_Page_Rectangle(in.page(), real(x), in.up(y + height), real(width), real(height));
  HPDF_Page_Fill(in.page());
}

std::vector<Row> Pages::paragraph(double x, double width, std::string_view utf8, Style const& style, double hanging) {
  std::vector<Row> rows;
  bool first = true;
  for (std::string& line : wrap(utf8, {width, hanging}, measure_in(style))) {
    double const at = first ? x : x + hanging;
    first = false;
    rows.push_back({style.leading(), [this, at, style, line = std::move(line)](double y) {
                      text(at, y + style.leading() * 0.5 + style.size * 0.36, line, style);
                    }});
  }
  return rows;
}

std::string Pages::finish() {
  Inside& in = *inside_;
  if (in.pages.empty()) new_page();
  for (std::size_t s = 0; s < in.sections.size(); ++s) {
    double const size_here = in.sections[s].size;
    Style const style{size_here > 8 ? Face::sans : Face::serif, size_here, size_here > 8 ? 0 : 0.25};
    double const baseline = in.height - in.setup.margin - 0.25 * style.size;
    std::size_t const first = in.sections[s].first;
    std::size_t const end = s + 1 < in.sections.size() ? in.sections[s + 1].first : in.pages.size();
    for (std::size_t p = first; p < end; ++p) {
      std::string const count = "page " + std::to_string(p - first + 1) + " of " + std::to_string(end - first);
      double const count_width = text_width(count, style.face, style.size);
      HPDF_Page_SetGrayFill(in.pages[p], real(style.grey));
      in.show(in.pages[p], right() - count_width, baseline, count, style);
      // A footer is one line: what is too long for it is cut, for the page's own heading says it in full.
      std::vector<std::string> const lines = wrap(in.sections[s].footer, {width() - count_width - 24, 0}, measure_in(style));
      if (!lines.front().empty())
        in.show(in.pages[p], left(), baseline, lines.size() > 1 ? lines.front() + " …" : lines.front(), style);
    }
  }
  HPDF_SaveToStream(in.doc);
  HPDF_UINT32 size = HPDF_GetStreamSize(in.doc);
  std::string bytes(size, '\0');
  HPDF_ResetStream(in.doc);
  HPDF_ReadFromStream(in.doc, reinterpret_cast<HPDF_BYTE*>(bytes.data()), &size);
  bytes.resize(size);
  return bytes;
}

double height_of(std::vector<Row> const& rows) {
  double sum = 0;
  for (Row const& row : rows) sum += row.height;
  return sum;
}

void append(std::vector<Row>& rows, std::vector<Row> more) {
  for (Row& row : more) rows.push_back(std::move(row));
}

Row gap(double height) { return {height, {}}; }

Measure measure_in(Style const& style) {
  return [style](std::string_view piece) { return text_width(piece, style.face, style.size); };
}

}  // namespace molewright::paper
