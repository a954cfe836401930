#include "templates/term.h"

#include <algorithm>
#include <utility>

#include "generators/kinds.h"
#include "marker/slip.h"
#include "templates/from_set.h"
#include "templates/grid.h"
#include "templates/plain.h"
#include "templates/score.h"

namespace molewright {
namespace {

using paper::Align;
using paper::Face;
using paper::Grid;
using paper::Pages;
using paper::Style;

namespace words {
constexpr char const* term = "Solution chemistry this term";
constexpr char const* sets = "The sets";
constexpr char const* set = "Set";
constexpr char const* marks = "Marks";
constexpr char const* share = "Share of the marks";
constexpr char const* absent = "not there";
constexpr char const* misplaced = "not marked";
constexpr char const* no_paper = "no paper";
constexpr char const* goes_well = "What goes well";
constexpr char const* practise = "What to practise next";
constexpr char const* mended = "Put right since";
constexpr char const* too_early = "Too few questions of one kind were answered to say.";
constexpr char const* nothing_to_practise = "Nothing stands out.";
constexpr char const* more_of = "more questions of the kind: ";
constexpr char const* helps = ". What helps: ";
}  // namespace words

constexpr Style body{Face::serif, 10.5, 0};
constexpr Style head{Face::bold, 9.5, 0};
constexpr std::size_t most_lines = 5;  ///< of a list: nobody practises more at once

std::string times(int count) { return count == 1 ? "" : " (" + std::to_string(count) + " times)"; }

void list(Pages& pages, char const* title, std::vector<std::string> const& lines, char const* none) {
  if (lines.empty() && none == nullptr) return;
  pages.skip(12);
  pages.flow(pages.paragraph(pages.left(), pages.width(), title, {Face::bold, 12, 0}));
  pages.flow({paper::gap(3)});
  if (lines.empty()) pages.flow(pages.paragraph(pages.left(), pages.width(), none, body));
  for (auto const& line : lines) pages.flow(pages.paragraph(pages.left(), pages.width(), "· " + line, body, 8), true);
}

void list(std::string& out, char const* title, std::vector<std::string> const& lines, char const* none) {
  if (lines.empty() && none == nullptr) return;
  out += "\n" + paper::plain_heading(title, '-');
  if (lines.empty()) out += paper::plain_paragraph(none);
  for (auto const& line : lines) out += paper::plain_paragraph(line, "* ", 2);
}
}  // namespace

std::vector<TermPage> term_pages(std::vector<StudentTerm> const& students, std::vector<TermSet> const& sets) {
  std::vector<TermPage> pages;
  for (auto const& student : students) {
    TermPage page;
    page.student = student.student;
    for (std::size_t i = 0; i < student.sets.size(); ++i) {
      auto const& sat = student.sets[i];
      bool const marked = sat.had_paper && !sat.absent && (sat.out_of > 0 || !sat.to_read);
      page.sets.push_back({sets[i].title,
                           marked                         ? std::to_string(sat.marks) + " of " + std::to_string(sat.out_of)
                           : sat.misplaced || sat.to_read ? words::misplaced
                           : sat.had_paper                ? words::absent
                                                          : words::no_paper,
                           marked && sat.out_of > 0 ? static_cast<double>(sat.marks) / sat.out_of : -1});
    }
    for (auto const& kind : student.kinds_sure) page.goes_well.push_back(kind_words(kind));
    for (auto const& slip : student.slips)
      if (page.practise.size() < most_lines)
        page.practise.push_back(short_words(slip.id) + times(slip.times) + words::helps +
                                std::string(words_of(slip.id).practise));
    for (auto const& kind : student.kinds_unsure)
      if (page.practise.size() < most_lines) page.practise.push_back(words::more_of + kind_words(kind));
    for (auto const& slip : student.mended) page.mended.push_back(short_words(slip.id));
    pages.push_back(std::move(page));
  }
  return pages;
}

std::string term_pdf(std::vector<TermPage> const& all, PageSize size) {
  Pages pages({size, false, 54, 8}, words::term);
  for (auto const& page : all) {
    pages.section(page.student, "", page.student);
    pages.flow(pages.paragraph(pages.left(), pages.width(), words::term, {Face::serif, 10, 0.3}));
    pages.flow(pages.paragraph(pages.left(), pages.width(), page.student, {Face::bold, 15, 0}));
    pages.skip(8);
    double const marks = 80, share = 150;
    Grid grid({{words::set, pages.width() - marks - share, Align::left},
               {words::marks, marks, Align::left},
               {words::share, share, Align::left}},
              head);
    for (auto const& set : page.sets)
      grid.add({{{set.title, body}}, {{set.marks, body}}, {{set.share < 0 ? "" : paper::share_bar(set.share), body}}});
    grid.draw(pages, pages.left());
    list(pages, words::goes_well, page.goes_well, words::too_early);
    list(pages, words::practise, page.practise, words::nothing_to_practise);
    list(pages, words::mended, page.mended, nullptr);
  }
  return pages.finish();
}

std::string term_text(std::vector<TermPage> const& all) {
  std::string out;
  for (auto const& page : all) {
    out += (out.empty() ? "" : "\n\n") + paper::plain_heading(page.student) + paper::plain_paragraph(words::term);
    out += "\n" + paper::plain_heading(words::sets, '-');
    for (auto const& set : page.sets)
      out += paper::plain_paragraph(set.title + ": " + set.marks + (set.share < 0 ? "" : " (" + paper::percent(set.share) + ")"),
                                    "* ", 2);
    list(out, words::goes_well, page.goes_well, words::too_early);
    list(out, words::practise, page.practise, words::nothing_to_practise);
    list(out, words::mended, page.mended, nullptr);
  }
  return out;
}

}  // namespace molewright
