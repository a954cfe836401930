// What could not or should not be done at the bench: solutions too strong, masses and volumes that nobody measures, reagents to
// do without.
#include <algorithm>
#include <cmath>

#include "engine/doubts.h"
#include "engine/formula_memo.h"
#include "engine/substance.h"
#include "engine/tsv.h"
#include "generators/realism.h"
#include "generators/review_parts.h"

namespace molewright {
namespace data {
extern std::string_view const safer_reagents_tsv;
}
namespace reviewing {
namespace {

std::string as_given(Given const& given) {
  std::string out = given.numbers.empty() ? "" : given.numbers.front().text;
  if (given.form == Given::Form::difference) out += " - " + given.numbers[1].text;
  return given.unit.symbol.empty() ? out : out + ' ' + given.unit.symbol;
}

/// Where a concentration comes from: its own line, that of the mass or amount, or where it is asked.
std::size_t line_for(Review const& review, Quantity const& quantity) {
  for (auto const& given : review.data().givens)
    if (given.quantity == quantity) return given.place.line;
  for (char const* symbol : {"gamma", "m", "n"})
    if (auto const* given = review.given_of(symbol, quantity.substance)) return given->place.line;
  for (auto const& find : review.data().finds)
    if (find.quantity == quantity) return find.place.line;
  return review.data().finds.front().place.line;
}

void look_at_concentration(Review& review, Node const& node) {
  auto const& quantity = node.quantity;
  bool const own = node.id == plain(quantity) && quantity.word.empty();
  if (!own || (quantity.symbol != "c" && quantity.symbol != "gamma")) return;
  auto const substance = anhydrous_plain(quantity.substance);
  double const mass = grams_per_mole(substance);
  if (mass <= 0) return;
  double const c = quantity.symbol == "c" ? in_base(node.value) : in_base(node.value) / mass;
  auto const* known = solubility(substance);
  if (known != nullptr && known->grams_per_100g_water) {
    // Grams in 100 g of water stand for grams in 100 mL of solution: a litre of solution holds no more than a litre of water.
    double const most = known->grams_per_100g_water->to_double() * 10 / mass;
    if (c > most)
      return review.say(
          "beyond-solubility", line_for(review, quantity),
          {{"quantity", plain(quantity)}, {"value", shown(c, 3)}, {"substance", substance}, {"most", "about " + shown(most, 2)}});
  } else if (auto const most = known != nullptr ? most_without_number(*known) : std::nullopt; most && c > *most) {
    return review.say("beyond-solubility", line_for(review, quantity),
                      {{"quantity", plain(quantity)},
                       {"value", shown(c, 3)},
                       {"substance", substance},
                       {"most", "less than " + shown(*most, 2)}});
  }
  // A concentrated acid from its bottle, told by density and percentage, is diluted by the teacher; so is what a later solution
  // is made from, up to the strongest on sale.
  bool bottle = review.given_of("rho", "solution") != nullptr && review.given_of("w", substance) != nullptr;
  auto const bought = bought_concentration(substance);
  auto const& nodes = review.working().nodes;
  bool const diluted = quantity.stage == 1 && std::any_of(nodes.begin(), nodes.end(), [&](Node const& other) {
                         return other.quantity.stage == 2 && anhydrous_plain(other.quantity.substance) == substance;
                       });
  bottle = bottle || (bought && diluted && c <= *bought * 1.01);
  auto const limit = school_limit(substance);
  constexpr double slack = 1.0001;
  if (limit && c > *limit * slack && !(bottle && quantity.stage <= 1))
    review.say("above-school-limit", line_for(review, quantity),
               {{"quantity", plain(quantity)}, {"value", shown(c, 3)}, {"substance", substance}, {"most", shown(*limit, 2)}});
}

/// Common practice, no source: balances to 0.1 mg at best, none that holds three million times what it shows.
void look_at_mass(Review& review, Given const& given) {
  if (given.quantity.symbol != "m" || given.form != Given::Form::value || given.numbers.empty()) return;
  double const factor = given.unit.factor.to_double();
  double const mass = given.numbers.front().value.to_double() * factor;
  double const last = std::pow(10.0, given.numbers.front().last_place) * factor;
  auto const say = [&](char const* because, char const* mend) {
    review.say("unmeasurable-mass", given.place.line,
               {{"quantity", plain(given.quantity)}, {"value", as_given(given)}, {"because", because}, {"mend", mend}});
  };
  bool const weighed = given.unit.symbol != "ug" && given.unit.symbol != "ng";
  if (weighed && last < 0.9e-4)
    say("no balance in a school shows more than 0.1 mg", "give it to 0.01 g or 0.001 g");
  else if (weighed && mass < 0.05 && mass < 9.5 * last)
    say("it is a few of the last digits of the balance", "take at least 0.10 g, or weigh more and dilute");
  else if (mass > 3e6 * last)
    say("no balance holds so much and shows so little", "give fewer digits");
}

bool is_gas(Review const& review, std::string const& substance) {
  for (auto const& reaction : review.data().reactions)
    for (auto const* side : {&reaction.equation.left, &reaction.equation.right})
      for (auto const& species : *side)
        if (anhydrous_plain(plain(species.formula)) == substance && species.formula.state == State::gas) return true;
  return std::any_of(review.data().givens.begin(), review.data().givens.end(),
                     [](Given const& given) { return given.quantity.symbol == "p" || given.quantity.symbol == "Vm"; });
}

void look_at_volume(Review& review, Given const& given) {
  if (given.quantity.symbol != "V" || given.numbers.empty() || is_gas(review, anhydrous_plain(given.quantity.substance))) return;
  double const factor = given.unit.factor.to_double() * 1000;
  auto const say = [&](char const* because, char const* mend) {
    review.say("unmeasurable-volume", given.place.line,
               {{"quantity", plain(given.quantity)}, {"value", as_given(given)}, {"because", because}, {"mend", mend}});
  };
  bool const two_readings = given.form == Given::Form::difference || given.in_pairs;
  for (std::size_t i = 0; i < given.numbers.size(); ++i) {
    auto const& number = given.numbers[i];
    if (two_readings && i % 2 == 1) continue;  // a burette may begin at 0.00 mL
    double const volume = number.value.to_double() * factor;
    double const last = std::pow(10.0, number.last_place) * factor;
    if (last < 0.9e-2 && volume > 1.1)
      say("a burette is read to 0.01 mL at best", "give two decimals in mL");
    else if (volume < 0.04 && given.unit.symbol != "uL")
      say("that is less than a drop", "start from a weaker solution, so that more of it is taken");
    else if (last < 0.09 && volume > 100 && !is_nominal("flask", volume))
      say("no burette or pipette holds so much", "keep to 50 mL with two decimals, or give whole millilitres");
  }
}

void look_at_finds(Review& review) {
  auto const& working = review.working();
  bool const to_weigh = review.problem.text.find("weigh") != std::string::npos;
  for (std::size_t f = 0; f < working.finds.size(); ++f) {
    auto const& find = review.data().finds[f];
    if (find.kind != Find::Kind::number) continue;
    auto const& node = working.nodes[static_cast<std::size_t>(working.finds[f].node)];
    std::string const shown_value = working.finds[f].text + ' ' + node.value.unit.symbol;
    auto const formula = parse_formula(find.quantity.substance);
    // An ion, or what a sample is said to hold so much of, is reckoned: nobody weighs it.
    bool const reckoned = (ok(formula) && value(formula).charge != 0) || review.given_of("w", find.quantity.substance) != nullptr;
    if (find.quantity.symbol == "m" && to_weigh && !reckoned && in_base(node.value) < 0.01)
      review.say("unmeasurable-mass", find.place.line,
                 {{"quantity", plain(find)},
                  {"value", shown_value},
                  {"because", "it is less than a school balance weighs"},
                  {"mend", "weigh more and dilute, or make more of it"}});
    constexpr double drop = 0.04e-3;  // L
    if (find.quantity.symbol == "V" && !is_gas(review, anhydrous_plain(find.quantity.substance)) && in_base(node.value) < drop)
      review.say("unmeasurable-volume", find.place.line,
                 {{"quantity", plain(find)},
                  {"value", shown_value},
                  {"because", "that is less than a drop"},
                  {"mend", "dilute in two steps, or start from a weaker solution"}});
  }
}

struct Avoided {
  std::string holds, kind, because, safer;
  double above = 0;
};
std::vector<Avoided> const& avoided() {
  static auto const all = [] {
    std::vector<Avoided> rows;
    TsvTable const table(data::safer_reagents_tsv);
    for (std::size_t row = 0; row < table.size(); ++row) {
      auto const cell = [&](char const* column) { return std::string(table.cell(row, table.column(column))); };
      rows.push_back({cell("holds"), cell("kind"), cell("because"), cell("safer"), std::stod(cell("above_g"))});
    }
    return rows;
  }();
  return all;
}

bool holds(std::string const& substance, std::string const& part) {
  if (substance == part) return true;
  auto const formula = parse_formula(substance);
  if (!ok(formula)) return false;
  if (part.size() <= 2) return value(formula).composition().count(part) != 0;
  auto const ions = ions_of(substance);
  return std::any_of(ions.begin(), ions.end(), [&](IonCount const& ion) { return ion.ion == part; });
}

/// Grams of a substance that the working speaks of; 0 where it does not.
double grams_of(Review const& review, std::string const& substance) {
  double most = 0;
  for (auto const& node : review.working().nodes) {
    if (anhydrous_plain(node.quantity.substance) != substance || !node.quantity.part.empty()) continue;
    if (node.quantity.symbol == "m") most = std::max(most, in_base(node.value));
    if (node.quantity.symbol == "n") most = std::max(most, in_base(node.value) * grams_per_mole(substance));
  }
  return most;
}

void look_at_hazards(Review& review) {
  struct Met {
    std::string substance;
    std::size_t line;
  };
  std::vector<Met> met;
  for (auto const& reaction : review.data().reactions)
    for (auto const& species : reaction.equation.left)
      met.push_back({anhydrous_plain(plain(species.formula)), reaction.place.line});
  for (auto const& given : review.data().givens) met.push_back({anhydrous_plain(given.quantity.substance), given.place.line});
  for (auto const& row : avoided()) {
    for (auto const& [substance, line] : met) {
      if (!holds(substance, row.holds)) continue;
      double const grams = grams_of(review, substance);
      if (row.above > 0 && grams < row.above) continue;
      std::size_t where = line;
      for (auto const& given : review.data().givens)
        if (row.above > 0 && anhydrous_plain(given.quantity.substance) == substance) {
          where = given.place.line;
          break;
        }
      review.say(row.kind + "-reagent", where,
                 {{"substance", substance}, {"because", row.because}, {"mend", row.safer}, {"value", shown(grams, 2)}});
      break;
    }
  }
}
}  // namespace

void look_at_bench(Review& review) {
  for (auto const& node : review.working().nodes) look_at_concentration(review, node);
  for (auto const& given : review.data().givens) {
    look_at_mass(review, given);
    look_at_volume(review, given);
  }
  look_at_finds(review);
  look_at_hazards(review);
}

}  // namespace reviewing
}  // namespace molewright
