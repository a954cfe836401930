#pragma once
// One question to ask a student whose answer is wrong, so that what they say tells its possible causes apart.
#include <optional>
#include <string>
#include <vector>

#include "marker/judge.h"

namespace molewright {

struct Probe {
  /// What the student may say, and what it would mean.
  struct Reply {
    std::string value;                    ///< "0.0120 mol", "HCl"; empty for whatever stands in no other reply
    bool right = false;                   ///< what stands there in the right working
    std::vector<std::size_t> candidates;  ///< indices into the judgement's candidates that would say so
  };
  std::string node;            ///< id of the step that is asked for
  std::string step;            ///< how it is called: "n(AgCl)"
  std::vector<Reply> replies;  ///< the right one first; empty where the candidates part in no number and the student is to tell
                               ///< how the step was done
};

/// Nodes of a find's working that a student can be asked for one by one, in the order of work, without the answer: numbers that
/// are worked out, and which reactant runs out first.
std::vector<int> steps_to_ask(Working const& working, std::size_t find);

/// The step whose value parts the candidates best (the least expected doubt left, in bits); of equals the one nearest to where
/// they part. With one candidate, or none, it parts that one, or the first half of the working, from the rest. Nothing for an
/// answer that is not wrong, is not worked out in steps, or whose working has no step before the answer. Never what is known: the
/// answer itself in another unit, what a line of working says, and what a right line rests on. `judgement` is of find `find`.
std::optional<Probe> probe(Question const& question, std::size_t find, Judgement const& judgement,
                           Conventions const& conventions);

}  // namespace molewright
