#pragma once
// A working: a graph of nodes for all parts of a question. Everything else reads it: solution, key, marks, slips.
#include <boost/container/small_vector.hpp>
#include <optional>
#include <string>
#include <vector>

#include "engine/decimal.h"
#include "engine/quantity.h"
#include "engine/rational.h"
#include "engine/unit.h"

namespace molewright {

struct Value {
  Rational number;  ///< in `unit`
  Unit unit;
  std::optional<int> last_place;  ///< power of ten of the last sure digit; none: exact (counted, defined, from a table)
};

enum class Operation {
  constant,     ///< the factor itself
  product,      ///< factor * product of node^weight, or the root of it of degree `root`, to 50 digits where it does not end
  sum,          ///< factor * sum of weight * node
  choose,       ///< index (from 0) of the smallest of its nodes; the first on a tie
  pick,         ///< first term: a choose node; the value is that of the node standing at the chosen index among the further terms
  logarithm,    ///< factor * lg(its one node), to 50 digits; exact where the node is a power of ten
  proportion,   ///< the smallest whole number that makes the ratio of its nodes whole: 2 for 1 : 1.5
  multiple,     ///< how often the formula of its second node, a proportion, goes into the molar mass that is its first; then the
                ///< molar masses of the parts
  exponential,  ///< factor * 10^(sum of weight * node), to 50 digits; exact for a whole exponent
  stated        ///< no number: what `says` holds, an equation, a name, a formula; its nodes are the lines that lead to it
};

struct Term {
  int node = 0;
  int weight = 1;  ///< exponent in a product, multiplier in a sum
};

/// Few, most often: they stand in place then.
using Terms = boost::container::small_vector<Term, 4>;

/// How a node comes from others. A slip is another definition put in its place.
struct Definition {  // NOLINT(bugprone-exception-escape): a few terms moved in place allocate nothing
  Operation operation = Operation::constant;
  Terms terms;
  Rational factor{1};
  int root = 1;  ///< for a product
};

/// Whether a definition is a step to be worked and written down: a number out of others, or the choice of what limits.
inline bool is_a_step(Definition const& definition) {
  switch (definition.operation) {
    case Operation::product:
    case Operation::sum:
    case Operation::logarithm:
    case Operation::exponential:
    case Operation::choose:
      return true;
    default:
      return false;
  }
}

struct Node {            // NOLINT(bugprone-exception-escape): a few terms moved in place allocate nothing
  std::string id;        ///< stable: "n(AgCl)", "V(BaCl2) in L", "M(AgCl)", "A(Ag)", "nu(AgCl)", "limiting reagent"
  std::string relation;  ///< form of an entry of the relation table: "n = cV", or one of namespace relations below
  Quantity quantity;     ///< what the node is a value of
  Definition definition;
  Value value;
  std::string says = {};  ///< of a stated node, plain: "4Fe + 3O2 -> 2Fe2O3", "iron(III) sulfate", "none"
};

/// Relations that hold the graph together; their entries stand in the table of relations.
namespace relations {
inline constexpr char const* given = "given";              ///< as printed in the question (constant, product or sum of readings)
inline constexpr char const* reading = "reading";          ///< one reading of a difference or a mean (constant)
inline constexpr char const* difference = "difference";    ///< first reading - second
inline constexpr char const* titre = "titre";              ///< one titre of a mean: its final reading - its initial one
inline constexpr char const* mean = "mean";                ///< of the readings or titres that count
inline constexpr char const* convert = "unit conversion";  ///< product of one node and the factor
inline constexpr char const* atomic_weight = "atomic weight";  ///< constant from the course's table
inline constexpr char const* group_mass = "mass of a group";   ///< sum over a bracket or a hydrate part, for one such group
inline constexpr char const* molar_mass =
    "molar mass";  ///< sum over the formula; terms in the order written, groups and H2O as nodes of their own
inline constexpr char const* coefficient = "coefficient";           ///< constant from the balanced equation
inline constexpr char const* count = "number in the formula";       ///< constant: how many of a part one formula unit holds
inline constexpr char const* table_value = "constant";              ///< N_A and the like
inline constexpr char const* course_value = "value of the course";  ///< constant that the course states: its Vm
inline constexpr char const* basis = "basis";                       ///< a round amount to work with, where any would do
inline constexpr char const* batches = "n/nu";               ///< amount over coefficient, one for each reactant that may limit
inline constexpr char const* limiting = "limiting reagent";  ///< choose over the batches
inline constexpr char const* mole_ratio = "mole ratio";      ///< n(B) = n(A) * nu(B) / nu(A): terms n(A), nu(B), nu(A)
inline constexpr char const* density_of_water = "density of water";
inline constexpr char const* given_formula = "empirical formula, given";
inline constexpr char const* empirical_formula = "empirical formula";      ///< proportion of the amounts of the elements
inline constexpr char const* molecular_formula = "molecular formula";      ///< multiple of the empirical one
inline constexpr char const* hydrate_formula = "formula of the hydrate";   ///< proportion of salt and water
inline constexpr char const* from_limiting = "from the limiting reagent";  ///< pick over the mole-ratio nodes of each reactant
// Stated nodes; those marked * only lead to another.
inline constexpr char const* skeleton = "equation without numbers";    ///< * formulas of both sides
inline constexpr char const* balanced_equation = "balanced equation";  ///< the molecular equation
inline constexpr char const* full_ionic = "full ionic equation";       ///< *
inline constexpr char const* spectators = "spectator ions";            ///< * formulas, ", " between
inline constexpr char const* net_ionic = "net ionic equation";
inline constexpr char const* ion = "ion";                                 ///< * of the quantity's substance: how many, "2"
inline constexpr char const* crystal_water = "water of crystallisation";  ///< * how many, "5"
inline constexpr char const* name = "name";
inline constexpr char const* formula = "formula";
inline constexpr char const* in_water = "in water";        ///< * of the quantity's substance: "soluble", "insoluble"
inline constexpr char const* precipitate = "precipitate";  ///< formulas, ", " between, or "none"
inline constexpr char const* on_mixing =
    "on mixing";  ///< * of a reagent (the quantity's substance) with a salt (its part): as a precipitate
inline constexpr char const* reagent = "choice of reagent";
inline constexpr char const* nothing = "none";  ///< what is said where nothing forms or reacts
}  // namespace relations

/// What is handed in for one find.
struct Answer {
  int node = 0;           ///< in the asked unit; for a limiting reagent the choose node
  int figures = 0;        ///< to be given; 0 where the answer is not a number
  int place = 0;          ///< power of ten of its last figure
  bool by_place = false;  ///< the last step is a sum: rounded to the place, not to the figures
  std::string text;       ///< printed: "1.72" (plain), the formula of the limiting reagent, what a stated node says
  /// How many decimal places are due, for what is rounded to a place at or behind the point.
  std::optional<int> decimal_places() const { return by_place && place <= 0 ? std::optional(-place) : std::nullopt; }
};

/// An exact answer whose decimals do not end is given to so many.
inline constexpr int figures_of_unending = 6;

struct Working {
  std::vector<Node> nodes;                    ///< each reads only nodes before it; constants, molar masses first
  std::vector<Answer> finds;                  ///< in the order of the problem's finds
  std::vector<std::string> chosen;            ///< formulas that the indices of the first choose node stand for
  std::vector<std::vector<int>> given_nodes;  ///< for each given of the problem, the constants that hold its numbers
  int find_node(std::string_view id) const;   ///< -1 where there is none
};

/// Whether a stated node only leads to another one (those marked * above).
bool leads_on(Node const& node);

/// Formula of the reagent that a choose node names. REQUIRES: the node chooses.
std::string const& chosen_formula(Working const& working, Node const& node);

/// How many of each part the formula that a proportion (or a multiple) node stands for holds, in the order of its nodes.
std::vector<std::int64_t> counts_of_parts(Working const& working, Node const& node);
/// "C7H6O", "Fe2O3", "NaHCO3", "MgSO4·7H2O": in the usual order, whichever the data have. REQUIRES: as for the counts.
std::string found_formula(Working const& working, Node const& node);

/// What a question tells of the answer to a find of the form "show": rounded to two figures, or to one where it has two itself.
/// Its digits are its figures. REQUIRES: the answer is a number.
Decimal told_value(Working const& working, std::size_t find, Ties ties);

/// Fills every value, with its last place, and every answer from the constants and definitions. Figures: product and quotient
/// keep the fewest, sum and difference the coarsest place, exact values never limit (rounding rules: ASTM E29; NIST SP 811 B.7).
/// Returns false for a zero divisor; the working is then not to be used.
bool evaluate(Working& working, Ties ties, std::vector<std::optional<int>> const& asked_figures);

/// Nodes that the answer of find `f` rests on, in the order a person would write them (a molar mass just before its first use),
/// the answer's node last.
std::vector<int> order_of_work(Working const& working, std::size_t find);

}  // namespace molewright
