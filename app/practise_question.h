#pragma once
// One question, talked through: answers judged, hints, steps, the working.
#include <functional>
#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "app/practice_record.h"
#include "app/talk.h"
#include "engine/steps.h"
#include "marker/judge.h"
#include "marker/stepwise.h"

namespace molewright {

/// What a student wants once a question is over, or instead of it.
enum class Wanted { next, kinds, stop };

class QuestionTalk {
 public:
  /// `entry` is what the record holds of the question, and is kept up to date; `keep` is called after every change of it.
  /// REQUIRES: all outlive this; entry.parts has a part for each find.
  QuestionTalk(Talk const& talk, Question const& question, Course const& course, PracticeEntry& entry,
               std::function<void()> keep);
  /// Says the question and goes on until it is done or left.
  Wanted run();

 private:
  /// `shown`: the whole part, in the middle of its steps.
  enum class After { again, done, shown, next, kinds, stop };

  After part();
  After step_by_step();
  After step_of_mine(Stepwise const& stepwise, Judge const& judge, std::size_t line, std::vector<Written>& written);
  /// What follows from a word of the conversation; nothing where `said` is none.
  std::optional<After> command(std::string const& said);
  After answer(std::string const& said);
  /// Instead of the same words once more: the next thing that is not said yet.
  void lead_on(std::string const& given);
  bool is_no_answer(std::string const& said, Written const& written, Find const& find) const;
  void hint();
  After step();
  After show_all();
  void say_answer() const;
  void set_shown(std::size_t lines);
  std::string prompt() const;
  std::vector<Written> earlier_answers() const;
  Wanted over();

  PracticePart& here() { return entry_.parts[find_]; }
  Working const& working() const { return question_.worked.accepted.front(); }
  Conventions const& conventions() const { return course_.conventions; }

  Talk const& talk_;
  Question const& question_;
  Course const& course_;
  Judge judge_;
  PracticeEntry& entry_;
  std::function<void()> keep_;
  std::size_t find_ = 0;
  std::vector<Step> lines_;    ///< of the part
  bool warned_ = false;        ///< that the only step gives the answer
  bool hinted_ = false;        ///< the relation of the next step was named: the formula comes next
  bool formula_said_ = false;  ///< that too
  std::string last_said_;      ///< to the last wrong answer, without the answer
  bool told_to_try_again_ = false;
};

}  // namespace molewright
