#pragma once
// Turns derivations into the nodes of a working: givens, conversions, molar masses and relations, each once.
#include <map>
#include <string>
#include <vector>

#include "engine/conventions.h"
#include "engine/network.h"
#include "engine/stated.h"
#include "engine/working.h"

namespace molewright {

class WorkingBuilder {
 public:
  /// `stated`: for each find, the lines of one that is stated; empty for the others. It must outlive the builder.
  WorkingBuilder(Network const& network, Conventions const& conventions, std::vector<std::vector<Statement>> const& stated);

  /// Works every find of the problem with what the instances other than `banned` lead to; `derivation` is theirs. REQUIRES: each
  /// find can be had.
  Working build(std::vector<int> const& banned, Network::Derivation derivation);
  /// Instances that the last build used.
  std::vector<int> const& used() const { return used_; }
  /// What the last build worked out, each variable with the instance that it came by.
  std::vector<std::pair<int, int>> const& chain() const { return chain_; }

 private:
  int add(Node node);
  int realise(int variable);
  int realise_given(int variable);
  int realise_table(Variable const& variable);
  int realise_product(int variable, Instance const& instance);
  int realise_sum(int variable, Instance const& instance);
  int realise_pick(int variable, Instance const& instance);
  int realise_logarithm(int variable, Instance const& instance);
  int realise_neutral(int variable, Instance const& instance);
  int formula_node(Find const& find);
  int stated_node(std::vector<Statement> const& lines);
  Unit unit_of_choice(Instance const& instance);
  int choose_node(Instance const& instance);
  int molar_mass(std::string const& substance);
  int atomic_weight(std::string const& symbol);
  int group_mass(Group const& group);
  int coefficient(Quantity const& quantity);
  int in_unit(int node, Unit const& unit);
  std::vector<int> in_shared_units(int variable, Instance const& instance, std::vector<int> nodes, Unit& result);
  void add_what_slips_need();
  void order_nodes();
  Node& node(int index) { return working_.nodes[static_cast<std::size_t>(index)]; }
  Quantity const& quantity(int variable) const { return network_.variables()[static_cast<std::size_t>(variable)].quantity; }

  Network const& network_;
  Conventions const& conventions_;
  std::vector<std::vector<Statement>> const& stated_;
  Network::Derivation derivation_;
  Working working_;
  std::map<std::string, int> by_id_;
  std::map<int, int> by_variable_;
  std::vector<int> used_;
  std::vector<std::pair<int, int>> chain_;
};

/// Rank of a node in a working: constants and givens 0, molar masses 1, what is worked out 2.
int rank_of(Node const& node);

}  // namespace molewright
