#pragma once
// A fresh question whose numbers tell the possible causes of a wrong answer apart.
#include <optional>
#include <string>
#include <vector>

#include "generators/question_maker.h"
#include "marker/judge.h"

namespace molewright {

/// A possible cause of a wrong answer: a slip, made anywhere or in one way.
struct Cause {
  std::string slip;
  /// Where in a working, in words that hold for another question of the template: the first, second ... step of its kind.
  struct Made {
    std::string relation;
    Symbol symbol;
    int stage = 0;
    std::size_t nth = 0;  ///< of the steps with this relation, symbol and stage
    std::size_t way = 0;  ///< of the ways in which the slip can be made there: which power of ten, this volume alone or all
  };
  std::optional<Made> made = std::nullopt;  ///< none: wherever it can be made
  double probability = 1;
};
/// The slips of a judgement's candidates, likeliest first, each way of making one once. `judgement` is one of part `find`.
std::vector<Cause> causes_of(Question const& question, std::size_t find, Judgement const& judgement,
                             Conventions const& conventions);

struct TellingApart {
  Question question;
  std::size_t find = 0;  ///< the part that does
  /// What the causes lead to there, those that cannot be told apart together; plain answers in the asked unit.
  struct Wrong {
    std::vector<std::string> slips;
    std::vector<std::string> nodes;  ///< where each is made in the fresh question
    std::string answer;
  };
  std::vector<Wrong> wrong;
  bool all_apart = false;        ///< each cause shows and has a number of its own
  bool likeliest_apart = false;  ///< the likeliest has one, and none of the others shares it
};

/// Of some questions of the template the first in which all of `causes` show in one part and lead to different numbers there,
/// none of them the right one nor one that other slips lead to; otherwise the one in which the likeliest shows and which tells
/// most of the doubt apart. Where no number of the template parts the likeliest from the others, the other templates of its kind
/// are tried. A slip is made there as the cause says, or, where there is no such step, at the first place where it can be made.
/// With no causes, or where the likeliest shows nowhere: any question of the template, and nothing is `wrong`. Nothing where none
/// can be made. `causes`: likeliest first. `other_than` is a code not to come again. REQUIRES: `from` is one of the maker's.
std::optional<TellingApart> telling_apart(QuestionMaker& maker, Template const& from, std::vector<Cause> const& causes,
                                          std::string const& other_than);

}  // namespace molewright
