#pragma once
// Feedback for students: one page each, in plain and kind words.
#include <string>
#include <vector>

#include "templates/pages.h"

namespace molewright {

struct FeedbackItem {
  std::string column;   ///< "3a"
  std::string written;  ///< what the student wrote; empty for nothing
  std::string correct;  ///< "1.72 g"
  int marks = 0, out_of = 0;
  bool right = false;         ///< nothing to say but that it is right
  std::string feedback;       ///< the sentences
  std::string practise;       ///< what to practise; empty for nothing
  std::string own_line{};     ///< the step that went wrong; empty where it is not known
  bool own_words = false;     ///< `own_line` is a line that the student handed in, not one that fits the number
  std::string right_line{};   ///< that step as it should be
  std::string marks_words{};  ///< what the marks are for, where that is more than right or wrong
  int fresh = -1;             ///< index of the page's new question on it; below 0 for none
  bool to_read = false;       ///< not marked yet: it is still to be read by hand
};
/// A new question on just one slip that the student made.
struct FreshQuestion {
  std::string practise;  ///< what it is on
  std::string code;      ///< for whoever is asked about an answer to it
  std::string text;      ///< a newline begins a paragraph
  std::string answer;    ///< of all its parts
};
struct FeedbackPage {
  std::string student;
  bool absent = false;
  int marks = 0, out_of = 0;
  std::vector<FeedbackItem> items;
  std::vector<FreshQuestion> fresh{};  ///< lettered on the page; their answers stand at its end
  int to_read = 0;                     ///< marks that are not given yet
};
struct FeedbackDocument {
  std::string title;
  std::vector<FeedbackPage> pages;
};

std::string feedback_pdf(FeedbackDocument const& document, PageSize size);
std::string feedback_text(FeedbackDocument const& document);
/// One student's page alone: a file to hand out.
std::string feedback_text(FeedbackPage const& page, std::string_view title);

}  // namespace molewright
