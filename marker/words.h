#pragma once
// Every sentence of this room that a person reads. The words for slips stand in data/slip_words.tsv, the others in words.cpp.
#include <string>
#include <string_view>
#include <vector>

#include "engine/conventions.h"
#include "engine/working.h"
#include "marker/judge.h"
#include "marker/slip.h"

namespace molewright {

/// The slip's numbers at its place: exact, printed to the figures of the working. `working` is the one that the application was
/// made in.
SlipNumbers slip_numbers(Working const& working, Application const& application, std::size_t find,
                         Conventions const& conventions);
/// What a sum on a student's line comes to, to four figures.
std::string said_number(double number, Conventions const& conventions);
/// A slip's words with the holes filled.
std::string filled(std::string_view words, SlipNumbers const& numbers);
/// "n(BaCl₂)", "n(HCl)/ν(HCl)", "n(H₂) from HCl", "a titre of V(KOH)", "the limiting reagent": how a step is called. Steps of one
/// quantity have names of their own; only a change of unit has the name of what is changed.
std::string step_name(Node const& node);
/// Several of them: what is called as another is gets its unit, "V(BaCl₂) in mL", and what is still the same stands once.
std::vector<std::string> step_names(std::vector<Node const*> const& nodes);
/// What a step comes to in the right working, as it is printed there: "0.0120 mol", "HCl". A step that only changes its unit on
/// the way to an answer stands in the unit of that answer.
std::string step_value(Working const& working, Node const& node, Conventions const& conventions);
/// "the change of unit for V(BaCl₂)", "the mole ratio at n(AgCl)": where to look.
std::string step_words(Working const& working, std::string_view node_id);

/// What a part's marks are for, to the student, where that is more than right or wrong says: "1 for n(NaOH), none for c(HCl)",
/// "1 off for the unit". Empty for nothing more to say.
std::string words_for_marks(Judgement const& judgement, Working const& working);

/// Sentences for feedback. Those with a hole take the text that fills it.
namespace say {
std::string right();
std::string the_answer();  ///< in place of a number that is not to be told yet
/// Ends of sentences that say nothing with `the_answer` in them, and what stands there then.
std::vector<std::pair<std::string, std::string>> empty_tails();
std::string right_in_other_unit(std::string_view asked);
std::string follows();                                     ///< follow-through
std::string nothing_written(std::string_view first_step);  ///< "n(BaCl₂) = c(BaCl₂) × V(BaCl₂)"; may be empty
std::string not_read();                                    ///< unreadable
std::string not_read_formula();                            ///< asked for a formula found from data
std::string given_by_hand(int marks, int out_of);          ///< in place of what the program says
std::string name_not_formula();                            ///< the same: a name stands there
std::string not_read_choice();                             ///< asked for a limiting reagent
std::string zero_for_the_letter();                         ///< behind what else is said of a formula
std::string capitals_of_formula();                         ///< the same
std::string not_read_line();                               ///< asked for the line at fault
std::string not_read_in_words();                           ///< asked for an equation, a name ...
std::string not_right_in_words(std::string_view given);    ///< the same
std::string smaller_numbers();                             ///< an equation's numbers have a common factor
std::string states();                                      ///< missing or wrong in an equation
std::string check_step(std::string_view given, std::string_view step);
std::string check_either(std::string_view given, std::string_view step, std::string_view other);
std::string check_both(std::string_view given, std::string_view step, std::string_view other);  ///< two slips at once
std::string formula_is_a_multiple(std::string_view given);  ///< the ratio is right, the numbers are not
std::string other_ratio(std::string_view given);
std::string element_missing(std::string_view given);
std::string other_elements(std::string_view given);
std::string other_line(std::string_view given, std::string_view line, std::string_view slip);  ///< asked for the line at fault
std::string comes_to(std::string_view step, std::string_view value);  ///< a step, and what it should come to
/// "n(AgCl) should come to 0.0120 mol", "HCl should run out first": what a step comes to, for the next three.
std::string should_come_to(std::string_view step, std::string_view value);
std::string should_run_out(std::string_view formula);
std::string from_the_middle(std::string_view what);     ///< where nothing shows the place
std::string from_the_first(std::string_view what);      ///< the same, with nothing but givens before the step
std::string from_what_is_right(std::string_view what);  ///< the same, behind what the student has right
std::string goes_so(std::string_view formula);
std::string go_line_by_line();
std::string runs_out_first(std::string_view formula);
/// After a wrong choice of the limiting reagent: how to compare, and the numbers ("0.0200 mol for Mg, 0.0150 mol for HCl").
std::string how_to_compare();
std::string compared(std::string_view numbers);
std::string not_a_reagent(std::string_view given);  ///< asked for the limiting reagent
std::string is_a_product(std::string_view given);
std::string is_in_excess(std::string_view given);
std::string not_right(std::string_view given);                         ///< silence
std::string not_right_yet(std::string_view given);                     ///< silence, before another try
std::string one_figure(std::string_view given, int due, bool places);  ///< the right answer rounded to a single figure
std::string add_unit(std::string_view asked);
/// `asked` may be empty: the answer has no unit.
std::string other_unit(std::string_view written, std::string_view asked);
std::string not_the_unit_either(std::string_view written, std::string_view asked);  ///< of a wrong number
std::string unit_off_as_well(std::string_view written, std::string_view asked);     ///< of a slip's number
std::string unit_off_for_tutor(std::string_view written, std::string_view asked);
std::string which_unit(std::string_view written, std::string_view asked);
std::string unknown_unit(std::string_view written, std::string_view asked);
std::string too_few(int due, bool places);
std::string too_many(int due, bool places);
std::string rounded_on_the_way();
std::string look_at_rounding(int due, bool places);  ///< of a wrong answer that rounding alone may have led to
/// Of a wrong answer's lines: steps that are right, and steps that follow from the one that went astray; " " in front.
std::string good_in_working(std::vector<std::string> const& right, std::vector<std::string> const& following);
std::string fraction_for_percent();
}  // namespace say

}  // namespace molewright
