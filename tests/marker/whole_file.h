#pragma once
// An answers file read from end to end, and several joined.
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "marker/handed_in.h"

namespace molewright {

struct AnswersRead : RowsRead {
  std::vector<PlacedFault> faults;
  bool wide = true;
};

inline AnswersRead read_answers(std::string_view text, std::vector<std::string> const& columns, std::string const& whose = "") {
  AnswerColumns const all{columns, {}};
  NameNumbers names;
  AnswersFile file(text, all, names, whose);
  AnswersRead read;
  while (auto const row = file.next()) file.read(*row, read);
  read.faults = file.take_faults();
  read.wide = file.wide();
  return read;
}

}  // namespace molewright
