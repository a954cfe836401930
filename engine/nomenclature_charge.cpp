// Charges that do not add up in what is meant to be a salt.
#include <algorithm>

#include "engine/element.h"
#include "engine/formula_index.h"
#include "engine/nomenclature.h"
#include "engine/nomenclature_parts.h"
#include "engine/nomenclature_words.h"

namespace molewright {
namespace {

/// A salt as it is written: which cation or metal, which anion, how many of each.
struct Written {
  std::string metal;  ///< empty where `cation` is an ion of several atoms
  NamedIon cation, anion;
  std::int64_t cations = 1, anions = 1;
};

std::string text_of(std::vector<Group> const& groups) {
  Formula formula;
  formula.parts.push_back({1, groups});
  return plain(formula);
}

/// The ion that stands in a salt as `inside`, of the sign wanted, charged least; an element's simple anion too.
std::optional<NamedIon> ion_as_written(std::string const& inside, bool cation) {
  NamedIon const* best = nullptr;
  for (NamedIon const& ion : named_ions())
    if (ion.inside == inside && (ion.charge > 0) == cation && (best == nullptr || std::abs(ion.charge) < std::abs(best->charge)))
      best = &ion;
  if (best != nullptr) return *best;
  return std::nullopt;
}

/// Takes groups [from, end) for one ion with a number: (SO4)3, Cl2, SO4.
bool take_ion(std::vector<Group> const& groups, std::size_t from, std::size_t end, bool cation, NamedIon& ion,
              std::int64_t& count) {
  std::vector<Group> part(groups.begin() + static_cast<std::ptrdiff_t>(from), groups.begin() + static_cast<std::ptrdiff_t>(end));
  count = 1;
  if (part.size() == 1 && part.front().bracket == '(' && part.front().element.empty()) {
    count = part.front().count;
    auto const inside = part.front().inside;
    part = inside;
  } else if (part.size() == 1) {
    count = part.front().count;
    part.front().count = 1;
  }
  auto const found = ion_as_written(text_of(part), cation);
  if (found) ion = *found;
  return found.has_value();
}

std::optional<Written> as_written(Formula const& formula) {
  auto const& groups = formula.parts.front().groups;
  for (std::size_t split = 1; split < groups.size(); ++split) {
    Written written;
    bool const metal = split == 1 && !groups[0].element.empty() && is_metal(groups[0].element);
    if (metal) {
      written.metal = groups[0].element;
      written.cations = groups[0].count;
    } else if (!take_ion(groups, 0, split, true, written.cation, written.cations) || written.cation.inside == "H") {
      continue;
    }
    if (!take_ion(groups, split, groups.size(), false, written.anion, written.anions)) continue;
    if (!metal || written.anion.metal != written.metal) return written;
  }
  return std::nullopt;
}

/// Anions whose number in a salt follows from the charges alone. Oxides, sulfides, nitrides and the like of metals with several
/// states may be mixed or interstitial (Co3O4, Fe3C); group 1 and 2 have peroxides and polysulfides.
bool strict(NamedIon const& anion, bool several_states) {
  static std::string_view const loose[] = {"O", "S", "Se", "Te", "N", "P", "As", "C", "H", "C2", "S2", "O2", "N3", "I3"};
  static std::string_view const never[] = {"S", "Se", "Te", "P", "As", "C"};
  auto const in = [&](auto const& list) { return std::find(std::begin(list), std::end(list), anion.inside) != std::end(list); };
  return several_states ? !in(loose) : !in(never);
}

std::string charge_text(std::int64_t charge) {
  std::int64_t const size = charge < 0 ? -charge : charge;
  return std::to_string(size) + (charge < 0 ? '-' : '+');
}

std::string counted(std::int64_t count, std::string const& ion) { return (count == 1 ? "" : std::to_string(count) + ' ') + ion; }

}  // namespace

std::optional<Fault> unbalanced_charge(Formula const& formula) {
  if (formula.charge != 0 || formula.electron || formula.parts.empty()) return std::nullopt;
  Formula const salt = anhydrous(formula);
  if (salt.parts.size() != 1 || naming::find_listed(salt) != nullptr || !ions_of(plain(salt)).empty()) return std::nullopt;
  auto written = as_written(salt);
  if (!written) return std::nullopt;
  std::vector<int> charges;
  if (written->metal.empty()) {
    charges.push_back(written->cation.charge);
  } else {
    naming::ElementName const* const metal = naming::element_name(written->metal);
    if (metal == nullptr || metal->states.empty()) return std::nullopt;
    if (!strict(written->anion, metal->states.size() > 1)) return std::nullopt;
    for (int const state : metal->states)
      if (metal->has(state)) charges.push_back(state);
    // Usual states first: they are what the fault tells of.
    std::stable_sort(charges.begin(), charges.end(), [&](int a, int b) {
      auto const usual = [&](int state) {
        return std::find(metal->usual.begin(), metal->usual.end(), state) != metal->usual.end();
      };
      return usual(a) && !usual(b);
    });
    written->cation.formula = written->metal + '^' + (charges[0] == 1 ? "" : std::to_string(charges[0])) + '+';
    written->cation.inside = written->metal;
    written->cation.charge = charges[0];
  }
  std::int64_t const negative = written->anions * written->anion.charge;
  for (int const charge : charges)
    if (written->cations * charge + negative == 0) return std::nullopt;
  std::int64_t const left = written->cations * written->cation.charge + negative;
  std::vector<std::string> const holes{pretty(salt), counted(written->cations, written->cation.formula),
                                       counted(written->anions, written->anion.formula), charge_text(left)};
  return Fault{"unbalanced-charge", naming::words::fill(naming::words::unbalanced, holes),
               salt_formula(written->cation, written->anion), 0};
}

}  // namespace molewright
