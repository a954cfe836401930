#include <fmt/format.h>

#include <algorithm>
#include <nlohmann/json.hpp>

#include "app/commands.h"
#include "engine/lists.h"
#include "engine/mixing.h"
#include "engine/substance.h"

namespace molewright {
namespace {

std::string joined(std::vector<std::string> const& texts, char const* between) {
  std::string out;
  for (auto const& text : texts) out += (out.empty() ? "" : between) + text;
  return out;
}

constexpr char const* sheets_come_first = "Check the safety data sheet. The school's risk assessment and local rules come first.";

/// Cautions of what goes in and what comes out, and at their end that the data sheet and the school's rules come first.
std::vector<std::string> cautions(Mixing const& mixing, Mixture const& mixture) {
  std::vector<std::string> lines;
  auto const add = [&](Formula formula) {
    formula.state = State::none;
    auto const caution = caution_to_print(plain(formula));
    if (!caution.text.empty()) add_once(lines, pretty(formula) + ": " + caution.text);
  };
  for (auto const& reactant : mixture.reactants) add(reactant.formula);
  for (auto const& species : mixing.molecular.right) add(species.formula);
  if (!lines.empty()) lines.push_back(sheets_come_first);
  return lines;
}

Json json_of(Mixing const& mixing, Mixture const& mixture) {
  Json out;
  out["reacts"] = mixing.reacts;
  if (mixing.reacts) {
    out["molecular"] = plain(mixing.molecular);
    out["ionic"] = plain(mixing.ionic);
    out["net_ionic"] = plain(mixing.net_ionic);
    out["spectators"] = mixing.spectators;
    out["kind"] = mixing.kind;
    out["conditions"] = mixing.conditions;
    out["observations"] = mixing.observations;
    out["because"] = mixing.because;
  } else {
    out["reason"] = mixing.because;
    out["dissolved"] = Json::array();
    for (auto const& [formula, by] : mixing.dissolved) out["dissolved"].push_back({{"formula", formula}, {"by", by}});
  }
  out["borderline"] = mixing.borderline;
  out["warnings"] = mixing.warnings;
  out["cautions"] = cautions(mixing, mixture);
  return out;
}

void print_whole(Console& console, Mixing const& mixing, Mixture const& mixture) {
  auto const line = [&](char const* name, std::string const& text) {
    if (!text.empty()) console.print(fmt::format("  {:<11} {}", name, text));
  };
  if (!mixing.reacts) {
    console.print("no reaction: " + mixing.because);
  } else {
    console.print(mixing.kind + (mixing.conditions.empty() ? "" : ", " + mixing.conditions));
    line("molecular", pretty(mixing.molecular));
    line("ionic", pretty(mixing.ionic));
    line("net ionic", pretty(mixing.net_ionic));
    std::vector<std::string> spectators;
    for (auto const& ion : mixing.spectators) spectators.push_back(pretty_formula(ion));
    line("spectators", spectators.empty() ? "none" : joined(spectators, ", "));
    line("seen", joined(mixing.observations, "; "));
    line("because", mixing.because);
  }
  if (mixing.borderline) line("borderline", "near the edge of what the tables settle: avoid it in a question");
  for (auto const& text : mixing.warnings) line("note", text);
  for (auto const& text : cautions(mixing, mixture)) line("caution", text);
}

/// One line, for lists: what happens and the net ionic equation.
std::string short_form(Mixing const& mixing) {
  if (!mixing.reacts) return "no reaction: " + mixing.because;
  return mixing.kind + ": " + pretty(mixing.molecular) + "; net ionic: " + pretty(mixing.net_ionic);
}

/// `react BaCl2 Na2SO4`: reactants one by one are one mixture. Arguments that hold a + are a mixture each.
std::vector<std::string> one_mixture_each(std::vector<std::string> const& arguments) {
  auto const is_mixture = [](std::string const& text) { return text == "-" || text.find(" + ") != std::string::npos; };
  if (arguments.size() < 2 || std::any_of(arguments.begin(), arguments.end(), is_mixture)) return arguments;
  return {joined(arguments, " + ")};
}

}  // namespace

void react_command(Console& console, std::vector<std::string> const& arguments) {
  for (auto const& item : Console::items(one_mixture_each(arguments))) {
    auto const mixture = read_mixture(item.text);
    auto mixing = ok(mixture) ? mix(value(mixture)) : Result<Mixing>(fault(mixture));
    // What no table and no rule settles is not the same as no reaction.
    if (ok(mixing) && !value(mixing).decided) mixing = Fault{"not-covered", value(mixing).because, "", 0};
    if (!ok(mixing)) {
      console.report(fault(mixing), item);
      if (console.json)
        console.print_json(error_json(fault(mixing), item.text));
      else if (item.listed)
        console.print("error: " + sentence(fault(mixing)));
      continue;
    }
    if (console.json)
      console.print_json(json_of(value(mixing), value(mixture)));
    else if (item.listed)
      console.print(short_form(value(mixing)));
    else
      print_whole(console, value(mixing), value(mixture));
  }
}

}  // namespace molewright
