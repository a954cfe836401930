#include "engine/formula.h"

#include <catch2/catch.hpp>
#include <map>

namespace molewright {
namespace {

using Atoms = std::map<std::string, std::int64_t>;

struct Read {
  char const* text;
  char const* plain;
  char const* pretty;
  Atoms atoms;
  int charge;
  char const* source;
};

TEST_CASE("formula: spellings that are read", "[engine][formula]") {
  auto const c = GENERATE(values<Read>({
      {"H2O", "H2O", "H₂O", {{"H", 2}, {"O", 1}}, 0, "counted by hand"},
      {"Ca(OH)2", "Ca(OH)2", "Ca(OH)₂", {{"Ca", 1}, {"O", 2}, {"H", 2}}, 0, "Red Book 2005, IR-4.2"},
      {"Al2(SO4)3", "Al2(SO4)3", "Al₂(SO₄)₃", {{"Al", 2}, {"S", 3}, {"O", 12}}, 0, "counted by hand"},
      {"Al₂(SO₄)₃", "Al2(SO4)3", "Al₂(SO₄)₃", {{"Al", 2}, {"S", 3}, {"O", 12}}, 0, "counted by hand"},
      {"[Cu(NH3)4]SO4",
       "[Cu(NH3)4]SO4",
       "[Cu(NH₃)₄]SO₄",
       {{"Cu", 1}, {"N", 4}, {"H", 12}, {"S", 1}, {"O", 4}},
       0,
       "counted by hand"},
      {"[Cu(NH3)4]SO4·H2O",
       "[Cu(NH3)4]SO4·H2O",
       "[Cu(NH₃)₄]SO₄·H₂O",
       {{"Cu", 1}, {"N", 4}, {"H", 14}, {"S", 1}, {"O", 5}},
       0,
       "counted by hand"},
      {"CuSO4·5H2O", "CuSO4·5H2O", "CuSO₄·5H₂O", {{"Cu", 1}, {"S", 1}, {"O", 9}, {"H", 10}}, 0, "counted by hand"},
      {"CuSO4.5H2O", "CuSO4·5H2O", "CuSO₄·5H₂O", {{"Cu", 1}, {"S", 1}, {"O", 9}, {"H", 10}}, 0, "contract of the commands"},
      {"CuSO4*5H2O", "CuSO4·5H2O", "CuSO₄·5H₂O", {{"Cu", 1}, {"S", 1}, {"O", 9}, {"H", 10}}, 0, "contract of the commands"},
      {"CuSO4 • 5 H2O", "CuSO4·5H2O", "CuSO₄·5H₂O", {{"Cu", 1}, {"S", 1}, {"O", 9}, {"H", 10}}, 0, "a common spelling"},
      {"  NaCl ", "NaCl", "NaCl", {{"Na", 1}, {"Cl", 1}}, 0, "blanks round it"},
      {"CO", "CO", "CO", {{"C", 1}, {"O", 1}}, 0, "two elements"},
      {"Co", "Co", "Co", {{"Co", 1}}, 0, "one element"},
      {"CuCO3·Cu(OH)2", "CuCO3·Cu(OH)2", "CuCO₃·Cu(OH)₂", {{"Cu", 2}, {"C", 1}, {"O", 5}, {"H", 2}}, 0, "counted by hand"},
      {"SO4^2-", "SO4^2-", "SO₄²⁻", {{"S", 1}, {"O", 4}}, -2, "contract of the commands"},
      {"SO4^-2", "SO4^2-", "SO₄²⁻", {{"S", 1}, {"O", 4}}, -2, "sign first"},
      {"SO4(2-)", "SO4^2-", "SO₄²⁻", {{"S", 1}, {"O", 4}}, -2, "contract of the commands"},
      {"SO4^(2-)", "SO4^2-", "SO₄²⁻", {{"S", 1}, {"O", 4}}, -2, "a common spelling"},
      {"SO4^{2-}", "SO4^2-", "SO₄²⁻", {{"S", 1}, {"O", 4}}, -2, "TeX"},
      {"SO₄²⁻", "SO4^2-", "SO₄²⁻", {{"S", 1}, {"O", 4}}, -2, "contract of the commands"},
      {"SO4^2−", "SO4^2-", "SO₄²⁻", {{"S", 1}, {"O", 4}}, -2, "true minus sign"},
      {"Fe^3+", "Fe^3+", "Fe³⁺", {{"Fe", 1}}, 3, "contract of the commands"},
      {"Na⁺", "Na^+", "Na⁺", {{"Na", 1}}, 1, "superscript"},
      {"Hg2^2+", "Hg2^2+", "Hg₂²⁺", {{"Hg", 2}}, 2, "Red Book 2005, IR-5.3"},
      {"[Fe(CN)6]^4-", "[Fe(CN)6]^4-", "[Fe(CN)₆]⁴⁻", {{"Fe", 1}, {"C", 6}, {"N", 6}}, -4, "counted by hand"},
      {"P3O10^5-", "P3O10^5-", "P₃O₁₀⁵⁻", {{"P", 3}, {"O", 10}}, -5, "counted by hand"},
  }));
  CAPTURE(c.text, c.source);
  auto const read = parse_formula(c.text);
  REQUIRE(ok(read));
  CHECK(plain(value(read)) == c.plain);
  CHECK(pretty(value(read)) == c.pretty);
  CHECK(value(read).composition() == c.atoms);
  CHECK(value(read).charge == c.charge);
  CHECK(pretty_formula(c.text) == c.pretty);
  for (char const* again : {c.plain, c.pretty}) {  // what is printed can be read, and means the same
    auto const once_more = parse_formula(again);
    REQUIRE(ok(once_more));
    CHECK(plain(value(once_more)) == c.plain);
  }
}

struct Typed {
  char const* text;
  char const* plain;
  char const* why;
};

TEST_CASE("formula: charges as students type them", "[engine][formula]") {
  auto const c = GENERATE(values<Typed>({
      {"SO42-", "SO4^2-", "last of two digits"},
      {"PO43-", "PO4^3-", "last of two digits"},
      {"Cr2O72-", "Cr2O7^2-", "last of two digits"},
      {"S2O32-", "S2O3^2-", "last of two digits"},
      {"P3O105-", "P3O10^5-", "last of three digits"},
      {"NO3-", "NO3^-", "a single digit is a subscript"},
      {"NH4+", "NH4^+", "a single digit is a subscript"},
      {"H3O+", "H3O^+", "no digit"},
      {"MnO4-", "MnO4^-", "a single digit is a subscript"},
      {"HCO3-", "HCO3^-", "a single digit is a subscript"},
      {"Al(OH)4-", "Al(OH)4^-", "a single digit is a subscript"},
      {"Fe(CN)63-", "Fe(CN)6^3-", "last of two digits"},
      {"Cl-", "Cl^-", "no digit"},
      {"Fe3+", "Fe^3+", "a lone atom has its charge"},
      {"Ca2+(aq)", "Ca^2+", "a lone atom has its charge"},
      {"O2-", "O^2-", "oxide, not superoxide"},
      {"N3-", "N^3-", "nitride, not azide"},
      {"I3-", "I3^-", "triiodide: iodine has no charge of 3-"},
      {"Hg22+", "Hg2^2+", "last of two digits"},
      {"O22-", "O2^2-", "peroxide: last of two digits"},
      {"[Cu(NH3)4]2+", "[Cu(NH3)4]^2+", "square brackets have their charge"},
      {"[Fe(CN)6]3-", "[Fe(CN)6]^3-", "square brackets have their charge"},
      {"CH3COO-", "CH3COO^-", "no digit"},
      {"e-", "e^-", "electron"},
      {"e⁻", "e^-", "electron"},
      {"e^-", "e^-", "electron"},
  }));
  CAPTURE(c.text, c.why);
  auto const read = parse_formula(c.text);
  REQUIRE(ok(read));
  CHECK(plain(value(read)) == c.plain);
}

TEST_CASE("formula: states", "[engine][formula]") {
  struct Row {
    char const* text;
    State state;
  };
  auto const c = GENERATE(values<Row>({{"H2O(l)", State::liquid},
                                       {"H2O (g)", State::gas},
                                       {"NaCl(s)", State::solid},
                                       {"Na^+(aq)", State::aqueous},
                                       {"Na+(aq)", State::aqueous},
                                       {"BaSO4↓", State::solid},
                                       {"CO2 ↑", State::gas},
                                       {"CuSO4·5H2O(s)", State::solid},
                                       {"H2O", State::none}}));
  CAPTURE(c.text);
  auto const read = parse_formula(c.text);
  REQUIRE(ok(read));
  CHECK(value(read).state == c.state);
}

TEST_CASE("formula: water of crystallisation", "[engine][formula]") {
  Formula const hydrate = value(parse_formula("Na2CO3·10H2O"));
  CHECK(hydrate.hydrate());
  CHECK(waters(hydrate) == 10);
  CHECK(plain(anhydrous(hydrate)) == "Na2CO3");
  Formula const basic = value(parse_formula("CuCO3·Cu(OH)2"));
  CHECK_FALSE(basic.hydrate());
  CHECK(waters(basic) == 0);
  CHECK(plain(anhydrous(basic)) == "CuCO3·Cu(OH)2");
  CHECK(waters(value(parse_formula("NaCl"))) == 0);
  CHECK(value(parse_formula("e-")).composition().empty());
}

struct Bad {
  std::string text;
  char const* id;
  std::size_t column;
  char const* says;
};

TEST_CASE("formula: what is refused, where, and in which words", "[engine][formula]") {
  auto const c = GENERATE(values<Bad>({
      {"", "empty-formula", 1, "there is no formula here, expected a formula, such as NaCl or SO4^2-"},
      {"Xx", "unknown-element", 1, "unknown element symbol Xx, expected an element symbol"},
      {"AL", "unknown-element", 1, "unknown element symbol A, expected an element symbol; did you mean Al?"},
      {"CuSo4", "unknown-element", 3, "unknown element symbol So, expected an element symbol; did you mean SO?"},
      {"NaCL", "unknown-element", 4, "unknown element symbol L, expected an element symbol; did you mean Cl?"},
      {"h2o", "unknown-element", 1,
       "an element symbol begins with a capital letter, expected an element symbol; did you mean H?"},
      {"Nacl", "unknown-element", 3,
       "an element symbol begins with a capital letter, expected an element symbol; did you mean Cl?"},
      {"Ca(oh)2", "unknown-element", 4,
       "an element symbol begins with a capital letter, expected an element symbol; did you mean O?"},
      {"Al₂(OH", "bracket-not-closed", 7, "bracket not closed, expected ')'"},
      {"[Cu(NH3)4SO4", "bracket-not-closed", 13, "bracket not closed, expected ']'"},
      {"Ca(OH))2", "bracket-too-many", 7, "a closing bracket too many, expected an opening bracket before it"},
      {"Cu[(NH3]4)", "brackets-crossed", 8, "brackets crossed, expected ')'"},
      {"()2", "empty-bracket", 2, "empty brackets, expected an element symbol or a bracket"},
      {"SO4^2", "charge-without-sign", 6, "a charge without its sign, expected + or - after the number of the charge"},
      {"SO4^", "charge-without-sign", 5, "a charge without its sign, expected + or - after the number of the charge"},
      {"SO4²", "charge-without-sign", 5, "a charge without its sign, expected + or - after the number of the charge"},
      {"SO4^100-", "not-a-formula", 5, "not a charge, expected a charge from 1 to 99, written as in ^2+"},
      {"Na^0+", "not-a-formula", 4, "not a charge, expected a charge from 1 to 99, written as in ^2+"},
      {"H0", "count-out-of-range", 2, "not a number of atoms, expected a whole number from 1 to 9999, without a zero in front"},
      {"H02", "count-out-of-range", 2, "not a number of atoms, expected a whole number from 1 to 9999, without a zero in front"},
      {"C10000", "count-out-of-range", 2,
       "not a number of atoms, expected a whole number from 1 to 9999, without a zero in front"},
      {"H" + std::string(300, '9'), "count-out-of-range", 2,
       "not a number of atoms, expected a whole number from 1 to 9999, without a zero in front"},
      {"((H9999)9999)9999", "count-out-of-range", 1, "more than 1000000000 atoms in one formula"},
      {"H2(x)", "unknown-state", 4, "unknown state (x), expected (s), (l), (g) or (aq)"},
      {"CuSO4·", "not-a-formula", 7, "not a formula, expected a formula after the dot, such as 5H2O"},
      {"CuSO4·5", "not-a-formula", 7, "not a formula, expected a formula after the dot, such as 5H2O"},
      {"CaSO4·½H2O", "not-a-formula", 7,
       "a fraction of a water molecule, expected whole numbers: write (CaSO4)2·H2O for half a water to each CaSO4"},
      {"CaSO4·0.5H2O", "not-a-formula", 7,
       "a fraction of a water molecule, expected whole numbers: write (CaSO4)2·H2O for half a water to each CaSO4"},
      {"2H2O", "not-a-formula", 1, "not a formula, expected an element symbol or a bracket"},
      {"H₂O?", "not-a-formula", 4, "not a formula, expected the end of the formula"},
      {"Na Cl", "not-a-formula", 3, "not a formula, expected the end of the formula"},
      {"Na(Cl?)2", "not-a-formula", 6, "not a formula, expected ')'"},
      {"e+", "not-a-formula", 1, "not a charge, expected e^-"},
      {"水", "not-a-formula", 1, "not a formula, expected an element symbol or a bracket"},
      {std::string(400, '(') + "H" + std::string(400, ')'), "nested-too-deep", 51, "brackets nested more than 50 deep"},
      {"Na\xFF"
       "Cl",
       "invalid-utf8", 3, "the text is not UTF-8, expected text saved as UTF-8"},
      {"Na\xE2\x82", "invalid-utf8", 3, "the text is not UTF-8, expected text saved as UTF-8"},
      {std::string("Na\0Cl", 5), "invalid-utf8", 3, "the text is not UTF-8, expected text saved as UTF-8"},
      {std::string(20001, 'H'), "text-too-long", 1, "the text is too long for a formula or an equation"},
  }));
  CAPTURE(c.text);
  auto const read = parse_formula(c.text);
  REQUIRE(!ok(read));
  CHECK(fault(read).id == c.id);
  CHECK(column(c.text, fault(read).offset) == c.column);
  CHECK(sentence(fault(read)) == c.says);
}

TEST_CASE("formula: fifty nested brackets are read, one more is not", "[engine][formula]") {
  auto const nested = [](std::size_t depth) { return std::string(depth, '(') + "H2" + std::string(depth, ')'); };
  CHECK(ok(parse_formula(nested(50))));
  CHECK(!ok(parse_formula(nested(51))));
}

}  // namespace
}  // namespace molewright
