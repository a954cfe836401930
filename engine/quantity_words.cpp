#include "engine/quantity_words.h"

#include <algorithm>
#include <array>
#include <utility>

#include "engine/ascii.h"
#include "engine/formula.h"

namespace molewright {
namespace {

using Row = std::pair<std::string_view, std::string_view>;

// Names of the quantities at school and in first-year books (IUPAC Green Book, 3rd ed., 2.10 to 2.13, and common practice); where
// one begins another, the longer one stands first.
constexpr std::array names{
    Row{"amount concentration", "c"},
    Row{"amount fraction", "x"},
    Row{"amount of substance", "n"},
    Row{"amount", "n"},
    Row{"concentration", "c"},
    Row{"degree of hydration", "x"},
    Row{"density", "rho"},
    Row{"dilution factor", "DF"},
    Row{"enthalpy change", "dH"},
    Row{"heat capacity", "C"},
    Row{"heat", "q"},
    Row{"mass concentration", "gamma"},
    Row{"mass fraction", "w"},
    Row{"mass percentage", "w"},
    Row{"mass percent", "w"},
    Row{"mass", "m"},
    Row{"molality", "b"},
    Row{"molar concentration", "c"},
    Row{"molar mass", "M"},
    Row{"molar volume", "Vm"},
    Row{"molarity", "c"},
    Row{"mole fraction", "x"},
    Row{"moles", "n"},
    Row{"number of formula units", "N"},
    Row{"number of molecules", "N"},
    Row{"number of moles", "n"},
    Row{"number of water molecules", "x"},
    Row{"partial pressure", "p"},
    Row{"percent by mass", "w"},
    Row{"percent purity", "w"},
    Row{"percent yield", "yield"},
    Row{"percent", "w"},
    Row{"percentage by mass", "w"},
    Row{"percentage purity", "w"},
    Row{"percentage yield", "yield"},
    Row{"percentage", "w"},
    Row{"pressure", "p"},
    Row{"purity", "w"},
    Row{"relative atomic mass", "M"},
    Row{"relative formula mass", "M"},
    Row{"relative molecular mass", "M"},
    Row{"solubility product", "Ksp"},
    Row{"solubility", "s"},
    Row{"specific heat capacity", "cp"},
    Row{"temperature change", "dT"},
    Row{"temperature rise", "dT"},
    Row{"temperature", "T"},
    Row{"volume fraction", "phi"},
    Row{"volume", "V"},
    Row{"yield", "yield"},
    Row{"% yield", "yield"},
};

// As masses, which is what they are at school; of a percentage the names above speak.
constexpr std::array yields{Row{"theoretical yield", "theoretical"}, Row{"actual yield", "actual"}};

constexpr std::array words{
    Row{"boiled off", "evaporated"},
    Row{"removed", "evaporated"},
    Row{"collected", "actual"},
    Row{"consumed", "used"},
    Row{"excess", "left"},
    Row{"expected", "theoretical"},
    Row{"experimental", "actual"},
    Row{"isolated", "actual"},
    Row{"leftover", "left"},
    Row{"left over", "left"},
    Row{"maximum", "theoretical"},
    Row{"obtained", "actual"},
    Row{"reacted", "used"},
    Row{"reacting", "used"},
    Row{"remaining", "left"},
    Row{"unreacted", "left"},
    Row{"in excess", "left"},
    Row{"recovered", "actual"},
    Row{"lost", "evaporated"},
    Row{"driven off", "evaporated"},
    Row{"given off", "evaporated"},
    Row{"empty", ""},
    Row{"formed", ""},
    Row{"produced", ""},
    Row{"made", ""},
    Row{"needed", ""},
    Row{"required", ""},
};

// What things are weighed in, common practice.
constexpr std::array<std::string_view, 25> vessels{
    "crucible", "lid",     "dish",      "evaporating dish", "basin",        "evaporating basin", "beaker",
    "flask",    "bottle",  "tube",      "test tube",        "boiling tube", "weighing bottle",   "weighing boat",
    "boat",     "vial",    "container", "watch glass",      "filter paper", "conical flask",     "cylinder",
    "paper",    "capsule", "vessel",    "combustion boat"};
// What a solution is made up to the mark in, and what a portion of it is measured with: common practice, no source.
constexpr std::array<std::string_view, 5> flasks{"flask", "volumetric flask", "measuring flask", "graduated flask",
                                                 "standard flask"};
constexpr std::array<std::string_view, 4> pipettes{"pipette", "volumetric pipette", "bulb pipette", "transfer pipette"};
constexpr std::array<std::string_view, 6> joiners{" + ", " and ", " with ", " containing ", " & ", "+"};

bool begins(std::string_view text, std::string_view with) { return text.substr(0, with.size()) == with; }
}  // namespace

SpeltOut spelt_out(std::string_view text) {
  for (auto const& [name, symbol] : names)
    if (begins(text, name) && (text.size() == name.size() || !(is_letter(text[name.size()]) || is_digit(text[name.size()]))))
      return {symbol, name.size(), {}};
  for (auto const& [name, word] : yields)
    if (begins(text, std::string(name) + " of ")) return {"m", name.size(), word};
  return {};
}

WithWord with_word_behind(std::string_view text) {
  constexpr std::array<std::string_view, 4> own{"left", "used", "actual", "theoretical"};
  for (auto at = text.find(' '); at != std::string_view::npos; at = text.find(' ', at + 1)) {
    auto const behind = stripped(text.substr(at));
    bool const known = std::find(own.begin(), own.end(), behind) != own.end() || usual_word(behind) != behind;
    if (known) return {text.substr(0, at), usual_word(behind)};
  }
  return {};
}

SubstanceAhead substance_ahead(std::string_view text, bool may_have_part) {
  SubstanceAhead ahead;
  auto const end_from = [&](std::size_t from) {
    auto end = std::min(text.size(), text.find('=', from));
    for (std::string_view const word : {" in ", " to ", " marks ", " mark "}) end = std::min(end, text.find(word, from));
    return end;
  };
  ahead.length = end_from(0);
  constexpr std::size_t in_length = 4;
  if (!may_have_part || text.substr(ahead.length, in_length) != " in ") return ahead;
  auto const whole_at = ahead.length + in_length;
  auto const whole_end = end_from(whole_at);
  if (!ok(parse_formula(stripped(text.substr(whole_at, whole_end - whole_at))))) return ahead;
  ahead.in_part = whole_at;
  ahead.length = whole_end;
  return ahead;
}

std::optional<InVessel> in_vessel(std::string_view text) {
  InVessel found;
  std::size_t all_contents = 0;
  for (std::size_t at = 0; at <= text.size();) {
    std::size_t end = text.size(), next = text.size() + 1;
    for (auto const joiner : joiners)
      if (auto const here = text.find(joiner, at); here < end) {
        end = here;
        next = here + joiner.size();
      }
    auto piece = stripped(text.substr(at, end - at));
    if (piece.empty()) return std::nullopt;
    for (std::string_view const says_nothing : {"the ", "empty "})
      if (begins(piece, says_nothing)) piece.remove_prefix(says_nothing.size());
    if (std::find(vessels.begin(), vessels.end(), piece) != vessels.end()) {
      found.vessel += (found.vessel.empty() ? "" : " and ") + std::string(piece);
    } else {
      found.contents = piece;
      ++all_contents;
    }
    at = next;
  }
  if (found.vessel.empty() || all_contents > 1) return std::nullopt;
  return found;
}

bool is_vessel(std::string_view word) { return std::find(vessels.begin(), vessels.end(), word) != vessels.end(); }
bool is_volumetric_flask(std::string_view word) { return std::find(flasks.begin(), flasks.end(), word) != flasks.end(); }
bool is_pipette(std::string_view word) { return std::find(pipettes.begin(), pipettes.end(), word) != pipettes.end(); }

std::string_view usual_word(std::string_view word) {
  auto const found = std::find_if(words.begin(), words.end(), [&](Row const& row) { return row.first == word; });
  return found == words.end() ? word : found->second;
}

}  // namespace molewright
