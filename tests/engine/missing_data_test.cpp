// What is said of a problem that lacks data: single data that would do, or pairs.
#include <ctime>

#include "tests/engine/problem_text.h"

using namespace molewright;

TEST_CASE("missing data: single data, what is measured and spoken of first", "[engine][missing-data]") {
  struct Row {
    char const *problem, *expected;
  };
  std::string const exchange = "reaction BaCl2 + AgNO3 -> AgCl + Ba(NO3)2\n";
  Row const table[] = {
      {"given m(NaCl) = 5.85 g\nfind c(NaCl)", "V(NaCl)"},
      {"given V(NaCl) = 25.0 mL\nfind n(NaCl)", "c(NaCl) or gamma(NaCl)"},
      {"reaction BaCl2 + AgNO3 -> AgCl + Ba(NO3)2\ngiven V(BaCl2) = 5.85 mL\nfind m(AgCl)", "c(BaCl2) or gamma(BaCl2)"},
      {"reaction Zn + HCl -> ZnCl2 + H2\nfind m(ZnCl2)", "m(HCl), m(Zn), m(H2) or n(ZnCl2)"},
      {"given m(Fe) = 2.0 g\nfind empirical formula of Fe, O", "m(O), m(compound) or n(O)"},
      {"given w(C) = 40.0 %\ngiven w(H) = 6.7 %\ngiven w(O) = 53.3 %\nfind molecular formula", "M(X)"},
      {"given m(hydrate) = 2.50 g\nfind formula of the hydrate of CuSO4", "m(CuSO4), m(H2O), n(CuSO4) or n(H2O)"},
      {"given m(CuSO4·xH2O) = 2.50 g\nfind formula of the hydrate", "the mass of the hydrate and that of its salt or its water"},
      {"given w(C) = 40.0 %\nfind empirical formula", "the mass or the mass fraction of each of its elements"},
      {"given m(H2O) = 50.0 g\ngiven dT = 5.0 K\nfind q", "cp"},
      {"given p1 = 100.0 kPa\ngiven V1 = 2.0 L\nfind V2", "p2"},
      {"reaction CaCO3 -> CaO + CO2\ngiven m(CaCO3) = 10.0 g\nfind m(CaO, actual)", "yield(CaO)"},
      {"given w1(H2O2) = 30.0 %\ngiven m1(solution) = 100 g\ngiven m2(solution) = 1000 g\nfind w2(H2O2)", "a line dilute 1 -> 2"},
      {"given c1 = 0.500 mol/L\ngiven V2/V1 = 10\ngiven V3/V2 = 5\nfind c3(NaCl)",
       "a line dilute 1 -> 2 and a line dilute 2 -> 3"},
      {"reaction HCl + NaOH -> NaCl + H2O\ngiven V(HCl) = 25.0 mL\ngiven V(NaOH) = 20.0 mL\ngiven c(NaOH) = 0.100 mol/L\n"
       "find w(HCl)",
       "m(sample), or m and the name of what it is a share of"},
      {"reaction Zn + HCl -> ZnCl2 + H2\ngiven m(Zn) = 0.300 g\nexcess HCl\ngiven n(H2) = 0.00400 mol\nfind w(Zn)",
       "m(sample) in place of m(Zn)"},
      {"find q", "more data"},
  };
  for (auto const& row : table) {
    CAPTURE(row.problem);
    auto const shown = test::refused(row.problem);
    auto const at = shown.find(", expected ");
    REQUIRE(at != std::string::npos);
    CHECK(shown.substr(at + 11, shown.find('\n', at) - at - 11) == row.expected);
  }
}

TEST_CASE("missing data: pairs, where no single datum that is measured would do", "[engine][missing-data]") {
  struct Row {
    char const *problem, *expected;
  };
  Row const table[] = {
      {"find c(HCl)", "gamma(HCl), or m(HCl) and V(HCl)"},
      {"find m(NaCl)", "n(NaCl), or c(NaCl) and V(NaCl)"},
      {"given n(O2) = 1.00 mol\nfind p(O2)", "V(O2) and T"},
      {"reaction HCl + NaOH -> NaCl + H2O\ngiven V(NaOH) = 25.0 mL\nfind c(HCl)", "c(NaOH) and V(HCl)"},
      {"reaction HCl + NaOH -> NaCl + H2O\ngiven c(NaOH) = 0.100 mol/L\nfind c(HCl)", "V(HCl) and V(NaOH)"},
      {"reaction Zn + HCl -> ZnCl2 + H2\nfind V(H2)", "m(H2) and Vm, or m(HCl) and Vm, or m(Zn) and Vm"},
  };
  for (auto const& row : table) {
    CAPTURE(row.problem);
    auto const shown = test::refused(row.problem);
    auto const at = shown.find(", expected ");
    REQUIRE(at != std::string::npos);
    CHECK(shown.substr(at + 11, shown.find('\n', at) - at - 11) == row.expected);
    // Each of them does.
    auto const pairs = row.expected + std::string(", or ");
    for (std::size_t begin = 0; begin < pairs.size();) {
      auto const end = pairs.find(", or ", begin);
      auto const one = pairs.substr(begin, end - begin);
      begin = end + 5;
      std::string given;
      for (std::size_t piece = 0; piece < one.size();) {
        auto const stop = std::min(one.size(), one.find(" and ", piece));
        auto const quantity = one.substr(piece, stop - piece);
        char const* unit = quantity == "Vm"                   ? " L/mol"
                           : quantity[0] == 'V'               ? " mL"
                           : quantity[0] == 'c'               ? " mol/L"
                           : quantity == "T"                  ? " K"
                           : quantity[0] == 'n'               ? " mol"
                           : quantity.substr(0, 5) == "gamma" ? " g/L"
                                                              : " g";
        given += "given " + quantity + " = 24.0" + unit + '\n';
        piece = stop + 5;
      }
      CAPTURE(given);
      CHECK(test::refused(given + row.problem).empty());
    }
  }
}

TEST_CASE("missing data: a large problem keeps nobody waiting", "[engine][missing-data]") {
  std::string problem = "reaction HCl + NaOH -> NaCl + H2O\nreaction NaCl + AgNO3 -> AgCl + NaNO3\n";
  for (int stage = 1; stage < 6; ++stage)
    problem += "dilute " + std::to_string(stage) + " -> " + std::to_string(stage + 1) + '\n';
  for (int stage = 1; stage < 6; ++stage) problem += "given V" + std::to_string(stage) + "(KOH, taken) = 10.0 mL\n";
  problem += "given V6(KOH) = 100.0 mL\nfind c6(KOH)";
  auto const begin = std::clock();
  CHECK(test::refused(problem).substr(0, 12) == "missing-data");
  // Of processor time it takes some 2 ms; sanitizers are given room.
  CHECK(std::clock() - begin < CLOCKS_PER_SEC / 5);
}
