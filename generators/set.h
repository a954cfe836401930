#pragma once
// A problem set: the questions of every version, ready to print and to mark.
#include <string>
#include <vector>

#include "marker/question.h"
#include "marker/rules.h"

namespace molewright {

struct Paper {
  std::string version;
  std::string student;  ///< empty where one paper serves several
  bool large_print = false;
  std::vector<Question> questions;
};

struct ProblemSet {
  std::string title;
  std::string seed;  ///< as given or drawn by the caller; printed so that the set can be made again
  Course course;
  std::vector<Paper> papers;             ///< in class order
  std::vector<std::string> class_order;  ///< every student, also where one paper serves several
  std::vector<std::string>
      class_versions;              ///< for each of these the version they get: with A/B the class file's, else A and B in turn
  std::vector<std::string> notes;  ///< what could not be had: slips not told apart, questions that repeat
};

}  // namespace molewright
