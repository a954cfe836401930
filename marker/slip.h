#pragma once
// A slip: one thing done wrong in a working, written once, in general, for every problem.
#include <string>
#include <string_view>
#include <vector>

#include "engine/edit.h"
#include "engine/estimator.h"
#include "engine/solver.h"

namespace molewright {

enum class Frequency { common, occasional, rare };
/// Generic slips (power of ten, transposed digits) explain almost any number: small priors, and they speak only with three
/// figures in agreement.
enum class Reach { specific, generic, rounding, unit_of_answer };

struct Slip {
  std::string_view id;  ///< stable; never renamed
  std::string_view group;
  Frequency frequency = Frequency::common;
  Reach reach = Reach::specific;
  std::string_view source;
};
std::vector<Slip> const& slips();
Slip const* find_slip(std::string_view id);

/// A slip made at one place of one working.
struct Application {  // NOLINT(bugprone-exception-escape): a few terms moved in place allocate nothing
  Slip const* slip = nullptr;
  std::string node;  ///< id of the node it is made at: what feedback points to
  Edits edits;
  double way =
      1;  ///< how usual this way of making the slip is beside the others: an atomic number for one element alone is rarer
};
/// Every way in which every slip can be made in this working; problem edits only where `with_problem_edits` (they are solved
/// again and cost more).
std::vector<Application> applications(Worked const& worked, Working const& working, Conventions const& conventions,
                                      bool with_problem_edits = true);
/// Of these, the ones that change what is worked (nodes and answers), and the ones of rounding.
std::vector<Application> value_applications(Worked const& worked, Working const& working, Conventions const& conventions);
std::vector<Application> rounding_applications(Worked const& worked, Working const& working, Conventions const& conventions);

/// The answers that slips lead to, for one find.
struct SlipAnswer {
  Slip const* slip = nullptr;
  std::string node;
  double value = 0;             ///< number in the asked unit
  std::size_t application = 0;  ///< index into the list it came from
  bool through_choice = false;  ///< it shows only because another reagent is then taken as limiting: the number is that reagent's
  double way = 1;               ///< of its application
  int working = 0;              ///< of the accepted workings, the one that it was made in
  bool against_right_part = false;  ///< it would have shown in an earlier part that this student answered rightly
};

/// What fills the holes of a slip's words.
struct SlipNumbers {
  std::string given;             ///< the answer as written
  std::string step;              ///< "n(BaCl₂)"
  std::string wrong;             ///< what the slip leads to at that step
  std::string right;             ///< what stands there in the right working
  bool wrong_is_answer = false;  ///< the step is the answer itself: `wrong` is the number that was given
  std::string by = {};           ///< what stands on the wrong side of the line: "the molar mass M(NaCl)"
  std::string because = {};      ///< why a unit has to be changed: "c(NaCl) is in mol/L"
};

/// All slips of a question run once; shared by the generators (can they be told apart?), the slip key and the marker.
struct SlipTable {
  std::vector<Application> all;
  std::vector<std::vector<SlipAnswer>>
      by_find;  ///< only those that change the number; rounding and unit slips are judged by the marker, not listed
  std::vector<std::size_t> groups;  ///< where each group of slips begins in `all`, and where the last ends
};
SlipTable slip_table(Worked const& worked, Conventions const& conventions, bool with_problem_edits = true);
/// The same for other numbers put into the working that `table` is of: only slips that read the numbers are looked for again.
/// REQUIRES: `table` was made without problem edits, of this working or of none yet.
void renew(SlipTable& table, Worked const& worked, Conventions const& conventions);
/// The answers of one find when `all` are tried one by one, on top of what is `carried` (a student's earlier answers at their
/// nodes); problem edits are passed over. `estimator` is one of `working`. Applications that leave the answer as it is (to one
/// part in 10^9) are left out.
std::vector<SlipAnswer> slip_answers(std::vector<Application> const& all, Estimator& estimator, Working const& working,
                                     std::size_t find, std::vector<Estimator::Change> const& carried = {});
/// Those of every find, where nothing was carried.
std::vector<std::vector<SlipAnswer>> slip_answers(std::vector<Application> const& all, Estimator& estimator,
                                                  Working const& working);
/// The same for any node of the working; slips of the answer's pointer alone are passed over.
std::vector<SlipAnswer> slip_answers_at(std::vector<Application> const& all, Estimator& estimator, int node);
/// The application's edits of nodes as the estimator takes them, behind what stands in `changes`; they point into it.
void add_changes(Application const& application, std::vector<Estimator::Change>& changes);
/// The node that the answer to `find` is read off once the slip is made: `node`, or the one that it points to instead.
int target_of(Application const& application, std::size_t find, int node);
/// True where a slip's value is a number and not the right one.
bool changes_answer(double value, double right);

/// Words for a slip, from the room's table of words.
struct SlipWords {
  std::string_view student;   ///< kind, names the step and what to do; {..} holes: {given} {right} {step}
  std::string_view tutor;     ///< a line, with holes: "volume left in mL: {wrong} used where {right} was needed"
  std::string_view brief;     ///< for keys and lists, without holes: "volume left in mL"
  std::string_view practise;  ///< what to practise
};
SlipWords words_of(std::string_view slip_id);

}  // namespace molewright
