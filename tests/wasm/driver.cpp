// Prints what the portable rooms make of fixed inputs. run.sh builds it twice, natively and for WebAssembly, and compares the
// bytes.
#include <cstdint>
#include <cstdio>
#include <string>

#include "engine/equation.h"
#include "engine/fault.h"
#include "engine/formula.h"

using namespace molewright;

namespace {
void say(std::string const& line) { std::printf("%s\n", line.c_str()); }

void show_formula(char const* text) {
  auto const read = parse_formula(text);
  if (!ok(read)) {
    say(std::string(text) + ": " + fault(read).id + " at " + std::to_string(fault(read).offset) + ", " + sentence(fault(read)));
    return;
  }
  auto line = plain(value(read)) + " | " + pretty(value(read));
  for (auto const& [element, atoms] : value(read).composition()) line += " " + element + ":" + std::to_string(atoms);
  say(line + " charge " + std::to_string(value(read).charge));
}

void show_balance(char const* text) {
  auto const read = parse_equation(text);
  if (!ok(read)) {
    say(std::string(text) + ": " + fault(read).id + ", " + sentence(fault(read)));
    return;
  }
  auto const result = balance(value(read));
  auto line = plain(value(read)) + " |";
  for (auto const coefficient : result.coefficients) line += " " + std::to_string(coefficient);
  for (auto const& solution : result.independent) {
    line += " (";
    for (auto const coefficient : solution) line += " " + std::to_string(coefficient);
    line += " )";
  }
  say(line + (result.why.empty() ? "" : " " + result.why));
  auto const whole = balanced(value(read));
  if (ok(whole)) say("  " + pretty(value(whole)));
}
}  // namespace

int main() {
  for (auto const* text : {"CuSO4·5H2O", "[Cu(NH3)4]SO4·H2O", "KAl(SO4)2.12H2O(s)", "SO₄²⁻", "SO42-", "Fe3+", "Cr2O7^2-(aq)",
                           "e^-", "Al2(SO4)3", "Xy2", "Ca(OH", "Ca)2", "", "H(("}) {
    show_formula(text);
  }
  std::string const deep = std::string(400, '(') + "H" + std::string(400, ')');
  auto const refused = parse_formula(deep);
  say("400 brackets: " + (ok(refused) ? std::string("read") : fault(refused).id));
  for (auto const* text :
       {"Fe + O2 -> Fe2O3", "KMnO4 + HCl = KCl + MnCl2 + H2O + Cl2", "MnO4^- + H^+ + e^- -> Mn^2+ + H2O", "½O2 + H2 → H2O",
        "BaCl2(aq) + AgNO3(aq) -> AgCl(s) + Ba(NO3)2(aq)", "H2O2 + KMnO4 + H2SO4 -> MnSO4 + O2 + H2O + K2SO4", "H2 -> O2",
        "Na + -> NaCl", "K4Fe(CN)6 + KMnO4 + H2SO4 -> KHSO4 + Fe2(SO4)3 + MnSO4 + HNO3 + CO2 + H2O"}) {
    show_balance(text);
  }
}
