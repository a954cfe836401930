// Names and formulas, both ways.
#include <algorithm>
#include <catch2/catch.hpp>
#include <map>
#include <set>

#include "engine/nomenclature.h"
#include "tests/engine/table_file.h"

namespace molewright {
namespace {

std::string formula_of(std::string const& text) {
  auto const found = identify(text);
  return ok(found) ? value(found).formula : "[" + fault(found).id + "] " + sentence(fault(found));
}

/// A name as two people would write it: "hydrogen phosphate" and "hydrogenphosphate", "aluminum" and "aluminium".
std::string folded(std::string text) {
  for (auto const& [from, to] :
       {std::pair<std::string, std::string>{"sulph", "sulf"}, {"aluminum", "aluminium"}, {"hydrogen ", "hydrogen"}})
    for (std::size_t at = 0; (at = text.find(from, at)) != std::string::npos; at += to.size()) text.replace(at, from.size(), to);
  return text;
}

TEST_CASE("name: the open textbook's names and formulas, both ways", "[engine][name][outside]") {
  test::TableFile const file("formula_names.tsv");
  REQUIRE(file.table.size() == 322);
  // Rows whose only name is an older one than the Red Book's, which is what is printed; the row's own name is read all the same.
  std::map<std::string, std::string> const newer = {
      {"K2S2O8", "potassium peroxodisulfate"},  // the row: peroxydisulfate, with the ligand of the older rules
      {"Na3C6H5O7·2H2O",
       "trisodium citrate dihydrate"},  // the row: sodium citrate dihydrate, which leaves the number to the charges
      {"Na3C6H5O7", "trisodium citrate"},
      {"(NH4)2Ce(NO3)6", "ammonium hexanitratocerate(IV)"},  // the row: as a double salt; it is a complex
  };
  // Names that stand for two substances: they are told of both, and read as neither, or as the other's own first name.
  std::set<std::string> const shared = {"lime", "lye", "zincate ion", "phosphorus(V) oxide"};
  for (std::size_t row = 0; row < file.table.size(); ++row) {
    std::string const formula = file.cell(row, "formula");
    bool const ion = file.cell(row, "kind") == "ion";
    std::vector<std::string> names{file.cell(row, "name")};
    std::string const cell = file.cell(row, "other_names");
    for (std::string_view const other : split_list(cell)) names.emplace_back(other);
    CAPTURE(formula, names);
    auto const named = identify(formula);
    REQUIRE(ok(named));
    CHECK(value(named).formula == formula);
    // Ours is one of the row's.
    std::set<std::string> accepted;
    for (auto const& name : names) accepted.insert(folded(name + (ion ? " ion" : "")));
    if (auto const other = newer.find(formula); other != newer.end()) {
      CHECK(value(named).name == other->second);
    } else {
      CAPTURE(value(named).name);
      CHECK(accepted.count(folded(value(named).name)) == 1);
    }
    // The row's names lead to its formula, the ions' with and without the word, in both spellings.
    for (auto const& name : names) {
      CAPTURE(name);
      CHECK(formula_of(name) == formula);
      if (ion) CHECK(formula_of(name + " ion") == formula);
      std::string british = name;
      for (std::size_t at = 0; (at = british.find("sulf", at)) != std::string::npos; ++at) british.replace(at, 4, "sulph");
      CHECK(formula_of(british) == formula);
    }
    for (auto const spelling : {Spelling::sulfur, Spelling::sulphur}) {
      auto const printed = identify(formula, spelling);
      REQUIRE(ok(printed));
      CHECK(formula_of(value(printed).name) == formula);
      for (auto const& other : value(printed).other_names) {
        CAPTURE(other);
        if (shared.count(other) == 0) CHECK(formula_of(other) == formula);
      }
    }
  }
}

TEST_CASE("name: as an examiner composed them, both ways", "[engine][name][outside]") {
  test::TableFile const file("names_examined.tsv");
  REQUIRE(file.table.size() == 94);
  for (std::size_t row = 0; row < file.table.size(); ++row) {
    std::string const formula = file.cell(row, "formula"), cell = file.cell(row, "names");
    CAPTURE(formula, cell);
    auto const named = identify(formula);
    REQUIRE(ok(named));
    std::set<std::string> accepted;
    for (auto const text : split_list(cell)) {
      std::string const name(text);
      accepted.insert(folded(name));
      CAPTURE(name);
      auto const read = parse_formula(formula_of(name)), due = parse_formula(formula);  // NaClO is NaOCl
      REQUIRE(ok(read));
      CHECK(value(read).composition() == value(due).composition());
    }
    CAPTURE(value(named).name);
    CHECK(accepted.count(folded(value(named).name)) == 1);
  }
}

TEST_CASE("name: every salt of the solubility table round trip", "[engine][name]") {
  for (Solubility const& salt : solubilities()) {
    for (auto const& formula : {salt.formula, salt.hydrate_usually_bought}) {
      if (formula.empty()) continue;
      for (auto const spelling : {Spelling::sulfur, Spelling::sulphur}) {
        std::string const name = name_of(formula, spelling);
        CAPTURE(formula, name);
        auto const back = identify(name, spelling);
        REQUIRE(ok(back));
        CHECK(value(back).name == name);
        if (formula != "NH4MgPO4·6H2O") CHECK(value(back).formula == formula);  // listed as MgNH4PO4·6H2O, too
      }
    }
  }
}

TEST_CASE("name: every ion of the table round trip", "[engine][name]") {
  for (Ion const& ion : ions()) {
    std::string const name = name_of(ion.formula);
    CAPTURE(ion.formula, name);
    CHECK(formula_of(name) == ion.formula);
  }
}

struct Same {
  char const* text;
  char const* formula;
  char const* name;
  char const* why;
};

TEST_CASE("name: composed by rule, read and written", "[engine][name]") {
  auto const c = GENERATE(values<Same>({
      {"sodium chloride", "NaCl", "sodium chloride", "Red Book 2005, IR-5.3"},
      {"radium sulfate", "RaSO4", "radium sulfate", "charges 2+ and 2-"},
      {"gold(III) chloride", "AuCl3", "gold(III) chloride", "Stock number"},
      {"rubidium hydrogensulfate", "RbHSO4", "rubidium hydrogensulfate", "acid salt"},
      {"mercury(I) phosphate", "(Hg2)3(PO4)2", "mercury(I) phosphate", "mercury(I) is a pair"},
      {"nickel(II) chlorate hexahydrate", "Ni(ClO3)2·6H2O", "nickel(II) chlorate hexahydrate", "Red Book 2005, IR-5.5"},
      {"calcium sulfate hemihydrate", "(CaSO4)2·H2O", "calcium sulfate hemihydrate", "half a water to each CaSO4"},
      {"lithium sulfate monohydrate", "Li2SO4·H2O", "lithium sulfate monohydrate", ""},
      {"manganese(VII) oxide", "Mn2O7", "manganese(VII) oxide", "2 x 7 = 7 x 2"},
      {"tungsten(VI) oxide", "WO3", "tungsten(VI) oxide", ""},
      {"silver(II) oxide", "AgO", "silver(II) oxide", "the less usual state is said"},
      {"magnesium silicide", "Mg2Si", "magnesium silicide", ""},
      {"sodium(I) chloride", "NaCl", "sodium chloride", "a number that is not needed"},
      {"zinc(II) sulfide", "ZnS", "zinc sulfide", ""},
      {"nitrogen trifluoride", "NF3", "nitrogen trifluoride", "Red Book 2005, IR-5.2"},
      {"disulfur dichloride", "S2Cl2", "disulfur dichloride", ""},
      {"xenon tetrafluoride", "XeF4", "xenon tetrafluoride", ""},
      {"dichlorine monoxide", "Cl2O", "dichlorine monoxide", "mono- drops its o"},
      {"tetraphosphorus decaoxide", "P4O10", "tetraphosphorus decoxide", "the vowel may be kept"},
      {"carbon monooxide", "CO", "carbon monoxide", ""},
      {"iodine pentafluoride", "IF5", "iodine pentafluoride", ""},
      {"diiodine pentoxide", "I2O5", "diiodine pentoxide", ""},
      {"arsenic trioxide", "As2O3", "diarsenic trioxide", "left-out di: arsenic is never in state VI"},
      {"iron trichloride", "FeCl3", "iron(III) chloride", ""},
      {"dialuminium trioxide", "Al2O3", "aluminium oxide", ""},
      {"manganese dioxide", "MnO2", "manganese(IV) oxide", ""},
      {"nitrogen(IV) oxide", "NO2", "nitrogen dioxide", "Stock name of a molecule, lowest terms listed"},
      {"nitrogen(I) oxide", "N2O", "dinitrogen monoxide", ""},
      {"sulfur(VI) oxide", "SO3", "sulfur trioxide", ""},
      {"phosphorus(III) oxide", "P4O6", "tetraphosphorus hexoxide", "listed in twice its lowest terms"},
      {"phosphorus(V) chloride", "PCl5", "phosphorus pentachloride", ""},
      {"chlorine(VII) oxide", "Cl2O7", "dichlorine heptoxide", ""},
      {"carbon(II) oxide", "CO", "carbon monoxide", ""},
      {"europium(II) ion", "Eu^2+", "europium(II) ion", ""},
      {"erbium(III) chloride", "ErCl3", "erbium chloride", "a number that is not needed"},
      {"selenic acid", "H2SeO4", "selenic acid", "Red Book 2005, IR-8.3"},
      {"hypoiodous acid", "HIO", "hypoiodous acid", ""},
      {"thiosulfuric acid", "H2S2O3", "thiosulfuric acid", ""},
      {"hexafluorosilicic acid", "H2SiF6", "hexafluorosilicic acid", ""},
      {"phosphinic acid", "H3PO2", "hypophosphorous acid", ""},
      {"potassium sodium carbonate", "KNaCO3", "potassium sodium carbonate", "cations in alphabetical order"},
      {"potassium aluminium sulfate", "KAl(SO4)2", "aluminium potassium sulfate", "read in any order"},
      {"hexaamminenickel(II) bromide", "[Ni(NH3)6]Br2", "hexaamminenickel(II) bromide", "a complex cation"},
      {"copper(II) hexacyanoferrate(II)", "Cu2[Fe(CN)6]", "copper(II) hexacyanidoferrate(II)", "a complex anion, older name"},
      {"manganese(IV) ion", "Mn^4+", "manganese(IV) ion", "an ion of a state that is met"},
      {"hydrogen nitrate", "HNO3", "nitric acid", ""},
      {"hydrogen sulfide", "H2S", "hydrogen sulfide", "not the ion"},
      {"hydrogensulfide ion", "HS^-", "hydrogensulfide ion", "not the gas"},
      {"hydrogen", "H2", "hydrogen", "the substance, not the atom"},
      {"neon", "Ne", "neon", ""},
      {"dioxygen", "O2", "oxygen", ""},
      {"electron", "e^-", "electron", ""},
  }));
  CAPTURE(c.text, c.why);
  CHECK(formula_of(c.text) == c.formula);
  CHECK(name_of(c.formula) == c.name);
  CHECK(formula_of(c.name) == c.formula);
}

TEST_CASE("name: however it is written", "[engine][name]") {
  auto const c = GENERATE(values<std::pair<char const*, char const*>>({
      {"iron (III) sulfate", "Fe2(SO4)3"},
      {"IRON(III) SULPHATE", "Fe2(SO4)3"},
      {"  Iron(iii)  Sulfate ", "Fe2(SO4)3"},
      {"iron III sulphate", "Fe2(SO4)3"},
      {"iron(3+) sulfate", "Fe2(SO4)3"},
      {"iron-III-sulfate", "Fe2(SO4)3"},
      {"ferric sulphate", "Fe2(SO4)3"},
      {"iron(III)\xC2\xA0sulfate", "Fe2(SO4)3"},  // no-break space
      {"copper(II) sulphate-5-water", "CuSO4·5H2O"},
      {"copper(II) sulfate (5-water)", "CuSO4·5H2O"},
      {"copper(II) sulfate·5H2O", "CuSO4·5H2O"},
      {"copper(II) sulfate pentahydrate", "CuSO4·5H2O"},
      {"copper sulfate pentahydrate", "CuSO4·5H2O"},  // only one is listed
      {"copper sulfate", "CuSO4"},                    // the copper(I) salt of an oxoacid is not met
      {"copper nitrate", "Cu(NO3)2"},
      {"KHP", "KHC8H4O4"},
      {"sodium carbonate-10-water", "Na2CO3·10H2O"},
      {"sodium hydrogen carbonate", "NaHCO3"},
      {"sodium hydrogen-carbonate", "NaHCO3"},
      {"sodium bicarbonate", "NaHCO3"},
      {"disodium hydrogen phosphate", "Na2HPO4"},
      {"trisodium phosphate", "Na3PO4"},
      {"aluminum sulfate", "Al2(SO4)3"},
      {"cesium chloride", "CsCl"},
      {"calcium chloride 2-hydrate", "CaCl2·2H2O"},
      {"barium chloride 2H2O", "BaCl2·2H2O"},
      {"sodium chloride.", "NaCl"},
      {"CaSO4·1/2H2O", "(CaSO4)2·H2O"},  // half a water has no whole formula of its own
      {"CaSO4·½H2O", "(CaSO4)2·H2O"},
      {"CaSO4.0.5 H2O", "(CaSO4)2·H2O"},
      {"2CaSO4·H2O", "(CaSO4)2·H2O"},
      {"hydriodic acid", "HI"},
      {"sodium nitrate(III)", "NaNO2"},
      {"propan 2 ol", "(CH3)2CHOH"},
      {"Epsom salts", "MgSO4·7H2O"},
      {"mohr’s salt", "(NH4)2Fe(SO4)2·6H2O"},
      {"sulphate", "SO4^2-"},
      {"sulfate ion", "SO4^2-"},
      {"sulfate ions", "SO4^2-"},
      {"ferric", "Fe^3+"},
      {"ferrous ion", "Fe^2+"},
      {"iron(III)", "Fe^3+"},
      {"cuprous oxide", "Cu2O"},
      {"stannic chloride", "SnCl4"},
      {"plumbous iodide", "PbI2"},
      {"mercurous nitrate", "Hg2(NO3)2"},
      {"anhydrous copper(II) sulfate", "CuSO4"},
      {"dilute sulphuric acid", "H2SO4"},
      {"sodium hydroxide solution", "NaOH"},
      {"sodium chloride (aq)", "NaCl"},
      {"chlorine gas", "Cl2"},
      {"zinc metal", "Zn"},
      {"lead nitrate", "Pb(NO3)2"},  // lead(IV) nitrate is not met
      {"zinc chloride", "ZnCl2"},
      {"silver nitrate", "AgNO3"},
      {"nickel sulfate", "NiSO4"},
      {"cobalt chloride hexahydrate", "CoCl2·6H2O"},
      {"chromium sulfate", "Cr2(SO4)3"},
      {"chromium potassium sulfate", "KCr(SO4)2"},
      {"calcium silicate", "CaSiO3"},
  }));
  CAPTURE(c.first);
  CHECK(formula_of(c.first) == c.second);
}

TEST_CASE("name: common names of the table", "[engine][name]") {
  // Source: from memory, household, trade and mineral usage; the formulas are those that dictionaries of chemistry give.
  auto const c = GENERATE(values<std::pair<char const*, char const*>>({
      {"baking soda", "NaHCO3"},
      {"vinegar", "CH3COOH"},
      {"rust", "Fe2O3"},
      {"salt", "NaCl"},
      {"sand", "SiO2"},
      {"milk of lime", "Ca(OH)2"},
      {"lactic acid", "C3H6O3"},
      {"bleach", "NaClO"},
      {"washing soda", "Na2CO3·10H2O"},
      {"soda ash", "Na2CO3"},
      {"caustic soda", "NaOH"},
      {"caustic potash", "KOH"},
      {"potash", "K2CO3"},
      {"muriate of potash", "KCl"},
      {"saltpetre", "KNO3"},
      {"gypsum", "CaSO4·2H2O"},
      {"plaster of Paris", "(CaSO4)2·H2O"},
      {"Epsom salt", "MgSO4·7H2O"},
      {"Glauber's salt", "Na2SO4·10H2O"},
      {"quicklime", "CaO"},
      {"slaked lime", "Ca(OH)2"},
      {"limestone", "CaCO3"},
      {"blue vitriol", "CuSO4·5H2O"},
      {"green vitriol", "FeSO4·7H2O"},
      {"muriatic acid", "HCl"},
      {"oil of vitriol", "H2SO4"},
      {"borax", "Na2B4O7·10H2O"},
      {"potash alum", "KAl(SO4)2·12H2O"},
      {"red lead", "Pb3O4"},
      {"calomel", "Hg2Cl2"},
      {"Prussian blue", "Fe4[Fe(CN)6]3"},
      {"cream of tartar", "KHC4H4O6"},
      {"iron pyrites", "FeS2"},
      {"dolomite", "CaMg(CO3)2"},
      {"laughing gas", "N2O"},
      {"acetone", "(CH3)2CO"},
      {"aspirin", "C9H8O4"},
  }));
  CAPTURE(c.first);
  REQUIRE(formula_of(c.first) == c.second);
  auto const found = value(identify(c.second));
  std::vector<std::string> all = found.other_names;
  all.push_back(found.name);
  CHECK((std::find(all.begin(), all.end(), c.first) != all.end()));
}

TEST_CASE("name: hydrogen chloride and hydrochloric acid, by the state", "[engine][name]") {
  struct Case {
    char const *text, *name, *other;
  };
  auto const c = GENERATE(values<Case>({
      {"HCl", "hydrochloric acid", "hydrogen chloride"},  // without a state: as in earlier questions
      {"HCl(aq)", "hydrochloric acid", "hydrogen chloride"},
      {"HCl(g)", "hydrogen chloride", "hydrochloric acid"},
      {"hydrogen chloride gas", "hydrogen chloride", "hydrochloric acid"},
      {"hydrogen chloride", "hydrogen chloride", "hydrochloric acid"},  // Red Book 2005, IR-8: the acid is its solution
      {"hydrogen fluoride", "hydrogen fluoride", "hydrofluoric acid"},
      {"hydrochloric acid", "hydrochloric acid", "hydrogen chloride"},
      {"HBr(g)", "hydrogen bromide", "hydrobromic acid"},
      {"HF(l)", "hydrogen fluoride", "hydrofluoric acid"},
      {"HCN(g)", "hydrogen cyanide", "hydrocyanic acid"},
      {"H2S(g)", "hydrogen sulfide", "hydrosulfuric acid"},
      {"H2S(aq)", "hydrosulfuric acid", "hydrogen sulfide"},
  }));
  CAPTURE(c.text);
  auto const found = identify(c.text);
  REQUIRE(ok(found));
  CHECK(value(found).name == c.name);
  CHECK(value(found).other_names.front() == c.other);
  CHECK(value(found).formula.find('(') == std::string::npos);
}

TEST_CASE("name: both spellings are printed as wished", "[engine][name]") {
  auto const found = value(identify("aluminum potassium sulfate dodecahydrate", Spelling::sulphur));
  CHECK(found.formula == "KAl(SO4)2·12H2O");
  CHECK(found.name == "aluminium potassium sulphate dodecahydrate");
  CHECK(found.other_names ==
        std::vector<std::string>{"alum", "potash alum", "potassium alum", "aluminum potassium sulphate dodecahydrate"});
  CHECK(value(identify("Fe2(SO4)3")).other_names == std::vector<std::string>{"ferric sulfate"});
  CHECK(value(identify("Fe2(SO4)3", Spelling::sulphur)).other_names == std::vector<std::string>{"ferric sulphate"});
  CHECK(value(identify("S8", Spelling::sulphur)).name == "sulphur");
}

struct Refused {
  char const* text;
  char const* id;
  char const* sentence;
};

TEST_CASE("name: what cannot be named, the exact text", "[engine][name][bad-input]") {
  auto const c = GENERATE(values<Refused>({
      {"copper chloride", "ambiguous-name",
       "\"copper chloride\" fits more than one substance: CuCl (copper(I) chloride) and CuCl2 (copper(II) chloride), expected "
       "copper(I) chloride or copper(II) chloride"},
      {"iron oxide", "ambiguous-name",
       "\"iron oxide\" fits more than one substance: FeO (iron(II) oxide), Fe2O3 (iron(III) oxide) and Fe3O4 "
       "(iron(II,III) oxide), expected iron(II) oxide, iron(III) oxide or iron(II,III) oxide"},
      {"phosphorus(V) oxide", "ambiguous-name",
       "\"phosphorus(V) oxide\" fits more than one substance: P4O10 (tetraphosphorus decoxide) and P2O5 (diphosphorus "
       "pentoxide), expected tetraphosphorus decoxide or diphosphorus pentoxide"},
      {"aqua regia", "mixture-name",
       "\"aqua regia\" is a mixture, no single substance: three parts of concentrated hydrochloric acid (HCl) and one of nitric "
       "acid (HNO3), expected the name or the formula of the substance that is meant"},
      {"water gas", "mixture-name",
       "\"water gas\" is a mixture, no single substance: carbon monoxide (CO) and hydrogen (H2), expected the name or the "
       "formula "
       "of the substance that is meant"},
      {"lime", "ambiguous-name",
       "\"lime\" fits more than one substance: Ca(OH)2 (calcium hydroxide) and CaO (calcium oxide), expected calcium hydroxide "
       "or "
       "calcium oxide"},
      {"copper ion", "ambiguous-name",
       "\"copper ion\" fits more than one substance: Cu^+ (copper(I) ion) and Cu^2+ (copper(II) ion), expected copper(I) ion or "
       "copper(II) ion"},
      {"coper(II) sulfate", "unknown-name",
       "\"coper(II) sulfate\" is no name that is known here, expected copper(II) sulfate, copper(I) sulfate or copper(II) "
       "sulfide"},
      {"sodim chloride", "unknown-name",
       "\"sodim chloride\" is no name that is known here, expected sodium chloride, sodium chlorate or barium chloride"},
      {"bakin soda", "unknown-name",
       "\"bakin soda\" is no name that is known here, expected baking soda, soda ash or bicarbonate of soda"},
      {"unobtainium", "unknown-name",
       "\"unobtainium\" is no name that is known here, expected a formula or a name, such as NaCl or iron(III) sulfate"},
      {"Xe9", "no-name", "there is no name here for Xe₉"},
      {"CH3OCH3", "no-name", "there is no name here for CH₃OCH₃"},
      {"Mn(SO4)2", "no-name", "there is no name here for Mn(SO₄)₂"},  // as its brackets say, no peroxodisulfate
      {"Na2Cl2", "no-name", "there is no name here for Na₂Cl₂"},
      {"MgOH2", "no-name", "there is no name here for MgOH₂, expected brackets, if hydroxide is meant: Mg(OH)2"},
      {"sodium chloride water", "unknown-name",
       "\"sodium chloride water\" is no name that is known here, expected sodium chloride, sodium chlorate or sodium nitrate"},
      {"SO4", "no-name", "there is no name here for SO₄, expected its charge, if the sulfate ion is meant: SO4^2-"},
      {"Ca(SO4)2", "unbalanced-charge", "the charges in Ca(SO₄)₂ do not add up: Ca^2+ and 2 SO4^2- leave 2-, expected CaSO4"},
      {"NaCl2", "unbalanced-charge", "the charges in NaCl₂ do not add up: Na^+ and 2 Cl^- leave 1-, expected NaCl"},
      {"CaOH", "unbalanced-charge", "the charges in CaOH do not add up: Ca^2+ and OH^- leave 1+, expected Ca(OH)2"},
      {"AlSO4", "unbalanced-charge", "the charges in AlSO₄ do not add up: Al^3+ and SO4^2- leave 1+, expected Al2(SO4)3"},
      {"", "empty-formula", "there is no formula here, expected a formula, such as NaCl or SO4^2-"},
      {"Xy", "unknown-element", "unknown element symbol Xy, expected an element symbol"},
      {"nacl", "unknown-element", "an element symbol begins with a capital letter, expected an element symbol; did you mean Na?"},
      {"Ca(OH", "bracket-not-closed", "bracket not closed, expected ')'"},
      {"sodium \xFF chloride", "invalid-utf8", "the text is not UTF-8, expected text saved as UTF-8"},
  }));
  CAPTURE(c.text);
  auto const found = identify(c.text);
  REQUIRE_FALSE(ok(found));
  CHECK(fault(found).id == c.id);
  CHECK(sentence(fault(found)) == c.sentence);
}

TEST_CASE("name: charges that do not add up", "[engine][name]") {
  struct Case {
    char const *formula, *expected;
  };
  auto const bad = GENERATE(values<Case>({
      {"NaCl2", "NaCl"},   {"CaCl", "CaCl2"},        {"MgCl3", "MgCl2"},          {"NaO", "Na2O"},
      {"AlO", "Al2O3"},    {"ZnCl", "ZnCl2"},        {"CaOH", "Ca(OH)2"},         {"AlSO4", "Al2(SO4)3"},
      {"NaCO3", "Na2CO3"}, {"Ca(NO3)3", "Ca(NO3)2"}, {"KSO4", "K2SO4"},           {"NH4SO4", "(NH4)2SO4"},
      {"NH4Cl2", "NH4Cl"}, {"FeNO3", "Fe(NO3)2"},    {"FeCl4", "FeCl2"},          {"Fe(OH)", "Fe(OH)2"},
      {"HgCl", "HgCl2"},   {"AgCl2", "AgCl"},        {"CaPO4·2H2O", "Ca3(PO4)2"}, {"AgNO32", ""},
  }));
  CAPTURE(bad.formula);
  auto const found = unbalanced_charge(value(parse_formula(bad.formula)));
  if (*bad.expected == '\0') {
    CHECK_FALSE(found.has_value());  // read as NO32, which is no ion
  } else {
    REQUIRE(found.has_value());
    CHECK(found->id == "unbalanced-charge");
    CHECK(found->expected == bad.expected);
  }
}

TEST_CASE("name: real compounds are not told that their charges do not add up", "[engine][name]") {
  auto const formula = GENERATE(values<char const*>(
      {"Na2O2",       "BaO2",      "KO2",    "H2O2",      "Fe3O4",         "Pb3O4",       "Co3O4",     "Mn3O4",
       "Hg2Cl2",      "Hg2(NO3)2", "NH4NO3", "NH4CH3COO", "CaC2",          "Al4C3",       "FeS2",      "Na2S4",
       "KI3",         "NaN3",      "AgO",    "Fe3C",      "CO(NH2)2",      "C2H5OH",      "CH3COOH",   "N2O5",
       "P4O10",       "H2SO4",     "HCl",    "NH3",       "[Cu(NH3)4]SO4", "K4[Fe(CN)6]", "KAl(SO4)2", "Cu2(OH)2CO3",
       "Ca5(PO4)3OH", "NaAlO2",    "SiO2",   "KMnO4",     "K2Cr2O7",       "CrO3",        "V2O5",      "MnO2",
       "U3O8",        "TiN",       "WC",     "Na2S2O3",   "NaHCO3",        "Ca(HCO3)2",   "KHC8H4O4",  "(CaSO4)2·H2O",
       "CuSO4·5H2O",  "C6H12O6",   "Na",     "S8",        "SO4^2-",        "e^-",         "NaAl3"}));
  CAPTURE(formula);
  CHECK_FALSE(unbalanced_charge(value(parse_formula(formula))).has_value());
}

}  // namespace
}  // namespace molewright
