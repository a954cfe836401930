#pragma once
// Judging one part: value, unit and figures apart, follow-through from earlier parts, the slips that would give the number, the
// marks and the words.
#include <cstdint>
#include <map>
#include <memory>
#include <optional>
#include <span>
#include <string>
#include <utility>
#include <vector>

#include "marker/pairs.h"
#include "marker/question.h"
#include "marker/rounded_slips.h"
#include "marker/rules.h"
#include "marker/slip.h"
#include "marker/slip_record.h"
#include "marker/written.h"

namespace molewright {

enum class ValueVerdict : std::uint8_t { right, wrong, follow_through, blank, absent, unreadable };
enum class UnitVerdict : std::uint8_t { right, wrong, missing, equivalent, not_judged };
enum class FiguresVerdict : std::uint8_t { right, too_few, too_many, not_judged };
/// The words of the contract: "follow-through", "too-few", "not-judged" ...
std::string_view name(ValueVerdict verdict);
std::string_view name(UnitVerdict verdict);
std::string_view name(FiguresVerdict verdict);

struct Candidate {
  struct Named {
    std::string id;
    std::string node;
  };
  std::vector<Named> slips;  ///< two where a pair explains it
  double probability = 0;
  std::string text;  ///< for the tutor, with the student's own numbers
  double value = 0;  ///< the answer that it leads to, unrounded, in the asked unit; 0 where the answer is no number
};

/// A line of working, judged against the step that it is a value of.
enum class LineVerdict { right, follows, departs, not_placed };
std::string_view name(LineVerdict verdict);
struct LineJudged {
  std::string text;
  LineVerdict verdict = LineVerdict::not_placed;
  std::string node;  ///< empty where it could not be placed
};

/// What a mark was given for, or not.
enum class MarkReason {
  right,      ///< a line shows it; the answer is right
  follows,    ///< a line follows from one that went astray
  implied,    ///< a later line rests on it
  method,     ///< the right relation, its number wrong
  departs,    ///< here it went astray
  not_shown,  ///< no line shows it
  answer,     ///< all steps are shown, but the answer is not right
  slip,       ///< all but one for a number that a slip leads to, where the course gives that
  to_accept,  ///< the same, where the teacher has yet to accept it
  wrong,
  blank,
  absent,
  unreadable,
  by_hand,  ///< given by hand
  unit,     ///< taken off: the unit is missing or wrong
  figures,  ///< taken off: too few or too many
  states    ///< taken off: of an equation
};
std::string_view name(MarkReason reason);
struct MarkGiven {
  std::string node;           ///< the step; empty for the whole part
  int marks = 0, out_of = 1;  ///< marks below 0 are taken off
  MarkReason reason = MarkReason::not_shown;
};

struct Judgement {
  std::string student, question, part, code;
  std::string given;    ///< what was written
  std::string answer;   ///< of it, the answer itself, as the feedback says it back (see Written)
  std::string correct;  ///< "1.72 g", plain
  int marks = 0;
  int out_of = 0;
  bool suggested = false;  ///< the marks hold a slip's marks that the teacher has yet to accept: `marks_if_accepted`
  int marks_if_accepted = 0;
  bool by_hand = false;  ///< a mark given by hand, kept
  ValueVerdict value = ValueVerdict::blank;
  UnitVerdict unit = UnitVerdict::not_judged;
  FiguresVerdict figures = FiguresVerdict::not_judged;
  std::vector<Candidate> candidates;          ///< rivals, most likely first; empty is silence
  std::string feedback;                       ///< for the student
  std::vector<LineJudged> lines;              ///< the lines of working that hold a value, where they are looked at
  std::vector<MarkGiven> marks_given;         ///< step by step, of a wrong answer with lines of working that the course counts
  std::vector<std::string> notes;             ///< ids of what the teacher may want to look at
  int charged_figures = 0, charged_unit = 0;  ///< marks that the figures and the unit cost (see settle_paper in marks.h)
  std::string new_question;  ///< code of the one that stands on the feedback for this part's slip; empty for none
  bool states_off = false;   ///< the states of an equation are missing or wrong, and the course asks for them
};

class KnownParts;

/// A question made ready for marking. What is asked of it is worked when it is first needed, and once: the slips are not run for
/// a right answer, and a part that a later script answers as an earlier one did, with the same answers before it where it rests
/// on them, is not judged again. REQUIRES: question and course
/// outlive it. Not for use by several threads at once.
class Judge {
 public:
  /// `without`: a slip that is not looked for (to learn how sure the marker is of a slip that it does not know).
  Judge(Question const& question, Course const& course, Slip const* without = nullptr);
  ~Judge();
  Judge(Judge const&) = delete;
  Judge& operator=(Judge const&) = delete;
  /// Judges every part of one student's script; `written` in the order of the finds (those missing at the end are blank). Answers
  /// to earlier parts are carried forward. `record`: what this student and the class slipped on elsewhere; it moves causes, never
  /// marks.
  std::vector<Judgement> judge(std::vector<Written> const& written, SlipRecord const* record = nullptr) const;
  Question const& question() const { return question_; }

 private:
  friend class Script;
  /// What the answer to a find hands on.
  struct HandsOn {
    int node;              ///< that later parts read: the amount itself where it was asked for in another unit
    Rational factor;       ///< of the answer, in the unit of `node`
    std::vector<char> to;  ///< whether the answer to each find rests on it
  };
  std::vector<HandsOn> const& hands_on() const;
  Working const& working() const { return question_.worked.accepted.front(); }
  SlipTable const& slips() const;
  /// Answers of find `f` with the other tables of atomic weights.
  std::vector<double> const& other_tables(std::size_t f) const;
  /// The other accepted workings, each with its slips.
  struct OtherWorking {
    mutable Estimator estimator;
    SlipTable slips;
  };
  std::vector<OtherWorking> const& others() const;
  /// Pairs of slips at find `f`; `working` 0 for the printed one.
  PairSearch& pairs(std::size_t working, std::size_t f) const;
  /// Answers that rounding on the way leads to.
  SlipTable const& roundings() const;
  /// What slips lead to with rounding on the way.
  RoundedSlips& rounded_slips() const;
  /// The answers that single slips lead to at find `f`; and with those that rounding on the way leads to behind them.
  std::span<SlipAnswer const> singles(std::size_t f) const;
  /// The application behind an answer, the working that it was made in, and the numbers that are said of it at find `f`.
  Application const& application_of(SlipAnswer const& answer) const;
  Working const& working_of(SlipAnswer const& answer) const;
  SlipNumbers const& numbers_of(SlipAnswer const& answer, std::size_t f) const;
  std::span<SlipAnswer const> with_roundings(std::size_t f) const;
  /// The formulas that slips lead to where find `f` is one, each with its application in slips().
  struct FormulaFound {
    std::map<std::string, std::int64_t> atoms;
    std::size_t application;
  };
  std::vector<FormulaFound> const& formulas(std::size_t f) const;

  Question const& question_;
  Course const& course_;
  Slip const* without_;
  mutable Estimator estimator_;
  mutable std::optional<SlipTable> slips_, roundings_;
  mutable std::optional<RoundedSlips> rounded_slips_;
  mutable std::optional<std::vector<OtherWorking>> others_;
  mutable std::vector<std::vector<double>> other_tables_;
  mutable std::map<std::pair<std::size_t, std::size_t>, PairSearch> pairs_;
  mutable std::map<std::size_t, std::vector<FormulaFound>> formulas_;
  mutable std::map<std::pair<Application const*, std::size_t>, SlipNumbers> numbers_;  ///< looked up only
  mutable bool asked_before_ = false;
  mutable std::vector<HandsOn> hands_on_;
  mutable std::vector<std::size_t> singles_;  ///< how many at each find: behind them stand those of rounding, once asked for
  /// At each find, behind what is known to be right there (of each node; empty for nothing), once it was said.
  mutable std::map<std::pair<std::size_t, std::vector<char>>, std::string> where_to_begin_;
  mutable std::unique_ptr<KnownParts> known_;  ///< none while there was but one script
};

}  // namespace molewright
