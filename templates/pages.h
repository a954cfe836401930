#pragma once
// Pages of a PDF: text in real widths, rules, boxes and rows that flow from page to page. Lengths are points (1/72 inch); y runs
// downwards from the top edge.
#include <cstddef>
#include <functional>
#include <memory>
#include <string>
#include <string_view>
#include <vector>

#include "templates/typeface.h"
#include "templates/wrap.h"

namespace molewright {
enum class PageSize { a4, letter };
}  // namespace molewright

namespace molewright::paper {

struct Style {
  Face face = Face::serif;
  double size = 10;
  double grey = 0;  ///< 0 black to 1 white
  double leading() const { return size * 1.38; }
};
enum class Align { left, right, centre };

struct Setup {
  PageSize size = PageSize::a4;
  bool landscape = false;
  double margin = 48;
  double footer_size = 8;
};

/// One piece of a flow that is never broken: a line of text, a box, a table's row.
struct Row {
  double height = 0;
  std::function<void(double top)> draw;  ///< called with the y of its upper edge, once, on the page it falls on
};

/// A document under way. Dates are fixed, so that the same calls give the same bytes.
class Pages {
 public:
  Pages(Setup const& setup, std::string_view title);
  ~Pages();
  Pages(Pages const&) = delete;
  Pages& operator=(Pages const&) = delete;

  double left() const;
  double right() const;
  double top() const;
  double bottom() const;  ///< of the body; the footer stands below it, still inside the margin
  double width() const { return right() - left(); }

  /// Begins a part of its own on a new page: an entry in the outline, `footer` at the foot of each of its pages beside "page 1 of
  /// 2", counted from 1. `label` goes before the page number in the viewer ("3-": 3-1, 3-2) where it is ASCII. `footer_size` up
  /// to 12; 0 for the setup's.
  void section(std::string_view outline, std::string_view label, std::string_view footer, double footer_size = 0);
  void new_page();
  std::size_t page_count() const;

  double y() const;  ///< where the next row goes
  double room() const { return bottom() - y(); }
  void skip(double height);  ///< leaves room, but none at the top of a page
  /// Puts rows below each other, going to a new page where one no longer fits. `together`: on one page if a page can hold them
  /// all. `head` is drawn again at the top of each page that the rows run over to.
  void flow(std::vector<Row> const& rows, bool together = false, std::vector<Row> const& head = {});

  void text(double x, double baseline, std::string_view utf8, Style const& style, Align align = Align::left);
  void rule(double x1, double y1, double x2, double y2, double weight = 0.5, double grey = 0);
  /// A row of dots, `gap` points apart.
  void dots(double x1, double y, double x2, double gap, double grey);
  void box(double x, double y, double width, double height, double weight = 0.6, double grey = 0);
  void shade(double x, double y, double width, double height, double grey);

  /// Lines of text as rows, at `x` and no wider than `width`; `hanging` sets later lines in.
  std::vector<Row> paragraph(double x, double width, std::string_view utf8, Style const& style, double hanging = 0);

  /// The file. Nothing can be drawn afterwards.
  std::string finish();

 private:
  struct Inside;
  std::unique_ptr<Inside> inside_;
};

double height_of(std::vector<Row> const& rows);
void append(std::vector<Row>& rows, std::vector<Row> more);
/// Empty room.
Row gap(double height);
Measure measure_in(Style const& style);

}  // namespace molewright::paper
