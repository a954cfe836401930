#include "tests/benchmark/problems.h"

#include <vector>

namespace molewright {

std::string mixing(int solutions) {
  std::string text = "problem mixing\n", mix = "mix ";
  for (int i = 1; i <= solutions; ++i) {
    auto const stage = std::to_string(i);
    text += "given c" + stage + "(NaCl) = 0." + std::to_string(100 + 7 * i) + " mol/L\n";
    text += "given V" + stage + "(NaCl) = " + std::to_string(20 + 3 * i) + ".0 mL\n";
    mix += (i == 1 ? "" : " + ") + stage;
  }
  auto const last = std::to_string(solutions + 1);
  return text + mix + " -> " + last + "\nfind c" + last + "(NaCl)\n";
}

std::string diluting(int steps) {
  std::string text = "problem diluting\ngiven c1(KOH) = 2.00 mol/L\n";
  for (int i = 1; i <= steps; ++i) {
    auto const from = std::to_string(i), to = std::to_string(i + 1);
    text += "given V" + from + "(KOH, taken) = " + std::to_string(4 + i) + ".00 mL\n";
    text += "given V" + to + "(KOH) = " + std::to_string(100 + 50 * i) + ".0 mL\n";
    text += "dilute " + from + " -> " + to + '\n';
  }
  return text + "find c" + std::to_string(steps + 1) + "(KOH)\n";
}

std::string limiting(int reactants) {
  std::vector<std::string> const solutes =
      reactants == 2 ? std::vector<std::string>{"Na2CO3", "HCl"} : std::vector<std::string>{"KMnO4", "FeSO4", "H2SO4"};
  std::string text = "problem limiting\nreaction ";
  text += reactants == 2 ? "Na2CO3 + HCl -> NaCl + CO2 + H2O\n" : "KMnO4 + FeSO4 + H2SO4 -> MnSO4 + Fe2(SO4)3 + K2SO4 + H2O\n";
  for (std::size_t i = 0; i < solutes.size(); ++i) {
    text += "given c(" + solutes[i] + ") = 0." + std::to_string(150 + 11 * i) + " mol/L\n";
    text += "given V(" + solutes[i] + ") = " + std::to_string(20 + 5 * i) + ".0 mL\n";
  }
  return text + "find limiting reagent\nfind m(" + (reactants == 2 ? "CO2" : "MnSO4") + ") in g\n";
}

std::string parts(int count) {
  static char const* const solutes[] = {"NaCl", "KBr",  "CaCl2", "AgNO3", "CuSO4",   "K2CrO4",
                                        "NaOH", "HNO3", "MgSO4", "KMnO4", "Na2S2O3", "K2Cr2O7"};
  std::string givens, finds;
  for (int i = 0; i < count; ++i) {
    std::string const solute = solutes[i];
    givens += "given c(" + solute + ") = 0." + std::to_string(150 + 11 * i) + " mol/L\n";
    givens += "given V(" + solute + ") = " + std::to_string(20 + 5 * i) + ".0 mL\n";
    finds += "find m(" + solute + ") in g\n";
  }
  return "problem parts\n" + givens + finds;
}

}  // namespace molewright
