#pragma once
// A page a student across a term's sets, for a parents' evening: plain words, no comparison with others.
#include <string>
#include <vector>

#include "marker/term.h"
#include "templates/pages.h"

namespace molewright {

struct TermPage {
  struct Set {
    std::string title, marks;  ///< "13 of 18", "not there", "not marked", "no paper"
    double share = -1;         ///< 0 to 1; below 0 where there is none
  };
  std::string student;
  std::vector<Set> sets;
  std::vector<std::string> goes_well;  ///< kinds of question
  std::vector<std::string> practise;   ///< a line each: a slip and what helps, a kind of question
  std::vector<std::string> mended;     ///< slips that were made and are made no more
};

std::vector<TermPage> term_pages(std::vector<StudentTerm> const& students, std::vector<TermSet> const& sets);
std::string term_pdf(std::vector<TermPage> const& pages, PageSize size);
std::string term_text(std::vector<TermPage> const& pages);

}  // namespace molewright
