// mass and balance as they stand in the contract.
#include "tests/app/program.h"

using namespace molewright;

TEST_CASE("mass: JSON of the contract, key by key", "[app][mass]") {
  Workplace place;
  auto const said = place.run({"mass", "CuSO4.5H2O", "--json"});
  CHECK(said.status == 0);
  CHECK(said.err.empty());
  REQUIRE(lines_of(said.out).size() == 1);
  auto const json = Json::parse(said.out);
  CHECK(keys_of(json) == std::vector<std::string>{"formula", "molar_mass", "unit", "parts"});
  CHECK(json["formula"] == "CuSO4·5H2O");
  CHECK(json["molar_mass"] == "249.677");  // the contract's example
  CHECK(json["unit"] == "g/mol");
  CHECK(keys_of(json["parts"][0]) == std::vector<std::string>{"element", "count", "atomic_weight", "mass"});
  CHECK(json["parts"][0] == Json({{"element", "Cu"}, {"count", 1}, {"atomic_weight", "63.546"}, {"mass", "63.546"}}));
  REQUIRE(json["parts"].size() == 4);
  CHECK(json["parts"][2]["count"] == 9);   // O: 4 + 5, counted by hand
  CHECK(json["parts"][3]["count"] == 10);  // H
}

TEST_CASE("mass: brackets reach the program, and an item at fault leaves the others", "[app][mass]") {
  Workplace place;
  auto const said = place.run({"mass", "[Cu(NH3)4]^2+", "Xy2", "[Fe(CN)6]^4-"});
  CHECK(said.status == 1);
  CHECK(said.err == "argument 2:1:1: unknown element symbol Xy, expected an element symbol\n  Xy2\n  ^\n");
  auto const out = lines_of(said.out);
  REQUIRE(out.size() == 8);
  // Sums by hand from the abridged weights: 63.546 + 4 × 14.007 + 12 × 1.0080; 55.845 + 6 × 12.011 + 6 × 14.007.
  CHECK(out[0] == "[Cu(NH₃)₄]²⁺  131.67 g/mol");
  CHECK(out[4] == "[Fe(CN)₆]⁴⁻  211.953 g/mol");
}

TEST_CASE("mass: standard input is answered a line each, in its order", "[app][mass]") {
  Workplace place;
  std::string const input = "\xEF\xBB\xBFH2O\r\n\nXy\n[Cu(NH3)4]SO4\nNaCl";
  auto const text = place.run({"mass", "-"}, input);
  CHECK(text.status == 1);
  CHECK(text.out ==
        "H₂O  18.015 g/mol\n"
        "error: there is no formula here, expected a formula, such as NaCl or SO4^2-\n"
        "error: unknown element symbol Xy, expected an element symbol\n"
        "[Cu(NH₃)₄]SO₄  227.726 g/mol\n"
        "NaCl  58.44 g/mol\n");
  CHECK(lines_of(text.err).front() == "-:2:1: there is no formula here, expected a formula, such as NaCl or SO4^2-");
  CHECK(text.err.find("-:3:1: unknown element symbol Xy") != std::string::npos);

  auto const json = place.run({"mass", "--json", "-"}, input);
  CHECK(json.status == 1);
  auto const out = lines_of(json.out);
  REQUIRE(out.size() == 5);
  CHECK(Json::parse(out[0])["molar_mass"] == "18.015");
  CHECK(Json::parse(out[1])["error"] == "empty-formula");
  auto const fault = Json::parse(out[2]);
  CHECK(keys_of(fault) == std::vector<std::string>{"error", "message", "column", "input"});
  CHECK(fault["error"] == "unknown-element");
  CHECK(fault["column"] == 1);
  CHECK(fault["input"] == "Xy");
  CHECK(Json::parse(out[4])["formula"] == "NaCl");
}

TEST_CASE("mass: the course's table of atomic weights", "[app][mass]") {
  Workplace place;
  place.write("course.toml", "atomic_weights = \"whole\"\n");
  auto const whole = place.run({"mass", "--json", "CaCO3", "--course", "course.toml"});
  CHECK(Json::parse(whole.out)["molar_mass"] == "100");  // 40 + 12 + 3 × 16
  place.write("school/own.tsv", "# as in the school's data book\nCl\t35.5  # half\nNa 23.0\n");
  place.write("school/course.toml", "atomic_weights = \"own.tsv\"\n");  // beside the course file
  auto const own = place.run({"mass", "--json", "NaCl", "--course", "school/course.toml"});
  CHECK(own.status == 0);
  CHECK(Json::parse(own.out)["molar_mass"] == "58.5");
}

TEST_CASE("mass and balance: names do as well as formulas, and a misspelt one is told", "[app][mass][balance]") {
  Workplace place;
  auto const mass = place.run({"mass", "--json", "sodium chloride", "KHP", "Sodium chloride", "soduim chloride"});
  CHECK(mass.status == 1);
  auto const out = lines_of(mass.out);
  REQUIRE(out.size() == 4);
  CHECK(Json::parse(out[0])["formula"] == "NaCl");
  CHECK(Json::parse(out[0])["molar_mass"] == "58.44");
  CHECK(Json::parse(out[1])["formula"] == "KHC8H4O4");
  CHECK(Json::parse(out[2])["formula"] == "NaCl");
  CHECK(Json::parse(out[3])["error"] == "unknown-name");
  CHECK(lines_of(mass.err).front() ==
        "argument 4:1:1: \"soduim chloride\" is no name that is known here, expected sodium chloride, sodium chlorate or barium "
        "chloride");
  auto const balance = place.run({"balance", "magnesium + hydrochloric acid -> magnesium chloride + hydrogen",
                                  "KHP + NaOH -> KNaC8H4O4 + H2O", "magnesum + oxygen -> magnesium oxide"});
  CHECK(balance.status == 1);
  CHECK(balance.out == "Mg + 2HCl → MgCl₂ + H₂\nKHC₈H₄O₄ + NaOH → KNaC₈H₄O₄ + H₂O\n");
  CHECK(lines_of(balance.err).front() ==
        "argument 3:1:1: \"magnesum\" is no name that is known here, expected magnesium, magnesia or magnesite");
}

TEST_CASE("mass: bad formulas, the exact text", "[app][mass][bad-input]") {
  struct Case {
    std::string formula, first_line;
  };
  std::string const deep = std::string(400, '(') + "H" + std::string(400, ')');
  auto const c = GENERATE_COPY(values<Case>({
      {"Xy", "unknown element symbol Xy, expected an element symbol"},
      {"Ca(OH", "1:6: bracket not closed, expected ')'"},
      {"Ca(OH)2)", "1:8: a closing bracket too many, expected an opening bracket before it"},
      {deep, "1:51: brackets nested more than 50 deep"},
      {"H" + std::string(300, '9'),
       "1:2: not a number of atoms, expected a whole number from 1 to 9999, without a zero in front"},
      {"H\xFF\x32O", "1:2: the text is not UTF-8, expected text saved as UTF-8"},
      {"", "1:1: there is no formula here, expected a formula, such as NaCl or SO4^2-"},
  }));
  CAPTURE(c.formula);
  Workplace place;
  auto const said = place.run({"mass", c.formula});
  CHECK(said.status == 1);
  CHECK(said.out.empty());
  auto const first = lines_of(said.err).at(0);
  CHECK(first.rfind("argument 1:1:", 0) == 0);
  CHECK(first.substr(first.size() - c.first_line.size()) == c.first_line);
  auto const json = place.run({"mass", "--json", c.formula});
  CHECK(json.status == 1);
  CHECK(Json::parse(json.out)["error"].is_string());  // UTF-8 even where the input was not
}

TEST_CASE("balance: JSON of the contract", "[app][balance]") {
  Workplace place;
  auto const said = place.run({"balance", "--json", "Fe + O2 -> Fe2O3", "H2 -> O2", "KClO3 + HCl -> KCl + Cl2 + ClO2 + H2O",
                               "Fe + -> x", "[Fe(CN)6]^4- -> [Fe(CN)6]^3- + e^-"});
  CHECK(said.status == 1);
  auto const out = lines_of(said.out);
  REQUIRE(out.size() == 5);
  CHECK(out[0] == R"({"equation":"4Fe + 3O2 -> 2Fe2O3","coefficients":[4,3,2]})");  // the contract's example
  auto const none = Json::parse(out[1]);
  CHECK(keys_of(none) == std::vector<std::string>{"error", "message", "column", "input"});
  CHECK(none["error"] == "no-solution");
  CHECK(none["message"] == "this equation cannot be balanced: H and O stand on one side only");
  auto const many = Json::parse(out[2]);
  CHECK(keys_of(many) == std::vector<std::string>{"error", "message", "column", "independent", "input"});
  CHECK(many["error"] == "not-unique");
  // Two positive solutions, checked by hand: 7 KClO3 + 18 HCl: Cl 25 = 7 + 12 + 6, O 21 = 12 + 9, H 18 = 18.
  CHECK(many["independent"] == Json::parse("[[7,18,7,6,6,9],[11,18,11,3,12,9]]"));
  auto const syntax = Json::parse(out[3]);
  CHECK(syntax["error"] == "syntax");
  CHECK(syntax["column"] == 6);
  CHECK(Json::parse(out[4])["coefficients"] == Json::parse("[1,1,1]"));
}

TEST_CASE("balance: what looks like an option and is none, and lists a line each", "[app][balance]") {
  Workplace place;
  auto const arrow = place.run({"balance", "->x", "Fe + O2 -> Fe2O3"});
  CHECK(arrow.status == 1);
  CHECK(arrow.out == "4Fe + 3O₂ → 2Fe₂O₃\n");
  CHECK(arrow.err == "argument 1:1:1: there are no reactants, expected a formula before the arrow\n  ->x\n  ^\n");

  auto const list = place.run({"balance", "-"}, "H2 + O2 -> H2O\n\nKClO3 + HCl -> KCl + Cl2 + ClO2 + H2O\nNa + Cl2 = NaCl\n");
  CHECK(list.status == 1);
  CHECK(list.out ==
        "2H₂ + O₂ → 2H₂O\n"
        "error: there is no arrow, expected -> between the reactants and the products\n"
        "error: this equation has no single balance: 2 independent reactions\n"
        "2Na + Cl₂ → 2NaCl\n");
}

TEST_CASE("balance: bad equations, the exact text", "[app][balance][bad-input]") {
  struct Case {
    std::string equation, said;
  };
  auto const c = GENERATE(values<Case>({
      {"H2 -> O2", "argument 1:1:1: this equation cannot be balanced: H and O stand on one side only\n  H2 -> O2\n  ^\n"},
      {"H2O", "argument 1:1:4: there is no arrow, expected -> between the reactants and the products\n  H2O\n     ^\n"},
      {"H2 + + O2 -> H2O",
       "argument 1:1:6: a formula is missing, expected a formula on each side of +\n  H2 + + O2 -> H2O\n       ^\n"},
      {"Xy -> Xy2", "argument 1:1:1: unknown element symbol Xy, expected an element symbol\n  Xy -> Xy2\n  ^\n"},
      {"Ca(OH -> Ca", "argument 1:1:6: bracket not closed, expected ')'\n  Ca(OH -> Ca\n       ^\n"},
  }));
  CAPTURE(c.equation);
  Workplace place;
  auto const said = place.run({"balance", c.equation});
  CHECK(said.status == 1);
  CHECK(said.out.empty());
  CHECK(said.err == c.said);
}
