#pragma once
// The answers document: every question of every paper worked, marks a step, the final answer, and the wrong answers to expect.
#include <string>
#include <vector>

#include "templates/pages.h"

namespace molewright {

struct AnswerLine {
  std::string text;
  int marks = 0;  ///< given at this line; 0 for none
};
/// A wrong answer to expect. The letter is what a marker writes beside it.
struct SlipKeyLine {
  std::string letter, answer;
  std::string meaning;  ///< "volume left in mL"
};
struct AnswerPart {
  std::string letter;  ///< "(a)"; empty for a question with one part
  std::vector<AnswerLine> steps;
  std::string answer;   ///< "m(AgCl) = 1.72 g"
  std::string figures;  ///< "3 significant figures"; empty where the answer is a formula
  int marks = 0;
  std::vector<SlipKeyLine> slips;
};
struct AnswerQuestion {
  std::string number, code;
  std::string text;  ///< the wording; cut to two lines on paper
  std::vector<AnswerPart> parts;
  std::vector<std::string> notes;
};
struct AnswerPaper {
  std::string student, version;
  std::vector<AnswerQuestion> questions;
};
struct AnswersDocument {
  std::string title;
  std::string seed;  ///< what the set was made from; printed, so that it can be made again
  std::vector<AnswerPaper> papers;
  std::vector<std::string> notes;  ///< about the set as a whole
};

/// Each paper begins on a page of its own.
std::string answers_pdf(AnswersDocument const& document, PageSize size);
std::string answers_text(AnswersDocument const& document);

}  // namespace molewright
