#include "engine/substance.h"

#include <algorithm>
#include <catch2/catch.hpp>

#include "engine/formula.h"
#include "tests/engine/table_file.h"

namespace molewright {
namespace {

TEST_CASE("substance: names of the open textbook's formulas", "[engine][substance][outside]") {
  test::TableFile const file("formula_names.tsv");
  REQUIRE(file.table.size() == 322);
  for (std::size_t row = 0; row < file.table.size(); ++row) {
    std::string const formula = file.cell(row, "formula");
    std::string name = name_of(formula);
    CAPTURE(formula, name);
    std::vector<std::string> accepted{file.cell(row, "name")};
    // Named otherwise in the table: by the usual laboratory name, and as the complex that it is.
    if (formula.substr(0, 9) == "Na3C6H5O7") accepted.push_back("tri" + accepted[0]);
    if (formula == "(NH4)2Ce(NO3)6") accepted.push_back("ammonium hexanitratocerate(IV)");
    std::string const others = file.cell(row, "other_names");
    for (std::string_view const other : split_list(others)) accepted.push_back(std::string(other));
    // The book writes "hydrogen phosphate", the table the IUPAC form "hydrogenphosphate"; its other names have that, not in every
    // row.
    if (file.cell(row, "kind") == "ion") {
      REQUIRE(name.size() > 4);
      CHECK(name.substr(name.size() - 4) == " ion");
      name.resize(name.size() - 4);
    }
    std::vector<std::string> joined;
    for (std::string text : accepted) {
      if (std::size_t const at = text.find("hydrogen "); at != std::string::npos && at > 0)
        joined.push_back(text.erase(at + 8, 1));
      if (std::size_t const at = text.find("peroxy"); at != std::string::npos) joined.push_back(text.replace(at, 6, "peroxo"));
    }
    accepted.insert(accepted.end(), joined.begin(), joined.end());
    CHECK_THAT(accepted, Catch::VectorContains(name));
  }
}

struct Named {
  char const* formula;
  char const* name;
  char const* sulphur;
  char const* source;
};

TEST_CASE("substance: names composed, and both spellings", "[engine][substance]") {
  auto const c = GENERATE(values<Named>({
      {"CuSO4", "copper(II) sulfate", "copper(II) sulphate", "table"},
      {"CuSO4·5H2O", "copper(II) sulfate pentahydrate", "copper(II) sulphate pentahydrate", "Red Book 2005, table IV"},
      {"CuSO4·H2O", "copper(II) sulfate monohydrate", "copper(II) sulphate monohydrate", "Red Book 2005, table IV"},
      {"CuSO4·3H2O", "copper(II) sulfate trihydrate", "copper(II) sulphate trihydrate", "Red Book 2005, table IV"},
      {"Na2CO3·10H2O", "sodium carbonate decahydrate", "sodium carbonate decahydrate", "Red Book 2005, table IV"},
      {"Na2CO3·7H2O", "sodium carbonate heptahydrate", "sodium carbonate heptahydrate", "Red Book 2005, table IV"},
      {"KAl(SO4)2·12H2O", "aluminium potassium sulfate dodecahydrate", "aluminium potassium sulphate dodecahydrate", "table"},
      {"Na2S2O3", "sodium thiosulfate", "sodium thiosulphate", "table"},
      {"H2SO4", "sulfuric acid", "sulphuric acid", "table"},
      {"S", "sulfur", "sulphur", "element"},
      {"Cs", "caesium", "caesium", "element"},
      {"Al2O3", "aluminium oxide", "aluminium oxide", "table"},
      {"NaHCO3", "sodium hydrogencarbonate", "sodium hydrogencarbonate", "Red Book 2005, IR-8.4"},
      {"SO4^2-", "sulfate ion", "sulphate ion", "ion table"},
      {"NH4^+", "ammonium ion", "ammonium ion", "ion table"},
      {"Fe^3+", "iron(III) ion", "iron(III) ion", "ion table"},
      {"e^-", "electron", "electron", "counted as an entity"},
      {"CH3COONa", "sodium acetate", "sodium acetate", "the same atoms as NaCH3COO"},
      {"NaC2H3O2", "sodium acetate", "sodium acetate", "the same atoms as NaCH3COO"},
      {"CH3COONH4", "ammonium acetate", "ammonium acetate", "another way to write it"},
      {"CH3CO2H", "acetic acid", "acetic acid", "another way to write it"},
      {"K4Fe(CN)6", "potassium hexacyanidoferrate(II)", "potassium hexacyanidoferrate(II)", "the same atoms"},
      {"Fe(SCN)3", "iron(III) thiocyanate", "iron(III) thiocyanate", "from its ions"},
      {"AgN3", "silver azide", "silver azide", "from its ions"},
      {"CH3OCH3", "", "", "an isomer of ethanol is not ethanol"},
      {"[Cr(H2O)6]Cl3", "hexaaquachromium(III) chloride", "hexaaquachromium(III) chloride",
       "from its ions, not the hydrate with the same atoms"},
      {"[Co(NH3)5SO4]Cl", "", "", "an isomer of a complex is not that complex"},
      {"Xe9", "", "", "no such substance"},
      {"Xx", "", "", "no formula"},
      {"", "", "", "no formula"},
  }));
  CAPTURE(c.formula, c.source);
  CHECK(name_of(c.formula) == c.name);
  CHECK(name_of(c.formula, Spelling::sulphur) == c.sulphur);
}

TEST_CASE("substance: a hydrate in the table has the name that is composed", "[engine][substance]") {
  int hydrates = 0;
  for (Solubility const& salt : solubilities()) {
    if (salt.hydrate_usually_bought.empty()) continue;
    CAPTURE(salt.hydrate_usually_bought);
    auto const formula = parse_formula(salt.hydrate_usually_bought);
    REQUIRE(ok(formula));
    CHECK(plain(anhydrous(value(formula))) == salt.formula);
    std::string const name = name_of(salt.hydrate_usually_bought);
    CHECK(name.size() > 7);
    CHECK(name.substr(name.size() - 7) == "hydrate");
    CHECK(solubility(salt.hydrate_usually_bought) == solubility(salt.formula));
    ++hydrates;
  }
  CHECK(hydrates > 60);
}

struct Dissolves {
  char const* formula;
  Solubility::Verdict verdict;
  char const* source;
};

TEST_CASE("substance: solubility verdicts", "[engine][substance]") {
  using Verdict = Solubility::Verdict;
  auto const c = GENERATE(values<Dissolves>({
      {"NaCl", Verdict::soluble, "school rules: salts of group 1"},
      {"NH4NO3", Verdict::soluble, "school rules: nitrates"},
      {"Pb(NO3)2", Verdict::soluble, "school rules: nitrates"},
      {"BaCl2·2H2O", Verdict::soluble, "school rules: chlorides but those of silver, lead, mercury(I)"},
      {"AgCl", Verdict::insoluble, "school rules: silver chloride"},
      {"BaSO4", Verdict::insoluble, "school rules: barium sulfate"},
      {"CaCO3", Verdict::insoluble, "school rules: carbonates but those of group 1 and ammonium"},
      {"AgCH3COO", Verdict::slightly_soluble, "about 1 g in 100 g of water"},
      {"CH3COOAg", Verdict::slightly_soluble, "the same salt written the other way"},
      {"Al2S3", Verdict::reacts, "hydrolyses to Al(OH)3 and H2S"},
      {"Na2O", Verdict::reacts, "gives NaOH"},
  }));
  CAPTURE(c.formula, c.source);
  Solubility const* const found = solubility(c.formula);
  REQUIRE(found != nullptr);
  CHECK(found->verdict == c.verdict);
}

TEST_CASE("substance: how much dissolves", "[engine][substance]") {
  CHECK(solubility("KNO3")->grams_per_100g_water == Rational(3193, 100));      // at 20 °C, CRC Handbook as transcribed
  CHECK(solubility("Fe(NO3)3")->grams_per_100g_water == Rational(8716, 100));  // 25 °C only
  CHECK_FALSE(solubility("AgCl")->name.empty());
  CHECK_FALSE(solubility("CoBr2")->grams_per_100g_water.has_value());
  CHECK(solubility("XeF2") == nullptr);
  CHECK(solubility("not a formula") == nullptr);
  CHECK(solubilities().size() == 454);
  for (Solubility const& salt : solubilities()) {
    CAPTURE(salt.formula);
    CHECK(plain(value(parse_formula(salt.formula))) == salt.formula);
    CHECK(name_of(salt.formula) == salt.name);
    CHECK(salt.verdict != Solubility::Verdict::unknown);
    if (!salt.grams_per_100g_water) continue;
    // A verdict and a number of one row must not contradict each other. Insoluble is below 0.1 g by the usual school rule.
    if (salt.verdict == Solubility::Verdict::insoluble) CHECK(*salt.grams_per_100g_water < Rational(1, 2));
    if (salt.verdict == Solubility::Verdict::soluble) CHECK(*salt.grams_per_100g_water >= Rational(1));
  }
}

struct Apart {
  char const* formula;
  std::vector<std::pair<char const*, int>> ions;
  char const* why;
};

TEST_CASE("substance: salts taken apart into ions", "[engine][substance]") {
  auto const c = GENERATE(values<Apart>({
      {"NaCl", {{"Na^+", 1}, {"Cl^-", 1}}, ""},
      {"Ca(NO3)2", {{"Ca^2+", 1}, {"NO3^-", 2}}, ""},
      {"Ca(NO3)2·4H2O", {{"Ca^2+", 1}, {"NO3^-", 2}}, "water of crystallisation left out"},
      {"NH4NO3", {{"NH4^+", 1}, {"NO3^-", 1}}, ""},
      {"Fe2(SO4)3", {{"Fe^3+", 2}, {"SO4^2-", 3}}, ""},
      {"FeSO4", {{"Fe^2+", 1}, {"SO4^2-", 1}}, ""},
      {"Hg2Cl2", {{"Hg2^2+", 1}, {"Cl^-", 2}}, "mercury(I) is a pair"},
      {"HgCl2", {{"Hg^2+", 1}, {"Cl^-", 2}}, ""},
      {"CH3COONH4", {{"NH4^+", 1}, {"CH3COO^-", 1}}, "not methylammonium formate"},
      {"NaC2H3O2", {{"Na^+", 1}, {"CH3COO^-", 1}}, "by its atoms"},
      {"NaHCO3", {{"Na^+", 1}, {"HCO3^-", 1}}, ""},
      {"BaO2", {{"Ba^2+", 1}, {"O2^2-", 1}}, "a peroxide"},
      {"PbO2", {{"Pb^4+", 1}, {"O^2-", 2}}, "not a peroxide"},
      {"NaN3", {{"Na^+", 1}, {"N3^-", 1}}, "an azide"},
      {"Na3N", {{"Na^+", 3}, {"N^3-", 1}}, "a nitride"},
      {"Fe(SCN)3", {{"Fe^3+", 1}, {"SCN^-", 3}}, "not the complex ion"},
      {"K4[Fe(CN)6]", {{"K^+", 4}, {"[Fe(CN)6]^4-", 1}}, ""},
      {"Fe4[Fe(CN)6]3", {{"Fe^3+", 4}, {"[Fe(CN)6]^4-", 3}}, "a complex with the cation's own metal"},
      {"[Cu(NH3)4]SO4", {{"[Cu(NH3)4]^2+", 1}, {"SO4^2-", 1}}, ""},
      {"KAl(SO4)2·12H2O", {{"K^+", 1}, {"Al^3+", 1}, {"SO4^2-", 2}}, "an alum"},
      {"Cu2(OH)2CO3", {{"Cu^2+", 2}, {"OH^-", 2}, {"CO3^2-", 1}}, "a basic salt"},
      {"Fe3O4", {{"Fe^2+", 1}, {"Fe^3+", 2}, {"O^2-", 4}}, ""},
      {"CO(NH2)2", {}, "urea is not ammonium cyanate"},
      {"N2O4", {}, "a molecule"},
      {"MnO2", {}, "not a peroxide, and the table has no Mn^4+"},
      {"V2O5", {}, "not an oxide of pervanadyl"},
      {"HCl", {}, "an acid"},
      {"H2O", {}, "a molecule"},
      {"SO4^2-", {}, "an ion, not a salt"},
      {"e^-", {}, "an electron"},
      {"Cu", {}, "an element"},
      {"?", {}, "no formula"},
  }));
  CAPTURE(c.formula, c.why);
  std::vector<std::pair<std::string, std::int64_t>> got, expected;
  for (IonCount const& ion : ions_of(c.formula)) got.push_back({ion.ion, ion.count});
  for (auto const& [ion, count] : c.ions) expected.push_back({ion, count});
  CHECK(got == expected);
}

TEST_CASE("substance: ions of every salt of the solubility table have its atoms and no charge left", "[engine][substance]") {
  std::vector<std::string> whole;
  for (Solubility const& salt : solubilities()) {
    auto const parts = ions_of(salt.formula);
    if (parts.empty()) {
      whole.push_back(salt.formula);
      continue;
    }
    CAPTURE(salt.formula);
    std::map<std::string, std::int64_t> atoms;
    std::int64_t charge = 0;
    for (IonCount const& part : parts) {
      Formula const ion = value(parse_formula(part.ion));
      charge += part.count * ion.charge;
      for (auto const& [element, count] : ion.composition()) atoms[element] += part.count * count;
    }
    CHECK(charge == 0);
    CHECK(atoms == value(parse_formula(salt.formula)).composition());
  }
  CHECK(whole == std::vector<std::string>{"(NH4)6Mo7O24", "MnO2"});
}

TEST_CASE("substance: ions of the table are read back as printed", "[engine][substance]") {
  CHECK(ions().size() == 254);
  for (Ion const& ion : ions()) {
    CAPTURE(ion.formula);
    Formula const read = value(parse_formula(ion.formula));
    CHECK(plain(read) == ion.formula);
    CHECK(read.charge == ion.charge);
    CHECK_FALSE(name_of(ion.formula).empty());
  }
}

TEST_CASE("substance: cautions", "[engine][substance]") {
  CHECK(caution_for("KNO3")->hazards == "H272");  // CLP Regulation (EC) 1272/2008, second-hand
  CHECK(caution_for("KNO3")->text == "Oxidising solid; keep from fuel.");
  CHECK(caution_for("CaCl2·6H2O")->text == caution_for("CaCl2·2H2O")->text);  // a hydrate that is not listed
  CHECK(caution_for("MgSO4")->text == caution_for("MgSO4·7H2O")->text);       // only the hydrate is listed
  CHECK(caution_for("NH3")->text.find("fume cupboard") != std::string::npos);
  CHECK(caution_for("H2O")->hazards.empty());
  CHECK_FALSE(caution_for("XeF2").has_value());
  CHECK_FALSE(caution_for("?").has_value());
  // Nothing in the tables is said, never silence; a salt of a poisonous ion has the ion's.
  CHECK(caution_to_print("KNO3").text == caution_for("KNO3")->text);
  CHECK(caution_to_print("PbCl2").text.find("builds up in the body") != std::string::npos);
  CHECK(caution_to_print("Pb(NO3)2").text == caution_for("Pb(NO3)2")->text);
  CHECK(caution_to_print("BaCrO4").text.find("Chromium(VI)") != std::string::npos);
  CHECK(caution_to_print("BaSO4").text == caution_for("BaSO4")->text);  // insoluble, so that its barium does no harm
  CHECK_FALSE(caution_to_print("CsCl").listed);
  CHECK(caution_to_print("CsCl").text == "no caution is in our tables: see the safety data sheet");
  CHECK(caution_to_print("Cs^+").text.empty());
}

}  // namespace
}  // namespace molewright
