#pragma once
// A set as it was ordered: the set file, and everything that it names.
#include <optional>
#include <string>
#include <vector>

#include "app/commands.h"
#include "app/console.h"
#include "app/marks_store.h"
#include "app/set_file.h"
#include "generators/set_maker.h"

namespace molewright {

/// Everything that the set file names, read. REQUIRES: console and options outlive it.
class SetOrder {
 public:
  SetOrder(Console& console, SetOptions const& options) : console_(console), options_(options) {}

  /// False where something was at fault, which is told. The course of the order becomes the console's, unless it has its own.
  bool read();

  /// All templates, those of the own problems that are varied behind them; a template of the program at fault is told.
  std::vector<Template> templates() const;
  SetFile const& file() const { return file_; }
  std::vector<ClassMember> const& members() const { return members_; }
  SetHistory const& history() const { return history_; }
  /// Marks of earlier sets that say what each student is to practise.
  std::vector<StoredMarks> const& results() const { return results_; }
  /// An order that names no question asks for what the earlier sets asked.
  void take_items(std::vector<SetItem> items);

 private:
  std::string beside(std::string const& name) const;
  bool read_course_of_set();
  void read_members();
  std::optional<ProblemSet> read_earlier(std::string const& path);
  void read_results(std::string const& path);
  /// Whether it can be worked and its text filled in; where not, that is told at its line.
  bool is_sound(Problem const& problem, std::string const& file_text, std::string const& path);
  void read_own(SetFile::OwnProblem const& own);

  Console& console_;
  SetOptions const& options_;
  SetFile file_;
  std::vector<Template> variants_;
  std::vector<ClassMember> members_;
  SetHistory history_;
  std::optional<ProblemSet> resit_of_;
  std::vector<StoredMarks> results_;
};

/// A fault of the whole order, placed at the question that causes it: the first that fails in the same way by itself.
PlacedFault placed(Fault const& fault, SetFile const& file, std::string const& seed, QuestionMaker& maker);

}  // namespace molewright
