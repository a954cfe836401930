#include "engine/builder.h"

#include <algorithm>
#include <numeric>

#include "engine/formula_memo.h"
#include "engine/relation.h"

namespace molewright {
namespace {

constexpr int neutral_places = -2;  // pH 7.00 at 25 °C
constexpr std::size_t usual_nodes = 48;

std::string id_of(Quantity const& quantity) { return plain(quantity); }

Definition product(Terms terms, Rational factor = Rational(1)) {
  return {Operation::product, std::move(terms), std::move(factor)};
}
Definition sum(Terms terms, Rational factor = Rational(1)) { return {Operation::sum, std::move(terms), std::move(factor)}; }
Definition constant(Rational number) { return {Operation::constant, {}, std::move(number)}; }

/// The unit that a term of a relation is worked in.
Unit unit_of(InstanceTerm const& term, Quantity const& quantity) {
  return term.unit.empty() ? working_unit(quantity.symbol) : unit(term.unit);
}
}  // namespace

int rank_of(Node const& node) {
  std::string_view const r = node.relation;
  if (r == relations::molar_mass || r == relations::group_mass) return 1;
  if (r == relations::given || r == relations::reading || r == relations::difference || r == relations::titre ||
      r == relations::mean || node.definition.operation == Operation::constant)
    return 0;
  return 2;
}

WorkingBuilder::WorkingBuilder(Network const& network, Conventions const& conventions,
                               std::vector<std::vector<Statement>> const& stated)
    : network_(network), conventions_(conventions), stated_(stated) {}

int WorkingBuilder::add(Node made) {
  auto const [at, fresh] = by_id_.try_emplace(made.id, static_cast<int>(working_.nodes.size()));
  if (fresh) working_.nodes.push_back(std::move(made));
  return at->second;
}

Working WorkingBuilder::build(std::vector<int> const& banned, Network::Derivation derivation) {
  working_ = Working{};
  working_.nodes.reserve(usual_nodes);
  by_id_.clear();
  by_variable_.clear();
  used_.clear();
  chain_.clear();
  derivation_ = std::move(derivation);
  auto const& problem = network_.problem();
  working_.given_nodes.resize(problem.givens.size());
  for (std::size_t f = 0; f < problem.finds.size(); ++f) {
    auto const& find = problem.finds[f];
    if (f > 0) {  // what the parts before have worked out costs nothing more
      std::vector<int> worked;
      for (auto const& [variable, index] : by_variable_) worked.push_back(variable);
      derivation_ = network_.derive(banned, worked);
    }
    Answer answer;
    if (find.kind == Find::Kind::limiting_reagent) {
      answer.node = choose_node(*network_.limiting_choice());
    } else if (is_stated(find.kind)) {
      answer.node = stated_node(stated_[f]);
    } else if (find.kind != Find::Kind::number) {
      answer.node = formula_node(find);
    } else {
      answer.node = realise(network_.find(network_.canonical(find.quantity)));
      if (find.unit && find.unit->dimension == node(answer.node).value.unit.dimension)
        answer.node = in_unit(answer.node, *find.unit);
      // A litre is a cubic decimetre, but the answer is written as it is asked for.
      if (find.unit && find.unit->dimension == node(answer.node).value.unit.dimension && rank_of(node(answer.node)) == 2)
        node(answer.node).value.unit.symbol = find.unit->symbol;
    }
    working_.finds.push_back(answer);
  }
  // Givens that the working does not need stand in the graph as well: a slip may reach for them.
  for (std::size_t v = 0; v < network_.variables().size(); ++v)
    if (network_.variables()[v].given >= 0) realise(static_cast<int>(v));
  add_what_slips_need();
  order_nodes();
  return std::move(working_);
}

int WorkingBuilder::realise(int variable) {
  if (auto const found = by_variable_.find(variable); found != by_variable_.end()) return found->second;
  auto const& v = network_.variables()[static_cast<std::size_t>(variable)];
  int made = 0;
  if (v.given >= 0) {
    made = realise_given(variable);
  } else if (v.table) {
    made = realise_table(v);
  } else {
    int const via = derivation_.via[static_cast<std::size_t>(variable)];
    auto const& instance = network_.instances()[static_cast<std::size_t>(via)];
    used_.push_back(via);
    chain_.push_back({variable, via});
    switch (instance.kind) {
      case Instance::Kind::product:
        made = realise_product(variable, instance);
        break;
      case Instance::Kind::sum:
        made = realise_sum(variable, instance);
        break;
      case Instance::Kind::pick:
        made = realise_pick(variable, instance);
        break;
      case Instance::Kind::logarithm:
        made = realise_logarithm(variable, instance);
        break;
      case Instance::Kind::constant:
        made = realise_neutral(variable, instance);
        break;
    }
  }
  by_variable_[variable] = made;
  return made;
}

int WorkingBuilder::realise_given(int variable) {
  auto const index = static_cast<std::size_t>(network_.variables()[static_cast<std::size_t>(variable)].given);
  auto const& given = network_.problem().givens[index];
  auto const& q = quantity(variable);
  auto const single = [&](std::size_t i, std::string id, char const* relation) {
    auto const& number = given.numbers[i];
    Node made{std::move(id), relation, q, constant(number.value), {number.value, given.unit, last_place(given, i)}};
    working_.given_nodes[index].push_back(add(std::move(made)));
    return working_.given_nodes[index].back();
  };
  bool const one_number = given.form == Given::Form::value || given.form == Given::Form::measured;
  if (one_number) return single(0, id_of(q), relations::given);
  auto const reading = [&](std::size_t i) {
    return single(i, id_of(q) + " reading " + std::to_string(i + 1), relations::reading);
  };
  auto const less = [&](std::string id, char const* relation, std::size_t first) {
    int const final_reading = reading(first), initial = reading(first + 1);
    return add({std::move(id), relation, q, sum({{final_reading, 1}, {initial, -1}}), {{}, given.unit, {}}});
  };
  if (given.form == Given::Form::difference) return less(id_of(q), relations::difference, 0);
  Terms terms;
  for (std::size_t i = 0; i < titres(given); ++i) {
    int const one = given.in_pairs ? less(id_of(q) + " titre " + std::to_string(i + 1), relations::titre, 2 * i) : reading(i);
    if (counts(given, i)) terms.push_back({one, 1});
  }
  return add(
      {id_of(q), relations::mean, q, sum(terms, Rational(1, static_cast<std::int64_t>(terms.size()))), {{}, given.unit, {}}});
}

int WorkingBuilder::realise_table(Variable const& variable) {
  auto const& q = variable.quantity;
  if (auto const* const own = network_.course_value(q))
    return add({id_of(q),
                relations::course_value,
                q,
                constant(own->number.value),
                {own->number.value, *own->unit, own->number.last_place}});
  if (auto const number = network_.constant(q)) {
    auto const* const known = constant_of(q.symbol);
    if (!known && network_.is_whole_fraction(q))  // all of it, said as the parts of it are
      return add({id_of(q), relations::table_value, q, constant(Rational(100)), {Rational(100), unit("%"), {}}});
    auto const* const relation = known                             ? relations::table_value
                                 : network_.is_density_of_water(q) ? relations::density_of_water
                                                                   : relations::basis;
    Node made{id_of(q), relation, q, constant(*number), {}};
    made.value.unit = known ? (known->unit.empty() ? Unit{} : unit(known->unit)) : working_unit(q.symbol);
    if (q.symbol == "N_A") made.value.unit.symbol = "mol⁻¹";
    return add(std::move(made));
  }
  if (q.symbol == "M") return molar_mass(q.substance);
  if (!q.part.empty()) return add({id_of(q), relations::count, q, constant(portion_in(q.part, q.substance)), {}});
  return coefficient(q);
}

int WorkingBuilder::coefficient(Quantity const& q) {
  auto id = id_of(q);
  if (auto const made_before = by_id_.find(id); made_before != by_id_.end()) return made_before->second;
  auto const reaction = static_cast<std::size_t>(q.stage > 0 ? q.stage - 1 : 0);
  auto const& equation = network_.problem().reactions[reaction].equation;
  Rational number;
  auto species = network_.species(reaction).all().begin();
  for (auto const* side : {&equation.left, &equation.right})
    for (auto const& written : *side)
      if (*species++ == q.substance) number += written.coefficient;
  return add({std::move(id), relations::coefficient, q, constant(number), {}});
}

int WorkingBuilder::atomic_weight(std::string const& symbol) {
  if (auto const made_before = by_id_.find("A(" + symbol + ")"); made_before != by_id_.end()) return made_before->second;
  auto const weight = conventions_.weights.weight(symbol);
  Node made{"A(" + symbol + ")", relations::atomic_weight, {"A", 0, symbol, "", ""}, constant(weight.value), {}};
  made.value.unit = working_unit("M");
  return add(std::move(made));
}

int WorkingBuilder::group_mass(Group const& group) {
  Formula inside;
  inside.parts.push_back({1, group.inside});
  auto const name = plain(inside);
  Terms terms;
  for (auto const& item : group.inside)
    terms.push_back({item.element.empty() ? group_mass(item) : atomic_weight(item.element), static_cast<int>(item.count)});
  Node made{"M(" + name + ")", relations::group_mass, {"M", 0, name, "", ""}, sum(terms), {}};
  made.value.unit = working_unit("M");
  return add(std::move(made));
}

int WorkingBuilder::molar_mass(std::string const& substance) {
  auto const made_before = by_id_.find("M(" + substance + ")");
  if (made_before != by_id_.end() && node(made_before->second).relation == relations::molar_mass) return made_before->second;
  auto const known = known_formula(substance);
  auto const& formula = known->formula;
  Terms terms;
  for (std::size_t p = 0; p < formula.parts.size(); ++p) {
    auto const& part = formula.parts[p];
    if (p > 0) {  // what it crystallises with is a substance of its own, counted by the number before it
      Formula with;
      with.parts.push_back({1, part.groups});
      terms.push_back({molar_mass(plain(with)), static_cast<int>(part.multiplier)});
      continue;
    }
    for (auto const& item : part.groups)
      terms.push_back({item.element.empty() ? group_mass(item) : atomic_weight(item.element),
                       static_cast<int>(item.count * part.multiplier)});
  }
  Node made{"M(" + substance + ")", relations::molar_mass, {"M", 0, substance, "", ""}, sum(terms), {}};
  made.value.unit = working_unit("M");
  auto const before = working_.nodes.size();
  int const index = add(std::move(made));
  if (working_.nodes.size() == before) node(index).relation = relations::molar_mass;  // a bracket met first is a substance too
  return index;
}

int WorkingBuilder::in_unit(int index, Unit const& unit) {
  auto const& from = node(index).value.unit;
  if (from == unit) return index;
  auto const& q = node(index).quantity;
  bool const shifted = from.offset != unit.offset && q.symbol != "dT";
  Definition definition;
  if (shifted) {  // from °C to K and back: the kelvin temperature of 0 °C is added or taken off
    int const zero = realise_table({{"T0", 0, "", "", ""}, -1, true});
    definition = sum({{index, 1}, {zero, unit.offset.sign() == 0 ? 1 : -1}});
  } else {
    definition = product({{index, 1}}, from.factor / unit.factor);
  }
  Node made{node(index).id + " in " + unit.symbol, relations::convert, node(index).quantity, std::move(definition), {}};
  made.value.unit = unit;
  return add(std::move(made));
}

/// Quantities of one symbol in one unit: that of the data where they agree, else the working unit. `result` becomes the unit of
/// what is solved for.
std::vector<int> WorkingBuilder::in_shared_units(int variable, Instance const& instance, std::vector<int> nodes, Unit& result) {
  std::map<Symbol, Unit> shared;
  std::size_t at = 0;
  for (auto const& term : instance.terms) {
    if (term.variable == variable) continue;
    auto const& symbol = quantity(term.variable).symbol;
    auto const& own_unit = node(nodes[at++]).value.unit;
    bool const from_own_zero = instance.kind == Instance::Kind::product && own_unit.offset.sign() != 0;  // no ratio of °C
    auto const unit = from_own_zero ? working_unit(symbol) : own_unit;
    auto const [found, fresh] = shared.try_emplace(symbol, unit);
    if (!fresh && found->second != unit) found->second = working_unit(symbol);
  }
  at = 0;
  for (auto const& term : instance.terms) {
    if (term.variable == variable) continue;
    nodes[at] = in_unit(nodes[at], shared.at(quantity(term.variable).symbol));
    ++at;
  }
  auto const own = shared.find(quantity(variable).symbol);
  // A difference is in the unit of what differs, where that counts from a true zero.
  bool const of_one = own == shared.end() && instance.kind == Instance::Kind::sum && shared.size() == 1 &&
                      shared.begin()->second.offset.sign() == 0;
  result = of_one ? shared.begin()->second : own == shared.end() ? working_unit(quantity(variable).symbol) : own->second;
  return nodes;
}

int WorkingBuilder::realise_product(int variable, Instance const& instance) {
  InstanceTerm own;
  std::vector<InstanceTerm> others;
  std::vector<int> reads;
  for (auto const& term : instance.terms) {
    if (term.variable == variable) {
      own = term;
      continue;
    }
    others.push_back(term);
    reads.push_back(realise(term.variable));
  }
  Unit unit = unit_of(own, quantity(variable));
  if (instance.same_units) {
    reads = in_shared_units(variable, instance, reads, unit);
  } else {
    for (std::size_t i = 0; i < others.size(); ++i) {
      auto const& q = quantity(others[i].variable);
      if (q.symbol != "nu" && constant_of(q.symbol) == nullptr) reads[i] = in_unit(reads[i], unit_of(others[i], q));
    }
  }
  int const sign = own.weight > 0 ? 1 : -1;
  Terms terms;
  for (std::size_t i = 0; i < others.size(); ++i) terms.push_back({reads[i], -others[i].weight * sign});
  // A fraction is written with what is multiplied first.
  std::stable_sort(terms.begin(), terms.end(), [](Term const& a, Term const& b) { return a.weight > 0 && b.weight < 0; });
  auto definition = product(std::move(terms), sign > 0 ? instance.factor : instance.factor.reciprocal());
  definition.root = own.weight * sign;
  Node made{id_of(quantity(variable)), std::string(instance.relation), quantity(variable), std::move(definition), {}};
  made.value.unit = unit;
  return add(std::move(made));
}

int WorkingBuilder::realise_sum(int variable, Instance const& instance) {
  std::vector<int> reads;
  std::vector<int> weights;
  int own = 1;
  for (auto const& term : instance.terms) {
    if (term.variable == variable) {
      own = term.weight;
      continue;
    }
    weights.push_back(term.weight);
    reads.push_back(realise(term.variable));
  }
  Unit unit;
  reads = in_shared_units(variable, instance, reads, unit);
  Terms terms;
  for (std::size_t i = 0; i < reads.size(); ++i) terms.push_back({reads[i], own < 0 ? weights[i] : -weights[i]});
  std::stable_sort(terms.begin(), terms.end(), [](Term const& a, Term const& b) { return a.weight > 0 && b.weight < 0; });
  // One of several like portions: n(salt) = (n(ion) - ...) / 2.
  auto definition = sum(std::move(terms), Rational(1, std::abs(own)));
  Node made{id_of(quantity(variable)), std::string(instance.relation), quantity(variable), std::move(definition), {}};
  made.value.unit = unit;
  return add(std::move(made));
}

/// A pH that is so because two amounts are equal: it reads both, with no weight.
int WorkingBuilder::realise_neutral(int variable, Instance const& instance) {
  Node number{id_of(quantity(variable)) + " of water", relations::table_value, quantity(variable), constant(instance.factor), {}};
  number.value.last_place = neutral_places;
  Terms terms{{add(std::move(number)), 1}};
  for (std::size_t t = 1; t < instance.terms.size(); ++t) terms.push_back({realise(instance.terms[t].variable), 0});
  return add({id_of(quantity(variable)), std::string(instance.relation), quantity(variable), sum(std::move(terms)), {}});
}

int WorkingBuilder::formula_node(Find const& find) {
  Terms amounts;
  auto const& given = network_.problem().empirical;
  auto const empirical = known_formula(given);
  for (auto const& part : network_.formula_parts()) {
    if (given.empty()) {
      amounts.push_back({in_unit(realise(network_.find({"n", 0, part, "", ""})), working_unit("n")), 1});
      continue;
    }
    Quantity const number{"nu", 0, part, "in " + given, ""};
    amounts.push_back(
        {add({id_of(number), relations::count, number, constant(Rational(empirical->composition.at(part))), {}}), 1});
  }
  bool const hydrate = find.kind == Find::Kind::hydrate_formula;
  char const* const relation = hydrate         ? relations::hydrate_formula
                               : given.empty() ? relations::empirical_formula
                                               : relations::given_formula;
  int const ratio = add({relation, relation, {}, {Operation::proportion, amounts, Rational(1)}, {}});
  if (find.kind != Find::Kind::molecular_formula) return ratio;
  Terms terms{{in_unit(realise(network_.molar_mass_asked()), working_unit("M")), 1}, {ratio, 1}};
  for (auto const& part : network_.formula_parts()) terms.push_back({molar_mass(part), 1});
  return add({relations::molecular_formula, relations::molecular_formula, {}, {Operation::multiple, terms, Rational(1)}, {}});
}

int WorkingBuilder::stated_node(std::vector<Statement> const& lines) {
  std::vector<int> nodes;
  for (auto const& line : lines) {
    Terms terms;
    for (auto const read : line.reads) terms.push_back({nodes[read], 1});
    Node made{
        line.id, line.relation, {"", 0, line.substance, "", line.part}, {Operation::stated, std::move(terms), Rational(1)}, {}};
    made.says = line.says;
    nodes.push_back(add(std::move(made)));
  }
  return nodes.back();
}

int WorkingBuilder::realise_logarithm(int variable, Instance const& instance) {
  int const result = instance.terms[0].variable, argument = instance.terms[1].variable;
  Definition definition;
  Unit unit;
  if (variable == result) {
    int const read = in_unit(realise(argument), working_unit(quantity(argument).symbol));
    definition = {Operation::logarithm, {{read, 1}}, Rational(-1)};
  } else {
    definition = {Operation::exponential, {{realise(result), -1}}, Rational(1)};
    unit = working_unit(quantity(argument).symbol);
  }
  Node made{id_of(quantity(variable)), std::string(instance.relation), quantity(variable), std::move(definition), {}};
  made.value.unit = unit;
  return add(std::move(made));
}

/// The unit that a choice compares in: that of amounts, or of the volumes of gases where those are in one.
Unit WorkingBuilder::unit_of_choice(Instance const& instance) {
  auto const& symbol = quantity(instance.terms[0].variable).symbol;
  if (symbol != "V") return working_unit("n");
  auto const first = node(realise(instance.terms[1].variable)).value.unit;
  bool const same = std::all_of(instance.terms.begin() + 1, instance.terms.end(),
                                [&](InstanceTerm const& term) { return node(realise(term.variable)).value.unit == first; });
  return same ? first : working_unit(symbol);
}

int WorkingBuilder::choose_node(Instance const& instance) {
  Unit const compared = unit_of_choice(instance);
  std::string const suffix = instance.reaction == 0 ? "" : " of reaction " + std::to_string(instance.reaction + 1);
  Terms batches;
  std::vector<std::string> formulas;
  for (std::size_t t = 1; t < instance.terms.size(); ++t) {
    auto const& q = quantity(instance.terms[t].variable);
    int const amount = in_unit(realise(instance.terms[t].variable), compared);
    int const nu = coefficient({"nu", instance.reaction == 0 ? 0 : static_cast<int>(instance.reaction) + 1, q.substance, "", ""});
    std::string const id = std::string(q.symbol) + "/nu(" + q.substance + ")" + suffix;
    Node made{id, relations::batches, q, product({{amount, 1}, {nu, -1}}), {}};
    made.value.unit = compared;
    batches.push_back({add(std::move(made)), 1});
    formulas.push_back(q.substance);
  }
  if (working_.chosen.empty()) working_.chosen = formulas;
  return add({relations::limiting + suffix, relations::limiting, {}, {Operation::choose, batches, Rational(1)}, {}});
}

int WorkingBuilder::realise_pick(int variable, Instance const& instance) {
  auto const& target = quantity(variable);
  int const choose = choose_node(instance);
  Unit const compared = unit_of_choice(instance);
  int const stage = instance.reaction == 0 ? 0 : static_cast<int>(instance.reaction) + 1;
  int const nu_target = coefficient({"nu", stage, target.substance, "", ""});
  Terms terms{{choose, 1}};
  for (std::size_t t = 1; t < instance.terms.size(); ++t) {
    auto const& q = quantity(instance.terms[t].variable);
    int const amount = in_unit(realise(instance.terms[t].variable), compared);
    if (q.substance == target.substance) {  // all of the limiting reagent itself is used
      terms.push_back({amount, 1});
      continue;
    }
    Node branch{id_of(target) + " from " + q.substance,
                relations::mole_ratio,
                target,
                product({{amount, 1}, {nu_target, 1}, {coefficient({"nu", stage, q.substance, "", ""}), -1}}),
                {}};
    branch.value.unit = compared;
    terms.push_back({add(std::move(branch)), 1});
  }
  Node made{id_of(target), relations::from_limiting, target, {Operation::pick, terms, Rational(1)}, {}};
  made.value.unit = compared;
  return add(std::move(made));
}

void WorkingBuilder::add_what_slips_need() {
  auto const& problem = network_.problem();
  bool const with_molar_mass = std::any_of(working_.nodes.begin(), working_.nodes.end(),
                                           [](Node const& n) { return n.relation == relations::molar_mass; });
  for (std::size_t r = 0; r < problem.reactions.size(); ++r) {
    for (auto const& substance : network_.species(r).all()) {
      coefficient({"nu", r == 0 ? 0 : static_cast<int>(r) + 1, substance, "", ""});
      if (with_molar_mass && substance != "e^-" && known_formula(substance)) molar_mass(substance);
    }
  }
  if (!with_molar_mass) return;
  for (auto const& variable : network_.variables())
    if (variable.quantity.symbol == "M" && variable.table) molar_mass(variable.quantity.substance);
}

void WorkingBuilder::order_nodes() {
  auto& nodes = working_.nodes;
  std::vector<int> order(nodes.size());
  std::iota(order.begin(), order.end(), 0);
  std::vector<int> ranks;
  ranks.reserve(nodes.size());
  for (auto const& made : nodes) ranks.push_back(rank_of(made));
  std::stable_sort(order.begin(), order.end(),
                   [&](int a, int b) { return ranks[static_cast<std::size_t>(a)] < ranks[static_cast<std::size_t>(b)]; });
  std::vector<int> place(nodes.size());
  for (std::size_t i = 0; i < order.size(); ++i) place[static_cast<std::size_t>(order[i])] = static_cast<int>(i);
  std::vector<Node> ordered;
  ordered.reserve(nodes.size());
  for (int from : order) {
    ordered.push_back(std::move(node(from)));
    for (auto& term : ordered.back().definition.terms) term.node = place[static_cast<std::size_t>(term.node)];
  }
  nodes = std::move(ordered);
  for (auto& find : working_.finds) find.node = place[static_cast<std::size_t>(find.node)];
  for (auto& given : working_.given_nodes)
    for (int& index : given) index = place[static_cast<std::size_t>(index)];
}

}  // namespace molewright
