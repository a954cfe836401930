// The data under review: what is never used, what cannot be, what contradicts.
#include <algorithm>
#include <cmath>
#include <set>

#include "engine/formula_memo.h"
#include "engine/steps.h"
#include "generators/review_parts.h"

namespace molewright::reviewing {
namespace {

double per_cent(Given const& given) {
  return given.numbers.empty() ? 0 : (given.numbers.front().value * given.unit.factor).to_double() * 100;
}

void look_at_fractions(Review& review) {
  double sum = 0;
  Given const* last = nullptr;
  int fractions = 0;
  constexpr double rounding = 0.5;  // parts that are rounded each may add up to a little more
  for (auto const& given : review.problem.givens) {
    auto const& symbol = given.quantity.symbol;
    if (symbol != "w" && symbol != "x" && symbol != "phi" && symbol != "yield") continue;
    double const here = per_cent(given);
    if (here > 100) {
      if (symbol == "yield")
        review.say("yield-above-100", given.place.line, {{"quantity", plain(given.quantity)}, {"value", shown(here, 4)}});
      else
        review.say("above-100-percent", given.place.line,
                   {{"what", plain(given.quantity) + " is " + shown(here, 4) + " %: more than the whole"}});
    }
    if (symbol != "w" || !given.quantity.part.empty()) continue;
    sum += here;
    ++fractions;
    last = &given;
  }
  if (fractions > 1 && sum > 100 + rounding)
    review.say("above-100-percent", last->place.line, {{"what", "the mass fractions add up to " + shown(sum, 4) + " %"}});
}

void look_at_ph(Review& review, Quantity const& quantity, double number, std::size_t line) {
  if (quantity.symbol != "pH" && quantity.symbol != "pOH") return;
  if (number < -1 || number > 15) review.say("impossible-ph", line, {{"quantity", plain(quantity)}, {"value", shown(number, 4)}});
}

void look_at_titres(Review& review, Given const& given) {
  if (given.form != Given::Form::mean || given.quantity.symbol != "V") return;
  double const spread = spread_of_titres(given).to_double();
  constexpr double concordant = 0.2001e-3;  // L; common practice, 0.1 to 0.2 mL
  if (spread * given.unit.factor.to_double() > concordant)
    review.say("titres-not-concordant", given.place.line,
               {{"quantity", plain(given.quantity)}, {"value", shown(spread, 3)}, {"unit", given.unit.symbol}});
}

/// A molar mass that no table of atomic weights in use at schools gives.
void look_at_molar_mass(Review& review, Given const& given) {
  if (given.quantity.symbol != "M" || given.numbers.empty()) return;
  auto const formula = parse_formula(given.quantity.substance);
  if (!ok(formula) || value(formula).composition().empty()) return;
  double const stated = given.numbers.front().value.to_double() * (given.unit.factor / unit("g/mol").factor).to_double();
  double right = 0;
  bool agrees = false;
  for (auto const table : {WeightTable::whole, WeightTable::one_decimal, WeightTable::two_decimals, WeightTable::abridged}) {
    right = grams_per_mole(given.quantity.substance, AtomicWeights{table, {}});
    constexpr double close = 0.0015;
    double const last = std::pow(10.0, given.numbers.front().last_place);
    agrees = agrees || std::abs(stated - right) <= std::max(close * right, 0.51 * last);
  }
  if (!agrees)
    review.say("wrong-molar-mass", given.place.line,
               {{"substance", given.quantity.substance}, {"right", shown(right, 5)}, {"value", shown(stated, 5)}});
}

void look_at_unused(Review& review) {
  std::set<std::string> used;
  for (auto const& working : review.worked->accepted)
    for (std::size_t f = 0; f < working.finds.size(); ++f)
      for (int const node : order_of_work(working, f)) used.insert(working.nodes[static_cast<std::size_t>(node)].id);
  auto const& working = review.working();
  auto const& givens = review.data().givens;
  for (std::size_t g = 0; g < givens.size() && g < working.given_nodes.size(); ++g) {
    bool const needed = std::any_of(working.given_nodes[g].begin(), working.given_nodes[g].end(),
                                    [&](int node) { return used.count(working.nodes[static_cast<std::size_t>(node)].id) != 0; });
    bool const asks_whether = givens[g].quantity.symbol == "Ksp";  // a solid forms or not: compared, not used
    if (!needed && !asks_whether) review.say("unused-given", givens[g].place.line, {{"quantity", plain(givens[g].quantity)}});
  }
}

/// Value in base units of a numbered solution's quantity, as given or worked out.
std::optional<double> of_stage(Review const& review, char const* symbol, int stage) {
  for (auto const& node : review.working().nodes)
    if (node.quantity.symbol == symbol && node.quantity.stage == stage && node.quantity.word.empty()) return in_base(node.value);
  return std::nullopt;
}

void look_at_dilution(Review& review) {
  auto const& problem = review.data();
  std::vector<std::pair<int, int>> dilutions;
  for (auto const& handling : problem.handlings)
    if (handling.kind == Handling::Kind::dilute) dilutions.emplace_back(handling.from.front(), handling.to);
  if (problem.handlings.empty()) dilutions.emplace_back(1, 2);
  auto const line_of = [&](char const* symbol, int stage) {
    for (auto const& given : problem.givens)
      if (given.quantity.symbol == symbol && given.quantity.stage == stage) return given.place.line;
    return problem.finds.front().place.line;
  };
  for (auto const& [from, to] : dilutions) {
    auto const c1 = of_stage(review, "c", from), c2 = of_stage(review, "c", to);
    auto const V1 = of_stage(review, "V", from), V2 = of_stage(review, "V", to);
    constexpr double slack = 1 + 1e-9;
    bool const volumes_given = V1 && V2 && review.problem.handlings.empty();
    if (volumes_given && *V1 > *V2 * slack && !(c1 && c2 && line_of("c", to) != problem.finds.front().place.line))
      review.say("impossible-dilution", line_of("V", to),
                 {{"what", shown(*V1 * 1000, 4) + " mL cannot be made up to " + shown(*V2 * 1000, 4) + " mL"}});
    else if (c1 && c2 && *c2 > *c1 * slack)
      review.say(
          "impossible-dilution", line_of("c", to),
          {{"what", "the solution is " + shown(*c1, 3) + " mol/L before it is diluted and " + shown(*c2, 3) + " mol/L after"}});
  }
}

/// The volume of the one solution stood in for that of the other, which nobody gives.
void look_at_missing_volume(Review& review) {
  auto const& problem = review.data();
  if (problem.reactions.empty()) return;
  auto const& working = review.working();
  bool const asked = std::any_of(problem.finds.begin(), problem.finds.end(), [](Find const& find) {
    return find.kind == Find::Kind::number && find.quantity.symbol == "c" && find.quantity.word.empty();
  });
  for (std::size_t f = 0; f < working.finds.size() && asked; ++f)
    for (int const index : order_of_work(working, f)) {
      auto const& node = working.nodes[static_cast<std::size_t>(index)];
      bool const one_for_all = node.id == "V(mixture)" && node.definition.terms.size() == 1;
      if (!one_for_all) continue;
      for (auto const& given : problem.givens) {
        auto const& q = given.quantity;
        if (q.symbol != "c" || q.stage != 0 || review.given_of("V", q.substance) != nullptr) continue;
        review.say("missing-given", problem.finds[f].place.line,
                   {{"what", "there is a concentration of " + q.substance + ", but no volume of it"},
                    {"enough", "V(" + q.substance + ")"}});
        return;
      }
    }
}

void look_at_yields(Review& review) {
  auto const& working = review.working();
  for (std::size_t f = 0; f < working.finds.size(); ++f) {
    auto const& node = working.nodes[static_cast<std::size_t>(working.finds[f].node)];
    auto const& find = review.data().finds[f];
    look_at_ph(review, node.quantity, node.value.number.to_double(), find.place.line);
    if (find.quantity.symbol != "yield" || in_base(node.value) <= 1) continue;
    std::size_t line = find.place.line;
    for (auto const& given : review.data().givens)
      if (given.quantity.word == "actual") line = given.place.line;
    review.say("yield-above-100", line, {{"quantity", plain(find.quantity)}, {"value", shown(in_base(node.value) * 100, 4)}});
  }
}
}  // namespace

void look_at_data(Review& review) {
  look_at_fractions(review);
  for (auto const& given : review.problem.givens) {
    look_at_titres(review, given);
    look_at_molar_mass(review, given);
    if (!given.numbers.empty()) look_at_ph(review, given.quantity, given.numbers.front().value.to_double(), given.place.line);
  }
  if (review.worked == nullptr) return;
  look_at_unused(review);
  look_at_dilution(review);
  look_at_missing_volume(review);
  look_at_yields(review);
}

}  // namespace molewright::reviewing
