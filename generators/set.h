#pragma once
// A problem set: the questions of every version, ready to print and to mark.
#include <map>
#include <string>
#include <utility>
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

/// The questions of a set by their codes, each with its paper, in the order of the set. REQUIRES: the set outlives it.
class QuestionsByCode {
 public:
  using Places = std::vector<std::pair<Paper const*, Question const*>>;
  explicit QuestionsByCode(ProblemSet const& set) {
    for (auto const& paper : set.papers)
      for (auto const& question : paper.questions) places_[question.code].emplace_back(&paper, &question);
  }
  /// Empty for a code of no question here.
  Places const& operator[](std::string const& code) const {
    static Places const none;
    auto const at = places_.find(code);
    return at == places_.end() ? none : at->second;
  }

 private:
  std::map<std::string, Places> places_;
};

}  // namespace molewright
