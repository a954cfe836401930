#pragma once
// How the slips are found in a working: what each node is, and where the groups of slips put what they find. For the slips_*.cpp
// files only.
#include <cstddef>
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "marker/slip.h"

namespace molewright {

/// What a node is, read once from its relation, so that no slip compares text.
enum class NodeKind {
  given,  ///< as printed
  reading,
  difference,
  titre,
  mean,
  conversion,
  atomic_weight,
  group_mass,
  molar_mass,
  coefficient,
  table_value,
  batches,
  limiting,
  mole_ratio,
  from_limiting,
  amount_in_solution,  ///< n = cV
  amount_of_mass,      ///< n = m/M
  dilution,            ///< c1V1 = c2V2
  water_added,         ///< V2 = V1 + V(added)
  left_over,           ///< n(left) = n - n(used)
  yield,
  entities,            ///< N = n N_A
  mass_over_volume,    ///< gamma = m/V
  mass_concentration,  ///< gamma = cM
  other
};

/// A working with what the slips ask of it.
class Anatomy {
 public:
  Anatomy(Worked const& problem_worked, Working const& one_working, Conventions const& course);

  Worked const& worked;
  Working const& working;
  Conventions const& conventions;

  int size() const { return static_cast<int>(working.nodes.size()); }
  Node const& node(int i) const { return working.nodes[static_cast<std::size_t>(i)]; }
  NodeKind kind(int i) const { return kinds_[static_cast<std::size_t>(i)]; }
  /// True where some answer rests on it: a slip anywhere else changes nothing.
  bool used(int i) const { return used_[static_cast<std::size_t>(i)]; }
  /// Printed in the question, whether as it stands, as a difference or as a mean.
  bool printed(int i) const;
  bool symbol(int i, std::string_view s) const { return node(i).quantity.symbol == s; }
  bool substance(int i, std::string_view s) const { return node(i).quantity.substance == s; }
  /// The answer of some find.
  bool is_answer(int i) const;
  /// Position among `i`'s terms of the first that has the symbol; -1 for none.
  int term_of(int i, std::string_view symbol) const;
  int term_of(int i, NodeKind kind) const;
  Term const& term(int i, int position) const { return node(i).definition.terms[static_cast<std::size_t>(position)]; }
  /// Node of the given kind and substance; -1 for none.
  int find(NodeKind kind, std::string_view substance) const;
  /// All of one kind, in order.
  std::vector<int> const& all(NodeKind kind) const { return by_kind_[static_cast<std::size_t>(kind)]; }

 private:
  std::vector<NodeKind> kinds_;
  std::vector<char> used_;
  std::vector<std::vector<int>> by_kind_;
};

/// Where the groups put what they find.
class Sink {
 public:
  Sink(Anatomy const& anatomy, std::vector<Application>& out) : anatomy_(anatomy), out_(out) {}
  /// One node defined otherwise; the feedback points at `at`, the node itself where it is left out.
  void node(Slip const* slip, int node, Definition definition, int at = -1, double way = 1);
  void nodes(Slip const* slip, int at, std::vector<NodeEdit> edits);
  /// The answer of a find read from another node.
  void answer(Slip const* slip, std::size_t find, int node, int at);
  void edits(Slip const* slip, int at, Edits edits, double way = 1);
  /// Whether a slip is there already that does just this: then it has a name of its own, and no general one is wanted.
  bool holds(int node, Definition const& definition) const;

 private:
  Anatomy const& anatomy_;
  std::vector<Application>& out_;
};

// Definitions made from another one.
Definition with_weight(Definition definition, int position, int weight);
Definition with_node(Definition definition, int position, int node);
Definition with_factor(Definition definition, Rational factor);
Definition without_term(Definition definition, int position);
Definition copy_of(int node);  ///< the value of another node, as it stands
Definition constant_of(Rational value);

// The groups. Each looks at one node, or at the whole working.
void conversion_slips(Anatomy const& anatomy, Sink& sink);
void amount_slips(Anatomy const& anatomy, Sink& sink);
void exchange_slips(Anatomy const& anatomy, Sink& sink);  ///< another solution's volume, concentration or substance
void molar_mass_slips(Anatomy const& anatomy, Sink& sink);
void hydrate_slips(Anatomy const& anatomy, Sink& sink);
void ratio_slips(Anatomy const& anatomy, Sink& sink);
void limiting_slips(Anatomy const& anatomy, Sink& sink);
void dilution_slips(Anatomy const& anatomy, Sink& sink);
void yield_slips(Anatomy const& anatomy, Sink& sink);
void relation_slips(Anatomy const& anatomy, Sink& sink);  ///< ions, purity, density, gases, heat, pH, solubility, mixtures
void operator_slips(Anatomy const& anatomy, Sink& sink);  ///< multiplied for divided, anywhere
void titration_slips(Anatomy const& anatomy, Sink& sink);
void copying_slips(Anatomy const& anatomy, Sink& sink);
void answer_slips(Anatomy const& anatomy, Sink& sink);
void rounding_slips(Anatomy const& anatomy, Sink& sink);  ///< of the writing and of what is carried on: left out of slip_table
void problem_slips(Anatomy const& anatomy, Sink& sink);   ///< solved again: left out where speed matters
/// Puts these and their answers behind what a table holds. What was solved once is not solved again for other numbers of a plan.
void add_problem_slips(SlipTable& table, Worked const& worked, Conventions const& conventions);

/// The atoms, groups and waters of a hydrate's molar mass: position of the water's term; -1 where the node is no hydrate.
int water_term(Anatomy const& anatomy, int molar_mass);

}  // namespace molewright
