#include "engine/outcome.h"

#include <algorithm>

#include "engine/builder.h"
#include "engine/consistency.h"
#include "engine/doubts.h"
#include "engine/formula_memo.h"
#include "engine/lists.h"
#include "engine/relation_table.h"

namespace molewright {
namespace {

/// The first fault that a check finds among the steps on the way to the answers; it stands at the line that asks.
template <class Check>
std::optional<PlacedFault> among_steps(Worked const& worked, Check const& check) {
  auto const& working = worked.accepted.front();
  for (std::size_t f = 0; f < working.finds.size(); ++f)
    for (int index : order_of_work(working, f))
      if (std::optional<Fault> found = check(worked.problem.finds[f], working.nodes[static_cast<std::size_t>(index)]))
        return at(worked.problem.finds[f].place, *found);
  return std::nullopt;
}

/// What comes out below zero cannot be: water to be added that would have to be taken away.
std::optional<PlacedFault> below_zero(Worked const& worked) {
  return among_steps(worked, [](Find const&, Node const& node) -> std::optional<Fault> {
    if (node.value.number.sign() >= 0 || rank_of(node) != 2 || may_be_below_zero(node.quantity.symbol)) return std::nullopt;
    return Fault{"not-positive", plain(node.quantity) + " comes out below zero", "data that agree", 0};
  });
}

bool any_marked(std::vector<int> const& nodes, std::vector<bool> const& marked) {
  return std::any_of(nodes.begin(), nodes.end(), [&](int n) { return marked[static_cast<std::size_t>(n)]; });
}

/// The givens that no step reads, in their order.
std::vector<Given const*> idle_givens(Worked const& worked) {
  auto const& working = worked.accepted.front();
  auto const read = needed(working);
  std::vector<Given const*> idle;
  for (std::size_t g = 0; g < worked.problem.givens.size(); ++g)
    if (!any_marked(working.given_nodes[g], read)) idle.push_back(&worked.problem.givens[g]);
  return idle;
}

/// Whether an earlier reaction leaves some of a substance to a later one: a back titration.
bool is_titrated_back(Problem const& problem) {
  std::vector<std::string> before;
  for (auto const& reaction : problem.reactions) {
    std::vector<std::string> here;
    for (auto const& species : reaction.equation.left) here.push_back(plain(species.formula));
    for (auto const& reactant : here)
      if (std::find(before.begin(), before.end(), reactant) != before.end()) return true;
    before.insert(before.end(), here.begin(), here.end());
  }
  return false;
}

/// A portion that was taken changes the answer: where no step reads it, the problem was not understood.
std::optional<PlacedFault> portion_without_use(Worked const& worked, std::vector<Given const*> const& idle) {
  auto const& working = worked.accepted.front();
  for (auto const* given : idle) {
    if (given->quantity.word != "aliquot" && given->quantity.word != "taken") continue;
    auto const read = needed(working);
    bool reacted = false;
    for (std::size_t n = 0; n < read.size() && !reacted; ++n) {
      auto const& relation = working.nodes[n].relation;
      reacted = read[n] && (relation == relations::mole_ratio || relation == relations::from_limiting);
    }
    if (reacted)
      return at(
          given->place,
          {"idle-portion", "it is not clear what " + plain(given->quantity) + " was taken of",
           is_titrated_back(worked.problem)
               ? "the substance: V1(HCl) that was added, V2(HCl) that all of it was made up to and V2(HCl, aliquot); or, where "
                 "the sample alone was made up, V(NaCl) and V(NaCl, aliquot)"
               : "the substance, as in V(NaOH, aliquot), beside the volume of its flask V(NaOH)",
           0});
  }
  return std::nullopt;
}

/// N of a fertiliser beside its K2O: the share of another part of the whole that a step reads the share of.
bool is_share_beside_another(Worked const& worked, std::vector<Given const*> const& idle, Given const& given) {
  bool const for_formula = std::any_of(worked.problem.finds.begin(), worked.problem.finds.end(),
                                       [](Find const& f) { return f.kind != Find::Kind::number; });
  if (for_formula || !worked.problem.reactions.empty() || given.quantity.symbol != "w") return false;
  return std::any_of(worked.problem.givens.begin(), worked.problem.givens.end(), [&](Given const& other) {
    bool const read = std::find(idle.begin(), idle.end(), &other) == idle.end();
    return read && other.quantity.symbol == "w" && other.quantity.stage == given.quantity.stage && other.quantity.part.empty();
  });
}

/// A purity, a mass fraction or a pH that no step reads was meant for something: better no answer than one that passes it over.
std::optional<PlacedFault> share_without_use(Worked const& worked, std::vector<Given const*> const& idle) {
  for (auto const* given : idle) {
    auto const& symbol = given->quantity.symbol;
    bool const share = symbol == "w" && given->quantity.part.empty(), acidity = symbol == "pH" || symbol == "pOH";
    if (!(share || acidity) || is_share_beside_another(worked, idle, *given)) continue;
    auto const what =
        plain(given->quantity) + (share ? ", a purity or a mass fraction," : "") + " is given, but no step needs it";
    return at(given->place,
              {"idle-given", what,
               share ? "what it is a share of, such as m(sample), or the volume and the density of the solution; or no "
                       "line for it"
                     : "the strong acid or base whose solution it is of, with its volume; or no line for it",
               0});
  }
  return std::nullopt;
}

/// The volume of a flask, or of one of several solutions of what reacts, changes the answer: V(flask), V2(HCl). That of a sample
/// that was titrated whole, V(juice), does not, but beside another one that no step reads it does.
std::optional<PlacedFault> vessel_without_use(Worked const& worked, std::vector<Given const*> const& idle) {
  if (worked.problem.reactions.empty()) return std::nullopt;
  Given const* last = nullptr;
  bool surely = false;
  for (auto const* given : idle) {
    auto const& q = given->quantity;
    bool const word = is_whole(q.substance) && q.substance != "water";
    if (q.symbol != "V" || !(word || q.stage > 0)) continue;
    surely = surely || q.stage > 0 || q.substance == "solution" || last != nullptr;
    last = given;
  }
  if (!surely) return std::nullopt;
  return at(last->place,
            {"idle-given", plain(last->quantity) + " is given, but no step needs it",
             "the substance that it is the volume of, as in V(NaOH), and V(NaOH, aliquot) of a portion; or no line for it", 0});
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
  return formula && given.quantity.symbol == "m" && (of == "X" || is_whole(of));
}

/// Water that is poured to what reacts changes no amount: V(H2O, added), and V(water) where every concentration that is asked is
/// that of a solution with a volume of its own. So does the dilute acid that gives an equation its H^+.
bool changes_no_amount(Problem const& problem, Quantity const& q) {
  if (problem.reactions.empty() || q.symbol != "V" || q.stage != 0) return false;
  auto const uses = [&](std::string const& substance) {
    return std::any_of(problem.reactions.begin(), problem.reactions.end(), [&](Reaction const& reaction) {
      return std::any_of(reaction.equation.left.begin(), reaction.equation.left.end(),
                         [&](Species const& species) { return plain(species.formula) == substance; });
    });
  };
  auto const given = [&](auto const& test) {
    return std::any_of(problem.givens.begin(), problem.givens.end(), [&](Given const& g) { return test(g.quantity); });
  };
  bool const portion = given([](Quantity const& other) { return other.word == "aliquot" || other.word == "taken"; });
  bool const water = (q.substance == "H2O" || q.substance == "water") && !uses("H2O");
  bool const acid = q.word.empty() && uses("H^+") && !uses(q.substance) && count_in("H^+", q.substance) > 0 &&
                    !given([&](Quantity const& other) { return other.substance == q.substance && other.symbol != "V"; });
  if (portion || !(water || acid)) return false;
  return std::all_of(problem.finds.begin(), problem.finds.end(), [&](Find const& find) {
    auto const& asked = find.quantity;
    if (find.kind != Find::Kind::number || asked.symbol == "n" || asked.symbol == "m" || asked.symbol == "V") return true;
    bool const of_solution = asked.symbol == "c" || asked.symbol == "gamma";
    return of_solution && asked.word.empty() && given([&](Quantity const& other) {
             return other.symbol == "V" && other.word.empty() && other.substance == asked.substance;
           });
  });
}

/// Data that a text may hold without a use: the conditions, the density of a solution, a molar mass (which is looked up), the
/// mass or the volume of a sample that no share is asked of, the one volume of a solution, what is there in excess.
bool may_stay_unread(Worked const& worked, Given const& given) {
  auto const& problem = worked.problem;
  auto const& q = given.quantity;
  for (Symbol symbol : {"T", "p", "rho", "M", "Ksp"})
    if (q.symbol == symbol) return true;
  if (constant_of(q.symbol) || contains(problem.excess, q.substance) || says_no_more(problem, given)) return true;
  if (changes_no_amount(problem, q)) return true;
  bool const share_asked = std::any_of(problem.finds.begin(), problem.finds.end(), [](Find const& f) {
    auto const& s = f.quantity.symbol;
    bool const rest = f.quantity.word == "left" || f.quantity.word == "used";
    return f.kind == Find::Kind::number && (rest || s == "w" || s == "c" || s == "gamma" || s == "b" || s == "x" || s == "phi");
  });
  if ((q.symbol == "m" || q.symbol == "V") && is_whole(q.substance)) return !share_asked;
  bool const weighed = std::any_of(problem.givens.begin(), problem.givens.end(), [&](Given const& g) {
    return g.quantity.substance == q.substance && (g.quantity.symbol == "m" || g.quantity.symbol == "n");
  });
  if (q.symbol == "V" && q.stage == 0 && q.word.empty() && weighed) return !share_asked;
  // Nothing but one substance, by itself: there is nothing else that it could be of.
  auto const alone = [&](Quantity const& other) {
    return other.substance == q.substance && other.stage == 0 && other.word.empty() && other.part.empty() &&
           (is_of_portions(other.symbol) || other.symbol == "M");
  };
  bool const one_substance =
      problem.reactions.empty() && problem.handlings.empty() &&
      std::all_of(problem.givens.begin(), problem.givens.end(), [&](Given const& g) { return alone(g.quantity); }) &&
      std::all_of(problem.finds.begin(), problem.finds.end(), [&](Find const& f) { return alone(f.quantity); });
  if (one_substance) return true;
  auto const volumes =
      std::count_if(problem.givens.begin(), problem.givens.end(), [](Given const& g) { return g.quantity.symbol == "V"; });
  return q.symbol == "V" && q.stage == 0 && q.word.empty() && volumes == 1 && problem.reactions.empty();
}

/// Any other given that no step reads, and that the other data do not confirm, was meant for something: better no answer than one
/// that passes it over.
std::optional<PlacedFault> data_without_use(Worked const& worked, std::vector<Given const*> const& idle, Network const& network,
                                            Conventions const& conventions) {
  for (auto const* given : idle) {
    if (may_stay_unread(worked, *given) || is_share_beside_another(worked, idle, *given)) continue;
    if (is_confirmed(network, static_cast<std::size_t>(given - worked.problem.givens.data()), conventions)) continue;
    bool const yield = given->quantity.symbol == "yield";
    return at(given->place,
              {"idle-given", plain(given->quantity) + " is given, but no step needs it",
               yield ? "the reactions in the order in which they run, and the yield of what goes on from one to the next"
                     : "the substance, the solution or the portion that it is of, named as in the other lines; or no line for it",
               0});
  }
  return std::nullopt;
}

/// One yield, and another product is asked, or what is left of a reactant: whether the yield holds for that is not said.
std::optional<PlacedFault> yield_of_another(Worked const& worked, Network const& network) {
  auto const& problem = worked.problem;
  auto const& product = network.product_of_yield();
  bool const given = std::any_of(problem.givens.begin(), problem.givens.end(),
                                 [](Given const& g) { return g.quantity.symbol == "yield" && g.quantity.stage == 0; });
  if (product.empty() || !given) return std::nullopt;
  auto const stands_in = [](std::vector<Species> const& side, std::string const& substance) {
    return std::any_of(side.begin(), side.end(), [&](Species const& s) { return plain(s.formula) == substance; });
  };
  for (auto const& reaction : problem.reactions) {
    auto const& [left, right] = std::pair{reaction.equation.left, reaction.equation.right};
    if (!stands_in(right, product)) continue;
    for (auto const& find : problem.finds) {
      auto const& q = find.quantity;
      bool const portion = q.symbol == "m" || q.symbol == "n" || q.symbol == "V" || q.symbol == "N";
      bool const other = portion && q.word.empty() && stands_in(right, q.substance) && q.substance != product;
      bool const rest = (q.word == "left" || q.word == "used") && stands_in(left, q.substance);
      if (find.kind != Find::Kind::number || !(other || rest)) continue;
      return at(find.place, {"yield-of-another", "it is not said whether the yield holds for " + plain(q) + " too",
                             other ? "the yield of each product, in lines such as given yield(" + product + ") = ..."
                                   : "no yield, or nothing left to find",
                             0});
    }
  }
  return std::nullopt;
}

/// A pH that is asked and is among the data was meant of two solutions: before and after.
std::optional<PlacedFault> given_already(Worked const& worked, Network const& network) {
  for (auto const& find : worked.problem.finds)
    for (auto const& given : worked.problem.givens)
      if (auto const& q = find.quantity;
          (q.symbol == "pH" || q.symbol == "pOH") && network.canonical(given.quantity) == network.canonical(q))
        return at(find.place, {"given-already", plain(q) + " is asked, but it is given",
                               "the substance whose solution has the one that is given, as in pH(HCl)", 0});
  return std::nullopt;
}

/// What the solid itself adds to a common ion may be left out where it is little; else the answer would be wrong.
std::optional<PlacedFault> too_much_to_neglect(Worked const& worked) {
  constexpr double little = 0.05;
  // An acidity that is told is held, whatever dissolves.
  for (auto const& given : worked.problem.givens)
    if (given.quantity.symbol == "pH" || given.quantity.symbol == "pOH") return std::nullopt;
  auto const& working = worked.accepted.front();
  return among_steps(worked, [&](Find const& find, Node const& node) -> std::optional<Fault> {
    bool const dissolves = find.quantity.symbol == "s" || find.quantity.word == "left";  // when a solid begins to form, none does
    if (!dissolves || node.relation != RelationForm("Ksp = product of c^nu") || node.quantity.symbol != "c") return std::nullopt;
    for (auto const& term : node.definition.terms) {
      auto const& other = working.nodes[static_cast<std::size_t>(term.node)];
      double const ratio = static_cast<double>(-term.weight) / node.definition.root;
      if (other.quantity.symbol == "c" && ratio * node.value.number.to_double() > little * other.value.number.to_double())
        return Fault{"not-negligible", "what the solid itself adds to " + plain(other.quantity) + " is too much to be neglected",
                     "a greater concentration of the common ion, or a smaller Ksp", 0};
    }
    return std::nullopt;
  });
}

/// Something dissolved is left of the last ion where a solid forms: its solubility product says how much.
std::optional<PlacedFault> nothing_left(Worked const& worked) {
  auto const& problem = worked.problem;
  bool const told =
      std::any_of(problem.givens.begin(), problem.givens.end(), [](Given const& g) { return g.quantity.symbol == "Ksp"; });
  for (std::size_t f = 0; told && f < problem.finds.size(); ++f) {
    auto const& q = problem.finds[f].quantity;
    auto const& working = worked.accepted.front();
    bool const rest = problem.finds[f].kind == Find::Kind::number && q.symbol == "c" && q.word == "left";
    if (rest && working.nodes[static_cast<std::size_t>(working.finds[f].node)].value.number.sign() == 0)
      return at(problem.finds[f].place,
                {"not-negligible", plain(q) + " comes out as nothing, though the solid dissolves a little",
                 "amounts of which one is clearly the greater", 0});
  }
  return std::nullopt;
}

/// The amount fraction or the molality of a salt that is weighed as crystals into so much water, and the share of the water:
/// theirs is part of it, which is not worked.
std::optional<PlacedFault> water_of_crystals(Worked const& worked) {
  auto const& problem = worked.problem;
  std::vector<std::string> weighed, in_share;
  bool in_water = false;
  auto const look = [&](Quantity const& q) {
    bool const portion = q.symbol == "m" || q.symbol == "n" || q.symbol == "V";
    in_water = in_water || (portion && q.substance == "H2O");
    if (portion && !salt_of_crystals(q.substance).empty()) add_once(weighed, q.substance);
    bool const of_water = q.symbol == "w" && q.substance == "H2O" && q.part.empty();
    if (q.symbol == "b" || q.symbol == "x" || of_water) add_once(in_share, q.substance);
  };
  for (auto const& given : problem.givens) look(given.quantity);
  for (auto const& find : problem.finds)
    if (find.kind == Find::Kind::number) look(find.quantity);
  for (auto const& crystals : weighed)
    for (auto const& share : in_share) {
      bool const of_salt = share == salt_of_crystals(crystals) || share == "H2O";
      if ((of_salt && in_water) || (!of_salt && is_ion(share) && count_in(share, crystals) > 0))
        return at(problem.finds.front().place, {"crystal-water", "the water in " + crystals + " is part of the solvent, too",
                                                "the mass of " + salt_of_crystals(crystals) + " and that of all the water", 0});
    }
  return std::nullopt;
}

/// More of a part than of the whole cannot be: the data are of two minds.
std::optional<PlacedFault> more_than_all(Worked const& worked) {
  return among_steps(worked, [](Find const&, Node const& node) -> std::optional<Fault> {
    auto const& symbol = node.quantity.symbol;
    auto const share = node.value.number * node.value.unit.factor;
    if ((symbol != "w" && symbol != "x" && symbol != "phi") || share <= Rational(1)) return std::nullopt;
    return Fault{"more-than-all", plain(node.quantity) + " is " + unrounded(share * Rational(100), 4) + " %: more than the whole",
                 "data that agree", 0};
  });
}

/// The water's own ions count where an acid or a base is as dilute as this.
std::optional<PlacedFault> too_dilute(Worked const& worked) {
  constexpr double least = 1e-6;
  return among_steps(worked, [](Find const&, Node const& node) -> std::optional<Fault> {
    auto const& of = node.quantity.substance;
    bool const ion = node.quantity.symbol == "c" && (of == "H^+" || of == "H3O^+" || of == "OH^-");
    if (!ion || node.relation != RelationForm("c(ion) = nu c(salt)") || node.value.number.to_double() >= least)
      return std::nullopt;
    return Fault{"too-dilute", plain(node.quantity) + " is so small that the ions of the water itself count",
                 "an acid or a base of at least 1e-6 mol/L", 0};
  });
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

/// "V1(KCl) = 10 mL and V2(KCl) = 100 mL may have fewer figures than are written; all that are written are taken": one line for
/// all data whose last zeros may say nothing. Empty where there are none.
std::string about_unsure_figures(Problem const& problem) {
  std::vector<std::string> unsure;
  for (auto const& given : problem.givens)
    for (std::size_t i = 0; i < given.numbers.size(); ++i) {
      if (!given.numbers[i].ambiguous() || !last_place(given, i)) continue;
      auto const unit = given.unit.symbol.empty() ? std::string() : ' ' + given.unit.symbol;
      add_once(unsure, plain(given.quantity) + " = " + given.numbers[i].text + unit);
    }
  if (unsure.empty()) return {};
  return enumerated(unsure) + " may have fewer figures than are written; all that are written are taken";
}

/// What is made up to more comes out weaker: "V2 = 10 mL" of 50 mL is boiled down, or a value is off.
void look_at_dilutions(Worked& worked) {
  auto const& working = worked.accepted.front();
  for (auto const& handling : worked.problem.handlings) {
    if (handling.kind != Handling::Kind::dilute) continue;
    for (auto const& node : working.nodes) {
      auto after = node.quantity;
      if (after.symbol != "c" || after.stage != handling.from.front() || !after.word.empty() || node.id != plain(after)) continue;
      after.stage = handling.to;
      int const made = working.find_node(plain(after));
      if (made < 0) continue;
      auto const& last = working.nodes[static_cast<std::size_t>(made)].value;
      if (last.number * last.unit.factor > node.value.number * node.value.unit.factor)
        worked.warnings.push_back(plain(after) + " is greater than " + plain(node.quantity) +
                                  ": no solution gets stronger when it is diluted");
    }
  }
}
}  // namespace

PlacedFault at(Place const& place, Fault fault) { return {std::move(fault), place.line, place.column, {}}; }

std::vector<bool> needed(Working const& working) {
  std::vector<bool> out(working.nodes.size(), false);
  for (std::size_t f = 0; f < working.finds.size(); ++f)
    for (int index : order_of_work(working, f)) out[static_cast<std::size_t>(index)] = true;
  return out;
}

std::optional<PlacedFault> cannot_be(Worked const& worked, Network const& network, Conventions const& conventions) {
  if (auto found = given_already(worked, network)) return found;
  if (auto found = yield_of_another(worked, network)) return found;
  auto const idle = idle_givens(worked);
  for (auto const check : {portion_without_use, share_without_use, vessel_without_use})
    if (auto found = check(worked, idle)) return found;
  if (auto found = data_without_use(worked, idle, network, conventions)) return found;
  for (auto const check :
       {below_zero, more_than_all, too_dilute, not_to_be_told, too_much_to_neglect, nothing_left, water_of_crystals})
    if (auto found = check(worked)) return found;
  return std::nullopt;
}

void add_warnings(Worked& worked) {
  auto const& working = worked.accepted.front();
  auto const read = needed(working);
  for (auto const& node : working.nodes)
    if (node.definition.operation == Operation::choose && is_tie(working, node))
      worked.warnings.push_back("no one reagent limits: their amounts are in the ratio of the equation");
  look_at_dilutions(worked);
  for (auto& doubt : doubts(worked.problem, working)) worked.warnings.push_back(std::move(doubt));
  for (std::size_t g = 0; g < worked.problem.givens.size(); ++g) {
    auto const& given = worked.problem.givens[g];
    bool const used = any_marked(working.given_nodes[g], read);
    if (auto const said = about_precipitate(worked, given); !said.empty()) {
      worked.warnings.push_back(said);
      continue;
    }
    if (!used && !says_no_more(worked.problem, given))
      worked.warnings.push_back(plain(given.quantity) + " is given but not needed" +
                                (changes_no_amount(worked.problem, given.quantity) ? ": it changes no amount that reacts" : ""));
  }
  if (auto const said = about_unsure_figures(worked.problem); !said.empty()) worked.warnings.push_back(said);
}

}  // namespace molewright
