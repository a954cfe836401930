#pragma once
// From what a teacher orders to a problem set: every student's questions, drawn so that nobody has the same twice.
#include <cstdint>
#include <functional>
#include <map>
#include <memory>
#include <optional>
#include <string>
#include <string_view>
#include <unordered_set>
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

/// Hashes of the wordings of questions that are not to come again.
using Wordings = std::unordered_set<std::uint64_t>;

/// What was set before.
struct SetHistory {
  Wordings texts;  ///< not to come again for anybody: see note_texts
  /// By student: what that one has had, least of all to come again.
  std::map<std::string, Wordings> seen;
  /// nullptr where nothing is known of a student.
  Wordings const* seen_by(std::string const& student) const {
    auto const at = seen.find(student);
    return at == seen.end() ? nullptr : &at->second;
  }
  /// The set that this one stands in for: place by place the same template and the same difficulty, other numbers; the plan then
  /// needs no items. A student without a paper there gets what its first paper has.
  ProblemSet const* resit_of = nullptr;
};
/// Notes every question of an earlier set as one to avoid.
void note_texts(ProblemSet const& earlier, SetHistory& history);

/// A question that a paper will be asked to hold first, before anything is known of the others.
struct Ask {
  std::string template_name;
  std::uint32_t seed = 0;
  FormChoice form;
};
/// Answers a list of asks, in order: for whoever can make several at a time. The set is the same with or without.
using MakeMany = std::function<std::vector<Result<Question>>(std::vector<Ask> const&)>;

/// Makes a set, some papers at a time. A student's numbers come from the seed, the name and the place in the set, so that a class
/// list that grows changes nobody else's paper. The template of a place is the same for the whole class (one level apart from
/// another); a kind does not repeat a template until all are used up. At one place all questions of one template are equally hard
/// (see difficulty.h) as far as can be, no two have the same wording and, in a set of up to 200 papers, no two share an answer.
class SetMaker {
 public:
  /// Faults: "no-questions", "empty-class" (a paper each, and neither students nor a number of copies), "no-versions" (0 or
  /// fewer, or more than 100000), "unknown-kind" and "unknown-template" (with the nearest), "unknown-level", "form-does-not-fit",
  /// "bad-count". REQUIRES: the question maker, and the set of which this is a re-sit, outlive it.
  static Result<std::unique_ptr<SetMaker>> begin(SetPlan const& plan, std::vector<ClassMember> const& members,
                                                 std::string const& seed, QuestionMaker& maker, SetHistory const& history = {});
  virtual ~SetMaker() = default;

  virtual std::size_t papers() const = 0;
  /// The next papers, `most` at most; none when all are made. Title, class and course are those of the whole set; letters of the
  /// slip keys go on as they began. Faults: "bad-marks" (fewer marks than parts), and those of QuestionMaker.
  virtual Result<ProblemSet> next(std::size_t most, MakeMany const& make_many = {}) = 0;
  /// What could not be had so far: slips not told apart, questions that repeat, levels that are not there.
  virtual std::vector<std::string> notes() const = 0;
};

/// The whole set at once, notes included; faults of SetMaker.
Result<ProblemSet> make_set(SetPlan const& plan, std::vector<ClassMember> const& members, std::string const& seed,
                            QuestionMaker& maker, SetHistory const& history = {});

}  // namespace molewright
