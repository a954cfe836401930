// What students write in a box, as it comes out of spreadsheets, keyboards and telephones. Spellings: SI Brochure 9th ed. for
// units and grouping of digits; the rest is common practice, no source, as each row says.
#include "marker/written.h"

#include <catch2/catch.hpp>
#include <string>
#include <vector>

#include "engine/fault.h"

using namespace molewright;

namespace {

using Kind = Written::Kind;

struct NumberCase {
  std::string cell;
  char const* value;  ///< exact
  int figures;
  char const* unit;  ///< symbol; "" for none
  std::vector<std::string> notes;
  char const* source;
};

struct OtherCase {
  std::string cell;
  Kind kind;
  char letter;
  char const* source;
};

struct BadCase {
  std::string cell;
  char const* why;
};

std::string symbol(Written const& written) { return written.unit ? written.unit->symbol : ""; }

void check_number(NumberCase const& c, DecimalMark mark) {
  CAPTURE(c.cell, c.source);
  auto const got = read_written(c.cell, mark);
  CAPTURE(got.why);
  REQUIRE(got.kind == Kind::number);
  CHECK_FALSE(got.number.text.empty());
  CHECK(got.number.value.text() == c.value);
  CHECK(got.number.figures == c.figures);
  CHECK(symbol(got) == c.unit);
  CHECK(got.notes == c.notes);
}

}  // namespace

TEST_CASE("written: numbers with their units under a point", "[marker][written]") {
  auto const c = GENERATE(values<NumberCase>({
      {"1.72 g", "43/25", 3, "g", {}, "plain"},
      {"1.72g", "43/25", 3, "g", {}, "no blank"},
      {"  1.72 g \r\n", "43/25", 3, "g", {}, "blanks round it"},
      {"\xC2\xA0"
       "1.72\xC2\xA0"
       "g",
       "43/25",
       3,
       "g",
       {},
       "no-break blanks"},
      {"1720 mg", "1720", 4, "mg", {}, "other prefix"},
      {"1.72 × 10^0 g", "43/25", 3, "g", {}, "power of ten"},
      {"1.72 g.", "43/25", 3, "g", {}, "full stop of a sentence"},
      {"1.72 g!", "43/25", 3, "g", {}, "common practice, no source"},
      {"(1.72 g)", "43/25", 3, "g", {}, "brackets round all"},
      {"\"1.72 g\"", "43/25", 3, "g", {}, "quotation marks round all"},
      {"m = 1.72 g", "43/25", 3, "g", {}, "symbol first"},
      {"m(AgCl) = 1.72 g", "43/25", 3, "g", {}, "symbol first"},
      {"m(AgCl) ≈ 1.72 g", "43/25", 3, "g", {}, "rounded"},
      {"n=0.0250mol", "1/40", 3, "mol", {}, "no blanks at all"},
      {"V1 = 25.0 mL", "25", 3, "mL", {}, "numbered symbol"},
      {"c(Cl^-, left) = 0.05 mol/L", "1/20", 1, "mol/L", {}, "a comma in the symbol"},
      {"Answer: 1.72 g", "43/25", 3, "g", {}, "common practice, no source"},
      {"the answer is 1.72 g", "43/25", 3, "g", {}, "common practice, no source"},
      {"1.72 g = m(AgCl)", "43/25", 3, "g", {}, "turned round"},
      {"=1.72", "43/25", 3, "", {}, "typed into a spreadsheet as a formula"},
      {"n = m/M = 1.72/143.32 = 0.0120 mol", "3/250", 3, "mol", {}, "chain: the last value counts"},
      {"1.72 g = 1720 mg", "1720", 4, "mg", {}, "chain that agrees"},
      {"0.0120 mol = 12 mmol", "12", 2, "mmol", {}, "chain that agrees"},
      {"1.7198 g = 1.72 g", "43/25", 3, "g", {}, "chain that rounds"},
      {"1.72 g AgCl", "43/25", 3, "g", {}, "substance behind the unit"},
      {"1.72 g of AgCl(s)", "43/25", 3, "g", {}, "substance behind the unit"},
      {"1.72 g (AgCl)", "43/25", 3, "g", {}, "substance behind the unit"},
      {"1.72 g of silver chloride", "43/25", 3, "g", {}, "substance behind the unit"},
      {"1.72 AgCl", "43/25", 3, "", {}, "unit missing"},
      {"5 g K2SO4", "5", 1, "g", {}, "K2SO4 is no unit"},
      {"0.1 M AgNO3", "1/10", 1, "mol/L", {}, "M for mol/L"},
      {"1.72 g (3 s.f.)", "43/25", 3, "g", {}, "remark on figures"},
      {"1.72 g to 3 sig figs", "43/25", 3, "g", {}, "remark on figures"},
      {"1.72 g, 3 significant figures", "43/25", 3, "g", {}, "remark on figures"},
      {"1.72 ± 0.01 g", "43/25", 3, "g", {"uncertainty-written"}, "VIM: value and uncertainty"},
      {"0.333... mol", "333/1000", 3, "mol", {"digits-run-on"}, "digits that go on"},
      {"≈ 5.0 mL", "5", 2, "mL", {}, "rounded"},
      {"about 5 mL", "5", 1, "mL", {"approximate"}, "common practice, no source"},
      {"approx. 5 mL", "5", 1, "mL", {"approximate"}, "common practice, no source"},
      {"~5 mL", "5", 1, "mL", {"approximate"}, "common practice, no source"},
      {"∴ 5.0 mL", "5", 2, "mL", {}, "therefore"},
      {"12 %", "12", 2, "%", {}, "percentage"},
      {"pH = 3.20", "16/5", 3, "", {}, "a number without unit"},
      {"pH 3.20", "16/5", 3, "", {}, "a number without unit"},
      {"−1.2", "-6/5", 2, "", {}, "true minus sign"},
      {"+1.2", "6/5", 2, "", {}, "sign written"},
      {".5 g", "1/2", 1, "g", {}, "no zero before the point"},
      {"25.", "25", 2, "", {}, "point at the end"},
      {"1 250 mL", "1250", 4, "mL", {}, "SI Brochure 9th ed., 5.4.4: groups of three by a blank"},
      {"1,250.5 mL", "2501/2", 5, "mL", {}, "groups by commas"},
      {"1,234,567", "1234567", 7, "", {}, "groups by commas"},
      {"１．７２ g", "43/25", 3, "g", {}, "full-width digits"},
      {"3.4E-2", "17/500", 2, "", {}, "calculator"},
      {"3.4 e-2", "17/500", 2, "", {}, "calculator"},
      {"3.4x10-2", "17/500", 2, "", {}, "raised exponent fallen down"},
      {"3.4 x 10 -2", "17/500", 2, "", {}, "raised exponent fallen down"},
      {"3.4*10^-2", "17/500", 2, "", {}, "keyboard"},
      {"3.4 × 10⁻² mol", "17/500", 2, "mol", {}, "superscripts"},
      {"3.4 × 10−2", "17/500", 2, "", {}, "true minus sign"},
      {"3.4·10^(-2)", "17/500", 2, "", {}, "point set in the middle, bracket"},
      {"3.4*10**-2", "17/500", 2, "", {}, "keyboard"},
      {"3.4 10^-2", "17/500", 2, "", {}, "sign of multiplication left out"},
      {"10^-3 mol", "1/1000", 1, "mol", {}, "power alone"},
      {"0.1 mol L-1", "1/10", 1, "mol/L", {}, "SI Brochure 9th ed., 5.4.1"},
      {"0.1 mol·L⁻¹", "1/10", 1, "mol/L", {}, "SI Brochure 9th ed., 5.4.1"},
      {"0.1 mol dm^-3", "1/10", 1, "mol/dm3", {}, "SI Brochure 9th ed., 5.4.1"},
      {"0.1moldm-3", "1/10", 1, "mol/dm3", {"unit-spelling"}, "blank lost between units"},
      {"58.5 gmol-1", "117/2", 3, "g/mol", {"unit-spelling"}, "blank lost between units"},
      {"5 ml", "5", 1, "mL", {}, "SI Brochure 9th ed., table 8: l and L"},
      {"5 mls", "5", 1, "mL", {"unit-spelling"}, "common practice, no source"},
      {"5 ML", "5", 1, "mL", {"unit-spelling"}, "capitals; a megalitre makes no sense"},
      {"5 gr", "5", 1, "g", {"unit-spelling"}, "common practice, no source"},
      {"5 grams", "5", 1, "g", {"unit-spelling"}, "words"},
      {"5 mol per litre", "5", 1, "mol/L", {"unit-spelling"}, "words"},
      {"106 mmoles", "106", 3, "mmol", {"unit-spelling"}, "a symbol's prefix before the word"},
      {"106 mmole", "106", 3, "mmol", {"unit-spelling"}, "a symbol's prefix before the word"},
      {"0.1 moles/L", "1/10", 1, "mol/L", {"unit-spelling"}, "words"},
      {"5.2 mmoles/L", "26/5", 2, "mmol/L", {"unit-spelling"}, "half a word over a symbol"},
      {"5.2 mmoles dm-3", "26/5", 2, "mmol/dm3", {"unit-spelling"}, "half a word over a symbol"},
      {"5.2 millimoles per litre", "26/5", 2, "mmol/L", {"unit-spelling"}, "words"},
      {"5.2 µmoles", "26/5", 2, "umol", {"unit-spelling"}, "a symbol's prefix before the word"},
      {"5.2 umoles", "26/5", 2, "umol", {"unit-spelling"}, "a symbol's prefix before the word"},
      {"5.2 kmoles", "26/5", 2, "kmol", {"unit-spelling"}, "a symbol's prefix before the word"},
      {"5.2 Mmoles", "26/5", 2, "mmol", {"unit-spelling"}, "capitals; a megamole makes no sense"},
      {"5.2 MMOLES", "26/5", 2, "mmol", {"unit-spelling"}, "capitals"},
      {"- 55.2 kJ/mol", "-276/5", 3, "kJ/mol", {}, "a blank behind the sign"},
      {"ΔH = − 55.2 kJ/mol", "-276/5", 3, "kJ/mol", {}, "a blank behind the sign"},
      {"exothermic, -55.2 kJ/mol", "-276/5", 3, "kJ/mol", {}, "the word says what the sign says"},
      {"-55.2 kJ/mol (exothermic)", "-276/5", 3, "kJ/mol", {}, "the word says what the sign says"},
      {"endothermic: 3.68 kJ", "92/25", 3, "kJ", {}, "the word says what the sign says"},
      {"12 Mg", "12", 2, "", {"unknown-unit"}, "Mg is magnesium or megagram: asked, not assumed"},
      {"25 C", "25", 2, "", {"unknown-unit"}, "degree sign left out"},
      {"0.1 mol L", "1/10", 1, "", {"unknown-unit"}, "power lost"},
      {"5.0mL/", "5", 2, "", {"unknown-unit"}, "unit cut off"},
      {"1.72 qq", "43/25", 3, "", {"unknown-unit"}, "no such unit"},
      {"1,72 g", "43/25", 3, "g", {"decimal-comma"}, "a comma that can only be decimal"},
      {"0,250 mol/L", "1/4", 3, "mol/L", {"decimal-comma"}, "no group begins with 0"},
      {"1.720,5 g", "3441/2", 5, "g", {"decimal-comma"}, "the last mark is the decimal one"},
      {"1,720x10^-3", "43/25000", 4, "", {"decimal-comma"}, "no groups before a power of ten"},
      {",5 g", "1/2", 1, "g", {"decimal-comma"}, "no zero before the comma"},
      {"36.0  mL ✓", "36", 3, "mL", {"tick-beside-answer"}, "a tick is no part of the answer, and may be the student's own"},
      {"✔ 2.426", "1213/500", 4, "", {"tick-beside-answer"}, "a tick before the answer"},
      {"**6.58** mmol", "329/50", 3, "mmol", {}, "marks of bold print, as messages are typed"},
      {"n = *6.58 mmol*", "329/50", 3, "mmol", {}, "marks of slanted print"},
      {"__6.58 mmol__ ✓", "329/50", 3, "mmol", {"tick-beside-answer"}, "both"},
      {"[0.144 mol/L]", "18/125", 3, "mol/L", {}, "square brackets round all"},
      {"0.144 mol/L (0.1438)", "18/125", 3, "mol/L", {}, "the same before rounding"},
      {"3/800 mol/L", "3/800", 6, "mol/L", {"fraction-written"}, "a fraction is exact"},
      {"c = 18/125 mol/L", "18/125", 6, "mol/L", {"fraction-written"}, "a fraction is exact"},
      {"1/3 mol", "1/3", 6, "mol", {"fraction-written"}, "also one that does not end"},
      {"3.5 L, approx", "7/2", 2, "L", {"approximate"}, "common practice, no source"},
      {"3.5 L (approx.)", "7/2", 2, "L", {"approximate"}, "common practice, no source"},
      {"2.94 (acidic)", "147/50", 3, "", {}, "a remark that leaves the number as it is"},
      {"pH = 2.94, acidic", "147/50", 3, "", {}, "a remark that leaves the number as it is"},
      {"8.2 . 10^-5 mol/L", "41/500000", 2, "mol/L", {}, "a full stop for a sign of multiplication"},
      {"4.05.10^-5 mol/L", "81/2000000", 3, "mol/L", {}, "a full stop for a sign of multiplication"},
      {"4.10⁻⁵", "1/25000", 1, "", {}, "the same behind a whole number"},
      {"0 . 144 mol/L", "18/125", 3, "mol/L", {}, "blanks round the point"},
      {"'-1.2 g", "-6/5", 2, "g", {}, "apostrophe that keeps a spreadsheet from working it out"},
  }));
  check_number(c, DecimalMark::point);
}

TEST_CASE("written: numbers with their units under a comma", "[marker][written]") {
  auto const c = GENERATE(values<NumberCase>({
      {"0,250 mol/L", "1/4", 3, "mol/L", {}, "the course's mark"},
      {"1,720 g", "43/25", 4, "g", {}, "the course's mark, three digits"},
      {"1,72·10^-2 g", "43/2500", 3, "g", {}, "the course's mark, power of ten"},
      {"0.250 mol/L", "1/4", 3, "mol/L", {}, "a calculator's point; no group begins with 0"},
      {"1.72 g", "43/25", 3, "g", {}, "a calculator's point"},
      {"1.720,5 g", "3441/2", 5, "g", {}, "groups by points"},
      {"1.234.567 mg", "1234567", 7, "mg", {}, "groups by points"},
      {"1 250,5 mL", "2501/2", 5, "mL", {}, "groups by blanks"},
      {"V = 12,5 mL", "25/2", 3, "mL", {}, "symbol first"},
  }));
  check_number(c, DecimalMark::comma);
}

TEST_CASE("written: a comma or a point before three digits is read both ways", "[marker][written]") {
  auto const comma = read_written("1,720 g", DecimalMark::point);
  REQUIRE(comma.kind == Kind::number);
  CHECK(comma.number.value.text() == "1720");
  REQUIRE(comma.other_reading);
  CHECK(comma.other_reading->value.text() == "43/25");
  CHECK(comma.other_reading->figures == 4);
  CHECK(comma.notes == std::vector<std::string>{"decimal-comma"});

  auto const point = read_written("1.720 g", DecimalMark::comma);
  REQUIRE(point.kind == Kind::number);
  CHECK(point.number.value.text() == "43/25");
  REQUIRE(point.other_reading);
  CHECK(point.other_reading->value.text() == "1720");
  CHECK(point.notes == std::vector<std::string>{"decimal-point"});

  for (std::string const certain : {"1.720", "1,72", "0,250", "1,234,567", "1,720.5", "1,720e3", "12,50"}) {
    CAPTURE(certain);
    auto const read = read_written(certain, DecimalMark::point);
    CHECK(read.kind == Kind::number);
    CHECK_FALSE(read.other_reading);
  }
}

TEST_CASE("written: entries that are no numbers", "[marker][written]") {
  auto const c = GENERATE(values<OtherCase>({
      {"", Kind::blank, 0, "nothing"},
      {"   ", Kind::blank, 0, "blanks"},
      {"\xC2\xA0\xEF\xBB\xBF", Kind::blank, 0, "blanks of other kinds"},
      {"-", Kind::blank, 0, "a dash for nothing, common practice, no source"},
      {"—", Kind::blank, 0, "a dash for nothing, common practice, no source"},
      {"right", Kind::ticked, 0, "contract of the answers file"},
      {"Right ", Kind::ticked, 0, "contract of the answers file"},
      {"OK", Kind::ticked, 0, "contract of the answers file"},
      {"✓", Kind::ticked, 0, "contract of the answers file"},
      {"✔", Kind::ticked, 0, "contract of the answers file"},
      {"✔\xEF\xB8\x8F", Kind::ticked, 0, "U+FE0F, as telephones send it"},
      {"abs", Kind::absent, 0, "contract of the answers file"},
      {"Absent.", Kind::absent, 0, "contract of the answers file"},
      {"B", Kind::letter, 'B', "letter of the slip key"},
      {"b", Kind::letter, 'B', "letter of the slip key"},
      {"B)", Kind::letter, 'B', "letter of the slip key"},
      {"(B)", Kind::letter, 'B', "letter of the slip key"},
      {"b.", Kind::letter, 'B', "letter of the slip key"},
      {"AgNO3", Kind::words, 0, "formula"},
      {"[Cu(NH3)4]SO4·H2O", Kind::words, 0, "formula"},
      {"2AgNO3", Kind::words, 0, "formula with its coefficient"},
      {"limiting reagent = AgNO3", Kind::words, 0, "formula behind a sign of equality"},
      {"silver nitrate", Kind::words, 0, "name"},
      {"copper(II) sulfate-5-water", Kind::words, 0, "name"},
      {"BaCl2 + 2AgNO3 -> 2AgCl + Ba(NO3)2", Kind::words, 0, "equation"},
      {"2H2 + O2 = 2H2O", Kind::words, 0, "equation"},
      {"I don't know", Kind::words, 0, "words"},
      {"ménisque", Kind::words, 0, "words with an accent"},
      {"nan", Kind::words, 0, "no number, whatever a library may think"},
      {"Infinity", Kind::words, 0, "no number, whatever a library may think"},
  }));
  CAPTURE(c.cell, c.source);
  auto const got = read_written(c.cell, DecimalMark::point);
  CHECK(got.kind == c.kind);
  CHECK(got.letter == c.letter);
  CHECK(got.why.empty());
}

TEST_CASE("written: what cannot be read says why", "[marker][written]") {
  auto const c = GENERATE(values<BadCase>({
      {"?", "no number, formula or word: ?"},
      {"@x", "no number, formula or word: @x"},
      {"✗", "no number, formula or word: ✗"},
      {"½", "no number, formula or word: ½"},
      {"x5y", "no number at the beginning: x5y"},
      {"\"", "a ditto mark, which does not say which answer is meant"},
      {"ditto", "a ditto mark, which does not say which answer is meant"},
      {"〃", "a ditto mark, which does not say which answer is meant"},
      {"#VALUE!", "a spreadsheet's error, not an answer"},
      {"#NAME?", "a spreadsheet's error, not an answer"},
      {"=1+1", "a sum that is not worked out"},
      {"=A1", "a spreadsheet's formula, not an answer"},
      {"=SUM(A1:A3)", "a spreadsheet's formula, not an answer"},
      {"m =", "nothing after the sign of equality"},
      {"1.72 g or 1.73 g", "two answers"},
      {"1.72 g; 0.0120 mol", "two answers"},
      {"1.72 g, 0.0120 mol", "two answers"},
      {"1.72 g\n0.0120 mol", "two answers"},
      {"1.72 g (1720 mg)", "two answers"},
      {"1.72 g = 1730 mg", "two answers"},
      {"25.0 mL = 0.0250 mol", "two answers"},
      {"5 7", "two answers"},
      {"5-6 mL", "a range or a difference, not one number"},
      {"5 to 6 mL", "a range, not one number"},
      {"01-Feb", "a date, or a number with something after its dash"},
      {"12:30", "a ratio or a time, not one number"},
      {"1/2", "a fraction that is not worked out"},
      {"3/8/2024 g", "a fraction that is not worked out"},
      {"0.15/2 mol/L", "a fraction that is not worked out"},
      {"1 3/4 mol", "two answers"},
      {"0.144 mol/L (0.152)", "two answers"},
      {"0.144 mol/L (0.144 g)", "two answers"},
      {"2.94 (crossed out)", "text after the number: (crossed out)"},
      {"3 . 4", "two answers"},
      {"3*4*5", "a sum that is not worked out"},
      {"36.0 mL ✗", "text after the unit: ✗"},
      {"1½ mol", "a fraction that is not worked out"},
      {"3 x 4", "a sum that is not worked out"},
      {"3.4x103", "a sum that is not worked out"},
      {"5²", "a sum that is not worked out"},
      {"< 5 mL", "a limit, not a value"},
      {"≥5 mL", "a limit, not a value"},
      {"1.2.3", "the commas and points do not fit a number"},
      {"1,72,3", "the commas and points do not fit a number"},
      {"5'000", "text after the number: '000"},
      {"1O.5 g", "text after the number: O.5 g"},
      {"2.5O g", "text after the number: O g"},
      {"1.72 g banana", "text after the unit: banana"},
      {std::string("1.7\0"
                   "2",
                   5),
       "a NUL byte, which is no text"},
      {"1.72\x01", "a control character, which is no text"},
      {"1.72 \xC3", "bytes that are not UTF-8 text"},
      {"\xFF\xFE", "bytes that are not UTF-8 text"},
      {std::string(1 << 20, '7'), "longer than an answer can be"},
  }));
  CAPTURE(c.cell.substr(0, 100));
  auto const got = read_written(c.cell, DecimalMark::point);
  CHECK(got.kind == Kind::unreadable);
  CHECK(got.why == c.why);
  CHECK(first_invalid_utf8(got.raw) == std::string::npos);
}

TEST_CASE("written: lines of working before the answer are working", "[marker][written]") {
  struct Case {
    char const *cell, *answer, *working;
  };
  auto const c = GENERATE(values<Case>({
      {"n = 8.63 / 287.5 = 0.0300; 0.0300 moles", "0.0300 moles", "n = 8.63 / 287.5 = 0.0300"},
      {"n = 8.63 g / 287.5 g/mol = 0.0300 mol\n0.0300 mol", "0.0300 mol", "n = 8.63 g / 287.5 g/mol = 0.0300 mol"},
      {"7.95/16.8 x 100; 47.3%", "47.3%", "7.95/16.8 x 100"},
      {"38.3 - 7.40 = 30.9; 30.9 mmol", "30.9 mmol", "38.3 - 7.40 = 30.9"},
      {"n = 0.223 × 5 = 1.12 mmol; m = 62.3 mg", "62.3 mg", "n = 0.223 × 5 = 1.12 mmol"},
      {"M = 287.5 g/mol; n = 8.63/287.5; c = 0.150 mol/L", "0.150 mol/L", "M = 287.5 g/mol; n = 8.63/287.5"},
      {"n(CaCO3) = 1.15/100.1 = 0.0115; CaCO₃", "CaCO₃", "n(CaCO3) = 1.15/100.1 = 0.0115"},
      {"n(H2O) = 1.62/18.0 = 0.0899\nNa2SO4.10H2O", "Na2SO4.10H2O", "n(H2O) = 1.62/18.0 = 0.0899"},
  }));
  CAPTURE(c.cell);
  auto const got = read_written(c.cell, DecimalMark::point);
  CAPTURE(got.why);
  CHECK((got.kind == Kind::number || got.kind == Kind::words));
  CHECK(got.said() == c.answer);
  CHECK(got.working == c.working);
}

TEST_CASE("written: what is not plainly working stays two answers", "[marker][written]") {
  auto const cell = GENERATE(values<char const*>({
      "0.030 mol; 0.040 mol", "0.1 or 0.2", "55.2 kJ/mol, exothermic", "exothermic, endothermic, -5 kJ",
      "n = 0.030 mol; 0.040 mol",                               // nothing is worked out
      "n(A) = 0.030 mol; n(B) = 0.040 mol",                     //
      "n = 0.5 × 0.10 = 0.050 mol; n = 0.5 × 0.20 = 0.10 mol",  // one name, two values
      "5 g/100 mL; 6 g/100 mL",                                 // a unit's slash is no sum
      "3.4x10-2 mol; 3.5x10-2 mol",                             // nor is a power of ten
      "(a) n = 0.5 × 0.1 = 0.05 mol; (b) 0.2 mol/L",            // the answers to two parts
      "a) 8.63/287.5 = 0.0300 mol\nb) 0.150 mol/L",             //
      "0.0300 mol; n = 8.63/287.5 = 0.0301; or 0.0310 mol",     // the answer stands first
  }));
  CAPTURE(cell);
  auto const got = read_written(cell, DecimalMark::point);
  CHECK(got.kind == Kind::unreadable);
  CHECK(got.working.empty());
}

TEST_CASE("written: the answer itself is what is said back", "[marker][written]") {
  struct Case {
    char const *cell, *answer;
  };
  auto const c = GENERATE(values<Case>({{"about 88.0 mM", "88.0 mM"},
                                        {"= 2.46%", "2.46%"},
                                        {"m(AgCl) = 1.72 g (3 s.f.)", "1.72 g"},
                                        {"1.72 g", "1.72 g"},
                                        {"- 55.2 kJ", "-55.2 kJ"},
                                        {"FeSO4", "FeSO4"}}));
  CAPTURE(c.cell);
  auto const got = read_written(c.cell, DecimalMark::point);
  CHECK(got.said() == c.answer);
  CHECK(got.raw == c.cell);
}

TEST_CASE("written: two answers are noted for whoever reads the notes", "[marker][written]") {
  for (std::string const cell : {"1.72 g or 1.73 g", "1.72 g = 1730 mg", "1.72 g (5 mol)", "5 7"}) {
    CAPTURE(cell);
    CHECK(read_written(cell, DecimalMark::point).notes == std::vector<std::string>{"two-answers"});
  }
}

TEST_CASE("written: what stood after the number is kept as written", "[marker][written]") {
  auto const text = [](std::string const& cell) { return read_written(cell, DecimalMark::point).unit_text; };
  CHECK(text("5 mls") == "mls");
  CHECK(text("5 ML of HCl") == "ML");
  CHECK(text("0.1 mol dm⁻³ HCl.") == "mol dm⁻³");
  CHECK(text("1.72 qq") == "qq");
  CHECK(text("1.72") == "");
}

TEST_CASE("written: the cell is kept trimmed, as text that can be printed", "[marker][written]") {
  CHECK(read_written("  1,72 g ", DecimalMark::point).raw == "1,72 g");
  CHECK(read_written("caf\xE9 5", DecimalMark::point).raw == "caf\uFFFD 5");
  CHECK(read_written(std::string("a\0b", 3), DecimalMark::point).raw == "a\uFFFDb");
  std::string accents;
  for (int i = 0; i < 300; ++i) accents += "é";
  auto const raw = read_written(accents, DecimalMark::point).raw;
  CHECK(raw.size() == 2 * 200 + std::string("…").size());
  CHECK(raw.substr(0, 400) == accents.substr(0, 400));
}

TEST_CASE("written: the digits stay as the student wrote them", "[marker][written]") {
  auto const got = read_written("n = 3.40 x 10-2 mol", DecimalMark::point);
  CHECK(got.number.text == "3.40 x 10-2");
  CHECK(got.number.last_place == -4);
  CHECK(read_written("1200 g", DecimalMark::point).number.ambiguous());
  CHECK_FALSE(read_written("1200. g", DecimalMark::point).number.ambiguous());
}
