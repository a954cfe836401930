#pragma once
// How well a template's questions part the slips: what its author wants to know before students get them.
#include <map>
#include <string>

#include "generators/question_maker.h"

namespace molewright {

struct SeparationReport {
  int questions = 0;                 ///< that were made
  int apart = 0;                     ///< of these, with every class of slips told from the right answer and from every other
  int by_substance = 0;              ///< of those told apart, with slips that the substances leave alike whatever is drawn
  double can_give = 0;               ///< about how many different questions there are (QuestionMaker::questions_of)
  std::map<std::string, int> alike;  ///< pairs that share a number, by in how many questions
  std::map<std::string, int> always_alike;  ///< the same of pairs that the substances leave alike
};
/// Of the questions of the seeds from 0 on, `wanted` many; a seed for which nothing fits is passed over.
SeparationReport separation_report(QuestionMaker& maker, Template const& from, int wanted);

}  // namespace molewright
