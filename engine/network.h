#pragma once
// The quantities of one problem and the relations that hold among them: what the solver searches.
#include <map>
#include <optional>
#include <string>
#include <vector>

#include "engine/conventions.h"
#include "engine/problem.h"

namespace molewright {

/// One relation between some of the variables.
struct Instance {
  enum class Kind {
    product,  ///< product of variable^weight = factor, in working units
    sum,      ///< sum of weight * variable = 0
    pick      ///< terms[0] follows from the limiting one among terms[1...]: amounts of the reactants that may limit
  };
  Kind kind = Kind::product;
  std::string relation;
  std::vector<std::pair<int, int>> terms;  ///< variable, weight
  Rational factor{1};
  std::vector<int> targets;  ///< variables it may be solved for
  bool same_units = false;   ///< quantities of one symbol share a unit, whichever it is; otherwise each is in its working unit
  int cost = 10;
  std::size_t reaction = 0;  ///< for pick and mole ratio
};

struct Variable {
  Quantity quantity;
  int given = -1;      ///< index into the problem's givens
  bool table = false;  ///< known without being given: molar mass, coefficient, N_A
};

class Network {
 public:
  /// `problem` is as parsed; substances left out are filled in, one dilution of solutions 1 and 2 is supplied where nothing is
  /// said. Reactions must be balanced.
  explicit Network(Problem const& problem);

  Problem const& problem() const { return problem_; }
  /// The quantity as the network knows it: m(X, theoretical) is m(X), m(X) of a diluted stock is m1(X).
  Quantity canonical(Quantity quantity) const;
  int find(Quantity const& canonical) const;  ///< -1 where it is no quantity of this problem
  std::vector<Variable> const& variables() const { return variables_; }
  std::vector<Instance> const& instances() const { return instances_; }
  /// Taken as known from outside; for asking what would be enough. Call before add_reactions.
  void suppose(int variable) { variables_[static_cast<std::size_t>(variable)].table = true; }
  /// Adds the relations of the reactions: for each, one known species or a limiting reagent settles the others.
  void add_reactions();
  /// Adds m(B) = m(A) * nu(B) M(B) / (nu(A) M(A)), for other accepted workings.
  void add_mass_ratios();

  /// How to come by each variable in the fewest steps.
  struct Derivation {
    std::vector<int> cost;  ///< -1: cannot be had
    std::vector<int> via;   ///< instance, or -1 for given and table values
    bool known(int variable) const { return cost[static_cast<std::size_t>(variable)] >= 0; }
  };
  /// `banned` instances are not used; `free` variables cost nothing (they are already worked).
  Derivation derive(std::vector<int> const& banned = {}, std::vector<int> const& free = {}) const;

  /// Formulas that may limit in a reaction; empty where one species settles all.
  std::vector<std::vector<std::string>> const& limiting() const { return limiting_; }
  /// The choice that `find limiting reagent` asks for, that of the first reaction with one; nullptr where none limits.
  Instance const* limiting_choice() const;
  /// Reaction in which a substance stands, or npos.
  std::size_t reaction_of(std::string const& substance) const;

 private:
  int add(Quantity const& quantity);
  int coefficient(std::size_t reaction, std::string const& substance);
  void add_subject(std::string const& substance, int stage, std::string const& word);
  void add_handling(Handling const& handling, bool only_dilution);
  bool is_named(Quantity const& quantity) const;
  void add_hydrates();
  void add_yields();
  bool add_reaction(std::size_t reaction);
  void add_limited(std::size_t reaction, std::vector<std::string> const& limiting);
  void add_product(std::string relation, std::vector<std::pair<int, int>> terms, int cost, bool same_units = false,
                   Rational factor = Rational(1));
  void add_sum(std::string relation, std::vector<std::pair<int, int>> terms, int cost);
  void resolve_substances();
  Quantity taken(std::string const& substance, int stage) const;

  Problem problem_;
  std::vector<Variable> variables_;
  std::map<Quantity, int> index_;
  std::vector<Instance> instances_;
  std::vector<std::vector<std::string>> limiting_;
  std::vector<bool> reaction_added_;
  std::vector<std::string> staged_;  ///< substances with numbered solutions
};

}  // namespace molewright
