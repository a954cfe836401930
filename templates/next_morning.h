#pragma once
// Next morning: one page for the lesson after. The commonest slips with a wrong working of each and no name on it, who might sit
// with whom, and a ten-minute starter.
#include <cstddef>
#include <string>
#include <vector>

#include "templates/pages.h"

namespace molewright {

struct MorningSlip {
  std::string meaning;  ///< "volume left in mL"
  int students = 0;
  std::string question;            ///< the wording of the question that it is from; empty for none
  std::vector<std::string> lines;  ///< the wrong working; empty where no line shows the slip
  std::size_t wrong = 0;           ///< index of the line at fault
  std::string instead;             ///< what should stand there, or what the slip is in words
  bool stops_short = false;        ///< no line is at fault, and `instead` is the last that is missing
};
struct MorningPair {
  std::string one, other;  ///< `other` had right what `one` slipped on
  std::string about;
};
struct MorningQuestion {
  std::string text, answer;
};
struct NextMorning {
  std::string title;
  int present = 0;
  std::vector<MorningSlip> slips;  ///< three at most
  std::vector<MorningPair> pairs;
  std::vector<std::string> free;         ///< present, and in no pair
  std::vector<std::string> to_read;      ///< the same, with answers that are yet to be read by hand
  std::vector<MorningQuestion> starter;  ///< three at most
};

/// One page: the type gets smaller and then the least needed goes until all fits.
std::string next_morning_pdf(NextMorning const& page, PageSize size);
std::string next_morning_text(NextMorning const& page);

}  // namespace molewright
