#pragma once
// Questions to practise on just one slip: whoever makes it again gets a number that shows it.
#include <cstdint>
#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "generators/question_maker.h"
#include "generators/set_maker.h"
#include "marker/results.h"
#include "marker/slip.h"

namespace molewright {

/// What a student is to practise: a slip, and the template of the question where it was made (empty for a teacher's own problem).
/// Without a slip it is the template alone.
struct ToPractise {
  std::string slip, template_name;
  friend bool operator==(ToPractise const& a, ToPractise const& b) {
    return a.slip == b.slip && a.template_name == b.template_name;
  }
};

/// The template that a question's code names; nullptr where the maker has none such or the text is no code.
Template const* template_of(QuestionMaker const& maker, std::string_view code);

class SlipPractice {
 public:
  /// REQUIRES: the maker outlives it.
  explicit SlipPractice(QuestionMaker& maker) : maker_(maker) {}

  /// The `nth` question (from 0) on it: first of the template where the slip was made, then of others of its kind, then of any in
  /// which the slip shows, and round again. Nothing where no template shows the slip (one that explains almost any number, or
  /// only rounds, shows in none) and the one named does not exist.
  std::optional<Question> question(ToPractise const& what, std::size_t nth, std::uint64_t salt);
  /// The same for a student, worded as none of `texts` where that can be had, and never as what they have `seen`; its wording is
  /// added to both.
  std::optional<Question> question_for(std::string_view student, ToPractise const& what, std::size_t nth, std::string_view seed,
                                       Wordings& texts, Wordings& seen);

 private:
  struct Search {
    std::vector<Template const*> to_look_at, showing;
    std::size_t looked_at = 0;
  };
  Search& search(ToPractise const& what);
  /// The nth template in which the slip shows, and round again; nullptr for none.
  Template const* that_shows(ToPractise const& what, std::size_t nth);
  std::optional<Question> showing(Template const& from, std::string_view slip, std::uint64_t salt);
  /// Whether the slip shows in one of the first questions of a template.
  bool shows_in(Template const& from, Slip const* slip);

  QuestionMaker& maker_;
  std::map<std::pair<std::string, std::string>, Search> known_;
  struct Keys {
    std::vector<std::vector<Slip const*>> of_questions;  ///< the slips that show in each
    bool at_end = false;
  };
  std::map<Template const*, Keys> keys_;  ///< questions are dear to make: those of a template are made once for all slips
};

/// A new question on a slip.
struct OnSlip {
  std::string slip;
  Question question;
};
/// One on each slip that is named with confidence in a student's wrong answers, in the order of the paper; at most three, for
/// they stand on the student's feedback. The same for the same student, work and seed, and worded as none of the paper.
std::vector<OnSlip> questions_on_slips(StudentResult const& student, Paper const& paper, SlipPractice& practice,
                                       std::string_view seed);

/// Puts practice in place of a paper's first questions: for each slip, in the order given, two questions, until the paper is
/// full; numbers stay as they were. `texts`: not to come again where that can be had; what is put in is added. Nothing that the
/// student has `seen`, nor what stands on the paper, is put in. How many questions were replaced.
std::size_t put_practice(Paper& paper, std::vector<ToPractise> const& what, SlipPractice& practice, std::string_view seed,
                         Wordings& texts, Wordings seen = {});

}  // namespace molewright
