#pragma once
// A student across several sets: what the marks were, what goes well, what to practise, what is mended.
#include <functional>
#include <string>
#include <string_view>
#include <vector>

#include "marker/judge.h"

namespace molewright {

/// The marks of one set, as they were stored.
struct TermSet {
  std::string title;
  std::vector<Judgement> judgements;
};

struct StudentTerm {
  struct Sat {
    bool had_paper = false, absent = false;
    bool misplaced = false;     ///< the row stood in the wrong place, and so it is absent, too
    int marks = 0, out_of = 0;  ///< of what is marked
    bool to_read = false;       ///< an answer is still to be read by hand
  };
  struct Slip {
    std::string id;
    int times = 0;
  };
  std::string student;
  std::vector<Sat> sets;                  ///< as many as the term has
  std::vector<std::string> kinds_sure;    ///< kinds of question with at least kind_sure of the marks, in the order met
  std::vector<std::string> kinds_unsure;  ///< with less than kind_unsure
  std::vector<Slip> slips;                ///< to practise, the most frequent first
  std::vector<Slip> mended;               ///< made once, and a question of that kind was right in a later set
};

/// Shares of the marks of a kind; a kind counts from two parts on (common practice, no source).
inline constexpr double kind_sure = 0.8, kind_unsure = 0.5;
inline constexpr int least_parts_of_a_kind = 2;

/// Students in the order in which they first stand. `kind_of` tells a code's kind of question; empty where it is not known.
std::vector<StudentTerm> term_of(std::vector<TermSet> const& sets,
                                 std::function<std::string(std::string_view code)> const& kind_of);

}  // namespace molewright
