#include "engine/salt.h"

#include <algorithm>
#include <functional>
#include <map>
#include <numeric>
#include <optional>
#include <utility>

#include "engine/ascii.h"
#include "engine/formula_index.h"
#include "engine/substance.h"
#include "engine/tsv.h"

namespace molewright {
namespace data {
extern std::string_view const ions_tsv;
}

namespace {

/// An ion of the table with what is needed to fit it into a salt.
struct IonParts {
  std::map<std::string, std::int64_t> atoms;
  std::int64_t size = 0;  ///< how many atoms these are
  std::string inside;     ///< its formula without charge and square brackets, as it stands in a salt: "SO4", "Fe(CN)6"
  std::string metal;      ///< its metal; empty for an ion of nonmetals
  bool complex = false;
  bool twins = false;  ///< an anion of two or more atoms of one element: peroxide, azide
  int level = 2;
};

struct IonTable {
  std::vector<Ion> ions;
  std::vector<NamedIon> named;
  std::vector<IonParts> parts;
  FormulaIndex index;
};

IonParts parts_of(Formula const& formula, std::string_view kind) {
  IonParts parts;
  parts.atoms = formula.composition();
  Formula bare = formula;
  bare.charge = 0;
  parts.inside = plain(bare);
  if (parts.inside.front() == '[') parts.inside = parts.inside.substr(1, parts.inside.size() - 2);
  for (auto const& [element, count] : parts.atoms) {
    parts.size += count;
    if (is_metal(element)) parts.metal = element;
  }
  parts.complex = kind == "complex";
  parts.twins = formula.charge < 0 && parts.atoms.size() == 1 && parts.atoms.begin()->second > 1;
  return parts;
}

bool ends_with(std::string_view text, std::string_view end) {
  return text.size() >= end.size() && text.substr(text.size() - end.size()) == end;
}

std::string without_kind(std::string_view name) {
  for (std::string_view const word : {" ion", " cation"})
    if (ends_with(name, word)) return std::string(name.substr(0, name.size() - word.size()));
  return std::string(name);
}

NamedIon named_ion(Ion const& ion, IonParts const& parts, std::string_view others) {
  NamedIon named;
  named.formula = ion.formula;
  named.name = without_kind(ion.name);
  for (std::string_view const other : split_list(others)) named.other_names.push_back(without_kind(other));
  named.charge = ion.charge;
  named.inside = ion.formula.substr(0, ion.formula.find('^'));
  named.metal = parts.metal;
  named.complex = parts.complex;
  return named;
}

IonTable const& ion_table() {
  static IonTable const made = [] {
    IonTable result;
    TsvTable const table(data::ions_tsv);
    auto const formula = table.column("formula"), name = table.column("name"), others = table.column("other_names"),
               kind = table.column("kind"), level = table.column("school_level");
    for (std::size_t row = 0; row < table.size(); ++row) {
      std::string const text(table.cell(row, formula));
      result.index.add(text, static_cast<int>(row));
      Formula const read = value(parse_formula(text));
      result.ions.push_back({text, std::string(table.cell(row, name)), read.charge, table.cell(row, level) == "1"});
      result.parts.push_back(parts_of(read, table.cell(row, kind)));
      result.parts.back().level = table.cell(row, level) == "1" ? 1 : 2;
      result.named.push_back(named_ion(result.ions.back(), result.parts.back(), table.cell(row, others)));
    }
    return result;
  }();
  return made;
}

/// A salt taken apart: which ions, how many, and how good a reading of the formula that is (smaller is better).
struct Reading {
  std::vector<std::pair<std::size_t, std::int64_t>> ions;
  std::int64_t total = 0;
  int unwritten = 0;  ///< ions that do not stand in the formula as written
  int level = 0;
  bool operator<(Reading const& other) const {
    if (ions.size() != other.ions.size()) return ions.size() < other.ions.size();
    if (unwritten != other.unwritten) return unwritten < other.unwritten;
    if (total != other.total) return total < other.total;
    return level < other.level;
  }
};

class SaltReader {
 public:
  explicit SaltReader(Formula const& salt) : table_(ion_table()), atoms_(salt.composition()), text_(plain(salt)) {
    for (auto const& [element, count] : atoms_) all_ += count;
    for (std::size_t i = 0; i < table_.ions.size(); ++i)
      if (fits(i)) (table_.ions[i].charge > 0 ? cations_ : anions_).push_back(i);
  }

  /// One cation and one anion; if none fit, two of the one kind and one of the other (alums, basic and double salts).
  std::optional<Reading> best() {
    for (std::size_t const cation : cations_)
      for (std::size_t const anion : anions_)
        if (may_meet(cation, anion)) try_pair(cation, anion);
    if (best_) return best_;
    for (std::size_t i = 0; i < cations_.size(); ++i)
      for (std::size_t j = i + 1; j < cations_.size(); ++j)
        for (std::size_t const anion : anions_)
          if (may_meet(cations_[i], anion) && may_meet(cations_[j], anion)) try_three(cations_[i], cations_[j], anion);
    for (std::size_t i = 0; i < anions_.size(); ++i)
      for (std::size_t j = i + 1; j < anions_.size(); ++j)
        for (std::size_t const cation : cations_)
          if (may_meet(cation, anions_[i]) && may_meet(cation, anions_[j])) try_three(anions_[i], anions_[j], cation);
    return best_;
  }

 private:
  /// As a whole: ClO does not stand in ClO3, nor C in Ca.
  bool written(std::size_t ion) const {
    std::string const& inside = table_.parts[ion].inside;
    bool const one_atom = table_.parts[ion].atoms.size() == 1 && table_.parts[ion].atoms.begin()->second == 1;
    for (std::size_t at = text_.find(inside); at != std::string::npos; at = text_.find(inside, at + 1)) {
      char const next = at + inside.size() < text_.size() ? text_[at + inside.size()] : ' ';
      bool const goes_on = (next >= 'a' && next <= 'z') || (!one_atom && is_digit(next));
      if (!goes_on) return true;
    }
    return false;
  }

  /// An ion in brackets with a number is that ion: Mn(SO4)2 is no peroxodisulfate, though S2O8 has the same atoms.
  bool breaks_brackets(std::vector<std::pair<std::size_t, std::int64_t>> const& ions) const {
    for (std::size_t ion = 0; ion < table_.ions.size(); ++ion) {
      std::string const& inside = table_.parts[ion].inside;
      std::size_t const at = text_.find('(' + inside + ')');
      std::size_t const next = at + inside.size() + 2;
      if (at == std::string::npos || next >= text_.size() || !is_digit(text_[next])) continue;
      bool const there =
          std::any_of(ions.begin(), ions.end(), [&](auto const& read) { return table_.parts[read.first].inside == inside; });
      if (!there) return true;
    }
    return false;
  }

  /// Every atom is in the salt; a cation of nonmetals, or a complex, stands in it as written. Acids are not taken apart here: no
  /// H^+.
  bool fits(std::size_t ion) const {
    IonParts const& parts = table_.parts[ion];
    for (auto const& [element, count] : parts.atoms) {
      auto const own = atoms_.find(element);
      if (own == atoms_.end() || own->second < count) return false;
    }
    std::string const& formula = table_.ions[ion].formula;
    if (formula == "H^+" || formula == "NO^+" || formula == "NO2^+") return false;
    bool const nonmetal_cation = table_.ions[ion].charge > 0 && parts.metal.empty();
    return (!nonmetal_cation && !parts.complex) || written(ion);
  }

  /// No oxide of an oxo cation (V2O5 is not pervanadyl oxide), no anion that holds the cation's own metal unless it is a complex
  /// as written (Pb3O4), and peroxides, superoxides and disulfides with metals of groups 1 and 2 only (MnO2 is no peroxide),
  /// pyrite apart.
  bool may_meet(std::size_t cation, std::size_t anion) const {
    static std::string_view const fixed[] = {"Li", "Na", "K", "Rb", "Cs", "Fr", "Mg", "Ca", "Sr", "Ba", "Ra"};
    IonParts const& plus = table_.parts[cation];
    IonParts const& minus = table_.parts[anion];
    if (plus.atoms.count("O") != 0 && !plus.metal.empty() && !plus.complex && table_.ions[anion].formula == "O^2-") return false;
    if (!plus.metal.empty() && plus.metal == minus.metal && !minus.complex) return false;
    std::string const& name = table_.ions[anion].formula;
    if (name == "O2^2-" || name == "O2^-" || name == "HO2^-" || name == "S2^2-")
      return std::find(std::begin(fixed), std::end(fixed), plus.metal) != std::end(fixed) || text_ == "FeS2";
    return true;
  }

  void try_pair(std::size_t cation, std::size_t anion) {
    std::int64_t const plus = table_.ions[cation].charge, minus = -table_.ions[anion].charge;
    std::int64_t const common = std::gcd(plus, minus);
    std::int64_t const unit = minus / common * table_.parts[cation].size + plus / common * table_.parts[anion].size;
    if (all_ % unit != 0) return;
    std::int64_t const times = all_ / unit;
    consider({{cation, times * minus / common}, {anion, times * plus / common}});
  }

  /// `a` and `b` have charges of one sign, `c` of the other.
  void try_three(std::size_t a, std::size_t b, std::size_t c) {
    for (std::size_t const ion : {a, b, c})
      if (table_.ions[ion].formula == "H^-") return;  // Fe(OH) is no hydride oxide
    constexpr std::int64_t most = 12;                 // Ca10(PO4)6(OH)2
    std::int64_t const of_a = table_.parts[a].size, of_b = table_.parts[b].size, of_c = table_.parts[c].size;
    for (std::int64_t i = 1; i <= most && i * of_a < all_; ++i)
      for (std::int64_t j = 1; j <= most && i * of_a + j * of_b < all_; ++j) {
        std::int64_t const charge = i * table_.ions[a].charge + j * table_.ions[b].charge;
        std::int64_t const other = -table_.ions[c].charge;
        if (charge % other != 0) continue;
        std::int64_t const k = charge / other;
        if (i * of_a + j * of_b + k * of_c == all_) consider({{a, i}, {b, j}, {c, k}});
      }
  }

  void consider(std::vector<std::pair<std::size_t, std::int64_t>> ions) {
    std::map<std::string, std::int64_t> sum;
    Reading reading;
    for (auto const& [ion, count] : ions) {
      for (auto const& [element, number] : table_.parts[ion].atoms) sum[element] += count * number;
      reading.total += count;
      reading.unwritten += written(ion) ? 0 : 1;
      reading.level += table_.parts[ion].level;
      if (table_.parts[ion].twins) reading.unwritten += 1;
    }
    if (sum != atoms_) return;
    if (ions.size() > 2 && reading.unwritten > 0) return;  // FeNO3 is no iron(III) nitrite oxide
    if (reading.unwritten > 0 && breaks_brackets(ions)) return;
    std::sort(ions.begin(), ions.end());
    std::stable_partition(ions.begin(), ions.end(), [&](auto const& ion) { return table_.ions[ion.first].charge > 0; });
    reading.ions = std::move(ions);
    if (!best_ || reading < *best_) best_ = std::move(reading);
  }

  IonTable const& table_;
  std::map<std::string, std::int64_t> atoms_;
  std::string text_;
  std::int64_t all_ = 0;
  std::vector<std::size_t> cations_, anions_;
  std::optional<Reading> best_;
};

}  // namespace

std::string ion_name(Formula const& formula) {
  IonTable const& table = ion_table();
  int const row = table.index.find(formula);
  if (row == FormulaIndex::none) return "";
  std::string const& name = table.ions[static_cast<std::size_t>(row)].name;
  return ends_with(name, "ion") && !ends_with(name, "anion") ? name : name + " ion";
}

std::vector<NamedIon> const& named_ions() { return ion_table().named; }

std::optional<SaltPair> salt_pair(Formula const& formula) {
  if (formula.charge != 0 || formula.electron || formula.parts.size() != 1) return std::nullopt;
  auto const best = SaltReader(formula).best();
  if (!best || best->ions.size() != 2) return std::nullopt;
  return SaltPair{best->ions[0].first, best->ions[1].first, best->ions[0].second, best->ions[1].second, best->unwritten == 0};
}

std::string salt_name(Formula const& formula) {
  if (formula.charge != 0 || formula.electron || formula.parts.size() != 1) return "";
  auto const best = SaltReader(formula).best();
  if (!best) return "";
  std::int64_t common = 0;
  for (auto const& [ion, count] : best->ions) common = std::gcd(common, count);
  if (common != 1) return "";  // Na2Cl2 is no sodium chloride
  auto const& all = named_ions();
  std::vector<std::string> cations, anions;
  for (auto const& [ion, count] : best->ions) (all[ion].charge > 0 ? cations : anions).push_back(all[ion].name);
  std::sort(cations.begin(), cations.end());
  std::sort(anions.begin(), anions.end());
  std::string name;
  for (auto const& list : {cations, anions})
    for (auto const& ion : list) name += (name.empty() ? "" : " ") + ion;
  return name;
}

std::string salt_formula(NamedIon const& cation, NamedIon const& anion) {
  std::int64_t const plus = cation.charge, minus = -anion.charge;
  std::int64_t const common = std::gcd(plus, minus);
  auto const text = [](NamedIon const& ion, std::int64_t count) {
    if (count == 1) return ion.inside;
    Formula const inside = value(parse_formula(ion.inside));
    auto const& groups = inside.parts.front().groups;
    bool const single = groups.size() == 1 && groups.front().count == 1;  // Na, [Fe(CN)6]
    return (single ? ion.inside : '(' + ion.inside + ')') + std::to_string(count);
  };
  return text(cation, minus / common) + text(anion, plus / common);
}

std::vector<Ion> const& ions() { return ion_table().ions; }

namespace {
std::vector<IonCount> found_ions(std::string_view formula) {
  auto const read = parse_formula(formula);
  if (!ok(read) || value(read).charge != 0 || value(read).electron) return {};
  auto const best = SaltReader(anhydrous(value(read))).best();
  std::vector<IonCount> counts;
  if (best)
    for (auto const& [ion, count] : best->ions) counts.push_back({ion_table().ions[ion].formula, count});
  return counts;
}
}  // namespace

std::vector<IonCount> ions_of(std::string_view formula) {
  // A problem asks of the same few substances over and over.
  constexpr std::size_t most = 512;
  thread_local std::map<std::string, std::vector<IonCount>, std::less<>> kept;
  if (auto const found = kept.find(formula); found != kept.end()) return found->second;
  if (kept.size() >= most) kept.clear();
  return kept.emplace(std::string(formula), found_ions(formula)).first->second;
}

}  // namespace molewright
