// Names that are misspelt in a problem, and words that are no names and need not be.
#include "engine/misspelt.h"

#include "tests/engine/problem_text.h"

using namespace molewright;

TEST_CASE("misspelt: a name that is not known is named with its place and the nearest", "[engine][misspelt][bad-input]") {
  struct Row {
    char const *problem, *shown;  ///< the id, then the first line
  };
  Row const table[] = {
      {"given m(SODIUM CLORIDE) = 5.00 g; find n(NaCl)",
       "unknown-name\np:1:9: \"SODIUM CLORIDE\" is no name that is known here, expected sodium chloride, sodium fluoride or "
       "sodium "
       "chlorite"},
      {"given m(soduim chloride) = 5.0 g\nfind n(NaCl)",
       "unknown-name\np:1:7: \"soduim chloride\" is no name that is known here, expected sodium chloride, sodium chlorate or "
       "barium chloride"},
      {"given m(soduim chloride) = 5.0 g\nfind n(soduim chloride)",
       "unknown-name\np:1:7: \"soduim chloride\" is no name that is known here, expected sodium chloride, sodium chlorate or "
       "barium chloride"},
      {"given m(NaCl) = 5.0 g\nfind n(soduim chloride)",
       "unknown-name\np:2:6: \"soduim chloride\" is no name that is known here, expected sodium chloride, sodium chlorate or "
       "barium chloride"},
      {"given m(Soduim chloride) = 5.0 g\nfind n(NaCl)",
       "unknown-name\np:1:9: \"Soduim chloride\" is no name that is known here, expected sodium chloride, sodium chlorate or "
       "barium chloride"},
      {"given m(iron(III) sulfte) = 5.0 g\nfind n(Fe2(SO4)3)",
       "unknown-name\np:1:9: \"iron(III) sulfte\" is no name that is known here, expected iron(III) sulfite, iron(III) sulfate "
       "or "
       "iron(II) sulfate"},
      {"reaction Mg + HCl -> MgCl2 + H2\ngiven m(magnesum) = 2.0 g\nfind m(MgCl2)",
       "unknown-name\np:2:7: \"magnesum\" is no name that is known here, expected magnesium, magnesia or magnesite"},
      {"reaction magnesum + hydrochloric acid -> magnesium chloride + hydrogen\ngiven m(Mg) = 2.0 g\nfind m(MgCl2)",
       "unknown-name\np:1:10: \"magnesum\" is no name that is known here, expected magnesium, magnesia or magnesite"},
      {"reaction magnesium + 2 hydrochlric acid -> magnesium chloride + hydrogen\ngiven m(Mg) = 2.0 g\nfind m(MgCl2)",
       "unknown-name\np:1:24: \"hydrochlric acid\" is no name that is known here, expected hydrochloric acid, hydrocyanic acid "
       "or "
       "hydrosulfuric acid"},
      {"reaction Mg + HCl -> MgCl2 + H2\ngiven m(Mg) = 2.0 g\nexcess hydrochlric acid\nfind m(MgCl2)",
       "unknown-name\np:3:8: \"hydrochlric acid\" is no name that is known here, expected hydrochloric acid, hydrocyanic acid or "
       "hydrosulfuric acid"},
      {"find name of sodum chloride",
       "unknown-name\np:1:14: \"sodum chloride\" is no name that is known here, expected sodium chloride, sodium chlorate or "
       "barium chloride"},
      {"given m(copper oxide) = 5.0 g\nfind n(CuO)",
       "ambiguous-name\np:1:7: \"copper oxide\" fits more than one substance: Cu2O (copper(I) oxide) and CuO (copper(II) oxide), "
       "expected copper(I) oxide or copper(II) oxide"},
      // Formulas with a mistake are still called formulas.
      {"given m(Xy2) = 5.0 g\nfind n(NaCl)", "unknown-element\np:1:9: unknown element symbol Xy, expected an element symbol"},
  };
  for (auto const& row : table) {
    CAPTURE(row.problem);
    auto const shown = test::refused(row.problem);
    CHECK(shown.substr(0, shown.find('\n', shown.find('\n') + 1)) == row.shown);
  }
}

TEST_CASE("misspelt: the name of a substance that samples go by is said to be taken for a sample", "[engine][misspelt]") {
  CHECK(test::refused("given m(limestone) = 5.0 g\nfind n(CaCO3)") ==
        "missing-data\np:2:6: there is too little to find n(CaCO3) from (limestone is what a sample is called, and is not taken "
        "for "
        "CaCO3), expected m(CaCO3)\n  find n(CaCO3)\n       ^");
}

TEST_CASE("misspelt: what a sample is called is no misspelt name", "[engine][misspelt]") {
  // Each is too little to work; what is missing is not a name.
  for (char const* word : {"tank", "ore", "sample", "flask", "stock", "coin", "feed", "tablet", "metal carbonate", "weak acid",
                           "hydrate", "rock", "residue", "unknown chloride", "lawn feed", "steel", "oil"}) {
    auto const problem = "given m(" + std::string(word) + ") = 5.0 g\ngiven V(NaCl) = 250 mL\nfind c(NaCl)";
    CAPTURE(problem);
    CHECK(test::refused(problem).substr(0, 12) == "missing-data");
  }
  // And these are worked as ever.
  for (char const* problem : {
           "given V(tank) = 2.0 L\ngiven c(NaCl) = 0.10 mol/L\nfind n(NaCl)",
           "given m(ore) = 5.0 g\ngiven w(Fe in ore) = 20 %\nfind m(Fe)",
           "given m(Sodium chloride) = 5.0 g\nfind n(NaCl)",
           "given m(SODIUM CHLORIDE) = 5.0 g\nfind n(NaCl)",
           "given m(BORAX) = 5.0 g\nfind n(Na2B4O7·10H2O)",
       }) {
    CAPTURE(problem);
    CHECK(test::refused(problem).empty());
  }
}
