#pragma once
// A problem as a person writes it: what is given (as printed), the reactions, what is in excess, what to find. Nothing in it says
// how.
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "engine/decimal.h"
#include "engine/equation.h"
#include "engine/quantity.h"
#include "engine/unit.h"

namespace molewright {

struct Place {
  std::size_t line = 0;    ///< in the file, from 1; 0 where the problem was not read from text
  std::size_t column = 0;  ///< of what follows the keyword, in code points, from 1
};

struct Given {
  enum class Form { value, difference, mean, measured };
  Quantity quantity;
  Form form = Form::value;
  std::vector<Decimal> numbers;  ///< one; two for a difference (first - second); two or more for a mean; for measured (the
                                 ///< student's own reading) an example for the printed key, or none
  Unit unit;
  Place place;
  // Of a mean:
  bool in_pairs = false;                ///< each titre as two numbers, the final reading and then the initial one
  std::vector<std::size_t> rough;       ///< titres that the mean leaves out and the question calls rough
  std::vector<std::size_t> discordant;  ///< titres that the mean leaves out, which the student is to see
};

/// The power of ten of the last digit that the i-th number is known to; nothing for one that is exact: 1 atm and 1 bar are
/// defined, and a solution that is diluted a whole number of times is meant to be. Common practice, no source.
std::optional<int> last_place(Given const& given, std::size_t i);
/// How many titres (or other readings) a mean is given by: half as many as numbers where they stand in pairs.
std::size_t titres(Given const& given);
/// The i-th of them: the number as it stands, or final reading less initial one. REQUIRES: i < titres(given).
Rational titre(Given const& given, std::size_t i);
bool is_rough(Given const& given, std::size_t i);
bool is_discordant(Given const& given, std::size_t i);
/// Whether the mean counts it.
inline bool counts(Given const& given, std::size_t i) { return !is_rough(given, i) && !is_discordant(given, i); }
/// The largest difference between two titres that the mean counts, in the given's unit.
Rational spread_of_titres(Given const& given);

struct Find {
  enum class Kind {
    number,
    limiting_reagent,
    empirical_formula,
    molecular_formula,
    hydrate_formula,
    line_at_fault,  ///< which line of a printed working is wrong: only where such a working is shown, never for the solver
    // What is stated and not worked out (engine/stated.h):
    reaction,        ///< the balanced equation of the first reaction
    ionic_equation,  ///< the net ionic equation of it
    name,            ///< of `substance`
    formula,         ///< of `substance`
    precipitate,     ///< the solids that fall out, or none
    reagent          ///< which of `reagents` gives a solid with each of `with` and with none of `without`
  };
  Kind kind = Kind::number;
  bool told = false;  ///< "show": the question tells about what the number is, and the more exact value is to be shown
  std::vector<std::string> elements;  ///< of a formula to find, where the author names them
  std::string substance;              ///< plain formula
  std::vector<std::string> reagents;  ///< plain formulas, and so are these two:
  std::vector<std::string> with, without;
  Quantity quantity;           ///< empty for all but a number
  std::optional<Unit> unit;    ///< as asked; otherwise the working unit
  std::optional<int> figures;  ///< "to 3 figures"
  std::optional<int> marks;
  Place place;
};

/// "n(NaCl)", "limiting reagent", "formula of iron(III) sulfate" ...: as it stands in a problem after the word find or show.
std::string plain(Find const& find);
/// Whether the answer is stated and not worked out: an equation, a name, a formula from a name, a precipitate, a reagent.
bool is_stated(Find::Kind kind);

/// What is done with numbered solutions.
struct Handling {
  enum class Kind { dilute, mix, evaporate };
  Kind kind = Kind::dilute;
  std::vector<int> from;  ///< one for dilute and evaporate, two or more for mix
  int to = 0;
  Place place;
};

/// A teacher's own answer, for checking.
struct StatedAnswer {
  Quantity quantity;
  Decimal number;
  Unit unit;
  Place place;
};

struct Reaction {
  std::string written;  ///< as the author wrote it
  Equation equation;    ///< as parsed; the solver balances it
  Place place;
};

/// A letter that is no element, where it first stands in a line: the A of HA. Whether it may is for the whole problem to tell.
struct UnknownLetter {
  char letter = 0;
  Fault fault;  ///< what is said where it may not
  Place place;
};

struct Problem {
  std::string id;
  std::string title;
  std::vector<Reaction> reactions;
  std::vector<Given> givens;
  std::string empirical;            ///< the empirical formula of the unknown, where it is given
  std::vector<std::string> excess;  ///< plain formulas
  std::vector<Find> finds;
  std::vector<Handling> handlings;
  std::vector<StatedAnswer> stated;
  std::vector<UnknownLetter> unknowns;
  std::string text;  ///< wording with {V(X)}, {name X}, {formula X}, {equation} ...; lines joined by \n
  Place place;
};

/// Visits the quantities that are given and asked for, to read or to change.
template <class Visit>
void each_quantity(Problem& problem, Visit visit) {
  for (auto& given : problem.givens) visit(given.quantity);
  for (auto& find : problem.finds)
    if (find.kind == Find::Kind::number) visit(find.quantity);
}

struct ProblemFile {
  std::vector<Problem> problems;  ///< what could be read; a problem with a fault is left out
  std::vector<PlacedFault> faults;
};

/// Reads a file of the problem language. A whole problem may stand on one line with `;` between its lines. Never throws; a fault
/// in one problem leaves the others. Fault ids: those of the readers of formulas, equations, numbers and units, and
/// "bad-statement", "unknown-statement", "not-positive", "wrong-unit", "too-many" (see statement.cpp), "text-not-closed",
/// "end-without-text".
ProblemFile parse_problems(std::string_view text);

/// One statement (`given V(HCl) = 24.65 - 1.20 mL`, `find m(AgCl) in g marks 3` ...) added to `problem`. `text` is one line
/// without its comment. The generators use it for templates whose variables have been put in.
std::optional<Fault> add_statement(Problem& problem, std::string_view text);

/// The readings of a mean or a difference as a table to print, a row a line, with tabs between the cells: the titrations as
/// columns; titres that follow from two readings are left blank. Nothing for a given of one number.
struct Conventions;
std::string table_of_readings(Given const& given, Conventions const& conventions);

/// The given that `{V(NaOH)}`, or `{V1}` where one substance has a V1, stands for in a wording; nullptr for none.
Given const* given_named(Problem const& problem, Quantity const& quantity);

/// What stands before the quantity in `{table V(HCl)}`, `{final m(NaCl)}` or `{initial m(NaCl)}`, with its blank: readings in a
/// table, the larger or the smaller of two. Empty for any other brace.
std::string_view part_of_readings(std::string_view inside);

/// The wording with every brace filled in: values and units as given, names and formulas as the course prints them. `working`
/// is that of the problem: what a question tells about an answer ({about Q}) comes from it. Faults: "unknown-in-text" with what
/// could stand there.
struct Working;
Result<std::string> wording(Problem const& problem, Conventions const& conventions, Working const* working = nullptr);

/// The problem in the problem language, ready to be read again.
std::string print(Problem const& problem);

}  // namespace molewright
