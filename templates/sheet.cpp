#include "templates/sheet.h"

#include <algorithm>
#include <utility>

#include "templates/plain.h"

namespace molewright {
namespace {

using paper::Align;
using paper::Face;
using paper::Pages;
using paper::Row;
using paper::Style;

namespace words {
constexpr char const* instructions =
    "Show your working. Give every final answer with its unit and a suitable number of significant figures.";
constexpr char const* name = "Name";
constexpr char const* version = "Version";
constexpr char const* date = "Date";
constexpr char const* marks = "Marks";
constexpr char const* value = "value";
constexpr char const* unit = "unit";
constexpr char const* formula = "formula";
constexpr char const* answer = "Answer";
constexpr char const* before_the_bench = "Before anyone does this at the bench: ";
}  // namespace words

int marks_of(SheetQuestion const& question) {
  int sum = 0;
  for (SheetPart const& part : question.parts) sum += part.marks;
  return sum;
}
int marks_of(Sheet const& sheet) {
  int sum = 0;
  for (SheetQuestion const& question : sheet.questions) sum += marks_of(question);
  return sum;
}
std::string in_brackets(int marks) { return "[" + std::to_string(marks) + "]"; }

/// Sizes of ordinary and of large print. Large print is sans and black throughout: thin serifs and greys are what weak eyes lose
/// first (common practice, no source).
struct Look {
  double scale;
  Face text, strong;
  double grey;
  Style body() const { return {text, 10.5 * scale, 0}; }
  Style small() const { return {text, scale > 1 ? 14.0 : 8.5, grey}; }
  Style tiny() const { return {text, scale > 1 ? 12.0 : 7.0, grey}; }
};
Look look_of(Sheet const& sheet) {
  return sheet.large_print ? Look{18 / 10.5, Face::sans, Face::bold, 0} : Look{1, Face::serif, Face::bold, 0.35};
}

/// Draws one sheet.
class SheetLayout {
 public:
  SheetLayout(Pages& pages, SheetDocument const& document, Sheet const& sheet)
      : pages_(pages), document_(document), sheet_(sheet), look_(look_of(sheet)) {}

  void draw() {
    std::string footer = sheet_.student.empty() ? document_.title : sheet_.student + " · " + document_.title;
    if (!sheet_.version.empty()) footer += " · version " + sheet_.version;
    std::string const outline = sheet_.student.empty() ? "Version " + sheet_.version : sheet_.student;
    pages_.section(outline, sheet_.version.empty() ? "" : sheet_.version + "-", footer, sheet_.large_print ? 12 : 0);
    heading();
    for (SheetQuestion const& question : sheet_.questions) this->question(question);
    if (!sheet_.cautions.empty()) {
      std::vector<Row> rows{paper::gap(6)};
      append(rows, pages_.paragraph(pages_.left(), pages_.width(), words::before_the_bench + sheet_.cautions, look_.small()));
      pages_.flow(rows, true);
    }
  }

 private:
  double s(double points) const { return points * look_.scale; }

  void heading() {
    Style const title{look_.strong, s(15) > 22 ? 22.0 : s(15), 0};
    pages_.flow(pages_.paragraph(pages_.left(), pages_.width(), document_.title, title));
    pages_.flow({paper::gap(6)});
    labels();
    pages_.flow({rule_row(1)});
    std::string const& instructions = document_.instructions.empty() ? words::instructions : document_.instructions;
    Style small = look_.small();
    small.grey = 0;
    pages_.flow({paper::gap(5)});
    pages_.flow(pages_.paragraph(pages_.left(), pages_.width(), instructions, small));
    pages_.flow({paper::gap(4)});
  }

  Row rule_row(double weight) {
    return {4, [this, weight](double y) { pages_.rule(pages_.left(), y + 2, pages_.right(), y + 2, weight, 0); }};
  }

  /// Name, version, date and marks; in large print or with a long name on lines of their own.
  void labels() {
    Style const label = look_.small(), strong{look_.strong, s(11), 0};
    auto const width_of = [](std::string const& text, Style const& style) {
      return paper::text_width(text, style.face, style.size);
    };
    double const line = s(96);
    struct Field {
      std::string label, value;
      double blank;  // room to write in, where there is no value
    };
    std::vector<Field> fields{{words::name, sheet_.student, sheet_.student.empty() ? s(190) : 0}};
    if (!sheet_.version.empty()) fields.push_back({words::version, sheet_.version, 0});
    fields.push_back({words::date, "", line});
    fields.push_back({words::marks, "/ " + std::to_string(marks_of(sheet_)), s(26)});

    std::vector<std::vector<std::pair<double, Field>>> lines(1);
    double x = pages_.left();
    for (Field const& field : fields) {
      double const w = width_of(field.label, label) + 6 + (field.value.empty() ? 0 : width_of(field.value, strong)) +
                       (field.blank > 0 ? field.blank + 4 : 0);
      if (x > pages_.left() && x + w > pages_.right()) {
        lines.emplace_back();
        x = pages_.left();
      }
      lines.back().push_back({x, field});
      x += w + s(18);
    }
    std::vector<Row> rows;
    for (auto const& in_line : lines) {
      // A name longer than a line wraps; it is then alone in its line.
      if (in_line.size() == 1 && width_of(in_line[0].second.value, strong) > pages_.width() - 60) {
        append(rows, pages_.paragraph(pages_.left(), pages_.width(), in_line[0].second.value, strong));
        continue;
      }
      rows.push_back({s(19), [this, in_line, label, strong, width_of](double y) {
                        double const base = y + s(13);
                        for (auto const& [field_x, field] : in_line) {
                          double at = field_x;
                          pages_.text(at, base, field.label, label);
                          at += width_of(field.label, label) + 6;
                          if (field.blank > 0) {
                            pages_.rule(at, base + 2, at + field.blank, base + 2, 0.5, 0.2);
                            at += field.blank + 4;
                          }
                          pages_.text(at, base, field.value, strong);
                        }
                      }});
    }
    pages_.flow(rows);
  }

  void question(SheetQuestion const& question) {
    Style const body = look_.body(), number{look_.strong, s(12), 0};
    double const indent = s(24), margin = s(30);
    std::vector<Row> rows{paper::gap(s(11))};
    std::vector<Row> text = pages_.paragraph(pages_.left() + indent, pages_.width() - indent - margin, question.text, body);
    // Number beside the first line, marks beside the last.
    double const first_base = body.leading() * 0.5 + body.size * 0.36;
    text.front().draw = [this, draw = text.front().draw, n = question.number, number, first_base](double y) {
      pages_.text(pages_.left(), y + first_base, n, number);
      draw(y);
    };
    text.back().draw = [this, draw = text.back().draw, marks = marks_of(question), body, first_base](double y) {
      pages_.text(pages_.right(), y + first_base, in_brackets(marks), {look_.strong, body.size, 0}, Align::right);
      draw(y);
    };
    append(rows, std::move(text));
    rows.push_back(working_room(question, indent));
    append(rows, strip(question, indent));
    pages_.flow(rows, true);
  }

  /// Dotted paper to work on: three lines, and two more for each step.
  Row working_room(SheetQuestion const& question, double indent) {
    double const pitch = look_.scale > 1 ? 22 : 14;
    int const lines = std::clamp(3 + 2 * question.steps, 5, look_.scale > 1 ? 12 : 16);
    return {pitch * (lines + 1), [this, pitch, lines, indent](double y) {
              for (int i = 1; i <= lines; ++i) pages_.dots(pages_.left() + indent, y + pitch * i, pages_.right(), pitch, 0.45);
            }};
  }

  /// The boxes for the final answers, as many beside each other as fit, and the question's code.
  std::vector<Row> strip(SheetQuestion const& question, double indent) {
    Style const label = look_.body(), caption = look_.tiny();
    double const value_width = s(92), unit_width = s(58), height = s(25), between = s(14);
    struct Box {
      SheetPart part;
      double x, label_width;
    };
    std::vector<std::vector<Box>> lines(1);
    double const begin = pages_.left() + indent;
    double x = begin;
    std::vector<Row> rows;
    for (SheetPart const& part : question.parts) {
      SheetPart shown = part;
      if (question.parts.size() > 1) shown.label += " " + in_brackets(part.marks);
      double label_width = paper::text_width(shown.label, label.face, label.size) + 6;
      double const boxes = value_width + unit_width;
      double const most = pages_.right() - begin - boxes;
      label_width = std::min(label_width, most);  // longer than that, it wraps
      if (x > begin && x + label_width + boxes > pages_.right()) {
        lines.emplace_back();
        x = begin;
      }
      lines.back().push_back({std::move(shown), x, label_width});
      x += label_width + boxes + between;
    }
    for (auto const& line : lines) {
      double row_height = height;
      for (Box const& box : line) {
        double const h =
            label.leading() * static_cast<double>(paper::wrap(box.part.label, {box.label_width, 0}, measure_in(label)).size());
        row_height = std::max(row_height, h);
      }
      rows.push_back({row_height + 5, [this, line, label, caption, value_width, unit_width, height](double y) {
                        for (Box const& box : line) {
                          double base = y + height * 0.62;
                          for (std::string const& text : paper::wrap(box.part.label, {box.label_width, 0}, measure_in(label))) {
                            pages_.text(box.x, base, text, label);
                            base += label.leading();
                          }
                          double const at = box.x + box.label_width;
                          pages_.box(at, y, value_width + unit_width, height, 0.9, 0);
                          double const caption_base = y + caption.size + 1;
                          pages_.text(at + 3, caption_base, box.part.has_unit ? words::value : words::formula, caption);
                          if (!box.part.has_unit) continue;
                          pages_.rule(at + value_width, y, at + value_width, y + height, 0.5, 0.3);
                          pages_.text(at + value_width + 3, caption_base, words::unit, caption);
                        }
                      }});
    }
    // The code stands at the right of the last boxes where there is room, else below.
    double const code_width = paper::text_width(question.code, caption.face, caption.size);
    double const end =
        lines.back().empty() ? begin : lines.back().back().x + lines.back().back().label_width + value_width + unit_width;
    Row code{caption.leading(), [this, code = question.code, caption](double y) {
               pages_.text(pages_.right(), y + caption.size, code, caption, Align::right);
             }};
    if (question.parts.empty() || end + 10 + code_width > pages_.right()) {
      rows.push_back(std::move(code));
    } else {
      rows.back().draw = [this, draw = rows.back().draw, code = question.code, caption, height](double y) {
        draw(y);
        pages_.text(pages_.right(), y + height - 1, code, caption, Align::right);
      };
    }
    return rows;
  }

  Pages& pages_;
  SheetDocument const& document_;
  Sheet const& sheet_;
  Look look_;
};

}  // namespace

std::string sheets_pdf(SheetDocument const& document, PageSize size) {
  Pages pages({size, false, 48, 8}, document.title);
  for (Sheet const& sheet : document.sheets) SheetLayout(pages, document, sheet).draw();
  return pages.finish();
}

std::string sheets_text(SheetDocument const& document) {
  std::string out;
  for (Sheet const& sheet : document.sheets) {
    if (!out.empty()) out += "\n\n";
    out += paper::plain_heading(document.title);
    out += paper::plain_sides(std::string(words::name) + ": " + (sheet.student.empty() ? std::string(30, '_') : sheet.student),
                              sheet.version.empty() ? "" : std::string(words::version) + ": " + sheet.version);
    out += paper::plain_sides(std::string(words::date) + ": ____________",
                              std::string(words::marks) + ": ____ / " + std::to_string(marks_of(sheet)));
    out += "\n" + paper::plain_paragraph(document.instructions.empty() ? words::instructions : document.instructions);
    for (SheetQuestion const& question : sheet.questions) {
      out += "\n" + paper::plain_paragraph(question.text + " " + in_brackets(marks_of(question)), question.number + ".  ", 4);
      for (SheetPart const& part : question.parts) {
        std::string line = std::string(words::answer) + " " + part.label + ": ____________________";
        if (question.parts.size() > 1) line += " " + in_brackets(part.marks);
        out += paper::plain_paragraph(line, "    ", 6);
      }
      out += paper::plain_sides("", question.code);
    }
    if (!sheet.cautions.empty()) out += "\n" + paper::plain_paragraph(words::before_the_bench + sheet.cautions);
  }
  return out;
}

}  // namespace molewright
