#pragma once
// Every sentence of this room that a person reads. The words for slips stand in data/slip_words.tsv, the others in words.cpp.
#include <string>
#include <string_view>

#include "engine/conventions.h"
#include "engine/working.h"
#include "marker/slip.h"

namespace molewright {

/// What fills the holes of a slip's words.
struct SlipNumbers {
  std::string given;  ///< the answer as written
  std::string step;   ///< "n(BaCl₂)"
  std::string wrong;  ///< what the slip leads to at that step
  std::string right;  ///< what stands there in the right working
};
/// The slip's numbers at its place: exact, printed to the figures of the working. `working` is the one that the application was
/// made in.
SlipNumbers slip_numbers(Working const& working, Application const& application, std::size_t find,
                         Conventions const& conventions);
/// A slip's words with the holes filled.
std::string filled(std::string_view words, SlipNumbers const& numbers);
/// "n(BaCl₂)", "the limiting reagent": how a step is called.
std::string step_name(Node const& node);
/// "the change of unit for V(BaCl₂)", "the mole ratio at n(AgCl)": where to look.
std::string step_words(Working const& working, std::string_view node_id);

/// Sentences for feedback. Those with a hole take the text that fills it.
namespace say {
std::string right();
std::string the_answer();  ///< in place of a number that is not to be told yet
std::string right_in_other_unit(std::string_view asked);
std::string follows();  ///< follow-through
std::string nothing_written(std::string_view first_step);
std::string not_read();                                  ///< unreadable
std::string not_read_in_words();                         ///< asked for an equation, a name ...
std::string not_right_in_words(std::string_view given);  ///< the same
std::string smaller_numbers();                           ///< an equation's numbers have a common factor
std::string states();                                    ///< missing or wrong in an equation
std::string check_step(std::string_view given, std::string_view step);
std::string check_either(std::string_view given, std::string_view step, std::string_view other);
std::string check_both(std::string_view given, std::string_view step, std::string_view other);  ///< two slips at once
std::string formula_is_a_multiple(std::string_view given);  ///< the ratio is right, the numbers are not
std::string other_ratio(std::string_view given);
std::string other_elements(std::string_view given);
std::string other_line(std::string_view given, std::string_view line, std::string_view slip);  ///< asked for the line at fault
std::string not_a_reagent(std::string_view given);                                             ///< asked for the limiting reagent
std::string not_right(std::string_view given);                                                 ///< silence
std::string not_right_yet(std::string_view given);                                             ///< silence, before another try
std::string one_figure(std::string_view given, int due);  ///< the right answer rounded to a single figure
std::string add_unit(std::string_view asked);
std::string other_unit(std::string_view written, std::string_view asked);
std::string which_unit(std::string_view written, std::string_view asked);
std::string unknown_unit(std::string_view written, std::string_view asked);
std::string too_few(int due);
std::string too_many(int due);
std::string rounded_on_the_way();
std::string fraction_for_percent();
}  // namespace say

}  // namespace molewright
