// What a problem speaks of, and the relations of one substance by itself.
#include <algorithm>

#include "engine/formula_memo.h"
#include "engine/lists.h"
#include "engine/network.h"
#include "engine/nomenclature_parts.h"
#include "engine/quantity_words.h"
#include "engine/substance.h"

namespace molewright {
namespace {

/// Words of portions of their own, weighed or counted; "theoretical" says nothing more, the others belong to dilutions.
bool makes_a_portion(std::string const& word) {
  return word != "added" && word != "evaporated" && word != "taken" && word != "theoretical";
}
}  // namespace

bool Network::is_dissolved(std::string const& substance) const {
  return speaks_of("c", substance) || speaks_of("gamma", substance) || speaks_of("rho", substance) || speaks_of("w", substance);
}

/// The course's molar volume is for the gases whose volume is spoken of, where the problem says nothing of p, T or Vm: those with
/// the state (g), and those that are surely gases where no state is written.
void Network::take_molar_volume_of_course(Measured const& volume) {
  if (speaks_of("p") || speaks_of("T") || speaks_of("Vm")) return;
  std::set<std::string> written, gases;
  for (auto const& reaction : problem_.reactions)
    for (auto const* side : {&reaction.equation.left, &reaction.equation.right})
      for (auto const& species : *side) {
        if (species.formula.state == State::none) continue;
        written.insert(plain(species.formula));
        if (species.formula.state == State::gas) gases.insert(plain(species.formula));
      }
  auto const look = [&](Quantity const& q) {
    bool const gas = written.count(q.substance) ? gases.count(q.substance) == 1 : is_surely_a_gas(q.substance);
    if (q.symbol == "V" && q.stage == 0 && gas && !is_dissolved(q.substance)) add_once(gases_of_course_, q.substance);
  };
  for (auto const& given : problem_.givens) look(given.quantity);
  for (auto const& find : problem_.finds)
    if (find.kind == Find::Kind::number) look(find.quantity);
  if (!gases_of_course_.empty()) molar_volume_of_course_ = volume;
}

/// Copper in the copper sulfate of one solution: what another substance of the problem brings is not there beside it.
bool Network::is_part_of_another(std::string const& substance) const {
  return std::any_of(substances_.begin(), substances_.end(), [&](std::string const& other) {
    auto const given = [&](std::string const& s) {
      return std::any_of(problem_.givens.begin(), problem_.givens.end(),
                         [&](Given const& g) { return g.quantity.symbol == "w" && g.quantity.substance == s; });
    };
    bool const beside = given(substance) && given(other);  // iron and iron oxide in one powder
    return !beside && other != substance && other != "H2O" && known_formula(other) && portion_of(substance, other).sign() > 0;
  });
}

/// Crystals beside their salt: what is dissolved is the salt, and their water is part of the solution's.
bool Network::is_crystals_of_another(std::string const& substance) const {
  auto const salt = salt_of_crystals(substance);
  return !salt.empty() && contains(substances_, salt);
}

void Network::survey() {
  bool const calorimeter = speaks_of("cp") || speaks_of("C");
  auto const look = [&](Quantity const& q) {
    bool const rest = q.substance == "residue" || contains(vessels_, q.substance) || is_vessel(q.substance);
    if (is_whole(q.substance) && !counts_entities(q.substance) && !rest && q.symbol != "T" && q.symbol != "q" && whole_.empty())
      whole_ = q.substance;
    if (!is_whole(q.substance) && q.part.empty()) add_once(substances_, q.substance);
    if (q.substance == "H3O^+") hydron_ = "H3O^+";
    if (q.symbol == "Ksp" || q.symbol == "Q" || q.symbol == "s") add_once(solids_, q.substance);
    // The temperature of a calorimeter is no gas's.
    if (q.symbol == "p" || q.symbol == "Vm" || (q.symbol == "T" && q.substance.empty() && !(q.stage > 0 && calorimeter)))
      gases_ = true;
  };
  for (auto const& given : problem_.givens) look(given.quantity);
  for (auto const& find : problem_.finds)
    if (find.kind == Find::Kind::number) look(find.quantity);
  for (auto const& reaction : species_)
    for (auto const& species : reaction.all()) add_once(substances_, species == "H3O^+" ? hydron_ : species);
  for (auto& substance : substances_)
    if (substance == "H^+") substance = hydron_;

  bool const fractions = speaks_of("w") || speaks_of("x") || speaks_of("b") || speaks_of("phi");
  bool const several = substances_.size() > 1 && problem_.reactions.empty();
  bool const partial = std::any_of(substances_.begin(), substances_.end(), [&](auto const& s) { return speaks_of("p", s); }) &&
                       std::none_of(substances_.begin(), substances_.end(), [&](auto const& s) { return speaks_of("V", s); });
  bool const one_of_several = problem_.reactions.empty() && substances_.size() == 1 && speaks_of("x", substances_.front());
  gas_mixture_ = gases_ && (several || one_of_several) && (is_named("V", "") || speaks_of("x") || partial);
  bool const liquids_mixed = std::any_of(substances_.begin(), substances_.end(), [&](std::string const& s) {
    return speaks_of("rho", s) && (speaks_of("c", s) || speaks_of("gamma", s));
  });
  if (whole_.empty() && liquids_mixed) whole_ = "solution";
  if (whole_.empty() && fractions && !gas_mixture_) {
    bool const of_parts =
        std::any_of(problem_.finds.begin(), problem_.finds.end(), [](Find const& f) { return !f.quantity.part.empty(); });
    if (!of_parts) whole_ = "solution";
  }
  // What the whole is made of: every substance that a portion or a fraction is spoken of for, and water where one more is needed.
  if (problem_.reactions.empty() && (gas_mixture_ || (!whole_.empty() && whole_ != "sample"))) {
    for (auto const& substance : substances_)
      if (known_formula(substance) && !is_part_of_another(substance) && !is_crystals_of_another(substance))
        components_.push_back(substance);
    bool const dissolved = speaks_of("b") || speaks_of("x") || speaks_of("w") || speaks_of("c");
    bool const alloy = whole_ != "solution";
    bool const alone = components_.size() == 1 && components_.front() != "H2O";
    if (alone && dissolved && !gas_mixture_ && !alloy) components_.push_back("H2O");
    if (components_.size() == 2 && !gas_mixture_) {
      // The solute is what the molality, fraction or concentration is of; the other one, or else water, is the solvent.
      auto const is_solute = [&](std::string const& s) {
        return speaks_of("b", s) || speaks_of("x", s) || speaks_of("w", s) || speaks_of("c", s);
      };
      solvent_ = is_solute(components_[0]) || !is_solute(components_[1]) ? components_[1] : components_[0];
    }
    if (components_.size() < 2) components_.clear();
  }
  gather_parts();
  // Two gases that may limit: any molar volume will do.
  std::vector<std::string> gases_given;
  bool any_dissolved = false;
  for (auto const& species : species_)
    for (auto const& substance : species.reactants()) {
      bool const given = std::any_of(problem_.givens.begin(), problem_.givens.end(), [&](Given const& g) {
        return g.quantity == Quantity{"V", 0, substance, "", ""};
      });
      if (given) gases_given.push_back(substance);
      any_dissolved = any_dissolved || is_dissolved(substance);
    }
  if (molar_volume_of_course_) {
    gases_ = true;
  } else if (!gases_ && gases_given.size() > 1 && react_as_gases(gases_given) && !any_dissolved && !speaks_of("m") &&
             !speaks_of("c")) {
    gases_ = any_molar_volume_ = true;
    basis_ = {Quantity{"Vm", 0, "", "", ""}, Rational(24)};
  }
  // Solutions of several salts whose ion product is asked, or the concentration of an ion, are mixed.
  bool const asks_of_mixture = std::any_of(problem_.finds.begin(), problem_.finds.end(), [](Find const& f) {
    auto const known = known_formula(f.quantity.substance);
    return f.quantity.stage == 0 &&
           (f.quantity.symbol == "Q" || (f.quantity.symbol == "c" && known && known->formula.charge != 0));
  });
  if (problem_.reactions.empty() && problem_.handlings.empty() && asks_of_mixture) {
    for (auto const& substance : substances_) {
      auto const known = known_formula(substance);
      bool const dissolved = speaks_of("c", substance) || speaks_of("m", substance) || speaks_of("n", substance);
      if (known && known->formula.charge == 0 && is_named("V", substance) && dissolved) add_once(reacting_volumes_, substance);
    }
    if (reacting_volumes_.size() < 2) reacting_volumes_.clear();
  }
  // Where gases are spoken of, a volume is a solution's if a concentration goes with it.
  bool const gases_told = gases_ && !molar_volume_of_course_;
  if (!problem_.reactions.empty())
    for (auto const& reaction : problem_.reactions)
      for (auto const& species : reaction.equation.left) {
        auto const substance = plain(species.formula);
        bool const concentration = speaks_of("c", substance) || speaks_of("gamma", substance);
        bool const liquid = !is_pure(substance) && !is_gas(substance) && (!gases_told || concentration);
        if (is_named("V", substance) && liquid) add_once(reacting_volumes_, substance);
        if (species.formula.charge == 0 || gases_told) continue;
        for (auto const& salt : substances_)  // whose ions the equation shows
          if (reaction_of(salt) == std::string::npos && is_named("V", salt) && count_in(substance, salt) > 0)
            add_once(reacting_volumes_, salt);
      }
}

/// A gas that is led into water: its own volume is spoken of, and its concentration in a solution that has another.
bool Network::is_dissolved_gas(std::string const& substance) const {
  return gases_ && problem_.reactions.empty() && is_named("V", substance) && is_named("V", "solution") &&
         speaks_of("c", substance);
}

/// A density given as more than any gas has at school: 0.05 g/mL.
bool Network::has_density_of_a_liquid(std::string const& substance) const {
  return std::any_of(problem_.givens.begin(), problem_.givens.end(), [&](Given const& g) {
    if (g.quantity.symbol != "rho" || g.quantity.substance != substance || g.numbers.empty()) return false;
    return (g.numbers.front().value * g.unit.factor / working_unit("rho").factor).to_double() > 0.05;
  });
}

State Network::written_state(std::string const& substance) const {
  auto found = State::none;
  for (auto const& reaction : problem_.reactions)
    for (auto const* side : {&reaction.equation.left, &reaction.equation.right})
      for (auto const& species : *side)
        if (found != State::gas && species.formula.state != State::none && plain(species.formula) == substance)
          found = species.formula.state;
  return found;
}

/// Whether a volume of it can be one of a gas: by the state that is written; else not that of a metal's compound, of a mineral
/// acid, of what is told by its share of a solution or its pH, or of hydrochloric acid that sets a gas free.
bool Network::may_be_a_gas(std::string const& substance) const {
  auto const state = written_state(substance);
  if (state != State::none) return state == State::gas;
  auto const known = known_formula(substance);
  if (!known || is_unknown(substance) || is_surely_a_gas(substance)) return true;
  if (speaks_of("w", substance) || speaks_of("pH", substance) || speaks_of("pOH", substance)) return false;
  if (problem_.reactions.empty()) return true;  // whatever boils has a vapour
  auto const& elements = known->composition;
  bool const metal =
      std::any_of(elements.begin(), elements.end(), [](auto const& e) { return !naming::named_as_nonmetal(e.first); });
  bool const of_oxygen = elements.count("H") > 0 && elements.count("O") > 0 && elements.count("C") == 0 && substance != "H2O";
  if (metal || of_oxygen || known->formula.charge != 0 || !ions_of(substance).empty()) return false;
  bool const hydrogen_halide = substance == "HCl" || substance == "HBr" || substance == "HI";
  return !hydrogen_halide || std::none_of(species_.begin(), species_.end(), [&](SpeciesOfReaction const& species) {
    auto const surely = [](std::string const& s) { return is_surely_a_gas(s); };
    auto const reactants = species.reactants(), products = species.products();
    bool const with_gas = std::any_of(reactants.begin(), reactants.end(), surely);
    return contains(reactants, substance) && !with_gas && std::any_of(products.begin(), products.end(), surely);
  });
}

/// Volumes of several that nothing else is told of are those of gases: none of them can be anything else, and one surely is.
bool Network::react_as_gases(std::vector<std::string> const& substances) const {
  auto const surely = [&](std::string const& s) {
    return written_state(s) == State::gas || is_surely_a_gas(s) || s == "HCl" || s == "NH3" || is_unknown(s);
  };
  return std::all_of(substances.begin(), substances.end(), [&](auto const& s) { return may_be_a_gas(s); }) &&
         std::any_of(substances.begin(), substances.end(), surely);
}

bool Network::is_gas(std::string const& substance) const {
  if (!gases_ || is_whole(substance)) return false;
  if (molar_volume_of_course_) return contains(gases_of_course_, substance);
  if (gas_mixture_) return true;
  if (is_dissolved_gas(substance)) return true;
  if (!may_be_a_gas(substance)) return false;
  if (speaks_of("c", substance) || speaks_of("gamma", substance) || has_density_of_a_liquid(substance)) return false;
  return speaks_of("V", substance) || speaks_of("p", substance) || speaks_of("rho", substance) ||
         (substances_.size() == 1 && (speaks_of("p") || speaks_of("T")));
}

/// The density of what reacts dissolved, with a concentration, is that of its solution.
bool Network::is_pure(std::string const& substance) const {
  bool const dissolved =
      (speaks_of("c", substance) || speaks_of("gamma", substance)) && reaction_of(substance) != std::string::npos;
  return ((speaks_of("rho", substance) && !dissolved) || speaks_of("phi", substance)) && !is_gas(substance);
}

Quantity Network::whole(Symbol symbol) const {
  if (gas_mixture_) return {symbol, 0, "", symbol == "n" ? "total" : "", ""};
  if (symbol == "n") return {symbol, 0, "", "total", ""};
  return {symbol, 0, whole_.empty() ? "solution" : whole_, "", ""};
}

/// The volume of the whole, written with the one solute whose V is spoken of.
Quantity Network::whole_volume() const {
  if (reacting_volumes_.size() > 1 && !is_named(whole("V"))) {
    for (auto const& solute : reacting_volumes_)  // the vinegar that was titrated
      if (speaks_of("w", solute)) return {"V", 0, solute, "", ""};
    return {"V", 0, "", "mixture", ""};
  }
  if (!is_named(whole("V")))
    for (auto const& solute : substances_)
      if (is_named("V", solute) && !is_pure(solute) && !is_gas(solute)) return {"V", 0, solute, "", ""};
  return whole("V");
}

/// Of the solutions that are to react, the one that a substance is asked of under another name: c(FeSO4) where V(Fe^2+) is
/// titrated, gamma(Cl^-) where V(NaCl) is, c(Na2CO3·10H2O) where V(Na2CO3) is. Empty for none, for several, and for an
/// ion of the mixture.
std::string Network::solution_that_brings(std::string const& substance) const {
  auto const asked = known_formula(substance);
  bool const ion = asked && asked->formula.charge != 0;
  if (!asked || (!ion && reaction_of(substance) != std::string::npos)) return {};
  auto const salt_of = [](std::string const& dissolved) {
    auto salt = salt_of_crystals(dissolved);
    return salt.empty() ? dissolved : salt;
  };
  std::string only;
  for (auto const& poured : reacting_volumes_) {
    bool const related = poured != substance && (count_in(substance, poured) > 0 || count_in(poured, substance) > 0 ||
                                                 salt_of(poured) == salt_of(substance));
    if (!related) continue;
    if (!only.empty()) return {};
    only = poured;
  }
  if (only.empty()) return {};
  // How much of it there is is told, and all of it is poured: an ion is then asked of the mixture.
  bool const told = std::any_of(problem_.givens.begin(), problem_.givens.end(), [&](Given const& g) {
    auto const& q = g.quantity;
    return q.substance == only && (q.symbol == "c" || q.symbol == "gamma" || q.symbol == "n" || q.symbol == "m");
  });
  return told && ion && !aliquot_of(only) ? std::string() : only;
}

Quantity Network::solution_volume(std::string const& substance, int stage) const {
  if (stage > 0) return canonical({"V", stage, substance, "", ""});
  Quantity const own{"V", 0, substance, "", ""};
  if (is_dissolved_gas(substance)) return {"V", 0, "solution", "", ""};
  if (contains(reacting_volumes_, substance)) return own;
  bool const has_whole = whole_ == "solution";
  if (is_pure(substance)) return has_whole ? whole_volume() : own;
  if (is_named("V", substance)) return own;
  if (auto const poured = solution_that_brings(substance); !poured.empty()) {
    // Of an ion that the equation shows, the amount is that of the portion that reacts.
    auto const portion = reaction_of(substance) != std::string::npos ? aliquot_of(poured) : std::nullopt;
    return portion ? *portion : Quantity{"V", 0, poured, "", ""};
  }
  // The concentration of what is to react is that of its own solution, and that has its own volume.
  auto const known = known_formula(substance);
  bool const reacts = std::any_of(species_.begin(), species_.end(),
                                  [&](SpeciesOfReaction const& species) { return contains(species.reactants(), substance); });
  if (reacts && known && known->formula.charge == 0 && speaks_of("c", substance)) return own;
  if (is_named("V", "solution")) return {"V", 0, "solution", "", ""};  // the flask
  if (has_whole) return whole_volume();
  if (!reacting_volumes_.empty()) return {"V", 0, "", "mixture", ""};
  return own;
}

Network::Subject Network::subject(std::string const& substance, int stage, std::string const& word) const {
  Subject out{substance, stage, word};
  out.volume = solution_volume(substance, stage);
  out.molar = known_formula(substance) != nullptr || is_unknown(substance);
  out.gas = is_gas(substance);
  out.pure = is_pure(substance);
  return out;
}

/// Whether a share is not one of the whole that the problem speaks of: a reactant with a purity of its own beside others, and the
/// share that a product is to have beside that of the ore it is made from.
bool Network::has_own_sample(std::string const& substance) const {
  if (is_named("m", substance, "impure")) return true;
  auto const share_given = [&](std::string const& of) {
    return std::any_of(problem_.givens.begin(), problem_.givens.end(), [&](Given const& g) {
      return g.quantity.symbol == "w" && g.quantity.stage == 0 && g.quantity.substance == of;
    });
  };
  auto const uses = [](SpeciesOfReaction const& species, std::string const& of) { return contains(species.reactants(), of); };
  auto const any_uses = [&](std::string const& of) {
    return std::any_of(species_.begin(), species_.end(), [&](SpeciesOfReaction const& species) { return uses(species, of); });
  };
  bool const product = reaction_of(substance) != std::string::npos && !any_uses(substance);
  return product && share_given(substance) && std::any_of(substances_.begin(), substances_.end(), [&](std::string const& other) {
           return share_given(other) && any_uses(other);
         });
}

bool Network::applies(Applies applies, Subject const& subject) const {
  auto const& [substance, stage, word, molar, gas, pure, volume] = subject;
  bool const plain_portion = word.empty() && !is_whole(substance);
  // What reacted, was left or was got is weighed or counted; what is left dissolved is in the mixture.
  bool const left_over = word == "left" && !reacting_volumes_.empty();
  auto const part_of_whole = plain_portion && stage == 0 && (!whole_.empty() || gas_mixture_);
  switch (applies) {
    case Applies::counted:
      return !is_whole(substance) && speaks_of("N");
    case Applies::molar:
      return molar;
    case Applies::dissolved:
    case Applies::dissolved_molar: {
      bool const in_solution = (plain_portion || left_over) && (!gas || is_dissolved_gas(substance));
      if (!in_solution || (applies == Applies::dissolved_molar && !molar)) return false;
      // A solid that forms has no concentration; a product that has one is spoken of with it.
      bool const spoken = speaks_of("c", substance) || speaks_of("gamma", substance);
      if (volume.word == "mixture" && !spoken && !left_over) return false;
      return !pure || whole_ == "solution";
    }
    case Applies::pure:
      return word != "left" && word != "used" && stage == 0 && pure;
    case Applies::gas:
      // Where only a density is spoken of, no volume of the gas is.
      return (plain_portion || is_named("V", substance, word)) && gas && (speaks_of("p") || speaks_of("T")) && !gas_mixture_ &&
             (!speaks_of("rho", substance) || speaks_of("V", substance));
    case Applies::gas_density:
      return plain_portion && gas && speaks_of("rho", substance);
    case Applies::molar_volume:
      return (plain_portion || is_named("V", substance, word) ||
              ((any_molar_volume_ || molar_volume_of_course_) && (word == "left" || word == "used"))) &&
             gas && (speaks_of("Vm") || any_molar_volume_ || molar_volume_of_course_);
    case Applies::mass_part:
      return part_of_whole && !gas_mixture_ && !has_own_sample(substance) &&
             (speaks_of("w", substance) || (contains(formula_parts_, substance) && speaks_of("w")) ||
              (contains(components_, substance) && speaks_of("w")));
    case Applies::amount_part:
      return part_of_whole && (speaks_of("x") || (gas_mixture_ && speaks_of("p", substance))) &&
             (contains(components_, substance) || gas_mixture_);
    case Applies::volume_part:
      return part_of_whole && speaks_of("phi", substance);
    case Applies::bottle:
      return plain_portion && stage == 1 && whole_ == "solution" && speaks_of("w", substance) && speaks_of("rho", whole_) &&
             molar;
    case Applies::in_solvent:
      return part_of_whole && speaks_of("b", substance) && !solvent_.empty();
    case Applies::partial_pressure:
      return part_of_whole && gas_mixture_ && speaks_of("p", substance);
    case Applies::several:
    case Applies::graph:
      return false;
  }
  return false;
}

/// The volume that what is left of a substance is dissolved in. Before it reacts on, in a back titration, nothing but what the
/// first reaction brought together is there.
Quantity Network::volume_of_rest(std::string const& substance) const {
  for (std::size_t r = 0; r < species_.size(); ++r) {
    if (!goes_on(r, substance)) continue;
    bool const alone = contains(reacting_volumes_, substance) &&
                       std::none_of(reacting_volumes_.begin(), reacting_volumes_.end(), [&](std::string const& other) {
                         return other != substance && (is_reactant(r, other) || !ion_used_of(r, other).empty());
                       });
    if (alone) return {"V", 0, substance, "", ""};
  }
  if (is_named("V", "solution")) return {"V", 0, "solution", "", ""};  // that all of it is made up to
  return {"V", 0, "", "mixture", ""};
}

Quantity Network::term_quantity(RelationTerm const& term, Subject const& subject) const {
  auto const symbol = term.symbol;
  auto const& substance = subject.substance;
  auto const& word = subject.word;
  switch (term.of) {
    case Of::substance:
      if (symbol == "p" && !is_named("p", substance) && !gas_mixture_ && !is_named("p", "H2O"))
        return Quantity{"p", 0, "", "", ""};  // the one gas has the pressure of the problem
      if (symbol == "V" && is_whole(substance)) return whole_volume();
      if (symbol == "p") return canonical({symbol, subject.stage, substance, "", ""});  // of what was got as of what was there
      return canonical({symbol, subject.stage, substance, word, ""});
    case Of::solution:
      if (word == "left") return volume_of_rest(substance);
      return subject.volume;
    case Of::whole:
      return whole(symbol);
    case Of::unnumbered:
      return Quantity{symbol, 0, substance, word, ""};
    case Of::solvent:
      return Quantity{symbol, 0, solvent_, "", ""};
    case Of::nothing:
      return Quantity{symbol, 0, "", "", ""};
  }
  return {};
}

void Network::add_subject(std::string const& substance, int stage, std::string const& word) {
  if (canonical({"n", stage, substance, word, ""}).stage != stage) return;  // it is spoken of under its number
  auto const described = subject(substance, stage, word);
  for (auto const& relation : relations_of_a_substance()) {
    if (!applies(relation.applies, described)) continue;
    std::vector<InstanceTerm> terms;
    terms.reserve(relation.terms().size());
    for (auto const& term : relation.terms()) terms.push_back({add(term_quantity(term, described)), term.exponent});
    add_relation(relation, Instance::Kind::product, std::move(terms), relation.cost);
  }
}

void Network::add_subjects() {
  // Every substance at every stage and under every word that the problem speaks of.
  std::set<Quantity> subjects;
  auto const subject = [&](Quantity const& q) {
    bool const of_one = is_of_portions(q.symbol) || q.symbol == "rho" || q.symbol == "w" || q.symbol == "x" || q.symbol == "b" ||
                        q.symbol == "phi" || q.symbol == "p" || q.symbol == "s";
    if (!of_one || !q.part.empty() || !makes_a_portion(q.word)) return;
    if (q.substance.empty() && q.symbol != "N" && q.symbol != "n" && q.symbol != "m" && q.symbol != "M" && q.symbol != "c" &&
        q.symbol != "V")
      return;
    if (q.substance.empty() && (gas_mixture_ || q.stage > 0)) return;
    auto c = canonical(q);
    if (!vessel_of(q).empty()) c = canonical({q.symbol, q.stage, q.substance, "", ""});
    if (counts_entities(c.substance)) return;
    subjects.insert({"", c.stage, c.substance, c.word, ""});
  };
  for (auto const& given : problem_.givens) subject(given.quantity);
  for (auto const& find : problem_.finds)
    if (find.kind == Find::Kind::number) subject(find.quantity);
  for (auto const& reaction : species_)
    for (auto const& species : reaction.all()) subjects.insert(canonical({"", 0, species, "", ""}));
  for (auto const& handling : problem_.handlings)
    for (auto const& substance : staged_) {
      if (present(substance, handling.to)) subjects.insert({"", handling.to, substance, "", ""});
      for (int from : handling.from)
        if (present(substance, from)) subjects.insert({"", from, substance, "", ""});
    }
  for (auto const& component : components_) subjects.insert({"", 0, component, "", ""});
  if (dense_as_water_) subjects.insert({"", 0, "solution", "", ""});
  auto const wanted = [&](Quantity const& q) {
    if (q.symbol == "yield" && q.stage == 0 && !q.substance.empty())
      for (char const* word : {"", "actual"}) subjects.insert({"", 0, q.substance, word, ""});
  };
  for (auto const& given : problem_.givens) wanted(given.quantity);
  for (auto const& find : problem_.finds) wanted(find.quantity);
  for (auto const& q : subjects) add_subject(q.substance, q.stage, q.word);
  add_aliquots();
}

}  // namespace molewright
