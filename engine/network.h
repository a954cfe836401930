#pragma once
// The quantities of one problem and the relations that hold among them: what the solver searches.
#include <cstdint>
#include <map>
#include <optional>
#include <set>
#include <span>
#include <string>
#include <vector>

#include "engine/conventions.h"
#include "engine/problem.h"
#include "engine/relation_table.h"

namespace molewright {

/// A variable in a relation, with its exponent or multiplier, and the unit it is worked in there, that of the relation's table
/// (empty: its symbol's own).
struct InstanceTerm {
  int variable = 0;
  int weight = 1;
  std::string_view unit = {};
};

/// One relation between some of the variables.
struct Instance {
  enum class Kind {
    product,    ///< product of variable^weight = factor, each in its unit
    sum,        ///< sum of weight * variable = 0
    pick,       ///< terms[0] follows from the limiting one among terms[1...]: amounts of the reactants that may limit
    logarithm,  ///< terms[0] = -lg(terms[1]), in mol/L
    constant    ///< terms[0] = factor, where the amounts terms[1...] are in the ratio of the equation
  };
  Kind kind = Kind::product;
  std::string_view relation;  ///< the form of an entry of the table of relations
  std::vector<InstanceTerm> terms;
  Rational factor{1};
  std::vector<int> targets;  ///< variables it may be solved for
  bool same_units = false;   ///< quantities of one symbol share a unit, whichever it is; otherwise each is in its working unit
  int cost = 10;
  std::size_t reaction = 0;  ///< for pick and mole ratio
};

struct Variable {
  Quantity quantity;
  int given = -1;      ///< index into the problem's givens
  bool table = false;  ///< known without being given: molar mass, coefficient, N_A, a basis
};

/// The species of a reaction as plain formulas, in the order of its equation.
class SpeciesOfReaction {
 public:
  explicit SpeciesOfReaction(Equation const& equation);
  std::span<std::string const> all() const { return all_; }
  std::span<std::string const> reactants() const { return all().first(reactants_); }
  std::span<std::string const> products() const { return all().subspan(reactants_); }

 private:
  std::vector<std::string> all_;
  std::size_t reactants_;
};

class Network {
 public:
  /// `problem` is as parsed; substances left out are filled in, one dilution of solutions 1 and 2 is supplied where nothing is
  /// said. Reactions must be balanced. `molar_gas_volume` is the course's: it holds for the gases of a problem that states
  /// neither p, T nor Vm; nullptr for none.
  explicit Network(Problem problem, Measured const* molar_gas_volume = nullptr);

  Problem const& problem() const { return problem_; }
  /// The quantity as the network knows it: m(X, theoretical) is m(X), m(X) of a diluted stock is m1(X).
  Quantity canonical(Quantity quantity) const;
  int find(Quantity const& canonical) const;  ///< -1 where it is no quantity of this problem
  std::vector<Variable> const& variables() const { return variables_; }
  std::vector<Instance> const& instances() const { return instances_; }
  /// Taken as known from outside; for asking what would be enough. Call before add_reactions.
  void suppose(int variable) { variables_[static_cast<std::size_t>(variable)].table = true; }
  /// The opposite: as if it were not given.
  void forget(int variable) { variables_[static_cast<std::size_t>(variable)].given = -1; }
  /// Adds the relations of the reactions: for each, one known species or a limiting reagent settles the others.
  void add_reactions();
  /// Adds m(B) = m(A) * nu(B) M(B) / (nu(A) M(A)), for other accepted workings.
  void add_mass_ratios();
  /// An acid and a base that have reacted: which of them is left settles the pH. Formula of the one left, or empty where both are
  /// used up. REQUIRES: reacts_to_a_pH().
  void settle_acidity(std::string const& left);
  /// The acid and the base whose reaction the asked pH, pOH, c(H^+) or c(OH^-) rests on; nothing where there is none.
  struct AcidBase {
    std::size_t reaction = 0;
    std::string acid, base;
  };
  std::optional<AcidBase> acid_and_base() const;

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
  /// The find that asks for a formula, nullptr for none; and the elements, or salt and water, that it is made of.
  Find const* formula_find() const;
  std::vector<std::string> const& formula_parts() const { return formula_parts_; }
  /// Whether each of several reactions uses what another forms, and nothing but the order of their lines tells which comes first.
  bool order_as_written() const { return order_as_written_; }
  /// Whether what is left is asked of a substance that two reactions use, and it is not clear which of them leaves it; or the
  /// yields are numbered as reactions are written that run in another order.
  bool order_unclear() const { return order_unclear_; }
  /// The product whose yield was given as that of the reaction, with no product named; empty for none.
  std::string const& product_of_yield() const { return product_of_yield_; }
  /// The substances whose solutions come together: those that react, or those that are poured into one mixture.
  std::vector<std::string> const& mixed() const { return reacting_volumes_; }
  /// The molar mass of the unknown that a molecular formula is asked of: M(X); -1 where the problem has none.
  int molar_mass_asked() const;
  SpeciesOfReaction const& species(std::size_t reaction) const { return species_[reaction]; }
  /// Reaction in which a substance stands, or npos.
  std::size_t reaction_of(std::string const& substance) const;
  /// The ion of a substance that a reaction uses, where it shows the ion alone: OH^- of NaOH. Empty for none.
  std::string ion_used_of(std::size_t reaction, std::string const& substance) const;
  /// The exact number of a table variable that is neither a molar mass nor a coefficient: a constant, a basis.
  std::optional<Rational> constant(Quantity const& quantity) const;
  /// Whether it is the density of a solution that is taken to be that of water: rho(solution).
  bool is_density_of_water(Quantity const& quantity) const;
  /// Whether it is the mass fraction of a whole hydrate, which is 100 %: w(hydrate).
  bool is_whole_fraction(Quantity const& quantity) const;
  /// The course's value of a quantity that the problem leaves to the course; nullptr for none.
  Measured const* course_value(Quantity const& quantity) const;

 private:
  // network.cpp: the graph itself
  std::size_t place_in_index(Quantity const& quantity) const;
  bool is_reactant(std::size_t reaction, std::string_view substance) const;
  int add(Quantity const& quantity);
  int add(Symbol symbol, std::string const& substance, int stage = 0, char const* word = "");
  Instance& add_product(RelationForm form, std::vector<InstanceTerm> terms, int cost = 10, bool same_units = false,
                        Rational factor = Rational(1));
  Instance& add_sum(RelationForm form, std::vector<InstanceTerm> terms, int cost = 10);
  Instance& add_relation(Relation const& relation, Instance::Kind kind, std::vector<InstanceTerm> terms, int cost);
  bool is_named(Quantity const& quantity) const;
  bool is_named(Symbol symbol, std::string_view substance, std::string_view word = {}) const;  ///< with no number
  bool speaks_of(Symbol symbol, std::string const& substance) const;                           ///< at any stage, with any word
  bool speaks_of(Symbol symbol) const;

  // network_order.cpp
  void resolve_order();

  // network_reading.cpp: what the problem leaves unsaid
  void resolve_substances();
  void resolve_words();
  void resolve_unknown_water();
  void resolve_weighings();
  void resolve_idle_numbers();
  void resolve_made_up();
  void resolve_oxides();
  void resolve_flask_words();
  void resolve_diluted_sample();
  enum class MadeUp { sample, with_excess, unclear };
  MadeUp made_up_in_flask() const;
  void resolve_excess_made_up();
  void resolve_impure();
  std::string substance_of_sample(std::string const& sample) const;
  std::vector<std::string> shared_by_reactions() const;
  bool is_in_excess(std::string const& substance) const;
  void resolve_unknown();
  void resolve_unknown_reactant();
  void resolve_ions_left();
  void resolve_vessel();
  void take_density_of_water();
  void resolve_solutes();
  void resolve_named_solution();
  void resolve_numbered_yields();
  void resolve_left_out();
  void resolve_elements();
  void resolve_aliquot();
  void resolve_heat();
  void resolve_yields();
  bool any_named_symbol(Symbol symbol) const;

  // network_subjects.cpp: one substance
  void survey();
  bool is_part_of_another(std::string const& substance) const;
  bool is_crystals_of_another(std::string const& substance) const;
  void take_molar_volume_of_course(Measured const& volume);
  bool is_dissolved(std::string const& substance) const;
  void add_subjects();
  void add_subject(std::string const& substance, int stage, std::string const& word);
  /// One portion of a substance, and what decides which relations hold for it.
  struct Subject {
    std::string const& substance;
    int stage;
    std::string const& word;
    bool molar = false, gas = false, pure = false;
    Quantity volume = {};  ///< of the solution that it is in
  };
  Subject subject(std::string const& substance, int stage, std::string const& word) const;
  bool applies(Applies applies, Subject const& subject) const;
  bool has_own_sample(std::string const& substance) const;
  Quantity term_quantity(RelationTerm const& term, Subject const& subject) const;
  Quantity volume_of_rest(std::string const& substance) const;
  bool is_gas(std::string const& substance) const;
  bool may_be_a_gas(std::string const& substance) const;
  bool react_as_gases(std::vector<std::string> const& substances) const;
  State written_state(std::string const& substance) const;
  bool is_dissolved_gas(std::string const& substance) const;
  bool has_density_of_a_liquid(std::string const& substance) const;
  bool is_pure(std::string const& substance) const;
  Quantity solution_volume(std::string const& substance, int stage) const;
  std::string solution_that_brings(std::string const& substance) const;
  Quantity whole(Symbol symbol) const;
  Quantity whole_volume() const;

  // network_wholes.cpp: the whole that substances are part of, and a basis
  void add_wholes();
  bool only_some_parts() const;
  void add_heat();
  void add_reaction_enthalpy(std::size_t reaction, std::string const& substance, int amount);
  void add_basis();

  // network_handling.cpp: what is done with solutions
  void gather_stages();
  bool present(std::string const& substance, int stage) const;
  void add_handling(Handling const& handling, bool only_dilution);
  void add_mixed_masses(Handling const& handling);
  void add_mixing_ratios(Handling const& handling);
  void add_mixing_ratio(Handling const& handling, Symbol share, std::string const& solute, Symbol portion,
                        std::string const& solution);
  Quantity taken(std::string const& substance, int stage) const;
  int first_stage(std::string const& substance) const;
  int last_stage(std::string const& substance) const;
  std::optional<Quantity> aliquot_of(std::string const& substance) const;
  void add_aliquots();
  void add_mixture();

  // network_gases.cpp: a gas before and after
  bool has_two_gas_states();
  void number_first_states();
  void add_gas_states();

  // network_formulas.cpp: a formula from data, or with an unknown in it
  void gather_parts();
  void take_compound_as_whole();
  void add_formula_parts();
  void add_masses_of_unknowns();
  void add_conserved_masses();
  void add_weighings();

  // network_ions.cpp: parts of a substance, ions in solution, acidity, solubility
  void add_parts();
  Quantity portion_that_reacts(std::string const& substance) const;
  void add_ions_of_salts();
  void add_salts_of_acids();
  void add_composition(Quantity const& fraction);
  void add_acidity();
  bool neutralises_ions() const;
  bool is_water_beside_crystals() const;
  bool is_acid_or_base_to_react(std::string const& substance) const;
  void add_acidity_before(std::string const& substance);
  void add_ions_of_water(std::string const& ion, int stage);
  void add_solubility_products();
  void add_solubility_product(std::string const& solid);
  void add_ion_of_mixture(std::string const& ion);
  Rational portion_of(std::string const& part, std::string const& substance) const;
  std::vector<std::string> sources_of(std::string const& part) const;
  void leave_out_elements(std::vector<std::string>& sources) const;
  std::string counted_for(std::string const& ion, std::string const& substance) const;
  int count_of(std::string const& part, std::string const& whole);

  // network_reactions.cpp
  int coefficient(std::size_t reaction, std::string const& substance);
  void add_hydrates();
  void add_yields();
  Quantity share_in(std::size_t reaction, std::string const& substance) const;
  void add_totals();
  void add_gas_ratios(std::size_t reaction);
  bool rests_count() const;
  bool asks_acidity() const;
  void add_leftovers(std::size_t reaction, bool rests_count);
  bool is_asked(char const* word, std::string const& substance) const;
  bool add_reaction(std::size_t reaction);
  bool is_crystal_water(std::string const& substance) const;
  bool leads_to(std::size_t reaction, std::size_t later) const;
  bool comes_back(std::size_t reaction, std::string const& substance) const;
  bool is_left_by_earlier(std::size_t reaction, std::string const& substance) const;
  bool is_shared(std::size_t reaction, std::string const& substance) const;
  bool goes_on(std::size_t reaction, std::string const& substance) const;
  void add_limited(std::size_t reaction, std::vector<std::string> const& limiting);
  bool is_dissolving(std::size_t reaction) const;
  Quantity amount_in(std::size_t reaction, std::string const& substance) const;

  Problem problem_;
  std::vector<SpeciesOfReaction> species_;  ///< of each reaction
  bool numbered_densities_ = false;         ///< rho1, rho2 of numbered solutions told by their shares
  bool order_as_written_ = false, order_unclear_ = false;
  std::vector<Variable> variables_;
  std::vector<int> index_;  ///< of variables, each where its quantity's hash or the next free place is; -1: free
  std::vector<Instance> instances_;
  std::vector<std::vector<std::string>> limiting_;
  std::vector<bool> reaction_added_;
  std::map<std::string, std::size_t> made_by_;  ///< product -> the number, from 1, of the reaction that makes it
  std::set<std::string> from_product_;          ///< reactants of which a measured product tells how much was used
  std::vector<std::string> staged_;             ///< substances with numbered solutions
  std::map<int, std::string> stage_volume_;     ///< whose V a numbered solution's volume is written as
  std::vector<std::string> substances_;         ///< every formula that the problem speaks of, in its order
  std::vector<std::string> reacting_volumes_;   ///< reactants whose solutions' volumes add up to that of the mixture
  std::vector<std::string> solids_;             ///< whose solubility or solubility product is spoken of
  std::vector<std::string> components_;         ///< what a whole is made of; no more than one whole to a problem
  std::vector<std::string> formula_parts_;      ///< in the order in which the formula is to show them
  std::string whole_;                           ///< "solution", "sample" ...; empty for none
  std::vector<std::string> shares_;             ///< parts that a fraction of a whole is stated as: P2O5 of a fertiliser
  std::vector<std::string> vessels_;            ///< that something is weighed in
  std::string salt_of_hydrate_;                 ///< of CuSO4·xH2O, where it is written so; empty for none
  std::string warmed_;                          ///< what a heat capacity is given of, where that is weighed; empty for none
  std::string solvent_;                         ///< formula; empty for none
  std::string product_of_yield_;                ///< that a yield without a product was taken to be of
  std::string hydron_ = "H^+";                  ///< as the problem writes it: H^+ or H3O^+
  bool gases_ = false;                          ///< p, T or Vm stand in the problem
  bool any_molar_volume_ = false;               ///< gases at one temperature and pressure, no matter which
  bool gas_mixture_ = false;                    ///< several gases in one vessel
  bool heat_of_reaction_ = false;               ///< q is stated with the sign of the enthalpy
  bool gas_amount_changes_ = false;             ///< some of it is added or let out
  bool dense_as_water_ = false;                 ///< a solution with a trace of something in it, whose density is not told
  bool gas_states_ = false;                     ///< one portion of gas, before and after
  std::optional<std::pair<Quantity, Rational>> basis_;
  std::optional<Measured> molar_volume_of_course_;  ///< where a gas of this problem needs it
  std::vector<std::string> gases_of_course_;        ///< the gases that it is for
};

/// "solution", "sample", "alloy": a whole that has no formula. X and HA are substances.
inline bool is_whole(std::string const& substance) { return !substance.empty() && substance[0] >= 'a' && substance[0] <= 'z'; }

/// By its charge, as in Ag^+.
inline bool is_ion(std::string const& substance) { return substance.find('^') != std::string::npos; }

/// Ions or atoms together are no whole with parts, and no substance.
inline bool counts_entities(std::string const& substance) { return substance == "ions" || substance == "atoms"; }

/// Of quantities that belong to a solution or a portion of a substance.
inline bool is_of_portions(Symbol symbol) {
  return symbol == "n" || symbol == "m" || symbol == "N" || symbol == "V" || symbol == "c" || symbol == "gamma" || symbol == "M";
}

/// How many of `part` (an element, an ion) one formula unit of `whole` holds: 2 of NO3^- in Mg(NO3)2, 10 of H in C4H10, 1 of
/// Pb^2+ in Pb. 0 where it holds none, or would not set it free (H^+ of a weak acid).
std::int64_t count_in(std::string const& part, std::string const& whole);

/// The same, and how many of an oxide the whole's atoms would make, oxygen not counted: 1/2 of K2O in KNO3, 1 of P2O5 in
/// Ca3(PO4)2, as fertilisers and glasses are declared.
Rational portion_in(std::string const& part, std::string const& whole);

}  // namespace molewright
