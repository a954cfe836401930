#include "templates/sheet.h"

#include <algorithm>
#include <utility>

#include "engine/ascii.h"
#include "templates/plain.h"
#include "templates/reading_table.h"

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

/// Where the paragraph of a part stands that begins with its letter; past the end where none does.
std::size_t paragraph_of(SheetPart const& part, std::vector<WordingPiece> const& paragraphs) {
  std::string const letter = part.label.substr(0, part.label.find(' ') + 1);
  if (letter.empty() || letter[0] != '(') return paragraphs.size();
  auto const at = std::find_if(paragraphs.begin(), paragraphs.end(),
                               [&](WordingPiece const& piece) { return piece.paragraph.starts_with(letter); });
  return static_cast<std::size_t>(at - paragraphs.begin());
}

/// True where the box of a part has to say its marks, for the wording has no paragraph for each part.
bool marks_in_boxes(SheetQuestion const& question) {
  auto const paragraphs = pieces_of(question.text);
  return question.parts.size() > 1 && std::any_of(question.parts.begin(), question.parts.end(), [&](SheetPart const& part) {
           return paragraph_of(part, paragraphs) == paragraphs.size();
         });
}

/// Marks to be printed beside each paragraph: of each part beside its own, or of a question with one part at the end.
std::vector<int> marks_beside(SheetQuestion const& question, std::vector<WordingPiece> const& paragraphs) {
  std::vector<int> marks(paragraphs.size(), 0);
  if (question.parts.size() < 2) {
    marks.back() = marks_of(question);
  } else if (!marks_in_boxes(question)) {
    for (SheetPart const& part : question.parts) marks[paragraph_of(part, paragraphs)] += part.marks;
  }
  return marks;
}

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
    std::vector<Row> cautions;
    if (!sheet_.cautions.empty()) {
      cautions.push_back(paper::gap(6));
      append(cautions, pages_.paragraph(pages_.left(), pages_.width(), words::before_the_bench + sheet_.cautions, look_.small()));
    }
    std::vector<Planned> questions;
    for (SheetQuestion const& question : sheet_.questions) questions.push_back(plan(question));
    place(std::move(questions), paper::height_of(cautions));
    pages_.flow(cautions, true);
  }

 private:
  double s(double points) const { return points * look_.scale; }
  double indent() const { return s(24); }
  double pitch() const { return look_.scale > 1 ? 22 : 14; }  ///< of the dotted paper

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
    std::vector<Field> fields{{words::name, sheet_.student, sheet_.student.empty() ? s(165) : 0}};
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

  /// A question before it is placed: what stands above and below the room for working.
  struct Planned {
    std::vector<Row> above, below;
    int wanted = 0, least = 0, lines = 0;
    double fixed() const { return paper::height_of(above) + paper::height_of(below); }
  };

  Planned plan(SheetQuestion const& question) {
    Style const body = look_.body(), number{look_.strong, s(12), 0};
    double const margin = s(30);
    Planned planned;
    planned.above.push_back(paper::gap(s(11)));
    double const first_base = body.leading() * 0.5 + body.size * 0.36;
    auto const put_marks = [&](Row& row, int marks) {
      row.draw = [this, draw = row.draw, marks, body, first_base](double y) {
        pages_.text(pages_.right(), y + first_base, in_brackets(marks), {look_.strong, body.size, 0}, Align::right);
        draw(y);
      };
    };
    // Marks beside the last line of what they are for, each once.
    std::vector<Row> text;
    auto const paragraphs = pieces_of(question.text);
    std::vector<int> const marks = marks_beside(question, paragraphs);
    for (std::size_t i = 0; i < paragraphs.size(); ++i) {
      double const x = pages_.left() + indent(), w = pages_.width() - indent() - margin;
      auto const& table = paragraphs[i].table;
      append(text, table.empty() ? pages_.paragraph(x, w, paragraphs[i].paragraph, body)
                                 : ruled_table(pages_, x, pages_.width() - indent(), table, body,
                                               {look_.scale > 1 ? look_.text : look_.strong, body.size * 0.95, 0}));
      if (marks[i] > 0) put_marks(text.back(), marks[i]);
    }
    text.front().draw = [this, draw = text.front().draw, n = question.number, number, first_base](double y) {
      pages_.text(pages_.left(), y + first_base, n, number);
      draw(y);
    };
    append(planned.above, std::move(text));
    planned.below = stripped(question);
    planned.wanted = std::clamp(3 + 2 * question.steps, 5, 16);
    planned.least = std::max(4, planned.wanted * 2 / 3);
    planned.lines = planned.wanted;
    return planned;
  }

  /// Puts as many questions on a page as fit with the least room for working, then shares out what the page has left.
  void place(std::vector<Planned> questions, double end_height) {
    for (std::size_t begin = 0; begin < questions.size();) {
      double room = pages_.room();
      std::size_t end = begin;
      auto const height = [this](Planned const& q, int lines) { return q.fixed() + pitch() * (lines + 1); };
      for (; end < questions.size(); ++end) {
        double const needed = height(questions[end], questions[end].least) + (end + 1 == questions.size() ? end_height : 0);
        if (needed > room) break;
        room -= needed;
      }
      if (end == begin) {  // not even one: a page of its own, or as many pages as it takes
        if (pages_.y() > pages_.top()) {
          pages_.new_page();
          continue;
        }
        end = begin + 1;
        // With a little less room to work in it may still fit: better than a last line on a page of its own.
        Planned& alone = questions[begin];
        constexpr int fewest = 3;
        alone.least = std::clamp(static_cast<int>((room - alone.fixed()) / pitch()) - 1, fewest, alone.least);
        room = 0;
      }
      share_out(questions, begin, end, room);
      for (; begin < end; ++begin) draw_question(questions[begin]);
      if (end < questions.size()) pages_.new_page();
    }
  }

  /// `room` is what is left when all have their least: a line at a time to the question that is furthest below what it wants, up
  /// to half as much again.
  void share_out(std::vector<Planned>& questions, std::size_t begin, std::size_t end, double room) {
    for (std::size_t i = begin; i < end; ++i) questions[i].lines = questions[i].least;
    while (room >= pitch()) {
      Planned* neediest = nullptr;
      for (std::size_t i = begin; i < end; ++i) {
        Planned& q = questions[i];
        bool const full = 2 * q.lines >= 3 * q.wanted;
        if (!full && (neediest == nullptr || q.lines * neediest->wanted < neediest->lines * q.wanted)) neediest = &q;
      }
      if (neediest == nullptr) break;
      ++neediest->lines;
      room -= pitch();
    }
  }

  void draw_question(Planned const& planned) {
    std::vector<Row> rows = planned.above;
    // Dotted paper to work on.
    rows.push_back({pitch() * (planned.lines + 1), [this, lines = planned.lines](double y) {
                      for (int i = 1; i <= lines; ++i)
                        pages_.dots(pages_.left() + indent(), y + pitch() * i, pages_.right(), pitch(),
                                    look_.scale > 1 ? 0 : 0.4);
                    }});
    append(rows, planned.below);
    pages_.flow(rows, true);
  }

  /// The boxes for the final answers, as many beside each other as fit, and the question's code.
  std::vector<Row> stripped(SheetQuestion const& question) {
    Style const label = look_.body(), caption = look_.tiny();
    double const value_width = s(92), unit_width = s(58), height = s(25), between = s(14);
    struct Box {
      SheetPart part;
      double x, label_width;
    };
    std::vector<std::vector<Box>> lines(1);
    double const begin = pages_.left() + indent();
    double x = begin;
    std::vector<Row> rows;
    double const boxes = value_width + unit_width;
    double widest = 0, sum = 0;
    std::vector<double> label_widths;
    for (SheetPart const& part : question.parts) {
      std::string const shown = part.label + (marks_in_boxes(question) ? " " + in_brackets(part.marks) : "");
      double const most = pages_.right() - begin - boxes;  // longer than that, it wraps
      label_widths.push_back(std::min(paper::text_width(shown, label.face, label.size) + 6, most));
      widest = std::max(widest, label_widths.back());
      sum += label_widths.back() + boxes + between;
    }
    bool const one_line = begin + sum - between <= pages_.right();
    for (std::size_t i = 0; i < question.parts.size(); ++i) {
      SheetPart shown = question.parts[i];
      if (marks_in_boxes(question)) shown.label += " " + in_brackets(shown.marks);
      double const label_width = one_line ? label_widths[i] : widest;  // boxes below each other stand in line
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
                          pages_.text(at + 3, caption_base, box.part.has_unit ? words::value : box.part.caption, caption);
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
      out += "\n" + paper::plain_paragraph(with_told_tables(question.text) +
                                               (question.parts.size() > 1 ? "" : " " + in_brackets(marks_of(question))),
                                           question.number + ".  ", 4);
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
