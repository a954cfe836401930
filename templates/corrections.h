#pragma once
// Corrections: whoever lost marks does the step again that went wrong, with the numbers of their own question.
#include <string>
#include <vector>

#include "templates/pages.h"

namespace molewright {

struct CorrectionItem {
  std::string column, code;
  std::string text;           ///< the question; a newline begins a paragraph. Empty where an item above has the same
  std::string written;        ///< what the student wrote; empty for nothing
  std::string look_at;        ///< a sentence: which step to do again, or where to begin
  int to_win = 0;             ///< marks that were lost
  bool only_writing = false;  ///< the number is right: unit or figures are not
  bool is_number = true;      ///< the answer is a number with its unit, not a formula or a sentence
};
struct CorrectionsPage {
  std::string student;
  int marks = 0, out_of = 0;
  std::vector<CorrectionItem> items;  ///< never empty
  int to_read = 0;                    ///< marks that are not given yet
};
struct CorrectionsDocument {
  std::string title;
  std::vector<CorrectionsPage> pages;
};

std::string corrections_pdf(CorrectionsDocument const& document, PageSize size);
std::string corrections_text(CorrectionsDocument const& document);

}  // namespace molewright
