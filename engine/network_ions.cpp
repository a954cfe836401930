// Parts of a substance: elements in a compound, ions of a dissolved salt; acidity; solubility products.
#include <algorithm>

#include "engine/formula_memo.h"
#include "engine/lists.h"
#include "engine/network.h"
#include "engine/substance.h"

namespace molewright {
namespace {

/// Acids that give all their hydrogen ions away in water at school: OpenStax, Chemistry 2e, 4.2 (strong acids), H2SO4 counted
/// with both.
std::int64_t strong_acid_protons(std::string const& formula) {
  static std::map<std::string, std::int64_t> const acids{{"HCl", 1},   {"HBr", 1},   {"HI", 1},   {"HNO3", 1},
                                                         {"HClO4", 1}, {"HClO3", 1}, {"H2SO4", 2}};
  auto const found = acids.find(formula);
  return found == acids.end() ? 0 : found->second;
}
}  // namespace

std::int64_t count_in(std::string const& part, std::string const& whole) {
  if (part == whole || part.empty() || whole.empty()) return 0;
  if (part == "H^+" || part == "H3O^+") return strong_acid_protons(whole);
  if (part == "ions") {
    if (auto const protons = strong_acid_protons(whole); protons > 0) return protons + 1;
    std::int64_t all = 0;
    for (auto const& ion : ions_of(whole)) all += ion.count;
    return all;
  }
  auto const one = known_formula(part), all = known_formula(whole);
  if (part == "atoms" && all) {
    std::int64_t atoms = 0;
    for (auto const& [element, count] : all->composition) atoms += count;
    return atoms > 1 ? atoms : 0;
  }
  if (!one || !all) return 0;
  if (part == "H2O") return waters(all->formula);
  int const charge = one->formula.charge;
  bool const one_atom = one->composition.size() == 1 && one->composition.begin()->second == 1;
  if (!one_atom && charge == 0) return 0;
  auto const found = one_atom ? all->composition.find(one->composition.begin()->first) : all->composition.end();
  if (one_atom) {
    if (found == all->composition.end()) return 0;
    bool const element = all->composition.size() == 1 && all->formula.charge == 0;
    // An element in a compound or an ion; or Pb^2+ where lead is spoken of.
    if (charge == 0) return element && found->second == 1 ? 0 : found->second;
    if (element) return found->second;
  }
  for (auto const& ion : ions_of(whole)) {
    auto const read = known_formula(ion.ion);
    if (read && read->formula.charge == charge && read->composition == one->composition) return ion.count;
  }
  // The anion of a strong acid.
  if (auto const protons = strong_acid_protons(whole); protons > 0 && charge == -protons) {
    auto rest = all->composition;
    rest.erase("H");
    if (rest == one->composition) return 1;
  }
  return 0;
}

Rational portion_in(std::string const& part, std::string const& whole) {
  if (auto const count = count_in(part, whole); count > 0) return Rational(count);
  auto const oxide = known_formula(part), all = known_formula(whole);
  bool const of_one =
      oxide && all && oxide->formula.charge == 0 && oxide->composition.size() == 2 && oxide->composition.count("O");
  if (!of_one) return Rational(0);
  for (auto const& [element, count] : oxide->composition)
    if (auto const there = all->composition.find(element); element != "O" && element != "H" && there != all->composition.end())
      return Rational(there->second, count);
  return Rational(0);
}

/// What an analysis counts of an oxide, for an ion that the equation shows: all of its element, Fe of Fe3O4 for Fe^2+, where
/// nothing is told of the oxide itself. Elsewhere the ion; empty where it brings none.
std::string Network::counted_for(std::string const& ion, std::string const& substance) const {
  auto const oxide = known_formula(substance), shown = known_formula(ion);
  bool const one_atom = shown && shown->formula.charge > 0 && shown->composition.size() == 1;
  bool const told = std::any_of(problem_.givens.begin(), problem_.givens.end(),
                                [&](Given const& g) { return g.quantity.substance == substance; });
  if (one_atom && oxide && !told && oxide->formula.charge == 0 && oxide->composition.size() == 2) {
    auto const& element = shown->composition.begin()->first;
    if (oxide->composition.count("O") > 0 && oxide->composition.count(element) > 0 && element != "H") return element;
  }
  return count_in(ion, substance) > 0 ? ion : std::string();
}

int Network::count_of(std::string const& part, std::string const& whole) { return add({"nu", 0, whole, "", part}); }

/// How much of a part a substance brings; of an oxide only where a whole is declared by it, as a fertiliser is.
Rational Network::portion_of(std::string const& part, std::string const& substance) const {
  return contains(shares_, part) && part != substance ? portion_in(part, substance) : Rational(count_in(part, substance));
}

/// Substances of the problem that bring a part with them; those that stand in a reaction with the part itself do not.
std::vector<std::string> Network::sources_of(std::string const& part) const {
  std::vector<std::string> sources;
  if (reaction_of(part) != std::string::npos) return sources;
  bool const of_ion = is_ion(part);
  for (std::size_t r = 0; of_ion && r < species_.size(); ++r)  // an ion that goes into a solid is not the one that was there
    for (std::size_t p = 0; p < species_[r].products().size(); ++p) {
      auto const& product = species_[r].products()[p];
      auto const* const known = solubility(product);
      bool const solid = problem_.reactions[r].equation.right[p].formula.state == State::solid ||
                         (known && known->verdict == Solubility::Verdict::insoluble);
      if (solid && count_in(part, product) > 0) return sources;
    }
  for (auto const& substance : substances_) {
    if (contains(solids_, substance)) continue;
    bool const product = !problem_.reactions.empty() && !speaks_of("m", substance) && !speaks_of("n", substance) &&
                         !speaks_of("c", substance) && !speaks_of("V", substance) && !speaks_of("gamma", substance);
    if (!product && portion_of(part, substance).sign() > 0) sources.push_back(substance);
  }
  // P2O5 of a fertiliser is a way to say its P, where the phosphate itself is spoken of.
  auto const is_share = [&](std::string const& source) { return contains(shares_, source); };
  if (!std::all_of(sources.begin(), sources.end(), is_share)) std::erase_if(sources, is_share);
  // Of a reactant and of the product that it goes into, the part is counted once, and so it is of an ion and its salt.
  auto const all = sources;
  auto const counted_elsewhere = [&](std::string const& source) {
    return std::any_of(all.begin(), all.end(), [&](std::string const& other) {
      if (other == source) return false;
      auto const known = known_formula(source);
      bool const of_salt = known && known->formula.charge != 0 && count_in(source, other) > 0;
      return of_salt || std::any_of(species_.begin(), species_.end(), [&](SpeciesOfReaction const& species) {
               return contains(species.products(), source) && contains(species.reactants(), other);
             });
    });
  };
  sources.erase(std::remove_if(sources.begin(), sources.end(), counted_elsewhere), sources.end());
  leave_out_elements(sources);
  if (!sources.empty()) return sources;
  // The part of a sample that reacted: nitrogen in the ammonia that it gave off.
  for (auto const& species : species_)
    for (auto const& reactant : species.reactants()) {
      bool const made = std::any_of(species_.begin(), species_.end(),
                                    [&](SpeciesOfReaction const& other) { return contains(other.products(), reactant); });
      if (!made && !contains(problem_.excess, reactant) && !contains(sources, reactant) && count_in(part, reactant) > 0)
        sources.push_back(reactant);
    }
  if (sources.size() > 1) sources.clear();
  return sources;
}

/// Iron beside the iron sulfate that it is in: how much of the element there is, not another source of its ions.
void Network::leave_out_elements(std::vector<std::string>& sources) const {
  auto const all = sources;
  std::erase_if(sources, [&](std::string const& source) {
    auto const known = known_formula(source);
    bool const element = known && known->formula.charge == 0 && known->composition.size() == 1;
    return element && std::any_of(all.begin(), all.end(), [&](std::string const& other) { return count_in(source, other) > 0; });
  });
}

/// Water that is told beside crystals that are told is what they go into, and not theirs.
bool Network::is_water_beside_crystals() const {
  bool water = false, crystals = false;
  for (auto const& given : problem_.givens) {
    auto const& q = given.quantity;
    if (q.symbol != "m" && q.symbol != "n" && q.symbol != "V") continue;
    water = water || (q.substance == "H2O" && q.word.empty());
    crystals = crystals || !salt_of_crystals(q.substance).empty();
  }
  return water && crystals && formula_find() == nullptr;
}

void Network::add_parts() {
  add_ions_of_salts();
  add_salts_of_acids();
  std::set<Quantity> parts;
  auto const look = [&](Quantity const& q) {
    if (q.symbol == "w" && !q.part.empty()) add_composition(q);
    bool const portion =
        q.symbol == "n" || q.symbol == "m" || q.symbol == "N" || q.symbol == "c" || q.symbol == "gamma" || q.symbol == "w";
    if (!portion) return;
    if (!q.part.empty()) {  // m(Fe in Fe2O3): a portion of the element, inside the compound
      if (q.symbol == "w") return;
      int const amount = add({"n", 0, q.substance, "", q.part});
      add_product("n(part) = nu n(whole)", {{amount, 1}, {count_of(q.part, q.substance), -1}, {add("n", q.substance), -1}});
      add_product("n = m/M", {{amount, 1}, {add({"m", 0, q.substance, "", q.part}), -1}, {add("M", q.part), 1}});
      if (q.symbol == "N") add_product("N = n N_A", {{add(q), 1}, {amount, -1}, {add(Quantity{"N_A", 0, "", "", ""}), -1}});
      return;
    }
    if (q.word == "left") {  // c(Cl^-, left): what is left of the salt that brought it
      for (auto const& species : species_)
        for (auto const& salt : species.reactants())
          if (count_in(q.substance, salt) > 0)
            add_product(
                "n(part) = nu n(whole)",
                {{add("n", q.substance, 0, "left"), 1}, {count_of(q.substance, salt), -1}, {add("n", salt, 0, "left"), -1}});
    }
    if (q.word.empty() || q.word == "total") parts.insert({"", q.stage, q.substance, q.word, ""});
  };
  for (auto const& given : problem_.givens) look(given.quantity);
  for (auto const& find : problem_.finds)
    if (find.kind == Find::Kind::number) look(find.quantity);
  for (auto const& part : parts) {
    if (contains(formula_parts_, part.substance)) continue;
    bool const of_water = part.substance == hydron_ || part.substance == "OH^-";
    if (of_water && !problem_.reactions.empty()) continue;  // what has reacted is no longer there
    bool const solvent =
        contains(components_, part.substance) && (speaks_of("m", part.substance) || speaks_of("V", part.substance));
    if (part.substance == "H2O" && (solvent || is_water_beside_crystals())) continue;  // and not the water of crystals
    auto sources = sources_of(part.substance);
    // The hydrate that was weighed is in the solution as its salt, not beside it.
    std::erase_if(sources, [all = sources](std::string const& source) { return contains(all, salt_of_crystals(source)); });
    if (sources.empty()) continue;
    std::set<int> stages{part.stage};
    for (auto const& handling : problem_.handlings) stages.insert(handling.from.begin(), handling.from.end());
    for (int stage : stages) {
      std::vector<std::string> here;
      for (auto const& source : sources)
        if (stage == 0 ? !contains(staged_, source) || !contains(staged_, part.substance) : present(source, stage))
          here.push_back(source);
      if (here.empty()) continue;
      if (counts_entities(part.substance) && speaks_of("N", part.substance))
        add_product("N = n N_A", {{add("N", part.substance, stage), 1},
                                  {add("n", part.substance, stage), -1},
                                  {add(Quantity{"N_A", 0, "", "", ""}), -1}});
      for (Symbol symbol : {"n", "c"}) {
        bool const concentration = symbol == "c";
        if (concentration && (here.size() > 1 || !problem_.reactions.empty() || !reacting_volumes_.empty())) continue;
        int const target = add(canonical({symbol, stage, part.substance, part.word, ""}));
        if (here.size() == 1) {
          add_product(concentration ? RelationForm("c(ion) = nu c(salt)") : RelationForm("n(part) = nu n(whole)"),
                      {{target, 1}, {count_of(part.substance, here[0]), -1}, {add(symbol, here[0], stage), -1}}, 10,
                      concentration);
        } else {
          std::vector<InstanceTerm> terms{{target, -1}};
          for (auto const& source : here)
            terms.push_back({add(symbol, source, stage), static_cast<int>(count_in(part.substance, source))});
          add_sum("n(part) = nu n(whole)", terms);
        }
      }
    }
  }
}

/// The amount of a substance of which what the equation shows comes: that of the aliquot, where one is taken.
Quantity Network::portion_that_reacts(std::string const& substance) const {
  if (auto const aliquot = aliquot_of(substance)) return {"n", aliquot->stage, substance, "aliquot", ""};
  return canonical({"n", 0, substance, "", ""});
}

/// An ionic equation with the data of salts: the ions come from the salts that the problem speaks of and no equation shows.
void Network::add_ions_of_salts() {
  std::vector<std::string> done;
  for (auto const& reaction : problem_.reactions)
    for (auto const& species : reaction.equation.left) {
      auto const ion = plain(species.formula);
      if (species.formula.charge == 0 || contains(done, ion)) continue;
      done.push_back(ion);
      std::vector<std::string> salts;
      for (auto const& salt : substances_) {
        if (reaction_of(salt) != std::string::npos || counted_for(ion, salt).empty() || contains(solids_, salt)) continue;
        if (is_crystals_of_another(salt)) continue;  // a hydrate is in the solution as its salt, not beside it
        salts.push_back(salt);
      }
      // Where nothing is told of any of several, each is asked as if it alone had brought the ion: iron as Fe and as Fe2O3.
      bool const told = std::any_of(problem_.givens.begin(), problem_.givens.end(),
                                    [&](Given const& g) { return contains(salts, g.quantity.substance); });
      if (told) leave_out_elements(salts);
      if (salts.size() > 1 && told) {
        std::vector<InstanceTerm> terms{{add("n", ion), -1}};
        for (auto const& salt : salts) terms.push_back({add(portion_that_reacts(salt)), static_cast<int>(count_in(ion, salt))});
        add_sum("n(part) = nu n(whole)", terms);
        continue;
      }
      for (auto const& salt : salts)
        add_product("n(part) = nu n(whole)",
                    {{add("n", ion), 1}, {count_of(counted_for(ion, salt), salt), -1}, {add(portion_that_reacts(salt)), -1}});
    }
}

/// Whether a formula is that of an acid whose anion, all hydrogen given up, this is: H2C2O4 of C2O4^2-.
bool is_acid_of(std::string const& acid, std::string const& anion) {
  auto const whole = known_formula(acid), ion = known_formula(anion);
  if (!whole || !ion || whole->formula.charge != 0 || ion->formula.charge >= 0 || whole->formula.hydrate()) return false;
  auto rest = whole->composition;
  auto const hydrogen = rest.find("H");
  if (hydrogen == rest.end()) return false;
  hydrogen->second += ion->formula.charge;
  if (hydrogen->second == 0) rest.erase(hydrogen);
  return rest == ion->composition;
}

/// What was weighed is the salt, what the equation shows is its acid (or the other way round): sodium oxalate titrated in
/// sulfuric acid. One for one; where the equation's own substance is measured, that counts.
void Network::add_salts_of_acids() {
  auto const measured = [&](std::string const& substance) {
    return std::any_of(problem_.givens.begin(), problem_.givens.end(), [&](Given const& g) {
      auto const& s = g.quantity.symbol;
      return g.quantity.substance == substance && (s == "m" || s == "n" || s == "c" || s == "gamma");
    });
  };
  for (auto const& species : species_)
    for (auto const& shown : species.reactants()) {
      if (measured(shown) || count_in(hydron_, shown) > 0) continue;
      for (auto const& weighed : std::vector<std::string>(substances_)) {
        if (reaction_of(weighed) != std::string::npos || !measured(weighed)) continue;
        for (auto const& [ion, count] : ions_of(weighed)) {
          if (!is_acid_of(shown, ion)) continue;
          int const amount = add("n", ion);
          add_product("n(part) = nu n(whole)",
                      {{amount, 1}, {count_of(ion, weighed), -1}, {add(portion_that_reacts(weighed)), -1}});
          add_product("n(acid) = n(anion)", {{add("n", shown), 1}, {amount, -1}}, 5);
        }
        auto const known = known_formula(weighed);
        if (known && is_acid_of(plain(anhydrous(known->formula)), shown))
          add_product("n(acid) = n(anion)", {{add("n", shown), 1}, {add(portion_that_reacts(weighed)), -1}}, 5);
      }
    }
}

/// w(N in NH4NO3) from the formula alone.
void Network::add_composition(Quantity const& fraction) {
  int const count = count_of(fraction.part, fraction.substance);
  add_product("w = nu M(part)/M(whole)",
              {{add(fraction), 1}, {count, -1}, {add("M", fraction.part), -1}, {add("M", fraction.substance), 1}});
}

void Network::add_acidity() {
  std::set<int> stages;  // of the solutions whose acidity is spoken of
  std::set<std::string> before;
  auto const look = [&](Quantity const& written) {
    auto const q = canonical(written);
    if ((q.symbol == "pH" || q.symbol == "pOH") && q.stage == 0 && is_acid_or_base_to_react(q.substance)) {
      before.insert(q.substance);
      return;
    }
    // The solution of an ion that is to react, before it does.
    bool const own = is_named("V", q.substance) && reaction_of(q.substance) != std::string::npos;
    bool const ion = q.symbol == "c" && !own && (q.substance == hydron_ || (q.substance == "OH^-" && solids_.empty()));
    if (q.symbol == "pH" || q.symbol == "pOH" || ion) stages.insert(q.stage);
  };
  for (auto const& given : problem_.givens) look(given.quantity);
  for (auto const& find : problem_.finds)
    if (find.kind == Find::Kind::number) look(find.quantity);
  for (auto const& substance : before) add_acidity_before(substance);
  for (int stage : stages) {
    int const pH = add("pH", "", stage), pOH = add("pOH", "", stage);
    // Where the equation shows both ions, c(H^+) is that of the solution before it reacts.
    char const* const word = stage == 0 && neutralises_ions() ? "left" : "";
    int const hydron = add("c", hydron_, stage, word), hydroxide = add("c", "OH^-", stage, word);
    for (auto const& [result, argument] : {std::pair{pH, hydron}, {pOH, hydroxide}}) {
      Instance instance;
      instance.kind = Instance::Kind::logarithm;
      instance.relation = RelationForm("pX = -lg c(X)").text();
      instance.terms = {{result, 1}, {argument, 1}};
      instance.targets = {result, argument};
      instances_.push_back(std::move(instance));
    }
    add_sum("pH + pOH = pKw", {{add("pKw", ""), -1}, {pH, 1}, {pOH, 1}});
    add_product("c(H^+) c(OH^-) = Kw", {{hydron, 1}, {hydroxide, 1}, {add("Kw", ""), -1}}, 11);
    if (problem_.reactions.empty()) {  // what has reacted is no longer there: the rest settles the acidity
      add_ions_of_water(hydron_, stage);
      add_ions_of_water("OH^-", stage);
    }
  }
}

bool Network::neutralises_ions() const {
  return std::any_of(species_.begin(), species_.end(), [&](SpeciesOfReaction const& species) {
    return contains(species.reactants(), hydron_) && contains(species.reactants(), "OH^-");
  });
}

/// A strong acid or base that is still to react: its own solution has a pH, and the mixture another.
bool Network::is_acid_or_base_to_react(std::string const& substance) const {
  bool const reacts = std::any_of(species_.begin(), species_.end(),
                                  [&](auto const& species) { return contains(species.reactants(), substance); });
  return reacts && (count_in("H^+", substance) > 0 || count_in("OH^-", substance) > 0);
}

/// pH(HCl) of the acid that is to react: that of its solution before.
void Network::add_acidity_before(std::string const& substance) {
  bool const acid = count_in("H^+", substance) > 0;
  std::string const ion = acid ? hydron_ : "OH^-";
  int const pH = add("pH", substance), pOH = add("pOH", substance);
  int const concentration = add(Quantity{"c", 0, substance, "", ion});
  Instance instance;
  instance.kind = Instance::Kind::logarithm;
  instance.relation = RelationForm("pX = -lg c(X)").text();
  instance.terms = {{acid ? pH : pOH, 1}, {concentration, 1}};
  instance.targets = {acid ? pH : pOH, concentration};
  instances_.push_back(std::move(instance));
  add_sum("pH + pOH = pKw", {{add("pKw", ""), -1}, {pH, 1}, {pOH, 1}});
  add_product("c(ion) = nu c(salt)", {{concentration, 1}, {count_of(ion, substance), -1}, {add("c", substance), -1}});
}

/// H^+ or OH^- from the strong acids or bases in a solution.
void Network::add_ions_of_water(std::string const& ion, int stage) {
  if (is_named({"c", stage, ion, "", ""})) return;  // it is there among the parts
  std::vector<std::string> sources;
  for (auto const& substance : substances_)
    if (count_in(ion, substance) > 0 && !contains(solids_, substance) && (stage == 0 || present(substance, stage)))
      sources.push_back(substance);
  if (sources.size() == 1) {
    add_product("c(ion) = nu c(salt)",
                {{add("c", ion, stage), 1}, {count_of(ion, sources[0]), -1}, {add("c", sources[0], stage), -1}});
  } else if (sources.size() > 1) {
    std::vector<InstanceTerm> terms{{add("n", ion, stage), -1}};
    for (auto const& source : sources) terms.push_back({add("n", source, stage), static_cast<int>(count_in(ion, source))});
    add_sum("n(part) = nu n(whole)", terms);
    add_subject(ion, stage, "");
  }
}

void Network::add_solubility_products() {
  for (auto const& solid : solids_) add_solubility_product(solid);
}

/// An ion in the mixture of the solutions that bring it, before any solid forms.
void Network::add_ion_of_mixture(std::string const& ion) {
  int const amount = add("n", ion);
  std::vector<InstanceTerm> terms{{amount, -1}};
  std::string only;
  for (auto const& substance : substances_) {
    if (contains(solids_, substance) || substance == ion || count_in(ion, substance) == 0) continue;
    terms.push_back({add("n", substance), static_cast<int>(count_in(ion, substance))});
    only = substance;
  }
  if (terms.size() == 2)
    add_product("n(part) = nu n(whole)", {{amount, 1}, {count_of(ion, only), -1}, {terms[1].variable, -1}});
  else if (terms.size() > 2)
    add_sum("n(part) = nu n(whole)", terms);
  add_product("n = cV", {{amount, 1}, {add("c", ion), -1}, {add("V", "", 0, "mixture"), -1}});
}

void Network::add_solubility_product(std::string const& solid) {
  std::vector<std::pair<std::string, int>> ions;
  for (auto const& reaction : problem_.reactions) {
    auto const& equation = reaction.equation;
    if (equation.left.size() != 1 || plain(equation.left[0].formula) != solid) continue;
    for (auto const& species : equation.right) {
      std::int64_t count = 0, one = 0;
      if (species.formula.charge != 0 && (species.coefficient / equation.left[0].coefficient).fits(count, one) && one == 1)
        ions.push_back({plain(species.formula), static_cast<int>(count)});
    }
  }
  if (ions.empty())
    for (auto const& ion : ions_of(solid)) ions.push_back({ion.ion, static_cast<int>(ion.count)});
  if (ions.size() < 2) return;
  int const s = add("s", solid);
  // An ion that is in the solution from elsewhere: its concentration is given, or that of another salt with it.
  auto const from_elsewhere = [&](std::string const& ion) {
    return std::any_of(problem_.givens.begin(), problem_.givens.end(), [&](Given const& g) {
      auto const& q = g.quantity;
      if (ion == "OH^-" && (q.symbol == "pH" || q.symbol == "pOH")) return true;
      bool const told = (q.symbol == "c" || q.symbol == "n" || q.symbol == "pH") && !contains(solids_, q.substance);
      return told && (q.substance == ion || count_in(ion, q.substance) > 0);
    });
  };
  bool const told =
      std::any_of(problem_.givens.begin(), problem_.givens.end(), [](Given const& g) { return g.quantity.symbol == "Ksp"; });
  bool const asks_product = speaks_of("Q", solid);
  auto const elsewhere = [&](auto const& ion) { return from_elsewhere(ion.first); };
  // With each ion's own concentration the product is told, whatever the solid itself would give.
  // Beside the reaction that forms the solid, the product is that of the mixture afterwards: c(Ag^+) with c(Cl^-, left), and
  // the salts have reacted.
  bool const forms = std::any_of(species_.begin(), species_.end(), [&](SpeciesOfReaction const& species) {
    return contains(species.products(), solid) &&
           std::any_of(problem_.givens.begin(), problem_.givens.end(),
                       [&](Given const& g) { return contains(species.reactants(), g.quantity.substance); });
  });
  auto const word_of = [&](std::string const& ion) { return forms && is_named("c", ion, "left") ? "left" : ""; };
  auto const reacts = [&](std::string const& salt) { return forms && reaction_of(salt) != std::string::npos; };
  // In a solution over two solids the ion that both have does not come from one of them alone.
  auto const shared = [&](std::string const& ion) {
    return std::any_of(solids_.begin(), solids_.end(),
                       [&](std::string const& other) { return other != solid && count_in(ion, other) > 0; });
  };
  // What is told of the ions of another solid in the same solution settles the ion that both have.
  bool const beside_another = std::any_of(solids_.begin(), solids_.end(), [&](std::string const& other) {
    auto const others = ions_of(other);
    return other != solid &&
           std::any_of(ions.begin(), ions.end(), [&](auto const& ion) { return count_in(ion.first, other) > 0; }) &&
           std::any_of(others.begin(), others.end(), [&](auto const& ion) { return from_elsewhere(ion.ion); });
  });
  bool const common_ion = asks_product || forms || beside_another ||
                          (told ? std::any_of(ions.begin(), ions.end(), elsewhere)
                                : !speaks_of("s", solid) && std::all_of(ions.begin(), ions.end(), elsewhere));
  int stage = 0;  // of the solution whose ion product is asked
  auto const look = [&](Quantity const& q) {
    if (q.symbol == "Q" && q.substance == solid) stage = canonical(q).stage;
  };
  for (auto const& given : problem_.givens) look(given.quantity);
  for (auto const& find : problem_.finds) look(find.quantity);
  std::vector<InstanceTerm> product{{add(asks_product ? "Q" : "Ksp", solid, stage), 1}};
  for (auto const& [ion, count] : ions) product.push_back({add("c", ion, stage, word_of(ion)), -count});
  // Two solids, each in water of its own: s(AgCl) beside s(AgBr).
  bool const apart = !common_ion && std::any_of(ions.begin(), ions.end(), [&](auto const& ion) { return shared(ion.first); });
  if (!apart) add_product(asks_product ? RelationForm("Q = product of c^nu") : RelationForm("Ksp = product of c^nu"), product);
  Rational factor(1);
  int all = 0;
  for (auto const& [ion, count] : ions) {
    factor *= Rational(count).power(count);
    all += count;
    // A salt brings its ions along: c(NO3^-) beside c(AgNO3).
    if (asks_product && stage == 0 && !reacting_volumes_.empty()) {
      add_ion_of_mixture(ion);
      continue;
    }
    for (auto const& substance : substances_)
      if (!contains(solids_, substance) && substance != ion && count_in(ion, substance) > 0 && !reacts(substance))
        add_product("c(ion) = nu c(salt)",
                    {{add("c", ion, stage), 1}, {count_of(ion, substance), -1}, {add("c", substance, stage), -1}});
    if (forms || (common_ion && from_elsewhere(ion)) || shared(ion)) continue;
    add_product("c(ion) = nu s", {{add("c", ion), 1}, {count_of(ion, solid), -1}, {s, -1}});
  }
  if (!common_ion) add_product("Ksp = product of (nu s)^nu", {{add("Ksp", solid), 1}, {s, -all}}, 10, false, factor);
}

}  // namespace molewright
