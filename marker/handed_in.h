#pragma once
// What a class handed in, out of one answers file or several: a late script or another version joins without disturbing the rest.
#include <cstddef>
#include <string>
#include <vector>

#include "marker/answers_file.h"

namespace molewright {

/// A fault and which of the files it is in.
struct FiledFault {
  PlacedFault placed;
  std::size_t file = 0;
};

struct AllHandedIn {
  std::vector<HandedIn> answers, readings;  ///< `file` says which file a row stands in
  std::vector<FiledFault> faults;           ///< in the order of the files
};

/// Cell by cell, the first file that says something counts: an answer before "absent", "absent" before a blank cell
/// (but whoever wrote something in a file was there for what is blank in it). Marks, a
/// reading and lines of working are taken from wherever they stand first. Fault "given-twice" where two files hold different
/// answers.
AllHandedIn join(std::vector<AnswersRead> files);

}  // namespace molewright
