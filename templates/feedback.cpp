#include "templates/feedback.h"

#include <utility>

#include "templates/plain.h"
#include "templates/score.h"

namespace molewright {
namespace {

using paper::Align;
using paper::Face;
using paper::Pages;
using paper::Row;
using paper::Style;

namespace words {
constexpr char const* feedback = "Feedback";
constexpr char const* wrote = "You wrote";
constexpr char const* nothing = "(nothing)";
constexpr char const* right_answer = "Right answer";
constexpr char const* question = "Question ";
constexpr char const* practise = "To practise";
constexpr char const* new_question = " (question ";
constexpr char const* new_question_end = " at the end of your page)";
constexpr char const* own_line = "Your line";
constexpr char const* fitting_line = "That fits with";
constexpr char const* right_line = "Right step";
constexpr char const* marks = "Marks";
constexpr char const* to_read = "not marked yet";
constexpr char const* fresh = "New questions to practise on";
constexpr char const* answers = "Answers, for when you have finished: ";
constexpr char const* absent = "You were not there for this one. Ask for a sheet of your own to try it.";
constexpr char const* nobody = "Nobody's answers were marked.";
}  // namespace words

constexpr Style body{Face::serif, 9.5, 0};
constexpr Style strong{Face::bold, 9.5, 0};
constexpr Style label{Face::serif, 8.5, 0.3};
constexpr Style head{Face::bold, 11, 0};

std::string letter(std::size_t nth) { return std::string(1, static_cast<char>('A' + static_cast<char>(nth % 26))); }

std::string answers_to(std::vector<FreshQuestion> const& fresh) {
  std::string text = words::answers;
  for (std::size_t i = 0; i < fresh.size(); ++i) text += (i > 0 ? "; " : "") + letter(i) + ": " + fresh[i].answer;
  return text;
}

std::string marks_of(FeedbackItem const& item) { return item.to_read ? words::to_read : paper::score(item.marks, item.out_of); }

/// What to practise, and where a question on it stands.
std::string to_practise(FeedbackItem const& item) {
  return item.fresh < 0
             ? item.practise
             : item.practise + words::new_question + letter(static_cast<std::size_t>(item.fresh)) + words::new_question_end;
}

/// A label in the margin and its text beside it, `kept_free` points short of the right margin.
std::vector<Row> labelled(Pages& pages, char const* name, std::string const& text, Style const& style, double kept_free = 0) {
  double const x = pages.left() + 28, gutter = 82;
  std::vector<Row> rows = pages.paragraph(x + gutter, pages.width() - 28 - gutter - kept_free, text, style);
  rows.front().draw = [&pages, draw = rows.front().draw, name, x, style](double y) {
    pages.text(x, y + style.leading() * 0.5 + style.size * 0.36, name, label);
    draw(y);
  };
  return rows;
}

/// The step that went wrong beside the right one, and what the marks are for: each with its label.
std::vector<std::pair<char const*, std::string>> beside(FeedbackItem const& item) {
  std::vector<std::pair<char const*, std::string>> lines;
  if (!item.own_line.empty()) lines.emplace_back(item.own_words ? words::own_line : words::fitting_line, item.own_line);
  if (!item.right_line.empty()) lines.emplace_back(words::right_line, item.right_line);
  if (!item.marks_words.empty()) lines.emplace_back(words::marks, item.marks_words);
  return lines;
}

void item(Pages& pages, FeedbackItem const& item) {
  std::vector<Row> rows{{5, [&pages](double y) { pages.rule(pages.left(), y + 3, pages.right(), y + 3, 0.4, 0.55); }}};
  std::vector<Row> first = labelled(pages, words::wrote, item.written.empty() ? words::nothing : item.written, body,
                                    paper::text_width(marks_of(item), strong.face, strong.size) + 12);
  first.front().draw = [&pages, draw = first.front().draw, column = item.column, marks = marks_of(item)](double y) {
    double const base = y + body.leading() * 0.5 + body.size * 0.36;
    pages.text(pages.left(), base, column, strong);
    pages.text(pages.right(), base, marks, strong, Align::right);
    draw(y);
  };
  append(rows, std::move(first));
  if (!item.right) append(rows, labelled(pages, words::right_answer, item.correct, body));
  if (!item.feedback.empty()) {
    rows.push_back(paper::gap(1));
    append(rows, pages.paragraph(pages.left() + 28, pages.width() - 28, item.feedback, body));
  }
  for (auto const& [name, text] : beside(item)) append(rows, labelled(pages, name, text, body));
  if (!item.practise.empty()) {
    rows.push_back(paper::gap(1));
    append(rows, labelled(pages, words::practise, to_practise(item), body));
  }
  rows.push_back(paper::gap(1));
  pages.flow(rows, true);
}

/// Its letter, its text and its code; what it is on stands with the answer that it was made for.
std::vector<Row> fresh_question(Pages& pages, FreshQuestion const& fresh, std::string const& name) {
  double const indent = 28, for_code = paper::text_width(fresh.code, label.face, label.size) + 12;
  std::vector<Row> rows = pages.paragraph(pages.left() + indent, pages.width() - indent - for_code, fresh.text, body);
  rows.front().draw = [&pages, draw = rows.front().draw, name, code = fresh.code](double y) {
    double const base = y + strong.leading() * 0.5 + strong.size * 0.36;
    pages.text(pages.left(), base, name, strong);
    pages.text(pages.right(), base, code, label, Align::right);
    draw(y);
  };
  rows.push_back(paper::gap(4));
  return rows;
}

/// The heading stays with the first question, and the answers with the last.
void fresh_questions(Pages& pages, std::vector<FreshQuestion> const& fresh) {
  if (fresh.empty()) return;
  std::vector<Row> rows{{8, [&pages](double y) { pages.rule(pages.left(), y + 3, pages.right(), y + 3, 0.4, 0.55); }}};
  append(rows, pages.paragraph(pages.left(), pages.width(), words::fresh, head));
  rows.push_back(paper::gap(1));
  for (std::size_t i = 0; i < fresh.size(); ++i) {
    append(rows, fresh_question(pages, fresh[i], letter(i)));
    if (i + 1 == fresh.size()) append(rows, pages.paragraph(pages.left(), pages.width(), answers_to(fresh), label));
    pages.flow(rows, true);
    rows.clear();
  }
}

}  // namespace

std::string feedback_pdf(FeedbackDocument const& document, PageSize size) {
  Pages pages({size, false, 48, 8}, std::string(words::feedback) + ": " + document.title);
  if (document.pages.empty()) {
    pages.section(words::feedback, "", document.title);
    pages.flow(pages.paragraph(pages.left(), pages.width(), words::nobody, body));
  }
  for (FeedbackPage const& page : document.pages) {
    pages.section(page.student, "", page.student + " · " + document.title);
    pages.flow(pages.paragraph(pages.left(), pages.width(), document.title, {Face::serif, 10, 0.3}));
    pages.flow(pages.paragraph(pages.left(), pages.width(), page.student, {Face::bold, 15, 0}));
    if (page.absent) {
      pages.flow({paper::gap(8)});
      pages.flow(pages.paragraph(pages.left(), pages.width(), words::absent, body));
      continue;
    }
    pages.flow(
        pages.paragraph(pages.left(), pages.width(), paper::score(page.marks, page.out_of, page.to_read), {Face::bold, 11, 0}));
    pages.flow({paper::gap(4)});
    for (FeedbackItem const& one : page.items) item(pages, one);
    fresh_questions(pages, page.fresh);
  }
  return pages.finish();
}

std::string feedback_text(FeedbackPage const& page, std::string_view title) {
  std::string out = paper::plain_heading(page.student) + paper::plain_paragraph(title);
  if (page.absent) return out + "\n" + paper::plain_paragraph(words::absent);
  out += paper::score(page.marks, page.out_of, page.to_read) + "\n";
  for (FeedbackItem const& item : page.items) {
    out += "\n" + paper::plain_sides(words::question + item.column, marks_of(item));
    auto const line = [&out](std::string const& name, std::string const& text) {
      out += paper::plain_paragraph(text, "  " + name + ": ", 4);
    };
    line(words::wrote, item.written.empty() ? words::nothing : item.written);
    if (!item.right) line(words::right_answer, item.correct);
    if (!item.feedback.empty()) out += paper::plain_paragraph(item.feedback, "  ", 2);
    for (auto const& [name, text] : beside(item)) line(name, text);
    if (!item.practise.empty()) line(words::practise, to_practise(item));
  }
  if (page.fresh.empty()) return out;
  out += "\n" + std::string(words::fresh) + "\n";
  for (std::size_t i = 0; i < page.fresh.size(); ++i) {
    auto const& one = page.fresh[i];
    out += "\n" + letter(i) + "  " + one.code + "\n";
    out += paper::plain_paragraph(one.practise, "  ", 2) + paper::plain_paragraph(one.text, "  ", 2);
  }
  return out + "\n" + paper::plain_paragraph(answers_to(page.fresh), "", 2);
}

std::string feedback_text(FeedbackDocument const& document) {
  if (document.pages.empty()) return std::string(words::nobody) + "\n";
  std::string out;
  for (FeedbackPage const& page : document.pages) out += (out.empty() ? "" : "\n\n") + feedback_text(page, document.title);
  return out;
}

}  // namespace molewright
