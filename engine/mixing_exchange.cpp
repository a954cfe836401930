// Exchange of ions: precipitation, acids with bases and with salts of weak acids, ammonium salts with bases.
#include <algorithm>
#include <set>

#include "engine/mixing_rules.h"
#include "engine/mixing_words.h"
#include "engine/tsv.h"

namespace molewright::data {
extern std::string_view const acid_proof_tsv;
extern std::string_view const not_formed_tsv;
}  // namespace molewright::data

namespace molewright::mixing {
namespace {

using words::fill;
using Verdict = Dissolving::Verdict;

enum class Event { none, solid, water, gas, weak_acid, electrons };

/// What a cation and an anion make when they meet.
struct Meeting {
  std::vector<Formula> products;
  std::vector<Event> events;
  std::string because;   ///< of the event
  std::string silent;    ///< on what the tables are silent; empty where they are not
  std::string too_weak;  ///< the acid that would form is the stronger one
  bool borderline = false, water_used = false;
};

struct Instead {
  std::string salt, because, kind;
  std::vector<Formula> products;
  bool water = false;
};
Instead const* instead_of(std::string const& salt) {
  static std::vector<Instead> const rows = [] {
    std::vector<Instead> result;
    TsvTable const table(data::not_formed_tsv);
    auto const name = table.column("salt"), products = table.column("instead"), because = table.column("because"),
               kind = table.column("kind"), water = table.column("water");
    for (std::size_t row = 0; row < table.size(); ++row)
      result.push_back({std::string(table.cell(row, name)), std::string(table.cell(row, because)),
                        std::string(table.cell(row, kind)), formulas_in(table.cell(row, products)),
                        table.cell(row, water) == "yes"});
    return result;
  }();
  for (auto const& row : rows)
    if (row.salt == salt) return &row;
  return nullptr;
}

bool acid_proof(std::string const& key) {
  static std::set<std::string> const keys = [] {
    std::set<std::string> result;
    TsvTable const table(data::acid_proof_tsv);
    for (std::size_t row = 0; row < table.size(); ++row) result.insert(std::string(table.cell(row, 0)));
    return result;
  }();
  return keys.count(key) != 0;
}

Formula water(State state = State::liquid) { return with_state(formula_in("H2O"), state); }

bool base_ion(Part const& part) { return part.key == "OH^-" || part.key == "O^2-"; }

Meeting meet_proton(Acid const* acid, Part const& anion) {
  Meeting met;
  if (base_ion(anion)) {
    met.products = {water()};
    met.events = {Event::water};
    met.because = words::water_forms;
    return met;
  }
  Acid const* const formed = acid_with(anion.key);
  if (formed == nullptr) {
    met.silent = plain(anion.ion) + " in acid";
    return met;
  }
  if (formed->strength == Acid::Strength::strong) {
    met.products = {with_state(acid_spelled(*formed, anion), State::aqueous)};
    if (acid != nullptr && acid->strength != Acid::Strength::strong) met.too_weak = plain(met.products[0]);
    return met;
  }
  Formula const spelled = acid_spelled(*formed, anion);
  if (acid != nullptr && acid->strength != Acid::Strength::strong && !(formed->pka > acid->pka)) {
    met.products = {with_state(spelled, State::aqueous)};
    met.too_weak = plain(spelled);
    return met;
  }
  met.products = formed->gives;
  if (formed->strength == Acid::Strength::gas) {
    met.events = {Event::gas};
    std::string gives;
    for (auto const& product : formed->gives) gives += (gives.empty() ? "" : " and ") + plain(product);
    met.because = fill(words::gas_forms, {plain(anion.ion), gives});
  } else {
    for (auto& product : met.products)
      if (product.composition() == spelled.composition()) product = with_state(spelled, product.state);
    met.events = {Event::weak_acid};
    met.because = fill(words::weak_acid_forms, {plain(spelled)});
  }
  return met;
}

Meeting meet(Part const& cation, Part const& anion, Acid const* acid) {
  if (cation.key == "H^+" || cation.key == "H3O^+") return meet_proton(acid, anion);
  Meeting met;
  if (cation.key == "NH4^+" && base_ion(anion)) {
    met.products = {with_state(formula_in("NH3"), State::gas), water()};
    met.events = {Event::gas};
    met.because = words::ammonia_leaves;
    return met;
  }
  Formula const salt = salt_of(cation, anion);
  std::string const key = key_of(salt);
  if (Instead const* const other = instead_of(key)) {
    met.products = other->products;
    for (auto const& product : other->products)
      if (product.state == State::solid || product.state == State::gas)
        met.events.push_back(product.state == State::solid ? Event::solid : Event::gas);
    met.because = other->because;
    if (other->kind == "redox") met.events.push_back(Event::electrons);
    met.water_used = other->water;
    return met;
  }
  Dissolving const found = dissolving(salt);
  met.borderline = found.disputed;
  switch (found.verdict) {
    case Verdict::soluble:
      met.products = {with_state(salt, State::aqueous)};
      break;
    case Verdict::slightly:
    case Verdict::insoluble:
      met.products = {with_state(salt, State::solid)};
      met.events = {Event::solid};
      met.because = fill(found.verdict == Verdict::slightly ? words::slightly_forms : words::solid_forms, {key, found.by});
      met.borderline = met.borderline || found.verdict == Verdict::slightly;
      break;
    case Verdict::not_formed:
    case Verdict::unknown:
      met.silent = key;
      break;
  }
  return met;
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
};

Exchange exchange(Side const& a, Side const& b) {
  Exchange result;
  auto& draft = result.draft;
  draft.left = {a.reagent.formula, b.reagent.formula};
  bool const bare = a.reagent.sort == Sort::ion || b.reagent.sort == Sort::ion;
  std::vector<std::string> dissolved;
  std::set<std::string> used;
  std::string silent, too_weak;
  for (auto const* side : {&a, &b}) {
    Side const& other = side == &a ? b : a;
    for (auto const& cation : side->parts)
      for (auto const& anion : other.parts) {
        if (cation.ion.charge < 0 || anion.ion.charge > 0) continue;
        Meeting const met = meet(cation, anion, side->acid);
        if (!met.silent.empty()) silent = met.silent;
        if (!met.too_weak.empty()) too_weak = met.too_weak;
        // With bare ions what stays dissolved is no product.
        if (bare && met.events.empty()) continue;
        used.insert(cation.key);
        used.insert(anion.key);
        for (auto const& product : met.products) {
          draft.right.push_back(product);
          if (product.state == State::aqueous && met.events.empty()) dissolved.push_back(key_of(product));
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
        if (!met.events.empty()) draft.borderline = draft.borderline || met.borderline;
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
    result.because_not = fill(words::silent_on, {silent});
  } else if (result.events.empty()) {
    std::sort(dissolved.begin(), dissolved.end());
    dissolved.erase(std::unique(dissolved.begin(), dissolved.end()), dissolved.end());
    std::string list;
    for (std::size_t i = 0; i < dissolved.size(); ++i)
      list += (i == 0 ? "" : i + 1 == dissolved.size() ? " and " : ", ") + dissolved[i];
    if (!too_weak.empty()) {
      Side const& weak = a.acid != nullptr ? a : b;
      result.because_not = fill(words::acid_too_weak, {weak.reagent.key, too_weak});
    } else if (a.acid != nullptr || b.acid != nullptr) {
      std::string strong, salt;
      for (auto const& text : dissolved) (acid_of(formula_in(text)) != nullptr ? strong : salt) = text;
      result.because_not =
          strong.empty() || salt.empty() ? fill(words::all_dissolved, {list}) : fill(words::strong_acid_stays, {strong, salt});
    } else if (dissolved.size() == 2) {
      result.because_not = fill(words::both_dissolved, {dissolved[0], dissolved[1]});
    } else {
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

/// Acid salt and base (NaHCO3 + NaOH): the anion gives up its last H.
Answer acid_salt_and_base(Reagent const& salt, Reagent const& base) {
  for (auto const& part : salt.parts) {
    if (part.ion.charge > 0) continue;
    Acid const* const own = acid_with(part.key);
    if (own == nullptr) continue;
    Acid const* const whole = acid_of(formula_in(own->spellings.front()));
    if (whole == nullptr || whole->protons <= own->protons) continue;
    Draft draft;
    draft.kind = "neutralisation";
    draft.because = fill(words::water_from_acid_salt, {plain(part.ion)});
    draft.left = {salt.formula, base.formula};
    Part anion = ion_part(whole->anion);
    if (salt.sort == Sort::ion || base.sort == Sort::ion) {
      draft.right = {anion.ion, water()};
      for (auto const* reagent : {&salt, &base})
        if (reagent->sort != Sort::ion)
          for (auto const& other : reagent->parts)
            if (other.ion.charge > 0) draft.right.push_back(other.ion);
      return worked_out(draft);
    }
    auto const& plus = salt.parts[0];
    auto const& other = base.parts[0];
    auto const atoms = anion.ion.composition();
    bool const organic = atoms.count("C") != 0 && atoms.count("H") != 0;
    if (organic && anion.ion.charge == -2 && plus.ion.charge == 1 && other.ion.charge == 1 && plus.key != other.key) {
      Formula mixed = salt_of(plus, anion);  // Rochelle-type salts: one of each cation
      auto& groups = mixed.parts[0].groups;
      groups[0].count = 1;
      groups.insert(groups.begin() + 1, other.ion.parts[0].groups.front());
      draft.right = {with_state(mixed, State::aqueous)};
    } else {
      for (auto const& cation : {plus, other}) {
        Meeting const met = meet(cation, anion, nullptr);
        if (!met.silent.empty()) return nothing(fill(words::silent_on, {met.silent}));
        draft.right.insert(draft.right.end(), met.products.begin(), met.products.end());
        if (!met.because.empty() && draft.kind == "neutralisation") {
          draft.kind = "precipitation+neutralisation";
          draft.because += "; " + met.because;
        }
      }
    }
    draft.right.push_back(water());
    return worked_out(draft);
  }
  return std::nullopt;
}

/// Acid salt and carbonate (baking powder): the anion gives its H to the salt of a gas.
Answer acid_salt_and_carbonate(Reagent const& salt, Reagent const& other) {
  static std::string_view const givers[] = {"HSO4^-", "HC4H4O6^-", "C8H5O4^-", "HC2O4^-"};
  if (salt.parts.size() != 2 || other.parts.size() != 2 || salt.sort != Sort::salt || other.sort != Sort::salt)
    return std::nullopt;
  Part const& anion = salt.parts[1];
  if (std::find(std::begin(givers), std::end(givers), anion.key) == std::end(givers)) return std::nullopt;
  Acid const* const gas = acid_with(other.parts[1].key);
  Acid const* const own = acid_with(anion.key);
  std::string const bare = own == nullptr ? "C4H4O6^2-" : acid_of(formula_in(own->spellings.front()))->anion;
  if (gas == nullptr || gas->strength != Acid::Strength::gas) return std::nullopt;
  Draft draft;
  draft.kind = "gas";
  draft.left = {salt.formula, other.formula};
  std::string gives;
  for (auto const& product : gas->gives) gives += (gives.empty() ? "" : " and ") + plain(product);
  draft.because = fill(words::gas_forms, {plain(other.parts[1].ion), gives});
  auto const& plus = salt.parts[0];
  auto const& second = other.parts[0];
  Formula product = salt_of(plus, ion_part(bare));
  if (plus.key != second.key && plus.ion.charge == 1 && second.ion.charge == 1 && bare != "SO4^2-") {
    auto& groups = product.parts[0].groups;
    groups[0].count = 1;
    groups.insert(groups.begin() + 1, second.ion.parts[0].groups.front());
    draft.right = {with_state(product, State::aqueous)};
    if (other.parts[1].ion.charge != -1) return std::nullopt;
  } else {
    for (auto const& cation : {plus, second}) {
      Formula const formed = salt_of(cation, ion_part(bare));
      draft.right.push_back(with_state(formed, dissolving(formed).verdict == Verdict::insoluble ? State::solid : State::aqueous));
    }
  }
  draft.right.insert(draft.right.end(), gas->gives.begin(), gas->gives.end());
  return worked_out(draft);
}

/// Ammonia with an acid, or with a salt whose hydroxide does not dissolve.
Answer with_ammonia(Reagent const& ammonia, Reagent const& other) {
  Draft draft;
  draft.left = {ammonia.formula, other.formula};
  Part const ammonium = ion_part("NH4^+");
  bool const has_water = ammonia.key == "NH4OH";
  if (other.sort == Sort::acid || (other.sort == Sort::ion && other.key == "H^+")) {
    draft.kind = "neutralisation";
    draft.because = words::ammonia_takes;
    if (other.sort == Sort::ion)
      draft.right = {ammonium.ion};
    else
      draft.right = {with_state(salt_of(ammonium, other.parts.back()), State::aqueous)};
    if (has_water) draft.right.push_back(water());
    return worked_out(draft);
  }
  if (other.sort != Sort::salt && other.sort != Sort::ion) return std::nullopt;
  if (other.solid()) return nothing(fill(words::solid_stays, {other.key}));
  for (auto const& cation : other.parts) {
    if (cation.ion.charge < 0) continue;
    Meeting const met = cation.key == "NH4^+" ? Meeting() : meet(cation, ion_part("OH^-"), nullptr);
    if (met.events.empty()) {
      return nothing(cation.key == "NH4^+"  ? fill(words::shared_ion, {"NH4^+"})
                     : met.products.empty() ? fill(words::silent_on, {key_of(salt_of(cation, ion_part("OH^-")))})
                                            : fill(words::all_dissolved, {key_of(met.products[0])}));
    }
    draft.right.insert(draft.right.end(), met.products.begin(), met.products.end());
    draft.because = fill(words::ammonia_hydroxide, {key_of(met.products[0]), "the solubility table"});
    draft.borderline = met.borderline;
  }
  if (draft.right.empty()) return nothing(words::silent);
  draft.kind = "precipitation";
  if (!has_water) draft.left.push_back(water());
  for (auto const& anion : other.parts)
    if (anion.ion.charge < 0) draft.right.push_back(with_state(salt_of(ammonium, anion), State::aqueous));
  if (other.sort == Sort::ion) draft.right.push_back(ammonium.ion);
  return worked_out(draft);
}

/// Oxides of nonmetals with water, bases and basic oxides; basic oxides with water.
Answer with_oxide(Reagent const& oxide, Reagent const& other) {
  Draft draft;
  draft.left = {oxide.formula, other.formula};
  if (oxide.sort == Sort::basic_oxide) {
    if (other.sort != Sort::water) return std::nullopt;
    if (oxide.dissolves.verdict != Verdict::not_formed) return nothing(fill(words::does_not_dissolve, {oxide.key}));
    draft.kind = "oxide + water";
    draft.because = fill(words::oxide_water, {oxide.key});
    for (auto const& cation : oxide.parts)
      if (cation.ion.charge > 0) {
        Formula const base = salt_of(cation, ion_part("OH^-"));
        draft.right.push_back(with_state(base, dissolving(base).verdict == Verdict::insoluble ? State::solid : State::aqueous));
      }
    return worked_out(draft);
  }
  Acid const* const acid = acid_from_oxide(with_state(oxide.formula, State::none));
  if (acid == nullptr) return std::nullopt;
  draft.because = fill(words::acid_oxide, {oxide.key, acid->spellings.front()});
  if (other.sort == Sort::water) {
    draft.kind = "oxide + water";
    draft.right = {with_state(formula_in(acid->spellings.front()), State::aqueous)};
    draft.borderline = acid->strength == Acid::Strength::gas;
    return worked_out(draft);
  }
  if (other.sort != Sort::base && other.sort != Sort::basic_oxide && !(other.sort == Sort::ion && other.key == "OH^-"))
    return std::nullopt;
  draft.kind = "neutralisation";
  Part const anion = ion_part(acid->anion);
  if (other.sort == Sort::ion) draft.right.push_back(anion.ion);
  for (auto const& cation : other.parts) {
    if (cation.ion.charge < 0) continue;
    Meeting const met = meet(cation, anion, nullptr);
    if (!met.silent.empty()) return nothing(fill(words::silent_on, {met.silent}));
    if (met.water_used) return nothing(fill(words::silent_on, {key_of(salt_of(cation, anion))}));
    for (auto const& product : met.products)
      draft.right.push_back(other.sort == Sort::basic_oxide ? with_state(product, State::solid) : product);
    if (!met.events.empty() && other.sort != Sort::basic_oxide) {
      draft.kind = "precipitation+neutralisation";
      draft.because += "; " + met.because;
    }
  }
  if (other.sort != Sort::basic_oxide) draft.right.push_back(water());
  return worked_out(draft);
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

bool holds_base(Reagent const& reagent) {
  return std::any_of(reagent.parts.begin(), reagent.parts.end(), [](Part const& part) { return part.key == "OH^-"; });
}

}  // namespace

Answer exchanged(Reagent const& a, Reagent const& b, Asked const& asked) {
  for (auto const& [one, other] : {std::pair{&a, &b}, std::pair{&b, &a}}) {
    if (one->sort == Sort::basic_oxide || one->sort == Sort::acidic_oxide)
      if (auto const found = with_oxide(*one, *other)) return found;
    if (one->sort == Sort::ammonia)
      if (auto const found = with_ammonia(*one, *other)) return found;
    if (one->sort == Sort::water && (other->sort == Sort::salt || other->sort == Sort::base || other->sort == Sort::acid)) {
      if (other->dissolves.verdict == Verdict::insoluble) return nothing(fill(words::does_not_dissolve, {other->key}));
      if (other->dissolves.verdict == Verdict::not_formed) return nothing(fill(words::silent_on, {other->key + " in water"}));
      return nothing(fill(words::only_dissolves, {other->key}));
    }
  }
  auto const takes_part = [](Reagent const& r) {
    return r.sort == Sort::acid || r.sort == Sort::salt || r.sort == Sort::base || r.sort == Sort::basic_oxide ||
           r.sort == Sort::ion;
  };
  if (!takes_part(a) || !takes_part(b) || a.parts.empty() || b.parts.empty()) return std::nullopt;
  for (auto const& [one, other] : {std::pair{&a, &b}, std::pair{&b, &a}})
    if (holds_base(*other) && (one->sort == Sort::salt || one->sort == Sort::ion) && !one->solid())
      if (auto const found = acid_salt_and_base(*one, *other)) return found;
  for (auto const& [one, other] : {std::pair{&a, &b}, std::pair{&b, &a}})
    if (auto const found = acid_salt_and_carbonate(*one, *other)) return found;
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
    if (other->solid()) return nothing(words::dry_solids);
    if (one->dissolves.verdict == Verdict::insoluble || one->sort == Sort::basic_oxide)
      return nothing(fill(words::solid_stays, {one->key}));
  }
  Side const left{a, a.sort == Sort::acid ? acid_of(with_state(a.formula, State::none)) : nullptr, a.parts};
  Side const right{b, b.sort == Sort::acid ? acid_of(with_state(b.formula, State::none)) : nullptr, b.parts};
  Exchange const whole = exchange(left, right);
  if (!whole.because_not.empty()) return nothing(whole.because_not);
  // A weak acid gives no solid by exchange, for the strong acid that would form dissolves it again; but for those that acids
  // leave alone (H2S with copper sulfate).
  Acid const* const weak = left.acid != nullptr ? left.acid : right.acid;
  if (weak != nullptr && weak->strength != Acid::Strength::strong && whole.events == std::set<Event>{Event::solid}) {
    for (auto const& product : whole.draft.right)
      if (product.state == State::solid && !acid_proof(key_of(product)))
        return nothing(fill(words::silent_on, {key_of(product) + " in acid"}));
  }
  std::vector<Draft> drafts{whole.draft};
  // A polyprotic acid that stops on the way, or a salt of one that takes up only some of the H: only where that is asked for.
  for (auto const& [one, other] : {std::pair{&left, &right}, std::pair{&right, &left}}) {
    if (one->acid != nullptr && other->acid == nullptr)
      for (auto const& part : {"HSO4^-", "HSO3^-", "HCO3^-", "HS^-", "HC2O4^-", "H2PO4^-", "HPO4^2-", "C8H5O4^-"}) {
        Acid const* const step = acid_with(part);
        if (step == nullptr || step->spellings.front() != one->acid->spellings.front()) continue;
        Side halfway{one->reagent, one->acid, with_anion(one->parts, part)};
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
  return chosen(drafts, {a, b}, asked);
}

}  // namespace molewright::mixing
