#pragma once
// What a part's marks are for and how many an answer earns. Marks depend on what was written and on the course's rules only.
#include <vector>

#include "marker/judge.h"

namespace molewright {

struct PlacedLines;

/// A mark of the marking guide: the node it is given for.
struct StepMark {
  int node = 0;
  int marks = 1;
};
/// How the marks of a find are spread over its steps, in the order of work, summing to `out_of`: the answer has one, then the
/// relations from the last to the first, then molar masses and changes of unit; with more marks than steps the answer has the
/// rest. Common practice, no source.
std::vector<StepMark> marks_of_steps(Worked const& worked, Working const& working, std::size_t find, int out_of);

/// Fills marks, suggestion and charges of a judgement whose verdicts stand. `fits_a_slip`: the number is a slip's value as a
/// student would write it. A right number keeps at least one mark, however its unit and figures are; a unit and figures cost one
/// mark each where the course charges them.
void award(Judgement& judgement, MarkingRules const& rules, bool fits_a_slip);

/// The marks of a wrong answer's steps that its lines of working earn: a line that is right or follows earns its step's mark and
/// those of all steps that it rests on, a line that departs its own only where the method is seen, and nothing of what stands
/// before it. `answer_follows`: so does the answer handed in. Without `follow_through` only right lines count. A wrong answer
/// never has all marks: one mistake costs one. Common practice, no source.
std::vector<MarkGiven> marks_of_lines(Worked const& worked, Working const& working, std::size_t find, int out_of,
                                      PlacedLines const& placed, bool answer_follows, bool follow_through);

/// Gives a wrong answer the marks of its lines (`marks_given`) where they are more than it has.
void award_lines(Judgement& judgement, MarkingRules const& rules);

/// What a part's marks are for, entry by entry, what is taken off last: their marks sum to `judgement.marks`, their `out_of` to
/// `judgement.out_of`.
std::vector<MarkGiven> account_of_marks(Judgement const& judgement);

/// For "once a paper": of one student's paper, in printed order, gives back every charge for figures or units but the first. Call
/// it once, when a student's parts stand together. Marks given by hand are left alone.
void settle_paper(std::vector<Judgement>& paper, MarkingRules const& rules);

}  // namespace molewright
