#include "engine/unknown_water.h"

#include <algorithm>
#include <array>
#include <set>

#include "engine/ascii.h"
#include "engine/quantity.h"

namespace molewright {

OfSalt with_salt_alone(std::string_view body) {
  OfSalt out;
  if (body.find("xH2O") == std::string_view::npos && body.find("nH2O") == std::string_view::npos) return out;
  std::array<std::set<std::string>, 2> sides;
  std::size_t side = 0;
  for (std::size_t at = 0; at < body.size();) {
    auto const end = std::min({body.find(" + ", at), body.find("->", at), body.find("→", at), body.find(" = ", at), body.size()});
    auto term = stripped(body.substr(at, end - at));
    auto const state = term.size() > 3 && term.back() == ')' ? term.rfind('(') : std::string_view::npos;
    auto const bare = state != std::string_view::npos && term.size() - state <= 4 ? stripped(term.substr(0, state)) : term;
    auto const salt = salt_of_unknown_hydrate(bare);
    bool const water = bare.size() > 3 && bare.substr(bare.size() - 3) == "H2O" &&
                       (bare[0] == 'x' || bare[0] == 'n' || (bare[0] == '(' && is_letter(bare[1]) && bare[1] >= 'a'));
    out.unknown_water = out.unknown_water || !salt.empty();
    auto const kept = !salt.empty() ? salt : water ? std::string("H2O") : std::string(term);
    if (!(water && bare[0] != '(')) {  // the water of the crystals is not that of the reaction
      out.equation += (out.equation.empty() || out.equation.ends_with("-> ") ? "" : " + ") + kept;
      sides[side].insert(kept);
    }
    if (end < body.size() && body.substr(end, 3) != " + " && side == 0) {
      out.equation += " -> ";
      side = 1;
    }
    at = body.substr(end, 2) == "->" ? end + 2 : end + 3;
  }
  bool const only_dries = sides[0] == sides[1] || (sides[1].count("H2O") == 1 && sides[0].size() == 1 && sides[1].size() == 2 &&
                                                   sides[1].count(*sides[0].begin()) == 1);
  if (only_dries) out.equation.clear();
  return out;
}

}  // namespace molewright
