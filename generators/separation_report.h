#pragma once
// How well a template's questions part the slips: what its author wants to know before students get them.
#include <map>
#include <string>

#include "generators/question_maker.h"

namespace molewright {

struct SeparationReport {
  int questions = 0;                 ///< that were made
  int apart = 0;                     ///< of these, with every class of slips told from the right answer and from every other
  double can_give = 0;               ///< about how many different questions there are (QuestionMaker::questions_of)
  std::map<std::string, int> alike;  ///< pairs that share a number, by in how many questions
};
/// Of the questions of the seeds from 0 on, `wanted` many; a seed for which nothing fits is passed over.
SeparationReport separation_report(QuestionMaker& maker, Template const& from, int wanted);

}  // namespace molewright
