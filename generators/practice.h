#pragma once
// Practice: which question comes next, by what a student wishes and by what went wrong before.
#include <string>
#include <vector>

#include "generators/question_maker.h"

namespace molewright {

/// What a student asks for. Empty is whatever the program chooses.
struct PracticeWish {
  std::vector<std::string> kinds;  ///< ids of kinds that templates have
  std::string level;               ///< plain, standard, stretching
};

/// What became of one question.
struct Practised {
  std::string code, template_name, kind;
  std::string chosen_for;          ///< the slip that it was chosen for; empty for none
  std::vector<std::string> slips;  ///< named in the answers to it
  bool right_at_once = false;      ///< every part, without a wrong answer before it and without a step shown
};

struct PracticeChoice {
  Question question;
  std::string chosen_for;  ///< the slip that it is to practise; empty for none
};

/// A slip counts as overcome after this many questions chosen for it that were right at once. Common practice, no source.
inline constexpr int times_to_overcome = 2;

/// The slip to practise next: of those not yet overcome, the one that was made first. Only slips made in the kinds wished for.
/// Empty where there is none.
std::string slip_to_practise(PracticeWish const& wish, std::vector<Practised> const& before);

/// The next question. Where a slip is to be practised, one in which it shows (slip_practice.h; for slips that stand in no slip
/// key, of the kind in which it was made), of a kind wished for; else the wish's kinds in turn, plain before standard before
/// stretching as questions of a kind are right at once. None of `before` comes again where that can be had. The same seed and
/// past give the same question. Faults: those of QuestionMaker::make. REQUIRES: the maker has templates of every kind wished for.
Result<PracticeChoice> next_practice(QuestionMaker& maker, PracticeWish const& wish, std::vector<Practised> const& before,
                                     std::string const& seed);

}  // namespace molewright
