#pragma once
// One student's answers to one question while they are judged: what was written so far, carried to the later parts. For judge.cpp
// and its parts only.
#include <optional>
#include <string>
#include <vector>

#include "marker/agreement.h"
#include "marker/diagnosis.h"
#include "marker/judge.h"
#include "marker/known_parts.h"
#include "marker/placed_lines.h"
#include "marker/words.h"

namespace molewright {

/// How an answer was read: the number in the asked unit, and what that says of its unit.
struct Reading {
  WrittenNumber number;
  UnitVerdict unit = UnitVerdict::not_judged;
  std::string note;  ///< "unit-prefix-not-applied" ...; empty for none
  bool as_meant =
      true;  ///< false for a reading that the writing does not say (another unit, the other comma): good only where it is right
};

/// Every way to read what was written, the plain one first.
std::vector<Reading> readings(Written const& written, Unit const& asked);

class Script {
 public:
  explicit Script(Judge const& judge, SlipRecord const* record = nullptr) : judge_(judge), record_(record) {}
  Judgement next(Written const& written);

 private:
  using Chosen = std::vector<std::size_t>;

  Judgement judge_part(Written const& written);
  std::string carried_here() const;
  void judge_number(Written const& written, Judgement& judgement);
  void judge_choice(Written const& written, Judgement& judgement);
  void judge_formula(Written const& written, Judgement& judgement);
  void explain_formula(std::map<std::string, std::int64_t> const& atoms, Judgement& judgement);
  void judge_stated_answer(Written const& written, Judgement& judgement);
  bool explain_by_arithmetic(Judgement& judgement);
  bool explain_as_copied(Judgement& judgement);
  bool only_repeats(WrittenNumber const& number) const;
  void carry_told(std::size_t find);
  void name_cause(std::string_view slip, int at, SlipNumbers numbers, Judgement& judgement);
  void judge_line(Decimal const& number, Judgement& judgement);
  void judge_line_in_words(Written const& written, Judgement& judgement);
  void judge_letter(Written const& written, Judgement& judgement);
  bool right_by_some_reading(std::vector<Reading> const& all, Judgement& judgement);
  bool right_within_the_band(Reading const& reading, Judgement& judgement);
  bool follows(Reading const& reading, Judgement& judgement);
  bool follows_what_was_carried(Reading const& reading, Judgement& judgement);
  bool can_be(double value) const;
  int figures_beyond_due(WrittenNumber const& number) const;
  bool follows_from(Chosen const& chosen, WrittenNumber const& number) const;
  std::vector<Chosen> ways_to_carry() const;
  std::vector<SlipAnswer> const& slip_answers_on_top();
  std::vector<RoundedAnswer> rounded_on_the_way(Reading const& reading, std::span<SlipAnswer const> answers) const;
  void go_on_from_earlier_answers(WrittenNumber const& number, std::span<SlipAnswer const> answers,
                                  std::vector<RoundedAnswer>& found) const;
  std::vector<SlipAnswer> written_otherwise(WrittenNumber const& number) const;
  std::vector<SlipAnswer> seen_in_lines(std::vector<SlipAnswer> answers) const;
  bool shown_right(std::size_t find) const;
  bool after_a_right_part() const;
  std::vector<SlipAnswer> held_against_right_parts(std::vector<SlipAnswer> answers) const;
  void explain(Written const& written, std::vector<Reading> const& all, Judgement& judgement);
  void read_lines(Written const& written, Judgement& judgement, bool look_for_slips);
  bool placed_by_another_working(std::vector<WorkingLine> const& lines);
  void find_departure(int at, WrittenNumber const& number);
  std::vector<Estimator::Change> wrong_ones_carried(std::vector<Definition>& definitions, bool all = true) const;
  void look_at_lines_of_right(Written const& written, Judgement& judgement);
  bool follows_from_lines(Reading const& reading) const;
  bool goes_on_in_printed_units(PlacedLines const& as_they_stand, Reading const& reading) const;
  bool leads_to_answer(PlacedLines const& placed, Reading const& reading) const;
  void give_marks_for_lines(Reading const& reading, Judgement& judgement) const;
  bool leaves_right_lines(SlipAnswer const& one) const;
  bool agrees_with_lines(SlipAnswer const& one) const;
  bool lead_to(std::vector<Estimator::Change> changes, int node, WrittenNumber const& number) const;
  bool lead_to_departure(std::vector<Estimator::Change> const& changes) const;
  bool explain_by_departure(Reading const& reading, Judgement& judgement);
  bool explain_behind_departure(Reading const& reading, double table_band, Judgement& judgement);
  bool explain_with_unit_off(Written const& written, std::vector<Reading> const& all, std::span<SlipAnswer const> answers,
                             double table_band, Judgement& judgement);
  void add_unit_off(Written const& written, Reading const& plain, Reading const& meant, Judgement& judgement) const;
  bool explain_by_pairs(Reading const& reading, std::span<SlipAnswer const> answers, bool as_known, double table_band,
                        Judgement& judgement);
  void add_pair(SlipAnswer const& first, SlipAnswer const& second, double probability, double value, Judgement& judgement) const;
  void settle_pairs(Judgement& judgement) const;
  void speak(Diagnosis const& diagnosis, Judgement& judgement) const;
  std::string why_it_cannot_limit(std::string const& given) const;
  void say_comparison(Judgement& judgement) const;
  std::string what_to_look_at(std::string const& node_id) const;
  std::string where_to_begin(Judgement const& judgement) const;
  std::vector<char> known_right() const;
  std::string middle_step(std::vector<char> const& known) const;
  std::string first_step() const;
  void judge_unit_and_figures(Reading const& reading, Judgement& judgement) const;
  void pass_over_lost_zeros(Written const& written, Judgement& judgement) const;
  void carry(Rational const& value, double half, bool right);
  void carry(WrittenNumber const& number, bool right);
  void remark(Written const& written, Judgement& judgement) const;
  /// A logarithm's figures are its decimal places, and so are a sum's: said so where no other unit moves the point.
  bool due_in_places(Judgement const& judgement) const {
    return answer().decimal_places().value_or(0) > 0 && judgement.unit != UnitVerdict::equivalent;
  }
  int due_count(Judgement const& judgement) const {
    return due_in_places(judgement) ? *answer().decimal_places() : answer().figures;
  }

  Find const& asked() const { return judge_.question().worked.problem.finds[find_]; }
  Answer const& answer() const { return judge_.working().finds[find_]; }
  Node const& node() const { return judge_.working().nodes[static_cast<std::size_t>(answer().node)]; }
  Due due() const { return due_of(answer(), node().value.number); }

  struct Lines {
    PlacedLines placed;
    int departs = -1;         ///< node of the first line that is neither right nor follows
    std::size_t working = 0;  ///< of the accepted workings, the one that they are lines of, and where they stand in it
    PlacedLines elsewhere;
    std::vector<SlipAnswer> slips;
    Diagnosis diagnosis;  ///< of that line
  };

  Judge const& judge_;
  SlipRecord const* record_;
  std::size_t find_ = 0;
  std::vector<Carried> carried_;
  std::vector<SlipAnswer> on_top_;
  bool fits_a_slip_ = false;
  bool alone_ = true;  ///< the part was judged without a look at what was carried
  Lines lines_;
};

}  // namespace molewright
