#include "engine/solver.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <set>

#include "engine/builder.h"
#include "engine/completion.h"
#include "engine/conservation.h"
#include "engine/consistency.h"
#include "engine/doubts.h"
#include "engine/logarithm.h"
#include "engine/misspelt.h"
#include "engine/mixing.h"
#include "engine/network.h"
#include "engine/outcome.h"
#include "engine/relation.h"
#include "engine/second_solve.h"
#include "engine/stated.h"
#include "engine/unknown_letter.h"

namespace molewright {
namespace {

constexpr std::size_t most_workings = 4;  ///< beyond these, another way differs only in order
constexpr std::size_t detour = 1;         ///< steps that another usual way may have more than the shortest

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

std::optional<PlacedFault> balance_reactions(Problem& problem, std::vector<std::string>& warnings) {
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
    if (!ok(made) && fault(made).id == "no-solution")
      if (auto const whole = completed(reaction.equation, problem.excess)) {
        made = whole->equation;
        warnings.push_back(note_on(*whole) + (problem.reactions.size() > 1 ? ": " + plain(whole->equation) : ""));
      }
    if (!ok(made)) return at(reaction.place, fault(made));
    if (auto found = does_not_happen(value(made))) return at(reaction.place, *found);
    reaction.equation = value(made);
  }
  return std::nullopt;
}

/// Each student's own reading, where its author gives no example for the printed key: one that equals no usual volume or mass
/// stands for it, so that slips can be told apart.
void give_examples(Problem& problem, std::vector<std::string>& warnings) {
  struct Example {
    std::string_view unit, number;
  };
  constexpr std::array usual{Example{"mL", "24.60"},    Example{"cm3", "24.60"}, Example{"L", "0.02460"},
                             Example{"dm3", "0.02460"}, Example{"g", "1.250"},   Example{"mg", "1250.0"},
                             Example{"degC", "24.5"},   Example{"K", "297.6"},   Example{"kPa", "101.3"}};
  for (auto& given : problem.givens) {
    if (given.form != Given::Form::measured || !given.numbers.empty()) continue;
    auto const example =
        std::find_if(usual.begin(), usual.end(), [&](Example const& one) { return one.unit == given.unit.symbol; });
    if (example == usual.end()) continue;
    given.numbers.push_back(value(parse_decimal(example->number)));
    warnings.push_back(plain(given.quantity) + " is the student's own reading: " + std::string(example->number) + ' ' +
                       given.unit.symbol + " stands for it");
  }
}

std::optional<PlacedFault> check_data(Network const& network) {
  auto const& problem = network.problem();
  for (auto const& find : problem.finds)
    if (find.kind == Find::Kind::line_at_fault)
      return at(find.place, {"no-working-shown", "there is no working to find a fault in", "something to work out", 0});
  if (problem.finds.empty()) return at(problem.place, {"no-find", "nothing is asked", "a line such as find m(AgCl) in g", 0});
  if (network.order_unclear()) {
    auto const yield =
        std::find_if(problem.givens.begin(), problem.givens.end(), [](Given const& g) { return g.quantity.symbol == "yield"; });
    if (yield != problem.givens.end())
      return at(yield->place,
                {"unclear-order", "the yields are numbered, but the reactions are not written in the order in which they run",
                 "the reactions in the order in which they run, and the yield of what goes on from one to the next", 0});
    return at(problem.reactions.front().place,
              {"unclear-order", "it is not clear which of the two reactions leaves what is asked",
               "the reaction of what is titrated behind that of the sample, or one of the reactions alone", 0});
  }
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
  // Of an ionic equation the salt that brings one of the ions may be in excess.
  auto const brings_an_ion = [&](std::string const& salt) {
    for (std::size_t r = 0; r < problem.reactions.size(); ++r)
      if (!network.ion_used_of(r, salt).empty()) return true;
    return false;
  };
  for (auto const& excess : problem.excess)
    if (problem.reactions.empty() || (network.reaction_of(excess) == std::string::npos && !brings_an_ion(excess)))
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

bool all_known(Network const& network, Network::Derivation const& derivation) {
  auto const& finds = network.problem().finds;
  return std::all_of(finds.begin(), finds.end(), [&](Find const& find) { return can_be_had(network, derivation, find); });
}

/// The variables that a derivation works out for one of them, each with the instance that it comes by.
using Chain = std::set<std::pair<int, int>>;
void follow(Network const& network, Network::Derivation const& derivation, int variable, Chain& chain) {
  int const via = derivation.via[static_cast<std::size_t>(variable)];
  if (via < 0 || !chain.insert({variable, via}).second) return;
  for (auto const& term : network.instances()[static_cast<std::size_t>(via)].terms)
    if (term.variable != variable) follow(network, derivation, term.variable, chain);
}

/// Tells from the chains of a problem with one number to find which workings are not worth building: those built already and
/// those that are too long.
class WaysTried {
 public:
  WaysTried(Network const& network, std::vector<std::pair<int, int>> const& first, std::size_t longest)
      : network_(network), longest_(longest), tried_{Chain(first.begin(), first.end())} {
    auto const& finds = network.problem().finds;
    if (finds.size() == 1 && finds.front().kind == Find::Kind::number)
      asked_ = network.find(network.canonical(finds.front().quantity));
  }
  bool worth_building(Network::Derivation const& derivation) {
    if (asked_ < 0) return true;
    Chain chain;
    follow(network_, derivation, asked_, chain);
    // Every variable of a chain is a step of its own, but those of the branches that a choice does not take.
    bool const chooses = std::any_of(chain.begin(), chain.end(), [&](auto const& step) {
      return network_.instances()[static_cast<std::size_t>(step.second)].kind == Instance::Kind::pick;
    });
    if (!chooses && chain.size() > longest_) return false;
    return tried_.insert(std::move(chain)).second;
  }

 private:
  Network const& network_;
  std::size_t longest_;
  std::set<Chain> tried_;
  int asked_ = -1;
};

/// The course's molar volume of a gas comes in only where the problem's own data are not enough.
Measured const* molar_volume_needed(Problem const& problem, Conventions const& conventions) {
  if (!conventions.molar_gas_volume) return nullptr;
  auto const* const offered = &*conventions.molar_gas_volume;
  if (!Network(problem, offered).course_value({"Vm", 0, "", "", ""})) return nullptr;
  Network own(problem);
  own.add_reactions();
  return all_known(own, own.derive()) ? nullptr : offered;
}

std::set<std::string> data_of(Working const& working) {
  std::set<std::string> out;
  auto const read = needed(working);
  for (std::size_t n = 0; n < read.size(); ++n) {
    auto const& node = working.nodes[n];
    if (read[n] && (node.relation == relations::given || node.relation == relations::reading)) out.insert(node.id);
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
                      WorkingBuilder const& first_builder, std::vector<int> const& never, Conventions const& conventions) {
  auto const& problem = network.problem();
  network.add_mass_ratios();
  std::set<std::set<std::string>> known{steps_of(worked.accepted.front())};
  auto const longest = known.begin()->size() + detour;
  WaysTried ways(network, first_builder.chain(), longest);
  for (int const other_than : first_builder.used()) {
    if (worked.accepted.size() >= most_workings) return;
    auto banned = never;
    banned.push_back(other_than);
    auto derivation = network.derive(banned);
    if (!all_known(network, derivation) || !ways.worth_building(derivation)) continue;
    WorkingBuilder builder(network, conventions, stated);
    auto other = builder.build(banned, std::move(derivation));
    if (!evaluate(other, conventions.ties, asked_figures(problem))) continue;
    // More data than needed agree within their figures only: a working from other data is not this one. From the same data it
    // must be, and the conservation check sees to that.
    auto const& first = worked.accepted.front();
    if (!same_answers(other, first) && data_of(other) != data_of(first)) continue;
    auto const way = steps_of(other);
    if (way.size() > longest) continue;
    if (known.insert(way).second) worked.accepted.push_back(std::move(other));
  }
}

/// What is mixed and reacts is no mixture: its reaction is wanted. (An ion product is asked of such a mixture on purpose.)
std::optional<PlacedFault> reacts_when_mixed(Network const& network) {
  auto const& problem = network.problem();
  auto const asks_product =
      std::any_of(problem.finds.begin(), problem.finds.end(), [](Find const& f) { return f.quantity.symbol == "Q"; });
  if (asks_product) return std::nullopt;
  auto const reacting = [&](std::vector<std::string> const& there, Place const& place) -> std::optional<PlacedFault> {
    for (auto const& one : there)
      for (auto const& other : there)
        if (react_in_solution(one, other))
          return at(place, {"reacts-when-mixed", one + " and " + other + " react when they are mixed",
                            problem.reactions.empty()
                                ? "the reaction, in a line reaction " + one + " + " + other + " -> ..."
                                : "beside the reaction no line mix and no numbers: V(" + one + ") and V(" + other + ")",
                            0});
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

/// "the mass fractions add up to 90 %", where all elements of a formula have one and they do not make the whole; else empty.
std::string fractions_short_of_whole(Network const& network) {
  constexpr double doubt = 0.02;  // of analyses, and of fractions rounded to whole per cents
  double sum = 0;
  for (auto const& part : network.formula_parts()) {
    auto const& givens = network.problem().givens;
    auto const share = std::find_if(givens.begin(), givens.end(), [&](Given const& g) {
      return g.quantity.symbol == "w" && g.quantity.substance == part && g.numbers.size() == 1;
    });
    if (share == givens.end()) return {};
    sum += (share->numbers.front().value * share->unit.factor).to_double();
  }
  if (network.formula_parts().size() < 2 || std::abs(sum - 1) <= doubt) return {};
  return fmt::format("the mass fractions add up to {:.3g} %", 100 * sum);
}

WorkedResult work_out(Problem const& written, Conventions const& conventions) {
  Worked worked;
  worked.problem = written;
  auto& problem = worked.problem;
  if (auto found = letter_without_meaning(problem)) return *found;
  give_examples(problem, worked.warnings);
  if (auto found = balance_reactions(problem, worked.warnings)) return *found;
  auto const* const molar_volume = molar_volume_needed(problem, conventions);
  settle_units(problem, conventions, molar_volume != nullptr);
  Network network(problem, molar_volume);
  problem = network.problem();  // substances that were left out are filled in
  if (network.order_as_written())
    worked.warnings.push_back("each of the reactions uses what another one forms: they are taken to run in the order written");
  if (auto found = check_data(network)) return *found;
  if (auto found = reacts_when_mixed(network)) return *found;
  network.add_reactions();
  if (network.acid_and_base()) network.settle_acidity(acid_or_base_left(network, conventions));
  auto const banned = used_up_to_nothing(network, conventions);
  auto derivation = network.derive(banned);
  for (std::size_t f = 0; f < problem.finds.size(); ++f) {
    if (!can_be_had(network, derivation, problem.finds[f])) return missing_data(problem, f);
  }
  if (auto found = contradiction(network, derivation, conventions, banned)) return *found;
  if (auto found = not_in_excess(network, derivation, conventions)) return *found;

  std::vector<std::vector<Statement>> stated(problem.finds.size());
  for (std::size_t f = 0; f < problem.finds.size(); ++f) {
    if (!is_stated(problem.finds[f].kind)) continue;
    auto lines = statements(problem, problem.finds[f], conventions);
    if (auto const* found = std::get_if<PlacedFault>(&lines)) return *found;
    stated[f] = std::get<std::vector<Statement>>(std::move(lines));
  }
  WorkingBuilder builder(network, conventions, stated);
  worked.accepted.push_back(builder.build(banned, std::move(derivation)));
  if (!evaluate(worked.accepted.front(), conventions.ties, asked_figures(problem))) {
    // What is found by difference and is as good as nothing is not in the substance: a hydrocarbon that was weighed.
    if (auto const smaller = without_last_element(network, written))
      if (auto made = work_out(*smaller, conventions); std::holds_alternative<Worked>(made)) {
        auto& found = std::get<Worked>(made);
        found.problem.finds = written.finds;
        found.warnings.push_back(network.formula_parts().back() + " is not in it: the other elements make up the whole mass");
        return made;
      }
    auto const sum = fractions_short_of_whole(network);
    return at(problem.place,
              network.formula_find()
                  ? Fault{"no-formula", "no formula of small whole numbers fits these data" + (sum.empty() ? sum : ": " + sum),
                          sum.empty() ? "other data" : "fractions of all its elements", 0}
                  : Fault{"not-positive", "a value that must be divided by is zero", "a number above zero", 0});
  }
  if (auto found = cannot_be(worked, network, conventions)) return *found;
  worked.second = std::make_shared<SecondSolve const>(network, builder.chain(), worked.accepted.front());
  add_alternatives(worked, network, stated, builder, banned, conventions);
  add_warnings(worked);
  if (auto const sum = fractions_short_of_whole(network); !sum.empty()) worked.warnings.push_back(sum + ", not to 100 %");
  worked.conservation = std::make_shared<Conservation const>(worked, conventions);
  if (auto const found = worked.conservation->fault(worked); !found.empty())
    return at(problem.place, {"conservation", "the working does not pass the second check, " + found, "", 0});
  if (auto const found = worked.second->disagreement(worked.accepted.front()); !found.empty())
    return at(problem.place, {"conservation", "the working does not pass the second check, " + found, "", 0});
  return worked;
}
}  // namespace

WorkedResult solve(Problem const& written, Conventions const& conventions) {
  auto result = work_out(written, conventions);
  if (std::holds_alternative<Worked>(result)) return result;
  auto const works = [&](Problem const& problem) { return std::holds_alternative<Worked>(work_out(problem, conventions)); };
  if (auto found = misspelt_name(written, works)) return *found;
  if (auto& fault = std::get<PlacedFault>(result).fault; fault.id == "missing-data")
    fault.what += name_of_a_sample(written, works);
  return result;
}

void put_numbers(Working& working, Problem const& numbers) {
  for (std::size_t g = 0; g < numbers.givens.size(); ++g) {
    auto const& given = numbers.givens[g];
    for (std::size_t i = 0; i < given.numbers.size(); ++i) {
      auto& node = working.nodes[static_cast<std::size_t>(working.given_nodes[g][i])];
      node.definition.factor = given.numbers[i].value;
      node.value.number = given.numbers[i].value;
      node.value.last_place = last_place(given, i);
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
