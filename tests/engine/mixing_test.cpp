// What happens on mixing, kind by kind.
#include "engine/mixing.h"

#include <algorithm>
#include <map>

#include "engine/tsv.h"
#include "tests/engine/mixed.h"
#include "tests/engine/table_file.h"

namespace molewright {
namespace data {
extern std::string_view const listed_reactions_tsv;
}
namespace {

/// Net ionic equations are school chemistry from memory, each balanced by hand and held to is_balanced below.
struct Row {
  char const* mixture;
  char const* kind;
  char const* net;
};

using Terms = std::map<std::string, std::string>;
Terms terms(std::vector<Species> const& side) {
  Terms result;
  for (auto const& species : side) result[plain(species.formula) + plain(species.formula.state)] = species.coefficient.text();
  return result;
}

void check(Row const& row) {
  CAPTURE(row.mixture, row.net);
  auto const got = mixed(row.mixture);
  CAPTURE(got.because, plain(got.molecular), plain(got.net_ionic));
  REQUIRE(got.reacts);
  CHECK(got.kind == row.kind);
  auto const expected = parse_equation(row.net);
  REQUIRE(ok(expected));
  REQUIRE(is_balanced(value(expected)));
  CHECK(terms(value(expected).left) == terms(got.net_ionic.left));
  CHECK(terms(value(expected).right) == terms(got.net_ionic.right));
}

}  // namespace

TEST_CASE("mixing: precipitation, two solids, salts that do not form", "[engine][mixing]") {
  Row const table[] = {
      {"Ba(OH)2 + CuSO4", "precipitation", "Ba^2+(aq) + 2OH^-(aq) + Cu^2+(aq) + SO4^2-(aq) -> BaSO4(s) + Cu(OH)2(s)"},
      {"Ag2SO4(aq) + BaCl2", "precipitation", "2Ag^+(aq) + SO4^2-(aq) + Ba^2+(aq) + 2Cl^-(aq) -> 2AgCl(s) + BaSO4(s)"},
      {"KAl(SO4)2 + BaCl2", "precipitation", "SO4^2-(aq) + Ba^2+(aq) -> BaSO4(s)"},
      {"AgC2H3O2 + LiCl", "precipitation", "Ag^+(aq) + Cl^-(aq) -> AgCl(s)"},
      {"Al2(SO4)3 + Na2CO3", "precipitation+gas", "2Al^3+(aq) + 3CO3^2-(aq) + 3H2O(l) -> 2Al(OH)3(s) + 3CO2(g)"},
      {"FeCl3 + Na2CO3", "precipitation+gas", "2Fe^3+(aq) + 3CO3^2-(aq) + 3H2O(l) -> 2Fe(OH)3(s) + 3CO2(g)"},
      {"CuSO4 + KI", "precipitation+redox", "2Cu^2+(aq) + 4I^-(aq) -> 2CuI(s) + I2(aq)"},
      {"AgNO3 + NaOH", "precipitation", "2Ag^+(aq) + 2OH^-(aq) -> Ag2O(s) + H2O(l)"},
      {"H2S + CuSO4", "precipitation", "H2S(g) + Cu^2+(aq) -> 2H^+(aq) + CuS(s)"},
      // Hydrogen sulfide is not acid enough for nitrate to oxidise.
      {"H2S + Pb(NO3)2", "precipitation", "H2S(g) + Pb^2+(aq) -> 2H^+(aq) + PbS(s)"},
      {"H2S + AgNO3", "precipitation", "H2S(g) + 2Ag^+(aq) -> 2H^+(aq) + Ag2S(s)"},
      {"FeCl3 + NH3", "precipitation", "3NH3(aq) + Fe^3+(aq) + 3H2O(l) -> Fe(OH)3(s) + 3NH4^+(aq)"},
      {"Ag+ + Cl-", "precipitation", "Ag^+(aq) + Cl^-(aq) -> AgCl(s)"},
      {"CuSO4·5H2O + NaOH", "precipitation", "Cu^2+(aq) + 2OH^-(aq) -> Cu(OH)2(s)"},
  };
  for (auto const& row : table) check(row);
}

TEST_CASE("mixing: acids and bases", "[engine][mixing]") {
  Row const table[] = {
      {"H2SO4 + NaOH", "neutralisation", "H^+(aq) + OH^-(aq) -> H2O(l)"},
      {"H3PO4 + NaOH", "neutralisation", "H3PO4(aq) + 3OH^-(aq) -> 3H2O(l) + PO4^3-(aq)"},
      {"H3PO4 + 2 NaOH", "neutralisation", "H3PO4(aq) + 2OH^-(aq) -> 2H2O(l) + HPO4^2-(aq)"},
      {"H3PO4 + NaOH -> NaH2PO4", "neutralisation", "H3PO4(aq) + OH^-(aq) -> H2O(l) + H2PO4^-(aq)"},
      {"NaHCO3 + NaOH", "neutralisation", "HCO3^-(aq) + OH^-(aq) -> CO3^2-(aq) + H2O(l)"},
      {"KHC8H4O4 + NaOH", "neutralisation", "HC8H4O4^-(aq) + OH^-(aq) -> C8H4O4^2-(aq) + H2O(l)"},
      {"Al2O3 + HCl", "neutralisation", "Al2O3(s) + 6H^+(aq) -> 2Al^3+(aq) + 3H2O(l)"},
      {"NH3 + HCl", "neutralisation", "NH3(aq) + H^+(aq) -> NH4^+(aq)"},
      {"HF + NaOH", "neutralisation", "HF(aq) + OH^-(aq) -> H2O(l) + F^-(aq)"},
      {"CO2 + Ca(OH)2", "precipitation+neutralisation", "CO2(g) + Ca^2+(aq) + 2OH^-(aq) -> CaCO3(s) + H2O(l)"},
      {"KOH + CO2", "neutralisation", "CO2(g) + 2OH^-(aq) -> CO3^2-(aq) + H2O(l)"},
      {"CaO + H2O", "oxide + water", "CaO(s) + H2O(l) -> Ca(OH)2(s)"},
      {"BaO + H2O", "oxide + water", "BaO(s) + H2O(l) -> Ba^2+(aq) + 2OH^-(aq)"},
      {"MgO + H2O", "oxide + water", "MgO(s) + H2O(l) -> Mg(OH)2(s)"},
      {"Cl2O7 + H2O", "oxide + water", "Cl2O7(l) + H2O(l) -> 2H^+(aq) + 2ClO4^-(aq)"},
      {"NaOH + excess CO2", "neutralisation", "CO2(g) + OH^-(aq) -> HCO3^-(aq)"},
      {"Ca(OH)2 + excess CO2", "neutralisation", "CO2(g) + OH^-(aq) -> HCO3^-(aq)"},
      {"CO2 + NaOH -> NaHCO3", "neutralisation", "CO2(g) + OH^-(aq) -> HCO3^-(aq)"},
      {"NO2 + NaOH", "disproportionation", "2NO2(g) + 2OH^-(aq) -> NO2^-(aq) + NO3^-(aq) + H2O(l)"},
      {"SO3 + H2O", "oxide + water", "SO3(g) + H2O(l) -> 2H^+(aq) + SO4^2-(aq)"},
      {"Ca3(PO4)2 + HCl", "weak acid forms", "Ca3(PO4)2(s) + 6H^+(aq) -> 3Ca^2+(aq) + 2H3PO4(aq)"},
      {"hydrochloric acid + sodium hydroxide", "neutralisation", "H^+(aq) + OH^-(aq) -> H2O(l)"},
  };
  for (auto const& row : table) check(row);
}

TEST_CASE("mixing: gases", "[engine][mixing]") {
  Row const table[] = {
      {"CaCO3 + CH3COOH", "gas", "CaCO3(s) + 2CH3COOH(aq) -> Ca^2+(aq) + 2CH3COO^-(aq) + H2O(l) + CO2(g)"},
      {"NaHCO3 + HCl", "gas", "HCO3^-(aq) + H^+(aq) -> H2O(l) + CO2(g)"},
      {"NaHSO4 + Na2CO3", "gas", "2HSO4^-(aq) + CO3^2-(aq) -> 2SO4^2-(aq) + H2O(l) + CO2(g)"},
      {"KHC4H4O6 + NaHCO3", "gas", "HC4H4O6^-(aq) + HCO3^-(aq) -> C4H4O6^2-(aq) + H2O(l) + CO2(g)"},
      {"citric acid + baking soda", "gas", "C6H8O7(aq) + 3HCO3^-(aq) -> 3H2O(l) + 3CO2(g) + C6H5O7^3-(aq)"},
      {"Na2S2O3 + HCl", "gas", "S2O3^2-(aq) + 2H^+(aq) -> S(s) + SO2(g) + H2O(l)"},
      {"Na2S2O3 + H2SO4", "gas", "S2O3^2-(aq) + 2H^+(aq) -> S(s) + SO2(g) + H2O(l)"},
      {"FeS + HCl", "gas", "FeS(s) + 2H^+(aq) -> Fe^2+(aq) + H2S(g)"},
      {"NH4Cl + KOH", "gas", "NH4^+(aq) + OH^-(aq) -> NH3(g) + H2O(l)"},
      {"NaClO + HCl", "gas", "ClO^-(aq) + 2H^+(aq) + Cl^-(aq) -> Cl2(g) + H2O(l)"},
      {"Na2CO3 + HCl -> NaHCO3", "neutralisation", "CO3^2-(aq) + H^+(aq) -> HCO3^-(aq)"},
  };
  for (auto const& row : table) check(row);
}

TEST_CASE("mixing: metals and halogens", "[engine][mixing]") {
  Row const table[] = {
      {"Mg + HCl", "acid + metal", "Mg(s) + 2H^+(aq) -> Mg^2+(aq) + H2(g)"},
      {"Al + H2SO4", "acid + metal", "2Al(s) + 6H^+(aq) -> 2Al^3+(aq) + 3H2(g)"},
      {"Zn + CH3COOH", "acid + metal", "Zn(s) + 2CH3COOH(aq) -> Zn^2+(aq) + 2CH3COO^-(aq) + H2(g)"},
      {"Cu + AgNO3", "metal displacement", "Cu(s) + 2Ag^+(aq) -> Cu^2+(aq) + 2Ag(s)"},
      {"iron + copper(II) sulfate", "metal displacement", "Fe(s) + Cu^2+(aq) -> Fe^2+(aq) + Cu(s)"},
      {"Zn + Cu^2+", "metal displacement", "Zn(s) + Cu^2+(aq) -> Zn^2+(aq) + Cu(s)"},
      {"Fe + FeCl3", "redox", "Fe(s) + 2Fe^3+(aq) -> 3Fe^2+(aq)"},
      {"Na + H2O", "metal + water", "2Na(s) + 2H2O(l) -> 2Na^+(aq) + 2OH^-(aq) + H2(g)"},
      {"Ca + H2O", "metal + water", "Ca(s) + 2H2O(l) -> Ca^2+(aq) + 2OH^-(aq) + H2(g)"},
      {"Mg + H2O", "metal + water", "Mg(s) + H2O(g) -> MgO(s) + H2(g)"},
      {"Cl2 + KBr", "halogen displacement", "Cl2(aq) + 2Br^-(aq) -> 2Cl^-(aq) + Br2(aq)"},
      {"Br2 + NaI", "halogen displacement", "Br2(aq) + 2I^-(aq) -> 2Br^-(aq) + I2(aq)"},
      {"Al + Fe2O3", "redox", "2Al(s) + Fe2O3(s) -> Al2O3(s) + 2Fe(s)"},
      {"C + CuO", "redox", "C(s) + 2CuO(s) -> 2Cu(s) + CO2(g)"},
      {"Al + NaOH", "amphoteric metal + base", "2Al(s) + 2OH^-(aq) + 6H2O(l) -> 2[Al(OH)4]^-(aq) + 3H2(g)"},
  };
  for (auto const& row : table) check(row);
}

TEST_CASE("mixing: combustion and heat", "[engine][mixing]") {
  Row const table[] = {
      {"C3H8 + O2", "combustion", "C3H8(g) + 5O2(g) -> 3CO2(g) + 4H2O(g)"},
      {"C2H5OH + O2", "combustion", "C2H5OH(l) + 3O2(g) -> 2CO2(g) + 3H2O(g)"},
      {"CH3SH(g) + O2", "combustion", "CH3SH(g) + 3O2(g) -> CO2(g) + 2H2O(g) + SO2(g)"},
      {"CH3NH2(g) + O2", "combustion", "4CH3NH2(g) + 9O2(g) -> 4CO2(g) + 10H2O(g) + 2N2(g)"},
      {"H2S + O2", "combustion", "2H2S(g) + 3O2(g) -> 2H2O(g) + 2SO2(g)"},
      {"Mg + O2", "combustion", "2Mg(s) + O2(g) -> 2MgO(s)"},
      {"CuSO4·5H2O", "thermal decomposition", "CuSO4·5H2O(s) -> CuSO4(s) + 5H2O(g)"},
      {"CaCO3", "thermal decomposition", "CaCO3(s) -> CaO(s) + CO2(g)"},
      {"NaHCO3", "thermal decomposition", "2NaHCO3(s) -> Na2CO3(s) + H2O(g) + CO2(g)"},
      {"KNO3", "thermal decomposition", "2KNO3(s) -> 2KNO2(s) + O2(g)"},
      {"Cu(NO3)2", "thermal decomposition", "2Cu(NO3)2(s) -> 2CuO(s) + 4NO2(g) + O2(g)"},
      {"AgNO3", "thermal decomposition", "2AgNO3(s) -> 2Ag(s) + 2NO2(g) + O2(g)"},
      {"NH4NO3", "thermal decomposition", "NH4NO3(s) -> N2O(g) + 2H2O(g)"},
      {"Fe(OH)3", "thermal decomposition", "2Fe(OH)3(s) -> Fe2O3(s) + 3H2O(g)"},
      {"(NH4)2Cr2O7", "thermal decomposition", "(NH4)2Cr2O7(s) -> N2(g) + Cr2O3(s) + 4H2O(g)"},
      {"KClO3", "thermal decomposition", "2KClO3(s) -> 2KCl(s) + 3O2(g)"},
      {"H2O2", "thermal decomposition", "2H2O2(aq) -> 2H2O(l) + O2(g)"},
  };
  for (auto const& row : table) check(row);
}

TEST_CASE("mixing: complexes", "[engine][mixing]") {
  Row const table[] = {
      {"CuSO4 + NH3", "complex formation", "Cu^2+(aq) + 4NH3(aq) -> [Cu(NH3)4]^2+(aq)"},
      {"AgNO3 + NH3", "complex formation", "Ag^+(aq) + 2NH3(aq) -> [Ag(NH3)2]^+(aq)"},
      {"AgCl + NH3", "complex formation", "AgCl(s) + 2NH3(aq) -> [Ag(NH3)2]^+(aq) + Cl^-(aq)"},
      {"AlCl3 + excess NaOH", "complex formation", "Al^3+(aq) + 4OH^-(aq) -> [Al(OH)4]^-(aq)"},
      {"AlCl3 + NaOH", "precipitation", "Al^3+(aq) + 3OH^-(aq) -> Al(OH)3(s)"},
      {"ZnSO4 + KOH in excess", "complex formation", "Zn^2+(aq) + 4OH^-(aq) -> [Zn(OH)4]^2-(aq)"},
      {"Pb(NO3)2 + NaOH (excess)", "complex formation", "Pb^2+(aq) + 4OH^-(aq) -> [Pb(OH)4]^2-(aq)"},
      {"CrCl3 + excess NaOH", "complex formation", "Cr^3+(aq) + 6OH^-(aq) -> [Cr(OH)6]^3-(aq)"},
      {"Sn(OH)2 + NaOH", "complex formation", "Sn(OH)2(s) + 2OH^-(aq) -> [Sn(OH)4]^2-(aq)"},
      {"ZnO + NaOH", "complex formation", "ZnO(s) + 2OH^-(aq) + H2O(l) -> [Zn(OH)4]^2-(aq)"},
      {"AgBr + Na2S2O3", "complex formation", "AgBr(s) + 2S2O3^2-(aq) -> [Ag(S2O3)2]^3-(aq) + Br^-(aq)"},
      {"[Cu(NH3)4]SO4 + H2SO4", "complex taken apart", "[Cu(NH3)4]^2+(aq) + 4H^+(aq) -> Cu^2+(aq) + 4NH4^+(aq)"},
      {"[Ag(NH3)2]Cl + HNO3", "complex taken apart", "[Ag(NH3)2]^+(aq) + Cl^-(aq) + 2H^+(aq) -> AgCl(s) + 2NH4^+(aq)"},
      {"[Ag(NH3)2]NO3 + HCl", "complex taken apart", "[Ag(NH3)2]^+(aq) + 2H^+(aq) + Cl^-(aq) -> AgCl(s) + 2NH4^+(aq)"},
      {"Na[Al(OH)4] + HCl", "complex taken apart", "[Al(OH)4]^-(aq) + H^+(aq) -> Al(OH)3(s) + H2O(l)"},
      {"Na[Al(OH)4] + excess HCl", "complex taken apart", "[Al(OH)4]^-(aq) + 4H^+(aq) -> Al^3+(aq) + 4H2O(l)"},
      {"Na[Al(OH)4] + CO2", "complex taken apart", "[Al(OH)4]^-(aq) + CO2(g) -> Al(OH)3(s) + HCO3^-(aq)"},
      {"FeCl3 + KSCN", "complex formation", "Fe^3+(aq) + SCN^-(aq) -> [FeSCN]^2+(aq)"},
  };
  for (auto const& row : table) check(row);
}

// Equations from memory: school textbooks' chapters on sulfuric and nitric acid.
TEST_CASE("mixing: concentrated acids do what the dilute ones do not", "[engine][mixing]") {
  Row const table[] = {
      {"Cu + HNO3", "redox", "3Cu(s) + 8H^+(aq) + 2NO3^-(aq) -> 3Cu^2+(aq) + 4H2O(l) + 2NO(g)"},
      {"Cu + dilute HNO3", "redox", "3Cu(s) + 8H^+(aq) + 2NO3^-(aq) -> 3Cu^2+(aq) + 4H2O(l) + 2NO(g)"},
      {"Cu + concentrated HNO3", "redox", "Cu(s) + 4H^+(aq) + 2NO3^-(aq) -> Cu^2+(aq) + 2H2O(l) + 2NO2(g)"},
      {"copper + concentrated nitric acid", "redox", "Cu(s) + 4H^+(aq) + 2NO3^-(aq) -> Cu^2+(aq) + 2H2O(l) + 2NO2(g)"},
      {"HNO3 (conc.) + Ag", "redox", "Ag(s) + 2H^+(aq) + NO3^-(aq) -> Ag^+(aq) + H2O(l) + NO2(g)"},
      {"Cu + hot concentrated H2SO4", "redox", "Cu(s) + 2H2SO4(l) -> Cu^2+(aq) + SO4^2-(aq) + SO2(g) + 2H2O(l)"},
      {"carbon + conc. sulfuric acid", "redox", "C(s) + 2H2SO4(l) -> CO2(g) + 2SO2(g) + 2H2O(l)"},
      {"NaCl + conc H2SO4", "gas", "NaCl(s) + H2SO4(l) -> NaHSO4(s) + HCl(g)"},
      {"KI + conc. H2SO4", "redox", "8KI(s) + 9H2SO4(l) -> 8KHSO4(s) + 4I2(s) + H2S(g) + 4H2O(l)"},
      {"sucrose + conc. H2SO4", "dehydration", "C12H22O11(s) -> 12C(s) + 11H2O(g)"},
      {"NaOH + concentrated H2SO4", "neutralisation", "H^+(aq) + OH^-(aq) -> H2O(l)"},
      {"Mg + dilute H2SO4", "acid + metal", "Mg(s) + 2H^+(aq) -> Mg^2+(aq) + H2(g)"},
  };
  for (auto const& row : table) check(row);
  CHECK(mixed("Al + concentrated HNO3").because.find("passive") != std::string::npos);
  CHECK_FALSE(mixed("Al + concentrated HNO3").reacts);
  auto const unknown = mixed("FeS + concentrated HNO3");
  CHECK_FALSE(unknown.decided);
  CHECK(unknown.because ==
        "concentrated HNO3 does other things than the dilute acid, and the tables are silent on what it does with FeS");
}

TEST_CASE("mixing: redox", "[engine][mixing]") {
  Row const table[] = {
      {"MnO4^- + Fe^2+ in acid", "redox", "MnO4^-(aq) + 5Fe^2+(aq) + 8H^+(aq) -> Mn^2+(aq) + 4H2O(l) + 5Fe^3+(aq)"},
      {"KMnO4 + FeSO4 + H2SO4", "redox", "MnO4^-(aq) + 5Fe^2+(aq) + 8H^+(aq) -> Mn^2+(aq) + 4H2O(l) + 5Fe^3+(aq)"},
      {"K2Cr2O7 + FeSO4 + H2SO4", "redox", "Cr2O7^2-(aq) + 6Fe^2+(aq) + 14H^+(aq) -> 2Cr^3+(aq) + 7H2O(l) + 6Fe^3+(aq)"},
      {"KMnO4 + Na2C2O4 + H2SO4", "redox", "2MnO4^-(aq) + 5C2O4^2-(aq) + 16H^+(aq) -> 2Mn^2+(aq) + 8H2O(l) + 10CO2(g)"},
      {"KMnO4 + H2C2O4 + H2SO4", "redox", "2MnO4^-(aq) + 5H2C2O4(aq) + 6H^+(aq) -> 2Mn^2+(aq) + 8H2O(l) + 10CO2(g)"},
      {"KMnO4 + H2O2 + H2SO4", "redox", "2MnO4^-(aq) + 5H2O2(aq) + 6H^+(aq) -> 2Mn^2+(aq) + 8H2O(l) + 5O2(g)"},
      {"KMnO4 + HCl", "redox", "2MnO4^-(aq) + 16H^+(aq) + 10Cl^-(aq) -> 2Mn^2+(aq) + 8H2O(l) + 5Cl2(g)"},
      {"MnO4^- + SO3^2- in base", "redox", "2MnO4^-(aq) + 3SO3^2-(aq) + H2O(l) -> 2MnO2(s) + 3SO4^2-(aq) + 2OH^-(aq)"},
      {"ClO^- + Cr(OH)3 in base", "redox", "3ClO^-(aq) + 2Cr(OH)3(s) + 4OH^-(aq) -> 3Cl^-(aq) + 2CrO4^2-(aq) + 5H2O(l)"},
      {"I2 + Na2S2O3", "redox", "I2(aq) + 2S2O3^2-(aq) -> 2I^-(aq) + S4O6^2-(aq)"},
      {"Cl2 + S2O3^2-", "redox", "4Cl2(aq) + S2O3^2-(aq) + 5H2O(l) -> 8Cl^-(aq) + 2SO4^2-(aq) + 10H^+(aq)"},
      {"FeCl3 + KI", "redox", "2Fe^3+(aq) + 2I^-(aq) -> 2Fe^2+(aq) + I2(aq)"},
      {"FeCl3 + SnCl2", "redox", "2Fe^3+(aq) + Sn^2+(aq) -> 2Fe^2+(aq) + Sn^4+(aq)"},
      {"H2O2 + KI + H2SO4", "redox", "H2O2(aq) + 2I^-(aq) + 2H^+(aq) -> 2H2O(l) + I2(aq)"},
      {"KIO3 + KI + H2SO4", "redox", "IO3^-(aq) + 5I^-(aq) + 6H^+(aq) -> 3I2(aq) + 3H2O(l)"},
      {"K2Cr2O7 + Na2SO3 + H2SO4", "redox", "Cr2O7^2-(aq) + 3SO3^2-(aq) + 8H^+(aq) -> 2Cr^3+(aq) + 3SO4^2-(aq) + 4H2O(l)"},
      {"MnO2 + HCl", "redox", "MnO2(s) + 4H^+(aq) + 2Cl^-(aq) -> Mn^2+(aq) + 2H2O(l) + Cl2(g)"},
      {"Fe^3+ + Cu", "redox", "2Fe^3+(aq) + Cu(s) -> 2Fe^2+(aq) + Cu^2+(aq)"},
      {"Cu + NO3^- in acid", "redox", "3Cu(s) + 2NO3^-(aq) + 8H^+(aq) -> 3Cu^2+(aq) + 2NO(g) + 4H2O(l)"},
      {"Al + NO3^- in base", "redox", "8Al(s) + 3NO3^-(aq) + 5OH^-(aq) + 18H2O(l) -> 8[Al(OH)4]^-(aq) + 3NH3(g)"},
      {"MnO4^- + CN^- in base", "redox", "2MnO4^-(aq) + 3CN^-(aq) + H2O(l) -> 2MnO2(s) + 3OCN^-(aq) + 2OH^-(aq)"},
      {"MnO4^- + C2O4^2- in base", "redox", "2MnO4^-(aq) + 3C2O4^2-(aq) + 4OH^-(aq) -> 2MnO2(s) + 6CO3^2-(aq) + 2H2O(l)"},
      {"Cr2O7^2- + C2H5OH in acid", "redox", "2Cr2O7^2-(aq) + 3C2H5OH(aq) + 16H^+(aq) -> 4Cr^3+(aq) + 3CH3COOH(aq) + 11H2O(l)"},
      {"Mn^2+ + BiO3^- in acid", "redox", "2Mn^2+(aq) + 5BiO3^-(aq) + 14H^+(aq) -> 2MnO4^-(aq) + 5Bi^3+(aq) + 7H2O(l)"},
      {"ClO3^- + Fe^2+ in acid", "redox", "ClO3^-(aq) + 6Fe^2+(aq) + 6H^+(aq) -> Cl^-(aq) + 6Fe^3+(aq) + 3H2O(l)"},
      {"O3 + KI", "redox", "O3(g) + 2I^-(aq) + H2O(l) -> O2(g) + I2(aq) + 2OH^-(aq)"},
      {"HNO2 + I^- in acid", "redox", "2HNO2(aq) + 2I^-(aq) + 2H^+(aq) -> 2NO(g) + I2(aq) + 2H2O(l)"},
      {"Br2 in base", "disproportionation", "Br2(aq) + 2OH^-(aq) -> Br^-(aq) + BrO^-(aq) + H2O(l)"},
      {"Br2 + FeSO4", "redox", "Br2(aq) + 2Fe^2+(aq) -> 2Br^-(aq) + 2Fe^3+(aq)"},
  };
  for (auto const& row : table) check(row);
}

TEST_CASE("mixing: redox with the products named is balanced by half-reactions", "[engine][mixing]") {
  // from memory: exercises of first-year courses, each balanced by hand
  Row const table[] = {
      {"MnO4^- + Br^- -> MnO2 + BrO3^- in base", "redox", "2MnO4^-(aq) + Br^-(aq) + H2O(l) -> 2MnO2(s) + BrO3^-(aq) + 2OH^-(aq)"},
      {"Cr2O7^2- + Cl^- -> Cr^3+ + Cl2(g) in acid", "redox",
       "Cr2O7^2-(aq) + 6Cl^-(aq) + 14H^+(aq) -> 2Cr^3+(aq) + 3Cl2(g) + 7H2O(l)"},
      {"P4 + NO3^- -> H3PO4 + NO in acid", "redox", "3P4(s) + 20NO3^-(aq) + 20H^+(aq) + 8H2O(l) -> 12H3PO4(aq) + 20NO(g)"},
      {"Zn + NO3^- -> Zn^2+ + NH4^+ in acid", "redox", "4Zn(s) + NO3^-(aq) + 10H^+(aq) -> 4Zn^2+(aq) + NH4^+(aq) + 3H2O(l)"},
      {"Cl2 -> Cl^- + ClO3^- in base", "redox", "3Cl2(aq) + 6OH^-(aq) -> 5Cl^-(aq) + ClO3^-(aq) + 3H2O(l)"},
      {"P4 -> PH3 + H2PO2^- in base", "redox", "P4(s) + 3OH^-(aq) + 3H2O(l) -> PH3(g) + 3H2PO2^-(aq)"},
      {"Cu + HNO3 -> Cu(NO3)2 + NO2", "redox", "Cu(s) + 4H^+(aq) + 2NO3^-(aq) -> Cu^2+(aq) + 2NO2(g) + 2H2O(l)"},
      {"CH3OH + MnO4^- -> CO3^2- + MnO4^2- in base", "redox",
       "CH3OH(l) + 6MnO4^-(aq) + 8OH^-(aq) -> CO3^2-(aq) + 6MnO4^2-(aq) + 6H2O(l)"},
      {"S2O3^2- + MnO4^- -> SO4^2- + Mn^2+ in acid", "redox",
       "5S2O3^2-(aq) + 8MnO4^-(aq) + 14H^+(aq) -> 8Mn^2+(aq) + 10SO4^2-(aq) + 7H2O(l)"},
      {"Sn^2+ + Hg^2+ -> Sn^4+ + Hg2^2+", "redox", "Sn^2+(aq) + 2Hg^2+(aq) -> Sn^4+(aq) + Hg2^2+(aq)"},
  };
  for (auto const& row : table) {
    check(row);
    CHECK(says(mixed(row.mixture).warnings, "no table says whether it runs"));
  }
  CHECK(mixed("Sn^2+ + Hg^2+ -> Sn^4+ + Hg2^2+").conditions.empty());
  // The tables know better, or no electrons pass.
  CHECK_FALSE(says(mixed("MnO4^- + Fe^2+ -> Mn^2+ + Fe^3+").warnings, "no table says"));
  CHECK(mixed("HCl + NaOH -> NaCl").kind == "neutralisation");
  CHECK(mixed("NaH2PO4 + NaOH -> Na2HPO4").molecular.left[1].coefficient == Rational(1));
  CHECK_FALSE(mixed("FeS + NO3^- -> Fe^3+ + S + NO in acid").reacts);  // three things change at once
}

TEST_CASE("mixing: the full equation in formulas where the ions fit together in one way", "[engine][mixing]") {
  struct Full {
    char const* mixture;
    char const* molecular;
  };
  Full const table[] = {
      {"FeCl3 + KSCN", "FeCl3(aq) + KSCN(aq) -> [FeSCN]Cl2(aq) + KCl(aq)"},
      {"Fe2(SO4)3 + NH4SCN", "Fe2(SO4)3(aq) + 2NH4SCN(aq) -> 2[FeSCN]SO4(aq) + (NH4)2SO4(aq)"},
      // from memory: the equations of the usual titrations and tests
      {"KMnO4 + FeSO4 + H2SO4", "2KMnO4(aq) + 10FeSO4(aq) + 8H2SO4(aq) -> 5Fe2(SO4)3(aq) + 2MnSO4(aq) + K2SO4(aq) + 8H2O(l)"},
      {"K2Cr2O7 + KI + H2SO4", "K2Cr2O7(aq) + 6KI(aq) + 7H2SO4(aq) -> Cr2(SO4)3(aq) + 3I2(aq) + 4K2SO4(aq) + 7H2O(l)"},
      {"KMnO4 + HCl", "2KMnO4(aq) + 16HCl(aq) -> 2MnCl2(aq) + 2KCl(aq) + 5Cl2(g) + 8H2O(l)"},
      {"I2 + Na2S2O3", "I2(aq) + 2Na2S2O3(aq) -> 2NaI(aq) + Na2S4O6(aq)"},
      // Spectators go where they came from, the rest where the charges match: from memory, as course books write these two.
      {"KMnO4 + Na2SO3 + NaOH", "2KMnO4(aq) + 3Na2SO3(aq) + H2O(l) -> 2MnO2(s) + 3Na2SO4(aq) + 2KOH(aq)"},
      {"I2 + Na2SO3", "I2(aq) + Na2SO3(aq) + H2O(l) -> 2HI(aq) + Na2SO4(aq)"},
      {"KMnO4 + Na2SO3 + HCl", "2KMnO4(aq) + 5Na2SO3(aq) + 6HCl(aq) -> 2MnCl2(aq) + 2KCl(aq) + 5Na2SO4(aq) + 3H2O(l)"},
      {"CrO4^2- + H^+", "2CrO4^2-(aq) + 2H^+(aq) -> Cr2O7^2-(aq) + H2O(l)"},
      {"Cr2O7^2- + OH^-", "Cr2O7^2-(aq) + 2OH^-(aq) -> 2CrO4^2-(aq) + H2O(l)"},
      {"H2SO4 + NaOH -> NaHSO4", "H2SO4(aq) + NaOH(aq) -> NaHSO4(aq) + H2O(l)"},
      {"KHC8H4O4 + NaOH", "KHC8H4O4(aq) + NaOH(aq) -> KNaC8H4O4(aq) + H2O(l)"},
      {"AlCl3 + excess NaOH", "AlCl3(aq) + 4NaOH(aq) -> Na[Al(OH)4](aq) + 3NaCl(aq)"},
      {"HC2H3O2 + Ca(OH)2", "2HC2H3O2(aq) + Ca(OH)2(aq) -> Ca(C2H3O2)2(aq) + 2H2O(l)"},
      {"NH3(g) + HCl(g)", "NH3(g) + HCl(g) -> NH4Cl(s)"},
  };
  for (auto const& row : table) {
    CAPTURE(row.mixture);
    auto const got = mixed(row.mixture);
    auto const expected = parse_equation(row.molecular);
    REQUIRE(ok(expected));
    CAPTURE(plain(got.molecular));
    CHECK(terms(value(expected).left) == terms(got.molecular.left));
    CHECK(terms(value(expected).right) == terms(got.molecular.right));
  }
  // A cation that would be shared out among several anions: ions only.
  auto const many = mixed("KMnO4 + FeCl2 + H2SO4");
  CHECK(many.reacts);
  CHECK(plain(many.molecular) == plain(many.ionic));
}

TEST_CASE("mixing: every listed reaction is given by its own reactants", "[engine][mixing]") {
  TsvTable const table(data::listed_reactions_tsv);
  auto const reactants = table.column("reactants"), products = table.column("products");
  REQUIRE(table.size() > 150);
  for (std::size_t row = 0; row < table.size(); ++row) {
    auto const read = parse_equation(std::string(table.cell(row, reactants)) + " -> " + std::string(table.cell(row, products)));
    REQUIRE(ok(read));
    auto const got = mixed(std::string(table.cell(row, reactants)));
    CAPTURE(table.cell(row, reactants), got.because, plain(got.molecular));
    REQUIRE(got.reacts);
    std::vector<std::string> wanted, made;
    for (auto const& species : value(read).right) wanted.push_back(plain(species.formula));
    for (auto const& species : got.molecular.right) made.push_back(plain(species.formula));
    std::sort(wanted.begin(), wanted.end());
    std::sort(made.begin(), made.end());
    CHECK(wanted == made);
  }
}

TEST_CASE("mixing: weak acids drive out weaker ones, as far as their protons reach", "[engine][mixing]") {
  // From the pKa in acids.tsv; H3PO4 2.16, 7.21, 12.35; H2CO3 6.35; HF 3.20; citric acid 3.13, 4.76, 6.40.
  Row const table[] = {
      {"H3PO4 + Na2CO3", "gas", "2H3PO4(aq) + CO3^2-(aq) -> H2O(l) + CO2(g) + 2H2PO4^-(aq)"},
      {"H3PO4 + NaF", "weak acid forms", "H3PO4(aq) + F^-(aq) -> HF(aq) + H2PO4^-(aq)"},
      {"C6H8O7 + Na2CO3", "gas", "2C6H8O7(aq) + 3CO3^2-(aq) -> 3H2O(l) + 3CO2(g) + 2C6H5O7^3-(aq)"},
      {"CH3COOH + NaCN", "weak acid forms", "CH3COOH(aq) + CN^-(aq) -> HCN(aq) + CH3COO^-(aq)"},
  };
  for (auto const& row : table) check(row);
  CHECK(mixed("CH3COOH + Na3PO4").because ==
        "H^+ passes from CH3COOH to PO4^3- only in part, and the tables are silent on how far");
  CHECK_FALSE(mixed("H2S + NaClO").reacts);   // electrons, not protons
  CHECK_FALSE(mixed("PbO2 + H2SO4").reacts);  // no rule for lead(IV) salts
  CHECK_FALSE(mixed("NH3 + CaCl2").reacts);   // too few OH^- for Ca(OH)2
}

}  // namespace molewright
