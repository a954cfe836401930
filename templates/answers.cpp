#include "templates/answers.h"

#include <algorithm>
#include <utility>

#include "templates/plain.h"
#include "templates/reading_table.h"
#include "templates/score.h"

namespace molewright {
namespace {

using paper::Align;
using paper::Face;
using paper::Pages;
using paper::Row;
using paper::Style;

namespace words {
constexpr char const* answers = "Answers";
constexpr char const* version = "version ";
constexpr char const* slip_key = "Wrong answers to expect";
constexpr char const* seed = "Seed of the set: ";
constexpr char const* notes = "Notes on the set";
}  // namespace words

constexpr Style body{Face::serif, 9.5, 0};
constexpr Style strong{Face::bold, 9.5, 0};
constexpr Style small{Face::serif, 8.5, 0.3};
constexpr Style key{Face::serif, 9, 0};

int marks_of(AnswerQuestion const& question) {
  int sum = 0;
  for (AnswerPart const& part : question.parts) sum += part.marks;
  return sum;
}

std::string whose(AnswerPaper const& paper) {
  std::string text = paper.student;
  if (!paper.version.empty()) text += (text.empty() ? "" : ", ") + std::string(words::version) + paper.version;
  return text;
}

/// Draws one paper's answers.
class AnswersLayout {
 public:
  AnswersLayout(Pages& pages, AnswersDocument const& document, AnswerPaper const& paper)
      : pages_(pages), document_(document), paper_(paper) {}

  void draw(bool first) {
    std::string const who = whose(paper_);
    pages_.section(who.empty() ? words::answers : who, paper_.version.empty() ? "" : paper_.version + "-",
                   std::string(words::answers) + " · " + document_.title + (who.empty() ? "" : " · " + who));
    pages_.flow(pages_.paragraph(pages_.left(), pages_.width(), document_.title, {Face::serif, 10, 0.3}));
    pages_.flow(pages_.paragraph(pages_.left(), pages_.width(), std::string(words::answers) + (who.empty() ? "" : ": " + who),
                                 {Face::bold, 14, 0}));
    pages_.flow({{6, [this](double y) { pages_.rule(pages_.left(), y + 3, pages_.right(), y + 3, 1, 0); }}});
    if (first) set_notes();
    for (AnswerQuestion const& question : paper_.questions) this->question(question);
  }

 private:
  void set_notes() {
    std::vector<Row> rows;
    if (!document_.seed.empty())
      append(rows, pages_.paragraph(pages_.left(), pages_.width(), words::seed + document_.seed, small));
    if (!document_.notes.empty())
      append(rows, pages_.paragraph(pages_.left(), pages_.width(), words::notes, {Face::bold, 8.5, 0}));
    for (std::string const& note : document_.notes)
      append(rows, pages_.paragraph(pages_.left(), pages_.width(), "· " + note, small, 8));
    pages_.flow(rows);
  }

  void question(AnswerQuestion const& question) {
    std::vector<Row> rows{paper::gap(11)};
    double const x = pages_.left() + indent, w = pages_.width() - indent - margin;
    std::vector<Row> text = short_text(question, x, w);
    text.front().draw = [this, draw = text.front().draw, n = question.number, marks = paper::counted_marks(marks_of(question)),
                         code = question.code](double y) {
      double const base = y + body.leading() * 0.5 + body.size * 0.36;
      pages_.text(pages_.left(), base, n, {Face::bold, 11, 0});
      pages_.text(pages_.right(), base, marks, strong, Align::right);
      draw(y);
    };
    append(rows, std::move(text));
    rows.push_back({small.leading(), [this, x, code = question.code](double y) {
                      pages_.text(x, y + small.size, code, {Face::serif, 7.5, 0.4});
                    }});
    for (AnswerPart const& part : question.parts) append(rows, this->part(part));
    for (std::string const& note : question.notes) append(rows, pages_.paragraph(x, w, note, small));
    pages_.flow(rows, true);
  }

  /// At most two lines of the wording: enough to know the question by.
  std::vector<Row> short_text(AnswerQuestion const& question, double x, double w) {
    std::string const flat = without_tables(question.text);
    Style const style{Face::serif, 9, 0.2};
    std::vector<std::string> const lines = paper::wrap(flat, {w - 12, 0}, measure_in(style));  // room for the dots
    std::string text = lines[0];
    if (lines.size() > 1) text += "\n" + lines[1];
    if (lines.size() > 2) text += " …";
    return pages_.paragraph(x, w, text, style);
  }

  std::vector<Row> part(AnswerPart const& part) {
    std::vector<Row> rows{paper::gap(4)};
    double const letter_width = part.letter.empty() ? 0 : 22;
    double const x = pages_.left() + indent + letter_width, w = pages_.width() - indent - letter_width - margin;
    std::size_t const first = rows.size();
    for (AnswerLine const& step : part.steps) {
      std::vector<Row> lines = pages_.paragraph(x, w, step.text, body, 18);
      if (step.marks > 0) {
        lines.back().draw = [this, draw = lines.back().draw, n = step.marks](double y) {
          pages_.text(pages_.right(), y + body.leading() * 0.5 + body.size * 0.36, "+" + std::to_string(n), body, Align::right);
          draw(y);
        };
      }
      append(rows, std::move(lines));
      rows.push_back(paper::gap(1.5));
    }
    append(rows, boxed_answer(part, x, w));
    if (!part.letter.empty()) {
      rows[first].draw = [this, draw = rows[first].draw, letter = part.letter](double y) {
        pages_.text(pages_.left() + indent, y + body.leading() * 0.5 + body.size * 0.36, letter, strong);
        draw(y);
      };
    }
    append(rows, slip_key(part, x, w));
    return rows;
  }

  std::vector<Row> boxed_answer(AnswerPart const& part, double x, double w) {
    Style const style{Face::bold, 10.5, 0};
    double const pad = 5;
    std::vector<std::string> const lines = paper::wrap(part.answer, {w - 2 * pad, 0}, measure_in(style));
    double inner = 0;
    for (std::string const& line : lines) inner = std::max(inner, measure_in(style)(line));
    double const box_height = static_cast<double>(lines.size()) * style.leading() + 4;
    double const note_width = paper::text_width(part.figures, small.face, small.size);
    bool const beside = inner + 2 * pad + 10 + note_width <= w;
    std::vector<Row> rows{{box_height + 5, [this, lines, style, x, inner, box_height, figures = part.figures, beside](double y) {
                             pages_.box(x, y + 2, inner + 2 * 5, box_height, 0.9, 0);
                             double base = y + 4 + style.leading() * 0.5 + style.size * 0.36;
                             for (std::string const& line : lines) {
                               pages_.text(x + 5, base, line, style);
                               base += style.leading();
                             }
                             if (beside)
                               pages_.text(x + inner + 20, y + 4 + style.leading() * 0.5 + style.size * 0.36, figures, small);
                           }}};
    if (!beside) append(rows, pages_.paragraph(x, w, part.figures, small));
    return rows;
  }

  /// Two columns, filled a row at a time: A B, C D ...
  std::vector<Row> slip_key(AnswerPart const& part, double x, double w) {
    std::vector<Row> rows;
    if (part.slips.empty()) return rows;
    rows.push_back(paper::gap(3));
    append(rows, pages_.paragraph(x, w, words::slip_key, {Face::bold, 8.5, 0.2}));
    double answer_width = 0;
    for (SlipKeyLine const& slip : part.slips)
      answer_width = std::max(answer_width, paper::text_width(slip.answer, key.face, key.size));
    double const column = (w + margin - 8) / 2, letter = 13;
    answer_width = std::min(answer_width + 7, column / 2);
    for (std::size_t i = 0; i < part.slips.size(); i += 2) {
      double height = 0;
      std::vector<std::pair<double, std::vector<std::vector<std::string>>>> cells;
      for (std::size_t k = i; k < std::min(i + 2, part.slips.size()); ++k) {
        SlipKeyLine const& slip = part.slips[k];
        std::vector<std::vector<std::string>> columns{
            {slip.letter},
            paper::wrap(slip.answer, {answer_width - 4, 0}, measure_in(key)),
            paper::wrap(slip.meaning, {column - letter - answer_width, 0}, measure_in(key))};
        for (auto const& lines : columns) height = std::max(height, static_cast<double>(lines.size()) * key.leading());
        cells.push_back({x + static_cast<double>(k - i) * (column + 8), std::move(columns)});
      }
      rows.push_back({height, [this, cells = std::move(cells), answer_width, letter](double y) {
                        for (auto const& [at, columns] : cells) {
                          double column_x = at;
                          for (std::size_t c = 0; c < columns.size(); ++c) {
                            double base = y + key.leading() * 0.5 + key.size * 0.36;
                            for (std::string const& line : columns[c]) {
                              pages_.text(column_x, base, line, {c == 0 ? Face::bold : key.face, key.size, 0});
                              base += key.leading();
                            }
                            column_x += c == 0 ? letter : answer_width;
                          }
                        }
                      }});
    }
    return rows;
  }

  static constexpr double indent = 24, margin = 44;
  Pages& pages_;
  AnswersDocument const& document_;
  AnswerPaper const& paper_;
};

}  // namespace

std::string answers_pdf(AnswersDocument const& document, PageSize size) {
  Pages pages({size, false, 48, 8}, std::string(words::answers) + ": " + document.title);
  bool first = true;
  for (AnswerPaper const& paper : document.papers) {
    AnswersLayout(pages, document, paper).draw(first);
    first = false;
  }
  return pages.finish();
}

std::string answers_text(AnswersDocument const& document) {
  std::string out = paper::plain_heading(std::string(words::answers) + ": " + document.title);
  if (!document.seed.empty()) out += paper::plain_paragraph(words::seed + document.seed);
  for (std::string const& note : document.notes) out += paper::plain_paragraph(note, "* ", 2);
  for (AnswerPaper const& paper : document.papers) {
    out += "\n" + paper::plain_heading(whose(paper).empty() ? words::answers : whose(paper), '-');
    for (AnswerQuestion const& question : paper.questions) {
      out +=
          "\n" + paper::plain_paragraph(with_told_tables(question.text) + " [" + paper::counted_marks(marks_of(question)) + "]",
                                        question.number + ".  ", 4);
      out += "    " + question.code + "\n";
      for (AnswerPart const& part : question.parts) {
        out += "\n";
        std::string lead = "    " + part.letter + (part.letter.empty() ? "" : " ");
        std::size_t const in = lead.size() + 2;
        for (AnswerLine const& step : part.steps) {
          out += paper::plain_paragraph(step.text + (step.marks > 0 ? "  [+" + std::to_string(step.marks) + "]" : ""), lead, in);
          lead = std::string(lead.size(), ' ');
        }
        out += paper::plain_paragraph("==> " + part.answer + (part.figures.empty() ? "" : "   (" + part.figures + ")"), lead, in);
        if (part.slips.empty()) continue;
        out += std::string(lead.size(), ' ') + words::slip_key + ":\n";
        std::size_t widest = 0;
        for (SlipKeyLine const& slip : part.slips)
          widest = std::max(widest, static_cast<std::size_t>(paper::columns(slip.answer)));
        for (SlipKeyLine const& slip : part.slips) {
          std::string const blanks(widest - static_cast<std::size_t>(paper::columns(slip.answer)) + 2, ' ');
          std::string const start = std::string(lead.size(), ' ') + slip.letter + "  " + slip.answer + blanks;
          out += paper::plain_paragraph(slip.meaning, start, static_cast<std::size_t>(paper::columns(start)));
        }
      }
      for (std::string const& note : question.notes) out += paper::plain_paragraph(note, "    ", 4);
    }
  }
  return out;
}

}  // namespace molewright
