#include "generators/realism.h"

#include <algorithm>
#include <cmath>

#include "engine/formula_memo.h"
#include "engine/substance.h"
#include "generators/template.h"

namespace molewright {
namespace {

std::string side_state_name(Species const& species) {
  Formula bare = species.formula;
  bare.state = State::none;
  return plain(bare);
}

constexpr double largest_tank = 1e8;  ///< mL: a pool

/// Masses in mg and µg are told or reckoned, of what is dissolved in water, say; what is weighed is in g.
bool is_reckoned(Unit const& of_mass) { return of_mass == unit("mg") || of_mass == unit("ug"); }

struct Gatherer {
  Worked const& worked;
  Working const& working;
  std::vector<Limit> limits;

  Node const& node(int i) const { return working.nodes[static_cast<std::size_t>(i)]; }
  double factor_to(int i, char const* symbol) const { return conversion_factor(node(i).value.unit, unit(symbol)).to_double(); }
  void between(char const* id, std::string what, int i, double factor, double least, double most) {
    Limit limit;
    limit.id = id;
    limit.what = std::move(what);
    limit.node = i;
    limit.factor = factor;
    limit.least = least;
    limit.most = most;
    limits.push_back(limit);
  }
  void sizes(char const* kind, std::string what, int i, double factor) {
    Limit limit;
    limit.kind = Limit::Kind::glassware;
    limit.id = kind;
    limit.what = std::move(what);
    limit.node = i;
    limit.factor = factor;
    limit.sizes = &glassware(kind);
    limits.push_back(limit);
  }

  /// Two reactants that run out together leave nothing to choose between.
  void one_limits(Node const& choice) {
    constexpr double near = 0.01;
    auto const& terms = choice.definition.terms;
    for (std::size_t one = 0; one < terms.size(); ++one)
      for (std::size_t other = one + 1; other < terms.size(); ++other) {
        Limit limit;
        limit.kind = Limit::Kind::apart;
        limit.id = "both-limit";
        limit.what = "two reactants run out together";
        limit.node = terms[one].node;
        limit.over = terms[other].node;
        limit.least = 1 - near;
        limit.most = 1 + near;
        limits.push_back(limit);
      }
  }

  /// An amount or a mass concentration.
  void concentration(int i) {
    std::string const substance = anhydrous_plain(node(i).quantity.substance);
    bool const by_mass = node(i).quantity.symbol == "gamma";
    if (by_mass && grams_per_mole(substance) <= 0) return;
    double const factor = by_mass ? factor_to(i, "g/L") / grams_per_mole(substance) : factor_to(i, "mol/L");
    double most = 1e9;
    if (auto const* known = solubility(substance); known != nullptr && known->grams_per_100g_water) {
      // g per 100 g of water is taken for g per 100 mL of solution: half of it leaves room for the difference.
      most = known->grams_per_100g_water->to_double() * 10 / grams_per_mole(substance) / 2;
      between("solubility", pretty(node(i).quantity) + " is above half the solubility", i, factor, 0, most);
    }
    auto limit = school_limit(substance);
    if (auto const bought = bought_concentration(substance); bought && is_stock(node(i).quantity)) limit = bought;
    if (limit && *limit < most) {
      between("school-limit", pretty(node(i).quantity) + " is stronger than schools keep to", i, factor, 0, *limit);
    }
  }

  bool is_given(char const* symbol, std::string const& substance) const {
    return std::any_of(worked.problem.givens.begin(), worked.problem.givens.end(), [&](Given const& given) {
      return given.quantity.symbol == symbol && given.quantity.substance == substance;
    });
  }
  /// What stands in the bottle as it was bought: it is taken from, or told by its mass fraction and density.
  bool is_stock(Quantity const& quantity) const {
    bool const dense = is_given("rho", "solution") || is_given("rho", quantity.substance);
    if (is_given("w", quantity.substance) && dense && quantity.stage <= 1) return true;
    return quantity.stage == 1 && dilution_from(1);
  }
  bool dilution_from(int stage) const {
    for (Handling const& handling : worked.problem.handlings) {
      if (handling.kind == Handling::Kind::dilute &&
          std::find(handling.from.begin(), handling.from.end(), stage) != handling.from.end())
        return true;
    }
    return worked.problem.handlings.empty() && stage == 1;
  }
  bool dilution_to(int stage) const {
    for (Handling const& handling : worked.problem.handlings) {
      if (handling.kind == Handling::Kind::dilute && handling.to == stage) return true;
    }
    return worked.problem.handlings.empty() && stage == 2;
  }

  bool is_gas(std::string const& substance) const {
    for (Reaction const& reaction : worked.problem.reactions) {
      for (auto const* side : {&reaction.equation.left, &reaction.equation.right})
        for (Species const& species : *side)
          if (species.formula.state == State::gas && side_state_name(species) == substance) return true;
    }
    // Without a reaction, whatever has a temperature, a pressure or a molar volume.
    auto const& givens = worked.problem.givens;
    return worked.problem.reactions.empty() && std::any_of(givens.begin(), givens.end(), [](Given const& given) {
             return given.quantity.symbol == "Vm" || given.quantity.symbol == "p";
           });
  }

  void given_volume(Given const& given, int i) {
    std::string const name = pretty(given.quantity);
    if (is_gas(given.quantity.substance)) {
      between("measured-volume", name + " is too little gas to be measured", i, factor_to(i, "mL"), 1, 1e12);
      return;
    }
    double const factor = factor_to(i, "mL");
    if (given.unit == unit("L") || given.unit == unit("m3")) {
      between("measured-volume", name + " is out of reach of flasks and tanks", i, factor, 1, largest_tank);
      return;
    }
    bool const to_a_mark = dilution_to(given.quantity.stage) && given.quantity.word.empty();
    bool const taken = given.quantity.word == "taken" || (dilution_from(given.quantity.stage) && given.quantity.word.empty());
    bool const two_decimals = !given.numbers.empty() && given.form == Given::Form::value && given.unit == unit("mL") &&
                              given.numbers.front().last_place <= -2;
    if (to_a_mark) {
      sizes("flask", name + " is no flask's volume", i, factor);
    } else if (taken && two_decimals) {
      sizes("pipette", name + " is no pipette's volume", i, factor);
    } else if (two_decimals) {
      between("measured-volume", name + " cannot be measured to two decimals", i, factor, 1, 100);
    } else {
      between("measured-volume", name + " is out of reach of the glassware", i, factor, 1, 2000);
    }
  }

  void given_mass(Given const& given, int i) {
    if (given.form != Given::Form::value || given.numbers.empty()) return;
    if (is_reckoned(given.unit)) return;
    // A hundred times the last place written: 1.00 g on a balance that shows 0.01 g, 0.100 g on one that shows 0.001 g.
    double const least = 100 * std::pow(10.0, given.numbers.front().last_place);
    between("too-light-to-weigh", pretty(given.quantity) + " is too light for its balance", i, 1, least, 1e9);
  }

  bool speaks_of(Symbol symbol) const {
    auto const is_it = [&](Quantity const& quantity) { return quantity.symbol == symbol; };
    auto const& problem = worked.problem;
    return std::any_of(problem.givens.begin(), problem.givens.end(), [&](Given const& g) { return is_it(g.quantity); }) ||
           std::any_of(problem.finds.begin(), problem.finds.end(), [&](Find const& f) { return is_it(f.quantity); });
  }
  /// What is written with a power of ten: particles, solubility products, and concentrations beside these or a pH.
  bool of_any_size(Quantity const& quantity) const {
    auto const symbol = quantity.symbol;
    if (symbol == "N" || symbol == "Ksp" || symbol == "Q" || symbol == "s") return true;
    return symbol == "c" && (speaks_of("Ksp") || speaks_of("pH") || speaks_of("pOH"));
  }

  void answer(std::size_t f) {
    Find const& find = worked.problem.finds[f];
    if (find.kind != Find::Kind::number) return;
    int const i = working.finds[f].node;
    std::string const name = pretty(find.quantity);
    if (!of_any_size(find.quantity)) {
      auto const symbol = find.quantity.symbol;
      bool const signed_number = symbol == "q" || symbol == "dH" || symbol == "dT" || symbol == "pH" || symbol == "pOH";
      between("answer-range", "the answer for " + name + " is too small or too large to be read easily", i, 1,
              signed_number ? -1e5 : 1e-4, 1e5);
    }
    if (find.quantity.symbol == "m" && !is_reckoned(node(i).value.unit))
      between("too-light-to-weigh", name + " is too light to be weighed", i, factor_to(i, "g"), 0.1, 1e6);
    if (find.quantity.symbol == "V")
      between("measured-volume", name + " is out of reach of the glassware", i, factor_to(i, "mL"), 1,
              is_gas(find.quantity.substance)   ? 1e12
              : node(i).value.unit == unit("L") ? largest_tank
                                                : 2000);
    Limit tie;
    tie.kind = Limit::Kind::no_tie;
    tie.id = "rounding-tie";
    tie.what = "the answer for " + name + " lies on a rounding tie";
    tie.node = i;
    tie.find = f;
    limits.push_back(tie);
  }
};

}  // namespace

std::string anhydrous_plain(std::string const& substance) {
  auto const formula = parse_formula(substance);
  if (!ok(formula)) return substance;
  Formula bare = value(formula);
  bare.state = State::none;
  return plain(anhydrous(bare));
}

std::vector<std::string> chemistry_faults(Worked const& worked) {
  std::vector<std::string> faults;
  auto const dissolved = [&](std::string const& substance) {
    auto const* known = solubility(substance);
    // Limewater: of what dissolves only slightly, the table of school limits says up to where.
    bool const within_limits =
        known != nullptr && known->verdict == Solubility::Verdict::slightly_soluble && school_limit(substance);
    if (known != nullptr && known->verdict != Solubility::Verdict::soluble && known->verdict != Solubility::Verdict::unknown &&
        !within_limits) {
      faults.push_back(pretty_formula(substance) + " does not dissolve well");
    }
  };
  for (Reaction const& reaction : worked.problem.reactions) {
    bool all_dissolved = true;
    for (Species const& species : reaction.equation.left) {
      all_dissolved = all_dissolved && species.formula.state == State::aqueous;
      if (species.formula.state == State::aqueous) dissolved(side_state_name(species));
    }
    for (Species const& species : reaction.equation.right) {
      std::string const name = side_state_name(species);
      if (species.formula.state == State::aqueous) dissolved(name);
      if (species.formula.state != State::solid || !all_dissolved) continue;
      auto const* known = solubility(name);
      if (known != nullptr && known->verdict != Solubility::Verdict::insoluble)
        faults.push_back(pretty_formula(name) + " does not fall out as a solid");
    }
  }
  for (Node const& node : worked.accepted.front().nodes) {
    if (node.quantity.symbol == "c") dissolved(anhydrous_plain(node.quantity.substance));
  }
  std::sort(faults.begin(), faults.end());
  faults.erase(std::unique(faults.begin(), faults.end()), faults.end());
  return faults;
}

std::vector<std::string> const& waivable_limits() {
  static std::vector<std::string> const all{"school-limit", "solubility", "too-light-to-weigh", "measured-volume",
                                            "flask",        "pipette",    "answer-range"};
  return all;
}

std::vector<Limit> limits_of(Worked const& worked) {
  Gatherer gatherer{worked, worked.accepted.front(), {}};
  auto const& nodes = gatherer.working.nodes;
  for (std::size_t i = 0; i < nodes.size(); ++i) {
    bool const concentration = nodes[i].quantity.symbol == "c" || nodes[i].quantity.symbol == "gamma";
    if (concentration && nodes[i].relation != relations::convert && nodes[i].relation != relations::reading) {
      gatherer.concentration(static_cast<int>(i));
    }
  }
  for (Given const& given : worked.problem.givens) {
    int const i = gatherer.working.find_node(plain(given.quantity));
    if (i < 0) continue;
    if (given.quantity.symbol == "V") gatherer.given_volume(given, i);
    if (given.quantity.symbol == "m") gatherer.given_mass(given, i);
  }
  for (std::size_t f = 0; f < worked.problem.finds.size(); ++f) gatherer.answer(f);
  for (Node const& node : nodes)
    if (node.relation == relations::limiting) gatherer.one_limits(node);
  return gatherer.limits;
}

bool within(Limit const& limit, double looked_at) {
  double const slack = 1e-9 * std::abs(looked_at);
  if (limit.kind == Limit::Kind::glassware) {
    return std::any_of(limit.sizes->begin(), limit.sizes->end(), [&](int size) { return std::abs(looked_at - size) <= slack; });
  }
  if (limit.kind == Limit::Kind::apart) return looked_at < limit.least || looked_at > limit.most;
  return looked_at >= limit.least - slack && looked_at <= limit.most + slack;
}

double distance_from_tie(double number, Answer const& answer) {
  if (answer.figures == 0 || number == 0) return 0.5;
  // The place of the last figure, found without logarithms that could differ in the last bit between machines near a power of
  // ten: a number so near is far from a tie either way.
  double const place = answer.by_place ? answer.place : std::floor(std::log10(std::abs(number))) - answer.figures + 1;
  double const scaled = std::abs(number) / std::pow(10.0, place);
  return std::abs(scaled - std::floor(scaled) - 0.5);
}

}  // namespace molewright
