// Exchange of ions: precipitation, acids with bases and with salts of weak acids, ammonium salts with bases.
#include <algorithm>
#include <map>
#include <set>

#include "engine/mixing_meeting.h"
#include "engine/mixing_rules.h"
#include "engine/mixing_words.h"
#include "engine/tsv.h"

namespace molewright::data {
extern std::string_view const acid_proof_tsv;
}  // namespace molewright::data

namespace molewright::mixing {
namespace {

using words::fill;
using Verdict = Dissolving::Verdict;

bool acid_proof(std::string const& key) {
  static std::set<std::string> const keys = [] {
    std::set<std::string> result;
    TsvTable const table(data::acid_proof_tsv);
    for (std::size_t row = 0; row < table.size(); ++row) result.insert(std::string(table.cell(row, 0)));
    return result;
  }();
  return keys.count(key) != 0;
}

std::string kind_of(std::set<Event> const& events) {
  std::string kind;
  auto const say = [&](Event event, char const* text) {
    if (events.count(event) != 0) kind += (kind.empty() ? "" : "+") + std::string(text);
  };
  say(Event::solid, "precipitation");
  say(Event::water, "neutralisation");
  say(Event::gas, "gas");
  say(Event::weak_acid, "weak acid forms");
  say(Event::electrons, "redox");
  return kind;
}

struct Side {
  Reagent const& reagent;
  Acid const* acid;
  std::vector<Part> parts;
};

/// The exchange of all ions, or why there is none.
struct Exchange {
  Draft draft;
  std::set<Event> events;
  std::string because_not;
  std::vector<StaysDissolved> dissolved;
  bool silent = false;
};

Exchange exchange(Side const& a, Side const& b) {
  Exchange result;
  auto& draft = result.draft;
  draft.left = {a.reagent.formula, b.reagent.formula};
  bool const bare = a.reagent.sort == Sort::ion || b.reagent.sort == Sort::ion;
  std::map<std::string, std::string> dissolved;  // by formula: who says so
  std::set<std::string> used;
  std::string silent, too_weak, partly;
  for (auto const* side : {&a, &b}) {
    Side const& other = side == &a ? b : a;
    for (auto const& cation : side->parts)
      for (auto const& anion : other.parts) {
        if (cation.ion.charge < 0 || anion.ion.charge > 0) continue;
        Meeting const met = meet(cation, anion, side->acid);
        if (!met.silent.empty()) silent = met.silent;
        if (!met.too_weak.empty()) too_weak = met.too_weak;
        if (!met.partly.empty()) partly = met.partly;
        static std::string_view const oxidised_by_nitric[] = {"S^2-", "HS^-", "SO3^2-", "HSO3^-", "S2O3^2-"};
        if (side->acid != nullptr && side->acid->anion == "NO3^-" &&
            std::find(std::begin(oxidised_by_nitric), std::end(oxidised_by_nitric), anion.key) != std::end(oxidised_by_nitric)) {
          draft.warnings.push_back(fill(words::nitric_oxidises, {plain(anion.ion)}));
          draft.borderline = true;
        }
        // With bare ions what stays dissolved is no product.
        if (bare && met.events.empty()) continue;
        used.insert(cation.key);
        used.insert(anion.key);
        for (auto const& product : met.products) {
          draft.right.push_back(product);
          if (product.state == State::aqueous && met.events.empty()) dissolved[key_of(product)] = met.by;
          if (side->reagent.solid() || other.reagent.solid()) {
            bool const covers =
                product.state == State::solid && !met.events.empty() && (side->acid != nullptr || other.acid != nullptr);
            if (covers) {
              draft.warnings.push_back(fill(words::layer, {key_of(product)}));
              draft.borderline = true;
            }
          }
        }
        if (met.water_used) draft.left.push_back(water());
        draft.borderline = draft.borderline || met.borderline;
        if (!met.because.empty() && draft.because.find(met.because) == std::string::npos)
          draft.because += (draft.because.empty() ? "" : "; ") + met.because;
        result.events.insert(met.events.begin(), met.events.end());
        bool const carbonate = anion.key == "CO3^2-" && cation.ion.charge == 2 && !met.events.empty();
        static std::string_view const basic[] = {"Cu^2+", "Zn^2+", "Co^2+", "Ni^2+", "Mg^2+", "Pb^2+"};
        if (carbonate && std::find(std::begin(basic), std::end(basic), cation.key) != std::end(basic))
          draft.warnings.push_back(words::basic_carbonate);
        if (cation.key == "NH4^+" && base_ion(anion)) draft.warnings.push_back(words::cold_ammonia);
      }
  }
  if (bare)
    for (auto const* side : {&a, &b})
      for (auto const& part : side->parts)
        if (used.count(part.key) == 0 && side->reagent.sort != Sort::ion) draft.right.push_back(part.ion);
  draft.kind = kind_of(result.events);
  if (!silent.empty()) {
    result.silent = true;
    result.because_not = fill(words::silent_on, {silent});
  } else if (!partly.empty()) {
    result.silent = true;
    Side const& weak = a.acid != nullptr ? a : b;
    result.because_not = fill(words::partly, {weak.reagent.key, partly});
  } else if (result.events.empty()) {
    auto const is_acid = [](std::string const& formula) { return acid_of(formula_in(formula)) != nullptr; };
    std::string list;
    for (auto const& [formula, by] : dissolved) {
      result.dissolved.push_back({formula, by});
      list += (list.empty() ? "" : ", ") + fill(is_acid(formula) ? words::strong_by : words::soluble_by, {formula, by});
    }
    if (!too_weak.empty()) {
      Side const& weak = a.acid != nullptr ? a : b;
      result.because_not = fill(words::acid_too_weak, {weak.reagent.key, too_weak});
    } else if (a.acid != nullptr || b.acid != nullptr) {
      std::string strong, salt;
      for (auto const& [formula, by] : dissolved) (is_acid(formula) ? strong : salt) = formula;
      result.because_not = strong.empty() || salt.empty() ? fill(words::all_dissolved, {list})
                                                          : fill(words::strong_acid_stays, {strong, salt, dissolved[salt]});
      for (auto const* side : {&a, &b})
        if (side->acid == nullptr && side->reagent.dissolves.verdict == Verdict::insoluble && !strong.empty())
          result.because_not = fill(words::solid_in_acid, {side->reagent.key, strong});
    } else if (dissolved.size() == 2) {
      auto const& [one, other] = std::pair{result.dissolved[0], result.dissolved[1]};
      result.because_not = one.by == other.by ? fill(words::both_dissolved, {one.formula, other.formula, one.by})
                                              : fill(words::both_dissolved_apart, {one.formula, one.by, other.formula, other.by});
    } else {
      // Bare ions: nothing solid forms of them, but whether electrons pass is not for this rule to say.
      result.silent = list.empty();
      result.because_not = list.empty() ? std::string(words::silent) : fill(words::all_dissolved, {list});
    }
  }
  return result;
}

/// The parts with one anion in place of another.
std::vector<Part> with_anion(std::vector<Part> parts, std::string const& anion) {
  for (auto& part : parts)
    if (part.ion.charge < 0) {
      bool const first = part.first;
      part = ion_part(anion);
      part.first = first;
    }
  return parts;
}

bool base_there(Reagent const& reagent) { return std::any_of(reagent.parts.begin(), reagent.parts.end(), base_ion); }

/// The reagent with the ions that take part. A weak acid gives up only the protons that the other's anions can take.
Side side_of(Reagent const& reagent, Reagent const& other) {
  if (reagent.sort != Sort::acid) return {reagent, nullptr, reagent.parts};
  Acid const* const acid = acid_of(with_state(reagent.formula, State::none));
  if (acid == nullptr || acid->strength == Acid::Strength::strong) return {reagent, acid, reagent.parts};
  for (auto const& part : other.parts) {
    Acid const* const formed = part.ion.charge < 0 && !base_ion(part) ? acid_with(part.key) : nullptr;
    if (formed == nullptr || formed->strength == Acid::Strength::strong || base_there(other)) continue;
    for (Acid const* const step : steps_of(*acid))
      if (drives_out(*step, *formed))
        return step == acid ? Side{reagent, acid, reagent.parts} : Side{reagent, step, with_anion(reagent.parts, step->anion)};
  }
  return {reagent, acid, reagent.parts};
}

Species one_of(Formula const& formula) {
  Species species;
  species.coefficient = Rational(1);
  species.formula = formula;
  return species;
}

bool shares(Reagent const& a, Reagent const& b, std::string& ion) {
  for (auto const& one : a.parts)
    for (auto const& other : b.parts)
      if (one.key == other.key) {
        ion = plain(one.ion);
        return true;
      }
  return false;
}

}  // namespace

Answer exchanged(Reagent const& a, Reagent const& b, Asked const& asked) {
  if (auto const found = neutralised(a, b, asked)) return found;
  for (auto const& [one, other] : {std::pair{&a, &b}, std::pair{&b, &a}}) {
    if (one->sort == Sort::water && (other->sort == Sort::salt || other->sort == Sort::base || other->sort == Sort::acid)) {
      if (other->dissolves.verdict == Verdict::insoluble)
        return nothing(fill(words::does_not_dissolve, {other->key, other->dissolves.by}));
      bool const known = other->sort == Sort::acid || other->dissolves.verdict == Verdict::soluble ||
                         other->dissolves.verdict == Verdict::slightly;
      if (!known) return undecided(fill(words::silent_on, {other->key + " in water"}));
      return nothing(
          fill(words::only_dissolves, {other->key, other->sort == Sort::acid ? words::by_acids : other->dissolves.by}));
    }
  }
  static std::string_view const neutral_oxides[] = {"CO", "NO", "N2O"};
  for (auto const& [one, other] : {std::pair{&a, &b}, std::pair{&b, &a}})
    if (std::find(std::begin(neutral_oxides), std::end(neutral_oxides), one->key) != std::end(neutral_oxides) &&
        (other->sort == Sort::water || other->sort == Sort::acid || other->sort == Sort::base))
      return nothing(fill(words::neutral_oxide, {one->key}));
  for (auto const& [one, other] : {std::pair{&a, &b}, std::pair{&b, &a}})
    if ((one->key == "SiO2" || one->key == "CO2") && other->sort == Sort::acid && other->key != "HF")
      return nothing(fill(words::acidic_oxide, {one->key}));
  auto const takes_part = [](Reagent const& r) {
    return r.sort == Sort::acid || r.sort == Sort::salt || r.sort == Sort::base || r.sort == Sort::basic_oxide ||
           r.sort == Sort::ion;
  };
  if (!takes_part(a) || !takes_part(b) || a.parts.empty() || b.parts.empty()) return std::nullopt;
  if (a.sort == Sort::acid && b.sort == Sort::acid) return nothing(words::two_acids);
  bool const basic_a = a.sort == Sort::base || a.sort == Sort::basic_oxide,
             basic_b = b.sort == Sort::base || b.sort == Sort::basic_oxide;
  if (basic_a && basic_b) return nothing(words::two_bases);
  std::string shared;
  if (shares(a, b, shared)) return nothing(fill(words::shared_ion, {shared}));
  bool const acid_there = a.sort == Sort::acid || b.sort == Sort::acid || a.key == "H^+" || b.key == "H^+";
  for (auto const& [one, other] : {std::pair{&a, &b}, std::pair{&b, &a}}) {
    if (!one->solid()) continue;
    if (acid_there && acid_proof(one->key)) return nothing(fill(words::acid_proof, {one->key}));
    if (acid_there) continue;
    auto const brings_ammonium = [](Reagent const& r) {
      return std::any_of(r.parts.begin(), r.parts.end(), [](Part const& part) { return part.key == "NH4^+"; });
    };
    // Ground together and warmed they give off ammonia: from memory, the usual way to make the gas.
    if (other->solid() && basic_a != basic_b && (brings_ammonium(a) || brings_ammonium(b)))
      return undecided(words::ammonium_and_solid_base);
    if (other->solid()) return nothing(words::dry_solids);
    if (one->dissolves.verdict == Verdict::insoluble || one->sort == Sort::basic_oxide)
      return undecided(fill(words::solid_stays, {one->key}));
  }
  Side const left = side_of(a, b), right = side_of(b, a);
  Exchange const whole = exchange(left, right);
  if (!whole.because_not.empty()) {
    Mixing none = whole.silent ? undecided(whole.because_not) : nothing(whole.because_not, whole.draft.borderline);
    none.dissolved = whole.dissolved;
    return none;
  }
  // Only solids form: a solid reagent would have to dissolve for that, and the acid does not make it. Nor does a weak acid give a
  // solid, for the strong acid that would form dissolves it again; but for the sulfides that acids leave alone (H2S + CuSO4).
  if (whole.events == std::set<Event>{Event::solid} && (left.acid != nullptr || right.acid != nullptr)) {
    for (auto const* side : {&left, &right})
      if (side->reagent.solid()) return undecided(fill(words::solid_stays, {side->reagent.key}));
    Acid const* const weak = left.acid != nullptr ? left.acid : right.acid;
    for (auto const& product : whole.draft.right)
      if (weak->strength != Acid::Strength::strong && product.state == State::solid &&
          !(weak->anion == "S^2-" && acid_proof(key_of(product))))
        return undecided(fill(words::silent_on, {key_of(product) + " in acid"}));
  }
  std::vector<Draft> drafts{whole.draft};
  // A polyprotic acid that stops on the way, or a salt of one that takes up only some of the H: only where that is asked for.
  for (auto const& [one, other] : {std::pair{&left, &right}, std::pair{&right, &left}}) {
    if (one->acid != nullptr && other->acid == nullptr)
      for (auto const& part : {"HSO4^-", "HSO3^-", "HCO3^-", "HS^-", "HC2O4^-", "H2PO4^-", "HPO4^2-", "C8H5O4^-"}) {
        Acid const* const step = acid_with(part);
        if (step == nullptr || step->spellings.front() != one->acid->spellings.front()) continue;
        Side const halfway{one->reagent, step, with_anion(one->parts, part)};
        Exchange const some = exchange(halfway, *other);
        if (some.because_not.empty()) drafts.push_back(some.draft);
      }
    if (one->acid == nullptr && other->acid != nullptr)
      for (auto const& part : one->parts)
        for (auto const& partly : {"HCO3^-", "HSO3^-", "HS^-", "H2PO4^-", "HPO4^2-"}) {
          Acid const* const step = acid_with(partly);
          Acid const* const now = acid_with(part.key);
          if (step == nullptr || now == nullptr || step->spellings.front() != now->spellings.front() ||
              step->protons >= now->protons)
            continue;
          Draft some = whole.draft;
          some.right.clear();
          some.kind = "neutralisation";
          some.because = fill(words::gas_forms, {plain(part.ion), partly});
          for (auto const& cation : one->parts)
            if (cation.ion.charge > 0) {
              some.right.push_back(with_state(salt_of(cation, ion_part(partly)), State::aqueous));
              some.right.push_back(with_state(salt_of(cation, other->parts.back()), State::aqueous));
            }
          drafts.push_back(some);
        }
  }
  if (auto const found = chosen(drafts, {a, b}, asked)) return found;
  // Sulfur in several states balances in many ways (Na2S2O3 + H2SO4): by what the acid makes of the anion alone.
  for (auto const& [acid, salt] : {std::pair{&left, &right}, std::pair{&right, &left}})
    for (auto const& part : salt->parts) {
      Acid const* const formed = part.ion.charge < 0 ? acid_with(part.key) : nullptr;
      if (acid->acid == nullptr || formed == nullptr || formed->strength != Acid::Strength::gas) continue;
      Equation net;
      net.left = {one_of(part.ion), one_of(ion_part("H^+").ion)};
      net.left[1].coefficient = Rational(formed->protons);
      for (auto const& product : formed->gives) net.right.push_back(one_of(product));
      if (auto const found = dressed(whole.draft, net, {a, b})) return found;
    }
  return std::nullopt;
}

}  // namespace molewright::mixing
