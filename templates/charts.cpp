#include "templates/charts.h"

#include <algorithm>
#include <cmath>

namespace molewright::paper {
namespace {

constexpr Style label{Face::serif, 9, 0};
constexpr Style number{Face::bold, 9, 0};
constexpr double grey = 0.55;
constexpr double widest_bar = 46;  // points

int most(std::vector<Bar> const& bars) {
  int out = 1;
  for (Bar const& bar : bars) out = std::max(out, bar.count);
  return out;
}
}  // namespace

std::vector<Row> lying_bars(Pages& pages, std::vector<Bar> const& bars, double label_width) {
  constexpr double gutter = 8, room_for_count = 24, thick = 9;
  double const longest = pages.width() - label_width - gutter - room_for_count, per_one = longest / most(bars);
  std::vector<Row> rows;
  for (Bar const& bar : bars) {
    auto const lines = wrap(bar.label, {label_width, 0}, measure_in(label));
    double const height = std::max(label.leading() * static_cast<double>(lines.size()), thick) + 3;
    rows.push_back({height, [&pages, lines, bar, label_width, per_one](double y) {
                      double line_y = y;
                      for (auto const& line : lines) {
                        pages.text(pages.left(), line_y + label.leading() * 0.5 + label.size * 0.36, line, label);
                        line_y += label.leading();
                      }
                      double const x = pages.left() + label_width + gutter, top = y + (label.leading() - thick) / 2;
                      double const length = per_one * bar.count;
                      pages.shade(x, top, length, thick, grey);
                      pages.box(x, top, length, thick, 0.5);
                      pages.text(x + length + 5, y + label.leading() * 0.5 + number.size * 0.36, std::to_string(bar.count),
                                 number);
                    }});
  }
  return rows;
}

Row standing_bars(Pages& pages, std::vector<Bar> const& bars, double height, std::string const& axis) {
  double const total = height + 3 * label.leading() + 6;
  return {total, [&pages, bars, height, axis](double y) {
            double const place = std::min(widest_bar, pages.width() / static_cast<double>(std::max<std::size_t>(bars.size(), 1)));
            double const foot = y + label.leading() + height, per_one = height / most(bars);
            double x = pages.left();
            double widest_label = 0;
            for (Bar const& bar : bars) widest_label = std::max(widest_label, text_width(bar.label, label.face, label.size));
            auto const every =
                static_cast<std::size_t>(std::ceil((widest_label + 4) / place));  // labels that would meet are left out
            std::size_t at = 0;
            for (Bar const& bar : bars) {
              double const tall = per_one * bar.count, inset = place * 0.12;
              if (bar.count > 0) {
                pages.shade(x + inset, foot - tall, place - 2 * inset, tall, grey);
                pages.box(x + inset, foot - tall, place - 2 * inset, tall, 0.5);
                pages.text(x + place / 2, foot - tall - 3, std::to_string(bar.count), number, Align::centre);
              }
              if (at++ % every == 0) pages.text(x + place / 2, foot + label.leading() * 0.9, bar.label, label, Align::centre);
              x += place;
            }
            pages.rule(pages.left(), foot, x, foot, 0.8);
            pages.text(pages.left(), foot + 2 * label.leading(), axis, label);
          }};
}

}  // namespace molewright::paper
