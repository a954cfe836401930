#pragma once
// Makes questions from templates, and makes them again from their codes.
#include <cstdint>
#include <map>
#include <memory>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "generators/code.h"
#include "generators/form.h"
#include "generators/plan.h"
#include "generators/template.h"
#include "marker/question.h"
#include "marker/rules.h"

namespace molewright {

struct TemplatesRead {
  std::vector<Template> templates;
  struct Named {
    std::string name;  ///< of the text that is at fault
    PlacedFault fault;
  };
  std::vector<Named>
      faults;  ///< a template with a fault is left out; "name-taken" and "hash-taken" where two could not be told apart in a code
};
/// Reads templates by name and text.
TemplatesRead read_templates(std::vector<std::pair<std::string_view, std::string_view>> const& texts);

/// The working of a question's part without what is given or from a table: how many marks it has where nobody says otherwise, 1
/// to 5.
int default_marks(Working const& working, std::size_t find, std::vector<int>& counted);

/// Keeps the plans of its templates: it is dear to make and cheap to ask. Not to be shared by threads.
class QuestionMaker {
 public:
  /// So many ways of working are kept, about 65 kB each; past it they are made anew.
  static constexpr std::size_t usual_plans = 4000;
  QuestionMaker(std::vector<Template> templates, Course course, std::size_t most_plans = usual_plans);
  QuestionMaker(QuestionMaker const&) = delete;
  QuestionMaker& operator=(QuestionMaker const&) = delete;

  std::vector<Template> const& templates() const { return templates_; }
  Course const& course() const { return course_; }
  /// nullptr where no template has the name.
  Template const* find(std::string_view name) const;

  /// A question of a template: of up to 64 draws of the seed, the first whose numbers are fit and whose slips can all be told
  /// apart, or else the one that leaves fewest alike; put in this form. Faults: "nothing-fits" (says which limit throws out most
  /// draws), "form-does-not-fit", the solver's, "unknown-in-text". REQUIRES: `from` is one of templates(), seed below code_seeds.
  Result<Question> make(Template const& from, std::uint32_t seed, FormChoice const& form = {});

  /// About how many different questions a template can give, wordings aside: all that can be drawn, times the share of 200 draws
  /// whose numbers are fit. 0 where none was.
  double questions_of(Template const& from);

  /// The question of a code, from its seed and draw alone: no slip is asked. Faults: parse_code's (with the code that was
  /// probably meant), "unknown-template", "changed" (says which course setting the code was made with, or that the template or
  /// the tables have changed).
  Result<Question> remake(std::string_view code);

  /// What a code's seed and draw give by the templates and the course that are here, whether or not it was given out for that.
  Result<Question> made_now(Code const& code) { return remake(code); }

  /// The slips that a question leaves alike, and its slip key, are filled in where wanted: remake() leaves them out. REQUIRES:
  /// the question was made by this maker.
  void add_slip_key(Question& question) const;

  /// A teacher's own problem as a question; its code marks it among others but cannot be made again.
  Result<Question> own(Problem const& problem) const;

 private:
  Result<Plan*> plan_of(Template const& from, Drawn const& drawn);
  /// `code` says all but what its check comes to.
  Result<Question> finish(Template const& from, Plan& plan, Drawn const& drawn, Code code);
  /// The check of a question that is as `code` says, by the names that are printed where no course chooses others: what a
  /// substance is called changes no code.
  std::uint32_t check_of(Question const& question, Code const& code);
  Result<Question> remake(Code const& code);
  std::string setting_of(Code const& code) const;

  std::vector<Template> templates_;
  Course course_;
  std::size_t most_plans_;
  using Key = std::pair<std::size_t, std::vector<std::uint32_t>>;  ///< template, and what was drawn for all that is no number
  std::map<Key, std::variant<std::unique_ptr<Plan>, Fault>> plans_;
  std::unique_ptr<QuestionMaker> with_usual_names_;  ///< made when first asked; never where the course's names are the usual ones
};

/// Nine bits that change when the wording or an answer does.
std::uint32_t outcome_check(Question const& question);

}  // namespace molewright
