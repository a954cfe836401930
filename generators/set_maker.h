#pragma once
// From what a teacher orders to a problem set: every student's questions, drawn so that nobody has the same twice.
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "engine/problem.h"
#include "generators/question_maker.h"
#include "generators/set.h"
#include "marker/answers_file.h"

namespace molewright {

/// One line of the order. Exactly one of kind, template_name and own says what is asked.
struct SetItem {
  std::string kind;  ///< as people say it: "precipitates", "limiting reactant"
  std::string template_name;
  std::optional<Problem> own;  ///< a teacher's own problem, given as it is
  std::string level;           ///< plain, standard, stretching; empty for any (then a student's own level decides)
  Form form = Form::open;
  int count = 1;
  std::optional<int> marks;  ///< for the whole question, spread over its parts
};

struct SetPlan {
  std::string title;
  enum class Versions { each, one, ab } versions = Versions::each;
  std::optional<int> copies;  ///< where there is no class list: so many numbered papers (`each`), or papers for nobody by name
  std::vector<SetItem> items;
};

/// The kinds of question, and the words for them that are understood ("serial dilution" -> dilution).
std::vector<std::string> kinds_of(std::vector<Template> const& templates);
/// The kind that a person means; empty where it is none of these.
std::string kind_meant(std::string_view said, std::vector<std::string> const& kinds);

/// Makes the set. A student's numbers come from the seed, the name and the place in the set only, so that a class list that grows
/// changes nobody else's paper. The template of a place is the same for the whole class (one level apart from another); a kind
/// does not repeat a template until all are used up. Faults: "no-questions", "empty-class" (no students and no number of copies),
/// "no-versions" (0 or fewer, or more than 100000), "unknown-kind" and "unknown-template" (with the nearest), "unknown-level",
/// "bad-count", "bad-marks" (fewer marks than parts), and those of QuestionMaker.
Result<ProblemSet> make_set(SetPlan const& plan, std::vector<ClassMember> const& members, std::string const& seed,
                            QuestionMaker& maker);

}  // namespace molewright
