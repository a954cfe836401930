#include "engine/solver.h"

#include <algorithm>
#include <set>

#include "engine/builder.h"
#include "engine/conservation.h"
#include "engine/consistency.h"
#include "engine/doubts.h"
#include "engine/logarithm.h"
#include "engine/mixing.h"
#include "engine/network.h"
#include "engine/relation.h"
#include "engine/second_solve.h"
#include "engine/stated.h"

namespace molewright {
namespace {

constexpr std::size_t most_workings = 4;  ///< beyond these, another way differs only in order
constexpr std::size_t detour = 1;         ///< steps that another usual way may have more than the shortest

PlacedFault at(Place const& place, Fault fault) { return {std::move(fault), place.line, place.column, {}}; }

bool stands_on_both_sides(Equation const& equation) {
  return std::any_of(equation.left.begin(), equation.left.end(), [&](Species const& left) {
    return std::any_of(equation.right.begin(), equation.right.end(),
                       [&](Species const& right) { return plain(right.formula) == plain(left.formula); });
  });
}

/// An enthalpy with no substance is that of the reaction as its author wrote it, fractions and multiples included.
bool counts_as_written(Problem const& problem) {
  auto const of_reaction = [](Quantity const& q) { return q.symbol == "dH" && q.substance.empty(); };
  return std::any_of(problem.givens.begin(), problem.givens.end(), [&](Given const& g) { return of_reaction(g.quantity); }) ||
         std::any_of(problem.finds.begin(), problem.finds.end(),
                     [&](Find const& f) { return f.kind == Find::Kind::number && of_reaction(f.quantity); });
}

/// The equation with the coefficients of what happens on mixing its reactants, where that has the same substances: one of the
/// several reactions that hide in it is the one that runs (peroxide and permanganate, beside peroxide alone).
std::optional<Equation> as_it_runs(Equation const& written) {
  std::vector<Formula> reactants;
  for (auto const& species : written.left) reactants.push_back(species.formula);
  auto const mixed = mix(reactants);
  if (!ok(mixed) || !value(mixed).reacts) return std::nullopt;
  for (auto const* found : {&value(mixed).molecular, &value(mixed).net_ionic}) {
    if (found->left.size() != written.left.size() || found->right.size() != written.right.size()) continue;
    auto made = written;
    bool same = true;
    for (auto [own, other] : {std::pair{&made.left, &found->left}, {&made.right, &found->right}})
      for (auto& species : *own) {
        auto const like = std::find_if(other->begin(), other->end(),
                                       [&](Species const& s) { return plain(s.formula) == plain(species.formula); });
        same = same && like != other->end();
        if (same) species.coefficient = like->coefficient;
      }
    if (same && is_balanced(made)) return made;
  }
  return std::nullopt;
}

std::optional<PlacedFault> balance_reactions(Problem& problem) {
  if (auto found = complete_reactions(problem)) return found;
  bool const as_written = counts_as_written(problem);
  for (auto& reaction : problem.reactions) {
    if (reaction.equation.right.empty() && asks_what_happens(problem)) continue;  // nothing does
    if (reaction.equation.right.empty())
      return at(reaction.place,
                {"no-products", "the reaction " + reaction.written + " has no products", "-> and the products", 0});
    auto made = balanced(reaction.equation);
    // Where several reactions hide in one equation, the author's own coefficients say which is meant.
    bool const several = !ok(made) && fault(made).id == "not-unique";
    if (several && is_balanced(reaction.equation) && !stands_on_both_sides(reaction.equation)) made = reaction.equation;
    if (several && !ok(made))
      if (auto const runs = as_it_runs(reaction.equation)) made = *runs;
    if (ok(made) && as_written && is_balanced(reaction.equation)) made = reaction.equation;
    if (!ok(made)) return at(reaction.place, fault(made));
    if (auto found = does_not_happen(value(made))) return at(reaction.place, *found);
    reaction.equation = value(made);
  }
  return std::nullopt;
}

std::optional<PlacedFault> check_data(Network const& network) {
  auto const& problem = network.problem();
  for (auto const& find : problem.finds)
    if (find.kind == Find::Kind::line_at_fault)
      return at(find.place, {"no-working-shown", "there is no working to find a fault in", "something to work out", 0});
  if (problem.finds.empty()) return at(problem.place, {"no-find", "nothing is asked", "a line such as find m(AgCl) in g", 0});
  std::set<Quantity> seen;
  for (auto const& given : problem.givens) {
    if (given.form == Given::Form::measured && given.numbers.empty())
      return at(given.place, {"needs-reading", plain(given.quantity) + " is the student's own reading",
                              "a value for it, or an example for the key as in: measured about 24.60 mL", 0});
    if (!seen.insert(network.canonical(given.quantity)).second)
      return at(given.place, {"given-twice", plain(given.quantity) + " is given twice", "one value", 0});
    Dimension dimension;
    if (given.form != Given::Form::measured && dimension_of(given.quantity.symbol, dimension) &&
        given.unit.dimension != dimension)
      return at(
          given.place,
          {"wrong-unit", plain(given.quantity) + " cannot be in " + (given.unit.symbol.empty() ? "no unit" : given.unit.symbol),
           "a unit of " + dimension_name(dimension), 0});
  }
  for (auto const& given : problem.givens)
    for (auto const& number : given.numbers)
      if (given.quantity.symbol == "T" && given.form == Given::Form::value &&
          (number.value * given.unit.factor + given.unit.offset).sign() < 0)
        return at(given.place, {"not-positive", plain(given.quantity) + " is below absolute zero, which is -273.15 degC",
                                "a temperature above it", 0});
  for (auto const& excess : problem.excess)
    if (problem.reactions.empty() || network.reaction_of(excess) == std::string::npos)
      return at(problem.place,
                {"not-in-reaction", excess + " is in excess but stands in no reaction", "a substance of the reaction", 0});
  return std::nullopt;
}

std::vector<std::optional<int>> asked_figures(Problem const& problem) {
  std::vector<std::optional<int>> asked;
  for (auto const& find : problem.finds) asked.push_back(find.figures);
  return asked;
}

/// A find without a unit is given in the unit of a like quantity of the problem, else as it is worked.
void settle_units(Problem& problem, Conventions const& conventions, bool molar_volume_of_course) {
  bool const of_gases = molar_volume_of_course || std::any_of(problem.givens.begin(), problem.givens.end(), [](Given const& g) {
                          return g.quantity.symbol == "p" || g.quantity.symbol == "T" || g.quantity.symbol == "Vm";
                        });
  for (auto& find : problem.finds) {
    if (find.kind != Find::Kind::number || find.unit) continue;
    auto const like = std::find_if(problem.givens.begin(), problem.givens.end(),
                                   [&](Given const& g) { return g.quantity.symbol == find.quantity.symbol; });
    if (like != problem.givens.end())
      find.unit = like->unit;
    else if (find.quantity.symbol == "V" && !of_gases)
      find.unit = unit(conventions.volume_unit);
    else
      find.unit = working_unit(find.quantity.symbol);
  }
}

/// Logarithms, their inverses and most roots are worked to 50 digits, whichever way round: they agree to a few less.
bool agree(Rational const& a, Rational const& b) {
  if (a == b) return true;
  return (a - b).absolute() < a.absolute() * Rational::power_of_ten(8 - logarithm_digits);
}

/// What tells two workings apart: the printed steps.
std::set<std::string> steps_of(Working const& working) {
  std::set<std::string> out;
  for (std::size_t f = 0; f < working.finds.size(); ++f)
    for (int index : order_of_work(working, f)) {
      auto const& node = working.nodes[static_cast<std::size_t>(index)];
      if (rank_of(node) == 2 && node.relation != relations::convert) out.insert(node.id + '|' + node.relation);
    }
  return out;
}

bool can_be_had(Network const& network, Network::Derivation const& derivation, Find const& find) {
  if (is_stated(find.kind)) return true;
  if (find.kind == Find::Kind::limiting_reagent) {
    auto const* const choice = network.limiting_choice();
    return choice && std::all_of(choice->terms.begin() + 1, choice->terms.end(),
                                 [&](auto const& term) { return derivation.known(term.variable); });
  }
  if (find.kind != Find::Kind::number) {
    auto const& parts = network.formula_parts();
    bool const molecular = find.kind == Find::Kind::molecular_formula;
    int const molar_mass = molecular ? network.molar_mass_asked() : -1;
    if (molecular && (molar_mass < 0 || !derivation.known(molar_mass))) return false;
    return parts.size() > 1 && std::all_of(parts.begin(), parts.end(), [&](std::string const& part) {
             int const amount = network.find({"n", 0, part, "", ""});
             return amount >= 0 && derivation.known(amount);
           });
  }
  int const v = network.find(network.canonical(find.quantity));
  return v >= 0 && derivation.known(v);
}

bool all_known(Network const& network, std::vector<int> const& banned) {
  auto const derivation = network.derive(banned);
  auto const& finds = network.problem().finds;
  return std::all_of(finds.begin(), finds.end(), [&](Find const& find) { return can_be_had(network, derivation, find); });
}

/// The course's molar volume of a gas comes in only where the problem's own data are not enough.
Measured const* molar_volume_needed(Problem const& problem, Conventions const& conventions) {
  if (!conventions.molar_gas_volume) return nullptr;
  auto const* const offered = &*conventions.molar_gas_volume;
  if (!Network(problem, offered).course_value({"Vm", 0, "", "", ""})) return nullptr;
  Network own(problem);
  own.add_reactions();
  return all_known(own, {}) ? nullptr : offered;
}

/// Indices of all nodes that the finds rest on, the branches of a choice included.
std::set<int> needed(Working const& working) {
  std::set<int> out;
  for (std::size_t f = 0; f < working.finds.size(); ++f)
    for (int index : order_of_work(working, f)) out.insert(index);
  return out;
}

std::set<std::string> data_of(Working const& working) {
  std::set<std::string> out;
  for (int index : needed(working)) {
    auto const& node = working.nodes[static_cast<std::size_t>(index)];
    if (node.relation == relations::given || node.relation == relations::reading) out.insert(node.id);
  }
  return out;
}

bool same_answers(Working const& a, Working const& b) {
  for (std::size_t f = 0; f < a.finds.size(); ++f) {
    auto const& x = a.nodes[static_cast<std::size_t>(a.finds[f].node)].value;
    auto const& y = b.nodes[static_cast<std::size_t>(b.finds[f].node)].value;
    if (!agree(x.number * x.unit.factor, y.number * y.unit.factor)) return false;
  }
  return true;
}

void add_alternatives(Worked& worked, Network& network, std::vector<std::vector<Statement>> const& stated,
                      std::vector<int> const& used, Conventions const& conventions) {
  auto const& problem = network.problem();
  network.add_mass_ratios();
  std::set<std::set<std::string>> known{steps_of(worked.accepted.front())};
  auto const shortest = known.begin()->size();
  for (int banned : used) {
    if (worked.accepted.size() >= most_workings) return;
    if (!all_known(network, {banned})) continue;
    WorkingBuilder builder(network, conventions, stated);
    auto other = builder.build({banned});
    if (!evaluate(other, conventions.ties, asked_figures(problem))) continue;
    // More data than needed agree within their figures only: a working from other data is not this one. From the same data it
    // must be, and the conservation check sees to that.
    auto const& first = worked.accepted.front();
    if (!same_answers(other, first) && data_of(other) != data_of(first)) continue;
    auto const way = steps_of(other);
    if (way.size() > shortest + detour) continue;
    if (known.insert(way).second) worked.accepted.push_back(std::move(other));
  }
}

/// What comes out below zero cannot be: water to be added that would have to be taken away.
std::optional<PlacedFault> below_zero(Worked const& worked) {
  auto const& working = worked.accepted.front();
  for (std::size_t f = 0; f < working.finds.size(); ++f)
    for (int index : order_of_work(working, f)) {
      auto const& node = working.nodes[static_cast<std::size_t>(index)];
      auto const& symbol = node.quantity.symbol;
      bool const may_be = symbol == "pH" || symbol == "pOH" || symbol == "dH" || symbol == "dT" || symbol == "q" || symbol == "T";
      if (node.value.number.sign() >= 0 || rank_of(node) != 2 || may_be) continue;
      return at(worked.problem.finds[f].place,
                {"not-positive", plain(node.quantity) + " comes out below zero", "data that agree", 0});
    }
  return std::nullopt;
}

/// A portion that was taken changes the answer: where no step reads it, the problem was not understood.
std::optional<PlacedFault> portion_without_use(Worked const& worked) {
  auto const& working = worked.accepted.front();
  auto const read = needed(working);
  for (std::size_t g = 0; g < worked.problem.givens.size(); ++g) {
    auto const& given = worked.problem.givens[g];
    bool const portion = given.quantity.word == "aliquot" || given.quantity.word == "taken";
    bool const used =
        std::any_of(working.given_nodes[g].begin(), working.given_nodes[g].end(), [&](int n) { return read.count(n) == 1; });
    bool const reacted = std::any_of(read.begin(), read.end(), [&](int n) {
      auto const& relation = working.nodes[static_cast<std::size_t>(n)].relation;
      return relation == relations::mole_ratio || relation == relations::from_limiting;
    });
    if (portion && !used && reacted)
      return at(given.place, {"idle-portion", "it is not clear what " + plain(given.quantity) + " was taken of",
                              "the substance, as in V(NaOH, aliquot), beside the volume of its flask V(NaOH)", 0});
  }
  return std::nullopt;
}

/// More of a part than of the whole cannot be: the data are of two minds.
std::optional<PlacedFault> more_than_all(Worked const& worked) {
  auto const& working = worked.accepted.front();
  for (std::size_t f = 0; f < working.finds.size(); ++f)
    for (int index : order_of_work(working, f)) {
      auto const& node = working.nodes[static_cast<std::size_t>(index)];
      auto const& symbol = node.quantity.symbol;
      if (symbol != "w" && symbol != "x" && symbol != "phi") continue;
      if (node.value.number * node.value.unit.factor <= Rational(1)) continue;
      return at(worked.problem.finds[f].place,
                {"more-than-all",
                 plain(node.quantity) + " is " + unrounded(node.value.number * node.value.unit.factor * Rational(100), 4) +
                     " %: more than the whole",
                 "data that agree", 0});
    }
  return std::nullopt;
}

/// What is mixed and reacts is no mixture: its reaction is wanted. (An ion product is asked of such a mixture on purpose.)
std::optional<PlacedFault> reacts_when_mixed(Network const& network) {
  auto const& problem = network.problem();
  auto const asks_product =
      std::any_of(problem.finds.begin(), problem.finds.end(), [](Find const& f) { return f.quantity.symbol == "Q"; });
  if (asks_product) return std::nullopt;
  auto const reacting = [](std::vector<std::string> const& there, Place const& place) -> std::optional<PlacedFault> {
    for (auto const& one : there)
      for (auto const& other : there)
        if (react_in_solution(one, other))
          return at(place, {"reacts-when-mixed", one + " and " + other + " react when they are mixed",
                            "the reaction, in a line reaction " + one + " + " + other + " -> ...", 0});
    return std::nullopt;
  };
  if (problem.reactions.empty())
    if (auto found = reacting(network.mixed(), problem.place)) return found;
  for (auto const& handling : problem.handlings) {
    if (handling.kind != Handling::Kind::mix) continue;
    std::vector<std::string> there;
    for (auto const& given : problem.givens) {
      auto const& q = given.quantity;
      bool const in_it = std::find(handling.from.begin(), handling.from.end(), q.stage) != handling.from.end();
      if (in_it && std::find(there.begin(), there.end(), q.substance) == there.end()) there.push_back(q.substance);
    }
    if (auto found = reacting(there, handling.place)) return found;
  }
  return std::nullopt;
}

/// The water's own ions count where an acid or a base is as dilute as this.
std::optional<PlacedFault> too_dilute(Worked const& worked) {
  constexpr double least = 1e-6;
  auto const& working = worked.accepted.front();
  for (std::size_t f = 0; f < working.finds.size(); ++f)
    for (int index : order_of_work(working, f)) {
      auto const& node = working.nodes[static_cast<std::size_t>(index)];
      auto const& of = node.quantity.substance;
      bool const ion = node.quantity.symbol == "c" && (of == "H^+" || of == "H3O^+" || of == "OH^-");
      if (!ion || node.relation != ion_form || node.value.number.to_double() >= least) continue;
      return at(worked.problem.finds[f].place,
                {"too-dilute", plain(node.quantity) + " is so small that the ions of the water itself count",
                 "an acid or a base of at least 1e-6 mol/L", 0});
    }
  return std::nullopt;
}

/// What is told in the text must be less exact than the answer.
std::optional<PlacedFault> not_to_be_told(Worked const& worked) {
  for (std::size_t f = 0; f < worked.problem.finds.size(); ++f) {
    auto const& find = worked.problem.finds[f];
    if (find.told && worked.accepted.front().finds[f].figures < 2)
      return at(find.place, {"one-figure", plain(find) + " has one figure only: it cannot be told less exactly",
                             "data with more figures, or find " + plain(find), 0});
  }
  return std::nullopt;
}

/// Whether more than one of the amounts that a choose node compares is the smallest.
bool is_tie(Working const& working, Node const& choice) {
  auto const number = [&](std::size_t term) -> Rational const& {
    return working.nodes[static_cast<std::size_t>(choice.definition.terms[term].node)].value.number;
  };
  auto const chosen = static_cast<std::size_t>(choice.value.number.to_double());
  for (std::size_t t = 0; t < choice.definition.terms.size(); ++t)
    if (t != chosen && number(t) == number(chosen)) return true;
  return false;
}

/// Where a solubility product is given beside an ion product that is asked: whether a solid forms.
std::string about_precipitate(Worked const& worked, Given const& given) {
  if (given.quantity.symbol != "Ksp" || given.numbers.empty()) return {};
  auto const& working = worked.accepted.front();
  for (std::size_t f = 0; f < working.finds.size(); ++f) {
    auto const& find = worked.problem.finds[f];
    if (find.quantity.symbol != "Q" || find.quantity.substance != given.quantity.substance) continue;
    auto const& product = working.nodes[static_cast<std::size_t>(working.finds[f].node)].value.number;
    bool const forms = product > given.numbers.front().value;
    return plain(find.quantity) + (forms ? " is above " : " is not above ") + plain(given.quantity) + ": " +
           (forms ? "a precipitate of " + given.quantity.substance + " forms" : "no precipitate forms");
  }
  return {};
}

/// The mass of a burnt whole, where the elements of its formula were all caught, is a check and no idle number.
bool says_no_more(Problem const& problem, Given const& given) {
  bool const formula = std::any_of(problem.finds.begin(), problem.finds.end(), [](Find const& f) {
    return (f.kind == Find::Kind::empirical_formula || f.kind == Find::Kind::molecular_formula) && !f.elements.empty();
  });
  auto const& of = given.quantity.substance;
  return formula && given.quantity.symbol == "m" && (of == "X" || (!of.empty() && of[0] >= 'a' && of[0] <= 'z'));
}

void add_warnings(Worked& worked) {
  auto const& working = worked.accepted.front();
  auto const read = needed(working);
  for (auto const& node : working.nodes)
    if (node.definition.operation == Operation::choose && is_tie(working, node))
      worked.warnings.push_back("no one reagent limits: their amounts are in the ratio of the equation");
  for (auto& doubt : doubts(worked.problem, working)) worked.warnings.push_back(std::move(doubt));
  for (std::size_t g = 0; g < worked.problem.givens.size(); ++g) {
    auto const& given = worked.problem.givens[g];
    bool const used =
        std::any_of(working.given_nodes[g].begin(), working.given_nodes[g].end(), [&](int n) { return read.count(n) == 1; });
    if (auto const said = about_precipitate(worked, given); !said.empty()) {
      worked.warnings.push_back(said);
      continue;
    }
    if (!used && !says_no_more(worked.problem, given))
      worked.warnings.push_back(plain(given.quantity) + " is given but not needed");
    for (auto const& number : given.numbers)
      if (number.ambiguous())
        worked.warnings.push_back(plain(given.quantity) + " = " + number.text + " may have " +
                                  std::to_string(number.certain_figures) + " to " + std::to_string(number.figures) +
                                  " figures; " + std::to_string(number.figures) + " are taken");
  }
}
}  // namespace

namespace {
/// The problem with the elements of its formula named and the last of them, which was found by difference, left out; nothing
/// where the author named them.
std::optional<Problem> without_last_element(Network const& network, Problem const& written) {
  auto const& parts = network.formula_parts();
  if (!network.formula_find() || parts.size() < 3) return std::nullopt;
  auto smaller = written;
  for (auto& find : smaller.finds) {
    if (find.kind != Find::Kind::empirical_formula && find.kind != Find::Kind::molecular_formula) continue;
    if (!find.elements.empty()) return std::nullopt;
    find.elements.assign(parts.begin(), parts.end() - 1);
  }
  return smaller;
}
}  // namespace

WorkedResult solve(Problem const& written, Conventions const& conventions) {
  Worked worked;
  worked.problem = written;
  auto& problem = worked.problem;
  if (auto found = balance_reactions(problem)) return *found;
  auto const* const molar_volume = molar_volume_needed(problem, conventions);
  settle_units(problem, conventions, molar_volume != nullptr);
  Network network(problem, molar_volume);
  problem = network.problem();  // substances that were left out are filled in
  if (auto found = check_data(network)) return *found;
  if (auto found = reacts_when_mixed(network)) return *found;
  network.add_reactions();
  if (network.acid_and_base()) network.settle_acidity(acid_or_base_left(network, conventions));
  auto const derivation = network.derive();
  for (std::size_t f = 0; f < problem.finds.size(); ++f) {
    if (!can_be_had(network, derivation, problem.finds[f])) return missing_data(problem, f);
  }
  if (auto found = contradiction(network, conventions)) return *found;
  if (auto found = not_in_excess(network, conventions)) return *found;

  std::vector<std::vector<Statement>> stated(problem.finds.size());
  for (std::size_t f = 0; f < problem.finds.size(); ++f) {
    if (!is_stated(problem.finds[f].kind)) continue;
    auto lines = statements(problem, problem.finds[f], conventions);
    if (auto const* found = std::get_if<PlacedFault>(&lines)) return *found;
    stated[f] = std::get<std::vector<Statement>>(std::move(lines));
  }
  WorkingBuilder builder(network, conventions, stated);
  worked.accepted.push_back(builder.build({}));
  if (!evaluate(worked.accepted.front(), conventions.ties, asked_figures(problem))) {
    // What is found by difference and is as good as nothing is not in the substance: a hydrocarbon that was weighed.
    if (auto const smaller = without_last_element(network, written))
      if (auto made = solve(*smaller, conventions); std::holds_alternative<Worked>(made)) {
        auto& found = std::get<Worked>(made);
        found.problem.finds = written.finds;
        found.warnings.push_back(network.formula_parts().back() + " is not in it: the other elements make up the whole mass");
        return made;
      }
    return at(problem.place, network.formula_find()
                                 ? Fault{"no-formula", "no formula of small whole numbers fits these data", "other data", 0}
                                 : Fault{"not-positive", "a value that must be divided by is zero", "a number above zero", 0});
  }
  if (auto found = below_zero(worked)) return *found;
  if (auto found = portion_without_use(worked)) return *found;
  if (auto found = more_than_all(worked)) return *found;
  if (auto found = too_dilute(worked)) return *found;
  if (auto found = not_to_be_told(worked)) return *found;
  worked.second = std::make_shared<SecondSolve const>(network, builder.chain(), worked.accepted.front());
  add_alternatives(worked, network, stated, builder.used(), conventions);
  add_warnings(worked);
  worked.conservation = std::make_shared<Conservation const>(worked, conventions);
  if (auto const found = worked.conservation->fault(worked); !found.empty())
    return at(problem.place, {"conservation", "the working does not pass the second check, " + found, "", 0});
  if (auto const found = worked.second->disagreement(worked.accepted.front()); !found.empty())
    return at(problem.place, {"conservation", "the working does not pass the second check, " + found, "", 0});
  return worked;
}

void put_numbers(Working& working, Problem const& numbers) {
  for (std::size_t g = 0; g < numbers.givens.size(); ++g) {
    auto const& given = numbers.givens[g];
    for (std::size_t i = 0; i < given.numbers.size(); ++i) {
      auto& node = working.nodes[static_cast<std::size_t>(working.given_nodes[g][i])];
      node.definition.factor = given.numbers[i].value;
      node.value.number = given.numbers[i].value;
      node.value.last_place = given.numbers[i].last_place;
    }
  }
}

WorkedResult rework(Worked const& plan, Problem const& numbers, Conventions const& conventions) {
  Worked worked = plan;
  worked.problem.givens = numbers.givens;
  worked.problem.text = numbers.text;
  worked.problem.title = numbers.title;
  worked.problem.id = numbers.id;
  for (auto& working : worked.accepted) {
    put_numbers(working, numbers);
    if (!evaluate(working, conventions.ties, asked_figures(worked.problem)))
      return at(numbers.place, {"not-positive", "a value that must be divided by is zero", "a number above zero", 0});
  }
  auto const unlike = worked.conservation ? worked.conservation->fault(worked) : conservation_fault(worked, conventions);
  if (!unlike.empty()) return at(numbers.place, {"conservation", "the working does not pass the second check, " + unlike, "", 0});
  if (worked.second)
    if (auto const found = worked.second->disagreement(worked.accepted.front()); !found.empty())
      return at(numbers.place, {"conservation", "the working does not pass the second check, " + found, "", 0});
  return worked;
}

}  // namespace molewright
