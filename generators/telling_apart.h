#pragma once
// A fresh question whose numbers tell the possible causes of a wrong answer apart.
#include <optional>
#include <string>
#include <vector>

#include "generators/question_maker.h"

namespace molewright {

struct TellingApart {
  Question question;
  std::size_t find = 0;  ///< the part that does
  /// What the causes lead to there, those that cannot be told apart together; plain answers in the asked unit.
  struct Wrong {
    std::vector<std::string> slips;
    std::string answer;
  };
  std::vector<Wrong> wrong;
  bool all_apart = false;  ///< each cause shows and has a number of its own
};

/// Of some questions of the template (and, where it parts them never, of the others of its kind) the first in which all of
/// `slips` show in one part and lead to different numbers there, none of them the right one nor one that other slips lead to;
/// otherwise the one that tells most of them apart, and then from most others. Nothing where none shows any. With no slips: any
/// question. `other_than` is a code not to come again. REQUIRES: `from` is one of the maker's.
std::optional<TellingApart> telling_apart(QuestionMaker& maker, Template const& from, std::vector<std::string> const& slips,
                                          std::string const& other_than);

}  // namespace molewright
