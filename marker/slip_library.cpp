#include "marker/slip_library.h"

#include <algorithm>
#include <array>

#include "engine/relation_table.h"

namespace molewright {
namespace {

constexpr std::size_t number_of_kinds = static_cast<std::size_t>(NodeKind::other) + 1;

NodeKind kind_of(std::string const& relation) {
  struct Row {
    RelationForm relation;
    NodeKind kind;
  };
  static constexpr std::array rows{
      Row{relations::atomic_weight, NodeKind::atomic_weight},
      Row{relations::coefficient, NodeKind::coefficient},
      Row{relations::molar_mass, NodeKind::molar_mass},
      Row{relations::given, NodeKind::given},
      Row{relations::convert, NodeKind::conversion},
      Row{"n = cV", NodeKind::amount_in_solution},
      Row{"n = m/M", NodeKind::amount_of_mass},
      Row{relations::mole_ratio, NodeKind::mole_ratio},
      Row{relations::reading, NodeKind::reading},
      Row{relations::difference, NodeKind::difference},
      Row{relations::titre, NodeKind::titre},
      Row{relations::mean, NodeKind::mean},
      Row{relations::group_mass, NodeKind::group_mass},
      Row{relations::table_value, NodeKind::table_value},
      Row{relations::course_value, NodeKind::table_value},
      Row{relations::batches, NodeKind::batches},
      Row{relations::limiting, NodeKind::limiting},
      Row{relations::from_limiting, NodeKind::from_limiting},
      Row{"c1V1 = c2V2", NodeKind::dilution},
      Row{"gamma1V1 = gamma2V2", NodeKind::dilution},
      Row{"phi1V1 = phi2V2", NodeKind::dilution},
      Row{"V2 = V1 + V(added)", NodeKind::water_added},
      Row{"n(left) = n - n(used)", NodeKind::left_over},
      Row{"V(left) = V - V(used)", NodeKind::left_over},
      Row{"yield = actual/theoretical", NodeKind::yield},
      Row{"N = n N_A", NodeKind::entities},
      Row{"gamma = m/V", NodeKind::mass_over_volume},
      Row{"gamma = cM", NodeKind::mass_concentration},
  };
  for (auto const& row : rows)
    if (relation == row.relation) return row.kind;
  return NodeKind::other;
}
}  // namespace

Anatomy::Anatomy(Worked const& problem_worked, Working const& one_working, Conventions const& course)
    : worked(problem_worked), working(one_working), conventions(course), by_kind_(number_of_kinds) {
  auto const count = working.nodes.size();
  kinds_.reserve(count);
  for (std::size_t i = 0; i < count; ++i) {
    kinds_.push_back(kind_of(working.nodes[i].relation));
    by_kind_[static_cast<std::size_t>(kinds_.back())].push_back(static_cast<int>(i));
  }
  used_.assign(count, 0);
  for (auto const& answer : working.finds) used_[static_cast<std::size_t>(answer.node)] = 1;
  for (std::size_t i = count; i-- > 0;) {  // a node reads only nodes before it
    if (!used_[i]) continue;
    for (auto const& term : working.nodes[i].definition.terms) used_[static_cast<std::size_t>(term.node)] = 1;
  }
}

bool Anatomy::printed(int i) const {
  auto const k = kind(i);
  return k == NodeKind::given || k == NodeKind::difference || k == NodeKind::mean;
}

bool Anatomy::is_answer(int i) const {
  return std::any_of(working.finds.begin(), working.finds.end(), [&](Answer const& answer) { return answer.node == i; });
}

int Anatomy::term_of(int i, std::string_view wanted) const {
  auto const& terms = node(i).definition.terms;
  for (std::size_t t = 0; t < terms.size(); ++t)
    if (symbol(terms[t].node, wanted)) return static_cast<int>(t);
  return -1;
}

int Anatomy::term_of(int i, NodeKind wanted) const {
  auto const& terms = node(i).definition.terms;
  for (std::size_t t = 0; t < terms.size(); ++t)
    if (kind(terms[t].node) == wanted) return static_cast<int>(t);
  return -1;
}

int Anatomy::find(NodeKind wanted, std::string_view formula) const {
  for (int const i : all(wanted))
    if (substance(i, formula)) return i;
  return -1;
}

void Sink::node(Slip const* slip, int node, Definition definition, int at, double way) {
  Edits edits;
  edits.emplace_back(NodeEdit{node, std::move(definition)});
  this->edits(slip, at < 0 ? node : at, std::move(edits), way);
}

void Sink::nodes(Slip const* slip, int at, std::vector<NodeEdit> edits) {
  Edits all;
  all.reserve(edits.size());
  for (auto& edit : edits) all.emplace_back(std::move(edit));
  this->edits(slip, at, std::move(all));
}

void Sink::answer(Slip const* slip, std::size_t find, int node, int at) {
  Edits edits;
  edits.emplace_back(AnswerEdit{find, node});
  this->edits(slip, at, std::move(edits));
}

void Sink::edits(Slip const* slip, int at, Edits edits, double way) {
  Application application;
  application.slip = slip;
  application.node = anatomy_.node(at).id;
  application.edits = std::move(edits);
  application.way = way;
  out_.push_back(std::move(application));
}

bool Sink::holds(int node, Definition const& definition) const {
  auto const same_terms = [](Term const& a, Term const& b) { return a.node == b.node && a.weight == b.weight; };
  return std::any_of(out_.begin(), out_.end(), [&](Application const& one) {
    auto const* edit = one.edits.size() == 1 ? std::get_if<NodeEdit>(&one.edits.front()) : nullptr;
    if (edit == nullptr || edit->node != node) return false;
    Definition const& other = edit->definition;
    return other.operation == definition.operation && other.root == definition.root && other.factor == definition.factor &&
           std::equal(other.terms.begin(), other.terms.end(), definition.terms.begin(), definition.terms.end(), same_terms);
  });
}

Definition with_weight(Definition definition, int position, int weight) {
  definition.terms[static_cast<std::size_t>(position)].weight = weight;
  return definition;
}

Definition with_node(Definition definition, int position, int node) {
  definition.terms[static_cast<std::size_t>(position)].node = node;
  return definition;
}

Definition with_factor(Definition definition, Rational factor) {
  definition.factor = std::move(factor);
  return definition;
}

Definition without_term(Definition definition, int position) {
  definition.terms.erase(definition.terms.begin() + position);
  return definition;
}

Definition copy_of(int node) {
  Definition definition;
  definition.operation = Operation::product;
  definition.terms.push_back(Term{node, 1});
  return definition;
}

Definition constant_of(Rational value) {
  Definition definition;
  definition.factor = std::move(value);
  return definition;
}

}  // namespace molewright
