#include "templates/next_morning.h"

#include <utility>

#include "templates/plain.h"

namespace molewright {
namespace {

using paper::Face;
using paper::Pages;
using paper::Style;

namespace words {
constexpr char const* next_morning = "Next morning";
constexpr char const* slips = "Three slips to look at together";
constexpr char const* no_slips = "No slip was found with enough certainty to be named.";
constexpr char const* here = "Here: ";
constexpr char const* instead = "It should be: ";
constexpr char const* goes_on = "It stops short. It should go on to: ";
constexpr char const* pairs = "Who might sit with whom";
constexpr char const* about_pairs = "The second had right what the first slipped on. ";
constexpr char const* free = "Free to help or to work on: ";
constexpr char const* to_read = "Answers yet to be read by hand: ";
constexpr char const* starter = "Ten-minute starter";
constexpr char const* answers = "Answers: ";
constexpr char const* wrong_mark = "✗ ";
constexpr char const* right_mark = "   ";
}  // namespace words

struct Room {
  double size;  ///< of the type, points
  bool questions, free;
  std::size_t slips, starter;
};
/// What is tried in turn.
constexpr Room rooms[] = {{10, true, true, 3, 3},  {9.25, true, true, 3, 3}, {8.5, true, true, 3, 3},  {8.5, false, true, 3, 3},
                          {8, false, false, 3, 2}, {8, false, false, 2, 2},  {7.5, false, false, 1, 1}};

std::string counted(MorningSlip const& slip, int present) {
  return slip.meaning + " (" + std::to_string(slip.students) + " of " + std::to_string(present) + ")";
}

std::string list_of_pairs(NextMorning const& page) {
  std::string text;
  for (auto const& pair : page.pairs)
    text += (text.empty() ? "" : "; ") + pair.one + " with " + pair.other + " (" + pair.about + ")";
  return text + ".";
}

std::string list_of(std::vector<std::string> const& names) {
  std::string text;
  for (auto const& name : names) text += (text.empty() ? "" : "; ") + name;
  return text + ".";
}

std::string answers_of(NextMorning const& page, std::size_t most) {
  std::string text = words::answers;
  for (std::size_t i = 0; i < page.starter.size() && i < most; ++i)
    text += (i > 0 ? "   " : "") + std::to_string(i + 1) + ": " + page.starter[i].answer;
  return text;
}

char const* before_instead(MorningSlip const& slip) {
  return slip.lines.empty() ? words::here : slip.stops_short ? words::goes_on : words::instead;
}

class Drawing {
 public:
  Drawing(NextMorning const& page, PageSize size, Room const& room)
      : page_(page),
        room_(room),
        pages_({size, false, 46, 8}, std::string(words::next_morning) + ": " + page.title),
        body_{Face::serif, room.size, 0},
        strong_{Face::bold, room.size, 0},
        small_{Face::serif, room.size - 0.5, 0.3} {}

  std::string draw() {
    pages_.section(page_.title, "", std::string(words::next_morning) + " · " + page_.title);
    put(words::next_morning, small_);
    put(page_.title, {Face::bold, room_.size + 4.5, 0});
    slips();
    if (!page_.pairs.empty()) {
      head(words::pairs);
      put(words::about_pairs + list_of_pairs(page_), body_);
      if (room_.free && !page_.free.empty()) put(words::free + list_of(page_.free), body_);
      if (room_.free && !page_.to_read.empty()) put(words::to_read + list_of(page_.to_read), body_);
    }
    starter();
    fits_ = pages_.page_count() == 1;
    return pages_.finish();
  }
  bool fits() const { return fits_; }

 private:
  void put(std::string const& text, Style const& style, double indent = 0) {
    pages_.flow(pages_.paragraph(pages_.left() + indent, pages_.width() - indent, text, style));
  }
  void head(char const* text) {
    pages_.skip(room_.size * 0.7);
    put(text, {Face::bold, room_.size + 1.5, 0});
    pages_.flow({paper::gap(2)});
  }
  void slips() {
    head(words::slips);
    if (page_.slips.empty()) put(words::no_slips, body_);
    for (std::size_t i = 0; i < page_.slips.size() && i < room_.slips; ++i) {
      auto const& slip = page_.slips[i];
      if (i > 0) pages_.skip(room_.size * 0.5);
      put(std::to_string(i + 1) + ".  " + counted(slip, page_.present), strong_);
      if (room_.questions && !slip.question.empty()) put(slip.question, small_, 16);
      for (std::size_t k = 0; k < slip.lines.size(); ++k)
        put((k == slip.wrong ? words::wrong_mark : words::right_mark) + slip.lines[k], k == slip.wrong ? strong_ : body_, 16);
      if (!slip.instead.empty()) put(before_instead(slip) + slip.instead, body_, 16);
    }
  }
  void starter() {
    if (page_.starter.empty()) return;
    head(words::starter);
    for (std::size_t i = 0; i < page_.starter.size() && i < room_.starter; ++i)
      put(std::to_string(i + 1) + ".  " + page_.starter[i].text, body_);
    pages_.skip(room_.size * 0.4);
    put(answers_of(page_, room_.starter), small_);
  }

  NextMorning const& page_;
  Room room_;
  Pages pages_;
  Style body_, strong_, small_;
  bool fits_ = false;
};
}  // namespace

std::string next_morning_pdf(NextMorning const& page, PageSize size) {
  std::string bytes;
  for (auto const& room : rooms) {
    Drawing drawing(page, size, room);
    bytes = drawing.draw();
    if (drawing.fits()) break;
  }
  return bytes;
}

std::string next_morning_text(NextMorning const& page) {
  std::string out = paper::plain_heading(std::string(words::next_morning) + ": " + page.title);
  out += "\n" + paper::plain_heading(words::slips, '-');
  if (page.slips.empty()) out += paper::plain_paragraph(words::no_slips);
  for (std::size_t i = 0; i < page.slips.size(); ++i) {
    auto const& slip = page.slips[i];
    out += (i > 0 ? "\n" : "") + paper::plain_paragraph(counted(slip, page.present), std::to_string(i + 1) + ". ", 3);
    if (!slip.question.empty()) out += paper::plain_paragraph(slip.question, "   ", 3);
    for (std::size_t k = 0; k < slip.lines.size(); ++k)
      out += paper::plain_paragraph(slip.lines[k], k == slip.wrong ? "   wrong: " : "   ", 5);
    if (!slip.instead.empty()) out += paper::plain_paragraph(slip.instead, std::string("   ") + before_instead(slip), 5);
  }
  if (!page.pairs.empty()) {
    out += "\n" + paper::plain_heading(words::pairs, '-') + paper::plain_paragraph(words::about_pairs);
    for (auto const& pair : page.pairs)
      out += paper::plain_paragraph(pair.one + " with " + pair.other + " (" + pair.about + ")", "* ", 2);
    if (!page.free.empty()) out += paper::plain_paragraph(words::free + list_of(page.free));
    if (!page.to_read.empty()) out += paper::plain_paragraph(words::to_read + list_of(page.to_read));
  }
  if (!page.starter.empty()) {
    out += "\n" + paper::plain_heading(words::starter, '-');
    for (std::size_t i = 0; i < page.starter.size(); ++i)
      out += paper::plain_paragraph(page.starter[i].text, std::to_string(i + 1) + ". ", 3);
    out += paper::plain_paragraph(answers_of(page, page.starter.size()));
  }
  return out;
}

}  // namespace molewright
