#include "generators/siblings.h"

#include <algorithm>
#include <map>
#include <optional>
#include <set>

#include "engine/equation.h"
#include "engine/mixing.h"
#include "engine/salt.h"
#include "engine/substance.h"
#include "engine/tsv.h"
#include "generators/realism.h"
#include "generators/sibling_wording.h"

namespace molewright {
namespace data {
extern std::string_view const sibling_ions_tsv;
extern std::string_view const not_a_sibling_tsv;
}  // namespace data

namespace {

constexpr std::size_t most_tried = 200;  ///< combinations of ions
constexpr std::size_t most_rows = 24;

struct SiblingIon {
  std::string group, ion, metal;  ///< metal: symbol of the element where it is handed out
};

NamedIon const* named_ion(std::string const& formula) {
  for (auto const& one : named_ions())
    if (one.formula == formula) return &one;
  return nullptr;
}

std::vector<SiblingIon> const& sibling_ions() {
  static std::vector<SiblingIon> const all = [] {
    TsvTable const table(data::sibling_ions_tsv);
    auto const group = table.column("group"), ion = table.column("ion"), metal = table.column("metal");
    std::vector<SiblingIon> rows;
    for (std::size_t row = 0; row < table.size(); ++row) {
      SiblingIon one{std::string(table.cell(row, group)), std::string(table.cell(row, ion)), ""};
      auto const* const named = named_ion(one.ion);
      if (named != nullptr && table.cell(row, metal) == "yes") one.metal = named->metal;
      rows.push_back(std::move(one));
    }
    return rows;
  }();
  return all;
}

SiblingIon const* sibling_ion(std::string const& ion) {
  for (auto const& one : sibling_ions())
    if (one.ion == ion) return &one;
  return nullptr;
}

/// HNO3 of NO3^-.
std::string acid_of(NamedIon const& anion) {
  return "H" + (anion.charge == -1 ? std::string() : std::to_string(-anion.charge)) + anion.inside;
}

/// A substance of the problem, taken apart as far as it may move.
struct Part {
  enum class Kind { salt, acid, element, ion } kind = Kind::salt;
  std::string formula;        ///< as the problem has it
  std::string cation, anion;  ///< "Mg^2+"; empty where it has none of the kind
  std::string dry;            ///< without its water
  bool hydrate = false;
};

std::optional<Part> part_of(std::string const& substance) {
  auto const formula = parse_formula(substance);
  if (!ok(formula) || value(formula).electron) return std::nullopt;
  Part part;
  part.formula = substance;
  part.hydrate = value(formula).hydrate();
  Formula const dry = anhydrous(value(formula));
  part.dry = plain(dry);
  auto const& ions = named_ions();
  if (auto const pair = salt_pair(dry); pair && pair->as_written) {
    part.cation = ions[pair->cation].formula;
    part.anion = ions[pair->anion].formula;
    return part;
  }
  for (auto const& one : sibling_ions()) {
    auto const* const named = named_ion(one.ion);
    if (named == nullptr) continue;
    (named->charge > 0 ? part.cation : part.anion) = one.ion;
    if (part.dry == one.ion)
      part.kind = Part::Kind::ion;
    else if (named->charge < 0 && part.dry == acid_of(*named))
      part.kind = Part::Kind::acid;
    else if (!named->metal.empty() && part.dry == named->metal && !one.metal.empty())
      part.kind = Part::Kind::element;
    else {
      part.cation.clear();
      part.anion.clear();
      continue;
    }
    return part;
  }
  return std::nullopt;
}

using Moves = std::map<std::string, std::string>;  ///< ion to ion

std::string moved(std::string const& ion, Moves const& moves) {
  auto const found = moves.find(ion);
  return found == moves.end() ? ion : found->second;
}

/// Nothing where no such substance is handed out.
std::optional<std::string> moved(Part const& part, Moves const& moves) {
  auto const cation = moved(part.cation, moves), anion = moved(part.anion, moves);
  if (cation == part.cation && anion == part.anion) return part.formula;
  auto const* const plus = named_ion(cation);
  auto const* const minus = named_ion(anion);
  switch (part.kind) {
    case Part::Kind::ion:
      return cation.empty() ? anion : cation;
    case Part::Kind::acid:
      return acid_of(*minus);
    case Part::Kind::element: {
      auto const* const other = sibling_ion(cation);
      return other == nullptr || other->metal.empty() ? std::nullopt : std::optional<std::string>(other->metal);
    }
    case Part::Kind::salt:
      break;
  }
  if (plus == nullptr || minus == nullptr) return std::nullopt;
  auto const salt = salt_formula(*plus, *minus);
  if (!part.hydrate) return salt;
  auto const* const known = solubility(salt);
  return known == nullptr || known->hydrate_usually_bought.empty() ? std::nullopt
                                                                   : std::optional<std::string>(known->hydrate_usually_bought);
}

Solubility::Verdict verdict_of(std::string const& dry) {
  auto const* const known = solubility(dry);
  return known == nullptr ? Solubility::Verdict::unknown : known->verdict;
}

bool is_excluded(std::string const& dry) {
  static std::set<std::string> const all = [] {
    TsvTable const table(data::not_a_sibling_tsv);
    auto const substance = table.column("substance");
    std::set<std::string> rows;
    for (std::size_t row = 0; row < table.size(); ++row) rows.emplace(table.cell(row, substance));
    return rows;
  }();
  return all.count(dry) != 0;
}

/// Whether one may be handed out where the other was: as soluble, and a reagent of schools where the other is.
bool fits(Part const& part, std::string const& other) {
  if (other == part.formula) return true;
  if (is_excluded(anhydrous_plain(other))) return false;
  if (part.kind != Part::Kind::salt && part.kind != Part::Kind::acid) return true;
  auto const dry = anhydrous_plain(other);
  if (verdict_of(dry) != verdict_of(part.dry)) return false;
  return school_limit(dry).has_value() || caution_for(dry).has_value() || !school_limit(part.dry).has_value();
}

/// What a reaction comes to by the tables; nothing where they do not decide it, or not as it is written.
/// `in_excess` says of each reactant whether there is too much of it.
std::optional<std::string> kind_of(Equation const& equation, std::vector<char> const& in_excess) {
  Mixture mixture;
  for (std::size_t i = 0; i < equation.left.size(); ++i)
    mixture.reactants.push_back({equation.left[i].formula, 0, in_excess[i] != 0});
  if (mixture.reactants.empty()) return std::nullopt;
  auto const mixing = mix(mixture);
  if (!ok(mixing) || !value(mixing).reacts || !value(mixing).decided || value(mixing).borderline) return std::nullopt;
  auto const products = [](std::vector<Species> const& side) {
    std::set<std::string> all;
    for (auto const& species : side) all.insert(plain(species.formula));
    return all;
  };
  if (products(value(mixing).molecular.right) != products(equation.right)) return std::nullopt;
  return value(mixing).kind + value(mixing).conditions;
}

std::vector<Rational> coefficients_of(Equation const& equation) {
  std::vector<Rational> all;
  auto const whole = balanced(equation);
  if (!ok(whole)) return all;
  for (auto const* side : {&value(whole).left, &value(whole).right})
    for (auto const& species : *side) all.push_back(species.coefficient);
  return all;
}

/// A quantity that is a fact about its substance, so that it cannot be another's.
bool is_fact(Quantity const& quantity) {
  static std::set<Symbol> const facts{"M", "rho", "s", "Ksp", "cp", "dH", "Q"};
  return facts.count(quantity.symbol) != 0 || !quantity.part.empty();
}

class Moving {
 public:
  explicit Moving(Problem const& problem) : problem_(problem) {}

  Result<Siblings> rows() {
    take_parts();
    for (Find const& find : problem_.finds)
      if (find.kind != Find::Kind::number && find.kind != Find::Kind::limiting_reagent && find.kind != Find::Kind::reaction &&
          find.kind != Find::Kind::ionic_equation)
        return stuck("what is asked is itself a name or a formula", 0);
    for (auto const& reaction : problem_.reactions) {
      auto& excess = in_excess_.emplace_back();
      for (auto const& species : reaction.equation.left) excess.push_back(is_in_excess(plain(species.formula)) ? 1 : 0);
      kinds_.push_back(kind_of(reaction.equation, excess).value_or(""));
      if (kinds_.back().empty())
        return stuck("the tables do not say that " + plain(reaction.equation) + " would go the same way with others", 0);
    }
    std::vector<std::string> formulas;
    for (auto const& part : parts_) formulas.push_back(part.formula);
    auto const pins = pins_of(problem_, formulas, ions_);
    for (auto const& pin : pins) hold(pin);
    hold_facts();
    for (auto const& ion : ions_)
      if (held_.count(ion) == 0 && sibling_ion(ion) != nullptr) free_.push_back(ion);
    if (free_.empty()) {
      if (!pins.empty())
        return stuck("the text says \"" + pins.front().words + "\", which would not be so of another substance",
                     pins.front().offset);
      return stuck("the tables have none that could take the place of " + (formulas.empty() ? "these" : list(formulas)), 0);
    }
    return all_rows();
  }

 private:
  static Fault stuck(std::string const& why, std::size_t offset) {
    return Fault{"cannot-move", "the substances cannot be moved to others: " + why, "other words there, or vary = true", offset};
  }
  static std::string list(std::vector<std::string> const& words) {
    std::string all;
    for (auto const& word : words) all += (all.empty() ? "" : ", ") + word;
    return all;
  }

  void take(std::string const& substance) {
    if (substance.empty()) return;
    auto const known = [&](Part const& one) { return one.formula == substance; };
    if (std::any_of(parts_.begin(), parts_.end(), known)) return;
    auto const part = part_of(substance);
    if (!part) return;
    parts_.push_back(*part);
    for (auto const& ion : {part->cation, part->anion})
      if (!ion.empty() && std::find(ions_.begin(), ions_.end(), ion) == ions_.end()) ions_.push_back(ion);
  }
  void take_parts() {
    for (auto const& reaction : problem_.reactions)
      for (auto const* side : {&reaction.equation.left, &reaction.equation.right})
        for (auto const& species : *side) take(plain(species.formula));
    for (auto const& given : problem_.givens) take(given.quantity.substance);
    for (auto const& find : problem_.finds) take(find.quantity.substance);
    for (auto const& one : problem_.excess) take(one);
  }

  void hold(Part const& part) {
    held_.insert(part.cation);
    held_.insert(part.anion);
  }
  void hold(Pin const& pin) {
    if (pin.ions.empty() && pin.substances.empty()) held_.insert(ions_.begin(), ions_.end());
    held_.insert(pin.ions.begin(), pin.ions.end());
    for (auto const& part : parts_)
      if (std::find(pin.substances.begin(), pin.substances.end(), part.formula) != pin.substances.end()) hold(part);
  }
  void hold_facts() {
    auto const look = [&](Quantity const& quantity) {
      if (!is_fact(quantity)) return;
      for (auto const& part : parts_)
        if (quantity.substance.empty() || quantity.substance == "solution" || quantity.substance == part.formula) hold(part);
    };
    for (auto const& given : problem_.givens) look(given.quantity);
    for (auto const& find : problem_.finds)
      if (!find.quantity.part.empty()) look(find.quantity);
  }

  bool is_in_excess(std::string const& formula) const {
    return std::find(problem_.excess.begin(), problem_.excess.end(), formula) != problem_.excess.end();
  }
  bool is_weighed(Part const& part) const {
    auto const weighs = [&](Quantity const& quantity) {
      return quantity.substance == part.formula && (quantity.symbol == "m" || quantity.symbol == "w");
    };
    return std::any_of(problem_.givens.begin(), problem_.givens.end(), [&](auto const& one) { return weighs(one.quantity); }) ||
           std::any_of(problem_.finds.begin(), problem_.finds.end(), [&](auto const& one) { return weighs(one.quantity); });
  }

  /// The row of these moves; nothing where a substance or a reaction does not fit.
  std::optional<std::vector<std::string>> row(Moves const& moves) const {
    std::vector<std::string> formulas;
    for (auto const& part : parts_) {
      auto const other = moved(part, moves);
      if (!other || !fits(part, *other)) return std::nullopt;
      if (*other != part.formula) {
        auto const has_water = [](std::string const& dry) {
          auto const* const known = solubility(dry);
          return known != nullptr && !known->hydrate_usually_bought.empty();
        };
        // What is weighed without its water must be bought without.
        if (!part.hydrate && is_weighed(part) && !has_water(part.dry) && has_water(*other)) return std::nullopt;
        if (name_of(*other).empty()) return std::nullopt;
        for (auto const& spoken : spoken_)
          if (parts_[spoken.substance].formula == part.formula && spoken.article) {
            bool const vowel = std::string("aeiou").find(name_of(*other).front()) != std::string::npos;
            if (!spoken.by_name || vowel != spoken.an) return std::nullopt;
          }
      }
      formulas.push_back(*other);
    }
    for (std::size_t r = 0; r < problem_.reactions.size(); ++r) {
      auto const& own = problem_.reactions[r].equation;
      Equation other = own;
      for (auto* side : {&other.left, &other.right})
        for (auto& species : *side)
          for (std::size_t p = 0; p < parts_.size(); ++p)
            if (plain(species.formula) == parts_[p].formula) {
              auto const state = species.formula.state;
              species.formula = value(parse_formula(formulas[p]));
              species.formula.state = state;
              break;
            }
      if (kind_of(other, in_excess_[r]).value_or("") != kinds_[r] || coefficients_of(other) != coefficients_of(own))
        return std::nullopt;
    }
    return formulas;
  }

  Result<Siblings> all_rows() {
    std::vector<std::string> formulas;
    for (auto const& part : parts_) formulas.push_back(part.formula);
    spoken_ = spoken_of(problem_, formulas);
    std::vector<Moves> tries{{}};
    for (auto const& ion : free_) {
      auto const so_far = tries;
      for (auto const& other : sibling_ions()) {
        if (other.ion == ion || other.group != sibling_ion(ion)->group) continue;
        if (std::find(ions_.begin(), ions_.end(), other.ion) != ions_.end()) continue;  // two of the problem would become one
        for (auto moves : so_far) {
          moves[ion] = other.ion;
          if (tries.size() < most_tried) tries.push_back(std::move(moves));
        }
      }
    }
    std::vector<std::vector<std::string>> rows;
    for (auto const& moves : tries)
      if (auto const one = row(moves); one && rows.size() < most_rows) rows.push_back(*one);
    if (rows.size() < 2) return stuck("the tables have none that could take the place of " + list(formulas), 0);
    // What is the same in every row does not move.
    Siblings result;
    result.rows.resize(rows.size());
    for (std::size_t p = 0; p < parts_.size(); ++p) {
      if (std::all_of(rows.begin(), rows.end(), [&](auto const& one) { return one[p] == parts_[p].formula; })) continue;
      result.substances.push_back(parts_[p].formula);
      for (std::size_t r = 0; r < rows.size(); ++r) result.rows[r].push_back(rows[r][p]);
    }
    return result;
  }

  Problem const& problem_;
  std::vector<Part> parts_;
  std::vector<std::string> ions_, free_;
  std::set<std::string> held_;
  std::vector<std::string> kinds_;            ///< of each reaction,
  std::vector<std::vector<char>> in_excess_;  ///< and of its reactants
  std::vector<Spoken> spoken_;
};

}  // namespace

Result<Siblings> siblings_of(Problem const& problem) { return Moving(problem).rows(); }

Problem with_variables(Problem const& problem, std::vector<std::string> const& moving) {
  auto const variable = [&](std::string const& substance) {
    auto const found = std::find(moving.begin(), moving.end(), substance);
    return found == moving.end() ? substance : sibling_variable(static_cast<std::size_t>(found - moving.begin()));
  };
  Problem result = problem;
  for (auto& reaction : result.reactions) {
    std::string written;
    for (auto const* side : {&reaction.equation.left, &reaction.equation.right}) {
      if (side == &reaction.equation.right) written += " -> ";
      for (std::size_t i = 0; i < side->size(); ++i) {
        auto const& species = (*side)[i];
        written += i == 0 ? "" : " + ";
        if (species.coefficient != Rational(1)) written += species.coefficient.text() + " ";
        written += variable(plain(species.formula)) + plain(species.formula.state);
      }
    }
    reaction.written = written;
  }
  for (auto& given : result.givens) given.quantity.substance = variable(given.quantity.substance);
  for (auto& find : result.finds) find.quantity.substance = variable(find.quantity.substance);
  for (auto& one : result.excess) one = variable(one);
  std::string text;
  std::size_t at = 0;
  for (auto const& spoken : spoken_of(problem, moving)) {
    text += problem.text.substr(at, spoken.begin - at) + spoken.with_variable;
    at = spoken.end;
  }
  result.text = text + problem.text.substr(at);
  result.title.clear();  // it may name what moves, and is not printed on a sheet
  return result;
}

}  // namespace molewright
