#include "engine/mixing_observations.h"

#include <algorithm>
#include <map>

#include "engine/mixing_reagent.h"
#include "engine/mixing_words.h"
#include "engine/substance.h"
#include "engine/tsv.h"

namespace molewright::data {
extern std::string_view const crystal_water_tsv;
extern std::string_view const signs_tsv;
}  // namespace molewright::data

namespace molewright::mixing {
namespace {

using words::fill;

struct Sign {
  std::string seen, colour, mind;
};
Sign const* sign_row(std::string const& formula) {
  static std::map<std::string, Sign> const rows = [] {
    std::map<std::string, Sign> result;
    TsvTable const table(data::signs_tsv);
    auto const name = table.column("formula"), seen = table.column("seen"), colour = table.column("colour"),
               mind = table.column("mind");
    for (std::size_t row = 0; row < table.size(); ++row)
      result[std::string(table.cell(row, name))] = {std::string(table.cell(row, seen)), std::string(table.cell(row, colour)),
                                                    std::string(table.cell(row, mind))};
    return result;
  }();
  auto const place = rows.find(formula);
  return place == rows.end() ? nullptr : &place->second;
}

/// The row for the substance in its state, else for any state.
Sign const* sign_of(Formula const& formula) {
  Sign const* const own = sign_row(plain(formula) + plain(formula.state));
  return own != nullptr ? own : sign_row(plain(formula));
}

void say_once(std::vector<std::string>& list, std::string text) {
  if (!text.empty() && std::find(list.begin(), list.end(), text) == list.end()) list.push_back(std::move(text));
}

std::string article(std::string const& word) {
  return (std::string("aeiou").find(word.front()) == std::string::npos ? "a " : "an ") + word;
}

/// "a white solid forms: AgCl (darkens in light)"; of phrases: "a solid forms: Mn(OH)2, white turning brown in air".
std::string solid_seen(std::string const& key, std::string colour, bool left) {
  std::string remark;
  if (auto const at = colour.find(" ("); at != std::string::npos) {
    remark = colour.substr(at);
    colour.resize(at);
  }
  auto const sentence = [&](char const* forms, char const* stays, std::string const& what) {
    return fill(left ? stays : forms, {what}) + key + remark;
  };
  bool const phrase = std::count(colour.begin(), colour.end(), ' ') > 1;
  if (colour.empty() || phrase)
    return sentence(words::solid_forms_seen, words::solid_left_seen, "a") + (phrase ? ", " + colour : "");
  return sentence(words::solid_forms_seen, words::solid_left_seen, article(colour));
}

bool of_heat(Mixing const& mixing) { return mixing.kind == words::by_heat; }

bool from_liquid(Mixing const& mixing) {
  return std::any_of(mixing.net_ionic.left.begin(), mixing.net_ionic.left.end(), [](Species const& s) {
    return s.formula.state == State::aqueous || (s.formula.state == State::liquid && plain(s.formula) == "H2O");
  });
}

bool holds_solid(std::vector<Species> const& side, std::string const& key) {
  return std::any_of(side.begin(), side.end(), [&](Species const& s) {
    return s.formula.state == State::solid && (key.empty() || plain(s.formula) == key);
  });
}

void add_products(Mixing& mixing, bool told) {
  bool const wet = from_liquid(mixing);
  for (auto const& species : mixing.net_ionic.right) {
    std::string const key = plain(species.formula);
    bool const gas = species.formula.state == State::gas;
    Sign const* const sign = sign_of(species.formula);
    if (sign != nullptr) {
      say_once(mixing.warnings, sign->mind);
      if (told && !gas) continue;
      say_once(mixing.observations, (gas && wet && !sign->seen.empty() ? words::bubbles : "") + sign->seen);
    } else if (species.formula.state == State::solid && !told && !holds_solid(mixing.net_ionic.left, key)) {
      Solubility const* const row = solubility(key);
      bool const left = of_heat(mixing) && holds_solid(mixing.net_ionic.left, "");
      say_once(mixing.observations, solid_seen(key, row == nullptr ? "" : row->colour_of_solid, left));
    }
  }
}

struct Colour {
  std::string formula, colour;
};

/// The colours of what is dissolved. A pale one is not seen beside a strong one.
std::vector<Colour> colours_of(std::vector<Species> const& side) {
  std::vector<Colour> all;
  for (auto const& species : side) {
    if (species.formula.state != State::aqueous) continue;
    std::string colour;
    if (species.formula.charge != 0)
      colour = ion_colour(parts_of(species.formula)[0].key);
    else if (Sign const* const sign = sign_of(species.formula))
      colour = sign->colour;
    if (!colour.empty()) all.push_back({plain(species.formula), colour});
  }
  auto const pale = [](Colour const& c) { return c.colour.find("pale") != std::string::npos; };
  if (!std::all_of(all.begin(), all.end(), pale)) all.erase(std::remove_if(all.begin(), all.end(), pale), all.end());
  return all;
}

std::string joined(std::vector<Colour> const& colours) {
  std::string text;
  for (auto const& colour : colours)
    if (text.find(colour.colour) == std::string::npos) text += (text.empty() ? "" : " and ") + colour.colour;
  return text;
}

void add_colours(Mixing& mixing) {
  auto const before = colours_of(mixing.net_ionic.left), after = colours_of(mixing.net_ionic.right);
  if (before.empty() && after.empty()) return;
  std::string const from = joined(before), to = joined(after);
  if (before.empty())
    say_once(mixing.observations, fill(words::colour_comes, {to}));
  else if (after.empty())
    for (auto const& colour : before) say_once(mixing.observations, fill(words::colour_goes, {colour.colour, colour.formula}));
  else if (from != to)
    say_once(mixing.observations, fill(words::colour_turns, {from, to}));
}

}  // namespace

void observe(Mixing& mixing, bool told) {
  add_products(mixing, told);
  if (told) return;
  if (from_liquid(mixing) && !holds_solid(mixing.net_ionic.right, ""))
    for (auto const& species : mixing.net_ionic.left)
      if (species.formula.state == State::solid) say_once(mixing.observations, fill(words::solid_goes, {plain(species.formula)}));
  add_colours(mixing);
  if (mixing.observations.empty() && mixing.kind == "neutralisation" && from_liquid(mixing))
    mixing.observations.push_back(words::only_warm);
}

std::vector<std::string> seen_of_hydrate(Formula const& hydrate, Formula const& dry) {
  TsvTable const table(data::crystal_water_tsv);
  auto const name = table.column("hydrate"), crystals = table.column("crystals"), left = table.column("left"),
             note = table.column("note");
  std::vector<std::string> seen;
  for (std::size_t row = 0; row < table.size() && seen.empty(); ++row)
    if (table.cell(row, name) == plain(hydrate)) {
      seen.push_back(fill(words::hydrate_turns, {table.cell(row, crystals), table.cell(row, left)}));
      if (!table.cell(row, note).empty()) seen.emplace_back(table.cell(row, note));
    }
  Solubility const* const row = solubility(plain(dry));
  bool const white = row != nullptr && row->colour_of_solid == "white";
  if (seen.empty()) seen.push_back(fill(white ? words::hydrate_white : words::hydrate_crumbles, {plain(dry)}));
  seen.emplace_back(words::steam_condenses);
  return seen;
}

}  // namespace molewright::mixing
