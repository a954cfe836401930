// Slips in the relations beyond n, m, c and V: ions of a salt, purity and density, gases, heat, pH, solubility, mixtures.
#include <cstdlib>

#include "engine/relation_table.h"
#include "marker/slip_library.h"

namespace molewright {
namespace {

template <class Visit>
void each_of(Anatomy const& anatomy, RelationForm relation, Visit const& visit) {
  for (int const i : anatomy.all(NodeKind::other))
    if (anatomy.used(i) && anatomy.node(i).relation == relation) visit(i);
}

/// The term of that symbol left out, or turned over; nothing where there is no such term.
void without(Anatomy const& anatomy, Sink& sink, Slip const* slip, int i, std::string_view symbol) {
  if (int const t = anatomy.term_of(i, symbol); t >= 0) sink.node(slip, i, without_term(anatomy.node(i).definition, t));
}
void turned(Anatomy const& anatomy, Sink& sink, Slip const* slip, int i, std::string_view symbol) {
  if (int const t = anatomy.term_of(i, symbol); t >= 0)
    sink.node(slip, i, with_weight(anatomy.node(i).definition, t, -anatomy.term(i, t).weight));
}
void all_turned(Anatomy const& anatomy, Sink& sink, Slip const* slip, int i) {
  auto definition = anatomy.node(i).definition;
  for (auto& term : definition.terms) term.weight = -term.weight;
  sink.node(slip, i, std::move(definition));
}

/// 1 - w: the share of what is not asked for.
void rest_for_share(Anatomy const& anatomy, Sink& sink, int i) {
  static auto const* const rest = find_slip("rest-given-for-share");
  if (auto const other = Rational(1) - anatomy.node(i).value.number; other.sign() > 0) sink.node(rest, i, constant_of(other));
}

/// c(ion) = nu c(salt), n(part) = nu n(whole): the nu left out, or on the other side.
void counts_of_ions(Anatomy const& anatomy, Sink& sink) {
  static auto const* const ignored = find_slip("ion-count-ignored");
  static auto const* const inverted = find_slip("ion-count-inverted");
  static auto const* const atoms = find_slip("atoms-per-unit-ignored");
  static auto const* const one_source = find_slip("ion-from-one-source-only");
  for (RelationForm const form :
       {RelationForm("c(ion) = nu c(salt)"), RelationForm("n(part) = nu n(whole)"), RelationForm("c(ion) = nu s")})
    each_of(anatomy, form, [&](int i) {
      auto const& definition = anatomy.node(i).definition;
      bool const ion = anatomy.node(i).quantity.substance.find('^') != std::string::npos;
      if (definition.operation == Operation::sum) {  // an ion that several salts bring
        auto once = definition;
        bool same = true;
        for (auto& term : once.terms) {
          same = same && term.weight == 1;
          term.weight = 1;
        }
        if (!same) sink.node(ignored, i, std::move(once));
        if (definition.terms.size() > 1)
          for (std::size_t t = 0; t < definition.terms.size(); ++t)
            sink.node(one_source, i, without_term(definition, static_cast<int>(t)));
        return;
      }
      int const nu = anatomy.term_of(i, "nu");
      if (nu < 0) return;
      sink.node(ion ? ignored : atoms, i, without_term(definition, nu));
      sink.node(inverted, i, with_weight(definition, nu, -anatomy.term(i, nu).weight));
    });
  static auto const* const one_atom = find_slip("mass-fraction-one-atom");
  static auto const* const fraction_inverted = find_slip("mass-fraction-inverted");
  each_of(anatomy, "w = nu M(part)/M(whole)", [&](int i) {
    if (!anatomy.symbol(i, "w")) return;
    rest_for_share(anatomy, sink, i);
    without(anatomy, sink, one_atom, i, "nu");
    all_turned(anatomy, sink, fraction_inverted, i);
  });
}

void wholes(Anatomy const& anatomy, Sink& sink) {
  static auto const* const not_pure = find_slip("purity-not-applied");
  static auto const* const purity_over = find_slip("purity-divided-for-multiplied");
  static auto const* const no_density = find_slip("density-left-out");
  static auto const* const density_over = find_slip("density-inverted");
  static auto const* const fraction_inverted = find_slip("mass-fraction-inverted");
  static auto const* const no_molar_mass = find_slip("mass-concentration-as-amount-concentration");
  each_of(anatomy, "w = m/m(whole)", [&](int i) {
    if (anatomy.symbol(i, "w")) {
      rest_for_share(anatomy, sink, i);
      all_turned(anatomy, sink, fraction_inverted, i);
      return;
    }
    without(anatomy, sink, not_pure, i, "w");
    turned(anatomy, sink, purity_over, i, "w");
  });
  each_of(anatomy, "rho = m/V", [&](int i) {
    if (anatomy.symbol(i, "rho")) {
      all_turned(anatomy, sink, density_over, i);
      return;
    }
    without(anatomy, sink, no_density, i, "rho");
    turned(anatomy, sink, density_over, i, "rho");
  });
  each_of(anatomy, "c = w rho/M", [&](int i) {
    without(anatomy, sink, no_density, i, "rho");
    without(anatomy, sink, not_pure, i, "w");
    without(anatomy, sink, no_molar_mass, i, "M");
  });
}

/// V = n Vm with the molar volume of other conditions; `rest` is the relation without Vm, which stands in it with `weight`.
/// 22.414 L/mol: CODATA, 0 degC and 101.325 kPa; 24.0 and 24.5 L/mol: about 20 and 25 degC, as school books print them.
void other_molar_volumes(Sink& sink, int i, Definition const& rest, int weight) {
  static auto const* const other = find_slip("molar-volume-other-conditions");
  for (auto const& Vm : {Rational(22414, 1000), Rational(224, 10), Rational(24), Rational(245, 10)})
    sink.node(other, i, with_factor(rest, rest.factor * Vm.power(weight)));
}

/// V/Vm for a solution, where a molar volume is about for a gas.
void solution_as_gas(Anatomy const& anatomy, Sink& sink) {
  static auto const* const for_solution = find_slip("molar-volume-for-solution");
  int Vm = -1;
  each_of(anatomy, "V = n Vm", [&](int i) {
    if (int const t = anatomy.term_of(i, "Vm"); t >= 0) Vm = anatomy.term(i, t).node;
  });
  if (Vm < 0) return;
  for (int const i : anatomy.all(NodeKind::amount_in_solution)) {
    int const V = anatomy.term_of(i, "V");
    if (!anatomy.used(i) || !anatomy.symbol(i, "n") || V < 0 || Vm >= i) continue;
    Definition over_Vm = copy_of(anatomy.term(i, V).node);
    over_Vm.terms.push_back(Term{Vm, -1});
    sink.node(for_solution, i, std::move(over_Vm));
  }
}

void gases(Anatomy const& anatomy, Sink& sink) {
  static auto const* const celsius = find_slip("celsius-in-gas-law");
  static auto const* const subtracted = find_slip("kelvin-subtracted");
  static auto const* const Vm_over = find_slip("molar-volume-multiplied-for-divided");
  static auto const* const upside_down = find_slip("gas-law-upside-down");
  static auto const* const vapour = find_slip("vapour-pressure-not-subtracted");
  static auto const* const pressure = find_slip("pressure-unit-mismatch");
  for (int const i : anatomy.all(NodeKind::conversion)) {
    auto const& definition = anatomy.node(i).definition;
    if (!anatomy.used(i) || !anatomy.symbol(i, "T") || definition.operation != Operation::sum || definition.terms.size() != 2)
      continue;
    sink.node(celsius, i, copy_of(definition.terms[0].node));
    auto swapped = definition;  // 273.15 - t: the sign is left off
    swapped.terms[0].weight = -swapped.terms[0].weight;
    sink.node(subtracted, i, std::move(swapped));
  }
  each_of(anatomy, "V = n Vm", [&](int i) {
    turned(anatomy, sink, Vm_over, i, "Vm");
    if (int const Vm = anatomy.term_of(i, "Vm"); Vm >= 0 && anatomy.node(anatomy.term(i, Vm).node).value.unit.symbol == "L/mol")
      other_molar_volumes(sink, i, without_term(anatomy.node(i).definition, Vm), anatomy.term(i, Vm).weight);
  });
  each_of(anatomy, "pV = nRT", [&](int i) {
    all_turned(anatomy, sink, upside_down, i);
    auto const& definition = anatomy.node(i).definition;
    int const R = anatomy.term_of(i, "R"), V = anatomy.term_of(i, "V"), n = anatomy.term_of(i, "n");
    // 0.082057 L atm/(mol K) beside a pressure in kPa.
    if (R >= 0)
      sink.node(pressure, i,
                with_factor(definition, definition.factor * Rational(101325, 1000).power(-anatomy.term(i, R).weight)));
    if (int const known = anatomy.symbol(i, "n") ? V : anatomy.symbol(i, "V") ? n : -1; known >= 0)
      other_molar_volumes(sink, i, copy_of(anatomy.term(i, known).node), anatomy.symbol(i, "n") ? -1 : 1);
  });
  solution_as_gas(anatomy, sink);
  each_of(anatomy, "p(gas) = p - p(H2O)", [&](int i) {
    auto const& terms = anatomy.node(i).definition.terms;
    if (terms.size() == 2 && terms[1].weight < 0) sink.node(vapour, i, copy_of(terms[0].node));
  });
}

/// dT as one of the temperatures, or with the 273 of kelvins added to it.
void temperature_differences(Anatomy const& anatomy, Sink& sink) {
  static auto const* const one_of_them = find_slip("temperature-for-difference");
  static auto const* const kelvin = find_slip("kelvin-added-to-difference");
  constexpr double first_one = 0.3;  // the last temperature is the one that stands there at the end (proposal)
  each_of(anatomy, "dT = T2 - T1", [&](int i) {
    if (!anatomy.symbol(i, "dT")) return;
    for (auto const& term : anatomy.node(i).definition.terms)
      sink.node(one_of_them, i, copy_of(term.node), -1, term.weight > 0 ? 1 : first_one);
    for (auto const& zero : {Rational(273), Rational(27315, 100)})
      sink.node(kelvin, i, constant_of(anatomy.node(i).value.number + zero));
  });
}

/// q = m cp dT: what else may go in for the mass of the solution, and what may be left out.
void heats_of_solutions(Anatomy const& anatomy, Sink& sink) {
  static auto const* const solute = find_slip("solute-mass-for-solution-mass");
  static auto const* const added = find_slip("solute-mass-added-again");
  static auto const* const no_capacity = find_slip("heat-capacity-left-out");
  static auto const* const sign = find_slip("sign-of-heat");
  static Unit const millilitres = unit("mL");
  each_of(anatomy, "q = m cp dT", [&](int i) {
    int const m = anatomy.term_of(i, "m");
    auto const& definition = anatomy.node(i).definition;
    if (anatomy.symbol(i, "q")) {
      without(anatomy, sink, no_capacity, i, "cp");
      if (anatomy.node(i).value.number.sign() < 0) sink.node(sign, i, with_factor(definition, -definition.factor));
    }
    if (m < 0) return;
    int const used = anatomy.term(i, m).node;
    auto const& mass = anatomy.node(used).value;
    for (int other = 0; other < i; ++other) {
      auto const& value = anatomy.node(other).value;
      bool const a_mass = anatomy.symbol(other, "m") && value.unit == mass.unit;
      // Of a dilute solution the millilitres are taken for its grams.
      bool const a_volume = anatomy.symbol(other, "V") && anatomy.printed(other) && value.unit == millilitres;
      if (other == used || (!a_mass && !a_volume)) continue;
      sink.node(solute, i, with_node(definition, m, other));
      // Of water the mass of what dissolves in it may well be added.
      if (a_mass && anatomy.substance(used, "solution") && anatomy.printed(other) && anatomy.printed(used))
        sink.node(added, i,
                  with_factor(without_term(definition, m),
                              definition.factor *
                                  (mass.number + value.number).power(definition.terms[static_cast<std::size_t>(m)].weight)));
    }
  });
}

void heat(Anatomy const& anatomy, Sink& sink) {
  static auto const* const sign = find_slip("sign-of-enthalpy");
  for (RelationForm const form : {RelationForm("dH = -q/n"), RelationForm("dH = -q nu/n")})
    each_of(anatomy, form, [&](int i) {
      auto const& definition = anatomy.node(i).definition;
      if (anatomy.symbol(i, "dH")) sink.node(sign, i, with_factor(definition, -definition.factor));
    });
  temperature_differences(anatomy, sink);
  heats_of_solutions(anatomy, sink);
}

/// The amount behind a concentration, itself or that of the salt whose ion it is; -1 for none.
int amount_behind(Anatomy const& anatomy, int c) {
  if (anatomy.node(c).relation == RelationForm("c(ion) = nu c(salt)")) {
    int const salt = anatomy.term_of(c, "c");
    if (salt < 0) return -1;
    c = anatomy.term(c, salt).node;
  }
  int const n = anatomy.kind(c) == NodeKind::amount_in_solution ? anatomy.term_of(c, "n") : -1;
  return n < 0 ? -1 : anatomy.term(c, n).node;
}

void acidity_and_solubility(Anatomy const& anatomy, Sink& sink) {
  static auto const* const not_from_14 = find_slip("pOH-given-as-pH");
  static auto const* const square_root = find_slip("solubility-as-square-root");
  static auto const* const factor_out = find_slip("ion-factor-left-out-of-product");
  static auto const* const power_out = find_slip("power-left-off-an-ion");
  static auto const* const no_minus = find_slip("minus-left-out-of-pH");
  static auto const* const natural = find_slip("natural-logarithm-for-lg");
  static auto const* const taken_from_14 = find_slip("pH-taken-from-14");
  static auto const* const of_amount = find_slip("amount-for-concentration-in-pH");
  Rational const ln_10(2302585092994046, 1000000000000000);  // ln c = ln 10 x lg c
  each_of(anatomy, "pX = -lg c(X)", [&](int i) {
    auto const& definition = anatomy.node(i).definition;
    if (definition.operation == Operation::exponential) {  // c = 10^(-pH)
      sink.node(no_minus, i, with_weight(definition, 0, -definition.terms[0].weight));
      return;
    }
    sink.node(no_minus, i, with_factor(definition, -definition.factor));
    sink.node(natural, i, with_factor(definition, definition.factor * ln_10));
    if (int const n = amount_behind(anatomy, definition.terms[0].node); n >= 0)
      sink.node(of_amount, i, with_node(definition, 0, n));
    if (anatomy.is_answer(i)) sink.node(taken_from_14, i, constant_of(Rational(14) - anatomy.node(i).value.number));
  });
  each_of(anatomy, "pH + pOH = pKw", [&](int i) {
    for (auto const& term : anatomy.node(i).definition.terms)
      if (term.weight < 0) sink.node(not_from_14, i, copy_of(term.node));
  });
  each_of(anatomy, "Ksp = product of (nu s)^nu", [&](int i) {
    auto const& definition = anatomy.node(i).definition;
    if (definition.factor != Rational(1)) sink.node(factor_out, i, with_factor(definition, Rational(1)));
    if (definition.root > 2) {
      auto root = with_factor(definition, Rational(1));
      root.root = 2;
      sink.node(square_root, i, std::move(root));
    }
    for (std::size_t t = 0; t < definition.terms.size(); ++t)
      if (definition.terms[t].weight > 2)
        sink.node(square_root, i, with_factor(with_weight(definition, static_cast<int>(t), 2), Rational(1)));
  });
  for (auto const product : {RelationForm("Ksp = product of c^nu"), RelationForm("Q = product of c^nu")})
    each_of(anatomy, product, [&](int i) {
      auto const& definition = anatomy.node(i).definition;
      for (std::size_t t = 0; t < definition.terms.size(); ++t)
        if (definition.terms[t].weight > 1) sink.node(power_out, i, with_weight(definition, static_cast<int>(t), 1));
    });
}

/// The concentrations of the solutions that were mixed, each times how often the ion is in its salt: what the amounts in `n` come
/// from.
void add_concentrations(Anatomy const& anatomy, int n, int times, Terms& concentrations) {
  auto const& node = anatomy.node(n);
  bool const a_sum = node.definition.operation == Operation::sum &&
                     (node.relation == RelationForm("n = n1 + n2") || node.relation == RelationForm("n(part) = nu n(whole)"));
  if (a_sum) {
    for (auto const& part : node.definition.terms) add_concentrations(anatomy, part.node, times * part.weight, concentrations);
    return;
  }
  int const c = anatomy.kind(n) == NodeKind::amount_in_solution ? anatomy.term_of(n, "c") : -1;
  if (c >= 0) concentrations.push_back(Term{anatomy.term(n, c).node, times});
}

/// The concentration of a mixture as the mean or the sum of the two.
void mixtures(Anatomy const& anatomy, Sink& sink) {
  static auto const* const averaged = find_slip("mixture-concentration-averaged");
  static auto const* const added = find_slip("mixture-concentrations-added");
  static auto const* const one_volume = find_slip("total-volume-ignored-on-mixing");
  static auto const* const difference = find_slip("volume-difference-for-total");
  each_of(anatomy, "V = V1 + V2", [&](int i) {
    auto const& terms = anatomy.node(i).definition.terms;
    for (auto const& term : terms)
      if (term.weight > 0 && terms.size() > 1) sink.node(one_volume, i, copy_of(term.node));
    if (terms.size() != 2) return;
    bool const first = anatomy.node(terms[0].node).value.number > anatomy.node(terms[1].node).value.number;
    sink.node(difference, i, with_weight(anatomy.node(i).definition, first ? 1 : 0, -1));
  });
  for (int const i : anatomy.all(NodeKind::amount_in_solution)) {
    if (!anatomy.used(i) || !anatomy.symbol(i, "c")) continue;
    int const n = anatomy.term_of(i, "n");
    if (n < 0) continue;
    Definition sum;
    sum.operation = Operation::sum;
    add_concentrations(anatomy, anatomy.term(i, n).node, 1, sum.terms);
    auto const count = static_cast<std::int64_t>(sum.terms.size());
    if (count < 2) continue;
    sink.node(averaged, i, with_factor(sum, Rational(1, count)));
    sink.node(added, i, std::move(sum));
  }
}

/// n in the flask taken to be n in the portion: n(flask) = c V(flask), where c came from the portion.
void portions(Anatomy const& anatomy, Sink& sink) {
  static auto const* const not_scaled = find_slip("aliquot-not-scaled-up");
  static auto const* const inverted = find_slip("aliquot-factor-inverted");
  for (int const i : anatomy.all(NodeKind::amount_in_solution)) {
    if (!anatomy.used(i) || !anatomy.symbol(i, "n")) continue;
    int const c = anatomy.term_of(i, "c");
    if (c < 0) continue;
    int const from = anatomy.term(i, c).node;
    int const n = anatomy.kind(from) == NodeKind::amount_in_solution ? anatomy.term_of(from, "n") : -1;
    int const V = anatomy.term_of(from, "V"), own = anatomy.term_of(i, "V");
    if (n < 0 || V < 0 || own < 0) continue;
    sink.node(not_scaled, i, copy_of(anatomy.term(from, n).node));
    Definition turned_over = copy_of(anatomy.term(from, n).node);
    turned_over.terms.push_back(Term{anatomy.term(from, V).node, 1});
    turned_over.terms.push_back(Term{anatomy.term(i, own).node, -1});
    sink.node(inverted, i, std::move(turned_over));
  }
}

/// n(used) = n + n(left), V(added) = V2 + V1.
void sums_for_differences(Anatomy const& anatomy, Sink& sink) {
  static auto const* const added = find_slip("added-for-taken-away");
  for (auto const kind : {NodeKind::left_over, NodeKind::water_added})
    for (int const i : anatomy.all(kind)) {
      auto sum = anatomy.node(i).definition;
      if (!anatomy.used(i) || sum.operation != Operation::sum || sum.terms.size() != 2) continue;
      bool const difference = sum.terms[0].weight * sum.terms[1].weight < 0;
      for (auto& term : sum.terms) term.weight = std::abs(term.weight);
      if (difference) sink.node(added, i, std::move(sum));
    }
}
}  // namespace

void relation_slips(Anatomy const& anatomy, Sink& sink) {
  counts_of_ions(anatomy, sink);
  wholes(anatomy, sink);
  gases(anatomy, sink);
  heat(anatomy, sink);
  acidity_and_solubility(anatomy, sink);
  mixtures(anatomy, sink);
  portions(anatomy, sink);
  sums_for_differences(anatomy, sink);
}

/// One factor of a relation on the wrong side of the line, unless a slip has a name of its own for it.
void operator_slips(Anatomy const& anatomy, Sink& sink) {
  static auto const* const multiplied = find_slip("multiplied-for-divided");
  static auto const* const divided = find_slip("divided-for-multiplied");
  for (int i = 0; i < anatomy.size(); ++i) {
    auto const& node = anatomy.node(i);
    auto const& definition = node.definition;
    auto const kind = anatomy.kind(i);
    if (!anatomy.used(i) || definition.operation != Operation::product || definition.root != 1 || definition.terms.size() < 2 ||
        anatomy.printed(i) || kind == NodeKind::conversion || kind == NodeKind::mole_ratio || kind == NodeKind::batches)
      continue;
    for (std::size_t t = 0; t < definition.terms.size(); ++t) {
      auto const& term = definition.terms[t];
      auto const of = anatomy.kind(term.node);
      if ((term.weight != 1 && term.weight != -1) || of == NodeKind::coefficient) continue;
      auto turned = with_weight(definition, static_cast<int>(t), -term.weight);
      if (!sink.holds(i, turned)) sink.node(term.weight < 0 ? multiplied : divided, i, std::move(turned));
    }
  }
}

}  // namespace molewright
