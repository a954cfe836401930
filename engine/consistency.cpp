#include "engine/consistency.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <functional>

#include "engine/formula_memo.h"
#include "engine/substance.h"

namespace molewright {
namespace {

/// A value in working units with the relative doubt that its printed figures leave.
struct Estimate {
  double value = 0;
  double doubt = 0;
};

class Estimates {
 public:
  /// `derivation` must outlive them.
  Estimates(Network const& network, Network::Derivation const& derivation, Conventions const& conventions)
      : network_(network), conventions_(conventions), derivation_(derivation), made_(network.variables().size()) {}

  bool known(int variable) const { return derivation_.known(variable); }
  int via(int variable) const { return derivation_.via[static_cast<std::size_t>(variable)]; }

  Estimate of(int variable) {
    auto& slot = made_[static_cast<std::size_t>(variable)];
    if (!slot) slot = work_out(variable);
    return *slot;
  }

 private:
  Estimate work_out(int variable) {
    auto const& v = network_.variables()[static_cast<std::size_t>(variable)];
    if (v.given >= 0) return of_given(network_.problem().givens[static_cast<std::size_t>(v.given)]);
    if (v.table) return of_table(v.quantity);
    auto const& instance = network_.instances()[static_cast<std::size_t>(via(variable))];
    return solve_for(instance, variable);
  }

 public:
  static Estimate of_given(Given const& given) {
    if (given.numbers.empty()) return {1, 1};
    double sum = 0, place = 0, counted = 0;
    for (std::size_t i = 0; i < given.numbers.size(); ++i) {
      if (given.form == Given::Form::mean && !counts(given, given.in_pairs ? i / 2 : i)) continue;
      bool const minus = (given.form == Given::Form::difference || given.in_pairs) && i % 2 == 1;
      sum += (minus ? -1 : 1) * given.numbers[i].value.to_double();
      counted += minus ? 0 : 1;
      int const last = given.numbers[i].ambiguous()
                           ? given.numbers[i].last_place + given.numbers[i].figures - given.numbers[i].certain_figures
                           : given.numbers[i].last_place;
      place = std::max(place, std::pow(10.0, last));
    }
    if (given.form == Given::Form::mean) sum /= counted;
    Unit const base = working_unit(given.quantity.symbol);
    bool const shifted = given.unit.offset != base.offset && given.quantity.symbol != "dT";
    double const zero = shifted ? (given.unit.offset.to_double() - base.offset.to_double()) / base.factor.to_double() : 0;
    double const factor = given.unit.dimension == base.dimension ? (given.unit.factor / base.factor).to_double() : 1.0;
    double const value = sum * factor + zero;
    return {value, place * factor / std::max(std::abs(value), 1e-300)};
  }

 private:
  Estimate of_table(Quantity const& q) {
    constexpr double table_doubt = 5e-4;  // weights from another table may stand behind a teacher's number
    if (auto const* const own = network_.course_value(q))
      return {network_.constant(q)->to_double(), std::pow(10.0, own->number.last_place) / own->number.value.to_double()};
    if (auto const number = network_.constant(q)) return {number->to_double(), constant_of(q.symbol) ? table_doubt : 0};
    if (!q.part.empty()) return {portion_in(q.part, q.substance).to_double(), 0};
    if (q.symbol == "nu") {
      auto const& equation = network_.problem().reactions[static_cast<std::size_t>(q.stage > 0 ? q.stage - 1 : 0)].equation;
      for (auto const* side : {&equation.left, &equation.right})
        for (auto const& species : *side)
          if (plain(species.formula) == q.substance) return {species.coefficient.to_double(), 0};
      return {1, 0};
    }
    if (!known_formula(q.substance)) return {1, 1};
    return {grams_per_mole(q.substance, conventions_.weights), table_doubt};
  }

 public:
  /// What a relation gives for one of its variables, in the variable's working unit.
  Estimate solve_for(Instance const& instance, int variable) {
    switch (instance.kind) {
      case Instance::Kind::pick:
        return limited(instance);
      case Instance::Kind::constant:
        return {instance.factor.to_double(), 0};
      case Instance::Kind::logarithm:
        return solved_logarithm(instance, variable);
      case Instance::Kind::sum:
        return solved_sum(instance, variable);
      case Instance::Kind::product:
        break;
    }
    double result = 1 / instance.factor.to_double(), doubt = 0;
    InstanceTerm own;
    for (auto const& term : instance.terms) {
      if (term.variable == variable) {
        own = term;
        continue;
      }
      auto const e = of(term.variable);
      result *= std::pow(e.value / scale(term), term.weight);
      doubt += std::abs(term.weight) * e.doubt;
    }
    // result * own^weight = 1
    double const power = std::abs(own.weight);
    double const root = power == 1 ? result : std::pow(std::abs(result), 1 / power);
    return {(own.weight > 0 ? 1 / root : root) * scale(own), doubt / power};
  }

 private:
  /// Number of the symbol's working unit in the unit that a relation takes it in.
  double scale(InstanceTerm const& term) const {
    if (term.unit.empty()) return 1;
    auto const& q = network_.variables()[static_cast<std::size_t>(term.variable)].quantity;
    return conversion_factor(unit(term.unit), working_unit(q.symbol)).to_double();
  }
  Estimate solved_sum(Instance const& instance, int variable) {
    double result = 0, doubt = 0;
    int own = 1;
    for (auto const& term : instance.terms) {
      if (term.variable == variable) {
        own = term.weight;
        continue;
      }
      auto const e = of(term.variable);
      result -= term.weight * e.value;
      doubt += std::abs(term.weight * e.value) * e.doubt;
    }
    return {result / own, doubt / std::abs(result)};
  }
  Estimate solved_logarithm(Instance const& instance, int variable) {
    int const result = instance.terms[0].variable, argument = instance.terms[1].variable;
    if (variable == result) {
      auto const e = of(argument);
      double const lg = -std::log10(e.value);
      return {lg, e.doubt / std::log(10.0) / std::max(std::abs(lg), 1e-3)};
    }
    auto const e = of(result);
    return {std::pow(10.0, -e.value), std::abs(e.value) * e.doubt * std::log(10.0)};
  }
  Estimate limited(Instance const& instance) {
    auto const& equation = network_.problem().reactions[instance.reaction].equation;
    auto const nu = [&](int variable) {
      auto const& substance = network_.variables()[static_cast<std::size_t>(variable)].quantity.substance;
      for (auto const* side : {&equation.left, &equation.right})
        for (auto const& species : *side)
          if (plain(species.formula) == substance) return species.coefficient.to_double();
      return 1.0;
    };
    Estimate least{INFINITY, 0};
    for (std::size_t t = 1; t < instance.terms.size(); ++t) {
      auto const e = of(instance.terms[t].variable);
      if (e.value / nu(instance.terms[t].variable) < least.value) least = {e.value / nu(instance.terms[t].variable), e.doubt};
    }
    return {least.value * nu(instance.terms[0].variable), least.doubt};
  }

  Network const& network_;
  Conventions const& conventions_;
  Network::Derivation const& derivation_;
  std::vector<std::optional<Estimate>> made_;
};

/// Every given that a variable rests on.
void givens_behind(Network const& network, Estimates const& estimates, int variable, std::vector<int>& out) {
  auto const& v = network.variables()[static_cast<std::size_t>(variable)];
  if (v.given >= 0) {
    if (std::find(out.begin(), out.end(), variable) == out.end()) out.push_back(variable);
    return;
  }
  if (v.table || estimates.via(variable) < 0) return;
  for (auto const& term : network.instances()[static_cast<std::size_t>(estimates.via(variable))].terms)
    if (term.variable != variable) givens_behind(network, estimates, term.variable, out);
}

std::string measured_text(Given const& given) {
  std::string out = plain(given.quantity) + " = " + (given.numbers.empty() ? "measured" : given.numbers.front().text);
  if (given.form == Given::Form::difference) out += " - " + given.numbers[1].text;
  return given.unit.symbol.empty() ? out : out + ' ' + given.unit.symbol;
}
}  // namespace

std::optional<PlacedFault> contradiction(Network const& network, Network::Derivation const& derivation,
                                         Conventions const& conventions, std::vector<int> const& banned) {
  Estimates estimates(network, derivation, conventions);
  for (std::size_t i = 0; i < network.instances().size(); ++i) {
    if (std::find(banned.begin(), banned.end(), static_cast<int>(i)) != banned.end()) continue;
    auto const& instance = network.instances()[i];
    bool const whole =
        std::all_of(instance.terms.begin(), instance.terms.end(), [&](auto const& t) { return estimates.known(t.variable); });
    if (!whole) continue;
    // The given that this relation ends at, so that the message names something the author wrote.
    int target = -1;
    for (int candidate : instance.targets)
      if (network.variables()[static_cast<std::size_t>(candidate)].given >= 0) target = candidate;
    bool const derives_one = std::any_of(instance.targets.begin(), instance.targets.end(), [&](int v) {
      int const via = estimates.via(v);
      return via >= 0 && &network.instances()[static_cast<std::size_t>(via)] == &instance;
    });
    if (derives_one || (target < 0 && instance.targets.empty())) continue;
    if (target < 0) target = instance.targets.front();
    auto const stated = estimates.of(target);
    auto const derived = estimates.solve_for(instance, target);
    double const off = derived.value / stated.value - 1;
    if (!(std::abs(off) > stated.doubt + derived.doubt + 1e-9)) continue;

    std::vector<int> behind_stated, behind_derived;
    givens_behind(network, estimates, target, behind_stated);
    for (auto const& term : instance.terms)
      if (term.variable != target) givens_behind(network, estimates, term.variable, behind_derived);
    for (int shared : behind_stated)
      behind_derived.erase(std::remove(behind_derived.begin(), behind_derived.end(), shared), behind_derived.end());
    if (behind_stated.empty() || behind_derived.empty()) continue;
    auto const given_of = [&](int variable) -> Given const& {
      return network.problem().givens[static_cast<std::size_t>(network.variables()[static_cast<std::size_t>(variable)].given)];
    };
    auto const& first = given_of(behind_stated.front());
    auto const& second = given_of(behind_derived.front());
    auto const& quantity = network.variables()[static_cast<std::size_t>(target)].quantity;
    PlacedFault found;
    found.fault.id = "contradiction";
    found.fault.what = fmt::format("{} and {} contradict each other: by {}, {} would be {:.4g} {}, {:.3g} % {}",
                                   measured_text(first), measured_text(second), instance.relation, plain(quantity), derived.value,
                                   working_unit(quantity.symbol).symbol, std::abs(off) * 100, off < 0 ? "less" : "more");
    found.line = first.place.line;
    found.column = first.place.column;
    return found;
  }
  return std::nullopt;
}

bool is_confirmed(Network const& network, std::size_t given, Conventions const& conventions) {
  auto const& problem = network.problem();
  auto const stated = Estimates::of_given(problem.givens[given]);
  auto const agrees = [&](Network const& other) {
    int const variable = other.find(other.canonical(problem.givens[given].quantity));
    auto const derivation = other.derive();
    if (variable < 0 || !derivation.known(variable)) return false;
    auto const derived = Estimates(other, derivation, conventions).of(variable);
    return std::abs(derived.value / stated.value - 1) <= stated.doubt + derived.doubt + 1e-9;
  };
  Network forgetful = network;  // its relations are those of all the data
  forgetful.forget(network.find(network.canonical(problem.givens[given].quantity)));
  if (agrees(forgetful)) return true;
  auto without = problem;  // another reactant may settle the reaction
  without.givens.erase(without.givens.begin() + static_cast<std::ptrdiff_t>(given));
  Network other(std::move(without));
  other.add_reactions();
  return agrees(other);
}

std::vector<int> used_up_to_nothing(Network const& network, Conventions const& conventions) {
  std::vector<int> out;
  auto const& givens = network.problem().givens;
  auto const of_solid = [&](std::string const& ion) {
    return std::any_of(givens.begin(), givens.end(), [&](Given const& g) {
      return g.quantity.symbol == "Ksp" && count_in(ion, g.quantity.substance) > 0 &&
             network.reaction_of(g.quantity.substance) != std::string::npos;
    });
  };
  bool const any_product = std::any_of(givens.begin(), givens.end(), [](Given const& g) { return g.quantity.symbol == "Ksp"; });
  if (!any_product || network.problem().reactions.empty()) return out;
  auto const derivation = network.derive();
  Estimates estimates(network, derivation, conventions);
  constexpr double nothing = 1e-9;
  for (std::size_t i = 0; i < network.instances().size(); ++i) {
    auto const& instance = network.instances()[i];
    if (instance.relation != "n(part) = nu n(whole)" || instance.kind != Instance::Kind::product) continue;
    auto const quantity = [&](std::size_t term) -> Quantity const& {
      return network.variables()[static_cast<std::size_t>(instance.terms[term].variable)].quantity;
    };
    auto const &ion = quantity(0), &salt = quantity(instance.terms.size() - 1);
    if (ion.word != "left" || salt.word != "left" || !of_solid(ion.substance)) continue;
    int const rest = instance.terms.back().variable, there = network.find({"n", 0, salt.substance, "", ""});
    if (there < 0 || !estimates.known(rest) || !estimates.known(there)) continue;
    if (std::abs(estimates.of(rest).value) <= nothing * std::abs(estimates.of(there).value)) out.push_back(static_cast<int>(i));
  }
  return out;
}

std::string acid_or_base_left(Network const& network, Conventions const& conventions) {
  auto const pair = network.acid_and_base();
  if (!pair) return {};
  auto const derivation = network.derive();
  Estimates estimates(network, derivation, conventions);
  auto const& equation = network.problem().reactions[pair->reaction].equation;
  auto const batches = [&](std::string const& substance) {
    int const amount = network.find({"n", 0, substance, "", ""});
    if (amount < 0 || !estimates.known(amount)) return 0.0;
    for (auto const& species : equation.left)
      if (plain(species.formula) == substance) return estimates.of(amount).value / species.coefficient.to_double();
    return 0.0;
  };
  double const acid = batches(pair->acid), base = batches(pair->base);
  constexpr double equal = 1e-9;
  if (std::abs(acid - base) <= equal * std::max(acid, base)) return {};
  return acid > base ? pair->acid : pair->base;
}

std::optional<PlacedFault> not_in_excess(Network const& network, Network::Derivation const& derivation,
                                         Conventions const& conventions) {
  if (network.problem().excess.empty()) return std::nullopt;
  Estimates estimates(network, derivation, conventions);
  for (auto const& substance : network.problem().excess) {
    int const there = network.find({"n", 0, substance, "", ""}), used = network.find({"n", 0, substance, "used", ""});
    if (there < 0 || used < 0 || !estimates.known(there) || !estimates.known(used)) continue;
    auto const amount = estimates.of(there), needed = estimates.of(used);
    if (!(needed.value > amount.value * (1 + amount.doubt + needed.doubt))) continue;
    std::vector<int> behind;
    givens_behind(network, estimates, there, behind);
    PlacedFault found;
    found.fault.id = "contradiction";
    found.fault.what = fmt::format("{} is said to be in excess, but {:.4g} mol of it would be used and only {:.4g} mol is there",
                                   substance, needed.value, amount.value);
    if (!behind.empty()) {
      auto const& place =
          network.problem()
              .givens[static_cast<std::size_t>(network.variables()[static_cast<std::size_t>(behind.front())].given)]
              .place;
      found.line = place.line;
      found.column = place.column;
    }
    return found;
  }
  return std::nullopt;
}

std::optional<Fault> does_not_happen(Equation const& equation) {
  if (equation.left.size() != 2 || equation.right.size() != 2) return std::nullopt;
  // Only an exchange of ions between two salts is judged here; both must be in the solubility table.
  // The products first: where one of them is a solid, as in most problems, nothing else need be looked up.
  for (auto const* side : {&equation.right, &equation.left})
    for (auto const& species : *side) {
      auto const* row = solubility(plain(species.formula));
      if (!row || row->verdict != Solubility::Verdict::soluble) return std::nullopt;
    }
  std::vector<std::string> before, after;
  for (auto const* side : {&equation.left, &equation.right})
    for (auto const& species : *side) {
      auto const found = ions_of(plain(species.formula));
      if (found.size() != 2) return std::nullopt;
      for (auto const& ion : found) (side == &equation.left ? before : after).push_back(ion.ion);
    }
  std::sort(before.begin(), before.end());
  std::sort(after.begin(), after.end());
  if (before != after) return std::nullopt;
  return Fault{"does-not-happen",
               plain(equation.left[0].formula) + " and " + plain(equation.left[1].formula) + " do not react: " +
                   plain(equation.right[0].formula) + " and " + plain(equation.right[1].formula) + " both stay dissolved",
               "two solutions that form a solid, water or a gas", 0};
}

}  // namespace molewright
